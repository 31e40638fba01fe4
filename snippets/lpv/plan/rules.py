"""Whose rules a flight is planned by, as data: what each set asks of a destination and of an alternate.

A department names one of the sets in its operator file (`lpv.plan.operator`).  Every answer carries the set, the
paragraph and whether its text was read; an answer that rests on a remembered rule is never ok and never a stop.  A
chart is graded by rules of its own authority alone.
"""

from collections.abc import Collection
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Literal

from lpv.core.errors import DomainError, above, in_range
from lpv.core.text import miles, quantity, with_unit
from lpv.core.units import M_PER_SM
from lpv.facts import fact, value, value_of
from lpv.plan.forecast import Forecast, Weather, in_words, meets, visibility_words, worst

if TYPE_CHECKING:
    from lpv.core.findings import Grade

RuleName = Literal["FAA part 91", "FAA part 91K", "FAA part 135", "EASA commercial", "EASA non-commercial"]
Authority = Literal["FAA", "EASA"]
DestinationRule = Literal["14 CFR 91.169", "14 CFR 135.223", "CAT.OP.MPA.180", "not read"]
AlternateRule = Literal["standard", "derived", "planning minima", "not read"]

PRECISION_LINES = ("ILS", "GLS", "PAR")
GROUND_LINES = ("LOC", "VOR", "NDB")
SBAS_LINES = ("LPV", "LP", "LNAV/VNAV", "LNAV", "circling")
KNOWN_LINES = PRECISION_LINES + GROUND_LINES + SBAS_LINES
WITHOUT_GNSS = ("ILS", "PAR", *GROUND_LINES)
C055 = "operations specification C055"
REMEMBERED, OWN = "from memory", "stated by the operator"


@dataclass(frozen=True)
class RuleSet:
    """One set of rules.

    authority:       whose charts it may grade
    destination:     the rule on when an alternate is needed
    alternate:       how the weather asked at an alternate is found
    written_lpv:     whether an approval in writing is asked for LPV
    way_without_gnss: whether one approach without GNSS is asked at the destination or the alternate, of everybody
    remark:          what the reader of an answer is to know
    """

    name: RuleName
    authority: Authority
    destination: DestinationRule
    alternate: AlternateRule
    written_lpv: bool
    way_without_gnss: bool
    remark: str


RULE_SETS: tuple[RuleSet, ...] = (
    RuleSet("FAA part 91", "FAA", "14 CFR 91.169", "standard", False, False, "The rule for everybody."),
    RuleSet("FAA part 91K", "FAA", "14 CFR 91.169", "derived", True, False,
            "Alternate minima and the approval for LPV stand in the management specifications."),
    RuleSet("FAA part 135", "FAA", "14 CFR 135.223", "derived", True, False,
            "Alternate minima and the approval for LPV stand in the operations specifications."),
    RuleSet("EASA commercial", "EASA", "CAT.OP.MPA.180", "planning minima", True, True,
            "Approach ban: with the reported RVR under the minimum not below 1000 ft above the aerodrome, or not into "
            "the final segment where the DA is higher (CAT.OP.MPA.305(b))."),
    RuleSet("EASA non-commercial", "EASA", "not read", "not read", False, False,
            "Of Part-NCO only the table of RVR was read (AMC2 NCO.OP.110)."),
)
NAMES: tuple[RuleName, ...] = tuple(rules.name for rules in RULE_SETS)


def rule_set(name: str) -> RuleSet:
    """The set with this name; DomainError for another."""
    for rules in RULE_SETS:
        if rules.name == name:
            return rules
    raise DomainError(f"rules: found {name}; allowed: {', '.join(NAMES)}.")


