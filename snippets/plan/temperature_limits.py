"""The chart's temperature limits for an uncompensated barometric path, and the lines they bind."""

from lpv.decide.minima import Situation, verdicts
from lpv_site.department.data import example, examples
from lpv_site.text.table import table
from lpv_site.text.text import escape, quantity, signed

limited = [item for item in examples() if None not in (item.chart.vnav_lowest_c, item.chart.vnav_highest_c)]
cold = [item for item in limited if item.chart.cold_temperature_airport_c is not None]
approach = next(iter([*cold, *limited, example()]))
chart = approach.chart
APPROVALS = ["LPV", "LNAV/VNAV", "baro-VNAV", "LNAV"]
WAYS = (("LPV", "SBAS"), ("LNAV/VNAV", "SBAS"), ("LNAV/VNAV", "barometric"))
limits = [limit for limit in (chart.vnav_lowest_c, chart.vnav_highest_c) if limit is not None]
temperatures = sorted({*limits, *(limit + (1 if limit == chart.vnav_highest_c else -1) for limit in limits)})


def row(temperature_c: float) -> tuple[str, ...]:
    lines = [line.line for line in chart.minima if line.line != "circling"]
    situation = Situation("LPV", APPROVALS, lines, temperature_c, chart.vnav_lowest_c, chart.vnav_highest_c)
    found = {(verdict.line, verdict.way): verdict.allowed for verdict in verdicts(situation)}
    return signed(temperature_c, "°C"), *("yes" if found.get(way) else "**no**" for way in WAYS)


print(f"{escape(approach.identity.airport)} {escape(approach.identity.title)}, limits printed on its chart:\n")
headers = ["airport", "LPV", "LNAV/<wbr>VNAV by SBAS", "LNAV/<wbr>VNAV by altimeter"]
print(table(headers, [row(t) for t in temperatures]))
values = {
    "lowest": quantity(chart.vnav_lowest_c, "°C") if chart.vnav_lowest_c is not None else "no limit",
    "airport": escape(approach.identity.airport),
}
