"""Level at the DA instead of deciding: how fast the path falls away below, and what it takes to rejoin."""

import math

from lpv.core.units import FT_PER_NM
from lpv.decide.visual import threshold_distance_ft
from lpv.motion.kinematics import descent_rate_fpm, distance_flown_ft, height_for_distance_ft
from lpv.path.scale import lpv_full_scale_ft, origin_distance_nm
from lpv_site.department.data import example, example_aircraft
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.text import number, quantity

chart, jet = example().chart, example_aircraft()
speed_kt = jet.target_speeds_kt(jet.landing.max_weight_lb)[-1]
SECONDS, LEVEL_S = range(9), 5
height_ft = chart.minima[0].altitude_ft - chart.threshold_elevation_ft
path = (chart.tch_ft, chart.glidepath_deg)
decision_ft = threshold_distance_ft(height_ft, *path)
to_origin_ft = origin_distance_nm(decision_ft / FT_PER_NM, *path) * FT_PER_NM


def above_path_ft(time_s):
    return height_for_distance_ft(distance_flown_ft(speed_kt, time_s), chart.glidepath_deg)


def full_scale_ft(time_s):
    return lpv_full_scale_ft((to_origin_ft - distance_flown_ft(speed_kt, time_s)) / FT_PER_NM, chart.glidepath_deg)


def angle_deg(time_s):
    """From there down to the point where the path meets the level of the threshold."""
    return math.degrees(math.atan2(height_ft, to_origin_ft - distance_flown_ft(speed_kt, time_s)))


off_scale_s = next(tenth / 10 for tenth in range(100) if above_path_ft(tenth / 10) >= full_scale_ft(tenth / 10))


def draw(axes):
    def note(text, time_s, height, offset, role):
        axes.annotate(text, (time_s, height), offset, textcoords="offset points", ha="right", color=COLOURS[role])

    axes.plot(SECONDS, [above_path_ft(s) for s in SECONDS], color=COLOURS["first"])
    axes.plot(SECONDS, [full_scale_ft(s) for s in SECONDS], "--", color=COLOURS["second"])
    axes.plot(off_scale_s, above_path_ft(off_scale_s), "o", color=COLOURS["answer"])
    note("full scale (from memory)", 8, full_scale_ft(8), (0, -12), "second")
    note("aircraft", 7, above_path_ft(7), (-6, 4), "first")
    note(f"{off_scale_s:.1f} s", off_scale_s, above_path_ft(off_scale_s), (-6, 6), "answer")
    axes.set(xlabel="level at the DA for, s", ylabel="above the path, ft", xlim=(0, 8), ylim=(0, None))


rows = [(f"{s} s", f"{above_path_ft(s):.0f} ft", f"{angle_deg(s):.1f}°") for s in SECONDS[::2]]
values = {
    "off_scale": quantity(off_scale_s, "s") + " (scale from memory)", "level_for": quantity(LEVEL_S, "s"),
    "angle": f"{number(angle_deg(LEVEL_S), 1)}°",
    "rate": quantity(descent_rate_fpm(speed_kt, angle_deg(LEVEL_S)), "ft/min")}
print(figure("level-off-figure", draw, rows=rows, headers=["level for", "above the path", "angle to rejoin"],
             finding=f"Level at the DA at {speed_kt:.0f} kt, the path is full scale (from memory) below after "
             f"{off_scale_s:.1f} s; after {LEVEL_S} s the runway's aiming point takes {values['angle']}."))
