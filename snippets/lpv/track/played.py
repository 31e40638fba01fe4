"""A recorded approach as the player of flights takes it (`lpv.figures.replay`); it holds no annunciations."""

from lpv.core.text import field_number
from lpv.figures.replay import Flight, Sample, written
from lpv.track.flown import Debrief
from lpv.track.plot import few
from lpv.track.points import Point


def played_row(debrief: Debrief) -> "list[str]":
    """The line of a page: "flight", the text of the flight, the last whole second; [] where altitudes are missing.

    Times count from the approach's first sample, as in the moments of the debrief.
    """
    points = debrief.flown.points
    from_s = points[0].time_s
    samples = [_sample(point, from_s) for point in few(list(points)) if _altitude_ft(point) is not None]
    if len(samples) < 2:
        return []
    events = [(max(0.0, moment.at.time_s - from_s), moment.what) for moment in debrief.moments]
    events.sort(key=lambda event: event[0])
    return ["flight", written(Flight(samples, events, [])), field_number(int(samples[-1].time_s + 0.999))]


def _sample(point: Point, from_s: float) -> Sample:
    above_ft = point.above_ft if point.along_nm >= 0.0 else None
    altitude_ft, speed_kt = _altitude_ft(point) or 0.0, point.ground_speed_kt or 0.0
    return Sample(point.time_s - from_s, point.along_nm, point.across_ft, altitude_ft, above_ft, speed_kt)


def _altitude_ft(point: Point) -> "float | None":
    """What the altimeter showed or should have shown, else the true altitude."""
    return point.true_ft if point.indicated_ft is None else point.indicated_ft
