"""A flown scenario over the distance to the threshold: what the deviations do, and the modes under them.

Two plots and three lanes share the distance.  Solid is what the flying side shows; dashed, where it is not the
same, is the deviation from the SBAS course and path.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from lpv.core.text import feet, nautical_miles, number
from lpv.modes.rules import Rules
from lpv.modes.state import FLYING
from lpv.simulate.records import Flight, Sample
from lpv.simulate.simulation import summary
from lpv_site.figures.figure import COLOURS, figure
from lpv_site.figures.mode_figures import Cell, box, lateral, source_on, spans, vertical

if TYPE_CHECKING:
    from matplotlib.axes import Axes

LANES = (("source", source_on(FLYING)), ("course", lateral), ("glidepath", vertical))
PLOT_IN, GAP_IN, LANE_IN, LETTER_IN = 1.0, 0.20, 0.27, 0.066
MARKS_IN = 0.15  # for the words of marks over the first plot, under its title
WIDTH_IN, MARGIN_IN = 3.08, 0.62
MAX_DOTS = 2.5
SAME_DOTS = 0.05
HEIGHT_IN = MARGIN_IN + MARKS_IN + 2 * (PLOT_IN + GAP_IN) + 3 * LANE_IN
MARKED = {"PFAF passed": "FAF", "minimum": "minimum", "go around": "go around"}
DATA_ROWS = 12
WORTH_TELLING_FT = 50.0  # of a course that was crossed: what no pointer shows


def flight_figure(flight: Flight, rules: Rules) -> str:
    """The figure of a flight, as `lpv_site.figures.figure.figure` gives it."""
    step = max(1, len(flight.samples) // DATA_ROWS)
    return figure(
        "flight-figure", lambda axes: draw_flight(axes, flight, rules), height_in=HEIGHT_IN,
        finding=in_words(flight),
        headers=["NM", "course, dots", "glidepath, dots", "altimeter, ft"],
        rows=[
            (number(sample.along_nm, 0.1), number(sample.course_dots, 0.1), number(sample.path_dots, 0.1),
             number(sample.indicated_ft))
            for sample in (*flight.samples[::step], flight.samples[-1])
        ],
    )


def in_words(flight: Flight) -> str:
    """What the figure shows, worked out from the flight."""
    totals = summary(flight)
    course, path = _captured(totals.course_captured), _captured(totals.path_captured)
    crossed = totals.overshoot_ft > WORTH_TELLING_FT
    through = f" It overshot the course by {feet(totals.overshoot_ft)}." if crossed else ""
    stable = f"not stabilized: {', '.join(totals.unstable)}" if totals.unstable else (
        "stabilized at every gate by what was shown" if flight.gates else "it reached no gate")
    return f"Course {course}; glidepath {path}.{through} {stable[0].upper()}{stable[1:]}. It ends: {flight.ending}."


def _captured(at: Sample | None) -> str:
    """Where something was captured, and on which source if it is not SBAS."""
    if at is None:
        return "never captured"
    on = "" if at.source == "SBAS" else f" on the {at.source}"
    return f"captured{on} {nautical_miles(at.along_nm)} before the threshold"


def draw_flight(axes: Axes, flight: Flight, rules: Rules) -> None:
    """Both plots, the lanes, and where PFAF, minimum and go-around are."""
    course, path, lanes = _panels(axes)
    _deviation(course, flight, lambda at: at.shown_course_dots, lambda at: at.course_dots, ("left", "right"))
    _deviation(path, flight, lambda at: at.shown_path_dots, lambda at: at.path_dots, ("below", "above"))
    course.set_title("course, dots", loc="left", fontsize=8, pad=3 + 72 * MARKS_IN)
    path.set_title("glidepath, dots", loc="left", fontsize=8, pad=3)
    _lanes(lanes, flight, rules)
    for moment in flight.moments:
        if moment.key in MARKED and moment.sample:
            _mark(course, path, moment.sample.along_nm, MARKED[moment.key])


def _panels(axes: Axes) -> list[Axes]:
    """Three axes in place of one, from the top down, over the same distances."""
    axes.set_axis_off()
    sheet, place = axes.figure, axes.get_position()
    panels, top = [], place.y1 - MARKS_IN / HEIGHT_IN
    for height_in in (PLOT_IN, PLOT_IN, 3 * LANE_IN):
        height = height_in / HEIGHT_IN
        panels.append(sheet.add_axes((place.x0, top - height, place.width, height)))
        top -= height + GAP_IN / HEIGHT_IN
    return panels


def _deviation(
    axes: Axes, flight: Flight, shown: Callable[[Sample], float | None], of_sbas: Callable[[Sample], float],
    sides: tuple[str, str],
) -> None:
    """What is shown, and the deviation from SBAS where that is another one; beyond full scale at the edge."""
    places = [sample.along_nm for sample in flight.samples]
    shown_dots = [shown(sample) for sample in flight.samples]
    apart = [
        _cut(of_sbas(sample)) if dots is None or abs(dots - of_sbas(sample)) > SAME_DOTS else None
        for sample, dots in zip(flight.samples, shown_dots, strict=True)
    ]
    axes.plot(places, _gaps(apart), "--", color=COLOURS["second"], linewidth=1.2)
    axes.plot(places, _gaps([None if dots is None else _cut(dots) for dots in shown_dots]), color=COLOURS["first"])
    axes.axhline(0.0, color=COLOURS["muted"], linewidth=0.8)
    axes.set(xlim=_extent(flight), ylim=(-MAX_DOTS - 0.2, MAX_DOTS + 0.2))
    axes.set_yticks([-2, 0, 2], [f"2 {sides[0]}", "0", f"2 {sides[1]}"], fontsize=8)
    axes.tick_params(axis="x", labelbottom=False)


def _extent(flight: Flight) -> tuple[float, float]:
    """The farthest and the nearest distance flown, NM before the threshold."""
    places = [sample.along_nm for sample in flight.samples]
    return max(places), min(places)


def _cut(dots: float) -> float:
    return max(-MAX_DOTS, min(MAX_DOTS, dots))


def _gaps(values: Sequence[float | None]) -> list[float]:
    """The same with what is missing as a gap in the line."""
    return [float("nan") if value is None else value for value in values]


def _lanes(axes: Axes, flight: Flight, rules: Rules) -> None:
    """One lane under the other, a box for each stretch; words where they fit."""
    in_flight = [sample for sample in flight.samples if sample.state.phase != "ground"]
    places = [sample.along_nm for sample in in_flight]
    farthest, nearest = _extent(flight)
    nm_per_in = (farthest - nearest) / WIDTH_IN
    for row, (_, cell_of) in enumerate(LANES):
        cells = [cell_of(sample.state, rules) for sample in in_flight]
        for first, end in spans(cells):
            across = places[first], places[min(end, len(places) - 1)]
            cell = cells[first]
            colour = box(axes, across, (row + 0.08, row + 0.92), cell)
            words = _fitting(cell, (across[0] - across[1]) / nm_per_in)
            axes.text(sum(across) / 2, row + 0.5, words, ha="center", va="center", fontsize=8, color=colour)
    axes.set(xlim=_extent(flight), ylim=(len(LANES), 0), xlabel="distance to the threshold, NM")
    axes.set_yticks([row + 0.5 for row in range(len(LANES))], [name for name, _ in LANES], fontsize=8)
    axes.grid(False)
    axes.tick_params(axis="y", length=0)


def _fitting(cell: Cell, width_in: float) -> str:
    """The words of a box as far as they fit into it; a loss at least as a sign."""
    words = cell.words.replace("\n", " ")
    sign = "✕ " if cell.look == "lost" else ""
    for text in (sign + words, sign + words.split(",")[0], sign):
        if len(text) * LETTER_IN < width_in:
            return text.strip()
    return ""


def _mark(course: Axes, path: Axes, along_nm: float, words: str) -> None:
    answer = words == "go around"
    colour = COLOURS["answer" if answer else "muted"]
    for axes in (course, path):
        axes.axvline(along_nm, color=colour, linewidth=1.4 if answer else 0.8, linestyle="-" if answer else ":")
    course.annotate(
        words, (along_nm, MAX_DOTS), xytext=(-2, -3 if answer else 4), textcoords="offset points", fontsize=8,
        ha="right", va="top" if answer else "bottom", color=colour, annotation_clip=False,
        bbox={"facecolor": COLOURS["paper"], "edgecolor": "none", "pad": 0.5},
    )
