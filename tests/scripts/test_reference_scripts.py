"""What the scripts of docs/reference/ show, worked out in another way."""

import math

import pytest

from reference.columns import show as columns
from reference.recorded_altitude import show
from shown import cell

GNSS_95_M, ALTIMETER_FT, AIR_C = 13.0, 75.0, 5.0
DA_FT, THRESHOLD_FT, AIRPORT_FT, PATH_DEG = 224.0, 22.0, 31.0, 3.0
# Full scale of the path is a quarter of its angle, seen from where it meets the ground.
FULL_SCALE_FT = (DA_FT - THRESHOLD_FT) / math.tan(math.radians(PATH_DEG)) * math.tan(math.radians(PATH_DEG / 4))


def test_minimum_is_the_charted_da():
    assert show().number("minimum") == DA_FT
    assert show().text("minimum") == "224\u202fft"


@pytest.mark.parametrize("key", ["msl", "ellipsoid"])
def test_gnss_height(key):
    assert show().number(key) == pytest.approx(GNSS_95_M / 0.3048)
    assert show().number(f"{key}_dots") == pytest.approx(2 * GNSS_95_M / 0.3048 / FULL_SCALE_FT, rel=0.005)


@pytest.mark.parametrize("key", ["indicated", "pressure"])
def test_altimeter_height(key):
    """Air five degrees colder than thought: the height above the airport is wrong by 5/288 of itself."""
    air_ft = (DA_FT - AIRPORT_FT) * AIR_C / 288.15
    assert show().number(key) == pytest.approx(math.hypot(ALTIMETER_FT, air_ft), rel=1e-4)
    dots = 2 * math.hypot(ALTIMETER_FT, air_ft) / FULL_SCALE_FT
    assert show().number(f"{key}_dots") == pytest.approx(dots, rel=0.005)


KEYS = {"msl_dots": "above mean sea level, by GNSS", "ellipsoid_dots": "above the ellipsoid, by GNSS",
        "indicated_dots": "as indicated by the altimeter", "pressure_dots": "pressure altitude"}


@pytest.mark.parametrize("key", KEYS)
def test_table_prints_the_values(key):
    height = show().number(key.removesuffix("_dots"))
    assert cell(show(), KEYS[key], 1) == f"{height:.0f}"
    assert cell(show(), KEYS[key], 2) == f"{show().number(key):.1f}"


def test_columns_in_metres_stand_apart():
    listed, _, in_metres = columns().markdown.rpartition("In metres: ")
    assert in_metres.count("_m`") == in_metres.count("`") // 2 > 0
    assert "_m`" not in listed
