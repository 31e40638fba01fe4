"""The calls of the aircraft file on the way down to a minimum set as DA, and to the same set as MDA."""

from lpv.core.text import signed
from lpv_site.department.data import example_aircraft
from lpv_site.text.shown import Shown
from lpv_site.text.table import ALL_LEFT, table
from lpv_site.text.text import escape

SILENT = "nothing"


def show() -> Shown:
    """A row for each height."""
    jet = example_aircraft()
    calls = {(call.minimum, call.above_ft): escape(call.words) for call in jet.operator.call_outs}
    heights_ft = sorted({above_ft for _, above_ft in calls}, reverse=True)
    rows = [
        (signed(above_ft, "ft") if above_ft else "at it", calls.get(("DA", above_ft), SILENT),
         calls.get(("MDA", above_ft), SILENT))
        for above_ft in heights_ft
    ]
    head = f"Calls of the {escape(jet.type.name.lower())}, by height above the minimum:"
    return Shown(f"{head}\n\n{table(['above it', 'set as DA', 'set as MDA'], rows, left=ALL_LEFT)}")
