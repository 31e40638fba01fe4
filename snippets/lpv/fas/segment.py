"""The final approach segment as geometry on WGS-84.

Lateral: the course runs from the LTP through the FPAP; full-scale deflection is an angle seen from the GARP,
1000 ft beyond the FPAP.  Vertical: the glidepath is a straight line in space.  It passes TCH above the LTP,
along the normal of the ellipsoid there, and rises by the glidepath angle against the plane that is level at
the LTP.  Ground distances are geodesics on the ellipsoid, positive before the threshold.

`lpv.path.profile` has the same line over a sphere, as the procedure design orders do, with heights above mean sea
level.  The difference is the sphere's radius against that of the ellipsoid along the course; it grows with
the square of the distance and stays under half a foot within 10 NM.
"""

import math
from dataclasses import dataclass
from functools import lru_cache

from lpv.core.errors import DomainError, in_range
from lpv.core.units import FT_PER_NM, M_PER_FT, degrees_180
from lpv.facts import value
from lpv.fas.block import FinalApproachSegment
from lpv.geodesy import earth, local_frame
from lpv.geodesy.local_frame import Frame
from lpv.path.profile import EARTH_RADIUS_FT, straight_path_distance_nm

GARP_BEYOND_FPAP_FT = value("garp_beyond_fpap_ft")
FARTHEST_NM = 200.0
HEIGHT_STEP_M = 1000.0


@dataclass(frozen=True)
class PathPosition:
    """A point on the glidepath: ground distance before the threshold, position, height above the ellipsoid."""

    distance_nm: float
    latitude_deg: float
    longitude_deg: float
    ellipsoid_height_m: float


@dataclass(frozen=True)
class RelativePosition:
    """Where something is against the segment.

    along_nm:       ground distance before the threshold, negative behind it
    across_ft:      to the right of the final course as flown, negative to the left
    above_path_ft:  above the straight glidepath, negative below it
    """

    along_nm: float
    across_ft: float
    above_path_ft: float


@lru_cache(maxsize=1024)
def _layout(
    ltp_latitude: float, ltp_longitude: float, ltp_height_m: float, fpap_latitude: float, fpap_longitude: float,
) -> tuple[earth.Leg, Frame]:
    """The leg from LTP to FPAP and the level frame at the LTP that looks along it."""
    leg = earth.inverse(ltp_latitude, ltp_longitude, fpap_latitude, degrees_180(fpap_longitude))
    return leg, local_frame.frame(ltp_latitude, ltp_longitude, ltp_height_m, leg.course_deg)


def _of(segment: FinalApproachSegment) -> tuple[earth.Leg, Frame]:
    return _layout(
        segment.ltp_latitude_deg, segment.ltp_longitude_deg, segment.ltp_height_m,
        segment.fpap_latitude_deg, segment.fpap_longitude_deg,
    )


def ltp_to_fpap_ft(segment: FinalApproachSegment) -> float:
    """Length (ft) of the geodesic from LTP to FPAP; DomainError where the two are one point."""
    return _of(segment)[0].distance_nm * FT_PER_NM


def true_course_deg(segment: FinalApproachSegment) -> float:
    """Final course (deg true, 0 <= course < 360) at the LTP towards the FPAP; errors as ltp_to_fpap_ft."""
    return _of(segment)[0].course_deg


def garp_distance_ft(segment: FinalApproachSegment) -> float:
    """Distance (ft) from LTP to GARP: to the FPAP and 1000 ft on; errors as ltp_to_fpap_ft.

    Source: FAA Order 8260.58D par 3-1-5 (fact `garp_beyond_fpap_ft`).
    """
    return ltp_to_fpap_ft(segment) + GARP_BEYOND_FPAP_FT


def splay_deg(segment: FinalApproachSegment) -> float:
    """Angle (deg) between the course and full-scale deflection, seen from the GARP.

    atan(course width / distance from LTP to GARP), where the block's course width is the half-width at the
    threshold; errors as ltp_to_fpap_ft.
    """
    return math.degrees(math.atan(segment.course_width_m / M_PER_FT / garp_distance_ft(segment)))


def half_width_ft(segment: FinalApproachSegment, distance_nm: float) -> float:
    """Full-scale deflection (ft to one side) of the angular guidance at a ground distance before the LTP.

    width (d + d_GARP) / d_GARP.  Domain: from the GARP (0 ft wide) to 200 NM; DomainError outside.  A receiver
    changes over to a constant width some way out; that is not part of the segment.
    """
    to_garp_ft = garp_distance_ft(segment)
    in_range("distance to the threshold", distance_nm, -to_garp_ft / FT_PER_NM, FARTHEST_NM, "NM")
    # width (d + d_GARP) / d_GARP
    return segment.course_width_m / M_PER_FT * (distance_nm * FT_PER_NM + to_garp_ft) / to_garp_ft


