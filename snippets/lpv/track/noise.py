"""How noisy a recording is, estimated from the recording itself, and values and rates from the samples around one.

Noise is read from second differences: how far a sample lies off the straight line between two others, one before and
one after it.  Steady flight leaves nothing there but noise, and the median of the sizes does not follow the few places
where the flight changed.  For normal noise the standard deviation is 1.4826 times that median (the median absolute
deviation), divided by the root of 1 + u^2 + v^2, where u and v are the shares of the two others in the line.
It is taken twice: between neighbours, and over half of the window.  A receiver that smooths what it writes shows less
between neighbours than it has; the larger value counts, up to MAX_SMOOTHED times the smaller one.

A rate is the slope of a straight line by least squares through the samples of a window, a height the middle of a
parabola through them, where the noise is worth smoothing.
"""

import math

from lpv.core.units import M_PER_FT
from lpv.facts import value

WINDOW_S = value("recording_rate_window_s")
WINDOW_SAMPLES = 3.0  # at least so many intervals between samples make a window
LONGEST_WINDOW_S = 30.0
MIN_SHARE = 0.4  # of the window that samples must cover
PER_MEDIAN = 1.4826  # standard deviation of normal noise over the median of its sizes
FEWEST = 8  # second differences that an estimate needs
MAX_SMOOTHED = 3.0
WORTH_SMOOTHING_FT = 3.0
SURELY = 2.0  # standard deviations: about nineteen times in twenty
ANYWHERE = 3.3  # the same for the highest of many values: about one in a hundred of twenty windows is beyond
RESOLUTIONS = (100.0, 50.0, 25.0, 20.0, 10.0, 5.0)  # of altitudes, in the unit that they were written in
UNITS_FT = (1.0, 1.0 / M_PER_FT)


class Noise:
    """The noise of a recording near one approach; standard deviations.

    height_ft:    of altitudes that say where the aircraft was;  altimeter_ft: of what the altimeter showed
    position_ft:  of positions
    interval_s:   middle of the times between samples;  window_s: that rates are taken over
    """

    def __init__(
        self, height_ft: float, altimeter_ft: float, position_ft: float, interval_s: float, window_s: float,
    ) -> None:
        self.height_ft, self.altimeter_ft, self.position_ft = height_ft, altimeter_ft, position_ft
        self.interval_s, self.window_s = interval_s, window_s


QUIET = Noise(0.0, 0.0, 0.0, 1.0, WINDOW_S)


def median(values: "list[float]") -> float:
    """The value in the middle, or half way between the two there; 0 of nothing."""
    ordered = sorted(values)
    half = len(ordered) // 2
    if not ordered:
        return 0.0
    return ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2.0


def window_of(interval_s: float) -> float:
    """The time that rates are taken over where samples are so far apart."""
    return min(LONGEST_WINDOW_S, max(WINDOW_S, WINDOW_SAMPLES * interval_s))


def deviation(times_s: "list[float]", values: "list[float]", apart_s: float = 0.0) -> "float | None":
    """Standard deviation of the noise of values at rising times; None with too few of them.

    apart_s: how far apart the samples of a second difference are at least; 0: neighbours
    """
    sizes = []
    before = 0
    after = 0
    for place in range(1, len(times_s) - 1):
        while before < place - 1 and times_s[before + 1] <= times_s[place] - apart_s:
            before += 1
        after = max(after, place + 1)
        while after < len(times_s) - 1 and times_s[after] < times_s[place] + apart_s:
            after += 1
        if apart_s and (times_s[place] - times_s[before] < apart_s or times_s[after] - times_s[place] < apart_s):
            continue
        share = (times_s[place] - times_s[before]) / (times_s[after] - times_s[before])
        off = values[place] - values[before] - share * (values[after] - values[before])
        sizes.append(abs(off) / math.sqrt(1.0 + share * share + (1.0 - share) * (1.0 - share)))
    return PER_MEDIAN * median(sizes) if len(sizes) >= FEWEST else None


def combined(near: "float | None", far: "float | None") -> float:
    """The noise to count with, from that between neighbours and that over half a window."""
    noise = near or 0.0
    return noise if far is None else max(noise, min(far, MAX_SMOOTHED * noise))


def rounding(values_ft: "list[float]") -> float:
    """Standard deviation that the rounding of altitudes alone gives; 0 where none of 5 ft or 5 m or more is seen."""
    if len(values_ft) < FEWEST:
        return 0.0
    for unit_ft in UNITS_FT:
        for step in RESOLUTIONS:
            if all(_on_step(value_ft / unit_ft, step) for value_ft in values_ft):
                return step * unit_ft / math.sqrt(12.0)
    return 0.0


def _on_step(number: float, step: float) -> bool:
    steps = number / step
    return abs(steps - math.floor(steps + 0.5)) < 1e-6


def slope(times_s: "list[float]", values: "list[float]", window_s: float) -> "tuple[float, float] | None":
    """(change in a second, its standard deviation for a noise of 1), by least squares.

    None with fewer than three samples, or over too short a time.
    """
    count = len(times_s)
    if count < 3 or times_s[-1] - times_s[0] < MIN_SHARE * window_s:
        return None
    middle_s, middle = sum(times_s) / count, sum(values) / count
    total = squares = 0.0
    for place in range(count):
        off_s = times_s[place] - middle_s
        total += off_s * (values[place] - middle)
        squares += off_s * off_s
    return total / squares, 1.0 / math.sqrt(squares)


class Curve:
    """A parabola by least squares through samples around one: the value there is a sum of theirs with weights.

    weights: one for each sample;  noise: standard deviation of the value for a noise of 1
    """

    def __init__(self, weights: "list[float]", noise: float) -> None:
        self.weights, self.noise = weights, noise

    def value(self, values: "list[float]") -> float:
        """The value in the middle."""
        return sum([self.weights[place] * values[place] for place in range(len(values))])


def curve(times_s: "list[float]", at_s: float) -> "Curve | None":
    """The parabola for samples at these times, seen from one of them; None with fewer than five."""
    count = len(times_s)
    longest_s = max([abs(time_s - at_s) for time_s in times_s] + [0.0])
    if count < 5 or not longest_s:
        return None
    shares = [(time_s - at_s) / longest_s for time_s in times_s]
    s1, s2, s3, s4 = [sum([share**power for share in shares]) for power in (1, 2, 3, 4)]
    # First row of the inverse of the normal matrix: what the value at the middle takes of 1, t and t^2.
    row = (s2 * s4 - s3 * s3, s2 * s3 - s1 * s4, s1 * s3 - s2 * s2)
    determinant = count * row[0] + s1 * row[1] + s2 * row[2]
    if determinant < 1e-9 * count:
        return None
    weights = [(row[0] + share * row[1] + share * share * row[2]) / determinant for share in shares]
    return Curve(weights, math.sqrt(row[0] / determinant))
