"""Reading ARINC 424 path point records: every point, or every fault with its line and columns.

Source: ARINC Specification 424-18, path point primary and continuation records.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from lpv.core.errors import DataError, Fault, shown
from lpv.fas.block import FinalApproachSegment, encode, remainder_hex
from lpv.fas.path_point_columns import (
    CONTINUATION,
    PRIMARY,
    RECORD_LENGTH,
    height_m,
    read_columns,
    segment_of_columns,
)

MAX_FAULTS = 1000
NAME = "path point records"
_KEY_START, _KEY_END = 6, 26  # airport, region, approach, runway, operation type


@dataclass(frozen=True)
class PathPoint:
    """One path point: its segment, and what its primary and continuation record say beside it.

    line_number is that of the primary record.  What only the continuation holds is None without one, or
    where its columns are blank; continuation_cycle is "" without one.  other is what stands in columns of the
    continuation that are not read here, such as the course of an approach for helicopters (from memory).  The last six
    are there so that `write` gives the same columns back.
    """

    segment: FinalApproachSegment
    airport: str
    icao_region: str
    approach: str
    runway: str
    level_of_service: str | None
    sbas_channel: int | None
    printed_remainder: str
    fpap_orthometric_height_m: float | None
    ltp_orthometric_height_m: float | None
    cycle: str
    line_number: int
    fpap_ellipsoid_height_m: float | None = None
    continuation_cycle: str = ""
    record_type: str = "S"
    area: str = "USA"
    continuation_number: str = "1"
    record_number: str = ""
    continuation_record_number: str = ""
    other: str = ""

    @property
    def computed_remainder(self) -> str:
        """The remainder that the segment's own block gives, as records print it."""
        return remainder_hex(encode(self.segment))

    @property
    def remainder_holds(self) -> bool:
        """Whether the printed remainder is the one that the fields give."""
        return self.printed_remainder == self.computed_remainder


def read(text: str, file: str = NAME) -> list[PathPoint]:
    """All path points of an ARINC 424 text, in its order; records of other kinds are passed over.

    Raises DataError with every fault, each with its line and columns; `file` is the name given in them.
    """
    points, faults = collect(_lines(text), file)
    if faults:
        raise DataError(faults)
    return points


def _lines(text: str) -> Iterator[str]:
    return (match[0] for match in re.finditer(r"[^\r\n]*+(?:\r\n?|\n)|[^\r\n]+", text))


def collect(lines: Iterable[str], file: str = NAME) -> tuple[list[PathPoint], list[Fault]]:
    """The path points in these lines, and all faults; what has a fault is left out, point or continuation.

    Keeps no lines, so that a file can be given as it is; stops after MAX_FAULTS faults and says so.
    """
    points: dict[str, PathPoint | None] = {}
    faults: list[Fault] = []
    for number, line in enumerate(lines, 1):
        if not looks_like_path_point(line):
            continue
        faults += _take(line.rstrip("\r\n"), number, file, points)
        if len(faults) >= MAX_FAULTS:
            total = f"{len(faults)} faults up to here"
            faults.append(Fault(file, f"line {number}", total, "none", "The rest was not read; correct these first."))
            break
    return [point for point in points.values() if point], faults


def looks_like_path_point(line: str) -> bool:
    """Whether a line is a path point record, or means to be one (shifted, lower-case, cut short)."""
    head = line[: 2 * RECORD_LENGTH].lstrip("\ufeff \t")[:13].upper()
    return len(head) == 13 and head[0] in "ST" and head[4:6] == "P " and head[12] == "P"


def _take(line: str, number: int, file: str, points: dict[str, PathPoint | None]) -> list[Fault]:
    """Add the record's point, or its continuation, to `points`; a record with faults leaves None there."""
    place, key, kind = f"line {number}", line[_KEY_START:_KEY_END].upper(), line[26:27]
    if fault := _form_fault(line, file, place) or _order_fault(key, kind, file, place, points):
        if kind in ("0", "1"):
            points.setdefault(key, None)
        return [fault]
    if kind in ("0", "1"):
        points[key], faults = _primary(line, number, file)
        return faults
    texts, faults = read_columns(line, CONTINUATION, file, place)
    if not faults and (point := points[key]):
        points[key] = _continued(point, texts)
    return faults


def _form_fault(line: str, file: str, place: str) -> Fault | None:
    if len(line) != RECORD_LENGTH:
        length, allowed = f"{len(line)} columns", f"{RECORD_LENGTH} columns in a path point record"
        return Fault(file, place, length, allowed, "Get the record again.")
    if line != line.upper():
        return Fault(file, place, "lower-case letters", "capital letters only", "Get the record again.")
    return None


def _order_fault(
    key: str, kind: str, file: str, place: str, points: dict[str, PathPoint | None]
) -> Fault | None:
    name = shown(" ".join(key.split()))
    if kind in ("0", "1"):
        problem = f"a second primary record of {name}"
        return Fault(file, place, problem, "one of each", "Remove one.") if key in points else None
    if key not in points:
        problem = f"a continuation of {name} without its primary record before it"
        return Fault(file, place, problem, "the primary record first", "Put the primary record before it.")
    if (point := points[key]) and point.continuation_cycle:
        return Fault(file, place, f"a second continuation of {name}", "one of each", "Remove one.")
    return None


def _primary(line: str, number: int, file: str) -> tuple[PathPoint | None, list[Fault]]:
    place = f"line {number}"
    texts, faults = read_columns(line, PRIMARY, file, place)
    if faults:
        return None, faults
    try:
        segment = segment_of_columns(texts)
    except DataError as error:
        return None, [_at_columns(fault, file, place) for fault in error.faults]
    point = PathPoint(
        segment=segment, airport=texts["airport"].rstrip(), icao_region=texts["icao_region"],
        approach=texts["approach"].rstrip(), runway=texts["runway"].rstrip(), level_of_service=None,
        sbas_channel=None, printed_remainder=texts["remainder"], fpap_orthometric_height_m=None,
        ltp_orthometric_height_m=None, cycle=texts["cycle"], line_number=number,
        record_type=texts["record_type"], area=texts["area"],
        continuation_number=texts["continuation_number"], record_number=texts["record_number"].strip(),
    )
    return point, []


def _at_columns(fault: Fault, file: str, place: str) -> Fault:
    """A fault of a segment's field as one of the columns that it was read from."""
    name = fault.key.removeprefix("delta_").removesuffix("_deg").removesuffix("_m")
    column = next(column for column in PRIMARY if column.name == name)
    return Fault(file, f"{place}, {column.place()}", fault.found, fault.allowed, fault.action)


def _continued(point: PathPoint, texts: dict[str, str]) -> PathPoint:
    def height(name: str) -> float | None:
        return height_m(texts[name]) if texts[name].strip() else None

    channel = texts["sbas_channel"].strip()
    return replace(
        point, level_of_service=texts["level_of_service"].rstrip() or None,
        sbas_channel=int(channel) if channel else None,
        fpap_ellipsoid_height_m=height("fpap_ellipsoid_height"),
        fpap_orthometric_height_m=height("fpap_orthometric_height"),
        ltp_orthometric_height_m=height("ltp_orthometric_height"),
        continuation_cycle=texts["cycle"], continuation_record_number=texts["record_number"].strip(),
        other=texts["other"].rstrip(),
    )
