"""Where an axis has its ticks, and what stands beside them."""

from lpv.core.errors import above
from lpv.core.text import NOISE, number

# Steps as fractions of whole numbers, so that every place is the nearest float to the number that is printed.
STEPS = (
    (1, 1000), (2, 1000), (5, 1000), (1, 100), (2, 100), (5, 100), (1, 10), (2, 10), (5, 10), (1, 1), (2, 1), (5, 1),
    (10, 1), (20, 1), (50, 1), (100, 1), (200, 1), (500, 1), (1000, 1), (2000, 1), (5000, 1), (10000, 1), (20000, 1),
    (50000, 1), (100000, 1),
)


def ticks(
    low: float, high: float, most: int, steps: "tuple[tuple[int, int], ...]" = STEPS,
) -> "list[tuple[float, str]]":
    """Places from low to high and their words, at equal steps, at most `most` steps apart.

    DomainError unless high is above low, or where even the largest step is too small.
    """
    span = above("span of an axis", high - low, 0.0)
    for over, under in steps:
        if span * under <= most * over * (1.0 + NOISE):
            return _places(low, high, over, under)
    above("the largest step of an axis", steps[-1][0] / steps[-1][1] - span / most, 0.0)
    return []


def _places(low: float, high: float, over: int, under: int) -> "list[tuple[float, str]]":
    count = _ceiling(low * under / over - NOISE)
    marks = []
    while count * over / under <= high + NOISE * max(1.0, abs(high)):
        place = count * over / under
        marks.append((place, number(place, over / under if over < under else 1)))
        count += 1
    return marks


def _ceiling(value: float) -> int:
    integer = int(value)
    return integer + 1 if integer < value else integer
