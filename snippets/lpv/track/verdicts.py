"""How a recording is judged: a figure with its uncertainty against a limit, in three answers; the gates.

"within" and "outside" are said only where the whole uncertainty lies on that side of the limit; between them it is
"too close to say".  What is not compared, for want of a figure or because altitudes are in doubt, is "not judged".

A recording tells deviations and rate of descent.  It tells nothing of airspeed, thrust, configuration, bank and
checklists: those items of a gate are named as not recorded, not taken as met.
"""

from lpv.core.text import feet, number, quantity, with_unit
from lpv.decide.stabilised import BANK, COURSE, GLIDEPATH, LEAST_SPEED, MOST_SPEED, RATE, Gate, limits_of
from lpv.track.points import Crossing, Point

WITHIN, OUTSIDE, TOO_CLOSE, NOT_JUDGED = "within", "outside", "too close to say", "not judged"
WORST_FIRST = (OUTSIDE, TOO_CLOSE, NOT_JUDGED, WITHIN)
MARKS = {WITHIN: "✓", OUTSIDE: "✕", TOO_CLOSE: "≈", NOT_JUDGED: "○", "": ""}
PLAIN_MARKS = {WITHIN: "+", OUTSIDE: "!", TOO_CLOSE: "~", NOT_JUDGED: "-", "": " "}
IN_DOUBT = "altitudes in doubt"
NOISE = 1e-9
NOT_RECORDED = "airspeed"


def in_dots(value: float) -> str:
    """A deviation without its side, to a tenth of a dot."""
    return quantity(abs(value), "dots", 0.1)


def off_course(at: Point) -> str:
    """The course deviation in words: "0.3 dots (120 ft) right of the course"."""
    if in_dots(at.course_dots) == in_dots(0.0):
        return "on the course"
    side = "right" if at.across_ft > 0.0 else "left"
    return f"{in_dots(at.course_dots)} ({feet(abs(at.across_ft))}) {side} of the course"


def off_path(at: Point) -> str:
    """The path deviation in words; "height not recorded" without an altitude."""
    if at.path_dots is None or at.above_ft is None:
        return "height not recorded"
    if in_dots(at.path_dots) == in_dots(0.0):
        return "on the glidepath"
    side = "above" if at.above_ft > 0.0 else "below"
    return f"{in_dots(at.path_dots)} ({feet(abs(at.above_ft))}) {side} the glidepath"


def in_gap(passed: Crossing) -> str:
    """What is said of a moment that falls between two parts."""
    return f"in a gap of {quantity(passed.gap_s, 's')}: not recorded"


class Comparison:
    """One figure of a recording against a limit.

    item:        what it is;  unit: "ft", "ft/min", "dots", "ft/NM", "s", "NM"
    value:       as recorded, None where the recording has none
    uncertainty: how far it may be off, either way
    low, high:   limits, None where there is none on that side
    reason:      why it is not judged all the same, "" if it is
    """

    def __init__(
        self, item: str, unit: str, value: "float | None", uncertainty: float, low: "float | None" = None,
        high: "float | None" = None, reason: str = "",
    ) -> None:
        self.item, self.unit, self.value, self.uncertainty = item, unit, value, uncertainty
        self.low, self.high, self.reason = low, high, reason

    @property
    def verdict(self) -> str:
        """One of the four words."""
        if self.value is None or self.reason or (self.low is None and self.high is None):
            return NOT_JUDGED
        margins = [] if self.low is None else [self.value - self.low]
        margins += [] if self.high is None else [self.high - self.value]
        margin = min(margins)
        if margin >= self.uncertainty - NOISE:
            return WITHIN
        return OUTSIDE if margin <= -self.uncertainty else TOO_CLOSE

    def digits(self, value: float) -> str:
        """A figure of this kind without its unit."""
        return number(value, 0.1 if self.unit in ("dots", "NM") else 1)

    def amount(self, value: float) -> str:
        """A figure of this kind with its unit."""
        text = self.digits(value)
        return with_unit(text, "dot" if self.unit == "dots" and text == "1.0" else self.unit)

    def limit(self) -> str:
        """The limit in words."""
        if self.low is not None and self.high is not None:
            if self.low == -self.high:
                return f"at most {self.amount(self.high)}"
            return f"{self.amount(self.low)} to {self.amount(self.high)}"
        if self.low is not None:
            return f"at least {self.amount(self.low)}"
        return "no limit" if self.high is None else f"at most {self.amount(self.high)}"

    def recorded(self) -> str:
        """What was recorded, with its uncertainty."""
        if self.value is None:
            return "not recorded"
        shown = abs(self.value) if self.unit == "dots" else self.value
        unsure = self.digits(self.uncertainty)
        if unsure in ("0", "0.0"):
            return self.amount(shown)
        return with_unit(f"{self.digits(shown)} ± {unsure}", self.unit)


