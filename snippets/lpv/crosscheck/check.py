"""The cross-check: chart against database against computation, every difference named and graded.

`crosscheck` runs RULES, one small function per thing that is checked; to add a rule, write a function
(approach, day) -> findings in one of the rule modules and add it to that module's RULES.  How large a
difference may be stands in `lpv.crosscheck.limits`, what no rule compares in `lpv.crosscheck.unread`.  A finding is
ok only where two sides were compared; what one side lacks is not compared, and says so.

`lpv crosscheck FILE... [--on DATE] [--only GRADE] [--format json]` prints the findings of approach files for a day,
today if none is given; it exits with 1 if any is a stop, with 2 if a file has faults.  A department checks a new cycle
with it.
"""

import argparse
import sys
from collections.abc import Callable, Iterable, Sequence
from datetime import date
from pathlib import Path

from lpv.approach.record import Approach, read
from lpv.core import airac
from lpv.core.errors import DataError, DomainError
from lpv.core.findings import (
    GRADES,
    LEADS,
    SEVERITY,
    Finding,
    by_severity,
    counts,
    uncompared,
    verdict,
    worst,
)
from lpv.core.text import listed
from lpv.crosscheck import (
    coded,
    coded_legs,
    descent,
    final,
    fixes,
    identity,
    minima,
    missed,
    printed,
    runway,
    segment,
)
from lpv.crosscheck.limits import LIMITS, Limit, grade_difference
from lpv.files import json_form
from lpv.files.outside import repeated
from lpv.files.toml_reader import read_each

__all__ = ["LIMITS", "RULES", "Limit", "crosscheck", "grade_difference", "main"]

EVERY = "all"
FEW = 10  # of so many approaches all is told that does not agree
Rule = Callable[[Approach, int | None], Iterable[Finding]]
RULES: tuple[Rule, ...] = tuple(
    rule
    for module in (coded, identity, segment, runway, final, fixes, coded_legs, minima, missed, descent, printed)
    for rule in module.RULES
)


def crosscheck(approach: Approach, on: int | str | None = None) -> list[Finding]:
    """Every finding about an approach, those that agree ("ok") included, in the order of the rules.

    on is the day of the flight, as an ordinal (see `lpv.core.airac`) or as "2026-11-26": the data cycle must be in
    force then, and the variation is compared with the magnetic model of that day.  Without it the currency is not
    compared, and the model is taken at the start of the chart's cycle.
    DomainError for a day that is none.
    """
    day = airac.from_iso(on) if isinstance(on, str) else on
    if day is not None:
        airac.calendar_date(day)
    findings = [finding for rule in RULES for finding in _applied(rule, approach, day)]
    return coded.without_copies(approach, findings)


def _applied(rule: Rule, approach: Approach, day: int | None) -> list[Finding]:
    """The rule's findings; a rule whose numbers lead out of every formula's range is a stop, not silence."""
    try:
        return list(rule(approach, day))
    except DomainError as error:
        return [Finding(
            "not-computed", "stop", rule.__name__.replace("_", " "), computed=str(error), about=rule.__name__,
            why="A number outside a formula's range is wrong somewhere.",
            action="Look for the impossible number in chart and database.",
        )]


def main(argv: list[str]) -> int:
    """Print the findings of the files named; 0 if no finding is a stop, 1 if one is, 2 for faults of files."""
    parser = argparse.ArgumentParser(
        "lpv crosscheck", description="Check approach files: chart against database against computation.",
        epilog="Exit code: 0 no stop; 1 a stop; 2 wrong arguments or faulty files.")
    parser.add_argument("files", nargs="+", metavar="FILE", help="approach files (TOML)")
    parser.add_argument("--on", metavar="DATE", help="day of the flight, YYYY-MM-DD; today if not given")
    parser.add_argument("--only", action="append", choices=[*GRADES, EVERY], metavar="GRADE",
                        help=f"print findings of this grade: {', '.join(GRADES)}; or {EVERY}; repeat for more")
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--format", choices=("text", "json"), help="text for people, the default, or JSON")
    form.add_argument("--json", action="store_const", const="json", dest="format", help="the same as --format json")
    options = parser.parse_args(argv)
    day = options.on or date.today().isoformat()
    try:
        if twice := repeated(Path(name).stem for name in options.files):
            parser.error(f"found {listed(twice)} more than once; allowed: each name of a file once")
        approaches = read_each(options.files, read)
        checked = {approach.slug: crosscheck(approach, day) for approach in approaches}
    except (DataError, DomainError) as error:
        print(error, file=sys.stderr)
        return 2
    print(_json(checked, options.only) if options.format == "json" else _text(checked, options.only, day))
    return 1 if any(worst(rows) == "stop" for rows in checked.values()) else 0


def _text(checked: dict[str, list[Finding]], only: Sequence[str] | None, day: str) -> str:
    """The report of each approach, and at the end how many there are of which grade.

    Of few approaches all is told that does not agree; of many what asks for something, unless a grade is asked for.
    """
    grades = only or (["stop", "resolve", "not compared", "note"] if len(checked) <= FEW else ["stop", "resolve"])
    reports = [_report(slug, _of(grades, rows)) for slug, rows in checked.items()]
    return "\n\n".join([*reports, _closing(checked, grades, day)])


def _of(only: Sequence[str] | None, findings: list[Finding]) -> tuple[str, list[Finding]]:
    """The verdict on all findings, and those of the grades that are asked for; all of them where none is."""
    shown = [finding for finding in findings if only is None or EVERY in only or finding.grade in only]
    return verdict(findings), by_severity(shown)


def _report(slug: str, report: tuple[str, list[Finding]]) -> str:
    return "\n".join([f"{slug}: {report[0]}", *(_lines(finding) for finding in report[1])])


def _closing(checked: dict[str, list[Finding]], grades: Sequence[str], day: str) -> str:
    """What it comes to: for each grade the approaches of which it is the most serious, the grave ones by name."""
    worst_of = {slug: worst(rows) for slug, rows in checked.items()}
    lines = [f"{len(checked)} approach{'' if len(checked) == 1 else 'es'} on {day}:"]
    for grade in SEVERITY:
        slugs = [slug for slug, highest in worst_of.items() if highest == grade]
        named = f": {', '.join(slugs)}" if slugs and grade in ("stop", "resolve") else ""
        lines += [f"  {len(slugs):5} {LEADS[grade].lower()} ({grade}){named}"] if slugs else []
    left: list[str] = [grade for grade in GRADES if grade not in grades] if EVERY not in grades else []
    return "\n".join([*lines, *([f"Not printed: {listed(left)}. Ask for them with --only."] if left else [])])


def _lines(finding: Finding) -> str:
    sides = (("chart", finding.chart), ("database", finding.database), ("computed", finding.computed))
    shown = "; ".join(f"{side} {text}" for side, text in sides if text)
    reason = f" ({finding.reason})" if finding.reason else ""
    head = f"  {finding.grade:14}{finding.name()}: {finding.what}{reason}{': ' if shown else ''}{shown}"
    return head + (f"\n{'':16}{finding.why} {finding.action}" if finding.action else "")


def _json(checked: dict[str, list[Finding]], only: list[str] | None) -> str:
    """For each approach its verdict, the count of each grade, what was not compared and why, and the findings."""
    rows = {
        slug: {"verdict": verdict(findings), "counts": counts(findings), "not_compared": uncompared(findings),
               "findings": [vars(finding) for finding in findings if only is None or finding in _of(only, findings)[1]]}
        for slug, findings in checked.items()
    }
    return json_form.printed(rows)
