"""What each grade of a change between two cycles means."""

from lpv.crosscheck.changes import MEANING
from lpv_site.text.findings import MARKS
from lpv_site.text.table import table

rows = [(f"{MARKS[grade]} {grade}", meaning) for grade, meaning in MEANING.items()]
print(table(["grade", "means"], rows, left=2))
