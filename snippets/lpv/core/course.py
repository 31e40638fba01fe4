"""Courses: true and magnetic, differences, and how they are written.

Variation is positive to the east.  Whose variation it is (the chart's variation of record, the one the
course was made with, or a model's) is the caller's to say; see `lpv.geodesy.magnetic` for the model.
"""

import math

from lpv.core.errors import in_range
from lpv.core.units import degrees_180, degrees_360


def _course(course_deg: float) -> float:
    return in_range("course", course_deg, 0.0, 360.0, "deg")


def _variation(variation_east_deg: float) -> float:
    return in_range("variation", variation_east_deg, -180.0, 180.0, "deg")


def magnetic_deg(true_deg: float, variation_east_deg: float) -> float:
    """Magnetic course (deg, 0 <= course < 360): true minus easterly variation ("east is least").

    Domain: course 0 to 360 deg, variation -180 to 180 deg, east positive; DomainError outside.
    """
    return degrees_360(_course(true_deg) - _variation(variation_east_deg))


def true_deg(magnetic_deg: float, variation_east_deg: float) -> float:
    """True course (deg, 0 <= course < 360): magnetic plus easterly variation; domain as magnetic_deg."""
    return degrees_360(_course(magnetic_deg) + _variation(variation_east_deg))


def reciprocal_deg(course_deg: float) -> float:
    """The opposite course (deg, 0 <= course < 360).  Domain: 0 to 360 deg; DomainError outside."""
    return degrees_360(_course(course_deg) + 180.0)


def course_difference_deg(from_deg: float, to_deg: float) -> float:
    """Turn (deg, -180 < turn <= 180) from one course to the other, right positive.

    Domain: both 0 to 360 deg; DomainError outside.
    """
    return degrees_180(_course(to_deg) - _course(from_deg))


def cross_track(distance: float, course_error_deg: float) -> float:
    """How far to the side one gets over a distance flown with a course error (plane geometry).

    In the unit of the distance, right positive.  Domain: distance 0 to 1e6, error -180 to 180 deg;
    DomainError outside.
    """
    in_range("distance", distance, 0.0, 1e6)
    return distance * math.sin(math.radians(_variation(course_error_deg))) + 0.0
