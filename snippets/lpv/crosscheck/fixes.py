"""Rules of the cross-check: fixes and legs, as printed, as held and as their positions give them."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from lpv.approach.database import DatabaseFix
from lpv.approach.geometry import position_along
from lpv.approach.record import Approach
from lpv.approach.schema import ROLES, Fix
from lpv.core.consequence import grade_of
from lpv.core.course import course_difference_deg
from lpv.core.findings import Finding, not_compared, worst_grade
from lpv.core.spoken import spoken
from lpv.core.text import course, course_digits, feet, latitude, longitude, nautical_miles
from lpv.crosscheck.limits import grade_difference
from lpv.crosscheck.statements import finding, one_sided, or_none
from lpv.decide.final_path import in_chart_reference_deg
from lpv.geodesy import earth
from lpv.path.profile import barometric_path_height_ft, straight_path_height_ft

if TYPE_CHECKING:
    from lpv.core.findings import Grade, Reason

MISSED = ("missed", "missed hold")
LOAD_AGAIN = "Load the whole approach again, with its transition, and compare fix by fix."


def foot(approach: Approach, fix: Fix) -> tuple[float, float]:
    """(distance before the LTP along the final course, distance to its right) of a fix, in NM."""
    return position_along(approach.segment, fix.latitude_deg, fix.longitude_deg)


def held_fixes(approach: Approach) -> dict[str, DatabaseFix]:
    """The fixes of the database by name."""
    return {fix.name: fix for fix in approach.database.fixes}


def order(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The chart's fixes: roles in the order flown, and the final ones nearer to the threshold one by one."""
    fixes = approach.chart.fixes
    ranks = [ROLES.index(fix.role) for fix in fixes if fix.role != "step-down"]
    begins, in_order = any(fix.serves("IF") for fix in fixes), ranks == sorted(ranks)
    yield finding(
        "fix-roles", "resolve" if not in_order else "ok" if begins else "note", "roles of the fixes",
        chart=", ".join(f"{fix.name} {spoken(fix.role)}" for fix in fixes),
        computed=("in" if in_order else "not in") + " the order flown" + ("" if begins else "; no IF"),
        why="Distances, altitudes and scales depend on the roles.",
        action="Read the fixes from the chart again.",
    )
    distances = [foot(approach, fix)[0] for fix in approach.final_fixes]
    nearer = all(before > after for before, after in pairwise(distances))
    yield finding(
        "fix-order", "ok" if nearer else "stop", "each final fix is nearer than the one before",
        chart=", ".join(fix.name for fix in approach.final_fixes),
        computed=", ".join(f"{nautical_miles(distance_nm)}" for distance_nm in distances),
        why="A fix in the wrong place moves the descent.", action=LOAD_AGAIN,
    )


