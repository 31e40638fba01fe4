"""Strict reading of TOML data files: every fault of a file at once, nothing guessed, nothing dropped.

`read_file` and `read_text` return a record (see `lpv.files.schema`) or raise one DataError.  A place in a
file is written as its path of keys; rows of `[[tables]]` count from 1: `chart.fix[3].altitude_ft`.
"""

import tomllib
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from difflib import get_close_matches
from pathlib import Path
from typing import Any, TypeVar

from lpv.core.errors import DataError, Fault
from lpv.core.text import interval
from lpv.files import toml_value as tomlvalue
from lpv.files.outside import os_fault
from lpv.files.schema import Entry, entries
from lpv.files.toml_lines import line_of, lines_of, named_line
from lpv.files.toml_value import Refused, display

SIZE_LIMIT_BYTES = 256 * 1024
LINE_LIMIT = 2000

Record = TypeVar("Record")
Place = TypeVar("Place")
BAD = object()


@dataclass(frozen=True)
class _Place:
    """Where the reader is, the list that all faults go to, and the tables around it: their headings and keys."""

    file: str
    key: str
    faults: list[Fault]
    around: tuple[tuple[str, frozenset[str]], ...] = ()

    def inside(self, key: str) -> "_Place":
        return replace(self, key=f"{self.key}.{key}" if self.key else key)

    def row(self, number: int) -> "_Place":
        return replace(self, key=f"{self.key}[{number}]")

    def within(self, known: Iterable[str]) -> "_Place":
        """The same place for what stands below this table, which knows these keys."""
        return replace(self, around=(*self.around, (self.key, frozenset(known))))

    def fault(self, actual: str, allowed: str, action: str) -> None:
        self.faults.append(Fault(self.file, self.key, actual, allowed, action))


def read_file(path: Path, record: type[Record]) -> Record:
    """The file as a record; no more of it is read than a file may have.  DataError with all faults."""
    place = _Place(path.name, "", [])
    try:
        with path.open("rb") as file:
            data = file.read(SIZE_LIMIT_BYTES + 1)  # a device has no size, and no end
        if len(data) > SIZE_LIMIT_BYTES:
            size = max(path.stat().st_size, len(data))
            raise _too_large(place, f"{size} bytes", f"{SIZE_LIMIT_BYTES} bytes")
    except OSError as error:
        place.fault(*os_fault(error))
        raise DataError(place.faults) from error
    return _record_of(_decoded(data, place), place, record)


def read_text(text: str, name: str, record: type[Record]) -> Record:
    """The text of a data file as a record; faults name the file `name`.  DataError with all faults."""
    place = _Place(name, "", [])
    if len(text) > SIZE_LIMIT_BYTES:
        raise _too_large(place, f"{len(text)} characters", f"{SIZE_LIMIT_BYTES} characters")
    return _record_of(text, place, record)


def read_tables(tables: dict[str, Any], name: str, record: type[Record]) -> Record:
    """Tables as a TOML file would hold them as a record; faults name the file `name`.  DataError with all faults."""
    return _made(tables, _Place(name, "", []), record)


def read_folder(folder: Path, read: Callable[[Path], Record]) -> list[Record]:
    """`read` of every .toml file directly in the folder, in name order; one DataError for all of them."""
    return read_each(sorted(folder.glob("*.toml")), read)


class Reading:
    """Reads one thing after another, and tells the faults of all of them at once."""

    def __init__(self) -> None:
        self.faults: list[Fault] = []

    def read(self, how: Callable[[Place], Record], place: Place) -> Record | None:
        """What `how` makes of a place; None, its faults kept, where it raises DataError."""
        try:
            return how(place)
        except DataError as error:
            self.faults += error.faults
            return None

    def check(self) -> None:
        """DataError with all faults, if there are any."""
        if self.faults:
            raise DataError(self.faults)


def read_each(places: Iterable[Place], read: Callable[[Place], Record]) -> list[Record]:
    """`read` of each place in their order; one DataError with the faults of all of them."""
    reading = Reading()
    records = [reading.read(read, place) for place in places]
    reading.check()
    return [record for record in records if record is not None]


def plain_tables(text: str, name: str = "text") -> dict[str, Any]:
    """The tables in a text, not read any further; DataError where it is no TOML, or longer than a file may be."""
    place = _Place(name, "", [])
    if len(text) > SIZE_LIMIT_BYTES:
        raise _too_large(place, f"{len(text)} characters", f"{SIZE_LIMIT_BYTES}")
    return _parsed(text, place)


def _too_large(place: _Place, actual: str, most: str) -> DataError:
    place.fault(actual, f"at most {most}", "Check that it is the right file.")
    return DataError(place.faults)


def _decoded(data: bytes, place: _Place) -> str:
    try:
        return data.decode("utf-8-sig")  # editors put a byte order mark before the text
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        place.fault(f"bytes in line {line} that are not UTF-8", "UTF-8 text", "Save the file as UTF-8.")
        raise DataError(place.faults) from error


