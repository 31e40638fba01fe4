"""The standard atmosphere below the tropopause, and airspeeds in it.

Altitudes are pressure altitudes in feet from -5000 to the tropopause (36 089);
temperatures in °C from -90 to 60; dry air.  Everything outside raises
DomainError, and so does nan.  Source of the atmosphere: ICAO Doc 7488, its
constants from memory; checked against an independent implementation.
"""

import math

from lpv.core.errors import DomainError, in_range
from lpv.core.text import number
from lpv.core.units import M_PER_FT, MPS_PER_KT, STANDARD_GRAVITY_MPS2, ZERO_CELSIUS_K
from lpv.facts import value

LOWEST_ALTITUDE_FT = -5000.0
TROPOPAUSE_FT = value("isa_tropopause_m") / M_PER_FT
T0_K = value("isa_temperature_k")
P0_HPA = value("isa_pressure_hpa")
LAPSE_K_PER_FT = value("isa_lapse_rate_k_per_m") * M_PER_FT
GAS_CONSTANT = value("air_gas_constant_j_per_kg_k")
PRESSURE_EXPONENT = STANDARD_GRAVITY_MPS2 / (GAS_CONSTANT * value("isa_lapse_rate_k_per_m"))
HEAT_RATIO = value("air_heat_ratio")


def _altitude(altitude_ft: float) -> float:
    return in_range("pressure altitude", altitude_ft, LOWEST_ALTITUDE_FT, TROPOPAUSE_FT, "ft")


def _kelvin(temperature_c: float) -> float:
    return in_range("temperature", temperature_c, -90.0, 60.0, "°C") + ZERO_CELSIUS_K


def isa_temperature_c(pressure_altitude_ft: float) -> float:
    """Temperature of the standard atmosphere, °C."""
    return T0_K - LAPSE_K_PER_FT * _altitude(pressure_altitude_ft) - ZERO_CELSIUS_K


def isa_deviation_c(temperature_c: float, pressure_altitude_ft: float) -> float:
    """Temperature minus standard temperature, °C; colder than standard is negative."""
    _kelvin(temperature_c)
    return temperature_c - isa_temperature_c(pressure_altitude_ft) + 0.0


def isa_pressure_hpa(pressure_altitude_ft: float) -> float:
    """Pressure of the standard atmosphere, hPa = p0 (1 - L h / T0)^(g / (R L))."""
    cooling = LAPSE_K_PER_FT * _altitude(pressure_altitude_ft)
    return P0_HPA * math.pow(1.0 - cooling / T0_K, PRESSURE_EXPONENT)


def pressure_altitude_at_ft(pressure_hpa: float) -> float:
    """Pressure altitude of a pressure of 226.4 to 1210 hPa, ft (isa_pressure_hpa turned round)."""
    lowest = isa_pressure_hpa(TROPOPAUSE_FT)
    in_range("pressure", pressure_hpa, lowest, isa_pressure_hpa(LOWEST_ALTITUDE_FT), "hPa")
    return T0_K / LAPSE_K_PER_FT * (1.0 - math.pow(pressure_hpa / P0_HPA, 1.0 / PRESSURE_EXPONENT)) + 0.0


def density_kg_per_m3(pressure_altitude_ft: float, temperature_c: float) -> float:
    """Density of dry air, kg/m3 = p / (R T)."""
    return isa_pressure_hpa(pressure_altitude_ft) * 100.0 / (GAS_CONSTANT * _kelvin(temperature_c))


def isa_density_kg_per_m3(pressure_altitude_ft: float) -> float:
    """Density of the standard atmosphere, kg/m3."""
    return density_kg_per_m3(pressure_altitude_ft, isa_temperature_c(pressure_altitude_ft))


def hpa_from_inches(setting_inhg: float) -> float:
    """Altimeter setting in hPa from inches of mercury, 25 to 33 inHg."""
    return in_range("altimeter setting", setting_inhg, 25.0, 33.0, "inHg") * value("hpa_per_inhg")


def pressure_altitude_from_setting_ft(indicated_altitude_ft: float, setting_hpa: float) -> float:
    """Pressure altitude, ft, where an altimeter set to 850 to 1100 hPa shows an altitude.

    An altimeter shows the pressure altitude minus the pressure altitude of its setting.
    """
    in_range("altimeter setting", setting_hpa, 850.0, 1100.0, "hPa")
    _altitude(indicated_altitude_ft)
    return _altitude(indicated_altitude_ft + pressure_altitude_at_ft(setting_hpa))


