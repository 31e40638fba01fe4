"""The final approach path in the vertical: three ways to draw a 3 deg descent over a round earth.

straight:    the SBAS and ILS glidepath, a straight line in space; over the curved earth it rises
             above a constant slope with the square of the distance.
barometric:  a constant slope against the altimeter (LNAV/VNAV), a curve in space.
flat:        height over distance on a plane, as in mental arithmetic.

Distances are ground distances before the threshold (LTP), along the surface; behind the threshold they
are negative.  Heights are above mean sea level.  The earth is a sphere of
`earth_radius_procedure_ft`; the formulas are those of the FAA procedure design orders, from memory.
`lpv.fas.segment` has the same path on the WGS-84 ellipsoid.
"""

import math

from lpv.core.errors import DomainError, in_range
from lpv.core.units import FT_PER_NM
from lpv.facts import value

EARTH_RADIUS_FT = value("earth_radius_procedure_ft")
FARTHEST_BEHIND_NM, FARTHEST_NM = -20.0, 200.0  # of a place on a path, before the threshold


def _checked(threshold_elevation_ft: float, tch_ft: float, gpa_deg: float) -> float:
    """Height of the path above the threshold (MSL, ft), with the three inputs checked."""
    in_range("glidepath angle", gpa_deg, 0.1, 15.0, "deg")
    in_range("threshold crossing height", tch_ft, 0.0, 500.0, "ft")
    return in_range("threshold elevation", threshold_elevation_ft, -2000.0, 20000.0, "ft") + tch_ft


def _distance(distance_nm: float) -> float:
    return in_range("distance to the threshold", distance_nm, FARTHEST_BEHIND_NM, FARTHEST_NM, "NM") * FT_PER_NM


def _height(height_ft: float) -> float:
    return in_range("height", height_ft, -2000.0, 60000.0, "ft")


def _radius(earth_radius_ft: float) -> float:
    """20 000 000 to 22 000 000 ft."""
    return in_range("earth radius", earth_radius_ft, 2.0e7, 2.2e7, "ft")


def straight_path_height_ft(
    distance_nm: float, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float,
) -> float:
    """Height (ft MSL) of the straight path at a ground distance before the threshold.

    Domain: distance -20 to 200 NM, elevation -2000 to 20000 ft, TCH 0 to 500 ft, angle 0.1 to 15 deg;
    DomainError outside.
    Source: FAA procedure design orders, straight path: (r + LTP + TCH) cos th / cos(D/r + th) - r,
    from memory.
    """
    return straight_path_height_on_sphere_ft(
        distance_nm, threshold_elevation_ft, tch_ft, gpa_deg, EARTH_RADIUS_FT,
    )


def straight_path_height_on_sphere_ft(
    distance_nm: float, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float, earth_radius_ft: float,
) -> float:
    """As straight_path_height_ft, on a sphere of any radius from 2.0e7 to 2.2e7 ft."""
    crossing_ft = _checked(threshold_elevation_ft, tch_ft, gpa_deg)
    radius_ft = _radius(earth_radius_ft)
    angle = math.radians(gpa_deg)
    at_distance = _distance(distance_nm) / radius_ft + angle
    # (r + LTP + TCH) cos th / cos(D/r + th) - r
    return (radius_ft + crossing_ft) * math.cos(angle) / math.cos(at_distance) - radius_ft


def barometric_path_height_ft(
    distance_nm: float, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float,
) -> float:
    """Height (ft MSL) of the barometric path at a ground distance before the threshold.

    Standard temperature; domain and errors as straight_path_height_ft.
    Source: FAA procedure design orders, curved path: exp(D tan th / r) (r + LTP + TCH) - r, from memory.
    """
    crossing_ft = _checked(threshold_elevation_ft, tch_ft, gpa_deg)
    rise = math.tan(math.radians(gpa_deg)) * _distance(distance_nm) / EARTH_RADIUS_FT
    # exp(D tan th / r) (r + LTP + TCH) - r
    return math.exp(rise) * (EARTH_RADIUS_FT + crossing_ft) - EARTH_RADIUS_FT


def flat_path_height_ft(
    distance_nm: float, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float,
) -> float:
    """Height (ft MSL) of the path over a flat earth: LTP + TCH + D tan th (geometry); domain as above."""
    crossing_ft = _checked(threshold_elevation_ft, tch_ft, gpa_deg)
    return crossing_ft + _distance(distance_nm) * math.tan(math.radians(gpa_deg))


