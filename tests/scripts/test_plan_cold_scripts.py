"""The additions of the cold pages, by the short formula of PANS-OPS at sea level, worked out here."""

import math

import pytest

from plan.cold_day import show as day
from plan.cold_figure import show as drawn

# ZZHC at -30 °C: airport 6498 ft; altitudes of its chart.
AIRPORT_FT, CELSIUS = 6498.0, -30.0
LAPSE = 0.00198


def short_formula_ft(height_ft):
    """H (15 - t0) / (273 + t0 - 0.5 L0 H): the formula of which the manual's table is made."""
    return height_ft * (15.0 - CELSIUS) / (273.0 + CELSIUS - 0.5 * LAPSE * height_ft)


def up_to_ten(feet):
    return math.ceil(feet / 10.0 - 1e-9) * 10.0


def hundred(feet):
    return math.floor(feet / 100.0 + 0.5) * 100.0


SEGMENTS = {"PFAF": 8700.0, "missed approach": 10000.0}
MINIMA = {"LPV DA": 6775.0, "LNAV/VNAV DA": 6901.0, "LNAV MDA": 7020.0, "circling MDA": 7200.0}
ALL = {
    "all RIMEA": "PFAF", "all FROZT": "PFAF", "all GLAZO": "PFAF", "all ICYLE": "LNAV MDA", "all LPV DA": "LPV DA",
    "all LNAV/VNAV DA": "LNAV/VNAV DA", "all LNAV MDA": "LNAV MDA", "all circling MDA": "circling MDA",
    "all missed approach": "missed approach",
}
SINGLE = {
    "single GLAZO": "PFAF", "single ICYLE": "LNAV MDA", "single LPV DA": "LPV DA",
    "single LNAV/VNAV DA": "LNAV/VNAV DA", "single LNAV MDA": "LNAV MDA", "single circling MDA": "circling MDA",
}
UNMARKED = ("single RIMEA", "single FROZT", "single missed approach")


@pytest.mark.parametrize("key", [*ALL, *SINGLE])
def test_addition(key):
    by = (ALL | SINGLE)[key]
    if by in MINIMA:
        # The table stands in steps of a hundred feet; between them its own reading may lie a step higher.
        exact_ft = short_formula_ft(MINIMA[by] - AIRPORT_FT)
        assert up_to_ten(exact_ft) <= day().number(key) <= up_to_ten(exact_ft) + 10.0
    else:
        exact_ft = short_formula_ft(SEGMENTS[by] - AIRPORT_FT)
        assert abs(day().number(key) - exact_ft) <= 60.0  # to the nearest hundred of a table in steps of ten
        assert day().number(key) % 100.0 == 0.0


@pytest.mark.parametrize("key", UNMARKED)
def test_unlisted_segment_stays_as_charted(key):
    assert day().number(key) == 0.0


def test_every_addition_compared():
    assert set(day().values) == {*ALL, *SINGLE, *UNMARKED}


@pytest.mark.parametrize(("key", "height_ft"), [
    ("DA", MINIMA["LPV DA"] - AIRPORT_FT), ("FAF", SEGMENTS["PFAF"] - AIRPORT_FT),
    ("missed approach", SEGMENTS["missed approach"] - AIRPORT_FT),
])
def test_figure_marks_table_value(key, height_ft):
    exact_ft = short_formula_ft(height_ft)
    assert exact_ft <= drawn().number(key) <= exact_ft + 12.0
