"""What each grade of a change between two cycles means."""

from lpv.crosscheck.changes import MEANING
from lpv_site.text.findings import MARKS
from lpv_site.text.shown import Shown
from lpv_site.text.table import ALL_LEFT, table


def show() -> Shown:
    """A table of the grades with their marks."""
    rows = [(f"{MARKS[grade]} {grade}", meaning) for grade, meaning in MEANING.items()]
    return Shown(table(["grade", "means"], rows, left=ALL_LEFT))
