"""Samples of a recording against an approach: place, deviations, rates, crossings, and the approaches among them."""

import math

from lpv.core.errors import DomainError
from lpv.core.units import FPM_PER_KT, FT_PER_NM, M_PER_FT, M_PER_NM
from lpv.facts import value
from lpv.geodesy import local_frame
from lpv.geodesy.local_frame import ECCENTRICITY_SQUARED, RADIUS_M, Frame
from lpv.path.sbas_scale import course_full_scale_ft, cut_dots, path_full_scale_ft
from lpv.track.against import LPV, Against, Final
from lpv.track.levels import Levels
from lpv.track.records import Reading


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
