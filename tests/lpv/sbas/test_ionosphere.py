import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.sbas import ionosphere
from lpv.sbas.ionosphere import PiercePoint, cell_variance_m2, pierce_point
from lpv.sbas.shell import obliquity

SOUTH_WEST = (40.0, -100.0)


def by_ray(latitude_deg, longitude_deg, azimuth_deg, elevation_deg):
    """The pierce point by following the ray to a sphere, in space: another method altogether."""
    radius, shell = 6378.1363, 6378.1363 + 350.0
    la, lo, az, el = (math.radians(x) for x in (latitude_deg, longitude_deg, azimuth_deg, elevation_deg))
    up = (math.cos(la) * math.cos(lo), math.cos(la) * math.sin(lo), math.sin(la))
    north = (-math.sin(la) * math.cos(lo), -math.sin(la) * math.sin(lo), math.cos(la))
    east = (-math.sin(lo), math.cos(lo), 0.0)
    ray = [
        math.cos(el) * (math.sin(az) * e + math.cos(az) * n) + math.sin(el) * u
        for e, n, u in zip(east, north, up, strict=True)
    ]
    reach = -radius * math.sin(el) + math.sqrt(shell**2 - (radius * math.cos(el)) ** 2)
    x, y, z = (radius * u + reach * r for u, r in zip(up, ray, strict=True))
    return math.degrees(math.asin(z / shell)), math.degrees(math.atan2(y, x))


@settings(max_examples=150)
@given(st.floats(-90, 90), st.floats(-180, 180), st.floats(0, 360), st.floats(0, 90))
def test_pierce_points_lie_on_ray(latitude, longitude, azimuth, elevation):
    point = pierce_point(latitude, longitude, azimuth, elevation)
    ray_latitude, ray_longitude = by_ray(latitude, longitude, azimuth, elevation)
    assert point.latitude_deg == pytest.approx(ray_latitude, abs=1e-6)
    aside = math.remainder(point.longitude_deg - ray_longitude, 360.0) * math.cos(math.radians(ray_latitude))
    assert aside == pytest.approx(0.0, abs=2e-6)


def test_vertical_ray_pierces_overhead():
    assert pierce_point(60.0, 10.0, 123.0, 90.0) == PiercePoint(pytest.approx(60.0), pytest.approx(10.0))
    assert ionosphere.earth_angle_rad(90.0) == pytest.approx(0.0, abs=1e-12)
    assert obliquity(90.0) == pytest.approx(1.0)


def test_longitude_wraps_at_date_line():
    assert -180.0 <= pierce_point(35.0, 179.5, 90.0, 10.0).longitude_deg < -160.0


@pytest.mark.parametrize(
    "arguments",
    [(91, 0, 0, 5), (0, 361, 0, 5), (0, 0, 361, 5), (0, 0, 0, -1), (0, 0, 0, 91), (math.nan, 0, 0, 5)],
)
def test_impossible_sight_lines_refused(arguments):
    with pytest.raises(DomainError):
        pierce_point(*arguments)


def test_cell_corners_give_own_variance():
    corners = (1.0, 2.0, 3.0, 4.0)
    places = ((40.0, -100.0), (40.0, -95.0), (45.0, -100.0), (45.0, -95.0))
    for place, variance in zip(places, corners, strict=True):
        assert cell_variance_m2(*place, SOUTH_WEST, 5.0, corners) == pytest.approx(variance)


@settings(max_examples=100)
@given(
    st.integers(0, 3), st.floats(0, 1), st.floats(0, 1), st.floats(0, 5), st.floats(-1, 1), st.floats(-1, 1)
)
def test_three_corners_reproduce_every_plane(lost, a, b, offset, slope_north, slope_east):
    """Triangular interpolation is exact for a plane; so is bilinear, and both agree there."""
    if a + b > 1.0:
        a, b = 1.0 - a, 1.0 - b
    east, north = (a if lost in (1, 3) else 1.0 - a), (b if lost in (2, 3) else 1.0 - b)
    height = [
        offset + 2.0 + slope_north * n + slope_east * e for n, e in ((0, 0), (0, 1), (1, 0), (1, 1))
    ]
    expected = offset + 2.0 + slope_north * north + slope_east * east
    place = (40.0 + 5.0 * north, -100.0 + 5.0 * east)
    if a + b <= 1.0 - 1e-9:
        three = [None if i == lost else h for i, h in enumerate(height)]
        assert cell_variance_m2(*place, SOUTH_WEST, 5.0, three) == pytest.approx(expected, abs=1e-9)
    assert cell_variance_m2(*place, SOUTH_WEST, 5.0, height) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("place", "corners"),
    [
        ((39.9, -98.0), (1.0, 1.0, 1.0, 1.0)),
        ((42.0, -94.9), (1.0, 1.0, 1.0, 1.0)),
        ((44.0, -96.0), (1.0, 1.0, 1.0, None)),
        ((41.0, -99.0), (None, 1.0, 1.0, 1.0)),
        ((42.0, -98.0), (1.0, None, None, 1.0)),
        ((42.0, -98.0), (1.0, -1.0, 1.0, 1.0)),
        ((math.nan, -98.0), (1.0, 1.0, 1.0, 1.0)),
    ],
)
def test_no_correction_outside_monitored_grid(place, corners):
    with pytest.raises(DomainError):
        cell_variance_m2(*place, SOUTH_WEST, 5.0, corners)


def test_grid_not_computed_near_poles():
    with pytest.raises(DomainError):
        cell_variance_m2(76.0, 0.0, (75.0, 0.0), 5.0, (1.0, 1.0, 1.0, 1.0))
    assert cell_variance_m2(75.0, 0.0, (75.0, 0.0), 5.0, (1.0, 1.0, 1.0, 1.0)) == 1.0


def test_cell_across_date_line_is_one_cell():
    assert cell_variance_m2(2.5, -177.5, (0.0, 180.0), 5.0, (1.0, 2.0, 3.0, 4.0)) == pytest.approx(2.5)
