"""What changed from the cycle before to the example's: every field that differs, the gravest first."""

from lpv.approach import read_all
from lpv.changes import MEANING, compare
from render.data import DOCS, example, examples
from render.findings import MARKS
from render.table import table
from render.text import escape

now = {approach.slug: approach for approach in examples()}
for old in read_all(DOCS / "approaches" / "previous"):
    if (new := now.get(old.slug)) is None or old.slug != example().slug:
        continue
    found, who = compare(old, new), new.identity
    print(f"{escape(who.airport)} {escape(who.title)}, cycle {old.identity.cycle} against {who.cycle}:\n")
    for grave, meaning in MEANING.items():
        rows = [
            (escape(change.what) + (f"<br>**{escape(change.about)}**" if change.about else ""), escape(change.old),
             escape(change.new))
            for change in found if change.grave == grave
        ]
        if rows:
            print(f"**{MARKS[grave]} {grave}**: {meaning}.\n")
            print(table(["field", "was", "is"], rows))
