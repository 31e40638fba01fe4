import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.geodesy.local_frame import ecef_m
from lpv.sbas import masks, sky
from lpv.sbas.constellation import Ecef, baseline, geostationary, gps_seconds
from lpv.sbas.masks import Masks
from lpv.sbas.sky import Sight, Site

NOON = gps_seconds(703, 345600.0)


def test_zenith_and_compass_points_at_equator():
    site = Site(0.0, 0.0)
    assert sky.sight("up", Ecef(2e7, 0.0, 0.0), site).elevation_deg == pytest.approx(90.0)
    for azimuth, offset in ((0.0, (0.0, 1.0)), (90.0, (1.0, 0.0)), (180.0, (0.0, -1.0)), (270.0, (-1.0, 0.0))):
        seen = sky.sight("level", Ecef(6378137.0, 1e6 * offset[0], 1e6 * offset[1]), site)
        assert seen.azimuth_deg == pytest.approx(azimuth)
        assert seen.elevation_deg == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("latitude", [90.0, -90.0])
def test_poles_have_sky(latitude):
    seen = sky.sights(baseline(), Site(latitude, 0.0), NOON)
    assert len(seen) == 24
    assert max(s.elevation_deg for s in seen) < 60.0  # orbits tilted by 55 deg never pass over a pole


def test_date_line_is_one_place():
    east, west = (sky.sights(baseline(), Site(10.0, longitude), NOON) for longitude in (180.0, -180.0))
    for a, b in zip(east, west, strict=True):
        assert a.elevation_deg == pytest.approx(b.elevation_deg, abs=1e-9)


def test_own_place_has_no_direction():
    x, y, z = ecef_m(10.0, 20.0, 0.0)
    with pytest.raises(DomainError):
        sky.sight("here", Ecef(x, y, z), Site(10.0, 20.0))


@pytest.mark.parametrize("site", [Site(91.0, 0.0), Site(0.0, 181.0), Site(math.nan, 0.0), Site(0.0, 0.0, 1e9)])
def test_site_off_earth_refused(site):
    with pytest.raises(DomainError):
        sky.sights(baseline(), site, NOON)


def test_skyline_linear_between_points_and_closed_at_north():
    terrain = ((350.0, 10.0), (10.0, 20.0), (180.0, 0.0))
    assert masks.terrain_elevation_deg(terrain, 350.0) == 10.0
    assert masks.terrain_elevation_deg(terrain, 0.0) == pytest.approx(15.0)
    assert masks.terrain_elevation_deg(terrain, 360.0) == pytest.approx(15.0)
    assert masks.terrain_elevation_deg(terrain, 95.0) == pytest.approx(10.0)
    assert masks.terrain_elevation_deg(terrain, 265.0) == pytest.approx(5.0)


def test_single_point_skyline_level_and_none_hides_nothing():
    assert masks.terrain_elevation_deg(((90.0, 7.0),), 271.0) == pytest.approx(7.0)
    assert masks.terrain_elevation_deg(((0.0, 7.0),), 0.0) == pytest.approx(7.0)
    assert masks.terrain_elevation_deg((), 12.0) == -90.0


@pytest.mark.parametrize("terrain", [((0.0, 91.0),), ((0.0, 1.0), (360.0, 2.0)), ((math.nan, 1.0),)])
def test_impossible_skyline_refused(terrain):
    with pytest.raises(DomainError):
        masks.terrain_elevation_deg(terrain, 10.0)


def test_right_bank_lowers_right_wing_and_shows_more_sky():
    assert masks.elevation_above_wings_deg(90.0, 10.0, 0.0, 25.0) == pytest.approx(35.0)
    assert masks.elevation_above_wings_deg(270.0, 10.0, 0.0, 25.0) == pytest.approx(-15.0)
    assert masks.elevation_above_wings_deg(90.0, 10.0, 0.0, -25.0) == pytest.approx(-15.0)
    assert masks.elevation_above_wings_deg(0.0, 0.0, 0.0, 25.0) == pytest.approx(0.0, abs=1e-12)


