"""A drawing: its size, what is drawn on it in order, and the labels that are placed when it is finished."""

from lpv.drawing.labels import Crossed, Label, Placed, placed
from lpv.drawing.typeset import LEADING, SIZE, box, element, escaped

WIDTH = 3280
EDGE = 10  # words keep so far away from the edges of the sheet
# Shapes of marks around their point, and half of the square that each takes.
SHAPES = {
    "circle": ("m-42 0a42 42 0 1 0 84 0a42 42 0 1 0-84 0z", 50),
    "square": ("m-42-42h84v84h-84z", 50),
    "diamond": ("m0-58l58 58l-58 58l-58-58z", 60),
    "aircraft": ("m70 0l-120 55l30-55l-30-55z", 60),
    "bar": ("m-90-14h180v28h-180z", 90),
    "post": ("m-14-60h28v120h-28z", 60),
    "cross": ("m-45-45l90 90m0-90l-90 90", 52),
}


class Sheet:
    """A drawing of WIDTH by `height`."""

    def __init__(self, height: int) -> None:
        self.height = height
        self.parts = []  # type: list[str]
        self.taken = []  # type: list[tuple[int, int, int, int]]
        self.crossed = Crossed(WIDTH, height)
        self.labels = []  # type: list[tuple[Label, tuple[int, int, int, int] | None]]
        self.dropped = []  # type: list[str]

    def add(self, part: str) -> None:
        """Draw an element over what is drawn already."""
        self.parts.append(part)

    def path(self, d: str, role: str, look: str = "") -> None:
        """Draw a path.  look: "dash", "thin", "wide", "fill" or several of them, for the style sheet."""
        self.parts.append(f'<path class="{role}{" " + look if look else ""}" d="{d}"/>')

    def word(
        self, x: int, y: int, text: str, role: str = "ink", anchor: str = "", bold: bool = False, size: int = SIZE,
    ) -> None:
        """Write a line of text at a place; labels keep clear of it."""
        self.parts.append(element(x, y, text, role, anchor, size, bold))
        self.taken.append(box(x, y, text, anchor, size, bold))

    def mark(self, point: "tuple[int, int]", shape: str, role: str) -> None:
        """Draw one of SHAPES at a place; labels keep clear of it."""
        d, half = SHAPES[shape]
        self.path(f"M{point[0]} {point[1]}{d}", role, "stroke" if shape == "cross" else "fill")
        low = half if shape != "bar" else 20
        self.taken.append((point[0] - half, point[1] - low, point[0] + half, point[1] + low))

    def label(
        self, text: str, point: "tuple[int, int]", role: str = "ink", sides: "tuple[str, ...]" = (), bold: bool = False,
        within: "tuple[int, int, int, int] | None" = None, size: int = SIZE,
    ) -> None:
        """Write text beside a point, the most important first; it is placed when the drawing is finished.

        sides: where it stands best (see `lpv.drawing.labels`);  within: the box that it may not leave
        """
        self.labels.append((Label(text, point, role, sides, bold, size), within))

    def svg(self, description: str) -> str:
        """The finished drawing.  description: its text alternative."""
        words = "".join(self._placed())
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="hb-drawing" viewBox="0 0 {WIDTH} {self.height}" '
            f'role="img" aria-label="{escaped(description)}">{"".join(self.parts)}{words}</svg>'
        )

    def _placed(self) -> "list[str]":
        """The elements of all labels; what found no room is noted in `dropped`."""
        sheet = EDGE, EDGE, WIDTH - EDGE, self.height - EDGE
        elements, taken = [], list(self.taken)
        self.dropped = []
        for label, within in self.labels:
            place = placed(label, within or sheet, taken, self.crossed)
            if place is None:
                self.dropped.append(" ".join(label.rows))
            else:
                taken.append(place.box)
                elements.append(_label(place))
        return elements


def _label(place: Placed) -> str:
    """The element of a label, with the line to its point if it stands away from it."""
    label = place.label
    parts = ['<path class="muted hair" d="M{} {}L{} {}"/>'.format(*place.leader)] if place.leader else []
    for row in range(len(label.rows)):
        y = place.first_y + LEADING * row
        parts.append(element(place.x, y, label.rows[row], label.role, place.anchor, label.size, label.bold))
    return "".join(parts)
