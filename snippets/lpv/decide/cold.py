"""One decision about cold: whether altitudes are corrected, by whose rule, and by how much at each place.

Whether: a temperature in the approach file (the FAA's list of cold temperature airports) or in the operator's rules
decides.  Where neither is stated nobody has decided: from `cold_without_rule_c` down the answer is `resolve`, with the
amounts that a correction would add, never `ok`.

How much: the FAA's table and rounding (AIM 7-3-5), heights above the airport.  A segment's addition is the table value
to the nearest 100 ft, a minimum's the table value itself, never rounded down (7-3-5.e).  "All segments" (7-3-5.f.1):
the PFAF's height for everything up to the PFAF, each minimum's own height for it, the final altitude's height for the
missed approach.  "Individual segments" (7-3-5.f.2): the IF's height for the initial segment, the PFAF's for the
intermediate one, and only the segments that the list marks.  Step-downs after the PFAF take the addition of the
highest straight-in line, which is never less than that of the line flown.  The SBAS glidepath itself needs none
(7-3-3.c.3, note).

`approach` and `operator` are records, or the same from their JSON form (`lpv.core.record`).
"""

from lpv.air.altimetry import minimum_addition_ft, segment_addition_ft
from lpv.core.errors import DomainError, in_range
from lpv.core.text import quantity
from lpv.decide.lines import categories_beside, highest_row
from lpv.facts import value

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.aircraft.schema import Operator
    from lpv.approach.record import Approach
    from lpv.approach.schema import Fix, Minima
    from lpv.core.findings import Grade

SEGMENTS = ("initial", "intermediate", "final", "missed")
BOUND_RULES = ("at", "at or above", "at or below")
AIM = "FAA, AIM 7-3-5"


class Cold:
    """Whether altitudes are corrected for cold today.

    due:      True where a rule asks for it, False where a rule or the warmth says no, None where nobody has decided
    grade:    ok (not due), note (due), resolve (nobody has decided) or not compared (no temperature, or not read)
    reason:   in words;  rule: whose, "" where there is none
    segments: the segments that are corrected, names out of SEGMENTS
    """

    def __init__(
        self, due: "bool | None", grade: "Grade", reason: str, rule: str = "",
        segments: "tuple[str, ...]" = SEGMENTS,
    ) -> None:
        self.due, self.grade, self.reason, self.rule, self.segments = due, grade, reason, rule, segments

    def corrects(self, segment: str) -> bool:
        """Whether a segment is corrected by a rule."""
        return self.due is True and segment in self.segments

    def questions(self, segment: str) -> bool:
        """Whether nobody has decided about a segment that a correction would change."""
        return self.due is None and segment in self.segments


def cold(
    approach: "Approach", temperature_c: "float | None", operator: "Operator | None" = None,
    segments: "tuple[str, ...]" = (),
) -> Cold:
    """Whether altitudes of an approach are corrected at a temperature reported at the airport (-80 to 60 °C).

    operator: with `cold_from_c`, its own temperature for corrections, or None;  segments: those that the FAA's list of
    cold temperature airports marks, () for all.  DomainError for a temperature or a segment outside.
    """
    marked = _marked(segments)
    if temperature_c is None:
        return Cold(None, "not compared", "No temperature is stated.", "", marked)
    in_range("temperature", temperature_c, -80.0, 60.0, "°C")
    chart_c = approach.chart.cold_temperature_airport_c
    own_c = operator.cold_from_c if operator else None
    now = quantity(temperature_c, "°C")
    if chart_c is not None and temperature_c <= chart_c:
        return Cold(True, "note", f"{now}: the chart asks for it at {quantity(chart_c, '°C')} and below.", AIM, marked)
    if own_c is not None and temperature_c <= own_c:
        return Cold(True, "note", f"{now}: the operator corrects at {quantity(own_c, '°C')} and below.",
                    "the operator's rule")
    stated = [f"{whose} {quantity(limit_c, '°C')}" for whose, limit_c in (("the chart's", chart_c),
              ("the operator's", own_c)) if limit_c is not None]
    if stated:
        return Cold(False, "ok", f"{now} is warmer than {' and '.join(stated)}.", "", marked)
    return _without_rule(approach, temperature_c, now)


