"""Marks of the coded records of an approach, group by group: whether what somebody filled in may be carried over."""

import hashlib

from lpv.arinc.flown import Flown
from lpv.arinc.legs import FINAL, MISSED, TRANSITION
from lpv.arinc.lines import Record
from lpv.arinc.records import FILE_NUMBER, Lookup
from lpv.fas.path_point_reader import PathPoint

PARTS = (FINAL, MISSED, TRANSITION)


def marks(
    lookup: Lookup, point: PathPoint, point_lines: list[str], continuations: list[Record], legs: list[Flown],
) -> dict[str, str]:
    """The table [records] of an approach file; number in the file and date of the last change make no difference."""
    final, missed, transitions = ([_leg(leg) for leg in legs if leg.part == part] for part in PARTS)
    return {
        "airport": _mark(_texts(lookup.named("PA", lookup.airport.ident))),
        "runway": _mark(_texts(lookup.named("PG", point.runway))),
        "path_point": _mark([line[: FILE_NUMBER.start] for line in point_lines]),
        "levels": _mark(_texts(continuations)),
        "final": _mark(final), "missed": _mark(missed), "transitions": _mark(transitions),
        "safe_altitudes": _mark(_texts(lookup.airport.records["PS"])),
    }


def _texts(records: list[Record]) -> list[str]:
    return [record.text[: FILE_NUMBER.start] for record in records]


def _leg(leg: Flown) -> str:
    """A leg with the positions of its fix and its centre."""
    places = [f"{place.latitude_deg:.7f} {place.longitude_deg:.7f}" for place in (leg.place, leg.centre) if place]
    return " ".join([leg.leg.line[: FILE_NUMBER.start], *places])


def _mark(texts: list[str]) -> str:
    return hashlib.sha256("\n".join(texts).encode()).hexdigest()[:8]
