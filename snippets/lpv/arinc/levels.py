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
from lpv.arinc.positions import Reference
from lpv.core.errors import DataError, Fault, shown
from lpv.fas.path_point_reader import PathPoint, collect

PRIMARY = ("0", "1")
_LEG = slice(6, 38)  # airport to section of the fix: what a continuation shares with its primary record
_NUMBER = 38
_ABOUT = slice(13, 18), slice(18, 20), slice(20, 22), slice(22, 23)  # center, region, section, multiple code
_APPLICATION = 39
LEVEL_NAMES = ("LPV", "LP", "LNAV/VNAV", "LNAV")
AUTHORIZED, NOT_AUTHORIZED = "A", "N"
LINES = {"fas": "a final approach segment", "vnav": "LNAV/VNAV", "lnav": "LNAV"}
REFERENCES = {"T": "bearings are true", "": "whether bearings are magnetic or true is not stated"}
ANNOUNCES, FIRST_CONTINUATION = "1", "2"


@dataclass
class Levels:
    """What the continuations of an approach say.

    lines:    the lines of minima that they authorize
    refused:  those that they name as not authorized
    rnp_nm:   the values of required navigation performance that they authorize
    not_read: what in them is not read here, in words
    """

    lines: list[str] = field(default_factory=list)
    refused: list[str] = field(default_factory=list)
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
            waiting[key] = number == ANNOUNCES, record.number
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
    levels, faults = Levels(), []
    for record in continuations:
        layout = LEVELS if record.text[_APPLICATION : _APPLICATION + 1] == "W" else OTHER
        texts, wrong = layout.texts(record.text, file, f"line {record.number}")
        faults += wrong
        if wrong:
            continue
        if layout is OTHER:
            levels.not_read.append(f"line {record.number}: continuation of kind {texts['application'] or 'blank'}, "
                                   f"not supported: {shown(record.text[40:123].strip())}")
            continue
        levels.lines += [texts[f"{line}_name"] for line in LINES if texts[line] == AUTHORIZED]
        levels.refused += [words for line, words in LINES.items() if texts[line] == NOT_AUTHORIZED]
        levels.not_read += [f"line {record.number}: {words}" for words in _odd(texts)]
        values = [rnp_nm(texts[f"rnp_{number}"]) for number in range(RNP_LEVELS)
                  if texts[f"rnp_{number}_is"] == AUTHORIZED]
        levels.rnp_nm += [value for value in values if value is not None]
        levels.not_read += [f"line {record.number}: {column.place()} holds {shown(text.strip())}, not supported"
                            for column, text in layout.left_over(record.text)]
    if faults:
        raise DataError(faults)
    levels.refused = [words for words in dict.fromkeys(levels.refused) if words not in levels.lines]
    unknown = [line for line in levels.lines if line not in LEVEL_NAMES]
    levels.not_read += [f"line of minima {shown(line)}, unknown" for line in unknown]
    levels.lines = [line for line in LEVEL_NAMES if line in levels.lines]
    return levels


def _odd(texts: dict[str, str]) -> list[str]:
    """What in a continuation does not fit together, in words."""
    remarks = [f"{words} is named {shown(texts[f'{line}_name'])} and not authorized"
               for line, words in LINES.items() if texts[f"{line}_name"] and texts[line] != AUTHORIZED]
    values = [(texts[f"rnp_{number}_is"], texts[f"rnp_{number}"]) for number in range(RNP_LEVELS)]
    remarks += [f"RNP {number}: value {value or 'blank'} with {authorized or 'a blank'} in place of A"
                for number, (authorized, value) in enumerate(values, 1)
                if (authorized, bool(value)) not in ((AUTHORIZED, True), ("", False))]
    number = texts["continuation"]
    return remarks + ([f"continuation number {number}, not supported"] if number != FIRST_CONTINUATION else [])


def path_point_of(records: list[Record], file: str) -> tuple[PathPoint, list[str]] | None:
    """(path point, its lines) of one approach; None if there is none; DataError with the file's own line numbers."""
    records = [record for record in records if _is_read(record)]
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


