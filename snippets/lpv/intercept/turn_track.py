"""The turn onto the final course as a track over the ground, for drawing it.

`lpv.intercept.course` has the same turn in closed form, with rolling in and out counted as
a delay.  Here the bank grows and shrinks at the roll rate, step by step in time.
"""

import math

from lpv.core.units import degrees_180, degrees_360
from lpv.intercept.course import TurnOn, intercept_angle_deg
from lpv.motion.kinematics import crosswind_kt, headwind_kt, turn_rate_deg_per_s, wind_triangle

STEPS = 400
MIN_BANK_DEG = 0.1  # of lpv.motion.kinematics


def turn_track(
    turn: TurnOn, track_deg: float, final_course_deg: float, true_airspeed_kt: float,
    roll_rate_deg_per_s: float, wind_from_deg: float, wind_kt: float,
) -> list[tuple[float, float]]:
    """(along, right of) the final course, NM, from the first roll (0, 0) to wings level, 401 points.

    turn: of `lpv.intercept.course.turn_onto_course` for the same arguments; limits and errors as there.
    The bank is a trapeze over the turn's time.  The last point agrees with turn.along_nm and
    turn.cross_track_nm to 1 % of the larger.
    """
    before = wind_triangle(track_deg, true_airspeed_kt, wind_from_deg, wind_kt)
    after = wind_triangle(final_course_deg, true_airspeed_kt, wind_from_deg, wind_kt)
    side = math.copysign(1.0, degrees_180(after.heading_deg - before.heading_deg))
    step_s = turn.time_s / STEPS
    heading_deg = before.correction_deg + intercept_angle_deg(track_deg, final_course_deg)
    along_wind_kt = headwind_kt(final_course_deg, wind_from_deg, wind_kt)
    left_wind_kt = crosswind_kt(final_course_deg, wind_from_deg, wind_kt)
    along = right = 0.0
    points = [(along, right)]
    for number in range(STEPS):
        time_s = (number + 0.5) * step_s
        rolled_deg = roll_rate_deg_per_s * min(time_s, turn.time_s - time_s)
        bank_deg = max(MIN_BANK_DEG, min(turn.bank_deg, rolled_deg))
        turned_deg = side * turn_rate_deg_per_s(true_airspeed_kt, bank_deg) * step_s
        middle = math.radians(degrees_360(heading_deg + turned_deg / 2.0))
        along += (true_airspeed_kt * math.cos(middle) - along_wind_kt) * step_s / 3600.0
        right += (true_airspeed_kt * math.sin(middle) - left_wind_kt) * step_s / 3600.0
        heading_deg += turned_deg
        points.append((along, right))
    return points
