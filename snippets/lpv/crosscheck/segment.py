"""Rules of the cross-check: is the segment one that a designer would draw, whatever the chart says?

Fields of the data block against what their definitions, formulas and usual ranges allow.  A wrong value here can agree
with everything else in the file.
"""

import math
from collections.abc import Iterator

from lpv.approach.record import Approach
from lpv.core.findings import Finding
from lpv.core.text import degrees, feet, metres, number, quantity, tenths_of_feet
from lpv.core.units import M_PER_FT
from lpv.crosscheck.limits import grade_difference
from lpv.crosscheck.statements import finding, or_none, within
from lpv.facts import FACTS, fact, remembered, value, value_of
from lpv.fas import segment as fas_segment
from lpv.fas.identity import provider_name

ASK = "Ask the data provider."
STEP_M = 0.25
GROUND_STATIONS = 14  # the provider identifier of segments that ground stations alone serve
# Lines of minima down to which a glidepath is flown: the categories that they name bound its angle.
PATH_LINES = ("LPV", "LNAV/VNAV")
CATEGORIES = "ABCDE"


def operation(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Operation type, performance designator and path data selector of a straight-in SBAS segment."""
    stored = approach.segment
    rows = (
        ("operation-type", "operation type", stored.operation_type, "operation_type_straight_in", "straight in",
         "Another type is not a straight-in approach to a runway."),
        ("performance-designator", "performance designator", stored.performance_designator,
         "performance_designator_lpv", "LPV", "Another value means another performance."),
        ("path-data-selector", "path data selector", stored.reference_path_data_selector, "path_data_selector_sbas",
         "SBAS", "It selects among the segments of a ground station."),
    )
    for key, what, coded, expected, name, why in rows:
        yield finding(
            key, "ok" if coded == value_of(expected) else "stop" if key == "operation-type" else "resolve", what,
            database=str(coded), computed=f"{number(value_of(expected))} for {name}", why=why, action=ASK,
        )


def provider_area(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The SBAS provider serves the part of the world in which the threshold lies."""
    coded = approach.segment
    key = f"sbas_longitudes_{coded.sbas_provider}"
    name = f"{coded.sbas_provider} ({or_none(provider_name(coded.sbas_provider))})"
    if key not in FACTS:
        serves = provider_name(coded.sbas_provider) and coded.sbas_provider != GROUND_STATIONS
        yield finding(
            "provider-area", "note" if serves else "resolve", "area of the SBAS provider", database=name,
            computed="its area is unknown" if serves else "no satellite system has this identifier",
            why="A receiver uses the corrections of this provider and of no other.", action="Find out who serves it.",
        )
        return
    west, east = (float(part) for part in str(fact(key).value).split())
    inside = (coded.ltp_longitude_deg - west) % 360.0 <= (east - west) % 360.0
    yield finding(
        "provider-area", "ok" if inside else "resolve", "area of the SBAS provider",
        database=f"{name}, threshold at longitude {degrees(coded.ltp_longitude_deg, 0.1)}",
        computed=f"serves longitudes {degrees(west, 1)} to {degrees(east, 1)}, east positive",
        why="A receiver uses the corrections of this provider and of no other.",
        action="Compare the provider with the chart. With another one LPV is not available here.",
    )


def faa_half_width_m(garp_distance_ft: float) -> float:
    """The course half-width (m) at the threshold by the FAA's formula, in steps of 0.25 m.

    The greater of 350 ft, rounded up, and tan(1.5 deg) times the distance from LTP to GARP, to the nearest step.
    Source: Order 8260.58D par 3-1-5.c(3), Formula 3-1-1.
    """
    least_m = value("course_half_width_lowest_ft") * M_PER_FT
    wide_m = math.tan(math.radians(value("course_width_splay_deg"))) * garp_distance_ft * M_PER_FT  # 3-1-1
    return max(math.ceil(least_m / STEP_M), round(wide_m / STEP_M)) * STEP_M


def designed_half_width_m(approach: Approach) -> float:
    """The course half-width (m) at the threshold by the rules of the chart.

    FAA: its formula.  ICAO and EASA: 105 m, or what the FAA's formula gives where that comes nearer, since States
    design by both.
    """
    faa_m = faa_half_width_m(fas_segment.garp_distance_ft(approach.segment))
    if approach.identity.rule == "FAA":
        return faa_m
    return min((value("course_width_icao_m"), faa_m), key=lambda width: abs(width - approach.segment.course_width_m))


def course_width(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Course half-width at the threshold against its formula, and the angle at the GARP that it makes."""
    coded, designed_m = approach.segment, designed_half_width_m(approach)
    yield finding(
        "course-width", grade_difference("course_width", coded.course_width_m - designed_m),
        "course width at the threshold", database=f"{quantity(coded.course_width_m, 'm', 0.01)} to each side",
        computed=f"{quantity(designed_m, 'm', 0.01)} by {approach.identity.rule} rules; "
                 f"full scale {degrees(fas_segment.splay_deg(coded))} at the GARP",
        why="It decides how far off course one dot is, all the way down.", action=ASK,
    )


def crossing_range(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Threshold crossing height of the segment within the usual range."""
    if approach.segment.is_lp:
        return
    held_ft, low_ft, high_ft = approach.segment.tch_ft, value("tch_lowest_ft"), value("tch_highest_ft")
    possible = within(held_ft, value("tch_stop_below_ft"), value("tch_stop_above_ft"))
    usual = within(held_ft, low_ft, high_ft)
    yield finding(
        "tch-range", "ok" if usual else "resolve" if possible else "stop", "range of the threshold crossing height",
        database=tenths_of_feet(held_ft), computed=f"usually {feet(low_ft)} to {feet(high_ft)}",
        why="Too low: the wheels may not clear. Too high: the runway gets short. Or the unit is wrong.",
        action="Compare with the chart, unit included.",
    )


def angle_range(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Glidepath angle of the segment within what the rules allow the categories of the minima."""
    if approach.segment.is_lp:
        return
    held_deg, (low_deg, high_deg, words) = approach.segment.gpa_deg, angle_limits_deg(approach)
    yield finding(
        "glidepath-range", "ok" if within(held_deg, low_deg, high_deg) else "resolve", "range of the glidepath angle",
        database=degrees(held_deg), computed=f"{degrees(low_deg)} to {degrees(high_deg)}, {words}",
        why="A steeper glidepath takes more than a normal rate of descent; a shallower one has less clearance.",
        action="Find out whether the angle is intended, and whether your category may fly it.",
    )


def angle_limits_deg(approach: Approach) -> tuple[float, float, str]:
    """Least and greatest glidepath angle (deg) for the approach, and by what, in words."""
    if approach.identity.rule != "FAA":
        return value("gpa_lowest_icao_deg"), value("gpa_highest_icao_deg"), "ICAO, written for barometric paths"
    lines = [minima for minima in approach.chart.minima if minima.line in PATH_LINES]
    letter = max((letter for minima in lines for letter in minima.categories if letter in CATEGORIES), default="")
    named = f", category {letter}" if letter else "; the minima name no category"
    highest = f"gpa_highest_{(letter or 'A').lower()}_deg"
    return value("gpa_lowest_deg"), value_of(highest), f"FAA{named}{remembered('gpa_lowest_deg', highest)}"


def alert_limits(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Both alert limits against the published ones."""
    coded, published_m = approach.segment, value("hal_lpv_m")
    yield finding(
        "hal", "ok" if coded.hal_m == published_m else "stop", "horizontal alert limit", database=metres(coded.hal_m),
        computed=metres(published_m), why="It decides when the receiver removes lateral guidance.", action=ASK,
    )
    if coded.is_lp:
        return
    most_m, least_m = value("val_lpv_m"), value("val_lpv_lowest_m")
    known = [value(key) for key in ("val_lpv_m", "val_lpv200_m", "val_apv_ii_m")]
    possible = least_m < coded.val_m <= most_m
    yield finding(
        "val", "ok" if coded.val_m in known else "resolve" if possible else "stop", "vertical alert limit",
        database=metres(coded.val_m),
        computed=f"{' or '.join(map(metres, known))}; over {metres(least_m)}, at most {metres(most_m)}",
        why="It decides when the receiver removes vertical guidance.", action=ASK,
    )


RULES = (operation, provider_area, course_width, crossing_range, angle_range, alert_limits)
