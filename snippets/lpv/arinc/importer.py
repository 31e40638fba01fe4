"""Approach files from a file of ARINC 424 records, such as the FAA's CIFP.

    lpv import FILE --airport XXXX --approach R28L --out FOLDER
    lpv import FILE --airport XXXX --out FOLDER      all of it with LPV or LP
    lpv import FILE --all-lpv --out FOLDER
    lpv import FILE --all-sbas --out FOLDER          LPV and LP
    lpv import FILE --airport XXXX --list            prints all that is coded there, leg by leg

writes one approach file for each approach asked for (see `lpv.arinc.files` for what happens to files that are there
already), in bounded memory.  A run that was stopped is started again: what is there stays.  At the end it tells what
was written, what was not and why, and what could not be read.  Exit code: CODES.

Source: ARINC Specification 424-18, as in the FAA's CIFP.
"""

import argparse
import os
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from lpv.approach.schema import RULES
from lpv.arinc import listing
from lpv.arinc.approach import build
from lpv.arinc.files import SAME, put
from lpv.arinc.lines import AirportRecords, twice
from lpv.arinc.reader import Source
from lpv.arinc.scope import NOT_STATED, Coded, approaches
from lpv.arinc.summary import Done, Refused, Summary, as_json, report_text
from lpv.core import airac
from lpv.core.errors import DataError, DomainError, Fault
from lpv.core.text import plural
from lpv.files import outside

PROGRESS_S = 0.5
MAX_NAMED = 10
GZIP, ZIP = b"\x1f\x8b", b"PK"
ARCHIVES = (GZIP, ZIP)
CODES = (
    "Exit code: 0 all you asked for is there; 1 something is missing, a new version was put aside, or the file has "
    "faults or gaps; 2 the file cannot be read, or has nothing you asked for."
)
SBAS, LPV = ("LPV", "LP", NOT_STATED), ("LPV", NOT_STATED)
Progress = Callable[[str], None]


@dataclass(frozen=True)
class Order:
    """What to import: one airport or all ("") and one approach or those of some levels ("") of it, where to.

    levels:   levels of service that are asked for
    rule:     by whose rules the charts are made
    advance:  whether a new cycle alone is written into files that somebody has edited
    customer: whose tailored records are read in place of the standard ones
    """

    out: Path
    airport: str = ""
    approach: str = ""
    cycle: str = ""
    rule: str = "FAA"
    advance: bool = False
    levels: tuple[str, ...] = LPV
    customer: str = ""


def run(stream: BinaryIO, name: str, order: Order, progress: Progress = lambda _: None) -> Summary:
    """Imports what is ordered from a stream of records.

    DataError for a file that holds no records, or of which the cycle is not known or mixed; then nothing was written.
    OSError where files cannot be written.
    """
    summary = Summary(file=name)

    def tick() -> None:
        done, refused = len(summary.done), len(summary.refused)
        progress(f"{source.counts['lines']} lines, {done} written or already there, {refused} refused")

    with twice(stream) as rewindable:
        source = Source(rewindable, name, order.airport, tick, order.customer)
        source.index()
        summary.cycle = _cycle(source, order)
        try:
            for airport in source.airports():
                for coded in approaches(airport, name):
                    _one(airport, coded, source, order, summary)
                if airport.tailored:
                    source.counts["tailored records, not read"] += airport.tailored
                tick()
        except DataError as error:
            raise DataError([*error.faults, *_before(summary, name)]) from error
    summary.faults, summary.counts, summary.kinds = source.faults, source.counts, source.kinds
    summary.announced = source.announced
    return summary


def _cycle(source: Source, order: Order) -> str:
    """The cycle of a file that was read through; DataError for one that holds no records, or has no cycle."""
    if not source.counts["records"]:
        counts = "".join(f"; {words}: {count}" for words, count in source.counts.items() if words != "lines")
        shortage = f"no record in {plural(source.counts['lines'], 'line')}{counts}"
        raise DataError([Fault(
            source.name, "", shortage, "records of 132 columns", "Check that it is an ARINC 424 file.")])
    if not (cycle := order.cycle or source.cycle):
        raise DataError([Fault(source.name, "", "no header with the cycle of the file", "HDR01 with the cycle",
                               "Name the cycle with --cycle.")])
    return cycle


def _before(summary: Summary, name: str) -> list[Fault]:
    """What a fault of the whole file leaves behind: the files that were written before it was met."""
    slugs = [done.slug for done in summary.done if done.what != SAME]
    if not slugs:
        return []
    named = ", ".join(slugs[:MAX_NAMED]) + (", ..." if len(slugs) > MAX_NAMED else "")
    return [Fault(name, "", f"{len(slugs)} approach files written before that: {named}", "none from such a file",
                  "Do not trust them: restore the previous ones.")]


def _one(airport: AirportRecords, coded: Coded, source: Source, order: Order, summary: Summary) -> None:
    """One approach: written, refused, out of scope or not asked for."""
    if order.approach not in ("", coded.name):
        if not coded.reason:
            summary.not_asked.append(coded)
        return
    if coded.reason:
        summary.out_of_scope.append(coded)
        return
    if not order.approach and coded.level not in order.levels:
        summary.not_asked.append(coded)
        return
    try:
        built = build(airport, coded.name, source, summary.cycle, order.rule)
        outcome = put(order.out, built, source.name, order.advance)
    except DataError as error:
        summary.refused.append(Refused(airport.ident, coded.name, error.faults))
    except DomainError as error:
        fault = Fault(source.name, "", str(error), "numbers within the range of every formula", "Get the file again.")
        summary.refused.append(Refused(airport.ident, coded.name, [fault]))
    else:
        summary.left_over += built.left_over
        summary.done.append(Done(airport.ident, coded.name, coded.level, built.slug, outcome, built.remarks,
                                 built.unread, built.gaps))


