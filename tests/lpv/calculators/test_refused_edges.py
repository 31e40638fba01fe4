"""Where a calculator stops answering: the last numbers that it answers, and the first that it does not."""

import math

import pytest

from lpv.calculators import decide, final, intercept, plan, speed
from lpv.forms.form import NoAnswer

FT_PER_NM = 1852.0 / 0.3048
SLOPE_3, SLOPE_10 = (FT_PER_NM * math.tan(math.radians(angle)) for angle in (3.0, 10.0))


def dots(scale):
    return lambda dots: final._dots(3.0, scale, dots, 100.0, 350.0, 12000.0, 50.0, 3.0)


# What is asked; the last number with an answer, the first without.
EDGES = {
    "dots of a scale of two": (dots("2"), 2.0, 2.01),
    "dots of a scale of five": (dots("5"), 5.0, 5.01),
    "a visibility of 100,000 ft": (lambda ft: decide._sight(200.0, ft, "ft", 0.0, 15.0, 0.0, 50.0, 3.0), 1e5, 100001.0),
    "a turn of 170 degrees": (
        lambda track: intercept._turn_on(track, 90.0, 120.0, 25.0, 5.0, 0.0, 0.0, 0.0), 260.0, 260.01),
    "a heading that meets at 170 degrees": (
        lambda heading: intercept._vector(9.0, 1.0, "left", heading, 90.0, 120.0, 0.0, 0.0, 25.0, 5.0, 5.0), 259.99,
        260.01),
    "a descent of ten degrees": (
        lambda above: intercept._from_above(above, 1.0, 120.0, 3.0), SLOPE_10 - SLOPE_3 - 0.1,
        SLOPE_10 - SLOPE_3 + 0.1),
    "an altitude at the airport": (lambda ft: plan._cold(ft, 1200.0, -10.0), 1200.0, 1199.9),
    "a least additive as the most": (lambda most: speed._rule("own", 0.5, 1.0, 5.0, most), 5.0, 4.9),
}


@pytest.mark.parametrize("name", EDGES)
def test_answer_up_to_edge_and_none_beyond(name):
    answer, inside, outside = EDGES[name]
    assert answer(inside)
    with pytest.raises(NoAnswer):
        answer(outside)
