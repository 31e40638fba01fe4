"""Both glidepaths worked out apart from the project: what the scripts show is compared with these."""

import math

EARTH_FT = 20890537.0  # the radius that procedures are made with


def straight_ft(distance_nm: float, elevation_ft: float, angle_deg: float = 3.0) -> float:
    """Height of a straight line over a sphere, by the law of sines; elevation with the crossing height."""
    from_centre = EARTH_FT + elevation_ft
    angle, turned = math.radians(angle_deg), distance_nm * 1852.0 / 0.3048 / EARTH_FT
    return from_centre * math.cos(angle) / math.cos(angle + turned) - EARTH_FT


def barometric_ft(distance_nm: float, elevation_ft: float, angle_deg: float = 3.0) -> float:
    """Height of a line that crosses every level at one angle."""
    run_ft = distance_nm * 1852.0 / 0.3048
    return (EARTH_FT + elevation_ft) * math.exp(run_ft * math.tan(math.radians(angle_deg)) / EARTH_FT) - EARTH_FT


def before_threshold_ft(over_crossing_ft: float, angle_deg: float = 3.0, elevation_ft: float = 0.0) -> float:
    """Distance at which the straight line is so high over its crossing: of a plane, less the earth's fall away.

    On the ground as procedures count it, at sea level below; good to a foot within a mile.
    """
    steep = math.tan(math.radians(angle_deg))
    plane_ft = over_crossing_ft / steep
    return plane_ft - plane_ft**2 / (2.0 * EARTH_FT) / steep - plane_ft * elevation_ft / EARTH_FT
