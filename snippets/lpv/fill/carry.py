"""What somebody filled in, carried into the file of a new data cycle where the records it belongs to are as before.

Where a group of records changed (`lpv.approach.provenance.BELONGS_TO`) the value is not carried: it is to be filled
again, and the file says since when, because of what, and what it was.  A verification goes with its value.
"""

import copy
from dataclasses import dataclass, field
from typing import Any

from lpv.approach.provenance import BELONGS_TO, GROUP_WORDS, GROUPS, Filled
from lpv.approach.record import Approach
from lpv.approach.schema import TO_BE_FILLED
from lpv.fill.values import NONE, text_of

Table = dict[str, Any]
NO_MARKS = "records of which no marks are there"
LONGEST_WAS = 290


@dataclass
class Carried:
    """The tables of the new file, what was carried, and what is to be read again: (key, because, was)."""

    tables: Table
    carried: list[str] = field(default_factory=list)
    read_again: list[tuple[str, str, str]] = field(default_factory=list)
    unverified: list[str] = field(default_factory=list)


def changed_groups(old: Approach, tables: Table) -> list[str]:
    """The groups of records that are not as they were when the old file was made; all without marks."""
    marks = tables.get("records", {})
    return [group for group in GROUPS if old.records is None or getattr(old.records, group) != marks.get(group)]


def carry(old: Approach, old_tables: Table, tables: Table) -> Carried:
    """What the old file holds beside the records, put into the tables that the importer makes of the new ones."""
    carried = Carried(copy.deepcopy(tables))
    cycle, changed = tables["identity"]["cycle"], changed_groups(old, tables)
    before = {row.key: row for row in old.read_again}
    for key in TO_BE_FILLED:
        if key in old.chart.to_be_filled:
            if key in before and key in carried.tables["chart"].get("to_be_filled", []):
                _again(carried, key, before[key].cycle, before[key].because, before[key].was or "")
            continue
        if key not in tables["chart"].get("to_be_filled", []):
            continue
        because = [group for group in BELONGS_TO[key] if group in changed]
        if not because:
            _put(carried, old, old_tables, key)
            continue
        words = NO_MARKS if old.records is None else ", ".join(GROUP_WORDS[group] for group in because)
        was = text_of(old, key)
        _again(carried, key, cycle, words, was)
        carried.read_again.append((key, words, was))
        if any(key in row.keys and row.verified_by for row in old.filled):
            carried.unverified.append(key)
    return carried


def _put(carried: Carried, old: Approach, old_tables: Table, key: str) -> None:
    """A value as the old file has it, with who filled and verified it."""
    chart = carried.tables["chart"]
    chart["to_be_filled"] = [other for other in chart["to_be_filled"] if other != key]
    holder, _, name = key.rpartition(".")
    source = old_tables["chart"].get(holder, {}) if holder else old_tables["chart"]
    if name in source:
        (chart.setdefault(holder, {}) if holder else chart)[name] = source[name]
    row = next((row for row in old.filled if key in row.keys), None)
    if row is not None:
        carried.tables.setdefault("filled", []).append(_people(row, key))
    carried.carried.append(key)
    if not chart["to_be_filled"]:
        del chart["to_be_filled"]


def _people(row: Filled, key: str) -> Table:
    people: Table = {"keys": [key], "filled_by": row.filled_by, "filled_on": row.filled_on}
    if row.verified_by is not None:
        people |= {"verified_by": row.verified_by, "verified_on": row.verified_on}
    return people


def _again(carried: Carried, key: str, cycle: str, because: str, was: str) -> None:
    row = {"key": key, "cycle": cycle, "because": because}
    if was not in ("", NONE):
        row["was"] = was if len(was) <= LONGEST_WAS else was[: LONGEST_WAS - 3] + "..."
    carried.tables.setdefault("read_again", []).append(row)
