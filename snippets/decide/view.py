"""Side view from the DA of the example with the printed visibility: nose, lights in sight, threshold."""

from functools import partial
from typing import Any

from lpv.core.text import feet, number, quantity
from lpv.decide.final_path import threshold_and_crossing_ft
from lpv.decide.last_mile import View, decision_point, printed_visibility_ft
from lpv_site.briefing.numbers import printed_visibility
from lpv_site.department.data import example, example_aircraft, example_row
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.text.shown import Shown, Value

TIMES_HIGHER, PAST_FT = 4, 300


def show() -> Shown:
    """The figure, and what is in sight in words."""
    row, jet = example_row(), example_aircraft()
    view = View(example(), jet, decision_point(example(), row.altitude_ft).height_ft)
    visible_ft = printed_visibility_ft(row) or 0.0
    sight, reach_ft = view.sight(visible_ft), view.reach_ft(visible_ft)
    state = "in sight" if sight.threshold else "not in sight"
    tch_ft = threshold_and_crossing_ft(example())[1]
    return Shown(figure(
        "view-figure", partial(draw, view, sight, reach_ft, tch_ft), height_in=2.5, headers=["from the DA", "value"],
        rows=[("to the threshold", quantity(view.distance_ft, "ft")),
              ("hidden by the nose", f"{quantity(view.hidden_ft, 'ft')} ahead"),
              ("visibility reaches", f"{quantity(reach_ft, 'ft')} ahead"), ("threshold", state),
              ("lights in sight", f"{number(sight.length_ft)} of {quantity(view.lights_ft, 'ft')}")],
        finding=f"At the DA with the printed {printed_visibility(row)}, {quantity(sight.length_ft, 'ft')} of the "
        f"approach lights are in sight and the threshold is {state}. Heights are drawn {TIMES_HIGHER} times larger "
        "than distances.",
    ), {
        "cut_off": Value(view.cutoff_deg, "deg", quantity(view.cutoff_deg, "deg") + " (invented)"),
        "eyes": Value(view.above_antenna_ft, "ft", quantity(view.above_antenna_ft, "ft") + " (invented)"),
        "hidden": Value.of(view.hidden_ft, "ft"),
    })


def draw(view: Any, sight: Any, reach_ft: float, tch_ft: float, axes: Any) -> None:
    """The sight line over the nose, the visibility, and what lies between them."""
    near_ft, far_ft = view.distance_ft - view.hidden_ft, view.distance_ft - reach_ft

    def note(text: str, x: float, y: float, offset: tuple[float, float], colour: str, **more: Any) -> None:
        more |= {"xytext": offset, "textcoords": "offset points", "fontsize": 8, "color": COLOURS[colour]}
        axes.annotate(text, (x, y), **more)

    distance_ft, eye_ft = view.distance_ft, view.eye_ft
    axes.set_aspect(TIMES_HIGHER)
    axes.fill((distance_ft, near_ft, far_ft), (eye_ft, 0, 0), color=COLOURS["shade"])
    axes.plot([distance_ft, 0], [eye_ft, tch_ft + view.above_antenna_ft], "--", color=COLOURS["muted"])
    axes.plot([distance_ft, near_ft], [eye_ft, 0], color=COLOURS["second"], linewidth=1.2)
    axes.plot([distance_ft, far_ft], [eye_ft, 0], color=COLOURS["first"], linewidth=1.2)
    axes.plot([view.lights_ft, 0], [0, 0], color=COLOURS["ink"], linewidth=1.5)
    axes.plot([sight.outer_ft or 0, sight.inner_ft or 0], [0, 0], color=COLOURS["answer"], linewidth=5)
    axes.plot([0, -PAST_FT], [0, 0], color=COLOURS["ink"], linewidth=5, solid_capstyle="butt")
    axes.plot(distance_ft, eye_ft, "o", color=COLOURS["ink"])
    note(f"eyes, {feet(eye_ft)}", distance_ft, eye_ft, (6, 4), "ink")
    note(f"{number(view.cutoff_deg)}° down:\nthe nose hides\nthis side", distance_ft, 0, (2, -4), "second", va="top")
    note("visibility", far_ft, 0, (0, 8), "first", ha="center")
    note("path", distance_ft / 2, eye_ft * 0.63, (4, 4), "muted")
    note(f"lights in sight:\n{feet(sight.length_ft)}", (near_ft + far_ft) / 2, 0, (0, -6), "answer", ha="center",
         va="top")
    note("threshold", -PAST_FT, 0, (0, -6), "ink", ha="right", va="top")
    axes.set(xlabel="before the threshold, ft", ylabel="height, ft", yticks=(0, 100, 200))
    axes.set(xlim=(distance_ft + 100, -PAST_FT), ylim=(-170, 270))
