"""How slanted a line of sight goes through the thin shell of the ionosphere; it runs on the phone too."""

import math

from lpv.core.errors import in_range
from lpv.facts import value


def sine_at_shell(elevation_deg: float) -> float:
    """Re cos E / (Re + h): the sine of the angle between line of sight and vertical there; elevation 0 to 90 deg."""
    in_range("elevation", elevation_deg, 0.0, 90.0, "deg")
    radius_km, height_km = value("ionosphere_earth_radius_km"), value("ionosphere_height_km")
    return radius_km * math.cos(math.radians(elevation_deg)) / (radius_km + height_km)


def obliquity(elevation_deg: float) -> float:
    """How much longer the slanted path through the shell is than the vertical one; elevation 0 to 90 deg.

    Fpp = [1 - (Re cos E / (Re + h))^2]^-1/2 (MAAST obliquity2.m, RTKLIB ionppp).
    """
    sine = sine_at_shell(elevation_deg)
    return 1.0 / math.sqrt(1.0 - sine * sine)
