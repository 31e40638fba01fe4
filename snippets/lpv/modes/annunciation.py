"""What a type tells its crew, in neutral words: the announcement of a state, and what changed in it.

Rule: current and armed modes, and every change of mode, are shown to the crew (14 CFR 25.1329(i)).
The words are this handbook's; the labels of a type's own cockpit stand in its aircraft file.
"""

from lpv.modes.machine import run_usual, step
from lpv.modes.rules import Rules, usual_rules
from lpv.modes.state import FLYING, MONITORING, SIDES, START, State, lateral_source, source

_LOST = {"nothing": "", "vertical": ", vertical lost", "all": ", lost"}


def announcement(state: State, rules: Rules) -> "tuple[tuple[str, str], ...]":
    """What is shown, as pairs (what, words): source, level of service, lateral, vertical, go-around.

    Only what the type announces (`rules.announced`); without power, that there is none.
    """
    if not state.power:
        return (("power", "off"),)
    told = []
    if "source" in rules.announced:
        told.append(("source", _sources(state, rules)))
    if "level" in rules.announced:
        told.append(("level", state.level + _LOST[state.missing]))
    told.append(("lateral", _mode(state.lateral, rules)))
    told.append(("vertical", _mode(state.vertical, rules)))
    if state.phase == "missed":
        told.append(("go-around", "selected"))
    return tuple(told)


def _mode(mode: str, rules: Rules) -> str:
    return mode if mode == "inactive" or mode in rules.announced else "nothing shown"


def _sources(state: State, rules: Rules) -> str:
    left, right = _side(state, FLYING, rules), _side(state, MONITORING, rules)
    if left == right:
        return left + " on both sides"
    return left + " on the " + SIDES[FLYING] + ", " + right + " on the " + SIDES[MONITORING]


def _side(state: State, side: int, rules: Rules) -> str:
    found = source(state, side, rules)
    return "SBAS without guidance" if found == "SBAS" and not lateral_source(state, rules, side) else found


def announce(state: State, rules: Rules) -> "tuple[str, ...]":
    """What is shown, one line for each thing: "lateral: armed"."""
    return tuple([what + ": " + words for what, words in announcement(state, rules)])


def announce_usual(events: "list[str]", other: "dict[str, str]") -> "tuple[str, ...]":
    """What is shown after a sequence of events, with the usual rules except those named in `other`."""
    return announce(run_usual(events, other), usual_rules(**other))


def changes(before: State, after: State, rules: Rules) -> "tuple[str, ...]":
    """What is shown differently, one line for each thing: "lateral: from armed to captured"."""
    was, now = dict(announcement(before, rules)), dict(announcement(after, rules))
    lines = []
    for what in ("power", "source", "level", "lateral", "vertical", "go-around"):
        old, new = was.get(what, "nothing shown"), now.get(what, "nothing shown")
        if old != new:
            lines.append(what + ": from " + old + " to " + new)
    return tuple(lines)


class Moment:
    """One line of a timeline.

    event:        what happened, "" for the start
    state:        the state after it
    announcement: what is shown then, as `announce` gives it
    changes:      what is shown differently, as `changes` gives it; empty if nothing
    """

    def __init__(
        self, event: str, state: State, announcement: "tuple[str, ...]", changes: "tuple[str, ...]"
    ) -> None:
        self.event = event
        self.state = state
        self.announcement = announcement
        self.changes = changes


def timeline(events: "list[str] | tuple[str, ...]", rules: Rules, start: State = START) -> "list[Moment]":
    """The start and then one Moment for every event; DomainError for an unknown event."""
    moments = [Moment("", start, announce(start, rules), ())]
    for event in events:
        before = moments[-1].state
        after = step(before, event, rules)
        moments.append(Moment(event, after, announce(after, rules), changes(before, after, rules)))
    return moments
