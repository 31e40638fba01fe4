"""Recorded flights as tables: one header with the columns, one row for each sample; CSV, or JSON.

    time_utc,latitude_deg,longitude_deg,altitude_msl_ft
    2026-12-01T10:00:00Z,34.0211,-148.2833,2000

TIMES, POSITION and ALTITUDES are the columns that are read; the name of an altitude says what it counts from.  A file
with other names is read once somebody has assigned its columns to these.  Columns that nobody assigned are named in a
remark and not read.

CSV: cells between commas, or between semicolons or tabs; there a comma may be the decimal point.  Lines before the
header may begin with #; with assigned columns any line may stand there.  JSON: a list of objects, or of lists with
the names under "columns" (else they are called 0, 1, 2 ...), at the top or under one of the names of an object; so it
is for tracks of the open surveillance style: timestamp, latitude, longitude, altitude barometric and geometric.
"""

import json

from lpv.core.errors import DomainError
from lpv.core.text import interval
from lpv.core.units import M_PER_FT
from lpv.track.records import (
    BAROMETRIC,
    GEOMETRIC,
    HIGHEST_ALTITUDE_FT,
    LOWEST_ALTITUDE_FT,
    REFERENCES,
    Faults,
    Reading,
    Recording,
    Remark,
    clock_s,
    number,
    quoted,
    refuse,
    utc_s,
)

TYPE_CHECKING = False
if TYPE_CHECKING:
    Columns = dict[str, str]  # name of ours -> name in the file
    Cells = list[object]

TIMES = ("time_utc", "time_s", "time_ms", "time_clock")
POSITION = ("latitude_deg", "longitude_deg")
FEET = (("ft", 1.0), ("m", 1.0 / M_PER_FT))
# Columns of altitudes in order, and column -> (reference, ft for one of its unit)
ALTITUDE_NAMES = [f"altitude_{name}_{unit}" for name in REFERENCES for unit, _ in FEET]
ALTITUDES = {f"altitude_{name}_{unit}": (name, feet) for name in REFERENCES for unit, feet in FEET}
OURS = list(TIMES + POSITION) + ALTITUDE_NAMES
LONGEST_LINE = 2000
SPACES = " \t\r\n\x0b\x0c"
SEPARATORS = ",;\t"
MAX_LINES_BEFORE = 60  # the header
MAX_COLUMNS = 200
DEEPEST_JSON = 8
NO_ALTITUDE = ("", "ground", "null", "none", "nan")  # texts of an altitude cell that say there is none
HALF_DAY_S = 43200.0
DAY_S = 86400.0


class Table:
    """Rows of cells with their lines, one after the other.

    names: of the columns;  line: where they stand;  separator: between cells, "" where the cells are no text
    """

    def __init__(self, names: "list[str]", line: int, separator: str) -> None:
        self.names, self.line, self.separator = names, line, separator

    def next(self, faults: Faults) -> "tuple[int, Cells] | None":
        """The next row that is not empty; None at the end."""
        raise NotImplementedError


class CsvTable(Table):
    """A table in lines; separator as found in the header."""

    def __init__(self, lines: "list[str]", at: int, names: "list[str]", separator: str) -> None:
        Table.__init__(self, names, at, separator)
        self._lines, self._at = lines, at

    def next(self, faults: Faults) -> "tuple[int, Cells] | None":
        """The cells of the next line that is not empty; a line that has none is a fault and passed over."""
        while self._at < len(self._lines):
            row = self._lines[self._at]
            self._at += 1
            if not row.strip(SPACES):
                continue
            try:
                return self._at, list(cells_of(row, self.separator))
            except DomainError as error:
                faults.add(f"line {self._at}", str(error), "cells with separators", "Check that it is a table.")
        return None


class JsonTable(Table):
    """A table of JSON rows, each an object or a list."""

    def __init__(self, rows: "list[object]", names: "list[str]") -> None:
        Table.__init__(self, names, 1, "")
        self._rows, self._at = rows, 0

    def next(self, faults: Faults) -> "tuple[int, Cells] | None":
        """The cells of the next row; the line is its number."""
        while self._at < len(self._rows):
            row = self._rows[self._at]
            self._at += 1
            if isinstance(row, dict):
                return self._at, [row.get(name) for name in self.names]
            if isinstance(row, list):
                return self._at, (row + [None] * len(self.names))[: len(self.names)]
            faults.add(f"row {self._at}", "neither an object nor a list", "rows of one kind", "Export it again.")
        return None


