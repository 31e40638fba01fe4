"""The filled table of a spreadsheet's own file (Office Open XML, .xlsx), as the text of a table that `lpv.fill.sheet`
reads: the rows keep their numbers.

Read with the standard library and within bounds: a workbook comes from outside, and may be damaged or made to harm.
"""

import csv
import io
import re
import zipfile
import zlib
from collections.abc import Iterator
from datetime import date, timedelta
from xml.etree import ElementTree

from lpv.core.errors import DataError, Fault
from lpv.fill.sheet import NEEDED

ENDING = ".xlsx"
MAX_BYTES = 32_000_000  # of one part of a workbook, unpacked
MAX_ROWS, MAX_COLUMNS = 20_000, 200
DAYS = ("filled_on", "verified_on")  # a spreadsheet keeps a day as a number
# Day 60 of the older count is 29 February 1900, which was none: from there on it is one day ahead.
FIRST_DAY, FIRST_DAY_1904, SHIFTED = date(1899, 12, 30), date(1904, 1, 1), 60
MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
RELATION = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"
PLACE = re.compile(r"([A-Z]{1,3})([1-9][0-9]{0,6})")
UNREADABLE = (zipfile.BadZipFile, zlib.error, ElementTree.ParseError, EOFError, KeyError, ValueError,
              NotImplementedError, RuntimeError)  # the last for one that is locked with a password
Table = dict[int, dict[int, str]]


def as_csv(data: bytes, name: str) -> str:
    """The one sheet of a workbook that has the headings of the worklist, as CSV.

    Raises DataError for a file that is no workbook or is too large, for none or several such sheets, and for a cell
    whose value the workbook does not hold.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            book = _Book(packed, name)
            tables = [(title, table) for title, table in book.sheets() if set(NEEDED) <= set(table.get(1, {}).values())]
    except DataError:
        raise
    except UNREADABLE as error:
        problem = f"no workbook that can be read ({error})"
        raise _fault(name, "", problem, f"an {ENDING} file", "Export it again.") from None
    if len(tables) != 1:
        titles = ", ".join(title for title, _ in tables) or "none"
        raise _fault(name, "", f"{titles} with these headings in the first row", f"one sheet with {', '.join(NEEDED)}",
                     "Keep the line of headings, in one sheet.")
    return _written(_with_days(tables[0][1], book.first_day, name))


def _fault(name: str, where: str, actual: str, allowed: str, action: str) -> DataError:
    return DataError([Fault(name, where, actual, allowed, action)])


class _Book:
    """A workbook: its texts, its sheets, how it counts days."""

    def __init__(self, packed: zipfile.ZipFile, name: str) -> None:
        self.packed, self.name = packed, name
        book = self._part("xl/workbook.xml")
        self.listed = [(sheet.get("name", ""), sheet.get(RELATION, "")) for sheet in book.iter(f"{MAIN}sheet")]
        counts = book.find(f"{MAIN}workbookPr")
        old = counts is not None and counts.get("date1904") in ("1", "true")
        self.first_day = FIRST_DAY_1904 if old else FIRST_DAY
        strings = "xl/sharedStrings.xml"
        has_strings = strings in packed.namelist()
        self.texts = [_text(item) for item in self._part(strings).iter(f"{MAIN}si")] if has_strings else []
        links = self._part("xl/_rels/workbook.xml.rels")
        self.targets = {link.get("Id", ""): link.get("Target", "") for link in links}

    def _part(self, place: str) -> ElementTree.Element:
        if self.packed.getinfo(place).file_size > MAX_BYTES:
            raise ValueError(f"{place} is larger than {MAX_BYTES} bytes")
        with self.packed.open(place) as part:
            data = part.read(MAX_BYTES + 1)
        if len(data) > MAX_BYTES or b"<!DOCTYPE" in data[:1000]:
            raise ValueError(f"{place} is too large, or declares a document type")
        return ElementTree.fromstring(data)

    def sheets(self) -> Iterator[tuple[str, Table]]:
        """Title and cells of each sheet: number of the row -> number of the column -> text."""
        for title, link in self.listed:
            target = self.targets[link]
            sheet = self._part(target.removeprefix("/") if target.startswith("/") else f"xl/{target}")
            table: Table = {}
            for cell in sheet.iter(f"{MAIN}c"):
                match = PLACE.fullmatch(cell.get("r", ""))
                if match is None:
                    raise ValueError(f"{title}: a cell without its place")
                row, column = int(match[2]), _column(match[1])
                if text := self._value(cell, f"{title}, {match[0]}"):
                    if row > MAX_ROWS or column > MAX_COLUMNS:
                        raise ValueError(f"{title}, {match[0]}: at most {MAX_ROWS} rows and {MAX_COLUMNS} columns")
                    table.setdefault(row, {})[column] = text
            yield title, table

    def _value(self, cell: ElementTree.Element, where: str) -> str:
        """The text of a cell, as its sheet shows it but for its format."""
        kind, value = cell.get("t", "n"), cell.find(f"{MAIN}v")
        if kind == "inlineStr":
            return _text(cell)
        if value is None or value.text is None:
            if cell.find(f"{MAIN}f") is not None:
                raise _fault(self.name, where, "a formula without its value", "a value", "Type the value.")
            return ""
        if kind == "s":
            return self.texts[int(value.text)] if 0 <= int(value.text) < len(self.texts) else _missing(where)
        return f"{float(value.text):.15g}" if kind == "n" else value.text.strip()


def _missing(where: str) -> str:
    raise ValueError(f"{where}: a text that is not there")


def _text(item: ElementTree.Element) -> str:
    """The text of an item, in one line; how it is to be spoken is no part of it."""
    spoken = {id(text) for part in item.iter(f"{MAIN}rPh") for text in part.iter(f"{MAIN}t")}
    parts = [text.text or "" for text in item.iter(f"{MAIN}t") if id(text) not in spoken]
    return " ".join("".join(parts).split())


def _column(letters: str) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number


def _with_days(table: Table, first_day: date, name: str) -> Table:
    """The table with the days in the columns of days written out; one that is a text stays as it is."""
    columns = {column for column, heading in table[1].items() if heading in DAYS}
    for row, cells in table.items():
        for column in columns & set(cells):
            if re.fullmatch(r"[0-9]+(\.[0-9]+)?", cells[column]):
                number = int(float(cells[column]))
                if not SHIFTED < number < 2_000_000:
                    raise _fault(name, f"line {row}", f"day number {number}", "a day", "Write it as YYYY-MM-DD.")
                cells[column] = (first_day + timedelta(days=number)).isoformat()
    return table


def _written(table: Table) -> str:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    columns = range(1, max(table[1]) + 1)
    for row in range(1, max(table) + 1):
        writer.writerow([table.get(row, {}).get(column, "") for column in columns])
    return out.getvalue()
