"""Rules of the cross-check: can the altitudes be flown, and do they leave what they must above the airport?

Chart and database take their altitudes from one publication, so that a slip made before it agrees with itself.  What a
descent allows, the minima and the airport do not take them from there.
"""

from collections.abc import Iterator
from itertools import pairwise

from lpv.approach.record import Approach
from lpv.approach.schema import Fix
from lpv.core.findings import Finding, not_compared
from lpv.core.text import feet, quantity
from lpv.crosscheck.fixes import MISSED, foot
from lpv.crosscheck.missed import READ_AGAIN, last_fix
from lpv.crosscheck.statements import finding, within
from lpv.decide.lines import WITHOUT_PATH
from lpv.facts import value
from lpv.geodesy import earth

SHORTEST_NM = 0.1  # two fixes in one place are found elsewhere


def steps(approach: Approach) -> list[tuple[str, float]]:
    """Each step from a fix with a least altitude to the next one, the last to the PFAF: names, and ft/NM lost."""
    inbound = approach.chart.fixes[:approach.chart.fixes.index(approach.pfaf) + 1]
    stated = [fix for fix in inbound if fix.altitude_ft is not None and fix.altitude_rule != "at or below"]
    return [(f"{before.name} to {after.name}", _gradient(before, after)) for before, after in pairwise(stated)
            if after.role != "IAF" and before.role not in MISSED]


def _gradient(before: Fix, after: Fix) -> float:
    """Feet lost per NM between two fixes with altitudes."""
    apart_nm = earth.distance_nm(before.latitude_deg, before.longitude_deg, after.latitude_deg, after.longitude_deg)
    return ((before.altitude_ft or 0.0) - (after.altitude_ft or 0.0)) / max(apart_nm, SHORTEST_NM)


def to_the_faf(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The descent from fix to fix before the final approach fix is one that a design allows."""
    most = value("descent_gradient_initial_ft_per_nm")
    if lost := steps(approach):
        names, steepest = max(lost, key=lambda step: step[1])
        yield finding(
            "fix-gradient", "ok" if steepest <= most else "resolve", "descent from fix to fix",
            chart=names, computed=f"{quantity(steepest, 'ft/NM')}; at most {quantity(most, 'ft/NM')}",
            why="An altitude that both sides copied wrong asks for a descent that nobody designs.",
            action="Read the altitudes of both fixes from the chart again.",
        )


def without_a_path(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Where no glidepath tells what the altitude of the final approach fix should be, the descent that it asks for."""
    chart, fix = approach.chart, approach.pfaf
    if approach.identity.level_of_service != "LP" or fix.altitude_ft is None:
        return
    least, most = value("descent_gradient_final_lowest_ft_per_nm"), value("descent_gradient_final_ft_per_nm")
    crossing_ft = chart.threshold_elevation_ft + approach.segment.tch_ft
    lost = (fix.altitude_ft - crossing_ft) / max(foot(approach, fix)[0], SHORTEST_NM)
    yield finding(
        "final-gradient", "ok" if within(lost, least, most) else "resolve", "descent from the FAF", about=fix.name,
        chart=feet(fix.altitude_ft), computed=f"{quantity(lost, 'ft/NM')} to {feet(crossing_ft)} at the threshold; "
        f"usually {quantity(least, 'ft/NM')} to {quantity(most, 'ft/NM')}",
        why="Without a glidepath the descent follows from this altitude alone.",
        action="Read the altitude from the chart again.",
    )


def under_the_minimum(approach: Approach, on: int | None) -> Iterator[Finding]:
    """A step-down stands above the minimum descent altitude to which it leads."""
    minima_ft = [minima.altitude_ft for minima in approach.chart.minima if minima.line in WITHOUT_PATH]
    for fix in approach.final_fixes:
        if fix.role == "step-down" and fix.altitude_ft is not None and minima_ft:
            yield finding(
                "step-down-minimum", "ok" if fix.altitude_ft >= min(minima_ft) else "resolve",
                "step-down against the minimum descent altitude", about=fix.name, chart=feet(fix.altitude_ft),
                computed=f"MDA {feet(min(minima_ft))}", why="A step-down under the minimum holds nothing up.",
                action="Read altitude and minimum from the chart again.",
            )


def missed_height(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The missed approach climbs: above the minima, and clear of the airport."""
    missed, end = approach.chart.missed, last_fix(approach)
    stated = [missed.altitude_ft] if missed is not None else []
    stated += [end.altitude_ft] if end is not None and end.altitude_ft is not None else []
    if not stated:
        return
    lowest_ft, chart = min(stated), approach.chart
    clear_ft = chart.airport_elevation_ft + value("missed_above_airport_ft")
    minimum_ft = max([chart.threshold_elevation_ft, *(minima.altitude_ft for minima in chart.minima
                                                      if minima.line != "circling")])
    yield finding(
        "missed-height", "stop" if lowest_ft <= minimum_ft else "resolve" if lowest_ft < clear_ft else "ok",
        "missed approach above minima and airport", chart=feet(lowest_ft),
        computed=f"over {feet(minimum_ft)}; usually at least {feet(clear_ft)}",
        why="It is climbed to from the minimum, and held.", action=READ_AGAIN,
    )


def over_the_ground(approach: Approach, on: int | None) -> Iterator[Finding]:
    """The altitudes that no computation holds: nothing here knows what lies below them."""
    with_path = approach.identity.level_of_service == "LPV"
    stated = [f"{fix.name} {feet(fix.altitude_ft)}" for fix in approach.chart.fixes
              if fix.altitude_ft is not None and not (with_path and fix.role == "PFAF")]
    if stated:
        yield not_compared(
            "ground", "altitudes against the ground", "no rule", chart=", ".join(stated),
            why="Chart and database come from one publication: an error in it is in both.",
            action="Read each of these from the chart in force, and look at what lies below.",
        )


RULES = (to_the_faf, without_a_path, under_the_minimum, missed_height, over_the_ground)