class Layout:
    """Where the columns stand: kind and place of the time, places of the position, altitudes by place, how many."""

    def __init__(
        self, time: str, time_at: int, position_at: "tuple[int, int]", altitudes: "list[tuple[int, str, float]]",
        width: int,
    ) -> None:
        self.time, self.time_at, self.position_at = time, time_at, position_at
        self.altitudes, self.width = altitudes, width


class TableReader:
    """Reads the rows of a table in pieces.

    columns: the columns of the file by our names, None where they have our names
    most_rows: samples that are read;  DataError comes from here and from `recording`
    """

    def __init__(self, table: Table, name: str, columns: "Columns | None", most_rows: int) -> None:
        self.name, self.most_rows, self._table = name, most_rows, table
        self.faults = Faults(name)
        self.readings: list[Reading] = []
        self.decimals = self.count = 0
        self._decimal_comma = table.separator in (";", "\t")
        names = our_names(table.names, columns or {}, table.line, self.faults)
        self._layout = layout_of(names, table.line, self.faults)
        self._assigned = bool(columns)
        self._last_s = self._days_s = 0.0
        self.remarks = not_read(table.names, names, table.line)

    def read(self, rows: int) -> bool:
        """Read so many more samples; whether there are more of them."""
        for _ in range(rows):
            row = self._table.next(self.faults)
            if row is None:
                return False
            self.count += 1
            if self.count > self.most_rows:
                self.faults.add(f"line {row[0]}", f"over {self.most_rows} samples", f"at most {self.most_rows}",
                                "Cut the approach out.")
                return False
            self._take(row[0], row[1])
        return True

    def recording(self) -> Recording:
        """What was read; DataError with every fault, each with its line."""
        if len(self.readings) < 2 and not self.faults.count:
            self.faults.add("", f"{len(self.readings)} samples", "at least 2", "Export the flight again.")
        self.faults.stop()
        geometric, barometric = [
            "".join([reference for _, reference, _ in self._layout.altitudes if reference in kind])
            for kind in (GEOMETRIC, BAROMETRIC)]
        return Recording(self.name, geometric, barometric, tuple(self.readings), self.decimals, self.remarks)

    def _take(self, line: int, cells: "Cells") -> None:
        """One row as a reading, or its faults; a row of units right below an assigned header is passed over."""
        if len(cells) != self._layout.width:
            self.faults.add(f"line {line}", f"{len(cells)} cells", f"{self._layout.width}, as in the header",
                            "Correct the line; if the file ends here, remove it.")
            return
        if self._assigned and not self.readings and self.count == 1 and self._is_units(cells):
            return
        before = self.faults.count
        reading = self._reading(line, cells)
        if self.faults.count == before:
            self.readings.append(reading)
            for at in self._layout.position_at:
                self.decimals = max(self.decimals, decimals_of(cells[at], self._decimal_comma))

    def _is_units(self, cells: "Cells") -> bool:
        return all(self._number(cells[at]) is None for at in self._layout.position_at)

    def _number(self, cell: object) -> "float | None":
        """The number in a cell; None for anything else."""
        if isinstance(cell, (int, float)) and not isinstance(cell, bool):
            return float(cell) if abs(cell) < 1e15 else None
        if not isinstance(cell, str):
            return None
        return number(cell.replace(",", ".") if self._decimal_comma else cell)

    def _reading(self, line: int, cells: "Cells") -> Reading:
        layout = self._layout
        geometric_ft = barometric_ft = None
        for place, reference, factor in layout.altitudes:
            if shown(cells[place]).lower() in (NO_ALTITUDE if self._assigned else NO_ALTITUDE[:1]):
                continue
            low, high = LOWEST_ALTITUDE_FT / factor, HIGHEST_ALTITUDE_FT / factor
            unit = "ft" if factor == 1.0 else "m"
            altitude_ft = self._within(line, "altitude", cells[place], (low, high, unit)) * factor
            if reference in GEOMETRIC:
                geometric_ft = altitude_ft
            else:
                barometric_ft = altitude_ft
        time_s = self._time_s(line, cells[layout.time_at])
        latitude_deg = self._within(line, POSITION[0], cells[layout.position_at[0]], (-90.0, 90.0, "deg"))
        longitude_deg = self._within(line, POSITION[1], cells[layout.position_at[1]], (-180.0, 180.0, "deg"))
        return Reading(line, time_s, latitude_deg, longitude_deg, geometric_ft, barometric_ft)

    def _time_s(self, line: int, cell: object) -> float:
        time = self._layout.time
        if time == "time_utc":
            return utc_s(shown(cell), f"line {line}", self.faults, self._assigned)
        if time != "time_clock":
            share = 1000.0 if time == "time_ms" else 1.0
            return self._within(line, time, cell, (0.0, 1e10 * share, time[5:])) / share
        clock = clock_s(shown(cell))
        if clock is None:
            self.faults.add(f"line {line}, time", quoted(shown(cell)), "a clock such as 10:00:00", "Correct the time.")
            return 0.0
        if clock < self._last_s - HALF_DAY_S:
            self._days_s += DAY_S
        self._last_s = clock
        return self._days_s + clock

    def _within(self, line: int, name: str, cell: object, allowed: "tuple[float, float, str]") -> float:
        """The number in a cell; 0 and a fault for anything else, and outside of what is allowed."""
        value = self._number(cell)
        if value is not None and allowed[0] <= value <= allowed[1]:
            return value
        self.faults.add(f"line {line}, {name}", quoted(shown(cell)), interval(*allowed),
                        "Correct the cell.")
        return 0.0


