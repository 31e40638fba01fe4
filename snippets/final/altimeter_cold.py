"""Cold-temperature additions by the table rule: the demo approach that is marked for them, else the example."""

from lpv.air.altimetry import minimum_addition_ft, segment_addition_ft, true_height_ft
from lpv_site.department.data import example, examples
from lpv_site.text.table import table
from lpv_site.text.text import escape, number, quantity

marked = [approach for approach in examples() if approach.chart.cold_temperature_airport_c is not None]
approach = next(iter(marked), example())
chart, elevation_ft = approach.chart, approach.chart.airport_elevation_ft
da_ft = next(line.altitude_ft for line in chart.minima if line.line == "LPV")
ALTITUDES_FT = (da_ft, approach.pfaf.altitude_ft or 0.0, chart.missed.altitude_ft if chart.missed else 0.0)
ADDITIONS = (minimum_addition_ft, segment_addition_ft, segment_addition_ft)
TEMPERATURES_C = range(0, -51, -10)


def cell(altitude_ft: float, addition, temperature_c: float) -> str:
    added_ft = addition(altitude_ft - elevation_ft, temperature_c)
    return f"**{number(altitude_ft + added_ft)}**<br>+{number(added_ft)}"


names = ("DA", "at the PFAF", "missed hold")
print(
    f"{escape(approach.identity.airport)}, airport elevation {quantity(elevation_ft, 'ft')}; "
    "altitude to use and what was added, in ft:\n"
)
print(
    table(
        ["aerodrome", *[f"{name}<br>{number(altitude)}" for name, altitude in zip(names, ALTITUDES_FT, strict=True)]],
        [
            (quantity(t, "°C"), *[cell(ft, addition, t) for ft, addition in zip(ALTITUDES_FT, ADDITIONS, strict=True)])
            for t in TEMPERATURES_C
        ],
    )
)
low_ft = elevation_ft + true_height_ft(da_ft - elevation_ft, -30.0, elevation_ft)
limit_c = chart.cold_temperature_airport_c
values = {
    "low": f"{quantity(da_ft - low_ft, 'ft')} lower than it says at {quantity(-30, '°C')}",
    "airport": escape(approach.identity.airport_name),
    "limit": "no temperature" if limit_c is None else quantity(limit_c, "°C"),
}
