"""JSON Schema of the data files, for editors: made from the same entries that `lpv.files.toml_reader` enforces.

    lpv schema                    names of the kinds of file
    lpv schema approach           prints one
    lpv schema --write FOLDER     writes all of them (`lpv_site.department.json_schemas`
    also those of the site)

A schema describes each key: type, range, spelling; and with SCHEMA_ALSO of a record what it can say of several
together.  The rest, and what a parser finds (a data block, a path point record), only the reader itself can tell.
JSON has no dates; a date is a string there.  It has no nan either: no schema can tell one from a number.
"""

import argparse
import importlib
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

from lpv.core import dms
from lpv.files.schema import Entry, entries
from lpv.files.toml_value import MARKUP

Schema = dict[str, Any]
DIALECT = "https://json-schema.org/draft/2020-12/schema"
RECORDS = {
    "approach": ("lpv.approach.record", "Approach", "an approach, in approaches/"),
    "aircraft": ("lpv.aircraft.record", "Aircraft", "an aircraft, in aircraft/"),
    "plan": ("lpv.plan.schema", "Scenario", "a flight to plan, in plan/"),
    "operator": ("lpv.plan.operator", "OperatorFile", "an operator, in plan/operators/"),
    "setup": ("lpv.setup.file", "SetupFile", "the cockpit before the approach, in set-up/"),
    "scenario": ("lpv.simulate.scenario", "Scenario", "a flight to simulate, in modes/scenarios/"),
    "flight": ("lpv.track.flight_file", "FlightFile", "what goes with a recorded flight, in debrief/flights/"),
    "lesson": ("lpv.teach.lesson", "Lesson", "a lesson, in teach/"),
    "drills": ("lpv.drill.rows", "Listed", "the list of drills, practice/drills.toml"),
}
DAY = r"^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$"
Kinds = dict[str, tuple[str, str, str]]
_UNSEEN = r"\u0000-\u001f\u007f-\u00a0\u00ad\u200b-\u200f\u2028-\u202f\u2060-\u206f\ufeff"
# What is not printed, as far as ranges say it, and markup: inside of [^...]
_SIGNS = _UNSEEN + "".join("\\" + sign if sign in "[]\\^" else sign for sign in MARKUP)
_PLAIN = f"[^\\s{_SIGNS}]([^\\n{_SIGNS}]*[^\\s{_SIGNS}])?"


def record_of(name: str, kinds: Kinds = RECORDS) -> type:
    """The record of a kind of file; KeyError for a name that is none."""
    module, record, _ = kinds[name]
    record_type: type = getattr(importlib.import_module(module), record)
    return record_type


def schema_of(name: str, kinds: Kinds = RECORDS) -> Schema:
    """The schema of a kind of file; KeyError for a name that is none.

    kinds: name -> (module, record, what it is in words)
    """
    record, title = record_of(name, kinds), kinds[name][2]
    defined: dict[str, Schema] = {}
    top = _record(record, defined)
    return {"$schema": DIALECT, "title": f"Data file of {title}", **top, "$defs": dict(sorted(defined.items()))}


def as_text(name: str, kinds: Kinds = RECORDS) -> str:
    """The same as text, as it is published."""
    return json.dumps(schema_of(name, kinds), indent=1, ensure_ascii=False) + "\n"


def file_name(name: str) -> str:
    """Name of the file with the schema of a kind of file."""
    return f"{name}.schema.json"


def _record(record: type, defined: dict[str, Schema]) -> Schema:
    """One table: its keys, which of them must be there, and no others."""
    known = {key: entry for key, (_, entry) in entries(record).items()}
    made: Schema = {
        "type": "object", "description": (record.__doc__ or "").strip().splitlines()[0],
        "properties": {key: _entry(entry, defined) for key, entry in known.items()},
        "required": [key for key, entry in known.items() if entry.required and not entry.excused],
        "additionalProperties": False,
    }
    excused = [_unless(key, entry.excused) for key, entry in known.items() if entry.required and entry.excused]
    also = [*excused, *getattr(record, "SCHEMA_ALSO", ())]
    return made | ({"allOf": also} if also else {})


def _unless(key: str, excuse: str) -> Schema:
    """A key that must be there unless a list of the same table names it."""
    named = {"required": [excuse], "properties": {excuse: {"contains": {"const": key}}}}
    return {"anyOf": [{"required": [key]}, named]}


