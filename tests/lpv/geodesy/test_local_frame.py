"""Cartesian coordinates and the level frame, against PROJ."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pyproj import Transformer

from lpv.core.errors import DomainError
from lpv.geodesy import earth, local_frame

LATITUDES = st.floats(-90.0, 90.0)
LONGITUDES = st.floats(-180.0, 180.0)
TO_CARTESIAN = Transformer.from_pipeline("+proj=cart +ellps=WGS84")


@settings(max_examples=60)
@given(LATITUDES, LONGITUDES, st.floats(-500.0, 15000.0))
def test_cartesian_coordinates_match_proj(latitude, longitude, height):
    expected = TO_CARTESIAN.transform(longitude, latitude, height)
    assert local_frame.ecef_m(latitude, longitude, height) == pytest.approx(expected, abs=1e-6)


def test_corners_of_earth():
    assert local_frame.ecef_m(0.0, 0.0, 0.0) == pytest.approx((6378137.0, 0.0, 0.0))
    assert local_frame.ecef_m(90.0, 77.0, 0.0) == pytest.approx((0.0, 0.0, 6356752.314245), abs=1e-6)
    assert local_frame.ecef_m(0.0, 180.0, 10.0) == pytest.approx(local_frame.ecef_m(0.0, -180.0, 10.0), abs=1e-6)


@settings(max_examples=60)
@given(LATITUDES, LONGITUDES, st.floats(0.0, 360.0))
def test_axes_unit_length_and_orthogonal(latitude, longitude, course):
    level = local_frame.frame(latitude, longitude, 0.0, course)
    ahead, right, up = level.ahead, level.right, level.up
    for first in (ahead, right, up):
        for second in (ahead, right, up):
            product = sum(a * b for a, b in zip(first, second, strict=True))
            assert product == pytest.approx(1.0 if first is second else 0.0, abs=1e-12)


@settings(max_examples=40)
@given(st.floats(-89.0, 89.0), LONGITUDES, st.floats(0.0, 360.0), st.floats(-5.0, 5.0))
def test_components_match_proj(latitude, longitude, course, distance):
    level = local_frame.frame(latitude, longitude, 100.0, course)
    point = earth.destination(latitude, longitude, 33.0, distance)
    topocentric = Transformer.from_pipeline(
        f"+proj=pipeline +step +proj=cart +ellps=WGS84 +step +proj=topocentric +ellps=WGS84 "
        f"+lon_0={longitude} +lat_0={latitude} +h_0=100"
    )
    east, north, up = topocentric.transform(point.longitude_deg, point.latitude_deg, 700.0)
    sine, cosine = math.sin(math.radians(course)), math.cos(math.radians(course))
    expected = (east * sine + north * cosine, east * cosine - north * sine, up)
    components = local_frame.components_m(level, local_frame.ecef_m(*point, 700.0))
    assert components == pytest.approx(expected, abs=1e-5)


@pytest.mark.parametrize("arguments", [
    (90.1, 0.0, 0.0), (0.0, 180.1, 0.0), (0.0, 0.0, -12001.0), (0.0, 0.0, 100001.0), (math.nan, 0.0, 0.0),
    (0.0, 0.0, math.nan),
])
def test_out_of_domain_rejected(arguments):
    with pytest.raises(DomainError):
        local_frame.ecef_m(*arguments)
    with pytest.raises(DomainError):
        local_frame.frame(*arguments, 0.0)


def test_ellipsoid_matches_geodesics():
    assert float(earth.WGS84.a) == local_frame.RADIUS_M
    assert float(earth.WGS84.f) == local_frame.FLATTENING


def test_axes_and_course_outside_domain():
    with pytest.raises(DomainError, match="latitude"):
        local_frame.axes(-91.0, 0.0)
    with pytest.raises(DomainError, match="course"):
        local_frame.frame(0.0, 0.0, 0.0, 361.0)
