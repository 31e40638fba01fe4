"""The final approach of a record on the earth: course, widths, and where each fix lies along it.

Computed once for each approach, on WGS-84, from the segment that the database holds and the positions of the fixes.
The phone gets these numbers with the record, since it has no geodesics.
"""

from dataclasses import dataclass
from functools import lru_cache

from lpv.approach.schema import Fix
from lpv.core.course import reciprocal_deg
from lpv.core.errors import DomainError
from lpv.core.units import M_PER_FT
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
    """The final course (deg true), course half-width at the threshold and distance LTP to GARP (ft), the fixes."""

    true_course_deg: float
    half_width_ft: float
    garp_distance_ft: float
    fixes: tuple[FixPosition, ...]


@lru_cache(maxsize=64)
def geometry(held: FinalApproachSegment, fixes: tuple[Fix, ...]) -> Geometry:
    """The geometry of a segment and its fixes; a fix beyond the reach of the geodesics (5000 NM) is left out.

    DomainError where LTP and FPAP are one point.
    """
    return Geometry(
        segment.true_course_deg(held), held.course_width_m / M_PER_FT, segment.garp_distance_ft(held),
        tuple(position for fix in fixes if (position := _position(held, fix)) is not None),
    )


def _position(held: FinalApproachSegment, fix: Fix) -> FixPosition | None:
    try:
        return FixPosition(fix.name, *position_along(held, fix.latitude_deg, fix.longitude_deg))
    except DomainError:
        return None


def position_along(held: FinalApproachSegment, latitude_deg: float, longitude_deg: float) -> tuple[float, float]:
    """(distance before the LTP along the final course, distance to its right) of a position, in NM."""
    foot = earth.perpendicular(
        held.ltp_latitude_deg, held.ltp_longitude_deg, reciprocal_deg(segment.true_course_deg(held)),
        latitude_deg, longitude_deg,
    )
    return foot.along_nm, -foot.across_nm + 0.0
