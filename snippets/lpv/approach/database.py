"""The `[database]` table of an approach file: what the aircraft's database holds.

The final approach segment stands there in one of three forms: the data block in hex, its fields by name,
or a path point record as published.  Whatever the form, `Database.held` gives the segment and both
remainders.  A remainder that does not fit is no fault of the file: the cross-check reports it.
"""
# ruff: noqa: RUF009  (the schema functions return dataclasses.field)

import datetime
from collections.abc import Iterator
from dataclasses import dataclass, make_dataclass
from typing import Any, ClassVar

from lpv.approach.coded_leg import CodedLeg
from lpv.approach.schema import (
    ALTITUDE_RULES,
    CYCLE_PATTERN,
    FIX_NAME,
    HIGHEST_ALTITUDE_FT,
    LOWEST_ALTITUDE_FT,
    FaultRow,
    cycle_ident,
)
from lpv.core.errors import DataError, DomainError, shown
from lpv.core.units import degrees_180
from lpv.fas.block import (
    FinalApproachSegment,
    decode_unchecked,
    encode,
    remainder_hex,
    stored_remainder_hex,
)
from lpv.fas.layout import LAYOUT, Row
from lpv.fas.path_point_reader import PathPoint, read
from lpv.files import schema


@dataclass(frozen=True)
class Held:
    """The segment as held, whatever its form.

    form:      "data block", "path point record" or "fields"
    segment:   every field, not vouched for by a remainder
    stored, computed: the remainder that came with it ("" for fields by name) and the one its fields give
    point:     the path point record, None in the other forms
    """

    form: str
    segment: FinalApproachSegment
    stored: str
    computed: str
    point: PathPoint | None = None


def held_block(block: object) -> Held:
    """The segment of a data block in hex; DataError or DomainError unless it is 40 bytes of possible values."""
    if not isinstance(block, str):
        raise DomainError(f"found {shown(block)}; allowed: the 40 bytes in hex, as text in quotes.")
    segment = decode_unchecked(block)
    return Held("data block", segment, stored_remainder_hex(block), remainder_hex(block))


def held_path_point(lines: object) -> Held:
    """The segment of one path point record, given as a list of its lines; DataError or DomainError."""
    if not isinstance(lines, list) or not lines or not all(isinstance(line, str) for line in lines):
        raise DomainError(f"found {shown(type(lines).__name__)}; allowed: a list of lines of 132 columns.")
    points = read("\n".join(lines))
    if len(points) != 1:
        raise DomainError(f"found {len(points)} path points; allowed: one, with its continuation.")
    point = points[0]
    return Held("path point record", point.segment, point.printed_remainder, point.computed_remainder, point)


def _entry(row: Row) -> Any:
    """The schema of one field of the block, from the layout."""
    if row.kind == "text":
        return schema.text(row.what, pattern="[A-Z0-9]{1,4}", example="ZZAA")
    if row.kind == "letter":
        return schema.choice(row.what, row.letters)
    if row.kind == "whole":
        return schema.whole(row.what, row.unit, int(row.low), int(row.high))
    if row.name == "ltp_latitude_deg":
        return schema.latitude(row.what, key="")
    if row.name == "ltp_longitude_deg":
        return schema.longitude(row.what, key="")
    return schema.number(row.what, row.unit, row.low, row.high, required=row.name not in DIFFERENCES)


# The FPAP stands in the block by its differences from the LTP; an AIP prints its coordinates.
DIFFERENCES = {"delta_fpap_latitude_deg": "fpap_latitude_deg", "delta_fpap_longitude_deg": "fpap_longitude_deg"}


def segment_values(fields: Any) -> dict[str, Any]:
    """The fields as the block has them: coordinates of the FPAP become differences from the LTP."""
    values = dict(vars(fields))
    for difference, coordinate in DIFFERENCES.items():
        at_deg = values.pop(coordinate)
        if at_deg is not None:
            values[difference] = degrees_180(at_deg - values[difference.replace("delta_fpap", "ltp")])
    return values


def _fpap_faults(fields: Any) -> Iterator[FaultRow]:
    """The FPAP is given once, in one of the two ways."""
    entries = {name: getattr(fields, name) for names in DIFFERENCES.items() for name in names}
    ways = [all(entries[name] is not None for name in names) for names in (DIFFERENCES, DIFFERENCES.values())]
    if sum(ways) != 1 or sum(value is not None for value in entries.values()) != len(DIFFERENCES):
        listed = ", ".join(name for name, value in entries.items() if value is not None) or "nothing"
        yield ("fpap_latitude_deg", listed, "fpap_latitude_deg and fpap_longitude_deg, or both differences",
               "Give the coordinates as the AIP prints them, or the differences as the block has them.")


