"""Coded legs as rows `[[database.leg]]` of an approach file: every column of a leg that means something.

What has no place in a row, and what is not understood, is told by `not_understood`.
"""

from typing import Any

from lpv.arinc import codes
from lpv.arinc.columns import rnp_nm
from lpv.arinc.flown import Flown, Measured
from lpv.arinc.leg_layouts import LEG
from lpv.arinc.legs import FINAL, MISSED, Leg, feet, place, stated
from lpv.arinc.odd_codes import unknown
from lpv.arinc.positions import Place
from lpv.core.text import latitude, longitude

Table = dict[str, Any]
TENTHS = 10.0
PARTS = {FINAL: "final", MISSED: "missed approach"}
STEP_S = 0.01  # of an arc second, as records write positions


def row(flown: Flown) -> Table:
    """A leg as a row of the file, without what it does not code."""
    leg = flown.leg
    made: Table = {"part": flown.part, "transition": leg.transition, "sequence": leg.sequence,
                   "terminator": leg.terminator, "fix": leg.fix, **_where(flown.place), "role": role(leg)}
    made |= {"fly_over": leg.is_fly_over, "turn": codes.TURNS[leg.turn], "turn_prescribed": leg.turn_valid == "Y"}
    made |= _measured("course_deg", flown.course) | _measured("distance_nm", flown.length)
    made |= {"course_true": flown.course_is_true, "time_min": flown.time_min, **_altitudes(leg), **_arc(flown)}
    made |= {"speed_kt": int(leg.speed) if leg.speed else None, "speed_rule": codes.SPEEDS.get(leg.speed_is, "")}
    made |= {"angle_deg": leg.angle_deg, "rnp_nm": rnp_nm(leg.rnp), **_navaid(leg)}
    qualifiers = f"{leg.qualifier_1 or '-'}{leg.qualifier_2 or '-'}"
    made |= {"gnss": leg.gnss, "qualifiers": "" if qualifiers == "--" else qualifiers}
    return {key: value for key, value in made.items() if value is not None and value is not False and value != ""}


def _where(place: Place | None, name: str = "") -> Table:
    if place is None:
        return {}
    return {f"{name}latitude": latitude(place.latitude_deg, STEP_S),
            f"{name}longitude": longitude(place.longitude_deg, STEP_S)}


def role(leg: Leg) -> str:
    """What the fix of a leg is for, "" for nothing that a file names."""
    return leg.role or ("step-down" if leg.described(3) in (codes.STEP_DOWN, codes.UNNAMED_STEP_DOWN) else "")


def _measured(key: str, measured: Measured | None) -> Table:
    if measured is None:
        return {}
    return {key: measured.value, f"{key.rpartition('_')[0]}_computed": measured.is_computed}


def _altitudes(leg: Leg) -> Table:
    altitudes = stated(leg)
    first = feet(leg.transition_altitude)
    return {"altitude_ft": altitudes.altitude_ft, "altitude_rule": altitudes.rule, "highest_ft": altitudes.highest_ft,
            "path_altitude_ft": altitudes.path_ft, "glide_slope_altitude_ft": altitudes.glide_slope_ft,
            "flight_levels": altitudes.is_level, "by_atc": leg.atc == "A", "transition_altitude_ft": first}


def _arc(flown: Flown) -> Table:
    leg = flown.leg
    if leg.terminator not in codes.ARCS:
        return {"safe_altitude_centre": leg.centre, "safe_altitude_multiple": leg.multiple}
    made: Table = {"radius_nm": int(leg.radius) / 1000.0 if leg.radius else None, "centre": leg.centre}
    made |= _where(flown.centre, "centre_")
    return made | ({"inbound_course_deg": int(leg.theta) / TENTHS} if leg.theta and leg.terminator == "RF" else {})


def _navaid(leg: Leg) -> Table:
    if leg.terminator == "RF":
        return {"navaid": leg.navaid}
    return {"navaid": leg.navaid, "navaid_bearing_deg": int(leg.theta) / TENTHS if leg.theta else None,
            "navaid_distance_nm": int(leg.rho) / TENTHS if leg.rho else None}


def not_understood(flown: Flown) -> list[str]:
    """What is coded at a leg and not understood here, each with its place."""
    leg, remarks = flown.leg, [stated(flown.leg).unknown, *unknown(flown.leg)]
    remarks += [] if leg.is_understood else [f"path terminator {leg.terminator}, not supported"]
    remarks += [f"speed limit description {leg.speed_is}, unknown"] if leg.speed_is not in codes.SPEEDS else []
    remarks += [f"{column.place()} holds {text.strip()}, not supported" for column, text in LEG.left_over(leg.line)]
    return [f"{place(leg)}: {words}" for words in remarks if words]


def not_placed(legs: list[Flown]) -> list[str]:
    """The fixes and centres whose position is not known, each once, with the legs that name it and how."""
    by_reason: dict[str, dict[str, list[str]]] = {}
    for leg in legs:
        if leg.missing:
            coded = leg.leg.fix_reference if leg.place is None else leg.leg.centre_reference
            places = by_reason.setdefault(leg.missing, {}).setdefault(" ".join(filter(None, coded[1:])) or "blank", [])
            places.append(" ".join(filter(None, (leg.leg.transition, leg.leg.sequence))))
    return [f"{why}: {_listed(by_place)}" for why, by_place in by_reason.items()]


def _listed(places_of: dict[str, list[str]]) -> str:
    return ", ".join(f"{', '.join(places)} ({coded})" for coded, places in places_of.items())
