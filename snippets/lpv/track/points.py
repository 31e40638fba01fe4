"""Samples of a recording against an approach: place, deviations, rates, crossings, and the approaches among them."""

import math

from lpv.core.units import FT_PER_NM, M_PER_FT, M_PER_NM
from lpv.facts import value
from lpv.geodesy import local_frame
from lpv.geodesy.local_frame import ECCENTRICITY_SQUARED, RADIUS_M, Frame
from lpv.path.sbas_scale import cut_dots
from lpv.track.levels import Levels
from lpv.track.noise import (
    WINDOW_S,
    WORTH_SMOOTHING_FT,
    Noise,
    combined,
    curve,
    deviation,
    median,
    slope,
    window_of,
)
from lpv.track.records import Reading
from lpv.track.target import BARO, Target


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


def line_of(target: Target) -> Line:
    """The line of an approach."""
    at = target.latitude_deg, target.longitude_deg, target.threshold_height_m
    level = local_frame.frame(at[0], at[1], at[2], target.course_deg)
    radius_m = radius_along_m(target.latitude_deg, target.course_deg) + target.threshold_height_m
    slope = math.tan(math.radians(target.gpa_deg))
    return Line(level, radius_m, slope, target.tch_ft * M_PER_FT, target.threshold_height_m)


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


FARTHEST_NM = value("recording_farthest_nm")


class Point:
    """One sample against the approach; None where the recording does not tell.

    part:        number of the part it stands in: nothing is derived across two parts
    along_nm, across_ft: before the threshold, right of the final course
    true_ft, indicated_ft: true altitude, and what the altimeter showed or should have shown
    recorded_ft: indicated_ft before it was smoothed
    above_ft:    above the path
    course_dots, path_dots: deviations of a two-dot scale, right and above positive, cut to 100
    ground_speed_kt, sink_fpm: over a window of time; sinking positive
    height_noise_ft, altimeter_noise_ft, sink_noise_fpm: standard deviations that the noise of the samples leaves
    """

    def __init__(
        self, time_s: float, line: int, part: int, along_nm: float, across_ft: float, course_dots: float,
        true_ft: "float | None" = None, indicated_ft: "float | None" = None, above_ft: "float | None" = None,
        path_dots: "float | None" = None, ground_speed_kt: "float | None" = None, sink_fpm: "float | None" = None,
    ) -> None:
        self.time_s, self.line, self.part = time_s, line, part
        self.along_nm, self.across_ft, self.course_dots = along_nm, across_ft, course_dots
        self.true_ft, self.indicated_ft, self.above_ft, self.path_dots = true_ft, indicated_ft, above_ft, path_dots
        self.recorded_ft = indicated_ft
        self.ground_speed_kt, self.sink_fpm = ground_speed_kt, sink_fpm
        self.height_noise_ft = self.altimeter_noise_ft = self.sink_noise_fpm = 0.0


def places(
    parts: "tuple[tuple[Reading, ...], ...]", target: Target, levels: Levels, first: int = 0,
) -> "list[Point]":
    """Every sample within `recording_farthest_nm` of the threshold, without rates; first: number of the first part."""
    line = line_of(target)
    points = []
    for number, part in enumerate(parts):
        for reading in part:
            level = levels.level(reading)
            height_m = target.threshold_height_m if level is None else level.ellipsoid_m
            at = relative(line, reading.latitude_deg, reading.longitude_deg, height_m)
            if at.along_nm**2 + (at.across_ft / FT_PER_NM) ** 2 > FARTHEST_NM**2:
                continue
            point = Point(reading.time_s, reading.line, first + number, at.along_nm, at.across_ft,
                          cut_dots(at.across_ft, target.course_ft(at.along_nm)))
            if level is not None:
                point.true_ft, point.indicated_ft = level.true_ft, level.indicated_ft
            if level is not None and target.has_path:
                point.above_ft = at.above_path_ft
                if target.level == BARO:
                    point.above_ft = level.indicated_ft - target.barometric_path_ft(at.along_nm)
                point.path_dots = cut_dots(point.above_ft, target.path_ft(at.along_nm))
            points.append(point)
    return points


def noise_of(points: "list[Point]", height_ft: float = 0.0, altimeter_ft: float = 0.0) -> Noise:
    """The noise of the samples of one approach; height_ft, altimeter_ft: what the rounding of altitudes alone gives."""
    interval_s = median([
        after.time_s - before.time_s for before, after in _pairs(points) if after.part == before.part]) or 1.0
    half_s = window_of(interval_s) / 2.0
    heights = [point for point in points if point.true_ft is not None]
    return Noise(
        max(height_ft, _noise([(point, point.true_ft or 0.0) for point in heights], half_s)),
        max(altimeter_ft, _noise([(point, point.indicated_ft or 0.0) for point in heights], half_s)),
        max(_noise([(point, point.across_ft) for point in points], half_s),
            _noise([(point, point.along_nm * FT_PER_NM) for point in points], 0.0)),
        interval_s, window_of(interval_s))


def _pairs(points: "list[Point]") -> "list[tuple[Point, Point]]":
    return [(points[place - 1], points[place]) for place in range(1, len(points))]


