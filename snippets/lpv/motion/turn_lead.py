"""Where to begin a turn onto a course: turn geometry, roll-in and what the wind adds.

Calm air unless wind is named; level, co-ordinated, at constant speed.  Turns up
to 170 deg, roll rates 0.5 to 60 deg/s, other limits as in lpv.motion.kinematics; everything
outside raises DomainError, and so does nan.
"""

import math

from lpv.core.errors import in_range
from lpv.core.units import M_PER_NM, MPS_PER_KT, STANDARD_GRAVITY_MPS2
from lpv.facts import value

ROLL_STEPS = 50

def turn_anticipation_nm(radius_nm: float, turn_deg: float) -> float:
    """Distance before the point where two courses meet at which an arc between them begins, NM.

    r tan(A/2), for a radius of 0 to 100 NM and an instant roll; Doc 8168 Vol II
    III-3-8 par 8.1.5.1.1 (ICAO).
    """
    in_range("turn radius", radius_nm, 0.0, 100.0, "NM")
    in_range("turn", turn_deg, 0.0, 170.0, "deg")
    return radius_nm * math.tan(math.radians(turn_deg) / 2.0)


def peak_bank_deg(
    true_airspeed_kt: float, bank_deg: float, roll_rate_deg_per_s: float, turn_deg: float
) -> float:
    """Steepest bank, deg, in a turn rolled into and out of at a constant rate.

    A small turn is over before bank_deg is reached: rolling to a bank b and back at
    a rate p turns by 2 g / (V p) ln(1 / cos b), the integral of g tan(p t) / V.
    Domain: 1 to 1000 kt, bank 0.1 to 80 deg, rate 0.5 to 60 deg/s, turn 0 to 170 deg; DomainError outside.
    """
    in_range("true airspeed", true_airspeed_kt, 1.0, 1000.0, "kt")
    in_range("bank", bank_deg, 0.1, 80.0, "deg")
    in_range("roll rate", roll_rate_deg_per_s, 0.5, 60.0, "deg/s")
    turn = math.radians(in_range("turn", turn_deg, 0.0, 170.0, "deg"))
    exponent = turn * true_airspeed_kt * MPS_PER_KT * math.radians(roll_rate_deg_per_s)
    reached = math.acos(math.exp(-exponent / (2.0 * STANDARD_GRAVITY_MPS2)))
    return min(bank_deg, math.degrees(reached))


def roll_in_lead_nm(
    true_airspeed_kt: float, bank_deg: float, roll_rate_deg_per_s: float, turn_deg: float
) -> float:
    """Distance along the present track, NM, before it meets the new course, at which to begin the roll.

    Roll in at a constant rate, hold the bank, roll out alike.  After the roll-in the
    aircraft is at x along and y beside its track, turned by h; half the turn lies on
    either side of the bisector, so the lead is (x - r sin h) + (y + r cos h) tan(A/2):
    the turn geometry r tan(A/2) and about half the distance flown while rolling.
    A small turn goes by the bank that it reaches.
    """
    bank = math.radians(peak_bank_deg(true_airspeed_kt, bank_deg, roll_rate_deg_per_s, turn_deg))
    if bank == 0.0:
        return 0.0
    speed_mps = true_airspeed_kt * MPS_PER_KT
    along, beside, turned = _rolled_in(speed_mps, bank, math.radians(roll_rate_deg_per_s))
    radius = speed_mps**2 / (STANDARD_GRAVITY_MPS2 * math.tan(bank))
    centre_beside = beside + radius * math.cos(turned)
    lead_m = along - radius * math.sin(turned) + centre_beside * math.tan(math.radians(turn_deg) / 2.0)
    return lead_m / M_PER_NM


def _rolled_in(speed_mps: float, bank_rad: float, roll_rate_rad_per_s: float) -> "tuple[float, float, float]":
    """Metres along and beside the track, and radians turned, on reaching the bank; midpoint rule."""
    per_log = STANDARD_GRAVITY_MPS2 / (speed_mps * roll_rate_rad_per_s)
    step_m = speed_mps * bank_rad / roll_rate_rad_per_s / ROLL_STEPS
    along = beside = 0.0
    for number in range(ROLL_STEPS):
        turned = -per_log * math.log(math.cos(bank_rad * (number + 0.5) / ROLL_STEPS))
        along += step_m * math.cos(turned)
        beside += step_m * math.sin(turned)
    return along, beside, -per_log * math.log(math.cos(bank_rad))


def roll_in_cross_track_nm(
    true_airspeed_kt: float, bank_deg: float, roll_rate_deg_per_s: float, turn_deg: float
) -> float:
    """Distance from the new course, at right angles to it, at which to begin the roll, NM.

    roll_in_lead_nm times sin(A).
    """
    lead = roll_in_lead_nm(true_airspeed_kt, bank_deg, roll_rate_deg_per_s, turn_deg)
    return lead * math.sin(math.radians(turn_deg))


def wind_drift_in_turn_nm(wind_kt: float, rate_deg_per_s: float, turn_deg: float) -> float:
    """How far wind of 0 to 300 kt carries the aircraft in a turn of 0 to 360 deg at 0.01 to 30 deg/s, NM.

    Doc 8168 Vol II I-4-3 App C (ICAO).
    """
    in_range("wind speed", wind_kt, 0.0, 300.0, "kt")
    in_range("rate of turn", rate_deg_per_s, 0.01, 30.0, "deg/s")
    return wind_kt / 3600.0 * in_range("turn", turn_deg, 0.0, 360.0, "deg") / rate_deg_per_s


def design_wind_kt(altitude_ft: float) -> float:
    """Wind that ICAO procedure design assumes, kt, for -2000 to 50 000 ft.

    w = 2h + 47, h in 1000 ft; Doc 8168 Vol II I-4-3 App A.
    """
    in_range("altitude", altitude_ft, -2000.0, 50000.0, "ft")
    return value("design_wind_per_1000_ft_kt") * altitude_ft / 1000.0 + value("design_wind_base_kt")
