"""Recorded flights as CSV: one header line with the columns, one line for each sample.

    time_utc,latitude_deg,longitude_deg,altitude_msl_ft
    2026-12-01T10:00:00Z,34.0211,-148.2833,2000

TIMES, POSITION and ALTITUDES are the columns that are read; the name of an altitude says what it counts from.
Others are named in a remark and not read.  Empty lines and lines that begin with # may stand before the header.
"""

import csv
import io
import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from lpv.errors import shown
from lpv.facts import value
from lpv.track_records import (
    BAROMETRIC,
    GEOMETRIC,
    HIGHEST_ALTITUDE_FT,
    LOWEST_ALTITUDE_FT,
    REFERENCES,
    Faults,
    Reading,
    Recording,
    Remark,
)
from lpv.units import M_PER_FT

TIMES = ("time_utc", "time_s")
POSITION = ("latitude_deg", "longitude_deg")
FEET = {"ft": 1.0, "m": 1.0 / M_PER_FT}
# Column -> (reference, ft for one of its unit)
ALTITUDES = {f"altitude_{name}_{unit}": (name, FEET[unit]) for name in REFERENCES for unit in FEET}
MOST_ROWS = int(value("recording_most_rows"))
LONGEST_LINE = 2000
NUMBER = re.compile(r"[+-]?\d{1,12}(?:\.\d{0,15})?")


@dataclass(frozen=True)
class _Layout:
    """Where the columns stand: name and place of the time, places of the position, altitudes by place, how many."""

    time: str
    time_at: int
    position_at: tuple[int, int]
    altitudes: tuple[tuple[int, str, float], ...]
    width: int


def read_csv(text: str, name: str) -> Recording:
    """The recording in the text of a CSV file; DataError with every fault, each with its line."""
    faults = Faults(name)
    rows = _rows(text, faults)
    layout, remarks = _layout(rows, faults)
    found, decimals = _readings(rows, layout, faults)
    faults.stop()
    kinds = {reference in GEOMETRIC: reference for _, reference, _ in layout.altitudes}
    return Recording(name, kinds.get(True, ""), kinds.get(False, ""), tuple(found), decimals, remarks)


def _rows(text: str, faults: Faults) -> Iterator[tuple[int, list[str]]]:
    """(line, cells) of every line that is not empty; before the first of them, lines with # are passed over."""
    before = True
    for line, row in enumerate(io.StringIO(text, newline="\n"), 1):
        if not row.strip() or (before and row.startswith("#")):
            continue
        before = False
        if len(row) > LONGEST_LINE:
            faults.add(f"line {line}", f"{len(row)} characters", f"at most {LONGEST_LINE}", "Is it a CSV file?")
            continue
        try:
            cells = next(csv.reader([row.rstrip("\r\n")], strict=True, skipinitialspace=True))
            yield line, [cell.strip() for cell in cells]
        except csv.Error as error:
            faults.add(f"line {line}", str(error), "cells between commas", "Correct the quotes.")


def _layout(rows: Iterator[tuple[int, list[str]]], faults: Faults) -> tuple[_Layout, tuple[Remark, ...]]:
    """The columns that the header names; DataError if they are not enough, or not clear."""
    line, names = next(rows, (1, []))
    at = f"line {line}, header"
    times = [name for name in names if name in TIMES]
    altitudes = [(place, *ALTITUDES[name]) for place, name in enumerate(names) if name in ALTITUDES]
    if len(times) != 1:
        faults.add(at, " ".join(times) or "no time", "one of " + ", ".join(TIMES), "Name the column of the time.")
    for name in POSITION:
        if name not in names:
            faults.add(at, f"no {name}", "a column of this name, in decimal degrees", "Name the column.")
    if not altitudes:
        faults.add(at, "no altitude", "a column " + ", ".join(ALTITUDES), "Name what the altitude counts from.")
    for kind, what in ((GEOMETRIC, "by GNSS"), (BAROMETRIC, "by an altimeter")):
        if len([row for row in altitudes if row[1] in kind]) > 1:
            faults.add(at, f"two altitudes {what}", "one of this kind", "Rename the one that is not to be read.")
    for name in {name for name in names if names.count(name) > 1}:
        faults.add(at, f"{shown(name)} twice", "every column once", "Rename one of them.")
    faults.stop()
    layout = _Layout(
        times[0], names.index(times[0]), (names.index(POSITION[0]), names.index(POSITION[1])), tuple(altitudes),
        len(names),
    )
    return layout, _not_read(names, line)


def _not_read(names: list[str], line: int) -> tuple[Remark, ...]:
    known = {*TIMES, *POSITION, *ALTITUDES}
    rest = [shown(name, 30) for name in names if name not in known]
    return (Remark("columns", f"Columns that are not read: {', '.join(rest)}.", (line,)),) if rest else ()


def _readings(
    rows: Iterator[tuple[int, list[str]]], layout: _Layout, faults: Faults,
) -> tuple[list[Reading], int]:
    """Every sample, and the greatest number of decimals of its positions; no sample for a line with a fault."""
    found: list[Reading] = []
    decimals = 0
    for count, (line, cells) in enumerate(rows, 1):
        if count > MOST_ROWS:
            faults.add(f"line {line}", f"over {MOST_ROWS} samples", f"at most {MOST_ROWS}", "Cut the approach out.")
            break
        if len(cells) != layout.width:
            faults.add(f"line {line}", f"{len(cells)} cells", f"{layout.width}, as in the header",
                       "Correct the line; if the file ends here, remove it.")
            continue
        before = faults.count
        reading = _reading(line, cells, layout, faults)
        if faults.count == before:
            found.append(reading)
            decimals = max(decimals, *(len(cells[at].partition(".")[2]) for at in layout.position_at))
    if len(found) < 2 and not faults.count:
        faults.add("", f"{len(found)} samples", "at least 2", "Export the flight again.")
    return found, decimals


def _reading(line: int, cells: list[str], layout: _Layout, faults: Faults) -> Reading:
    def number(name: str, text: str, low: float, high: float, unit: str) -> float:
        if NUMBER.fullmatch(text) and low <= float(text) <= high:
            return float(text)
        faults.add(f"line {line}, {name}", shown(text), f"{low:g} to {high:g} {unit}", "Correct the cell.")
        return 0.0

    altitudes: dict[bool, float | None] = {}
    for place, reference, factor in layout.altitudes:
        text = cells[place]
        low, high = LOWEST_ALTITUDE_FT / factor, HIGHEST_ALTITUDE_FT / factor
        altitudes[reference in GEOMETRIC] = (
            number("altitude", text, low, high, "ft" if factor == 1.0 else "m") * factor if text else None)
    latitude, longitude = (cells[place] for place in layout.position_at)
    text = cells[layout.time_at]
    return Reading(
        line,
        number("time_s", text, 0.0, 1e10, "s") if layout.time == TIMES[1] else utc_s(text, f"line {line}", faults),
        number(POSITION[0], latitude, -90.0, 90.0, "deg"), number(POSITION[1], longitude, -180.0, 180.0, "deg"),
        altitudes.get(True), altitudes.get(False),
    )


def utc_s(text: str, place: str, faults: Faults) -> float:
    """Seconds since 1970 of an ISO 8601 time with Z or an offset; 0 and a fault for anything else."""
    try:
        moment = datetime.fromisoformat(text) if len(text) <= 40 else None
    except ValueError:
        moment = None
    if moment is None or moment.tzinfo is None:
        faults.add(f"{place}, time", shown(text), "2026-12-01T10:00:00Z, or with an offset", "Correct the time.")
        return 0.0
    return moment.timestamp()
