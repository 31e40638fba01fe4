"""What coded records cannot hold, and so is to be filled from the chart."""

from lpv.approach.schema import TO_BE_FILLED
from lpv_site.text.table import table

rows = [(what, f"`{key}`") for key, what in TO_BE_FILLED.items()]
print(table(["from the chart", "key below [chart]"], rows, left=2))
