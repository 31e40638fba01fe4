"""What coded records cannot hold, and so is to be filled from the chart."""

from lpv.approach.schema import TO_BE_FILLED
from lpv_site.text.shown import Shown
from lpv_site.text.table import ALL_LEFT, table


def show() -> Shown:
    """A table of what is missing with its key in the approach file."""
    rows = [(what, f"`{key}`") for key, what in TO_BE_FILLED.items()]
    return Shown(table(["from the chart", "key below [chart]"], rows, left=ALL_LEFT))