def _noise(rows: "list[tuple[Point, float]]", half_s: float) -> float:
    """The noise of one figure of the samples, part by part: the largest part's counts; half_s 0: neighbours only."""
    parts: dict[int, list[tuple[float, float]]] = {}
    for point, figure in rows:
        parts.setdefault(point.part, []).append((point.time_s, figure))
    if not parts:
        return 0.0
    longest = max([(len(parts[part]), -part) for part in parts])
    times_s = [row[0] for row in parts[-longest[1]]]
    values = [row[1] for row in parts[-longest[1]]]
    return combined(deviation(times_s, values), deviation(times_s, values, half_s) if half_s else None)


def smoothed(
    points: "list[Point]", noise: Noise, target: Target, begin: int = 0, end: "int | None" = None,
) -> "list[Point]":
    """The same with ground speed and rate of descent, and with heights smoothed where the noise is worth it.

    begin, end: only these of the points
    """
    smooth = []
    half_s = noise.window_s / 2.0
    first = after = begin
    while first > 0 and points[first - 1].time_s >= points[begin].time_s - half_s:
        first -= 1
    for point in points[begin:end]:
        while points[first].part != point.part or points[first].time_s < point.time_s - half_s:
            first += 1
        while after < len(points) and points[after].part == point.part and (
                points[after].time_s <= point.time_s + half_s):
            after += 1
        smooth.append(_smoothed(point, points[first:after], noise, target))
    return smooth


def _smoothed(point: Point, around: "list[Point]", noise: Noise, target: Target) -> Point:
    times_s = [sample.time_s for sample in around]
    ahead = slope(times_s, [sample.along_nm for sample in around], noise.window_s)
    right = slope(times_s, [sample.across_ft / FT_PER_NM for sample in around], noise.window_s)
    known = [sample for sample in around if sample.true_ft is not None]
    climb = slope([sample.time_s for sample in known], [sample.true_ft or 0.0 for sample in known], noise.window_s)
    smooth = Point(
        point.time_s, point.line, point.part, point.along_nm, point.across_ft, point.course_dots, point.true_ft,
        point.indicated_ft, point.above_ft, point.path_dots,
        None if ahead is None or right is None else 3600.0 * math.sqrt(ahead[0] ** 2 + right[0] ** 2),
        None if climb is None else -60.0 * climb[0])
    smooth.sink_noise_fpm = 0.0 if climb is None else 60.0 * climb[1] * noise.height_ft
    smooth.height_noise_ft, smooth.altimeter_noise_ft = noise.height_ft, noise.altimeter_ft
    if max(noise.height_ft, noise.altimeter_ft) > WORTH_SMOOTHING_FT and point.true_ft is not None:
        _smooth_heights(smooth, known, noise, target)
    return smooth


def _smooth_heights(point: Point, known: "list[Point]", noise: Noise, target: Target) -> None:
    known = [sample for sample in known if abs(sample.time_s - point.time_s) <= WINDOW_S / 2.0]
    through = curve([sample.time_s for sample in known], point.time_s)
    if through is None:
        return
    point.true_ft = through.value([sample.true_ft or 0.0 for sample in known])
    point.indicated_ft = through.value([sample.indicated_ft or 0.0 for sample in known])
    if point.above_ft is not None:
        point.above_ft = through.value([sample.above_ft or 0.0 for sample in known])
        point.path_dots = cut_dots(point.above_ft, target.path_ft(point.along_nm))
    point.height_noise_ft, point.altimeter_noise_ft = (
        through.noise * noise.height_ft, through.noise * noise.altimeter_ft)


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

    point = Point(
        before.time_s + share * (after.time_s - before.time_s), before.line, before.part,
        before.along_nm + share * (after.along_nm - before.along_nm),
        before.across_ft + share * (after.across_ft - before.across_ft),
        before.course_dots + share * (after.course_dots - before.course_dots),
        at(before.true_ft, after.true_ft), at(before.indicated_ft, after.indicated_ft),
        at(before.above_ft, after.above_ft), at(before.path_dots, after.path_dots),
        at(before.ground_speed_kt, after.ground_speed_kt), at(before.sink_fpm, after.sink_fpm))
    for name in ("height_noise_ft", "altimeter_noise_ft", "sink_noise_fpm"):
        setattr(point, name, max(getattr(before, name), getattr(after, name)))
    return point


ON_COURSE_NM = 1.0  # beside the course, at half the final, within which it is this approach
AWAY_NM = 1.0  # farther out again: no longer coming in, or flying away


def approaches(points: "list[Point]", target: Target) -> "list[tuple[int, int]]":
    """(first, end) of every approach in the points of a recording, in order; [] if there is none.

    An approach passes half the distance of the PFAF towards the threshold, near the course; if there is no such
    one, the PFAF.
    """
    extents: list[tuple[int, int]] = []
    for place in _inbound(points, target.pfaf_nm / 2.0) or _inbound(points, target.pfaf_nm):
        after = extents[-1][1] if extents else 0
        if place >= after:
            extents.append(_extent(points, place, after))
    return extents


def _inbound(points: "list[Point]", distance_nm: float) -> "list[int]":
    """Where a distance is passed towards the threshold, near the course: the places of the samples after it."""
    return [
        place for place in range(1, len(points))
        if points[place - 1].along_nm > distance_nm >= points[place].along_nm
        and abs(points[place].across_ft) <= ON_COURSE_NM * FT_PER_NM
    ]


def _extent(points: "list[Point]", place: int, begin: int) -> "tuple[int, int]":
    """From the farthest sample on the way in, not before `begin`, to the last one before it flies out again."""
    first = place
    for earlier in range(place - 1, begin - 1, -1):
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
