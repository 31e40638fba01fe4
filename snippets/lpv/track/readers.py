"""Recorded flights as CSV, and what is refused unread: one header line with the columns, one line for each sample.

    time_utc,latitude_deg,longitude_deg,altitude_msl_ft
    2026-12-01T10:00:00Z,34.0211,-148.2833,2000

TIMES, POSITION and ALTITUDES are the columns that are read; the name of an altitude says what it counts from.
Others are named in a remark and not read.  Empty lines and lines that begin with # may stand before the header.
"""

from lpv.core.errors import DataError, DomainError
from lpv.core.units import M_PER_FT
from lpv.facts import value
from lpv.track.records import (
    BAROMETRIC,
    GEOMETRIC,
    HIGHEST_ALTITUDE_FT,
    IN_WORDS,
    LOWEST_ALTITUDE_FT,
    REFERENCES,
    Faults,
    Reading,
    Recording,
    Remark,
    number,
    quoted,
    refuse,
    utc_s,
)

# The first bytes of files that are compressed: gzip, zip, bzip2, xz, zstandard.
COMPRESSED = (b"\x1f\x8b", b"PK\x03\x04", b"BZh", b"\xfd7zXZ", b"\x28\xb5\x2f\xfd")
STATED = "one of " + "; ".join([f"{key} ({IN_WORDS[key]})" for key in REFERENCES])
CSV, GPX = ".csv", ".gpx"


def kind_of(name: str, altitude: str) -> str:
    """CSV or GPX by the ending of a name; DataError for another, and for what is not stated as it must be.

    altitude: what the altitudes of a GPX file count from; must be "" for CSV, whose header says it
    """
    kind = ending_of(name)
    if kind == CSV and altitude:
        raise refuse(name, f"altitude {quoted(altitude)} stated", "the name of the column says it",
                     "Leave the statement out.")
    if kind == GPX and altitude not in REFERENCES:
        raise refuse(name, f"altitude {quoted(altitude)} stated", STATED, "State what the altitudes count from.")
    if kind not in (CSV, GPX):
        raise refuse(name, f"the ending {quoted(kind)}", ".csv or .gpx", "Export the flight as one of them.")
    return kind


def ending_of(name: str) -> str:
    """The ending of a file's name, from its last point on, in small letters; "" without one."""
    at = name.rfind(".")
    return name[at:].lower() if at > 0 and name[at:] != "." else ""


def too_large(name: str, most_mb: float) -> DataError:
    """The fault of a file that is not read because of its size."""
    return refuse(name, f"more than {most_mb:g} MB", f"at most {most_mb:g} MB", "Cut the approach out.")


def compressed(name: str) -> DataError:
    """The fault of a compressed file."""
    return refuse(name, "a compressed file", "plain CSV or GPX", "Unpack it first.")


def no_text(name: str) -> DataError:
    """The fault of a file with bytes that are no text."""
    return refuse(name, "bytes that are no text", "UTF-8", "Export the flight again, as UTF-8.")


TIMES = ("time_utc", "time_s")
POSITION = ("latitude_deg", "longitude_deg")
FEET = (("ft", 1.0), ("m", 1.0 / M_PER_FT))
# Columns of altitudes in order, and column -> (reference, ft for one of its unit)
COLUMNS = [f"altitude_{name}_{unit}" for name in REFERENCES for unit, _ in FEET]
ALTITUDES = {f"altitude_{name}_{unit}": (name, feet) for name in REFERENCES for unit, feet in FEET}
MOST_ROWS = int(value("recording_most_rows"))
LONGEST_LINE = 2000
SPACES = " \t\r\n\x0b\x0c"


class Layout:
    """Where the columns stand: name and place of the time, places of the position, altitudes by place, how many."""

    def __init__(
        self, time: str, time_at: int, position_at: "tuple[int, int]", altitudes: "list[tuple[int, str, float]]",
        width: int,
    ) -> None:
        self.time, self.time_at, self.position_at = time, time_at, position_at
        self.altitudes, self.width = altitudes, width


