"""The planning sheet: may this approach be flown, with which minima, is an alternate needed; graded.

`lpv plan FILE... [--json]` prints the findings of scenario files (see `lpv.plan.schema`); approach
and aircraft are read from the folders `approaches` and `aircraft` beside the scenario's own folder, the operator from
`operators` in it.  It exits with 1 if any finding is a stop, with 2 if a file has faults.
"""

import argparse
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TypeVar

from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.core import airac
from lpv.core.errors import DataError, DomainError, Fault, with_folder
from lpv.core.findings import Finding, by_severity, not_compared, tally, worst
from lpv.core.text import quantity
from lpv.decide.cold import SEGMENTS, all_segments
from lpv.facts import fact
from lpv.files import named_file
from lpv.files.json_form import printed
from lpv.plan import alternate, chart, equipment, notices, operator
from lpv.plan import lines as plan_lines
from lpv.plan.case import Case, cold_of
from lpv.plan.schema import Scenario

Check = Callable[[Case], Iterator[Finding]]
Found = TypeVar("Found")


def read(path: Path | str) -> Case:
    """A scenario file with its approach, aircraft and operator; DataError with the faults of all of them."""
    path = Path(path)
    scenario = named_file.read(path, Scenario)
    folder, flight = path.resolve().parent.parent, scenario.flight
    faults: list[Fault] = []
    operated = None
    if flight.operator is not None:
        of_operators = path.resolve().parent / "operators"
        operated = _or_faults(operator.read, of_operators / f"{flight.operator}.toml", faults, "plan/operators")
    flown = _or_faults(approach.read, folder / "approaches" / f"{flight.approach}.toml", faults, "approaches")
    flying = _or_faults(aircraft.read, folder / "aircraft" / f"{flight.aircraft}.toml", faults, "aircraft")
    if flown is not None and not flown.chart.minima:
        faults.append(Fault(f"approaches/{flown.slug}.toml", "chart.minima", "no lines of minima", "those of the chart",
                            "Fill them in from the chart, then plan."))
    if flown is None or flying is None or faults:
        raise DataError(faults)
    return Case(scenario, flown, flying, operated)


def _or_faults(reader: Callable[[Path], Found], path: Path, faults: list[Fault], folder: str) -> Found | None:
    """What a file holds that the scenario names; None, with its faults told of its own folder, where it has some."""
    try:
        return reader(path)
    except DataError as error:
        faults += with_folder(folder, error.faults)
        return None


def read_text(text: str, name: str = "text") -> Scenario:
    """The scenario in the text of a file, without its approach and aircraft; DataError with every fault."""
    return named_file.read_text(text, name, Scenario)


def plan(case: Case) -> list[Finding]:
    """Every finding about a planned flight, those that agree included, in the order of planning.

    DataError where the forecast does not cover the time that a rule asks about.
    """
    return [finding for check in CHECKS for finding in check(case)]


def data_cycle(case: Case) -> Iterator[Finding]:
    """Whether the chart's data cycle is in force on the day of the ETA (UTC)."""
    eta, ident = case.scenario.flight.eta, case.approach.identity.cycle
    cycle = airac.cycle(ident)
    day = airac.ordinal(eta.year, eta.month, eta.day)
    if _in_change(case, cycle, day):
        yield Finding(
            "cycle-change-day", "resolve", "data cycle at the ETA", chart=f"cycle {ident}, {cycle.held}",
            computed=f"changes on {airac.iso(day)}",
            why=f"The day of the change: {fact('cycle_change_icao').value} by ICAO's calendar, "
            f"{fact('cycle_change_faa').value} in the United States (both from memory).",
            action="Find out which cycle is in force at the ETA. Carry both.",
        )
    elif not airac.in_force(ident, day):
        yield Finding(
            "cycle", "stop", "data cycle at the ETA", chart=f"cycle {ident}, {cycle.held}",
            computed=f"cycle {airac.cycle_ident(day)} on {airac.iso(day)}", why="Chart and database change together.",
            action="Get chart and database of the cycle in force at the ETA.",
        )
    elif day in (cycle.effective, cycle.expiry - 1):
        yield Finding(
            "cycle-change", "note", "data cycle at the ETA", chart=f"cycle {ident}, {cycle.held}",
            why="The cycle changes within a day of the ETA.",
            action="Check chart and database again before the approach if you run early or late.",
        )
    else:
        yield Finding("cycle", "ok", "data cycle at the ETA", chart=f"cycle {ident}, {cycle.held}")