def _segment_faults(fields: Any) -> Iterator[FaultRow]:
    if rows := list(_fpap_faults(fields)):
        yield from rows
        return
    by_coordinates = fields.fpap_latitude_deg is not None
    try:
        FinalApproachSegment(**segment_values(fields))
    except DataError as error:
        for fault in error.faults:
            if by_coordinates and fault.key in DIFFERENCES:
                yield (DIFFERENCES[fault.key], f"a position {fault.found}° from the LTP", fault.allowed,
                       "Copy both positions with all four decimals of the seconds, as the AIP prints them.")
            else:
                yield fault.key, fault.found, fault.allowed, fault.action


SegmentFields = make_dataclass(
    "SegmentFields",
    [*((row.name, Any, _entry(row)) for row in LAYOUT if row.name not in DIFFERENCES),
     *((row.name, Any, _entry(row)) for row in LAYOUT if row.name in DIFFERENCES),
     ("fpap_latitude_deg", Any, schema.latitude("latitude of the FPAP", key="", required=False)),
     ("fpap_longitude_deg", Any, schema.longitude("longitude of the FPAP", key="", required=False))], frozen=True,
    namespace={
        "faults": _segment_faults, "__doc__": "The fields of the data block, by name.",
        "SCHEMA_ALSO": ({"oneOf": [{"required": list(names)} for names in (DIFFERENCES, DIFFERENCES.values())]},),
    },
)


@dataclass(frozen=True, kw_only=True)
class DatabaseFix:
    """One fix as the aircraft shows it on the flight plan page."""

    name: str = schema.text("name of the fix", pattern=FIX_NAME, example="SANDY")
    course_deg: float | None = schema.number("course of the leg to it", "deg", 0, 360, required=False)
    distance_nm: float | None = schema.number("length of the leg to it", "NM", 0, 200, required=False)
    altitude_ft: float | None = schema.number(
        "altitude at the fix", "ft", LOWEST_ALTITUDE_FT, HIGHEST_ALTITUDE_FT, required=False)
    altitude_rule: str | None = schema.choice("altitude restriction", ALTITUDE_RULES, required=False)


@dataclass(frozen=True, kw_only=True)
class Database:
    """What the aircraft's database holds, and what the aircraft shows of it."""

    NOT_SENT = ("block", "fields", "path_point")  # the phone gets the segment that they hold
    SCHEMA_ALSO: ClassVar[tuple[dict[str, Any], ...]] = (
        {"oneOf": [{"required": [form]} for form in ("block", "segment", "path_point")]},)

    block: Held | None = schema.parsed(
        "the FAS data block in hex", held_block, example="40 bytes in hex, in quotes", required=False,
        pattern=r"\s*([0-9A-Fa-f]\s*){80}")
    fields: Any = schema.table(
        SegmentFields, "the fields of the data block by name", required=False, key="segment")
    path_point: Held | None = schema.parsed(
        "a path point record", held_path_point, example="a list of lines of 132 columns", required=False)
    channel: int | None = schema.whole("SBAS channel number", "", 0, 99999, required=False)
    path_id: str | None = schema.text(
        "reference path identifier", pattern="[A-Z0-9]{4}", example="W09A", required=False)
    course_deg: float | None = schema.number("final approach course", "deg", 0, 360, required=False)
    cycle: str | None = schema.parsed(
        "data cycle that is loaded", cycle_ident, example='"2612"', required=False, pattern=CYCLE_PATTERN)
    effective: datetime.date | None = schema.day("first day of the cycle", required=False)
    expires: datetime.date | None = schema.day("day on which the next cycle takes over", required=False)
    lines: tuple[str, ...] = schema.choices(
        "lines of minima that the records authorize", ("LPV", "LP", "LNAV/VNAV", "LNAV"))
    fixes: tuple[DatabaseFix, ...] = schema.tables(
        DatabaseFix, "fixes from the initial fix to the last of the missed approach", unique="name", key="fix")
    legs: tuple[CodedLeg, ...] = schema.tables(
        CodedLeg, "the legs as coded, with every transition", most=200, key="leg")

    def faults(self) -> Iterator[FaultRow]:
        """The segment stands there once."""
        forms = [form for form in (self.block, self.fields, self.path_point) if form is not None]
        if len(forms) != 1:
            yield ("", f"{len(forms)} forms of the segment", "one of block, segment, path_point",
                   "Keep one, as the aircraft's database holds it.")

    @property
    def held(self) -> Held:
        """The segment with its remainders."""
        coded = self.block or self.path_point
        if coded is not None:
            return coded
        segment = FinalApproachSegment(**segment_values(self.fields))
        return Held("fields", segment, "", remainder_hex(encode(segment)))
