"""The worklist as CSV to share out, and the rows of such a table read back, each with its line.

One row for each value: file, airport, title, key, what it is, what to do, why, what it was, an example; then the cells
that people fill: value, filled_by, filled_on, verified_by, verified_on.  Commas, semicolons or tabulators separate;
a spreadsheet's own export is read as it is.
"""

import csv
import io
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from lpv.approach.schema import TO_BE_FILLED
from lpv.core.errors import Fault, shown
from lpv.fill.values import EXAMPLES

if TYPE_CHECKING:
    from lpv.fill.worklist import Task

GIVEN = ("file", "airport", "title", "key", "what", "do", "because", "was", "example")
PEOPLE = ("value", "filled_by", "filled_on", "verified_by", "verified_on")
NEEDED = ("file", "key", *PEOPLE)
_FORMULA = ("=", "+", "-", "@", "\t")  # what a spreadsheet would take for a formula


@dataclass(frozen=True)
class Row:
    """One filled row: the line that it stands on, and the cells that matter."""

    number: int
    file: str
    key: str
    value: str
    filled_by: str
    filled_on: str
    verified_by: str
    verified_on: str


def as_csv(tasks: "Iterable[Task]") -> str:
    """A table of the tasks, its cells for people empty."""
    out = io.StringIO()
    table = csv.writer(out, lineterminator="\r\n")
    table.writerow((*GIVEN, *PEOPLE))
    for task in tasks:
        row = (f"{task.slug}.toml", task.airport, task.title, task.key, TO_BE_FILLED[task.key], task.what, task.because,
               task.was, EXAMPLES[task.key])
        table.writerow([*map(_plain, row), *[""] * len(PEOPLE)])
    return out.getvalue()


def _plain(text: str) -> str:
    """A cell that no spreadsheet takes for a formula."""
    return f"'{text}" if text.startswith(_FORMULA) else text


def rows_of(text: str, name: str) -> tuple[list[Row], list[Fault]]:
    """The rows that somebody filled, and every fault of the table; faults show the line as it stands."""
    lines = text.removeprefix("\ufeff").splitlines()
    if not lines:
        return [], [Fault(name, "", "an empty file", "a table with a line of headings", "Export it again.")]
    separator = max(",;\t", key=lines[0].count)
    table = csv.reader(io.StringIO("\n".join(lines)), delimiter=separator)
    try:
        return _rows(table, separator, name, lines[0])
    except csv.Error as error:
        return [], [Fault(name, f"line {table.line_num}", str(error), "cells of a few words",
                          "Look for a quote that is not closed.")]


def _rows(table: Any, separator: str, name: str, first: str) -> tuple[list[Row], list[Fault]]:
    """As `rows_of`, of a table of the module csv; csv.Error for a cell that does not end."""
    headings = [heading.strip() for heading in next(table, [])]
    missing = [heading for heading in NEEDED if heading not in headings]
    if missing:
        return [], [Fault(name, "line 1", f"no column {', '.join(missing)}: {shown(first)}", ", ".join(NEEDED),
                          "Keep the line of headings.")]
    rows, faults = [], []
    for cells in table:
        number = table.line_num
        if not any(cell.strip() for cell in cells):
            continue
        if len(cells) != len(headings):
            faults.append(Fault(name, f"line {number}", f"{len(cells)} cells: {shown(separator.join(cells))}",
                                f"{len(headings)}", "Correct the line."))
            continue
        texts = {heading: cell.strip() for heading, cell in zip(headings, cells, strict=True)}
        row = Row(number, *(texts[heading] for heading in NEEDED))
        if any((row.value, row.filled_by, row.verified_by)):
            rows.append(row)
    return rows, faults
