"""What cold adds at the cold demo airport, against temperature: minimum, PFAF and missed approach."""

from collections.abc import Mapping
from typing import Any

from lpv.air.altimetry import HIGHEST_COLUMN_FT, table_addition_ft
from lpv.approach.record import Approach
from lpv.core.text import quantity
from lpv.decide.cold import above_airport_ft, role_of
from lpv.decide.lines import best_row
from lpv.plan.case import cold_of
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.pages.plan_sheet import cases
from lpv_site.text.shown import Shown, Value

TEMPERATURES_C, NAMED_AT_C, PRINTED_C = range(-50, 16, 5), -45, (0, -10, -20, -30, -40, -50)


def show() -> Shown:
    """The figure, for the first scenario that is corrected for cold, else the first; values: the day's additions."""
    case = next((case for case in cases() if cold_of(case).due), cases()[0])
    now_c, limit_c = case.scenario.flight.temperature_c, case.approach.chart.cold_temperature_airport_c
    heights = _heights_ft(case.approach)
    added = {name: table_addition_ft(feet, now_c) for name, feet in heights.items()}
    amounts = ", ".join(f"{quantity(feet, 'ft')} for the {name}" for name, feet in added.items())
    rows = [(quantity(t, "°C"), *(quantity(table_addition_ft(feet, t), "ft") for feet in heights.values()))
            for t in PRINTED_C]
    finding = (f"The colder the air and the higher above the airport, the more is added: at {quantity(now_c, '°C')} "
               f"{amounts}.")
    html = figure("cold-figure", _draw, headers=["airport", *heights], rows=rows, finding=finding,
                  data=(heights, now_c, limit_c))
    return Shown(html, {name: Value.of(feet, "ft") for name, feet in added.items()})


def _heights_ft(approach: Approach) -> dict[str, float]:
    """What is corrected, with its height above the airport, at most that of the last column."""
    altitudes = {row.kind: row.altitude_ft for row in (best_row(approach),) if row is not None}
    altitudes["FAF"] = role_of(approach, "PFAF").altitude_ft or 0.0
    if approach.chart.missed is not None:
        altitudes["missed approach"] = approach.chart.missed.altitude_ft
    return {name: min(HIGHEST_COLUMN_FT, above_airport_ft(approach, feet)) for name, feet in altitudes.items()}


def _draw(axes: Any, data: tuple[Mapping[str, float], float, float | None]) -> None:
    heights, now_c, limit_c = data
    for colour, (name, feet) in zip(("third", "first", "second"), heights.items(), strict=False):
        axes.plot(TEMPERATURES_C, [table_addition_ft(feet, t) for t in TEMPERATURES_C], color=COLOURS[colour])
        _note(axes, name, NAMED_AT_C, feet, colour)
        axes.plot(now_c, table_addition_ft(feet, now_c), "o", color=COLOURS["answer"])
        _note(axes, quantity(table_addition_ft(feet, now_c), "ft"), now_c, feet, "answer", weight="bold")
    if limit_c is not None:
        axes.axvline(limit_c, color=COLOURS["ink"], linestyle="--", linewidth=1.2)
        axes.annotate("← correct", (limit_c, axes.get_ylim()[1] * 0.93), xytext=(5, 0),
                      textcoords="offset points", fontsize=8)
    axes.set(xlabel="airport, °C", ylabel="addition by the table, ft", xlim=(-50, 15), ylim=(0, None))


def _note(axes: Any, text: str, temperature_c: float, feet: float, colour: str, **more: str) -> None:
    axes.annotate(text, (temperature_c, table_addition_ft(feet, temperature_c)), xytext=(6, 4),
                  textcoords="offset points", color=COLOURS[colour], **more)
