"""Plots of a recorded approach as parts of a drawing: paths and words, for a page to show as they are.

Each part is a line: "path TAB kind TAB d" or "word TAB kind TAB x TAB y TAB text"; the kinds have their looks in
docs/assets/calculator.css.  A panel is WIDTH by HEIGHT; distance runs from left to right, towards the threshold.
"""

from lpv.core.text import nautical_miles, number, rounded
from lpv.track.flown import FlownApproach
from lpv.track.points import Point

WIDTH, HEIGHT = 3200.0, 1200.0
LEFT, TOP, BOTTOM = 540.0, 60.0, 180.0
FARTHEST_NM, MAX_DOTS = 15.0, 2.5
MAX_POINTS = 160
SIZE = f"0 0 {WIDTH:.0f} {HEIGHT:.0f}"  # of a drawing, as its viewBox
PANELS = (("course", "Course, dots", ("2 left", "2 right")), ("path", "Path, dots", ("2 below", "2 above")))


class Frame:
    """Where values stand in a panel: distance from `far_nm` to the threshold, values from low to high."""

    def __init__(self, far_nm: float, low: float, high: float) -> None:
        self.far_nm, self.low, self.high = far_nm, low, high

    def x(self, along_nm: float) -> float:
        """From the left."""
        return LEFT + (WIDTH - LEFT) * (1.0 - along_nm / self.far_nm)

    def y(self, value: float) -> float:
        """From the top, a value beyond the panel at its edge."""
        share = (max(self.low, min(self.high, value)) - self.low) / (self.high - self.low)
        return HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * share

    def at(self, along_nm: float, value: float) -> str:
        """The place as it stands in a path."""
        return f"{int(self.x(along_nm) + 0.5)} {int(self.y(value) + 0.5)}"


def drawn(flown: FlownApproach) -> "list[list[str]]":
    """The parts of all panels, each panel begun by "panel TAB key TAB title"; [] where nothing can be drawn."""
    points = few([point for point in flown.coming_in if 0.0 <= point.along_nm <= FARTHEST_NM])
    if len(points) < 2:
        return []
    far_nm = max([point.along_nm for point in points] + [1.0])
    drawing: list[list[str]] = []
    for key, title, sides in PANELS:
        rows = [(point, point.course_dots if key == "course" else point.path_dots) for point in points]
        unsure = [flown.course_uncertainty_dots(point) if key == "course" else flown.path_uncertainty_dots(point)
                  for point in points]
        drawing.extend(_deviations(Frame(far_nm, -MAX_DOTS, MAX_DOTS), [("panel", key, title)], rows, unsure, sides))
    return drawing + _profile(flown, points, far_nm)


def few(points: "list[Point]") -> "list[Point]":
    """At most MAX_POINTS of them, evenly, the first of every part among them."""
    step = max(1, (len(points) + MAX_POINTS - 1) // MAX_POINTS)
    return [point for place, point in enumerate(points)
            if place % step == 0 or place == len(points) - 1 or point.part != points[place - 1].part]


def _deviations(
    frame: Frame, head: "list[tuple[str, str, str]]", rows: "list[tuple[Point, float | None]]",
    unsure: "list[float]", sides: "tuple[str, str]",
) -> "list[list[str]]":
    marks = [list(row) for row in head]
    for dots, kind in ((0.0, "zero"), (-1.0, "dot"), (1.0, "dot"), (-2.0, "dot"), (2.0, "dot")):
        marks.append(["path", kind, f"M {frame.at(frame.far_nm, dots)} L {frame.at(0.0, dots)}"])
    for dots, words in ((-2.0, sides[0]), (0.0, "0"), (2.0, sides[1])):
        marks.append(_word("side", LEFT - 40.0, frame.y(dots) + 30.0, words))
    marks.insert(len(head), ["path", "shade", _shade(frame, rows, unsure)])
    marks.append(["path", "line", line(frame, rows)])
    return marks + _distances(frame)


def line(frame: Frame, rows: "list[tuple[Point, float | None]]") -> str:
    """A line through values, broken where one is missing and between parts."""
    commands, part = [], -1
    for point, value in rows:
        if value is None:
            part = -1
            continue
        commands.append(("L " if part == point.part else "M ") + frame.at(point.along_nm, value))
        part = point.part
    return " ".join(commands)


def _shade(frame: Frame, rows: "list[tuple[Point, float | None]]", unsure: "list[float]") -> str:
    """The area that the values may lie in, one piece for each unbroken line."""
    pieces: list[tuple[list[str], list[str]]] = []
    part = -1
    for place, (point, value) in enumerate(rows):
        if value is None:
            part = -1
            continue
        if part != point.part:
            pieces.append(([], []))
        pieces[-1][0].append(frame.at(point.along_nm, value + unsure[place]))
        pieces[-1][1].append(frame.at(point.along_nm, value - unsure[place]))
        part = point.part
    return " ".join(["M " + " L ".join(high + list(reversed(low))) + " Z" for high, low in pieces])


def _profile(flown: FlownApproach, points: "list[Point]", far_nm: float) -> "list[list[str]]":
    """True altitude against the path, the altitudes of the chart and the minimum."""
    known = [point for point in points if point.true_ft is not None and point.above_ft is not None]
    if len(known) < 2:
        return []
    true_ft = [point.true_ft or 0.0 for point in known]
    path_ft = [(point.true_ft or 0.0) - (point.above_ft or 0.0) for point in known]
    frame = Frame(far_nm, min(true_ft + path_ft), max(true_ft + path_ft) + 1.0)
    marks = [["panel", "profile", "True altitude, ft"],
             ["path", "dashed", line(frame, [(point, path_ft[place]) for place, point in enumerate(known)])],
             ["path", "line", line(frame, [(point, point.true_ft) for point in points])]]
    for fix in flown.target.fixes:
        if fix.altitude_ft is not None and 0.0 <= fix.along_nm <= far_nm:
            at = frame.x(fix.along_nm), frame.y(fix.altitude_ft)
            marks.append(["path", "fix", f"M {int(at[0] - 50.0)} {int(at[1])} l 100 0"])
            marks.append(_word("fix", at[0], at[1] - 40.0, fix.name))
    if flown.minimum_ft is not None and frame.low <= flown.minimum_ft <= frame.high:
        near_nm = min(1.5, far_nm)
        ends = frame.at(near_nm, flown.minimum_ft), frame.at(0.0, flown.minimum_ft)
        marks.append(["path", "minimum", f"M {ends[0]} L {ends[1]}"])
        marks.append(_word("minimum", frame.x(near_nm) - 30.0, frame.y(flown.minimum_ft) - 40.0, "minimum"))
    for height_ft in (frame.low, frame.high):
        marks.append(_word("side", LEFT - 40.0, frame.y(height_ft) + 30.0, number(height_ft)))
    return marks + _distances(frame)


def _distances(frame: Frame) -> "list[list[str]]":
    """Distances to the threshold under a panel."""
    half_nm = rounded(frame.far_nm / 2.0)
    words = [(0.0, "threshold", "end")] + ([(half_nm, f"{nautical_miles(half_nm, 1)}", "middle")] if half_nm else [])
    return [_word(kind, frame.x(along_nm), HEIGHT - 40.0, text) for along_nm, text, kind in words]


def _word(kind: str, x: float, y: float, text: str) -> "list[str]":
    return ["word", kind, str(int(x + 0.5)), str(int(y + 0.5)), text]
