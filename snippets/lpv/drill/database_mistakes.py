"""Mistakes in what the database holds, against the chart: cycle, course, angle, heights, fixes, legs."""

import datetime
from dataclasses import replace

from lpv.approach.database import Database, DatabaseFix, Held
from lpv.approach.schema import Fix
from lpv.core import airac
from lpv.crosscheck.final import variation_explains
from lpv.crosscheck.limits import grade_difference
from lpv.crosscheck.segment import angle_limits_deg
from lpv.drill.case import Case, Pick, with_setup
from lpv.drill.planted import Mistake, Planted, needs
from lpv.fas.block import FinalApproachSegment, encode, remainder_hex


def _held(case: Case, words: str, *expected: tuple[str, str], **changes: object) -> Planted:
    """The case with some of its database changed."""
    database = replace(case.approach.database, **changes)  # type: ignore[arg-type]
    return Planted(replace(case, approach=replace(case.approach, database=database)), words, frozenset(expected))


def cycle_before(case: Case, pick: Pick) -> Planted:
    """The database is still that of the previous cycle."""
    before = airac.cycle_at(airac.effective_ordinal(str(case.setup.cycle)) - 1)
    planted = _held(
        case, "The database is of the previous cycle, which has expired.",
        ("set-cycle", "stop"), ("cycle", "resolve"), ("cycle-in-force", "stop"), cycle=before.ident,
        path_point=_record_of(case.approach.database.path_point, before.ident),
        effective=datetime.date.fromordinal(before.effective), expires=datetime.date.fromordinal(before.expiry),
    )
    return replace(planted, case=with_setup(planted.case, cycle=before.ident))


def _record_of(record: Held | None, cycle: str) -> Held | None:
    """The path point record as last changed in a cycle."""
    return record and replace(record, point=record.point and replace(record.point, cycle=cycle))


def course_shown(case: Case, pick: Pick) -> Planted:
    """The aircraft shows a final course that is two degrees off the chart's."""
    off_deg, charted_deg = pick.choose("shown", (-2.0, 2.0)), case.approach.chart.course_deg
    if variation_explains(case.approach, (charted_deg + off_deg) % 360.0, case.setup.day):
        off_deg = -off_deg  # what the variation of the day explains is no mistake
    shown_deg = (charted_deg + off_deg) % 360.0
    return _held(case, "The final course that the aircraft shows is two degrees off the chart's.",
                 ("course-shown", "resolve"), course_deg=shown_deg)


def glidepath(case: Case, pick: Pick) -> Planted:
    """The database holds another glidepath angle than the chart prints."""
    charted_deg, more_deg = case.approach.chart.glidepath_deg, pick.choose("angle", (-0.1, 0.1))
    needs(charted_deg is not None, "the approach has no glidepath")
    segment = replace(case.approach.segment, gpa_deg=round((charted_deg or 0.0) + more_deg, 2))
    low_deg, high_deg, _ = angle_limits_deg(case.approach)
    outside = [] if low_deg <= segment.gpa_deg <= high_deg else [("glidepath-range", "resolve")]
    return _segment(case, segment, "glidepath angle", ("glidepath", grade_difference("glidepath", more_deg)), *outside)


def crossing_height(case: Case, pick: Pick) -> Planted:
    """The database holds another threshold crossing height than the chart prints."""
    charted_ft, more_ft = case.approach.chart.tch_ft, pick.choose("height", (-15.0, 15.0))
    needs(charted_ft is not None, "the approach has no glidepath")
    segment = replace(case.approach.segment, tch=(charted_ft or 0.0) + more_ft, tch_unit="ft")
    return _segment(case, segment, "threshold crossing height", ("tch", grade_difference("tch", more_ft)))


def _segment(case: Case, segment: FinalApproachSegment, what: str, *expected: tuple[str, str]) -> Planted:
    """The case with another segment, made whole: its remainder fits."""
    remainder = remainder_hex(encode(segment))
    block = Held("data block", segment, remainder, remainder)
    return _held(case, f"The database holds another {what} than the chart prints.", *expected,
                 block=block, path_point=None, fields=None)


def fix_altitude(case: Case, pick: Pick) -> Planted:
    """The altitude at a fix of the final segment is lower in the database than on the chart."""
    fixes = [fix for fix in case.approach.final_fixes if fix.altitude_ft is not None and _row(case, fix)]
    fix = pick.choose("fix", fixes)
    lower_ft = (fix.altitude_ft or 0.0) - pick.choose("lower", (100.0, 200.0))
    return _held(case, f"The altitude at {fix.name} is lower in the database than on the chart.",
                 (f"fix-altitude {fix.name}", "stop"),
                 fixes=_changed(case.approach.database, fix, altitude_ft=lower_ft))


def leg_course(case: Case, pick: Pick) -> Planted:
    """The course of a leg is off by ten degrees in the database."""
    fixes = [fix for fix in case.approach.chart.fixes if fix.leg_course_deg is not None and _row(case, fix)]
    fix = pick.choose("leg", fixes)
    wrong_deg = ((fix.leg_course_deg or 0.0) + pick.choose("turned", (-10.0, 10.0))) % 360.0
    return _held(case, f"The leg to {fix.name} has another course in the database than on the chart.",
                 (f"leg {fix.name}", "stop"), fixes=_changed(case.approach.database, fix, course_deg=wrong_deg))


def fix_missing(case: Case, pick: Pick) -> Planted:
    """The PFAF is not in the database; the leg after it begins at the fix before."""
    pfaf, database = case.approach.pfaf, case.approach.database
    names = [row.name for row in database.fixes]
    needs(pfaf.name in names[1:-1], "the database lists no fix before and after the FAF")
    at = names.index(pfaf.name)
    gone, after = database.fixes[at], database.fixes[at + 1]
    needs(None not in (gone.distance_nm, after.distance_nm), "the database lists no length of the legs")
    length_nm = round((gone.distance_nm or 0.0) + (after.distance_nm or 0.0), 1)
    rows = (*database.fixes[:at], replace(after, distance_nm=length_nm), *database.fixes[at + 2:])
    return _held(case, f"{pfaf.name}, the FAF, is missing in the aircraft.",
                 ("fix-sequence", "stop"), (f"leg {after.name}", "stop"), fixes=rows)


def _row(case: Case, fix: Fix) -> DatabaseFix | None:
    return next((row for row in case.approach.database.fixes if row.name == fix.name), None)


def _changed(database: Database, fix: Fix, **changes: float) -> tuple[DatabaseFix, ...]:
    """The fixes with one of them changed."""
    return tuple(replace(row, **changes) if row.name == fix.name else row for row in database.fixes)  # type: ignore[arg-type]


MISTAKES = {
    "cycle-before": Mistake(
        "the database of the previous cycle", False, cycle_before),
    "course-shown": Mistake(
        "a final course in the aircraft two degrees off the chart's", True, course_shown),
    "glidepath-angle": Mistake(
        "another glidepath angle in the database", True, glidepath),
    "crossing-height": Mistake(
        "another threshold crossing height in the database", True, crossing_height),
    "fix-altitude": Mistake(
        "a lower altitude at a fix in the database", True, fix_altitude),
    "fix-missing": Mistake(
        "the FAF missing in the database", True, fix_missing),
    "leg-course": Mistake(
        "another course of a leg in the database", True, leg_course),
}
