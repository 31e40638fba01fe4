"""The chart's temperature limits for an uncompensated barometric path, and the lines they bind."""

from lpv.approach.record import Approach
from lpv.core.text import signed
from lpv.decide.minima import Situation, verdicts
from lpv_site.department.data import example, examples
from lpv_site.text.shown import Shown
from lpv_site.text.table import table
from lpv_site.text.text import escape

APPROVALS = ["LPV", "LNAV/VNAV", "baro-VNAV", "LNAV"]
WAYS = (("LPV", "SBAS"), ("LNAV/VNAV", "SBAS"), ("LNAV/VNAV", "barometric"))
HEADERS = ["airport", "LPV", "LNAV/<wbr>VNAV by SBAS", "LNAV/<wbr>VNAV by altimeter"]


def show() -> Shown:
    """A table at each limit and a degree beyond it, for an approach that prints both; a cold one if there is one."""
    limited = [item for item in examples() if None not in (item.chart.vnav_lowest_c, item.chart.vnav_highest_c)]
    cold = [item for item in limited if item.chart.cold_temperature_airport_c is not None]
    approach = next(iter([*cold, *limited, example()]))
    rows = [_row(approach, temperature_c) for temperature_c in _temperatures_c(approach)]
    head = f"{escape(approach.identity.airport)} {escape(approach.identity.title)}, limits printed on its chart:"
    return Shown(f"{head}\n\n{table(HEADERS, rows)}")


def _temperatures_c(approach: Approach) -> list[float]:
    lowest_c, highest_c = approach.chart.vnav_lowest_c, approach.chart.vnav_highest_c
    below = [] if lowest_c is None else [lowest_c - 1.0, lowest_c]
    return below + ([] if highest_c is None else [highest_c, highest_c + 1.0])


def _row(approach: Approach, temperature_c: float) -> tuple[str, ...]:
    chart = approach.chart
    lines = list(dict.fromkeys(line.line for line in chart.minima if line.line != "circling"))
    situation = Situation("LPV", APPROVALS, lines, temperature_c, chart.vnav_lowest_c, chart.vnav_highest_c)
    allowed = {(verdict.line, verdict.guidance): verdict.allowed for verdict in verdicts(situation)}
    return signed(temperature_c, "°C"), *("yes" if allowed.get(pair) else "**no**" for pair in WAYS)
