"""Full scale of the course from the DA of the example into the missed approach, and what it makes of one offset."""

from lpv.core.units import FT_PER_NM, M_PER_FT, degrees_180
from lpv.decide.visual import threshold_distance_ft
from lpv.fas import segment
from lpv.geodesy import earth
from lpv.path.deviation import (
    final_full_scale_ft,
    missed_after_turn_full_scale_ft,
    missed_first_leg_full_scale_ft,
)
from lpv_site.department.data import example
from lpv_site.text.table import table
from lpv_site.text.text import number, quantity

approach = example()
chart, final = approach.chart, approach.segment
height_ft = chart.minima[0].altitude_ft - chart.threshold_elevation_ft
distance_nm = threshold_distance_ft(height_ft, chart.tch_ft, chart.glidepath_deg) / FT_PER_NM
half_width_ft = final.course_width_m / M_PER_FT
at_da_ft = final_full_scale_ft(distance_nm, half_width_ft, segment.garp_distance_ft(final))
ahead = [fix for fix in chart.fixes if fix.serves("missed", "missed hold")]
scales = [("at the DA, on final", at_da_ft)]
if ahead:
    leg = earth.inverse(final.ltp_latitude_deg, final.ltp_longitude_deg, ahead[0].latitude_deg, ahead[0].longitude_deg)
    turn_deg = degrees_180(leg.course_deg - approach.true_course_deg)
    scales.append((f"first leg, {number(abs(turn_deg))}° off the final", missed_first_leg_full_scale_ft(turn_deg)))
scales.append(("after the first turn", missed_after_turn_full_scale_ft()))
rows = [
    (where, number(full_ft), number(full_ft / FT_PER_NM, 2), f"{number(at_da_ft / 2 / full_ft * 100)}%")
    for where, full_ft in scales
]
print(table(["where", "full scale, ft", "NM", "same offset"], rows))

values = {
    "offset": quantity(at_da_ft / 2, "ft"),
    "at_da": quantity(at_da_ft, "ft"),
}