def point_on_path(segment: FinalApproachSegment, distance_nm: float) -> PathPosition:
    """The point of the glidepath above a ground distance (NM) before the threshold; negative is behind it.

    Domain: distance -20 to 200 NM, glidepath angle 0.1 to 15 deg; DomainError outside.  An LP segment has this
    line too, as far as its block holds an angle, but no guidance along it.
    """
    in_range("distance to the threshold", distance_nm, -20.0, FARTHEST_NM, "NM")
    ground = _on_course(segment, distance_nm)
    # Along one vertical the distance to the path changes linearly with height.
    at_zero_m = _above_path_m(segment, *ground, 0.0)
    per_step_m = _above_path_m(segment, *ground, HEIGHT_STEP_M) - at_zero_m
    return PathPosition(distance_nm, *ground, -at_zero_m * HEIGHT_STEP_M / per_step_m)


def _on_course(segment: FinalApproachSegment, distance_nm: float) -> earth.Position:
    """The point of the final course at a ground distance before the threshold."""
    return earth.destination(
        segment.ltp_latitude_deg, segment.ltp_longitude_deg, true_course_deg(segment), -distance_nm,
    )


def _angle(segment: FinalApproachSegment) -> float:
    return math.radians(in_range("glidepath angle", segment.gpa_deg, 0.1, 15.0, "deg"))


def _above_path_m(
    segment: FinalApproachSegment, latitude_deg: float, longitude_deg: float, ellipsoid_height_m: float,
) -> float:
    """Height (m) above the path, along the vertical of the LTP."""
    point_m = local_frame.ecef_m(latitude_deg, longitude_deg, ellipsoid_height_m)
    ahead_m, _, above_ltp_m = local_frame.components_m(_of(segment)[1], point_m)
    return above_ltp_m - segment.tch_ft * M_PER_FT + ahead_m * math.tan(_angle(segment))


def relative_position(
    segment: FinalApproachSegment, latitude_deg: float, longitude_deg: float, ellipsoid_height_m: float,
) -> RelativePosition:
    """Where a position (deg, height above the ellipsoid in m) is against the segment.

    Along is measured on the ground to the foot of the perpendicular on the final course; across from the
    vertical plane through that course; above the path along the vertical of the LTP.
    Domain: at most 200 NM from the LTP, height -12000 to 100000 m, angle 0.1 to 15 deg; DomainError outside.
    """
    start = segment.ltp_latitude_deg, segment.ltp_longitude_deg
    in_range("distance to the LTP", earth.distance_nm(*start, latitude_deg, longitude_deg), 0.0, FARTHEST_NM, "NM")
    foot = earth.perpendicular(*start, true_course_deg(segment), latitude_deg, longitude_deg)
    point_m = local_frame.ecef_m(latitude_deg, longitude_deg, ellipsoid_height_m)
    right_m = local_frame.components_m(_of(segment)[1], point_m)[1]
    above_m = _above_path_m(segment, latitude_deg, longitude_deg, ellipsoid_height_m)
    return RelativePosition(-foot.along_nm + 0.0, right_m / M_PER_FT, above_m / M_PER_FT)


def decision_point(segment: FinalApproachSegment, height_above_threshold_ft: float) -> PathPosition:
    """Where the glidepath is a height (ft) above the threshold, such as decision altitude less its elevation.

    The geoid is taken as parallel to the ellipsoid between there and the threshold.  Domain: height 0 to
    60000 ft, angle 0.1 to 15 deg; DomainError outside.
    Method: the distance on the sphere, then Newton's steps on the ellipsoid until the height is met to 1 um.
    """
    in_range("height above the threshold", height_above_threshold_ft, 0.0, 60000.0, "ft")
    target_m = segment.ltp_height_m + height_above_threshold_ft * M_PER_FT
    distance_nm = straight_path_distance_nm(height_above_threshold_ft, 0.0, segment.tch_ft, segment.gpa_deg)
    for _ in range(20):
        point = point_on_path(segment, distance_nm)
        missing_ft = (target_m - point.ellipsoid_height_m) / M_PER_FT
        if abs(missing_ft) < 3e-6:
            return point
        slope = math.tan(_angle(segment) + distance_nm * FT_PER_NM / EARTH_RADIUS_FT)
        distance_nm += missing_ft / slope / FT_PER_NM
    raise DomainError(f"height above the threshold: found {height_above_threshold_ft} ft; not on this path.")
