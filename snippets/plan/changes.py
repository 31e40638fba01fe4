"""What changed from the cycle before to the example's: every field that differs, the most serious first."""

from lpv.approach.record import read_all
from lpv.crosscheck.changes import MEANING, compare
from lpv_site.department.data import DOCS, example, examples
from lpv_site.text.findings import MARKS
from lpv_site.text.table import table
from lpv_site.text.text import escape

now = {approach.slug: approach for approach in examples()}
for old in read_all(DOCS / "approaches" / "previous"):
    if (new := now.get(old.slug)) is None or old.slug != example().slug:
        continue
    found, who = compare(old, new), new.identity
    print(f"{escape(who.airport)} {escape(who.title)}, cycle {old.identity.cycle} against {who.cycle}:\n")
    for grade, meaning in MEANING.items():
        rows = [
            (escape(change.what) + (f"<br>**{escape(change.about)}**" if change.about else ""), escape(change.old),
             escape(change.new))
            for change in found if change.grade == grade
        ]
        if rows:
            print(f"**{MARKS[grade]} {grade}**: {meaning}.\n")
            print(table(["field", "was", "is"], rows))
