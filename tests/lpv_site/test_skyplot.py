"""The plot of a sky: where directions lie, and what stands for seen and hidden."""

import pytest

from lpv.sbas.masks import Masks
from lpv.sbas.sky import Sight
from lpv_site.figures.figure import drawing
from lpv_site.figures.skyplot import draw_sky, lowest_deg, point

TURN = Masks(heading_deg=0.0, bank_deg=25.0)
SIGHTS = (Sight("HIGH", 270.0, 60.0), Sight("LOW", 270.0, 15.0))


def test_north_is_up_east_is_right_and_the_zenith_in_the_middle():
    assert point(0.0, 0.0) == pytest.approx((0.0, 90.0))
    assert point(90.0, 0.0) == pytest.approx((90.0, 0.0))
    assert point(225.0, 90.0) == pytest.approx((0.0, 0.0))


def test_the_highest_mask_counts():
    assert lowest_deg(270.0, TURN) == pytest.approx(25.0)
    assert lowest_deg(90.0, TURN) == 5.0
    assert lowest_deg(90.0, Masks(terrain=((0.0, 12.0),))) == 12.0


def test_a_hidden_satellite_is_a_bold_cross_in_the_answers_colour():
    for masks, crosses in ((Masks(), 0), (TURN, 1)):
        svg = drawing("sky", draw_sky, (masks, SIGHTS), 3.8)
        assert svg.count("HIGH</text>") == svg.count("LOW</text>") == 1
        bold = [line for line in svg.splitlines() if "LOW</text>" in line and "answer" in line and "700" in line]
        assert len(bold) == crosses


def test_an_empty_sky_can_be_drawn():
    assert "<svg" in drawing("sky", draw_sky, (Masks(), ()), 3.8)
