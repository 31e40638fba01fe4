"""Ways through the modes: how to get out of a state, and what the next crew finds.

Everything is found by stepping the state machine, breadth first, so that the first way found is a shortest.
"""

from lpv.core.errors import DomainError, shown
from lpv.modes.machine import EVENTS, run, step
from lpv.modes.rules import FMS, SBAS, SOURCES, Rules
from lpv.modes.selection import reached_by, with_sbas_active
from lpv.modes.state import (
    FLYING,
    MONITORING,
    State,
    coming_source,
    followed_source,
    lateral_source,
    source,
    start,
    vertical_source,
)

# What a way out may not count on: landing, switching off, and the signal.
NO_WAY = ("land", "power off", "signal falls to LNAV/VNAV", "vertical guidance lost", "lateral guidance lost",
          "signal returns")
WAY = tuple([event for event in EVENTS if event not in NO_WAY])
# What a crew may do to have an approach guide it, least first; CONTROLS are the first of it.
PREPARING = (
    "select SBAS", "select ILS", "select FMS lateral navigation", "selector off", "tune localizer", "untune localizer",
    "FMS lateral mode", "arming distance reached", "arm approach", "arm path", "course reached",
    "path reached from below",
)
CONTROLS = PREPARING[:6]


def is_way_out(state: State) -> bool:
    """Whether a state is a missed approach or captured guidance: what every other state should lead to."""
    return state.phase == "missed" or state.lateral == "captured"


def shortest_way(
    begin: State, events: "tuple[str, ...]", rules: Rules, reached: "object"
) -> "tuple[str, ...] | None":
    """A shortest sequence of these events after which `reached(state)` is true; None if there is none.

    Of several shortest ones, the first in the order of `events`; () if the start already is.
    """
    ways: dict[State, tuple[str, ...]] = {begin: ()}
    queue = [begin]
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


def shown_unselected(rules: Rules) -> str:
    """What a side with a localizer tuned shows where nobody has selected a source: the name of the source."""
    return source(step(with_sbas_active(rules).but(selected=(FMS, FMS)), "tune localizer", rules), FLYING, rules)


def select_needed(rules: Rules) -> bool:
    """Whether the crew must select SBAS by a control before it guides, or will by arming or capture."""
    return any(event.startswith("select") for event in set_up_events(rules))


def select(state: State, name: str, rules: Rules) -> State:
    """The state with a source selected on both sides, by its control or else by what selects it in the type.

    Unchanged where the type cannot select it in this state.
    """
    after = step(state, "select " + name, rules)
    if name == FMS and after.selected[FLYING] != FMS:
        after = step(state, "selector off", rules)
    return after


class Seen:
    """What the next crew finds, on one way that the aircraft was left.

    selected, tuned: (flying side, monitoring side), as the aircraft was left
    approach: what the next crew flies, SBAS or ILS
    sources:  what each side shows once that approach is active, as `lpv.modes.state.source`
    guides:   what guides each side then, SBAS, ILS or ""
    verdict:  "right", "no guidance", "another source", or "selected at capture" where the source comes with it
    remedy:   a shortest sequence of control settings after which both sides are right; () if none is needed
    """

    def __init__(
        self, selected: "tuple[str, str]", tuned: "tuple[bool, bool]", approach: str, sources: "tuple[str, str]",
        guides: "tuple[str, str]", verdict: str, remedy: "tuple[str, ...]",
    ) -> None:
        self.selected = selected
        self.tuned = tuned
        self.approach = approach
        self.sources = sources
        self.guides = guides
        self.verdict = verdict
        self.remedy = remedy


def seen_next(left: State, approach: str, rules: Rules) -> Seen:
    """What a crew finds that loads and activates an approach and touches neither selector nor radios.

    left: parked, as the crew before left it; approach: SBAS or ILS; DomainError for another word
    """
    if approach not in ("SBAS", "ILS"):
        raise DomainError(f"next approach: found {shown(approach)}; allowed: SBAS, ILS.")
    state = run(["take off", "load " + approach + " approach", "activate approach"], rules, left)
    verdict = _verdict(state, approach, rules)
    remedy = shortest_way(
        state, CONTROLS, rules, lambda after: _verdict(after, approach, rules) in ("right", "selected at capture"))
    return Seen(
        left.selected, left.tuned, approach, (source(state, FLYING, rules), source(state, MONITORING, rules)),
        _guides(state, rules), verdict, remedy or (),
    )


def _guides(state: State, rules: Rules) -> "tuple[str, str]":
    return lateral_source(state, rules, FLYING), lateral_source(state, rules, MONITORING)


def _verdict(state: State, approach: str, rules: Rules) -> str:
    now = _guides(state, rules)
    for guide in now:
        if guide not in ("", approach):
            return "another source"
    if "" not in now:
        return "right"
    return "selected at capture" if coming_source(state, rules, FLYING) == approach else "no guidance"


def left_states(rules: Rules) -> "list[State]":
    """How the aircraft can be left, parked: each source that can be selected then, with and without localizers."""
    ways = reached_by(CONTROLS, rules, [start(rules)])
    return sorted(ways, key=lambda state: (SOURCES.index(state.selected[FLYING]), state.tuned[FLYING]))


