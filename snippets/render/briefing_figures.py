"""The two drawings of a briefing: the profile and the plan, from an approach's own figures."""

import math

from matplotlib.axes import Axes

from lpv import earth
from lpv.approach import Approach
from lpv.path import barometric_path_height_ft, straight_path_height_ft
from render.figure import COLOURS, figure
from render.text import number

FINAL_ROLES = ("PFAF", "step-down")


def has_glidepath(approach: Approach) -> bool:
    """Whether the approach has vertical guidance at all."""
    return approach.chart.glidepath_deg is not None


def path_arguments(approach: Approach) -> tuple[float, float, float]:
    """Threshold elevation (ft), TCH (ft) and glidepath angle (deg) as the chart prints them."""
    chart = approach.chart
    return chart.threshold_elevation_ft, chart.tch_ft or 0.0, chart.glidepath_deg or 0.0


def along_across_nm(approach: Approach) -> dict[str, tuple[float, float]]:
    """Each fix's distance before the threshold along the final course, and to its right (NM)."""
    segment = approach.segment
    positions = {}
    for fix in approach.chart.fixes:
        leg = earth.inverse(
            segment.ltp_latitude_deg,
            segment.ltp_longitude_deg,
            fix.latitude_deg,
            fix.longitude_deg,
        )
        turned = math.radians(leg.course_deg - approach.true_course_deg)
        positions[fix.name] = (-leg.distance_nm * math.cos(turned), leg.distance_nm * math.sin(turned))
    return positions


def pfaf_distance_nm(approach: Approach) -> float:
    """Distance of the PFAF before the threshold (NM)."""
    return along_across_nm(approach)[approach.pfaf.name][0]


def profile(approach: Approach) -> str:
    """Profile: the SBAS glidepath, the barometric path beside it, the charted altitudes at the fixes."""
    arguments = path_arguments(approach)
    farthest_nm = math.ceil(pfaf_distance_nm(approach) + 1.0)
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
    pfaf = next(row for row, fix in zip(rows, fixes, strict=True) if fix.role == "PFAF")

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
        axes.annotate(
            "SBAS glidepath",
            (farthest_nm * 0.42, straight_path_height_ft(farthest_nm * 0.42, *arguments)),
            xytext=(0, 9),
            textcoords="offset points",
            ha="center",
            color=COLOURS["first"],
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
        finding=f"At {pfaf[0]}, {pfaf[1]} out, the chart prints {pfaf[2]}; the SBAS glidepath is at {pfaf[3]}. "
        "The dashed line is the barometric path.",
        headers=["fix", "to threshold", "charted", "SBAS glidepath"],
        rows=rows,
    )


def plan(approach: Approach) -> str:
    """Plan: the fixes seen from above, turned so that the final course runs up the page."""
    places = along_across_nm(approach)
    shown = [fix for fix in approach.chart.fixes if abs(places[fix.name][0]) < 40 and fix.role != "MAP"]

    def draw(axes: Axes) -> None:
        before = [fix for fix in shown if fix.role not in ("missed", "missed hold")]
        axes.plot(
            [places[f.name][1] for f in before] + [0],
            [-places[f.name][0] for f in before] + [0],
            color=COLOURS["first"],
        )
        for fix in shown:
            along, across = places[fix.name]
            axes.plot(across, -along, "D" if fix.role == "PFAF" else "o", color=COLOURS["ink"], markersize=5)
            axes.annotate(
                f"{fix.name} {fix.role}",
                (across, -along),
                xytext=(7, 0),
                textcoords="offset points",
                va="center",
                fontsize=8,
            )
        axes.plot(0, 0, "s", color=COLOURS["answer"], markersize=7)
        axes.annotate(
            "threshold",
            (0, 0),
            xytext=(7, 0),
            textcoords="offset points",
            va="center",
            color=COLOURS["answer"],
        )
        spread = max([6.0, *(abs(places[fix.name][1]) * 1.5 for fix in shown)])
        axes.set(
            xlabel="left or right of the course, NM", ylabel="along the course, NM", xlim=(-spread, spread)
        )

    return figure(
        "plan-figure",
        draw,
        height_in=3.4,
        finding="The fixes seen from above; the final course runs up the page.",
        headers=["fix", "for", "before threshold", "right of course"],
        rows=[
            (fix.name, fix.role, f"{places[fix.name][0]:.1f} NM", f"{number(places[fix.name][1], 1)} NM")
            for fix in shown
        ],
    )
