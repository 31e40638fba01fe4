"""One coded approach as the tables of an approach file: identity, chart's side, runway, database's side.

The records are the database's side.  The chart's side is filled with the same numbers and says so; what records
cannot hold is listed as to be filled from the chart (`lpv.approach.schema.TO_BE_FILLED`).
"""

import hashlib
from collections import Counter
from dataclasses import dataclass
from datetime import date
from typing import Any

from lpv.approach.schema import LEVELS, TO_BE_FILLED
from lpv.arinc import codes, consistency, leg_rows
from lpv.arinc import levels as arinc_levels
from lpv.arinc.columns import course_deg, variation_deg
from lpv.arinc.consistency import courses_are_true
from lpv.arinc.fixes import Charted, missed_table
from lpv.arinc.flown import Flown, Reckoning, flown
from lpv.arinc.layouts import AIRPORT, RUNWAY
from lpv.arinc.legs import legs_of
from lpv.arinc.lines import AirportRecords
from lpv.arinc.marks import marks
from lpv.arinc.odd_codes import out_of_place
from lpv.arinc.positions import Reference
from lpv.arinc.procedure import procedure, slug, title
from lpv.arinc.reader import Source
from lpv.arinc.records import Lookup
from lpv.arinc.runway import displaced_ft, runway_table, threshold_elevation_ft
from lpv.arinc.scope import is_for_helicopters
from lpv.core import airac
from lpv.core.course import course_difference_deg, magnetic_deg
from lpv.core.errors import DataError, shown
from lpv.core.text import course_digits, variation_digits
from lpv.fas import segment
from lpv.fas.path_point_reader import PathPoint

SAME_COURSE_DEG = 0.5  # a coded course is rounded, and the meridians converge along the final
Table = dict[str, Any]


@dataclass(frozen=True)
class Imported:
    """One approach as it goes into a file.

    slug:    name of the file
    tables:  what it holds
    remarks: what a reader of the file should know, each on one line
    unread:  what is coded and not understood, each with its place
    gaps:    where record numbers jump, with their place: a leg may be missing
    records: hash of the records that it was made from (`lpv.arinc.records.Lookup.hash`)
    left_over: (columns that no file holds and that are not blank, what they hold) -> in how many records
    """

    slug: str
    tables: Table
    remarks: list[str]
    unread: list[str]
    gaps: list[str]
    records: str
    left_over: Counter[tuple[str, str]]

    def mark(self, cycle: str) -> str:
        """The mark of a file that is made from these records for a data cycle."""
        return hashlib.sha256(f"{cycle}\n{self.records}".encode()).hexdigest()[:16]


def build(airport: AirportRecords, name: str, source: Source, cycle: str, rule: str) -> Imported:
    """The approach of this name, by whose rules its chart is made.

    DataError with the faults of its records, or for want of what an approach file needs.
    """
    made = _Making(Lookup(airport, source), name, rule)
    tables = {"identity": made.identity(cycle), "chart": made.chart(), "runway": made.runway(),
              "records": marks(made.lookup, made.point, made.point_lines, made.continuations, made.legs),
              "database": made.database(cycle)}
    if later := made.lookup.later_than(cycle):
        raise DataError(later)
    named = slug(airport.ident, procedure(name), made.point.runway[2:], rule)
    filled = {key: {part: value for part, value in table.items() if value != []}
              for key, table in tables.items() if table}
    remarks = [*made.remarks, *made.lookup.remarks]
    return Imported(named, filled, remarks, made.not_understood, made.gaps, made.lookup.hash(len(made.gaps)),
                    made.lookup.left_over)