def worst(verdicts: "list[str]") -> str:
    """The verdict that counts for several together, "" for none: outside before too close, not judged and within."""
    for word in WORST_FIRST:
        if word in verdicts:
            return word
    return ""


class JudgedGate:
    """One gate of a recorded approach.

    at:       where the altimeter passed its altitude; None if it never did
    gap_s:    seconds without samples there; then nothing is judged
    items:    what could be judged;  not_recorded: what the gate limits and a recording does not hold
    """

    def __init__(
        self, gate: Gate, altitude_ft: float, at: "Point | None", gap_s: float, items: "tuple[Comparison, ...]",
        not_recorded: "tuple[str, ...]",
    ) -> None:
        self.gate, self.altitude_ft, self.at, self.gap_s = gate, altitude_ft, at, gap_s
        self.items, self.not_recorded = items, not_recorded

    @property
    def verdict(self) -> str:
        """The worst of its items; "" if there is none."""
        return worst([item.verdict for item in self.items])


class Unsure:
    """How far the figures of one moment may be off: course and path in dots, rate of descent in ft/min.

    reason: why height and rate are not judged, "" if they are
    """

    def __init__(self, course_dots: float, path_dots: float, sink_fpm: float, reason: str = "") -> None:
        self.course_dots, self.path_dots, self.sink_fpm, self.reason = course_dots, path_dots, sink_fpm, reason


def judge(gate: Gate, altitude_ft: float, passed: "Crossing | None", unsure: Unsure) -> JudgedGate:
    """The gate, judged where it was passed."""
    at = passed.at if passed else None
    gap_s = passed.gap_s if passed else 0.0
    items = () if at is None or gap_s else tuple(_items(gate, at, unsure))
    return JudgedGate(gate, altitude_ft, at, gap_s, items, tuple(not_recorded(gate)))


def _items(gate: Gate, at: Point, unsure: Unsure) -> "list[Comparison]":
    recorded = {
        RATE: (at.sink_fpm, unsure.sink_fpm, unsure.reason), COURSE: (at.course_dots, unsure.course_dots, ""),
        GLIDEPATH: (at.path_dots, unsure.path_dots, unsure.reason),
    }  # type: dict[str, tuple[float | None, float, str]]
    items = []
    for limit in limits_of(gate):
        value, uncertainty, reason = recorded.get(limit.name, (None, 0.0, ""))
        if value is not None and limit.is_set:
            items.append(Comparison(limit.name, limit.unit, value, uncertainty, limit.low, limit.high, reason))
    return items


def within_dots(
    item: str, dots: "float | None", uncertainty: float, limit: float, reason: str = "",
) -> Comparison:
    """A deviation against a limit to either side."""
    return Comparison(item, "dots", dots, uncertainty, -limit, limit, reason)


def not_recorded(gate: Gate) -> "list[str]":
    """What the gate limits and a recording does not hold."""
    limited = [limit.name for limit in limits_of(gate) if limit.is_set]
    airspeed = [NOT_RECORDED] if LEAST_SPEED in limited or MOST_SPEED in limited else []
    return airspeed + [name for name in limited if name == BANK] + list(gate.required)
