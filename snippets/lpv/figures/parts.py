"""What live figures share: the dials of an approach, spans of axes, words."""

from lpv.core.text import number, quantity
from lpv.forms.fields import Number

APPROACH = "Numbers of the approach"
AIRCRAFT = "Numbers of the aircraft"


def angle(group: str = "") -> Number:
    """The dial of the glidepath angle."""
    return Number("gpa_deg", "Glidepath angle", "deg", 2, 6, 0.01, 3.0, "approach.glidepath_deg", group)


def crossing_height() -> Number:
    """The dial of the threshold crossing height."""
    return Number("tch_ft", "Threshold crossing height", "ft", 0, 100, 1, 50, "approach.tch_ft", APPROACH)


def beside(value: float, unit: str, sides: "tuple[str, str]", none: str, step: float = 1) -> str:
    """A quantity with the side that it lies on: "40 ft below".

    sides: the words for a positive and a negative number;  none: the words for what is printed as 0
    """
    if not number(abs(value), step).strip("0."):
        return none
    return quantity(abs(value), unit, step) + " " + sides[0 if value > 0.0 else 1]


def spread(values: "list[float]", least: float, room: float) -> "tuple[float, float]":
    """What an axis spans to show all values: at least so much, with a share of room at both ends."""
    low, high = min(values), max(values)
    more = max(0.0, least - (high - low)) / 2.0 + room * max(least, high - low)
    return low - more, high + more


def steps(low: float, high: float, count: int) -> "list[float]":
    """count + 1 values from low to high at equal steps; both ends exact."""
    return [low + (high - low) * place / count for place in range(count)] + [high]
