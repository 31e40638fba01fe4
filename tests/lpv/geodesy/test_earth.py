"""Geodesics: round trips, PROJ as the other library, poles, the date line, equal points, texts."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pyproj import Geod

from lpv.core.errors import DomainError, LpvError
from lpv.core.units import M_PER_NM
from lpv.geodesy import earth

LATITUDES = st.floats(-89.0, 89.0)
LONGITUDES = st.floats(-180.0, 180.0)
COURSES = st.floats(0.0, 360.0)
DISTANCES = st.floats(0.01, 4000.0)
PROJ = Geod(ellps="WGS84")
CLOSE = 1e-8  # NM, 0.02 mm


def turned(first: float, second: float) -> float:
    return math.remainder(first - second, 360.0)


@settings(max_examples=60)
@given(LATITUDES, LONGITUDES, COURSES, DISTANCES)
def test_position_and_measurement_round_trip(latitude, longitude, course, distance):
    end = earth.destination(latitude, longitude, course, distance)
    leg = earth.inverse(latitude, longitude, *end)
    assert leg.distance_nm == pytest.approx(distance, abs=CLOSE)
    assert earth.distance_nm(latitude, longitude, *end) == leg.distance_nm
    assert turned(leg.course_deg, course) * distance == pytest.approx(0.0, abs=1e-5)
    back = earth.destination(*end, leg.reverse_course_deg, distance)
    assert earth.distance_nm(latitude, longitude, *back) == pytest.approx(0.0, abs=CLOSE)


@settings(max_examples=60)
@given(LATITUDES, LONGITUDES, LATITUDES, LONGITUDES)
def test_other_library_agrees(latitude_1, longitude_1, latitude_2, longitude_2):
    course, back, metres = PROJ.inv(longitude_1, latitude_1, longitude_2, latitude_2)
    if not 1.0 < metres < 1.9e7:  # beyond that lies the neighbourhood of the antipode, with many courses
        return
    leg = earth.inverse(latitude_1, longitude_1, latitude_2, longitude_2)
    assert leg.distance_nm == pytest.approx(metres / M_PER_NM, abs=CLOSE)
    assert turned(leg.course_deg, course) * leg.distance_nm == pytest.approx(0.0, abs=1e-4)
    assert turned(leg.reverse_course_deg, back) * leg.distance_nm == pytest.approx(0.0, abs=1e-4)
    assert 0.0 <= leg.course_deg < 360.0
    assert 0.0 <= leg.reverse_course_deg < 360.0


def test_equal_points_have_distance_but_no_course():
    assert earth.distance_nm(47.0, 8.0, 47.0, 8.0) == 0.0
    assert earth.destination(47.0, 8.0, 123.0, 0.0) == pytest.approx((47.0, 8.0))
    for point in ((47.0, 8.0, 47.0, 8.0), (90.0, 0.0, 90.0, 120.0), (10.0, 180.0, 10.0, -180.0)):
        with pytest.raises(DomainError, match="same point"):
            earth.inverse(*point)


def test_across_date_line():
    leg = earth.inverse(10.0, 179.5, 10.0, -179.5)
    assert leg.distance_nm == pytest.approx(earth.distance_nm(10.0, 0.0, 10.0, 1.0), abs=CLOSE)
    assert 89.0 < leg.course_deg < 90.0
    assert earth.destination(0.0, 179.5, 90.0, 60.0).longitude_deg == pytest.approx(-179.5, abs=0.01)


def test_across_pole():
    leg = earth.inverse(89.0, 0.0, 89.0, 180.0)
    assert leg.course_deg == leg.reverse_course_deg == 0.0
    assert earth.inverse(90.0, 0.0, 80.0, 0.0).course_deg == 180.0
    assert earth.inverse(-90.0, 0.0, -80.0, 0.0).course_deg == 0.0
    assert earth.distance_nm(-90.0, 12.0, 90.0, 34.0) == pytest.approx(2 * 10001965.729 / M_PER_NM, abs=1e-6)


def test_negative_distance_goes_backwards():
    back = earth.destination(47.0, 8.0, 30.0, -50.0)
    assert back == pytest.approx(earth.destination(47.0, 8.0, 210.0, 50.0), abs=1e-9)


@settings(max_examples=50)
@given(LATITUDES, LONGITUDES, COURSES, st.floats(-1500.0, 1500.0), st.floats(-1500.0, 1500.0))
def test_point_beside_course_found_again(latitude, longitude, course, along, across):
    foot = earth.destination(latitude, longitude, course, along)
    if abs(foot.latitude_deg) > 89.9:
        return
    onward = earth.destination(latitude, longitude, course, along + 1.0)
    ahead = earth.inverse(*foot, *onward).course_deg
    point = earth.destination(*foot, (ahead + 90.0) % 360.0, across)
    relative = earth.perpendicular(latitude, longitude, course, *point)
    assert relative.along_nm == pytest.approx(along, abs=1e-5)
    assert relative.across_nm == pytest.approx(across, abs=1e-5)
    assert earth.distance_nm(relative.latitude_deg, relative.longitude_deg, *foot) == pytest.approx(0.0, abs=1e-5)


def test_foot_points_on_line():
    assert earth.perpendicular(47.0, 8.0, 30.0, 47.0, 8.0) == pytest.approx((47.0, 8.0, 0.0, 0.0), abs=1e-9)
    ahead = earth.destination(47.0, 8.0, 30.0, 100.0)
    assert earth.perpendicular(47.0, 8.0, 30.0, *ahead)[2:] == pytest.approx((100.0, 0.0), abs=1e-7)
    behind = earth.destination(47.0, 8.0, 30.0, -100.0)
    assert earth.perpendicular(47.0, 8.0, 30.0, *behind)[2:] == pytest.approx((-100.0, 0.0), abs=1e-7)


def test_right_is_positive_and_date_line_no_border():
    assert earth.perpendicular(0.0, 179.9, 90.0, -0.1, -179.9).across_nm == pytest.approx(5.97, abs=0.01)
    assert earth.perpendicular(0.0, 179.9, 90.0, 0.1, -179.9).across_nm == pytest.approx(-5.97, abs=0.01)
    assert earth.perpendicular(0.0, 179.9, 90.0, 0.1, -179.9).along_nm == pytest.approx(12.02, abs=0.01)


def test_no_foot_point_for_far_side_of_earth():
    with pytest.raises(DomainError, match="start of the line"):
        earth.perpendicular(0.0, 0.0, 0.0, 0.0, 100.0)


@settings(max_examples=50)
@given(LATITUDES, LONGITUDES, COURSES, st.floats(1.0, 500.0), st.floats(20.0, 160.0), st.floats(1.0, 500.0))
def test_two_courses_from_crossing_meet_there(latitude, longitude, course, first_nm, angle, second_nm):
    first = earth.destination(latitude, longitude, course, first_nm)
    second = earth.destination(latitude, longitude, (course + angle) % 360.0, second_nm)
    to_first = earth.inverse(*first, latitude, longitude).course_deg
    to_second = earth.inverse(*second, latitude, longitude).course_deg
    crossing = earth.intersection(*first, to_first, *second, to_second)
    assert crossing.first_distance_nm == pytest.approx(first_nm, abs=1e-5)
    assert crossing.second_distance_nm == pytest.approx(second_nm, abs=1e-5)
    assert earth.distance_nm(*crossing[:2], latitude, longitude) == pytest.approx(0.0, abs=1e-5)


def test_crossing_behind_and_at_start():
    behind = earth.intersection(0.0, 0.0, 90.0, 1.0, -1.0, 180.0)
    assert behind.first_distance_nm == pytest.approx(-earth.distance_nm(0.0, 0.0, 0.0, -1.0), abs=1e-7)
    assert behind.second_distance_nm == pytest.approx(earth.distance_nm(1.0, -1.0, 0.0, -1.0), abs=1e-7)
    assert earth.intersection(47.0, 8.0, 30.0, 47.0, 8.0, 120.0) == pytest.approx((47.0, 8.0, 0.0, 0.0))


@pytest.mark.parametrize("lines", [
    (0.0, 0.0, 90.0, 0.0, 10.0, 90.0),  # the same line
    (0.0, 0.0, 90.0, 0.0, 10.0, 270.0),  # the same line, towards each other
    (47.0, 8.0, 30.0, 47.0, 8.0, 210.0),  # one start, opposite ways
    (0.0, 0.0, 0.0, 0.0, 90.0, 0.0),  # two meridians that meet at the pole, more than 5000 NM away
])
def test_courses_without_single_crossing(lines):
    with pytest.raises(DomainError, match="crossing"):
        earth.intersection(*lines)


@pytest.mark.parametrize("point", [
    (90.1, 0.0), (-90.1, 0.0), (0.0, 180.1), (0.0, -180.1), (math.nan, 0.0), (0.0, math.nan), (0.0, math.inf),
])
def test_positions_outside_domain(point):
    for call in (
        lambda: earth.distance_nm(*point, 0.0, 0.0), lambda: earth.inverse(0.0, 0.0, *point),
        lambda: earth.destination(*point, 0.0, 1.0), lambda: earth.perpendicular(0.0, 0.0, 0.0, *point),
        lambda: earth.perpendicular(*point, 0.0, 0.0, 0.0), lambda: earth.intersection(0.0, 0.0, 0.0, *point, 90.0),
    ):
        with pytest.raises(DomainError, match="itude"):
            call()


@pytest.mark.parametrize(("course", "distance"), [(-0.1, 1.0), (360.1, 1.0), (math.nan, 1.0), (0.0, 10000.1)])
def test_courses_and_distances_outside_domain(course, distance):
    with pytest.raises(DomainError):
        earth.destination(0.0, 0.0, course, distance)


@pytest.mark.parametrize(("text", "degrees"), [
    ("N37 39 18.6640", 37.655184444), ("40:10:24.5N", 40.173472222), ("N3739186640", 37.655184444),
    ("373918.664N", 37.655184444), ("S373918", -37.655), ("N00 00 00.0", 0.0), ("S90 00 00.0", -90.0),
    ("S0000000000", 0.0),
])
def test_latitudes_as_written(text, degrees):
    latitude = earth.parse_latitude(text)
    assert latitude == pytest.approx(degrees, abs=5e-10)
    assert math.copysign(1.0, latitude) == (-1.0 if degrees < 0.0 else 1.0)


@pytest.mark.parametrize(("text", "degrees"), [
    ("W12206531315", -122.11475875), ("E179 59 59.99", 179.999997222), ("0022110.60W", -2.352944444),
    ("W180 00 00.0", -180.0), ("70:12:45.60000W", -70.2126666667), ("E1223656", 122.615555556),
])
def test_longitudes_as_written(text, degrees):
    assert earth.parse_longitude(text) == pytest.approx(degrees, abs=5e-10)


@pytest.mark.parametrize("text", [
    "", "N", "3739186640", "E3739186640", "N373918664012345", "N37391", "N3760186640", "N3739606640", "N9100000000",
    "N3739186640S", "373918.N", "N-373918", "37.65", "N37 39", "\uff13\uff17\uff13\uff19\uff11\uff18N",
])
def test_invalid_latitude_texts(text):
    with pytest.raises(LpvError):
        earth.parse_latitude(text)


@pytest.mark.parametrize("text", ["", "N12206531315", "W2206531", "W18100000000", "W18000000001", "W12206601315"])
def test_invalid_longitude_texts(text):
    with pytest.raises(LpvError):
        earth.parse_longitude(text)


@settings(max_examples=100)
@given(st.text(alphabet="NSEW0123456789 .:", max_size=16) | st.text(max_size=8))
def test_random_text_raises_only_domain_error(text):
    for reader in (earth.parse_latitude, earth.parse_longitude):
        try:
            assert abs(reader(text)) <= 180.0
        except LpvError:
            continue