def sequence(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The database has the chart's fixes, all of them and no other, in the chart's order."""
    key, what = "fix-sequence", "fixes in sequence"
    charted, coded = [fix.name for fix in approach.chart.fixes], [fix.name for fix in approach.database.fixes]
    if not coded:
        yield one_sided(key, what, chart=", ".join(charted), action="Compare the fixes in the aircraft with the chart.")
        return
    final = [fix.name for fix in approach.final_fixes]
    expected = [fix.name for fix in approach.chart.fixes if fix.role not in MISSED]
    missing = [name for name in expected if name not in coded]
    strange = [name for name in coded if name not in charted]
    ordered = [name for name in charted if name in coded] == [name for name in coded if name in charted]
    lost = strange or not ordered or any(name in final for name in missing)
    yield finding(
        key, "stop" if lost else "resolve" if missing else "ok", what, chart=", ".join(charted),
        database=", ".join(coded), computed=_sequence_text(missing, strange, ordered),
        why="A fix dropped or in the wrong place moves the descent.", action=LOAD_AGAIN,
    )
    for fix in approach.chart.fixes:
        if fix.role in MISSED and fix.name not in coded:
            yield one_sided("fix-missed", "missed approach fix", chart=fix.name, about=fix.name)


def _sequence_text(missing: list[str], strange: list[str], ordered: bool) -> str:
    parts = [
        f"not in the database: {', '.join(missing)}" if missing else "",
        f"not on the chart: {', '.join(strange)}" if strange else "",
        "" if ordered else "another order in the database",
    ]
    return "; ".join(part for part in parts if part) or "the same, in the same order"


def on_course(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Every fix of the final segment lies on the final course."""
    for fix in approach.final_fixes:
        along, across = foot(approach, fix)
        side = "right" if across > 0 else "left"
        yield finding(
            "fix-on-course", grade_difference("across", across), "fix on the final course", about=fix.name,
            computed=f"{nautical_miles(along, 0.01)} before the threshold, {nautical_miles(abs(across), 0.001)} "
                     f"{side} of the course",
            why="The legs and the data block are made separately; their courses must be one line.",
            action="Compare the position of the fix with the chart, and the path identifier.",
        )


def legs(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Course and length of each leg: printed, held, and from the positions of its ends."""
    fixes, coded = {fix.name: fix for fix in approach.chart.fixes}, held_fixes(approach)
    placed = [leg.fix for leg in approach.database.legs if leg.latitude_deg is not None]
    before: Fix | None = None
    for fix in approach.chart.fixes:
        start = fixes[fix.leg_from] if fix.leg_from else before
        before = fix
        if start is None:
            continue
        if _has_leg(fix, coded.get(fix.name)):
            yield _leg(approach, start, fix, coded.get(fix.name))
        elif fix.role in MISSED and fix.name not in placed:
            yield not_compared(
                "leg", f"leg from {start.name}", "missing in the database part", about=fix.name,
                computed=f"{latitude(fix.latitude_deg, 0.01)} {longitude(fix.longitude_deg, 0.01)}",
                action="Compare course and length, or the position of the fix, with the aircraft.")


def _has_leg(fix: Fix, coded: DatabaseFix | None) -> bool:
    """Whether a missed approach fix has a leg to compare; every other fix that follows one has."""
    stated = (fix.leg_from, fix.leg_course_deg, fix.leg_distance_nm)
    shown = (coded.course_deg, coded.distance_nm) if coded else ()
    return fix.role not in (*MISSED, "IAF") or any(value is not None for value in (*stated, *shown))


def _leg(approach: Approach, start: Fix, fix: Fix, coded: DatabaseFix | None) -> Finding:
    if (start.latitude_deg, start.longitude_deg) == (fix.latitude_deg, fix.longitude_deg):
        return _no_leg(start, fix)
    leg = earth.inverse(start.latitude_deg, start.longitude_deg, fix.latitude_deg, fix.longitude_deg)
    computed = in_chart_reference_deg(approach, leg.course_deg)
    charted = (
        None if "course" in fix.leg_computed else fix.leg_course_deg,
        None if "distance" in fix.leg_computed else fix.leg_distance_nm,
    )
    shown = (coded.course_deg, coded.distance_nm) if coded else (None, None)
    flown = computed, leg.distance_nm
    grades = [*_leg_grades("", charted, flown), *_leg_grades("", shown, flown), *_copy_grades(charted, shown, flown)]
    texts = {"chart": _leg_text(*charted), "database": _leg_text(*shown)}
    what, place = f"leg from {start.name}", f"{course(computed, 0.1)}, {nautical_miles(leg.distance_nm, 0.01)}"
    differs = worst_grade(grades) in ("stop", "resolve")
    if not differs and (None in shown or (None in charted and fix.role not in MISSED)):
        lacking: Reason = "missing in the database part" if None in shown else "missing in the chart part"
        return not_compared("leg", what, lacking, **texts, computed=place, about=fix.name)
    return finding(
        "leg", worst_grade(grades), what, about=fix.name, **texts, computed=place,
        why="Course and length together show whether both ends are the charted fixes.",
        action="Compare the names and positions of both ends. Do not fly a leg you cannot explain.",
    )


def _no_leg(start: Fix, fix: Fix) -> Finding:
    """Two fixes in one place: one of the positions is wrong."""
    return finding(
        "leg", "stop", f"leg from {start.name}", about=fix.name, computed="both ends at one place",
        why="A leg must have a length.", action="Compare the positions of both ends with the chart.",
    )


Leg = tuple[float | None, float | None]  # course in deg and length in NM, None where it is not stated


def _leg_grades(copy: str, leg: Leg, other: Leg) -> "list[Grade]":
    """The grades of course and distance where both are stated; copy is "_copy" for two copies of one number."""
    grades: list[Grade] = []
    if leg[0] is not None and other[0] is not None:
        grades.append(grade_difference("leg_course" + copy, course_difference_deg(leg[0], other[0])))
    if leg[1] is not None and other[1] is not None:
        grades.append(grade_difference("leg_distance" + copy, leg[1] - other[1]))
    return grades


def _copy_grades(charted: Leg, shown: Leg, computed: Leg) -> "list[Grade]":
    """The grades of chart against database; both rounded from what positions give, one up and one down, agree."""
    if all(grade == "ok" for leg in (charted, shown) for grade in _leg_grades("_copy", leg, computed)):
        return ["ok"]
    return _leg_grades("_copy", charted, shown)


def _leg_text(course_deg: float | None, distance_nm: float | None) -> str:
    parts = ["" if course_deg is None else course_digits(course_deg) + "°",
             "" if distance_nm is None else f"{nautical_miles(distance_nm)}"]
    return ", ".join(part for part in parts if part)


def altitudes(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Altitude at each fix and how it binds, chart against database."""
    coded = held_fixes(approach)
    for fix in approach.chart.fixes:
        shown = coded.get(fix.name)
        shown_ft = shown.altitude_ft if shown else None
        if fix.altitude_ft is not None and shown is not None and shown_ft is not None:
            yield _altitude(fix, fix.altitude_ft, shown_ft)
            yield _binding(fix, shown.altitude_rule)
        elif fix.altitude_ft is not None or shown_ft is not None:
            yield one_sided(
                "fix-altitude", "altitude at the fix", chart=_bound(fix.altitude_rule, fix.altitude_ft),
                database=_bound(None, shown_ft), about=fix.name)


def _bound(rule: str | None, altitude_ft: float | None) -> str:
    return "" if altitude_ft is None else f"{rule or ''} {feet(altitude_ft)}".strip()


def _altitude(fix: Fix, charted_ft: float, shown_ft: float) -> Finding:
    grade = grade_of("altitude", charted_ft - shown_ft)
    return finding(
        "fix-altitude", grade, "altitude at the fix", about=fix.name,
        chart=_bound(fix.altitude_rule, charted_ft), database=feet(shown_ft),
        why="The charted altitude keeps you clear of what is below.",
        action="Do not fly it until the difference is settled; report it." if grade == "stop" else
        "Fly the charted altitude; correct it in the aircraft only as your procedures allow.",
    )


# What a restriction keeps the aircraft from: rules that differ in this may lead it under what is charted.
FLOORS = ("at", "at or above", "on path")


def _binding(fix: Fix, shown: str | None) -> Finding:
    """How the altitude binds; below a floor that the other side does not know is a stop."""
    key, what, charted = "altitude-rule", "altitude restriction", fix.altitude_rule
    if shown is None:
        return one_sided(key, what, chart=or_none(charted), about=fix.name)
    floor_lost = (charted in FLOORS) != (shown in FLOORS)
    return finding(
        key, "ok" if charted == shown else "stop" if floor_lost else "resolve", what, about=fix.name,
        chart=or_none(charted), database=shown, why="An aircraft that may be below, or must not be above, flies a "
        "different profile.", action="Fly the charted restriction; report the database.",
    )


def descending(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Altitudes fall, or stay, from the first fix to the threshold, and none of the final segment only caps."""
    fixes = [fix for fix in approach.chart.fixes if fix.role not in MISSED]
    stated = [(fix.name, fix.altitude_ft) for fix in fixes if fix.altitude_ft is not None]
    if not stated:
        yield not_compared("fix-descent", "altitudes fall toward the runway", "missing in the chart part")
        return
    parts = [
        *(f"{fix.name} lower than {after}" for fix in fixes for after, altitude_ft in _after(approach, fix)
          if fix.altitude_ft is not None and fix.altitude_ft < altitude_ft),
        *(f"{fix.name} without a floor" for fix in approach.final_fixes if fix.altitude_rule == "at or below"),
    ]
    yield finding(
        "fix-descent", "resolve" if parts else "ok", "altitudes fall toward the runway",
        chart=", ".join(f"{name} {feet(altitude_ft)}" for name, altitude_ft in stated),
        computed="; ".join(parts) or "none rises", why="An approach does not climb on the way in.",
        action="Read the altitudes from the chart again.",
    )


def _after(approach: Approach, fix: Fix) -> Iterator[tuple[str, float]]:
    """Name and altitude of the next fix inward that has one; other initial fixes are no next fix."""
    fixes = approach.chart.fixes
    for after in fixes[fixes.index(fix) + 1:]:
        if after.altitude_ft is not None and after.role not in (*MISSED, "IAF"):
            yield after.name, after.altitude_ft
            return


def on_path(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Altitudes of the PFAF and the step-downs after it against the straight and the barometric path."""
    chart = approach.chart
    if approach.identity.level_of_service != "LPV" or chart.glidepath_deg is None or chart.tch_ft is None:
        return
    for fix in approach.final_fixes:
        if fix.altitude_ft is not None and fix.role != "MAP" and fix.altitude_rule != "at or below":
            yield _path_finding(fix, fix.altitude_ft, *_paths_ft(approach, fix))
        elif fix.role == "PFAF":
            yield one_sided("path-altitude", "altitude on the path", database="a glidepath", about=fix.name)


def _paths_ft(approach: Approach, fix: Fix) -> tuple[float, float]:
    """Height of the straight and of the barometric path at a fix."""
    chart = approach.chart
    path = (
        max(foot(approach, fix)[0], 0.0), chart.threshold_elevation_ft, chart.tch_ft or 0.0,
        chart.glidepath_deg or 0.0,
    )
    return straight_path_height_ft(*path), barometric_path_height_ft(*path)


def _path_finding(
    fix: Fix, altitude_ft: float, straight_ft: float, barometric_ft: float, key: str = "path-altitude",
) -> Finding:
    excess_ft = straight_ft - barometric_ft
    why = "The SBAS glidepath is straight; the earth, and the altimeter with it, curve away below it."
    grade = _path_grade(fix, altitude_ft, straight_ft, barometric_ft)
    if grade != "ok":
        action = "Do not descend on the glidepath below this altitude until it is explained."
    else:
        grade = grade_difference("curvature", excess_ft)
        action = f"Expect the altimeter to read {feet(straight_ft)} here on the glidepath on a standard day."
    return finding(
        key, grade, "altitude on the path", about=fix.name, chart=f"{fix.altitude_rule} {feet(altitude_ft)}",
        computed=f"straight {feet(straight_ft)}, barometric {feet(barometric_ft)}", why=why, action=action,
    )


def _path_grade(fix: Fix, altitude_ft: float, straight_ft: float, barometric_ft: float) -> "Grade":
    """ "stop" or "resolve" if the altitude lies outside of what the two paths explain, else "ok"."""
    above_ft, below_ft = altitude_ft - straight_ft, barometric_ft - altitude_ft
    limit = "path_exact" if fix.altitude_rule == "on path" else "path_rounded"
    if fix.role == "step-down" and fix.altitude_rule == "at or above":
        below_ft = 0.0  # a path well above a step-down is what the step-down asks for
    grade = grade_difference(limit, max(above_ft, below_ft, 0.0))
    if grade == "stop" and above_ft < below_ft and fix.altitude_rule != "on path":
        grade = "resolve"  # the glidepath passes above the printed minimum
    return grade


def coded_path(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Altitudes coded as on the vertical path, the threshold's included, against both paths."""
    chart = approach.chart
    if chart.glidepath_deg is None or chart.tch_ft is None:
        return
    for fix in approach.final_fixes:
        if fix.path_altitude_ft is not None:
            coded = replace(fix, altitude_rule="on path")
            yield _path_finding(coded, fix.path_altitude_ft, *_paths_ft(approach, fix), "path-coded")


RULES = (order, sequence, on_course, legs, altitudes, descending, on_path, coded_path)