def _in_change(case: Case, cycle: airac.Cycle, day: int) -> bool:
    """Whether the ETA lies between the two hours of the change, where the United States still hold the old cycle."""
    if case.approach.identity.rule != "FAA" or day != cycle.expiry:
        return False
    return f"{case.scenario.flight.eta:%H%M}" < str(fact("cycle_change_faa").value)[:4]


def cold(case: Case) -> Iterator[Finding]:
    """Whether altitudes are corrected for cold, by whose rule; where nobody has decided, the amounts that are open."""
    decision, now_c = cold_of(case), case.scenario.flight.temperature_c
    limit_c = case.approach.chart.cold_temperature_airport_c
    chart = f"at and below {quantity(limit_c, '°C')}" if limit_c is not None else "no temperature printed"
    computed = f"coldest within an hour of the ETA {quantity(now_c, '°C')}"
    what = "correction for cold"
    if decision.grade == "not compared":
        yield not_compared("cold", what, "not stated", chart=chart, computed=computed, why=decision.reason)
    elif decision.due is None:
        yield Finding("cold-open", "resolve", what, chart=chart, computed=f"{computed}; {open_amounts(case)}",
                      why=f"{decision.reason} In cold air the aircraft is lower than the altimeter says.",
                      action="Find out who decides about cold here. Then correct, or write down why not.")
    elif decision.due:
        method = "all segments" if decision.segments == SEGMENTS else f"segments {', '.join(decision.segments)}"
        yield Finding("cold-correct", "note", what, chart=chart, computed=f"{computed}; {method}",
                      why=f"In cold air the aircraft is lower than the altimeter says ({decision.rule}).",
                      action="Correct the altitudes, never the altimeter setting, and tell the controller on first "
                      "contact.")
    else:
        yield Finding("cold", "ok", what, chart=chart, computed=f"{computed}, none needed", why=decision.reason)


def open_amounts(case: Case) -> str:
    """What a correction would add, in words: "a correction would add 20 ft to the LPV DA, ..."; by all segments."""
    try:
        rows = all_segments(case.approach, case.scenario.flight.temperature_c)
    except DomainError as error:
        return f"amounts not computed: {error}"
    parts = [f"{quantity(row.addition_ft, 'ft')} at {row.name}" for row in rows if row.addition_ft]
    return f"a correction would add {', '.join(parts)}" if parts else "a correction would add nothing"


CHECKS: tuple[Check, ...] = (
    plan_lines.findings, chart.findings, cold, equipment.findings, alternate.findings, notices.findings, data_cycle,
)


def main(argv: list[str]) -> int:
    """Print the findings of the scenarios named; 0 if none is a stop, 1 if one is, 2 for faults of files."""
    parser = argparse.ArgumentParser(
        "lpv plan", description="Plan approaches from scenario files.",
        epilog="Exit code: 0 no stop; 1 a stop; 2 faulty files.")
    parser.add_argument("files", nargs="+", metavar="FILE", help="scenario files (TOML)")
    parser.add_argument("--json", action="store_true", help="print everything as JSON")
    options = parser.parse_args(argv)
    findings: dict[str, list[Finding]] = {}
    faults: list[str] = []
    for name in options.files:
        try:
            case = read(name)
            findings[case.scenario.slug] = plan(case)
        except (DataError, DomainError) as error:
            faults.append(str(error))
    if faults:
        print("\n".join(faults), file=sys.stderr)
        return 2
    rows = {slug: [vars(finding) for finding in by_severity(listed)] for slug, listed in findings.items()}
    print(printed(rows) if options.json else _report(findings))
    return 1 if any(worst(listed) == "stop" for listed in findings.values()) else 0


def _report(findings: dict[str, list[Finding]]) -> str:
    lines = []
    for slug, listed in findings.items():
        lines.append(f"{slug}: {tally(listed)}")
        for finding in by_severity(listed):
            sides = "; ".join(part for part in (finding.chart, finding.computed) if part)
            about = f" ({finding.about})" if finding.about else ""
            lines.append(f"  {finding.grade:14}{finding.what}{about}: {sides}".rstrip(": "))
            if finding.why or finding.action:
                lines.append(f"{'':16}{finding.why} {finding.action}".rstrip())
    return "\n".join(lines)
