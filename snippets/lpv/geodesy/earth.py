"""Distances, courses and positions on the WGS-84 ellipsoid.

The geodesics are those of the geographiclib package; here they get nautical miles, checked inputs and the
two constructions that a procedure needs, the foot of the perpendicular and the crossing of two courses.
Latitudes are positive north, longitudes positive east, in degrees; courses are true.
"""

import math
import re
from typing import NamedTuple

from geographiclib.geodesic import Geodesic
from geographiclib.geodesicline import GeodesicLine

from lpv.core import dms
from lpv.core.errors import DomainError, in_range
from lpv.core.text import nautical_miles
from lpv.core.units import M_PER_NM, degrees_360

WGS84 = Geodesic.WGS84
RADIUS_M = float(WGS84.a)
FARTHEST_NM = 5000.0  # well under a quarter of the circumference, beyond which a foot is not unique
CLOSE_ENOUGH_M = 1e-6
SAME_DIRECTION = 1e-7  # sine of the angle under which two courses count as one
MAX_STEPS = 50


class Leg(NamedTuple):
    """From one point to another: distance, course at the start, course back at the end."""

    distance_nm: float
    course_deg: float
    reverse_course_deg: float


class Position(NamedTuple):
    """A point on the ellipsoid."""

    latitude_deg: float
    longitude_deg: float


class Foot(NamedTuple):
    """Where the perpendicular from a point meets a course line.

    along_nm is counted from the line's start, forward positive; across_nm is how far the point lies to the
    right of the line.
    """

    latitude_deg: float
    longitude_deg: float
    along_nm: float
    across_nm: float


class Crossing(NamedTuple):
    """Where two course lines cross, with the distance from each start, forward positive."""

    latitude_deg: float
    longitude_deg: float
    first_distance_nm: float
    second_distance_nm: float


def _check(latitude_deg: float, longitude_deg: float) -> None:
    in_range("latitude", latitude_deg, -90.0, 90.0, "deg")
    in_range("longitude", longitude_deg, -180.0, 180.0, "deg")


def distance_nm(latitude_1: float, longitude_1: float, latitude_2: float, longitude_2: float) -> float:
    """Length (NM) of the geodesic between two points (deg), zero for equal ones.

    Domain: latitudes -90 to 90, longitudes -180 to 180; DomainError outside.  Source: geographiclib.
    """
    _check(latitude_1, longitude_1)
    _check(latitude_2, longitude_2)
    return float(WGS84.Inverse(latitude_1, longitude_1, latitude_2, longitude_2)["s12"]) / M_PER_NM


def inverse(latitude_1: float, longitude_1: float, latitude_2: float, longitude_2: float) -> Leg:
    """The geodesic between two points: distance (NM), course there, course back (0 <= course < 360).

    Domain as distance_nm; DomainError also for points closer than a micrometre, between which there is no
    course.  At a pole the course counts from the meridian whose longitude is given.  Source: geographiclib.
    """
    _check(latitude_1, longitude_1)
    _check(latitude_2, longitude_2)
    geodesic = WGS84.Inverse(latitude_1, longitude_1, latitude_2, longitude_2)
    if geodesic["s12"] < CLOSE_ENOUGH_M:
        raise DomainError("course: found the same point twice; allowed: two different points.")
    return Leg(
        float(geodesic["s12"]) / M_PER_NM, degrees_360(geodesic["azi1"]), degrees_360(geodesic["azi2"] + 180.0),
    )


def destination(latitude_deg: float, longitude_deg: float, course_deg: float, distance_nm: float) -> Position:
    """The point reached from a start on a course (deg) after a distance (NM; negative is backwards).

    Domain: course 0 to 360 deg, distance -10000 to 10000 NM; DomainError outside.  Source: geographiclib.
    """
    line = _line(latitude_deg, longitude_deg, course_deg)
    return _at(line, in_range("distance", distance_nm, -10000.0, 10000.0, "NM") * M_PER_NM)


def _line(latitude_deg: float, longitude_deg: float, course_deg: float) -> GeodesicLine:
    _check(latitude_deg, longitude_deg)
    return WGS84.Line(latitude_deg, longitude_deg, in_range("course", course_deg, 0.0, 360.0, "deg"))


def _at(line: GeodesicLine, distance_m: float) -> Position:
    point = line.Position(distance_m, Geodesic.LATITUDE | Geodesic.LONGITUDE)
    return Position(point["lat2"] + 0.0, point["lon2"] + 0.0)


