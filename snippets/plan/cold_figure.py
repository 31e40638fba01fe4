"""What cold adds at the cold demo airport, against temperature: minimum, PFAF and missed approach."""

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from lpv.air.altimetry import HIGHEST_COLUMN_FT, table_addition_ft
from lpv.approach.record import Approach
from lpv.core.text import quantity
from lpv.decide.cold import above_airport_ft, altitude_addition_ft, role_of
from lpv.decide.lines import best_row
from lpv.plan.case import cold_of
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.pages.plan_sheet import cases
from lpv_site.text.shown import Shown, Value

TEMPERATURES_C, NAMED_AT_C, PRINTED_C = range(-50, 20, 5), -45, range(0, -60, -10)
Addition = Callable[[float], float]


def show() -> Shown:
    """The figure, for the first scenario that is corrected for cold, else the first; values: the day's additions."""
    case = next((case for case in cases() if cold_of(case).due), cases()[0])
    now_c, limit_c = case.scenario.flight.temperature_c, case.approach.chart.cold_temperature_airport_c
    additions = _additions(case.approach)
    added = {name: addition_ft(now_c) for name, addition_ft in additions.items()}
    amounts = ", ".join(f"{quantity(feet, 'ft')} for the {name}" for name, feet in added.items())
    rows = [(quantity(t, "°C"), *(quantity(addition_ft(t), "ft") for addition_ft in additions.values()))
            for t in PRINTED_C]
    finding = (f"The colder the air and the higher above the airport, the more is added: at {quantity(now_c, '°C')} "
               f"{amounts}.")
    html = figure("cold-figure", _draw, headers=["airport", *additions], rows=rows, finding=finding,
                  data=(additions, now_c, limit_c))
    return Shown(html, {name: Value.of(feet, "ft") for name, feet in added.items()})


def _additions(approach: Approach) -> dict[str, Addition]:
    """What is corrected, with what the table adds to it by temperature: to a minimum never less than it reads."""
    def by_table(altitude_ft: float) -> Addition:
        return partial(table_addition_ft, min(HIGHEST_COLUMN_FT, above_airport_ft(approach, altitude_ft)))

    best, pfaf_ft, missed = best_row(approach), role_of(approach, "PFAF").altitude_ft, approach.chart.missed
    additions: dict[str, Addition] = {}
    if best is not None:
        additions[best.kind] = partial(altitude_addition_ft, approach, best.altitude_ft)
    if pfaf_ft is not None:
        additions["FAF"] = by_table(pfaf_ft)
    if missed is not None:
        additions["missed approach"] = by_table(missed.altitude_ft)
    return additions


def _draw(axes: Any, data: tuple[Mapping[str, Addition], float, float | None]) -> None:
    additions, now_c, limit_c = data
    colours = iter(("third", "first", "second"))
    note = {"textcoords": "offset points"}
    for name, addition_ft in additions.items():
        colour = COLOURS[next(colours)]
        axes.plot(TEMPERATURES_C, [addition_ft(t) for t in TEMPERATURES_C], color=colour)
        axes.annotate(name, (NAMED_AT_C, addition_ft(NAMED_AT_C)), xytext=(6, 4), color=colour, **note)
        now = now_c, addition_ft(now_c)
        axes.plot(*now, "o", color=COLOURS["answer"])
        axes.annotate(quantity(addition_ft(now_c), "ft"), now, xytext=(6, 4), color=COLOURS["answer"], weight="bold",
                      **note)
    axes.set(xlabel="airport, °C", ylabel="addition by the table, ft", ylim=(0, None),
             xlim=(min(TEMPERATURES_C), max(TEMPERATURES_C)))
    if limit_c is not None:
        axes.axvline(limit_c, color=COLOURS["ink"], linestyle="--", linewidth=1.2)
        axes.annotate("← correct", (limit_c, max(axes.get_ylim())), xytext=(5, -12), fontsize=8, **note)
