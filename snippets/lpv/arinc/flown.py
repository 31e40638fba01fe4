"""Coded legs as they are flown: where each begins and ends, its course and its length.

Current records leave course and length of a leg from fix to fix blank.  They are computed from the positions then,
a magnetic course with the airport's variation of record, and say so.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

from lpv.arinc import codes
from lpv.arinc.columns import course_deg, distance_nm, time_min
from lpv.arinc.legs import FINAL, MISSED, TRANSITION, Leg
from lpv.arinc.positions import Place, Reference
from lpv.core.course import magnetic_deg
from lpv.core.units import degrees_360
from lpv.geodesy import earth

PlaceOf = Callable[[Reference], Place | str]
PLACES = 1  # decimals of a course in degrees and of a length in NM, as records code them


@dataclass(frozen=True)
class Reckoning:
    """What courses are measured from: true north, or magnetic north by a variation (deg, east positive)."""

    is_true: bool
    variation_deg: float

    def course_deg(self, true_deg: float) -> float:
        """A true course in this reckoning, 0.1 to 360."""
        course = true_deg if self.is_true else magnetic_deg(true_deg, self.variation_deg)
        return round(course, PLACES) % 360.0 or 360.0


@dataclass(frozen=True)
class Measured:
    """A course or a length, and whether it was computed because the record leaves it blank."""

    value: float
    is_computed: bool = False


@dataclass(frozen=True)
class Flown:
    """One leg as flown.

    part:    transition, final, missed approach
    place:   where its fix is, None without a fix or where that is not known
    missing: in words, why that is not known; "" where it is, or where there is no fix
    start:   the fix at which it begins, "" where the leg before did not end at a fix of known position
    begins:  where that fix is
    centre:  where the centre of its arc is
    course, length: in the reckoning of the approach and in NM; None where neither coded nor computed
    """

    leg: Leg
    part: str
    place: Place | None = None
    missing: str = ""
    start: str = ""
    begins: Place | None = None
    centre: Place | None = None
    course: Measured | None = None
    length: Measured | None = None

    @property
    def ends_at_fix(self) -> bool:
        """Whether the aircraft is at the leg's fix when the leg ends."""
        return self.leg.terminator in codes.TO_A_FIX or self.leg.terminator in codes.HOLDS

    @property
    def course_is_true(self) -> bool:
        """Whether the record codes the course in degrees true."""
        coded = course_deg(self.leg.course)
        return coded is not None and coded[1]

    @property
    def time_min(self) -> float | None:
        """The time that is coded in place of a length, in minutes."""
        return time_min(self.leg.distance)


def flown(legs: list[Leg], place_of: PlaceOf, reckoning: Reckoning) -> list[Flown]:
    """Every leg of an approach as flown, in their order; DataError for faulty records of its fixes."""
    flown_legs: list[Flown] = []
    before: Flown | None = None
    missed = False
    for leg in legs:
        same = before is not None and (before.leg.route, before.leg.transition) == (leg.route, leg.transition)
        missed = missed and same
        part = TRANSITION if codes.ROUTES.get(leg.route) == TRANSITION else FINAL
        if missed or codes.ROUTES.get(leg.route) == MISSED:
            part = MISSED
        before = _flown(leg, part, before if same else None, place_of, reckoning)
        missed = missed or (part == FINAL and leg.role == "MAP")
        flown_legs.append(before)
    return flown_legs


def _flown(leg: Leg, part: str, before: Flown | None, place_of: PlaceOf, reckoning: Reckoning) -> Flown:
    place, missing = _placed(leg.fix_reference, place_of)
    centre, lost = _placed(leg.centre_reference, place_of) if leg.terminator == "RF" else (None, "")
    start, begins = ("", None)
    if before is not None and before.ends_at_fix and before.place is not None:
        start, begins = before.leg.fix, before.place
    flown_leg = Flown(leg, part, place, missing or lost, start, begins, centre)
    return Flown(leg, part, place, missing or lost, start, begins, centre,
                 _course(flown_leg, reckoning), _length(flown_leg))


def _placed(reference: Reference, place_of: PlaceOf) -> tuple[Place | None, str]:
    place = place_of(reference) if reference.ident else ""
    return (None, place) if isinstance(place, str) else (place, "")


def _course(flown_leg: Flown, reckoning: Reckoning) -> Measured | None:
    """As coded; computed for a straight leg between two known fixes, and for the end of an arc."""
    coded = course_deg(flown_leg.leg.course)
    if coded is not None:
        return Measured(coded[0])
    if flown_leg.begins is None or flown_leg.place is None:
        return None
    if flown_leg.leg.terminator in codes.STRAIGHT:
        return Measured(reckoning.course_deg(straight(flown_leg.begins, flown_leg.place).course_deg), is_computed=True)
    if flown_leg.leg.terminator == "RF" and flown_leg.centre is not None and flown_leg.leg.turn in ("L", "R"):
        quarter = 90.0 if flown_leg.leg.turn == "R" else -90.0
        course = degrees_360(straight(flown_leg.centre, flown_leg.place).course_deg + quarter)
        return Measured(reckoning.course_deg(course), is_computed=True)
    return None


def _length(flown_leg: Flown) -> Measured | None:
    """As coded in NM; computed where neither length nor time is coded, for straight legs and arcs."""
    if flown_leg.leg.distance:
        coded = distance_nm(flown_leg.leg.distance)
        return None if coded is None else Measured(coded)
    if flown_leg.begins is None or flown_leg.place is None:
        return None
    if flown_leg.leg.terminator in codes.STRAIGHT:
        return Measured(round(straight(flown_leg.begins, flown_leg.place).distance_nm, PLACES), is_computed=True)
    if flown_leg.leg.terminator == "RF" and flown_leg.centre is not None and flown_leg.leg.turn in ("L", "R"):
        length = arc_nm(flown_leg.begins, flown_leg.place, flown_leg.centre, right=flown_leg.leg.turn == "R")
        return Measured(round(length, PLACES), is_computed=True)
    return None


def straight(start: Place, end: Place) -> earth.Leg:
    """The straight leg from one place to another."""
    return earth.inverse(start.latitude_deg, start.longitude_deg, end.latitude_deg, end.longitude_deg)


def arc_nm(start: Place, end: Place, centre: Place, *, right: bool) -> float:
    """Length (NM) of the arc about a centre from one place to another, turning right or left."""
    first, last = straight(centre, start), straight(centre, end)
    turned = degrees_360((last.course_deg - first.course_deg) * (1.0 if right else -1.0))
    return math.radians(turned) * (first.distance_nm + last.distance_nm) / 2.0
