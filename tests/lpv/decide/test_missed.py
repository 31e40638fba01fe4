"""The missed approach: its dip against a step-by-step integration, its climb against the surface."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.decide import missed

quick = settings(max_examples=40, deadline=None)
descents, climbs = st.floats(0, 1500), st.floats(300, 5000)
reactions, pulls = st.floats(0, 5), st.floats(0.05, 0.5)


def flown(descent_fpm, climb_fpm, reaction_s, pull_g, until_s, step_s=0.005):
    """(lowest height, seconds then, height at the end) of a point mass, integrated."""
    height = lowest = lowest_s = time = 0.0
    speed = -descent_fpm / 60
    while time < until_s:
        pulled = min(climb_fpm / 60, speed + pull_g * 9.80665 / 0.3048 * step_s)
        faster = speed if time < reaction_s else pulled
        height += (speed + faster) / 2 * step_s
        speed = faster
        time += step_s
        if height < lowest:
            lowest, lowest_s = height, time
    return lowest, lowest_s, height


@pytest.mark.parametrize("case", [
    (700, 2000, 2.0, 0.1), (700, 2000, 0.0, 0.1), (1000, 500, 3.0, 0.05), (600, 4000, 1.0, 0.25),
    (0, 1000, 1, 0.1),
])
def test_dip_matches_numerical_integration(case):
    dip = missed.dip(*case)
    lowest_ft, lowest_s, _ = flown(*case, until_s=40.0)
    assert dip.loss_ft == pytest.approx(-lowest_ft, abs=0.1)
    if dip.loss_ft:
        assert dip.lowest_s == pytest.approx(lowest_s, abs=0.1)
        assert flown(*case, until_s=dip.back_s)[2] == pytest.approx(0.0, abs=0.5)
    for time_s in (0.0, 1.5, 4.0, 12.0, 30.0):
        stepped_ft = flown(*case, until_s=time_s)[2]
        assert missed.height_change_ft(time_s, *case) == pytest.approx(stepped_ft, abs=0.5)


@quick
@given(descents, climbs, reactions, pulls)
def test_height_change_agrees_with_dip(descent_fpm, climb_fpm, reaction_s, pull_g):
    dip = missed.dip(descent_fpm, climb_fpm, reaction_s, pull_g)
    go_around = (descent_fpm, climb_fpm, reaction_s, pull_g)
    assert missed.height_change_ft(dip.lowest_s, *go_around) == pytest.approx(-dip.loss_ft, abs=1e-6)
    assert missed.height_change_ft(dip.back_s, *go_around) == pytest.approx(0.0, abs=1e-6)
    assert missed.height_change_ft(dip.back_s + 5.0, *go_around) > 0.0
    assert dip.back_s >= dip.lowest_s


def test_loss_matches_hand_calculation():
    assert missed.reaction_loss_ft(600.0, 2.0) == 20.0
    assert missed.rotation_loss_ft(600.0, 0.1) == pytest.approx(100.0 / (2 * 0.1 * 9.80665 / 0.3048))
    assert missed.height_loss_ft(0.0, 5.0, 0.1) == 0.0
    assert missed.lowest_height_ft(200.0, 600.0, 2.0, 0.1) == pytest.approx(200.0 - 20.0 - 15.54, abs=0.005)
    assert str(missed.height_change_ft(0.0, 0.0, 500.0, 1.0, 0.1)) == "0.0"


def test_touchdown_before_descent_stops_reported():
    with pytest.raises(DomainError, match="at least the loss"):
        missed.lowest_height_ft(20.0, 1000.0, 3.0, 0.05)


@pytest.mark.parametrize("category", missed.CATEGORIES)
def test_category_margins_grow(category):
    baro_ft, radio_ft = missed.design_height_loss_ft(category), missed.design_height_loss_radio_ft(category)
    assert radio_ft < baro_ft
    if category != "A":
        slower = missed.CATEGORIES[missed.CATEGORIES.index(category) - 1]
        assert baro_ft > missed.design_height_loss_ft(slower)


def test_surface_and_margin():
    assert missed.surface_height_ft(0.0, 150.0, 200.0) == 150.0
    assert missed.surface_height_ft(2.0, 150.0, 200.0) == pytest.approx(150 + 2 * 1852 / 0.3048 / 40)
    assert missed.margin_over_surface_ft(5.0, 30.0, 200.0, 200.0) == pytest.approx(
        30 + 5 * (200 - 1852 / 0.3048 / 40)
    )


@quick
@given(st.floats(-100, 500), st.floats(0, 600), st.floats(200, 600))
def test_surface_crossing_place(above_ft, flown_gradient, published):
    crossed_nm = missed.surface_crossed_at_nm(above_ft, flown_gradient, published)
    at_100_nm = missed.margin_over_surface_ft(100.0, above_ft, flown_gradient, published)
    if crossed_nm is None:
        assert above_ft > 0.0
        assert at_100_nm >= -1e-6
    elif above_ft <= 0.0:
        assert crossed_nm == 0.0
    else:
        margin_ft = missed.margin_over_surface_ft(crossed_nm, above_ft, flown_gradient, published)
        assert margin_ft == pytest.approx(0.0, abs=1e-6)


def test_standard_climb_never_crosses_surface():
    assert missed.surface_crossed_at_nm(10.0, 200.0, 200.0) is None
    assert missed.surface_crossed_at_nm(10.0, 200.0, 400.0) is not None


def test_climb_required():
    assert missed.required_climb_rate_fpm(120.0, 0.0) == pytest.approx(400.0)
    assert missed.required_climb_rate_fpm(120.0, 150.0) == pytest.approx(400.0)
    assert missed.required_climb_rate_fpm(120.0, 330.0) == pytest.approx(660.0)
    assert missed.gradient_margin_ft_per_nm(660.0, 120.0, 330.0) == pytest.approx(0.0, abs=1e-9)
    assert missed.gradient_margin_ft_per_nm(300.0, 120.0, 0.0) == pytest.approx(-50.0)
    assert missed.distance_to_altitude_nm(1500.0, 200.0) == 7.5


@pytest.mark.parametrize("call", [
    lambda: missed.reaction_loss_ft(-1, 2),
    lambda: missed.reaction_loss_ft(700, 31),
    lambda: missed.rotation_loss_ft(700, 0.0),
    lambda: missed.height_loss_ft(math.nan, 2, 0.1),
    lambda: missed.dip(700, 0, 2, 0.1),
    lambda: missed.height_change_ft(-1, 700, 2000, 2, 0.1),
    lambda: missed.height_change_ft(1, 700, 2000, -2, 0.1),
    lambda: missed.lowest_height_ft(-1, 700, 2, 0.1),
    lambda: missed.design_height_loss_ft("E"),
    lambda: missed.design_height_loss_radio_ft("a"),
    lambda: missed.surface_height_ft(-1, 0, 200),
    lambda: missed.surface_height_ft(1, 0, 0),
    lambda: missed.margin_over_surface_ft(1, math.inf, 200, 200),
    lambda: missed.margin_over_surface_ft(101, 0, 200, 200),
    lambda: missed.surface_crossed_at_nm(10, -1, 200),
    lambda: missed.required_climb_rate_fpm(0, 200),
    lambda: missed.required_climb_rate_fpm(120, -1),
    lambda: missed.gradient_margin_ft_per_nm(0, 120, 200),
    lambda: missed.distance_to_altitude_nm(100, 0),
])
def test_out_of_domain_rejected(call):
    with pytest.raises(DomainError):
        call()
