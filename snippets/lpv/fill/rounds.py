"""The round of a new data cycle, in one command.

    lpv round FILE --old FOLDER --out FOLDER [--report FILE] [--json]

imports, from the new file of records, every approach by SBAS at the airports of the old folder; carries over what was
filled in where the records it belongs to are unchanged (`lpv.fill.carry`); lists what must be read again; runs the
cross-check; tells what changed from the old set to the new one, with the bulletin.  The old folder is not touched, and
the new one must be empty or of the same round.
Exit code: CODES.
"""

import argparse
import os
import sys
import tomllib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from pathlib import Path

from lpv.approach.record import Approach, read, read_text
from lpv.approach.schema import RULES
from lpv.arinc.approach import Imported, build
from lpv.arinc.cycle import advanced, cycle_of
from lpv.arinc.files import mark_of, marked, text_of, untouched
from lpv.arinc.importer import SBAS
from lpv.arinc.lines import twice
from lpv.arinc.reader import Source
from lpv.arinc.scope import approaches
from lpv.core import airac
from lpv.core.errors import DataError, DomainError, Fault
from lpv.core.findings import worst
from lpv.crosscheck.check import crosscheck
from lpv.crosscheck.cycle import GONE, Comparison, as_text, compare_folders, headline
from lpv.files import outside
from lpv.files.json_form import printed
from lpv.files.toml_reader import read_folder
from lpv.fill.carry import carry

CODES = (
    "Exit code: 0 nothing changed but the cycle; 1 something is to be read, settled or looked at; 2 the file of "
    "records or files of the old folder have faults, and nothing was written."
)
AS_BEFORE, CARRIED, MADE = "records unchanged", "records changed", "made from records only"


@dataclass
class Round:
    """What a round did.

    done:       slug -> AS_BEFORE, CARRIED or MADE
    read_again: (slug, key, because, was) of values that are to be read again
    unverified: (slug, key) of values whose verification went with that
    to_confirm: slugs of files as before, whose chart is still to be looked at in the new cycle
    refused:    (airport, approach, every fault)
    stops:      slugs with a stop in the cross-check
    comparison: the old set and the new one
    """

    cycle: str = ""
    done: dict[str, str] = field(default_factory=dict)
    read_again: list[tuple[str, str, str, str]] = field(default_factory=list)
    unverified: list[tuple[str, str]] = field(default_factory=list)
    to_confirm: list[str] = field(default_factory=list)
    refused: list[tuple[str, str, str]] = field(default_factory=list)
    stops: list[str] = field(default_factory=list)
    comparison: Comparison = field(default_factory=Comparison)

    @property
    def exit_code(self) -> int:
        """0 nothing changed but the cycle, 1 something is to be looked at."""
        waiting = (self.read_again, self.refused, self.stops, self.comparison.entries)
        return 1 if any(waiting) else 0


def run(file: Path, old: Path, out: Path, rule: str = "FAA", cycle: str = "") -> Round:
    """One round; DataError, with nothing written, for faults of the files, or a new folder that is not empty."""
    before = {approach.slug: approach for approach in read_folder(old, read)}
    if not before:
        raise DataError([Fault(str(old), "", "no approach file", "those of the previous cycle", "Check the name.")])
    done = Round()
    with _source(file) as source:
        source.index()
        done.cycle = cycle or source.cycle
        if not done.cycle:
            raise DataError([Fault(file.name, "", "no header with the cycle", "HDR01 with the cycle", "Name it.")])
        _later(before, done.cycle, old)
        texts = dict(_texts(source, before, old, rule, done))
    if not texts:
        raise DataError([Fault(file.name, "", "no SBAS approach at the airports of the old folder",
                               "the same airports", "Check that it is the right file.")])
    _clear(out, texts)
    for slug, text in texts.items():
        outside.write(out / f"{slug}.toml", text)
    done.stops = [slug for slug, text in texts.items() if worst(crosscheck(read_text(text, f"{slug}.toml"))) == "stop"]
    done.comparison = compare_folders(old, out)
    return done


@contextmanager
def _source(file: Path) -> Iterator[Source]:
    with outside.opened(file) as stream, twice(stream) as rewindable:
        yield Source(rewindable, file.name)


def _later(before: dict[str, Approach], cycle: str, old: Path) -> None:
    for approach in before.values():
        if airac.effective_ordinal(approach.identity.cycle) > airac.effective_ordinal(cycle):
            raise DataError([Fault(f"{old}/{approach.slug}.toml", "identity.cycle", approach.identity.cycle,
                                   f"a cycle earlier than {cycle}", "Use the files of the previous cycle.")])


def _texts(
    source: Source, before: dict[str, Approach], old: Path, rule: str, done: Round,
) -> Iterator[tuple[str, str]]:
    """(slug, text) of every file of the new set."""
    airports = {approach.identity.airport for approach in before.values()}
    for airport in source.airports():
        if airport.ident not in airports:
            continue
        for coded in approaches(airport, source.name):
            if coded.reason or coded.level not in SBAS:
                continue
            try:
                made = build(airport, coded.name, source, done.cycle, rule)
                yield made.slug, _text(made, before.get(made.slug), old, source.name, done)
            except (DataError, DomainError) as error:
                done.refused.append((airport.ident, coded.name, str(error)))


