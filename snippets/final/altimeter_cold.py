"""Cold-temperature additions by the table rule: the demo approach that is marked for them, else the example."""

from lpv.core.text import number, quantity
from lpv.decide.cold import altitude_addition_ft, missed_addition_ft, pfaf_addition_ft
from lpv.decide.last_mile import lower_than_shown_ft
from lpv.decide.lines import best_row
from lpv_site.department.data import example, example_aircraft, examples
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape

TEMPERATURES_C, COLD_C = range(0, -51, -10), -30.0


def show() -> Shown:
    """A row for each temperature: the altitudes to use, and what was added."""
    marked = [each for each in examples() if each.chart.cold_temperature_airport_c is not None]
    approach = next(iter(marked), example())
    chart, row = approach.chart, best_row(approach, example_aircraft().type.category) or best_row(approach)
    da_ft, pfaf_ft = row.altitude_ft if row else 0.0, approach.pfaf.altitude_ft or 0.0
    missed_ft = chart.missed.altitude_ft if chart.missed else 0.0

    def cells(temperature_c: float) -> list[str]:
        added = ((da_ft, altitude_addition_ft(approach, da_ft, temperature_c)),
                 (pfaf_ft, pfaf_addition_ft(approach, temperature_c)),
                 (missed_ft, missed_addition_ft(approach, missed_ft, temperature_c)))
        return [f"**{number(altitude_ft + more_ft)}**<br>+{number(more_ft)}" for altitude_ft, more_ft in added]

    heads = [f"{name}<br>{number(altitude_ft)}"
             for name, altitude_ft in (("DA", da_ft), ("at the FAF", pfaf_ft), ("missed hold", missed_ft))]
    rows = [(quantity(temperature_c, "°C"), *cells(temperature_c)) for temperature_c in TEMPERATURES_C]
    head = (f"{escape(approach.identity.airport)}, airport elevation {quantity(chart.airport_elevation_ft, 'ft')}; "
            "altitude to use and what was added, in ft:")
    low_ft, limit_c = lower_than_shown_ft(approach, da_ft, COLD_C), chart.cold_temperature_airport_c
    return Shown(f"{head}\n\n{table(['airport', *heads], rows)}", {
        "low": Value(low_ft, "ft", f"{quantity(low_ft, 'ft')} lower than it says at {quantity(COLD_C, '°C')}"),
        "airport": escape(approach.identity.airport_name),
        "limit": "no temperature" if limit_c is None else Value(limit_c, "deg C", quantity(limit_c, "°C")),
    })
