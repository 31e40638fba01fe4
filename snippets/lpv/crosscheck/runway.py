"""Rules of the cross-check: the segment on the earth, against the runway as surveyed and against the geoid.

A chart and a segment that were both made from a wrong threshold agree with each other; the airport's own data, the
position of the last fix and a model of the geoid do not.
"""

import math
from collections.abc import Iterator

from lpv.approach.geometry import position_along
from lpv.approach.record import Approach
from lpv.approach.schema import Fix, Runway
from lpv.core.course import course_difference_deg
from lpv.core.errors import NotOnThisDevice
from lpv.core.findings import Finding, not_compared, worst_grade
from lpv.core.text import course, degrees, feet, metres, signed, tenths_of_feet
from lpv.core.units import M_PER_FT, M_PER_NM
from lpv.crosscheck.limits import grade_difference
from lpv.crosscheck.statements import finding, one_sided, unsurveyed
from lpv.facts import fact, remembered, value
from lpv.fas import segment
from lpv.geodesy.geoid import geoid_height_m

ASK_THRESHOLD = "Do not fly the glidepath; ask the data provider which threshold the segment was made for."
COMPARE_AIRPORT = "Compare with the airport data in force."


def ltp_offset_m(approach: Approach, latitude_deg: float, longitude_deg: float) -> tuple[float, float]:
    """How far the LTP lies behind a point along the final course, and to its right, in m; negative before, left."""
    before_nm, right_nm = position_along(approach.segment, latitude_deg, longitude_deg)
    return before_nm * M_PER_NM, -right_nm * M_PER_NM


def _position(key: str, what: str, approach: Approach, place: tuple[float, float], action: str, about: str) -> Finding:
    """Where the LTP lies against a point that should be the same."""
    along_m, across_m = ltp_offset_m(approach, *place)
    ends, side = "behind" if along_m > 0.0 else "before", "right" if across_m > 0.0 else "left"
    crossed_ft = approach.segment.tch_ft + along_m / M_PER_FT * math.tan(math.radians(approach.segment.gpa_deg))
    path = "" if approach.segment.is_lp else f"the glidepath crosses the threshold at {feet(crossed_ft)}"
    grades = [grade_difference("threshold_along", along_m), grade_difference("threshold_across", across_m)]
    return finding(
        key, worst_grade(grades), what, chart=about,
        database=f"LTP {metres(abs(along_m))} {ends}, {metres(abs(across_m))} {side}",
        computed=path, why="Guidance ends where the LTP is, not where the runway is.",
        action=action,
    )


