"""The cold-temperature section of a briefing: additions by the FAA's rule for all segments.

The rule (AIM 7-3-5): the PFAF's height gives the addition for the altitudes from the IAF to the PFAF, the
height of the DA or MDA that of the minimum and of the step-downs after the PFAF, the height of the missed
approach's final altitude that of this altitude alone.  All heights are above the airport.
"""

from collections.abc import Callable, Iterator

from lpv.altimetry import TABLE_TEMPERATURES_C, minimum_addition_ft, segment_addition_ft
from lpv.approach import Approach
from lpv.approach_schema import Minima
from lpv.crosscheck_coded import FROM_THE_CHART
from lpv.errors import DomainError
from render import briefing_numbers as of
from render.text import number, quantity, signed

BOUND_RULES = ("at", "at or above", "at or below")
WARMEST_SHOWN_C = -10.0
COLUMNS = 3
Addition = Callable[[float], float]


def highest_line(approach: Approach) -> Minima:
    """The highest straight-in line: whoever flies it levels at the step-downs."""
    lines = [line for line in approach.chart.minima if line.line != "circling"]
    return max(lines or [of.best_line(approach)], key=lambda line: line.altitude_ft)


def to_pfaf(approach: Approach) -> Addition:
    """Temperature (°C) -> addition (ft) for the altitudes up to and at the PFAF, by the PFAF's height."""
    altitude_ft = approach.pfaf.altitude_ft

    def addition_ft(temperature_c: float) -> float:
        if altitude_ft is None:
            raise DomainError("altitude at the PFAF: found none; allowed: a number.")
        return segment_addition_ft(of.above_airport_ft(approach, altitude_ft), temperature_c)

    return addition_ft


def to_minimum(approach: Approach, line: Minima) -> Addition:
    """Temperature (°C) -> addition (ft) for a DA or MDA, by its own height."""
    height_ft = of.above_airport_ft(approach, line.altitude_ft)
    return lambda temperature_c: minimum_addition_ft(height_ft, temperature_c)


def to_step_down(approach: Approach) -> Addition:
    """Temperature (°C) -> addition (ft) for a step-down after the PFAF, by the highest straight-in line."""
    return lambda temperature_c: to_minimum(approach, highest_line(approach))(temperature_c)


def to_missed(approach: Approach, altitude_ft: float) -> Addition:
    """Temperature (°C) -> addition (ft) for the final altitude of the missed approach, by its height."""
    height_ft = of.above_airport_ft(approach, altitude_ft)
    return lambda temperature_c: segment_addition_ft(height_ft, temperature_c)


def altitudes(approach: Approach) -> Iterator[tuple[str, float, Addition]]:
    """Every charted altitude that is corrected: (its name, ft, its addition)."""
    inside = [fix.name for fix in approach.final_fixes[1:]]
    for fix in approach.chart.fixes:
        bound = fix.role == "PFAF" or fix.altitude_rule in BOUND_RULES
        if fix.altitude_ft is not None and bound and fix.role not in ("missed", "missed hold"):
            lower = fix.name in inside
            addition = to_step_down(approach) if lower else to_pfaf(approach)
            yield fix.name, fix.altitude_ft, addition
    for line in approach.chart.minima:
        yield f"{line.line} {line.kind}", line.altitude_ft, to_minimum(approach, line)
    if (missed := approach.chart.missed) is not None:
        yield "missed approach", missed.altitude_ft, to_missed(approach, missed.altitude_ft)


def cold(approach: Approach) -> str:
    """Cold-temperature additions by the FAA's rule for all segments, and the altitudes they give."""
    return of.titled("Cold temperature", "cold", lambda: _cold(approach))


def _cold(approach: Approach) -> str:
    limit_c = approach.chart.cold_temperature_airport_c
    asked = (
        f"The chart asks for it at {quantity(limit_c, 'deg C')} and below." if limit_c is not None
        else f"The temperature for it is {FROM_THE_CHART}." if of.is_awaited(approach, "cold_temperature_airport_c")
        else "The chart prints no temperature for it; in extreme cold a crew may still ask." if _by_the_faa(approach)
        else "The chart prints no temperature for it: from when to add, the State and the operator say."
    )
    path = " The SBAS glidepath needs no correction." if of.has_path(approach) else ""
    return (
        f"{asked} {_whose(approach)}; never move the altimeter setting, and tell the "
        f"controller which altitudes you correct outside the final.{path}\n\n{_additions(approach)}"
        f"\nCorrected altitudes, in ft; between two temperatures take the colder.{_step_downs(approach)}\n\n"
        f"{_corrected(approach, limit_c)}"
        "\nFAA, AIM 7-3-5: to the PFAF and in the missed approach to the nearest hundred; a DA or MDA never "
        "rounded down: between the columns of the cold temperature error table the larger of its formula (from "
        "memory) and of its interpolated cells, rounded up. Elsewhere the State's and the operator's rule comes "
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
    line = highest_line(approach).line if approach.chart.minima else FROM_THE_CHART
    return f" Step-downs after the PFAF take the addition of the highest straight-in line, {line}."


def _additions(approach: Approach) -> str:
    missed = approach.chart.missed
    groups = {"to PFAF": to_pfaf(approach)}
    if approach.chart.minima:
        best = of.best_line(approach)
        groups[f"{best.line} {best.kind}"] = to_minimum(approach, best)
    if missed is not None:
        groups["missed"] = to_missed(approach, missed.altitude_ft)
    rows = [
        [signed(temperature_c, ""), *(_sum(0.0, addition, temperature_c) for addition in groups.values())]
        for temperature_c in TABLE_TEMPERATURES_C
    ]
    return of.numbers_table(["airport, °C", *groups], rows)


def _corrected(approach: Approach, limit_c: float | None) -> str:
    warmest_c = WARMEST_SHOWN_C if limit_c is None else limit_c
    shown = [temperature_c for temperature_c in TABLE_TEMPERATURES_C if temperature_c <= warmest_c][:COLUMNS]
    if len(shown) < COLUMNS:
        shown = TABLE_TEMPERATURES_C[-COLUMNS:]
    rows = [
        [f"{name} {number(altitude_ft)}", *(_sum(altitude_ft, addition, temperature_c) for temperature_c in shown)]
        for name, altitude_ft, addition in altitudes(approach)
    ]
    return of.numbers_table(["charted", *(f"{number(temperature_c)}°C" for temperature_c in shown)], rows)


def _sum(altitude_ft: float, addition: Addition, temperature_c: float) -> str:
    """An altitude with its addition, or in words that it cannot be computed."""
    return of.said(lambda: number(altitude_ft + addition(temperature_c)))
