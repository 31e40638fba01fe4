"""The cold-temperature section of a briefing: additions by the FAA's rule for all segments.

The rule (AIM 7-3-5): the PFAF's height gives the addition for the altitudes from the IAF to the PFAF, the
height of the DA or MDA that of the minimum and of the step-downs after the PFAF, the height of the missed
approach's final altitude that of this altitude alone.  All heights are above the airport.
"""

from collections.abc import Callable
from functools import partial

from lpv.air.altimetry import TABLE_TEMPERATURES_C
from lpv.approach.record import Approach
from lpv.core.text import number, quantity, signed
from lpv.crosscheck.coded import FROM_THE_CHART
from lpv.decide.cold import (
    addition_of,
    altitude_addition_ft,
    charted_altitudes,
    missed_addition_ft,
    pfaf_addition_ft,
)
from lpv.decide.final_path import has_glidepath
from lpv.decide.lines import highest_row, rows_of
from lpv_site.briefing import numbers

Addition = Callable[[float], float]  # temperature at the airport (°C) -> ft
WARMEST_SHOWN_C = -10.0
COLUMNS = 3


def cold(approach: Approach) -> str:
    """Cold-temperature additions by the FAA's rule for all segments, and the altitudes they give."""
    return numbers.titled("Cold temperature", "cold", lambda: _cold(approach))


def _cold(approach: Approach) -> str:
    limit_c = approach.chart.cold_temperature_airport_c
    requirement = (
        f"The chart requires it at {quantity(limit_c, 'deg C')} and below." if limit_c is not None
        else f"The temperature for it is {FROM_THE_CHART}."
        if numbers.is_awaited(approach, "cold_temperature_airport_c")
        else "The chart prints no cold temperature; in extreme cold you may still ask." if _by_the_faa(approach)
        else "The chart prints no cold temperature: the State and the operator say when to correct."
    )
    unasked = limit_c is None and _by_the_faa(approach)
    spoken = "ask the controller before you correct any altitude" if unasked else (
        "tell the controller which altitudes you correct")
    path = " The SBAS glidepath needs no correction." if has_glidepath(approach) else ""
    return (
        f"{requirement} {_whose(approach)}; never move the altimeter setting, and {spoken} "
        f"outside the final.{path}\n\n{_additions(approach)}"
        f"\nCorrected altitudes, in ft; between two temperatures take the colder.{_step_downs(approach)}\n\n"
        f"{_corrected(approach, limit_c)}"
        "\nFAA, AIM 7-3-5: to the FAF and in the missed approach, to the nearest hundred; a DA or MDA "
        "never rounded down: between the columns of the table, the larger of its formula (from "
        "memory) and of interpolation, rounded up. Elsewhere the State's and the operator's rule comes "
        "first.\n"
    )


def _by_the_faa(approach: Approach) -> bool:
    return approach.identity.rule == "FAA"


def _whose(approach: Approach) -> str:
    """Whose rule the additions follow; a chart by other rules is told so."""
    if _by_the_faa(approach):
        return "Add, in ft, by the FAA's rule for all segments"
    rule = approach.identity.rule
    return f"The chart follows {rule}; what to add, in ft, is shown by the FAA's rule for all segments"


def _step_downs(approach: Approach) -> str:
    if all(fix.role != "step-down" for fix in approach.final_fixes):
        return ""
    row = highest_row(approach)
    name = row.line if row else FROM_THE_CHART
    return f" Step-downs after the FAF take the addition of the highest straight-in line, {name}."


def additions(approach: Approach) -> dict[str, Addition]:
    """What of the approach is corrected together -> what a temperature adds to it, all segments."""
    missed = approach.chart.missed
    groups: dict[str, Addition] = {"to FAF": partial(pfaf_addition_ft, approach)}
    rows_of_level = rows_of(approach, approach.identity.level_of_service)
    for row in rows_of_level:
        name = f"{row.line} {row.kind}" + (f" {row.categories}" if len(rows_of_level) > 1 else "")
        groups[name] = partial(altitude_addition_ft, approach, row.altitude_ft)
    if missed is not None:
        groups["missed"] = partial(missed_addition_ft, approach, missed.altitude_ft)
    return groups


def _additions(approach: Approach) -> str:
    groups = additions(approach)
    rows = [
        [signed(temperature_c, ""), *(_sum(0.0, addition, temperature_c) for addition in groups.values())]
        for temperature_c in TABLE_TEMPERATURES_C
    ]
    return numbers.numbers_table(["airport, °C", *groups], rows)


def shown_c(limit_c: float | None) -> list[float]:
    """The temperatures of the table that are shown: where the chart asks for corrections, the warmest first."""
    warmest_c = WARMEST_SHOWN_C if limit_c is None else limit_c
    shown = [temperature_c for temperature_c in TABLE_TEMPERATURES_C if temperature_c <= warmest_c][:COLUMNS]
    return shown if len(shown) == COLUMNS else list(TABLE_TEMPERATURES_C[-COLUMNS:])


def _corrected(approach: Approach, limit_c: float | None) -> str:
    shown = shown_c(limit_c)
    rows = [
        [f"{name} {number(altitude_ft)}", *(
            _sum(altitude_ft, partial(addition_of, approach, kind, altitude_ft), temperature_c)
            for temperature_c in shown
        )]
        for name, _, altitude_ft, kind in charted_altitudes(approach)
    ]
    return numbers.numbers_table(["charted", *(f"{number(temperature_c)}°C" for temperature_c in shown)], rows)


def _sum(altitude_ft: float, addition: Addition, temperature_c: float) -> str:
    """An altitude with its addition, or in words that it cannot be computed."""
    return numbers.computed_text(lambda: number(altitude_ft + addition(temperature_c)))
