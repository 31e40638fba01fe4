"""The columns of a coded leg and of its continuation records.

Source: ARINC Specification 424-18, as published records confirm it.  The four levels of required navigation
performance of a continuation (columns 89 to 104) are from memory; a published record shows two of them.
"""

from lpv.arinc.columns import Layout
from lpv.arinc.layouts import BEARING, NAME_OR_BLANK, REGION, TAIL, head, skip
from lpv.fas.path_point_columns import Column

_ALTITUDE = (r"\d{5}|-\d{4}|FL\d{3}|UNKNN|GND  | {5}", "feet, FL and three digits, or blanks")
_SECTION = ("[A-Z][A-Z ]|  ", "one or two letters")
_SIGN = ("[A-Z0-9+@ -]", "a letter, digit or sign, or a blank")
_DIGITS_3 = (r"\d{3}| {3}", "three digits, or blanks")
_DIGITS_4 = (r"\d{4}| {4}", "four digits, or blanks")
_HEAD = (
    *head(),
    Column("approach", 14, 19, "approach", "[A-Z][A-Z0-9-]* *", "letters, digits and -, blanks behind"),
    Column("route", 20, 20, "route type", "[A-Z0-9]", "a letter or digit"),
    Column("transition", 21, 25, "transition", *NAME_OR_BLANK),
    Column("sequence", 27, 29, "sequence number", r"\d{3}", "three digits"),
    Column("fix", 30, 34, "fix", *NAME_OR_BLANK),
    Column("fix_region", 35, 36, "ICAO region of the fix", *REGION),
    Column("fix_section", 37, 38, "section of the fix", *_SECTION),
    Column("continuation", 39, 39, "continuation number", "[0-9A-Z]", "a digit or letter"),
)
_QUALIFIERS = (
    Column("qualifier_1", 119, 119, "first route qualifier", *_SIGN),
    Column("qualifier_2", 120, 120, "second route qualifier", *_SIGN),
)
_CATEGORY = skip(26, 26, "aircraft category")
_END = skip(121, 123, "reserved")
LEG = Layout("leg", (
    *_HEAD,
    Column("description", 40, 43, "waypoint description", "[A-Z ]{4}", "four letters or blanks"),
    Column("turn", 44, 44, "turn direction", "[LRE ]", "L, R or E, or a blank"),
    Column("rnp", 45, 47, "required navigation performance", *_DIGITS_3),
    Column("terminator", 48, 49, "path and termination", "[A-Z]{2}", "two letters"),
    Column("turn_valid", 50, 50, "whether the turn is prescribed", "[A-Z ]", "a letter, or a blank"),
    Column("navaid", 51, 54, "recommended navaid", "[A-Z0-9]{1,4} *| {4}", "letters and digits, or blanks"),
    Column("navaid_region", 55, 56, "ICAO region of the navaid", *REGION),
    Column("radius", 57, 62, "radius of the arc", r"\d{6}| {6}", "six digits (0.001 NM), or blanks"),
    Column("theta", 63, 66, "bearing from the navaid, or course into the arc", *_DIGITS_4),
    Column("rho", 67, 70, "distance from the navaid", *_DIGITS_4),
    Column("course", 71, 74, "course", *BEARING),
    Column("distance", 75, 78, "distance or time", r"\d{4}|T\d{3}| {4}", "four digits, T and three, or blanks"),
    Column("navaid_section", 79, 80, "section of the navaid", *_SECTION),
    Column("altitude_is", 83, 83, "altitude description", *_SIGN),
    Column("atc", 84, 84, "whether ATC may change the altitude", *_SIGN),
    Column("altitude", 85, 89, "altitude", *_ALTITUDE),
    Column("altitude_2", 90, 94, "second altitude", *_ALTITUDE),
    Column("transition_altitude", 95, 99, "transition altitude", *_ALTITUDE),
    Column("speed", 100, 102, "speed limit", *_DIGITS_3),
    Column("angle", 103, 106, "vertical angle", r"[-+ 0]\d{3}| {4}", "a sign and three digits (0.01 deg), or blanks"),
    Column("centre", 107, 111, "center fix", *NAME_OR_BLANK),
    Column("multiple", 112, 112, "multiple code", "[A-Z0-9 ]", "a letter or digit, or a blank"),
    Column("centre_region", 113, 114, "ICAO region of the center", *REGION),
    Column("centre_section", 115, 116, "section of the center", *_SECTION),
    Column("gnss", 117, 117, "GNSS indication", *_SIGN),
    Column("speed_is", 118, 118, "speed limit description", *_SIGN),
    *_QUALIFIERS, *TAIL,
), (_CATEGORY, skip(81, 82, "reserved"), _END))
_AUTHORIZED = (r"[AN ]", "A, N or a blank")
_LEVEL = ("[A-Z][A-Z0-9/ -]*| +", "capital letters, or blanks")
RNP_LEVELS = 4
LEVELS = Layout("levels of service", (
    *_HEAD,
    Column("application", 40, 40, "application type", "W", "W"),
    Column("fas", 41, 41, "segment provided", *_AUTHORIZED),
    Column("fas_name", 42, 51, "its level of service", *_LEVEL),
    Column("vnav", 52, 52, "LNAV/VNAV authorized", *_AUTHORIZED),
    Column("vnav_name", 53, 62, "its level of service", *_LEVEL),
    Column("lnav", 63, 63, "LNAV authorized", *_AUTHORIZED),
    Column("lnav_name", 64, 73, "its level of service", *_LEVEL),
    *(column for number, first in enumerate(range(89, 89 + 4 * RNP_LEVELS, 4)) for column in (
        Column(f"rnp_{number}_is", first, first, f"RNP {number + 1} authorized", *_AUTHORIZED),
        Column(f"rnp_{number}", first + 1, first + 3, f"RNP {number + 1}", *_DIGITS_3))),
    *_QUALIFIERS, *TAIL,
), (_CATEGORY, skip(74, 88, "reserved"), skip(105, 118, "reserved"), _END))
OTHER = Layout("continuation of a leg", (*_HEAD, Column("application", 40, 40, "application type", *_SIGN), *TAIL),
               (_CATEGORY, skip(41, 123, "its contents")))
