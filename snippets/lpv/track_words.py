"""How a debrief words a height, a deviation, and what it cannot tell."""

from lpv.track_points import Crossing, Point


def feet(number: float) -> str:
    """A height or a distance in whole feet."""
    return f"{round(number) + 0} ft"


def in_dots(number: float) -> str:
    """A deviation without its side, to a tenth of a dot."""
    return f"{abs(number):.1f} dots"


def beside(at: Point) -> str:
    """The course deviation in words: "0.3 dots (120 ft) right of the course"."""
    if in_dots(at.course_dots) == in_dots(0.0):
        return "on the course"
    side = "right" if at.across_ft > 0.0 else "left"
    return f"{in_dots(at.course_dots)} ({feet(abs(at.across_ft))}) {side} of the course"


def over(at: Point) -> str:
    """The path deviation in words; "height not recorded" without an altitude."""
    if at.path_dots is None or at.above_ft is None:
        return "height not recorded"
    if in_dots(at.path_dots) == in_dots(0.0):
        return "on the path"
    return f"{in_dots(at.path_dots)} ({feet(abs(at.above_ft))}) {'above' if at.above_ft > 0.0 else 'below'} the path"


def not_recorded(passed: Crossing) -> str:
    """What is said of a moment that falls between two parts."""
    return f"in a gap of {passed.gap_s:.0f} s: nothing is told"