@dataclass(frozen=True)
class Ruling:
    """An answer, None where too little is known: why, by which set and paragraph, its source key and status."""

    answer: bool | None
    reason: str
    rule: str
    paragraph: str
    source: str
    status: str

    def grade(self, good: bool, otherwise: "Grade") -> "Grade":
        """ok for the good answer, else `otherwise`; of a remembered rule note and resolve; not compared for none."""
        if self.answer is None:
            return "not compared"
        if self.status == REMEMBERED:
            return "note" if self.answer is good else "resolve"
        return "ok" if self.answer is good else otherwise

    @property
    def why(self) -> str:
        """The reason as a sentence, with rule, paragraph and, where it was not read, that it is from memory."""
        memory = ", from memory: read the rule in force" if self.status == REMEMBERED else ""
        return f"{self.reason[:1].upper()}{self.reason[1:]} ({self.rule}, {self.paragraph}{memory})."


# Is an alternate needed?

@dataclass(frozen=True)
class Destination:
    """What the rules ask about a destination.

    circling_height_ft: lowest circling minimum above the airport, None where circling has no minima
    lowest_height_ft:   lowest published minimum above the airport;  lowest_visibility_sm: its visibility
    runways:            separate usable runways;  flight_h: time of the flight; None where nobody has stated it
    """

    forecast: Forecast
    eta: datetime
    circling_height_ft: float | None = None
    lowest_height_ft: float | None = None
    lowest_visibility_sm: float | None = None
    runways: int | None = None
    flight_h: float | None = None
    has_instrument_approach: bool = True


def alternate_needed(rules: RuleSet, destination: Destination) -> Ruling:
    """Whether a flight needs a destination alternate; DataError where the forecast does not cover the time."""
    if rules.destination == "14 CFR 91.169":
        return _needed_91(rules, destination)
    if rules.destination == "14 CFR 135.223":
        return _needed_135(rules, destination)
    if rules.destination == "CAT.OP.MPA.180":
        return _needed_easa(rules, destination)
    return Ruling(None, "its rule on destination alternates was not read", rules.name, "Part-NCO", "easa-part-nco",
                  REMEMBERED)


def _around(destination: Destination, hours: float) -> Weather:
    span = timedelta(hours=hours)
    return worst(destination.forecast, destination.eta - span, destination.eta + span)


def _needed_91(rules: RuleSet, destination: Destination) -> Ruling:
    """14 CFR 91.169(a) and (b), aeroplanes.

    Needed unless the destination has an instrument approach and, from one hour before to one hour after the ETA, the
    forecast ceiling is at least 2000 ft and the visibility at least 3 SM.
    """
    hours = value("no_alternate_window_h")
    ceiling_ft, visibility_sm = value("no_alternate_ceiling_ft"), value("no_alternate_visibility_sm")
    weather = _around(destination, hours)
    if not destination.has_instrument_approach:
        return Ruling(
            True, "the destination has no instrument approach", rules.name, "14 CFR 91.169(b)", "iph", "published")
    minima_words = _asked(ceiling_ft, visibility_sm)
    reason = f"{in_words(weather)} within {quantity(hours, 'h')} of the ETA; required {minima_words}"
    needed = not meets(weather, ceiling_ft, visibility_sm)
    return Ruling(needed, reason, rules.name, "14 CFR 91.169(b)", "iph", "published")


def _asked(ceiling_ft: float, visibility_sm: float) -> str:
    return f"{quantity(ceiling_ft, 'ft')} and {with_unit(miles(visibility_sm), 'SM')}"


def _needed_135(rules: RuleSet, destination: Destination) -> Ruling:
    """14 CFR 135.223(b), from memory.

    Not needed if from one hour before to one hour after the ETA the ceiling is at least 1500 ft above the lowest
    circling minimum, or without one the higher of 1500 ft above the lowest minimum and 2000 ft above the airport, and
    the visibility at least 3 SM, or 2 SM above the lowest one asked if that is more.
    """
    weather, paragraph = _around(destination, value("no_alternate_window_h")), "14 CFR 135.223(b)"
    lowest_ft, lowest_sm = destination.lowest_height_ft, destination.lowest_visibility_sm
    if lowest_ft is None or lowest_sm is None:
        return Ruling(None, "the lowest minimum and its visibility are not known", rules.name, paragraph, "cfr-14-135",
                      REMEMBERED)
    over_ft = value("part_135_over_minimum_ft")
    ceiling_ft = max(lowest_ft + over_ft, value("no_alternate_ceiling_ft"))
    if destination.circling_height_ft is not None:
        ceiling_ft = destination.circling_height_ft + over_ft
    visibility_sm = max(value("no_alternate_visibility_sm"), lowest_sm + value("part_135_over_visibility_sm"))
    reason = f"{in_words(weather)} within 1 h of the ETA; required {_asked(ceiling_ft, visibility_sm)}"
    needed = not meets(weather, ceiling_ft, visibility_sm)
    return Ruling(needed, reason, rules.name, paragraph, "cfr-14-135", REMEMBERED)


