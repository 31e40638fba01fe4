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
    samples = [_sample(one, from_s) for one in few(list(points)) if _altitude_ft(one) is not None]
    if len(samples) < 2:
        return []
    events = [(max(0.0, one.at.time_s - from_s), one.what) for one in debrief.moments]
    events.sort(key=lambda event: event[0])
    return ["flight", written(Flight(samples, events, [])), field_number(int(samples[-1].time_s + 0.999))]


def _sample(one: Point, from_s: float) -> Sample:
    above_ft = one.above_ft if one.along_nm >= 0.0 else None
    altitude_ft, speed_kt = _altitude_ft(one) or 0.0, one.ground_speed_kt or 0.0
    return Sample(one.time_s - from_s, one.along_nm, one.across_ft, altitude_ft, above_ft, speed_kt)


def _altitude_ft(one: Point) -> "float | None":
    """What the altimeter showed or should have shown, else the true altitude."""
    return one.true_ft if one.indicated_ft is None else one.indicated_ft
