"""Whether the altitudes of a recording count from something else than stated: found against the path, only told.

Flown on the path, a wrong reference shows as a deviation that does not change along the final, near the height of
the geoid, or as one that grows with height, where feet were taken for metres.  A flight that truly was that high
or low looks the same: so nothing is ever corrected.
"""

from lpv.air.atmosphere import pressure_altitude_at_ft
from lpv.core.units import M_PER_FT
from lpv.facts import value
from lpv.track.levels import Levels
from lpv.track.points import Point, Scales
from lpv.track.records import IN_WORDS, Reading, Remark
from lpv.track.verdicts import feet, whole

FEWEST = 20  # samples on the final, to say anything
NEAREST_NM = 0.3
ON_COURSE_DOTS = 2.0
UNCORRECTED = "Nothing was corrected: all that follows from altitudes stands on it."
OTHER = {"msl": "ellipsoid", "ellipsoid": "msl", "indicated": "pressure", "pressure": "indicated"}


class Doubt:
    """What is to be said about the altitudes, and by how much (ft) they may be wrong because of it."""

    def __init__(self, remark: Remark, by_ft: float) -> None:
        self.remark, self.by_ft = remark, by_ft


def doubt(
    points: "tuple[Point, ...]", readings: "dict[float, Reading]", levels: Levels, scales: Scales,
) -> "Doubt | None":
    """Whether the altitudes of the final, flown on the course, count from something else; readings by their time."""
    final = [
        one for one in points
        if one.above_ft is not None and NEAREST_NM < one.along_nm < scales.pfaf_nm
        and abs(one.course_dots) < ON_COURSE_DOTS
    ]
    if len(final) < FEWEST:
        return None
    above_ft = [one.above_ft for one in final if one.above_ft is not None]
    middle_ft = median(above_ft)
    allowed_ft = sum([levels.uncertainty_ft(one.true_ft or 0.0) for one in final]) / len(final)
    if abs(middle_ft) <= allowed_ft:
        return None
    unit = _other_unit(final, readings, levels, allowed_ft)
    if unit:
        return Doubt(unit, max([abs(one) for one in above_ft]))
    spread_ft = half_spread_ft(above_ft)
    if spread_ft > value("recording_offset_share") * abs(middle_ft):
        return None
    side = "above" if middle_ft > 0.0 else "below"
    what = (f"All along the final the recording lies {feet(abs(middle_ft))} {side} the path, "
            f"within {feet(max(1.0, spread_ft))}.")
    said = f"{what} {_explained(middle_ft, levels, allowed_ft)} {UNCORRECTED}"
    return Doubt(Remark("reference", said), abs(middle_ft) + spread_ft)


def median(values: "list[float]") -> float:
    """The value in the middle, or half way between the two there."""
    ordered = sorted(values)
    half = len(ordered) // 2
    return ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2.0


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
                    "truly was there.")
        return "No other reference explains it: the receiver's error, or the flight truly was there."
    hpa = offset_ft / (pressure_altitude_at_ft(1012.25) - pressure_altitude_at_ft(1013.25))
    return (f"An altimeter setting {whole(abs(hpa))} hPa too {'high' if hpa > 0.0 else 'low'} does that. Find out what "
            "was set; or the flight truly was there.")


def _other_unit(
    final: "list[Point]", readings: "dict[float, Reading]", levels: Levels, allowed_ft: float,
) -> "Remark | None":
    """Whether feet were taken for metres or metres for feet: then the path fits, and as stated it does not."""
    for factor, words in ((M_PER_FT, "in feet, taken for metres"), (1.0 / M_PER_FT, "in metres, taken for feet")):
        off_ft = [_off_ft(one, readings[one.time_s], levels, factor) for one in final]
        left_ft = [one for one in off_ft if one is not None]
        if len(left_ft) == len(final) and abs(median(left_ft)) <= allowed_ft and (
                half_spread_ft(left_ft) <= allowed_ft):
            return Remark("reference", f"The altitudes fit the path if they are {words}. {UNCORRECTED}")
    return None


def _off_ft(point: Point, reading: Reading, levels: Levels, factor: float) -> "float | None":
    """How far above the path the sample would lie if its altitude were multiplied."""
    given = (levels.geometric, reading.geometric_ft) if levels.geometric else (levels.barometric, reading.barometric_ft)
    if given[1] is None or point.true_ft is None or point.above_ft is None:
        return None
    true_ft = levels.true_ft(given[0], given[1] * factor)
    return None if true_ft is None else true_ft - (point.true_ft - point.above_ft)
