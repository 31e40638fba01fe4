"""The altimeter on the SBAS path, and the barometric path, in cold and heat."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.air.altimetry import cold_correction_ft
from lpv.air.atmosphere import isa_temperature_c
from lpv.core.errors import DomainError
from lpv.path import temperature as pt

NAN = math.nan
SITE = (50.0, 50.0, 3.0)  # threshold elevation ft, TCH ft, angle deg
ISA_50 = isa_temperature_c(50.0)


def test_standard_day_leaves_earth_curvature():
    """Plane trigonometry with the earth's drop d^2 / 2r added to the slope; 9 NM out that is some 70 ft."""
    distance_ft = 9.0 * 1852 / 0.3048
    slope = math.tan(math.radians(3.0))
    curved = 100.0 + distance_ft * slope + distance_ft**2 / 2 / 20890537 * (1 + 2 * slope**2)
    assert pt.indicated_on_path_ft(9.0, *SITE, ISA_50, 50.0) == pytest.approx(curved, abs=0.5)


def test_little_remains_at_threshold():
    assert pt.indicated_on_path_ft(0.0, *SITE, ISA_50, 50.0) == pytest.approx(100.0, abs=0.01)
    assert pt.indicated_on_path_ft(0.0, *SITE, -40.0, 50.0) == pytest.approx(112.0, abs=1.0)


def test_cold_reads_more_heat_reads_less():
    readings = [pt.indicated_on_path_ft(5.0, *SITE, temperature, 50.0) for temperature in range(-60, 51, 10)]
    assert readings == sorted(readings, reverse=True)
    assert readings[0] > pt.indicated_on_path_ft(5.0, *SITE, ISA_50, 50.0) > readings[-1]


def test_cold_excess_equals_cold_correction():
    standard = pt.indicated_on_path_ft(5.0, *SITE, ISA_50, 50.0)
    cold = pt.indicated_on_path_ft(5.0, *SITE, -30.0, 50.0)
    assert cold - standard == pytest.approx(cold_correction_ft(standard - 50.0, -30.0, 50.0), rel=0.01)


@settings(max_examples=60, deadline=None)
@given(st.floats(0.0, 30.0), st.floats(-60.0, 50.0), st.floats(-500.0, 9000.0), st.floats(2.5, 4.5))
def test_meeting_point_is_inverse(distance, temperature, elevation, angle):
    site = (elevation - 20.0, 50.0, angle)
    indicated = pt.indicated_on_path_ft(distance, *site, temperature, elevation)
    met = pt.path_met_distance_nm(indicated, *site, temperature, elevation)
    assert met == pytest.approx(distance, abs=1e-6)


def test_cold_moves_meeting_point_in():
    """Truly lower, so the path is met closer to the runway."""
    met = [pt.path_met_distance_nm(1700, *SITE, temperature, 50.0) for temperature in range(-60, 51, 10)]
    assert met == sorted(met)
    assert met[0] < pt.path_met_distance_nm(1700, *SITE, ISA_50, 50.0) - 0.8


def test_standard_day_keeps_barometric_angle():
    for elevation in (0.0, 5000.0):
        standard = isa_temperature_c(elevation)
        assert pt.barometric_angle_deg(3.0, standard, elevation) == pytest.approx(3.0, abs=1e-4)


def test_barometric_path_shallower_in_cold_steeper_in_heat():
    assert pt.barometric_angle_deg(3.0, -30.0, 0.0) < 2.6 < 3.0 < pt.barometric_angle_deg(3.0, 40.0, 0.0)
    assert pt.barometric_angle_deg(3.0, -14.0, 0.0) == pytest.approx(3.0 * 259.15 / 288.15, abs=0.001)


@settings(max_examples=40, deadline=None)
@given(st.floats(2.75, 4.0), st.floats(200.0, 5000.0), st.floats(-50.0, 30.0))
def test_order_formulas_are_inverse(gpa, height, deviation):
    angle = pt.order_effective_angle_deg(gpa, height, deviation)
    assert pt.order_isa_deviation_c(gpa, angle, height) == pytest.approx(deviation, abs=1e-6)


def test_order_formula_steeper_than_physical_angle():
    """Its allowance of 0.032 a + 4.9 ft takes back a third of 29 °C of cold, so it is no substitute for the angle."""
    physical = pt.barometric_angle_deg(3.0, 15.0 - 29.0, 0.0)
    assert physical == pytest.approx(2.70, abs=0.005)
    assert pt.order_effective_angle_deg(3.0, 1600, -29) - physical == pytest.approx(0.066, abs=0.002)
    assert pt.order_effective_angle_deg(3.0, 1600, 0) > 3.0


def test_order_height_loss_matches_print():
    """el = 133.56 ft in the example of Formula 3-5: 1600 ft less what 2.75 deg has in the distance of 3 deg.

    Unrounded it is 133.55; the order's figure comes from tan(2.75 deg) cut to 0.048033.
    """
    distance_ft = 1600 / math.tan(math.radians(3.0))
    assert 1600 - distance_ft * math.tan(math.radians(2.75)) == pytest.approx(133.55, abs=0.005)
    assert 1600 - distance_ft * 0.048033 == pytest.approx(133.56, abs=0.005)
    assert pt.order_lowest_angle_deg(3.0) == pytest.approx(2.75, abs=0.005)


ON_PATH = (50.0, 50.0, 3.0, -20.0, 50.0)
OUTSIDE = [
    (pt.indicated_on_path_ft, (-0.1, *ON_PATH)), (pt.indicated_on_path_ft, (61, *ON_PATH)),
    (pt.indicated_on_path_ft, (NAN, *ON_PATH)), (pt.indicated_on_path_ft, (5, 50, 50, 10.1, -20, 50)),
    (pt.indicated_on_path_ft, (5, 50, 50, 3, -91, 50)), (pt.indicated_on_path_ft, (5, 50, 50, 3, -20, NAN)),
    (pt.indicated_on_path_ft, (5, 50, -1, 3, -20, 50)),
    (pt.path_met_distance_nm, (NAN, *ON_PATH)), (pt.path_met_distance_nm, (1700, 50, 50, 11, -20, 50)),
    (pt.path_met_distance_nm, (1700, 50, 50, 3, NAN, 50)), (pt.path_met_distance_nm, (40000, *ON_PATH)),
    (pt.barometric_angle_deg, (0, 0, 0)), (pt.barometric_angle_deg, (10.1, 0, 0)),
    (pt.barometric_angle_deg, (3, -91, 0)), (pt.barometric_angle_deg, (3, NAN, 0)),
    (pt.order_effective_angle_deg, (3, 99, -29)),
    (pt.order_effective_angle_deg, (3, 1600, NAN)), (pt.order_effective_angle_deg, (3, 1600, -101)),
    (pt.order_isa_deviation_c, (3, 0, 1600)), (pt.order_isa_deviation_c, (3, 2.75, NAN)),
    (pt.order_lowest_angle_deg, (10.1,)), (pt.order_lowest_angle_deg, (NAN,)),
]


@pytest.mark.parametrize(("function", "arguments"), OUTSIDE)
def test_out_of_domain_rejected(function, arguments):
    with pytest.raises(DomainError):
        function(*arguments)
