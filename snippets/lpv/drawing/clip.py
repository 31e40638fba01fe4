"""Lines and areas cut off at the edges of a box (left, top, right, bottom); all of it in whole numbers."""


def lines(points: "list[tuple[int, int]]", box: "tuple[int, int, int, int]") -> "list[list[tuple[int, int]]]":
    """The parts of a line through points that lie in a box."""
    if len(points) > 1 and _all_inside(points, box):
        return [list(points)]
    parts = []  # type: list[list[tuple[int, int]]]
    last = None
    for index in range(len(points) - 1):
        piece = segment(points[index], points[index + 1], box)
        if piece is None:
            continue
        start, end = piece
        if last is not None and start == last:
            parts[-1].append(end)
        else:
            parts.append([start, end])
        last = end
    return parts


def _all_inside(points: "list[tuple[int, int]]", box: "tuple[int, int, int, int]") -> bool:
    left, top, right, bottom = box
    return all(left <= x <= right and top <= y <= bottom for x, y in points)


def segment(
    start: "tuple[int, int]", end: "tuple[int, int]", box: "tuple[int, int, int, int]",
) -> "tuple[tuple[int, int], tuple[int, int]] | None":
    """The part of a straight line that lies in a box, None if there is none."""
    if inside(start, box) and inside(end, box):
        return start, end
    low, high = 0.0, 1.0
    across, down = end[0] - start[0], end[1] - start[1]
    for change, room in (
        (-across, start[0] - box[0]), (across, box[2] - start[0]),
        (-down, start[1] - box[1]), (down, box[3] - start[1]),
    ):
        if change == 0:
            if room < 0:
                return None
        elif change < 0:
            low = max(low, room / change)
        else:
            high = min(high, room / change)
    if low > high:
        return None
    return _between(start, end, low), _between(start, end, high)


def inside(point: "tuple[int, int]", box: "tuple[int, int, int, int]") -> bool:
    """Whether a point lies in a box or on its edge."""
    return box[0] <= point[0] <= box[2] and box[1] <= point[1] <= box[3]


def _between(start: "tuple[int, int]", end: "tuple[int, int]", share: float) -> "tuple[int, int]":
    return nearest(start[0] + (end[0] - start[0]) * share), nearest(start[1] + (end[1] - start[1]) * share)


def nearest(value: float) -> int:
    """The nearest whole number; rounding noise does not decide between two."""
    rounded = int(value + 0.5 + 1e-6)
    return rounded - 1 if rounded > value + 0.5 + 1e-6 else rounded


def area(points: "list[tuple[int, int]]", box: "tuple[int, int, int, int]") -> "list[tuple[int, int]]":
    """The part of an area within its outline that lies in a box; [] if there is none."""
    for axis, edge, sign in ((0, box[0], 1), (0, box[2], -1), (1, box[1], 1), (1, box[3], -1)):
        points = _half(points, axis, edge, sign)
    return points


def _half(points: "list[tuple[int, int]]", axis: int, edge: int, sign: int) -> "list[tuple[int, int]]":
    """The part of an area on one side of a line: coordinate * sign at least edge * sign."""
    kept = []
    for index in range(len(points)):
        before, current = points[index - 1], points[index]
        was_in, is_in = (before[axis] - edge) * sign >= 0, (current[axis] - edge) * sign >= 0
        if was_in != is_in:
            kept.append(_between(before, current, (edge - before[axis]) / (current[axis] - before[axis])))
        if is_in:
            kept.append(current)
    return kept
