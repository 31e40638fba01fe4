"""Level flight near the minimum of a recorded approach: how long it lasted, and how well that is known.

Near the minimum the heights are fitted by a curve: a descent, rounded out into a level part, then whatever follows it,
a climb or a descent, rounded as well.  For every beginning and end of the level part, and for some roundings, least
squares give its height and both rates.  So all samples of a part say how high and how long it was, where a rate at one
sample says little.  Every curve whose squares exceed those of the best one by no more than four of one sample's noise
(two standard deviations) is as good an answer; the shortest and the longest level flight among these are the bounds.
Where the best curve itself fits worse than the noise of the recording, its misfit counts as the noise.
"""

import math

from lpv.core.text import feet
from lpv.facts import value
from lpv.track.flown import FlownApproach, Moment, seconds
from lpv.track.noise import SURELY
from lpv.track.points import Point
from lpv.track.verdicts import OUTSIDE, TOO_CLOSE, Comparison

ITEM = "level flight at the minimum"
MARGIN_FT, USUAL_SINK_FPS = 150.0, 12.0
OUT_S = ((3.0, 0.0), (12.0, 0.0), (27.0, 0.0), (27.0, 12.0))  # rounding out of a descent: time it takes, and is cut by
ON_S = (1.5, 4.0, 8.0)  # rounding into what follows
STEEPEST_SINK_FPS, STEEPEST_CLIMB_FPS = 33.0, 75.0
FEWEST, CURVES_FREE, MOST_STEPS = 6, 5, 48
LEAST_NOISE_FT = 1.0
SOFT_S = 2.0  # an altitude is captured ever more softly: between 250 and 150 ft/min about four seconds go by


class Level:
    """What a stretch of samples says of level flight.

    least_s, most_s: bounds of how long it lasted as low as that;  surely_s: the least at whatever altitude
    begin_s: of the best curve
    altitude_ft: mean of its level part, on the altimeter;  unsure_ft: how far off: the offset, and the noise of a mean
    """

    def __init__(
        self, least_s: float, most_s: float, surely_s: float, begin_s: float, altitude_ft: float, unsure_ft: float,
    ) -> None:
        self.least_s, self.most_s, self.surely_s, self.begin_s = least_s, most_s, surely_s, begin_s
        self.altitude_ft, self.unsure_ft = altitude_ft, unsure_ft


class Curve:
    """One curve through a stretch: sum of squares, height and length of the level part, its beginning and end."""

    def __init__(self, squares: float, altitude_ft: float, begin_s: float, end_s: float) -> None:
        self.squares, self.altitude_ft, self.begin_s, self.end_s = squares, altitude_ft, begin_s, end_s


def level_flight(flown: FlownApproach) -> "list[Moment]":
    """Level flight at or below a DA, before the threshold: there is nothing to level off at."""
    longest = longest_level(flown)
    compared = compare_level(flown, longest)
    if longest is None or flown.minimum_ft is None or compared.verdict not in (OUTSIDE, TOO_CLOSE):
        return []
    if compared.verdict == TOO_CLOSE and longest.surely_s <= value("recording_level_s") / 2.0:
        return []
    at = min(flown.points, key=lambda point: abs(point.time_s - longest.begin_s))
    apart_ft = longest.altitude_ft - flown.minimum_ft
    side = f"{feet(abs(apart_ft))} {'above' if apart_ft >= 0.0 else 'below'} the minimum"
    what = (f"Level for {seconds(compared.value or 0.0)} from here, {side}, uncertain by {feet(longest.unsure_ft)}: an "
            "approach to a DA has no level flight there.")
    return [Moment("level at the minimum", at, what, (compared,))]


def compare_level(flown: FlownApproach, longest: "Level | None") -> Comparison:
    """How long it was level at or below the DA, against `recording_level_s`; not judged with too few samples there."""
    most_s = value("recording_level_s")
    if longest is None:
        return Comparison(ITEM, "s", None, 0.0, None, most_s)
    middle_s, half_s = (longest.least_s + longest.most_s) / 2.0, (longest.most_s - longest.least_s) / 2.0
    return Comparison(ITEM, "s", middle_s, half_s + _step_s(flown) / 2.0 + SOFT_S, None, most_s, flown.reason)


