"""Planning: is an alternate needed, may the listed one be it, and what stands behind the answer; findings.

Every answer is one of `lpv.plan.rules` and names the set, the paragraph and whether its text was read.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lpv.core.findings import Finding, not_compared
from lpv.decide.lines import row_for, straight_in_rows
from lpv.decide.minimum import printed_visibility_sm
from lpv.plan import rules as law
from lpv.plan.case import Case, category, rules_of
from lpv.plan.notices import LineState, lines_lost
from lpv.plan.rules import Destination, NotPlanned, PlannedLine, RuleSet, Ruling
from lpv.plan.schema import AlternatePlan

if TYPE_CHECKING:
    from lpv.core.findings import Grade, Reason

WHAT = "alternate"


def findings(case: Case) -> Iterator[Finding]:
    """Whose rules, whether an alternate is needed, and whether the one listed may be it."""
    rules = rules_of(case)
    yield _whose(case, rules)
    if rules is None:
        return
    listed = case.scenario.alternate
    needed = law.alternate_needed(rules, destination_of(case))
    if listed is None:
        yield from _none_listed(needed)
        return
    words = {True: "needed", False: "not needed", None: "not known whether needed"}[needed.answer]
    grade = "note" if needed.answer else needed.grade(False, "note")
    yield _finding("alternate-needed", grade, needed, words)
    yield from _gnss(case, rules, listed)
    yield from _marks(rules, listed)
    yield from _listed(case, rules, listed, needed)


def _whose(case: Case, rules: RuleSet | None) -> Finding:
    """Whose rules grade this flight: a comparison where an operator is named, else a note or not compared."""
    chart, operator = f"rules of {case.approach.identity.rule}", case.operator
    if rules is not None and operator is not None:
        return Finding("rules", "ok", "rules", chart=chart, computed=f"{rules.name}, {operator.operator.name}",
                       why=rules.remark)
    if rules is not None:
        return Finding("rules", "note", "rules", chart=chart, computed=rules.name,
                       why="No operator is named in the file: the rule for everybody.",
                       action="Name the operator, if its rules ask for more.")
    stated = "no operator is named" if operator is None else f"{operator.operator.rules}, {operator.operator.name}"
    return not_compared(
        "rules", "rules and alternate", "no rule", chart=chart, computed=stated,
        why="No rule set of this authority is chosen, and another authority's rules do not grade this chart.",
        action="Apply the operator's rules for the destination and the alternate.")


def destination_of(case: Case) -> Destination:
    """What the rules ask about the destination, out of its chart and the scenario."""
    flight, chart, letter = case.scenario.flight, case.approach.chart, category(case)
    circling = row_for(case.approach, "circling", letter)
    rows = straight_in_rows(case.approach, letter)
    lowest = min(rows, key=lambda row: row.altitude_ft, default=None)
    with_visibility = [row for row in rows if any((row.visibility_sm, row.visibility_m, row.rvr_ft, row.rvr_m))]
    return Destination(
        case.scenario.forecast, flight.eta,
        None if circling is None else circling.altitude_ft - chart.airport_elevation_ft,
        None if lowest is None else lowest.altitude_ft - chart.airport_elevation_ft,
        min((printed_visibility_sm(row, case.approach.identity.rule) for row in with_visibility), default=None),
        flight.separate_runways, flight.flight_h,
    )


def _none_listed(needed: Ruling) -> Iterator[Finding]:
    if needed.answer is None:
        yield _finding("alternate", "not compared", needed, "none is listed")
    elif needed.answer:
        yield _finding("alternate-missing", needed.grade(False, "stop"), needed, "needed, and none is listed",
                       "List an alternate.")
    else:
        yield _finding("alternate", needed.grade(False, "stop"), needed, "not needed")


def _finding(key: str, grade: "Grade", ruling: Ruling, computed: str, action: str = "", about: str = "") -> Finding:
    if grade == "not compared":
        reason: Reason = "not stated" if ruling.reason.startswith("not stated") else "no rule"
        return not_compared(key, WHAT, reason, computed=computed, why=ruling.why, about=about)
    return Finding(key, grade, WHAT, computed=computed, why=ruling.why, action=action, about=about)


def _gnss(case: Case, rules: RuleSet, listed: AlternatePlan) -> Iterator[Finding]:
    """One way in that does not need GNSS, as far as the rules or the receiver ask for it."""
    without = [line for line in sound_lines(case, listed) if line in law.WITHOUT_GNSS]
    if rules.way_without_gnss:
        ruling = law.way_without_gnss(rules, without, case.scenario.flight.ways_without_gnss)
        words = {True: "there is one", False: "there is none", None: "not known"}[ruling.answer]
        yield _finding("alternate-gnss", ruling.grade(True, "stop"), ruling, f"way in without GNSS: {words}",
                       "" if ruling.answer else "Choose an alternate with an approach that does not need GNSS.",
                       listed.airport)
    elif rules.authority == "EASA":
        yield not_compared("alternate-gnss", "way in without GNSS", "no rule", about=listed.airport,
                           why=f"The rule of {rules.name} on alternates with GNSS was not read.")
    elif case.aircraft.equipment.sbas_class is None:
        yield from _gps_only(case, rules, listed, bool(without))


def _gps_only(case: Case, rules: RuleSet, listed: AlternatePlan, ground_there: bool) -> Iterator[Finding]:
    """Without SBAS: fault detection and exclusion, and GPS at one of the airports alone (AIM 1-2-3.d, FAA)."""
    fde = case.aircraft.equipment.fde
    if fde is None:
        yield not_compared(
            "receiver-fde", "receiver without SBAS", "not stated", why="The aircraft file does not say whether the "
            "receiver detects and excludes faulty satellites (fde).", action="Find it in the flight manual.")
    elif fde == "no":
        yield Finding(
            "receiver-fde", "resolve", "receiver without SBAS", computed="no fault detection and exclusion",
            why=f"A GPS approach is planned with a receiver that has it ({rules.name}, AIM 1-2-3.d).",
            action="Plan ground aids at the destination and the alternate.")
    if not ground_there:
        yield Finding(
            "alternate-gps-only", "resolve", WHAT, computed="GPS approaches at both airports",
            why="A receiver without SBAS may plan a GPS approach at the destination or the alternate, not at both "
            f"({rules.name}, AIM 1-2-3.d).",
            action="Plan an approach with ground aids at one of them.", about=listed.airport)


def _marks(rules: RuleSet, listed: AlternatePlan) -> Iterator[Finding]:
    """What the chart of the alternate says of alternates: not authorized, or not under a condition."""
    if listed.minimums is None and listed.printed_ceiling_ft is None:
        yield not_compared(
            "alternate-mark", "mark for alternate minima", "not stated", about=listed.airport,
            why="The file does not state whether the chart marks the approach as not authorized for an alternate, or "
            "prints alternate minima (minimums).",
            action="Look at the chart: a triangle with an A on charts of the United States.")
    elif listed.minimums == "not authorized":
        yield Finding("alternate-mark", "stop", "mark for alternate minima", chart="not authorized as alternate",
                      why=f"Its chart does not allow the approach to be planned on as alternate ({rules.name}).",
                      action="Choose another alternate.", about=listed.airport)
    holds = {"night": listed.night, "no local altimeter setting": _opposite(listed.local_altimeter)}
    for condition in listed.not_authorized_when:
        yield _condition(condition, holds[condition], listed.airport)


def _opposite(answer: str | None) -> str | None:
    return {"yes": "no", "no": "yes", None: None}[answer]


def _condition(condition: str, holds: str | None, airport: str) -> Finding:
    chart, what = f"not authorized: {condition}", "condition on the alternate"
    if holds is None:
        return not_compared("alternate-condition", what, "not stated", chart=chart, about=airport,
                            why=f"The file does not state whether it holds at the ETA there: {condition}.")
    if holds == "yes":
        return Finding("alternate-condition", "stop", what, chart=chart, computed="holds at the ETA there",
                       why="You may not plan on this approach then.", action="Choose another alternate.",
                       about=airport)
    return Finding("alternate-condition", "ok", what, chart=chart, computed="does not hold at the ETA there",
                   about=airport)


# The lines of the listed alternate.

def sound_lines(case: Case, listed: AlternatePlan) -> tuple[str, ...]:
    """The lines of the alternate that no notice takes away, changes or doubts."""
    states = lines_lost(case, "alternate", listed.lines)
    return tuple(line for line in listed.lines if states[line].state in ("unaffected", "noted"))


def planned_lines(
    case: Case, rules: RuleSet, listed: AlternatePlan,
) -> tuple[tuple[PlannedLine, ...], tuple[NotPlanned, ...]] | None:
    """The lines that may be planned on by the rules, and those that may not; None where too little is known."""
    baro = case.aircraft.equipment.baro_vnav == "approved"
    ceiling_ft, visibility_sm = listed.printed_ceiling_ft, listed.printed_visibility_sm
    printed = ceiling_ft is not None and visibility_sm is not None
    minima = [row.minimum for row in listed.minima if row.line in listed.lines]
    if rules.alternate == "standard" or (rules.authority == "FAA" and printed):
        planned, refused = law.plannable_lines(listed.lines, baro)
        if ceiling_ft is not None and visibility_sm is not None:
            planned = tuple(law.printed_line(row, ceiling_ft, visibility_sm) for row in planned)
        return planned, refused
    if not minima or rules.alternate == "not read":
        return None
    if rules.alternate == "derived":
        additions = case.operator.additions if case.operator else law.remembered_additions()
        return law.derived_lines(minima, baro, additions)
    return law.easa_lines(minima), ()


def _listed(case: Case, rules: RuleSet, listed: AlternatePlan, needed: Ruling) -> Iterator[Finding]:
    lines = planned_lines(case, rules, listed)
    if lines is None:
        yield _unknown_minima(rules, listed)
        return
    planned, refused = lines
    states = lines_lost(case, "alternate", listed.lines)
    lost = [NotPlanned(line, _by_notice(line, state)) for line, state in states.items() if state.state == "gone"]
    for row in (*refused, *lost):
        yield Finding("alternate-line", "note", "line at the alternate", computed=row.line, why=row.reason + ".",
                      about=listed.airport)
    left = [row for row in planned if not _touches(row, states, ("gone",))]
    sure = [row for row in left if not _touches(row, states, ("doubted", "changed"))]
    yield from _weather(rules, listed, needed, left, sure, states)


def _by_notice(line: str, state: LineState) -> str:
    return f"{line} is not available by {', '.join(state.reasons)}"


def _touches(row: PlannedLine, states: dict[str, LineState], needed: tuple[str, ...]) -> bool:
    """Whether a notice puts a planned line, or one of the two that it is derived from, into one of these states."""
    return any(states[part].state in needed for part in _parts(row, states))


def _parts(row: PlannedLine, states: dict[str, LineState]) -> list[str]:
    names = [part.split(" ")[0] for part in row.line.split(" and ")]
    return [name for name in names if name in states]


def _unknown_minima(rules: RuleSet, listed: AlternatePlan) -> Finding:
    if rules.alternate == "not read":
        return not_compared("alternate-weather", "weather at the alternate", "no rule", about=listed.airport,
                            why=f"The rule of {rules.name} on planning minima was not read.")
    return not_compared(
        "alternate-weather", "weather at the alternate", "not stated", about=listed.airport,
        why=f"{rules.name} derives alternate minima from the landing minima there, and the file holds none.",
        action="Add [[alternate.minimum]] for its lines.")


def _weather(
    rules: RuleSet, listed: AlternatePlan, needed: Ruling, left: list[PlannedLine], sure: list[PlannedLine],
    states: dict[str, LineState],
) -> Iterator[Finding]:
    """Whether the forecast suffices for a line that no notice touches, or else for one that a notice doubts."""
    bad: Grade = "stop" if needed.answer else "note"
    if not left:
        why = "An SBAS user plans the alternate on LNAV or circling (FAA, AIM 1-1-18.c.9)."
        yield Finding("alternate-lines", bad, WHAT, computed="no line there may be planned on",
                      why=why if rules.authority == "FAA" else "None of its lines is left.",
                      action="Choose another alternate.", about=listed.airport)
        return
    rulings = {row: law.alternate_allowed(rules, listed.forecast, listed.eta, row) for row in left}
    good = [row for row in left if rulings[row].answer]
    first = next((row for row in good if row in sure), None)
    if first is not None:
        ruling = rulings[first]
        yield _finding("alternate", ruling.grade(True, bad), ruling, "may be listed", "", listed.airport)
    elif good:
        names = ", ".join(dict.fromkeys(name for part in _parts(good[0], states) for name in states[part].reasons))
        yield Finding("alternate-doubt", "resolve", WHAT, computed=f"on {good[0].line} only, which {names} touches",
                      why=rulings[good[0]].why, action="Settle the notice, or choose another alternate.",
                      about=listed.airport)
    else:
        yield _finding("alternate-weather", rulings[left[0]].grade(True, bad), rulings[left[0]], "may not be listed",
                       "Choose another alternate.", listed.airport)