def shown(cell: object) -> str:
    """A cell as text."""
    return cell if isinstance(cell, str) else "" if cell is None else str(cell)


def decimals_of(cell: object, decimal_comma: bool = False) -> int:
    """How many decimals a cell has."""
    text = shown(cell)
    return len((text.replace(",", ".") if decimal_comma else text).partition(".")[2])


# CSV


def csv_table(text: str, name: str, columns: "Columns | None" = None) -> CsvTable:
    """The table in the text of a CSV file; DataError where the header has no cells.

    columns: assigned by whoever reads the file; then the header is the first line that has all of them
    """
    lines = text.split("\n")
    needed = [columns[ours] for ours in OURS if ours in columns] if columns else []
    first = -1
    for at in range(len(lines)):
        row = lines[at]
        if not row.strip(SPACES) or (row[:1] == "#" and not needed):
            continue
        if first < 0:
            first = at
        if not needed:
            break
        if at - first > MAX_LINES_BEFORE:
            break
        names = names_in(row)
        if not [name for name in needed if name not in names]:
            return CsvTable(lines, at + 1, names, separator_of(row))
    if first < 0:
        return CsvTable(lines, 1, [], ",")
    try:
        return CsvTable(lines, first + 1, cells_of(lines[first], separator_of(lines[first])),
                        separator_of(lines[first]))
    except DomainError as error:
        raise refuse(
            name, str(error), "cells with separators", "Check that it is a table.", f"line {first + 1}") from None


def header_of(text: str) -> "list[str]":
    """The names of the columns in a table that nobody has assigned yet: the first line with the most cells."""
    best: list[str] = []
    lines_read = 0
    for row in text.split("\n"):
        if not row.strip(SPACES):
            continue
        lines_read += 1
        if lines_read > MAX_LINES_BEFORE:
            break
        names = names_in(row.lstrip("#") if row[:1] == "#" else row)
        if len(names) > len(best) and len([name for name in names if number(name) is None]) > len(names) / 2:
            best = names
    return best[:MAX_COLUMNS]


def names_in(row: str) -> "list[str]":
    """The cells of a line; [] for a line that has none."""
    try:
        return cells_of(row, separator_of(row))
    except DomainError:
        return []


def separator_of(row: str) -> str:
    """What stands between the cells of a line, outside of quotes: the sign that is there most often, else a comma."""
    bare = _outside_quotes(row[:LONGEST_LINE])
    counts = [(bare.count(sign), -place) for place, sign in enumerate(SEPARATORS)]
    return SEPARATORS[-max(counts)[1]]


def _outside_quotes(row: str) -> str:
    parts = row.split('"')
    return "".join([part for place, part in enumerate(parts) if place % 2 == 0])


