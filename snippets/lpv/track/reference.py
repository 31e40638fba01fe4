"""Whether the altitudes of a recording count from something else than stated: found against the path, only told.

Flown on the path, a wrong reference shows as a deviation that does not change along the final, near the height of
the geoid, or as one that grows with height, where feet were taken for metres.  A flight that truly was that high
or low looks the same: so nothing is ever corrected.
"""

from lpv.air.atmosphere import pressure_altitude_at_ft
from lpv.core.text import feet, quantity
from lpv.core.units import M_PER_FT
from lpv.facts import value
from lpv.track.levels import Levels
from lpv.track.noise import Noise, median
from lpv.track.points import Point
from lpv.track.records import IN_WORDS, Reading, Remark
from lpv.track.target import Target

FEWEST = 20  # samples on the final, to say anything
NEAREST_NM = 0.3
ON_COURSE_DOTS = 2.0
RUNWAY_HALF_WIDTH_FT = 300.0
FARTHEST_OFF_FT = 400.0
RUNWAY_BAND_FT = 6.0
LONGEST_GROUND_S = 30.0
SLOWED_SHARE = 0.8
UNCORRECTED = "Nothing was corrected, and no height or rate is judged until it is settled."
OTHER = {"msl": "ellipsoid", "ellipsoid": "msl", "indicated": "pressure", "pressure": "indicated"}


class Doubt:
    """What is to be said about the altitudes, and by how much (ft) they may be wrong because of it."""

    def __init__(self, remark: Remark, by_ft: float) -> None:
        self.remark, self.by_ft = remark, by_ft


class Ground:
    """The aircraft on the runway: how far (ft) its recorded height lies above the threshold's, and first sample."""

    def __init__(self, offset_ft: float, first: Point) -> None:
        self.offset_ft, self.first = offset_ft, first

    def uncertainty_ft(self) -> float:
        """How far heights near the runway may be off, as far as the runway itself tells."""
        return abs(self.offset_ft) + value("recording_ground_ft")


def on_ground(points: "tuple[Point, ...]", levels: Levels, noise: Noise) -> "Ground | None":
    """The first samples that stay at one height, near the runway's, beyond the threshold and near its centre line."""
    band_ft = RUNWAY_BAND_FT + 2.0 * noise.height_ft
    run: list[Point] = []
    for point in points:
        if run and (point.part != run[0].part or not _is_near_runway(point, levels) or (
                abs((point.true_ft or 0.0) - (run[0].true_ft or 0.0)) > band_ft)):
            if _is_ground(run):
                break
            run = [other for other in run[1:] if _is_near_runway(point, levels) and other.part == point.part
                   and abs((point.true_ft or 0.0) - (other.true_ft or 0.0)) <= band_ft]
        if _is_near_runway(point, levels):
            run.append(point)
        if run and run[-1].time_s - run[0].time_s >= LONGEST_GROUND_S:
            break
    if not _is_ground(run):
        return None
    ground = Ground(median([(point.true_ft or 0.0) for point in run]) - levels.threshold_ft, run[0])
    allowed_ft = levels.uncertainty_ft(levels.threshold_ft) + value("recording_ground_ft")
    return ground if abs(ground.offset_ft) <= allowed_ft or _slows(run) else None


def _slows(run: "list[Point]") -> bool:
    """Whether the aircraft slows down as on a runway: without that, heights far off it are a low pass."""
    first_kt, last_kt = run[0].ground_speed_kt, run[-1].ground_speed_kt
    return first_kt is not None and last_kt is not None and last_kt < SLOWED_SHARE * first_kt


def _is_ground(run: "list[Point]") -> bool:
    return len(run) > 1 and run[-1].time_s - run[0].time_s >= value("recording_ground_s")


def _is_near_runway(point: Point, levels: Levels) -> bool:
    if point.true_ft is None or point.along_nm > 0.0 or abs(point.across_ft) > RUNWAY_HALF_WIDTH_FT:
        return False
    return abs(point.true_ft - levels.threshold_ft) <= FARTHEST_OFF_FT


