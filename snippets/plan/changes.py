"""What changed from the cycle before to the example's: every field that differs, the most serious first."""

from lpv.approach.record import Approach, read_all
from lpv.crosscheck.changes import MEANING, compare
from lpv_site.department.data import DOCS, example
from lpv_site.text.findings import MARKS
from lpv_site.text.shown import Shown
from lpv_site.text.table import table
from lpv_site.text.text import escape


def show() -> Shown:
    """One table a grade, for the edition of the example that the cycle before held."""
    before = [old for old in read_all(DOCS / "approaches" / "previous") if old.slug == example().slug]
    return Shown("\n".join(_against(old, example()) for old in before))


def _against(old: Approach, new: Approach) -> str:
    changes, who = compare(old, new), new.identity
    parts = [f"{escape(who.airport)} {escape(who.title)}, cycle {old.identity.cycle} against {who.cycle}:\n"]
    for grade, meaning in MEANING.items():
        rows = [
            (escape(change.what) + (f"<br>**{escape(change.about)}**" if change.about else ""), escape(change.old),
             escape(change.new))
            for change in changes if change.grade == grade
        ]
        if rows:
            parts += [f"**{MARKS[grade]} {grade}**: {meaning}.\n", table(["field", "was", "is"], rows)]
    return "\n".join(parts)
