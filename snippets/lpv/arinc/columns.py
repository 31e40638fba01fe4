"""Columns of the ARINC 424 records that an approach is made of, and how they code values.

Source: ARINC Specification 424-18, as the published records confirm it; meanings of codes that those records
do not show are from memory.
"""

import re

from lpv.core.errors import Fault
from lpv.fas.path_point_columns import RECORD_LENGTH, Column, read_columns

_FT = (r"\d{5}|-\d{4}| {5}", "five digits or a minus and four (ft), or blanks")
_ALTITUDE = (r"\d{5}|-\d{4}|FL\d{3}|UNKNN|GND  | {5}", "feet, FL and three digits, or blanks")
_LATITUDE = (r"[NS]([0-8]\d[0-5]\d[0-5]\d\d{2}|90{7})", "N or S, up to 90 degrees as DDMMSS and two decimals")
_LONGITUDE = (
    r"[EW]((0\d|1[0-7])\d[0-5]\d[0-5]\d\d{2}|180{7})", "E or W, up to 180 degrees as DDDMMSS and two decimals",
)
_NAME = ("[A-Z0-9]{1,5} *", "letters and digits, blanks behind")
_NAME_OR_BLANK = ("[A-Z0-9]{1,5} *| +", "letters and digits, or blanks")
_BEARING = (r"([0-2]\d{3}|3[0-5]\d\d|3600)|([0-2]\d\d|3[0-5]\d|360)T| {4}",
            "four digits (0.1 deg magnetic), three and T (deg true), or blanks")
_CYCLE = Column("cycle", 129, 132, "cycle of the last change", r"\d\d(0[1-9]|1[0-4])", "a data cycle, YYNN")
_WHICH = Column("continuation", 22, 22, "continuation number", "[0-9A-Z]", "a digit or letter")
_PLACE = (
    Column("latitude", 33, 41, "latitude", *_LATITUDE),
    Column("longitude", 42, 51, "longitude", *_LONGITUDE),
)

AIRPORT = (
    _WHICH, *_PLACE,
    Column("variation", 52, 56, "magnetic variation", r"[EW]\d{4}|T0000|T    ", "E or W and four digits, or T"),
    Column("elevation", 57, 61, "airport elevation", r"\d{5}|-\d{4}", "five digits or a minus and four (ft)"),
    Column("reference", 86, 86, "magnetic or true", "[MT ]", "M or T, or a blank"),
    Column("name", 94, 123, "airport name", "[ -~]*[!-~][ -~]*", "letters"),
    _CYCLE,
)
WAYPOINT = (_WHICH, Column("ident", 14, 18, "identifier", *_NAME), *_PLACE, _CYCLE)
RUNWAY = (
    _WHICH,
    Column("ident", 14, 18, "runway", "RW(0[1-9]|[12][0-9]|3[0-6])[LCR ]", "RW01 to RW36, then L, C, R or a blank"),
    *_PLACE,
    Column("length", 23, 27, "length of the runway", r"\d{5}", "five digits (ft)"),
    Column("elevation", 67, 71, "landing threshold elevation", *_FT),
    Column("displaced", 72, 75, "displaced threshold distance", r"\d{4}| {4}", "four digits (ft), or blanks"),
    Column("tch", 76, 77, "threshold crossing height", r"\d\d| {2}", "two digits (ft), or blanks"),
    Column("tch_of", 81, 81, "what the crossing height belongs to", "[IRVD ]", "I, R, V or D, or a blank"),
    _CYCLE,
)
_LEG_HEAD = (
    Column("approach", 14, 19, "approach", "[A-Z][A-Z0-9-]* *", "letters, digits and -, blanks behind"),
    Column("route", 20, 20, "route type", "[A-Z0-9]", "a letter or digit"),
    Column("transition", 21, 25, "transition", *_NAME_OR_BLANK),
    Column("sequence", 27, 29, "sequence number", r"\d{3}", "three digits"),
    Column("fix", 30, 34, "fix", *_NAME_OR_BLANK),
    Column("fix_region", 35, 36, "ICAO region of the fix", "[A-Z][A-Z0-9]|  ", "a letter, then a letter or digit"),
    Column("fix_section", 37, 38, "section of the fix", "[A-Z][A-Z ]|  ", "one or two letters"),
    Column("continuation", 39, 39, "continuation number", "[0-9A-Z]", "a digit or letter"),
)
LEG = (
    *_LEG_HEAD,
    Column("description", 40, 43, "waypoint description", "[A-Z ]{4}", "four letters or blanks"),
    Column("turn", 44, 44, "turn direction", "[LRE ]", "L, R or E, or a blank"),
    Column("terminator", 48, 49, "path and termination", "[A-Z]{2}", "two letters"),
    Column("radius", 57, 62, "radius of the arc", r"\d{6}| {6}", "six digits (0.001 NM), or blanks"),
    Column("course", 71, 74, "course", *_BEARING),
    Column("distance", 75, 78, "distance or time", r"\d{4}|T\d{3}| {4}", "four digits, T and three, or blanks"),
    Column("altitude_is", 83, 83, "altitude description", "[A-Z+@ -]", "a letter or sign, or a blank"),
    Column("altitude", 85, 89, "altitude", *_ALTITUDE),
    Column("altitude_2", 90, 94, "second altitude", *_ALTITUDE),
    Column("speed", 100, 102, "speed limit", r"\d{3}| {3}", "three digits (kt), or blanks"),
    Column("angle", 103, 106, "vertical angle", r"-\d{3}|0000| {4}", "a minus and three digits (0.01 deg), or blanks"),
    Column("centre", 107, 111, "centre fix", *_NAME_OR_BLANK),
    Column("multiple", 112, 112, "multiple code", "[A-Z0-9 ]", "a letter or digit, or a blank"),
    _CYCLE,
)
_AUTHORISED = (r"[AN ]", "A, N or a blank")
_LEVEL = ("[A-Z][A-Z0-9/ -]*| +", "capital letters, or blanks")
LEVELS = (
    *_LEG_HEAD,
    Column("application", 40, 40, "application type", "W", "W"),
    Column("fas", 41, 41, "segment provided", *_AUTHORISED),
    Column("fas_name", 42, 51, "its level of service", *_LEVEL),
    Column("vnav", 52, 52, "LNAV/VNAV authorised", *_AUTHORISED),
    Column("vnav_name", 53, 62, "its level of service", *_LEVEL),
    Column("lnav", 63, 63, "LNAV authorised", *_AUTHORISED),
    Column("lnav_name", 64, 73, "its level of service", *_LEVEL),
    _CYCLE,
)
SECTORS = 7
MSA = (
    Column("centre", 14, 18, "centre", *_NAME),
    Column("multiple", 23, 23, "multiple code", "[A-Z0-9 ]", "a letter or digit, or a blank"),
    Column("continuation", 39, 39, "continuation number", "[0-9A-Z]", "a digit or letter"),
    *(Column(f"sector_{number}", first, first + 10, f"sector {number + 1}",
             r"(3[0-5]\d|360|[0-2]\d\d){2}\d{3}\d\d| {11}", "two bearings, altitude and radius, or blanks")
      for number, first in enumerate(range(43, 43 + 11 * SECTORS, 11))),
    Column("reference", 120, 120, "magnetic or true", "[MT ]", "M or T, or a blank"),
    _CYCLE,
)