def _needed_easa(rules: RuleSet, destination: Destination) -> Ruling:
    """CAT.OP.MPA.180(b), commercial air transport.

    Not needed for a flight of at most 6 h to two separate usable runways, if from one hour before to one hour after the
    ETA the ceiling is at least 2000 ft, or the circling height plus 500 ft if that is more, and the visibility at least
    5 km.  The half about visibility was not read: an answer that hangs on it is from memory.
    """
    weather = _around(destination, value("easa_no_alternate_window_h"))
    against = list(_against_easa(weather, destination))
    dim = weather.visibility_sm * M_PER_SM < value("easa_no_alternate_visibility_m")
    open_points = [words for number, words in ((destination.runways, "separate runways"), (destination.flight_h,
                   "time of the flight")) if number is None]
    paragraph, source = "CAT.OP.MPA.180(b), later 182", "easa-air-ops"
    if against:
        return Ruling(True, "; ".join(against), rules.name, paragraph, source, "published, quoted")
    if dim:
        least = quantity(value("easa_no_alternate_visibility_m"), "m")
        return Ruling(True, f"visibility under {least}", rules.name, paragraph, source, REMEMBERED)
    if open_points:
        return Ruling(None, f"not stated: {' and '.join(open_points)}", rules.name, paragraph, source, REMEMBERED)
    runways, hours = destination.runways or 0, destination.flight_h or 0.0
    reason = f"{in_words(weather, rules.authority)}, {runways} runways, {quantity(hours, 'h', 0.1)}"
    return Ruling(False, reason, rules.name, paragraph, source, REMEMBERED)


def _against_easa(weather: Weather, destination: Destination) -> list[str]:
    ceiling_ft = _easa_ceiling_ft(destination.circling_height_ft)
    longest_h, least = value("easa_no_alternate_flight_h"), value("easa_no_alternate_runways")
    low = weather.ceiling_ft is not None and weather.ceiling_ft < ceiling_ft
    checks = (
        (low, f"ceiling under {quantity(ceiling_ft, 'ft')}"),
        (destination.runways is not None and destination.runways < least, "fewer than two separate runways"),
        (destination.flight_h is not None and destination.flight_h > longest_h,
         f"a flight of more than {quantity(longest_h, 'h')}"),
    )
    return [words for holds, words in checks if holds]


def _easa_ceiling_ft(circling_height_ft: float | None) -> float:
    """circling_height_ft: 0 to 10 000 where the airport has one; DomainError outside."""
    lowest_ft = value("easa_no_alternate_ceiling_ft")
    if circling_height_ft is None:
        return lowest_ft
    in_range("circling height", circling_height_ft, 0.0, 10000.0, "ft")
    return max(lowest_ft, circling_height_ft + value("easa_circling_margin_ft"))


# May this airport be the alternate?

@dataclass(frozen=True)
class PlannedLine:
    """A line of minima that the alternate may be planned on, the weather that it takes, and whose minima these are."""

    line: str
    ceiling_ft: float
    visibility_sm: float
    whose: str
    paragraph: str
    source: str
    status: str


@dataclass(frozen=True)
class NotPlanned:
    """A line of minima that the alternate may not be planned on, and why."""

    line: str
    reason: str


