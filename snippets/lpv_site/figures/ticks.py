"""Where an axis has its ticks and what stands beside them: the places and words that matplotlib would choose."""

import math
from collections.abc import Sequence

from lpv.core.errors import above
from lpv.core.text import number

STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)
MOST = 9
# A tick may lie outside the span by this part of a step: limits are sums of floats.
SLACK = 1e-10


def ticks(low: float, high: float, most: int = MOST) -> list[float]:
    """Round places from low to high, at most `most` steps apart; DomainError unless high is above low."""
    above("span of an axis", high - low, 0.0)
    least = (high - low) / most
    decade = 10.0 ** math.floor(math.log10(least))
    step = decade * next(step for step in STEPS if step * decade >= least * (1.0 - SLACK))
    first, last = math.ceil(low / step - SLACK), math.floor(high / step + SLACK)
    return [step * place for place in range(first, last + 1)]


def words(places: Sequence[float]) -> list[str]:
    """The places as text, all with as many decimals as the one that needs most."""
    decimals = next(places_ for places_ in range(10) if all(_holds(place, places_) for place in places))
    return [number(place, 10.0**-decimals) for place in places]


def _holds(place: float, decimals: int) -> bool:
    """Whether so many decimals tell a place exactly."""
    return abs(round(place, decimals) - place) <= SLACK * max(1.0, abs(place))
