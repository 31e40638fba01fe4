"""Noise estimated from samples, rates and heights through them: against known noise, and against what is exact."""

import math
import random
from statistics import pstdev

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.track.noise import (
    LONGEST_WINDOW_S,
    WINDOW_S,
    combined,
    curve,
    deviation,
    median,
    rounding,
    slope,
    window_of,
)


def noisy(count, sigma, seed, step_s=1.0, of=lambda t: 2000.0 - 12.0 * t):
    rng = random.Random(seed)
    times = [step_s * n for n in range(count)]
    return times, [of(t) + rng.gauss(0.0, sigma) for t in times]


@pytest.mark.parametrize("sigma", [1.0, 15.0, 60.0])
@pytest.mark.parametrize("apart_s", [0.0, 5.0])
def test_white_noise_on_steady_descent_found(sigma, apart_s):
    deviations = [deviation(*noisy(250, sigma, f"{sigma} {n}"), apart_s) for n in range(20)]
    assert sum(deviations) / 20 == pytest.approx(sigma, rel=0.08)
    assert max(abs(estimate - sigma) for estimate in deviations) < 0.3 * sigma


def test_uneven_samples_have_same_noise():
    rng = random.Random("uneven")
    times = sorted(rng.uniform(0.0, 300.0) for _ in range(400))
    values = [5.0 * t + rng.gauss(0.0, 8.0) for t in times]
    assert deviation(times, values) == pytest.approx(8.0, rel=0.2)


def test_few_manoeuvres_and_jumps_ignored():
    def flown(t):
        return 2500.0 if t < 60 else 2500.0 - 12.0 * (t - 60) if t < 200 else 820.0 + 30.0 * (t - 200)

    times, values = noisy(260, 5.0, "manoeuvre", of=flown)
    values[100] += 400.0
    assert deviation(times, values, 5.0) == pytest.approx(5.0, rel=0.35)


def test_too_few_samples_say_nothing():
    assert deviation([0.0, 1.0, 2.0], [1.0, 2.0, 1.0]) is None
    assert deviation([], []) is None


def test_smoothed_noise_measured_over_half_window():
    """A receiver that smooths its output: noise that is alike from sample to sample."""
    rng, value, rows = random.Random("alike"), 0.0, []
    for n in range(400):
        value = 0.8 * value + rng.gauss(0.0, 6.0)
        rows.append((float(n), value))
    times, values = [row[0] for row in rows], [row[1] for row in rows]
    near, far = deviation(times, values), deviation(times, values, 5.0)
    assert near < 0.6 * pstdev(values)
    assert combined(near, far) > 0.75 * pstdev(values)


def test_two_estimates_combined():
    assert combined(2.0, 3.0) == 3.0
    assert combined(2.0, 1.0) == 2.0
    assert combined(2.0, 50.0) == 6.0  # manoeuvring, not noise
    assert combined(None, None) == 0.0
    assert combined(2.0, None) == 2.0


@pytest.mark.parametrize(("step", "expected"), [(25.0, 25.0), (100.0, 100.0), (10.0, 10.0), (1.0, 0.0), (0.3, 0.0)])
def test_rounded_altitudes_have_at_least_step_noise(step, expected):
    values = [step * round((3000.0 - 11.3 * n) / step) for n in range(60)]
    assert rounding(values) == pytest.approx(expected / math.sqrt(12.0))


def test_metre_rounding_detected():
    values = [10.0 * round((900.0 - 3.4 * n) / 10.0) / 0.3048 for n in range(60)]
    assert rounding(values) == pytest.approx(10.0 / 0.3048 / math.sqrt(12.0))
    assert rounding(values[:3]) == 0.0


@given(st.floats(-100, 100), st.lists(st.floats(1.0, 2.0), min_size=8, max_size=20))
@settings(max_examples=40)
def test_line_gives_slope_and_parabola_value(rate, steps):
    times = [sum(steps[:n]) for n in range(len(steps))]
    fitted, _ = slope(times, [7.0 + rate * t for t in times], WINDOW_S)
    assert fitted == pytest.approx(rate, abs=1e-6)
    at = times[len(times) // 2]
    through = curve(times, at)
    assert through.value([3.0 + rate * t - 0.4 * t * t for t in times]) == pytest.approx(
        3.0 + rate * at - 0.4 * at * at, abs=1e-5)


def test_stated_slope_and_value_spread_correct():
    """Over many draws, the spread of slopes and of values is what is stated for the noise."""
    times = [float(n) for n in range(11)]
    slopes, values = [], []
    rng = random.Random("spread")
    for _ in range(3000):
        drawn = [rng.gauss(0.0, 1.0) for _ in times]
        slopes.append(slope(times, drawn, WINDOW_S)[0])
        values.append(curve(times, 5.0).value(drawn))
    assert pstdev(slopes) == pytest.approx(slope(times, times, WINDOW_S)[1], rel=0.05)
    assert pstdev(values) == pytest.approx(curve(times, 5.0).noise, rel=0.05)
    assert slope(times, times, WINDOW_S)[1] == pytest.approx(1.0 / math.sqrt(110.0))
    assert curve(times, 5.0).noise ** 2 == pytest.approx(89.0 / 429.0)  # eleven points, second degree


def test_too_few_samples():
    assert slope([0.0, 1.0], [1.0, 2.0], WINDOW_S) is None
    assert slope([0.0, 1.0, 2.0], [1.0, 2.0, 3.0], WINDOW_S) is None
    assert curve([0.0, 1.0, 2.0, 3.0], 1.0) is None
    assert curve([1.0] * 5, 1.0) is None


def test_windows_follow_interval():
    assert window_of(1.0) == WINDOW_S
    assert window_of(5.0) == 15.0
    assert window_of(60.0) == LONGEST_WINDOW_S


def test_median():
    assert (median([3.0, 1.0, 2.0]), median([4.0, 1.0, 2.0, 3.0]), median([])) == (2.0, 2.5, 0.0)
