"""Meeting the final course: where, at what angle, with what turn, and the overshoot of a late one.

Positions are given beside the final course: along_nm before the threshold
(negative past it), across_nm right of the course as flown inbound.  Courses
are degrees, all true or all magnetic, the wind too.  The earth is flat here.
Turns are level, at constant airspeed; the bank grows and shrinks at the roll
rate, which counts as a delay before and after a turn at full bank.  The delay
keeps the time exact; against a step-by-step integration the distances are
right to 1 %.
"""

import math

from lpv.core.errors import in_range
from lpv.core.units import FT_PER_NM, degrees_180
from lpv.facts import value
from lpv.motion.kinematics import (
    WindTriangle,
    track_and_ground_speed,
    turn_radius_nm,
    turn_time_s,
    wind_triangle,
)
from lpv.motion.turn_lead import peak_bank_deg
from lpv.path.deviation import from_two_dots_ft

PARALLEL_DEG = 0.01


class Meeting:
    """Where the present track, flown on, meets the final course.

    distance_nm:  before the threshold, negative past it
    angle_deg:    between track and final course, 0 to 180
    to_go_nm:     along the track until then;  time_s: the same in seconds
    outside_pfaf: true if that is at the PFAF or farther out
    """

    def __init__(
        self, distance_nm: float, angle_deg: float, to_go_nm: float, time_s: float, outside_pfaf: bool
    ) -> None:
        self.distance_nm = distance_nm
        self.angle_deg = angle_deg
        self.to_go_nm = to_go_nm
        self.time_s = time_s
        self.outside_pfaf = outside_pfaf


class TurnOn:
    """The turn from the present track onto the final course.

    cross_track_nm: distance from the course at which the roll must begin
    lead_nm:        the same along the present track, before it meets the course
    along_nm:       progress along the final course from there to wings level (negative: away)
    bank_deg:       steepest bank (a small turn ends before the bank limit is reached)
    time_s:         from the first roll to wings level
    """

    def __init__(
        self, cross_track_nm: float, lead_nm: float, along_nm: float, bank_deg: float, time_s: float
    ) -> None:
        self.cross_track_nm = cross_track_nm
        self.lead_nm = lead_nm
        self.along_nm = along_nm
        self.bank_deg = bank_deg
        self.time_s = time_s


def intercept_angle_deg(track_deg: float, final_course_deg: float) -> float:
    """Track minus final course, degrees, over -180 up to 180; positive when the track points right of it.

    track_deg, final_course_deg: 0 to 360; DomainError outside
    """
    in_range("track", track_deg, 0.0, 360.0, "deg")
    in_range("final course", final_course_deg, 0.0, 360.0, "deg")
    return degrees_180(track_deg - final_course_deg)


def track_meets(
    along_nm: float, across_nm: float, track_deg: float, final_course_deg: float,
    ground_speed_kt: float, pfaf_distance_nm: float,
) -> "Meeting | None":
    """Where the track meets the final course (see Meeting), or None if it leads away or runs parallel.

    Within 0.01 degrees of the course a track counts as parallel.  On the course
    already (across 0), the meeting is here.

    along_nm, across_nm: -200 to 200; ground_speed_kt: 1 to 1000; pfaf_distance_nm: 0.1 to 50
    Raises DomainError outside.  Source: plane geometry.
    """
    in_range("distance before the threshold", along_nm, -200.0, 200.0, "NM")
    in_range("distance from the course", across_nm, -200.0, 200.0, "NM")
    in_range("ground speed", ground_speed_kt, 1.0, 1000.0, "kt")
    in_range("distance of the FAF", pfaf_distance_nm, 0.1, 50.0, "NM")
    angle_deg = intercept_angle_deg(track_deg, final_course_deg)
    to_go_nm = 0.0
    if across_nm != 0.0:
        if not _closing(across_nm, angle_deg):
            return None
        to_go_nm = abs(across_nm) / math.sin(math.radians(abs(angle_deg)))
    distance_nm = along_nm - to_go_nm * math.cos(math.radians(angle_deg))
    time_s = to_go_nm / ground_speed_kt * 3600.0
    return Meeting(distance_nm + 0.0, abs(angle_deg), to_go_nm, time_s, distance_nm >= pfaf_distance_nm)


