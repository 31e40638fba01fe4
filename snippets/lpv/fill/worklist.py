"""The worklist: what is still to be filled from charts and what a second person has still to verify.

    lpv worklist FOLDER [--used FILE] [--csv FILE] [--json]

An approach comes before another that is used less, by a list of the department's own (lines "file,flights"); without
one, in the order of file names.  Fields come in the order in which a briefing needs them.
Exit code: 0 nothing left; 1 values left; 2 faulty files.
"""

import argparse
import sys
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from lpv.approach.provenance import unverified
from lpv.approach.record import Approach, read
from lpv.approach.schema import TO_BE_FILLED
from lpv.core.errors import DataError, Fault
from lpv.files.json_form import printed
from lpv.files.outside import os_error_text, text_of, write
from lpv.files.toml_reader import read_folder
from lpv.fill.sheet import as_csv

FILL, READ_AGAIN, VERIFY = "fill", "read again", "verify"


@dataclass(frozen=True)
class Task:
    """One value of one approach that somebody has to do something about.

    what:    FILL, READ_AGAIN, VERIFY
    because: which records changed, "" unless it is to be read again
    was:     the value of the cycle before, "" likewise
    """

    slug: str
    airport: str
    title: str
    key: str
    what: str
    because: str = ""
    was: str = ""


def tasks(approaches: list[Approach], used: dict[str, int]) -> list[Task]:
    """Everything that is left, the most used approach first, then in the order of TO_BE_FILLED."""
    ordered = sorted(approaches, key=lambda approach: (-used.get(approach.slug, 0), approach.slug))
    return [task for approach in ordered for task in _of(approach)]


def _of(approach: Approach) -> list[Task]:
    again = {row.key: row for row in approach.read_again}
    waiting = unverified(approach.filled)
    open_tasks = []
    for key in TO_BE_FILLED:
        who = approach.slug, approach.identity.airport, approach.identity.title, key
        if key in again:
            open_tasks.append(Task(*who, READ_AGAIN, again[key].because, again[key].was or ""))
        elif key in approach.chart.to_be_filled:
            open_tasks.append(Task(*who, FILL))
        elif key in waiting:
            open_tasks.append(Task(*who, VERIFY))
    return open_tasks


def counted(open_tasks: list[Task]) -> dict[str, Counter[str]]:
    """How often each field is left, by what is to be done."""
    return {kind: Counter(task.key for task in open_tasks if task.what == kind) for kind in (FILL, READ_AGAIN, VERIFY)}


def as_text(open_tasks: list[Task], approaches: int) -> str:
    """The worklist in words: the counts first, then each approach in one or two lines."""
    left = len({task.slug for task in open_tasks})
    lines = [f"{left} of {approaches} approaches are not finished: {len(open_tasks)} values."]
    for kind, fields in counted(open_tasks).items():
        if fields:
            lines.append(f"{kind}: " + ", ".join(f"{count} {key}" for key, count in fields.most_common()))
    for slug in dict.fromkeys(task.slug for task in open_tasks):
        of_approach = [task for task in open_tasks if task.slug == slug]
        lines.append(f"\n{of_approach[0].airport} {of_approach[0].title} ({slug})")
        for kind in (READ_AGAIN, FILL, VERIFY):
            named = [_named(task) for task in of_approach if task.what == kind]
            lines += [f"  {kind}: {', '.join(named)}"] if named else []
    return "\n".join(lines)


def _named(task: Task) -> str:
    was = f", was {task.was}" if task.was else ""
    return task.key + (f" ({task.because} changed{was})" if task.because else "")


def read_used(path: Path | None) -> dict[str, int]:
    """How often each file's approach is flown, from lines "file,flights"; DataError with every line that is none."""
    if path is None:
        return {}
    counts, faults = {}, []
    lines = text_of(path).splitlines()
    for number, row in enumerate((line.split(",") for line in lines), 1):
        if len(row) == 2 and row[1].strip().isdecimal():
            counts[row[0].strip().removesuffix(".toml")] = int(row[1])
        elif number > 1 and row:
            faults.append(Fault(path.name, f"line {number}", ",".join(row), "a file and a whole number",
                                "Write it as zzak-rnav-09,120."))
    if faults:
        raise DataError(faults)
    return counts


def main(argv: list[str]) -> int:
    """The command."""
    parser = argparse.ArgumentParser(
        "lpv worklist", description="List what is to be filled from charts, and to be verified.",
        epilog="Exit code: 0 nothing left; 1 values left; 2 faulty files.")
    parser.add_argument("folder", type=Path, metavar="FOLDER", help="folder of approach files")
    parser.add_argument("--used", type=Path, metavar="FILE", help='how often each is flown, lines "file,flights"')
    parser.add_argument("--csv", type=Path, metavar="FILE", help="write the values to fill as a table to share out")
    parser.add_argument("--json", action="store_true", help="print everything as JSON")
    options = parser.parse_args(argv)
    try:
        approaches = read_folder(options.folder, read)
        open_tasks = tasks(approaches, read_used(options.used))
        if options.csv:
            write(options.csv, as_csv(open_tasks), encoding="utf-8-sig")
    except DataError as error:
        print(error, file=sys.stderr)
        return 2
    except OSError as error:
        print(os_error_text(error), file=sys.stderr)
        return 2
    if not approaches:
        print(f"{options.folder}: no approach file", file=sys.stderr)
        return 2
    print(printed([vars(task) for task in open_tasks]) if options.json else as_text(open_tasks, len(approaches)))
    return 1 if open_tasks else 0
