"""Positions as people write them."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.dms import latitude_deg, latitude_text, longitude_deg, longitude_text
from lpv.core.errors import DomainError


@pytest.mark.parametrize("text", [
    "N37 05 00.5", "N 37 05 00.5", "37 05 00.5 N", "37°05'00.5\"N", "N37:05:00.5",
])
def test_every_spelling_gives_the_same_latitude(text):
    assert math.isclose(latitude_deg(text), 37 + 5 / 60 + 0.5 / 3600, abs_tol=1e-12)


def test_south_and_west_are_negative():
    assert math.isclose(latitude_deg("S00 30 00"), -0.5)
    assert math.isclose(longitude_deg("W002 05 35.6"), -(2 + 5 / 60 + 35.6 / 3600))


@pytest.mark.parametrize("text", ["S00 00 00", "N00 00 00.0"])
def test_the_equator_is_plain_zero(text):
    assert math.copysign(1.0, latitude_deg(text)) == 1.0
    assert latitude_deg(text) == 0.0


@pytest.mark.parametrize("text", ["N90 00 00", "S90 00 00.0"])
def test_poles_are_allowed(text):
    assert abs(latitude_deg(text)) == 90.0


@pytest.mark.parametrize("text", [
    "", "37", "N37", "N37 05", "N37 60 00", "N37 05 60", "N91 00 00", "N90 00 00.1", "E37 05 00",
    "N37 05 00 N", "N37 05 00.5.5", "N-7 05 00", "n37 05 00", "N٣7 05 00", "N37 05 00\n", "N37  05 00",
    "S37 05 1e1",
])
def test_anything_else_is_refused(text):
    with pytest.raises(DomainError):
        latitude_deg(text)


def test_longitude_beyond_the_date_line_is_refused():
    assert longitude_deg("E180 00 00") == 180.0
    with pytest.raises(DomainError):
        longitude_deg("E180 00 00.1")


@pytest.mark.parametrize(("angle", "decimals", "text"), [
    (37 + 5 / 60 + 0.5 / 3600, 1, "N37 05 00.5"),
    (-33.0, 0, "S33 00 00"),
    (12.99999999, 1, "N13 00 00.0"),
    (-0.000000001, 1, "N00 00 00.0"),
    (90.0, 2, "N90 00 00.00"),
])
def test_latitude_as_text(angle, decimals, text):
    assert latitude_text(angle, decimals) == text


def test_text_outside_the_globe_is_refused():
    with pytest.raises(DomainError):
        latitude_text(90.1)
    with pytest.raises(DomainError):
        longitude_text(float("nan"))


@settings(max_examples=50)
@given(st.floats(-90, 90), st.floats(-180, 180), st.integers(0, 4))
def test_there_and_back_within_half_the_last_digit(latitude, longitude, decimals):
    half_deg = 0.5 / 3600 / 10**decimals + 1e-11
    assert abs(latitude_deg(latitude_text(latitude, decimals)) - latitude) <= half_deg
    assert abs(longitude_deg(longitude_text(longitude, decimals)) - longitude) <= half_deg
