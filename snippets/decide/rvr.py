"""Runway visual range to statute miles by the table of the United States rule; between rows the next higher."""

from lpv.core.text import miles, number
from lpv.core.units import M_PER_FT
from lpv.decide.last_mile import decision_point, lights_length_ft
from lpv.decide.visibility import rvr_for_decision_height_easa_m, visibility_for_rvr_sm
from lpv.facts.visual import RVR_ROWS
from lpv_site.department.data import example, example_row
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table


def show() -> Shown:
    """A row for each range of the table."""
    ranges_ft = [row[0] for row in RVR_ROWS]
    rows = [
        (number(rvr_ft) if before_ft is None else f"over {number(before_ft)} to {number(rvr_ft)}",
         f"**{miles(visibility_for_rvr_sm(rvr_ft))}**")
        for before_ft, rvr_ft in zip([None, *ranges_ft], ranges_ft, strict=False)
    ]
    height_ft = decision_point(example(), example_row().altitude_ft).height_ft
    easa_m = rvr_for_decision_height_easa_m(height_ft, lights_length_ft(example()) * M_PER_FT)
    return Shown(table(["RVR printed, ft", "visibility, SM"], rows), {"easa": Value.of(easa_m, "m")})
