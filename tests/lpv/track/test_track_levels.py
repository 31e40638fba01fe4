"""Altitudes of recordings: each reference to the same height and back, and how uncertain they are."""

from types import SimpleNamespace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from demo.approaches import FOLDER
from lpv.air.atmosphere import pressure_altitude_from_setting_ft
from lpv.approach.record import read
from lpv.core.errors import DomainError
from lpv.core.units import M_PER_FT
from lpv.track.flown import FlownApproach
from lpv.track.levels import levels_of, position_uncertainty_ft
from lpv.track.records import Conditions, Reading, Recording
from lpv.track.target import Target

AK, HC = (read(FOLDER / f"{name}.toml") for name in ("zzak-rnav-09", "zzhc-rnav-33"))


def levels(geometric="", barometric="", approach=AK, decimals=6, **given):
    return levels_of(Recording("a.csv", geometric, barometric, (), decimals), Target(approach), Conditions(**given))


def sample(geometric_ft=None, barometric_ft=None):
    return Reading(1, 0.0, 34.0, -148.0, geometric_ft, barometric_ft)


@given(st.sampled_from([AK, HC]), st.floats(100, 6000), st.floats(-50, 45), st.floats(960, 1050))
@settings(max_examples=40)
def test_every_reference_gives_same_height(approach, above_ft, temperature_c, qnh_hpa):
    true_ft = approach.chart.airport_elevation_ft + above_ft
    given = {"approach": approach, "temperature_c": temperature_c, "qnh_hpa": qnh_hpa}
    by_gnss = levels("msl", **given)
    expected = by_gnss.level(sample(true_ft))
    ellipsoid_ft = expected.ellipsoid_m / M_PER_FT
    assert levels("ellipsoid", **given).level(sample(ellipsoid_ft)).true_ft == pytest.approx(true_ft, abs=1e-6)
    by_altimeter = levels("", "indicated", **given).level(sample(None, expected.indicated_ft))
    assert by_altimeter.true_ft == pytest.approx(true_ft, abs=1e-3)
    assert by_altimeter.recorded
    assert not expected.recorded
    pressure_ft = pressure_altitude_from_setting_ft(expected.indicated_ft, qnh_hpa)
    by_pressure = levels("", "pressure", **given).level(sample(None, pressure_ft))
    assert by_pressure.indicated_ft == pytest.approx(expected.indicated_ft, abs=1e-6)
    assert by_pressure.ellipsoid_m == pytest.approx(expected.ellipsoid_m, abs=1e-3)
    assert by_gnss.expected_ft(true_ft) == expected.indicated_ft


def test_cold_air_makes_aircraft_truly_lower():
    cold = levels("", "indicated", temperature_c=-30.0).level(sample(None, 2000.0))
    warm = levels("", "indicated", temperature_c=40.0).level(sample(None, 2000.0))
    assert cold.true_ft < 1700.0
    assert warm.true_ft > 2100.0
    assert levels("", "indicated").level(sample(None, 2000.0)).true_ft == pytest.approx(2000.0, abs=0.1)


def test_height_by_gnss_reading_by_altimeter():
    both = levels("msl", "indicated", temperature_c=15.0).level(sample(1900.0, 2000.0))
    assert (both.true_ft, both.indicated_ft, both.recorded) == (1900.0, 2000.0, True)
    assert levels("msl", "indicated", temperature_c=15.0).level(sample(None, 2000.0)).true_ft == pytest.approx(
        2000.0, abs=0.5)
    assert levels("msl", "indicated", temperature_c=15.0).level(sample()) is None


def test_reading_uncertainty_at_true_height():
    """At the threshold's level where the recording has no height there."""
    of = SimpleNamespace(levels=SimpleNamespace(threshold_ft=26.0, reading_uncertainty_ft=lambda true_ft: true_ft),
                         doubt_ft=5.0)
    for true_ft, expected_ft in ((1500.0, 1505.0), (None, 31.0)):
        at = SimpleNamespace(true_ft=true_ft, altimeter_noise_ft=0.0)
        assert FlownApproach.reading_uncertainty_ft(of, at) == expected_ft


def test_geoid_from_approach():
    """By EGM96 the geoid lies 23.1 m below the ellipsoid at Kittiwake Bank, 5.3 m at High Fell."""
    assert levels("msl").geoid_ft == pytest.approx(-23.1 / M_PER_FT, abs=0.2)
    assert levels("msl", approach=HC).geoid_ft == pytest.approx(-5.3 / M_PER_FT, abs=0.2)


def test_implausible_altitudes_count_as_none():
    for kinds in (("msl", ""), ("ellipsoid", "")):
        assert levels(*kinds).level(sample(40_000.0)) is None
        assert levels(*kinds).level(sample(-1900.0)) is None
    for kinds in (("", "indicated"), ("", "pressure")):
        assert levels(*kinds, qnh_hpa=1013.25).level(sample(None, 34_000.0)) is None


def test_uncertainty_by_reference():
    """13 m by GNSS; 75 ft, and 5 degrees of the air below, by the altimeter: 5 / 288 of 2000 ft are 35 ft."""
    assert levels("msl").uncertainty_ft(2000.0) == pytest.approx(13.0 / M_PER_FT)
    assert levels("msl", "indicated").uncertainty_ft(300.0) == pytest.approx(13.0 / M_PER_FT)
    on_ground = levels("", "indicated").uncertainty_ft(AK.chart.airport_elevation_ft)
    assert on_ground == pytest.approx(75.0)
    higher = levels("", "pressure", qnh_hpa=1013.0).uncertainty_ft(2031.0)
    assert higher == pytest.approx((75.0**2 + 35.0**2) ** 0.5, abs=1.0)


def test_position_accuracy_from_gnss_and_decimals():
    uncertainties = [position_uncertainty_ft(Recording("a", "msl", "", (), decimals)) for decimals in (7, 4, 2)]
    assert uncertainties[0] == pytest.approx(8.0 / M_PER_FT, abs=0.01)
    assert uncertainties[1] == pytest.approx(((8.0 / M_PER_FT) ** 2 + 18.2**2) ** 0.5, abs=0.1)
    assert uncertainties[2] > 1800.0


def test_pressure_altitudes_need_setting():
    with pytest.raises(DomainError, match="altimeter setting"):
        levels("", "pressure")
    with pytest.raises(DomainError, match="altimeter setting"):
        levels("", "pressure", qnh_hpa=700.0)
    with pytest.raises(DomainError, match="temperature"):
        levels("msl", temperature_c=80.0)
