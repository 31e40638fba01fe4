"""How a recording is judged: gates, limits with an uncertainty, and the words for heights and deviations."""

from lpv.core.text import ascii_number
from lpv.decide.stabilised import Gate, State, evaluate
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


MOST_DOTS = 10.0  # of lpv.decide.stabilised
NOT_TOLD = "airspeed"
NO_SPEED_KT = 100.0  # stands for the airspeed, on which the gate as judged here sets no limit
VERDICTS = {True: "met", False: "not met", None: "too close to say"}


class Judged:
    """One item of a gate: limit and found as texts, and one of the words of VERDICTS."""

    def __init__(self, item: str, limit: str, found: str, verdict: str) -> None:
        self.item, self.limit, self.found, self.verdict = item, limit, found, verdict


class GateFound:
    """One gate of a recorded approach.

    at:       where the altimeter passed its altitude; None if it never did
    gap_s:    seconds without samples there; then nothing is judged
    items:    what could be judged;  not_told: what the gate limits and a recording does not tell
    """

    def __init__(
        self, gate: Gate, altitude_ft: float, at: "Point | None", gap_s: float, items: "tuple[Judged, ...]",
        not_told: "tuple[str, ...]",
    ) -> None:
        self.gate, self.altitude_ft, self.at, self.gap_s = gate, altitude_ft, at, gap_s
        self.items, self.not_told = items, not_told

    @property
    def verdict(self) -> str:
        """"not met" if any item is; "too close to say" if one is that; "met" if all are; "" if none was judged."""
        found = [item.verdict for item in self.items]
        words = [word for word in ("not met", "too close to say", "met") if word in found]
        return words[0] if words else ""


def judge(
    gate: Gate, altitude_ft: float, passed: "Crossing | None", lateral_dots: float, vertical_dots: float,
) -> GateFound:
    """The gate, judged where it was passed; lateral_dots, vertical_dots: uncertainty of the deviations there."""
    at = passed.at if passed else None
    gap_s = passed.gap_s if passed else 0.0
    items = () if at is None or gap_s else tuple(_items(gate, at, lateral_dots, vertical_dots))
    return GateFound(gate, altitude_ft, at, gap_s, items, tuple(_not_told(gate)))


def within(found: "float | None", limit: "float | None", unsure: float) -> "bool | None":
    """Whether a deviation is within a limit; None where it is too close to the limit to say, or where none is known."""
    if found is None or limit is None or abs(abs(found) - limit) < unsure:
        return None
    return abs(found) <= limit


def _items(gate: Gate, at: Point, lateral_dots: float, vertical_dots: float) -> "list[Judged]":
    told = Gate(
        gate.name, gate.height_ft, gate.above, lateral_dots=gate.lateral_dots,
        sink_rate_fpm=None if at.sink_fpm is None else gate.sink_rate_fpm,
        vertical_dots=None if at.path_dots is None else gate.vertical_dots, source=gate.source,
    )
    state = State(
        gate.height_ft, NO_SPEED_KT, NO_SPEED_KT, int(whole(at.sink_fpm or 0.0)), _dots(at.course_dots),
        _dots(at.path_dots or 0.0), 0.0,
    )
    deviations = {
        "lateral deviation": within(at.course_dots, gate.lateral_dots, lateral_dots),
        "vertical deviation": within(at.path_dots, gate.vertical_dots, vertical_dots),
    }
    return [
        Judged(item.item, item.limit, item.found, VERDICTS[deviations.get(item.item, item.met)])
        for item in evaluate(told, state)
    ]


def _dots(found: float) -> float:
    """To a hundredth, and cut, for `evaluate`."""
    return max(-MOST_DOTS, min(MOST_DOTS, int(whole(100.0 * found)) / 100.0))


def _not_told(gate: Gate) -> "list[str]":
    airspeed = gate.slowest_kt is not None or gate.fastest_kt is not None
    bank = gate.bank_deg is not None
    return ([NOT_TOLD] if airspeed else []) + (["bank"] if bank else []) + list(gate.required)
