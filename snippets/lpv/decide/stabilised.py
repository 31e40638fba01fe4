"""Stabilised-approach gates as data, and a state of the aircraft judged by them.

A gate is a height by which certain limits must hold, and below which they must go on
holding; unstable there means going around.  GATES holds the published gates whose list of items was read in
full; an operator's own gates are further `Gate` rows.  A source that was read in part judges nothing: what
was read of it stands in READ_IN_PART.  A value is judged as it is shown, to the steps of STEPS, so that no item reads
"at most 1 dot, 1 dot, not met"; limits are met when reached exactly.
"""

from lpv.core.errors import DomainError, in_range, shown
from lpv.core.text import dots, rounded, trimmed_quantity
from lpv.facts import value

DONE = ("landing configuration", "power set", "briefings and checklists complete")
LEAST_SPEED, MOST_SPEED, RATE = "least speed over target", "most speed over target", "rate of descent"
COURSE, GLIDEPATH, BANK = "course deviation", "glidepath deviation", "bank"
NOTHING_SHOWN = "nothing shown"
STEPS = {"kt": 0.1, "ft/min": 1.0, "dots": 0.01, "deg": 0.1}  # what a value is shown and judged to, by its unit


def _limit(name: str, limit: "float | None", high: float, unit: str) -> "float | None":
    return None if limit is None else in_range(name, limit, 0.0, high, unit)


def _done(names: "tuple[str, ...]") -> "tuple[str, ...]":
    for name in names:
        if name not in DONE:
            raise DomainError(f"thing to be done: found {shown(name)}; allowed: {', '.join(DONE)}.")
    return tuple(names)


class Gate:
    """One gate; a limit of None means that its source sets none.

    name, source:  what it is called, and the source key ("" for an operator's own)
    height_ft:     0 to 5000 ft above `above`
    above:         what the height counts from ("airport elevation", "threshold")
    slowest_kt:    least speed relative to the target speed, -30 to 30 kt
    fastest_kt:    most speed relative to the target speed, slowest_kt to 50 kt
    sink_rate_fpm: most rate of descent, 0 to 5000 ft/min
    lateral_dots, vertical_dots: most deviation to either side, 0 to 5 dots
    bank_deg:      most bank to either side, 0 to 60 deg
    required:      names out of DONE
    Raises DomainError for a limit outside these ranges.
    """

    def __init__(
        self, name: str, height_ft: float, above: str,
        slowest_kt: "float | None" = None, fastest_kt: "float | None" = None,
        sink_rate_fpm: "float | None" = None,
        lateral_dots: "float | None" = None, vertical_dots: "float | None" = None,
        bank_deg: "float | None" = None, required: "tuple[str, ...]" = (), source: str = "",
    ) -> None:
        self.name = name
        self.height_ft = in_range("gate height", height_ft, 0.0, 5000.0, "ft")
        self.above = above
        if slowest_kt is not None:
            in_range("least speed", slowest_kt, -30.0, 30.0, "kt")
        if fastest_kt is not None:
            in_range("most speed", fastest_kt, -30.0 if slowest_kt is None else slowest_kt, 50.0, "kt")
        self.slowest_kt = slowest_kt
        self.fastest_kt = fastest_kt
        self.sink_rate_fpm = _limit("rate of descent", sink_rate_fpm, 5000.0, "ft/min")
        self.lateral_dots = _limit("lateral deviation", lateral_dots, 5.0, "dots")
        self.vertical_dots = _limit("vertical deviation", vertical_dots, 5.0, "dots")
        self.bank_deg = _limit("bank", bank_deg, 60.0, "deg")
        self.required = _done(required)
        self.source = source


def _deviation(name: str, dots: "float | None") -> "float | None":
    return None if dots is None else in_range(name, dots, -10.0, 10.0, "dots")


class State:
    """What the aircraft does at one moment.

    height_ft:     -1000 to 20 000 ft above what the gate counts from
    speed_kt, target_speed_kt: indicated, 20 to 400 kt
    sink_rate_fpm: rate of descent, -10 000 (climb) to 10 000 ft/min
    lateral_dots, vertical_dots: -10 to 10, either sign; None while no deviation is shown
    bank_deg:      -90 to 90
    done:          names out of DONE
    Raises DomainError outside.
    """

    def __init__(
        self, height_ft: float, speed_kt: float, target_speed_kt: float, sink_rate_fpm: float,
        lateral_dots: "float | None", vertical_dots: "float | None", bank_deg: float,
        done: "tuple[str, ...]" = (),
    ) -> None:
        self.height_ft = in_range("height", height_ft, -1000.0, 20000.0, "ft")
        self.speed_kt = in_range("speed", speed_kt, 20.0, 400.0, "kt")
        self.target_speed_kt = in_range("target speed", target_speed_kt, 20.0, 400.0, "kt")
        self.sink_rate_fpm = in_range("rate of descent", sink_rate_fpm, -10000.0, 10000.0, "ft/min")
        self.lateral_dots = _deviation("lateral deviation", lateral_dots)
        self.vertical_dots = _deviation("vertical deviation", vertical_dots)
        self.bank_deg = in_range("bank", bank_deg, -90.0, 90.0, "deg")
        self.done = _done(done)


