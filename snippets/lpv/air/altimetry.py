"""Temperature and the altimeter: how far indicated and true height lie apart.

In air colder than standard the aircraft is truly LOWER than the altimeter shows,
in warmer air higher.  Two questions, two answers:

true_height_ft:      the altimeter shows this height above its source; where am I?
indicated_height_ft: I am (or must be) at this true height; what does the altimeter show?

A correction is what to add to a published altitude, so it belongs to the second
question; it is positive in cold and negative in heat.  The altimeter is set
right, its source lies at the aerodrome, and the whole air column deviates from
the standard atmosphere as the aerodrome does.  (Air that cools by 6.5 K per km of
true height instead asks for up to 3 % less at 5000 ft.  An inversion is neither.)

Heights are above the altimeter source.  Temperature -90 to 60 °C, elevation of
the source -2000 to 15 000 ft; everything outside raises DomainError, and so
does nan.  Rounding is that of the FAA (Aeronautical Information Manual 7-3-5).
"""

import math

from lpv.core.errors import in_range
from lpv.core.units import ZERO_CELSIUS_K
from lpv.facts import fact, value

TABLE_HEIGHTS_FT = [float(column) for column in str(fact("cold_table_heights_ft").value).split()]
TABLE_TEMPERATURES_C = [float(row) for row in str(fact("cold_table_temperatures_c").value).split()]
HIGHEST_COLUMN_FT = TABLE_HEIGHTS_FT[-1]
# Keeps an exact multiple that carries rounding noise from counting as the next step.
NOISE = 1e-9


def _temperature(temperature_c: float) -> float:
    return in_range("aerodrome temperature", temperature_c, -90.0, 60.0, "°C")


def _elevation(elevation_ft: float) -> float:
    return in_range("altimeter source elevation", elevation_ft, -2000.0, 15000.0, "ft")


def _source_isa_k(elevation_ft: float) -> float:
    cooling = value("log_lapse_rate_k_per_ft") * _elevation(elevation_ft)
    return value("log_isa_temperature_k") - cooling


def aerodrome_isa_deviation_c(temperature_c: float, elevation_ft: float) -> float:
    """Aerodrome temperature minus standard temperature there, °C; cold is negative."""
    return _temperature(temperature_c) + ZERO_CELSIUS_K - _source_isa_k(elevation_ft)


def true_height_ft(indicated_height_ft: float, temperature_c: float, elevation_ft: float) -> float:
    """True height, ft, at which the altimeter shows a height of -2000 to 30 000 ft above its source.

    Exact for a constant deviation dT from the standard atmosphere:
    H - (dT / L) ln(1 - L H / (T0 - L Hss)); the logarithm is that of the formula
    in Doc 8168 Vol II (ICAO) as cited in Transport Canada AC 500-020 par 4.8.
    """
    in_range("indicated height", indicated_height_ft, -2000.0, 30000.0, "ft")
    lapse = value("log_lapse_rate_k_per_ft")
    deviation = aerodrome_isa_deviation_c(temperature_c, elevation_ft)
    logarithm = math.log(1.0 - lapse * indicated_height_ft / _source_isa_k(elevation_ft))
    return indicated_height_ft - deviation / lapse * logarithm


def indicated_height_ft(true_height: float, temperature_c: float, elevation_ft: float) -> float:
    """Height, ft, that the altimeter shows above its source at a true height of -1000 to 20 000 ft.

    true_height_ft turned round, by iteration.
    """
    in_range("true height", true_height, -1000.0, 20000.0, "ft")
    indicated = true_height
    for _ in range(100):
        missing = true_height - true_height_ft(indicated, temperature_c, elevation_ft)
        indicated += missing
        if abs(missing) < NOISE:
            break
    return indicated


def _height(height_ft: float) -> float:
    return in_range("height above the altimeter source", height_ft, 0.0, 15000.0, "ft")


def cold_correction_ft(height_ft: float, temperature_c: float, elevation_ft: float) -> float:
    """Correction, ft, to add for a published height of 0 to 15 000 ft, by the short formula (ICAO).

    H (15 - t0) / (273 + t0 - 0.5 L (H + Hss)), t0 = t + L h; Doc 8168 Vol I Part III Sec 1
    Ch 4 par 4.3, from memory.  Within 5 % for heights up to 5000 ft over sources up
    to 10 000 ft; meant for -15 °C and colder.
    """
    lapse = value("cold_lapse_rate_c_per_ft")
    at_sea_level_c = _temperature(temperature_c) + lapse * _elevation(elevation_ft)
    mean_k = value("cold_zero_celsius_k") + at_sea_level_c - 0.5 * lapse * (_height(height_ft) + elevation_ft)
    return height_ft * (value("cold_isa_temperature_c") - at_sea_level_c) / mean_k + 0.0


def logarithmic_correction_ft(height_ft: float, temperature_c: float, elevation_ft: float) -> float:
    """Correction, ft, to add for a published height of 0 to 15 000 ft, by the logarithmic formula (ICAO).

    The formula takes the height that the altimeter shows, which is the published
    height plus the correction itself; so it is iterated, c <- f(H + c).
    Doc 8168 Vol II 7th edition as cited in Transport Canada AC 500-020 par 4.8.
    """
    return indicated_height_ft(_height(height_ft), temperature_c, elevation_ft) - height_ft


