"""Whether a finished drawing kept to its rules: words and marks clear of each other and within the sheet.

For tests, on a computer: it reads the SVG text as anybody would, and knows nothing of how it was made.
"""

from itertools import combinations
from re import findall
from xml.etree import ElementTree

from lpv.drawing.sheet import SHAPES
from lpv.drawing.typeset import LARGE, SIZE, box

SVG = "{http://www.w3.org/2000/svg}"
Box = tuple[int, int, int, int]
MIN_PX, PHONE_PX = 12.0, 328.0


def faults(svg: str) -> list[str]:
    """What is wrong with a drawing, in words; [] if nothing is."""
    root = ElementTree.fromstring(svg)
    sheet = tuple(map(int, root.get("viewBox", "0 0 0 0").split()))
    words, marks = [*map(_word, root.iter(f"{SVG}text"))], [*_marks(root)]
    problems = [f"{name!r} leaves the sheet: {place}" for name, place in (*words, *marks) if not _within(place, sheet)]
    problems += [f"{a[0]!r} and {b[0]!r} overlap" for a, b in combinations(words, 2) if _overlap(a[1], b[1])]
    problems += [f"{a[0]!r} covers a {b[0]}" for a in words for b in marks if _overlap(a[1], b[1])]
    problems += [f"a line leaves the sheet at {x} {y}" for x, y in _points(root) if not _within((x, y, x, y), sheet)]
    if SIZE * PHONE_PX / sheet[2] < MIN_PX:
        problems.append(f"letters are smaller than {MIN_PX} pixels where the drawing is {PHONE_PX} wide")
    return problems


def _word(element: ElementTree.Element) -> tuple[str, Box]:
    look = element.get("class", "").split()
    text, anchor = element.text or "", element.get("text-anchor", "")
    x, y = int(element.get("x", "0")), int(element.get("y", "0"))
    return text, box(x, y, text, anchor, LARGE if "large" in look else SIZE, "bold" in look)


def _marks(root: ElementTree.Element) -> list[tuple[str, Box]]:
    """Marks, a little smaller than they are drawn."""
    marks = []
    for path in root.iter(f"{SVG}path"):
        for shape, (d, half) in SHAPES.items():
            if (written := path.get("d", "")).endswith(d):
                x, y = map(int, written.removeprefix("M").removesuffix(d).split())
                low = 14 if shape == "bar" else half - 10
                marks.append((shape, (x - half + 10, y - low, x + half - 10, y + low)))
    return marks


def _points(root: ElementTree.Element) -> list[tuple[int, int]]:
    """Every point that a line or area names by its place on the sheet."""
    points: list[tuple[int, int]] = []
    for path in root.iter(f"{SVG}path"):
        for part in findall(r"[ML]([-\d ]+)", path.get("d", "")):
            numbers = [*map(int, part.split())]
            points += zip(numbers[::2], numbers[1::2], strict=True)
    return points


def _within(place: Box, sheet: tuple[int, ...]) -> bool:
    return place[0] >= 0 and place[1] >= 0 and place[2] <= sheet[2] and place[3] <= sheet[3]


def _overlap(first: Box, other: Box) -> bool:
    return first[0] < other[2] and other[0] < first[2] and first[1] < other[3] and other[1] < first[3]
