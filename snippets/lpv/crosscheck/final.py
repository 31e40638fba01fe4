"""Rules of the cross-check: the final segment's angle, crossing height, course and variation."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lpv.approach.record import Approach
from lpv.core import airac
from lpv.core.course import course_difference_deg, magnetic_deg
from lpv.core.errors import DomainError
from lpv.core.findings import Finding, not_compared
from lpv.core.text import course, degrees, signed, tenths_of_feet, variation
from lpv.crosscheck.limits import grade_difference
from lpv.crosscheck.statements import finding, one_sided
from lpv.decide.currency import currency
from lpv.decide.final_path import in_chart_reference_deg
from lpv.facts import value
from lpv.fas.identity import runway_course_difference_deg
from lpv.geodesy.magnetic import decimal_year, model_field, model_zone

if TYPE_CHECKING:
    from lpv.core.findings import Grade

# By how much the course shown may miss the course of the day and still be explained by the variation.
EXPLAINED_DEG = 1.0


def glidepath(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Glidepath angle, chart against segment."""
    charted, coded = approach.chart.glidepath_deg, approach.segment.gpa_deg
    if charted is not None:
        yield finding(
            "glidepath", grade_difference("glidepath", charted - coded), "glidepath angle", chart=degrees(charted),
            database=degrees(coded), why="Every altitude on final follows from it.",
            action="Do not fly the glidepath until chart and database agree.",
        )
    elif not approach.segment.is_lp:
        yield one_sided("glidepath", "glidepath angle", database=degrees(coded))