def other_continuations(records: list[Record]) -> list[str]:
    """Continuations of a path point that are not read here, in words: all but the one of application E."""
    return [f"line {record.number}: continuation {record.text[26]} of the path point, of kind "
            f"{record.text[27].strip() or 'blank'}, not supported: {shown(record.text[28:123].strip())}"
            for record in records if not _is_read(record)]


def _is_read(record: Record) -> bool:
    return record.text[26:27] in PRIMARY or record.text[26:28] == FIRST_CONTINUATION + "E"


def _at_line(fault: Fault, records: list[Record]) -> Fault:
    """The fault with the line's number in the file in place of that among the records given."""
    key = re.sub(r"line (\d+)", lambda match: f"line {records[int(match[1]) - 1].number}", fault.key)
    return Fault(fault.file, key, fault.found, fault.allowed, fault.action)


def safe_altitudes(
    records: list[Record], centre: Reference, multiple: str, file: str,
) -> tuple[list[dict[str, Any]], str]:
    """(the sectors as tables of an approach file, in words what a reader should know of them, "" for nothing).

    records:  all safe altitudes of the airport
    centre:   what the approach names as their centre, "" where it names none: taken then where there is one only
    DataError for faults of the columns.
    """
    primaries = [record for record in records if record.text[_NUMBER : _NUMBER + 1] in PRIMARY]
    chosen, remarks = _chosen(primaries, centre, multiple)
    if len(records) > len(primaries):
        remarks.append(f"{len(records) - len(primaries)} continuation records, not read")
    elif any(record.text[_NUMBER] == ANNOUNCES for record in chosen):
        remarks.append("a continuation record that is announced is not there")
    if not chosen:
        return [], "; ".join(remarks)
    texts, faults = SAFE_ALTITUDE.texts(chosen[0].text, file, f"line {chosen[0].number}")
    if faults:
        raise DataError(faults)
    remarks += [REFERENCES[texts["reference"]]] if texts["reference"] in REFERENCES else []
    remarks += [f"{column.place()} holds {shown(text.strip())}, not supported"
                for column, text in SAFE_ALTITUDE.left_over(chosen[0].text)]
    taken_centre = Reference(texts["centre"], texts["centre_region"], texts["centre_section"])
    if centre.ident and taken_centre != centre:
        remarks.append(f"coded about {_named(centre)}, taken from the record about {_named(taken_centre)}")
    if centre.ident and texts["multiple"] != multiple:
        remarks.append(f"multiple code {multiple or 'blank'} coded, {texts['multiple'] or 'blank'} taken")
    sectors = [texts[f"sector_{number}"] for number in range(SECTORS)]
    return [_sector(texts["centre"], sector) for sector in sectors if sector], "; ".join(remarks)


def _chosen(primaries: list[Record], centre: Reference, multiple: str) -> tuple[list[Record], list[str]]:
    """The record of the safe altitudes about a centre, [] for none or several; in words why, and how it was chosen."""
    chosen = [record for record in primaries if record.text[13:18].rstrip() == centre.ident]
    chosen = [record for record in chosen if record.text[22:23].strip() == multiple] or chosen
    if centre.ident:
        many = f"{len(chosen) or 'no'} records about {centre.ident}, which the approach names"
        return (chosen, []) if len(chosen) == 1 else ([], [many])
    if len(primaries) == 1:
        about = " ".join(primaries[0].text[columns].strip() for columns in _ABOUT).rstrip()
        return primaries, [f"about {about}: the airport's only ones; the approach names no center"]
    several = f"not taken: the approach names no center, and the airport has {len(primaries)} of them"
    return [], [several] if primaries else []


def _named(centre: Reference) -> str:
    return " ".join(filter(None, centre))


def _sector(centre: str, text: str) -> dict[str, Any]:
    """One sector of 18018005325: bearings to the centre, altitude in hundreds of feet, radius."""
    return {"centre": centre, "from_deg": int(text[:3]), "to_deg": int(text[3:6]),
            "altitude_ft": int(text[6:9]) * 100, "radius_nm": int(text[9:11])}
