"""Rules of the cross-check: fixes and legs, as printed, as held and as their positions give them."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from lpv.approach.database import DatabaseFix
from lpv.approach.geometry import position_along
from lpv.approach.record import Approach
from lpv.approach.schema import Fix
from lpv.core.course import course_difference_deg, course_text
from lpv.core.findings import Finding, not_compared, worst_grade
from lpv.crosscheck.final import in_chart_reference_deg
from lpv.crosscheck.limits import grade_difference
from lpv.crosscheck.statements import course, finding, ft, nm
from lpv.geodesy import earth
from lpv.path.profile import barometric_path_height_ft, straight_path_height_ft

if TYPE_CHECKING:
    from lpv.core.findings import Grade

MISSED = ("missed", "missed hold")


def foot(approach: Approach, fix: Fix) -> tuple[float, float]:
    """(distance before the LTP along the final course, distance to its right) of a fix, in NM."""
    return position_along(approach.segment, fix.latitude_deg, fix.longitude_deg)


def sequence(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The final fixes come nearer to the threshold one by one, and the database has them in that order."""
    fixes = approach.final_fixes
    distances = [foot(approach, fix)[0] for fix in fixes]
    descending = all(before > after for before, after in pairwise(distances))
    names, held = [fix.name for fix in fixes], [fix.name for fix in approach.database.fixes]
    charted = [fix.name for fix in approach.chart.fixes]
    missing = [name for name in names if name not in held] if held else []
    strange = [name for name in held if name not in charted]
    ordered = [name for name in charted if name in held] == [name for name in held if name in charted]
    yield finding(
        "fix-sequence", "ok" if descending and ordered and not missing and not strange else "stop",
        "fixes in sequence", chart=", ".join(names), database=", ".join(held),
        computed=_sequence_text(descending, missing, strange, ordered),
        why="A fix dropped or in the wrong place moves the descent.",
        action="Load the whole approach again, with its transition, and compare fix by fix.",
    )


def _sequence_text(descending: bool, missing: list[str], strange: list[str], ordered: bool) -> str:
    parts = [
        "nearer to the threshold one by one" if descending else "not in the order of their distance",
        f"not in the database: {', '.join(missing)}" if missing else "",
        f"not on the chart: {', '.join(strange)}" if strange else "",
        "" if ordered else "another order in the database",
    ]
    return "; ".join(part for part in parts if part)


