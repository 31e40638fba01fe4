"""Continuations of a coded approach (levels of service), its path point, and its minimum safe altitudes.

Source: ARINC Specification 424-18, as the published records confirm it.
"""

import re
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

from lpv.arinc.columns import rnp_nm
from lpv.arinc.layouts import SAFE_ALTITUDE, SECTORS
from lpv.arinc.leg_layouts import LEVELS, OTHER, RNP_LEVELS
from lpv.arinc.lines import Record
from lpv.core.errors import DataError, Fault, shown
from lpv.fas.path_point_reader import PathPoint, collect

PRIMARY = ("0", "1")
_LEG = slice(6, 38)  # airport to section of the fix: what a continuation shares with its primary record
_NUMBER = 38
_APPLICATION = 39
LEVEL_NAMES = ("LPV", "LP", "LNAV/VNAV", "LNAV")
AUTHORIZED = "A"


@dataclass
class Levels:
    """What the continuations of an approach say.

    lines:    the lines of minima that they authorize
    rnp_nm:   the values of required navigation performance that they authorize
    not_read: what in them is not read here, in words
    """

    lines: list[str] = field(default_factory=list)
    rnp_nm: list[float] = field(default_factory=list)
    not_read: list[str] = field(default_factory=list)


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


def levels_of(continuations: list[Record], file: str) -> Levels:
    """What the continuations of an approach say; DataError with every fault of their columns."""
    found, faults = Levels(), []
    for record in continuations:
        layout = LEVELS if record.text[_APPLICATION : _APPLICATION + 1] == "W" else OTHER
        texts, wrong = layout.texts(record.text, file, f"line {record.number}")
        faults += wrong
        if wrong:
            continue
        if layout is OTHER:
            found.not_read.append(f"line {record.number}: continuation of kind {texts['application'] or 'blank'}, "
                                  f"not supported: {shown(record.text[40:123].strip())}")
            continue
        found.lines += [texts[f"{line}_name"] for line in ("fas", "vnav", "lnav") if texts[line] == AUTHORIZED]
        values = [rnp_nm(texts[f"rnp_{number}"]) for number in range(RNP_LEVELS)
                  if texts[f"rnp_{number}_is"] == AUTHORIZED]
        found.rnp_nm += [value for value in values if value is not None]
        found.not_read += [f"line {record.number}: {column.place()} holds {shown(text.strip())}, not supported"
                           for column, text in layout.left_over(record.text)]
    if faults:
        raise DataError(faults)
    unknown = [line for line in found.lines if line not in LEVEL_NAMES]
    found.not_read += [f"line of minima {shown(line)}, unknown" for line in unknown]
    found.lines = [line for line in LEVEL_NAMES if line in found.lines]
    return found


def path_point_of(records: list[Record], file: str) -> tuple[PathPoint, list[str]] | None:
    """(path point, its lines) of one approach; None if there is none; DataError with the file's own line numbers."""
    if not records:
        return None
    points, faults = collect([record.text for record in records], file)
    if faults:
        raise DataError([_at_line(fault, records) for fault in faults])
    if len(points) != 1:
        named = ", ".join(point.segment.reference_path_id for point in points)
        raise DataError([Fault(file, f"line {records[0].number}", f"{len(points)} path points for one approach: "
                               f"{named}", "one", "Write this approach by hand.")])
    return points[0], [record.text for record in records]


def _at_line(fault: Fault, records: list[Record]) -> Fault:
    """The fault with the line's number in the file in place of that among the records given."""
    key = re.sub(r"line (\d+)", lambda found: f"line {records[int(found[1]) - 1].number}", fault.key)
    return Fault(fault.file, key, fault.found, fault.allowed, fault.action)


def safe_altitudes(
    records: list[Record], centre: str, multiple: str, file: str,
) -> tuple[list[dict[str, Any]], str]:
    """(the sectors as tables of an approach file, in words what a reader should know of them, "" for nothing).

    records:  all safe altitudes of the airport
    centre:   what the approach names as their centre, "" where it names none: taken then where there is one only
    DataError for faults of the columns.
    """
    primaries = [record for record in records if record.text[_NUMBER : _NUMBER + 1] in PRIMARY]
    chosen = [record for record in primaries if record.text[13:18].rstrip() == centre]
    chosen = [record for record in chosen if record.text[22:23].strip() == multiple] or chosen
    remark = ""
    if not centre and len(primaries) == 1:
        chosen = primaries
        remark = f"about {primaries[0].text[13:18].rstrip()}: the airport's only ones; the approach names no center"
    elif not centre and primaries:
        remark = f"not taken: the approach names no center, and the airport has {len(primaries)} of them"
    elif centre and len(chosen) != 1:
        chosen, remark = [], f"{len(chosen) or 'no'} records about {centre}, which the approach names"
    if not chosen:
        return [], remark
    texts, faults = SAFE_ALTITUDE.texts(chosen[0].text, file, f"line {chosen[0].number}")
    if faults:
        raise DataError(faults)
    remark += "; bearings are true" if texts["reference"] == "T" else ""
    sectors = [texts[f"sector_{number}"] for number in range(SECTORS)]
    return [_sector(texts["centre"], sector) for sector in sectors if sector], remark.removeprefix("; ")


def _sector(centre: str, text: str) -> dict[str, Any]:
    """One sector of 18018005325: bearings to the centre, altitude in hundreds of feet, radius."""
    return {"centre": centre, "from_deg": int(text[:3]), "to_deg": int(text[3:6]),
            "altitude_ft": int(text[6:9]) * 100, "radius_nm": int(text[9:11])}
