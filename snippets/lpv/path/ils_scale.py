"""Full-scale deviation of an ILS, to compare with an SBAS approach.

Localizer: tailored to 700 ft at the threshold.  Glide slope: two descriptions,
half of the published beam thickness, and 0.24 of the angle from the standard's
modulation figures (from memory).  Full scale is one-sided.
"""

import math

from lpv.core.errors import in_range
from lpv.core.units import FT_PER_NM, M_PER_FT
from lpv.facts import value


def localizer_full_scale_deg(antenna_distance_ft: float) -> float:
    """Full-scale localizer deviation in degrees: 350 ft at the threshold, but 1.5 to 3 degrees.

    antenna_distance_ft: from the threshold to the localizer antenna, ft, 1000 to 50 000
    Raises DomainError outside.  Source: FAA AIM 1-1-9.b.2 (700 ft, published);
    bounds of 3 to 6 degrees left to right from memory.
    """
    in_range("distance to the localizer antenna", antenna_distance_ft, 1000.0, 50_000.0, "ft")
    tailored_deg = math.degrees(math.atan(value("localizer_width_threshold_ft") / 2.0 / antenna_distance_ft))
    lowest_deg = value("localizer_width_lowest_deg") / 2.0
    return max(lowest_deg, min(value("localizer_width_highest_deg") / 2.0, tailored_deg))


def localizer_full_scale_ft(distance_nm: float, antenna_distance_ft: float) -> float:
    """Full-scale localizer deviation in ft at a distance before the threshold.

    distance_nm: before the threshold, NM, 0 to 200; antenna_distance_ft as
    `localizer_full_scale_deg`.  Raises DomainError outside.
    """
    in_range("distance before the threshold", distance_nm, 0.0, 200.0, "NM")
    half_angle_deg = localizer_full_scale_deg(antenna_distance_ft)
    return (distance_nm * FT_PER_NM + antenna_distance_ft) * math.tan(math.radians(half_angle_deg))


def localizer_full_scale_from_modulation_ft() -> float:
    """Full-scale localizer deviation at the threshold in ft from the standard's modulation figures.

    0.155 DDM / 0.00145 DDM per metre.  Source: ICAO Annex 10 Vol I, Figure C-9; full scale 3.1.3.7, from memory.
    """
    return value("localizer_full_scale_ddm") / value("localizer_sensitivity_ddm_per_m") / M_PER_FT


def glide_slope_full_scale_deg() -> float:
    """Full-scale glide slope deviation in degrees, half of the published beam thickness: 0.7.

    Source: FAA AIM 1-1-9.d.3 (thickness of 1.4 degrees).
    """
    return value("glide_slope_thickness_deg") / 2.0


def glide_slope_full_scale_ft(origin_distance_nm: float) -> float:
    """Full-scale glide slope deviation in ft, 0.7 degrees at a distance from the path's origin.

    origin_distance_nm: from where the path meets the level of the threshold, NM, 0 to 202
    Raises DomainError outside.
    """
    return _spread_ft(origin_distance_nm, glide_slope_full_scale_deg())


def glide_slope_of_angle_full_scale_deg(gpa_deg: float) -> float:
    """Full-scale glide slope deviation in degrees as 0.24 of the angle (0.175 DDM).

    gpa_deg: 1 to 10 degrees; DomainError outside.
    Source: ICAO Annex 10 Vol I 3.1.5.6 (0.0875 DDM at 0.12 of the angle), from memory.
    """
    in_range("glidepath angle", gpa_deg, 1.0, 10.0, "deg")
    doubling = value("glide_slope_full_scale_ddm") / value("glide_slope_half_full_scale_ddm")
    return gpa_deg * value("glide_slope_half_full_scale_share") * doubling


def glide_slope_of_angle_full_scale_ft(origin_distance_nm: float, gpa_deg: float) -> float:
    """Full-scale glide slope deviation in ft, 0.24 of the angle at a distance from the path's origin.

    Arguments and errors as `glide_slope_full_scale_ft` and `glide_slope_of_angle_full_scale_deg`.
    """
    return _spread_ft(origin_distance_nm, glide_slope_of_angle_full_scale_deg(gpa_deg))


def _spread_ft(origin_distance_nm: float, angle_deg: float) -> float:
    in_range("distance from the path's origin", origin_distance_nm, 0.0, 202.0, "NM")
    return origin_distance_nm * FT_PER_NM * math.tan(math.radians(angle_deg))
