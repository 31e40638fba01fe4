"""The AIRAC calendar from the example's data cycle on: thirteen cycles, first and last day."""

from lpv.core import airac
from lpv_site.department.data import example
from lpv_site.text.table import table

COUNT = 13
first = airac.cycle(example().identity.cycle)
cycles = [airac.cycle_at(first.effective + number * airac.CYCLE_DAYS) for number in range(COUNT)]
rows = [
    (f"**{cycle.ident}**" if cycle.ident == first.ident else cycle.ident, airac.iso(cycle.effective),
     airac.iso(cycle.expiry - 1))
    for cycle in cycles
]
print(f"From cycle {first.ident}, which the approaches shown here belong to:\n")
print(table(["cycle", "first day", "last day"], rows))
values = {"cycle": first.ident, "ends": airac.iso(first.expiry), "next": cycles[1].ident}
