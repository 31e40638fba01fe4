"""Altitudes of a recorded flight: from what they count from to height above the path, and how uncertain they are.

An altitude by GNSS says where the aircraft truly is; what the altimeter showed follows from it with the
temperature.  An altitude by the altimeter says what the crew saw; where the aircraft truly was follows from it,
also with the temperature.  A recording may have one of each, and then they check each other.
"""

import math

from lpv.air.altimetry import indicated_height_ft, true_height_ft
from lpv.air.atmosphere import indicated_altitude_ft
from lpv.core.errors import DomainError, in_range
from lpv.core.units import FT_PER_NM, M_PER_FT
from lpv.facts import value, value_of
from lpv.track.records import RECEIVERS, Conditions, Reading, Recording
from lpv.track.target import Target

HIGHEST_FT, LOWEST_FT = 15_000.0, -900.0  # above the airport; outside, a sample counts as without altitude
FT_PER_DEG = 60.0 * FT_PER_NM


class Level:
    """One sample's height: true altitude above mean sea level, height above the ellipsoid, on the altimeter.

    recorded: whether the altimeter's altitude was recorded; if not, it is what it should have shown
    """

    def __init__(self, true_ft: float, ellipsoid_m: float, indicated_ft: float, recorded: bool) -> None:
        self.true_ft, self.ellipsoid_m, self.indicated_ft, self.recorded = true_ft, ellipsoid_m, indicated_ft, recorded


