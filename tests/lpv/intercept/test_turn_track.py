"""The drawn turn ends where the closed form says, on the heading that holds the course."""

import math

import pytest

from lpv.intercept.course import turn_onto_course
from lpv.intercept.turn_track import turn_track
from lpv.motion.kinematics import wind_triangle

TURNS = [
    (330, 360, 170, 27, 4, 120, 30), (30, 0, 170, 27, 4, 240, 30), (90, 0, 160, 25, 5, 0, 0), (5, 0, 140, 25, 5, 0, 0),
    (45, 0, 140, 25, 5, 90, 30), (315, 0, 140, 25, 5, 200, 45), (200, 240, 250, 27, 4, 140, 60),
]


@pytest.mark.parametrize("case", TURNS)
def test_track_ends_where_closed_form_says(case):
    track_deg, course_deg, speed_kt, _, roll, wind_from_deg, wind_kt = case
    turn = turn_onto_course(*case)
    points = turn_track(turn, track_deg, course_deg, speed_kt, roll, wind_from_deg, wind_kt)
    along, right = points[-1]
    assert along == pytest.approx(turn.along_nm, rel=0.01)
    assert abs(right) == pytest.approx(turn.cross_track_nm, rel=0.01, abs=0.01 * abs(turn.along_nm))
    assert points[0] == (0.0, 0.0)
    assert len(points) == 401


@pytest.mark.parametrize("case", TURNS)
def test_track_begins_along_track_ends_along_course(case):
    track_deg, course_deg, speed_kt, _, roll, wind_from_deg, wind_kt = case
    points = turn_track(turn_onto_course(*case), track_deg, course_deg, speed_kt, roll, wind_from_deg, wind_kt)
    first = math.degrees(math.atan2(points[1][1], points[1][0]))
    assert (first - (track_deg - course_deg) + 180) % 360 - 180 == pytest.approx(0.0, abs=0.5)
    step = points[-1][0] - points[-2][0], points[-1][1] - points[-2][1]
    assert math.degrees(math.atan2(step[1], step[0])) == pytest.approx(0.0, abs=0.5)
    expected_kt = wind_triangle(course_deg, speed_kt, wind_from_deg, wind_kt).ground_speed_kt
    flown_kt = math.sqrt(step[0] ** 2 + step[1] ** 2) * 400 / turn_onto_course(*case).time_s * 3600
    assert flown_kt == pytest.approx(expected_kt, rel=0.005)


def test_no_turn_gives_no_track():
    turn = turn_onto_course(0, 0, 140, 25, 5, 0, 0)
    assert set(turn_track(turn, 0, 0, 140, 5, 0, 0)) == {(0.0, 0.0)}