def heading_meets(
    along_nm: float, across_nm: float, heading_deg: float, final_course_deg: float,
    true_airspeed_kt: float, wind_from_deg: float, wind_kt: float, pfaf_distance_nm: float,
) -> "Meeting | None":
    """As `track_meets`, from heading, airspeed and wind; their limits as in `lpv.motion.kinematics`."""
    track_deg, ground_speed_kt = track_and_ground_speed(heading_deg, true_airspeed_kt, wind_from_deg, wind_kt)
    return track_meets(along_nm, across_nm, track_deg, final_course_deg, ground_speed_kt, pfaf_distance_nm)


def turn_onto_course(
    track_deg: float, final_course_deg: float, true_airspeed_kt: float, bank_deg: float,
    roll_rate_deg_per_s: float, wind_from_deg: float, wind_kt: float,
) -> TurnOn:
    """The turn onto the final course in steady wind (see TurnOn).

    The aircraft holds its track before, turns the shorter way to the heading that
    holds the course, and is carried by the wind meanwhile.

    Angle between track and course and turn in heading up to 170 degrees; bank 0.1
    to 80 degrees, roll rate 0.5 to 60 deg/s, speeds and wind as `lpv.motion.kinematics.wind_triangle`.
    Raises DomainError outside.  Source: the constant-bank turn integrated in closed form.
    """
    track_angle_deg = intercept_angle_deg(track_deg, final_course_deg)
    in_range("intercept angle", abs(track_angle_deg), 0.0, 170.0, "deg")
    before = wind_triangle(track_deg, true_airspeed_kt, wind_from_deg, wind_kt)
    after = wind_triangle(final_course_deg, true_airspeed_kt, wind_from_deg, wind_kt)
    turn_deg = degrees_180(after.heading_deg - before.heading_deg)
    bank = peak_bank_deg(true_airspeed_kt, bank_deg, roll_rate_deg_per_s, abs(turn_deg))
    if bank < 0.1:  # under the least bank of lpv.motion.kinematics: no turn worth the name
        return TurnOn(0.0, 0.0, 0.0, bank, 0.0)
    turn_s = turn_time_s(abs(turn_deg), true_airspeed_kt, bank)
    delay_s = _roll_delay_s(bank, roll_rate_deg_per_s)
    ahead_nm, aside_nm = _turned_nm(before, after, track_angle_deg, true_airspeed_kt, bank, turn_s)
    delay_nm = before.ground_speed_kt * delay_s / 3600.0
    aside_nm += delay_nm * _sin(track_angle_deg)
    ahead_nm += delay_nm * _cos(track_angle_deg) + after.ground_speed_kt * delay_s / 3600.0
    lead_nm = abs(aside_nm) / max(_sin(abs(track_angle_deg)), _sin(PARALLEL_DEG))
    return TurnOn(abs(aside_nm), lead_nm, ahead_nm, bank, turn_s + 2.0 * delay_s)


def turn_onto_course_in_calm(
    track_deg: float, final_course_deg: float, ground_speed_kt: float, bank_deg: float,
    roll_rate_deg_per_s: float,
) -> TurnOn:
    """As `turn_onto_course` without wind: the airspeed is the ground speed."""
    return turn_onto_course(
        track_deg, final_course_deg, ground_speed_kt, bank_deg, roll_rate_deg_per_s, 0.0, 0.0
    )


def established_distance_nm(meeting: Meeting, turn: TurnOn) -> float:
    """Distance before the threshold, NM, at which the turn begun in time ends on the course, wings level."""
    start_nm = meeting.distance_nm + turn.lead_nm * _cos(meeting.angle_deg)
    return start_nm - turn.along_nm


def overshoot_nm(turn: TurnOn, cross_track_nm: float) -> float:
    """How far past the course, NM, the turn carries if the roll begins this close to it; 0 if in time.

    cross_track_nm: distance from the course at the first roll, 0 to 200; DomainError outside
    """
    in_range("distance from the course", cross_track_nm, 0.0, 200.0, "NM")
    return max(0.0, turn.cross_track_nm - cross_track_nm)


