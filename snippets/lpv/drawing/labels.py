"""Labels beside the points that they speak of: none covers another one, a mark, or the edge.

The most important label is placed first.  Each takes the best free place around its point; where all are taken, the
nearest free place of the whole area, with a thin line to its point.
"""

from lpv.drawing.typeset import ASCENT, DESCENT, LEADING, SIZE, width

GAP = 20  # kept free around a label
NEAR = 75  # from a point to its label: clear of a mark
STEPS_AWAY = (NEAR, 2 * NEAR, 4 * NEAR)
LEADER_FROM = 150  # a label farther away than this has a line to its point
SEARCH_STEP = 110
CELL = 75
LINE_COST, AWAY_COST, ORDER_COST = 40, 1, 12
# Where a label stands as seen from its point: right of it (1) or left (-1), below it (1) or above (-1).
SIDES = {
    "ne": (1, -1), "nw": (-1, -1), "se": (1, 1), "sw": (-1, 1), "n": (0, -1), "s": (0, 1), "e": (1, 0), "w": (-1, 0),
}
ALL_SIDES = ("ne", "nw", "se", "sw", "n", "s", "e", "w")


class Crossed:
    """The small squares of a sheet, CELL wide, that lines run through."""

    def __init__(self, wide: int, high: int) -> None:
        rows = high // CELL + 1
        self.columns = [bytearray(rows) for _ in range(wide // CELL + 1)]

    def line(self, points: "list[tuple[int, int]]") -> None:
        """Note those that a line through points of the sheet runs through."""
        columns, before_x, before_y = self.columns, 0, 0
        for index, (x, y) in enumerate(points):
            columns[x // CELL][y // CELL] = 1
            far = max(abs(x - before_x), abs(y - before_y))
            if index and far >= CELL:
                count = far // CELL + 1
                for step in range(1, count):
                    at_x, at_y = before_x + (x - before_x) * step // count, before_y + (y - before_y) * step // count
                    columns[at_x // CELL][at_y // CELL] = 1
            before_x, before_y = x, y

    def under(self, box: "tuple[int, int, int, int]") -> int:
        """How many of them lie under a box, or just beside it."""
        left, top, right, bottom = box
        low, high = max(0, (top - GAP) // CELL), (bottom + GAP) // CELL + 1
        return sum([
            sum(column[low:high]) for column in self.columns[max(0, (left - GAP) // CELL):(right + GAP) // CELL + 1]
        ])


class Label:
    """A label: its lines of text, the point it speaks of, its look, and where it would best stand.

    sides: some of SIDES, the best first; the others are tried after them
    """

    def __init__(
        self, text: str, point: "tuple[int, int]", role: str, sides: "tuple[str, ...]", bold: bool, size: int = SIZE,
    ) -> None:
        self.rows = text.split("\n")
        self.point, self.role, self.sides, self.bold, self.size = point, role, sides, bold, size
        self.width = max([width(row, size, bold) for row in self.rows])
        self.height = (ASCENT + DESCENT) * size // 100 + LEADING * (len(self.rows) - 1)


class Placed:
    """Where a label has come to stand: its box, the anchor of its rows, and the line to its point if it has one."""

    def __init__(self, label: Label, box: "tuple[int, int, int, int]", anchor: str, far: bool) -> None:
        self.label, self.box, self.anchor = label, box, anchor
        self.x = box[2] if anchor == "end" else (box[0] + box[2]) // 2 if anchor == "middle" else box[0]
        self.first_y = box[1] + ASCENT * label.size // 100
        self.leader = _leader(label.point, box) if far else None


def placed(
    label: Label, area: "tuple[int, int, int, int]", taken: "list[tuple[int, int, int, int]]",
    lines: Crossed,
) -> "Placed | None":
    """Where a label comes to stand within an area, None where no room is left.

    taken: boxes that it may not touch;  lines: where lines run, which it rather avoids
    """
    return _best(label, area, taken, lines) or _search(label, area, taken, lines)


def _best(
    label: Label, area: "tuple[int, int, int, int]", boxes: "list[tuple[int, int, int, int]]",
    lines: Crossed,
) -> "Placed | None":
    best, least = None, 0
    order = list(label.sides) + [side for side in ALL_SIDES if side not in label.sides]
    for away in STEPS_AWAY:
        for rank in range(len(order)):
            basic = ORDER_COST * rank + AWAY_COST * (away - NEAR)
            if best is not None and basic >= least:
                continue
            box = _beside(label, SIDES[order[rank]], away)
            if is_free(box, area, boxes):
                cost = basic + LINE_COST * lines.under(box)
                if best is None or cost < least:
                    anchor = ("end", "middle", "")[SIDES[order[rank]][0] + 1]
                    best, least = Placed(label, box, anchor, away > LEADER_FROM), cost
    return best


def _beside(label: Label, side: "tuple[int, int]", away: int) -> "tuple[int, int, int, int]":
    """The box of a label at one side of its point."""
    x, y = label.point
    right, below = side
    left = x + right * away - (label.width if right < 0 else 0 if right else label.width // 2)
    apart = away // 5 if right else away
    top = y + below * apart - (label.height if below < 0 else 0 if below else label.height // 2)
    return left, top, left + label.width, top + label.height


def _search(
    label: Label, area: "tuple[int, int, int, int]", boxes: "list[tuple[int, int, int, int]]",
    lines: Crossed,
) -> "Placed | None":
    """The best free place anywhere in the area."""
    best, least = None, 0
    for top in range(area[1], area[3] - label.height + 1, SEARCH_STEP):
        for left in range(area[0], area[2] - label.width + 1, SEARCH_STEP):
            box = left, top, left + label.width, top + label.height
            cost = abs((box[0] + box[2]) // 2 - label.point[0]) + 2 * abs((top + box[3]) // 2 - label.point[1])
            if (best is None or cost < least) and is_free(box, area, boxes):
                cost += LINE_COST * lines.under(box)
                if best is None or cost < least:
                    best, least = Placed(label, box, "", True), cost
    return best


def is_free(
    box: "tuple[int, int, int, int]", area: "tuple[int, int, int, int]", boxes: "list[tuple[int, int, int, int]]",
) -> bool:
    """Whether a box lies within the area and keeps clear of all the others."""
    left, top, right, bottom = box
    if left < area[0] or top < area[1] or right > area[2] or bottom > area[3]:
        return False
    for other in boxes:
        if left - GAP < other[2] and other[0] < right + GAP and top - GAP < other[3] and other[1] < bottom + GAP:
            return False
    return True


def _leader(point: "tuple[int, int]", box: "tuple[int, int, int, int]") -> "tuple[int, int, int, int] | None":
    """The line from a point to the nearest place of a box's edge."""
    x, y = max(box[0], min(box[2], point[0])), max(box[1], min(box[3], point[1]))
    return (point[0], point[1], x, y) if (x, y) != point else None