def logarithmic_correction_not_iterated_ft(
    height_ft: float, temperature_c: float, elevation_ft: float
) -> float:
    """What the logarithmic formula gives, ft, when fed the published height: TOO SMALL in cold.

    It tells how much lower than the published height one really is with that height
    on the altimeter; adding it leaves the aircraft low still (a fifth of the correction is
    missing at -50 °C).  Kept to show the trap; use logarithmic_correction_ft.
    """
    return _height(height_ft) - true_height_ft(height_ft, temperature_c, elevation_ft)


def four_percent_correction_ft(height_ft: float, temperature_c: float, elevation_ft: float) -> float:
    """Correction, ft, for 0 to 15 000 ft by the rule: 4 % of the height for each 10 °C below standard.

    Safe above -15 °C; Doc 8168 Vol I Part III Sec 1 Ch 4.3 (ICAO), quoted.
    """
    below = -aerodrome_isa_deviation_c(temperature_c, elevation_ft)
    return _height(height_ft) * value("cold_rule_share_per_10_c") * below / 10.0 + 0.0


def _rounded_up(addition_ft: float, step_ft: float) -> float:
    return math.ceil(addition_ft / step_ft - NOISE) * step_ft + 0.0


def _addition(addition_ft: float) -> float:
    return in_range("addition", addition_ft, 0.0, 10000.0, "ft")


def table_addition_ft(height_ft: float, temperature_c: float) -> float:
    """Addition, ft, as the cold temperature error table has it, for any height of 0 to 5000 ft.

    The short formula for a source at sea level, rounded up to the next 10 ft: this gives all
    98 cells of the table.  -50 to 60 °C; 0 at 15 °C and warmer, as the table subtracts nothing.
    """
    in_range("height above the airport", height_ft, 0.0, HIGHEST_COLUMN_FT, "ft")
    in_range("aerodrome temperature", temperature_c, TABLE_TEMPERATURES_C[-1], 60.0, "°C")
    correction = max(0.0, cold_correction_ft(height_ft, temperature_c, 0.0))
    return _rounded_up(correction, value("cold_table_step_ft"))


def table_interpolated_ft(height_ft: float, temperature_c: float) -> float:
    """Addition, ft, interpolated between four cells of the table: 200 to 5000 ft, -50 to 10 °C."""
    low, high, along = _between("height above the airport", height_ft, TABLE_HEIGHTS_FT, "ft")
    cold, warm, up = _between("aerodrome temperature", temperature_c, TABLE_TEMPERATURES_C[::-1], "°C")
    at_cold = table_addition_ft(low, cold) * (1.0 - along) + table_addition_ft(high, cold) * along
    at_warm = table_addition_ft(low, warm) * (1.0 - along) + table_addition_ft(high, warm) * along
    return at_cold * (1.0 - up) + at_warm * up


def _between(name: str, entry: float, steps: "list[float]", unit: str) -> "tuple[float, float, float]":
    in_range(name, entry, steps[0], steps[-1], unit)
    upper = max(1, len([step for step in steps if step < entry]))
    low, high = steps[upper - 1], steps[upper]
    return low, high, (entry - low) / (high - low)


def nearest_hundred_ft(addition_ft: float) -> float:
    """A segment's addition of 0 to 10 000 ft to the nearest 100 ft, halves up; AIM 7-3-5.e (FAA)."""
    step = value("cold_segment_step_ft")
    return math.floor(_addition(addition_ft) / step + 0.5 + NOISE) * step


def hundred_up_ft(addition_ft: float) -> float:
    """A segment's addition of 0 to 10 000 ft up to the next 100 ft; AIM 7-3-5.e (FAA) allows either."""
    return _rounded_up(_addition(addition_ft), value("cold_segment_step_ft"))


def segment_addition_ft(height_ft: float, temperature_c: float) -> float:
    """Addition, ft, for a segment's altitudes from a height of 0 to 30 000 ft above the airport (FAA).

    Table value to the nearest 100 ft; above 5000 ft the 5000 ft column, which is
    then rounded up only.  AIM 7-3-5.e.
    """
    in_range("height above the airport", height_ft, 0.0, 30000.0, "ft")
    if height_ft > HIGHEST_COLUMN_FT:
        return hundred_up_ft(table_addition_ft(HIGHEST_COLUMN_FT, temperature_c))
    return nearest_hundred_ft(table_addition_ft(height_ft, temperature_c))


def minimum_addition_ft(height_ft: float, temperature_c: float) -> float:
    """Addition, ft, for a DA or MDA and the step-downs inside the FAF, rounded up to 10 ft, never down.

    Between the table's columns the larger of its formula and of the interpolated table, so that a crew who
    interpolates never finds more.  Height above the airport 0 to 5000 ft, -50 to 60 °C; AIM 7-3-5.e (FAA).
    """
    by_formula_ft = table_addition_ft(height_ft, temperature_c)
    if height_ft < TABLE_HEIGHTS_FT[0] or temperature_c > TABLE_TEMPERATURES_C[0]:
        return by_formula_ft
    return max(by_formula_ft, _rounded_up(table_interpolated_ft(height_ft, temperature_c), value("cold_table_step_ft")))
