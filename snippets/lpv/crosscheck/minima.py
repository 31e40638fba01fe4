"""Rules of the cross-check: lines of minima against level of service, elevations, lights and visibility."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lpv.approach.record import Approach
from lpv.approach.schema import Minima
from lpv.core.findings import Finding
from lpv.core.units import FT_PER_NM, FT_PER_SM, M_PER_FT
from lpv.crosscheck.limits import grade_difference
from lpv.crosscheck.statements import finding, ft, length, metres, nm
from lpv.decide.minima import vertical_alert_limit_m
from lpv.decide.visual import slant_range_ft
from lpv.facts import value
from lpv.path.profile import straight_path_distance_nm

if TYPE_CHECKING:
    from lpv.core.findings import Grade


def lines(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The chart has the line of minima that the level of service promises, and no other of SBAS."""
    printed = [minima.line for minima in approach.chart.minima]
    level = approach.identity.level_of_service
    other = "LP" if level == "LPV" else "LPV"
    if printed:
        yield finding(
            "minima-level", "stop" if other in printed else "ok" if level in printed else "resolve",
            "line of minima for the level of service", chart=", ".join(dict.fromkeys(printed)),
            computed=f"expected: {level}, not {other}",
            why="The line that may be flown follows from what the segment supports.",
            action="Do not use a line that the segment does not support; find out which is right.",
        )


def alert_limit(approach: Approach, on: int | None) -> Iterator[Finding]:
    """A decision altitude under 250 ft above touchdown needs the tighter vertical alert limit."""
    val_m, below_ft = approach.segment.val_m, value("val_lpv200_below_hat_ft")
    for minima in _lpv(approach):
        height_ft = _height_ft(approach, minima)
        needed_m = vertical_alert_limit_m(max(height_ft, 0.0))
        yield finding(
            "val-minima", "ok" if 0.0 < val_m <= needed_m else "stop", "vertical alert limit for these minima",
            about=_about(approach, minima), chart=f"DA {ft(minima.altitude_ft)}, {ft(height_ft)} above touchdown",
            database=metres(val_m), computed=f"at most {metres(needed_m)}, and not 0",
            why=f"Under {ft(below_ft)} a vertical error of {metres(value('val_lpv_m'))} is too much to be told late.",
            action="Do not use these minima; use a line that the alert limit supports.",
        )


def lowest(approach: Approach, on: int | None) -> Iterator[Finding]:
    """No LPV decision altitude lies under the lowest published height."""
    least_ft = value("lpv_lowest_hat_ft")
    for minima in _lpv(approach):
        height_ft = _height_ft(approach, minima)
        yield finding(
            "lowest-minima", "ok" if height_ft >= least_ft else "stop", "lowest decision altitude",
            about=_about(approach, minima), chart=f"{ft(height_ft)} above touchdown",
            computed=f"at least {ft(least_ft)}", why="No LPV goes lower.",
            action="Read the minima again; do not use them as they stand.",
        )


