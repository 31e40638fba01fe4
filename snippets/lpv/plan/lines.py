"""Planning: which lines of minima may be used, and what to set for each; findings for the sheet."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lpv.approach.schema import Minima
from lpv.core.errors import DomainError
from lpv.core.findings import Finding
from lpv.core.text import quantity
from lpv.decide.minima import Verdict, verdicts
from lpv.decide.minimum import Minimum, Visibility, minimum_of_row, visibility
from lpv.decide.visibility import printed_visibility
from lpv.plan.case import Case, category, day_of, row_for, situation, weather_at_eta
from lpv.plan.forecast import in_words, meets, visibility_words
from lpv.plan.notices import UNAFFECTED, LineState, line_states

if TYPE_CHECKING:
    from lpv.core.findings import Grade

Standing = Literal[
    "line-usable", "line-noted", "line-ceiling", "line-cold", "line-limits", "line-changed", "line-uncertain",
    "line-visibility"]


@dataclass(frozen=True)
class Usable:
    """A line that may be used: what drives it, the row of the chart, what to set, and how it stands.

    key is the key of its finding, and GRADES says what it means; notices is what they do to it.
    """

    line: str
    guidance: str
    row: Minima
    minimum: Minimum
    visibility: Visibility
    key: Standing
    notices: LineState = UNAFFECTED


GRADES: "dict[Standing, tuple[Grade, str, str]]" = {
    "line-usable": ("ok", "", ""),
    "line-noted": ("note", "A notice concerns this line.", "Read the notice."),
    "line-ceiling": (
        "note", "The forecast ceiling is below this minimum: visibility allows the approach, but expect to go around.",
        "Count on the alternate.",
    ),
    "line-cold": ("resolve", "", "Find out who decides about cold, then set the minimum."),
    "line-limits": (
        "resolve", "Nobody has read from the chart whether it limits the temperature for a barometric path.",
        "Read the limits from the chart and enter them.",
    ),
    "line-changed": (
        "resolve", "A notice changes figures behind this minimum or its visibility.",
        "Enter the notice's figures, then plan.",
    ),
    "line-uncertain": (
        "note", "A notice, or the mark on the chart, says that it may be missing; or a notice is not understood.",
        "Plan on what does not need it. Use this line if its level is annunciated.",
    ),
    "line-visibility": (
        "note", "The forecast visibility is below this line's.", "Do not plan on this line.",
    ),
}
VNAV_LIMITS = ("vnav_lowest_c", "vnav_highest_c")
SURE: tuple[Standing, ...] = ("line-usable", "line-noted", "line-ceiling", "line-cold")


def findings(case: Case) -> Iterator[Finding]:
    """One finding for every line of minima on the chart, or why it may not be used."""
    letter = category(case)
    if letter != case.aircraft.type.category:
        yield Finding(
            "category", "note", "approach category",
            computed=f"{letter} for {quantity(case.scenario.flight.speed_kt or 0.0, 'kt')}",
            why=f"The speed is over the limit of category {case.aircraft.type.category}.",
            action=f"Use the minima of category {letter}.",
        )
    states = line_states(case, "destination")
    for verdict in verdicts(situation(case)):
        yield _finding(case, verdict, letter, states.get(name_of(verdict.line, verdict.guidance), UNAFFECTED))
    yield from _none_sure(case)


def _finding(case: Case, verdict: Verdict, letter: str, state: LineState) -> Finding:
    row = row_for(case, verdict.line)
    if row is None:
        return Finding("line-category", "note", f"line {verdict.line}", chart=f"not for category {letter}",
                       action="Do not use this line.", about=_about(verdict))
    reasons = list(verdict.reasons)
    if state.state == "gone":
        reasons.append(f"not available by {', '.join(state.reasons)}")
    return _barred(verdict, reasons) if reasons else _allowed(case, verdict, row, state)


def name_of(line: str, guidance: str) -> str:
    """The name under which notices know a line: LNAV/VNAV by what drives its path."""
    if line != "LNAV/VNAV":
        return line
    return "LNAV/VNAV by SBAS" if guidance == "SBAS" else "LNAV/VNAV by altimeter"


def _none_sure(case: Case) -> Iterator[Finding]:
    """That there is no line to plan on, with those that are left if their level is announced."""
    lines = usable(case)
    if any(line.key in SURE for line in lines):
        return
    left = ", ".join(dict.fromkeys(line.line for line in lines if line.key == "line-uncertain"))
    yield Finding(
        "line-none", "resolve", "line to plan on", computed="none" + (f"; {left} only if annunciated" if left else ""),
        why="With this forecast and these notices you cannot count on any line of this approach.",
        action="Plan on the alternate, another approach or another time.",
    )


def _barred(verdict: Verdict, reasons: list[str]) -> Finding:
    text = "; ".join(reasons)
    return Finding(
        "line-barred", "note", f"line {verdict.line}", computed="not for planning",
        why=text[:1].upper() + text[1:] + ".", action="Plan on another line.", about=_about(verdict),
    )


def _about(verdict: Verdict) -> str:
    return f"{verdict.line} ({verdict.guidance})"


def usable(case: Case) -> list[Usable]:
    """The lines that may be used, best first; those whose minimum cannot be computed are left to the findings."""
    lines, states = [], line_states(case, "destination")
    for verdict in verdicts(situation(case)):
        row, state = row_for(case, verdict.line), states.get(name_of(verdict.line, verdict.guidance), UNAFFECTED)
        if verdict.allowed and row is not None and state.state != "gone":
            try:
                lines.append(_usable(case, verdict, row, state))
            except DomainError:
                continue
    return lines


def _usable(case: Case, verdict: Verdict, row: Minima, state: LineState) -> Usable:
    operator, day = case.aircraft.operator, day_of(case)
    minimum = minimum_of_row(case.approach, row, operator, day)
    needed = visibility(row, operator, day, case.approach.identity.rule)
    key = _standing(case, minimum, needed, state)
    if key in SURE and verdict.guidance == "barometric" and set(VNAV_LIMITS) & set(case.approach.chart.to_be_filled):
        key = "line-limits"
    return Usable(verdict.line, verdict.guidance, row, minimum, needed, key, state)


def _standing(case: Case, minimum: Minimum, needed: Visibility, state: LineState) -> Standing:
    """How a line stands: the gravest of what forecast, notices and cold say."""
    weather = weather_at_eta(case)
    if not meets(weather, 0.0, needed.visibility_sm):
        return "line-visibility"
    if state.state == "doubted":
        return "line-uncertain"
    if state.state == "changed":
        return "line-changed"
    if minimum.open_ft:
        return "line-cold"
    if not meets(weather, minimum.height_ft, 0.0):
        return "line-ceiling"
    return "line-noted" if state.state == "noted" else "line-usable"


def _allowed(case: Case, verdict: Verdict, row: Minima, state: LineState) -> Finding:
    """The minimum to set, and whether the forecast at the ETA has the visibility."""
    try:
        line = _usable(case, verdict, row, state)
    except DomainError as error:
        return Finding(
            "line-not-computed", "resolve", f"line {row.line}", computed=str(error),
            action="Read the minimum from the chart.", about=_about(verdict),
        )
    minimum, (grade, why, action) = line.minimum, GRADES[line.key]
    if line.key in ("line-noted", "line-changed", "line-uncertain"):
        why += f" ({', '.join(state.reasons)})"
    elif line.key == "line-cold":
        why = f"{minimum.cold.reason} A correction would add {quantity(minimum.open_ft, 'ft')} to this minimum."
    return Finding(
        line.key, grade,
        f"line {row.line}: {row.kind} {quantity(minimum.altitude_ft, 'ft')}, {_height_words(minimum)}, "
        f"{visibility_words(line.visibility.visibility_sm, case.approach.identity.rule)}",
        chart=f"{row.kind} {quantity(row.altitude_ft, 'ft')}, {visibility_in_words(row)}",
        computed=f"altitude: {minimum.reason}; visibility: {line.visibility.reason}; "
        f"forecast at the ETA: {in_words(weather_at_eta(case), case.approach.identity.rule)}",
        why=why, action=action, about=_about(verdict),
    )


def _height_words(minimum: Minimum) -> str:
    """The height of a minimum in words; in the cold the true one, which is less than the altimeter's difference."""
    base = "the airport" if minimum.line == "circling" else "touchdown"
    height = f"{quantity(minimum.height_ft, 'ft')} above {base}"
    if not minimum.cold_ft:
        return height
    return f"true height {height} (the altimeter shows {quantity(minimum.cold_ft, 'ft')} more in the cold)"


def visibility_in_words(row: Minima) -> str:
    """The visibility of a row as the chart prints it: "RVR 2400 ft"."""
    printed = printed_visibility(row)
    return printed.words if printed else "no visibility"
