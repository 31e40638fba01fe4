"""Obstacle surfaces of procedure design."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.core.units import FT_PER_NM
from lpv.decide import surfaces
from lpv.motion import kinematics as motion
from lpv.path import profile as path

quick = settings(max_examples=40, deadline=None)


@quick
@given(st.floats(0, 30_000), st.floats(-500, 8000), st.floats(30, 80), st.floats(2.5, 5))
def test_decision_altitude_lies_on_flat_path(distance_ft, elevation_ft, tch_ft, gpa_deg):
    altitude_ft = surfaces.decision_altitude_ft(distance_ft, elevation_ft, tch_ft, gpa_deg)
    flat_ft = path.flat_path_height_ft(distance_ft / FT_PER_NM, elevation_ft, tch_ft, gpa_deg)
    assert altitude_ft == pytest.approx(flat_ft)


@quick
@given(st.floats(200, 800), st.floats(0, 200), st.floats(30, 80), st.floats(2.5, 5))
def test_decision_distance_and_altitude_are_inverse(hat_ft, adjustment_ft, tch_ft, gpa_deg):
    distance_ft = surfaces.decision_distance_ft(hat_ft, adjustment_ft, tch_ft, 403.0, 400.0, gpa_deg)
    altitude_ft = surfaces.decision_altitude_ft(distance_ft, 400.0, tch_ft, gpa_deg)
    assert altitude_ft == pytest.approx(403.0 + hat_ft + adjustment_ft)


@quick
@given(st.floats(100, 900), st.floats(1000, 100_000))
def test_obstacle_on_gradient_surface_needs_that_gradient(gradient, distance_ft):
    top_ft = 500.0 + distance_ft / surfaces.surface_slope_for_gradient(gradient)
    needed = surfaces.climb_gradient_for_obstacle_ft_per_nm(top_ft, 500.0, distance_ft)
    assert needed == pytest.approx(gradient)
    assert surfaces.surface_rise_ft_per_nm(gradient) == pytest.approx(gradient * FT_PER_NM / 8000)


@quick
@given(st.floats(50, 1000))
def test_other_order_differs_little(gradient):
    ours = surfaces.surface_slope_for_gradient(gradient)
    assert ours == pytest.approx(motion.obstacle_surface_slope(gradient), rel=0.0007)


def test_obstacle_below_start_needs_no_gradient():
    assert surfaces.climb_gradient_for_obstacle_ft_per_nm(400.0, 500.0, 5000.0) == 0.0


def test_zero_penetrations_change_nothing():
    assert surfaces.missed_penetration_adjustment_ft(3.0, 0.0, 40.0, 20.0) == 0.0
    assert surfaces.penetration_adjustment_ft(3.0, 0.0, 0.0, 20.0, 52.0, 400.0, 400.0) == 52.0


def test_missed_adjustment_puts_decision_where_surfaces_meet():
    """Moving the decision out by x raises the missed surface over the obstacle by x/MA + x/final slope."""
    raised_ft = surfaces.missed_penetration_adjustment_ft(3.0, 18.0, 40.0, 20.72)
    moved_ft = raised_ft / math.tan(math.radians(3.0))
    assert moved_ft / 40.0 + moved_ft / 20.72 == pytest.approx(18.0)


@pytest.mark.parametrize(("name", "place", "inside", "outside"), [
    ("tch", 2, (0.0, 200.0), (-0.1, 200.1)), ("elevation", 1, (-2000.0, 20_000.0), (-2000.1, 20_000.1)),
    ("gpa", 3, (1.0, 10.0), (0.99, 10.01)),
])
def test_either_side_of_domain(name, place, inside, outside):
    def of(value):
        given = [4000.0, 400.0, 52.0, 3.0]
        given[place] = value
        return surfaces.decision_altitude_ft(*given)

    assert all(math.isfinite(of(value)) for value in inside)
    for value in outside:
        with pytest.raises(DomainError):
            of(value)


@pytest.mark.parametrize("call", [
    lambda: surfaces.penetration_adjustment_ft(3, -1, 8, 20, 52, 400, 400),
    lambda: surfaces.penetration_adjustment_ft(3, 4000, 8, 0, 52, 400, 400),
    lambda: surfaces.penetration_adjustment_ft(0, 4000, 8, 20, 52, 400, 400),
    lambda: surfaces.penetration_adjustment_ft(3, 4000, math.nan, 20, 52, 400, 400),
    lambda: surfaces.visual_splay_length_ft(0, 150),
    lambda: surfaces.visual_splay_length_ft(0.15, 0),
    lambda: surfaces.missed_penetration_adjustment_ft(3, 18, 40, 0),
    lambda: surfaces.decision_distance_ft(200, -1, 52, 400, 400, 3),
    lambda: surfaces.decision_distance_ft(100, 0, 52, 400, 460, 3),
    lambda: surfaces.decision_altitude_ft(math.inf, 400, 52, 3),
    lambda: surfaces.climb_gradient_for_obstacle_ft_per_nm(600, 500, 0),
    lambda: surfaces.surface_slope_for_gradient(0),
    lambda: surfaces.surface_rise_ft_per_nm(math.nan),
])
def test_out_of_domain_rejected(call):
    with pytest.raises(DomainError):
        call()
