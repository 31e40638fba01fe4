"""The approaches in a recording: from where the aircraft comes in to where it has landed or flies away."""

from lpv.core.units import FT_PER_NM
from lpv.track.points import Point, Scales

ON_COURSE_NM = 1.0  # beside the course, at half the final, within which it is this approach
AWAY_NM = 1.0  # farther out again: no longer coming in, or flying away


def approaches(points: "tuple[Point, ...]", scales: Scales) -> "list[tuple[int, int]]":
    """(first, end) of every approach in the points of a recording, in order; [] if there is none.

    An approach passes half the distance of the PFAF towards the threshold, near the course; if there is no such
    one, the PFAF.
    """
    inner = _inbound(points, scales.pfaf_nm / 2.0)
    return [_extent(points, place) for place in inner or _inbound(points, scales.pfaf_nm)]


def _inbound(points: "tuple[Point, ...]", distance_nm: float) -> "list[int]":
    """Where a distance is passed towards the threshold, near the course: the places of the samples after it."""
    return [
        place for place in range(1, len(points))
        if points[place - 1].along_nm > distance_nm >= points[place].along_nm
        and abs(points[place].across_ft) <= ON_COURSE_NM * FT_PER_NM
    ]


def _extent(points: "tuple[Point, ...]", place: int) -> "tuple[int, int]":
    """From the farthest sample on the way in to the last one before it flies out again."""
    first = place
    for earlier in range(place - 1, -1, -1):
        if points[earlier].along_nm < points[first].along_nm - AWAY_NM:
            break
        if points[earlier].along_nm >= points[first].along_nm:
            first = earlier
    nearest_nm = points[place].along_nm
    for end in range(place, len(points)):
        nearest_nm = min(nearest_nm, points[end].along_nm)
        if points[end].along_nm > nearest_nm + AWAY_NM:
            return first, end
    return first, len(points)
