"""The legs that an FMS lateral mode flies: straight, about a centre, direct to a fix, out from a fix.

Places as in `lpv.simulate.guides`: (along, across), ft before the threshold and right of the final course.
Courses are angles (rad) to the right of the final course.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import ClassVar, NamedTuple

from lpv.core.errors import DomainError, in_range
from lpv.core.text import trimmed_quantity
from lpv.core.units import FT_PER_NM
from lpv.motion import holding
from lpv.simulate.guides import Guide

FMS = "FMS lateral navigation"
NEAR_FT = 0.5 * FT_PER_NM  # of a fix flown direct to: nearer, it counts as passed once abeam
STRAIGHT_IN_DEG = 15.0  # from the inbound course, up to which the first turn of a hold is its arc
SAME_RADIUS_NM = 0.1  # most by which both ends of an arc may differ in distance from its centre
Place = tuple[float, float]
Scale = Callable[[float], float]


@dataclass(frozen=True)
class Arc(Guide):
    """A course about a centre, which is `through_ft`; side: 1 with the centre to the right, -1 to the left."""

    straight: ClassVar[bool] = False
    radius_ft: float = 1.0
    side: float = 1.0

    def beside_ft(self, along_ft: float, across_ft: float) -> float:
        """Distance to the right of the arc."""
        return self.side * (self.radius_ft - distance_ft((along_ft, across_ft), self.through_ft))

    def at(self, along_ft: float, across_ft: float) -> Guide:
        """The tangent beside the place."""
        outward = bearing(self.through_ft, (along_ft, across_ft))
        foot = onward(self.through_ft, outward, self.radius_ft)
        return line(foot, outward + self.side * math.pi / 2.0, self.course_scale_ft)

    @property
    def bend_per_ft(self) -> float:
        """Turn per distance flown, to the right positive."""
        return self.side / self.radius_ft


@dataclass(frozen=True)
class Direct(Guide):
    """From wherever the aircraft is to a fix, which is `through_ft`."""

    straight: ClassVar[bool] = False

    def beside_ft(self, along_ft: float, across_ft: float) -> float:
        """None: the course begins where the aircraft is."""
        return 0.0

    def at(self, along_ft: float, across_ft: float) -> Guide:
        """The course to the fix from a place."""
        return Track(FMS, bearing((along_ft, across_ft), self.through_ft), (along_ft, across_ft), None,
                     self.course_scale_ft, None)


@dataclass(frozen=True)
class Track(Guide):
    """A direction over the ground, wherever it is flown; counted from `through_ft`."""

    holds_line: ClassVar[bool] = False

    def beside_ft(self, along_ft: float, across_ft: float) -> float:
        """None: any line of that direction will do."""
        return 0.0


@dataclass(frozen=True)
class Leg:
    """One leg as it is flown.

    name:        such as "TF to SWELO";  guide: what is tracked
    end_ft:      where it ends; of a climb to an altitude, where it begins
    length_ft:   of the leg, 0 where it hangs on the flight
    low_ft, high_ft: altitudes at its end, on the altimeter; None: no bound on that side
    until_ft:    altitude on the altimeter that ends a climb; None: it ends at a place
    turn:        1 if the turn onto it goes right, -1 left, 0 the shorter way
    fly_over:    whether its end is flown over before the next leg begins
    hold:        the hold that it is, None: it is none;  circuit: planned in the wind, once it is flown
    fix:         name of the fix at its end, "" where it ends elsewhere;  speed_kt: speed limit there, None: none
    """

    name: str
    guide: Guide
    end_ft: Place
    length_ft: float = 0.0
    low_ft: float | None = None
    high_ft: float | None = None
    until_ft: float | None = None
    turn: int = 0
    fly_over: bool = False
    hold: "Hold | None" = None
    circuit: holding.Hold | None = None
    fix: str = ""
    speed_kt: float | None = None


@dataclass(frozen=True)
class Hold:
    """A holding pattern.

    inbound: course;  turn: 1 for right turns or -1;  once: a reversal, flown once
    inbound_ft, inbound_s: its inbound leg, by length or by time; one is None
    """

    name: str
    fix_ft: Place
    inbound: float
    turn: int
    once: bool
    scale: Scale
    inbound_ft: float | None = None
    inbound_s: float | None = None

    def entry(self, track: float, flown: "Circuit") -> list[Leg]:
        """The legs from the first passing of the fix to the second, by the sectors of AIM 5-3-8 (from memory).

        track: over the fix.  Within 70 deg of the inbound course on the far side, 110 deg on the holding side: direct;
        then 70 deg of teardrop, and parallel for the rest.  Direct and teardrop lead to where the outbound leg ends.
        """
        off_deg = math.degrees(math.remainder(track - self.inbound, 2.0 * math.pi)) * self.turn
        if abs(off_deg) < STRAIGHT_IN_DEG:
            return self.circuit(flown)
        if -70.0 <= off_deg <= 110.0:
            return [self._to_end("outbound", flown, self.turn), self._inbound(flown, self.turn)]
        if off_deg > 110.0:
            return [self._to_end("teardrop entry", flown, 0), self._inbound(flown, self.turn)]
        outbound, length_ft = self.inbound + math.pi, flown.outbound_ft
        guide = Track(FMS, outbound, self.fix_ft, None, self.scale, None)
        end_ft = onward(self.fix_ft, outbound, length_ft)
        parallel = Leg(f"hold at {self.name}, parallel entry", guide, end_ft, length_ft, fly_over=True,
                       circuit=flown.plan)
        return [parallel, self._inbound(flown, -self.turn)]

    def circuit(self, flown: "Circuit") -> list[Leg]:
        """Once round: outbound on a heading that the wind turns into a track, and inbound on the course."""
        guide = Track(FMS, flown.outbound, self.fix_ft, None, self.scale, None)
        outbound = Leg(f"hold at {self.name}, outbound", guide, flown.end_ft, flown.outbound_ft, turn=self.turn,
                       fly_over=True, circuit=flown.plan)
        return [outbound, self._inbound(flown, self.turn)]

    def _to_end(self, words: str, flown: "Circuit", turn: int) -> Leg:
        guide = Direct(FMS, 0.0, flown.end_ft, None, self.scale, None)
        return Leg(f"hold at {self.name}, {words}", guide, flown.end_ft, distance_ft(self.fix_ft, flown.end_ft),
                   turn=turn, fly_over=True, circuit=flown.plan)

    def _inbound(self, flown: "Circuit", turn: int) -> Leg:
        guide = line(self.fix_ft, self.inbound, self.scale)
        return Leg(f"hold at {self.name}, inbound", guide, self.fix_ft, flown.inbound_ft, turn=turn,
                   fly_over=not self.once)


class Circuit(NamedTuple):
    """A circuit of a hold over the ground.

    plan: as `lpv.motion.holding`;  outbound: track of its outbound leg;  end_ft: where that ends
    outbound_ft, inbound_ft: distances over the ground, the turn inbound with the latter
    """

    plan: holding.Hold
    outbound: float
    end_ft: Place
    outbound_ft: float
    inbound_ft: float


def line(through_ft: Place, course: float, scale: Scale) -> Guide:
    """A straight course through a place."""
    return Guide(FMS, course, through_ft, None, scale, None)


def arc(start_ft: Place, end_ft: Place, centre_ft: Place, turn: int, scale: Scale) -> Arc:
    """The arc between two places about a centre; DomainError where they are not as far from it, within 0.1 NM."""
    radii_ft = distance_ft(start_ft, centre_ft), distance_ft(end_ft, centre_ft)
    in_range("radius of the arc", min(radii_ft) / FT_PER_NM, SAME_RADIUS_NM, 1000.0, "NM")
    if abs(radii_ft[0] - radii_ft[1]) > SAME_RADIUS_NM * FT_PER_NM:
        ends = " and ".join(trimmed_quantity(radius / FT_PER_NM, "NM") for radius in radii_ft)
        raise DomainError(f"radius of the arc: found {ends} at its ends; allowed: one radius, within "
                          f"{trimmed_quantity(SAME_RADIUS_NM, 'NM')}.")
    return Arc(FMS, 0.0, centre_ft, None, scale, None, sum(radii_ft) / 2.0, float(turn))


def arc_turn(along: Arc, start_ft: Place, end_ft: Place) -> float:
    """How far an arc turns from one place to another, rad, 0 to 2 pi."""
    turned = bearing(along.through_ft, end_ft) - bearing(along.through_ft, start_ft)
    return (along.side * turned) % (2.0 * math.pi)


def distance_ft(start: Place, other: Place) -> float:
    """Distance between two places."""
    return math.hypot(other[0] - start[0], other[1] - start[1])


def bearing(start: Place, other: Place) -> float:
    """Direction from one place to another."""
    return math.atan2(other[1] - start[1], start[0] - other[0])


def onward(place: Place, course: float, length_ft: float) -> Place:
    """The place so far from another in a direction."""
    return place[0] - length_ft * math.cos(course), place[1] + length_ft * math.sin(course)


def left_ft(leg: Leg, place: Place, track: float) -> float:
    """Distance to fly to the end of a leg that ends at a place; negative past it."""
    guide, straight_ft = leg.guide, distance_ft(place, leg.end_ft)
    if isinstance(guide, Arc):
        turned = arc_turn(guide, place, leg.end_ft)
        return guide.radius_ft * (turned if turned < 1.5 * math.pi else turned - 2.0 * math.pi)
    if isinstance(guide, Direct):
        if straight_ft > NEAR_FT:
            return straight_ft
        return straight_ft * math.cos(bearing(place, leg.end_ft) - track)
    return straight_ft * math.cos(bearing(place, leg.end_ft) - guide.turn_rad)
