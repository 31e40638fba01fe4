"""Which coded leg is flown, when it ends, and which follows: the FMS's part of a simulated flight.

At a fix that is not flown over, the next leg begins where a turn onto it at the bank limit ends on it, wind counted
(`lpv.intercept.course`); an arc begins half its roll-in before.  A hold is entered by its sector, and planned for the
wind there (`lpv.motion.holding`).
"""

import math
from contextlib import suppress
from dataclasses import replace
from itertools import pairwise

from lpv.core.errors import DomainError
from lpv.core.units import FPS_PER_KT, degrees_180, degrees_360
from lpv.motion import holding
from lpv.motion.holding import hold_in_wind, outbound_end_ft
from lpv.motion.kinematics import wind_triangle
from lpv.simulate.air import Air
from lpv.simulate.guides import Guide
from lpv.simulate.legs import Arc, Circuit, Direct, Hold, Leg, left_ft, onward
from lpv.simulate.point_mass import (
    GRAVITY_FPS2,
    TURN_FIRST_DEG,
    Limits,
    Motion,
    Point,
    motion_of,
    turn_ends_beside_ft,
)

SMALLEST_FLY_BY_DEG = 3.0  # a smaller turn begins at the fix, as one of 150 deg and more does
EARLIEST_TURN = 2.0  # turn radii times tan(half the turn) before a fix, besides the roll
NOT_YET_FT = -1e9


