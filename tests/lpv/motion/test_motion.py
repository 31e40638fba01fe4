"""Wind triangle, steady turns, descent and climb."""

import cmath
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.core.units import FT_PER_NM, M_PER_NM, MPS_PER_KT, STANDARD_GRAVITY_MPS2
from lpv.motion import kinematics as motion

NAN, INF = math.nan, math.inf
COURSES = st.floats(0.0, 360.0)
SPEEDS = st.floats(80.0, 500.0)


def vector(direction_deg, length):
    """Course and length as a complex number: north is real, east imaginary (not how the module does it)."""
    return cmath.rect(length, math.radians(direction_deg))


def test_calm_wind_keeps_heading_and_speed():
    triangle = motion.wind_triangle(360.0, 140.0, 0.0, 0.0)
    assert (triangle.heading_deg, triangle.correction_deg, triangle.drift_deg) == (0.0, 0.0, 0.0)
    assert triangle.ground_speed_kt == 140.0
    assert "-" not in f"{triangle.drift_deg}{triangle.correction_deg}{motion.headwind_kt(90, 90, 0)}"


def test_north_360_equals_0():
    a = motion.wind_triangle(0, 140, 360, 30)
    b = motion.wind_triangle(360, 140, 0, 30)
    assert a.heading_deg == pytest.approx(b.heading_deg, abs=1e-9)
    assert a.ground_speed_kt == pytest.approx(110.0)


def test_wind_from_right_corrected_to_right():
    triangle = motion.wind_triangle(90, 140, 180, 20)
    assert motion.crosswind_kt(90, 180, 20) == pytest.approx(20.0)
    assert motion.headwind_kt(90, 180, 20) == pytest.approx(0.0, abs=1e-12)
    assert triangle.correction_deg > 0 > triangle.drift_deg
    assert triangle.heading_deg == pytest.approx(90 + math.degrees(math.asin(20 / 140)))


def test_headwind_and_tailwind_signs():
    assert motion.headwind_kt(280, 280, 25) == 25.0
    assert motion.headwind_kt(280, 100, 25) == pytest.approx(-25.0)
    assert motion.wind_triangle(280, 140, 100, 25).ground_speed_kt == pytest.approx(165.0)


@settings(max_examples=60, deadline=None)
@given(COURSES, SPEEDS, COURSES, st.floats(0.0, 70.0))
def test_triangle_closes(course, speed, wind_from, wind):
    triangle = motion.wind_triangle(course, speed, wind_from, wind)
    ground = vector(triangle.heading_deg, speed) - vector(wind_from, wind)
    assert abs(ground - vector(course, triangle.ground_speed_kt)) < 1e-9 * speed


@settings(max_examples=60, deadline=None)
@given(COURSES, SPEEDS, COURSES, st.floats(0.0, 70.0))
def test_heading_to_track_is_inverse(course, speed, wind_from, wind):
    triangle = motion.wind_triangle(course, speed, wind_from, wind)
    track, ground_speed = motion.track_and_ground_speed(triangle.heading_deg, speed, wind_from, wind)
    assert math.remainder(track - course, 360.0) == pytest.approx(0.0, abs=1e-8)
    assert ground_speed == pytest.approx(triangle.ground_speed_kt)
    assert 0.0 <= track < 360.0


@pytest.mark.parametrize("wind", [(90.0, 140.0), (0.0, 140.0), (90.0, 200.0), (0.0, 139.5)])
def test_excessive_wind(wind):
    with pytest.raises(DomainError):
        motion.wind_triangle(0.0, 140.0, *wind)


def test_hovering_against_wind_has_no_track():
    with pytest.raises(DomainError):
        motion.track_and_ground_speed(180.0, 100.0, 180.0, 100.0)


