"""Approach files from a file of ARINC 424 records, such as the FAA's CIFP.

    python -m lpv.importer FILE --airport XXXX --approach R28L --out FOLDER
    python -m lpv.importer FILE --all-lpv --out FOLDER

reads the file once as a stream, with bounded memory, and writes one approach file for each approach asked for
(see `lpv.arinc.files` for what happens to files that are there already).  What was written, what was not and
why, and what could not be read is told at the end, where record numbers jump as well.  Exit code: 0 everything
asked for is there, 1 something is not, a new version was put aside, or the file has faults or gaps, 2 the file cannot
be read, or gave no approach.

Source: ARINC Specification 424-18, as in the FAA's CIFP.
"""

import argparse
import os
import sys
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import BinaryIO

from lpv.approach.schema import RULES
from lpv.arinc.approach import build, level, names
from lpv.arinc.files import ASIDE, CYCLE_NEW, SAME, put
from lpv.arinc.reader import AirportRecords, Source
from lpv.core import airac
from lpv.core.errors import DataError, DomainError, Fault

PROGRESS_S = 0.5
MOST_NAMED = 10
GZIP, ZIP = b"\x1f\x8b", b"PK"
ARCHIVES = (GZIP, ZIP)
CODES = (
    "Exit code: 0 everything asked for is there; 1 something is not, a new version was put aside, or the file has "
    "faults or gaps; 2 the file cannot be read, or gave no approach."
)
Progress = Callable[[str], None]


@dataclass(frozen=True)
class Order:
    """What to import: one airport or all ("") and one approach or all LPV ("") of it, where to, by whose rules.

    advance: whether a new cycle alone is written into files that somebody has edited
    """

    out: Path
    airport: str = ""
    approach: str = ""
    cycle: str = ""
    rule: str = "FAA"
    advance: bool = False


@dataclass
class Summary:
    """What a run did.

    done:    (slug, what was done with its file), in the order of the file
    skipped: (airport, approach, why) of approaches that were not asked for
    refused: (airport, approach, every fault) of approaches that could not be written
    faults:  what is wrong with single lines of the file, the first ones
    unread:  path terminators and continuations that are not read, each with its place
    gaps:    where record numbers jump within an approach that was written, each with its place
    remarks: what a reader of each file should know
    counts:  what was read, by kind
    """

    done: list[tuple[str, str]] = field(default_factory=list)
    skipped: list[tuple[str, str, str]] = field(default_factory=list)
    refused: list[tuple[str, str, str]] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)
    unread: list[str] = field(default_factory=list)
    gaps: list[str] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    counts: Counter[str] = field(default_factory=Counter)
    announced: int = 0

    @property
    def exit_code(self) -> int:
        """0 everything asked for is there, 1 something is not or the file has faults, 2 there was nothing to write."""
        if not self.done:
            return 2
        aside = any(what == ASIDE for _, what in self.done)
        return 1 if self.refused or self.faults or self.gaps or aside else 0


def run(stream: BinaryIO, name: str, order: Order, progress: Progress = lambda _: None) -> Summary:
    """Imports what is ordered from a stream of records.

    DataError for a file that holds no records, or of which the cycle is not known or mixed; then nothing that
    came after the fault was written.  OSError where files cannot be written.
    """
    summary = Summary()

    def tick() -> None:
        done, refused = len(summary.done), len(summary.refused)
        progress(f"{source.counts['lines']} lines, {done} written or there, {refused} refused")

    source = Source(stream, name, order.airport, tick)
    try:
        for airport in source.airports():
            cycle = order.cycle or source.cycle
            if not cycle:
                raise DataError([Fault(name, "", "no header with the cycle of the file", "HDR01 with the cycle",
                                       "Name the cycle with --cycle.")])
            for approach in names(airport):
                _one(airport, approach, source, order, cycle, summary)
            tick()
    except DataError as error:
        raise DataError([*error.faults, *_before(summary, name)]) from error
    summary.faults, summary.counts, summary.announced = source.faults, source.counts, source.announced
    if not source.counts["records"]:
        found = f"no record in {source.counts['lines']} lines"
        raise DataError([Fault(name, "", found, "records of 132 columns", "Is it an ARINC 424 file?")])
    return summary


def _before(summary: Summary, name: str) -> list[Fault]:
    """What a fault of the whole file leaves behind: the files that were written before it was met."""
    slugs = [slug for slug, what in summary.done if what != SAME]
    if not slugs:
        return []
    named = ", ".join(slugs[:MOST_NAMED]) + (", ..." if len(slugs) > MOST_NAMED else "")
    return [Fault(name, "", f"{len(slugs)} approach files written before that: {named}", "none from such a file",
                  "Do not trust them: put back those of before.")]


