"""The calls of the aircraft file on the way down to a minimum set as DA, and to the same set as MDA."""

from lpv_site.department.data import example_aircraft
from lpv_site.text.table import table
from lpv_site.text.text import escape, signed

jet = example_aircraft()
calls = {(call.minimum, call.above_ft): escape(call.words) for call in jet.operator.call_outs}
heights = sorted({above_ft for _, above_ft in calls}, reverse=True)
silent = "nothing"
rows = [
    (
        signed(above_ft, "ft") if above_ft else "at it",
        calls.get(("DA", above_ft), silent),
        calls.get(("MDA", above_ft), silent),
    )
    for above_ft in heights
]
print(f"Calls of the {escape(jet.type.name.lower())}, by height above the minimum:\n")
print(table(["above it", "set as DA", "set as MDA"], rows, left=3))