def _text(made: Imported, before: Approach | None, old: Path, name: str, done: Round) -> str:
    if before is None:
        done.done[made.slug] = MADE
        return text_of(made, name)
    text = outside.text_of(old / f"{made.slug}.toml")
    was = cycle_of(text)
    if was is not None and mark_of(text) == made.mark(was) and not made.gaps:
        if untouched(text):
            done.done[made.slug] = AS_BEFORE
            return text_of(made, name)
        after = advanced(text, was, done.cycle)
        if after is not None:
            done.done[made.slug] = AS_BEFORE
            done.to_confirm += [made.slug] if before.identity.cycle != done.cycle else []
            return marked(after, made.mark(done.cycle))
    carried = carry(before, tomllib.loads(text), made.tables)
    done.done[made.slug] = CARRIED
    done.read_again += [(made.slug, *row) for row in carried.read_again]
    done.unverified += [(made.slug, key) for key in carried.unverified]
    by_people = bool(carried.carried or "read_again" in carried.tables)
    return text_of(replace(made, tables=carried.tables), name, by_people=by_people)


def _clear(out: Path, texts: dict[str, str]) -> None:
    """DataError where the new folder holds files of something else; what a round before left there is replaced."""
    present = {path.stem for path in out.glob("*.toml")} if out.is_dir() else set()
    if strange := sorted(present - set(texts)):
        raise DataError([Fault(str(out), "", ", ".join(f"{slug}.toml" for slug in strange[:10]), "an empty folder",
                               "Name another folder for the new set.")])


def report_text(done: Round) -> str:
    """The round in words, with the bulletin at the end."""
    states = list(done.done.values())
    lines = [f"Cycle {done.cycle}: {states.count(AS_BEFORE)} as before, {states.count(CARRIED)} with changed records, "
             f"{states.count(MADE)} made from records only, {len(done.refused)} refused."]
    lines += [f"to be read again: {slug} {key}: {because} changed; was {was}" for slug, key, because, was in
              done.read_again]
    lines += [f"verification withdrawn: {slug} {key}" for slug, key in done.unverified]
    if done.to_confirm:
        lines.append(f"{len(done.to_confirm)} files with records unchanged: look at the chart in force, then write "
                     f"{done.cycle} as the cycle of [identity]: {', '.join(done.to_confirm)}")
    lines += [f"refused: {airport} {name}: {why}" for airport, name, why in done.refused]
    lines += [f"stop in the cross-check: {slug}" for slug in done.stops]
    lines += [f"gone: {entry.airport} {entry.title}" for entry in done.comparison.entries if entry.state == GONE]
    return "\n".join([*lines, "", "Bulletin", as_text(done.comparison)])


def as_json(done: Round) -> str:
    """The same as JSON, for a program."""
    rows = {
        "cycle": done.cycle, "done": done.done, "exit_code": done.exit_code,
        "read_again": [dict(zip(("file", "key", "because", "was"), row, strict=True)) for row in done.read_again],
        "unverified": done.unverified, "to_confirm": done.to_confirm, "refused": done.refused, "stops": done.stops,
        "headline": headline(done.comparison),
        "entries": [{"file": entry.slug, "before": entry.before, "state": entry.state, "grade": entry.grade,
                     "changes": [vars(change) for change in entry.reported]} for entry in done.comparison.entries],
    }
    return printed(rows)


def main(argv: list[str]) -> int:
    """The command; returns the exit code."""
    parser = argparse.ArgumentParser(
        "lpv round", description="Work through a new data cycle: import, carry over, list, check, bulletin.",
        epilog=CODES)
    parser.add_argument("file", type=Path, metavar="FILE", help="records of the new cycle")
    parser.add_argument("--old", type=Path, required=True, metavar="FOLDER", help="files of the previous cycle")
    parser.add_argument("--out", type=Path, required=True, metavar="FOLDER", help="folder for the new files")
    parser.add_argument("--rule", default="FAA", choices=RULES, help="whose rules the charts follow")
    parser.add_argument("--cycle", default="", metavar="YYNN", help="data cycle, for a file without a header")
    parser.add_argument("--json", action="store_true", help="print everything as JSON")
    parser.add_argument("--report", type=Path, metavar="FILE", help="write the report to a file")
    options = parser.parse_args(argv)
    try:
        done = run(options.file, options.old, options.out, options.rule, options.cycle)
        text = as_json(done) if options.json else report_text(done)
        if options.report:
            outside.write(options.report, text + "\n")
        else:
            print(text, flush=True)
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except (DataError, DomainError) as error:
        print(error, file=sys.stderr)
        return 2
    except OSError as error:
        print(outside.os_error_text(error), file=sys.stderr)
        return 2
    return done.exit_code
