"""A point mass in simulated flight: its state, what it is told to do, its equations of motion.

Flown co-ordinated: the bank turns it at g tan(bank) / V.  The bank follows its command with a short lag, at
the roll rate at most; the vertical speed likewise, at a vertical acceleration at most.  The true airspeed follows
from the forces along the path through the air: thrust above idle, drag of the configuration, weight, and the wind that
changes with height (`lpv.motion.energy`); the thrust follows what the speed asks for, as fast as it spools up.  Steps
are by Heun's method (second order).

Angles in radians, from the final course, to the right positive; ft and ft/s; indicated airspeed in kt; thrust and drag
as accelerations of the true airspeed, kt/s.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

from lpv.core.units import FPS_PER_KT, FT_PER_NM, M_PER_FT, STANDARD_GRAVITY_MPS2, degrees_360
from lpv.intercept.course import turn_onto_course
from lpv.motion.energy import GRAVITY_KT_PER_S, level_deceleration_kt_per_s
from lpv.simulate.air import Air
from lpv.simulate.guides import Guide

GRAVITY_FPS2 = STANDARD_GRAVITY_MPS2 / M_PER_FT
# Choices of this simulation: gains and lags of an autopilot that flies neatly, no type's own.
BANK_LAG_S = 0.5
CLIMB_LAG_S = 1.0
SPEED_LAG_S = 2.0
SPOOL_LAG_S = 0.5
HEADING_GAIN_PER_S = 0.25
COURSE_GAIN_PER_S = 0.06
LEVEL_GAIN_PER_S = 0.1
PATH_GAIN_PER_S = 0.2
CUT_DEG = 30.0  # steepest cut back to the course
ROLL_OUT_SHARE = 0.8  # of the roll rate, used to plan the roll-out
PATH_CORRECTION_FPS = 10.0  # 600 ft/min
VERTICAL_ACCELERATION_G = 0.05
LONG_WAY_DEG = 60.0  # from which a turn goes the way that is asked for
TURN_FIRST_DEG = 150.0  # from which a turn comes first, whatever the distance to the course
WIDEST_TURN_DEG = 169.0  # of lpv.intercept.course
ALONG_FT = 5.0  # of height, over which changes with height are taken


class Point(NamedTuple):
    """Where the aircraft is and how it moves: distance before the threshold, right of the final course, MSL."""

    along_ft: float
    across_ft: float
    altitude_ft: float
    heading: float
    bank: float
    climb_fps: float
    airspeed_kt: float
    thrust: float = 0.0


@dataclass(frozen=True)
class Limits:
    """What the aircraft may and can do: radians, seconds, kt/s.

    thrust: most thrust above idle;  spool_s: time from idle to that
    """

    bank: float
    roll_per_s: float
    thrust: float
    spool_s: float


@dataclass(frozen=True)
class Orders:
    """What is being flown.

    course:   the guide whose course is tracked; None: the heading is flown
    path:     the guide whose path is tracked; None: `climb_fps` is held or, if None, `altitude_ft` flown to
    descent:  asked for the vertical speed along coded legs, before climb_fps and altitude_ft; None: there is none
    rate_fps: most vertical speed on the way to the altitude;  acceleration_fps2: most vertical acceleration
    turn:     1 or -1: a turn of more than 60 deg goes right or left; 0: the shorter way
    drag:     of the configuration, as `lpv.motion.energy.level_deceleration_kt_per_s`;  brake: added to it
    """

    heading: float
    altitude_ft: float
    rate_fps: float
    speed_kt: float
    course: Guide | None = None
    path: Guide | None = None
    climb_fps: float | None = None
    acceleration_fps2: float = VERTICAL_ACCELERATION_G * GRAVITY_FPS2
    drag: tuple[tuple[float, float], ...] = ((100.0, 1.0),)
    brake: float = 0.0
    turn: int = 0
    descent: "Callable[[Point, Motion], float] | None" = None


def between(low: float, figure: float, high: float) -> float:
    """What is wanted, cut to the limits; written out in `rates` and `wanted_heading`, which every step calls often."""
    return max(low, min(high, figure))


class Motion(NamedTuple):
    """How the point moves, ft/s: true airspeed; wind along and to the right of the final course; over the ground."""

    airspeed: float
    tail: float
    cross: float
    ahead: float
    right: float


def motion_of(point: Point, air: Air) -> Motion:
    """The motion of a point; climbing or descending, the airspeed lies along the slope."""
    airspeed = air.true_airspeed_fps(point.airspeed_kt, point.altitude_ft)
    level = math.sqrt(airspeed**2 - point.climb_fps**2)
    tail, cross = air.wind_fps(point.altitude_ft)
    return Motion(
        airspeed, tail, cross, level * math.cos(point.heading) + tail, level * math.sin(point.heading) + cross)


def without_wind(point: Point, motion: Motion) -> Motion:
    """The motion as it would be in still air: along the heading, at the airspeed."""
    level = math.sqrt(motion.airspeed**2 - point.climb_fps**2)
    return Motion(motion.airspeed, 0.0, 0.0, level * math.cos(point.heading), level * math.sin(point.heading))


def turn_ends_beside_ft(point: Point, motion: Motion, guide: Guide, limits: Limits) -> float:
    """Distance right of the guide's course at which a turn onto it, begun now, would end (lpv.intercept.course)."""
    track = math.remainder(math.atan2(motion.right, motion.ahead) - guide.turn_rad, 2.0 * math.pi)
    track_deg = between(-WIDEST_TURN_DEG, math.degrees(track), WIDEST_TURN_DEG)
    wind_from = math.atan2(-motion.cross, -motion.tail) - guide.turn_rad
    turn = turn_onto_course(
        degrees_360(track_deg), 0.0, motion.airspeed / FPS_PER_KT, math.degrees(limits.bank),
        math.degrees(limits.roll_per_s), degrees_360(math.degrees(wind_from)),
        math.hypot(motion.tail, motion.cross) / FPS_PER_KT,
    )
    aside_ft = math.copysign(turn.cross_track_nm * FT_PER_NM, track_deg)
    return guide.beside_ft(point.along_ft, point.across_ft) + aside_ft


