"""Reading one value of a data file: type, range, spelling.  Used by `lpv.files.toml_reader`.

Every reader takes the schema's entry and what stands in the file, and returns the value of the record
or raises Refused with what was found, what is allowed and what to do.
"""

import datetime
import re
from collections.abc import Callable
from typing import Any

from lpv.core import dms
from lpv.core.errors import DataError, LpvError, shown
from lpv.core.text import interval, trimmed
from lpv.files.schema import Entry

MARKUP = "<>`{}[]|\\*~^$"
ENTITY = re.compile(r"&[#\w]+;")


class Refused(Exception):
    """A value that the schema does not allow: rows of (found, allowed, action)."""

    def __init__(self, *rows: tuple[str, str, str]) -> None:
        super().__init__(rows)
        self.rows = rows


def display(value: object) -> str:
    """Any value as one short line; also what Python itself refuses to print."""
    try:
        return shown(value)
    except (ValueError, RecursionError):
        return f"something of type {type(value).__name__}, too large to show"


def allowed(entry: Entry) -> str:
    """In words, what an entry may hold."""
    words = {
        "text": f"text such as {entry.example}" if entry.example else "a line of text in quotes",
        "choice": " or ".join(f'"{word}"' for word in entry.allowed),
        "number": f"a number, {interval(entry.low, entry.high, entry.unit)}",
        "whole": f"a whole number, {interval(entry.low, entry.high, entry.unit)}",
        "flag": "true or false, without quotes",
        "day": "a date without quotes, such as 2026-11-26",
        "texts": f"a list of at most {trimmed(entry.high)} texts",
        "choices": "a list of " + ", ".join(f'"{word}"' for word in entry.allowed),
        "latitude": f'decimal degrees, {interval(-90, 90)}, or text such as "{dms.LATITUDE_EXAMPLE}"',
        "longitude": f'decimal degrees, {interval(-180, 180)}, or text such as "{dms.LONGITUDE_EXAMPLE}"',
        "parsed": f"such as {entry.example}" if entry.example else entry.what,
        "table": "a table",
        "tables": f"at least {trimmed(entry.low)} of them",
    }
    return words[entry.kind]


def _refuse(entry: Entry, value: object, action: str) -> Refused:
    return Refused((display(value), allowed(entry), action))


def _plain_text(entry: Entry, value: Any, longest: int) -> str:
    """The text if it is one plain line: printable, no markup, no spaces around, not empty, not too long."""
    if not isinstance(value, str):
        raise _refuse(entry, value, "Write it as text, in quotes.")
    if not value or value != value.strip():
        raise Refused((display(value), "text without spaces around it", "Write the text itself."))
    if not value.isprintable():
        raise Refused((
            display(value), "letters, figures and signs that can be seen, on one line",
            "Remove line ends, control characters and direction marks.",
        ))
    if ENTITY.search(value) or any(sign in MARKUP for sign in value):
        raise Refused((display(value), f"plain text without {MARKUP} or &...;", "Remove the markup."))
    if len(value) > longest:
        raise Refused((f"{len(value)} characters", f"at most {longest}", "Shorten it."))
    return value


def _text(entry: Entry, value: Any) -> str:
    text = _plain_text(entry, value, entry.longest)
    if entry.pattern and not re.fullmatch(entry.pattern, text):
        raise _refuse(entry, value, f"Write {entry.what} as in the example.")
    return text


def _texts(entry: Entry, value: Any) -> tuple[str, ...]:
    if not isinstance(value, list) or len(value) > entry.high:
        raise _refuse(entry, value, "Write it as a list: [ \"first\", \"second\" ].")
    rows: list[tuple[str, str, str]] = []
    texts = []
    for item in value:
        try:
            texts.append(_plain_text(entry, item, entry.longest))
        except Refused as refused:
            rows += refused.rows
    if rows:
        raise Refused(*rows)
    return tuple(texts)


def _choice(entry: Entry, value: Any) -> str:
    if not isinstance(value, str) or value not in entry.allowed:
        raise _refuse(entry, value, "Choose one of these words.")
    return value


def _choices(entry: Entry, value: Any) -> tuple[str, ...]:
    if not isinstance(value, list):
        raise _refuse(entry, value, "Write it as a list: [ \"first\", \"second\" ].")
    rows = [(display(item), allowed(entry), "Choose one of these words.") for item in value
            if not isinstance(item, str) or item not in entry.allowed]
    rows += [(f"{display(item)} a second time", "each once", "Remove one.") for number, item in enumerate(value)
             if item in value[:number]]
    if rows:
        raise Refused(*rows)
    return tuple(value)


def _number(entry: Entry, value: Any) -> float:
    """A float within the range; bool, text, nan and inf are refused, and -0 becomes 0."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise _refuse(entry, value, "Write a number, without quotes.")
    if not entry.low <= value <= entry.high:  # nan is never in range
        raise _refuse(entry, value, _unit_advice(entry))
    return float(value) + 0.0


def _unit_advice(entry: Entry) -> str:
    return f"Check the value and that it is in {entry.unit}." if entry.unit else "Check the value."


def _whole(entry: Entry, value: Any) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise _refuse(entry, value, "Write a whole number, without quotes and without a point.")
    if not entry.low <= value <= entry.high:
        raise _refuse(entry, value, _unit_advice(entry))
    return value


def _flag(entry: Entry, value: Any) -> bool:
    if not isinstance(value, bool):
        raise _refuse(entry, value, "Write true or false.")
    return value


def _day(entry: Entry, value: Any) -> datetime.date:
    if not isinstance(value, datetime.date) or isinstance(value, datetime.datetime):
        raise _refuse(entry, value, "Write year, month and day, without quotes and without a time.")
    return value


def _angle(entry: Entry, value: Any, of_text: Callable[[str], float]) -> float:
    if not isinstance(value, str):
        return _number(entry, value)
    try:
        return of_text(value)
    except LpvError as error:
        raise Refused((display(value), allowed(entry), str(error))) from error


def _latitude(entry: Entry, value: Any) -> float:
    return _angle(entry, value, dms.latitude_deg)


def _longitude(entry: Entry, value: Any) -> float:
    return _angle(entry, value, dms.longitude_deg)


def _parsed(entry: Entry, value: Any) -> Any:
    """What the entry's own function makes of the value; its errors become faults of this place."""
    assert entry.parse is not None
    try:
        return entry.parse(value)
    except DataError as error:
        raise Refused(*((fault.found, fault.allowed, fault.action) for fault in error.faults)) from error
    except LpvError as error:
        raise Refused((display(value), allowed(entry), str(error))) from error


READERS: dict[str, Callable[[Entry, Any], Any]] = {
    "text": _text, "texts": _texts, "choice": _choice, "choices": _choices, "number": _number, "whole": _whole,
    "flag": _flag, "day": _day, "latitude": _latitude, "longitude": _longitude, "parsed": _parsed,
}
