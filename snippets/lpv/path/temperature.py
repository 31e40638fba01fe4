"""What temperature does to the path: the altimeter on an SBAS path, and a barometric path itself.

The SBAS path stands still in space, whatever the temperature; the altimeter reads
MORE than the charted altitude on it in cold (the aircraft is truly lower than
indicated, so it meets the path closer in when level at a charted indicated
altitude) and less in heat.  Far out it also reads more at standard temperature,
since the straight path rises above the curved earth.

A barometric path hangs on the altimeter: shallower in cold, steeper in heat.

Altitudes are MSL on an altimeter set right for a source at the aerodrome's
elevation (-2000 to 15 000 ft); temperature at the aerodrome, -90 to 60 °C; path angle
0.1 to 10 deg; distances before the threshold as in lpv.path.profile.  Everything outside
raises DomainError, and so does nan.
"""

import math

from lpv.air.altimetry import aerodrome_isa_deviation_c, indicated_height_ft, true_height_ft
from lpv.core.errors import in_range
from lpv.core.units import ZERO_CELSIUS_K
from lpv.facts import value
from lpv.path.profile import straight_path_distance_nm, straight_path_height_ft


def _angle(gpa_deg: float) -> float:
    return in_range("path angle", gpa_deg, 0.1, 10.0, "deg")


def _distance(distance_nm: float) -> float:
    return in_range("distance to the threshold", distance_nm, 0.0, 60.0, "NM")


def indicated_on_path_ft(
    distance_nm: float, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float,
    temperature_c: float, aerodrome_elevation_ft: float,
) -> float:
    """Altitude, ft, that the altimeter shows on the SBAS path 0 to 60 NM before the threshold."""
    true_altitude = straight_path_height_ft(
        _distance(distance_nm), threshold_elevation_ft, tch_ft, _angle(gpa_deg)
    )
    true_height = true_altitude - aerodrome_elevation_ft
    return aerodrome_elevation_ft + indicated_height_ft(true_height, temperature_c, aerodrome_elevation_ft)


def path_met_distance_nm(
    indicated_altitude_ft: float, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float,
    temperature_c: float, aerodrome_elevation_ft: float,
) -> float:
    """Distance, NM, before the threshold at which level flight at an indicated altitude meets the SBAS path.

    Closer in when cold, farther out when hot; negative behind the threshold.  Indicated
    height -2000 to 30 000 ft above the aerodrome.
    """
    true_height = true_height_ft(
        indicated_altitude_ft - aerodrome_elevation_ft, temperature_c, aerodrome_elevation_ft
    )
    true_altitude = aerodrome_elevation_ft + true_height
    return straight_path_distance_nm(true_altitude, threshold_elevation_ft, tch_ft, _angle(gpa_deg))


def barometric_angle_deg(gpa_deg: float, temperature_c: float, elevation_ft: float) -> float:
    """True angle, deg, of an uncompensated barometric path near the aerodrome.

    tan(angle) grows with the absolute temperature over the standard one; the plain ratio.
    """
    standard_k = _standard_k(temperature_c, elevation_ft)
    ratio = (temperature_c + ZERO_CELSIUS_K) / standard_k
    return math.degrees(math.atan(ratio * math.tan(math.radians(_angle(gpa_deg)))))


def _standard_k(temperature_c: float, elevation_ft: float) -> float:
    return temperature_c + ZERO_CELSIUS_K - aerodrome_isa_deviation_c(temperature_c, elevation_ft)


def _order_height(height_ft: float) -> float:
    return in_range("height of the FAF above the LTP", height_ft, 100.0, 15000.0, "ft")


def order_effective_angle_deg(gpa_deg: float, height_ft: float, isa_deviation_c: float) -> float:
    """Effective angle, deg, of a barometric path by Order 8260.52 Formula 3-4 (FAA).

    atan((a + e) / r), r = a / tan(gpa), e = dISA (0.19 + 0.0038 a) + 0.032 a + 4.9; a is the PFAF
    above the LTP, 100 to 15 000 ft, dISA -100 to 50 °C.  The allowance 0.032 a + 4.9 takes
    part of the cold back, so the result is steeper than the physical angle.  Read from a
    poorly legible copy of a cancelled order; its example reproduces.
    """
    a = _order_height(height_ft)
    deviation = in_range("deviation from standard temperature", isa_deviation_c, -100.0, 50.0, "°C")
    e = deviation * _order_per_c(a) + _order_allowance(a)
    return math.degrees(math.atan((a + e) / a * math.tan(math.radians(_angle(gpa_deg)))))  # 3-4


def _order_per_c(a: float) -> float:
    return value("baro_path_per_c_ft") + value("baro_path_per_c_and_ft") * a


def _order_allowance(a: float) -> float:
    return value("baro_path_per_ft") * a + value("baro_path_constant_ft")


def order_isa_deviation_c(gpa_deg: float, lowest_deg: float, height_ft: float) -> float:
    """Deviation from standard temperature, °C, at which order_effective_angle_deg is lowest_deg.

    (-el - 0.032 a - 4.9) / (0.19 + 0.0038 a), el the loss of height from the PFAF to a path of
    the lowest angle; Order 8260.52 Formula 3-5 (FAA).
    """
    a = _order_height(height_ft)
    ratio = math.tan(math.radians(_angle(lowest_deg))) / math.tan(math.radians(_angle(gpa_deg)))
    el = a * (1.0 - ratio)
    return (-el - _order_allowance(a)) / _order_per_c(a)  # 3-5


def order_lowest_angle_deg(gpa_deg: float) -> float:
    """Least effective angle, deg, that Order 8260.52 allows a barometric path: 0.917 of the published (FAA)."""
    return _angle(gpa_deg) * value("baro_path_lowest_share")
