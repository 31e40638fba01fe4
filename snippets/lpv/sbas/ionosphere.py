"""The ionosphere as SBAS sees it: a thin shell at 350 km with a grid of corrections.

Pierce points, interpolation in a cell of the grid, and the error that is assumed where no grid is received.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from lpv.core.errors import DomainError, above, in_range
from lpv.core.units import degrees_180
from lpv.facts import value
from lpv.sbas.shell import sine_at_shell

POLE_RULE_DEG = 70.0


@dataclass(frozen=True)
class PiercePoint:
    """Where the line of sight meets the shell, in degrees."""

    latitude_deg: float
    longitude_deg: float


def earth_angle_rad(elevation_deg: float) -> float:
    """Angle at the earth's centre between the place and the pierce point; elevation 0 to 90 deg.

    psi = pi/2 - E - asin(Re cos E / (Re + h)).
    """
    elevation = math.radians(in_range("elevation", elevation_deg, 0.0, 90.0, "deg"))
    return max(0.0, math.pi / 2.0 - elevation - math.asin(sine_at_shell(elevation_deg)))


def pierce_point(
    latitude_deg: float, longitude_deg: float, azimuth_deg: float, elevation_deg: float
) -> PiercePoint:
    """Where the sight line to a satellite meets the shell; the earth is a sphere here (RTKLIB ionppp).

    The longitude comes out within -180 to 180. Near a pole the pierce point may lie beyond it: the
    pole rule then turns the longitude by 180 deg (RTKLIB's form; another code writes it otherwise).
    Domain: latitude -90 to 90, longitude and azimuth -360 to 360 deg; DomainError outside.
    """
    latitude = math.radians(in_range("latitude", latitude_deg, -90.0, 90.0, "deg"))
    in_range("longitude", longitude_deg, -360.0, 360.0, "deg")
    azimuth = math.radians(in_range("azimuth", azimuth_deg, -360.0, 360.0, "deg"))
    angle = earth_angle_rad(elevation_deg)
    sine = math.sin(latitude) * math.cos(angle) + math.cos(latitude) * math.sin(angle) * math.cos(azimuth)
    pierced = math.asin(max(-1.0, min(1.0, sine)))
    turned = _turned_deg(angle, azimuth, pierced)
    if _beyond_pole(latitude_deg, angle, azimuth):
        turned = 180.0 - turned
    return PiercePoint(math.degrees(pierced), degrees_180(longitude_deg + turned))


def _turned_deg(angle: float, azimuth: float, pierced: float) -> float:
    across = math.cos(pierced)
    sine = math.sin(angle) * math.sin(azimuth) / across if across > 1e-12 else 0.0
    return math.degrees(math.asin(max(-1.0, min(1.0, sine))))


def _beyond_pole(latitude_deg: float, angle: float, azimuth: float) -> bool:
    to_pole = math.tan(math.pi / 2.0 - math.radians(abs(latitude_deg)))
    towards_pole = math.tan(angle) * math.cos(azimuth) * math.copysign(1.0, latitude_deg)
    return abs(latitude_deg) > POLE_RULE_DEG and towards_pole > to_pole


def cell_variance_m2(
    latitude_deg: float,
    longitude_deg: float,
    south_west_deg: "tuple[float, float]",
    size_deg: float,
    corners_m2: "Sequence[float | None]",
) -> float:
    """Variance in m² at a pierce point in one cell of the grid, size_deg wide and high.

    south_west_deg is the corner's (latitude, longitude). corners_m2 are the variances in the order
    south-west, south-east, north-west, north-east; one may be None (not monitored), and then the
    point must lie in the triangle of the other three (bilinear and triangular interpolation, MAAST
    grid2uive.m). DomainError outside the cell (0 to 1 of its size) or the triangle, with two corners missing, or beyond
    75 deg of latitude, where the grid follows other rules.
    """
    highest_deg = value("ionosphere_grid_latitude_highest_deg")
    in_range("latitude", latitude_deg, -highest_deg, highest_deg, "deg")
    above("size of the cell", size_deg, 0.0, "deg")
    north = (latitude_deg - south_west_deg[0]) / size_deg
    east = degrees_180(longitude_deg - south_west_deg[1]) / size_deg
    in_range("place in the cell, northward", north, 0.0, 1.0)
    in_range("place in the cell, eastward", east, 0.0, 1.0)
    weights = _weights(east, north, [corner is None for corner in corners_m2])
    return sum(
        weight * in_range("variance of a corner", corner, 0.0, math.inf, "m²")
        for weight, corner in zip(weights, corners_m2, strict=True)
        if corner is not None
    )


def _weights(east: float, north: float, missing: "Sequence[bool]") -> "tuple[float, ...]":
    """Weights of the corners south-west, south-east, north-west, north-east."""
    if not any(missing):
        return (1 - east) * (1 - north), east * (1 - north), (1 - east) * north, east * north
    if sum(missing) > 1:
        raise DomainError("grid cell: found fewer than three monitored corners; allowed: three or four.")
    # Seen from the corner opposite to the missing one, which lies at the right angle of the triangle.
    lost = list(missing).index(True)
    along_east = east if lost in (1, 3) else 1 - east
    along_north = north if lost in (2, 3) else 1 - north
    if along_east + along_north > 1.0:
        raise DomainError("grid cell: found a point outside the monitored triangle; allowed: inside it.")
    weights = [0.0, 0.0, 0.0, 0.0]
    opposite = 3 - lost
    weights[opposite] = 1 - along_east - along_north
    weights[opposite ^ 1] = along_east
    weights[opposite ^ 2] = along_north
    return tuple(weights)
