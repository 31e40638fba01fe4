"""Which kind of transmitter a navigation frequency belongs to.

Localizers have the frequencies with an odd tenth of a megahertz from 108.10 to 111.95 MHz, each with its
neighbour 0.05 higher: 40 channels.  VORs have the even tenths below 112 MHz and every 0.05 MHz above, up to
117.95 MHz: 160 channels.  From memory of ICAO Annex 10 Vol I (facts `localizer_...`, `vor_...`).
"""

import math

from lpv.core.errors import DomainError
from lpv.facts import remembered, value_of

KHZ_PER_MHZ = 1000


def _khz(key: str) -> int:
    return round(value_of(key) * KHZ_PER_MHZ)


STEP_KHZ = _khz("navigation_channel_step_mhz")
LOCALIZER_KHZ = (_khz("localizer_lowest_mhz"), _khz("localizer_highest_mhz"))
VOR_KHZ = (_khz("vor_lowest_mhz"), _khz("vor_highest_mhz"))


def kind_of_khz(frequency_khz: int) -> str:
    """"localizer", "VOR" or "neither" for a frequency in whole kilohertz (110300 is 110.30 MHz)."""
    if frequency_khz % STEP_KHZ:
        return "neither"
    odd_tenth = frequency_khz // 100 % 2 == 1
    if odd_tenth and LOCALIZER_KHZ[0] <= frequency_khz <= LOCALIZER_KHZ[1]:
        return "localizer"
    return "VOR" if VOR_KHZ[0] <= frequency_khz <= VOR_KHZ[1] else "neither"


def kind(frequency_mhz: float) -> str:
    """"localizer", "VOR" or "neither" for a frequency in megahertz.

    The frequency counts as the nearest whole kilohertz, so that 110.30000001 is 110.30 and 110.305,
    110.308 or 110.301 are no channel.  DomainError for nan, infinity and anything not positive.
    """
    if not 0.0 < frequency_mhz < 1e6:
        raise DomainError(f"frequency: found {frequency_mhz} MHz; allowed: a positive number of megahertz.")
    return kind_of_khz(math.floor(frequency_mhz * KHZ_PER_MHZ + 0.5))


def is_localizer(frequency_mhz: float) -> bool:
    """Whether a frequency (MHz) is one of the 40 localizer channels; domain as kind."""
    return kind(frequency_mhz) == "localizer"


def channels_remembered() -> str:
    """", from memory" where the limits of the localizer channels were read in no document, else ""."""
    return remembered("localizer_lowest_mhz", "localizer_highest_mhz", "navigation_channel_step_mhz")


def localizer_channels() -> "list[float]":
    """The 40 localizer frequencies in megahertz, from the lowest up."""
    low, high = LOCALIZER_KHZ
    return [khz / KHZ_PER_MHZ for khz in range(low, high + 1, STEP_KHZ) if kind_of_khz(khz) == "localizer"]
