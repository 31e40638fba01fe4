"""A coded leg in words: everything of it that a pilot flies."""

from lpv.arinc import codes
from lpv.arinc.columns import rnp_nm
from lpv.arinc.flown import Flown, Measured
from lpv.arinc.legs import Leg, Stated, stated
from lpv.core.text import course_digits, field_number, trimmed

COMPUTED = " (computed)"


def words(flown: Flown) -> str:
    """A leg in words: "course 284.9, at or above 600 ft"."""
    leg = flown.leg
    kind = codes.TERMINATORS.get(leg.terminator, f"path terminator {leg.terminator}, not supported,")
    turn = f"turn {codes.TURNS[leg.turn]}, " if leg.turn in ("L", "R") and leg.terminator not in codes.HOLDS else ""
    parts = [f"{turn}{kind} {leg.fix}".strip(), *_course_words(flown), altitude_words(stated(leg)), speed_words(leg)]
    return ", ".join(part for part in parts if part)


def _course_words(flown: Flown) -> list[str]:
    leg, parts = flown.leg, []
    holds = leg.terminator in codes.HOLDS
    if flown.course is not None:
        name = "inbound course" if holds else "heading" if leg.terminator in codes.HEADINGS else "course"
        parts.append(f"{name} {course_digits(flown.course.value, 0.1)}{' true' if flown.course_is_true else ''}"
                     f"{_computed(flown.course)}")
    if holds:
        parts.append({"L": "left turns", "R": "right turns"}.get(leg.turn, "turns not coded"))
    if flown.length is not None:
        origin = f" from {leg.navaid}" if leg.navaid and leg.terminator in codes.TO_A_DME_DISTANCE else ""
        parts.append(f"{field_number(flown.length.value, 0.1)} NM{_computed(flown.length)}{origin}")
    if flown.time_min is not None:
        parts.append(f"{field_number(flown.time_min, 0.1)} min")
    if leg.navaid and leg.theta and leg.terminator in codes.BY_A_RADIAL:
        far = f", {field_number(int(leg.rho) / 10, 0.1)} NM" if leg.rho and leg.terminator in codes.ARCS else ""
        parts.append(f"radial {course_digits(int(leg.theta) / 10, 0.1)} of {leg.navaid}{far}")
    if leg.radius:
        parts.append(f"radius {field_number(int(leg.radius) / 1000, 0.001)} NM about {leg.centre}")
    return parts


def _computed(measured: Measured) -> str:
    return COMPUTED if measured.is_computed else ""


def altitude_words(coded: Stated) -> str:
    """The altitudes of a leg in words, "" for none."""
    parts = []
    if coded.altitude_ft is not None:
        above = f"{codes.ABOVE} {_altitude(coded.altitude_ft, coded)}"
        parts.append(f"{above} and {codes.BELOW} {_altitude(coded.highest_ft, coded)}"
                     if coded.highest_ft is not None else f"{coded.rule} {_altitude(coded.altitude_ft, coded)}")
    parts += [] if coded.path_ft is None else [f"{_altitude(coded.path_ft, coded)} on the path"]
    parts += [] if coded.glide_slope_ft is None else [f"{_altitude(coded.glide_slope_ft, coded)} on the glideslope"]
    return ", ".join([*parts, *([coded.unknown] if coded.unknown else [])])


def _altitude(altitude_ft: int, coded: Stated) -> str:
    return f"FL{altitude_ft // 100:03d}" if coded.is_level else f"{altitude_ft} ft"


def speed_words(leg: Leg) -> str:
    """The speed limit of a leg in words, "" for none."""
    rule = codes.meaning(codes.SPEEDS, leg.speed_is, "coded as") if leg.speed_is else ""
    return " ".join(filter(None, ("speed", rule or "limit", f"{int(leg.speed)} kt"))) if leg.speed else ""


def rnp_words(leg: Leg) -> str:
    """The required navigation performance of a leg in words, "" for none."""
    rnp = rnp_nm(leg.rnp)
    return "" if rnp is None else f"RNP {trimmed(rnp, 0.01)}"
