"""A recorded approach: its samples, its limits, its lowest point; what a moment is, and all that is told of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from lpv.aircraft import Aircraft
from lpv.approach import Approach
from lpv.approach_schema import Minima
from lpv.errors import DomainError
from lpv.facts import value
from lpv.flight_report import ESTABLISHED_DOTS
from lpv.track_gates import GateFound
from lpv.track_levels import Levels
from lpv.track_points import Crossing, Point, Scales, crossing
from lpv.track_records import Recording, Remark


@dataclass(frozen=True)
class Moment:
    """Something that happened, in words.

    key: what kind: "start", "through the course", "established", "path from above", "path from below", "on path",
         "PFAF", "PFAF, above the path", "PFAF, below the path", "altimeter", "cold", "cold minimum", "gate", "sink",
         "below path", "near the path", "minimum", "minimum, truly lower", "go-around", "threshold", "end"
    at:  where; the altimeter there may be None
    good: True: as it should be; False: not; None: neither, or too close to say
    """

    key: str
    at: Point
    what: str
    good: bool | None = None


@dataclass(frozen=True)
class Flown:
    """One approach of a recording.

    minimum_ft:   decision altitude, None where none is known;  minimum_stated: whether it was stated, not taken
    position_ft:  uncertainty of the position
    doubt_ft:     by how much altitudes may be wrong beyond their uncertainty (see `lpv.track_offset`)
    """

    approach: Approach
    aircraft: Aircraft | None
    levels: Levels
    scales: Scales
    points: tuple[Point, ...]
    minimum_ft: float | None
    position_ft: float
    doubt_ft: float = 0.0
    minimum_stated: bool = False

    @cached_property
    def lowest_at(self) -> int:
        """Where it is lowest on the altimeter; without altitudes, where it is nearest to the threshold."""
        heights = [(one.indicated_ft, place) for place, one in enumerate(self.points) if one.indicated_ft is not None]
        if heights:
            return min(heights)[1]
        return min(range(len(self.points)), key=lambda place: abs(self.points[place].along_nm))

    @property
    def lowest(self) -> Point:
        """The lowest sample."""
        return self.points[self.lowest_at]

    @property
    def coming_in(self) -> tuple[Point, ...]:
        """The samples down to the lowest."""
        return self.points[: self.lowest_at + 1]

    @property
    def climb_ft(self) -> float:
        """How far it climbs after the lowest sample, on the altimeter."""
        low_ft = self.lowest.indicated_ft
        after = [one.indicated_ft for one in self.points[self.lowest_at :] if one.indicated_ft is not None]
        return max(after) - low_ft if low_ft is not None else 0.0

    @property
    def went_around(self) -> bool:
        """Whether it climbs again by as much as `recording_climb_ft`."""
        return self.climb_ft >= value("recording_climb_ft")

    @property
    def touched(self) -> bool:
        """Whether it comes down to the threshold's level, as far as the recording tells, at or beyond it."""
        low = self.lowest
        return low.true_ft is not None and low.along_nm < 0.1 and (
            low.true_ft - self.levels.threshold_ft <= value("recording_touch_ft"))

    @cached_property
    def minimum(self) -> Crossing | None:
        """Where the altimeter passed the minimum on the way down."""
        return self.passed_altitude(self.minimum_ft) if self.minimum_ft is not None else None

    def passed_altitude(self, altitude_ft: float) -> Crossing | None:
        """Where the altimeter passed an altitude on the way down."""
        return crossing(
            self.coming_in, lambda one: None if one.indicated_ft is None else altitude_ft - one.indicated_ft)

    def passed_distance(self, distance_nm: float) -> Crossing | None:
        """Where a distance before the threshold was passed on the way in."""
        return crossing(self.coming_in, lambda one: distance_nm - one.along_nm)

    def course_uncertainty_dots(self, at: Point) -> float:
        """Uncertainty of the course deviation."""
        return 2.0 * self.position_ft / self.scales.course_ft(at.along_nm)

    def path_uncertainty_ft(self, at: Point) -> float:
        """Uncertainty of the height above the path, without that of the position, which moves it far less."""
        true_ft = self.levels.threshold_ft if at.true_ft is None else at.true_ft
        return self.levels.uncertainty_ft(true_ft) + self.doubt_ft

    def path_uncertainty_dots(self, at: Point) -> float:
        """The same in dots."""
        return 2.0 * self.path_uncertainty_ft(at) / self.scales.path_ft(at.along_nm)

    @cached_property
    def established(self) -> Point | None:
        """From where the course deviation stays within one dot, down to the lowest sample or the threshold."""
        return _stays([one for one in self.coming_in if one.along_nm >= 0.0], [
            abs(one.course_dots) for one in self.coming_in if one.along_nm >= 0.0])

    @cached_property
    def on_path(self) -> Point | None:
        """From where the path deviation stays within one dot, down to the minimum or the lowest sample."""
        end_s = self.minimum.at.time_s if self.minimum else self.lowest.time_s
        known = [one for one in self.coming_in if one.path_dots is not None and one.time_s <= end_s]
        return _stays(known, [abs(one.path_dots or 0.0) for one in known])


@dataclass(frozen=True)
class Debrief:
    """What a recording tells of one approach.

    flown:   the samples against the approach;  remarks: about the recording
    moments: in the order flown;  gates: those of the literature and the operator's own, highest first
    number, count: which approach of the recording it is, of how many
    """

    recording: Recording
    flown: Flown
    remarks: tuple[Remark, ...]
    moments: tuple[Moment, ...]
    gates: tuple[GateFound, ...]
    number: int
    count: int


def _stays(points: Sequence[Point], dots: Sequence[float]) -> Point | None:
    found = None
    for one, size in zip(reversed(points), reversed(dots), strict=True):
        if size > ESTABLISHED_DOTS:
            break
        found = one
    return found


def minimum_ft(approach: Approach, aircraft: Aircraft | None) -> float | None:
    """The DA of the chart's LPV line, for the type's category, not under its operator's floor; None without one.

    DomainError if the chart has no LPV minimum for the type.
    """
    line = lpv_line(approach, aircraft)
    return None if line is None else da_ft(approach, aircraft, line.altitude_ft)


def lpv_line(approach: Approach, aircraft: Aircraft | None) -> Minima | None:
    """The chart's LPV line for the type's category, without a type the first one; None without one.

    DomainError if the chart has no LPV minimum for the type.
    """
    rows = [row for row in approach.chart.minima if row.line == "LPV"]
    own = [row for row in rows if aircraft is None or aircraft.type.category in row.categories]
    if rows and aircraft and not own:
        raise DomainError(f"{approach.slug}: found no LPV minimum for category {aircraft.type.category}.")
    return own[0] if own else None


def da_ft(approach: Approach, aircraft: Aircraft | None, altitude_ft: float) -> float:
    """A DA of the chart, not under what the type's operator allows."""
    if aircraft is None:
        return altitude_ft
    chart = approach.chart
    zone_ft = chart.threshold_elevation_ft if chart.tdze_ft is None else chart.tdze_ft
    return max(altitude_ft, zone_ft + aircraft.operator.lowest_da_above_tdze_ft)
