"""Where a position is against a final approach segment, in closed form and fast: for thousands of samples.

`lpv.fas.segment.relative_position` is the exact answer; this one has the same distance across and above the path,
and takes the ground distance along a circle instead of the ellipsoid: right to a tenth of a foot within 25 NM.
"""

import math

from lpv.core.units import M_PER_FT, M_PER_NM
from lpv.geodesy import local_frame
from lpv.geodesy.local_frame import ECCENTRICITY_SQUARED, RADIUS_M, Frame
from lpv.track.against import Final


class Line:
    """The final course and path of a segment, made once for many positions.

    level:    the level frame at the LTP, looking along the course
    radius_m: of the circle along the course at the LTP
    """

    def __init__(self, level: Frame, radius_m: float, slope: float, tch_m: float, ltp_height_m: float) -> None:
        self.level, self.radius_m, self.slope, self.tch_m, self.ltp_height_m = (
            level, radius_m, slope, tch_m, ltp_height_m)


class Relative:
    """Before the threshold, right of the final course as flown, above the straight path; other sides negative."""

    def __init__(self, along_nm: float, across_ft: float, above_path_ft: float) -> None:
        self.along_nm, self.across_ft, self.above_path_ft = along_nm, across_ft, above_path_ft


def line_of(held: Final) -> Line:
    """The line of a segment."""
    level = local_frame.frame(held.ltp_latitude_deg, held.ltp_longitude_deg, held.ltp_height_m, held.course_deg)
    radius_m = radius_along_m(held.ltp_latitude_deg, held.course_deg) + held.ltp_height_m
    return Line(level, radius_m, math.tan(math.radians(held.gpa_deg)), held.tch_ft * M_PER_FT, held.ltp_height_m)


def radius_along_m(latitude_deg: float, course_deg: float) -> float:
    """Radius of curvature of the ellipsoid along a course: 1 / R = cos^2 / M + sin^2 / N (Euler)."""
    flat = 1.0 - ECCENTRICITY_SQUARED * math.sin(math.radians(latitude_deg)) ** 2
    normal_m = RADIUS_M / math.sqrt(flat)
    meridian_m = normal_m * (1.0 - ECCENTRICITY_SQUARED) / flat
    course = math.radians(course_deg)
    # 1 / R = cos^2 / M + sin^2 / N
    return 1.0 / (math.cos(course) ** 2 / meridian_m + math.sin(course) ** 2 / normal_m)


def relative(line: Line, latitude_deg: float, longitude_deg: float, ellipsoid_height_m: float) -> Relative:
    """Where a position is against the line; domain as `lpv.geodesy.local_frame.ecef_m`, within 100 NM."""
    point_m = local_frame.ecef_m(latitude_deg, longitude_deg, ellipsoid_height_m)
    ahead_m, right_m, up_m = local_frame.components_m(line.level, point_m)
    ground_m = (line.radius_m - line.ltp_height_m) * math.atan2(ahead_m, line.radius_m + up_m)
    above_m = up_m - line.tch_m + ahead_m * line.slope
    return Relative(-ground_m / M_PER_NM + 0.0, right_m / M_PER_FT, above_m / M_PER_FT)
