"""Rules of the cross-check for the legs as coded: courses, lengths and arcs against the positions of their fixes.

What a record leaves blank was computed from those positions and shows nothing here.
"""

import math
from collections.abc import Iterator
from typing import NamedTuple

from lpv.approach.coded_leg import CodedLeg
from lpv.approach.record import Approach
from lpv.approach.schema import Fix
from lpv.core.consequence import grade_of
from lpv.core.course import course_difference_deg
from lpv.core.findings import Finding, worst_grade
from lpv.core.text import course, degrees, feet, latitude, longitude, nautical_miles, number
from lpv.core.units import degrees_360
from lpv.crosscheck.limits import grade_difference
from lpv.crosscheck.statements import finding
from lpv.decide.final_path import in_chart_reference_deg
from lpv.geodesy import earth

STRAIGHT = ("TF", "CF")
ENDS_AT_FIX = ("IF", "TF", "CF", "DF", "RF", "AF", "HF", "HM", "HA")
FINAL, MISSED = "final", "missed approach"


class Between(NamedTuple):
    """A leg and the fix at which it begins."""

    start: CodedLeg
    leg: CodedLeg


def between(approach: Approach) -> Iterator[Between]:
    """The coded legs that begin and end at fixes of known position."""
    before: CodedLeg | None = None
    for leg in approach.database.legs:
        same = before is not None and before.transition == leg.transition
        if same and before is not None and _is_placed(before) and _is_placed(leg):
            yield Between(before, leg)
        before = leg


def _is_placed(leg: CodedLeg) -> bool:
    return leg.terminator in ENDS_AT_FIX and None not in (leg.latitude_deg, leg.longitude_deg)


def _fix(leg: CodedLeg) -> tuple[float, float]:
    assert leg.latitude_deg is not None
    assert leg.longitude_deg is not None
    return leg.latitude_deg, leg.longitude_deg


