"""Records as JSON, under the names of their fields: the one form in which they go to the phone.

`lpv.core.record` reads it there.  Numbers keep every bit: JSON writes the shortest text that reads back as the same
number.
"""

import dataclasses
import datetime
import json
from typing import Any


def to_json(record: Any) -> dict[str, Any]:
    """The fields of a record as plain values; a date as a day number, a tuple as a list, an absent value as None.

    A record with a method `derived_fields()` adds what it gives: values that the phone cannot compute itself.  Fields
    named in its class's `NOT_SENT` are left out.
    """
    left_out = getattr(record, "NOT_SENT", ())
    fields = {item.name: _plain(getattr(record, item.name))
              for item in dataclasses.fields(record) if item.name not in left_out}
    derived = getattr(record, "derived_fields", None)
    return fields | ({key: _plain(value) for key, value in derived().items()} if derived else {})


def as_text(fields: dict[str, Any]) -> str:
    """Such fields as one line of JSON."""
    return json.dumps(fields, ensure_ascii=False, separators=(",", ":"))


def printed(value: Any) -> str:
    """Values as the JSON that a command prints; never a zero with a sign."""
    return json.dumps(_unsigned(value), indent=1, ensure_ascii=False)


def _unsigned(value: Any) -> Any:
    if isinstance(value, float):
        return value + 0.0
    if isinstance(value, dict):
        return {key: _unsigned(item) for key, item in value.items()}
    return [_unsigned(item) for item in value] if isinstance(value, list | tuple) else value


def _plain(value: Any) -> Any:
    if dataclasses.is_dataclass(value):
        return to_json(value)
    if isinstance(value, datetime.date):
        return value.toordinal()
    if isinstance(value, dict):
        return {key: _plain(item) for key, item in value.items()}
    return [_plain(item) for item in value] if isinstance(value, tuple | list) else value