class _Making:
    """What is known of an approach while its tables are made; DataError for faulty or missing records."""

    def __init__(self, lookup: Lookup, name: str, rule: str) -> None:
        self.lookup, self.name, self.rule = lookup, name, rule
        self.file = lookup.source.name
        self.remarks: list[str] = []
        self.airport = lookup.needed("PA", lookup.airport.ident, AIRPORT, "variation", "elevation", "name")
        self.remarks += consistency.airport_remarks(lookup)
        coded = lookup.named("PF", name)
        primaries, self.continuations = arinc_levels.split(coded, self.file)
        self.point, self.point_lines = self._path_point()
        self.levels = arinc_levels.levels_of(self.continuations, self.file)
        self.gaps = arinc_levels.gaps(coded)
        if is_for_helicopters(primaries):
            self.remarks.append("For helicopters, by its route qualifier: the chart's title says COPTER.")
        legs = legs_of(primaries, self.file)
        self.reckoning = Reckoning(courses_are_true(self.airport, legs), variation_deg(self.airport["variation"]))
        self.legs = flown(legs, lookup.place, self.reckoning)
        self.charted = Charted(self.legs, self.reckoning.is_true, self.file)
        self.runway_texts = lookup.needed("PG", self.point.runway, RUNWAY, "length")
        self.not_understood = [words for leg in self.legs for words in leg_rows.not_understood(leg)]
        self.not_understood += [*out_of_place(self.legs, procedure(name).kind), *leg_rows.not_placed(self.legs),
                                *self.levels.not_read, *arinc_levels.other_continuations(lookup.named("PP", name))]
        self.remarks += consistency.north_remarks(self.airport, legs)
        self.remarks += consistency.level_remarks(self.levels, self.continuations, self.legs)
        self.remarks += consistency.far_remarks(self.point, self.legs)
        consistency.leave_legs(lookup, self.legs)
        if self.point.other:
            contents = shown(self.point.other.strip())
            self.not_understood.append(f"path point: columns 62-123 of its continuation hold {contents}, not supported")

    def _path_point(self) -> tuple[PathPoint, list[str]]:
        point_and_gaps = arinc_levels.path_point_of(self.lookup.named("PP", self.name), self.file)
        if point_and_gaps is None:
            raise self.lookup.refused(f"no path point for {self.name}", "one, for the SBAS final segment")
        point = point_and_gaps[0]
        if point.level_of_service not in LEVELS or point.sbas_channel is None:
            coded_as = f"level {point.level_of_service}, channel {point.sbas_channel}"
            raise self.lookup.refused(coded_as, "LPV or LP, and a channel")
        return point_and_gaps

    def identity(self, cycle: str) -> Table:
        """The table [identity]."""
        point, runway = self.point, self.point.runway[2:]
        level = next((line for line in self.levels.lines if line in LEVELS), point.level_of_service)
        return {
            "airport": self.lookup.airport.ident, "airport_name": " ".join(self.airport["name"].split()),
            "runway": runway, "title": title(procedure(self.name), runway, self.rule), "level_of_service": level,
            "channel": point.sbas_channel, "path_id": point.segment.reference_path_id, "cycle": cycle,
            "rule": self.rule,
        }

    def chart(self) -> Table:
        """The table [chart]: the records' numbers, and what they cannot hold listed as to be filled."""
        course, is_computed = self._course()
        missed = missed_table(self.charted.missed)
        elevation_ft, remark = threshold_elevation_ft(self.runway_texts, self.point, self.lookup)
        tch_ft, tch_of = _crossing(self.runway_texts, self.point)
        self.remarks += [*remark, f"Threshold crossing height: {tch_of}.",
                         *consistency.height_remarks(self.runway_texts, self.point)]
        return {
            "course_deg": course, "course_reference": "true" if self.reckoning.is_true else "magnetic",
            **({"course_computed": True} if is_computed else {}), "variation_deg": self.reckoning.variation_deg,
            **self._angle(), "tch_ft": tch_ft, "threshold_elevation_ft": elevation_ft,
            "airport_elevation_ft": int(self.airport["elevation"]),
            "runway_length_ft": int(self.runway_texts["length"]), **displaced_ft(self.runway_texts),
            "from_coded_record": True, "to_be_filled": _to_be_filled(bool(missed)),
            "coded_legs": [*self.not_understood, *self.gaps], **({"missed": missed} if missed else {}),
            "fix": self.charted.fixes, "msa": self._safe_altitudes(),
        }

    def runway(self) -> Table:
        """The table [runway], of the runway's own record."""
        return runway_table(self.runway_texts, self.reckoning, self.lookup)

    def database(self, cycle: str) -> Table:
        """The table [database]."""
        data, course = airac.cycle(cycle), course_deg(self.charted.final.leg.course)
        return {
            "path_point": self.point_lines, "channel": self.point.sbas_channel,
            "path_id": self.point.segment.reference_path_id, **({"course_deg": course[0]} if course else {}),
            "cycle": data.ident, "effective": date.fromordinal(data.effective),
            "expires": date.fromordinal(data.expiry), "lines": self.levels.lines,
            "fix": [_shown(fix) for fix in self.charted.fixes], "leg": [leg_rows.row(leg) for leg in self.legs],
        }

    def _course(self) -> tuple[float, bool]:
        """The final course as coded, else that of the segment; whether it was computed."""
        true_deg = segment.true_course_deg(self.point.segment)
        coded = course_deg(self.charted.final.leg.course)
        computed = self.reckoning.course_deg(true_deg)
        variation = variation_digits(self.reckoning.variation_deg)
        if coded is None:
            less = "" if self.reckoning.is_true else f" less the airport's variation of record {variation}"
            self.remarks.append(f"Final course {course_digits(computed, 0.1)} computed: {course_digits(true_deg, 0.1)} "
                                f"true by the segment{less}; the records code none.")
            return computed, True
        self.remarks.append(_made_with(coded, true_deg, self.reckoning.variation_deg))
        return coded[0], False

    def _angle(self) -> Table:
        """The glidepath angle that the final leg codes; of an LPV approach that codes none, the path point's."""
        angle = self.charted.final.leg.angle_deg
        if angle is not None:
            return {"glidepath_deg": -angle}
        if self.point.level_of_service != "LPV":
            return {}
        self.remarks.append("Glidepath angle: from the path point; the legs code none.")
        return {"glidepath_deg": self.point.segment.gpa_deg}

    def _safe_altitudes(self) -> list[Table]:
        centre, multiple = _centre(self.legs)
        records = self.lookup.airport.records["PS"]
        tables, remark = arinc_levels.safe_altitudes(records, centre, multiple, self.file)
        for row in tables[:1]:
            self.lookup.named("PS", row["centre"])
        self.remarks += [f"Minimum safe altitudes: {remark}."] if remark else []
        if sectors := self.lookup.named("PK", self.name):
            self.remarks.append(f"Terminal arrival altitudes: {len(sectors)} records, not carried over; "
                                f"no published record at hand shows their columns.")
        return tables


