"""Side view from the DA of the example with the printed visibility: nose, lights in sight, threshold."""

from lpv.core.units import FT_PER_SM, M_PER_FT
from lpv.decide import visual
from lpv_site.briefing.numbers import printed_visibility
from lpv_site.department.data import example, example_aircraft
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.text import quantity

chart, cockpit = example().chart, example_aircraft().cockpit
line, lights_ft = chart.minima[0], chart.lights.length_ft if chart.lights else 0.0
IN_FT = {"rvr_ft": 1.0, "visibility_sm": FT_PER_SM, "visibility_m": 1 / M_PER_FT, "rvr_m": 1 / M_PER_FT}
visible_ft = next(getattr(line, key) * feet for key, feet in IN_FT.items() if getattr(line, key))
antenna_ft = line.altitude_ft - chart.threshold_elevation_ft
eye_ft = visual.eye_height_ft(antenna_ft, cockpit.eye_above_wheels_ft - cockpit.antenna_above_wheels_ft)
distance_ft = visual.threshold_distance_ft(antenna_ft, chart.tch_ft, chart.glidepath_deg)
nose_ft, reach_ft = visual.hidden_ahead_ft(eye_ft, cockpit.cutoff_deg), visual.reach_ahead_ft(eye_ft, visible_ft)
sight = visual.lights_in_sight(distance_ft, eye_ft, cockpit.cutoff_deg, visible_ft, lights_ft)
near, far = distance_ft - nose_ft, distance_ft - reach_ft
TIMES_HIGHER, PAST_FT = 4, 300


def draw(axes):
    def note(text, x, y, offset, colour, **more):
        more |= {"xytext": offset, "textcoords": "offset points", "fontsize": 8, "color": COLOURS[colour]}
        axes.annotate(text, (x, y), **more)

    axes.set_aspect(TIMES_HIGHER)
    axes.fill((distance_ft, near, far), (eye_ft, 0, 0), color=COLOURS["shade"])
    axes.plot([distance_ft, 0], [eye_ft, chart.tch_ft + eye_ft - antenna_ft], "--", color=COLOURS["muted"])
    axes.plot([distance_ft, near], [eye_ft, 0], color=COLOURS["second"], linewidth=1.2)
    axes.plot([distance_ft, far], [eye_ft, 0], color=COLOURS["first"], linewidth=1.2)
    axes.plot([lights_ft, 0], [0, 0], color=COLOURS["ink"], linewidth=1.5)
    axes.plot([sight.outer_ft or 0, sight.inner_ft or 0], [0, 0], color=COLOURS["answer"], linewidth=5)
    axes.plot([0, -PAST_FT], [0, 0], color=COLOURS["ink"], linewidth=5, solid_capstyle="butt")
    axes.plot(distance_ft, eye_ft, "o", color=COLOURS["ink"])
    note(f"eyes, {eye_ft:.0f} ft", distance_ft, eye_ft, (6, 4), "ink")
    note(f"{cockpit.cutoff_deg:.0f}° down:\nthe nose hides\nthis side", distance_ft, 0, (2, -4), "second", va="top")
    note("visibility", far, 0, (0, 8), "first", ha="center")
    note("path", distance_ft / 2, eye_ft * 0.63, (4, 4), "muted")
    note(f"lights in sight:\n{sight.length_ft:.0f} ft", (near + far) / 2, 0, (0, -6), "answer", ha="center", va="top")
    note("threshold", -PAST_FT, 0, (0, -6), "ink", ha="right", va="top")
    axes.set(xlabel="before the threshold, ft", ylabel="height, ft", yticks=(0, 100, 200))
    axes.set(xlim=(distance_ft + 100, -PAST_FT), ylim=(-170, 270))


state = "in sight" if sight.threshold else "not in sight"
rows = [("to the threshold", f"{distance_ft:.0f} ft"), ("hidden by the nose", f"{nose_ft:.0f} ft ahead"),
        ("visibility reaches", f"{reach_ft:.0f} ft ahead"), ("threshold", state),
        ("lights in sight", f"{sight.length_ft:.0f} of {lights_ft:.0f} ft")]
print(figure("view-figure", draw, height_in=2.5, headers=["from the DA", "value"], rows=rows,
             finding=f"At the DA with the printed {printed_visibility(line)}, {sight.length_ft:.0f} ft of the approach "
             f"lights are in sight and the threshold is {state}. Heights are drawn {TIMES_HIGHER} times larger than "
             "distances."))
values = {"cut_off": quantity(cockpit.cutoff_deg, "°") + " (invented)",
          "eyes": quantity(eye_ft - antenna_ft, "ft") + " (invented)", "hidden": quantity(nose_ft, "ft")}