def test_turn_integrated_step_by_step():
    """Fly 90 deg of turn in small steps of bank-driven turn rate; the end lies one radius on and one across."""
    speed, bank, step = 150 * MPS_PER_KT, math.radians(25), 0.001
    heading, place, seconds = 0.0, 0j, 0.0
    while heading < math.pi / 2:
        turned = STANDARD_GRAVITY_MPS2 * math.tan(bank) / speed * step
        place += cmath.rect(speed * step, heading + turned / 2)
        heading += turned
        seconds += step
    radius_m = motion.turn_radius_nm(150, 25) * M_PER_NM
    assert place.real == pytest.approx(radius_m, rel=1e-4)
    assert place.imag == pytest.approx(radius_m, rel=1e-3)
    assert motion.turn_time_s(90, 150, 25) == pytest.approx(seconds, abs=0.01)


@settings(max_examples=60, deadline=None)
@given(SPEEDS, st.floats(3.0, 60.0))
def test_turn_round_trips(speed, bank):
    rate = motion.turn_rate_deg_per_s(speed, bank)
    radius = motion.turn_radius_nm(speed, bank)
    assert motion.turn_radius_for_rate_nm(speed, rate) == pytest.approx(radius)
    assert motion.bank_for_radius_deg(speed, radius) == pytest.approx(bank)
    assert motion.turn_radius_ft(speed, bank) == pytest.approx(radius * FT_PER_NM)


def test_reason_printed_turn_examples_differ():
    """The constants in the printed rules stand for slightly other gravities, by as much as the differences."""
    handbook_ft = 240**2 / (11.26 * math.tan(math.radians(30)))
    assert handbook_ft == pytest.approx(8861, abs=1.0)
    assert handbook_ft / motion.turn_radius_ft(240, 30) == pytest.approx(1.0030, abs=0.0001)
    order_deg = math.degrees(math.atan(330**2 * 1.4589e-5 / 6.7))
    assert order_deg == pytest.approx(13.34, abs=0.005)
    in_nm_and_hours = M_PER_NM / 3600**2 / STANDARD_GRAVITY_MPS2
    assert 1.4589e-5 / in_nm_and_hours == pytest.approx(1.0012, abs=0.0001)
    excess = [printed / motion.turn_radius_ft(165, bank) for printed, bank in ((4194, 30), (6654, 20))]
    assert excess[0] == pytest.approx(excess[1], abs=0.0002)


def test_zero_turn_takes_no_time():
    assert motion.turn_time_s(0, 140, 25) == 0.0


@settings(max_examples=60, deadline=None)
@given(st.floats(60.0, 400.0), st.floats(0.0, 10.0))
def test_descent_round_trips(ground_speed, angle):
    rate = motion.descent_rate_fpm(ground_speed, angle)
    assert motion.angle_for_gradient_deg(motion.gradient_ft_per_nm(angle)) == pytest.approx(angle, abs=1e-9)
    assert motion.gradient_for_climb_rate_ft_per_nm(ground_speed, rate) == pytest.approx(
        motion.gradient_ft_per_nm(angle), abs=1e-9
    )


def test_descent_matches_second_by_second():
    """Height lost over one NM of ground, added up second by second, is the gradient."""
    seconds = motion.flying_time_s(1.0, 120.0)
    lost = sum(motion.descent_rate_fpm(120.0, 3.0) / 60.0 for _ in range(round(seconds)))
    assert seconds == pytest.approx(30.0)
    assert lost == pytest.approx(motion.gradient_ft_per_nm(3.0))
    assert motion.distance_flown_ft(120.0, seconds) == pytest.approx(FT_PER_NM)
    assert motion.gradient_percent(3.0) == pytest.approx(lost / FT_PER_NM * 100.0)


def test_printed_table_uses_sine():
    """At 6 deg and 180 kt the table prints 1905; that is the sine, the tangent is 10 ft/min more."""
    sine = 180 * FT_PER_NM / 60 * math.sin(math.radians(6))
    assert sine == pytest.approx(1905, abs=2.5)
    assert motion.descent_rate_fpm(180, 6) == pytest.approx(1916, abs=0.5)


