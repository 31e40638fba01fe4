"""Continuations of a coded approach (levels of service), its path point, and its minimum safe altitudes.

Source: ARINC Specification 424-18, as the published records confirm it.
"""

import re
from itertools import pairwise
from typing import Any

from lpv.arinc.columns import LEVELS, MSA, SECTORS, columns_of
from lpv.arinc.reader import Record
from lpv.core.errors import DataError, Fault
from lpv.fas.path_point_reader import PathPoint, collect

PRIMARY = ("0", "1")
_LEG = slice(6, 38)  # airport to section of the fix: what a continuation shares with its primary record
_NUMBER = 38
_APPLICATION = 39
LEVEL_NAMES = ("LPV", "LP", "LNAV/VNAV", "LNAV")


def split(records: list[Record], file: str) -> tuple[list[Record], list[Record]]:
    """(primary records, continuations) of an approach.

    DataError for a continuation whose primary record does not stand before it, and for a primary record that
    announces a continuation which does not follow.
    """
    primaries, continuations, faults, waiting = [], [], [], {}
    for record in records:
        key, number = record.text[_LEG], record.text[_NUMBER : _NUMBER + 1]
        if number in PRIMARY:
            primaries.append(record)
            waiting[key] = number == "1", record.number
        elif key in waiting:
            continuations.append(record)
            waiting[key] = False, record.number
        else:
            faults.append(Fault(file, f"line {record.number}", "a continuation without its primary record before it",
                                "the primary record first", "Get the file again."))
    faults += [
        Fault(file, f"line {number}", "a record whose continuation is missing", "both", "Get the file again.")
        for announced, number in waiting.values() if announced
    ]
    if faults:
        raise DataError(faults)
    return primaries, continuations


def gaps(records: list[Record]) -> list[str]:
    """Where the file's own record numbers jump within an approach, in words: a leg may be missing there."""
    numbers = [(record.number, record.text[123:128]) for record in records if record.text[123:128].isdecimal()]
    return [
        f"line {line}: record numbers jump from {before} to {after}; a leg may be missing"
        for (_, before), (line, after) in pairwise(numbers) if int(after) - int(before) > 1
    ]


def lines_authorised(continuations: list[Record], file: str) -> tuple[list[str], list[str]]:
    """(lines of minima that the records authorise, continuations that are not read, in words); DataError."""
    lines: list[str] = []
    others, faults = [], []
    for record in continuations:
        application = record.text[_APPLICATION : _APPLICATION + 1]
        if application != "W":
            others.append(f"line {record.number}: continuation of kind {application}, not read here")
            continue
        texts, found = columns_of(record.text, LEVELS, file, f"line {record.number}")
        faults += found
        if not found:
            lines += [texts[f"{line}_name"] for line in ("fas", "vnav", "lnav") if texts[line] == "A"]
    unknown = [line for line in lines if line not in LEVEL_NAMES]
    others += [f"line of minima {line}, not known here" for line in unknown]
    if faults:
        raise DataError(faults)
    return [line for line in LEVEL_NAMES if line in lines], others


def path_point_of(records: list[Record], file: str) -> tuple[PathPoint, list[str]] | None:
    """(path point, its lines) of one approach; None if there is none; DataError with the file's own line numbers."""
    if not records:
        return None
    points, faults = collect([record.text for record in records], file)
    if faults:
        raise DataError([_at_line(fault, records) for fault in faults])
    if len(points) != 1:
        raise DataError([Fault(file, f"line {records[0].number}", f"{len(points)} path points for one approach", "one",
                               "Write this approach by hand.")])
    return points[0], [record.text for record in records]


def _at_line(fault: Fault, records: list[Record]) -> Fault:
    """The fault with the line's number in the file in place of that among the records given."""
    key = re.sub(r"line (\d+)", lambda found: f"line {records[int(found[1]) - 1].number}", fault.key)
    return Fault(fault.file, key, fault.found, fault.allowed, fault.action)


def safe_altitudes(records: list[Record], centre: str, multiple: str, file: str) -> list[dict[str, Any]]:
    """The sectors about a centre as tables of an approach file, [] if there are none; DataError."""
    faults: list[Fault] = []
    found: list[dict[str, Any]] = []
    for record in records:
        if (record.text[13:18].rstrip(), record.text[22:23].strip()) != (centre, multiple):
            continue
        texts, wrong = columns_of(record.text, MSA, file, f"line {record.number}")
        faults += wrong
        if not wrong and texts["continuation"] in PRIMARY:
            sectors = (texts[f"sector_{number}"] for number in range(SECTORS))
            found += [_sector(centre, sector) for sector in sectors if sector]
    if faults:
        raise DataError(faults)
    return found


def _sector(centre: str, text: str) -> dict[str, Any]:
    """One sector of 18018005325: bearings to the centre, altitude in hundreds of feet, radius."""
    return {"centre": centre, "from_deg": int(text[:3]), "to_deg": int(text[3:6]),
            "altitude_ft": int(text[6:9]) * 100, "radius_nm": int(text[9:11])}
