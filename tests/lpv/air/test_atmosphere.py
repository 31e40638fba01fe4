"""The standard atmosphere and airspeeds, against the ambiance package and by round trips."""

import math

import pytest
from ambiance import Atmosphere
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.air import atmosphere
from lpv.core.errors import DomainError
from lpv.core.units import M_PER_FT, MPS_PER_KT

NAN = math.nan
ALTITUDES = st.floats(-5000.0, 36089.0)
GRID = [-5000.0, -1000.0, 0.0, 1.0, 2500.0, 10000.0, 18000.0, 30000.0, 36089.0]


def reference(altitude_ft):
    """The same level in ambiance, which asks for the geometric height (earth radius of the standard)."""
    geopotential = altitude_ft * M_PER_FT
    return Atmosphere(6356766.0 * geopotential / (6356766.0 - geopotential))


@pytest.mark.parametrize("altitude", GRID)
def test_matches_ambiance(altitude):
    level = reference(altitude)
    celsius = float(level.temperature_in_celsius[0])
    assert atmosphere.isa_temperature_c(altitude) == pytest.approx(celsius, abs=1e-6)
    assert atmosphere.isa_pressure_hpa(altitude) == pytest.approx(float(level.pressure[0]) / 100, rel=1e-6)
    assert atmosphere.isa_density_kg_per_m3(altitude) == pytest.approx(float(level.density[0]), rel=1e-6)
    sound_kt = float(level.speed_of_sound[0]) / MPS_PER_KT
    assert atmosphere.speed_of_sound_kt(celsius) == pytest.approx(sound_kt, rel=1e-6)


@pytest.mark.parametrize("altitude", GRID[:-1])
@pytest.mark.parametrize("calibrated", [60.0, 140.0, 250.0])
def test_true_airspeed_matches_ambiance_levels(altitude, calibrated):
    """Impact pressure by Bernoulli for a compressible gas, in steps, on ambiance's density and pressure."""
    level = reference(altitude)
    pressure, density = float(level.pressure[0]), float(level.density[0])
    true_kt = atmosphere.true_airspeed_kt(calibrated, altitude, float(level.temperature_in_celsius[0]))
    impact = impact_pressure(true_kt * MPS_PER_KT, pressure, density)
    at_sea_level = impact_pressure(calibrated * MPS_PER_KT, 101325.0, 1.225)
    assert impact == pytest.approx(at_sea_level, rel=1e-4)


def impact_pressure(speed, pressure, density, steps=2000):
    """Slow the gas to rest: dp = rho v dv with rho following p as (p / p0)^(1 / 1.4), midpoint steps."""
    impact, step = pressure, speed / steps
    for i in range(steps):
        v = speed - (i + 0.5) * step
        half = impact + density * (impact / pressure) ** (1 / 1.4) * v * step / 2
        impact += density * (half / pressure) ** (1 / 1.4) * v * step
    return impact - pressure


@settings(max_examples=60, deadline=None)
@given(ALTITUDES)
def test_pressure_round_trip(altitude):
    pressure = atmosphere.isa_pressure_hpa(altitude)
    assert atmosphere.pressure_altitude_at_ft(pressure) == pytest.approx(altitude, abs=1e-6)


@settings(max_examples=60, deadline=None)
@given(st.floats(40.0, 300.0), st.floats(-2000.0, 30000.0), st.floats(-60.0, 50.0))
def test_airspeed_round_trip(calibrated, altitude, temperature):
    true_kt = atmosphere.true_airspeed_kt(calibrated, altitude, temperature)
    assert atmosphere.calibrated_airspeed_kt(true_kt, altitude, temperature) == pytest.approx(calibrated)


def test_sea_level_exact():
    assert atmosphere.isa_pressure_hpa(0) == 1013.25
    assert atmosphere.isa_temperature_c(0) == 15.0
    assert atmosphere.pressure_altitude_at_ft(1013.25) == 0.0
    assert atmosphere.true_airspeed_kt(140, 0, 15) == pytest.approx(140)
    assert atmosphere.true_airspeed_rule_kt(140, 0) == 140


def test_altimeter_setting():
    assert atmosphere.pressure_altitude_from_setting_ft(2500, 1013.25) == 2500
    low = atmosphere.pressure_altitude_from_setting_ft(2500, 983.25)
    assert 800 < low - 2500 < 850  # about 27 to 28 ft for each hPa below standard
    assert atmosphere.indicated_altitude_ft(low, 983.25) == pytest.approx(2500)
    assert atmosphere.hpa_from_inches(29.92126) == pytest.approx(1013.25, abs=0.001)


@pytest.mark.parametrize(("altitude", "deviation"), [(0, 0), (3000, 0), (6000, 15), (10000, -20)])
def test_design_formula_close_to_exact(altitude, deviation):
    """At approach speed up to 10 000 ft both ways of getting true airspeed agree within 0.3 %."""
    exact = atmosphere.true_airspeed_kt(140, altitude, atmosphere.isa_temperature_c(altitude) + deviation)
    assert atmosphere.true_airspeed_icao_kt(140, altitude, deviation) == pytest.approx(exact, rel=0.003)


def test_rule_of_thumb_high_in_cold_air():
    assert atmosphere.true_airspeed_rule_kt(140, 8000) > atmosphere.true_airspeed_kt(140, 8000, -40)


OUTSIDE = [
    (atmosphere.isa_temperature_c, (36100,)), (atmosphere.isa_temperature_c, (-5001,)),
    (atmosphere.isa_temperature_c, (NAN,)), (atmosphere.isa_deviation_c, (-91, 0)),
    (atmosphere.isa_pressure_hpa, (NAN,)), (atmosphere.isa_density_kg_per_m3, (40000,)),
    (atmosphere.pressure_altitude_at_ft, (0,)), (atmosphere.pressure_altitude_at_ft, (1300,)),
    (atmosphere.pressure_altitude_at_ft, (NAN,)), (atmosphere.density_kg_per_m3, (0, -91)),
    (atmosphere.hpa_from_inches, (1013,)),
    (atmosphere.pressure_altitude_from_setting_ft, (0, 29.92)), (atmosphere.indicated_altitude_ft, (0, NAN)),
    (atmosphere.pressure_altitude_from_setting_ft, (NAN, 1013)), (atmosphere.speed_of_sound_kt, (-274,)),
    (atmosphere.true_airspeed_kt, (0, 0, 15)), (atmosphere.true_airspeed_kt, (600, 30000, -40)),
    (atmosphere.true_airspeed_kt, (140, 0, NAN)), (atmosphere.calibrated_airspeed_kt, (700, 0, 15)),
    (atmosphere.calibrated_airspeed_kt, (-1, 0, 15)), (atmosphere.true_airspeed_rule_kt, (140, -1)),
    (atmosphere.true_airspeed_rule_kt, (NAN, 0)), (atmosphere.true_airspeed_icao_kt, (140, 0, 51)),
    (atmosphere.true_airspeed_icao_kt, (140, 30000, 0)), (atmosphere.true_airspeed_icao_kt, (140, 0, NAN)),
]


@pytest.mark.parametrize(("function", "arguments"), OUTSIDE)
def test_out_of_domain_rejected(function, arguments):
    with pytest.raises(DomainError):
        function(*arguments)
