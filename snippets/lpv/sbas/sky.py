"""What an aircraft sees of the sky: azimuth and elevation of every satellite; `lpv.sbas.masks` says what hides one."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from lpv.core.errors import DomainError
from lpv.core.units import degrees_360
from lpv.geodesy.local_frame import axes, ecef_m
from lpv.sbas.constellation import Ecef, Orbit, healthy, position
from lpv.sbas.masks import Masks, in_view


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


def visible(orbits: Sequence[Orbit], site: Site, gps_s: float, masks: Masks) -> tuple[Sight, ...]:
    """The healthy satellites that no mask hides, in the order of the constellation."""
    return tuple(candidate for candidate in sights(orbits, site, gps_s) if in_view(candidate, masks))