def wanted_heading(point: Point, motion: Motion, guide: Guide, limits: Limits) -> float:
    """The heading that holds the guide's course in the wind, and cuts back to it if the turn onto it ends beside."""
    course = guide if guide.straight else guide.at(point.along_ft, point.across_ft)
    off_ft, most = 0.0, math.radians(CUT_DEG)
    final = course.turn_rad == 0.0 and motion.ahead > 0.0  # less than 90 deg off
    if course.holds_line and (final or _off(point, motion, course) < TURN_FIRST_DEG):
        off_ft = turn_ends_beside_ft(point, motion, course, limits)
    track = course.turn_rad - max(-most, min(most, COURSE_GAIN_PER_S * off_ft / motion.airspeed))
    from_left = motion.cross * math.cos(track) - motion.tail * math.sin(track)
    return track - math.asin(max(-0.9, min(0.9, from_left / motion.airspeed)))


def _off(point: Point, motion: Motion, course: Guide) -> float:
    """Angle between track or heading, whichever is more, and course, deg."""
    track = math.remainder(math.atan2(motion.right, motion.ahead) - course.turn_rad, 2.0 * math.pi)
    return math.degrees(max(abs(track), abs(math.remainder(point.heading - course.turn_rad, 2.0 * math.pi))))


def turn_of_course(motion: Motion, guide: Guide) -> float:
    """Rate (rad/s) at which the heading has to turn on a course that turns: k s / V of the track, k s more of wind.

    With track rate k s at ground speed s, the heading turns by s / (V cos w) as fast, w the wind correction; which is
    the bank of a turn of radius 1 / k over the ground, tan(bank) = s^2 k / (g cos w).
    """
    over_ground = math.hypot(motion.ahead, motion.right)
    wind = math.hypot(motion.tail, motion.cross)
    across = (motion.tail * motion.right - motion.cross * motion.ahead) / over_ground if wind else 0.0
    into_wind = math.sqrt(motion.airspeed**2 - across**2)
    return guide.bend_per_ft * over_ground**2 / into_wind


