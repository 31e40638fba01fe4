"""Slowing down: against closed form and step-by-step integration, and at the edges."""

import math
from itertools import pairwise

import pytest

from lpv.core.errors import DomainError
from lpv.motion.slowing import moment_at, reached_nm, slow_down, slowing_distance_nm

NAN = math.nan


def test_slowing_distance_is_mean_speed_times_time():
    assert slowing_distance_nm(200, 140, 1.0) == pytest.approx(170 * 60 / 3600)
    assert slowing_distance_nm(140, 140, 1.0) == 0.0


@pytest.mark.parametrize(
    "arguments", [(139, 140, 1), (NAN, 140, 1), (160, 0.5, 1), (160, 140, 0), (160, 140, 10.1), (1001, 140, 1)]
)
def test_slowing_distance_domain(arguments):
    with pytest.raises(DomainError):
        slowing_distance_nm(*arguments)


def test_one_step_reaches_its_speed_where_the_closed_form_says():
    moments = slow_down([(10.0, 140.0)], 200.0, 6.0, 1.0, 0.5, 1.0, 0.0)
    assert reached_nm(moments, 140.0) == pytest.approx(10 - slowing_distance_nm(200, 140, 1.0), abs=0.01)
    assert moments[0].distance_nm == 10.0
    assert moments[-1].distance_nm == 0.0
    assert all(later.airspeed_kt <= sooner.airspeed_kt for sooner, later in pairwise(moments))


def test_deceleration_changes_at_the_pfaf():
    """Half a mile level, the rest on the path: both parts by the closed form."""
    moments = slow_down([(6.5, 140.0)], 160.0, 6.0, 1.0, 0.4, 1.0, 0.0)
    at_pfaf_kt = math.sqrt(160**2 - 7200 * 1.0 * 0.5)
    assert moment_at(moments, 6.0).airspeed_kt == pytest.approx(at_pfaf_kt, abs=0.3)  # one step of 0.01 NM
    expected_nm = 6.0 - slowing_distance_nm(at_pfaf_kt, 140.0, 0.4)
    assert reached_nm(moments, 140.0) == pytest.approx(expected_nm, abs=0.02)


def integrated(schedule, first_kt, pfaf_nm, level, path, factor, tailwind, step_s=0.02):
    """(distance at which the last speed is reached, seconds to the threshold), stepping in time."""
    distance, speed, time, reached = schedule[0][0], first_kt, 0.0, None
    while distance > 0:
        target = min(kt for begins, kt in schedule if begins >= distance)
        speed = max(target, speed - (level if distance > pfaf_nm else path) * step_s) if speed > target else speed
        distance -= (speed * factor + tailwind) * step_s / 3600
        time += step_s
        if reached is None and speed <= schedule[-1][1]:
            reached = distance
    return reached, time


@pytest.mark.parametrize("tailwind", [-30.0, 0.0, 20.0])
@pytest.mark.parametrize("factor", [1.0, 1.05])
def test_a_whole_schedule_against_stepping_in_time(tailwind, factor):
    schedule = [(14.0, 190.0), (10.0, 170.0), (8.0, 160.0), (6.5, 138.0)]
    arguments = (schedule, 230.0, 6.0, 1.0, 0.4, factor, tailwind)
    moments = slow_down(*arguments)
    reached, time_s = integrated(*arguments)
    assert reached_nm(moments, 138.0) == pytest.approx(reached, abs=0.03)
    assert moments[-1].time_s == pytest.approx(time_s, rel=0.001)


def test_without_deceleration_the_speed_stays():
    moments = slow_down([(5.0, 120.0)], 150.0, 6.0, 1.0, 0.0, 1.0, 0.0)
    assert {moment.airspeed_kt for moment in moments} == {150.0}
    assert reached_nm(moments, 120.0) is None
    assert moments[-1].time_s == pytest.approx(120.0)


def test_a_step_behind_the_threshold_never_begins():
    moments = slow_down([(5.0, 150.0), (-1.0, 120.0)], 150.0, 4.0, 1.0, 1.0, 1.0, 0.0)
    assert moments[-1].airspeed_kt == 150.0


def test_a_target_that_is_faster_than_the_first_speed_changes_nothing():
    moments = slow_down([(5.0, 160.0)], 140.0, 4.0, 1.0, 1.0, 1.0, 0.0)
    assert moments[-1].airspeed_kt == 140.0


def test_moment_at_both_ends():
    moments = slow_down([(5.0, 150.0)], 150.0, 4.0, 1.0, 1.0, 1.0, 0.0)
    assert moment_at(moments, 5.0) == moments[0]
    assert moment_at(moments, 0.0) == moments[-1]
    assert moment_at(moments, 4.0).distance_nm == pytest.approx(4.0)
    for outside in (5.01, -0.01, NAN):
        with pytest.raises(DomainError):
            moment_at(moments, outside)


@pytest.mark.parametrize(
    "change",
    [
        {"schedule": []}, {"schedule": [(0.0, 140.0)]}, {"schedule": [(61.0, 140.0)]}, {"schedule": [(5.0, 39.0)]},
        {"schedule": [(5.0, 140.0), (6.0, 130.0)]}, {"schedule": [(6.0, 140.0), (5.0, 150.0)]},
        {"first_kt": 401.0}, {"first_kt": NAN}, {"pfaf_nm": 0.0}, {"level_kt_per_s": -0.1}, {"path_kt_per_s": 11.0},
        {"true_per_indicated": 0.7}, {"tailwind_kt": 101.0}, {"schedule": [(5.0, 60.0)], "tailwind_kt": -60.0},
        {"first_kt": 50.0, "tailwind_kt": -50.0},
    ],
)
def test_domain(change):
    usual = {
        "schedule": [(10.0, 140.0)], "first_kt": 200.0, "pfaf_nm": 6.0, "level_kt_per_s": 1.0,
        "path_kt_per_s": 0.5, "true_per_indicated": 1.0, "tailwind_kt": 0.0,
    }
    with pytest.raises(DomainError):
        slow_down(**(usual | change))
