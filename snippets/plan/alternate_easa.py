"""What EASA's rule asks of the same forecasts, from memory: needs runways, flight time and circling height too."""

from lpv.alternate import easa_alternate_needed
from render.plan_sheet import cases
from render.table import stacked
from render.text import escape

RUNWAYS, FLIGHT_H = 2, 3.0
entries = []
for case in cases():
    flight, chart = case.scenario.flight, case.approach.chart
    circling = [line.altitude_ft - chart.airport_elevation_ft for line in chart.minima if line.line == "circling"]
    ruling = easa_alternate_needed(case.scenario.forecast, flight.eta, max(circling, default=None), RUNWAYS, FLIGHT_H)
    entries.append(
        (
            f"{escape(case.approach.identity.airport)} at {flight.eta:%Y-%m-%d %H:%M} UTC: alternate needed?",
            [("<b>answer</b>", f"<b>{'yes' if ruling.answer else 'no'}</b>"), ("because", escape(ruling.reason)),
             ("rule", escape(f"{ruling.rule}, {ruling.paragraph}"))],
        )
    )
print(f"With {RUNWAYS} separate runways and a flight of {FLIGHT_H:g} h:\n")
print(stacked(entries))
