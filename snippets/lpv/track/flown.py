"""A recorded approach: its samples, how far they can be believed, its lowest point; moments and the debrief."""

import math

from lpv.core.text import quantity
from lpv.facts import value
from lpv.path.sbas_scale import ESTABLISHED_DOTS
from lpv.track.levels import Levels
from lpv.track.noise import ANYWHERE, SURELY, Noise
from lpv.track.points import Crossing, Point, crossing
from lpv.track.records import Conditions, Recording, Remark
from lpv.track.reference import Ground, on_ground
from lpv.track.target import Target
from lpv.track.verdicts import IN_DOUBT, Comparison, JudgedGate, Unsure, within_dots, worst

CLOSE_NM = 0.1  # beyond the threshold, or so near before it that it may be


class Moment:
    """Something that happened, in words, and the comparisons it was judged by.

    key: what kind; the keys of `lpv_site.pages.track_page.LINKS`, "start" and "end"
    at:  where; the altimeter there may be None
    """

    def __init__(self, key: str, at: Point, what: str, compared: "tuple[Comparison, ...]" = ()) -> None:
        self.key, self.at, self.what, self.compared = key, at, what, compared

    @property
    def verdict(self) -> str:
        """The worst verdict of its comparisons, "" where nothing is judged."""
        return worst([comparison.verdict for comparison in self.compared])


class FlownApproach:
    """One approach of a recording.

    target:       what it is compared with;  given: what the recording cannot say by itself
    minimum_ft:   decision altitude, None where none is known;  minimum_stated: whether it was stated, not taken
    position_ft:  uncertainty of the position, without its noise;  noise: of the samples
    doubt_ft:     by how much altitudes may be wrong beyond their uncertainty (see `lpv.track.reference`)
    ground:       the aircraft on the runway, None if it was not
    earlier:      the samples before those of the approach, not smoothed: where it came from
    lowest_at:    place of the lowest sample on the altimeter; without altitudes, of the nearest to the threshold
    lowest:       that sample;  coming_in: the samples down to it, or down to the runway
    minimum:      where the altimeter passed the minimum on the way down
    established:  from where the course deviation stays within one dot, down to the lowest sample or the threshold
    on_path:      from where the path deviation stays within one dot, down to the minimum or the lowest sample
    """

    def __init__(
        self, target: Target, conditions: Conditions, levels: Levels, points: "tuple[Point, ...]", noise: Noise,
        minimum_ft: "float | None", position_ft: float,
    ) -> None:
        self.target, self.given, self.levels, self.noise = target, conditions, levels, noise
        self.points, self.minimum_ft, self.position_ft = points, minimum_ft, position_ft
        self.minimum_stated, self.doubt_ft = conditions.minimum_ft is not None, 0.0
        self.earlier: tuple[Point, ...] = ()
        self.ground = on_ground(points, levels, noise)
        self.lowest_at = _lowest_at(points, self.ground)
        self.lowest, self.coming_in = points[self.lowest_at], points[: self.lowest_at + 1]
        self.minimum = None if minimum_ft is None else self.passed_altitude(minimum_ft)
        inbound = [point for point in self.coming_in if point.along_nm >= 0.0]
        self.established = _stays(inbound, [abs(point.course_dots) for point in inbound])
        end_s = self.minimum.at.time_s if self.minimum else self.lowest.time_s
        known = [point for point in self.coming_in if point.path_dots is not None and point.time_s <= end_s]
        self.on_path = _stays(known, [abs(point.path_dots or 0.0) for point in known])

    @property
    def after(self) -> "tuple[Point, ...]":
        """The samples from the lowest one on."""
        return self.points[self.lowest_at :]

    @property
    def climb_ft(self) -> float:
        """How far it climbs after the lowest sample, on the altimeter."""
        low_ft = self.lowest.indicated_ft
        heights = [point.indicated_ft for point in self.after if point.indicated_ft is not None]
        return max(heights) - low_ft if low_ft is not None else 0.0

    @property
    def climbed_away(self) -> bool:
        """Whether it climbs again by `recording_climb_ft`, and by more than noise alone shows of level flight."""
        return self.climb_ft >= max(value("recording_climb_ft"), 2.0 * ANYWHERE * self.lowest.altimeter_noise_ft)

    @property
    def went_around(self) -> bool:
        """Whether it climbs away without having been on the runway."""
        return self.climbed_away and self.ground is None

    @property
    def touched(self) -> bool:
        """Whether it comes down to the threshold's level, as far as the recording tells, at or beyond it."""
        low = self.lowest
        return self.ground is not None or (low.true_ft is not None and low.along_nm < CLOSE_NM and (
            low.true_ft - self.levels.threshold_ft <= value("recording_touch_ft")))

    @property
    def limit_dots(self) -> float:
        """The limit of deviations: the reader's, else that of the gates."""
        return value("gate_deviation_dots") if self.given.limit_dots is None else self.given.limit_dots

    @property
    def limit_fpm(self) -> float:
        """The limit of the rate of descent: the reader's, else that of the gates."""
        return value("gate_sink_rate_fpm") if self.given.limit_fpm is None else self.given.limit_fpm

    @property
    def reason(self) -> str:
        """Why no height and no rate is judged, "" if they are."""
        return IN_DOUBT if self.doubt_ft else ""

    def passed_altitude(self, altitude_ft: float) -> "Crossing | None":
        """Where the altimeter passed an altitude on the way down."""
        return crossing(self.coming_in, [
            None if point.indicated_ft is None else altitude_ft - point.indicated_ft for point in self.coming_in])

    def passed_distance(self, distance_nm: float) -> "Crossing | None":
        """Where a distance before the threshold was passed on the way in."""
        return crossing(self.coming_in, [distance_nm - point.along_nm for point in self.coming_in])

    def position_uncertainty_ft(self) -> float:
        """Uncertainty of a position, its noise included."""
        return _together(self.position_ft, SURELY * self.noise.position_ft)

    def course_uncertainty_dots(self, at: Point) -> float:
        """Uncertainty of the course deviation."""
        return 2.0 * self.position_uncertainty_ft() / self.target.course_ft(at.along_nm)

    def path_uncertainty_ft(self, at: Point) -> float:
        """Uncertainty of the height above the path, without that of the position, which moves it far less."""
        true_ft = self.levels.threshold_ft if at.true_ft is None else at.true_ft
        bias_ft = self.levels.uncertainty_ft(true_ft)
        if self.ground is not None and not self.doubt_ft:
            bias_ft = min(bias_ft, self.ground.uncertainty_ft())
        return _together(bias_ft, SURELY * at.height_noise_ft) + self.doubt_ft

    def path_uncertainty_dots(self, at: Point) -> float:
        """The same in dots."""
        return 2.0 * self.path_uncertainty_ft(at) / self.target.path_ft(at.along_nm) if self.target.has_path else 0.0

    def reading_uncertainty_ft(self, at: Point) -> float:
        """Uncertainty of what the altimeter showed there, without the altimeter's own tolerance."""
        true_ft = self.levels.threshold_ft if at.true_ft is None else at.true_ft
        bias_ft = self.levels.reading_uncertainty_ft(true_ft)
        return _together(bias_ft, SURELY * at.altimeter_noise_ft) + self.doubt_ft

    def sink_uncertainty_fpm(self, at: Point, times: float = SURELY) -> float:
        """Uncertainty of the rate of descent there: so many standard deviations of its noise."""
        return times * at.sink_noise_fpm

    def unsure(self, at: Point) -> Unsure:
        """The uncertainties of one moment, for a gate."""
        return Unsure(self.course_uncertainty_dots(at), self.path_uncertainty_dots(at), self.sink_uncertainty_fpm(at),
                      self.reason)

    def compare_course(self, at: Point) -> Comparison:
        """The course deviation against its limit."""
        return within_dots("course deviation", at.course_dots, self.course_uncertainty_dots(at), self.limit_dots)

    def compare_path(self, at: Point) -> Comparison:
        """The path deviation against its limit."""
        return within_dots(
            "glidepath deviation", at.path_dots, self.path_uncertainty_dots(at), self.limit_dots, self.reason)