def wanted_bank(
    point: Point, heading: float, airspeed_fps: float, limits: Limits, turn_side: int = 0, turning: float = 0.0,
) -> float:
    """Bank to turn to a heading: within the limit, in time to roll out on it.

    turn_side: as `Orders.turn`;  turning: rate (rad/s) at which the heading wanted turns by itself
    """
    turn = math.remainder(heading - point.heading, 2.0 * math.pi)
    if turn_side * turn < 0.0 and abs(turn) > math.radians(LONG_WAY_DEG):
        turn += turn_side * 2.0 * math.pi
    if turning:
        rate = turning + HEADING_GAIN_PER_S * turn
        return between(-limits.bank, math.atan(rate * airspeed_fps / GRAVITY_FPS2), limits.bank)
    steady = math.atan(HEADING_GAIN_PER_S * abs(turn) * airspeed_fps / GRAVITY_FPS2)
    # Rolling out from a bank b at a rate p turns by g / (V p) ln(1 / cos b)  (lpv.motion.turn_lead).
    planned = abs(turn) * airspeed_fps * ROLL_OUT_SHARE * limits.roll_per_s / GRAVITY_FPS2
    return math.copysign(min(limits.bank, steady, math.acos(math.exp(-planned))), turn)


def closing_fps(below_ft: float) -> float:
    """How fast to let the path come down to an aircraft 0 ft or more below it.

    As if pitching over with `VERTICAL_ACCELERATION_G`, c = sqrt(2 a d); near the path in proportion, c = k d, so
    that both meet smoothly at d = a / k^2.  From farther below than that takes, the aircraft stays level.
    """
    acceleration_fps2 = VERTICAL_ACCELERATION_G * GRAVITY_FPS2
    near_ft = acceleration_fps2 / PATH_GAIN_PER_S**2
    if below_ft <= near_ft:
        return PATH_GAIN_PER_S * below_ft
    return math.sqrt(2.0 * acceleration_fps2 * (below_ft - near_ft / 2.0))


def wanted_climb_fps(point: Point, orders: Orders, motion: Motion) -> float:
    """Vertical speed that the orders ask for."""
    if orders.path is not None and orders.path.path is not None:
        above = orders.path.above_ft(point.along_ft, point.across_ft, point.altitude_ft)
        sink = motion.ahead * orders.path.path.slope(point.along_ft)
        if above < 0.0:
            return min(closing_fps(-above), max(0.0, sink)) - sink
        return -min(PATH_CORRECTION_FPS, PATH_GAIN_PER_S * above) - sink
    if orders.descent is not None:
        return orders.descent(point, motion)
    if orders.climb_fps is not None:
        return orders.climb_fps
    rate_fps = LEVEL_GAIN_PER_S * (orders.altitude_ft - point.altitude_ft)
    return between(-orders.rate_fps, rate_fps, orders.rate_fps)


def drag_kt_per_s(point: Point, orders: Orders) -> float:
    """Deceleration of the true airspeed in level flight at idle, in the configuration flown."""
    return level_deceleration_kt_per_s(list(orders.drag), point.airspeed_kt) + orders.brake


def carried_kt_per_s(point: Point, motion: Motion, air: Air) -> float:
    """What weight and a wind that changes with height add to the true airspeed, without thrust and drag.

    g sin of the angle down through the air, and less tailwind met per second along the heading.
    """
    tail, cross = air.wind_fps(point.altitude_ft + ALONG_FT)
    tail_below, cross_below = air.wind_fps(point.altitude_ft - ALONG_FT)
    with_heading = (tail - tail_below) * math.cos(point.heading) + (cross - cross_below) * math.sin(point.heading)
    weight = -GRAVITY_KT_PER_S * point.climb_fps / motion.airspeed
    return weight - with_heading / (2.0 * ALONG_FT) * point.climb_fps / FPS_PER_KT