def heights(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Minimum less the elevation it counts from gives the printed height."""
    for minima in approach.chart.minima:
        if minima.hat_ft is None:
            continue
        name, elevation_ft = min(
            _elevations(approach, minima), key=lambda row: abs(minima.altitude_ft - row[1] - (minima.hat_ft or 0.0)))
        computed_ft = minima.altitude_ft - elevation_ft
        yield finding(
            "hat", grade_difference("hat", computed_ft - minima.hat_ft), "height of the minimum",
            about=_about(approach, minima), chart=f"{minima.kind} {ft(minima.altitude_ft)}, height {ft(minima.hat_ft)}",
            computed=f"{ft(computed_ft)} above {name} {ft(elevation_ft)}",
            why="One of the three numbers is set in the aircraft; a slip in it moves the decision.",
            action="Take all three from the chart in force.",
        )


def _elevations(approach: Approach, minima: Minima) -> list[tuple[str, float]]:
    """What the height of a minimum may count from: by FAA rules one elevation, elsewhere one of two."""
    chart = approach.chart
    airport = "airport elevation", chart.airport_elevation_ft
    if minima.line == "circling":
        return [airport]
    if approach.identity.rule == "FAA" and chart.tdze_ft is not None:
        return [("touchdown zone elevation", chart.tdze_ft)]
    return [("threshold elevation", chart.threshold_elevation_ft), airport]


def _height_ft(approach: Approach, minima: Minima) -> float:
    """Height of a straight-in minimum above its elevation, from the altitude and not from the printed height."""
    return minima.altitude_ft - _elevations(approach, minima)[0][1]


def decision(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Where the decision altitude lies, and what the printed visibility can show from there."""
    chart = approach.chart
    if chart.glidepath_deg is None or chart.tch_ft is None:
        return
    for minima in _lpv(approach):
        distance_nm = straight_path_distance_nm(
            minima.altitude_ft, chart.threshold_elevation_ft, chart.tch_ft, chart.glidepath_deg)
        height_ft = minima.altitude_ft - chart.threshold_elevation_ft
        if distance_nm <= 0.0:
            yield _beyond(approach, minima, height_ft)
        elif visibility_ft(minima) is not None:
            yield _sight(approach, minima, distance_nm * FT_PER_NM, height_ft)


def _beyond(approach: Approach, minima: Minima, height_ft: float) -> Finding:
    return finding(
        "decision-visibility", "stop", "what can be seen at the decision altitude", about=_about(approach, minima),
        chart=f"DA {ft(minima.altitude_ft)}", computed=f"{ft(height_ft)} above the threshold, reached behind it",
        why="A decision altitude lies before the threshold.", action="Read minima and elevations again.",
    )


def _sight(approach: Approach, minima: Minima, distance_ft: float, height_ft: float) -> Finding:
    lights, seen_ft = approach.chart.lights, visibility_ft(minima) or 0.0
    threshold_ft, rule = slant_range_ft(distance_ft, height_ft), approach.identity.rule
    to_lights_ft = slant_range_ft(max(distance_ft - (lights.length_ft if lights else 0.0), 0.0), height_ft)
    grade: Grade
    if seen_ft >= threshold_ft:
        grade, sight = "ok", "the threshold is within it"
    elif lights and seen_ft >= to_lights_ft:
        grade, sight = "note", f"it ends {length(threshold_ft - seen_ft, rule)} short of the threshold; lights "\
                               f"begin {length(to_lights_ft, rule)} ahead"
    else:
        grade, sight = "resolve", "neither threshold nor approach lights are within it"
    return finding(
        "decision-visibility", grade, "what can be seen at the decision altitude", about=_about(approach, minima),
        chart=f"DA {ft(minima.altitude_ft)}, visibility {length(seen_ft, rule)}",
        computed=f"DA {nm(distance_ft / FT_PER_NM)} before the threshold, {length(threshold_ft, rule)} to it in a "
                 f"line; {sight}",
        why="With the printed visibility and no more, this is what there is to decide on.",
        action="Brief what you expect to see first." if grade == "note" else "Read visibility and lights again.",
    )


def visibility_ft(minima: Minima) -> float | None:
    """The printed visibility or runway visual range in ft, None if the chart prints none."""
    per_unit = (
        (minima.visibility_sm, FT_PER_SM), (minima.visibility_m, 1.0 / M_PER_FT),
        (minima.rvr_ft, 1.0), (minima.rvr_m, 1.0 / M_PER_FT),
    )
    return next((given * factor for given, factor in per_unit if given is not None), None)


def _lpv(approach: Approach) -> list[Minima]:
    return [minima for minima in approach.chart.minima if minima.line == "LPV"]


def _about(approach: Approach, minima: Minima) -> str:
    """The line, with its categories where the chart has several of the same name."""
    several = [other.line for other in approach.chart.minima].count(minima.line) > 1
    return f"{minima.line} {minima.categories}" if several else minima.line


def elevations(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Threshold, touchdown zone and airport rise in that order: each is the highest point of a larger part."""
    chart = approach.chart
    rows = [("threshold", chart.threshold_elevation_ft), ("touchdown zone", chart.tdze_ft),
            ("airport", chart.airport_elevation_ft)]
    known = [(name, elevation_ft) for name, elevation_ft in rows if elevation_ft is not None]
    heights_ft = [elevation_ft for _, elevation_ft in known]
    yield finding(
        "elevations", "ok" if heights_ft == sorted(heights_ft) else "resolve", "elevations in order",
        chart=", ".join(f"{name} {ft(elevation_ft)}" for name, elevation_ft in known),
        computed="none lower than the one before it" if heights_ft == sorted(heights_ft) else "one is out of order",
        why="The path stands on the first, the minima on the second, circling on the third.",
        action="Take all three from the chart in force.",
    )


RULES = (elevations, lines, alert_limit, lowest, heights, decision)
