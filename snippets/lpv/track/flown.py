"""A recorded approach: its samples, its limits, its lowest point; what a moment is, and all that is told of it."""

from lpv.facts import value
from lpv.path.sbas_scale import ESTABLISHED_DOTS
from lpv.track.against import Against, By
from lpv.track.levels import Levels
from lpv.track.points import Crossing, Point, Scales, crossing
from lpv.track.records import Recording, Remark
from lpv.track.verdicts import GateFound


class Moment:
    """Something that happened, in words.

    key: what kind: "start", "through the course", "established", "path from above", "path from below", "on path",
         "PFAF", "PFAF, above the path", "PFAF, below the path", "altimeter", "cold", "cold minimum", "gate", "sink",
         "below path", "near the path", "minimum", "minimum, truly lower", "go-around", "threshold", "end"
    at:  where; the altimeter there may be None
    good: True: as it should be; False: not; None: neither, or too close to say
    """

    def __init__(self, key: str, at: Point, what: str, good: "bool | None" = None) -> None:
        self.key, self.at, self.what, self.good = key, at, what, good


class Flown:
    """One approach of a recording.

    minimum_ft:   decision altitude, None where none is known;  minimum_stated: whether it was stated, not taken
    position_ft:  uncertainty of the position
    doubt_ft:     by how much altitudes may be wrong beyond their uncertainty (see `lpv.track.reference`)
    lowest_at:    place of the lowest sample on the altimeter; without altitudes, of the nearest to the threshold
    lowest:       that sample;  coming_in: the samples down to it
    minimum:      where the altimeter passed the minimum on the way down
    established:  from where the course deviation stays within one dot, down to the lowest sample or the threshold
    on_path:      from where the path deviation stays within one dot, down to the minimum or the lowest sample
    """

    def __init__(
        self, approach: Against, aircraft: "By | None", levels: Levels, scales: Scales, points: "tuple[Point, ...]",
        minimum_ft: "float | None", position_ft: float, minimum_stated: bool = False,
    ) -> None:
        self.approach, self.aircraft, self.levels, self.scales = approach, aircraft, levels, scales
        self.points, self.minimum_ft, self.position_ft = points, minimum_ft, position_ft
        self.minimum_stated, self.doubt_ft = minimum_stated, 0.0
        self.lowest_at = _lowest_at(points)
        self.lowest, self.coming_in = points[self.lowest_at], points[: self.lowest_at + 1]
        self.minimum = None if minimum_ft is None else self.passed_altitude(minimum_ft)
        inbound = [one for one in self.coming_in if one.along_nm >= 0.0]
        self.established = _stays(inbound, [abs(one.course_dots) for one in inbound])
        end_s = self.minimum.at.time_s if self.minimum else self.lowest.time_s
        known = [one for one in self.coming_in if one.path_dots is not None and one.time_s <= end_s]
        self.on_path = _stays(known, [abs(one.path_dots or 0.0) for one in known])

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

    def passed_altitude(self, altitude_ft: float) -> "Crossing | None":
        """Where the altimeter passed an altitude on the way down."""
        return crossing(self.coming_in, [
            None if one.indicated_ft is None else altitude_ft - one.indicated_ft for one in self.coming_in])

    def passed_distance(self, distance_nm: float) -> "Crossing | None":
        """Where a distance before the threshold was passed on the way in."""
        return crossing(self.coming_in, [distance_nm - one.along_nm for one in self.coming_in])

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


class Debrief:
    """What a recording tells of one approach.

    flown:   the samples against the approach;  remarks: about the recording
    moments: in the order flown;  gates: those of the literature and the operator's own, highest first
    number, count: which approach of the recording it is, of how many
    """

    def __init__(
        self, recording: Recording, flown: Flown, remarks: "tuple[Remark, ...]", moments: "tuple[Moment, ...]",
        gates: "tuple[GateFound, ...]", number: int, count: int,
    ) -> None:
        self.recording, self.flown, self.remarks = recording, flown, remarks
        self.moments, self.gates, self.number, self.count = moments, gates, number, count


def _lowest_at(points: "tuple[Point, ...]") -> int:
    heights = [(one.indicated_ft, place) for place, one in enumerate(points) if one.indicated_ft is not None]
    if heights:
        return min(heights)[1]
    return min([(abs(one.along_nm), place) for place, one in enumerate(points)])[1]


def _stays(points: "list[Point]", off: "list[float]") -> "Point | None":
    """From where the sizes beside the points stay within one dot, to the last of them."""
    found = None
    for place in range(len(points) - 1, -1, -1):
        if off[place] > ESTABLISHED_DOTS:
            break
        found = points[place]
    return found