def cells_of(row: str, separator: str = ",") -> "list[str]":
    """The cells of a line, without spaces around them; DomainError, saying what was found, for one that is none."""
    if len(row) > LONGEST_LINE:
        raise DomainError(f"{len(row)} characters")
    row = row.strip("\r\n\x0b\x0c " if separator == "\t" else SPACES)
    if "\r" in row:
        raise DomainError("a line break inside a line")
    if '"' in row:
        return _with_quotes(row, separator)
    cells = row.split(separator)
    return [cell.strip(SPACES) for cell in cells] if " " in row or "\t" in row else cells


def _with_quotes(row: str, separator: str) -> "list[str]":
    """The cells of a line with quotes: those that begin with one may hold separators, and quotes in pairs."""
    blanks = " \r\n\x0b\x0c" if separator == "\t" else SPACES
    cells = []
    remainder = separator + row
    while remainder:
        remainder = remainder[1:].lstrip(blanks)
        if remainder[:1] != '"':
            cell, separated, after = remainder.partition(separator)
            cells.append(cell.strip(SPACES))
            remainder = separator + after if separated else ""
            continue
        cell, remainder = _until_quote(remainder[1:])
        cells.append(cell.strip(SPACES))
        remainder = remainder.lstrip(blanks)
        if remainder[:1] not in ("", separator):
            raise DomainError("something between a quote and a separator")
    return cells


def _until_quote(text: str) -> "tuple[str, str]":
    """What stands before the closing quote, and what after it."""
    cell = ""
    while True:
        part, quote, text = text.partition('"')
        if not quote:
            raise DomainError("a quote that is not closed")
        cell += part
        if text[:1] != '"':
            return cell, text
        cell, text = cell + '"', text[1:]


# JSON


def json_table(text: str, name: str) -> JsonTable:
    """The table in a JSON text; DataError for what is none, or is nested too deeply."""
    _bounded(text, name)
    try:
        data = json.loads(text)
    except ValueError:
        raise refuse(name, "text that is not JSON", "a JSON text", "Export the track again.") from None
    rows, names = _rows_in(data)
    if rows is None:
        raise refuse(name, "no list of samples", "a list of objects or of lists", "Check that it is a track.")
    return JsonTable(rows, names if names else names_of(rows))


def _bounded(text: str, name: str) -> None:
    """DataError for brackets that are nested deeper than a track needs."""
    depth = deepest = 0
    for part in _outside_strings(text):
        for sign in part:
            depth += 1 if sign in "[{" else -1 if sign in "]}" else 0
            deepest = max(deepest, depth)
        if deepest > DEEPEST_JSON:
            raise refuse(name, f"lists more than {DEEPEST_JSON} deep", f"at most {DEEPEST_JSON}",
                         "Export the track alone.")


def _outside_strings(text: str) -> "list[str]":
    """The parts of a JSON text outside of its strings."""
    parts = text.replace("\\\\", "").replace('\\"', "").split('"')
    return [part for place, part in enumerate(parts) if place % 2 == 0]


def _rows_in(data: object) -> "tuple[list[object] | None, list[str]]":
    """(rows, names of their columns where they are named beside them); the longest list of an object counts."""
    if isinstance(data, list):
        return data, []
    if not isinstance(data, dict):
        return None, []
    names = data.get("columns")
    best: list[object] | None = None
    for key in sorted(data):
        rows = data[key]
        if isinstance(rows, list) and rows and isinstance(rows[0], (list, dict)) and (
                best is None or len(rows) > len(best)):
            best = rows
    return best, [shown(name) for name in names] if isinstance(names, list) else []


def names_of(rows: "list[object]") -> "list[str]":
    """The columns of rows: the keys of objects in order of the alphabet, or the places of lists from 0."""
    keys: list[str] = []
    width = 0
    for row in rows[:200]:
        if isinstance(row, dict):
            keys.extend([key for key in row if key not in keys])
        elif isinstance(row, list):
            width = max(width, len(row))
    return (sorted(keys) or [str(place) for place in range(width)])[:MAX_COLUMNS]


# Columns


def our_names(names: "list[str]", columns: "Columns", line: int, faults: Faults) -> "list[str]":
    """The names of a header with those that were assigned replaced by ours; a fault for one that is not there."""
    made = list(names)
    for ours in OURS:
        theirs = columns.get(ours, "")
        if not theirs:
            continue
        if theirs in names:
            made[names.index(theirs)] = ours
        else:
            faults.add(f"line {line}, header", f"no column {quoted(theirs)}", "the column assigned to " + ours,
                       "Assign the columns anew.")
    for ours in columns:
        if ours not in OURS:
            faults.add("", f"a column for {quoted(ours)}", ", ".join(OURS), "Correct the name.")
    return made


