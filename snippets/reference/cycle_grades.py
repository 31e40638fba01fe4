"""What each grade of a change between two cycles means."""

from lpv.changes import MEANING
from render.findings import MARKS
from render.table import table

rows = [(f"{MARKS[grave]} {grave}", meaning) for grave, meaning in MEANING.items()]
print(table(["grade", "means"], rows, left=2))
