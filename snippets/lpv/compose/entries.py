"""The keys of an approach file as entries of a form: one text for each, under its path of keys.

A path is that of a fault: "chart.fix[3].altitude_ft".  The schema says how a text is written into the file; whether it
may stand there, the file's own reader decides.  What no chart prints and nobody types is carried along as it was.
"""

from typing import Any

from lpv.core.text import MINUS
from lpv.files.schema import Entry, entries

CARRIED = ("database.leg", "read_again", "records")
YES = "yes"
DIGITS = "0123456789"
LISTS = ("texts", "choices")


def path_of(place: str, key: str) -> str:
    """The path of a key in a table."""
    return f"{place}.{key}" if place else key


def tables_of(record: Any, texts: dict[str, str], carried: dict[str, Any], place: str = "") -> dict[str, Any]:
    """The tables of a record, in the order of its schema; an empty text is a key that is not there."""
    made: dict[str, Any] = {}
    for key, (_, entry) in entries(record).items():
        path = path_of(place, key)
        value = held(carried, path) if path in CARRIED else _value(entry, texts, carried, path)
        if value is not None:
            made[key] = value
    return made


def held(tables: dict[str, Any], path: str) -> Any:
    """What stands in tables under a path without rows; None where nothing does."""
    entry: Any = tables
    for key in path.split("."):
        entry = entry.get(key) if hasattr(entry, "get") else None
    return entry


def _value(entry: Entry, texts: dict[str, str], carried: dict[str, Any], path: str) -> Any:
    if entry.kind == "table":
        made = tables_of(entry.record, texts, carried, path)
        return made if entry.required or any(value != "" for value in made.values()) else None
    if entry.kind == "tables":
        rows = [tables_of(entry.record, texts, carried, f"{path}[{number}]")
                for number in range(1, rows_of(texts, path) + 1)]
        return rows or None
    text = texts.get(path, "").strip()
    if not text and entry.required and "" in entry.allowed:
        return ""  # a choice among which is none
    return written(entry, text) if text else None


def rows_of(texts: dict[str, str], path: str) -> int:
    """How many rows a list of tables has among the paths; a row with empty texts counts."""
    start = path + "["
    return max([int(key[len(start):].partition("]")[0]) for key in texts if key.startswith(start)] + [0])


def written(entry: Entry, text: str) -> Any:
    """A text as the file holds it; as text, where it is not what it should be: the reader then says so."""
    if entry.kind == "flag":
        return True if text == YES else text
    if entry.kind in LISTS or (entry.kind == "parsed" and "\n" in text):
        return [line.strip() for line in text.split("\n") if line.strip()]
    if entry.kind in ("number", "whole", "latitude", "longitude"):
        return _number(text)
    if entry.kind == "day":
        return _day(text)
    return text


def _number(text: str) -> Any:
    digits = text[1:] if text[:1] in ("-", "+", MINUS) else text
    integer, point, part = digits.partition(".")
    if not integer or not _is_digits(integer) or (point and not (part and _is_digits(part))):
        return text
    plain = text.replace(MINUS, "-")
    return float(plain) if point else int(plain)


def _is_digits(text: str) -> bool:
    return all(sign in DIGITS for sign in text)


def _day(text: str) -> Any:
    from lpv.files.toml_reader import plain_tables

    parts = text.split("-")
    if [len(part) for part in parts] != [4, 2, 2] or not all(_is_digits(part) for part in parts):
        return text
    try:
        return plain_tables(f"day = {text}")["day"]
    except ValueError:
        return text


def texts_of(record: Any, tables: dict[str, Any], place: str = "") -> tuple[list[tuple[str, str]], list[str]]:
    """(path, text) of every entry that tables give, and the paths of what the form has no entry for."""
    texts: list[tuple[str, str]] = []
    others = [path_of(place, key) for key in tables if key not in entries(record)]
    for key, (_, entry) in entries(record).items():
        path = path_of(place, key)
        if key not in tables or path in CARRIED:
            continue
        value = tables[key]
        if entry.kind == "table":
            more, unknown = texts_of(entry.record, value, path) if hasattr(value, "items") else ([], [path])
        elif entry.kind == "tables":
            more, unknown = _rows(entry, value, path)
        else:
            more, unknown = [(path, shown(value))], []
        texts += more
        others += unknown
    return texts, others


def _rows(entry: Entry, value: Any, path: str) -> tuple[list[tuple[str, str]], list[str]]:
    texts: list[tuple[str, str]] = []
    others: list[str] = []
    if not isinstance(value, list) or not all(hasattr(row, "items") for row in value):
        return texts, [path]
    for number, row in enumerate(value, 1):
        more, unknown = texts_of(entry.record, row, f"{path}[{number}]")
        texts += more
        others += unknown
    return texts, others


def shown(value: Any) -> str:
    """What stands in the file as somebody would type it into the form."""
    if isinstance(value, bool):
        return YES if value else ""
    if isinstance(value, list):
        return "\n".join([shown(item) for item in value])
    return str(value)