def perpendicular(
    latitude_deg: float, longitude_deg: float, course_deg: float,
    point_latitude: float, point_longitude: float,
) -> Foot:
    """Foot of the perpendicular from a point onto the geodesic that leaves a start on a course.

    Domain as destination; DomainError also for a point more than 5000 NM from the start, and where the search
    finds no foot.  Method: the spherical right triangle tan(along) = tan(distance) cos(angle), repeated from
    the foot found last until that moves by less than a micrometre on the ellipsoid.
    """
    _check(point_latitude, point_longitude)
    line = _line(latitude_deg, longitude_deg, course_deg)
    in_range(
        "distance from the start of the line",
        distance_nm(latitude_deg, longitude_deg, point_latitude, point_longitude), 0.0, FARTHEST_NM, "NM",
    )
    along_m = 0.0
    for _ in range(MAX_STEPS):
        foot = line.Position(along_m)
        leg = WGS84.Inverse(foot["lat2"], foot["lon2"], point_latitude, point_longitude)
        angle, turned = math.radians(leg["azi1"] - foot["azi2"]), leg["s12"] / RADIUS_M
        step_m = RADIUS_M * math.atan2(math.sin(turned) * math.cos(angle), math.cos(turned))
        along_m += step_m
        if abs(step_m) < CLOSE_ENOUGH_M:
            across_m = math.copysign(leg["s12"], math.sin(angle)) if leg["s12"] else 0.0
            return Foot(*_at(line, along_m), along_m / M_PER_NM + 0.0, across_m / M_PER_NM)
    raise DomainError("perpendicular: no foot found; allowed: a point that lies beside the line.")


def intersection(
    latitude_1: float, longitude_1: float, course_1: float,
    latitude_2: float, longitude_2: float, course_2: float,
) -> Crossing:
    """The crossing of two geodesics that leave two starts on two courses, the one nearest to the starts.

    A negative distance says that the crossing lies behind that start.  Domain as destination; DomainError
    also where the lines do not cross within 5000 NM of both starts, or lie on each other.  Method: the
    spherical triangle of the two starts and the crossing, tan(s) = sin(d) sin(B) / (cos(d) cos(A) sin(B) +
    sin(A) cos(B)), repeated from the points found last until they move by less than a micrometre.
    """
    first, second = _line(latitude_1, longitude_1, course_1), _line(latitude_2, longitude_2, course_2)
    first_m = second_m = 0.0
    for _ in range(MAX_STEPS):
        at_first, at_second = first.Position(first_m), second.Position(second_m)
        first_step, second_step = _steps(at_first, at_second)
        first_m, second_m = first_m + first_step, second_m + second_step
        if max(abs(first_m), abs(second_m)) > FARTHEST_NM * M_PER_NM:
            break
        if abs(first_step) + abs(second_step) < CLOSE_ENOUGH_M and _cross(at_first, at_second):
            return Crossing(*_at(first, first_m), first_m / M_PER_NM + 0.0, second_m / M_PER_NM + 0.0)
    raise DomainError(
        "crossing: found two courses that lie on each other or do not meet; "
        f"allowed: one crossing within {nautical_miles(FARTHEST_NM, 1)}."
    )


def _cross(first: "dict[str, float]", second: "dict[str, float]") -> bool:
    """Whether two points on two lines are one point and the lines differ in direction there."""
    apart_m = WGS84.Inverse(first["lat2"], first["lon2"], second["lat2"], second["lon2"])["s12"]
    along_each_other = abs(math.sin(math.radians(first["azi2"] - second["azi2"]))) < SAME_DIRECTION
    return bool(apart_m < 1000.0 * CLOSE_ENOUGH_M) and not along_each_other


def _steps(first: "dict[str, float]", second: "dict[str, float]") -> tuple[float, float]:
    """How far (m) each of two points must move along its course to the crossing, on a sphere."""
    leg = WGS84.Inverse(first["lat2"], first["lon2"], second["lat2"], second["lon2"])
    turned = leg["s12"] / RADIUS_M
    at_first = math.radians(first["azi2"] - leg["azi1"])
    at_second = math.radians(leg["azi2"] + 180.0 - second["azi2"])
    return _side(turned, at_first, at_second), _side(turned, at_second, at_first)


def _side(turned: float, near: float, far: float) -> float:
    # tan(s) = sin(d) sin(B) / (cos(d) cos(A) sin(B) + sin(A) cos(B))
    rise = math.sin(turned) * math.sin(far)
    run = math.cos(turned) * math.cos(near) * math.sin(far) + math.sin(near) * math.cos(far)
    return RADIUS_M * math.atan2(math.copysign(1.0, run) * rise, abs(run))


def parse_latitude(text: str) -> float:
    """Degrees, north positive, of a latitude as written in records or by people.

    "N3739186640" (degrees, minutes, seconds, the rest decimals of the second), "373918.66N", and what
    `lpv.core.dms.latitude_deg` reads ("N37 39 18.6640", "40:10:24.5N").  DomainError for anything else.
    """
    return dms.latitude_deg(_spaced(text, "NS", 2))


def parse_longitude(text: str) -> float:
    """Degrees, east positive, of a longitude as written in records or by people.

    "W12206531315", "0022110.60W", and what `lpv.core.dms.longitude_deg` reads.  DomainError for anything else.
    """
    return dms.longitude_deg(_spaced(text, "EW", 3))


def _spaced(text: str, letters: str, degree_digits: int) -> str:
    """A run of digits cut into degrees, minutes and seconds; any other text as it stands."""
    run = rf"(\d{{{degree_digits}}})(\d\d)(\d\d)(?:\.?(\d{{1,6}}))?"
    match = re.fullmatch(rf"([{letters}]?){run}([{letters}]?)", text, re.ASCII)
    if not match:
        return text
    before, degrees, minutes, seconds, decimals, after = match.groups()
    return f"{before}{degrees} {minutes} {seconds}{'.' + decimals if decimals else ''}{after}"
