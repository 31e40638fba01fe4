"""What is in sight from the DA of the example, by visibility, and where on the path the threshold appears."""

from lpv.core.text import miles, number
from lpv.decide.last_mile import View, decision_point, lights_only_ft, threshold_seen_at_ft
from lpv.decide.visibility import visibility_ft
from lpv_site.department.data import example, example_aircraft, example_row
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table

VISIBILITIES_SM = (0.25, 0.375, 0.5, 0.625, 0.75, 1.0)


def show() -> Shown:
    """A row for each visibility."""
    approach, jet, da_ft = example(), example_aircraft(), example_row().altitude_ft

    def view(altitude_ft: float) -> View:
        return View(approach, jet, decision_point(approach, altitude_ft).height_ft)

    def cells(visible_sm: float) -> tuple[str, str, str]:
        visible_ft = visibility_ft(visible_sm)
        sight = view(da_ft).sight(visible_ft)
        in_sight = "at the DA" if sight.threshold else (
            f"at {number(threshold_seen_at_ft(approach, jet, da_ft, visible_ft))}")
        return miles(visible_sm), number(sight.length_ft), in_sight

    heads = ["visibility, SM", "lights seen at the DA, ft", "threshold seen, altimeter"]
    return Shown(table(heads, [cells(visible_sm) for visible_sm in VISIBILITIES_SM]), {
        "lights_only": Value.of(lights_only_ft(approach), "ft"),
        "need_at_da": Value.of(view(da_ft).needed_ft(), "ft"),
        "need_at_limit": Value.of(view(lights_only_ft(approach)).needed_ft(), "ft"),
    })
