"""Values put into the text of an approach file, with every other line kept.

The tables are changed first, then the text; where the text then does not say what the tables do, because somebody has
written it in another way, the file is written anew from the tables: its head stays, comments in its body do not.
"""

import copy
import re
import tomllib
from datetime import date
from typing import Any

from lpv.files.toml_writer import toml_text

Table = dict[str, Any]
FILLED, READ_AGAIN = "filled", "read_again"
LISTED = ("lights", "minima", "missed")  # keys that are tables of their own


def with_value(text: str, key: str, value: Any, filled_by: str, filled_on: date) -> str:
    """The text with a value from the chart (None: the chart prints none), and who filled it."""
    tables: Table = tomllib.loads(text)
    target = copy.deepcopy(tables)
    _put(target, key, value)
    row = {"keys": [key], "filled_by": filled_by, "filled_on": filled_on}
    target[FILLED] = [*(kept for kept in _without(target.get(FILLED, []), key)), row]
    made = _unlisted(_unread(text, key), key)
    made = made if value is None else _inserted(made, key, value)
    return _checked(made.rstrip("\n") + "\n" + toml_text({FILLED: [row]}), target, text)


def with_verification(text: str, key: str, verified_by: str, verified_on: date) -> str:
    """The text with the name of the second person who verified a filled value."""
    target: Table = tomllib.loads(text)
    rows = target.get(FILLED, [])
    before = next(row for row in rows if key in row["keys"])
    more = {"verified_by": verified_by, "verified_on": verified_on}
    after = {**before, "keys": [key], **more}
    kept = [{**row, "keys": [other for other in row["keys"] if other != key]} if row is before else row for row in rows]
    target[FILLED] = [row for row in kept if row["keys"]] + [after]
    made = text
    for block in _blocks(text, FILLED):
        if tomllib.loads(block)[FILLED][0]["keys"] == [key]:
            made = text.replace(block, block.rstrip("\n") + "\n" + toml_text(more) + "\n", 1)
    parsed = _parsed(made)
    same = parsed is not None and _by_key(parsed) == _by_key(target)
    return made if same else _anew(text, target)


def _by_key(tables: Table) -> Table:
    """The tables with the rows of who filled what by key, so that their order makes no difference."""
    rows = {key: {name: value for name, value in row.items() if name != "keys"}
            for row in tables.get(FILLED, []) for key in row["keys"]}
    return {**tables, FILLED: rows}


def _put(tables: Table, key: str, value: Any) -> None:
    chart = tables["chart"]
    chart["to_be_filled"] = [other for other in chart.get("to_be_filled", []) if other != key]
    again = _without(tables.pop(READ_AGAIN, []), key)
    tables |= {READ_AGAIN: again} if again else {}
    if not chart["to_be_filled"]:
        del chart["to_be_filled"]
    if value is not None:
        holder, _, name = key.rpartition(".")
        (chart.setdefault(holder, {}) if holder else chart)[name] = value


def _without(rows: list[Table], key: str) -> list[Table]:
    """Rows that are about other keys; of a row about several the others stay."""
    rows_left = []
    for row in rows:
        if "keys" in row and key in row["keys"]:
            row = {**row, "keys": [other for other in row["keys"] if other != key]}
        if row.get("keys", True) and row.get("key") != key:
            rows_left.append(row)
    return rows_left


def _unlisted(text: str, key: str) -> str:
    """The text without the key in the list of what is to be filled; without the list where it was the last."""
    match = re.search(r"^to_be_filled[ \t]*=[ \t]*\[[^\]]*\]\r?\n", text, re.M)
    if match is None:
        return text
    lines = re.sub(rf'^[ \t]*"{re.escape(key)}",?[ \t]*\r?\n', "", match[0], flags=re.M)
    kept = "" if '"' not in lines else lines
    return text[: match.start()] + kept + text[match.end() :]


def _blocks(text: str, name: str) -> list[str]:
    """The rows of a list of tables, each from its heading to the next."""
    return re.findall(rf"^\[\[{name}\]\].*?(?=^\[|\Z)", text, re.M | re.S)


def _unread(text: str, key: str) -> str:
    for block in _blocks(text, READ_AGAIN):
        if f'key = "{key}"' in block:
            text = text.replace(block, "", 1)
    return text


def _inserted(text: str, key: str, value: Any) -> str:
    holder, _, name = key.rpartition(".")
    if key in LISTED:
        return text.rstrip("\n") + "\n" + toml_text({"chart": {name: value}}).replace("\n[chart]\n", "", 1)
    heading = re.search(rf"^\[chart{'.' + holder if holder else ''}\][^\n]*\n", text, re.M)
    if heading is None:
        return text
    return text[: heading.end()] + toml_text({name: value}) + text[heading.end() :]


def _parsed(text: str) -> Table | None:
    try:
        return tomllib.loads(text)
    except ValueError:
        return None


def _checked(made: str, target: Table, text: str) -> str:
    return made if _parsed(made) == target else _anew(text, target)


def _anew(text: str, tables: Table) -> str:
    """A file from its tables, below the head of comments that it had."""
    head = re.match(r"(#[^\n]*\n)*", text)
    return (head[0] if head else "") + "\n" + toml_text(tables).lstrip("\n")
