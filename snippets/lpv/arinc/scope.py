"""Which approaches of an airport are in scope, and the true reason for each that is not."""

import re
from dataclasses import dataclass

from lpv.approach.schema import LEVELS
from lpv.arinc import codes
from lpv.arinc.levels import levels_of, split
from lpv.arinc.lines import AirportRecords, Record
from lpv.arinc.procedure import Procedure, procedure
from lpv.arinc.records import PLACES
from lpv.core.errors import DataError
from lpv.core.text import trimmed

NOT_STATED = "not stated"
NO_SEGMENT = "no path point, so no SBAS final approach segment"
TO_A_HELIPORT = "an approach to a heliport, not to a runway"
TO_A_POINT = "for helicopters: its path point lies at a point in space, not at a runway"
_RUNWAY = re.compile(r"RW(0[1-9]|[12][0-9]|3[0-6])[LCR ]", re.ASCII)
PATH_POINT_RUNWAY = slice(19, 24)
_LEVEL = slice(46, 56)
_QUALIFIER_2 = slice(119, 120)
AUGMENTATION = {"J": "guided by GBAS, not by SBAS"}
CONVENTIONAL = "not an RNAV approach"
AREA_NAVIGATION = ("R", "H", "P")


@dataclass(frozen=True)
class Coded:
    """One approach that is coded at an airport.

    name:   as coded, "R28L"
    level:  level of service that its path point states; NOT_STATED without one, "" without a path point
    reason: why it makes no approach file; "" where it may
    """

    airport: str
    name: str
    level: str
    reason: str


def approaches(airport: AirportRecords, file: str) -> list[Coded]:
    """Every approach that is coded at an airport or heliport, in the order of the file."""
    kind = "HF" if airport.is_heliport else "PF"
    by_name: dict[str, list[Record]] = {}
    for record in airport.records[kind]:
        by_name.setdefault(record.text[PLACES["PF"]].rstrip(), []).append(record)
    return [_coded(airport, name, records, file) for name, records in by_name.items()]


def _coded(airport: AirportRecords, name: str, records: list[Record], file: str) -> Coded:
    parsed, stated = procedure(name), _level(airport, name)
    if airport.is_heliport:
        words = f"{TO_A_HELIPORT} ({parsed.kind_words})"
        return Coded(airport.ident, name, stated, words + ("" if stated else f"; {NO_SEGMENT}"))
    if not stated or parsed.kind not in AREA_NAVIGATION:
        return Coded(airport.ident, name, stated, _why(parsed, records, file))
    if parsed.course and not _leads_to_a_runway(airport, name):
        return Coded(airport.ident, name, stated, f"{parsed.kind_words}, {TO_A_POINT}")
    if stated not in (*LEVELS, NOT_STATED):
        return Coded(airport.ident, name, stated, f"its path point serves {stated}, neither LPV nor LP")
    return Coded(airport.ident, name, stated, "")


def _leads_to_a_runway(airport: AirportRecords, name: str) -> bool:
    """Whether the path point of an approach named by a course lies at a runway, not at a point in space."""
    return any(_RUNWAY.fullmatch(record.text[PATH_POINT_RUNWAY]) for record in airport.records["PP"]
               if record.text[PLACES["PP"]].rstrip() == name)


def _level(airport: AirportRecords, name: str) -> str:
    kind = "HP" if airport.is_heliport else "PP"
    points = [record.text for record in airport.records[kind] if record.text[PLACES["PP"]].rstrip() == name]
    levels = [text[_LEVEL].strip() for text in points if text[26:27] == "2"]
    return next(filter(None, levels), NOT_STATED) if points else ""


def _why(parsed: Procedure, records: list[Record], file: str) -> str:
    """Why an approach without a path point makes no file: what kind it is, and what it authorizes."""
    if parsed.kind not in AREA_NAVIGATION:
        return f"{parsed.kind_words}: {AUGMENTATION.get(parsed.kind, CONVENTIONAL)}"
    helicopter = parsed.course or is_for_helicopters(records)
    description = ", ".join(filter(None, (
        parsed.kind_words, "circling only" if parsed.circling else "", "for helicopters" if helicopter else "")))
    return "; ".join([f"{description}: {NO_SEGMENT}", *_authorized(records, file)])


def is_for_helicopters(records: list[Record]) -> bool:
    """Whether the second qualifier of any leg says so."""
    return any(record.text[_QUALIFIER_2] in codes.HELICOPTER for record in records)


def _authorized(records: list[Record], file: str) -> list[str]:
    """The lines of minima and the values of required navigation performance that the continuations authorize."""
    try:
        levels = levels_of(split(records, file)[1], file)
    except DataError:
        return []
    values = [f"RNP {trimmed(value, 0.01)}" for value in levels.rnp_nm]
    return [f"authorizes {', '.join([*levels.lines, *values])}"] if levels.lines or values else []
