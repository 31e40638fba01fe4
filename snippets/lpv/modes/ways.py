"""Ways through the modes: how to get out of a state, and what the next crew finds.

Everything is found by stepping the state machine, breadth first, so that the first way found is a shortest.
"""

from lpv.core.errors import DomainError, shown
from lpv.modes.machine import EVENTS, run, step
from lpv.modes.rules import Rules
from lpv.modes.state import FLYING, MONITORING, START, State, lateral_source, source

# What a way out may not count on: landing, switching off, and the signal.
NO_WAY = ("land", "power off", "vertical guidance lost", "lateral guidance lost", "signal returns")
WAY = tuple([event for event in EVENTS if event not in NO_WAY])
CONTROLS = ("select SBAS", "selector off", "tune localizer", "untune localizer")


def is_way_out(state: State) -> bool:
    """Whether a state is a missed approach or captured guidance: what every other state must lead to."""
    return state.phase == "missed" or state.lateral == "captured"


def shortest_way(
    start: State, events: "tuple[str, ...]", rules: Rules, reached: "object"
) -> "tuple[str, ...] | None":
    """A shortest sequence of these events after which `reached(state)` is true; None if there is none.

    Of several shortest ones, the first in the order of `events`; () if the start already is.
    """
    ways: dict[State, tuple[str, ...]] = {start: ()}
    queue = [start]
    while queue:
        following = []
        for state in queue:
            if reached(state):  # type: ignore[operator]
                return ways[state]
            for event in events:
                after = step(state, event, rules)
                if after not in ways:
                    ways[after] = ways[state] + (event,)
                    following.append(after)
        queue = following
    return None


def way_out(state: State, rules: Rules) -> "tuple[str, ...] | None":
    """A shortest way to a missed approach or to captured guidance; None if there is none.

    It counts on no landing, no power removal and no return of the signal (WAY); () if already there.
    """
    return shortest_way(state, WAY, rules, is_way_out)


class Seen:
    """What the next crew finds, on one way that the aircraft was left.

    selector, tuned: (flying side, monitoring side), as the aircraft was left
    approach: what the next crew flies, SBAS or ILS
    sources:  what each side shows once that approach is active, as `mode_state.source`
    guides:   what guides each side then, SBAS, ILS or ""
    verdict:  "right", "no guidance" or "another source": the worst of both sides
    remedy:   a shortest sequence of control settings after which both sides are right
    """

    def __init__(
        self, selector: "tuple[bool, bool]", tuned: "tuple[bool, bool]", approach: str, sources: "tuple[str, str]",
        guides: "tuple[str, str]", verdict: str, remedy: "tuple[str, ...]",
    ) -> None:
        self.selector = selector
        self.tuned = tuned
        self.approach = approach
        self.sources = sources
        self.guides = guides
        self.verdict = verdict
        self.remedy = remedy


def seen_next(selector: "tuple[bool, bool]", tuned: "tuple[bool, bool]", approach: str, rules: Rules) -> Seen:
    """What a crew finds that loads and activates an approach and touches neither selector nor radios.

    approach: SBAS or ILS; DomainError for another word
    """
    if approach not in ("SBAS", "ILS"):
        raise DomainError(f"next approach: found {shown(approach)}; allowed: SBAS, ILS.")
    left = START.but(selector=selector, tuned=tuned)
    state = run(["take off", "load " + approach + " approach", "activate approach"], rules, left)
    remedy = shortest_way(state, CONTROLS, rules, lambda found: _guides(found, rules) == (approach, approach))
    return Seen(
        selector, tuned, approach, (source(state, FLYING, rules), source(state, MONITORING, rules)),
        _guides(state, rules), _verdict(_guides(state, rules), approach), remedy or (),
    )


def _guides(state: State, rules: Rules) -> "tuple[str, str]":
    return lateral_source(state, rules, FLYING), lateral_source(state, rules, MONITORING)


def _verdict(guides: "tuple[str, str]", approach: str) -> str:
    for guide in guides:
        if guide not in ("", approach):
            return "another source"
    return "no guidance" if "" in guides else "right"


def next_crew(rules: Rules) -> "list[Seen]":
    """The matrix of selector (on, off), next approach (SBAS, ILS) and localizer (tuned, not), both sides alike."""
    both = ((True, True), (False, False))
    return [
        seen_next(selector, tuned, approach, rules)
        for selector in both for approach in ("SBAS", "ILS") for tuned in both
    ]


def left_behind(rules: Rules) -> "list[tuple[str, bool, bool, bool]]":
    """What an event leaves: (event, selector still on, approach still loaded, localizer still tuned).

    For a go-around, a landing, and power removed and restored after it, from an approach flown on SBAS
    with a localizer tuned.
    """
    flown = run(["take off", "load SBAS approach", "activate approach", "select SBAS", "tune localizer"], rules)
    rows = []
    for events in (["go around"], ["land"], ["land", "power off", "power on"]):
        state = run(events, rules, flown)
        rows.append((", ".join(events), state.selector[FLYING], state.approach != "none", state.tuned[FLYING]))
    return rows
