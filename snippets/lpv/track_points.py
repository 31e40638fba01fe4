"""The samples of a recorded flight against an approach: where they are, the deviations, the rates."""

import dataclasses
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from lpv.approach import Approach
from lpv.crosscheck_fixes import foot
from lpv.deviation import two_dots
from lpv.facts import value
from lpv.flight_guides import MOST_DOTS, sbas_guide
from lpv.track_clean import Part
from lpv.track_geometry import line_of, relative
from lpv.track_levels import Levels
from lpv.units import FPM_PER_KT, FT_PER_NM

WINDOW_S = value("recording_rate_window_s")
LEAST_SHARE = 0.4  # of the window that samples must cover


@dataclass(frozen=True)
class Point:
    """One sample against the approach; None where the recording does not tell.

    part:        number of the part it stands in: nothing is told across two parts
    along_nm, across_ft: before the threshold, right of the final course
    true_ft, indicated_ft: true altitude, and what the altimeter showed or should have shown
    above_ft:    above the path
    course_dots, path_dots: deviations of a two-dot scale, right and above positive, cut to 100
    ground_speed_kt, sink_fpm: averaged over `recording_rate_window_s`; sinking positive
    """

    time_s: float
    line: int
    part: int
    along_nm: float
    across_ft: float
    course_dots: float
    true_ft: float | None = None
    indicated_ft: float | None = None
    above_ft: float | None = None
    path_dots: float | None = None
    ground_speed_kt: float | None = None
    sink_fpm: float | None = None


@dataclass(frozen=True)
class Scales:
    """Full scale (ft) by distance before the threshold (NM), and where the PFAF is."""

    course_ft: Callable[[float], float]
    path_ft: Callable[[float], float]
    pfaf_nm: float


def scales_of(approach: Approach, joined: str) -> Scales:
    """The scales of an LPV approach, joined by procedure or on vectors; DomainError for one without a path."""
    pfaf_nm = foot(approach, approach.pfaf)[0]
    guide = sbas_guide(approach, pfaf_nm, joined == "vectors")
    assert guide.path_scale_ft is not None
    return Scales(guide.course_scale_ft, guide.path_scale_ft, pfaf_nm)


def places(parts: Sequence[Part], approach: Approach, levels: Levels, scales: Scales) -> list[Point]:
    """Every sample within `recording_farthest_nm` of the threshold, without rates."""
    line = line_of(approach.segment)
    found = []
    for number, part in enumerate(parts):
        for reading in part:
            level = levels.level(reading)
            height_m = approach.segment.ltp_height_m if level is None else level.ellipsoid_m
            at = relative(line, reading.latitude_deg, reading.longitude_deg, height_m)
            if at.along_nm**2 + (at.across_ft / FT_PER_NM) ** 2 > value("recording_farthest_nm") ** 2:
                continue
            point = Point(reading.time_s, reading.line, number, at.along_nm, at.across_ft,
                          dots(at.across_ft, scales.course_ft(at.along_nm)))
            if level is not None:
                point = dataclasses.replace(
                    point, true_ft=level.true_ft, indicated_ft=level.indicated_ft, above_ft=at.above_path_ft,
                    path_dots=dots(at.above_path_ft, scales.path_ft(at.along_nm)))
            found.append(point)
    return found


def dots(displacement_ft: float, full_scale_ft: float) -> float:
    """A displacement in dots of a two-dot scale, cut to 100."""
    return max(-MOST_DOTS, min(MOST_DOTS, two_dots(displacement_ft, full_scale_ft)))


def with_rates(points: Sequence[Point]) -> list[Point]:
    """The same with ground speed and rate of descent, each a straight line through the samples around."""
    found = []
    first = after = 0
    for point in points:
        while points[first].part != point.part or points[first].time_s < point.time_s - WINDOW_S / 2.0:
            first += 1
        after = max(after, first)
        while after < len(points) and points[after].part == point.part and (
                points[after].time_s <= point.time_s + WINDOW_S / 2.0):
            after += 1
        found.append(_rated(point, points[first:after]))
    return found


def _rated(point: Point, around: Sequence[Point]) -> Point:
    ahead_kt = _slope(around, lambda one: one.along_nm)
    right_kt = _slope(around, lambda one: one.across_ft / FT_PER_NM)
    climb_kt = _slope(around, lambda one: None if one.true_ft is None else one.true_ft / FT_PER_NM)
    return dataclasses.replace(
        point,
        ground_speed_kt=None if ahead_kt is None or right_kt is None else math.sqrt(ahead_kt**2 + right_kt**2),
        sink_fpm=None if climb_kt is None else -climb_kt * FPM_PER_KT,
    )


def _slope(around: Sequence[Point], of: Callable[[Point], float | None]) -> float | None:
    """Change in an hour, by least squares; None with fewer than three samples, or over too short a time."""
    rows = [(one.time_s, found) for one in around if (found := of(one)) is not None]
    if len(rows) < 3 or rows[-1][0] - rows[0][0] < LEAST_SHARE * WINDOW_S:
        return None
    middle_s = sum(time_s for time_s, _ in rows) / len(rows)
    middle = sum(found for _, found in rows) / len(rows)
    squares = sum((time_s - middle_s) * (time_s - middle_s) for time_s, _ in rows)
    return 3600.0 * sum((time_s - middle_s) * (found - middle) for time_s, found in rows) / squares


@dataclass(frozen=True)
class Crossing:
    """Where something passed a value: between two samples, by a straight line.

    at:  the sample made between the two, of the part of the first
    gap_s: seconds between the two if nothing is recorded there, else 0
    """

    at: Point
    gap_s: float


def crossing(points: Sequence[Point], margin: Callable[[Point], float | None]) -> Crossing | None:
    """The first place at which a margin goes from below zero to zero or above; None if it never does."""
    known = [(one, found) for one in points if (found := margin(one)) is not None]
    for (before, low), (after, high) in pairwise(known):
        if low < 0.0 <= high:
            gap_s = after.time_s - before.time_s if before.part != after.part else 0.0
            return Crossing(between(before, after, -low / (high - low)), gap_s)
    return None


def between(before: Point, after: Point, share: float) -> Point:
    """The sample that a straight line makes between two."""
    found: dict[str, Any] = {}
    for field in dataclasses.fields(Point):
        low, high = getattr(before, field.name), getattr(after, field.name)
        if field.name not in ("line", "part"):
            found[field.name] = None if low is None or high is None else low + share * (high - low)
    return dataclasses.replace(before, **found)