def threshold_position(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The LTP against the surveyed threshold, along and across the final course."""
    what, surveyed = "LTP against the surveyed threshold", approach.runway
    if surveyed is None:
        yield unsurveyed("threshold-position", what, database="an LTP", action=COMPARE_AIRPORT)
        return
    place = surveyed.threshold_latitude_deg, surveyed.threshold_longitude_deg
    yield _position("threshold-position", what, approach, place, ASK_THRESHOLD, f"surveyed: {surveyed.source}")


def fix_at_threshold(approach: Approach) -> Fix | None:
    """The fix of the chart that lies at a threshold by its name ("RW09"), None if the approach ends elsewhere."""
    return next((fix for fix in approach.final_fixes if fix.name.startswith("RW")), None)


def map_position(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The fix at the threshold: named after the runway, and where the LTP is."""
    fix = fix_at_threshold(approach)
    if fix is None:
        return
    expected = f"RW{approach.identity.runway}"
    yield finding(
        "map-runway", "ok" if fix.name == expected else "stop", "name of the fix at the threshold", chart=fix.name,
        computed=expected, why="It is named after the runway of the approach.",
        action="Load the approach of the charted runway, and compare fix by fix.",
    )
    yield _position(
        "map-position", "LTP against the fix at the threshold", approach, (fix.latitude_deg, fix.longitude_deg),
        ASK_THRESHOLD, fix.name)


def bearing(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The true course of the segment against the bearing of the runway, and the greatest offset that is allowed."""
    key, what, surveyed = "runway-bearing", "final course against the runway", approach.runway
    true_deg = approach.true_course_deg
    if surveyed is None or surveyed.bearing_true_deg is None:
        yield unsurveyed(key, what, database=f"{course(true_deg, 0.1)} true", action=COMPARE_AIRPORT)
        return
    rule = approach.identity.rule
    most = fact("offset_highest_faa_deg" if rule == "FAA" else "offset_highest_icao_deg")
    most_deg, basis = float(most.value), f"{rule} rules{remembered(most.key)}"
    difference_deg = course_difference_deg(surveyed.bearing_true_deg, true_deg)
    yield finding(
        key, "stop" if abs(difference_deg) > most_deg else grade_difference("runway_bearing", difference_deg), what,
        chart=f"runway {course(surveyed.bearing_true_deg, 0.1)} true ({surveyed.source})",
        database=f"{course(true_deg, 0.1)} true",
        computed=f"{signed(difference_deg, 'deg', 0.1)}; "
                 f"at most {degrees(most_deg, 1)} for an offset approach by {basis}",
        why="A segment rotated about its threshold passes every comparison of heights and names.",
        action="Look for an offset final course in the chart's notes; without one do not fly it.",
    )


def _elevations(approach: Approach) -> list[tuple[str, str, float]]:
    """Elevations of the threshold beside the chart's: key of the finding, whose it is, ft."""
    surveyed, point = approach.runway, approach.held.point
    rows = []
    if surveyed is not None:
        rows.append(("runway-elevation", f"surveyed ({surveyed.source})", surveyed.threshold_elevation_ft))
    if point is not None and point.ltp_orthometric_height_m is not None:
        rows.append(("orthometric-height", "of the path point record", point.ltp_orthometric_height_m / M_PER_FT))
    return rows


def elevation(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Elevation of the threshold: the chart's against the survey and against the record's orthometric height."""
    charted_ft, what = approach.chart.threshold_elevation_ft, "elevation of the threshold"
    if approach.runway is None:
        yield unsurveyed("runway-elevation", what, chart=feet(charted_ft), action=COMPARE_AIRPORT)
    if approach.held.point is not None and approach.held.point.ltp_orthometric_height_m is None:
        yield one_sided("orthometric-height", what + " in the path point record", chart=feet(charted_ft))
    for key, whose, height_ft in _elevations(approach):
        yield finding(
            key, grade_difference("elevation", height_ft - charted_ft), f"{what}, {whose}", chart=feet(charted_ft),
            database=tenths_of_feet(height_ft), why="The glidepath, the minima and the altitudes depend on it.",
            action=COMPARE_AIRPORT,
        )


def threshold_height(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Height of the LTP above the ellipsoid, against the threshold elevation and the geoid."""
    coded, elevation_ft = approach.segment, approach.chart.threshold_elevation_ft
    try:
        geoid_m = geoid_height_m(coded.ltp_latitude_deg, coded.ltp_longitude_deg)
    except NotOnThisDevice as missing:
        yield not_compared(
            "threshold-height", "height of the threshold", "not stated", chart=feet(elevation_ft),
            database=f"{metres(coded.ltp_height_m)} above the ellipsoid", why=str(missing),
            action="Run lpv crosscheck on the file, on a computer.")
        return
    off_m = coded.ltp_height_m - geoid_m - elevation_ft * M_PER_FT
    words = f"{metres(abs(off_m))} ({feet(abs(off_m) / M_PER_FT)}) too {'high' if off_m > 0.0 else 'low'}"
    yield finding(
        "threshold-height", grade_difference("geoid", off_m), "height of the threshold",
        chart=feet(elevation_ft), database=f"{metres(coded.ltp_height_m)} above the ellipsoid",
        computed=f"geoid {metres(geoid_m)} by EGM96; {words}",
        why="The whole glidepath depends on this height: it is too high or too low by as much.",
        action="Do not fly the glidepath; ask the data provider for the height of the threshold. As much as the "
               "geoid's height is an elevation coded as a height above the ellipsoid.",
    )


def dimensions(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Length of the runway and displacement of its threshold, chart against survey."""
    surveyed, chart = approach.runway, approach.chart
    rows = (
        ("runway-length", "length of the runway", chart.runway_length_ft, "length_ft"),
        ("displaced-threshold", "displaced threshold", chart.displaced_threshold_ft or 0.0, "displaced_threshold_ft"),
    )
    for key, what, charted_ft, name in rows:
        if surveyed is None:
            yield unsurveyed(key, what, chart=feet(charted_ft), action=COMPARE_AIRPORT)
            continue
        surveyed_ft = getattr(surveyed, name)
        yield finding(
            key, grade_difference("runway_length", charted_ft - surveyed_ft), what, chart=feet(charted_ft),
            database=f"{feet(surveyed_ft)} ({surveyed.source})", why="FPAP and landing distance depend on it.",
            action=COMPARE_AIRPORT,
        )


def ahead_ft(approach: Approach) -> float:
    """Runway ahead of the landing threshold (ft), as surveyed, else as charted."""
    runway: Runway | None = approach.runway
    if runway is not None:
        return runway.length_ft - runway.displaced_threshold_ft
    return approach.chart.runway_length_ft - (approach.chart.displaced_threshold_ft or 0.0)


def fpap_places_ft(approach: Approach) -> list[float]:
    """Distances (ft) from the LTP at which the FPAP may lie, the farthest first.

    The runway's far end, by FAA rules 9023 ft at least; by other rules, which are read from published segments, either.
    """
    end_ft = ahead_ft(approach)
    least_ft = max(end_ft, value("fpap_distance_lowest_ft"))
    return [least_ft] if approach.identity.rule == "FAA" or least_ft == end_ft else [least_ft, end_ft]


def fpap(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The FPAP, which gives the course its direction and its width, against the places that a design gives it."""
    held_ft, placed_ft = segment.ltp_to_fpap_ft(approach.segment), fpap_places_ft(approach)
    beyond_m = min(((held_ft - place_ft) * M_PER_FT for place_ft in placed_ft), key=abs)
    grade = grade_difference("fpap", beyond_m)
    if grade == "stop" and approach.identity.rule != "FAA" and held_ft > ahead_ft(approach):
        grade = "resolve"  # farther out the course is narrower, and other States may have other places
    yield finding(
        "fpap", grade, "distance of the FPAP",
        chart=f"runway ahead of the threshold {feet(ahead_ft(approach))}", database=f"{feet(held_ft)} from the LTP",
        computed=f"{' or '.join(map(feet, placed_ft))} by {approach.identity.rule} rules: "
                 f"{metres(abs(beyond_m))} {'beyond' if beyond_m >= 0.0 else 'short'}",
        why="The course widens from a point beyond the FPAP: the nearer that point, the wider each dot.",
        action="Ask the data provider which runway the segment was made for.",
    )


def length_offset_m(fpap_distance_ft: float, runway_ahead_ft: float) -> float:
    """How far (m) the FPAP lies beyond the end of the runway that is ahead of the threshold; negative before it.

    The data block rounds it to 8 m.  Source: ARINC 424, field 5.259.
    """
    return (fpap_distance_ft - runway_ahead_ft) * M_PER_FT


def length(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The length offset of the segment against FPAP and runway."""
    held_m, fpap_ft = approach.segment.length_offset_m, segment.ltp_to_fpap_ft(approach.segment)
    computed_m = length_offset_m(fpap_ft, ahead_ft(approach))
    yield finding(
        "length-offset", grade_difference("length", held_m - computed_m), "length offset against the runway",
        chart=f"runway ahead of the threshold {feet(ahead_ft(approach))}",
        database=f"length offset {metres(held_m)}",
        computed=f"FPAP {feet(fpap_ft)} from the threshold, {metres(computed_m)} beyond the end of the runway",
        why="Another length means another threshold, or another runway.",
        action="Compare threshold and runway length with the airport data.",
    )


RULES = (
    threshold_position, map_position, bearing, elevation, threshold_height, dimensions, fpap, length,
)
