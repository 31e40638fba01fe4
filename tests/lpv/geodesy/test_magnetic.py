"""The magnetic model against a second implementation of its sum, its validity, and its limits."""

import math
from pathlib import Path

import pygeomag
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core import airac
from lpv.core.errors import DomainError
from lpv.geodesy import magnetic

DEGREE = 12
SPHERE_KM = 6371.2


def coefficients(year):
    """Gauss coefficients (n, m) -> (g, h) at a year, from the published file that the package carries."""
    lines = (Path(pygeomag.__file__).parent / "wmm" / "WMM_2025.COF").read_text().splitlines()[1:]
    coefficients_read = {}
    for line in lines:
        row = line.split()
        if len(row) == 6:
            g, h, g_dot, h_dot = map(float, row[2:])
            coefficients_read[int(row[0]), int(row[1])] = (g + (year - 2025.0) * g_dot, h + (year - 2025.0) * h_dot)
    return coefficients_read


def legendre(sine, cosine):
    """Schmidt quasi-normalised functions of the colatitude and their derivatives, by (n, m)."""
    value, slope = {(0, 0): 1.0}, {(0, 0): 0.0}
    for n in range(1, DEGREE + 1):
        scale = 1.0 if n == 1 else math.sqrt((2 * n - 1) / (2 * n))
        value[n, n] = scale * sine * value[n - 1, n - 1]
        slope[n, n] = scale * (sine * slope[n - 1, n - 1] + cosine * value[n - 1, n - 1])
        for m in range(n):
            root, before = math.sqrt(n * n - m * m), math.sqrt(max(0, (n - 1) ** 2 - m * m))
            lower = value.get((n - 2, m), 0.0), slope.get((n - 2, m), 0.0)
            value[n, m] = ((2 * n - 1) * cosine * value[n - 1, m] - before * lower[0]) / root
            turned = cosine * slope[n - 1, m] - sine * value[n - 1, m]
            slope[n, m] = ((2 * n - 1) * turned - before * lower[1]) / root
    return value, slope


def summed_field(latitude_deg, longitude_deg, height_m, year):
    """North, east and down by the sum over all harmonics, away from the poles."""
    latitude, longitude = math.radians(latitude_deg), math.radians(longitude_deg)
    flattening = 1.0 / 298.257223563
    squared = flattening * (2.0 - flattening)
    normal_km = 6378.137 / math.sqrt(1.0 - squared * math.sin(latitude) ** 2)
    across = (normal_km + height_m / 1000.0) * math.cos(latitude)
    upward = (normal_km * (1.0 - squared) + height_m / 1000.0) * math.sin(latitude)
    radius = math.hypot(across, upward)
    sine, cosine = across / radius, upward / radius
    value, slope = legendre(sine, cosine)
    north = east = down = 0.0
    for (n, m), (g, h) in coefficients(year).items():
        fading = (SPHERE_KM / radius) ** (n + 2)
        cos_m, sin_m = math.cos(m * longitude), math.sin(m * longitude)
        north += fading * (g * cos_m + h * sin_m) * slope[n, m]
        east += fading * m * (g * sin_m - h * cos_m) * value[n, m] / sine
        down -= fading * (n + 1) * (g * cos_m + h * sin_m) * value[n, m]
    tilt = math.asin(cosine) - latitude
    return (
        north * math.cos(tilt) - down * math.sin(tilt), east, north * math.sin(tilt) + down * math.cos(tilt),
    )


@settings(max_examples=25)
@given(st.floats(-85.0, 85.0), st.floats(-180.0, 180.0), st.floats(-500.0, 20000.0), st.floats(2025.0, 2030.0))
def test_field_is_sum_of_harmonics(latitude, longitude, height, year):
    field = magnetic.model_field(latitude, longitude, height, year)
    expected = summed_field(latitude, longitude, height, year)
    assert (field.north_nt, field.east_nt, field.down_nt) == pytest.approx(expected, abs=0.001)