@settings(max_examples=60)
@given(st.floats(0.0, 360.0), st.floats(-90.0, 90.0), st.floats(0.0, 360.0))
def test_wings_level_equal_horizon(azimuth, elevation, heading):
    elevation_above = masks.elevation_above_wings_deg(azimuth, elevation, heading, 0.0)
    assert elevation_above == pytest.approx(elevation, abs=1e-5)


@settings(max_examples=60)
@given(st.floats(0.0, 360.0), st.floats(0.0, 90.0), st.floats(0.0, 360.0), st.floats(-60.0, 60.0))
def test_bank_moves_satellite_no_more_than_bank(azimuth, elevation, heading, bank):
    elevation_above = masks.elevation_above_wings_deg(azimuth, elevation, heading, bank)
    assert abs(elevation_above - elevation) <= abs(bank) + 1e-5


@pytest.mark.parametrize(
    "arguments", [(0.0, 91.0, 0.0, 0.0), (0.0, 0.0, 0.0, 91.0), (math.nan, 0.0, 0.0, 0.0), (0.0, 0.0, 1e6, 0.0)]
)
def test_impossible_directions_refused(arguments):
    with pytest.raises(DomainError):
        masks.elevation_above_wings_deg(*arguments)


def test_each_mask_hides_except_satellite_on_mask():
    low = Sight("low", 90.0, 5.0)
    assert masks.in_view(low, Masks())
    assert not masks.in_view(low, Masks(elevation_deg=5.1))
    assert not masks.in_view(low, Masks(terrain=((0.0, 6.0),)))
    assert not masks.in_view(low, Masks(heading_deg=0.0, bank_deg=-25.0))
    assert masks.in_view(low, Masks(heading_deg=0.0, bank_deg=25.0))


def test_baseline_shows_four_to_twelve_satellites_anywhere():
    for latitude in (-90.0, -45.0, 0.0, 45.0, 90.0):
        for hour in range(0, 24, 2):
            count = len(sky.visible(baseline(), Site(latitude, 30.0), NOON + hour * 3600.0, Masks()))
            assert 4 <= count <= 12


@settings(max_examples=60)
@given(st.floats(0.0, 360.0), st.floats(0.0, 360.0), st.floats(-80.0, 80.0))
def test_wing_plane_is_zero_elevation(azimuth, heading, bank):
    elevation = masks.wing_plane_elevation_deg(azimuth, heading, bank)
    assert masks.elevation_above_wings_deg(azimuth, elevation, heading, bank) == pytest.approx(0.0, abs=1e-9)


def test_wing_plane_in_right_bank():
    assert masks.wing_plane_elevation_deg(270.0, 0.0, 25.0) == pytest.approx(25.0)
    assert masks.wing_plane_elevation_deg(90.0, 0.0, 25.0) == pytest.approx(-25.0)
    assert str(masks.wing_plane_elevation_deg(90.0, 0.0, 0.0)) == "0.0"
    with pytest.raises(DomainError):
        masks.wing_plane_elevation_deg(0.0, 0.0, 91.0)


@pytest.mark.parametrize("latitude", [0.0, 34.0, -50.0, 70.0])
@pytest.mark.parametrize("away", [0.0, 30.0, -60.0])
def test_geostationary_elevation_over_round_earth(latitude, away):
    """Independent: a spherical earth, tan E = (cos g - R/r) / sin g, within the flattening's 0.2 deg."""
    seen = sky.sight("geostationary", geostationary(-100.0 + away), Site(latitude, -100.0))
    apart = math.acos(math.cos(math.radians(latitude)) * math.cos(math.radians(away)))
    round_earth = math.degrees(math.atan2(math.cos(apart) - 6371.0 / 42164.2, math.sin(apart)))
    assert seen.elevation_deg == pytest.approx(round_earth, abs=0.25)
