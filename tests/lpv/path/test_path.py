"""The vertical path: round trips, agreement near the threshold, degenerate inputs."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.core.units import FT_PER_NM
from lpv.path import profile as path

ANGLES = st.floats(2.0, 6.5)
CROSSING = st.floats(0.0, 80.0)
ELEVATIONS = st.floats(-1300.0, 14000.0)
PAIRS = [
    (path.straight_path_height_ft, path.straight_path_distance_nm),
    (path.barometric_path_height_ft, path.barometric_path_distance_nm),
    (path.flat_path_height_ft, path.flat_path_distance_nm),
]


@pytest.mark.parametrize(("height", "distance"), PAIRS)
@settings(max_examples=60)
@given(distance_nm=st.floats(-0.5, 30.0), elevation=ELEVATIONS, tch=CROSSING, gpa=ANGLES)
def test_distance_and_height_are_inverse(height, distance, distance_nm, elevation, tch, gpa):
    at = height(distance_nm, elevation, tch, gpa)
    assert distance(at, elevation, tch, gpa) == pytest.approx(distance_nm, abs=1e-9)


@pytest.mark.parametrize(("height", "distance"), PAIRS)
def test_all_paths_cross_threshold_at_crossing_height(height, distance):
    assert height(0.0, 400.0, 52.0, 3.0) == pytest.approx(452.0, abs=1e-7)
    assert distance(452.0, 400.0, 52.0, 3.0) == pytest.approx(0.0, abs=1e-9)


def test_straight_path_rises_with_distance_squared():
    near, far = (path.straight_above_barometric_ft(d, 0.0, 50.0, 3.0) for d in (5.0, 10.0))
    assert far / near == pytest.approx(4.0, rel=0.01)
    assert far == pytest.approx((10.0 * FT_PER_NM) ** 2 / 2.0 / path.EARTH_RADIUS_FT, rel=0.01)


def test_huge_sphere_nearly_flat():
    small, large = (path.straight_path_height_on_sphere_ft(10.0, 0.0, 50.0, 3.0, r) for r in (2.0e7, 2.2e7))
    flat = path.flat_path_height_ft(10.0, 0.0, 50.0, 3.0)
    assert (large - flat) / (small - flat) == pytest.approx(2.0e7 / 2.2e7, rel=0.001)


@settings(max_examples=60)
@given(distance_nm=st.floats(0.5, 30.0), elevation=ELEVATIONS, tch=CROSSING, gpa=ANGLES)
def test_angle_through_path_point_is_path_angle(distance_nm, elevation, tch, gpa):
    curved = path.barometric_path_height_ft(distance_nm, elevation, tch, gpa)
    assert path.barometric_path_angle_deg(distance_nm, curved, elevation, tch) == pytest.approx(gpa, abs=1e-9)


def test_straight_path_matches_line_in_earth_section():
    """The same line drawn with coordinates from the earth's centre."""
    radius, start, angle = path.EARTH_RADIUS_FT, path.EARTH_RADIUS_FT + 452.0, math.radians(3.0)
    run_ft = 60000.0
    x, y = run_ft * math.cos(angle), start + run_ft * math.sin(angle)
    distance_nm = math.atan2(x, y) * radius / FT_PER_NM
    expected = math.sqrt(x * x + y * y) - radius
    assert path.straight_path_height_ft(distance_nm, 400.0, 52.0, 3.0) == pytest.approx(expected, abs=1e-6)


def test_gpip_at_threshold_without_crossing_height():
    assert path.gpip_distance_ft(0.0, 3.0) == 0.0
    gpip_nm = path.gpip_distance_ft(50.0, 3.0) / FT_PER_NM
    assert path.flat_path_height_ft(-gpip_nm, 100.0, 50.0, 3.0) == pytest.approx(100.0, abs=1e-9)


@pytest.mark.parametrize("arguments", [
    (200.1, 0.0, 50.0, 3.0), (-20.1, 0.0, 50.0, 3.0), (math.nan, 0.0, 50.0, 3.0), (5.0, 20001.0, 50.0, 3.0),
    (5.0, -2001.0, 50.0, 3.0), (5.0, 0.0, -0.1, 3.0), (5.0, 0.0, 501.0, 3.0), (5.0, 0.0, 50.0, 0.0),
    (5.0, 0.0, 50.0, 15.1), (5.0, 0.0, 50.0, math.inf),
])
@pytest.mark.parametrize("function", [height for height, _ in PAIRS] + [path.straight_above_barometric_ft])
def test_out_of_domain_rejected(function, arguments):
    with pytest.raises(DomainError):
        function(*arguments)


@pytest.mark.parametrize("function", [distance for _, distance in PAIRS])
def test_heights_outside_domain(function):
    for height in (-2001.0, 60001.0, math.nan):
        with pytest.raises(DomainError, match="height"):
            function(height, 0.0, 50.0, 3.0)


def test_height_never_reached_by_straight_line():
    with pytest.raises(DomainError, match="nowhere as low"):
        path.straight_path_distance_nm(-2000.0, 0.0, 50.0, 0.1)


def test_radius_in_wrong_unit():
    with pytest.raises(DomainError, match="earth radius"):
        path.straight_path_height_on_sphere_ft(5.0, 0.0, 50.0, 3.0, 6371000.0)
    with pytest.raises(DomainError, match="earth radius"):
        path.straight_path_distance_on_sphere_nm(2000.0, 0.0, 50.0, 3.0, 6371000.0)


def test_no_angle_at_threshold():
    with pytest.raises(DomainError, match="distance"):
        path.barometric_path_angle_deg(0.0, 50.0, 0.0, 50.0)
