"""The final approach of a record on the earth: course, widths, and where each fix lies along it.

Computed once for each approach, on WGS-84, from the segment that the database holds and the positions of the fixes.
The phone gets these numbers with the record, since it has no geodesics.
"""

from dataclasses import dataclass
from functools import lru_cache

from lpv.approach.schema import Fix
from lpv.core.course import reciprocal_deg
from lpv.core.errors import DomainError
from lpv.core.units import M_PER_FT, degrees_180
from lpv.fas import segment
from lpv.fas.block import FinalApproachSegment
from lpv.geodesy import earth


@dataclass(frozen=True)
class FixPosition:
    """Where a fix is: distance before the LTP along the final course, distance to its right, both in NM."""

    name: str
    along_nm: float
    across_nm: float


@dataclass(frozen=True)
class Geometry:
    """The final approach on the earth.

    true_course_deg:  final course;  half_width_ft: of the course at the threshold;  garp_distance_ft: from the LTP
    fixes:            where they lie along it
    missed_turn_deg:  from the final course to the first leg of the missed approach, right positive; None without one
    """

    true_course_deg: float
    half_width_ft: float
    garp_distance_ft: float
    fixes: tuple[FixPosition, ...]
    missed_turn_deg: float | None


@lru_cache(maxsize=64)
def geometry(coded: FinalApproachSegment, fixes: tuple[Fix, ...]) -> Geometry:
    """The geometry of a segment and its fixes; a fix beyond the reach of the geodesics (5000 NM) is left out.

    DomainError where LTP and FPAP are one point.
    """
    return Geometry(
        segment.true_course_deg(coded), coded.course_width_m / M_PER_FT, segment.garp_distance_ft(coded),
        tuple(position for fix in fixes if (position := _position(coded, fix)) is not None),
        _missed_turn_deg(coded, fixes),
    )


def _missed_turn_deg(coded: FinalApproachSegment, fixes: tuple[Fix, ...]) -> float | None:
    """Turn at the MAP towards the first missed approach fix."""
    at = next((fix for fix in fixes if fix.serves("MAP")), None)
    after = next((fix for fix in fixes if fix.serves("missed", "missed hold")), None)
    if at is None or after is None:
        return None
    leg = earth.inverse(at.latitude_deg, at.longitude_deg, after.latitude_deg, after.longitude_deg)
    return degrees_180(leg.course_deg - segment.true_course_deg(coded))


def _position(coded: FinalApproachSegment, fix: Fix) -> FixPosition | None:
    try:
        return FixPosition(fix.name, *position_along(coded, fix.latitude_deg, fix.longitude_deg))
    except DomainError:
        return None


def position_along(coded: FinalApproachSegment, latitude_deg: float, longitude_deg: float) -> tuple[float, float]:
    """(distance before the LTP along the final course, distance to its right) of a position, in NM."""
    foot = earth.perpendicular(
        coded.ltp_latitude_deg, coded.ltp_longitude_deg, reciprocal_deg(segment.true_course_deg(coded)),
        latitude_deg, longitude_deg,
    )
    return foot.along_nm, -foot.across_nm + 0.0
