"""Columns of an ARINC 424 path point record, primary and continuation, and how they code values.

Source: ARINC Specification 424-18, as the published records confirm it.
"""

import re
from dataclasses import dataclass

from lpv.core.errors import DataError, Fault, shown
from lpv.fas.block import FinalApproachSegment, encode, remainder_hex
from lpv.fas.codec import wrapped_steps
from lpv.fas.layout import STEPS_PER_DEG

RECORD_LENGTH = 132
TENTHS_PER_M = 10
ARC_DIGITS_PER_S = 10000  # a record writes ten-thousandths of an arc second
ARC_DIGITS_PER_STEP = 5  # of which the block counts five as one step


@dataclass(frozen=True)
class Column:
    """One field of a record: its columns (from 1), what it is, what it must match, that rule in words."""

    name: str
    first: int
    last: int
    what: str
    pattern: str = "[ -~]*"
    allowed: str = "any signs"

    @property
    def width(self) -> int:
        """How many columns it takes."""
        return self.last - self.first + 1

    def text(self, line: str) -> str:
        """What stands in these columns."""
        return line[self.first - 1 : self.last]

    def place(self) -> str:
        """The columns and their meaning, in words."""
        columns = f"column {self.first}" if self.first == self.last else f"columns {self.first}-{self.last}"
        return f"{columns} ({self.what})"


_LATITUDE = (
    r"[NS]([0-8]\d[0-5]\d[0-5]\d\d{3}[05]|90{9})",
    "N or S, up to 90 degrees as DDMMSS and four decimals in steps of 0.0005",
)
_LONGITUDE = (
    r"[EW]((0\d|1[0-7])\d[0-5]\d[0-5]\d\d{3}[05]|180{9})",
    "E or W, up to 180 degrees as DDDMMSS and four decimals in steps of 0.0005",
)
_HEIGHT = (r"[+-]\d{5}", "a sign and five digits (0.1 m)")
_HEIGHT_OR_BLANK = (r"[+-]\d{5}| {6}", "a sign and five digits (0.1 m), or blanks")
_CYCLE = (r"\d\d(0[1-9]|1[0-4])", "a data cycle, YYNN")

_HEAD = (
    Column("record_type", 1, 1, "record type", "[ST]", "S or T"),
    Column("area", 2, 4, "area", "[A-Z]{3}", "three letters"),
    Column("section", 5, 6, "section", "P ", "P and a blank"),
    Column("airport", 7, 10, "airport", "[A-Z0-9]{1,4} *", "letters and digits, blanks behind"),
    Column("icao_region", 11, 12, "ICAO region", "[A-Z][A-Z0-9]", "a letter, then a letter or digit"),
    Column("subsection", 13, 13, "subsection", "P", "P"),
    Column("approach", 14, 19, "approach", "[A-Z][A-Z0-9-]* *", "letters, digits and -, blanks behind"),
    Column("runway", 20, 24, "runway", "RW(0[1-9]|[12][0-9]|3[0-6])[LCR ]", "RW01 to RW36, then L, C, R or a blank"),
    Column("operation_type", 25, 26, "operation type", r"\d\d", "two digits"),
)
_TAIL = (
    Column("record_number", 124, 128, "file record number", r"\d{5}| {5}", "five digits, or blanks"),
    Column("cycle", 129, 132, "cycle", *_CYCLE),
)

