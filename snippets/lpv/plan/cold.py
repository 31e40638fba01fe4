"""Planning: what cold adds to every altitude of an approach, by the FAA's two methods.

Heights count from the airport.  A segment's addition is the table value to the nearest 100 ft, a minimum's
the table value itself, never rounded down (AIM 7-3-5.e).  All segments (7-3-5.f.1): the PFAF's height for
everything up to the PFAF, each minimum's own height for it, the final altitude's height for the missed
approach.  Individual segments (7-3-5.f.2): the IF's height for the initial segment, the PFAF's for the
intermediate one, and only the segments that the list of cold temperature airports marks.

Step-downs after the PFAF take the addition of the highest straight-in line, which is never less than
that of the line flown.  The SBAS glidepath itself needs none (7-3-3.c.3, note).
"""

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass

from lpv.air.altimetry import minimum_addition_ft, segment_addition_ft
from lpv.approach.record import Approach
from lpv.approach.schema import Fix, Minima
from lpv.core.errors import DomainError

Addition = Callable[[float], float]  # temperature at the airport (°C) -> ft; -50 to 60 °C, else DomainError
SEGMENTS = ("initial", "intermediate", "final", "missed")
BOUND_RULES = ("at", "at or above", "at or below")


@dataclass(frozen=True)
class ColdAltitude:
    """A charted altitude in cold: its segment, and what is added to it (None: this segment is not corrected)."""

    name: str
    segment: str
    charted_ft: float
    addition_ft: float | None

    @property
    def corrected_ft(self) -> float:
        """The altitude to use."""
        return self.charted_ft + (self.addition_ft or 0.0)


def is_cold(approach: Approach, temperature_c: float) -> bool:
    """Whether the chart asks for corrections: it names a temperature, and this one is at or under it (7-3-5.b)."""
    limit_c = approach.chart.cold_temperature_airport_c
    return limit_c is not None and temperature_c <= limit_c


def to_fix(approach: Approach, fix: Fix) -> Addition:
    """What is added to the altitudes of a segment by a fix's height; DomainError, once asked, if it has no altitude."""

    def addition_ft(temperature_c: float) -> float:
        if fix.altitude_ft is None:
            raise DomainError(f"altitude at {fix.name}: found none; allowed: a number.")
        return segment_addition_ft(_above_airport_ft(approach, fix.altitude_ft), temperature_c)

    return addition_ft


def to_pfaf(approach: Approach) -> Addition:
    """What is added up to and at the PFAF, by the PFAF's height; as `to_fix`.  AIM 7-3-5.f.1 (FAA)."""
    return to_fix(approach, approach.pfaf)


def to_minimum(approach: Approach, line: Minima) -> Addition:
    """What is added to a line's DA or MDA, by its own height; AIM 7-3-5.e (FAA)."""
    height_ft = _above_airport_ft(approach, line.altitude_ft)
    return lambda temperature_c: minimum_addition_ft(height_ft, temperature_c)


def to_step_down(approach: Approach) -> Addition:
    """What is added at a step-down after the PFAF: that of the highest straight-in line; DomainError without lines."""

    def addition_ft(temperature_c: float) -> float:
        line = highest_line(approach)
        if line is None:
            raise DomainError("lines of minima: found none; allowed: one, for the step-downs after the PFAF.")
        return to_minimum(approach, line)(temperature_c)

    return addition_ft


def to_missed(approach: Approach, altitude_ft: float) -> Addition:
    """What is added to the final altitude of the missed approach, by its height."""
    height_ft = _above_airport_ft(approach, altitude_ft)
    return lambda temperature_c: segment_addition_ft(height_ft, temperature_c)


def altitudes(approach: Approach) -> Iterator[tuple[str, str, float, Addition]]:
    """Every charted altitude that is corrected, in the order flown: (name, segment, ft, addition "all segments")."""
    chart, segments = approach.chart, _segment_of(approach)
    up_to_pfaf, inside = to_pfaf(approach), to_step_down(approach)
    for fix in chart.fixes:
        segment = segments[fix.name]
        bound = fix.role == "PFAF" or fix.altitude_rule in BOUND_RULES
        if fix.altitude_ft is not None and bound and segment != "missed":
            yield fix.name, segment, fix.altitude_ft, inside if segment == "final" else up_to_pfaf
    for line in chart.minima:
        yield f"{line.line} {line.kind}", "final", line.altitude_ft, to_minimum(approach, line)
    if chart.missed is not None:
        yield "missed approach", "missed", chart.missed.altitude_ft, to_missed(approach, chart.missed.altitude_ft)


def all_segments(approach: Approach, temperature_c: float) -> list[ColdAltitude]:
    """Every charted altitude with its addition by the method "all segments", in the order flown.

    -50 to 60 °C, altitudes up to 30 000 ft above the airport; DomainError outside, and for a PFAF without
    an altitude.  AIM 7-3-5.f.1 (FAA).
    """
    return [ColdAltitude(name, segment, altitude_ft, addition_ft(temperature_c))
            for name, segment, altitude_ft, addition_ft in altitudes(approach)]


def individual_segments(
    approach: Approach, temperature_c: float, marked: Collection[str] = SEGMENTS
) -> list[ColdAltitude]:
    """Every charted altitude with its addition by the method "individual segments", in the order flown.

    marked: the segments that the list of cold temperature airports marks, names out of SEGMENTS.
    Domain as `all_segments`; DomainError too where the initial segment is marked and there is no altitude at
    the IF.  AIM 7-3-5.f.2 (FAA).
    """
    unknown = sorted(set(marked) - set(SEGMENTS))
    if unknown:
        raise DomainError(f"segment: found {unknown[0]}; allowed: {', '.join(SEGMENTS)}.")
    initial = to_fix(approach, _intermediate_fix(approach)) if "initial" in marked else None
    found = []
    for name, segment, altitude_ft, addition_ft in altitudes(approach):
        by = initial if segment == "initial" and initial else addition_ft
        found.append(ColdAltitude(name, segment, altitude_ft, by(temperature_c) if segment in marked else None))
    return found


def _intermediate_fix(approach: Approach) -> Fix:
    found = [fix for fix in approach.chart.fixes if fix.role == "IF"]
    if not found:
        raise DomainError("IF: found none among the fixes; allowed: one, for the initial segment's height.")
    return found[0]


def _above_airport_ft(approach: Approach, altitude_ft: float) -> float:
    return max(0.0, altitude_ft - approach.chart.airport_elevation_ft)


def minimum_ft(approach: Approach, line: Minima, temperature_c: float) -> float:
    """What is added to a line's DA or MDA, ft, by its own height; AIM 7-3-5.e (FAA).  -50 to 60 °C."""
    return to_minimum(approach, line)(temperature_c)


def highest_line(approach: Approach) -> Minima | None:
    """The highest straight-in line: whoever flies it levels at the step-downs; None without lines of minima."""
    lines = [line for line in approach.chart.minima if line.line != "circling"]
    return max(lines or approach.chart.minima, key=lambda line: line.altitude_ft, default=None)


def _segment_of(approach: Approach) -> dict[str, str]:
    """Name of the fix -> its segment; the IF itself still belongs to the initial one."""
    found, segment = {}, "initial"
    roles = [fix.role for fix in approach.chart.fixes]
    if "IF" not in roles:
        segment = "intermediate"
    for fix in approach.chart.fixes:
        found[fix.name] = "missed" if fix.role in ("missed", "missed hold") else segment
        segment = {"IF": "intermediate", "PFAF": "final"}.get(fix.role, segment)
    return found