@settings(max_examples=25)
@given(st.floats(-90.0, 90.0), st.floats(-180.0, 180.0), st.floats(2025.0, 2030.0))
def test_field_parts_consistent(latitude, longitude, year):
    field = magnetic.model_field(latitude, longitude, 0.0, year)
    assert field.horizontal_nt == pytest.approx(math.hypot(field.north_nt, field.east_nt))
    assert field.total_nt == pytest.approx(math.hypot(field.horizontal_nt, field.down_nt))
    assert field.variation_deg == pytest.approx(math.degrees(math.atan2(field.east_nt, field.north_nt)))
    assert field.inclination_deg == pytest.approx(math.degrees(math.atan2(field.down_nt, field.horizontal_nt)))
    assert magnetic.model_variation_deg(latitude, longitude, 0.0, year) == field.variation_deg


def test_date_line_and_poles_have_one_field():
    west, east = (magnetic.model_field(20.0, side, 0.0, 2026.0) for side in (-180.0, 180.0))
    assert west.variation_deg == pytest.approx(east.variation_deg, abs=1e-9)
    totals = [magnetic.model_field(90.0, longitude, 0.0, 2026.0).total_nt for longitude in (0.0, 90.0, 180.0)]
    assert totals == pytest.approx([totals[0]] * 3)


def test_calls_are_independent():
    first = magnetic.model_field(40.0, -100.0, 0.0, 2026.0)
    magnetic.model_field(-60.0, 100.0, 9000.0, 2029.0)
    assert magnetic.model_field(40.0, -100.0, 0.0, 2026.0) == first


@pytest.mark.parametrize("arguments", [
    (90.1, 0.0, 0.0, 2026.0), (0.0, 180.1, 0.0, 2026.0), (0.0, 0.0, -1001.0, 2026.0), (0.0, 0.0, 850001.0, 2026.0),
    (0.0, 0.0, 0.0, 2024.99), (0.0, 0.0, 0.0, 2030.01), (math.nan, 0.0, 0.0, 2026.0), (0.0, 0.0, 0.0, math.nan),
])
def test_outside_model(arguments):
    with pytest.raises(DomainError):
        magnetic.model_field(*arguments)
    with pytest.raises(DomainError):
        magnetic.model_variation_deg(*arguments)


def test_uncertainty_grows_towards_magnetic_poles():
    assert magnetic.model_uncertainty_deg(1e9) == pytest.approx(0.26, abs=1e-6)
    assert magnetic.model_uncertainty_deg(5417.0) == pytest.approx(math.hypot(0.26, 1.0))
    for strength in (0.0, -1.0, math.nan, math.inf):
        with pytest.raises(DomainError, match="horizontal field"):
            magnetic.model_uncertainty_deg(strength)


@pytest.mark.parametrize(("strength", "zone"), [
    (0.0, "blackout"), (1999.9, "blackout"), (2000.0, "caution"), (5999.9, "caution"), (6000.0, "normal"),
])
def test_zones(strength, zone):
    assert magnetic.model_zone(strength) == zone


@pytest.mark.parametrize("strength", [-1.0, 100001.0, math.nan])
def test_no_zone(strength):
    with pytest.raises(DomainError, match="horizontal field"):
        magnetic.model_zone(strength)


@pytest.mark.parametrize(("date", "year"), [
    ("2025-01-01", 2025.0), ("2025-12-31", 2025.0 + 364.0 / 365.0), ("2028-07-01", 2028.0 + 182.0 / 366.0),
])
def test_decimal_years(date, year):
    assert magnetic.decimal_year(airac.from_iso(date)) == pytest.approx(year, abs=1e-9)


def test_no_decimal_year_without_following_year():
    with pytest.raises(DomainError, match="year"):
        magnetic.decimal_year(airac.from_iso("9999-06-01"))
