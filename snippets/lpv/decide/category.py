"""Approach category from speed (14 CFR 97.3, FAA)."""

from lpv.core.errors import DomainError, in_range, shown
from lpv.facts import value, value_of

CATEGORIES = "ABCDE"
LOWEST_SPEEDS_KT = [value_of(f"category_{letter}_from_kt") for letter in "bcde"]


def category_for_vref(vref_kt: float) -> str:
    """Category A to E for VREF at the maximum certificated landing weight, 20 to 300 kt.

    Each limit belongs to the higher category: under 91 kt is A, 91 kt is B.  14 CFR 97.3.
    """
    in_range("VREF", vref_kt, 20.0, 300.0, "kt")
    return CATEGORIES[len([limit for limit in LOWEST_SPEEDS_KT if vref_kt >= limit])]


def category_for_stall_speed(vs0_kt: float) -> str:
    """Category A to E where no VREF is specified: 1.3 VS0, VS0 from 20 to 230 kt.  14 CFR 97.3.

    The product is taken to a thousandth of a knot, so that 70 kt (91 kt) does not fall under a limit.
    """
    in_range("VS0", vs0_kt, 20.0, 230.0, "kt")
    return category_for_vref(round(vs0_kt * value("category_stall_factor"), 3))


def category_to_use(certificated: str, speed_kt: float) -> str:
    """Category whose minima to use when manoeuvring at a speed of 20 to 300 kt.

    The certificated one, or the higher one if the speed is over its limit; never a
    lower one.  Aeronautical Information Manual 5-4-7 (FAA).
    """
    if len(certificated) != 1 or certificated not in CATEGORIES:
        raise DomainError(f"approach category: found {shown(certificated)}; allowed: one of A, B, C, D, E.")
    return max(certificated, category_for_vref(speed_kt))
