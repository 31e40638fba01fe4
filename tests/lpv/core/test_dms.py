"""Positions as people write them."""

import math

import pytest

from lpv.core.dms import latitude_deg, longitude_deg
from lpv.core.errors import DomainError


@pytest.mark.parametrize("text", [
    "N37 05 00.5", "N 37 05 00.5", "37 05 00.5 N", "37°05'00.5\"N", "N37:05:00.5",
])
def test_every_spelling_gives_same_latitude(text):
    assert math.isclose(latitude_deg(text), 37 + 5 / 60 + 0.5 / 3600, abs_tol=1e-12)


def test_south_and_west_are_negative():
    assert math.isclose(latitude_deg("S00 30 00"), -0.5)
    assert math.isclose(longitude_deg("W002 05 35.6"), -(2 + 5 / 60 + 35.6 / 3600))


@pytest.mark.parametrize("text", ["S00 00 00", "N00 00 00.0"])
def test_equator_is_plain_zero(text):
    assert math.copysign(1.0, latitude_deg(text)) == 1.0
    assert latitude_deg(text) == 0.0


@pytest.mark.parametrize("text", ["N90 00 00", "S90 00 00.0"])
def test_poles_allowed(text):
    assert abs(latitude_deg(text)) == 90.0


@pytest.mark.parametrize("text", [
    "", "37", "N37", "N37 05", "N37 60 00", "N37 05 60", "N91 00 00", "N90 00 00.1", "E37 05 00",
    "N37 05 00 N", "N37 05 00.5.5", "N-7 05 00", "n37 05 00", "N٣7 05 00", "N37 05 00\n", "N37  05 00",
    "S37 05 1e1",
])
def test_anything_else_refused(text):
    with pytest.raises(DomainError):
        latitude_deg(text)


def test_longitude_beyond_date_line_refused():
    assert longitude_deg("E180 00 00") == 180.0
    with pytest.raises(DomainError):
        longitude_deg("E180 00 00.1")