PRIMARY = (
    *_HEAD,
    Column("continuation_number", 27, 27, "continuation number", "[01]", "0 or 1 for a primary record"),
    Column("route_indicator", 28, 28, "route indicator", "[A-Z ]", "a letter or a blank"),
    Column("sbas_provider", 29, 30, "SBAS provider", r"\d\d", "two digits"),
    Column("reference_path_data_selector", 31, 32, "reference path data selector", r"\d\d", "two digits"),
    Column("reference_path_id", 33, 36, "reference path identifier", "[A-Z0-9]{1,4} *", "letters and digits"),
    Column("performance_designator", 37, 37, "approach performance designator", r"\d", "a digit"),
    Column("ltp_latitude", 38, 48, "LTP latitude", *_LATITUDE),
    Column("ltp_longitude", 49, 60, "LTP longitude", *_LONGITUDE),
    Column("ltp_height", 61, 66, "LTP height above the ellipsoid", *_HEIGHT),
    Column("gpa", 67, 70, "glidepath angle", r"\d{4}", "four digits (0.01 deg)"),
    Column("fpap_latitude", 71, 81, "FPAP latitude", *_LATITUDE),
    Column("fpap_longitude", 82, 93, "FPAP longitude", *_LONGITUDE),
    Column("course_width", 94, 98, "course width at the threshold", r"\d{5}", "five digits (0.01 m)"),
    Column("length_offset", 99, 102, "length offset", r"\d{4}", "four digits (m)"),
    Column("tch", 103, 108, "TCH", r"\d{6}", "six digits (0.1 ft or 0.05 m)"),
    Column("tch_unit", 109, 109, "TCH unit", "[FM]", "F or M"),
    Column("hal", 110, 112, "HAL", r"\d{3}", "three digits (0.1 m)"),
    Column("val", 113, 115, "VAL", r"\d{3}", "three digits (0.1 m)"),
    Column("remainder", 116, 123, "CRC remainder", "[0-9A-F]{8}", "eight hex digits"),
    *_TAIL,
)
CONTINUATION = (
    *_HEAD,
    Column("continuation_number", 27, 27, "continuation number", "2", "2 for the continuation of a path point"),
    Column("application", 28, 28, "application type", "E", "E"),
    Column("fpap_ellipsoid_height", 29, 34, "FPAP height above the ellipsoid", *_HEIGHT_OR_BLANK),
    Column("fpap_orthometric_height", 35, 40, "FPAP orthometric height", *_HEIGHT_OR_BLANK),
    Column("ltp_orthometric_height", 41, 46, "LTP orthometric height", *_HEIGHT_OR_BLANK),
    Column("level_of_service", 47, 56, "level of service", "[A-Z][A-Z0-9/ -]*| {10}", "capital letters, or blanks"),
    Column("sbas_channel", 57, 61, "SBAS channel", r"\d{5}| {5}", "five digits, or blanks"),
    Column("other", 62, 123, "what later editions of the standard put here", "[ -~]{62}", "letters, digits or blanks"),
    *_TAIL,
)


def read_columns(line: str, columns: tuple[Column, ...], file: str, place: str) -> tuple[dict[str, str], list[Fault]]:
    """The text of every column by name, and a fault for each that does not match its pattern."""
    texts = {column.name: column.text(line) for column in columns}
    faults = [
        Fault(file, f"{place}, {column.place()}", shown(texts[column.name]), column.allowed, "Correct the record.")
        for column in columns
        if not re.fullmatch(column.pattern, texts[column.name], re.ASCII)
    ]
    return texts, faults


def write_columns(texts: dict[str, str], columns: tuple[Column, ...]) -> str:
    """One record of 132 columns; each text is cut or filled with blanks to its columns."""
    line = [" "] * RECORD_LENGTH
    for column in columns:
        width = column.last - column.first + 1
        line[column.first - 1 : column.last] = f"{texts[column.name]:{width}.{width}}"
    return "".join(line)


def segment_of_columns(texts: dict[str, str]) -> FinalApproachSegment:
    """The segment that the texts of a primary record's columns describe.

    Raises DataError whose faults name fields of the segment.  No record seen so far gives TCH in metres,
    so two readings of such a column are open, steps of 0.05 m or of 0.01 m: the one that gives the
    printed remainder is taken, else the first that is possible.
    """
    possible: list[FinalApproachSegment] = []
    problems: list[DataError] = []
    for steps_per_unit in (10,) if texts["tch_unit"] == "F" else (20, 100):
        try:
            possible.append(_segment(texts, int(texts["tch"]) / steps_per_unit))
        except DataError as problem:
            problems.append(problem)
    if not possible:
        raise problems[0]
    return next((s for s in possible if remainder_hex(encode(s)) == texts.get("remainder")), possible[0])


