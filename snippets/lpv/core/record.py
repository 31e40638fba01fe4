"""A record as JSON carries it, so that phone and build compute with one shape of an approach, a type, a set-up.

On a computer the records are dataclasses, read strictly from data files.  `lpv.files.json_form` writes them as JSON
under the names of their fields; `record` turns that JSON back into objects with the same attributes.  A function that
reads attributes alone works with both.
"""

import json


class Record:
    """An object whose attributes are the fields of a record; nested tables are records, lists are lists."""

    def __init__(self, fields: "dict[str, object]") -> None:
        for name in fields:
            setattr(self, name, _value(fields[name]))

    def __getattr__(self, name: str) -> "object":
        raise AttributeError(f"this record has no field {name!r}")


def record(text: str) -> Record:
    """The record in a JSON text; ValueError for any other text."""
    fields = json.loads(text)
    if not isinstance(fields, dict):
        raise ValueError("a record: found no JSON object")
    return Record(fields)


def _value(value: "object") -> "object":
    if isinstance(value, dict):
        return Record(value)
    return [_value(item) for item in value] if isinstance(value, list) else value
