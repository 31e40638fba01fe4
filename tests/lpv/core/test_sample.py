"""Shares of a sample: published intervals, and the equation that the ends of an interval solve."""

import math

import pytest

from lpv.core.errors import DomainError
from lpv.core.sample import share_interval


@pytest.mark.parametrize(("successes", "tried", "low", "high"), [
    (81, 263, 0.2553, 0.3662), (15, 148, 0.0624, 0.1605), (0, 20, 0.0, 0.1611), (1, 29, 0.0061, 0.1718),
])
def test_printed_intervals(successes, tried, low, high):
    """Of Newcombe 1998, table I, method 3, from memory."""
    assert share_interval(successes, tried) == (pytest.approx(low, abs=6e-5), pytest.approx(high, abs=6e-5))


@pytest.mark.parametrize(("successes", "tried"), [(0, 1), (1, 1), (5, 9), (483, 485), (500, 1000)])
def test_interval_ends_solve_equation(successes, tried):
    """The share of the sample lies 1.96 standard deviations of the end's own share from it."""
    low, high = share_interval(successes, tried)
    assert 0.0 <= low <= successes / tried <= high <= 1.0
    for end in (low, high):
        if 0.0 < end < 1.0:
            away = abs(successes / tried - end) / math.sqrt(end * (1.0 - end) / tried)
            assert away == pytest.approx(1.96, abs=1e-9)


@pytest.mark.parametrize(("successes", "tried"), [(0, 0), (2, 1), (-1, 3)])
def test_impossible_samples(successes, tried):
    with pytest.raises(DomainError, match="sample"):
        share_interval(successes, tried)