def _segment(texts: dict[str, str], tch: float) -> FinalApproachSegment:
    ltp_latitude, ltp_longitude = steps_of_angle(texts["ltp_latitude"]), steps_of_angle(texts["ltp_longitude"])
    fpap_latitude, fpap_longitude = steps_of_angle(texts["fpap_latitude"]), steps_of_angle(texts["fpap_longitude"])
    return FinalApproachSegment(
        operation_type=int(texts["operation_type"]),
        sbas_provider=int(texts["sbas_provider"]),
        airport=texts["airport"].rstrip(),
        runway_number=int(texts["runway"][2:4]),
        runway_letter=texts["runway"][4:].strip(),
        performance_designator=int(texts["performance_designator"]),
        route_indicator=texts["route_indicator"].strip(),
        reference_path_data_selector=int(texts["reference_path_data_selector"]),
        reference_path_id=texts["reference_path_id"].rstrip(),
        ltp_latitude_deg=ltp_latitude / STEPS_PER_DEG,
        ltp_longitude_deg=ltp_longitude / STEPS_PER_DEG,
        ltp_height_m=height_m(texts["ltp_height"]),
        delta_fpap_latitude_deg=(fpap_latitude - ltp_latitude) / STEPS_PER_DEG,
        delta_fpap_longitude_deg=wrapped_steps(fpap_longitude - ltp_longitude) / STEPS_PER_DEG,
        tch=tch,
        tch_unit="ft" if texts["tch_unit"] == "F" else "m",
        gpa_deg=int(texts["gpa"]) / 100,
        course_width_m=int(texts["course_width"]) / 100,
        length_offset_m=float(texts["length_offset"]),
        hal_m=int(texts["hal"]) / 10,
        val_m=int(texts["val"]) / 10,
    )


def columns_of_segment(segment: FinalApproachSegment) -> dict[str, str]:
    """The texts of a primary record's columns that describe the segment; TCH in metres in steps of 0.05 m."""
    return {
        "operation_type": f"{segment.operation_type:02d}",
        "sbas_provider": f"{segment.sbas_provider:02d}",
        "performance_designator": str(segment.performance_designator),
        "route_indicator": segment.route_indicator,
        "reference_path_data_selector": f"{segment.reference_path_data_selector:02d}",
        "reference_path_id": segment.reference_path_id,
        "ltp_latitude": angle_text(segment.ltp_latitude_deg, "NS", 2),
        "ltp_longitude": angle_text(segment.ltp_longitude_deg, "EW", 3),
        "ltp_height": height_text(segment.ltp_height_m),
        "gpa": f"{round(segment.gpa_deg * 100):04d}",
        "fpap_latitude": angle_text(segment.fpap_latitude_deg, "NS", 2),
        "fpap_longitude": angle_text(segment.fpap_longitude_deg, "EW", 3),
        "course_width": f"{round(segment.course_width_m * 100):05d}",
        "length_offset": f"{round(segment.length_offset_m):04d}",
        "tch": f"{round(segment.tch * (10 if segment.tch_unit == 'ft' else 20)):06d}",
        "tch_unit": "F" if segment.tch_unit == "ft" else "M",
        "hal": f"{round(segment.hal_m * 10):03d}",
        "val": f"{round(segment.val_m * 10):03d}",
    }


def remainder_of_columns(texts: dict[str, str]) -> str:
    """The remainder, as records print it, of the segment that the texts of a primary record describe.

    Raises DataError as `segment_of_columns` does.
    """
    return remainder_hex(encode(segment_of_columns(texts)))


def steps_of_angle(text: str) -> int:
    """A latitude or longitude of a record (N3739186640, W12206531315) in steps of the block, 0.0005 arc second."""
    degrees, minutes, seconds = int(text[1:-8]), int(text[-8:-6]), int(text[-6:])
    steps = ((degrees * 60 + minutes) * 60 * ARC_DIGITS_PER_S + seconds) // ARC_DIGITS_PER_STEP
    return -steps if text[0] in "SW" else steps


def angle_text(angle_deg: float, letters: str, degree_digits: int) -> str:
    """A latitude ("NS", 2) or longitude ("EW", 3) as a record writes it; the inverse of `steps_of_angle`."""
    digits = round(abs(angle_deg) * STEPS_PER_DEG) * ARC_DIGITS_PER_STEP
    minutes, seconds = divmod(digits, 60 * ARC_DIGITS_PER_S)
    letter = letters[angle_deg < 0]
    return f"{letter}{minutes // 60:0{degree_digits}d}{minutes % 60:02d}{seconds:06d}"


def height_m(text: str) -> float:
    """A height of a record (-00172) in m."""
    return int(text) / TENTHS_PER_M


def height_text(height_m: float) -> str:
    """A height as a record writes it; the inverse of `height_m`."""
    return f"{round(height_m * TENTHS_PER_M):+06d}"
