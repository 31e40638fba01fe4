"""Numbers as text: the only place that turns numbers, units, signs, courses, positions and times into words to read.

Rounding: to the nearest step, halves away from zero, on the decimal value that the number stands for: 0.285 to two
places is 0.29, although the binary number behind it lies a trifle lower.  It is done by arithmetic that CPython and
MicroPython share, and only whole numbers are handed to `str`, so that both print the same last digit.  Rounding comes
last: nothing is computed from what is printed here.

Signs and spaces: a negative number has a true minus sign (U+2212) and is never printed as -0; number and unit are kept
together by a narrow no-break space (U+202F).  `to_ascii` has replacements for where neither can be written.
"""

import math

from lpv.core.errors import DomainError, in_range
from lpv.core.units import ARCSEC_PER_DEG, M_PER_FT

MINUS = "\u2212"
NARROW_SPACE = "\u202f"
UNIT_SIGNS = {"deg": "°", "deg C": "°C", "deg/s": "°/s"}
CLOSE_UNITS = ("°", "°/s", "%", "″")  # no space before these
# Keeps a tie that carries rounding noise from falling to either side.
NOISE = 1e-9
MAX_PLACES = 9
FINEST = 0.0001
MAX_EXACT_PLACES = 12
ASCII = {MINUS: "-", NARROW_SPACE: " ", "\u00a0": " ", "°": " deg", "·": "*", "²": "2", "³": "3"}


def places_of(step: float) -> int:
    """How many decimals a step needs, 0 to 9: none for 1 or 10, two for 0.25."""
    for places in range(MAX_PLACES):
        steps = step * 10**places
        integer = math.floor(steps + 0.5)
        if integer and abs(steps - integer) < NOISE * integer:
            return places
    return MAX_PLACES


def _count(value: float, step: float, places: int) -> int:
    """The size of a number, to the nearest step, in units of its last decimal."""
    if not -1e12 < value < 1e12:
        raise DomainError(f"a number to print: found {value}; allowed: finite, within 1e12.")
    unit: int = 10**places
    step_count = math.floor(step * unit + 0.5)
    return step_count * math.floor(abs(value) * unit / step_count + 0.5 + NOISE)


