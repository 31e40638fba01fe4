"""Rules of the cross-check: lines of minima against level of service, elevations, lights and visibility."""

from collections.abc import Iterator
from itertools import combinations
from typing import TYPE_CHECKING

from lpv.approach.record import Approach
from lpv.approach.schema import Minima
from lpv.core.consequence import grade_of
from lpv.core.findings import Finding, not_compared
from lpv.core.text import feet, length, metres, nautical_miles
from lpv.core.units import FT_PER_NM, M_PER_FT
from lpv.crosscheck.limits import grade_difference
from lpv.crosscheck.runway import ahead_ft
from lpv.crosscheck.segment import CATEGORIES
from lpv.crosscheck.statements import finding, one_sided
from lpv.decide.lines import categories_beside, rows_of
from lpv.decide.minima import vertical_alert_limit_m
from lpv.decide.visibility import printed_visibility_ft
from lpv.decide.visual import slant_range_ft
from lpv.facts import Fact, fact, remembered, value, value_of
from lpv.path.profile import straight_path_distance_nm

if TYPE_CHECKING:
    from lpv.core.findings import Grade

READ_AGAIN = "Read the minima again; do not use these."
# (lower, higher): the first line is printed because it leads lower than the second.
ORDER = (("LPV", "LNAV/VNAV"), ("LPV", "LNAV"), ("LP", "LNAV"), ("LNAV", "circling"))


