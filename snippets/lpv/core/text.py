"""Numbers as text, the same in the build and on the phone to the last digit.

The two Pythons round ties differently when they print a float; so a number is brought to whole steps by arithmetic
that both share, halves away from zero, and only whole numbers are printed.
"""

import math

from lpv.core.errors import DomainError

MINUS = "\u2212"
NARROW_SPACE = "\u202f"
UNIT_SIGNS = {"deg": "°", "deg C": "°C", "deg/s": "°/s"}
# Keeps a tie that carries rounding noise from falling to either side.
NOISE = 1e-9
MOST_PLACES = 4


def places_of(step: float) -> int:
    """How many decimals a step needs, 0 to 4: none for 1 or 10, two for 0.25."""
    for places in range(MOST_PLACES):
        steps = step * 10**places
        if abs(steps - math.floor(steps + 0.5)) < NOISE:
            return places
    return MOST_PLACES


def number(value: float, step: float = 1) -> str:
    """A finite number to the nearest step, with a true minus sign and never as -0.

    step: 0.0001 or more, with at most four decimals
    Raises DomainError for nan and anything beyond 1e12.
    """
    if not -1e12 < value < 1e12:
        raise DomainError(f"a number to print: found {value}; allowed: finite, within 1e12.")
    places = places_of(step)
    unit = 10**places
    each = math.floor(step * unit + 0.5)
    count = each * math.floor(abs(value) * unit / each + 0.5 + NOISE)
    text = str(count // unit)
    if places:
        text += "." + str(count % unit + unit)[1:]
    return MINUS + text if value < 0.0 and count else text


def rounded_up(value: float, step: float = 1) -> float:
    """A number up to the next step, for what must be at least that much."""
    return math.ceil(value / step - NOISE) * step


def quantity(value: float, unit: str, step: float = 1) -> str:
    """A number to the nearest step and its unit, kept together on one line."""
    return with_unit(number(value, step), unit)


def with_unit(text: str, unit: str) -> str:
    """A printed number and its unit, kept together on one line."""
    if not unit:
        return text
    sign = UNIT_SIGNS.get(unit, unit)
    gap = "" if unit in ("deg", "deg/s", "%") else NARROW_SPACE
    return text + gap + sign.replace(" ", NARROW_SPACE)


def with_sign(text: str) -> str:
    """A printed number with a plus sign, unless it is negative or zero."""
    return text if text.startswith(MINUS) or not text.strip("0.") else "+" + text


def ascii_number(value: float, step: float = 1) -> str:
    """A number as a field of a form holds it: with a plain hyphen as its minus sign."""
    return number(value, step).replace(MINUS, "-")


def miles(value_sm: float) -> str:
    """Statute miles as charts print them, in eighths: "1/2", "1 1/4"; decimals where they are no eighths.

    Domain: 0 to 1000 SM; DomainError outside.
    """
    if not 0.0 <= value_sm <= 1000.0:
        raise DomainError(f"statute miles: found {value_sm}; allowed: 0 to 1000.")
    eighths = math.floor(value_sm * 8.0 + 0.5)
    if abs(eighths - value_sm * 8.0) > NOISE:
        return number(value_sm, 0.01)
    whole, part, of = eighths // 8, eighths % 8, 8
    while part and part % 2 == 0:
        part, of = part // 2, of // 2
    texts = (str(whole) if whole or not part else "", f"{part}/{of}" if part else "")
    return " ".join([text for text in texts if text])
