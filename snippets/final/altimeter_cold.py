"""Cold-temperature additions by the table rule: the demo approach that is marked for them, else the example."""

from collections.abc import Callable

from lpv.approach.record import Approach
from lpv.core.text import number, quantity
from lpv.decide.cold import altitude_addition_ft, missed_addition_ft, pfaf_addition_ft
from lpv.decide.final_path import charted_pfaf_ft
from lpv.decide.last_mile import lower_than_shown_ft
from lpv_site.department.data import example, examples, row_on
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape

Addition = Callable[[Approach, float, float], float]
TEMPERATURES_C, COLD_C = range(0, -60, -10), -30.0


def show() -> Shown:
    """A row for each temperature: the altitudes to use, and what was added."""
    marked = [approach for approach in examples() if approach.chart.cold_temperature_airport_c is not None]
    approach = next(iter(marked), example())
    chart, da_ft = approach.chart, row_on(approach).altitude_ft
    altitudes: dict[str, tuple[float, Addition]] = {
        "DA": (da_ft, altitude_addition_ft),
        "at the FAF": (charted_pfaf_ft(approach), lambda approach, _, celsius: pfaf_addition_ft(approach, celsius)),
    }
    if chart.missed is not None:
        altitudes["missed hold"] = chart.missed.altitude_ft, missed_addition_ft

    def cell(altitude_ft: float, addition_ft: Addition, temperature_c: float) -> str:
        more_ft = addition_ft(approach, altitude_ft, temperature_c)
        return f"**{number(altitude_ft + more_ft)}**<br>+{number(more_ft)}"

    heads = [f"{name}<br>{number(altitude_ft)}" for name, (altitude_ft, _) in altitudes.items()]
    rows = [(quantity(celsius, "°C"), *(cell(*altitude, celsius) for altitude in altitudes.values()))
            for celsius in TEMPERATURES_C]
    head = (f"{escape(approach.identity.airport)}, airport elevation {quantity(chart.airport_elevation_ft, 'ft')}; "
            "altitude to use and what was added, in ft:")
    low_ft, limit_c = lower_than_shown_ft(approach, da_ft, COLD_C), chart.cold_temperature_airport_c
    return Shown(f"{head}\n\n{table(['airport', *heads], rows)}", {
        "low": Value(low_ft, "ft", f"{quantity(low_ft, 'ft')} lower than it says at {quantity(COLD_C, '°C')}"),
        "airport": escape(approach.identity.airport_name),
        "limit": "no temperature" if limit_c is None else Value(limit_c, "deg C", quantity(limit_c, "°C")),
    })
