"""Whole procedures for sequence drills: the coded legs from the initial fix or round a hold in lieu, and their start.

The legs are made from the fixes that any approach's chart has, so that a drill can be drawn over a department's own.
"""

import math

from lpv.approach.coded_leg import CodedLeg
from lpv.approach.record import Approach
from lpv.approach.schema import Fix
from lpv.core.units import degrees_360
from lpv.drill.planted import needs

BEFORE_NM = 2.5  # where a sequence begins, before its first fix
HOLD_NM = 4.0
HOLD_SIDE = "right"


def initial_legs(approach: Approach) -> tuple[CodedLeg, ...]:
    """From the last initial fix over the intermediate fix to the PFAF; DomainError without both."""
    initial, intermediate = _served(approach, "IAF"), _served(approach, "IF")
    needs(initial.name != intermediate.name, "the initial fix is the intermediate one")
    return (
        _leg("transition", "010", "IF", initial, "IAF", transition=initial.name),
        _leg("transition", "020", "TF", intermediate, "IF", transition=initial.name),
        _leg("final", "010", "IF", intermediate, "IF"),
        _leg("final", "020", "TF", approach.pfaf, "PFAF"),
    )


def hold_legs(approach: Approach) -> tuple[CodedLeg, ...]:
    """Direct to the intermediate fix, once round a hold there on the final course, and to the PFAF."""
    intermediate, course_deg = _served(approach, "IF"), approach.chart.course_deg
    return (
        _leg("transition", "010", "DF", intermediate, "IAF", transition=intermediate.name, fly_over=True),
        _leg("transition", "020", "HF", intermediate, "IF", transition=intermediate.name, turn=HOLD_SIDE,
             course_deg=course_deg, distance_nm=HOLD_NM),
        _leg("final", "010", "IF", intermediate, "IF"),
        _leg("final", "020", "CF", approach.pfaf, "PFAF", course_deg=course_deg),
    )


def begins(approach: Approach, legs: tuple[CodedLeg, ...]) -> dict[str, float]:
    """Where such a sequence begins: before its first fix, on the leg that follows or abeam the hold; NM and degrees."""
    places = {place.name: (place.along_nm, place.across_nm) for place in approach.geometry.fixes}
    first, second = places[legs[0].fix or ""], places[legs[1].fix or ""]
    if first == second:  # a hold: from the side
        return {"along_nm": first[0], "across_nm": first[1] - BEFORE_NM, "turned_deg": 90.0}
    ahead, right = first[0] - second[0], second[1] - first[1]
    length_nm = math.hypot(ahead, right)
    return {
        "along_nm": first[0] + BEFORE_NM * ahead / length_nm, "across_nm": first[1] - BEFORE_NM * right / length_nm,
        "turned_deg": degrees_360(math.degrees(math.atan2(right, ahead))),
    }


def begins_ft(approach: Approach, legs: tuple[CodedLeg, ...]) -> float:
    """The altitude to begin at: that of the first fix where its chart has one, else the PFAF's."""
    charted = [fix.altitude_ft for fix in approach.chart.fixes if fix.name == legs[0].fix]
    return charted[0] or approach.pfaf.altitude_ft or 0.0


def _served(approach: Approach, role: str) -> Fix:
    fixes = [fix for fix in approach.chart.fixes if fix.serves(role)]
    needs(bool(fixes), f"the chart has no {role}")
    return fixes[-1]


def _leg(part: str, sequence: str, terminator: str, fix: Fix, role: str, **more: object) -> CodedLeg:
    return CodedLeg(part=part, sequence=sequence, terminator=terminator, fix=fix.name, role=role,
                    **more)  # type: ignore[arg-type]