class Levels:
    """How altitudes of one recording are read, for one approach.

    geometric, barometric: references as in `lpv.track.records`
    temperature_c: at the airport, stated or standard (temperature_stated);  qnh_hpa: as stated
    receiver: one of `lpv.track.records.RECEIVERS`
    """

    def __init__(
        self, geometric: str, barometric: str, temperature_c: float, qnh_hpa: "float | None", airport_ft: float,
        threshold_ft: float, ltp_height_m: float, temperature_stated: bool = False, receiver: str = RECEIVERS[0],
    ) -> None:
        self.geometric, self.barometric = geometric, barometric
        self.temperature_c, self.qnh_hpa = temperature_c, qnh_hpa
        self.airport_ft, self.threshold_ft, self.ltp_height_m = airport_ft, threshold_ft, ltp_height_m
        self.temperature_stated, self.receiver = temperature_stated, receiver

    @property
    def geoid_ft(self) -> float:
        """Height of mean sea level above the ellipsoid at the threshold, as the approach's own data give it."""
        return self.ltp_height_m / M_PER_FT - self.threshold_ft

    def level(self, reading: Reading) -> "Level | None":
        """The heights of a sample; None without an altitude, or with one that no approach is flown at."""
        if reading.geometric_ft is not None:
            return self._from_true(self.true_ft(self.geometric, reading.geometric_ft), reading.barometric_ft)
        if reading.barometric_ft is not None:
            return self._from_true(self.true_ft(self.barometric, reading.barometric_ft), reading.barometric_ft)
        return None

    def true_ft(self, reference: str, altitude_ft: float) -> "float | None":
        """True altitude above mean sea level of an altitude in a reference; None far from the airport's level.

        The geoid is taken as parallel to the ellipsoid near the airport.
        """
        if reference == "ellipsoid":
            altitude_ft -= self.geoid_ft
        elif reference in ("indicated", "pressure"):
            indicated_ft = self.indicated_ft(reference, altitude_ft)
            if not self._near(indicated_ft):
                return None
            height_ft = true_height_ft(indicated_ft - self.airport_ft, self.temperature_c, self.airport_ft)
            altitude_ft = self.airport_ft + height_ft
        return altitude_ft if self._near(altitude_ft) else None

    def indicated_ft(self, reference: str, altitude_ft: float) -> float:
        """What the altimeter showed, from what it recorded; DomainError without the setting that it needs."""
        if reference == "indicated":
            return altitude_ft
        if self.qnh_hpa is None:
            raise DomainError("altimeter setting: found none; allowed: one, since pressure altitudes need it.")
        return indicated_altitude_ft(altitude_ft, self.qnh_hpa)

    def _near(self, altitude_ft: float) -> bool:
        return LOWEST_FT <= altitude_ft - self.airport_ft <= HIGHEST_FT

    def _from_true(self, true_ft: "float | None", barometric_ft: "float | None") -> "Level | None":
        if true_ft is None:
            return None
        ellipsoid_m = self.ltp_height_m + (true_ft - self.threshold_ft) * M_PER_FT
        if barometric_ft is not None:
            return Level(true_ft, ellipsoid_m, self.indicated_ft(self.barometric, barometric_ft), True)
        return Level(true_ft, ellipsoid_m, self.expected_ft(true_ft), False)

    def expected_ft(self, true_ft: float) -> float:
        """What an altimeter that is right and set right shows at a true altitude."""
        above_ft = true_ft - self.airport_ft
        return self.airport_ft + indicated_height_ft(above_ft, self.temperature_c, self.airport_ft)

    def receiver_ft(self) -> float:
        """How far (ft, either way) an altitude by the receiver may be off, about nineteen times in twenty."""
        key = "accuracy_lpv_vertical_m" if self.receiver == "SBAS" else "gps_vertical_95_m"
        return value_of(key) / M_PER_FT

    def uncertainty_ft(self, true_ft: float) -> float:
        """How far (ft, either way) the true altitude may be off, about nineteen times in twenty.

        GNSS: `receiver_ft`.  Altimeter: `altimeter_ground_check_ft` and air that is `recording_air_c`
        warmer or colder than taken, as the root of the squares.
        """
        return self.receiver_ft() if self.geometric else self.altimeter_uncertainty_ft(true_ft)

    def reading_uncertainty_ft(self, true_ft: float) -> float:
        """The same of what the altimeter showed: as recorded, or worked out from where the aircraft was.

        Recorded, it is as good as the setting is known; worked out, as the receiver and the air.  The altimeter's own
        tolerance is no part of it: what counts is what the crew saw.
        """
        if self.barometric:
            return value("recording_setting_ft") if self.barometric == "pressure" else 0.0
        return math.sqrt(self.receiver_ft() ** 2 + self.air_ft(true_ft) ** 2)

    def air_ft(self, true_ft: float) -> float:
        """How much `recording_air_c` colder air puts between the altimeter and the true altitude."""
        above_ft = max(0.0, true_ft - self.airport_ft)
        colder = true_height_ft(above_ft, self.temperature_c - value("recording_air_c"), self.airport_ft)
        return true_height_ft(above_ft, self.temperature_c, self.airport_ft) - colder

    def altimeter_uncertainty_ft(self, true_ft: float) -> float:
        """The same of a true altitude by the altimeter, whatever was recorded."""
        return math.sqrt(value("altimeter_ground_check_ft") ** 2 + self.air_ft(true_ft) ** 2)

def levels_of(recording: Recording, target: Target, conditions: Conditions) -> Levels:
    """How the altitudes of a recording are read; DomainError for pressure altitudes without a setting.

    Temperature at the airport: -60 to 55 °C.
    """
    temperature_c = target.standard_c() if conditions.temperature_c is None else conditions.temperature_c
    in_range("temperature at the airport", temperature_c, -60.0, 55.0, "°C")
    levels = Levels(
        recording.geometric, recording.barometric, temperature_c, conditions.qnh_hpa, target.airport_ft,
        target.threshold_ft, target.threshold_height_m, conditions.temperature_c is not None, conditions.receiver,
    )
    if recording.barometric == "pressure":
        levels.indicated_ft("pressure", 0.0)
    return levels


def position_uncertainty_ft(recording: Recording) -> float:
    """How far (ft) a position may be off: `gps_horizontal_95_m`, and half of its last decimal."""
    rounding_ft = 0.5 * 10.0 ** -recording.decimals * FT_PER_DEG
    return math.sqrt((value("gps_horizontal_95_m") / M_PER_FT) ** 2 + rounding_ft**2)