def layout_of(names: "list[str]", line: int, faults: Faults) -> Layout:
    """The columns that the header names; DataError if they are not enough, or not clear."""
    at = f"line {line}, header"
    times = [name for name in names if name in TIMES]
    altitudes = [(place, ALTITUDES[name][0], ALTITUDES[name][1]) for place, name in enumerate(names)
                 if name in ALTITUDES]
    if len(times) != 1:
        faults.add(at, " ".join(times) or "no time", "one of " + ", ".join(TIMES), "Name the column of the time.")
    for name in POSITION:
        if name not in names:
            faults.add(at, f"no {name}", "a column of this name, in decimal degrees", "Name the column.")
    if not altitudes:
        faults.add(at, "no altitude", "a column " + ", ".join(ALTITUDE_NAMES), "Name what the altitude counts from.")
    for kind, what in ((GEOMETRIC, "by GNSS"), (BAROMETRIC, "by an altimeter")):
        if len([row for row in altitudes if row[1] in kind]) > 1:
            faults.add(at, f"two altitudes {what}", "one of this kind", "Rename the one that is not to be read.")
    for place, name in enumerate(names):
        if name and names.count(name) > 1 and names.index(name) == place:
            faults.add(at, f"{quoted(name)} twice", "every column once", "Rename one of them.")
    faults.stop()
    position_at = (names.index(POSITION[0]), names.index(POSITION[1]))
    return Layout(times[0], names.index(times[0]), position_at, altitudes, len(names))


def not_read(names: "list[str]", ours: "list[str]", line: int) -> "tuple[Remark, ...]":
    """A remark with the columns that are not read, if there are any."""
    unread = [quoted(name, 30) for place, name in enumerate(names) if ours[place] not in OURS and name]
    return (Remark("columns", f"Columns that are not read: {', '.join(unread)}.", (line,)),) if unread else ()


# Words in names of columns that speak for one of ours, all of a row's words in one name; the first that fits.
GUESSES = (
    ("time_ms", ("millis",)), ("time_ms", ("time", "ms")), ("time_utc", ("iso",)), ("time_utc", ("time", "utc")),
    ("time_utc", ("datetime",)), ("time_s", ("epoch",)), ("time_s", ("timestamp",)), ("time_s", ("seconds",)),
    ("time_s", ("time",)), ("time_s", ("now",)), ("time_clock", ("clock",)),
    ("latitude_deg", ("latitude",)), ("latitude_deg", ("lat",)),
    ("longitude_deg", ("longitude",)), ("longitude_deg", ("lon",)), ("longitude_deg", ("lng",)),
    ("altitude_ellipsoid_m", ("ellips", "m")), ("altitude_ellipsoid_ft", ("ellips",)),
    ("altitude_ellipsoid_ft", ("geom",)), ("altitude_ellipsoid_ft", ("wgs",)),
    ("altitude_pressure_ft", ("press", "alt")), ("altitude_pressure_ft", ("baro", "alt")),
    ("altitude_indicated_ft", ("indicated",)), ("altitude_indicated_ft", ("ind", "alt")),
    ("altitude_msl_ft", ("msl",)), ("altitude_msl_ft", ("gps", "alt")), ("altitude_msl_ft", ("alt",)),
    ("altitude_msl_ft", ("elevation",)),
)


def guess(names: "list[str]") -> "Columns":
    """What the columns may be, by their names, for a reader to confirm: at most one time, one altitude of each kind."""
    columns: Columns = {}
    for ours, words in GUESSES:
        kind = _kind(ours)
        if [other for other in columns if _kind(other) == kind]:
            continue
        for name in names:
            small = name.lower()
            if name not in [columns[key] for key in columns] and not [word for word in words if word not in small]:
                columns[ours] = name
                break
    return columns


def _kind(ours: str) -> str:
    """What only one column can be: the time, a coordinate, the altitude by GNSS, that by an altimeter."""
    if ours in TIMES:
        return "time"
    if ours in POSITION:
        return ours
    return "geometric" if ALTITUDES[ours][0] in GEOMETRIC else "barometric"
