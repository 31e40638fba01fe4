"""The samples of a recorded flight against an approach: where they are, the deviations, the rates."""

import math

from lpv.core.errors import DomainError
from lpv.core.units import FPM_PER_KT, FT_PER_NM
from lpv.facts import value
from lpv.path.sbas_scale import course_full_scale_ft, cut_dots, path_full_scale_ft
from lpv.track.against import LPV, Against
from lpv.track.geometry import line_of, relative
from lpv.track.levels import Levels
from lpv.track.records import Reading

WINDOW_S = value("recording_rate_window_s")
LEAST_SHARE = 0.4  # of the window that samples must cover
FARTHEST_NM = value("recording_farthest_nm")


class Point:
    """One sample against the approach; None where the recording does not tell.

    part:        number of the part it stands in: nothing is told across two parts
    along_nm, across_ft: before the threshold, right of the final course
    true_ft, indicated_ft: true altitude, and what the altimeter showed or should have shown
    above_ft:    above the path
    course_dots, path_dots: deviations of a two-dot scale, right and above positive, cut to 100
    ground_speed_kt, sink_fpm: averaged over `recording_rate_window_s`; sinking positive
    """

    def __init__(
        self, time_s: float, line: int, part: int, along_nm: float, across_ft: float, course_dots: float,
        true_ft: "float | None" = None, indicated_ft: "float | None" = None, above_ft: "float | None" = None,
        path_dots: "float | None" = None, ground_speed_kt: "float | None" = None, sink_fpm: "float | None" = None,
    ) -> None:
        self.time_s, self.line, self.part = time_s, line, part
        self.along_nm, self.across_ft, self.course_dots = along_nm, across_ft, course_dots
        self.true_ft, self.indicated_ft, self.above_ft, self.path_dots = true_ft, indicated_ft, above_ft, path_dots
        self.ground_speed_kt, self.sink_fpm = ground_speed_kt, sink_fpm

    def rated(self, ground_speed_kt: "float | None", sink_fpm: "float | None") -> "Point":
        """The same sample with its rates."""
        return Point(
            self.time_s, self.line, self.part, self.along_nm, self.across_ft, self.course_dots, self.true_ft,
            self.indicated_ft, self.above_ft, self.path_dots, ground_speed_kt, sink_fpm)


class Scales:
    """Full scale (ft) by distance before the threshold (NM), and where the PFAF is."""

    def __init__(self, approach: Against, on_vectors: bool) -> None:
        self.pfaf_nm = approach.pfaf.along_nm
        self._final, self._on_vectors = approach.final, on_vectors

    def course_ft(self, distance_nm: float) -> float:
        """Full scale of the course."""
        held = self._final
        return course_full_scale_ft(distance_nm, self.pfaf_nm, held.width_ft, held.garp_ft, self._on_vectors)

    def path_ft(self, distance_nm: float) -> float:
        """Full scale of the path."""
        return path_full_scale_ft(distance_nm, self._final.tch_ft, self._final.gpa_deg)


def scales_of(approach: Against, joined: str) -> Scales:
    """The scales of an LPV approach, joined by procedure or on vectors; DomainError for one without a path."""
    if approach.level != LPV:
        raise DomainError(f"{approach.slug}: found an LP approach; allowed: one with a path (LPV).")
    return Scales(approach, joined == "vectors")


def places(
    parts: "tuple[tuple[Reading, ...], ...]", approach: Against, levels: Levels, scales: Scales, first: int = 0,
) -> "list[Point]":
    """Every sample within `recording_farthest_nm` of the threshold, without rates; first: number of the first part."""
    line = line_of(approach.final)
    found = []
    for number, part in enumerate(parts):
        for reading in part:
            level = levels.level(reading)
            height_m = approach.final.ltp_height_m if level is None else level.ellipsoid_m
            at = relative(line, reading.latitude_deg, reading.longitude_deg, height_m)
            if at.along_nm**2 + (at.across_ft / FT_PER_NM) ** 2 > FARTHEST_NM**2:
                continue
            point = Point(reading.time_s, reading.line, first + number, at.along_nm, at.across_ft,
                          cut_dots(at.across_ft, scales.course_ft(at.along_nm)))
            if level is not None:
                point.true_ft, point.indicated_ft, point.above_ft = level.true_ft, level.indicated_ft, at.above_path_ft
                point.path_dots = cut_dots(at.above_path_ft, scales.path_ft(at.along_nm))
            found.append(point)
    return found


