"""The kinds of ARINC 424 records that are read, column by column; legs are in `lpv.arinc.leg_layouts`.

Source: ARINC Specification 424-18, as published records confirm it.  From memory, no published record at hand
showing them: the gradient of a runway, and what a navigation aid and a localizer hold beside position and name.
"""

from lpv.arinc.columns import Layout
from lpv.fas.path_point_columns import Column

SECTORS = 7
_FT = (r"\d{5}|-\d{4}| {5}", "five digits or a minus and four (ft), or blanks")
_LATITUDE = (r"[NS]([0-8]\d[0-5]\d[0-5]\d\d{2}|90{7})", "N or S, up to 90 degrees as DDMMSS and two decimals")
_LONGITUDE = (
    r"[EW]((0\d|1[0-7])\d[0-5]\d[0-5]\d\d{2}|180{7})", "E or W, up to 180 degrees as DDDMMSS and two decimals",
)
NAME = ("[A-Z0-9]{1,5} *", "letters and digits, blanks behind")
NAME_OR_BLANK = ("[A-Z0-9]{1,5} *| +", "letters and digits, or blanks")
REGION = ("[A-Z][A-Z0-9 ]|  ", "a letter, then a letter or digit, or blanks")
BEARING = (r"([0-2]\d{3}|3[0-5]\d\d|3600)|([0-2]\d\d|3[0-5]\d|360)T| {4}",
           "four digits (0.1 deg magnetic), three and T (deg true), or blanks")
_VARIATION = (r"[EW]\d{4}|T0000|T    | {5}", "E or W and four digits, T, or blanks")
_HEIGHT = (r"[+-]\d{5}| {6}", "a sign and five digits (0.1 m), or blanks")
_REFERENCE = ("[MT ]", "M or T, or a blank")
_WHICH = Column("continuation", 22, 22, "continuation number", "[0-9A-Z]", "a digit or letter")
_PLACE = (
    Column("latitude", 33, 41, "latitude", *_LATITUDE),
    Column("longitude", 42, 51, "longitude", *_LONGITUDE),
)
TAIL = (
    Column("number", 124, 128, "number of the record in its file", r"\d{5}| {5}", "five digits, or blanks"),
    Column("cycle", 129, 132, "cycle of the last change", r"\d\d(0[1-9]|1[0-4])", "a data cycle, YYNN"),
)


def skip(first: int, last: int, what: str) -> Column:
    """Columns that are not read, by what they hold."""
    return Column(f"rest_{first}", first, last, what)


def head(
    *, airport: str = "airport", subsection: bool = True, section: tuple[str, str] = ("P ", "P and a blank"),
) -> tuple[Column, ...]:
    """The columns that records of an airport begin with; with a blank, rest, where others have the subsection."""
    return (
        Column("record_type", 1, 1, "record type", "[ST]", "S or T"),
        Column("area", 2, 4, "area or customer", "[A-Z0-9]{3}", "three letters or digits"),
        Column("section", 5, 6, "section", *section),
        Column("airport", 7, 10, airport, "[A-Z0-9]{1,4} *| {4}", "letters and digits, blanks behind"),
        Column("region", 11, 12, "ICAO region", *REGION),
    ) + ((Column("subsection", 13, 13, "subsection", "[A-Z]", "a letter"),) if subsection else ())


