"""Which row of the chart's minima binds: by line and by approach category, in whatever order the chart prints them.

`approach` is the approach record, or the same from its JSON form (`lpv.core.record`).
"""

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.approach.record import Approach
    from lpv.approach.schema import Minima

LINES = ("LPV", "LP", "LNAV/VNAV", "LNAV", "circling")  # best first
LEVELS = ("LPV", "LP", "LNAV/VNAV", "LNAV", "none")  # that the avionics announce
WITHOUT_PATH = ("LP", "LNAV")  # flown to an MDA: a glidepath shown with one of them is advisory


def rows_of(approach: "Approach", line: str) -> "list[Minima]":
    """Every row of a line of minima, in the order of the chart; [] where the chart has none."""
    return [row for row in approach.chart.minima if row.line == line]


def categories_beside(approach: "Approach", row: "Minima") -> str:
    """The categories that have to be named beside a row, since its line has several; "" where its line has one row."""
    return row.categories if len(rows_of(approach, row.line)) > 1 else ""


def row_for(approach: "Approach", line: str, category: "str | None" = None) -> "Minima | None":
    """The row of a line that binds a category; without a category the highest row of the line.

    None where the chart prints no such line, or none for the category.
    """
    rows = [row for row in rows_of(approach, line) if category is None or category in row.categories]
    return _highest(rows)


def best_row(approach: "Approach", category: "str | None" = None) -> "Minima | None":
    """The row of the level that the approach is made for (LPV or LP); None where the chart prints none."""
    return row_for(approach, approach.identity.level_of_service, category)


def straight_in_rows(approach: "Approach", category: "str | None" = None) -> "list[Minima]":
    """One row for each straight-in line that binds a category, the best line first; `row_for` picks each."""
    rows = [row_for(approach, line, category) for line in LINES if line != "circling"]
    return [row for row in rows if row is not None]


def highest_row(approach: "Approach", category: "str | None" = None) -> "Minima | None":
    """The highest straight-in row, by which step-downs inside the PFAF are corrected; None without one.

    Where the chart prints circling alone, its highest row.
    """
    rows = straight_in_rows(approach, category)
    return _highest(rows) if rows else row_for(approach, "circling", category)


def _highest(rows: "list[Minima]") -> "Minima | None":
    highest = None
    for row in rows:
        if highest is None or row.altitude_ft > highest.altitude_ft:
            highest = row
    return highest
