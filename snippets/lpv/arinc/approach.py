"""One coded approach as the tables of an approach file: identity, chart's side, database's side.

The records are the database's side.  The chart's side is filled with the same numbers and says so; what records
cannot hold is listed as to be filled from the chart (`lpv.approach.schema.TO_BE_FILLED`).
"""

import hashlib
import re
from dataclasses import dataclass
from datetime import date
from typing import Any

from lpv.approach.schema import LEVELS, TO_BE_FILLED
from lpv.arinc import levels as arinc_levels
from lpv.arinc.columns import AIRPORT, RUNWAY, course_deg, variation_deg
from lpv.arinc.fixes import Charted, missed_table, not_read
from lpv.arinc.legs import Leg, legs_of
from lpv.arinc.reader import AirportRecords, Source
from lpv.arinc.records import Lookup
from lpv.core import airac
from lpv.core.course import course_difference_deg, course_tenths_text, magnetic_deg, variation_text
from lpv.core.errors import DataError
from lpv.fas import segment
from lpv.fas.path_point_reader import PathPoint

TITLES = {"FAA": "RNAV (GPS)", "ICAO": "RNP", "EASA": "RNP"}
SAME_COURSE_DEG = 0.5  # a coded course is rounded, and the meridians converge along the final
Table = dict[str, Any]


@dataclass(frozen=True)
class Imported:
    """One approach as it goes into a file.

    slug:    name of the file
    tables:  what it holds
    remarks: what a reader of the file should know, each on one line
    unread:  path terminators and continuations that are not read, with their place
    gaps:    where record numbers jump, with their place: a leg may be missing
    records: hash of the records that it was made from (`lpv.arinc.records.Lookup.hash`)
    """

    slug: str
    tables: Table
    remarks: list[str]
    unread: list[str]
    gaps: list[str]
    records: str

    def mark(self, cycle: str) -> str:
        """The mark of a file that is made from these records for a data cycle."""
        return hashlib.sha256(f"{cycle}\n{self.records}".encode()).hexdigest()[:16]


def names(airport: AirportRecords) -> list[str]:
    """The approaches coded at an airport as RNAV ("R28L"), in the order of the file."""
    return list(dict.fromkeys(record.text[13:19].rstrip() for record in airport.records["PF"]))


def level(airport: AirportRecords, name: str) -> str:
    """Level of service that an approach's path point states; "" without one, "not stated" without a level."""
    points = [record.text for record in airport.records["PP"] if record.text[13:19].rstrip() == name]
    stated = [text[46:56].strip() for text in points if text[26:27] == "2"]
    return next(filter(None, stated), "not stated") if points else ""


def build(airport: AirportRecords, name: str, source: Source, cycle: str, rule: str) -> Imported:
    """The approach of this name, by whose rules its chart is made.

    DataError with the faults of its records, or for want of what an approach file needs.
    """
    lookup, data = Lookup(airport, source), airac.cycle(cycle)
    coded = lookup.named("PF", name)
    primaries, continuations = arinc_levels.split(coded, source.name)
    found = arinc_levels.path_point_of(lookup.named("PP", name), source.name)
    if found is None:
        raise lookup.refused(f"no path point for {name}", "one; without it there is no SBAS final segment")
    point, records = found
    if point.level_of_service not in LEVELS or point.sbas_channel is None:
        found_there = f"level {point.level_of_service}, channel {point.sbas_channel}"
        raise lookup.refused(found_there, "LPV or LP, and a channel")
    legs = legs_of(primaries, source.name)
    lines, unread = arinc_levels.lines_authorised(continuations, source.name)
    gaps = arinc_levels.gaps(coded)
    charted = Charted(legs, lookup.position, source.name)
    chart, remarks = _chart(charted, point, lookup)
    chart["coded_legs"] += [*unread, *gaps]
    tables = {
        "identity": _identity(airport, name, point, lines, cycle, rule, lookup), "chart": chart,
        "database": _database(charted, point, records, data) | {"lines": lines},
    }
    if later := lookup.later_than(cycle):
        raise DataError(later)
    parts = (airport.ident, TITLES[rule].split()[0], point.runway[2:], _multiple(name))
    slug = "-".join(part for part in parts if part).lower()
    unread = [*not_read(legs), *unread]
    filled = {key: _filled(table) for key, table in tables.items()}
    return Imported(slug, filled, remarks, unread, gaps, lookup.hash(len(gaps)))


def _filled(table: Table) -> Table:
    """A table without its empty lists."""
    return {key: value for key, value in table.items() if value != []}


def _identity(
    airport: AirportRecords, name: str, point: PathPoint, lines: list[str], cycle: str, rule: str, lookup: Lookup,
) -> Table:
    which, runway = _multiple(name), point.runway[2:]
    return {
        "airport": airport.ident, "airport_name": " ".join(lookup.needed("PA", airport.ident, AIRPORT)["name"].split()),
        "runway": runway, "title": f"{TITLES[rule]} {which + ' ' if which else ''}RWY {runway}",
        "level_of_service": next((line for line in lines if line in LEVELS), point.level_of_service),
        "channel": point.sbas_channel, "path_id": point.segment.reference_path_id, "cycle": cycle, "rule": rule,
    }


