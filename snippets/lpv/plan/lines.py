"""Planning: which lines of minima may be used, and what to set for each; findings for the sheet."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lpv.approach.schema import Minima
from lpv.core.errors import DomainError
from lpv.core.findings import Finding
from lpv.decide.minima import Minimum, Verdict, verdicts
from lpv.plan.case import Case, category, row_for, situation, weather_at_eta
from lpv.plan.forecast import meets, told
from lpv.plan.minimum import minimum_of
from lpv.plan.notices import INTERFERENCE, NOT_KNOWN, read_notice

if TYPE_CHECKING:
    from lpv.core.findings import Grade


def findings(case: Case) -> Iterator[Finding]:
    """One finding for every line of minima on the chart, or why it may not be used."""
    letter = category(case)
    if letter != case.aircraft.type.category:
        yield Finding(
            "category", "note", "approach category", computed=f"{letter} for {case.scenario.flight.speed_kt:g} kt",
            why=f"The speed is over the limit of category {case.aircraft.type.category}.",
            action=f"Use the minima of category {letter}.",
        )
    for verdict in verdicts(situation(case)):
        row = row_for(case, verdict.line)
        if row is None:
            yield _no_row(verdict, letter)
        elif verdict.allowed:
            yield _allowed(case, verdict, row)
        else:
            yield _barred(verdict)
    yield from _none_sure(case)


def _none_sure(case: Case) -> Iterator[Finding]:
    """That there is no line to plan on, with those that are left if their level is announced."""
    lines = usable(case)
    if any(line.key in SURE for line in lines):
        return
    left = ", ".join(line.line for line in lines if line.key == "line-uncertain")
    yield Finding(
        "line-none", "resolve", "line to plan on", computed="none" + (f"; {left} only if announced" if left else ""),
        why="No line of this approach can be counted on with this forecast and these notices.",
        action="Plan on the alternate, another approach or another time.",
    )


def _no_row(verdict: Verdict, letter: str) -> Finding:
    return Finding(
        "line-category", "note", f"line {verdict.line}", chart=f"not for category {letter}",
        action="Do not use this line.", about=_about(verdict),
    )


def _barred(verdict: Verdict) -> Finding:
    return Finding(
        "line-barred", "note", f"line {verdict.line}", computed="not to be planned on",
        why=_sentence(verdict.reasons), action="Plan on another line.", about=_about(verdict),
    )


def _sentence(reasons: list[str]) -> str:
    text = "; ".join(reasons)
    return text[:1].upper() + text[1:] + "."


def _about(verdict: Verdict) -> str:
    return f"{verdict.line} ({verdict.way})"


@dataclass(frozen=True)
class Usable:
    """A line that may be used: what drives it, the row of the chart, what to set, and how it is graded.

    key is the key of its finding: "line-usable", "line-ceiling" (note), "line-uncertain" (note) or
    "line-visibility" (note; the forecast visibility is too low for it).
    """

    line: str
    way: str
    row: Minima
    minimum: Minimum
    key: str


GRADES: "dict[str, tuple[Grade, str, str]]" = {
    "line-usable": ("ok", "", ""),
    "line-ceiling": (
        "note", "The forecast ceiling is under this minimum: visibility allows the approach, but expect to go around.",
        "Count on the alternate.",
    ),
    "line-uncertain": (
        "note", "A notice, or the mark on the chart, says that it may be missing; or a notice is not understood.",
        "Plan on what does not need it; use this line if its level is announced.",
    ),
    "line-visibility": (
        "note", "The forecast visibility is under what the line asks.", "Do not plan on this line.",
    ),
}


SURE = ("line-usable", "line-ceiling")


def usable(case: Case) -> list[Usable]:
    """The lines that may be used, best first; those whose minimum cannot be computed are left to the findings."""
    found = []
    for verdict in verdicts(situation(case)):
        row = row_for(case, verdict.line)
        if verdict.allowed and row is not None:
            try:
                found.append(_usable(case, verdict, row))
            except DomainError:
                continue
    return found


def _usable(case: Case, verdict: Verdict, row: Minima) -> Usable:
    minimum, weather = minimum_of(case, row), weather_at_eta(case)
    if not meets(weather, 0.0, minimum.visibility_sm):
        key = "line-visibility"
    elif _uncertain(case, verdict):
        key = "line-uncertain"
    else:
        key = "line-usable" if meets(weather, minimum.hat_ft, 0.0) else "line-ceiling"
    return Usable(verdict.line, verdict.way, row, minimum, key)


def _allowed(case: Case, verdict: Verdict, row: Minima) -> Finding:
    """The minimum to set, and whether the forecast at the ETA has the visibility."""
    try:
        found = _usable(case, verdict, row)
    except DomainError as error:
        return Finding(
            "line-not-computed", "resolve", f"line {row.line}", computed=str(error),
            action="Read the minimum from the chart.", about=_about(verdict),
        )
    minimum, (grade, why, action) = found.minimum, GRADES[found.key]
    return Finding(
        found.key, grade,
        f"line {row.line}: {row.kind} {minimum.altitude_ft:.0f} ft, {minimum.hat_ft:.0f} ft above {_base(row)}, "
        f"{minimum.visibility_sm:g} SM",
        chart=f"{row.kind} {row.altitude_ft:.0f} ft, {_visibility_words(row)}",
        computed=f"altitude: {minimum.altitude_from}; visibility: {minimum.visibility_from}; "
        f"forecast at the ETA: {told(weather_at_eta(case))}",
        why=why, action=action, about=_about(verdict),
    )


def _uncertain(case: Case, verdict: Verdict) -> bool:
    """Whether a notice or the chart's mark says that the line may be missing: SBAS lines, in a test all of them.

    A notice that is not understood counts against the SBAS lines until a person has read it.
    """
    read = [read_notice(notice.text) for notice in case.scenario.notices]
    kinds = [notice.kind for notice in read]
    if INTERFERENCE in kinds:
        return True
    named = NOT_KNOWN in kinds or any(verdict.line in notice.minima for notice in read)
    return verdict.way == "SBAS" and (named or case.scenario.flight.no_site_notices)


def _base(row: Minima) -> str:
    return "the airport" if row.line == "circling" else "touchdown"


def _visibility_words(row: Minima) -> str:
    pairs = (
        ("visibility", row.visibility_sm, "SM"), ("visibility", row.visibility_m, "m"), ("RVR", row.rvr_ft, "ft"),
        ("RVR", row.rvr_m, "m"),
    )
    return next((f"{name} {number:g} {unit}" for name, number, unit in pairs if number is not None), "no visibility")
