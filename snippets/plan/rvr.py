"""Runway visual range and miles, beside the lines of minima: what a printed RVR asks, what a reported one is worth."""

from lpv.core.text import miles, number
from lpv.decide.visibility import visibility_for_reported_rvr_sm, visibility_for_rvr_sm
from lpv_site.text.shown import Shown
from lpv_site.text.table import table

USUAL_FT = (1600, 1800, 2400, 3000, 4000, 5000, 6000)


def show() -> Shown:
    """A row for each runway visual range that charts print and towers report."""
    rows = [
        (number(rvr_ft), f"**{miles(visibility_for_rvr_sm(rvr_ft))}**",
         f"**{miles(visibility_for_reported_rvr_sm(rvr_ft))}**")
        for rvr_ft in USUAL_FT
    ]
    return Shown(table(["RVR, ft", "printed: needs, SM", "reported: counts as, SM"], rows) + (
        "\nBetween two rows of the rule, a printed RVR takes the next higher one. For a reported RVR this handbook "
        "takes the next lower one: a caution of its own, since the rule is written for what the chart prints.\n"))
