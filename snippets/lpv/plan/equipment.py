"""Planning: the approval for LPV where the rules ask for one, and the receivers that are left today; findings."""

from collections.abc import Iterator

from lpv.core.findings import Finding, not_compared
from lpv.plan.case import Case, rules_of, situation


def findings(case: Case) -> Iterator[Finding]:
    """The approval for LPV where the rules ask for one in writing, and the receivers that are left today."""
    rules, operator = rules_of(case), case.operator
    if rules is not None and rules.written_lpv and situation(case).announced == "LPV":
        stated = operator.operator.lpv if operator else None
        if stated is None:
            yield not_compared(
                "lpv-approval", "approval for LPV", "not stated", about="LPV",
                why=f"{rules.name} asks for an approval in writing; the operator file does not state it (lpv).",
                action="Check the operations specifications or the approval.")
        else:
            yield Finding("lpv-approval", "ok" if stated == "approved" else "note", "approval for LPV",
                          computed=stated, why=f"{rules.name}: {rules.remark}", about="LPV")
    yield _receivers(case)


def _receivers(case: Case) -> Finding:
    """How many receivers work: of those in the aircraft file, less those that are out today."""
    fitted, flight, what = case.aircraft.equipment.receivers, case.scenario.flight, "receivers"
    out, entry = flight.receivers_out, flight.mel_entry
    if fitted is None or out is None:
        missing = "how many there are (receivers)" if fitted is None else "how many are out today (receivers_out)"
        return not_compared("receivers", what, "not stated", why=f"The file does not state {missing}.",
                            action="Count them before the flight.")
    computed, left = f"{fitted} fitted, {out} out of service", fitted - out
    if left <= 0:
        return Finding("receivers", "stop", what, computed=computed, why="No receiver is left for this approach.",
                       action="Plan an approach with ground aids.")
    if not out:
        return Finding("receivers", "ok", what, computed=computed)
    if entry is None:
        return Finding("receivers", "resolve", what, computed=computed,
                       why="With a receiver out, the minimum equipment list must allow the flight.",
                       action="Find the entry, and what it says about SBAS and RNAV approaches (mel_entry).")
    return Finding("receivers", "note", what, computed=f"{computed}; {entry}",
                   why="One more failure takes every satellite line.",
                   action="Check that the entry allows the approach. Have a way in without GPS.")
