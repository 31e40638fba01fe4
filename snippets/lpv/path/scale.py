"""Full-scale path deviation of an SBAS approach: LPV, and LNAV/VNAV with SBAS.

The angle of a quarter of the glidepath angle, the caps and the floors are from
memory (facts `lpv_vertical_*`, `lnav_vnav_vertical_*`): the standard that sets
them is not public.  Published is only that the scale is angular and much like
an ILS at the same distance (FAA AIM 1-1-18.d.4).  Full scale is one-sided.

Distances run from the path's origin, the point where the straight path meets
the level of the threshold, past the threshold.
"""

import math

from lpv.core.errors import in_range
from lpv.core.units import FT_PER_NM, M_PER_FT
from lpv.facts import value_of
from lpv.motion.kinematics import distance_for_height_ft


def origin_distance_nm(distance_nm: float, tch_ft: float, gpa_deg: float) -> float:
    """Distance from the path's origin in NM, from the distance before the threshold.

    distance_nm: before the threshold, NM, 0 to 200
    tch_ft: threshold crossing height, ft, 0 to 200
    gpa_deg: glidepath angle, 1 to 10 degrees
    Raises DomainError outside.  Source: plane geometry, TCH / tan GPA (FAA Order 8260.52 par 1.4.12).
    """
    in_range("distance before the threshold", distance_nm, 0.0, 200.0, "NM")
    in_range("threshold crossing height", tch_ft, 0.0, 200.0, "ft")
    in_range("glidepath angle", gpa_deg, 1.0, 10.0, "deg")
    return distance_nm + distance_for_height_ft(tch_ft, gpa_deg) / FT_PER_NM


def lpv_full_scale_ft(origin_distance_nm: float, gpa_deg: float) -> float:
    """Full-scale path deviation of LPV in ft: a quarter of the angle, 15 m to 150 m.

    origin_distance_nm: from the path's origin, NM, 0 to 202
    gpa_deg: glidepath angle, 1 to 10 degrees
    Raises DomainError outside.  Source: RTCA DO-229 2.2.4.4, from memory.
    """
    return _full_scale_ft(origin_distance_nm, gpa_deg, "lpv_vertical")


def lnav_vnav_full_scale_ft(origin_distance_nm: float, gpa_deg: float) -> float:
    """Full-scale path deviation of LNAV/VNAV with SBAS in ft: a quarter of the angle, 45 m to 150 m.

    Arguments and errors as `lpv_full_scale_ft`.  Source: RTCA DO-229 2.2.3.4, from memory.
    """
    return _full_scale_ft(origin_distance_nm, gpa_deg, "lnav_vnav_vertical")


def lpv_cap_distance_nm(gpa_deg: float) -> float:
    """Distance from the path's origin in NM outside of which the 150 m cap of LPV holds.

    gpa_deg: 1 to 10 degrees; DomainError outside.  Closed form of `lpv_full_scale_ft`.
    """
    return _distance_nm("lpv_vertical_cap_m", gpa_deg, "lpv_vertical_share")


def lpv_floor_distance_nm(gpa_deg: float) -> float:
    """Distance from the path's origin in NM inside of which the 15 m floor of LPV holds.

    Argument and errors as `lpv_cap_distance_nm`.
    """
    return _distance_nm("lpv_vertical_floor_m", gpa_deg, "lpv_vertical_share")


def lnav_vnav_cap_distance_nm(gpa_deg: float) -> float:
    """Distance from the path's origin in NM outside of which the 150 m cap of LNAV/VNAV holds."""
    return _distance_nm("lnav_vnav_vertical_cap_m", gpa_deg, "lnav_vnav_vertical_share")


def lnav_vnav_floor_distance_nm(gpa_deg: float) -> float:
    """Distance from the path's origin in NM inside of which the 45 m floor of LNAV/VNAV holds."""
    return _distance_nm("lnav_vnav_vertical_floor_m", gpa_deg, "lnav_vnav_vertical_share")


def _slope(gpa_deg: float, share: float) -> float:
    return math.tan(math.radians(in_range("glidepath angle", gpa_deg, 1.0, 10.0, "deg") * share))


def _distance_nm(limit_key: str, gpa_deg: float, share_key: str) -> float:
    return value_of(limit_key) / M_PER_FT / _slope(gpa_deg, value_of(share_key)) / FT_PER_NM


def _full_scale_ft(distance_nm: float, gpa_deg: float, rule: str) -> float:
    # 202: a threshold distance of 200 NM and the way from the threshold to the origin.
    in_range("distance from the path's origin", distance_nm, 0.0, 202.0, "NM")
    angular_ft = distance_nm * FT_PER_NM * _slope(gpa_deg, value_of(rule + "_share"))
    return max(value_of(rule + "_floor_m") / M_PER_FT, min(value_of(rule + "_cap_m") / M_PER_FT, angular_ft))
