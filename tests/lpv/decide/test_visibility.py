"""Visibility and runway visual range by table."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.decide import visibility

quick = settings(max_examples=60, deadline=None)


@quick
@given(st.floats(1600, 6000))
def test_the_row_taken_never_promises_more_than_asked(rvr_ft):
    visibility_sm = visibility.visibility_for_rvr_sm(rvr_ft)
    assert visibility.rvr_for_visibility_ft(visibility_sm) >= rvr_ft


def test_every_row_there_and_back():
    for row_ft in visibility.RVR_FT:
        assert visibility.rvr_for_visibility_ft(visibility.visibility_for_rvr_sm(row_ft)) == row_ft


def test_between_rows_of_visibility_the_next_higher():
    assert visibility.rvr_for_visibility_ft(0.51) == 3200.0
    assert visibility.rvr_for_visibility_ft(1.01) == 6000.0


def test_statute_miles_in_feet():
    assert visibility.visibility_ft(0.5) == pytest.approx(2640.0)
    assert visibility.visibility_ft(0.0) == 0.0


@pytest.mark.parametrize(("lights_m", "name"), [
    (2000, "full"), (720, "full"), (719.9, "intermediate"), (420, "intermediate"), (419.9, "basic"),
    (210, "basic"), (209.9, "no"), (0, "no"),
])
def test_light_class_at_its_edges(lights_m, name):
    assert visibility.light_class_easa(lights_m) == name


def test_easa_rows_at_their_edges():
    assert visibility.rvr_for_decision_height_easa_m(250.0, 720) == 550.0
    assert visibility.rvr_for_decision_height_easa_m(250.1, 720) == 600.0


@quick
@given(st.floats(200, 400), st.floats(0, 2000), st.floats(200, 400), st.floats(0, 2000))
def test_easa_more_height_or_fewer_lights_never_need_less(height_a, lights_a, height_b, lights_b):
    high, low = max(height_a, height_b), min(height_a, height_b)
    few, many = min(lights_a, lights_b), max(lights_a, lights_b)
    worst = visibility.rvr_for_decision_height_easa_m(high, few)
    assert worst >= visibility.rvr_for_decision_height_easa_m(low, many)


@pytest.mark.parametrize("call", [
    lambda: visibility.visibility_for_rvr_sm(1599.0),
    lambda: visibility.visibility_for_rvr_sm(6001.0),
    lambda: visibility.visibility_for_rvr_sm(math.nan),
    lambda: visibility.rvr_for_visibility_ft(0.2),
    lambda: visibility.rvr_for_visibility_ft(1.26),
    lambda: visibility.visibility_ft(-0.1),
    lambda: visibility.light_class_easa(-1.0),
    lambda: visibility.rvr_for_decision_height_easa_m(199.0, 720.0),
    lambda: visibility.rvr_for_decision_height_easa_m(401.0, 720.0),
    lambda: visibility.rvr_for_decision_height_easa_m(250.0, math.nan),
])
def test_outside_the_domain(call):
    with pytest.raises(DomainError):
        call()
