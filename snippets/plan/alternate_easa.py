"""What EASA's rule asks of the same forecasts, from memory: needs runways, flight time and circling height too."""

from lpv.plan.alternate import easa_alternate_needed
from lpv_site.pages.plan_sheet import cases
from lpv_site.text.table import table
from lpv_site.text.text import escape

RUNWAYS, FLIGHT_H = 2, 3.0
rows = []
for case in cases():
    flight, chart = case.scenario.flight, case.approach.chart
    circling = [line.altitude_ft - chart.airport_elevation_ft for line in chart.minima if line.line == "circling"]
    ruling = easa_alternate_needed(case.scenario.forecast, flight.eta, max(circling, default=None), RUNWAYS, FLIGHT_H)
    rows.append(
        (f"{escape(case.approach.identity.airport)}<br>{flight.eta:%Y-%m-%d %H:%M}",
         f"**{'yes' if ruling.answer else 'no'}**", escape(ruling.reason))
    )
print(f"Is an alternate needed, with {RUNWAYS} separate runways and a flight of {FLIGHT_H:g} h? {escape(ruling.rule)}, "
      f"{escape(ruling.paragraph)}:\n")
print(table(["ETA, UTC", "needed", "because"], rows))
