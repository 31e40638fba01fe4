"""Where the fixes, navaids and localizers of a whole file are, by identifier, ICAO region and section.

A reference that names its fix exactly is resolved as it stands.  One whose region is blank or another, or whose fix
belongs to another airport, is resolved only where one place alone fits and it is near; what was done is told.
"""

import re
from typing import NamedTuple

from lpv.arinc.columns import angle_deg
from lpv.core.text import quantity
from lpv.geodesy import earth

NEAR_NM = 300.0  # farther away no leg of an approach begins; a fix of the same name there is another one
_ENTRY = 25  # region, latitude and longitude, airport
_PLACE = re.compile(r"[NS]\d{8}[EW]\d{9}", re.ASCII)
WORDS = {"D ": "VHF navaid", "DB": "NDB", "EA": "enroute waypoint", "PC": "terminal waypoint", "PI": "localizer",
         "PN": "terminal NDB", "HC": "heliport waypoint"}
OF_AN_AIRPORT = ("PC", "PI", "PN", "HC")


class Reference(NamedTuple):
    """How a record names something of another record: identifier, ICAO region, section; "" without one."""

    ident: str
    region: str
    section: str


class Place(NamedTuple):
    """Where something is: degrees, the airport whose record it stands in, and what was done to find it."""

    latitude_deg: float
    longitude_deg: float
    airport: str = ""
    remark: str = ""


class Positions:
    """What a file says of places, added record by record; `find` looks one up."""

    def __init__(self, most: int) -> None:
        self.most = most
        self.count = 0
        self._held: dict[str, str] = {}

    def add(self, section: str, airport: str, region: str, ident: str, where: str) -> bool:
        """Remembers a place; False where that would be more than `most`."""
        key, entry = f"{section:2}{ident.strip()}", f"{region:2}{where:19}{airport:4}"
        entries = self._held.get(key, "")
        if _has(entries, entry):
            return True
        if self.count >= self.most:
            return False
        self.count += 1
        self._held[key] = entries + entry
        return True

    def find(self, reference: Reference, near: tuple[float, float]) -> Place | str:
        """The place that a record of an airport refers to, or in words why none is known.

        near: latitude and longitude (deg) of the airport, whose own records were looked through before
        """
        ident, section = reference.ident, f"{reference.section:2}"
        entries = self._entries(section, ident)
        exact = [entry for entry in entries if entry[:2] == f"{reference.region:2}"]
        if exact and section in OF_AN_AIRPORT:
            return _one(_near(exact, near), ident, "not among the airport's own")
        if exact:
            return _one(exact, ident, "")
        return self._elsewhere(reference, entries, near)

    def _elsewhere(self, reference: Reference, entries: list[str], near: tuple[float, float]) -> Place | str:
        """The one place that fits where the reference itself names none."""
        ident, region = reference.ident, reference.region.strip()
        in_region = [entry for entry in entries if entry[:2].strip() in ("", region) or not region
                     or entry[:2].strip() == region[:1] or entry[:1] == region]
        place = _one(_near(in_region, near), ident, f"coded in region {region or 'blank'}") if in_region else ""
        if isinstance(place, Place) or not re.fullmatch("[A-Z]{5}", ident, re.ASCII):
            return place or f"position of {ident} is not in the file"
        others = [entry for kind in ("EA", "PC", "HC") if kind != reference.section
                  for entry in self._entries(kind, ident) if entry[:2].strip() == region]
        words = f"coded as {WORDS.get(reference.section, 'of section ' + reference.section)}"
        again = _one(_near(others, near), ident, words) if others else ""
        return again or place or f"position of {ident} is not in the file"

    def _entries(self, section: str, ident: str) -> list[str]:
        entries = self._held.get(f"{section:2}{ident}", "")
        return [entries[start : start + _ENTRY] for start in range(0, len(entries), _ENTRY)]


def _has(entries: str, entry: str) -> bool:
    return entries.find(entry) % _ENTRY == 0 if entry in entries else False


def _place(entry: str, remark: str) -> Place | None:
    where = entry[2:21]
    if not _PLACE.fullmatch(where):
        return None
    return Place(angle_deg(where[:9]), angle_deg(where[9:]), entry[21:].rstrip(), remark)


def _near(entries: list[str], near: tuple[float, float]) -> list[str]:
    nearby = []
    for entry in entries:
        place = _place(entry, "")
        if place and earth.distance_nm(*near, place.latitude_deg, place.longitude_deg) <= NEAR_NM:
            nearby.append(entry)
    return nearby


def _one(entries: list[str], ident: str, how: str) -> Place | str:
    """The one place of these entries; in words why there is none, where they are at several places or at none."""
    places = dict.fromkeys(entry[2:21] for entry in entries)
    if len(places) > 1:
        return f"position of {ident} is ambiguous: the file has {len(places)}"
    if not places:
        return f"position of {ident} is not in the file within {quantity(NEAR_NM, 'NM')}"
    entry = entries[0]
    place = _place(entry, how and _taken(ident, how, entry[:2], entry[21:]))
    return place or f"position of {ident} is unreadable"


def taken_from(ident: str, coded: str, region: str, airport: str) -> str:
    """In words that a place is that of a record of another region than the one coded."""
    return _taken(ident, f"coded in region {coded or 'blank'}", region, airport)


def _taken(ident: str, how: str, region: str, airport: str) -> str:
    at_airport = f" of {airport.rstrip()}" if airport.strip() else ""
    return f"{ident}: {how}, taken from region {region.strip() or 'blank'}{at_airport}"
