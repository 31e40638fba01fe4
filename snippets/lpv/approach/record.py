"""Approach files: one TOML file per approach, read strictly.

A file has three parts; everything in it is printed on the chart, shown by the aircraft, or, in a fourth part that
may be missing, surveyed on the ground:

    [identity]        # the chart's margin: airport, runway, title, level of service, channel, cycle
    airport = "ZZAA"
    ...
    [chart]           # course, variation of record, angle, elevations, temperatures, notes
    course_deg = 92
    ...
    [[chart.fix]]     # the fixes in the order flown; positions in degrees or as "N37 05 00.5"
    [[chart.minima]]  # the lines of minima
    [chart.missed]    # the missed approach
    [chart.lights]    # the approach lights
    [[chart.msa]]     # the minimum safe altitudes

    [runway]          # the runway as surveyed, if known: threshold, bearing, length, elevation, and their source

    [database]        # the final approach segment in one of three forms, and what the aircraft shows
    block = "..."     # or path_point = [ "...", "..." ], or a table [database.segment]
    channel = 99901
    [[database.fix]]

    [[filled]]        # who read what from the chart, and who verified it; see `lpv.approach.provenance`

Every key, with its unit, range and meaning, stands in `lpv.approach.schema` and `lpv.approach.database`.
A file made from coded records (`lpv.arinc.importer`) says so with `from_coded_record = true` and lists in
`to_be_filled` what such records cannot hold; the cross-check and the page say it until somebody has read the
chart, filled it in and removed it from the list.

What is impossible is a fault of the file and raises DataError; what merely disagrees (chart against
database, remainder against fields) is read as it stands, for `lpv.crosscheck.check` to find.
"""
# ruff: noqa: RUF009  (the schema functions return dataclasses.field)

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any, ClassVar

from lpv.approach import provenance
from lpv.approach.database import Database, Held
from lpv.approach.geometry import Geometry, geometry
from lpv.approach.provenance import Filled, ReadAgain, Records
from lpv.approach.schema import Chart, FaultRow, Fix, Identity, Runway
from lpv.core.errors import DomainError
from lpv.core.text import nautical_miles
from lpv.core.units import degrees_180
from lpv.fas import segment
from lpv.fas.block import FinalApproachSegment
from lpv.files import named_file, schema
from lpv.files import toml_reader as tomlfile
from lpv.geodesy import earth

SLUG = "[a-z0-9]+(-[a-z0-9]+)*"
NEAR_DEG, FARTHEST_FIX_NM = 5.0, 4500.0  # nobody measures what is near; farther away geodesy ends (5000 NM)