class Debrief:
    """What a recording tells of one approach.

    flown:   the samples against the approach;  remarks: about the recording
    moments: in the order flown;  gates: those of the literature and the operator's own, highest first
    number, count: which approach of the recording it is, of how many
    others:  a line about each approach of the recording, in order
    """

    def __init__(
        self, recording: Recording, flown: FlownApproach, remarks: "tuple[Remark, ...]",
        moments: "tuple[Moment, ...]", gates: "tuple[JudgedGate, ...]", number: int, count: int,
        others: "tuple[str, ...]" = (),
    ) -> None:
        self.recording, self.flown, self.remarks = recording, flown, remarks
        self.moments, self.gates, self.number, self.count, self.others = moments, gates, number, count, others

    def with_verdict(self, verdict: str) -> "list[Moment]":
        """The moments with this verdict, in the order flown."""
        return [moment for moment in self.moments if moment.verdict == verdict]


def seconds(value_s: float) -> str:
    """A time in whole seconds."""
    return quantity(value_s, "s")


def _together(first_ft: float, second_ft: float) -> float:
    """Two uncertainties that do not depend on each other, as one: the root of the squares."""
    return math.sqrt(first_ft * first_ft + second_ft * second_ft)


def _lowest_at(points: "tuple[Point, ...]", ground: "Ground | None") -> int:
    if ground is not None:
        return [place for place, point in enumerate(points) if point is ground.first][0]  # noqa: RUF015
    heights = [(point.indicated_ft, place) for place, point in enumerate(points) if point.indicated_ft is not None]
    if heights:
        return min(heights)[1]
    return min([(abs(point.along_nm), place) for place, point in enumerate(points)])[1]


def _stays(points: "list[Point]", off: "list[float]") -> "Point | None":
    """From where the sizes beside the points stay within one dot, to the last of them."""
    latest = None
    for place in range(len(points) - 1, -1, -1):
        if off[place] > ESTABLISHED_DOTS:
            break
        latest = points[place]
    return latest