def _without_rule(approach: "Approach", temperature_c: float, now: str) -> Cold:
    """What to say where no temperature for corrections is stated."""
    if "cold_temperature_airport_c" in approach.chart.to_be_filled:
        reason = f"{now}: whether the chart asks for corrections has not been read from it."
        return Cold(None, "resolve" if _is_questionable(temperature_c) else "not compared", reason)
    if _is_questionable(temperature_c):
        whose = ("The chart prints no temperature for corrections; in extreme cold a crew may ask for them."
                 if approach.identity.rule == "FAA" else
                 "The file holds no State's or operator's rule that says from when altitudes are corrected.")
        return Cold(None, "resolve", f"{now}: {whose}")
    return Cold(False, "ok", f"{now} is warmer than {quantity(value('cold_without_rule_c'), '°C')}.",
                "this handbook's own limit")


def _is_questionable(temperature_c: float) -> bool:
    return temperature_c <= value("cold_without_rule_c")


def _marked(segments: "tuple[str, ...]") -> "tuple[str, ...]":
    for segment in segments:
        if segment not in SEGMENTS:
            raise DomainError(f"segment: found {segment}; allowed: {', '.join(SEGMENTS)}.")
    return tuple(segments) or SEGMENTS


def above_airport_ft(approach: "Approach", altitude_ft: float) -> float:
    """Height above the airport, ft, from which additions are taken; 0 for an altitude below it."""
    return max(0.0, altitude_ft - approach.chart.airport_elevation_ft)


def fix_addition_ft(approach: "Approach", fix: "Fix", temperature_c: float) -> float:
    """What is added to the altitudes of a segment, by a fix's height; DomainError where the fix has no altitude."""
    if fix.altitude_ft is None:
        raise DomainError(f"altitude at {fix.name}: found none; allowed: a number.")
    return segment_addition_ft(above_airport_ft(approach, fix.altitude_ft), temperature_c)


def pfaf_addition_ft(approach: "Approach", temperature_c: float) -> float:
    """What is added up to and at the PFAF, by the PFAF's height; as `fix_addition_ft`.  AIM 7-3-5.f.1 (FAA)."""
    return fix_addition_ft(approach, role_of(approach, "PFAF"), temperature_c)


def altitude_addition_ft(approach: "Approach", altitude_ft: float, temperature_c: float) -> float:
    """What is added to a DA or MDA, by its own height above the airport; AIM 7-3-5.e (FAA)."""
    return minimum_addition_ft(above_airport_ft(approach, altitude_ft), temperature_c)


def missed_addition_ft(approach: "Approach", altitude_ft: float, temperature_c: float) -> float:
    """What is added to the final missed approach altitude, by its own height; AIM 7-3-5.f (FAA)."""
    return segment_addition_ft(above_airport_ft(approach, altitude_ft), temperature_c)


def step_down_addition_ft(approach: "Approach", temperature_c: float) -> float:
    """What is added at a step-down after the PFAF: that of the highest straight-in line; DomainError without one."""
    row = highest_row(approach)
    if row is None:
        raise DomainError("lines of minima: found none; allowed: one, for the step-downs after the FAF.")
    return altitude_addition_ft(approach, row.altitude_ft, temperature_c)


class ColdAltitude:
    """A charted altitude in cold: its name, segment, altitude, and what is added (None: segment not corrected)."""

    def __init__(self, name: str, segment: str, charted_ft: float, addition_ft: "float | None") -> None:
        self.name, self.segment, self.charted_ft, self.addition_ft = name, segment, charted_ft, addition_ft

    @property
    def corrected_ft(self) -> float:
        """The altitude to use."""
        return self.charted_ft + (self.addition_ft or 0.0)


def all_segments(approach: "Approach", temperature_c: float) -> "list[ColdAltitude]":
    """Every charted altitude with its addition by the method "all segments", in the order flown.

    -50 to 60 °C, altitudes up to 30 000 ft above the airport; DomainError outside, and for a PFAF without
    an altitude.  AIM 7-3-5.f.1 (FAA).
    """
    return _corrected(approach, temperature_c, SEGMENTS, None)


