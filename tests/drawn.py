"""What any drawing of matplotlib has to keep, whatever it shows: labels in sight and apart, marks on lines."""

import math
from collections.abc import Callable
from itertools import combinations, pairwise
from unittest.mock import patch

from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.text import Annotation, Text

from lpv_site.figures import figure

NEAR_PX, TOUCH_PX = 3.0, 2.0


def drawings(show: Callable[[], object]) -> list[Axes]:
    """The axes of each drawing that a page script makes."""
    made, to_svg = [], figure.to_svg
    with patch.object(figure, "to_svg", lambda sheet, name: made.append(sheet) or to_svg(sheet, name)):
        show()
    return [sheet.axes[0] for sheet in made]


def curves(axes: Axes) -> list[list[tuple[float, float]]]:
    """The points of each line and mark, in the order drawn."""
    return [[(float(x), float(y)) for x, y in zip(line.get_xdata(), line.get_ydata(), strict=True)]
            for line in axes.lines]


def labels(axes: Axes) -> dict[str, tuple[float, float]]:
    """What is written into a drawing, and the place that it stands at or belongs to."""
    return {label.get_text(): tuple(map(float, label.xy if isinstance(label, Annotation) else label.get_position()))
            for label in axes.texts}


def window(axes: Axes) -> tuple[float, float, float, float]:
    """Left, right, low and high end of the axes."""
    return (*map(float, axes.get_xlim()), *map(float, axes.get_ylim()))


def faults(sheet: Figure) -> list[str]:
    """What is wrong with a drawing before it becomes SVG."""
    axes, renderer = sheet.axes[0], FigureCanvasAgg(sheet).get_renderer()
    labels = [label for label in axes.texts if label.get_text().strip()]
    boxes = [(label, _box(label, renderer)) for label in labels]
    width, height = sheet.bbox.width, sheet.bbox.height
    problems = [f"out of sight: {label.get_text()}" for label, (left, low, right, high) in boxes
             if left < -1 or low < -1 or right > width + 1 or high > height + 1]
    problems += [f"over each other: {label.get_text()}, {other.get_text()}"
              for (label, first), (other, second) in combinations(boxes, 2) if _touch(first, second)]
    problems += [f"points out of the axes: {label.get_text()}" for label in labels
              if isinstance(label, Annotation) and label.xycoords == "data" and not _inside(axes, *label.xy)]
    return problems + _marks(axes)


def _box(label: Text, renderer: object) -> tuple[float, float, float, float]:
    if isinstance(label, Annotation):
        label.update_positions(renderer)
    return tuple(Text.get_window_extent(label, renderer).extents)


def _touch(box: tuple[float, ...], other: tuple[float, ...]) -> bool:
    across, up = (min(box[side + 2], other[side + 2]) - max(box[side], other[side]) for side in (0, 1))
    return across > TOUCH_PX and up > TOUCH_PX


def _inside(axes: Axes, x: float, y: float) -> bool:
    (left, right), (low, high) = sorted(axes.get_xlim()), sorted(axes.get_ylim())
    return left - 1e-9 <= x <= right + 1e-9 and low - 1e-9 <= y <= high + 1e-9


def _marks(axes: Axes) -> list[str]:
    """Marks that lie on no line of the drawing."""
    bare = ("None", "", None)
    curves = [_pixels(line) for line in axes.lines if line.get_linestyle() not in bare and len(line.get_xdata()) > 1]
    marks = [mark for line in axes.lines if line.get_linestyle() in bare and line.get_marker() not in bare
             for mark in _pixels(line)]
    ends = [ends for curve in curves for ends in pairwise(curve)]
    return [f"a mark beside every line: {mark}" for mark in marks
            if ends and min(_distance(mark, *pair) for pair in ends) > NEAR_PX]


def _pixels(line: Line2D) -> list[tuple[float, float]]:
    points = list(zip(line.get_xdata(), line.get_ydata(), strict=True))
    return [tuple(point) for point in line.get_transform().transform(points)]


def _distance(point: tuple[float, float], start: tuple[float, float], end: tuple[float, float]) -> float:
    """Pixels from a point to a stretch of line."""
    along = (end[0] - start[0], end[1] - start[1])
    length = along[0] ** 2 + along[1] ** 2
    part = ((point[0] - start[0]) * along[0] + (point[1] - start[1]) * along[1]) / length if length else 0.0
    part = max(0.0, min(1.0, part))
    return math.hypot(point[0] - start[0] - part * along[0], point[1] - start[1] - part * along[1])
