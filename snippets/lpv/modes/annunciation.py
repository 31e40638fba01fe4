"""What a type tells its crew, in neutral words: the announcement of a state, and what changed in it.

Rule: current and armed modes, and every change of mode, are shown to the crew (14 CFR 25.1329(i)).
The words are this handbook's; the labels of a type's own cockpit stand in its aircraft file.
"""

from lpv.modes.machine import run_usual, step
from lpv.modes.rules import BY_HAND, Rules, usual_rules
from lpv.modes.state import FLYING, MONITORING, SIDES, State, lateral_source, source, start

_LOST = {"nothing": "", "vertical": ", vertical lost", "all": ", lost"}
NOTHING = "nothing shown"


def announcement(state: State, rules: Rules) -> "tuple[tuple[str, str], ...]":
    """What is shown, as pairs (what, words): source, level of service, lateral, vertical, go-around.

    Only what the type announces (`rules.announced`); without power, that there is none.
    """
    if not state.power:
        return (("power", "off"),)
    shown = []
    if "source" in rules.announced:
        shown.append(("source", _sources(state, rules)))
    if "level" in rules.announced:
        shown.append(("level", state.level + _LOST[state.missing]))
    shown.append(("lateral", mode_words(lateral_modes(state, rules), rules)))
    shown.append(("vertical", mode_words(vertical_modes(state, rules), rules)))
    if has_go_around_mode(state, rules) and "go-around" in rules.announced:
        shown.append(("go-around", "selected"))
    return tuple(shown)


def has_go_around_mode(state: State, rules: Rules) -> bool:
    """Whether a go-around mode flies: after a go-around, in types that have one."""
    return state.phase == "missed" and rules.go_around != BY_HAND


def lateral_modes(state: State, rules: Rules) -> "tuple[tuple[str, str], ...]":
    """The lateral modes that there are, each as (what a type announces it as, words): what flies, what waits."""
    if state.lateral == "captured":
        return (("captured", "captured"),)
    if has_go_around_mode(state, rules) and (state.fms or rules.go_around_roll != "FMS lateral"):
        return (("go-around", "FMS lateral" if state.fms else rules.go_around_roll),)
    flies = ("captured", "FMS lateral") if state.fms else ("basic mode", "basic mode")
    return (flies,) if state.lateral == "inactive" else (flies, (state.lateral, state.lateral))


def vertical_modes(state: State, rules: Rules) -> "tuple[tuple[str, str], ...]":
    """The vertical modes that there are, as `lateral_modes`."""
    if state.vertical == "captured":
        return (("captured", "captured"),)
    if has_go_around_mode(state, rules):
        return (("go-around", rules.go_around_pitch),)
    flies = ("basic mode", "basic mode")
    return (flies,) if state.vertical == "inactive" else (flies, (state.vertical, state.vertical))


def mode_words(modes: "tuple[tuple[str, str], ...]", rules: Rules) -> str:
    """The modes as a type announces them: "basic mode, armed"."""
    return ", ".join([words for word, words in modes if word in rules.announced]) or NOTHING


def _sources(state: State, rules: Rules) -> str:
    left, right = _side(state, FLYING, rules), _side(state, MONITORING, rules)
    if left == right:
        return left + " on both sides"
    return left + " on the " + SIDES[FLYING] + ", " + right + " on the " + SIDES[MONITORING]


def _side(state: State, side: int, rules: Rules) -> str:
    name = source(state, side, rules)
    return name + " without guidance" if name in ("SBAS", "ILS") and not lateral_source(state, rules, side) else name


def announce(state: State, rules: Rules) -> "tuple[str, ...]":
    """What is shown, one line for each thing: "lateral: basic mode, armed"."""
    return tuple([what + ": " + words for what, words in announcement(state, rules)])


def announce_usual(events: "list[str]", other: "dict[str, str]") -> "tuple[str, ...]":
    """What is shown after a sequence of events, with the usual rules except those named in `other`."""
    return announce(run_usual(events, other), usual_rules(**other))


def changes(before: State, after: State, rules: Rules) -> "tuple[str, ...]":
    """What is shown differently, one line for each thing: "lateral: from basic mode, armed to captured"."""
    was, now = dict(announcement(before, rules)), dict(announcement(after, rules))
    lines = []
    for what in ("power", "source", "level", "lateral", "vertical", "go-around"):
        old, new = was.get(what, NOTHING), now.get(what, NOTHING)
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


def timeline(
    events: "list[str] | tuple[str, ...]", rules: Rules, begin: "State | None" = None
) -> "list[Moment]":
    """The start and then one Moment for every event; DomainError for an unknown event."""
    first = start(rules) if begin is None else begin
    moments = [Moment("", first, announce(first, rules), ())]
    for event in events:
        before = moments[-1].state
        after = step(before, event, rules)
        moments.append(Moment(event, after, announce(after, rules), changes(before, after, rules)))
    return moments
