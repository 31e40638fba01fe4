"""What an aircraft sees of the sky: azimuth and elevation, and what hides a satellite.

Three masks: the elevation under which no satellite is used, the skyline of the terrain round the
place, and the aircraft itself, whose antenna looks only above the plane of its wings.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from lpv.core.errors import DomainError, in_range
from lpv.core.units import degrees_360
from lpv.facts import value
from lpv.geodesy.local_frame import axes, ecef_m
from lpv.sbas.constellation import Ecef, Orbit, healthy, position


@dataclass(frozen=True)
class Site:
    """A place on WGS-84: degrees, height above the ellipsoid in metres."""

    latitude_deg: float
    longitude_deg: float
    height_m: float = 0.0


@dataclass(frozen=True)
class Sight:
    """A satellite in the sky: true azimuth and elevation in degrees."""

    name: str
    azimuth_deg: float
    elevation_deg: float


@dataclass(frozen=True)
class Masks:
    """What hides satellites; the default is level flight over open water.

    terrain:      skyline as (true azimuth, elevation) in degrees, straight in between, closed round north
    heading_deg:  true heading, bank_deg: right wing down is positive
    wing_deg:     lowest elevation above the plane of the wings that the antenna sees, an assumption
    """

    elevation_deg: float = value("mask_elevation_deg")
    terrain: tuple[tuple[float, float], ...] = ()
    heading_deg: float = 0.0
    bank_deg: float = 0.0
    wing_deg: float = 0.0


def sight(name: str, target: Ecef, site: Site) -> Sight:
    """Azimuth and elevation of a point seen from a place; the zenith has azimuth 0.

    Domain: latitude -90 to 90, longitude -180 to 180; DomainError outside, or for the place itself.
    """
    origin = ecef_m(site.latitude_deg, site.longitude_deg, site.height_m)
    away = target.x_m - origin[0], target.y_m - origin[1], target.z_m - origin[2]
    east, north, up = (
        sum(a * b for a, b in zip(away, axis, strict=True))
        for axis in axes(site.latitude_deg, site.longitude_deg)
    )
    level = math.sqrt(east * east + north * north)
    if level == 0.0 and up == 0.0:
        raise DomainError("satellite: found at the place itself; allowed: above the earth.")
    azimuth_deg = degrees_360(math.degrees(math.atan2(east, north)))
    return Sight(name, azimuth_deg, math.degrees(math.atan2(up, level)))


def sights(orbits: Sequence[Orbit], site: Site, gps_s: float) -> tuple[Sight, ...]:
    """Every healthy satellite of the constellation, also those below the horizon."""
    return tuple(sight(orbit.name, position(orbit, gps_s), site) for orbit in healthy(orbits))


def terrain_elevation_deg(terrain: Sequence[tuple[float, float]], azimuth_deg: float) -> float:
    """Elevation of the skyline at an azimuth, straight between its points; -90 without any point.

    DomainError if an azimuth stands twice or an elevation lies outside -90 to 90.
    """
    points = sorted((_azimuth(az), in_range("skyline", up, -90.0, 90.0, "deg")) for az, up in terrain)
    if not points:
        return -90.0
    if len({azimuth for azimuth, _ in points}) < len(points):
        raise DomainError("skyline: found one azimuth twice; allowed: every azimuth once.")
    azimuth = _azimuth(azimuth_deg)
    right = next((i for i, point in enumerate(points) if point[0] > azimuth), 0)
    (left_azimuth, left_up), (right_azimuth, right_up) = points[right - 1], points[right]
    span = degrees_360(right_azimuth - left_azimuth) or 360.0
    return left_up + (right_up - left_up) * degrees_360(azimuth - left_azimuth) / span


def _azimuth(azimuth_deg: float) -> float:
    return degrees_360(in_range("azimuth", azimuth_deg, -360.0, 720.0, "deg"))


def elevation_above_wings_deg(
    azimuth_deg: float, elevation_deg: float, heading_deg: float, bank_deg: float
) -> float:
    """Elevation of a satellite above the plane of the wings; bank -90 to 90, right wing down positive.

    The antenna's axis leans by the bank towards the lower wing (geometry: scalar product with that axis).
    """
    in_range("elevation", elevation_deg, -90.0, 90.0, "deg")
    bank = math.radians(in_range("bank", bank_deg, -90.0, 90.0, "deg"))
    elevation = math.radians(elevation_deg)
    from_right_wing = math.radians(_azimuth(azimuth_deg) - _azimuth(heading_deg) - 90.0)
    leaned = math.cos(elevation) * math.sin(bank) * math.cos(from_right_wing)
    sine = math.sin(elevation) * math.cos(bank) + leaned
    return math.degrees(math.asin(max(-1.0, min(1.0, sine))))


def wing_plane_elevation_deg(azimuth_deg: float, heading_deg: float, bank_deg: float) -> float:
    """Elevation of the plane of the wings at a true azimuth; bank -90 to 90, right wing down positive.

    tan E = -tan(bank) cos(azimuth - heading - 90): where `elevation_above_wings_deg` gives 0.
    """
    bank = math.radians(in_range("bank", bank_deg, -90.0, 90.0, "deg"))
    from_right_wing = math.radians(_azimuth(azimuth_deg) - _azimuth(heading_deg) - 90.0)
    return math.degrees(math.atan2(-math.sin(bank) * math.cos(from_right_wing), math.cos(bank))) + 0.0


def in_view(seen: Sight, masks: Masks) -> bool:
    """Whether no mask hides the satellite; one exactly on a mask is in view."""
    above_wings = elevation_above_wings_deg(
        seen.azimuth_deg, seen.elevation_deg, masks.heading_deg, masks.bank_deg
    )
    return (
        seen.elevation_deg >= masks.elevation_deg
        and seen.elevation_deg >= terrain_elevation_deg(masks.terrain, seen.azimuth_deg)
        and above_wings >= masks.wing_deg
    )


def visible(orbits: Sequence[Orbit], site: Site, gps_s: float, masks: Masks) -> tuple[Sight, ...]:
    """The healthy satellites that no mask hides, in the order of the constellation."""
    return tuple(seen for seen in sights(orbits, site, gps_s) if in_view(seen, masks))
