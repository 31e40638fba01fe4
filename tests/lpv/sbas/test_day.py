"""A day as the phone computes it, against the readable reference, moment by moment."""

import pytest

from lpv.core.errors import DomainError
from lpv.sbas import day, service
from lpv.sbas.constellation import baseline, baseline_epoch_gps_s, without
from lpv.sbas.error_model import default_error_model
from lpv.sbas.masks import Masks, in_view, ridge
from lpv.sbas.sky import Site, sights

PLACES = ((34.0, -148.5), (-62.0, 5.0), (0.0, 180.0), (89.0, 0.0))
MASKS = (
    Masks(), Masks(heading_deg=85.0, bank_deg=25.0), Masks(heading_deg=300.0, bank_deg=-40.0),
    Masks(terrain=ridge(180.0, 140.0, 20.0, 10.0)), Masks(terrain=ridge(5.0, 60.0, 35.0, 10.0), bank_deg=10.0),
    Masks(elevation_deg=15.0),
)
LOST = ((), ("A1",), ("C3", "F2"))
EVERY = 16


def lost_digits(level_m):
    """The nearer satellites come to fixing no position, the larger the level, and the fewer digits are left of it."""
    return 1e-9 * max(1.0, (level_m / 1000.0) ** 2)


@pytest.mark.parametrize(("latitude_deg", "longitude_deg"), PLACES)
@pytest.mark.parametrize("masks", MASKS)
def test_levels_match_reference(latitude_deg, longitude_deg, masks):
    site, times_s = Site(latitude_deg, longitude_deg), service.times(baseline_epoch_gps_s(), step_s=day.STEP_S)
    assert len(times_s) == day.MOMENTS
    assert times_s[1] - times_s[0] == day.STEP_S
    here = day.Day(latitude_deg, longitude_deg)
    for number, lost in enumerate(LOST):
        moments = here.moments(masks, lost)
        for place in range(number, day.MOMENTS, EVERY):
            orbits = without(baseline(), lost)
            expected = service.epoch(orbits, site, times_s[place], masks, default_error_model())
            moment = moments[place]
            assert moment.satellites == expected.satellites
            fixed = expected.vpl_m is not None
            for name in ("hpl_pa_m", "hpl_npa_m", "vpl_m"):
                level_m = getattr(expected, name)
                assert getattr(moment, name) == (pytest.approx(level_m, rel=lost_digits(level_m)) if fixed else None)


def test_satellite_positions_match_reference():
    here, start_s = day.Day(34.0, -148.5), baseline_epoch_gps_s()
    for place in (0, 100, 191):
        seen = {satellite.name: satellite for satellite in here.satellites(place)}
        for sight in sights(baseline(), Site(34.0, -148.5), start_s + place * day.STEP_S):
            assert (sight.name in seen) == in_view(sight, Masks())
            if sight.name in seen:
                assert seen[sight.name].azimuth_deg == pytest.approx(sight.azimuth_deg, abs=1e-9)
                assert seen[sight.name].elevation_deg == pytest.approx(sight.elevation_deg, abs=1e-9)
    assert day.names() == [orbit.name for orbit in baseline()]


def test_hidden_satellite_names_obstruction():
    low = next(satellite for satellite in day.Day(34.0, -148.5).satellites(0) if satellite.elevation_deg < 20.0)
    away = low.azimuth_deg + 180.0
    cases = (
        (Masks(), (low.name,), "lost"), (Masks(heading_deg=away - 90.0, bank_deg=40.0), (), "bank"),
        (Masks(terrain=ridge(low.azimuth_deg, 20.0, 30.0, 5.0)), (), "terrain"), (Masks(elevation_deg=25.0), (), "low"),
        (Masks(heading_deg=away + 90.0, bank_deg=40.0), ("Z9",), ""),
    )
    for masks, lost, expected in cases:
        assert day.hider(masks, lost)(low) == expected


@pytest.mark.parametrize("count", [0, 3])
def test_too_few_satellites_give_no_position(count):
    moments = day.Day(34.0, -148.5).moments(Masks(), tuple(day.names())[count:])
    assert {moment.vpl_m for moment in moments if moment.satellites < 4} == {None}
    assert max(moment.satellites for moment in moments) <= count


def test_satellites_in_one_direction_fix_no_position():
    sums = day._sums([(1.0, 0.0, 0.0, 90.0, 1.0, "A1")] * 4)
    solution = day._solver()(4, sums)
    assert (solution.satellites, solution.hpl_pa_m, solution.vpl_m) == (4, None, None)


def test_ridge_has_crest_and_feet():
    from lpv.sbas.masks import terrain_elevation_deg

    points = ridge(350.0, 40.0, 20.0, 10.0)
    heights = [terrain_elevation_deg(points, azimuth) for azimuth in (320.0, 325.0, 330.0, 350.0, 10.0, 15.0, 20.0)]
    assert heights == pytest.approx([0.0, 10.0, 20.0, 20.0, 20.0, 10.0, 0.0])
    with pytest.raises(DomainError, match="width of a ridge"):
        ridge(0.0, 350.0, 20.0, 10.0)
