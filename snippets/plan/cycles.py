"""The AIRAC calendar from the example's data cycle on: thirteen cycles, first and last day."""

from lpv.core import airac
from lpv_site.department.data import example
from lpv_site.text.shown import Shown
from lpv_site.text.table import table

COUNT = 13


def show() -> Shown:
    """A table of the cycles; values: the example's cycle, the day on which it ends, the one after it."""
    cycles = airac.following(example().identity.cycle, COUNT)
    first = cycles[0].ident
    rows = [
        (f"**{cycle.ident}**" if cycle.ident == first else cycle.ident, airac.iso(cycle.effective),
         airac.iso(cycle.expiry - 1))
        for cycle in cycles
    ]
    head = f"From cycle {first}, which the approaches shown here belong to:"
    values = {"cycle": first, "ends": airac.iso(cycles[0].expiry), "next": cycles[1].ident}
    return Shown(f"{head}\n\n{table(['cycle', 'first day', 'last day'], rows)}", values)