def straight_path_distance_nm(
    height_ft: float, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float,
) -> float:
    """Ground distance (NM) before the threshold at which the straight path has a height (ft MSL).

    Negative behind the threshold.  Domain: height -2000 to 60000 ft and not under the lowest point of the
    line, the rest as straight_path_height_ft; DomainError outside.
    Source: FAA procedure design orders, D = r [pi/2 - th - asin(cos th (r + LTP + TCH) / (r + h))],
    from memory.
    """
    return straight_path_distance_on_sphere_nm(
        height_ft, threshold_elevation_ft, tch_ft, gpa_deg, EARTH_RADIUS_FT,
    )


def straight_path_distance_on_sphere_nm(
    height_ft: float, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float, earth_radius_ft: float,
) -> float:
    """As straight_path_distance_nm, on a sphere of any radius from 2.0e7 to 2.2e7 ft."""
    crossing_ft = _checked(threshold_elevation_ft, tch_ft, gpa_deg)
    radius_ft = _radius(earth_radius_ft)
    angle = math.radians(gpa_deg)
    sine = math.cos(angle) * (radius_ft + crossing_ft) / (radius_ft + _height(height_ft))
    if sine > 1.0:
        raise DomainError(f"height: found {height_ft} ft; the straight path is nowhere as low as that.")
    # D = r [pi/2 - th - asin(cos th (r + LTP + TCH) / (r + h))]
    return radius_ft * (math.pi / 2.0 - angle - math.asin(sine)) / FT_PER_NM


def barometric_path_distance_nm(
    height_ft: float, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float,
) -> float:
    """Ground distance (NM) before the threshold at which the barometric path has a height (ft MSL).

    Domain: height -2000 to 60000 ft, the rest as straight_path_height_ft; DomainError outside.
    Source: FAA procedure design orders, D = ln[(r + h) / (r + LTP + TCH)] r / tan th, from memory.
    """
    crossing_ft = _checked(threshold_elevation_ft, tch_ft, gpa_deg)
    ratio = (EARTH_RADIUS_FT + _height(height_ft)) / (EARTH_RADIUS_FT + crossing_ft)
    # D = ln[(r + h) / (r + LTP + TCH)] r / tan th
    return math.log(ratio) * EARTH_RADIUS_FT / math.tan(math.radians(gpa_deg)) / FT_PER_NM


def flat_path_distance_nm(
    height_ft: float, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float,
) -> float:
    """Distance (NM) before the threshold at which the path over a flat earth has a height (ft MSL)."""
    crossing_ft = _checked(threshold_elevation_ft, tch_ft, gpa_deg)
    return (_height(height_ft) - crossing_ft) / math.tan(math.radians(gpa_deg)) / FT_PER_NM


def straight_above_barometric_ft(
    distance_nm: float, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float,
) -> float:
    """How far (ft) the straight path lies above the barometric one at a distance; domain as above.

    On a standard day this is what the altimeter reads above the charted altitude on an SBAS glidepath.
    """
    return straight_path_height_ft(
        distance_nm, threshold_elevation_ft, tch_ft, gpa_deg,
    ) - barometric_path_height_ft(distance_nm, threshold_elevation_ft, tch_ft, gpa_deg)


def barometric_path_angle_deg(
    distance_nm: float, height_ft: float, threshold_elevation_ft: float, tch_ft: float,
) -> float:
    """Angle (deg) of the barometric path from the crossing height through a height at a distance.

    Domain as straight_path_angle_deg, distance 0.01 to 200 NM; DomainError outside.
    Source: the curved path formula solved for th.
    """
    distance_ft = in_range("distance to the threshold", distance_nm, 0.01, 200.0, "NM") * FT_PER_NM
    crossing_ft = _checked(threshold_elevation_ft, tch_ft, 3.0)
    ratio = (EARTH_RADIUS_FT + _height(height_ft)) / (EARTH_RADIUS_FT + crossing_ft)
    # tan th = ln[(r + h) / (r + LTP + TCH)] r / D
    return math.degrees(math.atan(math.log(ratio) * EARTH_RADIUS_FT / distance_ft))


def gpip_distance_ft(tch_ft: float, gpa_deg: float) -> float:
    """Distance (ft) behind the threshold at which the path meets the threshold's level: TCH / tan th.

    Domain: TCH 0 to 500 ft, angle 0.1 to 15 deg; DomainError outside.
    Source: FAA Order 8260.52 par 1.4.12 names the point; the formula is from memory.
    """
    return _checked(0.0, tch_ft, gpa_deg) / math.tan(math.radians(gpa_deg))  # GPIP = TCH / tan th