def main(argv: list[str]) -> int:
    """The command; returns the exit code."""
    order, options = _order(argv)
    try:
        if order.cycle:
            airac.cycle(order.cycle)
        with outside.opened(Path(options.file)) as stream:
            _plain(stream, options.file)
            if options.list:
                return _list(stream, order, options)
            show = _silent if options.quiet else _Line(stream).show
            summary = run(stream, os.path.basename(options.file), order, show)
        if not options.quiet:
            print(file=sys.stderr)
        _report(summary, options)
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # whoever read has read enough
        return 0 if options.list else summary.exit_code
    except OSError as error:
        print(outside.os_error_text(error), file=sys.stderr)
        return 2
    except (DataError, DomainError) as error:
        print(error, file=sys.stderr)
        return 2
    if order.approach and not (summary.done or summary.refused or summary.out_of_scope):
        others = ", ".join(coded.name for coded in summary.not_asked) or "none with LPV or LP at this airport"
        print(f"{order.airport} {order.approach} is not in the file. There: {others}.", file=sys.stderr)
    elif order.airport and not (summary.done or summary.refused or summary.out_of_scope or summary.not_asked):
        print(f"{order.airport}: no approach is coded in the file.", file=sys.stderr)
    return summary.exit_code


def _list(stream: BinaryIO, order: Order, options: argparse.Namespace) -> int:
    """Prints what is coded at an airport; 0, or 2 where there is nothing of what was asked for."""
    with twice(stream) as rewindable:
        source = Source(rewindable, os.path.basename(options.file), order.airport, customer=order.customer)
        entries = listing.listed(source, order.approach)
        if not entries:
            print(f"{order.airport} {order.approach}: nothing coded in the file.", file=sys.stderr)
            return 2
        print(listing.as_json(entries) if options.json else listing.as_text(entries), flush=True)
    return 0


def _report(summary: Summary, options: argparse.Namespace) -> None:
    text = as_json(summary) if options.json else report_text(summary)
    if options.report:
        outside.write(options.report, text + "\n")
    else:
        print(text, flush=True)


def _order(argv: list[str]) -> tuple[Order, argparse.Namespace]:
    parser = argparse.ArgumentParser(
        "lpv import", description="Write approach files from coded (ARINC 424) records.", epilog=CODES)
    parser.add_argument("file", metavar="FILE", help="records of 132 columns, such as the FAA's CIFP")
    parser.add_argument("--airport", default="", metavar="XXXX", help="only this airport; alone, all with SBAS")
    choice = parser.add_mutually_exclusive_group()
    choice.add_argument("--approach", default="", metavar="R28L", help="one approach as coded, with --airport")
    choice.add_argument("--all-lpv", action="store_true", help="every approach whose path point says LPV")
    choice.add_argument("--all-sbas", action="store_true", help="every approach whose path point says LPV or LP")
    parser.add_argument("--out", type=Path, metavar="FOLDER", help="where the approach files go")
    parser.add_argument("--list", action="store_true", help="with --airport: print every approach, leg by leg, instead")
    parser.add_argument("--cycle", default="", metavar="YYNN", help="data cycle, for a file without a header")
    parser.add_argument("--rule", choices=RULES, help=f"whose rules the charts follow; {RULES[0]} if not given")
    parser.add_argument("--customer", default="", metavar="XXX", help="read the records tailored for this customer")
    parser.add_argument("--advance", action="store_true",
                        help="write the new cycle into edited files whose records are unchanged")
    parser.add_argument("--json", action="store_true", help="print everything as JSON")
    parser.add_argument("--report", type=Path, metavar="FILE", help="write the report to a file")
    parser.add_argument("--quiet", action="store_true", help="no progress line")
    options = parser.parse_args(argv)
    if options.approach and not options.airport:
        parser.error("--approach needs --airport")
    if not (options.airport or options.all_lpv or options.all_sbas):
        parser.error("one of --airport, --all-lpv, --all-sbas is needed")
    if options.list and not options.airport:
        parser.error("--list needs --airport")
    if not options.list and options.out is None:
        parser.error("--out is needed")
    unused = {"--out": options.out, "--advance": options.advance, "--report": options.report, "--quiet": options.quiet,
              "--cycle": options.cycle, "--rule": options.rule}
    if options.list and (useless := [name for name, value in unused.items() if value]):
        parser.error(f"--list prints what is coded, and has no use for {', '.join(useless)}")
    levels = LPV if options.all_lpv else SBAS
    order = Order(options.out or Path(), options.airport.upper(), options.approach.upper(), options.cycle,
                  options.rule or RULES[0], options.advance, levels, options.customer.upper())
    return order, options


def _plain(stream: BinaryIO, file: str) -> None:
    """DataError for a file that begins as an archive does: that is how records are handed out."""
    start = stream.peek(len(GZIP)) if hasattr(stream, "peek") else b""
    if start.startswith(ARCHIVES):
        raise DataError([Fault(file, "", "a compressed file", "plain text, one record a line", "Unpack it first.")])


def _silent(_: str) -> None:
    pass


class _Line:
    """One line of progress on stderr, written over itself at most twice a second."""

    def __init__(self, stream: BinaryIO) -> None:
        self.shown = 0.0

    def show(self, text: str) -> None:
        if time.monotonic() - self.shown >= PROGRESS_S:
            self.shown = time.monotonic()
            print(f"\r{text}", end="", file=sys.stderr, flush=True)
