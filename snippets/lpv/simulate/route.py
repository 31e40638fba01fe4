"""Which coded leg is flown, when it ends, and which follows: the FMS's part of a simulated flight.

At a fix that is not flown over, the next leg begins where a turn onto it at the bank limit ends on it, wind counted
(`lpv.intercept.course`); an arc begins half its roll-in before.  A hold is entered by its sector.
"""

import math
from dataclasses import replace

from lpv.simulate.air import Air
from lpv.simulate.guides import Guide
from lpv.simulate.legs import Arc, Direct, Leg, left_ft
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
SPARE_RADIUS = 1.1  # of the turns of a hold, so that bank is left to correct with
NOT_YET_FT = -1e9


class Route:
    """Legs while they are flown.

    legs: those to come, the active one first
    entered, held: whether the hold has been entered, and its fix passed again
    """

    def __init__(self, legs: tuple[Leg, ...], air: Air, limits: Limits) -> None:
        self.legs, self.air, self.limits = list(legs), air, limits
        self.entered = self.held = False

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
        banks = [math.atan(one.guide.bend_per_ft * speed_fps**2 / GRAVITY_FPS2) for one in (leg, after)]
        return speed_fps * abs(banks[1] - banks[0]) / self.limits.roll_per_s / 2.0

    def _fly_by(self, point: Point, course: float, guide: Guide, remains_ft: float) -> float:
        """Negative until a turn from a course onto the next leg, begun now, ends on it."""
        motion = motion_of(point, self.air)
        turn = abs(math.remainder(guide.turn_rad - course, 2.0 * math.pi))
        if not math.radians(SMALLEST_FLY_BY_DEG) <= turn < math.radians(TURN_FIRST_DEG):
            return NOT_YET_FT
        speed_fps = math.hypot(motion.ahead, motion.right)
        radius_ft = speed_fps**2 / (GRAVITY_FPS2 * math.tan(self.limits.bank))
        earliest_ft = EARLIEST_TURN * radius_ft * math.tan(turn / 2.0)
        earliest_ft += speed_fps * self.limits.bank / self.limits.roll_per_s
        ends_ft = turn_ends_beside_ft(point, motion, guide, self.limits)
        late_ft = -math.copysign(1.0, guide.beside_ft(point.along_ft, point.across_ft)) * ends_ft
        return min(late_ft, earliest_ft - remains_ft)

    def go_on(self, point: Point) -> None:
        """The next leg; a hold becomes the legs of its entry, then, unless it is flown once, those of its circuit."""
        self.legs.pop(0)
        if not self.legs or self.legs[0].hold is None:
            return
        coded, hold = self.legs[0], self.legs[0].hold
        motion = motion_of(point, self.air)
        if self.entered:
            self.held, around = True, hold.circuit(self._radius_ft(motion))
        else:
            self.entered, around = True, hold.entry(math.atan2(motion.right, motion.ahead), self._radius_ft(motion))
            around[0] = replace(around[0], altitude_ft=coded.altitude_ft)
        if hold.once:
            self.entered = False
        self.legs[:1] = around if hold.once else [*around, coded]

    def _radius_ft(self, motion: Motion) -> float:
        """Radius of the turns of a hold over the ground: what the bank limit turns with the whole wind behind."""
        fastest_fps = motion.airspeed + math.hypot(motion.tail, motion.cross)
        return SPARE_RADIUS * fastest_fps**2 / (GRAVITY_FPS2 * math.tan(self.limits.bank))

    def to_go_ft(self, point: Point) -> float:
        """Distance to fly to the end of the last leg, ft; holds count the legs that are on their way."""
        if not self.legs:
            return 0.0
        motion = motion_of(point, self.air)
        track = math.atan2(motion.right, motion.ahead)
        first_ft = left_ft(self.legs[0], (point.along_ft, point.across_ft), track)
        return max(0.0, first_ft) + sum(leg.length_ft for leg in self.legs[1:])