def columns_of(line: str, columns: tuple[Column, ...], file: str, place: str) -> tuple[dict[str, str], list[Fault]]:
    """The texts of a record's columns without the blanks behind, and every fault of its length and columns."""
    if len(line) != RECORD_LENGTH:
        found, allowed = f"{len(line)} columns", f"{RECORD_LENGTH} columns in a record"
        return {}, [Fault(file, place, found, allowed, "Get the file again.")]
    texts, faults = read_columns(line, columns, file, place)
    return {name: text.rstrip() for name, text in texts.items()}, faults


def angle_deg(text: str) -> float:
    """Degrees, north and east positive, of a latitude or longitude (N37300471) in hundredths of an arc second.

    Domain: a text that the column's pattern allows.
    """
    units = (int(text[1:-6]) * 60 + int(text[-6:-4])) * 6000 + int(text[-4:])
    return (-units if text[0] in "SW" else units) / 360000.0 + 0.0


def variation_deg(text: str) -> float:
    """A variation, east positive, of E0150 or W0123 in tenths of a degree; 0 for an airport in true degrees (T)."""
    if text[0] == "T":
        return 0.0
    return (int(text[1:]) if text[0] == "E" else -int(text[1:])) / 10.0 + 0.0


def course_deg(text: str) -> tuple[float, bool] | None:
    """(course in degrees, whether it is true) of 2849 (0.1 degree magnetic) or 299T; None for blanks."""
    if not text:
        return None
    return (float(text[:-1]), True) if text.endswith("T") else (int(text) / 10.0, False)


def distance_nm(text: str) -> float | None:
    """A distance in NM of 0028; None for blanks, and for a time (T010)."""
    return int(text) / 10.0 if re.fullmatch(r"\d{4}", text, re.ASCII) else None


def time_min(text: str) -> float | None:
    """A time in minutes of T010 (tenths); None for anything else."""
    return int(text[1:]) / 10.0 if text.startswith("T") else None


def altitude_ft(text: str) -> int | None:
    """An altitude in ft of 02126 or -0012; None for blanks, flight levels and unknown ones."""
    return int(text) if re.fullmatch(r"\d{5}|-\d{4}", text, re.ASCII) else None