def with_rates(points: "list[Point]", begin: int = 0, end: "int | None" = None) -> "list[Point]":
    """The same with ground speed and rate of descent, each a straight line through the samples around.

    begin, end: only these of the points
    """
    found = []
    first = after = begin
    while first > 0 and points[first - 1].time_s >= points[begin].time_s - WINDOW_S / 2.0:
        first -= 1
    for point in points[begin:end]:
        while points[first].part != point.part or points[first].time_s < point.time_s - WINDOW_S / 2.0:
            first += 1
        after = max(after, first)
        while after < len(points) and points[after].part == point.part and (
                points[after].time_s <= point.time_s + WINDOW_S / 2.0):
            after += 1
        found.append(_rated(point, points[first:after]))
    return found


def _rated(point: Point, around: "list[Point]") -> Point:
    times_s = [one.time_s for one in around]
    ahead_kt = _slope(times_s, [one.along_nm for one in around])
    right_kt = _slope(times_s, [one.across_ft / FT_PER_NM for one in around])
    known = [one for one in around if one.true_ft is not None]
    climb_kt = _slope([one.time_s for one in known], [(one.true_ft or 0.0) / FT_PER_NM for one in known])
    return point.rated(
        None if ahead_kt is None or right_kt is None else math.sqrt(ahead_kt**2 + right_kt**2),
        None if climb_kt is None else -climb_kt * FPM_PER_KT)


def _slope(times_s: "list[float]", values: "list[float]") -> "float | None":
    """Change in an hour, by least squares; None with fewer than three samples, or over too short a time."""
    count = len(times_s)
    if count < 3 or times_s[-1] - times_s[0] < LEAST_SHARE * WINDOW_S:
        return None
    middle_s, middle = sum(times_s) / count, sum(values) / count
    total = squares = 0.0
    for place in range(count):
        off_s = times_s[place] - middle_s
        total += off_s * (values[place] - middle)
        squares += off_s * off_s
    return 3600.0 * total / squares


class Crossing:
    """Where something passed a value: between two samples, by a straight line.

    at:  the sample made between the two, of the part of the first
    gap_s: seconds between the two if nothing is recorded there, else 0
    """

    def __init__(self, at: Point, gap_s: float) -> None:
        self.at, self.gap_s = at, gap_s


def crossing(points: "tuple[Point, ...]", margins: "list[float | None]") -> "Crossing | None":
    """The first place at which a margin goes from below zero to zero or above; None if it never does."""
    before, low = None, 0.0
    for place, after in enumerate(points):
        high = margins[place]
        if high is None:
            continue
        if before is not None and low < 0.0 <= high:
            gap_s = after.time_s - before.time_s if before.part != after.part else 0.0
            return Crossing(between(before, after, -low / (high - low)), gap_s)
        before, low = after, high
    return None


def between(before: Point, after: Point, share: float) -> Point:
    """The sample that a straight line makes between two."""
    def at(low: "float | None", high: "float | None") -> "float | None":
        return None if low is None or high is None else low + share * (high - low)

    return Point(
        before.time_s + share * (after.time_s - before.time_s), before.line, before.part,
        before.along_nm + share * (after.along_nm - before.along_nm),
        before.across_ft + share * (after.across_ft - before.across_ft),
        before.course_dots + share * (after.course_dots - before.course_dots),
        at(before.true_ft, after.true_ft), at(before.indicated_ft, after.indicated_ft),
        at(before.above_ft, after.above_ft), at(before.path_dots, after.path_dots),
        at(before.ground_speed_kt, after.ground_speed_kt), at(before.sink_fpm, after.sink_fpm))