def lines(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The chart has the line of minima that the level of service promises, and no other of SBAS."""
    printed = [minima.line for minima in approach.chart.minima]
    level = approach.identity.level_of_service
    other = "LP" if level == "LPV" else "LPV"
    if not printed:
        yield one_sided("minima-level", "lines of minima", database=", ".join(approach.database.lines) or level)
        return
    yield finding(
        "minima-level", "stop" if other in printed else "ok" if level in printed else "resolve",
        "line of minima for the level of service", chart=", ".join(dict.fromkeys(printed)),
        computed=f"expected: {level}, not {other}",
        why="The line that may be flown follows from what the segment supports.",
        action="Do not use a line that the segment does not support; find out which is right.",
    )
    yield _authorised([line for line in dict.fromkeys(printed) if line != "circling"], approach.database.lines)


def _authorised(printed: list[str], authorized: tuple[str, ...]) -> Finding:
    """The lines that the chart prints against those that the records authorise."""
    key, what = "minima-lines", "lines of minima, chart against records"
    if not authorized:
        return one_sided(key, what, chart=", ".join(printed))
    return finding(
        key, "ok" if set(printed) == set(authorized) else "resolve", what, chart=", ".join(printed),
        database=", ".join(authorized), why="The aircraft offers what its records authorize.",
        action="Do not plan on a line that only one side has.",
    )


def categories(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Categories without a hole, the same under each straight-in line."""
    straight = [minima for minima in approach.chart.minima if minima.line != "circling"]
    by_line = {minima.line: "" for minima in straight}
    for minima in straight:
        by_line[minima.line] += minima.categories
    named = {line: "".join(sorted(letters)) for line, letters in by_line.items()}
    holes = [line for line, letters in named.items() if letters not in CATEGORIES or not letters]
    if named:
        alike = len(set(named.values())) == 1
        yield finding(
            "categories", "resolve" if holes else "ok" if alike else "note", "categories of the minima",
            chart="; ".join(f"{line} {letters or 'none'}" for line, letters in named.items()),
            computed="a category is left out" if holes else "the same on each line" if alike else "not the same",
            why="A category that is not listed has no minimum.", action="Read the categories from the chart again.",
        )


def alert_limit(approach: Approach, on: int | None) -> Iterator[Finding]:
    """A decision altitude under 250 ft above touchdown needs the tighter vertical alert limit."""
    val_m, below_ft = approach.segment.val_m, value("val_lpv200_below_hat_ft")
    for minima in rows_of(approach, "LPV"):
        height_ft = _height_ft(approach, minima)
        needed_m = vertical_alert_limit_m(max(height_ft, 0.0))
        yield finding(
            "val-minima", "ok" if 0.0 < val_m <= needed_m else "stop", "vertical alert limit for these minima",
            about=_about(approach, minima), chart=f"DA {feet(minima.altitude_ft)}, {feet(height_ft)} above touchdown",
            database=metres(val_m), computed=f"at most {metres(needed_m)}, and not 0",
            why=f"Under {feet(below_ft)} a vertical error of {metres(value('val_lpv_m'))} needs an earlier warning.",
            action="Do not use these minima; use a line that the alert limit supports.",
        )


def lowest_height(minima: Minima) -> Fact:
    """The lowest height of a minimum of this line and its categories, ft; circling by FAA rules only."""
    if minima.line == "LPV":
        return fact("lpv_lowest_hat_ft")
    if minima.line == "LNAV/VNAV":
        return fact("lnav_vnav_lowest_hat_ft")
    letter = max((letter for letter in minima.categories if letter in CATEGORIES), default="A").lower()
    return fact("mda_lowest_hat_ft") if minima.line != "circling" else fact(f"circling_lowest_{letter}_ft")


def lowest(approach: Approach, on: int | None) -> Iterator[Finding]:
    """No minimum lies under the lowest height that its line allows."""
    for minima in approach.chart.minima:
        height_ft, least = _height_ft(approach, minima), lowest_height(minima)
        least_ft = float(least.value)
        short_ft = max(least_ft - height_ft, 0.0)
        too_low = "stop" if minima.kind == "DA" and short_ft > 0.0 else grade_of("altitude", short_ft)
        yield finding(
            "lowest-minima", too_low, f"lowest {minima.kind} of the line", about=_about(approach, minima),
            chart=f"{feet(height_ft)} above {_elevations(approach, minima)[0][0]}",
            computed=f"at least {feet(least_ft)}{remembered(least.key)}",
            why="A lower line would not give the obstacle clearance it promises.", action=READ_AGAIN,
        )


def line_order(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Each line leads lower than those that promise less, in every category that both have."""
    for first, second in ORDER:
        pairs = [(low, high) for low in rows_of(approach, first) for high in rows_of(approach, second)
                 if set(low.categories) & set(high.categories)]
        if not pairs:
            continue
        low, high = max(pairs, key=lambda pair: pair[0].altitude_ft - pair[1].altitude_ft)
        yield finding(
            "minima-order", "ok" if low.altitude_ft <= high.altitude_ft else "resolve", "minima in order",
            about=f"{first} {second}", chart=f"{_line_text(low)}; {_line_text(high)}",
            computed=f"{first} not higher than {second}",
            why="A better level with a higher minimum: one of the two is wrong.",
            action=READ_AGAIN,
        )


def _line_text(minima: Minima) -> str:
    return f"{minima.line} {minima.categories} {feet(minima.altitude_ft)}"


def heights(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Minimum less the elevation it counts from gives the printed height."""
    for minima in approach.chart.minima:
        key, what, about = "hat", "height of the minimum", _about(approach, minima)
        if minima.hat_ft is None:
            charted = f"{minima.kind} {feet(minima.altitude_ft)}"
            yield not_compared(key, what, "missing in the chart part", chart=charted, about=about)
            continue
        name, elevation_ft = _counted_from(approach, minima, minima.hat_ft)
        computed_ft = minima.altitude_ft - elevation_ft
        yield finding(
            key, grade_difference("hat", computed_ft - minima.hat_ft), what, about=about,
            chart=f"{minima.kind} {feet(minima.altitude_ft)}, height {feet(minima.hat_ft)}",
            computed=f"{feet(computed_ft)} above {name} {feet(elevation_ft)}",
            why="You set one of these three numbers; a slip moves your decision.",
            action="Take all three from the chart in force.",
        )


def _counted_from(approach: Approach, minima: Minima, printed_ft: float) -> tuple[str, float]:
    """The elevation, of those that the rules allow, to which the printed height comes nearest."""
    return min(_elevations(approach, minima), key=lambda row: abs(minima.altitude_ft - row[1] - printed_ft))


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
    """Height of a minimum above its elevation, from the altitude and not from the printed height."""
    return minima.altitude_ft - _elevations(approach, minima)[0][1]


def decision(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Where the decision altitude lies, and what the printed visibility can show from there."""
    chart = approach.chart
    if chart.glidepath_deg is None or chart.tch_ft is None:
        return
    for minima in rows_of(approach, "LPV"):
        distance_nm = straight_path_distance_nm(
            minima.altitude_ft, chart.threshold_elevation_ft, chart.tch_ft, chart.glidepath_deg)
        height_ft = minima.altitude_ft - chart.threshold_elevation_ft
        if distance_nm <= 0.0:
            yield _beyond(approach, minima, height_ft)
        elif printed_visibility_ft(minima) is not None:
            yield _sight(approach, minima, distance_nm * FT_PER_NM, height_ft)


def _beyond(approach: Approach, minima: Minima, height_ft: float) -> Finding:
    return finding(
        "decision-visibility", "stop", "what you can see at the decision altitude", about=_about(approach, minima),
        chart=f"DA {feet(minima.altitude_ft)}", computed=f"{feet(height_ft)} above the threshold, reached behind it",
        why="You reach a decision altitude before the threshold.", action="Read minima and elevations again.",
    )


def _sight(approach: Approach, minima: Minima, distance_ft: float, height_ft: float) -> Finding:
    lights, seen_ft = approach.chart.lights, printed_visibility_ft(minima) or 0.0
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
        "decision-visibility", grade, "what you can see at the decision altitude", about=_about(approach, minima),
        chart=f"DA {feet(minima.altitude_ft)}, visibility {length(seen_ft, rule)}",
        computed=f"DA {nautical_miles(distance_ft / FT_PER_NM, 0.01)} before the threshold, "
                 f"{length(threshold_ft, rule)} to it in a line; {sight}",
        why="In the lowest visibility printed, this is all you see at the DA.",
        action="Brief what you expect to see first." if grade == "note" else "Read visibility and lights again.",
    )


def visibilities(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The visibility of each line: printed, in a unit of the chart's rules, and possible."""
    rule, high_ft = approach.identity.rule, value("visibility_highest_ft")
    for minima in approach.chart.minima:
        key, what, about = "visibility", "visibility of the line", _about(approach, minima)
        seen_ft = printed_visibility_ft(minima)
        if seen_ft is None:
            yield not_compared(key, what, "missing in the chart part", about=about)
            continue
        low_ft, basis = lowest_visibility_ft(rule, minima.line), remembered(lowest_visibility_key(rule, minima.line))
        metric = minima.visibility_m is not None or minima.rvr_m is not None
        odd_unit = metric == (rule == "FAA")
        possible = low_ft - 1.0 <= seen_ft <= high_ft
        yield finding(
            key, "ok" if possible and not odd_unit else "resolve", what, about=about, chart=length(seen_ft, rule),
            computed=f"usually {length(low_ft, rule)}{basis} to {length(high_ft, rule)}"
                     + (f"; printed in {'meters' if metric else 'feet or miles'}" if odd_unit else ""),
            why="It decides whether you may begin the approach, and what you see at its end.", action=READ_AGAIN,
        )


def lowest_visibility_ft(rule: str, line: str) -> float:
    """The least visibility (ft) that a line of minima would have by these rules."""
    key = lowest_visibility_key(rule, line)
    return value_of(key) / M_PER_FT if key.endswith("_m") else value_of(key)


def lowest_visibility_key(rule: str, line: str) -> str:
    """The fact that `lowest_visibility_ft` takes."""
    if line != "circling":
        return "visibility_lowest_ft"
    return "visibility_lowest_circling_ft" if rule == "FAA" else "visibility_lowest_circling_icao_m"


def _about(approach: Approach, minima: Minima) -> str:
    """The line, with its categories where the chart has several of the same name."""
    return f"{minima.line} {categories_beside(approach, minima)}".rstrip()


def elevations(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Threshold, touchdown zone and airport rise in that order, by no more than a runway's slope allows."""
    chart, slope = approach.chart, value("runway_slope_highest")
    zone_ft = min(value("touchdown_zone_ft"), ahead_ft(approach))
    rows = [("threshold", chart.threshold_elevation_ft, 0.0), ("touchdown zone", chart.tdze_ft, slope * zone_ft),
            ("airport", chart.airport_elevation_ft, slope * chart.runway_length_ft)]
    known = [(name, elevation_ft, rise_ft) for name, elevation_ft, rise_ft in rows if elevation_ft is not None]
    wrong = [
        f"{name} {'lower than' if elevation_ft < below_ft else 'over ' + feet(rise_ft) + ' above'} {below}"
        for (below, below_ft, _), (name, elevation_ft, rise_ft) in combinations(known, 2)
        if not 0.0 <= elevation_ft - below_ft <= rise_ft
    ]
    if chart.tdze_ft is None and approach.identity.rule == "FAA":
        yield not_compared("tdze", "touchdown zone elevation", "missing in the chart part")
    yield finding(
        "elevations", "resolve" if wrong else "ok", "elevations in order",
        chart=", ".join(f"{name} {feet(elevation_ft)}" for name, elevation_ft, _ in known),
        computed="; ".join(wrong) or "none lower than the one before it, none far above",
        why="The glidepath rests on the first, the minima on the second, circling on the third.",
        action="Take all three from the chart in force.",
    )


RULES = (elevations, lines, categories, alert_limit, lowest, line_order, heights, decision, visibilities)
