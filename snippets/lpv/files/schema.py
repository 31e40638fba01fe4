"""What a data file may hold, written down once, in the record that it is read into.

A record is a frozen dataclass whose fields are made with the functions below:

    @dataclass(frozen=True, kw_only=True)
    class Lights:
        name: str = text("kind of approach lights", example="MALSR")
        length_ft: float = number("from the threshold to the outermost light", "ft", 0, 4000)

The same lines are the type, the schema that `lpv.files.toml_reader` enforces, and the text from which a
description for people or for editors can be generated (`entries`).  The key in the file is the
field's name, unless `key` says otherwise.

A record may have a method `faults(self)` that yields (key, found, allowed, action) for what one
field alone cannot show; it is called once the record's own fields are good.  What a key of an earlier version is
called now stands in RENAMED of its record: old key -> new one, in words where it is not one for one.
"""

import dataclasses
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class Entry:
    """What one key may hold.

    kind:     text, choice, number, whole, flag, day, texts, choices, latitude, longitude, parsed, table, tables
    what:     what it means, in words
    unit:     unit of a number, "" for a pure number
    low/high: least and greatest value of a number; for texts and tables, least and greatest count
    longest:  most characters of a text
    allowed:  the words that a choice, or each of several choices, may be
    pattern:  regular expression that the whole text must match, "" for any plain text
    example:  one good value; shown when the text does not match
    required: whether the key must be there
    excused:  the key of a list in the same table; a key that is named in it may be missing
    record:   class of the rows of a table
    unique:   the field that must differ between the rows of `tables`
    key:      the key in the file
    parse:    for kind parsed: makes the value from what stands there, raises LpvError
    """

    kind: str
    what: str
    unit: str = ""
    low: float = 0.0
    high: float = 0.0
    longest: int = 0
    allowed: tuple[str, ...] = ()
    pattern: str = ""
    example: str = ""
    required: bool = True
    record: Any = None
    unique: str = ""
    key: str = ""
    excused: str = ""
    parse: Callable[[Any], Any] | None = None


_entries: dict[type, dict[str, tuple[str, Entry]]] = {}  # worked out once for each record


def _field(entry: Entry, default: Any = None) -> Any:
    if entry.required and not entry.excused:
        return dataclasses.field(metadata={"entry": entry})
    return dataclasses.field(default=default, metadata={"entry": entry})


def text(
    what: str, *, pattern: str = "", example: str = "", longest: int = 80, required: bool = True,
    key: str = "",
) -> Any:
    """A line of plain text: no control characters, no markup, at most `longest` characters."""
    return _field(Entry(
        "text", what, longest=longest, pattern=pattern, example=example, required=required, key=key,
    ))


def texts(what: str, *, most: int = 40, longest: int = 300) -> Any:
    """A list of lines of plain text; an empty tuple if the key is missing."""
    return _field(Entry("texts", what, high=most, longest=longest, required=False), ())


def choice(what: str, allowed: tuple[str, ...], *, required: bool = True) -> Any:
    """One of a few words."""
    return _field(Entry("choice", what, allowed=allowed, required=required))


def choices(what: str, allowed: tuple[str, ...], missing: tuple[str, ...] = ()) -> Any:
    """A list of some of a few words, each once; `missing` if the key is missing."""
    return _field(Entry("choices", what, allowed=allowed, high=len(allowed), required=False), missing)


def number(what: str, unit: str, low: float, high: float, *, required: bool = True) -> Any:
    """A number (float in the record) within low <= value <= high."""
    return _field(Entry("number", what, unit=unit, low=low, high=high, required=required))


def whole(what: str, unit: str, low: int, high: int, *, required: bool = True) -> Any:
    """A whole number (int in the record) within low <= value <= high."""
    return _field(Entry("whole", what, unit=unit, low=low, high=high, required=required))


def flag(what: str) -> Any:
    """true or false; False if the key is missing."""
    return _field(Entry("flag", what, required=False), False)


def day(what: str, *, required: bool = True) -> Any:
    """A date, written without quotes (`2026-11-26`); a datetime.date in the record."""
    return _field(Entry("day", what, required=required))


def latitude(what: str, *, key: str = "latitude", required: bool = True) -> Any:
    """A latitude, north positive: decimal degrees, or text in degrees, minutes and seconds."""
    return _field(Entry("latitude", what, "deg", -90, 90, required=required, key=key))


def longitude(what: str, *, key: str = "longitude", required: bool = True) -> Any:
    """A longitude, east positive: decimal degrees, or text in degrees, minutes and seconds."""
    return _field(Entry("longitude", what, "deg", -180, 180, required=required, key=key))


def parsed(
    what: str, parse: Callable[[Any], Any], *, example: str = "", required: bool = True, pattern: str = "",
) -> Any:
    """Whatever `parse` makes of the value; it raises LpvError for what it does not take.

    pattern: what every text that it takes matches, for editors; the parser alone decides
    """
    return _field(Entry("parsed", what, parse=parse, example=example, required=required, pattern=pattern))


def table(record: type, what: str, *, required: bool = True, key: str = "") -> Any:
    """A table `[key]`, read into `record`."""
    return _field(Entry("table", what, record=record, required=required, key=key))


def tables(
    record: type, what: str, *, least: int = 0, most: int = 60, unique: str = "", key: str = "", excused: str = "",
) -> Any:
    """Tables `[[key]]`, read into a tuple of `record`; `unique` names the field that must differ."""
    entry = Entry(
        "tables", what, low=least, high=most, record=record, unique=unique, required=least > 0, key=key,
        excused=excused,
    )
    return _field(entry, ())


def entries(record: type) -> dict[str, tuple[str, Entry]]:
    """The record's keys in the file: key -> (name of the field, entry), in order.

    Fields that were not made with the functions above are not read from the file.
    """
    if record not in _entries:
        made = [(item.name, item.metadata["entry"]) for item in dataclasses.fields(record) if "entry" in item.metadata]
        _entries[record] = {entry.key or name: (name, entry) for name, entry in made}
    return _entries[record]


def both_or_neither(first: str, other: str) -> dict[str, Any]:
    """What a JSON Schema says of two keys that stand together, in words that checkers of all drafts know."""
    return {"anyOf": [{"required": [first, other]}, {"not": {"anyOf": [{"required": [first]}, {"required": [other]}]}}]}