def _decimal(count: int, places: int, width: int = 1) -> str:
    """A whole number of last decimals as text, its whole part padded with zeros to a width."""
    integer = str(count // 10**places)
    text = "0" * (width - len(integer)) + integer
    return text + "." + str(count % 10**places + 10**places)[1:] if places else text


def number(value: float, step: float = 1) -> str:
    """A number to the nearest step, with the step's decimals.

    step: with at most nine decimals
    Raises DomainError for nan and anything beyond 1e12.
    """
    places = places_of(step)
    count = _count(value, step, places)
    return (MINUS if value < 0.0 and count else "") + _decimal(count, places)


def trimmed(value: float, step: float = FINEST) -> str:
    """A number to the nearest step without zeros at its end: "3", "0.75"; domain as number."""
    text = number(value, step)
    return text.rstrip("0").rstrip(".") if "." in text else text


def exact(value: float) -> str:
    """A number with all the decimals that it has, up to twelve; very large or small ones as "3.986005e14".

    For values that are quoted as their source prints them.  Raises DomainError for nan and infinities.
    """
    size = abs(value)
    if not size < math.inf:
        raise DomainError(f"a number to print: found {value}; allowed: finite.")
    sign, text = MINUS if value < 0.0 else "", _all_decimals(size)
    if text and size < 1e12:
        return sign + text
    if 1e-3 <= size < 1e12:
        return sign + _decimal(math.floor(size * 10**MAX_EXACT_PLACES + 0.5), MAX_EXACT_PLACES)
    exponent = math.floor(math.log10(size))
    mantissa = size / 10.0**exponent if exponent > 0 else size * 10.0**-exponent
    return sign + (_all_decimals(mantissa) or number(mantissa, FINEST)) + "e" + number(exponent)


def _all_decimals(size: float) -> str:
    """A number of at least 0 with the fewest decimals that stand for it; "" if twelve do not."""
    for places in range(MAX_EXACT_PLACES + 1):
        count = math.floor(size * 10**places + 0.5)
        if abs(count / 10**places - size) <= size * 1e-15:
            return _decimal(count, places)
    return ""


def first_digit(value: float) -> str:
    """A small number to its first digit that is not 0, with its sign: "+0.003", "\u22122e\u221212"; 0 is "0".

    For differences, of which only the size matters.  Raises DomainError for nan and infinities.
    """
    if not abs(value) < math.inf:
        raise DomainError(f"a number to print: found {value}; allowed: finite.")
    if value == 0.0:
        return "0"
    exponent = math.floor(math.log10(abs(value)))
    if exponent >= -MAX_PLACES:
        return with_sign(number(value, 10.0**exponent))
    return with_sign(number(value * 10.0**-exponent)) + "e" + number(exponent)


def printed(text: str) -> str:
    """A number that is text already, as its source prints it, with the minus sign used here."""
    return text.replace("-", MINUS)


def with_unit(text: str, unit: str) -> str:
    """A printed number and its unit, kept together on one line."""
    if not unit:
        return text
    sign = UNIT_SIGNS.get(unit, unit)
    return text + ("" if sign in CLOSE_UNITS else NARROW_SPACE) + sign.replace(" ", NARROW_SPACE)


def quantity(value: float, unit: str, step: float = 1) -> str:
    """A number to the nearest step and its unit: "1350 ft", "3.0°"; domain as number."""
    return with_unit(number(value, step), unit)


def feet(value_ft: float) -> str:
    """A height or a distance in whole feet: "1350 ft"."""
    return quantity(value_ft, "ft")


def nautical_miles(value_nm: float, step: float = 0.1) -> str:
    """A distance in nautical miles: "6.1 NM"."""
    return quantity(value_nm, "NM", step)


def tenths_of_feet(value_ft: float) -> str:
    """A height in feet and tenths, without a tenth of zero: "50 ft", "50.2 ft"."""
    return trimmed_quantity(value_ft, "ft", 0.1)


def metres(value_m: float) -> str:
    """A length in metres and tenths, without a tenth of zero: "40 m", "106.7 m"."""
    return trimmed_quantity(value_m, "m", 0.1)


def degrees(angle_deg: float, step: float = 0.01) -> str:
    """An angle: "3.00°"."""
    return quantity(angle_deg, "deg", step)


def trimmed_quantity(value: float, unit: str, step: float = FINEST) -> str:
    """A number without zeros at its end, and its unit: "50 ft", "50.2 ft"; domain as number."""
    return with_unit(trimmed(value, step), unit)


def exact_quantity(value: float, unit: str) -> str:
    """A number with all its decimals, and its unit; domain as exact."""
    return with_unit(exact(value), unit)


def with_sign(text: str) -> str:
    """A printed number with a plus sign, unless it is negative or zero."""
    return text if text.startswith(MINUS) or not text.strip("0.") else "+" + text


def signed(value: float, unit: str = "", step: float = 1) -> str:
    """Like quantity, with a plus sign where what is printed is positive."""
    return with_unit(with_sign(number(value, step)), unit)


def interval(low: float, high: float, unit: str = "", step: float = FINEST) -> str:
    """A range with its unit behind the second number: "60 to 250 kt"; without zeros at the ends."""
    return trimmed(low, step) + " to " + trimmed_quantity(high, unit, step)


def percent(share: float) -> str:
    """A share of one in percent, with a decimal; all and nothing as whole numbers, and only where it is exactly that.

    Domain: 0 to 1; DomainError outside.
    """
    in_range("a share", share, 0.0, 1.0)
    if share in (0.0, 1.0):
        return quantity(100.0 * share, "%")
    return quantity(min(99.9, max(0.1, 100.0 * share)), "%", 0.1)


def length(value_ft: float, rule: str) -> str:
    """A length in whole feet; for charts by other rules than the FAA's in metres, with the feet behind."""
    return feet(value_ft) if rule == "FAA" else f"{quantity(value_ft * M_PER_FT, 'm')} ({feet(value_ft)})"


def miles(value_sm: float) -> str:
    """Statute miles as charts print them, in eighths: "1/2", "1 1/4"; decimals where they are no eighths.

    Domain: 0 to 1000 SM; DomainError outside.
    """
    in_range("statute miles", value_sm, 0.0, 1000.0)
    eighths = math.floor(value_sm * 8.0 + 0.5)
    if abs(eighths - value_sm * 8.0) > NOISE:
        return number(value_sm, 0.01)
    miles_count, part, parts = eighths // 8, eighths % 8, 8
    while part and part % 2 == 0:
        part, parts = part // 2, parts // 2
    texts = (str(miles_count) if miles_count or not part else "", f"{part}/{parts}" if part else "")
    return " ".join([text for text in texts if text])


def course_digits(course_deg: float, step: float = 1) -> str:
    """A course in three digits, with the step's decimals, without a sign: "007", "253.1"; north is 360.

    Domain: 0 to 360 deg; DomainError outside.
    """
    places = places_of(step)
    turn = 360 * 10**places
    count = _count(in_range("course", course_deg, 0.0, 360.0, "deg"), step, places) % turn
    return _decimal(count or turn, places, 3)


def course(course_deg: float, step: float = 1) -> str:
    """A course in three digits with its sign: "007°", "253.1°"; domain as course_digits."""
    return course_digits(course_deg, step) + "°"


def variation_digits(variation_east_deg: float) -> str:
    """A variation with one decimal behind its side, without a sign: "E13.2", "W4.0"; none is "E0.0".

    Domain: -180 to 180 deg, east positive; DomainError outside.
    """
    count = _count(in_range("variation", variation_east_deg, -180.0, 180.0, "deg"), 0.1, 1)
    return ("W" if variation_east_deg < 0.0 and count else "E") + _decimal(count, 1)


def variation(variation_east_deg: float) -> str:
    """A variation with its sign: "E13.2°"; domain as variation_digits."""
    return variation_digits(variation_east_deg) + "°"


def latitude(latitude_deg: float, step_s: float = 0.1) -> str:
    """A latitude in degrees, minutes and seconds, to the nearest step of a second: "N37 05 00.5".

    Domain: -90 to 90 deg, north positive; DomainError outside.
    """
    return _angle(in_range("latitude", latitude_deg, -90.0, 90.0, "deg"), "N", "S", 2, step_s)


def longitude(longitude_deg: float, step_s: float = 0.1) -> str:
    """A longitude, as latitude: "W002 05 35.6".  Domain: -180 to 180 deg, east positive; DomainError outside."""
    return _angle(in_range("longitude", longitude_deg, -180.0, 180.0, "deg"), "E", "W", 3, step_s)


def _angle(angle_deg: float, positive: str, negative: str, width: int, step_s: float) -> str:
    """Rounded as a whole first, so that the seconds can never read 60."""
    places = places_of(step_s)
    count = _count(angle_deg * ARCSEC_PER_DEG, step_s, places)
    minutes, sec = divmod(count, 60 * 10**places)
    hemisphere = negative if angle_deg < 0.0 and count else positive
    return f"{hemisphere}{_decimal(minutes // 60, 0, width)} {_decimal(minutes % 60, 0, 2)} {_decimal(sec, places, 2)}"


def clock(seconds: float) -> str:
    """A duration as m:ss, to the nearest second: "3:05".  Domain: 0 to 1e9 s; DomainError outside."""
    count = _count(in_range("a duration", seconds, 0.0, 1e9, "s"), 1, 0)
    return f"{count // 60}:{_decimal(count % 60, 0, 2)}"


def pressure(setting: float, unit: str) -> str:
    """An altimeter setting as it is set: hundredths of an inch ("29.92 inHg"), whole hectopascals ("1013 hPa")."""
    return quantity(setting, unit, 0.01 if unit == "inHg" else 1)


def frequency(mhz: float) -> str:
    """A navigation frequency without its unit, as it is tuned: "110.30"."""
    return number(mhz, 0.01)


def fact_text(fact: "object") -> str:
    """The value of a fact with its unit, as its source prints it."""
    value, unit = fact.value, fact.unit  # type: ignore[attr-defined]
    if not isinstance(value, str):
        return exact_quantity(value, "dot" if unit == "dots" and value == 1 else unit)
    words = value.split(" ")
    return " ".join([printed(word) if word[:1] == "-" and word[1:2].isdigit() else word for word in words])


def plural(count: int, word: str) -> str:
    """A count and its noun: 1 note, 2 notes."""
    return f"{count} {word}" + ("" if count == 1 else "s")


def dots(count: float) -> str:
    """A deviation in dots with all its decimals: "1 dot", "1.5 dots"; domain as exact."""
    return exact_quantity(count, "dot" if count == 1.0 else "dots")


def listed(words: "list[str]", last: str = "and") -> str:
    """Words as a list in a sentence: "LP", "LP and LPV", "LNAV, LP and LPV"."""
    if len(words) < 2:
        return "".join(words)
    return ", ".join(words[:-1]) + f" {last} " + words[-1]


def capitalized(text: str) -> str:
    """A text with a capital letter first, the rest as it is."""
    return text[:1].upper() + text[1:]


def to_ascii(text: str) -> str:
    """A text in ASCII: a hyphen for a minus sign, a space for a no-break one, " deg" for a degree sign, else "?"."""
    text = text.replace(NARROW_SPACE + "°C", " deg C")
    return "".join([c if ord(c) < 128 else ASCII.get(c, "?") for c in text])


def field_number(value: float, step: float = 1) -> str:
    """A number as a form's field or a file holds it: with a hyphen as its minus sign."""
    return to_ascii(number(value, step))


def rounded(value: float, step: float = 1) -> float:
    """A number to the nearest step, rounded as `number` prints it; domain as number."""
    places = places_of(step)
    size = _count(value, step, places) / float(10**places)
    return 0.0 - size if value < 0.0 and size else size


def rounded_down(value: float, step: float = 1) -> float:
    """A number down to the step before it, for what must not be more than that."""
    return math.floor(value / step + NOISE) * step


def rounded_up(value: float, step: float = 1) -> float:
    """A number up to the next step, for what must be at least that much."""
    return math.ceil(value / step - NOISE) * step
