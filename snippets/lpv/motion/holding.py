"""A holding pattern in wind: the heading and the time outbound, so that the turn inbound ends on the inbound course.

Through the air both turns of a circuit make one full circle, which leads nowhere; the wind carries for all its time.
With the airspeed V, the wind w, the time tau of a full circle, and the inbound leg flown at the ground speed G for the
time t, the circuit closes where the outbound leg has the heading o and the time T of

    (V o + w) T + w tau + G t i = 0             i: along the inbound course                                    (1)

|o| = 1 makes (1) a quadratic for T. Across the course it says of the corrections for drift

    sin(d out) = -(1 + tau / T) sin(d in)                                                                      (2)

at 3 deg/s and one minute three times the one inbound, the rule that is taught.
Bank and wind are steady; which way the hold turns does not matter.
"""

import math

from lpv.core.errors import DomainError, above, in_range
from lpv.core.text import quantity
from lpv.core.units import FPS_PER_KT, degrees_180, degrees_360
from lpv.facts import value
from lpv.motion.kinematics import turn_rate_deg_per_s, wind_triangle

MAX_S = 900.0


class Hold:
    """One circuit.

    inbound_heading_deg, outbound_heading_deg: in the reference of the course
    drift_in_deg, drift_out_deg: corrections, right of the inbound course and of its opposite positive
    outbound_s, inbound_s: wings level;  outbound_kt, inbound_kt: over the ground
    outbound_track_deg: over the ground;  turn_deg_per_s: rate of its turns;  circuit_s: time once round
    """

    def __init__(
        self, headings_deg: "tuple[float, float]", drifts_deg: "tuple[float, float]", times_s: "tuple[float, float]",
        speeds_kt: "tuple[float, float]", outbound_track_deg: float, turn_deg_per_s: float, circuit_s: float,
    ) -> None:
        self.inbound_heading_deg, self.outbound_heading_deg = headings_deg
        self.drift_in_deg, self.drift_out_deg = drifts_deg
        self.inbound_s, self.outbound_s = times_s
        self.inbound_kt, self.outbound_kt = speeds_kt
        self.outbound_track_deg, self.turn_deg_per_s, self.circuit_s = outbound_track_deg, turn_deg_per_s, circuit_s


def holding_bank_deg(true_airspeed_kt: float) -> float:
    """Bank in a hold, deg: that of 3 deg/s, with a flight director 25 deg at most.  AIM 5-3-8 (from memory).

    true_airspeed_kt: 30 to 600; DomainError outside
    """
    in_range("true airspeed", true_airspeed_kt, 30.0, 600.0, "kt")
    rate, most_deg = value("hold_turn_deg_per_s"), value("hold_bank_deg")
    return min(most_deg, math.degrees(math.atan(rate / turn_rate_deg_per_s(true_airspeed_kt, 45.0))))


def hold_in_wind(
    inbound_course_deg: float, true_airspeed_kt: float, wind_from_deg: float, wind_kt: float, bank_deg: float,
    inbound_s: float, roll_s: float = 0.0,
) -> Hold:
    """The circuit whose inbound leg takes a time, by (1).

    bank_deg: of the turns, 1 to 60;  inbound_s: wings level, 10 to 600;  roll_s: from level to that bank, 0 to 30
    DomainError outside, for a wind that the airspeed does not overcome, and where no time outbound is left
    """
    in_range("time inbound", inbound_s, 10.0, 600.0, "s")
    in_range("time to roll", roll_s, 0.0, 30.0, "s")
    triangle = wind_triangle(inbound_course_deg, true_airspeed_kt, wind_from_deg, wind_kt)
    rate = turn_rate_deg_per_s(true_airspeed_kt, bank_deg)
    circle_s = 360.0 / rate
    from_course = math.radians(degrees_180(wind_from_deg - inbound_course_deg))
    tail, right = -wind_kt * math.cos(from_course), -wind_kt * math.sin(from_course)
    # Half of each roll counts as turned, so each leg lasts a roll longer between the middles of its rolls.
    along = tail * circle_s + triangle.ground_speed_kt * (inbound_s + roll_s)
    across = right * circle_s
    room, dot = true_airspeed_kt**2 - wind_kt**2, along * tail + across * right
    time_s = (dot + math.sqrt(dot * dot + room * (along * along + across * across))) / room  # (1)
    ahead, aside = -along / time_s - tail, -across / time_s - right
    above("time outbound", (time_s if ahead < 0.0 else 0.0) - roll_s, 0.0, "s")  # else the wind alone carries too far
    if time_s > MAX_S:
        raise DomainError(f"time outbound: found {quantity(time_s, 's')}; allowed: up to {quantity(MAX_S, 's')}.")
    heading_deg = math.degrees(math.atan2(aside, ahead))
    track = math.degrees(math.atan2(aside + right, ahead + tail))
    speeds = triangle.ground_speed_kt, math.sqrt((ahead + tail) ** 2 + (aside + right) ** 2)
    return Hold(
        (triangle.heading_deg, degrees_360(inbound_course_deg + heading_deg)),
        (degrees_180(triangle.heading_deg - inbound_course_deg), degrees_180(heading_deg - 180.0)),
        (inbound_s, time_s - roll_s), speeds, degrees_360(inbound_course_deg + track), rate,
        circle_s + time_s + inbound_s + roll_s)


def outbound_end_ft(hold: Hold, true_airspeed_kt: float, turn: float, roll_s: float = 0.0) -> "tuple[float, float]":
    """Where the outbound leg ends, (along, across) the inbound course from the fix, ft: ahead and right positive.

    turn: 1 for a hold to the right, -1 to the left;  the rest as `hold_in_wind`, which gave the hold
    """
    first, last = math.radians(hold.drift_in_deg), math.pi + math.radians(hold.drift_out_deg)
    turned = (turn * (last - first)) % (2.0 * math.pi)
    rate = math.radians(hold.turn_deg_per_s)
    tail = hold.inbound_kt - true_airspeed_kt * math.cos(first)
    right = -true_airspeed_kt * math.sin(first)
    radius, rolled = true_airspeed_kt / rate, true_airspeed_kt * roll_s / 2.0
    turning_s, level_s = turned / rate + roll_s, hold.outbound_s
    along = turn * radius * (math.sin(last) - math.sin(first)) + rolled * (math.cos(first) + math.cos(last))
    across = turn * radius * (math.cos(first) - math.cos(last)) + rolled * (math.sin(first) + math.sin(last))
    along += true_airspeed_kt * math.cos(last) * level_s + tail * (turning_s + level_s)
    across += true_airspeed_kt * math.sin(last) * level_s + right * (turning_s + level_s)
    return along * FPS_PER_KT, across * FPS_PER_KT