def longest_level(flown: FlownApproach) -> "Level | None":
    """The longest level flight at or below the DA, before the threshold; None where too little is recorded to say."""
    if flown.minimum_ft is None or flown.target.kind != "DA":
        return None
    levels = [_level_of(flown, stretch) for stretch in _stretches(flown) if len(stretch) >= FEWEST]
    known = [level for level in levels if level is not None]
    return max(known, key=lambda level: level.least_s + level.most_s) if known else None


def _top_ft(flown: FlownApproach) -> float:
    return (flown.minimum_ft or 0.0) + value("recording_level_above_ft")


def _step_s(flown: FlownApproach) -> float:
    return max(1.0, flown.noise.interval_s / 2.0)


def _stretches(flown: FlownApproach) -> "list[list[Point]]":
    """The samples near the minimum and below it, before the threshold and off the ground, row by row."""
    high_ft = _top_ft(flown) + MARGIN_FT + USUAL_SINK_FPS * flown.noise.interval_s
    low_ft = flown.levels.threshold_ft + value("recording_touch_ft")
    stretches: list[list[Point]] = [[]]
    for point in flown.points:
        near = (point.indicated_ft is not None and point.indicated_ft <= high_ft and point.along_nm > 0.0
                and (point.true_ft or 0.0) > low_ft)
        if stretches[-1] and not (near and stretches[-1][-1].part == point.part):
            stretches.append([])
        if near:
            stretches[-1].append(point)
    return stretches


def _level_of(flown: FlownApproach, stretch: "list[Point]") -> "Level | None":
    times_s = [point.time_s for point in stretch]
    heights_ft = [point.recorded_ft or 0.0 for point in stretch]
    curves = fitted(times_s, heights_ft, _step_s(flown))
    if not curves:
        return None
    best = min(curves, key=lambda curve: curve.squares)
    noise_ft = max(flown.noise.altimeter_ft, LEAST_NOISE_FT,
                   math.sqrt(best.squares / max(1, len(stretch) - CURVES_FREE)))
    # Twice the standard deviation: four of one sample's squares more than the best.
    good = [curve for curve in curves if curve.squares <= best.squares + (SURELY * noise_ft) ** 2]
    offset_ft = flown.levels.reading_uncertainty_ft(stretch[-1].true_ft or 0.0)
    lasts: list[float] = []
    for curve in good:
        lasts += _counted_s(curve, _top_ft(flown), offset_ft)
    inside = [heights_ft[place] for place in range(len(times_s)) if best.begin_s <= times_s[place] <= best.end_s]
    mean_ft = sum(inside) / len(inside) if inside else best.altitude_ft
    unsure_ft = math.sqrt(offset_ft**2 + (SURELY * noise_ft) ** 2 / max(1, len(inside)))
    surely_s = min([curve.end_s - curve.begin_s for curve in good])
    return Level(min(lasts), max(lasts), surely_s, best.begin_s, mean_ft, unsure_ft)


def _counted_s(curve: Curve, top_ft: float, offset_ft: float) -> "list[float]":
    """How long a curve is level as low as that; both answers where its height may lie on either side."""
    lasts_s = max(0.0, curve.end_s - curve.begin_s)
    if curve.altitude_ft + offset_ft <= top_ft:
        return [lasts_s]
    return [0.0] if curve.altitude_ft - offset_ft > top_ft else [0.0, lasts_s]


# The curves


