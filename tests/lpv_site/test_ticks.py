"""Ticks are those that matplotlib would choose: the same places, the same words."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.figure import Figure
from matplotlib.ticker import MaxNLocator, ScalarFormatter

from lpv.core.errors import DomainError
from lpv.core.text import MINUS
from lpv_site.figures.ticks import SLACK, STEPS, ticks, words

LIMITS = st.tuples(st.floats(-20_000, 20_000), st.floats(0.5, 20_000)).map(lambda ends: (ends[0], sum(ends)))


def of_matplotlib(low, high, most):
    """The places inside the limits, and their words."""
    axis = Figure().add_subplot().xaxis
    axis.set_view_interval(low, high, ignore=True)
    values = MaxNLocator(most, steps=list(STEPS)).tick_values(low, high)
    slack = SLACK * (values[1] - values[0])
    places = [place for place in values if low - slack <= place <= high + slack]
    formatter = ScalarFormatter(useOffset=False)
    formatter.set_axis(axis)
    return places, formatter.format_ticks(places)


@settings(max_examples=300, deadline=None)
@given(LIMITS, st.integers(5, 9))
def test_places_and_labels_match_matplotlib(limits, most):
    places, labels = of_matplotlib(*limits, most)
    ours = ticks(*limits, most)
    assert ours == pytest.approx(places, abs=1e-9 * max(1.0, *map(abs, limits)))
    assert words(ours) == [word.replace("\N{MINUS SIGN}", MINUS) for word in labels]


@given(LIMITS, st.integers(1, 9))
def test_ticks_equally_spaced_and_within_room(limits, most):
    low, high = limits
    places = ticks(low, high, most)
    assert len(places) <= most + 1
    assert all(low - 1e-6 <= place <= high + 1e-6 for place in places)
    apart = {round(later - before, 6) for before, later in pairwise(places)}
    assert len(apart) <= 1


def test_limits_on_ticks_shown():
    assert ticks(0.0, 8.0, 8) == [0, 1, 2, 3, 4, 5, 6, 7, 8]
    assert ticks(0.0, 0.3, 3) == pytest.approx([0.0, 0.1, 0.2, 0.3])
    assert words(ticks(-7.5, 7.5, 6)) == [f"{MINUS}7.5", f"{MINUS}5.0", f"{MINUS}2.5", "0.0", "2.5", "5.0", "7.5"]


@pytest.mark.parametrize("limits", [(1.0, 1.0), (2.0, 1.0), (0.0, math.nan)])
def test_empty_span_refused(limits):
    with pytest.raises(DomainError):
        ticks(*limits)
