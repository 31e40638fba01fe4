"""Straight lines in space near one point: earth-centred coordinates and a local level frame on WGS-84."""

import math

from lpv.core.errors import in_range

# WGS-84 by definition: semi-major axis, flattening.  A test holds them against geographiclib.
RADIUS_M = 6378137.0
FLATTENING = 1.0 / 298.257223563
ECCENTRICITY_SQUARED = FLATTENING * (2.0 - FLATTENING)


class Frame:
    """A level frame at a point: its origin (m) and the directions ahead on a course, to its right, and up."""

    def __init__(
        self, origin_m: "tuple[float, float, float]", ahead: "tuple[float, float, float]",
        right: "tuple[float, float, float]", up: "tuple[float, float, float]",
    ) -> None:
        self.origin_m, self.ahead, self.right, self.up = origin_m, ahead, right, up


def axes(latitude_deg: float, longitude_deg: float) -> "tuple[tuple[float, float, float], ...]":
    """East, north and up (normal to the ellipsoid) at a position, unit vectors in the axes of ecef_m.

    Domain: latitude -90 to 90, longitude -180 to 180 deg; DomainError outside.
    """
    latitude = math.radians(in_range("latitude", latitude_deg, -90.0, 90.0, "deg"))
    longitude = math.radians(in_range("longitude", longitude_deg, -180.0, 180.0, "deg"))
    sin_lat, cos_lat = math.sin(latitude), math.cos(latitude)
    sin_lon, cos_lon = math.sin(longitude), math.cos(longitude)
    return (
        (-sin_lon, cos_lon, 0.0),
        (-sin_lat * cos_lon, -sin_lat * sin_lon, cos_lat),
        (cos_lat * cos_lon, cos_lat * sin_lon, sin_lat),
    )


def ecef_m(latitude_deg: float, longitude_deg: float, height_m: float) -> "tuple[float, float, float]":
    """Earth-centred, earth-fixed x, y, z (m) of a position and its height above the ellipsoid.

    Domain as axes, height -12000 to 100000 m; DomainError outside.
    Source: definition of geodetic coordinates, with the WGS-84 constants.
    """
    up = axes(latitude_deg, longitude_deg)[2]
    in_range("height above the ellipsoid", height_m, -12000.0, 100000.0, "m")
    normal_m = RADIUS_M / math.sqrt(1.0 - ECCENTRICITY_SQUARED * up[2] ** 2)
    return (
        (normal_m + height_m) * up[0],
        (normal_m + height_m) * up[1],
        (normal_m * (1.0 - ECCENTRICITY_SQUARED) + height_m) * up[2],
    )


def frame(latitude_deg: float, longitude_deg: float, height_m: float, course_deg: float) -> Frame:
    """The level frame at a position, turned so that it looks along a true course (0 to 360 deg).

    Domain as ecef_m; DomainError outside.
    """
    course = math.radians(in_range("course", course_deg, 0.0, 360.0, "deg"))
    east, north, up = axes(latitude_deg, longitude_deg)
    return Frame(
        ecef_m(latitude_deg, longitude_deg, height_m),
        _sum(math.sin(course), east, math.cos(course), north),
        _sum(math.cos(course), east, -math.sin(course), north),
        up,
    )


def _sum(
    a: float, first: "tuple[float, float, float]", b: float, second: "tuple[float, float, float]",
) -> "tuple[float, float, float]":
    return (a * first[0] + b * second[0], a * first[1] + b * second[1], a * first[2] + b * second[2])


def components_m(level: Frame, point_m: "tuple[float, float, float]") -> "tuple[float, float, float]":
    """How far (m) a point in ecef_m coordinates lies ahead, to the right and above a frame's origin."""
    offset = (
        point_m[0] - level.origin_m[0], point_m[1] - level.origin_m[1], point_m[2] - level.origin_m[2],
    )
    return _dot(offset, level.ahead), _dot(offset, level.right), _dot(offset, level.up)


def _dot(first: "tuple[float, float, float]", second: "tuple[float, float, float]") -> float:
    return first[0] * second[0] + first[1] * second[1] + first[2] * second[2]
