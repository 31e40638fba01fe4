"""How a debrief words a height, a deviation, and what it cannot tell."""

from lpv.core.text import ascii_number
from lpv.track.points import Crossing, Point


def whole(value: float) -> str:
    """A number without decimals, for all that is printed here: both Pythons write it alike."""
    return ascii_number(value)


def tenths(value: float) -> str:
    """A number with one decimal."""
    return ascii_number(value, 0.1)


def feet(value: float) -> str:
    """A height or a distance in whole feet."""
    return f"{whole(value)} ft"


def in_dots(value: float) -> str:
    """A deviation without its side, to a tenth of a dot."""
    return f"{tenths(abs(value))} dots"


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
    return f"in a gap of {whole(passed.gap_s)} s: nothing is told"
