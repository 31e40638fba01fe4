"""Plain drawings written as SVG at once: lines, marks and words between two axes.

For the figures that every approach has.  matplotlib takes fifty times as long over the same picture, which counts
where there are thousands of them; what stands on one page only is drawn by it (see `lpv_site.figures.figure.figure`).
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from lpv.core.errors import DomainError
from lpv.drawing import clip, labels
from lpv_site.figures.figure import MARGINS_IN, POINTS_PER_IN, WIDTH_IN
from lpv_site.figures.ticks import MOST, ticks, words
from lpv_site.text.text import escape

Point = tuple[float, float]
LEFT, RIGHT, BOTTOM, TOP = (margin * POINTS_PER_IN for margin in MARGINS_IN)
WIDTH = WIDTH_IN * POINTS_PER_IN
FONT = 9.0
SMALL = 8.0
TICK = 3.5
AWAY = 7.0  # from the axes to the words at the ticks
LABEL = (18.5, 35.0)  # from the axes to the label below them and beside them
# From a place to the baseline of words that hang from it, or are centred on it, in parts of their size; between lines.
HANGING, CENTRED, LEADING = 0.76, 0.36, 1.2
UNITS = 12  # of `lpv.drawing` in a point: its words are as large on a phone as these
MARKED = (80, 50)  # half of the room that a mark takes, in these units
DIGIT, BETWEEN = 0.56, 1  # width of a digit, in sizes of its font; digits that would fit between two words
SHAPES = {
    "circle": "M-3 0a3 3 0 1 0 6 0a3 3 0 1 0-6 0z",
    "square": "M-3-3h6v6h-6z",
    "diamond": "M0-4l4 4l-4 4l-4-4z",
    "bar": "M-7-1h14v2h-14z",
}


@dataclass(frozen=True)
class Frame:
    """A sheet with two axes: its name on the page, its height, and what the axes span.

    x, y: value at the left and right end, at the lower and upper end; the ends may be the other way round
    """

    name: str
    x: Point
    y: Point
    height_in: float = 2.8

    @property
    def right(self) -> float:
        return WIDTH - RIGHT

    @property
    def bottom(self) -> float:
        return self.height_in * POINTS_PER_IN - BOTTOM

    def across(self, x: float) -> float:
        """Where a value of x lies on the sheet, in points from its left edge."""
        return LEFT + (x - self.x[0]) / (self.x[1] - self.x[0]) * (self.right - LEFT)

    def down(self, y: float) -> float:
        """Where a value of y lies on the sheet, in points from its upper edge."""
        return self.bottom - (y - self.y[0]) / (self.y[1] - self.y[0]) * (self.bottom - TOP)


def line(frame: Frame, points: Iterable[Point], role: str, wide: float = 1.8, dashed: bool = False) -> str:
    """A line through points, in the colour of a role."""
    path = "L".join(f"{_short(frame.across(x))} {_short(frame.down(y))}" for x, y in points)
    dashes = ' stroke-dasharray="4 1.8"' if dashed else ""
    return f'<path d="M{path}" fill="none" stroke="{_colour(role)}" stroke-width="{wide:g}"{dashes}/>'


def mark(frame: Frame, at: Point, shape: str, role: str) -> str:
    """One of SHAPES at a point."""
    place = f"{_short(frame.across(at[0]))} {_short(frame.down(at[1]))}"
    return f'<path transform="translate({place})" d="{SHAPES[shape]}" fill="{_colour(role)}"/>'


@dataclass(frozen=True)
class Words:
    """What is to stand beside a point, in lines; sides: where it best stands (`lpv.drawing.labels.SIDES`)."""

    at: Point
    text: str
    role: str = "ink"
    sides: tuple[str, ...] = ()
    size: float = SMALL
    bold: bool = False


def labelled(
    frame: Frame, wanted: Sequence[Words], marks: Sequence[Point] = (), lines: Sequence[Sequence[Point]] = (),
) -> list[str]:
    """Words beside their points, the first ones first: clear of each other, of marks and of the edges; of lines rather.

    marks: points that have one of SHAPES;  lines: through points, as they are drawn
    """
    area = int(LEFT * UNITS), 0, int(WIDTH * UNITS), int(frame.bottom * UNITS)
    (wide, high), places = MARKED, [_units(frame, at) for at in marks]
    taken = [(x - wide, y - high, x + wide, y + high) for x, y in places]
    crossed = labels.Crossed(area[2], area[3])
    for points in lines:
        for part in clip.lines([_units(frame, point) for point in points], area):
            crossed.line(part)
    made = []
    for text_at in wanted:
        label = labels.Label(text_at.text, _units(frame, text_at.at), text_at.role, text_at.sides,
                             text_at.bold, int(text_at.size * UNITS))
        place = labels.placed(label, area, taken, crossed)
        if place is None:
            raise DomainError(f"{frame.name}: found no room for {text_at.text!r}; allowed: fewer words in one drawing.")
        taken.append(place.box)
        if place.leader:
            x, y, to_x, to_y = place.leader
            made.append(_stroke("muted", 0.6, [(x / UNITS, y / UNITS, to_x / UNITS, to_y / UNITS)]))
        weight = ' font-weight="700"' if text_at.bold else ""
        made += [_text(place.x / UNITS, place.first_y / UNITS + row * LEADING * text_at.size, text, text_at.role,
                       place.anchor or "start", text_at.size, weight) for row, text in enumerate(label.rows)]
    return made


def _units(frame: Frame, at: Point) -> tuple[int, int]:
    """A place of the sheet as labels count: in whole parts of a point."""
    return int(frame.across(at[0]) * UNITS), int(frame.down(at[1]) * UNITS)


def _text(x: float, y: float, text: str, role: str, anchor: str, size: float, more: str = "") -> str:
    place = f'x="{_short(x)}" y="{_short(y)}"'
    look = f'text-anchor="{anchor}" font-size="{size:g}" fill="{_colour(role)}"{more}'
    return f"<text {place} {look}>{escape(text)}</text>"


def sheet(frame: Frame, labels: tuple[str, str], inside: Sequence[str], beside: Sequence[str]) -> str:
    """The drawing: axes with their labels, what is cut off at their edges, and words over it."""
    box = f"{_short(LEFT)} {_short(TOP)} {_short(frame.right - LEFT)} {_short(frame.bottom - TOP)}".split()
    clip = dict(zip(("x", "y", "width", "height"), box, strict=True))
    rect = " ".join(f'{key}="{value}"' for key, value in clip.items())
    return (
        f'<svg viewBox="0 0 {WIDTH:g} {frame.height_in * POINTS_PER_IN:g}" xmlns="http://www.w3.org/2000/svg" '
        f'stroke-linejoin="round"><clipPath id="{frame.name}-box"><rect {rect}/></clipPath>{_axes(frame, labels)}'
        f'<g clip-path="url(#{frame.name}-box)">{"".join(inside)}</g>{"".join(beside)}</svg>'
    )


def _axes(frame: Frame, labels: tuple[str, str]) -> str:
    """Grid, ticks, the two lines, words at the ticks, labels."""
    left, right, top, bottom = LEFT, frame.right, TOP, frame.bottom
    xs = beside_each_other(min(frame.x), max(frame.x), right - left)
    ys = ticks(min(frame.y), max(frame.y), most(bottom - top, 2.0))
    columns, rows = [frame.across(x) for x in xs], [frame.down(y) for y in ys]
    middle, under = (top + bottom) / 2.0, bottom + TICK
    return "".join((
        _stroke("grid", 0.6, [(x, top, x, bottom) for x in columns] + [(left, y, right, y) for y in rows]),
        _stroke("muted", 0.8, [(x, bottom, x, under) for x in columns] + [(left - TICK, y, left, y) for y in rows]),
        _stroke("muted", 0.8, [(left, top, left, bottom), (left, bottom, right, bottom)]),
        *(_text(x, bottom + AWAY + HANGING * FONT, word, "ink", "middle", FONT)
          for x, word in zip(columns, words(xs), strict=True)),
        *(_text(left - AWAY, y + CENTRED * FONT, word, "ink", "end", FONT)
          for y, word in zip(rows, words(ys), strict=True)),
        _text((left + right) / 2.0, bottom + LABEL[0] + HANGING * FONT, labels[0], "ink", "middle", FONT),
        _text(left - LABEL[1], middle, labels[1], "ink", "middle", FONT,
              f' transform="rotate(-90 {_short(left - LABEL[1])} {_short(middle)})"'),
    ))


def beside_each_other(low: float, high: float, length: float) -> list[float]:
    """Ticks of a horizontal axis of so many points, as many as have room for their words beside each other."""
    steps = most(length, 3.0)
    while True:
        places = ticks(low, high, steps)
        widest = max((len(word) for word in words(places)), default=0) + BETWEEN
        room = (max(places) - min(places)) / (high - low) * length
        if steps == 1 or (len(places) - 1) * widest * DIGIT * FONT <= room:
            return places
        steps -= 1


def most(length: float, spacing: float) -> int:
    """How many steps an axis of so many points has room for; spacing: least step in sizes of its words."""
    return min(MOST, int(length / (FONT * spacing)))


def _stroke(role: str, wide: float, ends: Iterable[tuple[float, float, float, float]]) -> str:
    path = "".join(f"M{_short(x)} {_short(y)}L{_short(to_x)} {_short(to_y)}" for x, y, to_x, to_y in ends)
    return f'<path d="{path}" fill="none" stroke="{_colour(role)}" stroke-width="{wide:g}"/>'


def _colour(role: str) -> str:
    return f"var(--hb-{role})"


def _short(points: float) -> str:
    """A length in points to a tenth: finer than a screen shows."""
    return f"{round(points, 1) + 0.0:g}"