def _record_of(text: str, place: _Place, record: type[Record]) -> Record:
    try:
        return _made(_parsed(text, place), place, record)
    except DataError as error:
        known = lines_of(text)
        for fault in error.faults:
            fault.line, fault.text = line_of(text, fault.key or named_line(fault.found), known)
        raise DataError(error.faults) from error


def _made(tables: dict[str, Any], place: _Place, record: type[Record]) -> Record:
    made = _table(tables, record, place)
    if place.faults or made is BAD:
        raise DataError(place.faults)
    checked: Record = made
    return checked


def _parsed(text: str, place: _Place) -> dict[str, Any]:
    if not text.strip():
        place.fault("an empty file", "a data file", "Fill it in, or remove it.")
        raise DataError(place.faults)
    for number, line in enumerate(text.splitlines(), 1):
        if len(line) > LINE_LIMIT:
            raise _too_large(place.inside(f"line {number}"), f"{len(line)} characters", f"{LINE_LIMIT}")
    try:
        return tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        problem = "tables or lists nested too deeply" if isinstance(error, RecursionError) else str(error)
        place.fault(f"what is not TOML: {problem}", "a TOML file", "Correct the line that is named.")
        raise DataError(place.faults) from error


def _table(data: Any, record: type, place: _Place) -> Any:
    """One table as a record, or BAD with the faults noted."""
    if not isinstance(data, dict):
        place.fault(display(data), "a table with keys", "Write its keys below a [heading].")
        return BAD
    known = entries(record)
    faults_before = len(place.faults)
    missing = {key: entry for key, entry in known.items() if key not in data}
    for key in (key for key in data if key not in known):
        _unknown(key, known, missing, place, getattr(record, "RENAMED", {}))
    values = {}
    place = place.within(known)
    for key, (name, entry) in known.items():
        if key in data:
            values[name] = _value(entry, data[key], place.inside(key))
        elif entry.required and not _excused(key, entry, data):
            place.inside(key).fault("nothing", tomlvalue.allowed(entry), f"Add {key}: {entry.what}.")
    if len(place.faults) > faults_before:
        return BAD
    return _checked(record(**values), place)


def _excused(key: str, entry: Entry, data: dict[str, Any]) -> bool:
    """Whether a list in the same table says that a missing key is missing on purpose."""
    named = data.get(entry.excused)
    return isinstance(named, list) and key in named


Known = dict[str, tuple[str, Entry]]


def _unknown(key: str, known: Known, missing: Known, place: _Place, renamed: dict[str, str]) -> None:
    """A key that is none; the hint never names one that is there already.

    renamed: key of an earlier version -> what stands in its place now
    """
    near = get_close_matches(key, missing, 1, 0.6) or [k for k in missing if k.split("_")[0] == key.split("_")[0]]
    outer = next((heading for heading, keys in reversed(place.around) if key in keys), None)
    if key in renamed:
        action = f"Since an earlier version it is written as {renamed[key]}."
    elif outer is not None:
        where = f"directly under [{outer}]" if outer else "above the first heading"
        action = f"A key belongs to the heading above it: move {key} up, {where}."
    elif near:
        unit = missing[near[0]][1].unit
        action = f"Did you mean {near[0]}{', in ' + unit if unit else ''}?"
    else:
        action = "Remove it, or correct its name."
    allowed = "the keys of this version" if key in renamed else ", ".join(known)
    place.inside(display(key) if not key.isidentifier() else key).fault("an unknown key", allowed, action)


def _checked(made: Any, place: _Place) -> Any:
    """The record, after its own check of what no field shows alone; BAD with the faults noted."""
    rows: list[tuple[str, str, str, str]] = list(made.faults()) if hasattr(made, "faults") else []
    for key, actual, allowed, action in rows:
        (place.inside(key) if key else place).fault(actual, allowed, action)
    return BAD if rows else made


def _value(entry: Entry, value: Any, place: _Place) -> Any:
    if entry.kind == "table":
        return _table(value, entry.record, place)
    if entry.kind == "tables":
        return _tables(entry, value, place)
    try:
        return tomlvalue.READERS[entry.kind](entry, value)
    except Refused as refused:
        for actual, allowed, action in refused.rows:
            place.fault(actual, allowed, action)
        return BAD


def _tables(entry: Entry, value: Any, place: _Place) -> Any:
    if not isinstance(value, list):
        place.fault(display(value), f"tables, each under [[{place.key}]]", "Double the brackets.")
        return BAD
    if not entry.low <= len(value) <= entry.high:
        place.fault(f"{len(value)} of them", interval(entry.low, entry.high), "Correct the list.")
        return BAD
    rows = [_table(item, entry.record, place.row(number)) for number, item in enumerate(value, 1)]
    if entry.unique:
        _repeated(entry, value, place)
    return tuple(rows)


def _repeated(entry: Entry, value: list[Any], place: _Place) -> None:
    """Notes every row that repeats the unique field of a row before it."""
    seen: list[Any] = []
    for number, item in enumerate(value, 1):
        mark = item.get(entry.unique) if isinstance(item, dict) else None
        if mark is not None and mark in seen:
            place.row(number).inside(entry.unique).fault(
                f"{display(mark)} a second time", "a different one in every row", "Rename or remove one.")
        seen.append(mark)