class Route:
    """Legs while they are flown.

    legs: those to come, the active one first
    entered, held: whether the hold has been entered, and its fix passed again
    """

    def __init__(self, legs: tuple[Leg, ...], air: Air, limits: Limits) -> None:
        self.legs, self.air, self.limits = list(legs), air, limits
        self.entered = self.held = False
        self._saved: list[float] = []

    @property
    def active(self) -> Leg | None:
        """The leg that is flown, None past the last."""
        return self.legs[0] if self.legs else None

    def margin(self, point: Point) -> float:
        """Negative until the active leg ends."""
        leg, motion = self.legs[0], motion_of(point, self.air)
        if leg.until_ft is not None:
            return self.air.indicated_ft(point.altitude_ft) - leg.until_ft
        place, track = (point.along_ft, point.across_ft), math.atan2(motion.right, motion.ahead)
        remains_ft = left_ft(leg, place, track)
        after = self.legs[1] if len(self.legs) > 1 else None
        if leg.fly_over or after is None or after.hold is not None or isinstance(after.guide, Direct):
            return -remains_ft
        if isinstance(after.guide, Arc) or isinstance(leg.guide, Arc):
            return self._roll_ft(leg, after, math.hypot(motion.ahead, motion.right)) - remains_ft
        course = track if isinstance(leg.guide, Direct) else leg.guide.turn_rad
        return max(-remains_ft, self._fly_by(point, course, after.guide, remains_ft))

    def _roll_ft(self, leg: Leg, after: Leg, speed_fps: float) -> float:
        """Half the distance flown while the bank of one arc becomes that of the next leg."""
        banks = [math.atan(side.guide.bend_per_ft * speed_fps**2 / GRAVITY_FPS2) for side in (leg, after)]
        return speed_fps * abs(banks[1] - banks[0]) / self.limits.roll_per_s / 2.0

    def _fly_by(self, point: Point, course: float, guide: Guide, remains_ft: float) -> float:
        """Negative until a turn from a course onto the next leg, begun now, ends on it."""
        motion = motion_of(point, self.air)
        turn = abs(math.remainder(guide.turn_rad - course, 2.0 * math.pi))
        if not math.radians(SMALLEST_FLY_BY_DEG) <= turn < math.radians(TURN_FIRST_DEG):
            return NOT_YET_FT
        speed_fps = math.hypot(motion.ahead, motion.right)
        earliest_ft = EARLIEST_TURN * self.radius_ft(motion) * math.tan(turn / 2.0)
        earliest_ft += speed_fps * self.limits.bank / self.limits.roll_per_s
        ends_ft = turn_ends_beside_ft(point, motion, guide, self.limits)
        late_ft = -math.copysign(1.0, guide.beside_ft(point.along_ft, point.across_ft)) * ends_ft
        return min(late_ft, earliest_ft - remains_ft)

    def go_on(self, point: Point) -> None:
        """The next leg; a hold becomes the legs of its entry, then, unless it is flown once, those of its circuit."""
        self.legs.pop(0)
        self._saved = []
        if not self.legs or self.legs[0].hold is None:
            return
        coded, hold = self.legs[0], self.legs[0].hold
        motion = motion_of(point, self.air)
        flown = self._circuit(hold, motion)
        if self.entered:
            self.held, around = True, hold.circuit(flown)
        else:
            self.entered, around = True, hold.entry(math.atan2(motion.right, motion.ahead), flown)
            around[-1] = replace(
                around[-1], low_ft=coded.low_ft, high_ft=coded.high_ft, speed_kt=coded.speed_kt, fix=coded.fix)
        if hold.once:
            self.entered = False
        self.legs[:1] = around if hold.once else [*around, coded]
        self._saved = []

    def _circuit(self, hold: Hold, motion: Motion) -> Circuit:
        """A circuit of a hold as the wind and the bank limit ask for it."""
        airspeed_kt, wind_kt = motion.airspeed / FPS_PER_KT, math.hypot(motion.tail, motion.cross) / FPS_PER_KT
        inbound_deg = degrees_360(math.degrees(hold.inbound))
        from_deg = degrees_360(math.degrees(math.atan2(-motion.cross, -motion.tail)))
        inbound_s = hold.inbound_s
        if inbound_s is None:
            ground_kt = wind_triangle(inbound_deg, airspeed_kt, from_deg, wind_kt).ground_speed_kt
            inbound_s = (hold.inbound_ft or 0.0) / (ground_kt * FPS_PER_KT)
        bank_deg, roll_s = math.degrees(self.limits.bank), self.limits.bank / self.limits.roll_per_s
        plan = _planned(inbound_deg, airspeed_kt, from_deg, wind_kt, bank_deg, inbound_s, roll_s)
        along_ft, across_ft = outbound_end_ft(plan, airspeed_kt, hold.turn, roll_s)
        end_ft = onward(onward(hold.fix_ft, hold.inbound, along_ft), hold.inbound + math.pi / 2.0, across_ft)
        turn_ft = math.pi * motion.airspeed / math.radians(plan.turn_deg_per_s)
        return Circuit(plan, math.radians(degrees_180(plan.outbound_track_deg)), end_ft,
                       plan.outbound_s * plan.outbound_kt * FPS_PER_KT,
                       plan.inbound_s * plan.inbound_kt * FPS_PER_KT + turn_ft)

    def to_go_ft(self, point: Point) -> float:
        """Distance to fly to the end of the last leg, ft; holds count the legs that are on their way.

        With r the radius of a turn over the ground: a corner A that is flown by saves r (2 tan(A/2) - A) of both legs,
        and an angle a that is left to turn onto a leg takes r (a - sin a) more than what is left along it.
        """
        if not self.legs:
            return 0.0
        motion = motion_of(point, self.air)
        track, guide = math.atan2(motion.right, motion.ahead), self.legs[0].guide
        first_ft = max(0.0, left_ft(self.legs[0], (point.along_ft, point.across_ft), track))
        return (first_ft + self.turning_ft(point, guide) + self.after_ft(0)
                - self.radius_ft(motion) * self.saved(0))

    def turning_ft(self, point: Point, guide: Guide) -> float:
        """How much more than what is left along a course the turn onto it takes."""
        motion = motion_of(point, self.air)
        turn = abs(math.remainder(math.atan2(motion.right, motion.ahead) - guide.turn_rad, 2.0 * math.pi))
        if not _is_line(guide) or not math.radians(SMALLEST_FLY_BY_DEG) < turn < math.radians(TURN_FIRST_DEG):
            return 0.0
        return self.radius_ft(motion) * (turn - math.sin(turn))

    def after_ft(self, number: int) -> float:
        """Length of the legs after one of them, by its number from the active one on."""
        return sum(leg.length_ft for leg in self.legs[number + 1:])

    def saved(self, number: int) -> float:
        """What the corners from the end of a leg on save, in radii."""
        if not self._saved:
            corners = [_saved(leg, after) for leg, after in pairwise(self.legs)]
            self._saved = [sum(corners[n:]) for n in range(len(self.legs))]
        return self._saved[number]

    def radius_ft(self, motion: Motion) -> float:
        """Radius of a turn at the bank limit and the ground speed."""
        return (motion.ahead**2 + motion.right**2) / (GRAVITY_FPS2 * math.tan(self.limits.bank))


def _planned(
    inbound_deg: float, airspeed_kt: float, from_deg: float, wind_kt: float, bank_deg: float, inbound_s: float,
    roll_s: float,
) -> holding.Hold:
    """The hold in the wind; longer inbound where the headwind there leaves no time outbound, twice, then four times."""
    for times in (1.0, 2.0):
        with suppress(DomainError):
            return hold_in_wind(inbound_deg, airspeed_kt, from_deg, wind_kt, bank_deg, times * inbound_s, roll_s)
    return hold_in_wind(inbound_deg, airspeed_kt, from_deg, wind_kt, bank_deg, 4.0 * inbound_s, roll_s)


def _is_line(guide: Guide) -> bool:
    return guide.straight and guide.holds_line


def _saved(leg: Leg, after: Leg) -> float:
    """What flying by the corner between two legs saves, in radii; 0 where it is not flown by."""
    if leg.fly_over or after.hold is not None or not (_is_line(leg.guide) and _is_line(after.guide)):
        return 0.0
    turn = abs(math.remainder(after.guide.turn_rad - leg.guide.turn_rad, 2.0 * math.pi))
    if not math.radians(SMALLEST_FLY_BY_DEG) <= turn < math.radians(TURN_FIRST_DEG):
        return 0.0
    return 2.0 * math.tan(turn / 2.0) - turn
