"""Which level of service the same protection levels support on two segments with different alert limits."""

from lpv.sbas.service import Epoch, level_of_service, limits_of
from lpv_site.department.data import example, examples
from lpv_site.text.table import table
from lpv_site.text.text import escape, quantity

LEVELS_M = ((15.0, 30.0), (15.0, 40.0), (15.0, 60.0), (45.0, 30.0), (600.0, 600.0))  # HPL and VPL


def best(approach, hpl_m: float, vpl_m: float) -> str:
    """The best minima line that these protection levels support."""
    moment = Epoch(0.0, 8, hpl_m, hpl_m, vpl_m)
    return level_of_service(moment, limits_of(approach.segment), [line.line for line in approach.chart.minima])


def head(approach) -> str:
    name = f"{escape(approach.identity.airport)} {escape(approach.identity.runway)}"
    return f"{name}<br>VAL {quantity(approach.segment.val_m, 'm')}"


first = example()
others = [a for a in examples() if a.segment.val_m not in (0.0, first.segment.val_m)]
shown = [first, *others[:1]]
print(
    table(
        ["HPL", "VPL", *map(head, shown)],
        [(quantity(h, "m"), quantity(v, "m"), *(best(a, h, v) for a in shown)) for h, v in LEVELS_M],
        left=0,
    )
)