class CsvReader:
    """Reads the text of a CSV file in pieces, so that a browser can answer in between.

    most_rows: samples that are read;  DomainError and DataError come from `read` and `recording`
    """

    def __init__(self, text: str, name: str, most_rows: int = MOST_ROWS) -> None:
        self.name, self.most_rows = name, most_rows
        self.faults = Faults(name)
        self.found: list[Reading] = []
        self.decimals = self.count = 0
        self._lines = text.split("\n")
        self._at = 0
        line, names = self._next() or (1, [])
        self._layout = layout_of(names, line, self.faults)
        self.remarks = not_read(names, line)

    def read(self, rows: int) -> bool:
        """Read so many more samples; whether there are more of them."""
        for _ in range(rows):
            row = self._next()
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
        if len(self.found) < 2 and not self.faults.count:
            self.faults.add("", f"{len(self.found)} samples", "at least 2", "Export the flight again.")
        self.faults.stop()
        geometric, barometric = [
            "".join([reference for _, reference, _ in self._layout.altitudes if reference in kind])
            for kind in (GEOMETRIC, BAROMETRIC)]
        return Recording(self.name, geometric, barometric, tuple(self.found), self.decimals, self.remarks)

    def _next(self) -> "tuple[int, list[str]] | None":
        """(line, cells) of the next line that is not empty; None at the end.

        Before the first such line, lines with # are passed over.
        """
        while self._at < len(self._lines):
            row = self._lines[self._at]
            self._at += 1
            if not row.strip(SPACES) or (not self.started and row[:1] == "#"):
                continue
            self.started = True
            try:
                return self._at, cells_of(row)
            except DomainError as error:
                self.faults.add(f"line {self._at}", str(error), "cells between commas", "Is it a CSV file?")
        return None

    started = False

    def _take(self, line: int, cells: "list[str]") -> None:
        """One line as a reading, or its faults."""
        if len(cells) != self._layout.width:
            self.faults.add(f"line {line}", f"{len(cells)} cells", f"{self._layout.width}, as in the header",
                            "Correct the line; if the file ends here, remove it.")
            return
        before = self.faults.count
        reading = _reading(line, cells, self._layout, self.faults)
        if self.faults.count == before:
            self.found.append(reading)
            for at in self._layout.position_at:
                self.decimals = max(self.decimals, len(cells[at].partition(".")[2]))


def read_csv(text: str, name: str) -> Recording:
    """The recording in the text of a CSV file; DataError with every fault, each with its line."""
    reader = CsvReader(text, name, MOST_ROWS)
    while reader.read(MOST_ROWS):
        pass
    return reader.recording()


def cells_of(row: str) -> "list[str]":
    """The cells of a line, without spaces around them; DomainError, saying what was found, for one that is none."""
    if len(row) > LONGEST_LINE:
        raise DomainError(f"{len(row)} characters")
    row = row.strip(SPACES)
    if "\r" in row:
        raise DomainError("a line break inside a line")
    if '"' in row:
        return _with_quotes(row)
    cells = row.split(",")
    return [cell.strip(SPACES) for cell in cells] if " " in row or "\t" in row else cells


def _with_quotes(row: str) -> "list[str]":
    """The cells of a line with quotes: those that begin with one may hold commas, and quotes in pairs."""
    cells = []
    rest = "," + row
    while rest:
        rest = rest[1:].lstrip(SPACES)
        if rest[:1] != '"':
            cell, _, after = rest.partition(",")
            cells.append(cell.strip(SPACES))
            rest = "," + after if len(after) + len(cell) < len(rest) else ""
            continue
        cell, rest = _until_quote(rest[1:])
        cells.append(cell.strip(SPACES))
        rest = rest.lstrip(SPACES)
        if rest[:1] not in ("", ","):
            raise DomainError("something between a quote and a comma")
    return cells


