"""Energy on an approach: closed forms, an energy balance, an independent integration, and the edges."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.motion import energy
from lpv.motion.energy import Course, Step, moment_at, ready, slow_down

NAN = math.nan
CLEAN = [(130.0, 0.7), (250.0, 1.1)]
STEPS = [
    Step(14.0, 190.0, 230.0, 5.0, [(180.0, 1.3)]), Step(10.0, 170.0, 210.0, 7.0, [(160.0, 1.7)]),
    Step(8.0, 160.0, 200.0, 10.0, [(150.0, 2.4)]), Step(6.5, 138.0, 175.0, 7.0, [(135.0, 3.1)]),
]
STILL = Course(6.0, 3.0, 1.0, 0.0)
G_KT = 9.80665 * 3600.0 / 1852.0


def test_one_knot_per_second_uses_all_of_three_degrees():
    assert energy.path_deceleration_kt_per_s(1.0, 3.0) == pytest.approx(1.0 - G_KT * math.sin(math.radians(3.0)))
    assert energy.path_deceleration_kt_per_s(1.0, 3.0) == pytest.approx(0.002, abs=5e-4)
    assert energy.gravity_kt_per_s(3.0) == pytest.approx(0.998, abs=5e-4)


@given(st.floats(0.05, 4.0))
def test_steepest_held_angle_leaves_no_deceleration(level):
    angle_deg = energy.steepest_held_deg(level)
    assert G_KT * math.sin(math.radians(angle_deg)) == pytest.approx(level)


@pytest.mark.parametrize(("tailwind_kt", "expected_deg"), [(0.0, 3.0), (10.0, 3.214), (-20.0, 2.571)])
def test_angle_through_air(tailwind_kt, expected_deg):
    """By hand: the same rate of descent, 140 kt of airspeed."""
    sine = (140.0 + tailwind_kt) / 140.0 * math.tan(math.radians(3.0))
    angle = energy.air_angle_deg(3.0, 140.0, tailwind_kt)
    assert angle == pytest.approx(math.degrees(math.asin(sine)))
    assert angle == pytest.approx(expected_deg, abs=0.01)


def test_energy_height_and_rate():
    """140 kt is 236.3 ft/s; squared over 2 g, 64.35 ft/s2, 868 ft."""
    assert energy.energy_height_ft(1000.0, 140.0) == pytest.approx(1868.0, abs=1.0)
    per_second = energy.energy_height_ft(0.0, 140.5) - energy.energy_height_ft(0.0, 139.5)
    assert energy.energy_rate_fps(1.0, 140.0) == pytest.approx(per_second)
    assert energy.energy_rate_fps(0.0, 140.0) == 0.0


def test_wind_changing_during_descent():
    assert energy.shear_kt_per_s(20.0, 1200.0) == pytest.approx(0.4)
    assert energy.shear_kt_per_s(-20.0, 600.0) == pytest.approx(-0.2)
    assert energy.shear_kt_per_s(50.0, 0.0) == 0.0


def test_slowing_distance_is_mean_speed_times_time():
    assert energy.slowing_distance_nm(200, 140, 1.0) == pytest.approx(170 * 60 / 3600)
    assert energy.slowing_distance_nm(140, 140, 1.0) == 0.0


def test_drag_interpolated_between_rows():
    assert [energy.level_deceleration_kt_per_s(CLEAN, kt) for kt in (100.0, 130.0, 190.0, 250.0, 300.0)] == [
        0.7, 0.7, pytest.approx(0.9), 1.1, 1.1]
    assert energy.level_deceleration_kt_per_s([(150.0, 2.0)], 90.0) == 2.0


def integrated(rows, steps, from_nm, first_kt, course, extra=0.0):
    """Another method: steps of a hundredth of a second, by Euler, with the same rules."""
    step_s, distance, airspeed, time_s, ends, log = 0.01, from_nm, first_kt, 0.0, [], []
    while distance > 0.0:
        if len(ends) < len(steps) and distance <= steps[len(ends)].begins_nm and airspeed <= steps[len(ends)].limit_kt:
            ends.append(max([time_s, *ends[-1:]]) + steps[len(ends)].takes_s)
        moved = sum(end <= time_s for end in ends)
        drag = steps[moved - 1].rows if moved else rows
        speeds = [step.target_kt for step in steps if step.begins_nm >= distance]
        target = speeds[-1] if speeds else first_kt
        (v0, a0), (v1, a1) = drag[0], drag[-1]
        share = 0.0 if v1 == v0 else min(1.0, max(0.0, (airspeed - v0) / (v1 - v0)))
        true_kt = airspeed * course.true_per_indicated
        ground = true_kt + course.tailwind_kt
        sine = 0.0 if distance > course.pfaf_nm else ground / true_kt * math.tan(math.radians(course.angle_deg))
        change = (-(a0 + share * (a1 - a0)) - extra + G_KT * sine) * step_s / course.true_per_indicated
        airspeed = airspeed + change if change > 0.0 else max(airspeed + change, min(airspeed, target))
        distance -= ground * step_s / 3600.0
        time_s += step_s
        log.append((distance, airspeed, time_s))
    return log


@pytest.mark.parametrize("course", [STILL, Course(6.0, 3.0, 1.05, 10.0), Course(6.0, 3.5, 1.0, -20.0)])
@pytest.mark.parametrize("first_kt", [230.0, 200.0])
def test_schedule_matches_integration_in_time(course, first_kt):
    flown, other = slow_down(CLEAN, STEPS, 15.0, first_kt, course), integrated(CLEAN, STEPS, 15.0, first_kt, course)
    for distance, airspeed, time_s in other[::500]:
        if distance > 0.0:
            assert moment_at(flown, distance).airspeed_kt == pytest.approx(airspeed, abs=0.8)
            assert moment_at(flown, distance).time_s == pytest.approx(time_s, abs=0.4)
    assert flown[-1].distance_nm == 0.0
    assert all(later.time_s > sooner.time_s for sooner, later in pairwise(flown))


def test_energy_balance_along_idle_schedule():
    """Height and speed together fall by drag alone while the thrust is idle: V a / g, whatever the path."""
    way = slow_down([(100.0, 1.4)], [Step(12.0, 60.0, 400.0, 0.0, [(100.0, 1.4)])], 12.0, 230.0, STILL)
    idle = [m for m in way if m.airspeed_kt > 62.0 and m.distance_nm > 0.0]
    height = [max(0.0, min(m.distance_nm, 6.0)) * 6076.115 * math.tan(math.radians(3.0)) for m in idle]
    lost = energy.energy_height_ft(height[0], idle[0].airspeed_kt) - energy.energy_height_ft(
        height[-1], idle[-1].airspeed_kt)
    work = sum((a.airspeed_kt + b.airspeed_kt) / 2.0 * 1.68781 * 1.4 / G_KT * (b.time_s - a.time_s)
               for a, b in pairwise(idle))
    assert lost == pytest.approx(work, rel=0.01)
    assert lost > 2000.0


def test_clean_aircraft_accelerates_on_path():
    way = slow_down(CLEAN, [Step(6.0, 140.0, 100.0, 5.0, [(100.0, 3.0)])], 6.0, 180.0, STILL)
    assert way[-1].moved == 0  # never under the limit
    assert way[-1].airspeed_kt > 185.0
    assert all(m.rate_kt_per_s < 0.0 for m in way)


def test_thrust_holds_target_and_never_slows_from_below():
    way = slow_down(CLEAN, [Step(10.0, 160.0, 230.0, 0.0, [(150.0, 2.4)])], 10.0, 150.0, STILL)
    assert {round(m.airspeed_kt, 6) for m in way} == {150.0}


def test_configuration_waits_for_limit_and_takes_time():
    way = slow_down(CLEAN, [Step(10.0, 150.0, 180.0, 10.0, [(150.0, 2.4)])], 10.0, 200.0, STILL)
    begins_nm = next(m.distance_nm for m in way if m.airspeed_kt <= 180.0)
    moved = next(m for m in way if m.moved == 1)
    begun = moment_at(way, begins_nm)
    assert begins_nm < 9.0
    assert moved.time_s - begun.time_s == pytest.approx(10.0, abs=0.3)


def test_latest_schedule_place_is_readiness_boundary():
    shift = energy.latest_shift_nm(CLEAN, STEPS, 14.0, 230.0, STILL, 3.0)
    assert 1.0 < shift < 5.0
    for nearer, expected in ((shift - 0.05, True), (shift + 0.05, False)):
        steps = [step.later(nearer) for step in STEPS]
        assert ready(slow_down(CLEAN, steps, 14.0, 230.0, STILL), steps, 3.0) is expected


def test_latest_last_step_place():
    last = energy.latest_last_step_nm(CLEAN, STEPS, 14.0, 230.0, STILL, 3.0)
    assert 3.0 < last < 6.5
    for begins_nm, expected in ((last + 0.05, True), (last - 0.05, False)):
        steps = [*STEPS[:-1], STEPS[-1].later(STEPS[-1].begins_nm - begins_nm)]
        assert ready(slow_down(CLEAN, steps, 14.0, 230.0, STILL), steps, 3.0) is expected


def test_tailwind_needs_earlier_schedule():
    calm, tail, head = (
        energy.latest_shift_nm(CLEAN, STEPS, 14.0, 230.0, Course(6.0, 3.0, 1.0, kt), 3.0) for kt in (0.0, 15.0, -15.0))
    assert tail < calm < head


def test_fastest_speed_is_readiness_boundary():
    """On the path from 6 NM, clean, all to be moved; a speed brake allows more, and less the sooner it is stowed."""
    left = [Step(6.0, 138.0, step.limit_kt, step.takes_s, step.rows) for step in STEPS]
    fastest = energy.fastest_kt(CLEAN, left, 6.0, 300.0, STILL, 3.0, 5.0)
    assert 150.0 < fastest < 260.0
    for first_kt, expected in ((fastest - 0.1, True), (fastest + 0.1, False)):
        assert ready(slow_down(CLEAN, left, 6.0, first_kt, STILL), left, 3.0, 5.0) is expected
    with_brake = [energy.fastest_kt(CLEAN, left, 6.0, 300.0, STILL, 3.0, 5.0, 0.8, to_nm) for to_nm in (3.0, 4.5, 6.1)]
    assert with_brake[0] > with_brake[1] > with_brake[2] == pytest.approx(fastest)
    assert energy.fastest_kt(CLEAN, left, 6.0, 139.0, STILL, 3.0, 5.0) == 139.0


def test_no_speed_slow_enough_without_time():
    left = [Step(3.1, 138.0, 175.0, 30.0, [(135.0, 3.1)])]
    assert energy.fastest_kt(CLEAN, left, 3.1, 300.0, STILL, 3.0) is None


def test_on_speed_while_thrust_spools_up():
    """Slowed down just before a gate it is ready there at once, but has not been for 5 s, 0.19 NM at 138 kt."""
    way = slow_down(CLEAN, STEPS, 14.0, 230.0, STILL)
    reached_nm = next(m.distance_nm for m in way if m.moved == 4 and m.airspeed_kt <= 138.5)
    assert ready(way, STEPS, reached_nm - 0.03)
    assert not ready(way, STEPS, reached_nm - 0.15, 5.0)
    assert ready(way, STEPS, reached_nm - 0.24, 5.0)


def test_impossible_schedule_has_no_latest_place():
    slippery = [Step(8.0, 120.0, 200.0, 5.0, [(120.0, 0.5)])]
    assert energy.latest_shift_nm([(120.0, 0.4)], slippery, 14.0, 230.0, STILL, 5.9) is None
    assert energy.latest_last_step_nm([(120.0, 0.4)], slippery, 8.0, 230.0, STILL, 5.9) is None


@settings(max_examples=30, deadline=None)
@given(st.floats(-20.0, 20.0), st.floats(0.0, 4.5), st.floats(0.95, 1.2), st.floats(150.0, 230.0))
def test_more_drag_never_faster(tailwind_kt, angle_deg, factor, first_kt):
    course = Course(6.0, angle_deg, factor, tailwind_kt)
    plain, braked = (slow_down(CLEAN, STEPS, 14.0, first_kt, course, extra) for extra in (0.0, 0.5))
    for tenths in range(140):
        assert speed_at(braked, tenths / 10.0) <= speed_at(plain, tenths / 10.0) + 0.02


def speed_at(way, distance_nm):
    """Straight between two moments."""
    for before, after in pairwise(way):
        if after.distance_nm <= distance_nm:
            share = (before.distance_nm - distance_nm) / (before.distance_nm - after.distance_nm)
            return before.airspeed_kt + share * (after.airspeed_kt - before.airspeed_kt)
    return way[-1].airspeed_kt


@pytest.mark.parametrize("call", [
    lambda: energy.gravity_kt_per_s(15.1), lambda: energy.gravity_kt_per_s(NAN),
    lambda: energy.path_deceleration_kt_per_s(-0.1, 3.0), lambda: energy.steepest_held_deg(10.1),
    lambda: energy.air_angle_deg(3.0, 140.0, -140.0), lambda: energy.air_angle_deg(11.0, 140.0, 0.0),
    lambda: energy.energy_height_ft(0.0, 1001.0), lambda: energy.energy_rate_fps(1.0, NAN),
    lambda: energy.shear_kt_per_s(201.0, 0.0), lambda: energy.shear_kt_per_s(0.0, -1.0),
    lambda: energy.slowing_distance_nm(139, 140, 1), lambda: energy.slowing_distance_nm(160, 140, 0),
    lambda: energy.level_deceleration_kt_per_s([], 140.0),
    lambda: Step(61.0, 140.0, 200.0, 1.0, CLEAN), lambda: Step(6.0, 30.0, 200.0, 1.0, CLEAN),
    lambda: Step(6.0, 140.0, 0.0, 1.0, CLEAN), lambda: Step(6.0, 140.0, 200.0, 121.0, CLEAN),
    lambda: Course(0.0, 3.0, 1.0, 0.0), lambda: Course(6.0, 11.0, 1.0, 0.0), lambda: Course(6.0, 3.0, 0.5, 0.0),
    lambda: Course(6.0, 3.0, 1.0, 101.0),
    lambda: slow_down(CLEAN, STEPS, 61.0, 200.0, STILL), lambda: slow_down(CLEAN, STEPS, 14.0, 401.0, STILL),
    lambda: slow_down(CLEAN, STEPS, 14.0, 200.0, STILL, 5.1), lambda: slow_down(CLEAN, STEPS[::-1], 14.0, 200.0, STILL),
    lambda: slow_down(CLEAN, [Step(6.0, 60.0, 200.0, 1.0, CLEAN)], 14.0, 200.0, Course(6.0, 3.0, 1.0, -70.0)),
    lambda: moment_at(slow_down(CLEAN, STEPS, 14.0, 200.0, STILL), 14.1),
])
def test_out_of_domain_rejected(call):
    with pytest.raises(DomainError):
        call()


def test_reached_and_moments_at_ends():
    way = slow_down(CLEAN, STEPS, 14.0, 230.0, STILL)
    assert energy.reached_nm(way, 230.0) == 14.0
    assert energy.reached_nm(way, 190.0) == pytest.approx(
        next(m.distance_nm for m in way if m.airspeed_kt <= 190.0))
    assert energy.reached_nm(way, 100.0) is None
    assert (moment_at(way, 14.0).distance_nm, moment_at(way, 0.0).distance_nm) == (14.0, 0.0)
    assert 7.005 <= moment_at(way, 7.005).distance_nm <= 7.015