def on_course(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Every fix of the final segment lies on the final course."""
    for fix in approach.final_fixes:
        along, across = foot(approach, fix)
        side = "right" if across > 0 else "left"
        yield finding(
            "fix-on-course", grade_difference("across", across), "fix on the final course", about=fix.name,
            computed=f"{nm(along)} before the threshold, {abs(across):.3f} NM {side} of the course",
            why="The legs and the data block are made apart; their courses must be one line.",
            action="Compare the position of the fix with the chart, and the path identifier.",
        )


def legs(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Course and length of each leg: printed, held, and from the positions of its ends."""
    fixes = {fix.name: fix for fix in approach.chart.fixes}
    held = {fix.name: fix for fix in approach.database.fixes}
    before: Fix | None = None
    for fix in approach.chart.fixes:
        start = fixes[fix.leg_from] if fix.leg_from else before
        before = fix
        if start is None or (fix.role in MISSED and not fix.leg_from):
            continue
        if fix.leg_course_deg is not None or fix.leg_distance_nm is not None:
            yield _leg(approach, start, fix, held.get(fix.name))


def _leg(approach: Approach, start: Fix, fix: Fix, held: DatabaseFix | None) -> Finding:
    leg = earth.inverse(start.latitude_deg, start.longitude_deg, fix.latitude_deg, fix.longitude_deg)
    computed = in_chart_reference_deg(approach, leg.course_deg)
    shown_course, shown_distance = (held.course_deg, held.distance_nm) if held else (None, None)
    printed_course = None if "course" in fix.leg_computed else fix.leg_course_deg
    printed_distance = None if "distance" in fix.leg_computed else fix.leg_distance_nm
    result = f"{course(computed)}, {nm(leg.distance_nm)}"
    if (printed_course, printed_distance, shown_course, shown_distance) == (None, None, None, None):
        return not_compared(
            "leg", f"leg from {start.name}", "missing in the chart part", computed=result, about=fix.name,
            why="The records code neither course nor length; those in the file were computed from positions.",
            action="Compare them with the chart, then remove leg_computed from the fix.",
        )
    return finding(
        "leg",
        worst_grade([
            _course_grade(printed_course, computed), _course_grade(shown_course, computed),
            _distance_grade(printed_distance, leg.distance_nm), _distance_grade(shown_distance, leg.distance_nm),
        ]),
        f"leg from {start.name}", about=fix.name, chart=_leg_text(printed_course, printed_distance),
        database=_leg_text(shown_course, shown_distance), computed=result,
        why="Course and length together show whether both ends are the charted fixes.",
        action="Compare the names and positions of both ends; do not fly a leg that is not explained.",
    )


def _course_grade(stated: float | None, computed: float) -> "Grade":
    return "ok" if stated is None else grade_difference("leg_course", course_difference_deg(computed, stated))


def _distance_grade(stated: float | None, computed: float) -> "Grade":
    return "ok" if stated is None else grade_difference("leg_distance", stated - computed)


def _leg_text(course_deg: float | None, distance_nm: float | None) -> str:
    parts = ["" if course_deg is None else course_text(course_deg) + "°",
             "" if distance_nm is None else f"{distance_nm:.1f} NM"]
    return ", ".join(part for part in parts if part)


def altitudes(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Altitude at each fix, chart against database."""
    held = {fix.name: fix for fix in approach.database.fixes}
    for fix in approach.chart.fixes:
        shown = held[fix.name].altitude_ft if fix.name in held else None
        if fix.altitude_ft is not None and shown is not None:
            grade = grade_difference("fix_altitude", fix.altitude_ft - shown)
            yield finding(
                "fix-altitude", grade, "altitude at the fix", about=fix.name,
                chart=f"{fix.altitude_rule} {ft(fix.altitude_ft)}", database=ft(shown),
                why="The charted altitude keeps you clear of what is below.",
                action="Do not fly it until the difference is settled; report it." if grade == "stop" else
                "Fly the charted altitude; correct it in the aircraft only as your procedures allow.",
            )


def on_path(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Altitudes of the PFAF and the step-downs after it against the straight and the barometric path."""
    chart = approach.chart
    if approach.identity.level_of_service != "LPV" or chart.glidepath_deg is None or chart.tch_ft is None:
        return
    for fix in approach.final_fixes:
        if fix.role != "MAP" and fix.altitude_ft is not None and fix.altitude_rule != "at or below":
            distance_nm = max(foot(approach, fix)[0], 0.0)
            path = distance_nm, chart.threshold_elevation_ft, chart.tch_ft, chart.glidepath_deg
            yield _path_finding(
                fix, fix.altitude_ft, straight_path_height_ft(*path), barometric_path_height_ft(*path))


def _path_finding(
    fix: Fix, altitude_ft: float, straight_ft: float, barometric_ft: float, key: str = "path-altitude",
) -> Finding:
    excess_ft = straight_ft - barometric_ft
    why = "The satellite glidepath is straight; the earth and the altimeter curve away below it."
    grade = _path_grade(fix, altitude_ft, straight_ft, barometric_ft)
    if grade != "ok":
        action = "Do not descend on the glidepath below this altitude until it is explained."
    else:
        grade = grade_difference("curvature", excess_ft)
        action = f"Expect the altimeter to read {ft(straight_ft)} here on the glidepath on a standard day."
    return finding(
        key, grade, "altitude on the path", about=fix.name, chart=f"{fix.altitude_rule} {ft(altitude_ft)}",
        computed=f"straight {ft(straight_ft)}, barometric {ft(barometric_ft)}", why=why, action=action,
    )


def _path_grade(fix: Fix, altitude_ft: float, straight_ft: float, barometric_ft: float) -> "Grade":
    """ "stop" or "resolve" if the altitude lies outside of what the two paths explain, else "ok"."""
    above_ft, below_ft = altitude_ft - straight_ft, barometric_ft - altitude_ft
    limit = "path_exact" if fix.altitude_rule == "on path" else "path_rounded"
    if fix.role == "step-down" and fix.altitude_rule == "at or above":
        below_ft = 0.0  # a path well above a step-down is what the step-down asks for
    found = grade_difference(limit, max(above_ft, below_ft, 0.0))
    if found == "stop" and above_ft < below_ft and fix.altitude_rule != "on path":
        found = "resolve"  # the glidepath passes above the printed minimum
    return found


def coded_path(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Altitudes coded as on the vertical path, the threshold's included, against both paths."""
    chart = approach.chart
    if chart.glidepath_deg is None or chart.tch_ft is None:
        return
    for fix in approach.final_fixes:
        if fix.path_altitude_ft is not None:
            path = max(foot(approach, fix)[0], 0.0), chart.threshold_elevation_ft, chart.tch_ft, chart.glidepath_deg
            yield _path_finding(
                replace(fix, altitude_rule="on path"), fix.path_altitude_ft, straight_path_height_ft(*path),
                barometric_path_height_ft(*path), "path-coded")


RULES = (sequence, on_course, legs, altitudes, on_path, coded_path)
