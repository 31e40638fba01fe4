"""The descent along coded legs to the PFAF, planned backward from there, and the speed limits on the way.

Planned is as late as the coded altitudes allow: level before the PFAF, so that the final path is met from below; from
there back at one gradient, level wherever a fix lets it go no higher, steeper where a fix asks for more height than
the gradient gives.  Before a speed limit there is level flight enough to slow down in.  A hold ends a plan; the next
one is made once the hold is entered.
"""

import math
from collections.abc import Callable
from itertools import pairwise
from typing import NamedTuple

from lpv.core.text import feet, quantity
from lpv.core.units import FPS_PER_KT, FT_PER_NM
from lpv.motion.energy import level_deceleration_kt_per_s, slowing_distance_nm
from lpv.simulate.air import Air
from lpv.simulate.point_mass import (
    LEVEL_GAIN_PER_S,
    PATH_CORRECTION_FPS,
    PATH_GAIN_PER_S,
    Motion,
    Orders,
    Point,
    closing_fps,
    motion_of,
)
from lpv.simulate.route import Route

# Choices of this simulation, no operator's own.
PER_NM_FT = 250.0  # gradient of the descent, shallower than the final path, so that it is met from below
LEVEL_BEFORE_PFAF_NM = 2.0
LEVEL_BEFORE_FIX_NM = 1.0
SETTLE_S = 15.0  # from a new target speed, or the end of a descent, until idle slows down
MIN_SLOWING = 0.1  # kt/s
BELOW_FT = 100.0  # from which a flight below its plan stays level, and does not climb to it
OFF_FT, OFF_KT = 50.0, 5.0  # from which a fix counts as passed too low, too high, too fast

Bend = tuple[float, float]  # distance to fly to the end of the plan, ft; altitude there, on the altimeter


class Bound(NamedTuple):
    """What holds at one fix.

    to_go_ft: distance to fly from it to the end of the plan
    low_ft, high_ft: altitudes on the altimeter, None: no bound
    level_ft: level flight before it;  slow_ft: level flight before it to slow down in
    speed_kt: speed limit at it and from it on, None: none
    """

    name: str
    to_go_ft: float
    low_ft: float | None
    high_ft: float | None
    level_ft: float = 0.0
    slow_ft: float = 0.0
    speed_kt: float | None = None


def planned(bounds: list[Bound], per_ft: float = PER_NM_FT / FT_PER_NM) -> list[Bend]:
    """The bends of the plan, nearest to its end first; bounds likewise, the first with an altitude.

    per_ft: gradient of the descent, rise per distance
    """
    first = bounds[0]
    altitude_ft = first.low_ft if first.low_ft is not None else first.high_ft
    bends: list[Bend] = [(first.to_go_ft, altitude_ft or 0.0)]
    for near, far in pairwise(bounds):
        bends += _back(near, far, bends[-1][1], per_ft)
    return bends


def _back(near: Bound, far: Bound, altitude_ft: float, per_ft: float) -> list[Bend]:
    """The bends from one fix back to the one before it."""
    length_ft = far.to_go_ft - near.to_go_ft
    level_ft = max(near.level_ft if altitude_ft in (near.low_ft, near.high_ft) else 0.0, near.slow_ft)
    if far.low_ft is not None:
        level_ft = max(0.0, min(level_ft, length_ft - (far.low_ft - altitude_ft) / per_ft))
    level_ft = min(level_ft, length_ft)
    begin_ft, top_ft = near.to_go_ft + level_ft, altitude_ft + per_ft * (length_ft - level_ft)
    bends = [(begin_ft, altitude_ft)] if level_ft else []
    if far.high_ft is not None and top_ft > far.high_ft:
        top_ft = max(far.high_ft, altitude_ft)
        bends.append((begin_ft + (top_ft - altitude_ft) / per_ft, top_ft))
    elif far.low_ft is not None and top_ft < far.low_ft:
        top_ft = far.low_ft
    return [*bends, (far.to_go_ft, top_ft)]


class Plan:
    """A plan as it is asked for on the way; bends as `planned`."""

    def __init__(self, bends: list[Bend]) -> None:
        self.bends = bends

    def at(self, to_go_ft: float) -> tuple[float, float, float]:
        """(altitude, rise per distance back, altitude of the next level flight) at a distance to its end."""
        floor_ft = self.bends[0][1]
        for (near_ft, low_ft), (far_ft, high_ft) in pairwise(self.bends):
            if high_ft == low_ft:
                floor_ft = low_ft
            if near_ft <= to_go_ft < far_ft:
                slope = (high_ft - low_ft) / (far_ft - near_ft)
                return low_ft + slope * (to_go_ft - near_ft), slope, floor_ft
        end = self.bends[0] if to_go_ft < self.bends[0][0] else self.bends[-1]
        return end[1], 0.0, end[1]


