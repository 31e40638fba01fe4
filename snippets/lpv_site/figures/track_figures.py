"""A recorded approach: plan, profile, and both deviations over the distance with their limits and uncertainty."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from lpv.core.text import feet, nautical_miles, number
from lpv.core.units import FT_PER_NM
from lpv.track.ending import ending
from lpv.track.flown import Debrief, FlownApproach
from lpv.track.points import Point
from lpv_site.figures.figure import COLOURS, figure

if TYPE_CHECKING:
    from matplotlib.axes import Axes

MAX_DOTS = 2.5
PANEL_IN, GAP_IN, MARGIN_IN = 1.25, 0.24, 0.62
DEVIATIONS_IN = MARGIN_IN + 2 * PANEL_IN + GAP_IN
FARTHEST_NM, BEYOND_NM = 15.0, 1.0
PROFILE_OUTSIDE_NM = 3.0  # the PFAF
PLAN_IN = 2.2
MIN_WIDE_NM = 0.6
DATA_ROWS = 12
Value = Callable[[Point], float | None]


def profile_points(flown: FlownApproach) -> list[Point]:
    """The samples that the profile shows: from a little outside the PFAF to just beyond the threshold."""
    farthest_nm = flown.target.pfaf_nm + PROFILE_OUTSIDE_NM
    return [point for point in flown.points if -BEYOND_NM <= point.along_nm <= farthest_nm]


def plan_figure(debrief: Debrief) -> str:
    """Where it flew, seen from above, the final course to the right, the threshold at 0."""
    flown = debrief.flown
    points = [point for point in flown.points if point.along_nm <= FARTHEST_NM]
    return figure(
        "plan-figure", lambda axes: _plan(axes, flown, points), height_in=PLAN_IN, finding=plan_in_words(debrief),
        headers=["NM before", "NM right", "altimeter, ft", "kt over ground"],
        rows=[(number(point.along_nm, 0.1), number(point.across_ft / FT_PER_NM, 0.01), _cell(point.indicated_ft),
               _cell(point.ground_speed_kt)) for point in _few(points)],
    )


def plan_in_words(debrief: Debrief) -> str:
    """What the plan shows, worked out from the samples."""
    flown = debrief.flown
    first, at = flown.points[0], flown.established
    side = "in along the final course" if abs(first.course_dots) < 1.0 else (
        "from right of the final course" if first.across_ft > 0.0 else "from left of the final course")
    settled = "it never settled within one dot" if at is None else (
        f"within one dot of it from {nautical_miles(at.along_nm)} in")
    return f"Plan view: it came {side}, {settled}. The dashed lines are one dot."


def deviation_figure(debrief: Debrief) -> str:
    """Course and path deviation on the way in, each with what it is uncertain by."""
    flown = debrief.flown
    points = [point for point in flown.coming_in if 0.0 <= point.along_nm <= FARTHEST_NM]
    return figure(
        "deviation-figure", lambda axes: _deviations(axes, flown, points), height_in=DEVIATIONS_IN,
        finding=deviations_in_words(flown), headers=["NM", "course, dots", "glidepath, dots", "glidepath, ft"],
        rows=[(number(at.along_nm, 0.1), number(at.course_dots, 0.1), _cell(at.path_dots, 0.1), _cell(at.above_ft))
              for at in _few(points)],
    )


def deviations_in_words(flown: FlownApproach) -> str:
    """What the figure of deviations shows, worked out from the samples."""
    parts = []
    for what, at in (("the course", flown.established), ("the glidepath", flown.on_path)):
        parts.append(f"never settled within one dot of {what}" if at is None else
                     f"within one dot of {what} from {nautical_miles(at.along_nm)} in")
    text = f"{parts[0]}; {parts[1]}"
    shade = "Shaded: the uncertainty of the recording. Dotted: the limits."
    return f"{text[0].upper()}{text[1:]}. {shade}"


def profile_figure(debrief: Debrief) -> str:
    """True altitude against the path, and the altitudes of the chart."""
    flown = debrief.flown
    points = profile_points(flown)
    return figure(
        "profile-figure", lambda axes: _profile(axes, flown, points), finding=profile_in_words(debrief),
        headers=["NM", "true, ft", "altimeter, ft", "glidepath, ft"],
        rows=[(number(point.along_nm, 0.1), _cell(point.true_ft), _cell(point.indicated_ft), _cell(_path_ft(point)))
              for point in _few(points)],
    )


def profile_in_words(debrief: Debrief) -> str:
    """What the profile shows, worked out from the samples."""
    low = debrief.flown.lowest
    height = "" if low.true_ft is None else f" Lowest: {feet(low.true_ft)}, {nautical_miles(low.along_nm)} out."
    return f"True altitude (solid) against the glidepath (dashed).{height} {ending(debrief.flown)}"


def _few(points: Sequence[Point]) -> list[Point]:
    step = max(1, len(points) // DATA_ROWS)
    return [*points[::step], points[-1]] if points else []


def _cell(value: float | None, step: float = 1) -> str:
    return "" if value is None else number(value, step)


def _path_ft(point: Point) -> float | None:
    return None if point.true_ft is None or point.above_ft is None else point.true_ft - point.above_ft


def _deviations(axes: Axes, flown: FlownApproach, points: Sequence[Point]) -> None:
    axes.set_axis_off()
    sheet, place = axes.figure, axes.get_position()
    panels, top = [], place.y1
    for _ in range(2):
        panels.append(sheet.add_axes((place.x0, top - PANEL_IN / DEVIATIONS_IN, place.width, PANEL_IN / DEVIATIONS_IN)))
        top -= (PANEL_IN + GAP_IN) / DEVIATIONS_IN
    _panel(panels[0], points, lambda point: point.course_dots, flown.course_uncertainty_dots, ("left", "right"),
           flown.limit_dots)
    _panel(panels[1], points, lambda point: point.path_dots, flown.path_uncertainty_dots, ("below", "above"),
           flown.limit_dots)
    panels[0].set_title("course, dots", loc="left", fontsize=8, pad=3)
    panels[1].set_title("glidepath, dots", loc="left", fontsize=8, pad=3)
    panels[0].tick_params(axis="x", labelbottom=False)
    panels[1].set_xlabel("distance to the threshold, NM")
    for panel in panels:
        panel.set_xlim(*_extent(points))
    _marks(panels, flown)


def _panel(
    axes: Axes, points: Sequence[Point], of: Value, unsure: Callable[[Point], float], sides: tuple[str, str],
    limit: float,
) -> None:
    places = [point.along_nm for point in points]
    low, high = (
        _line(points, lambda point, side=side: _off(of(point), side * unsure(point)))  # type: ignore[misc]
        for side in (-1.0, 1.0)
    )
    axes.fill_between(places, low, high, color=COLOURS["shade"], linewidth=0)
    axes.plot(places, _line(points, of), color=COLOURS["first"])
    axes.axhline(0.0, color=COLOURS["muted"], linewidth=0.8)
    for dot in (-limit, limit):
        axes.axhline(dot, color=COLOURS["answer"], linewidth=0.8, linestyle=":")
    axes.set_ylim(-MAX_DOTS - 0.2, MAX_DOTS + 0.2)
    axes.set_yticks([-2, 0, 2], [f"2 {sides[0]}", "0", f"2 {sides[1]}"], fontsize=8)


def _off(value: float | None, offset: float) -> float | None:
    return None if value is None else value + offset


def _line(points: Sequence[Point], value_of: Value) -> list[float]:
    """Values for a line that is broken where nothing is known and between parts, cut at the edge."""
    values, part = [], points[0].part if points else 0
    for point in points:
        value = value_of(point)
        broken = value is None or point.part != part
        values.append(float("nan") if broken or value is None else max(-MAX_DOTS, min(MAX_DOTS, value)))
        part = point.part
    return values


def _extent(points: Sequence[Point]) -> tuple[float, float]:
    return (max(point.along_nm for point in points), min(point.along_nm for point in points)) if points else (1.0, 0.0)


def _marks(panels: Sequence[Axes], flown: FlownApproach) -> None:
    """Where the PFAF is, and where the minimum was passed."""
    farthest, nearest = panels[0].get_xlim()
    places = [("FAF", flown.target.pfaf_nm, "muted")]
    if flown.minimum is not None and not flown.minimum.gap_s:
        places.append(("minimum", flown.minimum.at.along_nm, "answer"))
    for words, along_nm, colour in places:
        if not nearest <= along_nm <= farthest:
            continue
        for panel in panels:
            panel.axvline(along_nm, color=COLOURS[colour], linewidth=1.2, linestyle="-" if colour == "answer" else ":")
        panels[0].annotate(
            words, (along_nm, MAX_DOTS), xytext=(-3, 5), textcoords="offset points", fontsize=8, ha="right",
            va="bottom", color=COLOURS[colour], annotation_clip=False)


def _profile(axes: Axes, flown: FlownApproach, points: Sequence[Point]) -> None:
    places, parts = [point.along_nm for point in points], [point.part for point in points]
    known = [point for point in points if point.true_ft is not None and point.along_nm >= 0.0]
    axes.plot([point.along_nm for point in known], [_path_ft(point) or 0.0 for point in known], "--",
              color=COLOURS["second"], linewidth=1.1)
    heights = [
        float("nan") if point.true_ft is None or (place and parts[place - 1] != point.part) else point.true_ft
        for place, point in enumerate(points)
    ]
    axes.plot(places, heights, color=COLOURS["first"])
    for fix in flown.target.fixes:
        if fix.altitude_ft is not None:
            at_nm = fix.along_nm
            axes.plot(at_nm, fix.altitude_ft, "_", color=COLOURS["ink"], markersize=12, markeredgewidth=2)
            axes.annotate(fix.name, (at_nm, fix.altitude_ft), xytext=(2, 4), textcoords="offset points", fontsize=8,
                          ha="left", va="bottom")
    if flown.minimum_ft is not None:
        axes.plot([1.5, 0.0], [flown.minimum_ft] * 2, color=COLOURS["answer"])
        axes.annotate("minimum", (1.5, flown.minimum_ft), xytext=(-3, 0), textcoords="offset points", fontsize=8,
                      ha="right", va="center", color=COLOURS["answer"])
    axes.set_title("altitude, ft", loc="left", fontsize=8, pad=3)
    axes.set(xlabel="distance to the threshold, NM", xlim=_extent(points))


def _plan(axes: Axes, flown: FlownApproach, points: Sequence[Point]) -> None:
    parts = [point.part for point in points]
    across_nm = [float("nan") if place and parts[place - 1] != point.part else point.across_ft / FT_PER_NM
                 for place, point in enumerate(points)]
    axes.plot([point.along_nm for point in points], across_nm, color=COLOURS["first"])
    farthest_nm = max([point.along_nm for point in points] + [1.0])
    axes.plot([farthest_nm, 0.0], [0.0, 0.0], color=COLOURS["muted"], linewidth=0.8)
    steps = [farthest_nm * step / 40.0 for step in range(41)]
    for side in (-0.5, 0.5):
        axes.plot(steps, [side * flown.target.course_ft(nm) / FT_PER_NM for nm in steps], "--", color=COLOURS["muted"],
                  linewidth=0.8)
    for fix in flown.target.fixes:
        if fix.along_nm <= farthest_nm and abs(fix.across_nm) <= 3.0:
            axes.plot(fix.along_nm, fix.across_nm, "+", color=COLOURS["ink"], markersize=7)
            axes.annotate(fix.name, (fix.along_nm, fix.across_nm), xytext=(2, 4), textcoords="offset points",
                          fontsize=8, ha="left", va="bottom")
    wide_nm = max([MIN_WIDE_NM] + [abs(point.across_ft) / FT_PER_NM for point in points])
    axes.set_title("NM left and right of the course", loc="left", fontsize=8, pad=3)
    axes.set(xlabel="distance to the threshold, NM", xlim=_extent(points), ylim=(1.1 * wide_nm, -1.1 * wide_nm))