def _shown(fix: Table) -> Table:
    """A fix as the aircraft lists it; what was computed is no part of the database."""
    computed = [f"leg_{name}" for name in fix.get("leg_computed", [])]
    keys = {"name": "name", "leg_course_deg": "course_deg", "leg_distance_nm": "distance_nm",
            "altitude_ft": "altitude_ft", "altitude_rule": "altitude_rule"}
    return {key: fix[name] for name, key in keys.items()
            if name in fix and name.rpartition("_")[0] not in computed}


def _to_be_filled(has_missed: bool) -> list[str]:
    """What the chart is to be read for; of a missed approach that is coded only its climb gradient."""
    return [key for key in TO_BE_FILLED if not (key == "missed" if has_missed else key.startswith("missed."))]


def _crossing(runway: dict[str, str], point: PathPoint) -> tuple[float, str]:
    """Threshold crossing height in ft, and where it is from: the runway's record if that is of an RNAV procedure."""
    if runway["tch_of"] == "R" and runway["tch"]:
        return int(runway["tch"]), "from the runway record, for its RNAV procedure"
    other = f" (it has {int(runway['tch'])} ft, coded {runway['tch_of'] or 'blank'})" if runway["tch"] else ""
    none = f"from the path point; the runway record has none for an RNAV procedure{other}"
    return round(point.segment.tch_ft, 1), none


def _centre(legs: list[Flown]) -> tuple[Reference, str]:
    """Centre and multiple code of the minimum safe altitudes; arcs have another centre."""
    about_centre = (leg.leg for leg in legs if leg.leg.centre and leg.leg.terminator not in codes.ARCS)
    return next(((leg.centre_reference, leg.multiple) for leg in about_centre), (Reference("", "", ""), ""))


def _made_with(coded: tuple[float, bool], true_deg: float, variation: float) -> str:
    """Which variation the coded course was made with, or that it was another than the airport's of record."""
    text = course_digits(coded[0], 0.1)
    if coded[1]:
        return f"Final course {text} true as coded, {course_digits(true_deg, 0.1)} by the segment."
    computed = magnetic_deg(true_deg, variation)
    same = abs(course_difference_deg(computed, coded[0])) <= SAME_COURSE_DEG
    return (
        f"Final course {text} magnetic as coded; {course_digits(true_deg, 0.1)} true by the segment less the "
        f"airport's variation of record {variation_digits(variation)} is {course_digits(computed, 0.1)}"
        + (": made with that variation." if same else ": find out which variation it was made with.")
    )