@dataclass(frozen=True)
class LineMinimum:
    """The landing minimum of a line at an alternate: height above touchdown or airport, visibility, runway or ""."""

    line: str
    height_ft: float
    visibility_sm: float
    runway: str = ""


def plannable_lines(
    lines: Collection[str], baro_vnav_approved: bool
) -> tuple[tuple[PlannedLine, ...], tuple[NotPlanned, ...]]:
    """Which lines at an alternate an SBAS user may plan on by 14 CFR 91.169, the lowest weather first, and which not.

    On LNAV or circling, with the weather of a nonprecision approach; on LNAV/VNAV if barometric
    vertical navigation is approved and used; never on LPV or LP, though either may be flown on arrival
    if shown available (Aeronautical Information Manual 1-1-18.c.9(a)). Approaches with ground aids by
    their kind: 600-2 precision, 800-2 nonprecision. DomainError for an unknown line.
    """
    allowed, refused = _by_equipment(lines, baro_vnav_approved)
    planned = [_standard(line) for line in allowed]
    return tuple(sorted(planned, key=lambda row: row.ceiling_ft)), refused


def _by_equipment(lines: Collection[str], baro_vnav_approved: bool) -> tuple[list[str], tuple[NotPlanned, ...]]:
    allowed, refused = [], []
    for line in sorted(set(lines)):
        reason = _refusal(line, baro_vnav_approved)
        if reason:
            refused.append(NotPlanned(line, reason))
        else:
            allowed.append(line)
    return allowed, tuple(refused)


def _refusal(line: str, baro_vnav_approved: bool) -> str:
    if line not in KNOWN_LINES:
        raise DomainError(f"line: found {line}; allowed: {', '.join(KNOWN_LINES)}.")
    if line in ("LPV", "LP"):
        return f"{line} may be flown there if shown available, but not planned on"
    if line == "LNAV/VNAV" and not baro_vnav_approved:
        return "LNAV/VNAV may be planned on only with approved barometric vertical navigation"
    return ""


def _standard(line: str) -> PlannedLine:
    kind = "precision" if line in PRECISION_LINES else "nonprecision"
    return PlannedLine(
        line, value_of(f"alternate_{kind}_ceiling_ft"), value_of(f"alternate_{kind}_visibility_sm"),
        "standard alternate minima", "14 CFR 91.169(c)", "iph", "published",
    )


@dataclass(frozen=True)
class Additions:
    """What operations specifications add to landing minima for an alternate; the operator's own, or remembered ones."""

    one_ft: float
    one_sm: float
    two_ft: float
    two_sm: float
    own: bool


def remembered_additions() -> Additions:
    """The additions that operations specifications usually hold, from memory."""
    return Additions(
        value("opspec_one_ft"), value("opspec_one_sm"), value("opspec_two_ft"), value("opspec_two_sm"), own=False)


def derived_lines(
    minima: Collection[LineMinimum], baro_vnav_approved: bool, additions: Additions,
) -> tuple[tuple[PlannedLine, ...], tuple[NotPlanned, ...]]:
    """Lines of an alternate with minima derived from its landing minima, as operations specifications do it.

    With one usable approach its height and visibility and an addition; with ground aids to two different runways the
    higher height and visibility of the two and a smaller addition.  Approaches by satellite count for the first rule
    alone: whether they may count for the second was not read.
    """
    allowed, refused = _by_equipment([row.line for row in minima], baro_vnav_approved)
    status = OWN if additions.own else REMEMBERED
    usable = [row for row in minima if row.line in allowed]
    planned = [
        PlannedLine(row.line, row.height_ft + additions.one_ft, row.visibility_sm + additions.one_sm,
                    "alternate minima derived from one approach", C055, "faa-opspecs", status)
        for row in usable
    ]
    pair = _two_runways([row for row in usable if row.line in WITHOUT_GNSS])
    if pair:
        planned.append(PlannedLine(
            " and ".join(f"{row.line} {row.runway}" for row in pair),
            max(row.height_ft for row in pair) + additions.two_ft,
            max(row.visibility_sm for row in pair) + additions.two_sm,
            "alternate minima derived from two approaches", C055, "faa-opspecs", status))
    return tuple(sorted(planned, key=lambda row: row.ceiling_ft)), refused