def indicated_altitude_ft(pressure_altitude_ft: float, setting_hpa: float) -> float:
    """Altitude, ft, that an altimeter set to 850 to 1100 hPa shows at a pressure altitude in ft."""
    in_range("altimeter setting", setting_hpa, 850.0, 1100.0, "hPa")
    return _altitude(pressure_altitude_ft) - pressure_altitude_at_ft(setting_hpa) + 0.0


def speed_of_sound_kt(temperature_c: float) -> float:
    """Speed of sound, kt."""
    return math.sqrt(HEAT_RATIO * GAS_CONSTANT * _kelvin(temperature_c)) / MPS_PER_KT


def _impact_pressure_ratio(mach: float) -> float:
    return math.pow(1.0 + (HEAT_RATIO - 1.0) / 2.0 * mach**2, HEAT_RATIO / (HEAT_RATIO - 1.0)) - 1.0


def _mach(impact_pressure_ratio: float) -> float:
    grown = math.pow(impact_pressure_ratio + 1.0, (HEAT_RATIO - 1.0) / HEAT_RATIO)
    return math.sqrt(2.0 / (HEAT_RATIO - 1.0) * (grown - 1.0))


def _subsonic(mach: float) -> float:
    if mach >= 1.0:
        raise DomainError(f"Mach number: found {number(mach, 0.01)}; allowed: less than 1.")
    return mach


def true_airspeed_kt(
    calibrated_airspeed_kt: float, pressure_altitude_ft: float, temperature_c: float
) -> float:
    """True airspeed, kt, from calibrated airspeed of 1 to 661 kt and outside air temperature.

    Compressible, below Mach 1: the impact pressure that gives the calibrated
    airspeed at sea level in the standard atmosphere gives the Mach number here.
    """
    in_range("calibrated airspeed", calibrated_airspeed_kt, 1.0, 661.0, "kt")
    sea_level_mach = calibrated_airspeed_kt / speed_of_sound_kt(T0_K - ZERO_CELSIUS_K)
    impact_hpa = P0_HPA * _impact_pressure_ratio(sea_level_mach)
    mach = _subsonic(_mach(impact_hpa / isa_pressure_hpa(pressure_altitude_ft)))
    return mach * speed_of_sound_kt(temperature_c)


def calibrated_airspeed_kt(
    true_airspeed_kt: float, pressure_altitude_ft: float, temperature_c: float
) -> float:
    """Calibrated airspeed, kt, from true airspeed of 1 kt up to the speed of sound, 1000 kt at most.

    The inverse of true_airspeed_kt.
    """
    in_range("true airspeed", true_airspeed_kt, 1.0, 1000.0, "kt")
    mach = _subsonic(true_airspeed_kt / speed_of_sound_kt(temperature_c))
    impact_hpa = isa_pressure_hpa(pressure_altitude_ft) * _impact_pressure_ratio(mach)
    return _mach(impact_hpa / P0_HPA) * speed_of_sound_kt(T0_K - ZERO_CELSIUS_K)


def true_airspeed_rule_kt(indicated_airspeed_kt: float, altitude_ft: float) -> float:
    """True airspeed, kt, by a rule of thumb that knows no temperature; 1 to 661 kt, 0 to 20 000 ft.

    KIAS (1 + altitude x 0.00002), Order 8260.52 in the example of Formula 3-10A/B (FAA).
    """
    in_range("indicated airspeed", indicated_airspeed_kt, 1.0, 661.0, "kt")
    in_range("altitude", altitude_ft, 0.0, 20000.0, "ft")
    return indicated_airspeed_kt * (1.0 + altitude_ft * value("tas_rule_per_ft"))


def true_airspeed_icao_kt(indicated_airspeed_kt: float, altitude_ft: float, isa_deviation_c: float) -> float:
    """True airspeed, kt, as procedure design takes it: 1 to 661 kt, 0 to 20 000 ft, ISA -50 to +50 °C.

    IAS x 171233 (288 + dISA - 0.00198 h)^0.5 / (288 - 0.00198 h)^2.628, Doc 8168 Vol II (ICAO).
    """
    in_range("indicated airspeed", indicated_airspeed_kt, 1.0, 661.0, "kt")
    in_range("altitude", altitude_ft, 0.0, 20000.0, "ft")
    in_range("deviation from standard temperature", isa_deviation_c, -50.0, 50.0, "°C")
    cooling = value("pans_ops_tas_lapse_rate_k_per_ft") * altitude_ft
    standard_k = value("pans_ops_tas_temperature_k") - cooling
    factor = value("pans_ops_tas_factor") * math.sqrt(standard_k + isa_deviation_c)
    return indicated_airspeed_kt * factor / math.pow(standard_k, value("pans_ops_tas_exponent"))