def bounds_of(route: Route, point: Point, orders: Orders) -> list[Bound]:
    """The bounds along the legs of a route up to a hold that is not entered yet, nearest to the end first.

    point, orders: where and how it is flown, for the room to slow down in and the corners that are cut
    """
    count = next((n for n, leg in enumerate(route.legs) if leg.hold is not None), len(route.legs))
    radius_ft = route.radius_ft(motion_of(point, route.air))
    bounds: list[Bound] = []
    for number in reversed(range(count)):
        leg = route.legs[number]
        level_nm = LEVEL_BEFORE_FIX_NM if bounds else LEVEL_BEFORE_PFAF_NM
        slow_ft = slowing_ft(point, orders, route.air, leg.speed_kt) if leg.speed_kt is not None else 0.0
        to_go_ft = route.after_ft(number) - radius_ft * route.saved(number) - route.after_ft(count - 1)
        bounds.append(Bound(leg.fix or leg.name, to_go_ft, leg.low_ft, leg.high_ft, level_nm * FT_PER_NM, slow_ft,
                           leg.speed_kt))
    return bounds


def slowing_ft(point: Point, orders: Orders, air: Air, limit_kt: float) -> float:
    """Level flight, ft, in which idle brings the airspeed down to a limit, in the wind and configuration flown."""
    if point.airspeed_kt <= limit_kt:
        return 0.0
    motion = motion_of(point, air)
    ground_kt, true_kt = math.hypot(motion.ahead, motion.right) / FPS_PER_KT, motion.airspeed / FPS_PER_KT
    slower_kt = max(1.0, ground_kt - true_kt * (1.0 - limit_kt / point.airspeed_kt))
    idle = level_deceleration_kt_per_s(list(orders.drag), (point.airspeed_kt + limit_kt) / 2.0)
    slowing_nm = slowing_distance_nm(ground_kt, slower_kt, max(MIN_SLOWING, idle))
    return slowing_nm * FT_PER_NM + SETTLE_S * ground_kt * FPS_PER_KT


class Descent:
    """The descent of one flight: its plan, and the fixes to come.

    to_go_ft: of a point, the distance to fly to the end of the plan;  bounds: of the fixes to come, farthest last
    """

    def __init__(self, bounds: list[Bound], to_go_ft: Callable[[Point], float], air: Air) -> None:
        self.bounds, self.to_go_ft, self.air = bounds, to_go_ft, air
        bound = next((n for n, row in enumerate(bounds) if row.low_ft is not None or row.high_ft is not None), None)
        self.plan = None if bound is None else Plan(planned(bounds[bound:]))

    def wanted_fps(self, point: Point, motion: Motion) -> float:
        """Vertical speed that keeps to the plan; level without one."""
        if self.plan is None:
            return 0.0
        plan_ft, slope, floor_ft = self.plan.at(self.to_go_ft(point))
        altitude_ft = self.air.indicated_ft(point.altitude_ft)
        above_ft, sink_fps = altitude_ft - plan_ft, slope * math.hypot(motion.ahead, motion.right)
        if above_ft < 0.0:
            change_fps = min(closing_fps(-above_ft), sink_fps) - sink_fps
        else:
            change_fps = -min(PATH_CORRECTION_FPS, PATH_GAIN_PER_S * above_ft) - sink_fps
        under_ft = floor_ft - altitude_ft
        return max(change_fps, LEVEL_GAIN_PER_S * under_ft if under_ft < BELOW_FT else 0.0)

    def passed(self) -> Bound:
        """The next fix, taken from those to come."""
        return self.bounds.pop()


def descent_along(route: Route, point: Point, orders: Orders) -> Descent | None:
    """The descent along the legs of a route from a point on; None without a leg before a hold."""
    bounds = bounds_of(route, point, orders)
    after_ft = route.after_ft(len(bounds) - 1)
    return Descent(bounds, lambda at: route.to_go_ft(at) - after_ft, route.air) if bounds else None


def off_bound(bound: Bound, altitude_ft: float, airspeed_kt: float) -> str:
    """How a fix was passed outside its altitudes or over its speed, in words; "" if it was not."""
    deviations = []
    if bound.low_ft is not None and altitude_ft < bound.low_ft - OFF_FT:
        deviations.append(f"at {feet(altitude_ft)}, below the {feet(bound.low_ft)} coded")
    if bound.high_ft is not None and altitude_ft > bound.high_ft + OFF_FT:
        deviations.append(f"at {feet(altitude_ft)}, above the {feet(bound.high_ft)} coded")
    if bound.speed_kt is not None and airspeed_kt > bound.speed_kt + OFF_KT:
        deviations.append(f"at {quantity(airspeed_kt, 'kt')}, over the limit of {quantity(bound.speed_kt, 'kt')}")
    return " and ".join(deviations)