def _two_runways(rows: list[LineMinimum]) -> list[LineMinimum]:
    """The lowest rows of two different runways; [] without two."""
    best: dict[str, LineMinimum] = {}
    for row in sorted(rows, key=lambda row: row.height_ft):
        if row.runway:
            best.setdefault(row.runway, row)
    return list(best.values())[:2] if len(best) >= 2 else []


def easa_lines(minima: Collection[LineMinimum]) -> tuple[PlannedLine, ...]:
    """Lines of an alternate with the planning minima of EASA's basic fuel scheme, from memory.

    Type B (a DA under 250 ft): 200 ft and 800 m more; type A and circling: 400 ft and 1500 m more.
    """
    planned = []
    for row in minima:
        kind = "b" if row.line not in ("LP", "LNAV", "circling", *GROUND_LINES) and row.height_ft < 250.0 else "a"
        more_m = value_of(f"easa_planning_type_{kind}_m")
        planned.append(PlannedLine(
            row.line, row.height_ft + value_of(f"easa_planning_type_{kind}_ft"), row.visibility_sm + more_m / M_PER_SM,
            f"planning minima of type {kind.upper()}", "AMC to CAT.OP.MPA.182", "easa-air-ops", REMEMBERED))
    return tuple(sorted(planned, key=lambda row: row.ceiling_ft))


def printed_line(planned: PlannedLine, ceiling_ft: float, visibility_sm: float) -> PlannedLine:
    """The same line with the alternate minima that its chart prints in the place of the standard ones."""
    above("ceiling", ceiling_ft, 0.0, "ft")
    above("visibility", visibility_sm, 0.0, "SM")
    return replace(planned, ceiling_ft=ceiling_ft, visibility_sm=visibility_sm, whose="printed alternate minima")


def alternate_allowed(rules: RuleSet, forecast: Forecast, eta: datetime, planned: PlannedLine) -> Ruling:
    """Whether an airport may be listed as alternate on a line, by its forecast at the ETA there.

    EASA's planning minima hold from one hour before to one hour after the ETA there.  DataError for a forecast that
    does not cover the time.
    """
    hours = timedelta(hours=value("easa_no_alternate_window_h") if rules.authority == "EASA" else 0.0)
    weather = worst(forecast, eta - hours, eta + hours)
    needed = f"{quantity(planned.ceiling_ft, 'ft')} and {visibility_words(planned.visibility_sm, rules.authority)}"
    reason = f"{in_words(weather, rules.authority)} at the ETA; {planned.whose} for {planned.line}: {needed}"
    allowed = meets(weather, planned.ceiling_ft, planned.visibility_sm)
    return Ruling(allowed, reason, rules.name, planned.paragraph, planned.source, planned.status)


def way_without_gnss(
    rules: RuleSet, alternate_lines: Collection[str], destination_lines: Collection[str] | None,
) -> Ruling:
    """Whether one approach that is not based on GNSS is left at the destination or the alternate (AMC1 CAT.OP.MPA.182).

    destination_lines: approaches with ground aids at the destination, None where nobody has stated them
    """
    text = fact("easa_way_without_gnss")
    at_alternate = [line for line in alternate_lines if line in WITHOUT_GNSS]
    at_destination = [line for line in destination_lines or () if line in WITHOUT_GNSS]
    answer: bool | None = bool(at_alternate or at_destination)
    if not answer and destination_lines is None:
        answer = None
    reason = (
        f"{', '.join(at_alternate)} at the alternate" if at_alternate
        else f"{', '.join(at_destination)} at the destination" if at_destination
        else "no approach without GNSS at either" if answer is False
        else "none at the alternate; those of the destination are not stated"
    )
    return Ruling(answer, reason, rules.name, text.place, text.source, text.status)
