"""What a sample says of the whole that it was drawn from."""

import math

from lpv.core.errors import DomainError

NINETEEN_IN_TWENTY = 1.96  # standard deviations


def share_interval(successes: float, tried: float) -> "tuple[float, float]":
    """Between which shares that of the whole lies, nineteen times in twenty.

    successes: 0 to tried;  tried: at least 1; of a weighted sample, how many would tell as much;  DomainError outside.
    Source: Wilson's interval, from memory.
    """
    if not 0 <= successes <= tried or tried < 1:
        raise DomainError(f"sample: found {successes} of {tried}; allowed: 0 to as many as were tried, at least one.")
    share, square = successes / tried, NINETEEN_IN_TWENTY**2 / tried
    middle = (share + square / 2.0) / (1.0 + square)
    half = math.sqrt(share * (1.0 - share) * square + square**2 / 4.0) / (1.0 + square)
    return max(0.0, middle - half), min(1.0, middle + half)
