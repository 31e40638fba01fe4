"""A new data cycle in an approach file that somebody has edited: three values changed, every other byte kept.

Only what stands in the file as the importer wrote it is touched: the cycle of the table [database] and its two dates.
What is written in another way is not understood here, and left alone.
"""

import re
import tomllib
from datetime import date
from typing import Any

from lpv.core import airac
from lpv.core.errors import DomainError

_HEADING = re.compile(r"^[ \t]*\[", re.M)
_DATABASE = re.compile(r"^\[database\][ \t]*(#.*)?\r?$", re.M)


def cycle_of(text: str) -> str | None:
    """The cycle of the table [database], where its two dates are those of that cycle; else None."""
    database = _parsed(text).get("database")
    cycle = database.get("cycle") if isinstance(database, dict) else None
    if not isinstance(database, dict) or not isinstance(cycle, str):
        return None
    try:
        dates = _dates(cycle)
    except DomainError:
        return None
    return cycle if {key: database.get(key) for key in dates} == dates else None


def advanced(text: str, before: str, after: str) -> str | None:
    """The text with a later cycle in [database]; None where it is no later one, or a line is not as first written."""
    start = _DATABASE.search(text)
    if start is None or cycle_of(text) != before or airac.effective_ordinal(before) >= airac.effective_ordinal(after):
        return None
    end = _HEADING.search(text, start.end())
    stop = end.start() if end else len(text)
    table, old, new = text[start.end() : stop], _values(before), _values(after)
    for key, value in old.items():
        line = re.compile(rf"^([ \t]*{key}[ \t]*=[ \t]*){re.escape(_toml(value))}(?=[ \t]*(#.*)?\r?$)", re.M)
        table, count = line.subn(rf"\g<1>{_toml(new[key])}", table)
        if count != 1:
            return None
    made, expected = text[: start.end()] + table + text[stop:], _parsed(text)
    expected["database"].update(new)
    return made if _parsed(made) == expected else None


def _dates(cycle: str) -> dict[str, date]:
    dates = airac.cycle(cycle)
    return {"effective": date.fromordinal(dates.effective), "expires": date.fromordinal(dates.expiry)}


def _values(cycle: str) -> dict[str, str | date]:
    return {"cycle": cycle, **_dates(cycle)}


def _toml(value: str | date) -> str:
    return f'"{value}"' if isinstance(value, str) else value.isoformat()


def _parsed(text: str) -> dict[str, Any]:
    """The file's tables; {} for what is no TOML."""
    try:
        return tomllib.loads(text)
    except (ValueError, RecursionError):
        return {}