@dataclass(frozen=True, kw_only=True)
class Approach:
    """One approach: what the chart prints, what the database holds, and the runway as surveyed.

    slug is the file's name.
    """

    identity: Identity = schema.table(Identity, "which approach it is")
    chart: Chart = schema.table(Chart, "what the chart prints")
    database: Database = schema.table(Database, "what the aircraft's database holds")
    runway: Runway | None = schema.table(Runway, "the runway as surveyed", required=False)
    filled: tuple[Filled, ...] = schema.tables(Filled, "who filled and verified what")
    read_again: tuple[ReadAgain, ...] = schema.tables(ReadAgain, "what is to be read again in this cycle")
    records: Records | None = schema.table(Records, "marks of the coded records", required=False)
    slug: str = ""

    # What a schema for editors can say of several keys together; `faults` decides.
    SCHEMA_ALSO: ClassVar[tuple[dict[str, Any], ...]] = (
        {"if": {"properties": {"identity": {"properties": {"level_of_service": {"const": "LPV"}},
                                            "required": ["level_of_service"]}}, "required": ["identity"]},
         "then": {"properties": {"chart": {"required": ["glidepath_deg", "tch_ft"]}}}},
        {"if": {"properties": {"identity": {"properties": {"rule": {"const": "FAA"}}, "required": ["rule"]}},
                "required": ["identity"]},
         "then": {"properties": {"chart": {"anyOf": [{"required": ["tdze_ft"]}, {
             "required": ["to_be_filled"], "properties": {"to_be_filled": {"contains": {"const": "tdze_ft"}}}}]}}}})

    def faults(self) -> Iterator[FaultRow]:
        """What the level of service and the rules ask for, and a course to fly."""
        if self.identity.level_of_service == "LPV":
            for key in ("glidepath_deg", "tch_ft"):
                if getattr(self.chart, key) is None:
                    yield f"chart.{key}", "nothing", "a number on an LPV approach", "Add it from the chart."
        to_be_filled = self.chart.to_be_filled
        if self.identity.rule == "FAA" and self.chart.tdze_ft is None and "tdze_ft" not in to_be_filled:
            yield "chart.tdze_ft", "nothing", "a number on a chart by FAA rules", "Add it from the chart."
        yield from provenance.faults(self.filled, self.read_again, to_be_filled)
        yield from self._far_fixes()
        try:
            segment.true_course_deg(self.segment)
        except DomainError as error:
            yield "database", "a segment without a direction", "LTP and FPAP apart", str(error)

    def _far_fixes(self) -> Iterator[FaultRow]:
        """Fixes in another part of the world than the PFAF, as one with the wrong hemisphere is.

        Whether the segment lies where the fixes do is for the cross-check to say.
        """
        at = self.pfaf
        for number, fix in enumerate(self.chart.fixes, 1):
            aside_deg = abs(degrees_180(fix.longitude_deg - at.longitude_deg))
            if max(abs(fix.latitude_deg - at.latitude_deg), aside_deg) < NEAR_DEG:
                continue
            away_nm = earth.distance_nm(at.latitude_deg, at.longitude_deg, fix.latitude_deg, fix.longitude_deg)
            if away_nm > FARTHEST_FIX_NM:
                yield (f"chart.fix[{number}]", f"{fix.name} {nautical_miles(away_nm, 1)} from {at.name}",
                       f"at most {nautical_miles(FARTHEST_FIX_NM, 1)}",
                       "Correct its position: look at N and S, E and W.")

    @cached_property
    def held(self) -> Held:
        """The final approach segment as held, with its remainders."""
        return self.database.held

    @property
    def segment(self) -> FinalApproachSegment:
        """The final approach segment that the database holds."""
        return self.held.segment

    @cached_property
    def true_course_deg(self) -> float:
        """Final course (deg true) from LTP to FPAP; DomainError where the two are one point."""
        return segment.true_course_deg(self.segment)

    @cached_property
    def geometry(self) -> Geometry:
        """Final course, widths, and where the fixes lie along it; DomainError where LTP and FPAP are one point."""
        return geometry(self.segment, self.chart.fixes)

    def derived_fields(self) -> dict[str, object]:
        """What the phone cannot compute itself: the segment, whatever its form in the file, and its geometry."""
        return {"segment": self.segment, "geometry": self.geometry}

    @property
    def pfaf(self) -> Fix:
        """The precise final approach fix."""
        return next(fix for fix in self.chart.fixes if fix.role == "PFAF")

    @property
    def final_fixes(self) -> tuple[Fix, ...]:
        """The fixes from the PFAF to the MAP, both included, in the order flown."""
        roles = [fix.role for fix in self.chart.fixes]
        return self.chart.fixes[roles.index("PFAF") : roles.index("MAP") + 1]

def read(path: Path | str) -> Approach:
    """The approach in a file; DataError with every fault found in it."""
    return named_file.read(Path(path), Approach)


def read_text(text: str, name: str = "text") -> Approach:
    """The approach in the text of a file; faults name the file `name`.  DataError with every fault."""
    return named_file.read_text(text, name, Approach)


def read_all(folder: Path | str) -> list[Approach]:
    """All approaches of a folder in the order of file names, drafts in folders below left out.

    DataError with every fault of every file.
    """
    return tomlfile.read_folder(Path(folder), read)
