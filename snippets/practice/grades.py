"""The grades of the drills, and how many there are of each."""

from lpv.drill.drills import GRADES
from lpv_site.pages.drill_choices import ASKED
from lpv_site.pages.drill_page import of_grade
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table


def row(grade: str) -> tuple[str, int, str]:
    """A grade that has drills: the link to its page, how many, the first and the last number."""
    drills = of_grade(grade)
    return (
        f"[**{ASKED[grade]}**]({grade}.md)", len(drills),
        f"{drills[0].row.number:02d} to {drills[-1].row.number:02d}",
    )


def show() -> Shown:
    """A table of the grades."""
    grades = [grade for grade in GRADES if of_grade(grade)]
    counts = {grade: Value.of(len(of_grade(grade)), "") for grade in grades}
    return Shown(table(["grade", "drills", "numbers"], map(row, grades)), counts)
