"""Courses: north, the sides of variation, and how they are written."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core import course
from lpv.core.errors import DomainError

COURSES = st.floats(0.0, 360.0)
VARIATIONS = st.floats(-180.0, 180.0)


@settings(max_examples=100)
@given(true=COURSES, variation=VARIATIONS)
def test_true_to_magnetic_and_back(true, variation):
    magnetic = course.magnetic_deg(true, variation)
    assert 0.0 <= magnetic < 360.0
    assert math.remainder(course.true_deg(magnetic, variation) - true, 360.0) == pytest.approx(0.0, abs=1e-9)


def test_east_is_least():
    assert course.magnetic_deg(299.9, 15.0) == pytest.approx(284.9)
    assert course.magnetic_deg(5.0, 10.0) == pytest.approx(355.0)
    assert course.magnetic_deg(355.0, -10.0) == pytest.approx(5.0)
    assert course.true_deg(355.0, 10.0) == pytest.approx(5.0)


def test_north_is_zero_as_number():
    assert course.magnetic_deg(360.0, 0.0) == 0.0
    assert course.reciprocal_deg(180.0) == 0.0
    assert course.reciprocal_deg(360.0) == 180.0


@settings(max_examples=100)
@given(start=COURSES, end=COURSES)
def test_difference_turns_shortest_way(start, end):
    turn = course.course_difference_deg(start, end)
    assert -180.0 < turn <= 180.0
    assert math.remainder(start + turn - end, 360.0) == pytest.approx(0.0, abs=1e-9)


def test_differences_across_north_and_opposites():
    assert course.course_difference_deg(350.0, 10.0) == 20.0
    assert course.course_difference_deg(10.0, 350.0) == -20.0
    assert course.course_difference_deg(0.0, 180.0) == course.course_difference_deg(180.0, 0.0) == 180.0
    assert course.course_difference_deg(0.0, 360.0) == 0.0


def test_cross_track():
    assert course.cross_track(10.0, 0.0) == 0.0
    assert course.cross_track(60.0, 1.0) == pytest.approx(1.047, abs=0.0005)  # one in sixty
    assert course.cross_track(10.0, -90.0) == pytest.approx(-10.0)
    for distance, error in ((-1.0, 0.0), (1.0, 181.0), (math.nan, 0.0)):
        with pytest.raises(DomainError):
            course.cross_track(distance, error)


@pytest.mark.parametrize("value", [-0.1, 360.1, math.nan, math.inf])
def test_courses_outside_circle(value):
    with pytest.raises(DomainError, match="course"):
        course.reciprocal_deg(value)
    for function in (course.magnetic_deg, course.true_deg, course.course_difference_deg):
        with pytest.raises(DomainError, match="course"):
            function(value, 0.0)
    with pytest.raises(DomainError, match="variation"):
        course.magnetic_deg(0.0, -200.0 if math.isfinite(value) else value)