AIRPORT = Layout("airport", (
    *head(), _WHICH, *_PLACE,
    Column("variation", 52, 56, "magnetic variation", *_VARIATION),
    Column("elevation", 57, 61, "airport elevation", *_FT),
    Column("reference", 86, 86, "magnetic or true", *_REFERENCE),
    Column("datum", 87, 89, "datum", "[A-Z0-9 ]{3}", "three letters or digits, or blanks"),
    Column("name", 94, 123, "airport name", "[ -~]*[!-~][ -~]*", "letters"),
    *TAIL,
), (
    skip(14, 16, "IATA designator"), skip(17, 21, "reserved"), skip(23, 27, "speed limit altitude"),
    skip(28, 30, "longest runway"), skip(31, 31, "IFR capability"), skip(32, 32, "surface of the longest runway"),
    skip(62, 64, "speed limit"), skip(65, 70, "recommended navaid"), skip(71, 75, "transition altitude"),
    skip(76, 80, "transition level"), skip(81, 81, "public or military"), skip(82, 85, "time zone and daylight"),
    skip(90, 93, "reserved"),
))
WAYPOINT = Layout("waypoint", (
    *head(), Column("ident", 14, 18, "identifier", *NAME), Column("fix_region", 20, 21, "ICAO region", *REGION),
    _WHICH, *_PLACE,
    Column("datum", 85, 87, "datum", "[A-Z0-9 ]{3}", "three letters or digits, or blanks"),
    *TAIL,
), (
    skip(19, 19, "reserved"), skip(23, 26, "reserved"), skip(27, 29, "waypoint type"), skip(30, 31, "waypoint usage"),
    skip(32, 32, "reserved"), skip(52, 74, "reserved"), skip(75, 79, "magnetic variation by a model"),
    skip(80, 84, "reserved"), skip(88, 95, "reserved"), skip(96, 98, "name format"), skip(99, 123, "name"),
))
ENROUTE_WAYPOINT = Layout("enroute waypoint", (
    *head(airport="region code", subsection=False, section=("EA", "EA")), *WAYPOINT.columns[6:],
), (skip(13, 13, "reserved"), *WAYPOINT.rest))
RUNWAY = Layout("runway", (
    *head(),
    Column("ident", 14, 18, "runway", "RW(0[1-9]|[12][0-9]|3[0-6])[A-Z ]", "RW01 to RW36, then a letter or a blank"),
    _WHICH, *_PLACE,
    Column("length", 23, 27, "length of the runway", r"\d{5}| {5}", "five digits (ft), or blanks"),
    Column("bearing", 28, 31, "bearing", *BEARING),
    Column("ellipsoid_height", 61, 66, "height of the threshold above the ellipsoid", *_HEIGHT),
    Column("elevation", 67, 71, "landing threshold elevation", *_FT),
    Column("displaced", 72, 75, "displaced threshold distance", r"\d{4}| {4}", "four digits (ft), or blanks"),
    Column("tch", 76, 77, "threshold crossing height", r"\d\d| {2}", "two digits (ft), or blanks"),
    Column("tch_of", 81, 81, "what the crossing height belongs to", "[A-Z ]", "a letter, or a blank"),
    *TAIL,
), (
    skip(19, 21, "reserved"), skip(32, 32, "reserved"), skip(52, 56, "gradient"), skip(57, 60, "reserved"),
    skip(78, 80, "width"), skip(82, 86, "localizer, MLS or GLS"), skip(87, 90, "stopway"),
    skip(91, 95, "second localizer, MLS or GLS"), skip(96, 101, "reserved"), skip(102, 123, "description"),
))
_DATUM = Column("datum", 91, 93, "datum", "[A-Z0-9 ]{3}", "three letters or digits, or blanks")
NAVAID_IDENT = Column("ident", 14, 18, "identifier", *NAME)
NDB = Layout("NDB", (
    *head(), NAVAID_IDENT, Column("fix_region", 20, 21, "ICAO region", *REGION), _WHICH, *_PLACE,
    _DATUM, *TAIL,
), (
    skip(19, 19, "reserved"), skip(23, 27, "frequency"), skip(28, 32, "class"), skip(52, 74, "reserved"),
    skip(75, 79, "magnetic variation"), skip(80, 90, "reserved"), skip(94, 123, "name"),
))
ENROUTE_NDB = Layout("enroute NDB", (
    *head(subsection=False, section=("DB", "DB")), *NDB.columns[6:],
), (skip(13, 13, "reserved"), *NDB.rest))
_BLANK_OR = "| +"
VHF_NAVAID = Layout("VHF navaid", (
    *head(subsection=False, section=("D ", "D and a blank")), NAVAID_IDENT,
    Column("fix_region", 20, 21, "ICAO region", *REGION), _WHICH,
    Column("latitude", 33, 41, "latitude", _LATITUDE[0] + _BLANK_OR, _LATITUDE[1] + ", or blanks"),
    Column("longitude", 42, 51, "longitude", _LONGITUDE[0] + _BLANK_OR, _LONGITUDE[1] + ", or blanks"),
    Column("dme_latitude", 56, 64, "latitude of the DME", _LATITUDE[0] + _BLANK_OR, _LATITUDE[1] + ", or blanks"),
    Column("dme_longitude", 65, 74, "longitude of the DME", _LONGITUDE[0] + _BLANK_OR,
           _LONGITUDE[1] + ", or blanks"),
    Column("declination", 75, 79, "station declination", r"[EWTG]\d{4}|[ -~]{5}", "a letter and four digits"),
    _DATUM, *TAIL,
), (
    skip(13, 13, "reserved"), skip(19, 19, "reserved"), skip(23, 27, "frequency"), skip(28, 32, "class"),
    skip(52, 55, "identifier of the DME"), skip(80, 84, "elevation of the DME"), skip(85, 85, "figure of merit"),
    skip(86, 87, "ILS/DME bias"), skip(88, 90, "frequency protection"), skip(94, 123, "name"),
))
LOCALIZER = Layout("localizer", (
    *head(), Column("ident", 14, 17, "identifier", "[A-Z0-9]{1,4} *", "letters and digits, blanks behind"),
    _WHICH, *_PLACE, *TAIL,
), (
    skip(18, 18, "category"), skip(19, 21, "reserved"), skip(23, 27, "frequency"), skip(28, 32, "runway"),
    skip(52, 55, "bearing"), skip(56, 74, "position of the glideslope"), skip(75, 90, "places, width and slope"),
    skip(91, 95, "declination"), skip(96, 102, "crossing height and elevation"), skip(103, 123, "supporting navaid"),
))
SAFE_ALTITUDE = Layout("minimum safe altitude", (
    *head(),
    Column("centre", 14, 18, "centre", *NAME),
    Column("centre_region", 19, 20, "ICAO region of the center", *REGION),
    Column("centre_section", 21, 22, "section of the center", "[A-Z][A-Z ]|  ", "one or two letters"),
    Column("multiple", 23, 23, "multiple code", "[A-Z0-9 ]", "a letter or digit, or a blank"),
    Column("continuation", 39, 39, "continuation number", "[0-9A-Z]", "a digit or letter"),
    *(Column(f"sector_{number}", first, first + 10, f"sector {number + 1}",
             r"(3[0-5]\d|360|[0-2]\d\d){2}\d{3}\d\d| {11}", "two bearings, altitude and radius, or blanks")
      for number, first in enumerate(range(43, 43 + 11 * SECTORS, 11))),
    Column("reference", 120, 120, "magnetic or true", *_REFERENCE),
    *TAIL,
), (skip(24, 38, "reserved"), skip(40, 42, "reserved"), skip(121, 123, "reserved")))
