"""Codes of a leg that are unknown, or that do not fit what stands beside them: told, never guessed.

Source: ARINC Specification 424-18, from memory where `lpv.arinc.codes` does not call a code confirmed.
"""

from itertools import groupby

from lpv.arinc import codes
from lpv.arinc.flown import Flown
from lpv.arinc.legs import MISSED, Leg, place

_BESIDE = {  # text that belongs to another -> that other, which is blank then
    "fix_region": "fix", "fix_section": "fix", "navaid_region": "navaid", "navaid_section": "navaid",
    "centre_region": "centre", "centre_section": "centre", "multiple": "centre", "speed_is": "speed",
}
_NAMES = {"fix": "fix", "navaid": "navaid", "centre": "center", "speed": "speed limit"}
_WORDS = {
    "fix_region": "region", "fix_section": "section", "navaid_region": "region", "navaid_section": "section",
    "centre_region": "region", "centre_section": "section", "multiple": "multiple code", "speed_is": "description",
}


def unknown(leg: Leg) -> list[str]:
    """What a leg's codes say that has no meaning here, in words; what belongs to something blank."""
    remarks = [f"waypoint description {leg.described(number)!r} in column {39 + number}, unknown"
               for number, known in codes.DESCRIPTIONS.items() if leg.described(number) not in known]
    known_by = (("altitude by ATC", leg.atc, codes.ATC), ("turn prescribed", leg.turn_valid, codes.TURN_VALID))
    remarks += [f"{what} {text}, unknown" for what, text, known in known_by if text not in known]
    remarks += [f"{_WORDS[text]} {getattr(leg, text)} without a {_NAMES[beside]}"
                for text, beside in _BESIDE.items() if getattr(leg, text) and not getattr(leg, beside)]
    needed = [column for column, terminators in codes.NEEDED.items() if leg.terminator in terminators]
    remarks += [f"no {codes.NEEDED_WORDS.get(column, column)}, which path terminator {leg.terminator} needs"
                for column in needed if not getattr(leg, column)]
    if leg.fix and leg.terminator in codes.FROM_HERE:
        remarks.append(f"fix {leg.fix} at path terminator {leg.terminator}, which has none")
    if leg.radius and leg.terminator not in codes.ARCS:
        remarks.append(f"radius {leg.radius} at a leg that is no arc")
    if leg.rho and leg.terminator == codes.RF:
        remarks.append(f"distance {leg.rho} in columns 67-70 of an arc, not supported")
    return remarks


def out_of_place(legs: list[Flown], kind: str) -> list[str]:
    """Marks of an approach's legs that contradict their order, in words.

    kind: the letter of the approach's kind, which its final route carries

    Published records bear out that the last leg of each route alone is marked as its end, and that the missed
    approach is marked where it begins, behind the missed approach point.
    """
    remarks = [f"{place(leg.leg)}: route type {leg.leg.route}, unknown for an approach of type {kind}"
               for leg in legs if leg.leg.route not in (*codes.ROUTES, kind)]
    for _, route in groupby(legs, lambda leg: (leg.leg.route, leg.leg.transition)):
        flown = list(route)
        remarks += [f"{place(leg.leg)}: marked as the end of its route, and legs follow"
                    for leg in flown[:-1] if _ends(leg)]
        remarks += [f"{place(leg.leg)}: the last leg of its route is not marked as its end; a leg may be missing"
                    for leg in flown[-1:] if not _ends(leg)]
    missed = [leg for leg in legs if leg.part == MISSED]
    remarks += [f"{place(leg.leg)}: marked as the beginning of the missed approach, and stands elsewhere"
                for leg in legs if leg.leg.described(3) == codes.FIRST_MISSED and leg not in missed[:1]]
    remarks += [f"{place(leg.leg)}: the first leg of the missed approach is not marked as such"
                for leg in missed[:1] if leg.leg.described(3) != codes.FIRST_MISSED]
    return remarks


def _ends(leg: Flown) -> bool:
    return leg.leg.described(2) in codes.END_OF_ROUTE