def _until_quote(text: str) -> "tuple[str, str]":
    """What stands before the closing quote, and what after it."""
    cell = ""
    while True:
        part, found, text = text.partition('"')
        if not found:
            raise DomainError("a quote that is not closed")
        cell += part
        if text[:1] != '"':
            return cell, text
        cell, text = cell + '"', text[1:]


def layout_of(names: "list[str]", line: int, faults: Faults) -> Layout:
    """The columns that the header names; DataError if they are not enough, or not clear."""
    at = f"line {line}, header"
    for sign, what in ((";", "semicolons"), ("\t", "tabs")):
        if len(names) < 2 and sign in "".join(names):
            faults.add(at, f"{what} between cells", "commas", "Export the flight with commas, and points in numbers.")
            raise faults.error()
    times = [name for name in names if name in TIMES]
    altitudes = [(place, ALTITUDES[name][0], ALTITUDES[name][1]) for place, name in enumerate(names)
                 if name in ALTITUDES]
    if len(times) != 1:
        faults.add(at, " ".join(times) or "no time", "one of " + ", ".join(TIMES), "Name the column of the time.")
    for name in POSITION:
        if name not in names:
            faults.add(at, f"no {name}", "a column of this name, in decimal degrees", "Name the column.")
    if not altitudes:
        faults.add(at, "no altitude", "a column " + ", ".join(COLUMNS), "Name what the altitude counts from.")
    for kind, what in ((GEOMETRIC, "by GNSS"), (BAROMETRIC, "by an altimeter")):
        if len([row for row in altitudes if row[1] in kind]) > 1:
            faults.add(at, f"two altitudes {what}", "one of this kind", "Rename the one that is not to be read.")
    for place, name in enumerate(names):
        if names.count(name) > 1 and names.index(name) == place:
            faults.add(at, f"{quoted(name)} twice", "every column once", "Rename one of them.")
    faults.stop()
    position_at = (names.index(POSITION[0]), names.index(POSITION[1]))
    return Layout(times[0], names.index(times[0]), position_at, altitudes, len(names))


def not_read(names: "list[str]", line: int) -> "tuple[Remark, ...]":
    """A remark with the columns that are not read, if there are any."""
    rest = [quoted(name, 30) for name in names if name not in TIMES + POSITION and name not in ALTITUDES]
    return (Remark("columns", f"Columns that are not read: {', '.join(rest)}.", (line,)),) if rest else ()


def _reading(line: int, cells: "list[str]", layout: Layout, faults: Faults) -> Reading:
    geometric_ft = barometric_ft = None
    for place, reference, factor in layout.altitudes:
        text = cells[place]
        if not text:
            continue
        low, high = LOWEST_ALTITUDE_FT / factor, HIGHEST_ALTITUDE_FT / factor
        unit = "ft" if factor == 1.0 else "m"
        altitude_ft = _within(line, "altitude", text, (low, high, unit), faults) * factor
        if reference in GEOMETRIC:
            geometric_ft = altitude_ft
        else:
            barometric_ft = altitude_ft
    text = cells[layout.time_at]
    time_s = (_within(line, TIMES[1], text, (0.0, 1e10, "s"), faults) if layout.time == TIMES[1]
              else utc_s(text, f"line {line}", faults))
    latitude_deg = _within(line, POSITION[0], cells[layout.position_at[0]], (-90.0, 90.0, "deg"), faults)
    longitude_deg = _within(line, POSITION[1], cells[layout.position_at[1]], (-180.0, 180.0, "deg"), faults)
    return Reading(line, time_s, latitude_deg, longitude_deg, geometric_ft, barometric_ft)


def _within(line: int, name: str, text: str, allowed: "tuple[float, float, str]", faults: Faults) -> float:
    """The number in a cell; 0 and a fault for any other text, and outside of what is allowed."""
    found = number(text)
    if found is not None and allowed[0] <= found <= allowed[1]:
        return found
    faults.add(f"line {line}, {name}", quoted(text), f"{allowed[0]:g} to {allowed[1]:g} {allowed[2]}",
               "Correct the cell.")
    return 0.0
