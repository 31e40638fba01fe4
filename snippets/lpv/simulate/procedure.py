"""Coded legs made into legs to be flown: those of a scenario's file, else those of the approach's database side.

Flown are IF, TF, DF, CF, RF, CA and the holds HF, HM and HA, up to the PFAF and after the missed approach waypoint;
from the PFAF to there the final approach segment leads.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from lpv.approach.coded_leg import CodedLeg
from lpv.approach.geometry import position_along
from lpv.approach.record import Approach
from lpv.core.errors import DomainError
from lpv.core.units import FT_PER_NM, degrees_180
from lpv.facts import value
from lpv.path.deviation import missed_first_leg_full_scale_ft
from lpv.simulate.guides import Guide
from lpv.simulate.legs import (
    FMS,
    Direct,
    Hold,
    Leg,
    Place,
    Scale,
    arc,
    arc_turn,
    bearing,
    distance_ft,
    line,
    onward,
)

HOLDS = ("HF", "HM", "HA")
FLOWN = ("IF", "TF", "DF", "CF", "RF", "CA", *HOLDS)
TURNS = {"left": -1, "right": 1}
AT_THRESHOLD = (0.0, 0.0)


@dataclass(frozen=True)
class Procedure:
    """The legs to the PFAF, and those after the missed approach waypoint; empty where none are coded."""

    joining: tuple[Leg, ...] = ()
    missed: tuple[Leg, ...] = ()


@dataclass(frozen=True)
class _Frame:
    """What turns a coded row into places and courses."""

    approach: Approach
    course_deg: float
    known: dict[str, Place]

    def course(self, row: CodedLeg) -> float:
        """The course of a row, rad right of the final course."""
        if row.course_deg is None:
            raise _fault(row, "course", "none", "a course")
        final_deg = self.approach.true_course_deg if row.course_true else self.course_deg
        return math.radians(degrees_180(row.course_deg - final_deg))

    def place(self, row: CodedLeg, name: str | None, at: tuple[float | None, float | None]) -> Place:
        """Where a fix is: as the row says, else an earlier one or the chart."""
        name, (latitude_deg, longitude_deg) = name or "none", at
        if latitude_deg is not None and longitude_deg is not None:
            self.known[name] = self.flat(latitude_deg, longitude_deg)
        if name not in self.known:
            raise _fault(row, "fix", name, "a fix of the chart, or one with latitude and longitude")
        return self.known[name]

    def flat(self, latitude_deg: float, longitude_deg: float) -> Place:
        """A position as a place."""
        along_nm, across_nm = position_along(self.approach.segment, latitude_deg, longitude_deg)
        return along_nm * FT_PER_NM, across_nm * FT_PER_NM

    def bounded(self, row: CodedLeg, leg: Leg) -> Leg:
        """A leg with the altitudes and the speed limit at its end: coded, else charted at the fix.

        Without a rule an altitude is one to be at, and a speed one not to exceed.
        """
        fix = next((fix for fix in self.approach.chart.fixes if fix.name == row.fix), None)
        altitude_ft, rule = row.altitude_ft, row.altitude_rule
        if altitude_ft is None and fix is not None:
            altitude_ft, rule = fix.altitude_ft, fix.altitude_rule
        high_ft = row.highest_ft if rule == "between" else altitude_ft
        return replace(
            leg, fix=str(row.fix), low_ft=None if rule == "at or below" else altitude_ft,
            high_ft=None if rule == "at or above" else high_ft,
            speed_kt=None if row.speed_rule == "at or above" else row.speed_kt)


def procedure(
    rows: Iterable[CodedLeg], approach: Approach, course_deg: float, transition: str | None = None,
) -> Procedure:
    """The legs of a procedure as they are flown.

    rows: coded legs in the order flown; transition: which one, None: the only one
    course_deg: the final course in the chart's reference
    DomainError for a path and termination that is not flown here, and for places and courses that are missing.
    """
    frame = _Frame(approach, course_deg, {})
    frame.known.update({fix.name: frame.flat(fix.latitude_deg, fix.longitude_deg) for fix in approach.chart.fixes})
    rows = [row for row in rows if row.part != "transition" or transition in (None, row.transition)]
    terminal_ft = value("terminal_full_scale_nm") * FT_PER_NM
    missed_ft = missed_first_leg_full_scale_ft(approach.geometry.missed_turn_deg or 0.0)
    return Procedure(
        tuple(_legs(frame, _to_the_pfaf(rows), None, lambda _: terminal_ft)),
        tuple(_legs(frame, [row for row in rows if row.part == "missed approach"], AT_THRESHOLD, lambda _: missed_ft)),
    )


def _to_the_pfaf(rows: list[CodedLeg]) -> list[CodedLeg]:
    """The rows up to the PFAF; an initial fix that only repeats the end of the transition is left out."""
    legs: list[CodedLeg] = []
    for row in rows:
        if row.part == "missed approach":
            break
        if row.terminator != "IF" or not legs or row.fix != legs[-1].fix:
            legs.append(row)
        if row.role == "PFAF":
            break
    return legs


def _legs(frame: _Frame, rows: list[CodedLeg], begin: Place | None, scale: Scale) -> list[Leg]:
    legs: list[Leg] = []
    for row in rows:
        legs.append(_leg(frame, row, begin, scale))
        begin = legs[-1].end_ft
    return legs


def _leg(frame: _Frame, row: CodedLeg, begin: Place | None, scale: Scale) -> Leg:
    """One leg from where the one before it ends."""
    if row.terminator not in FLOWN:
        raise _fault(row, "path and termination", row.terminator, ", ".join(FLOWN))
    turn = TURNS.get(row.turn or "", 0)
    if row.terminator == "CA":
        return _climb(frame, row, begin or AT_THRESHOLD, turn, scale)
    end = frame.place(row, row.fix, (row.latitude_deg, row.longitude_deg))
    if row.terminator in HOLDS:
        return _hold(frame, row, end, turn, scale)
    guide, length_ft = _course(frame, row, begin, end, turn, scale)
    return frame.bounded(row, Leg(
        f"{row.terminator} to {row.fix}", guide, end, length_ft, turn=0 if row.terminator == "RF" else turn,
        fly_over=row.fly_over))


def _course(
    frame: _Frame, row: CodedLeg, begin: Place | None, end: Place, turn: int, scale: Scale,
) -> tuple[Guide, float]:
    """What is tracked on a leg to a fix, and its length."""
    direct = Direct(FMS, 0.0, end, None, scale, None)
    if begin is None or row.terminator in ("IF", "DF"):
        return direct, distance_ft(begin, end) if begin is not None else 0.0
    if row.terminator == "CF":
        return line(end, frame.course(row), scale), distance_ft(begin, end)
    if row.terminator == "TF":
        return line(end, bearing(begin, end), scale), distance_ft(begin, end)
    if not turn:
        raise _fault(row, "turn", row.turn or "none", "left or right")
    centre = frame.place(row, row.centre, (row.centre_latitude_deg, row.centre_longitude_deg))
    guide = arc(begin, end, centre, turn, scale)
    return guide, guide.radius_ft * arc_turn(guide, begin, end)


def _climb(frame: _Frame, row: CodedLeg, begin: Place, turn: int, scale: Scale) -> Leg:
    if row.altitude_ft is None:
        raise _fault(row, "altitude", "none", "the altitude that ends the climb")
    return Leg("CA", line(begin, frame.course(row), scale), begin, turn=turn, until_ft=row.altitude_ft, fly_over=True)


def _hold(frame: _Frame, row: CodedLeg, fix: Place, turn: int, scale: Scale) -> Leg:
    """A hold; its inbound leg is as long as coded, in distance or time."""
    if row.distance_nm is None and row.time_min is None:
        raise _fault(row, "length of the hold", "none", "distance_nm or time_min")
    inbound_ft = None if row.distance_nm is None else row.distance_nm * FT_PER_NM
    inbound_s = None if row.time_min is None else row.time_min * 60.0
    hold = Hold(str(row.fix), fix, frame.course(row), turn or 1, row.terminator == "HF", scale, inbound_ft, inbound_s)
    return frame.bounded(
        row, Leg(f"{row.terminator} at {row.fix}", line(fix, hold.inbound, scale), fix, hold=hold))


def _fault(row: CodedLeg, subject: str, actual: str, allowed: str) -> DomainError:
    return DomainError(f"{subject} of leg {row.name} ({row.terminator}): found {actual}; allowed: {allowed}.")


def along_course(legs: tuple[Leg, ...], begin: Place, step_ft: float = 1000.0) -> list[list[Place]]:
    """Places along each leg whose way does not hang on the flight, for a plan; the first begins at `begin`."""
    places = []
    for leg in legs:
        if leg.length_ft and leg.hold is None and not isinstance(leg.guide, Direct):
            places.append(_places(leg, begin, step_ft))
        begin = leg.end_ft
    return places


def _places(leg: Leg, begin: Place, step_ft: float) -> list[Place]:
    bend, parts = leg.guide.bend_per_ft, max(1, math.ceil(leg.length_ft / step_ft))
    if not bend:
        return [begin, leg.end_ft]
    centre, outward = leg.guide.through_ft, bearing(leg.guide.through_ft, begin)
    return [onward(centre, outward + bend * leg.length_ft * i / parts, abs(1.0 / bend)) for i in range(parts + 1)]