def _chart(charted: Charted, point: PathPoint, lookup: Lookup) -> tuple[Table, list[str]]:
    airport = lookup.needed("PA", lookup.airport.ident, AIRPORT, "variation", "elevation", "name")
    runway = lookup.needed("PG", point.runway, RUNWAY, "length", "elevation")
    course = course_deg(charted.final.course)
    if course is None:
        raise lookup.refused("no final course", "a course", f"line {charted.final.number}")
    variation = variation_deg(airport["variation"])
    missed, kept = missed_table(charted.missed)
    tch_ft, tch_of = _crossing(runway, point)
    centre, multiple = _centre(charted.route)
    chart: Table = {
        "course_deg": course[0], "course_reference": "true" if course[1] else "magnetic", "variation_deg": variation,
        **_angle(charted.final), "tch_ft": tch_ft, "threshold_elevation_ft": int(runway["elevation"]),
        "airport_elevation_ft": int(airport["elevation"]), "runway_length_ft": int(runway["length"]),
        **_displaced(runway), "from_coded_record": True, "to_be_filled": _to_be_filled(bool(missed)),
        "coded_legs": [*charted.kept, *kept], **({"missed": missed} if missed else {}), "fix": charted.fixes,
        "msa": arinc_levels.safe_altitudes(lookup.named("PS", centre), centre, multiple, lookup.source.name),
    }
    return chart, [_made_with(course, variation, point), f"Threshold crossing height: {tch_of}."]


def _database(charted: Charted, point: PathPoint, records: list[str], data: airac.Cycle) -> Table:
    course = course_deg(charted.final.course)
    return {
        "path_point": records, "channel": point.sbas_channel, "path_id": point.segment.reference_path_id,
        "course_deg": course and course[0], "cycle": data.ident, "effective": date.fromordinal(data.effective),
        "expires": date.fromordinal(data.expiry),
        "fix": [_shown(fix) for fix in charted.fixes if fix["role"] not in ("missed", "missed hold")],
    }


def _shown(fix: Table) -> Table:
    """A fix as the aircraft lists it."""
    keys = {"name": "name", "leg_course_deg": "course_deg", "leg_distance_nm": "distance_nm",
            "altitude_ft": "altitude_ft"}
    return {there: fix[here] for here, there in keys.items() if here in fix}


def _multiple(name: str) -> str:
    """The letter that tells approaches to one runway apart: Y of R28LY, Z of R36-Z."""
    match = re.fullmatch(r"R\d\d[LRC-]?([A-Z0-9]?)", name, re.ASCII)
    return match[1] if match else name


def _to_be_filled(has_missed: bool) -> list[str]:
    """What the chart is to be read for; of a missed approach that is coded only its climb gradient."""
    return [key for key in TO_BE_FILLED if not (key == "missed" if has_missed else key.startswith("missed."))]


def _angle(leg: Leg) -> Table:
    """The glidepath angle that the final leg codes."""
    return {"glidepath_deg": -int(leg.angle) / 100.0} if leg.angle.startswith("-") else {}


def _displaced(runway: dict[str, str]) -> Table:
    displaced_ft = int(runway["displaced"] or 0)
    return {"displaced_threshold_ft": displaced_ft} if displaced_ft else {}


def _crossing(runway: dict[str, str], point: PathPoint) -> tuple[float, str]:
    """Threshold crossing height in ft, and where it is from: the runway's record if that is of an RNAV procedure."""
    if runway["tch_of"] == "R" and runway["tch"]:
        return int(runway["tch"]), "of the runway's record, for its RNAV procedure"
    return round(point.segment.tch_ft, 1), "of the path point; the runway's record has none for an RNAV procedure"


def _centre(route: list[Leg]) -> tuple[str, str]:
    """Centre and multiple code of the minimum safe altitudes; arcs have another centre."""
    legs = (leg for leg in route if leg.centre and leg.terminator != "RF")
    return next(((leg.centre, leg.multiple) for leg in legs), ("", ""))


def _made_with(course: tuple[float, bool], variation: float, point: PathPoint) -> str:
    """Which variation the coded course was made with, or that it was another than the airport's of record."""
    coded, true_deg = course_tenths_text(course[0]), segment.true_course_deg(point.segment)
    if course[1]:
        return f"Final course {coded} true as coded, {course_tenths_text(true_deg)} by the segment."
    computed = magnetic_deg(true_deg, variation)
    same = abs(course_difference_deg(computed, course[0])) <= SAME_COURSE_DEG
    return (
        f"Final course {coded} magnetic as coded; {course_tenths_text(true_deg)} true by the segment less the "
        f"airport's variation of record {variation_text(variation)} is {course_tenths_text(computed)}"
        + (": made with that variation." if same else ": find out which variation it was made with.")
    )
