"""The minima that the page shows, added up by hand from the demo files."""

import pytest

from plan.additions import show as additions
from plan.minima_day import show
from plan.rvr import show as rvr
from shown import cell

# Chart of ZZAK RNAV (GPS) RWY 09: TDZE 24, airport 31 ft; LPV 224, LNAV/VNAV 374, LNAV 480, circling 540.
# The light demo jet's operator: DA not under 250 ft above touchdown, 50 ft above an MDA, not under 3/4 SM.
DAY = {
    "LPV": (24 + 250, 250, 0.75), "LNAV/VNAV": (374, 374 - 24, 1.0), "LNAV": (480 + 50, 530 - 24, 1.0),
    "circling": (540 + 50, 590 - 31, 1.75),
}


@pytest.mark.parametrize("line", DAY)
def test_minimum_of_day(line):
    altitude_ft, height_ft, visibility_sm = DAY[line]
    assert show().number(f"{line} altitude") == altitude_ft
    assert show().number(f"{line} height") == height_ft
    assert show().number(f"{line} visibility") == visibility_sm


def test_every_value_of_day_compared():
    keys = {"LPV altitude", "LPV height", "LPV visibility", "LNAV/VNAV altitude", "LNAV/VNAV height",
            "LNAV/VNAV visibility", "LNAV altitude", "LNAV height", "LNAV visibility", "circling altitude",
            "circling height", "circling visibility"}
    assert set(show().values) == keys


ADDED = {
    # RVR 2400 is 1/2 SM by 14 CFR 91.175(h); with the zone not clear 250 ft and 3/4 SM by AIM 5-4-20.
    "printed altitude": 224, "printed visibility": 0.5, "operator altitude": 274, "operator visibility": 0.75,
    "remote altitude": 284, "remote visibility": 0.5, "lights altitude": 224, "lights visibility": 0.75,
    "zone altitude": 274, "zone visibility": 0.75,
}


@pytest.mark.parametrize("key", ADDED)
def test_each_addition(key):
    assert additions().number(key) == ADDED[key]


def test_table_prints_same_values():
    assert cell(additions(), "remote altimeter, + 60 ft", 1) == "284"
    assert cell(additions(), "obstacle free zone not clear", 2) == "250"


def test_printed_rvr_rounded_up_reported_rvr_down():
    # 14 CFR 91.175(h)(2): 1600 ft 1/4, 2400 ft 1/2, 3200 ft 5/8, 4000 ft 3/4, 6000 ft 1 1/4
    for rvr_ft, needs, counts in (("1600", "1/4", "1/4"), ("1800", "1/2", "1/4"), ("3000", "5/8", "1/2"),
                                  ("4000", "3/4", "3/4"), ("6000", "1 1/4", "1 1/4")):
        assert cell(rvr(), rvr_ft, 1) == needs
        assert cell(rvr(), rvr_ft, 2) == counts
