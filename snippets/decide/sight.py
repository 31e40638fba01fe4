"""What is in sight from the DA of the example, by visibility, and where on the path the threshold appears."""

from fractions import Fraction

from lpv.decide.visibility import visibility_ft
from lpv.decide.visual import (
    eye_height_ft,
    lights_in_sight,
    threshold_distance_ft,
    visibility_for_threshold_ft,
)
from lpv.facts import value
from lpv_site.department.data import example, example_aircraft
from lpv_site.text.table import table
from lpv_site.text.text import number, quantity

chart, cockpit = example().chart, example_aircraft().cockpit
lights_ft = chart.lights.length_ft if chart.lights else 0.0
da_height_ft = chart.minima[0].altitude_ft - chart.threshold_elevation_ft
zone_ft = chart.touchdown_zone_ft
lights_only_ft = zone_ft + value("als_only_lowest_above_tdze_ft")
VISIBILITIES_SM = (0.25, 0.375, 0.5, 0.625, 0.75, 1.0)


def place(height_ft):
    """Distance to the threshold, height of the eyes and down-view angle, at a height on the path."""
    eyes_ft = eye_height_ft(height_ft, cockpit.eye_above_wheels_ft - cockpit.antenna_above_wheels_ft)
    return threshold_distance_ft(height_ft, chart.tch_ft, chart.glidepath_deg), eyes_ft, cockpit.cutoff_deg


def seen_from_ft(visible_ft):
    """Highest whole foot of altitude, from the DA down, at which the threshold is in sight."""
    steps = range(int(da_height_ft - chart.tch_ft))
    heights = (da_height_ft - step for step in steps)
    found = (h for h in heights if lights_in_sight(*place(h), visible_ft, lights_ft).threshold)
    return chart.threshold_elevation_ft + next(found)


rows = []
for visible_sm in VISIBILITIES_SM:
    sight = lights_in_sight(*place(da_height_ft), visibility_ft(visible_sm), lights_ft)
    seen = "at the DA" if sight.threshold else f"at {number(seen_from_ft(visibility_ft(visible_sm)))}"
    rows.append((Fraction(visible_sm), number(sight.length_ft), seen))
print(table(["visibility, SM", "lights seen at the DA, ft", "threshold seen, altimeter"], rows))

values = {
    "lights_only": quantity(lights_only_ft, "ft"),
    "need_at_da": quantity(visibility_for_threshold_ft(*place(da_height_ft)), "ft"),
    "need_at_limit": quantity(visibility_for_threshold_ft(*place(lights_only_ft - chart.threshold_elevation_ft)), "ft"),
}