def overshoot_captured_at_nm(turn: TurnOn, dots: float, full_scale_ft: float) -> float:
    """Overshoot, NM, if the roll begins at so many dots (0 to 2) of a two-dot scale.

    full_scale_ft: course deviation at full scale there, see `lpv.path.deviation`; DomainError outside
    """
    in_range("dots", dots, 0.0, value("two_dot_scale_dots"), "dots")
    return overshoot_nm(turn, from_two_dots_ft(dots, full_scale_ft) / FT_PER_NM)


def overshoot_late_nm(angle_deg: float, ground_speed_kt: float, late_s: float) -> float:
    """Overshoot, NM, if the roll begins this many seconds late (0 to 600): the way closed meanwhile.

    angle_deg: between track and course, 0 to 170; ground_speed_kt: on the track, 1 to 1000
    """
    in_range("intercept angle", angle_deg, 0.0, 170.0, "deg")
    in_range("ground speed", ground_speed_kt, 1.0, 1000.0, "kt")
    flown_nm = ground_speed_kt * in_range("delay", late_s, 0.0, 600.0, "s") / 3600.0
    return flown_nm * _sin(angle_deg)


def ready_to_arm(
    across_nm: float, track_deg: float, final_course_deg: float, within_nm: "float | None" = None
) -> bool:
    """True if an approach may be armed as far as its course goes: closing with it, or on it, and inbound.

    Inbound is less than 90 degrees from the course.  Cleared, and source and level right, are for the crew to see.
    within_nm: distance from the course within which the type or the operator arms, 0.1 to 60; None where neither
    has such a rule.  across_nm: -200 to 200; DomainError outside.
    """
    in_range("distance from the course", across_nm, -200.0, 200.0, "NM")
    if within_nm is not None and abs(across_nm) > in_range("arming distance", within_nm, 0.1, 60.0, "NM"):
        return False
    angle_deg = intercept_angle_deg(track_deg, final_course_deg)
    return abs(angle_deg) < 90.0 and (across_nm == 0.0 or _closing(across_nm, angle_deg))


def _closing(across_nm: float, angle_deg: float) -> bool:
    parallel = min(abs(angle_deg), 180.0 - abs(angle_deg)) < PARALLEL_DEG
    return not parallel and (across_nm > 0.0) == (angle_deg < 0.0)


def _roll_delay_s(bank_deg: float, roll_rate_deg_per_s: float) -> float:
    """Seconds by which rolling in (or out) lags behind a turn at full bank: t + ln(cos b) / (p tan b)."""
    bank = math.radians(bank_deg)
    return (bank + math.log(math.cos(bank)) / math.tan(bank)) / math.radians(roll_rate_deg_per_s)


def _turned_nm(
    before: WindTriangle, after: WindTriangle, track_angle_deg: float,
    true_airspeed_kt: float, bank_deg: float, turn_s: float,
) -> "tuple[float, float]":
    """(along, right of) the course, NM, in the turn at constant bank: the arc in the air and the wind."""
    from_deg = before.correction_deg + track_angle_deg  # headings as angles from the course
    to_deg = after.correction_deg
    radius_nm = turn_radius_nm(true_airspeed_kt, bank_deg)
    if degrees_180(to_deg - from_deg) < 0.0:
        radius_nm = -radius_nm
    wind_along_kt = after.ground_speed_kt - true_airspeed_kt * _cos(to_deg)
    wind_right_kt = -true_airspeed_kt * _sin(to_deg)
    along_nm = radius_nm * (_sin(to_deg) - _sin(from_deg)) + wind_along_kt * turn_s / 3600.0
    right_nm = radius_nm * (_cos(from_deg) - _cos(to_deg)) + wind_right_kt * turn_s / 3600.0
    return along_nm, right_nm


def _sin(angle_deg: float) -> float:
    return math.sin(math.radians(angle_deg))


def _cos(angle_deg: float) -> float:
    return math.cos(math.radians(angle_deg))