def straight_legs(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Course and length of the coded legs of transitions and missed approach against positions."""
    for start, leg in between(approach):
        if leg.terminator not in STRAIGHT or leg.part == FINAL:
            continue
        coded_course = None if leg.course_computed else leg.course_deg
        coded_distance = None if leg.distance_computed else leg.distance_nm
        if (coded_course, coded_distance) == (None, None):
            continue
        geodesic = earth.inverse(*_fix(start), *_fix(leg))
        computed = geodesic.course_deg if leg.course_true else in_chart_reference_deg(approach, geodesic.course_deg)
        grades = [] if coded_course is None else [
            grade_difference("leg_course", course_difference_deg(computed, coded_course))]
        grades += [] if coded_distance is None else [
            grade_difference("leg_distance", coded_distance - geodesic.distance_nm)]
        yield finding(
            "coded-leg", worst_grade(grades), f"coded leg from {start.fix}", about=leg.name,
            database=_text(coded_course, coded_distance),
            computed=f"{course(computed, 0.1)}, {nautical_miles(geodesic.distance_nm, 0.01)}",
            why="Course and length together show whether both ends are the coded fixes.",
            action="Compare both ends with the chart. Do not fly a leg you cannot explain.",
        )


def arcs(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Radius and length of each arc to a fix against the positions of its ends and its centre."""
    for start, leg in between(approach):
        latitude, longitude, radius_nm = leg.centre_latitude_deg, leg.centre_longitude_deg, leg.radius_nm
        if leg.terminator != "RF" or leg.turn not in ("left", "right"):
            continue
        if latitude is None or longitude is None or radius_nm is None:
            continue
        first, last = (earth.inverse(latitude, longitude, *_fix(end)) for end in (start, leg))
        turned = degrees_360((last.course_deg - first.course_deg) * (1.0 if leg.turn == "right" else -1.0))
        length = math.radians(turned) * radius_nm
        grades = [grade_difference("leg_distance", radius_nm - ray.distance_nm) for ray in (first, last)]
        coded = None if leg.distance_computed else leg.distance_nm
        grades += [] if coded is None else [grade_difference("leg_distance", coded - length)]
        long = "" if coded is None else f", {nautical_miles(coded, 0.01)} long"
        yield finding(
            "coded-arc", worst_grade(grades), f"coded arc from {start.fix} about {leg.centre}", about=leg.name,
            database=f"radius {nautical_miles(radius_nm, 0.001)}{long}",
            computed=f"{number(first.distance_nm, 0.001)} and {nautical_miles(last.distance_nm, 0.001)} from the "
                     f"center, {nautical_miles(length, 0.01)} long",
            why="An arc about another center, or of another radius, leaves the protected area.",
            action="Compare the arc with the chart. Do not fly it until it is explained.",
        )


def missed_course(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Course of a missed approach that climbs straight ahead against the course that the segment gives."""
    first = next((leg for leg in approach.database.legs if leg.part == MISSED), None)
    if first is None or first.terminator != "CA" or first.course_deg is None or first.turn is not None:
        return
    true_deg = approach.true_course_deg
    computed = true_deg if first.course_true else in_chart_reference_deg(approach, true_deg)
    grade = grade_difference("course", course_difference_deg(computed, first.course_deg))
    yield finding(
        "missed-course", "note" if grade == "stop" else grade, "missed approach course against the final course",
        about=first.name, database=course(first.course_deg, 0.1), computed=f"{course(computed, 0.1)} by the segment",
        why="Coded and computed separately, the two agree only if they use the same variation.",
        action="The missed approach leaves the final course at once: brief the turn." if grade == "stop" else
        "Find out which variation the coded course was made with.",
    )


def charted_fixes(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Position and altitude of each coded leg's fix, in the final and the missed approach, against the chart's."""
    charted = {fix.name: fix for fix in approach.chart.fixes}
    for leg in approach.database.legs:
        fix = charted.get(leg.fix or "")
        if fix is None or leg.part not in (FINAL, MISSED):
            continue
        if None not in (leg.latitude_deg, leg.longitude_deg):
            yield _position(leg, fix)
        if leg.altitude_ft is not None and fix.altitude_ft is not None and not leg.flight_levels:
            yield _altitude("coded-altitude", "altitude", leg, fix, leg.altitude_ft, fix.altitude_ft)
            yield _binding(leg, fix)
        if leg.path_altitude_ft is not None and fix.path_altitude_ft is not None:
            yield _altitude(
                "coded-path", "altitude on the path", leg, fix, leg.path_altitude_ft, fix.path_altitude_ft)


def _altitude(key: str, what: str, leg: CodedLeg, fix: Fix, coded_ft: float, charted_ft: float) -> Finding:
    return finding(
        key, grade_of("altitude", coded_ft - charted_ft), f"{what} coded at {fix.name}", about=leg.name,
        chart=feet(charted_ft), database=feet(coded_ft), why="The charted altitude keeps you clear of what is below.",
        action="Find out which one is in force. Fly the charted one.",
    )


def _binding(leg: CodedLeg, fix: Fix) -> Finding:
    return finding(
        "coded-rule", "ok" if leg.altitude_rule == fix.altitude_rule else "resolve",
        f"restriction coded at {fix.name} binds", about=leg.name, chart=fix.altitude_rule or "none",
        database=leg.altitude_rule or "none", why="An aircraft that may be below flies a different profile.",
        action="Find out which one is in force. Fly the charted one.",
    )


def final_angle(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Vertical angle of the coded final legs against the glidepath angle of the segment."""
    for leg in approach.database.legs:
        if leg.part == FINAL and leg.angle_deg is not None:
            yield finding(
                "coded-angle", grade_difference("glidepath", leg.angle_deg + approach.segment.gpa_deg),
                f"angle coded to {leg.fix}", about=leg.name, database=degrees(-leg.angle_deg),
                computed=f"{degrees(approach.segment.gpa_deg)} in the segment",
                why="Legs and segment are coded separately, but describe one path.",
                action="Do not fly a glidepath whose angle is in doubt.",
            )


def _position(leg: CodedLeg, fix: Fix) -> Finding:
    off_nm = earth.distance_nm(*_fix(leg), fix.latitude_deg, fix.longitude_deg)
    return finding(
        "coded-position", grade_difference("across", off_nm), f"coded position of {fix.name}", about=leg.name,
        chart=f"{latitude(fix.latitude_deg, 0.01)} {longitude(fix.longitude_deg, 0.01)}",
        database=f"{nautical_miles(off_nm, 0.001)} from it", why="Two positions are two fixes, even under one name.",
        action="Find out which position is in force; do not fly a leg to a fix in doubt.",
    )


def _text(course_deg: float | None, distance_nm: float | None) -> str:
    parts = ["" if course_deg is None else course(course_deg, 0.1),
             "" if distance_nm is None else nautical_miles(distance_nm, 0.01)]
    return ", ".join(part for part in parts if part)


RULES = (straight_legs, arcs, missed_course, charted_fixes, final_angle)
