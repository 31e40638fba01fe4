"""The two drawings of a briefing: the profile and the plan, from an approach's own figures."""

import math

from matplotlib.axes import Axes

from lpv.approach import Approach
from lpv.approach_schema import Fix
from lpv.crosscheck_fixes import foot
from lpv.path import barometric_path_height_ft, straight_path_height_ft
from render.figure import COLOURS, figure
from render.text import number

FINAL_ROLES = ("PFAF", "step-down")
FARTHEST_PLAN_NM = 40.0


def path_arguments(approach: Approach) -> tuple[float, float, float]:
    """Threshold elevation (ft), TCH (ft) and glidepath angle (deg) as the chart prints them."""
    chart = approach.chart
    return chart.threshold_elevation_ft, chart.tch_ft or 0.0, chart.glidepath_deg or 0.0


def along_across_nm(approach: Approach) -> dict[str, tuple[float, float]]:
    """Each fix's distance before the threshold along the final course, and to its right (NM)."""
    return {fix.name: foot(approach, fix) for fix in approach.chart.fixes}


def pfaf_distance_nm(approach: Approach) -> float:
    """Distance of the PFAF before the threshold (NM)."""
    return along_across_nm(approach)[approach.pfaf.name][0]


def profile(approach: Approach) -> str:
    """Profile: the SBAS glidepath, the barometric path beside it, the charted altitudes at the fixes."""
    arguments = path_arguments(approach)
    farthest_nm = max(2, math.ceil(pfaf_distance_nm(approach) + 1.0))
    fixes = [fix for fix in approach.chart.fixes if fix.role in FINAL_ROLES and fix.altitude_ft is not None]
    places = along_across_nm(approach)
    rows = [
        (
            fix.name,
            f"{places[fix.name][0]:.1f} NM",
            f"{fix.altitude_ft:.0f} ft {fix.altitude_rule}",
            f"{straight_path_height_ft(places[fix.name][0], *arguments):.0f} ft",
        )
        for fix in fixes
    ]

    at_pfaf_nm = places[approach.pfaf.name][0]
    expected_ft = straight_path_height_ft(at_pfaf_nm, *arguments)

    def draw(axes: Axes) -> None:
        distances = [farthest_nm * step / 60 for step in range(61)]
        heights = [straight_path_height_ft(d, *arguments) for d in distances]
        axes.plot(distances, heights, color=COLOURS["first"])
        axes.plot(
            distances,
            [barometric_path_height_ft(d, *arguments) for d in distances],
            "--",
            color=COLOURS["second"],
            linewidth=1.1,
        )
        for fix in fixes:
            distance, altitude = places[fix.name][0], fix.altitude_ft
            axes.plot(distance, altitude, "_", color=COLOURS["ink"], markersize=14, markeredgewidth=2)
            axes.annotate(
                f"{fix.name}\n{altitude:.0f}",
                (distance, altitude),
                xytext=(0, -5),
                ha="center",
                va="top",
                textcoords="offset points",
                fontsize=8,
            )
        middle_nm = farthest_nm * 0.45
        axes.annotate(
            "SBAS glidepath", (middle_nm, straight_path_height_ft(middle_nm, *arguments)), xytext=(6, 5),
            textcoords="offset points", color=COLOURS["first"],
        )
        axes.plot(at_pfaf_nm, expected_ft, "o", color=COLOURS["answer"], markersize=5)
        axes.annotate(
            f"{expected_ft:.0f} ft", (at_pfaf_nm, expected_ft), xytext=(7, 4), textcoords="offset points",
            color=COLOURS["answer"], weight="bold",
        )
        axes.set(
            xlabel="distance to the threshold, NM",
            ylabel="altitude, ft",
            xlim=(farthest_nm, 0),
            ylim=(arguments[0] - 0.16 * (heights[-1] - arguments[0]), None),
        )

    return figure(
        "profile-figure",
        draw,
        finding=f"At {approach.pfaf.name}, {at_pfaf_nm:.1f} NM out, the SBAS glidepath is at {expected_ft:.0f} ft"
        f"{_charted(approach.pfaf)}. The dashed line is the barometric path. Altitudes of a standard day.",
        headers=["fix", "to threshold", "charted", "SBAS glidepath"],
        rows=rows,
        light=True,
    )


def _charted(fix: Fix) -> str:
    return "" if fix.altitude_ft is None else f", charted {fix.altitude_rule} {fix.altitude_ft:.0f} ft"


def legs(approach: Approach) -> list[tuple[str, str]]:
    """(from, to) of every leg before the threshold, by name."""
    pairs, before = [], ""
    for fix in approach.chart.fixes:
        begins = fix.role == "IAF" and fix.leg_course_deg is None
        start = fix.leg_from or ("" if begins else before)
        before = fix.name
        if start and fix.role not in ("missed", "missed hold"):
            pairs.append((start, fix.name))
    return pairs


def plan(approach: Approach) -> str:
    """Plan: the fixes seen from above, turned so that the final course runs up the page."""
    places = along_across_nm(approach)
    shown = [fix for fix in approach.chart.fixes if abs(places[fix.name][0]) < FARTHEST_PLAN_NM]
    spread = max([4.0, *(abs(places[fix.name][1]) * 1.6 for fix in shown)])

    def draw(axes: Axes) -> None:
        for start, end in legs(approach):
            ends = [places[start], places[end]]
            axes.plot([across for _, across in ends], [-along for along, _ in ends], color=COLOURS["first"])
        for fix in shown:
            along, across = places[fix.name]
            beside = abs(across) < 1.0
            threshold = fix.role == "MAP"
            colour = COLOURS["answer"] if threshold else COLOURS["ink"]
            mark = {"PFAF": "D", "MAP": "s"}.get(fix.role, "o")
            axes.plot(across, -along, mark, color=colour, markersize=5)
            axes.annotate(
                "threshold" if threshold else f"{fix.name} {fix.role}", (across, -along),
                xytext=(7, 0) if beside else (0, -6), ha="left" if beside else "center",
                va="center" if beside else "top", textcoords="offset points", fontsize=8, color=colour,
            )
        axes.set(xlabel="left or right of the course, NM", ylabel="along the course, NM", xlim=(-spread, spread))
        axes.margins(y=0.08)

    first = shown[0]
    along, across = places[first.name]
    side = "on the course" if abs(across) < 0.05 else f"{abs(across):.1f} NM to the {'right' if across > 0 else 'left'}"
    return figure(
        "plan-figure",
        draw,
        height_in=3.4,
        finding=f"{first.name} lies {along:.1f} NM before the threshold, {side}; the PFAF "
        f"{approach.pfaf.name} {pfaf_distance_nm(approach):.1f} NM. The final course runs up the page.",
        headers=["fix", "for", "before threshold", "right of course"],
        rows=[
            (fix.name, fix.role, f"{number(places[fix.name][0], 1)} NM", f"{number(places[fix.name][1], 1)} NM")
            for fix in shown
        ],
        light=True,
    )
