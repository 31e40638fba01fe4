"""A part of a drawing with two axes: what is drawn in it is given in values, and cut off at its edges."""

from lpv.drawing import clip
from lpv.drawing.sheet import EDGE, WIDTH, Sheet
from lpv.drawing.ticks import STEPS, ticks
from lpv.drawing.typeset import width

LEFT, RIGHT, TOP, BOTTOM = 480, 60, 230, 400
"""Room for words around a panel: numbers at its left, the label of the y axis above it, the x axis below."""
TICK = 35
AWAY = 50  # from the axis at the left to its numbers
X_NUMBERS, X_LABEL = 185, 340  # from the lower axis to the baselines of its numbers and its label
X_APART, Y_APART = 460, 200  # least distance of ticks
APART = 30  # least room between two numbers


class Panel:
    """An area with two axes.

    box:  left, top, right, bottom of the area itself, without the words around it
    x, y: values at the left and right end, at the lower and upper end; the ends may be the other way round
    """

    def __init__(
        self, sheet: Sheet, box: "tuple[int, int, int, int]", x: "tuple[float, float]", y: "tuple[float, float]",
    ) -> None:
        self.sheet, self.box, self.x, self.y = sheet, box, x, y

    def across(self, x: float) -> int:
        """Where a value of x lies, from the left of the sheet."""
        left, _, right, _ = self.box
        return left + clip.nearest((x - self.x[0]) / (self.x[1] - self.x[0]) * (right - left))

    def down(self, y: float) -> int:
        """Where a value of y lies, from the top of the sheet."""
        _, top, _, bottom = self.box
        return bottom - clip.nearest((y - self.y[0]) / (self.y[1] - self.y[0]) * (bottom - top))

    def at(self, x: float, y: float) -> "tuple[int, int]":
        """Where two values lie on the sheet."""
        return self.across(x), self.down(y)

    def _places(self, points: "list[tuple[float, float]]") -> "list[tuple[int, int]]":
        """As `at`, of many points at once."""
        (left, top, right, bottom), (from_x, to_x), (from_y, to_y) = self.box, self.x, self.y
        long_x, long_y, wide, high, nearest = to_x - from_x, to_y - from_y, right - left, bottom - top, clip.nearest
        return [
            (left + nearest((x - from_x) / long_x * wide), bottom - nearest((y - from_y) / long_y * high))
            for x, y in points
        ]

    def holds(self, x: float, y: float) -> bool:
        """Whether two values lie within the axes."""
        return clip.inside(self.at(x, y), self.box)

    def line(self, points: "list[tuple[float, float]]", role: str, look: str = "") -> None:
        """Draw a line through values, what lies outside cut off.  look: see `Sheet.path`."""
        parts = clip.lines(self._places(points), self.box)
        d = "".join(["M" + _pairs(part) for part in parts])
        if d:
            self.sheet.path(d, role, look)
            for part in parts:
                self.sheet.crossed.line(part)

    def area(self, points: "list[tuple[float, float]]", role: str = "shade") -> None:
        """Fill an area within its outline, what lies outside cut off."""
        clipped = clip.area(self._places(points), self.box)
        if clipped:
            self.sheet.path("M" + _pairs(clipped) + "z", role, "fill")

    def mark(self, x: float, y: float, shape: str, role: str) -> bool:
        """Draw a mark where it lies within the axes; whether it does."""
        if not self.holds(x, y):
            return False
        self.sheet.mark(self.at(x, y), shape, role)
        return True

    def label(
        self, text: str, x: float, y: float, role: str = "ink", sides: "tuple[str, ...]" = (), bold: bool = False,
    ) -> None:
        """Write text beside a place of the panel; beside its nearest edge for one that lies outside."""
        left, top, right, bottom = self.box
        at_x, at_y = self.at(x, y)
        point = max(left, min(right, at_x)), max(top, min(bottom, at_y))
        within = max(EDGE, left + EDGE), top, WIDTH - EDGE, bottom - EDGE
        self.sheet.label(text, point, role, sides, bold, within)

    def rule_y(self, y: float, role: str, look: str = "") -> None:
        """Draw a line all across at a value of y."""
        self.line([(self.x[0], y), (self.x[1], y)], role, look)

    def rule_x(self, x: float, role: str, look: str = "") -> None:
        """Draw a line from top to bottom at a value of x."""
        self.line([(x, self.y[0]), (x, self.y[1])], role, look)

    def axes(
        self, x_label: str, y_label: str, x_steps: "tuple[tuple[int, int], ...]" = STEPS,
        y_steps: "tuple[tuple[int, int], ...]" = STEPS,
    ) -> None:
        """Draw both axes with grid, numbers and labels; "" as a label leaves out that axis's label."""
        self.x_axis(x_label, x_steps)
        self.y_axis(y_label, y_steps)

    def x_axis(self, label: str, steps: "tuple[tuple[int, int], ...]" = STEPS) -> None:
        """Draw the lower axis; without a label its numbers are left out too."""
        left, top, right, bottom = self.box
        marks = ticks(min(self.x), max(self.x), max(1, (right - left) // X_APART), steps)
        places = [self.across(place) for place, _ in marks]
        self.sheet.path("".join([f"M{x} {top}V{bottom}" for x in places]), "grid", "thin")
        strokes = "".join([f"M{x} {bottom}v{TICK}" for x in places])
        self.sheet.path(f"M{left} {bottom}H{right}{strokes}", "muted", "thin")
        if label:
            self.numbers(places, [words for _, words in marks])
            self.sheet.word((left + right) // 2, bottom + X_LABEL, label, "ink", "middle")

    def numbers(self, places: "list[int]", words: "list[str]") -> None:
        """The numbers under the lower axis: none leaves the sheet, and one that would touch another is left out."""
        ends = []  # type: list[tuple[int, int]]
        for place in range(len(places)):
            half = width(words[place]) // 2
            x = max(EDGE + half, min(WIDTH - EDGE - half, places[place]))
            if all(x + half + APART < left or right + APART < x - half for left, right in ends):
                self.sheet.word(x, self.box[3] + X_NUMBERS, words[place], "ink", "middle")
                ends.append((x - half, x + half))

    def y_axis(self, label: str, steps: "tuple[tuple[int, int], ...]" = STEPS) -> None:
        """Draw the axis at the left, its label above it."""
        left, top, right, bottom = self.box
        marks = ticks(min(self.y), max(self.y), max(1, (bottom - top) // Y_APART), steps)
        places = [self.down(place) for place, _ in marks]
        self.sheet.path("".join([f"M{left} {y}H{right}" for y in places]), "grid", "thin")
        strokes = "".join([f"M{left} {y}h-{TICK}" for y in places])
        self.sheet.path(f"M{left} {top}V{bottom}{strokes}", "muted", "thin")
        for y, (_, words) in zip(places, marks):  # noqa: B905
            self.sheet.word(left - AWAY, y + 42, words, "ink", "end")
        if label:
            self.sheet.word(EDGE, top - 105, label, "ink")


def _pairs(points: "list[tuple[int, int]]") -> str:
    return " ".join([f"{x} {y}" for x, y in points])
