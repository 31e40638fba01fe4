"""Positions as people write them: degrees, minutes and seconds with a hemisphere."""

import re

from lpv.core.errors import DomainError, in_range, shown
from lpv.core.units import ARCSEC_PER_DEG

LATITUDE_EXAMPLE = "N37 05 00.5"
LONGITUDE_EXAMPLE = "W002 05 35.6"
_SECONDS = r"\d{1,2}(?:\.\d{1,6})?"
_NUMBERS = rf"(\d{{1,3}})[ °:](\d{{1,2}})[ ':]({_SECONDS})\"?"
# As an AIP prints the data block: 370500.5000N, 0020535.6000W.
_TOGETHER = {"N": r"(\d{2})(\d{2})(\d{2}(?:\.\d{1,6})?)", "E": r"(\d{3})(\d{2})(\d{2}(?:\.\d{1,6})?)"}
_MINUTES = r"[0-5]?[0-9]"
_SPACED = rf"[ °:]{_MINUTES}[ ':]{_MINUTES}(\.[0-9]{{1,6}})?\"?"
_CLOSE = r"[0-5][0-9][0-5][0-9](\.[0-9]{1,6})?"


def _pattern(letters: str, degrees: str, all_digits: str) -> str:
    """What every text that is read as an angle matches, in the regular expressions of editors."""
    spaced, close = f"({degrees}){_SPACED}", f"({all_digits}){_CLOSE}"
    return f"[{letters}] ?({spaced}|{close})|({spaced}|{close}) ?[{letters}]"


LATITUDE_PATTERN = _pattern("NS", "0?[0-8]?[0-9]|0?90", "[0-8][0-9]|90")
LONGITUDE_PATTERN = _pattern("EW", "0?[0-9]?[0-9]|1[0-7][0-9]|180", "0[0-9][0-9]|1[0-7][0-9]|180")


def latitude_deg(text: str) -> float:
    """Decimal degrees, north positive, of a latitude such as "N37 05 00.5", "370500.5N" or "37°05'00.5\\" N".

    Domain: hemisphere N or S before or after, minutes and seconds below 60, at most 90 degrees.
    Raises DomainError.
    """
    return in_range("latitude", _degrees(text, "N", "S", LATITUDE_EXAMPLE), -90.0, 90.0, "deg")


def longitude_deg(text: str) -> float:
    """Decimal degrees, east positive, of a longitude such as "W002 05 35.6".

    Domain: hemisphere E or W before or after, minutes and seconds below 60, at most 180 degrees.
    Raises DomainError.
    """
    return in_range("longitude", _degrees(text, "E", "W", LONGITUDE_EXAMPLE), -180.0, 180.0, "deg")


def _degrees(text: str, positive: str, negative: str, example: str) -> float:
    letter = f"([{positive}{negative}])"
    for form in (_NUMBERS, _TOGETHER[positive]):
        if match := re.fullmatch(f"{letter} ?{form}", text, re.ASCII):
            hemisphere, *numbers = match.groups()
            break
        if match := re.fullmatch(f"{form} ?{letter}", text, re.ASCII):
            *numbers, hemisphere = match.groups()
            break
    else:
        raise DomainError(f"found {shown(text)}; allowed: degrees, minutes, seconds, such as {example}.")
    degrees, minutes, seconds = (float(number) for number in numbers)
    if minutes >= 60.0 or seconds >= 60.0:
        raise DomainError(f"found {shown(text)}; allowed: minutes and seconds below 60.")
    total = degrees + minutes / 60.0 + seconds / ARCSEC_PER_DEG
    return (total if hemisphere == positive else -total) + 0.0
