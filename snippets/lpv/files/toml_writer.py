"""Writing data files: nested tables as TOML, in the order given.  `lpv.files.toml_reader` reads them back."""

import json
from typing import Any


def toml_text(tables: dict[str, Any], heading: str = "") -> str:
    """Nested tables as TOML: plain values first, then tables, then lists of tables.

    Values: text, whole numbers, numbers, truth values, dates, lists of these, tables, lists of tables.
    """
    plain = {key: value for key, value in tables.items() if not _nested(value)}
    text = "".join(f"{key} = {_value(value)}\n" for key, value in plain.items())
    for key, value in tables.items():
        path = f"{heading}.{key}" if heading else key
        if isinstance(value, dict):
            text += f"\n[{path}]\n{toml_text(value, path)}"
        elif _nested(value):
            text += "".join(f"\n[[{path}]]\n{toml_text(row, path)}" for row in value)
    return text


def _nested(value: Any) -> bool:
    return isinstance(value, dict) or (isinstance(value, list) and bool(value) and isinstance(value[0], dict))


def _value(value: Any) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)  # a basic string of TOML is written as one of JSON is
    if isinstance(value, list):
        return "[\n" + "".join(f"  {_value(item)},\n" for item in value) + "]"
    return str(value)
