"""Satellites on the planning pages, by another method."""

import math
import re

import pytest

from lpv_site.department.data import examples
from plan.integrity_approaches import show as approaches
from plan.integrity_day import show as day
from plan.integrity_rule import show as rule
from plan.sky_geostationary import show as geostationary
from plan.sky_hidden import show as hidden
from shown import cell, rows

LATITUDES_DEG = {approach.identity.airport: approach.segment.ltp_latitude_deg for approach in examples()}


def elevation_deg(latitude_deg, away_deg):
    """On a sphere: R = 6378.1 km, satellite at 42 164 km."""
    cosine = math.cos(math.radians(latitude_deg)) * math.cos(math.radians(away_deg))
    return math.degrees(math.atan2(cosine - 6378.1 / 42164.0, math.sqrt(1.0 - cosine**2)))


def test_every_airport_compared():
    # The values "ZZAK", "ZZEG" and "ZZHC": the first approach of each airport.
    assert set(geostationary().values) == {"ZZAK", "ZZEG", "ZZHC"}


@pytest.mark.parametrize("airport", LATITUDES_DEG)
def test_geostationary_satellite_at_same_longitude(airport):
    assert geostationary().number(airport) == pytest.approx(elevation_deg(LATITUDES_DEG[airport], 0.0), abs=0.25)


def test_geostationary_satellites_to_side():
    for name, *cells in rows(geostationary()):
        latitude_deg = LATITUDES_DEG[name.split(",")[0]]
        for away_deg, text in zip((0.0, 30.0, 60.0), cells, strict=True):
            assert float(text.rstrip("°")) == pytest.approx(elevation_deg(latitude_deg, away_deg), abs=0.75)


def test_step_of_day():
    assert approaches().number("step") == 5.0


def test_levels_by_hand():
    # The example: HAL 40, VAL 35 m; the other: VAL 50 m.  LNAV/VNAV 556 and 50 m.
    table = rows(rule())
    assert table[0][2:] == ["LPV", "LPV"]
    assert table[1][2:] == ["LNAV/VNAV", "LPV"]
    assert table[2][2] == "LNAV"
    assert table[4][2:] == ["none", "none"]


def test_fewer_satellites_never_give_more_lpv():
    shares = [float(cells[1].rstrip("% ")) for cells in rows(day())]
    assert shares == sorted(shares, reverse=True)
    assert cell(day(), "with all 24", 2) == "0"


def test_obstruction_costs_availability():
    lost = re.findall(r"satellites in view\D*(\d+) to (\d+)", hidden().markdown)
    assert len(lost) == 2
    assert all(4 <= int(left) < int(every) for every, left in lost)