def test_level_and_steepest_paths():
    assert motion.descent_rate_fpm(140, 0) == 0.0
    assert motion.gradient_ft_per_nm(10) == motion.HIGHEST_GRADIENT_FT_PER_NM
    assert motion.angle_for_gradient_deg(motion.HIGHEST_GRADIENT_FT_PER_NM) == pytest.approx(10.0)
    assert motion.descent_rate_fpm(140, 10) > 0


def test_distance_and_height_round_trip():
    assert motion.distance_for_height_ft(motion.height_for_distance_ft(12345.0, 3.1), 3.1) == pytest.approx(12345.0)
    assert motion.distance_for_height_ft(0, 3) == 0.0


def test_obstacle_gradient_keeps_24_percent():
    gradient = motion.obstacle_gradient_ft_per_nm(1500, 1000, 2.5)
    assert 1000 + 0.76 * gradient * 2.5 == pytest.approx(1500)
    assert motion.obstacle_gradient_ft_per_nm(900, 1000, 2.5) == 0.0
    assert motion.obstacle_surface_slope(gradient) == pytest.approx(2.5 * FT_PER_NM / 500)


OUTSIDE = [
    (motion.headwind_kt, (-1, 0, 10)), (motion.headwind_kt, (0, 361, 10)), (motion.headwind_kt, (0, 0, -1)),
    (motion.crosswind_kt, (0, 0, 301)), (motion.crosswind_kt, (NAN, 0, 1)), (motion.crosswind_kt, (0, 0, NAN)),
    (motion.wind_triangle, (0, NAN, 0, 1)), (motion.wind_triangle, (0, 0, 0, 1)),
    (motion.track_and_ground_speed, (0, INF, 0, 1)),
    (motion.turn_rate_deg_per_s, (140, 0)), (motion.turn_rate_deg_per_s, (140, 90)),
    (motion.turn_rate_deg_per_s, (140, NAN)), (motion.turn_rate_deg_per_s, (140, -20)),
    (motion.turn_radius_nm, (0, 25)), (motion.turn_radius_nm, (-140, 25)), (motion.turn_radius_ft, (140, 90)),
    (motion.turn_radius_nm, (1001, 25)), (motion.turn_radius_for_rate_nm, (140, 0)),
    (motion.turn_time_s, (-1, 140, 25)), (motion.turn_time_s, (361, 140, 25)),
    (motion.bank_for_radius_deg, (140, 0)), (motion.bank_for_radius_deg, (140, NAN)),
    (motion.descent_rate_fpm, (140, 10.01)), (motion.descent_rate_fpm, (140, -0.1)),
    (motion.descent_rate_fpm, (0, 3)), (motion.descent_rate_fpm, (140, NAN)),
    (motion.gradient_ft_per_nm, (11,)), (motion.gradient_percent, (11,)), (motion.gradient_percent, (NAN,)),
    (motion.angle_for_gradient_deg, (-1,)), (motion.angle_for_gradient_deg, (1072,)),
    (motion.climb_rate_fpm, (140, -1)), (motion.climb_rate_fpm, (140, INF)),
    (motion.gradient_for_climb_rate_ft_per_nm, (0.5, 500)), (motion.gradient_for_climb_rate_ft_per_nm, (140, NAN)),
    (motion.distance_flown_ft, (140, -1)), (motion.flying_time_s, (-1, 140)), (motion.flying_time_s, (5, 0)),
    (motion.distance_for_height_ft, (-1, 3)), (motion.distance_for_height_ft, (500, 0)),
    (motion.height_for_distance_ft, (-1, 3)), (motion.height_for_distance_ft, (500, 10.5)),
    (motion.obstacle_gradient_ft_per_nm, (1500, 1000, 0)), (motion.obstacle_gradient_ft_per_nm, (NAN, 1000, 1)),
    (motion.obstacle_surface_slope, (0,)), (motion.obstacle_surface_slope, (NAN,)),
]


@pytest.mark.parametrize(("function", "arguments"), OUTSIDE)
def test_out_of_domain_rejected(function, arguments):
    with pytest.raises(DomainError):
        function(*arguments)
