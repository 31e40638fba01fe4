"""Which level of service the same protection levels support on two segments with different alert limits."""

from lpv.approach.record import Approach
from lpv.core.text import quantity
from lpv.sbas.level import level_of_service
from lpv.sbas.service import Epoch, limits_of
from lpv_site.department.data import example, examples
from lpv_site.text.shown import Shown
from lpv_site.text.table import table
from lpv_site.text.text import escape

LEVELS_M = ((15.0, 30.0), (15.0, 40.0), (15.0, 60.0), (45.0, 30.0), (600.0, 600.0))  # HPL and VPL


def show() -> Shown:
    """A table by protection levels: the best line of the example and of one approach with another VAL."""
    first = example()
    others = [approach for approach in examples() if approach.segment.val_m not in (0.0, first.segment.val_m)]
    shown = [first, *others[:1]]
    rows = [(quantity(h, "m"), quantity(v, "m"), *(_best(level, h, v) for level in shown)) for h, v in LEVELS_M]
    return Shown(table(["HPL", "VPL", *map(_head, shown)], rows, left=0))


def _best(approach: Approach, hpl_m: float, vpl_m: float) -> str:
    """The best minima line that these protection levels support."""
    moment = Epoch(0.0, 8, hpl_m, hpl_m, vpl_m)
    return level_of_service(moment, limits_of(approach.segment), [line.line for line in approach.chart.minima])


def _head(approach: Approach) -> str:
    name = f"{escape(approach.identity.airport)} {escape(approach.identity.runway)}"
    return f"{name}<br>VAL {quantity(approach.segment.val_m, 'm')}"