def individual_segments(
    approach: "Approach", temperature_c: float, marked: "tuple[str, ...]" = SEGMENTS
) -> "list[ColdAltitude]":
    """Every charted altitude with its addition by the method "individual segments", in the order flown.

    marked: the segments that the list of cold temperature airports marks.  Domain as `all_segments`; DomainError too
    where the initial segment is marked and there is no altitude at the IF.  AIM 7-3-5.f.2 (FAA).
    """
    marked = _marked(marked)
    initial_ft = fix_addition_ft(approach, role_of(approach, "IF"), temperature_c) if "initial" in marked else None
    return _corrected(approach, temperature_c, marked, initial_ft)


def _corrected(
    approach: "Approach", temperature_c: float, marked: "tuple[str, ...]", initial_ft: "float | None",
) -> "list[ColdAltitude]":
    rows = []
    for name, segment, altitude_ft, kind in charted_altitudes(approach):
        addition_ft = None
        if segment in marked:
            addition_ft = addition_of(approach, kind, altitude_ft, temperature_c)
            if segment == "initial" and initial_ft is not None:
                addition_ft = initial_ft
        rows.append(ColdAltitude(name, segment, altitude_ft, addition_ft))
    return rows


def addition_of(approach: "Approach", kind: str, altitude_ft: float, temperature_c: float) -> float:
    """What is added to a charted altitude of a kind ("to the PFAF", "step-down", "minimum", "missed approach")."""
    if kind == "to the FAF":
        return pfaf_addition_ft(approach, temperature_c)
    if kind == "step-down":
        return step_down_addition_ft(approach, temperature_c)
    if kind == "minimum":
        return altitude_addition_ft(approach, altitude_ft, temperature_c)
    return missed_addition_ft(approach, altitude_ft, temperature_c)


def charted_altitudes(approach: "Approach") -> "list[tuple[str, str, float, str]]":
    """Every charted altitude that a correction changes, in the order flown: (name, segment, ft, kind of addition)."""
    chart, rows = approach.chart, []
    for fix, segment, altitude_ft in fixes_to_correct(approach):
        rows.append((fix.name, segment, altitude_ft, "step-down" if segment == "final" else "to the FAF"))
    for row in chart.minima:
        rows.append((_minimum_name(approach, row), "final", row.altitude_ft, "minimum"))
    if chart.missed is not None:
        rows.append(("missed approach", "missed", chart.missed.altitude_ft, "missed approach"))
    return rows


def fixes_to_correct(approach: "Approach") -> "list[tuple[Fix, str, float]]":
    """The fixes up to the threshold whose altitude a correction changes: (fix, segment, ft), in the order flown."""
    rows = []
    for fix, segment in fixes_by_segment(approach):
        is_bound = fix.role == "PFAF" or fix.altitude_rule in BOUND_RULES
        if fix.altitude_ft is not None and is_bound and segment != "missed":
            rows.append((fix, segment, fix.altitude_ft))
    return rows


def _minimum_name(approach: "Approach", row: "Minima") -> str:
    """A row of minima in a few characters; with its categories where its line has several."""
    return f"{row.line} {row.kind} {categories_beside(approach, row)}".rstrip()


def role_of(approach: "Approach", role: str) -> "Fix":
    """The first fix with a role; DomainError where there is none."""
    for fix in approach.chart.fixes:
        if fix.role == role:
            return fix
    raise DomainError(f"{role}: found none among the fixes; allowed: one.")


def fixes_by_segment(approach: "Approach") -> "list[tuple[Fix, str]]":
    """Each fix with its segment; the IF itself still belongs to the initial one."""
    roles = [fix.role for fix in approach.chart.fixes]
    segment, rows = "initial" if "IF" in roles else "intermediate", []
    for fix in approach.chart.fixes:
        rows.append((fix, "missed" if fix.role in ("missed", "missed hold") else segment))
        if fix.role == "IF":
            segment = "intermediate"
        elif fix.role == "PFAF":
            segment = "final"
    return rows