def _one(
    airport: AirportRecords, name: str, source: Source, order: Order, cycle: str, summary: Summary,
) -> None:
    """One approach: written, or skipped with the reason."""
    stated = level(airport, name)
    asked = name == order.approach if order.approach else stated in ("LPV", "not stated")
    if not asked:
        why = "not asked for" if order.approach else f"level of service {stated}" if stated else "no path point"
        summary.skipped.append((airport.ident, name, why))
        return
    try:
        found = build(airport, name, source, cycle, order.rule)
        done = found.slug, put(order.out, found, source.name, order.advance)
    except (DataError, DomainError) as error:
        summary.refused.append((airport.ident, name, str(error)))
        return
    summary.done.append(done)
    summary.unread += [f"{airport.ident} {place}" for place in found.unread]
    summary.gaps += [f"{airport.ident} {name}: {place}" for place in found.gaps]
    summary.remarks += [f"{found.slug}: {remark}" for remark in found.remarks]


def told(summary: Summary) -> str:
    """The summary in words: one line for each thing, and nothing silent."""
    lines = [f"{slug}: {what}" for slug, what in summary.done] + summary.remarks
    lines += [f"{airport} {name}: skipped: {why}" for airport, name, why in summary.skipped]
    lines += [f"{airport} {name}: refused: {why}" for airport, name, why in summary.refused]
    lines += [f"not read, kept as text: {place}" for place in summary.unread]
    lines += [f"may be missing: {place}" for place in summary.gaps]
    lines += [str(fault) for fault in summary.faults]
    if waiting := sum(what == CYCLE_NEW for _, what in summary.done):
        lines.append(f"{waiting} files with nothing new but the cycle: --advance writes it into them.")
    reasons = Counter(why for _, _, why in summary.skipped)
    lines += [f"{count} approaches skipped: {why}" for why, count in reasons.most_common()]
    lines += [f"{count} {what}" for what, count in sorted(summary.counts.items())]
    if summary.announced and summary.announced != summary.counts["records"]:
        lines.append(f"The header announces {summary.announced} records: this is a part of a file.")
    if summary.gaps:
        lines.append(f"{len(summary.gaps)} gaps in record numbers: do not use this file of records; get it again.")
    lines.append(f"{len(summary.done)} of {len(summary.done) + len(summary.refused)} approaches are there.")
    return "\n".join(lines)


def main(argv: list[str]) -> int:
    """The command; returns the exit code."""
    order, file, quiet = _order(argv)
    try:
        if order.cycle:
            airac.cycle(order.cycle)
        with open(file, "rb") as stream:
            _plain(stream.peek(len(GZIP)), file)
            summary = run(stream, os.path.basename(file), order, _silent if quiet else _Line(stream).show)
    except OSError as error:
        print(f"{error.filename or file}: {error.strerror}", file=sys.stderr)
        return 2
    except (DataError, DomainError) as error:
        print(error, file=sys.stderr)
        return 2
    if not quiet:
        print(file=sys.stderr)
    print(told(summary))
    if order.approach and not summary.done and not summary.refused:
        there = ", ".join(name for _, name, _ in summary.skipped) or "none coded as RNAV at this airport"
        print(f"{order.airport} {order.approach} is not in the file. There: {there}.", file=sys.stderr)
    return summary.exit_code


def _order(argv: list[str]) -> tuple[Order, str, bool]:
    parser = argparse.ArgumentParser(
        "python -m lpv.importer", description="Approach files from ARINC 424 records.", epilog=CODES)
    parser.add_argument("file", metavar="FILE", help="records of 132 columns, such as the FAA's CIFP")
    parser.add_argument("--airport", default="", metavar="XXXX", help="only this airport")
    which = parser.add_mutually_exclusive_group(required=True)
    which.add_argument("--approach", default="", metavar="R28L", help="one approach as coded, with --airport")
    which.add_argument("--all-lpv", action="store_true", help="every approach whose path point says LPV")
    parser.add_argument("--out", required=True, type=Path, metavar="FOLDER", help="where the approach files go")
    parser.add_argument("--cycle", default="", metavar="YYNN", help="data cycle, for a file without a header")
    parser.add_argument("--rule", default="FAA", choices=RULES, help="whose rules the charts follow")
    parser.add_argument("--advance", action="store_true",
                        help="write a new cycle into edited files of which the records are as before")
    parser.add_argument("--quiet", action="store_true", help="no line of progress")
    options = parser.parse_args(argv)
    if options.approach and not options.airport:
        parser.error("--approach needs --airport")
    airport, approach = options.airport.upper(), options.approach.upper()
    order = Order(options.out, airport, approach, options.cycle, options.rule, options.advance)
    return order, options.file, options.quiet


def _plain(start: bytes, file: str) -> None:
    """DataError for a file that begins as an archive does: that is how records are handed out."""
    if start.startswith(ARCHIVES):
        raise DataError([Fault(file, "", "a compressed file", "plain text, one record a line", "Unpack it first.")])


def _silent(_: str) -> None:
    pass


class _Line:
    """One line of progress on stderr, written over itself at most twice a second."""

    def __init__(self, stream: BinaryIO) -> None:
        self.stream = stream
        self.size = os.fstat(stream.fileno()).st_size or 1
        self.shown = 0.0

    def show(self, text: str) -> None:
        if time.monotonic() - self.shown >= PROGRESS_S:
            self.shown = time.monotonic()
            print(f"\r{100 * self.stream.tell() // self.size:3} % {text}", end="", file=sys.stderr, flush=True)