def fitted(times_s: "list[float]", heights_ft: "list[float]", step_s: float) -> "list[Curve]":
    """A curve for every beginning and end of a level part on a grid of times, and for every rounding.

    Before the level part a curve has the form of `rounded_out`, after it of `rounded_on`, each times a rate
    from the least squares.  Both are zero where the other one is not, so that each rate follows from sums of its own.
    """
    begin_s, lasts_s = times_s[0], times_s[-1] - times_s[0]
    step_s = max(step_s, lasts_s / MOST_STEPS)
    grid = [begin_s + step_s * place for place in range(int(lasts_s / step_s) + 1)]
    mean_ft = sum(heights_ft) / len(heights_ft)
    off_ft = [height_ft - mean_ft for height_ft in heights_ft]
    squares = sum([height_ft * height_ft for height_ft in off_ft])
    before = [_sums(at_s, takes_s, cut_s, [rounded_out(at_s - time_s, takes_s, cut_s) for time_s in times_s], off_ft)
              for at_s in grid for takes_s, cut_s in OUT_S]
    after = [_sums(at_s, takes_s, 0.0, [rounded_on(time_s - at_s, takes_s) for time_s in times_s], off_ft)
             for at_s in grid for takes_s in ON_S]
    curves = []
    for first in before:
        for second in after:
            if first[0] <= second[0]:
                curve = _solved(first, second, len(times_s), squares, (begin_s, times_s[-1]))
                if curve is not None:
                    curve.altitude_ft += mean_ft
                    curves.append(curve)
    return curves


def rounded_out(until_s: float, takes_s: float, cut_s: float) -> float:
    """Height over the level at a rate of 1: straight, then less and less steep, as an autopilot captures an altitude.

    until_s: until the level part;  cut_s: by how much the rounding ends early, as where a go-around begins in it
    """
    if until_s <= 0.0:
        return 0.0
    left_s = until_s + cut_s
    missing = takes_s / 4.0 * (cut_s / takes_s) ** 4
    if left_s < takes_s:
        return takes_s / 4.0 * (left_s / takes_s) ** 4 - missing
    return left_s - 3.0 * takes_s / 4.0 - missing


def rounded_on(since_s: float, takes_s: float) -> float:
    """The same after the level part, where the rate grows evenly to 1."""
    if since_s <= 0.0:
        return 0.0
    return since_s * since_s / (2.0 * takes_s) if since_s < takes_s else since_s - takes_s / 2.0


def _sums(
    at_s: float, takes_s: float, cut_s: float, row: "list[float]", off_ft: "list[float]",
) -> "tuple[float, ...]":
    """(time, rounding, its cut, sum of a form, of its squares, of its products with the heights)."""
    products = [row[place] * off_ft[place] for place in range(len(row))]
    return at_s, takes_s, cut_s, sum(row), sum([form * form for form in row]), sum(products)


def _solved(
    before: "tuple[float, ...]", after: "tuple[float, ...]", count: int, squares: float, ends_s: "tuple[float, float]",
) -> "Curve | None":
    """The best height and rates for one beginning and end; None for rates that no approach is flown at.

    With u the form before and v the form after the level part, u v = 0, so that the level is
    (h - su/uu hu - sv/vv hv) / (n - su^2/uu - sv^2/vv) of sums over samples, and a rate (hu - su level)/uu.
    The heights count from their mean, so that the sum of h is 0.
    """
    first_s, out_s, cut_s, su, uu, hu = before
    last_s, on_s, _, sv, vv, hv = after
    if uu < 1e-9:
        return None
    share = sv / vv if vv > 1e-9 else 0.0
    weight = count - su * su / uu - share * sv
    if weight < 1e-6:
        return None
    whole = -su * hu / uu - share * hv
    level_ft = whole / weight
    sink_fps = (hu - su * level_ft) / uu
    climb_fps = (hv - sv * level_ft) / vv if vv > 1e-9 else 0.0
    slow_fps = value("recording_level_fpm") / 60.0
    if not slow_fps < sink_fps <= STEEPEST_SINK_FPS or not -STEEPEST_SINK_FPS <= climb_fps <= STEEPEST_CLIMB_FPS:
        return None
    left = squares - hu * hu / uu - (hv * hv / vv if vv > 1e-9 else 0.0) - whole * whole / weight
    # Level counts from where the rate is small: sink (t/T)^3 in the rounding before, climb t/T in the one after.
    begin_s = first_s - max(0.0, out_s * (slow_fps / sink_fps) ** (1.0 / 3.0) - cut_s)
    end_s = ends_s[1] if abs(climb_fps) <= slow_fps else last_s + on_s * slow_fps / abs(climb_fps)
    return Curve(max(0.0, left), level_ft, max(ends_s[0], begin_s), min(ends_s[1], end_s))