def next_crew(rules: Rules) -> "list[Seen]":
    """The matrix of what was left (source, localizer) and next approach (SBAS, ILS), both sides alike."""
    return [seen_next(left, approach, rules) for left in left_states(rules) for approach in ("SBAS", "ILS")]


def left_behind(rules: Rules) -> "list[tuple[str, str, bool, bool]]":
    """What an event leaves: (event, source still selected, approach still loaded, localizer still tuned).

    For a go-around, a landing, and power removed and restored after it, from an approach flown on SBAS
    with a localizer tuned.
    """
    landing = flown_on_sbas(rules, ("tune localizer",))
    rows = []
    for events in (["go around"], ["land"], ["land", "power off", "power on"]):
        state = run(events, rules, landing)
        rows.append((", ".join(events), state.selected[FLYING], state.approach != "none", state.tuned[FLYING]))
    return rows


def flown_on_sbas(rules: Rules, more: "tuple[str, ...]" = ()) -> State:
    """An SBAS approach prepared in the way of the type, after `more` events, and captured if it can be.

    By the shortest way that the controls of the type allow; without one, active and not captured.
    """
    state = run(["take off", "load SBAS approach", "activate approach", *more], rules)
    events = shortest_way(
        state, PREPARING, rules,
        lambda after: after.lateral == "captured" and lateral_source(after, rules) == SBAS)
    return state if events is None else run(events, rules, state)


FMS_ONLY = "FMS lateral only"


def set_up_events(rules: Rules) -> "tuple[str, ...]":
    """What a crew of this type does from take-off until SBAS is armed or ready to arm: a shortest way, as events."""
    first = ("take off", "load SBAS approach", "activate approach")
    state = run(first, rules)
    lateral = ("FMS lateral mode",) if rules.captures_from == FMS_ONLY else ()
    ready = shortest_way(
        state, CONTROLS + lateral, rules,
        lambda after: followed_source(after, rules) == SBAS and (after.fms or not lateral))
    return tuple(list(first) + list(ready or ()))


def on_path(rules: Rules, inside: bool) -> State:
    """An SBAS approach captured on course and path in the way of the type, before or inside the PFAF.

    As far as it gets where the type has no path.
    """
    state = flown_on_sbas(rules)
    events = shortest_way(
        state, PREPARING, rules, lambda after: after.vertical == "captured" and followed_source(after, rules) == SBAS)
    state = run(events or (), rules, state)
    return step(state, "PFAF passed", rules) if inside else state


# What takes guidance away and is then undone: words -> events, the source by whatever selects it in the type.
CAUSES = {
    "source away and back": (),
    "localizer in and out": ("tune localizer", "untune localizer"),
    "path lost, signal back": ("vertical guidance lost", "signal returns"),
    "course lost, signal back": ("lateral guidance lost", "signal returns"),
}
ARMING_AGAIN = ("arm approach", "arm path")
MEETING = ("course reached", "arm path", "path reached from below")


def comes_back(cause: str, again: "tuple[str, ...]", inside: bool, rules: Rules) -> "str | None":
    """What SBAS guides again once a cause of CAUSES is undone and the crew has done something about it.

    again: what the crew does, as events;  inside: whether the PFAF was passed before
    As `guided`; "never lost" where the cause takes nothing away; None where the type cannot be
    got into it.
    """
    flown = on_path(rules, inside)
    if cause == "source away and back":
        lost = select(flown, FMS, rules)
        state = select(lost, SBAS, rules)
        if lost.selected == flown.selected:
            return None
    else:
        lost = step(flown, CAUSES[cause][0], rules)
        state = step(lost, CAUSES[cause][1], rules)
    if (lost.lateral, lost.vertical) == (flown.lateral, flown.vertical):
        return "never lost"
    return guided(run(again + MEETING, rules, state), rules)


def guided(state: State, rules: Rules) -> str:
    """What guides after SBAS captured its course: "both", "course, altimeter path", "course only" or "nothing"."""
    if state.lateral != "captured" or lateral_source(state, rules) != SBAS:
        return "nothing"
    if state.vertical != "captured":
        return "course only"
    return "both" if vertical_source(state, rules) == SBAS else "course, altimeter path"


LOSSES = ("select FMS lateral navigation", "tune localizer", "vertical guidance lost", "lateral guidance lost")


def way_back(loss: str, rules: Rules) -> "tuple[str, tuple[str, ...]]":
    """From a loss inside the PFAF, a shortest way back to captured SBAS guidance, else to a missed approach.

    loss: one of LOSSES, the first by whatever deselects SBAS in the type.  (kind, events): "nothing lost", "back",
    "missed approach", or "none".
    """
    flown = on_path(rules, True)
    lost = select(flown, FMS, rules) if loss == LOSSES[0] else step(flown, loss, rules)
    if (lost.lateral, lost.vertical) == (flown.lateral, flown.vertical):
        return "nothing lost", ()
    inside = tuple([event for event in WAY if event not in ("go around", "next approach")])
    back = shortest_way(lost, inside, rules, lambda state: guided(state, rules) == "both")
    if back is not None:
        return "back", back
    out = shortest_way(lost, WAY, rules, lambda state: state.phase == "missed")
    return ("missed approach", out) if out else ("none", ())