def _referred(record: type, defined: dict[str, Schema]) -> Schema:
    """A reference to the schema of another table, made when first met; ValueError for two of one name."""
    name = record.__name__
    if name not in defined:
        defined[name] = {}
        defined[name] = _record(record, defined)
    elif defined[name].get("description") != (record.__doc__ or "").strip().splitlines()[0]:
        raise ValueError(f"two tables are called {name}")
    return {"$ref": f"#/$defs/{name}"}


def _entry(entry: Entry, defined: dict[str, Schema]) -> Schema:
    unit = f", {entry.unit}" if entry.unit else ""
    made = {"description": entry.what + unit} | _KINDS[entry.kind](entry, defined)
    return made | ({"examples": [entry.example]} if entry.example and entry.kind == "text" else {})


def _text(entry: Entry, _: Any) -> Schema:
    return {"type": "string", "minLength": 1, "maxLength": entry.longest, "pattern": f"^({entry.pattern or _PLAIN})$"}


def _range(entry: Entry, kind: str) -> Schema:
    is_integer = all(float(limit).is_integer() for limit in (entry.low, entry.high))
    low, high = (int(entry.low), int(entry.high)) if is_integer else (entry.low, entry.high)
    return {"type": kind, "minimum": low, "maximum": high}


def _angle(entry: Entry, example: str, pattern: str) -> Schema:
    text = {"type": "string", "pattern": f"^({pattern})$", "examples": [example]}
    return {"anyOf": [_range(entry, "number"), text]}


def _parsed(entry: Entry, _: Any) -> Schema:
    if entry.pattern:
        return {"type": "string", "pattern": f"^({entry.pattern})$"}
    return {"$comment": f"such as {entry.example}" if entry.example else "read by a parser"}


def _texts(entry: Entry, _: Any) -> Schema:
    plain = {"type": "string", "maxLength": entry.longest, "pattern": f"^({_PLAIN})$"}
    return {"type": "array", "items": plain, "maxItems": int(entry.high)}


def _tables(entry: Entry, defined: dict[str, Schema]) -> Schema:
    items = _referred(entry.record, defined)
    return {"type": "array", "items": items, "minItems": int(entry.low), "maxItems": int(entry.high)}


_KINDS: dict[str, Callable[[Entry, dict[str, Schema]], Schema]] = {
    "text": _text, "texts": _texts, "tables": _tables,
    "choice": lambda entry, _: {"enum": list(entry.allowed)},
    "choices": lambda entry, _: {"type": "array", "items": {"enum": list(entry.allowed)}, "uniqueItems": True},
    "number": lambda entry, _: _range(entry, "number"),
    "whole": lambda entry, _: _range(entry, "integer"),
    "flag": lambda entry, _: {"type": "boolean", "default": False},
    "day": lambda entry, _: {"type": "string", "format": "date", "pattern": DAY},
    "latitude": lambda entry, _: _angle(entry, dms.LATITUDE_EXAMPLE, dms.LATITUDE_PATTERN),
    "longitude": lambda entry, _: _angle(entry, dms.LONGITUDE_EXAMPLE, dms.LONGITUDE_PATTERN),
    "parsed": _parsed,
    "table": lambda entry, defined: _referred(entry.record, defined),
}


def main(argv: list[str], kinds: Kinds = RECORDS) -> int:
    """Print one schema, or write all into a folder; 0 done, 2 wrong arguments."""
    listed = "; ".join(f"{name}: {what}" for name, (_, _, what) in kinds.items())
    parser = argparse.ArgumentParser(
        "lpv schema", description="Print the JSON Schema of a kind of data file, for editors.",
        epilog=f"Kinds: {listed}. Exit code: 0 done; 2 wrong arguments.")
    choice = parser.add_mutually_exclusive_group(required=True)
    choice.add_argument("kind", nargs="?", choices=[*kinds], metavar="KIND", help="print the schema of one kind")
    choice.add_argument("--write", type=Path, metavar="FOLDER", help="write the schemas of all kinds into a folder")
    options = parser.parse_args(argv)
    if options.write is None:
        print(as_text(options.kind, kinds), end="")
        return 0
    options.write.mkdir(parents=True, exist_ok=True)
    for name in kinds:
        (options.write / file_name(name)).write_text(as_text(name, kinds), "utf-8")
    return 0
