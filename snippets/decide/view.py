"""From the DA of the example with the printed visibility: nose, lights in sight, threshold; a live figure draws it."""

from lpv.core.text import number, quantity
from lpv.decide.last_mile import View, decision_point
from lpv.decide.visibility import printed_visibility_ft, printed_visibility_text
from lpv_site.department.data import example, example_aircraft, example_row
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import finding_and_table


def show() -> Shown:
    """What is in sight, in words and numbers."""
    row, jet = example_row(), example_aircraft()
    view = View(example(), jet, decision_point(example(), row.altitude_ft).height_ft)
    visible_ft = printed_visibility_ft(row) or 0.0
    sight, reach_ft = view.sight(visible_ft), view.reach_ft(visible_ft)
    state = "in sight" if sight.threshold else "not in sight"
    return Shown(finding_and_table(
        headers=["from the DA", "value"],
        rows=[("to the threshold", quantity(view.distance_ft, "ft")),
              ("hidden by the nose", f"{quantity(view.hidden_ft, 'ft')} ahead"),
              ("visibility reaches", f"{quantity(reach_ft, 'ft')} ahead"), ("threshold", state),
              ("lights in sight", f"{number(sight.length_ft)} of {quantity(view.lights_ft, 'ft')}")],
        finding=f"At the DA with the printed {printed_visibility_text(row)}, {quantity(sight.length_ft, 'ft')} of the "
        f"approach lights are in sight and the threshold is {state}.",
    ), {
        "cut_off": Value(view.cutoff_deg, "deg", quantity(view.cutoff_deg, "deg") + " (invented)"),
        "eyes": Value(view.above_antenna_ft, "ft", quantity(view.above_antenna_ft, "ft") + " (invented)"),
        "hidden": Value.of(view.hidden_ft, "ft"),
    })
