"""Filled tables put back into the approach files: validated, conflicts told, nothing overwritten.

    lpv merge FOLDER TABLE... [--dry-run]

A value goes into a file where it is still to be filled.  A second person's name beside the same value verifies it;
another value is a conflict, as are two tables that differ.  A file is written only if it reads back.
Exit code: 0 everything went in; 1 there are conflicts; 2 tables or files have faults (nothing was written).
"""

import argparse
import sys
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any

from lpv.approach.record import Approach, read_text
from lpv.approach.schema import TO_BE_FILLED
from lpv.core.errors import DataError, DomainError, Fault, shown
from lpv.files import outside
from lpv.fill import workbook
from lpv.fill.edit import with_value, with_verification
from lpv.fill.sheet import Row, rows_of
from lpv.fill.values import text_of, value_of

FILLED, VERIFIED, SAME = "filled", "verified", "there already"


@dataclass
class Merged:
    """What became of the rows of tables.

    texts:     file -> its new text
    done:      (file, key, what) in the order of the rows
    conflicts: each in words, with the line
    faults:    rows and files that cannot be
    """

    texts: dict[str, str] = field(default_factory=dict)
    done: list[tuple[str, str, str]] = field(default_factory=list)
    conflicts: list[str] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)


def merge(folder: Path, tables: list[tuple[str, str]]) -> Merged:
    """The rows of tables, each (name, text), put into the texts of the files of a folder; nothing is written."""
    merged = Merged()
    for name, text in tables:
        rows, faults = rows_of(text, name)
        merged.faults += faults
        for row in rows:
            _row(folder, name, row, merged)
    return merged


def _row(folder: Path, name: str, row: Row, merged: Merged) -> None:
    slug = Path(row.file).name.removesuffix(".toml")
    path = folder / f"{slug}.toml"
    where = f"line {row.number}"
    if row.key not in TO_BE_FILLED:
        merged.faults.append(Fault(name, where, f"key {shown(row.key)}", ", ".join(TO_BE_FILLED), "Correct the key."))
        return
    if slug not in merged.texts and not path.is_file():
        merged.faults.append(Fault(name, where, f"file {shown(row.file)}", f"a file of {folder}", "Correct the name."))
        return
    text = merged.texts.get(slug) or outside.text_of(path)
    try:
        approach = read_text(text, path.name)
        value, people = value_of(row.key, row.value) if row.value else None, _people(row)
        made, what = _applied(text, approach, row, value, people)
        read_text(made, path.name)
    except DataError as error:
        merged.faults += [Fault(name, f"{where}: {fault.file}: {fault.key}", fault.found, fault.allowed, fault.action)
                         for fault in error.faults]
    except DomainError as error:
        merged.faults.append(Fault(name, where, shown(row.value or row.filled_on), "as below", str(error)))
    except Conflict as conflict:
        merged.conflicts.append(f"{name}, {where}: {slug} {row.key}: {conflict}")
    else:
        merged.texts |= {slug: made} if made != text else {}
        merged.done.append((slug, row.key, what))


class Conflict(Exception):
    """Two people, or two tables, say different things."""


def _people(row: Row) -> dict[str, Any]:
    """The names and days of a row; DomainError for a day that is none, or a value without who filled it."""
    days = {}
    for name, text in (("filled_on", row.filled_on), ("verified_on", row.verified_on)):
        try:
            days[name] = date.fromisoformat(text) if text else None
        except ValueError:
            raise DomainError(f"{name}: found {shown(text)}; allowed: YYYY-MM-DD.") from None
    if row.value and not (row.filled_by and days["filled_on"]):
        raise DomainError("a value needs filled_by and filled_on.")
    if bool(row.verified_by) != bool(days["verified_on"]):
        raise DomainError("verified_by and verified_on go together.")
    return days


def _applied(text: str, approach: Approach, row: Row, value: Any, days: dict[str, Any]) -> tuple[str, str]:
    what = SAME
    if row.value and row.key in approach.chart.to_be_filled:
        text, what = with_value(text, row.key, value, row.filled_by, days["filled_on"]), FILLED
    elif row.value and _differs(approach, row, value):
        raise Conflict(f"the file has {shown(text_of(approach, row.key))}, the table {shown(row.value)}")
    if row.verified_by:
        current = read_text(text, f"{approach.slug}.toml")
        entry = next((entry for entry in current.filled if row.key in entry.keys), None)
        if entry is None:
            raise Conflict("verified, but nobody filled it")
        if entry.verified_by not in (None, row.verified_by):
            raise Conflict(f"verified by {entry.verified_by} already, not by {row.verified_by}")
        if entry.verified_by is None:
            text, what = with_verification(text, row.key, row.verified_by, days["verified_on"]), VERIFIED
    return text, what


def _differs(approach: Approach, row: Row, value: Any) -> bool:
    """Whether the file holds another value than the row."""
    return bool(value_of(row.key, text_of(approach, row.key)) != value)


def table_text(path: Path) -> str:
    """The table of a file as CSV; DataError for a workbook that cannot be read, and for what is no text."""
    if path.suffix.lower() == workbook.ENDING:
        return workbook.as_csv(outside.data_of(path), path.name)
    return outside.text_of(path)


def main(argv: list[str]) -> int:
    """The command."""
    parser = argparse.ArgumentParser(
        "lpv merge", description="Put filled tables back into the approach files.",
        epilog="Exit code: 0 all values written; 1 conflicts; 2 faults, and nothing written.")
    parser.add_argument("folder", type=Path, metavar="FOLDER", help="folder of approach files")
    parser.add_argument(
        "tables", type=Path, nargs="+", metavar="TABLE", help="tables as CSV, or spreadsheets (.xlsx)")
    parser.add_argument("--dry-run", action="store_true", help="report what would be done, and write nothing")
    options = parser.parse_args(argv)
    try:
        merged = merge(options.folder, [(path.name, table_text(path)) for path in options.tables])
        if merged.faults:
            print("\n".join(map(str, merged.faults)), file=sys.stderr)
            return 2
        for slug, text in {} if options.dry_run else merged.texts.items():
            outside.write(options.folder / f"{slug}.toml", text)
    except DataError as error:
        print(error, file=sys.stderr)
        return 2
    except OSError as error:
        print(outside.os_error_text(error), file=sys.stderr)
        return 2
    print("\n".join([*(f"{slug} {key}: {what}" for slug, key, what in merged.done),
                     *(f"conflict: {words}" for words in merged.conflicts),
                     f"{len(merged.done)} values, {len(merged.conflicts)} conflicts, "
                     f"{len(merged.texts)} files changed."]))
    return 1 if merged.conflicts else 0