def doubt(
    points: "tuple[Point, ...]", readings: "dict[float, Reading]", levels: Levels, target: Target,
    ground: "Ground | None" = None,
) -> "Doubt | None":
    """Whether the altitudes of the final, flown on the course, count from something else; readings by their time.

    On the runway the recording shows by itself whether its heights are right: then a constant offset was flown.  A
    wrong unit hardly shows there, where the runway lies near sea level.
    """
    on_runway = None if ground is None else _on_ground(ground, levels)
    if on_runway is not None:
        return on_runway
    final = [
        point for point in points
        if point.above_ft is not None and NEAREST_NM < point.along_nm < target.pfaf_nm
        and abs(point.course_dots) < ON_COURSE_DOTS
    ]
    if len(final) < FEWEST:
        return None
    above_ft = [point.above_ft for point in final if point.above_ft is not None]
    middle_ft = median(above_ft)
    allowed_ft = sum([levels.uncertainty_ft(point.true_ft or 0.0) for point in final]) / len(final)
    if abs(middle_ft) <= allowed_ft:
        return None
    unit = _other_unit(final, readings, levels, allowed_ft)
    if unit:
        return Doubt(unit, max([abs(point) for point in above_ft]))
    if ground is not None:
        return None
    spread_ft = half_spread_ft(above_ft)
    if spread_ft > value("recording_offset_share") * abs(middle_ft):
        return None
    side = "above" if middle_ft > 0.0 else "below"
    what = (f"All along the final the recording lies {feet(abs(middle_ft))} {side} the glidepath, "
            f"within {feet(max(1.0, spread_ft))}.")
    said = f"{what} {_explained(middle_ft, levels, allowed_ft)} {UNCORRECTED}"
    return Doubt(Remark("reference", said), abs(middle_ft) + spread_ft)


def _on_ground(ground: Ground, levels: Levels) -> "Doubt | None":
    """Whether the runway contradicts the altitudes."""
    allowed_ft = levels.uncertainty_ft(levels.threshold_ft) + value("recording_ground_ft")
    if abs(ground.offset_ft) <= allowed_ft:
        return None
    side = "above" if ground.offset_ft > 0.0 else "below"
    what = f"On the runway the recording lies {feet(abs(ground.offset_ft))} {side} the threshold's elevation."
    text = f"{what} {_explained(ground.offset_ft, levels, allowed_ft)} {UNCORRECTED}"
    return Doubt(Remark("reference", text), abs(ground.offset_ft))


def half_spread_ft(values: "list[float]") -> float:
    """Half of what eight tenths of the values lie within."""
    ordered = sorted(values)
    return (_tenth(ordered, 9) - _tenth(ordered, 1)) / 2.0


def _tenth(ordered: "list[float]", count: int) -> float:
    """What so many tenths of the values lie under, by a straight line between two of them, as for a sample of more."""
    steps = count * (len(ordered) + 1)
    place = max(1, min(len(ordered) - 1, steps // 10))
    share = (steps - 10 * place) / 10.0
    return ordered[place - 1] * (1.0 - share) + ordered[place] * share


def _explained(offset_ft: float, levels: Levels, allowed_ft: float) -> str:
    """What a wrong reference or setting would do, beside what was found."""
    stated = levels.geometric or levels.barometric
    if levels.geometric:
        by_ft = levels.geoid_ft if stated == "msl" else -levels.geoid_ft
        if abs(by_ft) > allowed_ft / 2.0 and abs(offset_ft - by_ft) <= allowed_ft:
            return (f"Altitudes {IN_WORDS[OTHER[stated]]}, taken for altitudes {IN_WORDS[stated]}, would lie "
                    f"{'+' if by_ft > 0.0 else ''}{feet(by_ft)} off here. Find out what was recorded; or the flight "
                    "really was there.")
        return "No other reference explains it: the receiver's error, or the flight really was there."
    hpa = offset_ft / (pressure_altitude_at_ft(1012.25) - pressure_altitude_at_ft(1013.25))
    return (f"An altimeter setting {quantity(abs(hpa), 'hPa')} too {'high' if hpa > 0.0 else 'low'} does that. "
            "Find out what was set; or the flight really was there.")


def _other_unit(
    final: "list[Point]", readings: "dict[float, Reading]", levels: Levels, allowed_ft: float,
) -> "Remark | None":
    """Whether feet were taken for metres or metres for feet: then the path fits, and as stated it does not."""
    for factor, words in ((M_PER_FT, "in feet, taken for meters"), (1.0 / M_PER_FT, "in meters, taken for feet")):
        off_ft = [_off_ft(point, readings[point.time_s], levels, factor) for point in final]
        left_ft = [point for point in off_ft if point is not None]
        if len(left_ft) == len(final) and abs(median(left_ft)) <= allowed_ft and (
                half_spread_ft(left_ft) <= allowed_ft):
            return Remark("reference", f"The altitudes fit the glidepath if they are {words}. {UNCORRECTED}")
    return None


def _off_ft(point: Point, reading: Reading, levels: Levels, factor: float) -> "float | None":
    """How far above the path the sample would lie if its altitude were multiplied."""
    pair = (levels.geometric, reading.geometric_ft) if levels.geometric else (levels.barometric, reading.barometric_ft)
    if pair[1] is None or point.true_ft is None or point.above_ft is None:
        return None
    true_ft = levels.true_ft(pair[0], pair[1] * factor)
    return None if true_ft is None else true_ft - (point.true_ft - point.above_ft)