class Item:
    """One judged item: its name, the limit and the actual value as texts with units, and whether it is met."""

    def __init__(self, item: str, limit: str, actual: str, met: bool) -> None:
        self.item = item
        self.limit = limit
        self.actual = actual
        self.met = met


class ItemLimit:
    """What a gate allows of one item: from `low` to `high` in `unit`, None where it sets no limit on that side."""

    def __init__(self, name: str, unit: str, low: "float | None", high: "float | None") -> None:
        self.name, self.unit, self.low, self.high = name, unit, low, high
        self.is_set = low is not None or high is not None


def limits_of(gate: Gate) -> "list[ItemLimit]":
    """Every measured item in a fixed order, whether or not the gate limits it.

    Asked by whoever judges a state by a gate: `evaluate`, and a recording, which knows its uncertainty besides.
    """
    return [
        ItemLimit(LEAST_SPEED, "kt", gate.slowest_kt, None),
        ItemLimit(MOST_SPEED, "kt", None, gate.fastest_kt),
        ItemLimit(RATE, "ft/min", None, gate.sink_rate_fpm),
        _either_side(COURSE, "dots", gate.lateral_dots),
        _either_side(GLIDEPATH, "dots", gate.vertical_dots),
        _either_side(BANK, "deg", gate.bank_deg),
    ]


def _either_side(name: str, unit: str, limit: "float | None") -> ItemLimit:
    return ItemLimit(name, unit, None if limit is None else -limit, limit)


def gate_altitude_ft(gate: Gate, airport_ft: float, threshold_ft: float) -> float:
    """The altitude of a gate, by the elevation that its height counts from."""
    return gate.height_ft + (threshold_ft if gate.above == "threshold" else airport_ft)


def evaluate(gate: Gate, state: State) -> "list[Item]":
    """Every item that the gate limits, judged on the state, in a fixed order.

    Items without a limit are not in the list; not_judged names them.
    """
    over_target = state.speed_kt - state.target_speed_kt
    actual = {
        LEAST_SPEED: over_target, MOST_SPEED: over_target, RATE: state.sink_rate_fpm, COURSE: state.lateral_dots,
        GLIDEPATH: state.vertical_dots, BANK: state.bank_deg,
    }
    items = [_item(limit, actual[limit.name]) for limit in limits_of(gate)]
    met = [Item(name, "yes", "yes" if name in state.done else "no", name in state.done) for name in gate.required]
    return [item for item in items if item is not None] + met


def _shown(number: float, unit: str) -> str:
    return dots(number) if unit == "dots" else trimmed_quantity(number, unit)


def _item(limit: ItemLimit, actual: "float | None") -> "Item | None":
    """The item judged as it is shown; a deviation that is not shown cannot be within its limit."""
    if not limit.is_set:
        return None
    bound = limit.low if limit.high is None else limit.high
    words = ("at least " if limit.high is None else "at most ") + _shown(bound or 0.0, limit.unit)
    if actual is None:
        return Item(limit.name, words, NOTHING_SHOWN, False)
    judged = rounded(abs(actual) if limit.low is not None and limit.high is not None else actual, STEPS[limit.unit])
    met = (limit.low is None or judged >= limit.low) and (limit.high is None or judged <= limit.high)
    return Item(limit.name, words, _shown(judged, limit.unit), met)


def not_judged(gate: Gate) -> "list[str]":
    """Names of the items on which the gate sets no limit, in the order of evaluate."""
    unlimited = [limit.name for limit in limits_of(gate) if not limit.is_set]
    return unlimited + [name for name in DONE if name not in gate.required]


def stable(items: "list[Item]") -> bool:
    """Whether every judged item is met; DomainError for an empty list, which judges nothing."""
    if not items:
        raise DomainError("judged items: found none; allowed: at least one. The gate sets no limit.")
    return all(item.met for item in items)


def _alar(name: str, height_ft: float) -> Gate:
    return Gate(
        name, height_ft, "airport elevation",
        slowest_kt=0.0, fastest_kt=value("gate_speed_above_vref_kt"), sink_rate_fpm=value("gate_sink_rate_fpm"),
        lateral_dots=value("gate_deviation_dots"), vertical_dots=value("gate_deviation_dots"),
        required=DONE, source="fsf-alar-7-1",
    )


GATES = [
    _alar("ALAR, instrument conditions", value("gate_imc_ft")),
    _alar("ALAR, visual conditions", value("gate_vmc_ft")),
]


class ReadInPart:
    """A source of which only some items were read: no verdict rests on it.

    name, source: what it is called, and its key;  facts: keys of the figures that were read
    """

    def __init__(self, name: str, source: str, facts: "tuple[str, ...]") -> None:
        self.name = name
        self.source = source
        self.facts = facts


READ_IN_PART = [ReadInPart("AC 120-71", "ac-120-71", ("gate_faa_ft", "gate_faa_sink_rate_fpm"))]