def crossing_height(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Threshold crossing height, chart against segment."""
    charted, coded = approach.chart.tch_ft, approach.segment.tch_ft
    if charted is not None:
        yield finding(
            "tch", grade_difference("tch", charted - coded), "threshold crossing height", chart=tenths_of_feet(charted),
            database=tenths_of_feet(coded), why="It sets how high the wheels cross the threshold.",
            action="Find out which one the glidepath was made with.",
        )
    elif not approach.segment.is_lp:
        yield one_sided("tch", "threshold crossing height", database=tenths_of_feet(coded))


def course_off_deg(approach: Approach) -> float:
    """The charted final course less the segment's, in the chart's reference, deg."""
    computed = in_chart_reference_deg(approach, approach.true_course_deg)
    return course_difference_deg(computed, approach.chart.course_deg)


def final_course(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Final course: the chart's against the segment's, turned by the variation of record."""
    chart, true_deg = approach.chart, approach.true_course_deg
    computed = in_chart_reference_deg(approach, true_deg)
    made_with = f", {variation(chart.variation_deg)} applied" if chart.course_reference == "magnetic" else ""
    if chart.course_computed:
        yield not_compared(
            "course", "final approach course", "missing in the chart part", database=f"{course(true_deg, 0.1)} true",
            computed=f"{course(computed, 0.1)} {chart.course_reference}{made_with}",
            why="The records code no course; the one in the file was computed from the segment itself.",
            action="Compare it with the chart, then remove course_computed from the file.",
        )
        return
    yield finding(
        "course", grade_difference("course", course_off_deg(approach)), "final approach course",
        chart=f"{course(chart.course_deg, 0.1)} {chart.course_reference}", database=f"{course(true_deg, 0.1)} true",
        computed=f"{course(computed, 0.1)} {chart.course_reference}{made_with}",
        why="The segment flies its true course whatever is set; a chart that disagrees shows another segment or "
            "another variation.",
        action="Compare true courses; look for a wrong sign or another year of the variation.",
    )


def course_shown(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Final course that the aircraft shows against the charted one, and whether the variation explains it."""
    charted, shown = approach.chart.course_deg, approach.database.course_deg
    key, what = "course-shown", "final approach course shown in the aircraft"
    if shown is None:
        yield one_sided(key, what, chart=course(charted, 0.1))
        return
    grade = grade_difference("course_shown", course_difference_deg(shown, charted))
    explained = grade == "resolve" and variation_explains(approach, shown, on)
    action = "Too much for variation: do not fly it until it is settled." if grade == "stop" else (
        "Brief the difference as variation: the cycle is in force and the true course agrees." if explained else
        "Compare true courses and the data cycle. Path identifiers that agree prove nothing: a resurveyed "
        "threshold keeps its identifier.")
    yield finding(
        key, "note" if explained else grade, what, chart=course(charted, 0.1), database=course(shown, 0.1),
        why="The aircraft may use another year's variation, or another segment.", action=action,
    )


def variation_explains(approach: Approach, shown_deg: float, on: int | None) -> bool:
    """Whether another year of the variation is all that sets the shown course apart from the charted one.

    Only with chart and database of the cycle in force, the true course as charted, and a shown course that the
    magnetic model of the day makes of it.
    """
    same_cycle = approach.database.cycle == approach.identity.cycle
    if not same_cycle or currency(approach.database.cycle, on).grade != "ok" or on is None:
        return False
    today = model_variation_deg(approach, on)
    if today is None or abs(course_off_deg(approach)) > value("limit_course_note_deg"):
        return False
    by_model_deg = magnetic_deg(approach.true_course_deg, today)
    return abs(course_difference_deg(by_model_deg, shown_deg)) <= EXPLAINED_DEG


def model_variation_deg(approach: Approach, day: int) -> float | None:
    """Variation (deg, east positive) at the LTP on a day by the magnetic model; None where it says nothing."""
    fas = approach.segment
    try:
        field = model_field(fas.ltp_latitude_deg, fas.ltp_longitude_deg, fas.ltp_height_m, decimal_year(day))
    except DomainError:
        return None
    return None if model_zone(field.horizontal_nt) == "blackout" else field.variation_deg


def record_variation(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Variation of record against the magnetic model on the day, or at the start of the chart's cycle."""
    chart = approach.chart
    what, why = "variation of record", "Headings flown differ from charted courses by the drift of the variation."
    record = variation(chart.variation_deg) + (f" of {chart.variation_year}" if chart.variation_year else "")
    day = airac.effective_ordinal(approach.identity.cycle) if on is None else on
    modelled = model_variation_deg(approach, day)
    if modelled is None:
        yield not_compared(
            "variation", what, "no rule", chart=record, computed=f"no model on {airac.iso(day)}",
            action="Compare the variation with another source.",
        )
        return
    today = course(magnetic_deg(approach.true_course_deg, modelled), 0.1)
    yield finding(
        "variation", grade_difference("variation", _turn(chart.variation_deg, modelled)), what, chart=record,
        computed=f"{variation(modelled)} by the model on {airac.iso(day)}; final course {today} magnetic",
        why=why, action="Set the charted course; expect the heading to differ by this much and by the drift.",
    )


def _turn(from_deg: float, to_deg: float) -> float:
    """The difference of two variations, -180 < difference <= 180."""
    return course_difference_deg(0.0, (to_deg - from_deg) % 360)


def variation_year(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Year of the variation of record: not in the future, and a year in which the variation was that."""
    chart, key, what = approach.chart, "variation-year", "year of the variation of record"
    if chart.variation_year is None:
        yield not_compared(key, what, "missing in the chart part", chart=variation(chart.variation_deg))
        return
    record = f"{variation(chart.variation_deg)} of {chart.variation_year}"
    cycle_year = airac.calendar_date(airac.effective_ordinal(approach.identity.cycle))[0]
    modelled = model_variation_deg(approach, airac.ordinal(chart.variation_year, 7, 1))
    grade: Grade
    if chart.variation_year > cycle_year:
        grade, computed = "resolve", f"later than the chart, of {cycle_year}"
    elif modelled is None:
        yield not_compared(
            key, what, "no rule", chart=record, computed="no model of that year here",
            action="Compare the year with the airport data.")
        return
    else:
        grade = grade_difference("variation_year", _turn(chart.variation_deg, modelled))
        computed = f"{variation(modelled)} by the model in the middle of that year"
    yield finding(
        key, grade, what, chart=record, computed=computed,
        why="The variation a course was made with decides what the compass shows on it.",
        action="Take variation and year from the chart or the airport data in force.",
    )


def runway_number(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Runway number against the final course that the segment gives."""
    number = approach.segment.runway_number
    computed = in_chart_reference_deg(approach, approach.true_course_deg)
    if not number:
        yield not_compared(
            "runway-course", "runway number against final course", "no rule", database="runway 00",
            computed=course(computed, 0.1), action="A segment without a runway: compare it with the chart.")
        return
    difference = runway_course_difference_deg(computed, number)
    yield finding(
        "runway-course", grade_difference("runway_course", difference), "runway number against final course",
        database=f"runway {number:02d}",
        computed=f"{course(computed, 0.1)}, {signed(difference, 'deg', 0.1)} from the number",
        why="A segment for the opposite direction or another runway shows up here first.",
        action="Compare runway, path identifier and course with the chart.",
    )


RULES = (
    glidepath, crossing_height, final_course, course_shown, record_variation, variation_year, runway_number,
)