def wanted_thrust(
    point: Point, orders: Orders, motion: Motion, climb_fps: float, drag: float, limits: Limits,
) -> float:
    """Thrust above idle that brings the speed to its target within the lag and climbs as asked, as far as it goes.

    A wind that changes on the way is not foreseen: it shows as a speed that is off.
    """
    more_fps = max(0.0, climb_fps - point.climb_fps)
    for_climb = GRAVITY_KT_PER_S * (more_fps + point.climb_fps) / motion.airspeed
    to_speed = (orders.speed_kt - point.airspeed_kt) / SPEED_LAG_S
    thrust = drag + for_climb + to_speed
    return between(0.0, thrust, limits.thrust)


def indicated_rate(point: Point, motion: Motion, true_rate: float, air: Air) -> float:
    """Rate of the indicated airspeed, kt/s, from that of the true airspeed: the air grows denser on the way down."""
    higher = air.true_airspeed_fps(point.airspeed_kt, point.altitude_ft + ALONG_FT) - motion.airspeed
    faster = air.true_airspeed_fps(point.airspeed_kt + 1.0, point.altitude_ft) - motion.airspeed
    return (true_rate * FPS_PER_KT - higher / ALONG_FT * point.climb_fps) / faster


def rates(point: Point, orders: Orders, air: Air, limits: Limits) -> Point:
    """Rate of change of every part of the state, per second."""
    motion = motion_of(point, air)
    heading = orders.heading if orders.course is None else wanted_heading(point, motion, orders.course, limits)
    turning = 0.0 if orders.course is None or orders.course.straight else turn_of_course(motion, orders.course)
    roll = (wanted_bank(point, heading, motion.airspeed, limits, orders.turn, turning) - point.bank) / BANK_LAG_S
    carried, drag = carried_kt_per_s(point, motion, air), drag_kt_per_s(point, orders)
    wanted_fps = wanted_climb_fps(point, orders, motion)
    climb = min(wanted_fps, highest_climb_fps(point, orders, motion, drag))
    lift = (climb - point.climb_fps) / CLIMB_LAG_S
    spool = limits.thrust / max(limits.spool_s, SPOOL_LAG_S)
    thrust = (wanted_thrust(point, orders, motion, wanted_fps, drag, limits) - point.thrust) / SPOOL_LAG_S
    return Point(
        -motion.ahead, motion.right, point.climb_fps, GRAVITY_FPS2 * math.tan(point.bank) / motion.airspeed,
        max(-limits.roll_per_s, min(limits.roll_per_s, roll)),
        max(-orders.acceleration_fps2, min(orders.acceleration_fps2, lift)),
        indicated_rate(point, motion, point.thrust - drag + carried, air),
        max(-spool, min(spool, thrust)),
    )


def highest_climb_fps(point: Point, orders: Orders, motion: Motion, drag: float) -> float:
    """Climb, ft/s, that thrust and speed above the target hold; level flight is always tried."""
    spare = max(0.0, point.airspeed_kt - orders.speed_kt) / SPEED_LAG_S
    return max(0.0, motion.airspeed * (point.thrust - drag + spare) / GRAVITY_KT_PER_S)


def moved(point: Point, rate: Point, step_s: float) -> Point:
    """The state after a step at constant rates."""
    return Point(*(now + step_s * change for now, change in zip(point, rate, strict=True)))


def step(point: Point, orders: Orders, air: Air, limits: Limits, step_s: float) -> Point:
    """The state after a step of time, by Heun's method."""
    first = rates(point, orders, air, limits)
    second = rates(moved(point, first, step_s), orders, air, limits)
    mean = Point(*((a + b) / 2.0 for a, b in zip(first, second, strict=True)))
    return moved(point, mean, step_s)
