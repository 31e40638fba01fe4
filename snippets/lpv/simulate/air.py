"""The air of a simulated flight: wind that changes with height, temperature, altimeter, airspeed.

The whole column deviates from the standard atmosphere as the aerodrome does, and the altimeter is set right
for the aerodrome (`lpv.air.altimetry`).  Simplified: the pressure at sea level is standard, so that the pressure
altitude is what the altimeter shows; indicated airspeed is calibrated airspeed.
"""

import math
from bisect import bisect_right
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from lpv.air.altimetry import aerodrome_isa_deviation_c, indicated_height_ft, true_height_ft
from lpv.air.atmosphere import isa_temperature_c, true_airspeed_kt
from lpv.core.errors import DomainError, in_range
from lpv.core.units import FPS_PER_KT, degrees_360
from lpv.motion.kinematics import crosswind_kt, headwind_kt

KNOT_FT = 50.0


@lru_cache(maxsize=4096)
def _knot_ft(number: int, temperature_c: float, elevation_ft: float) -> float:
    return indicated_height_ft(number * KNOT_FT, temperature_c, elevation_ft)


@dataclass(frozen=True)
class WindRow:
    """The wind at a height: ft above the aerodrome, degrees and kt, from where it blows."""

    height_ft: float
    from_deg: float
    speed_kt: float


@dataclass(frozen=True)
class Air:
    """What is constant about the air of one flight.

    deviation_c: temperature minus the standard one
    set_wrong_ft: what the altimeter reads too high because it is set wrong; negative: too low
    winds: (height in ft, tailwind, wind to the right), both in ft/s along the final course, lowest first
    """

    elevation_ft: float
    temperature_c: float
    deviation_c: float
    winds: tuple[tuple[float, float, float], ...] = ()
    set_wrong_ft: float = 0.0

    def indicated_ft(self, altitude_ft: float) -> float:
        """Altitude (ft) on the altimeter, as it is set, at a true altitude; errors as `lpv.air.altimetry`.

        By a straight line between every 100 ft, which is right to a thousandth of a foot.
        """
        knots = (altitude_ft - self.elevation_ft) / KNOT_FT
        below = math.floor(knots)
        low_ft = _knot_ft(below, self.temperature_c, self.elevation_ft)
        high_ft = _knot_ft(below + 1, self.temperature_c, self.elevation_ft)
        return self.set_wrong_ft + self.elevation_ft + low_ft + (knots - below) * (high_ft - low_ft)

    def true_ft(self, indicated_ft: float) -> float:
        """True altitude (ft) where the altimeter, as it is set, shows one; errors as `lpv.air.altimetry`."""
        above_ft = indicated_ft - self.set_wrong_ft - self.elevation_ft
        height_ft = true_height_ft(above_ft, self.temperature_c, self.elevation_ft)
        return self.elevation_ft + height_ft

    def true_airspeed_fps(self, airspeed_kt: float, altitude_ft: float) -> float:
        """True airspeed (ft/s) from indicated airspeed at a true altitude; errors as `lpv.air.atmosphere`."""
        pressure_ft = self.indicated_ft(altitude_ft) - self.set_wrong_ft
        return true_airspeed_kt(airspeed_kt, pressure_ft, self.outside_c(pressure_ft)) * FPS_PER_KT

    def outside_c(self, pressure_ft: float) -> float:
        """Outside air temperature at a pressure altitude; errors as `lpv.air.atmosphere`."""
        return isa_temperature_c(pressure_ft) + self.deviation_c

    def wind_fps(self, altitude_ft: float) -> tuple[float, float]:
        """(tailwind, wind to the right), ft/s along the final course, at a true altitude.

        A straight line between the rows for each part; outside them the nearest row.
        """
        height_ft = altitude_ft - self.elevation_ft
        above = bisect_right(self.winds, height_ft, key=lambda row: row[0])
        if not self.winds:
            return 0.0, 0.0
        if above in (0, len(self.winds)):
            return self.winds[min(above, len(self.winds) - 1)][1:]
        (low_ft, *low), (high_ft, *high) = self.winds[above - 1], self.winds[above]
        share = (height_ft - low_ft) / (high_ft - low_ft)
        return low[0] + share * (high[0] - low[0]), low[1] + share * (high[1] - low[1])

    def wind_from(self, altitude_ft: float) -> tuple[float, float]:
        """(direction it blows from, degrees from the final course; speed, kt) at a true altitude."""
        tail, right = self.wind_fps(altitude_ft)
        return degrees_360(math.degrees(math.atan2(-right, -tail))), math.hypot(tail, right) / FPS_PER_KT


def make_air(
    elevation_ft: float, temperature_c: float, course_deg: float, winds: tuple[WindRow, ...], set_wrong_ft: float = 0.0,
) -> Air:
    """The air over an aerodrome, its winds turned into the final course (same reference as the winds).

    set_wrong_ft: what the altimeter reads too high, -3000 to 3000.

    DomainError for heights that do not rise, and as `lpv.motion.kinematics` and `lpv.air.altimetry`.
    """
    in_range("error of the altimeter setting", set_wrong_ft, -3000.0, 3000.0, "ft")
    heights = [row.height_ft for row in winds]
    if any(high <= low for low, high in pairwise(heights)):
        raise DomainError(f"wind: found heights {heights}; allowed: rising from row to row.")
    return Air(elevation_ft, temperature_c, aerodrome_isa_deviation_c(temperature_c, elevation_ft), tuple(
        (
            row.height_ft,
            -headwind_kt(course_deg, row.from_deg, row.speed_kt) * FPS_PER_KT,
            -crosswind_kt(course_deg, row.from_deg, row.speed_kt) * FPS_PER_KT,
        )
        for row in winds
    ), set_wrong_ft)
