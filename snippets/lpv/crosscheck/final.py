"""Rules of the cross-check: the final segment's angle, heights, course and length."""

from collections.abc import Iterator

from lpv.approach.record import Approach
from lpv.core import airac
from lpv.core.course import course_difference_deg, magnetic_deg
from lpv.core.errors import DomainError
from lpv.core.findings import Finding, not_compared
from lpv.core.units import M_PER_FT
from lpv.crosscheck.limits import grade_difference
from lpv.crosscheck.statements import course, degrees, finding, ft, metres, tenths_ft, variation
from lpv.facts import value
from lpv.fas import segment
from lpv.fas.identity import runway_course_difference_deg
from lpv.geodesy.magnetic import decimal_year, model_field, model_zone


def in_chart_reference_deg(approach: Approach, true_deg: float) -> float:
    """A true course as the chart would print it: magnetic by its variation of record, or true."""
    if approach.chart.course_reference == "true":
        return true_deg
    return magnetic_deg(true_deg, approach.chart.variation_deg)


def glidepath(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Glidepath angle, chart against segment."""
    charted, held = approach.chart.glidepath_deg, approach.segment.gpa_deg
    if charted is not None:
        yield finding(
            "glidepath", grade_difference("glidepath", charted - held), "glidepath angle", chart=degrees(charted),
            database=degrees(held), why="Every altitude on final follows from it.",
            action="Do not fly the glidepath until chart and database agree.",
        )


def crossing_height(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Threshold crossing height, chart against segment."""
    charted, held = approach.chart.tch_ft, approach.segment.tch_ft
    if charted is not None:
        yield finding(
            "tch", grade_difference("tch", charted - held), "threshold crossing height", chart=tenths_ft(charted),
            database=tenths_ft(held), why="It decides how high the wheels cross the threshold.",
            action="Find out which one the path was made with.",
        )


def final_course(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Final course: chart against the segment turned by the variation of record, and against the display."""
    chart, true_deg = approach.chart, approach.true_course_deg
    computed = in_chart_reference_deg(approach, true_deg)
    made_with = f", {variation(chart.variation_deg)} applied" if chart.course_reference == "magnetic" else ""
    if chart.course_computed:
        yield not_compared(
            "course", "final approach course", "missing in the chart part", database=f"{course(true_deg)} true",
            computed=f"{course(computed)} {chart.course_reference}{made_with}",
            why="The records code no course; the one in the file was computed from the segment itself.",
            action="Compare it with the chart, then remove course_computed from the file.",
        )
        return
    yield finding(
        "course", grade_difference("course", course_difference_deg(computed, chart.course_deg)),
        "final approach course",
        chart=f"{course(chart.course_deg)} {chart.course_reference}", database=f"{course(true_deg)} true",
        computed=f"{course(computed)} {chart.course_reference}{made_with}",
        why="The segment flies its true course whatever is set; a chart that disagrees shows another segment or "
            "another variation.",
        action="Compare true courses; look for a wrong sign or another year of the variation.",
    )
    shown = approach.database.course_deg
    if shown is not None:
        grade = grade_difference("course", course_difference_deg(shown, chart.course_deg))
        yield finding(
            "course-shown", grade,
            "final approach course that the aircraft shows", chart=course(chart.course_deg), database=course(shown),
            why="The aircraft may use a variation of another year than the chart.",
            action="Too much for a variation: do not fly it until it is settled." if grade == "stop" else
            "Compare path identifiers; if they agree, brief the difference as variation.",
        )


def record_variation(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Variation of record against the magnetic model on the day, or at the start of the chart's cycle."""
    chart, held = approach.chart, approach.segment
    what, why = "variation of record", "Headings flown differ from charted courses by what the variation drifted."
    record = variation(chart.variation_deg) + (f" of {chart.variation_year}" if chart.variation_year else "")
    day = airac.effective_ordinal(approach.identity.cycle) if on is None else on
    try:
        field = model_field(held.ltp_latitude_deg, held.ltp_longitude_deg, held.ltp_height_m, decimal_year(day))
    except DomainError:
        field = None
    if field is None or model_zone(field.horizontal_nt) == "blackout":
        yield finding(
            "variation", "note", what, chart=record, computed=f"no model on {airac.iso(day)}", why=why,
            action="Compare the variation with another source.",
        )
        return
    today = course(magnetic_deg(approach.true_course_deg, field.variation_deg))
    yield finding(
        "variation",
        grade_difference("variation", course_difference_deg(0.0, (field.variation_deg - chart.variation_deg) % 360)),
        what, chart=record,
        computed=f"{variation(field.variation_deg)} by the model on {airac.iso(day)}; final course {today} magnetic",
        why=why, action="Set the charted course; expect the heading to differ by this much and by the drift.",
    )


def runway_number(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Runway number against the final course that the segment gives."""
    number = approach.segment.runway_number
    computed = in_chart_reference_deg(approach, approach.true_course_deg)
    if number:
        difference = runway_course_difference_deg(computed, number)
        yield finding(
            "runway-course", grade_difference("runway_course", difference), "runway number against final course",
            database=f"runway {number:02d}", computed=f"{course(computed)}, {difference + 0.0:+.1f}° from the number",
            why="A segment of the other direction or another runway shows here first.",
            action="Compare runway, path identifier and course with the chart.",
        )


def threshold_height(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Height of the LTP above the ellipsoid against the threshold elevation: is the geoid plausible?"""
    held_m, elevation_ft = approach.segment.ltp_height_m, approach.chart.threshold_elevation_ft
    geoid_m = held_m - elevation_ft * M_PER_FT
    low_m, high_m = value("geoid_lowest_m"), value("geoid_highest_m")
    yield finding(
        "threshold-height", "ok" if low_m <= geoid_m <= high_m else "stop", "height of the threshold",
        chart=ft(elevation_ft), database=f"{metres(held_m)} above the ellipsoid",
        computed=f"geoid {metres(geoid_m)}; plausible {metres(low_m)} to {metres(high_m)}",
        why="The whole glidepath stands on this height.",
        action="Do not fly the glidepath; ask the data provider for the height of the threshold.",
    )


def length_offset_m(fpap_distance_ft: float, runway_ahead_ft: float) -> float:
    """How far (m) the FPAP lies beyond the end of the runway that is ahead of the threshold; negative before it.

    The data block rounds it to 8 m.  Source: ARINC 424, field 5.259.
    """
    return (fpap_distance_ft - runway_ahead_ft) * M_PER_FT


def length(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The length offset of the segment against FPAP and printed runway."""
    chart, held_m, fpap_ft = approach.chart, approach.segment.length_offset_m, segment.ltp_to_fpap_ft(approach.segment)
    displaced_ft = chart.displaced_threshold_ft or 0.0
    ahead_ft = chart.runway_length_ft - displaced_ft
    computed_m = length_offset_m(fpap_ft, ahead_ft)
    yield finding(
        "length-offset", grade_difference("length", held_m - computed_m), "length offset against the runway",
        chart=f"runway {ft(chart.runway_length_ft)}, threshold displaced {ft(displaced_ft)}",
        database=f"length offset {metres(held_m)}",
        computed=f"FPAP {ft(fpap_ft)} from the threshold, {metres(computed_m)} beyond the end of the runway",
        why="Another length is another threshold, or another runway.",
        action="Compare threshold and runway length with the airport data.",
    )


RULES = (
    glidepath, crossing_height, final_course, record_variation, runway_number, threshold_height, length,
)
