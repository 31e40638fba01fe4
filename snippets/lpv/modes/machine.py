"""How approach guidance behaves: a state machine whose rules come from the aircraft file.

`step` gives the state after one event.  It is pure; an event that a state has no use for (to arm on
the ground, to reach a path that is not armed) leaves it as it was.  Rules: `lpv.modes.rules`; states:
`lpv.modes.state`; words for people: `lpv.modes.annunciation`; proofs over all states: `lpv.modes.exploration`.
"""

from lpv.core.errors import DomainError, shown
from lpv.modes.rules import Rules, usual_rules
from lpv.modes.state import (
    FLYING,
    MONITORING,
    SIDES,
    START,
    State,
    lateral_source,
    level_at_activation,
    vertical_source,
)

IN_FLIGHT = ("outside", "inside", "missed")


def step(state: State, event: str, rules: Rules) -> State:
    """The state after one event.

    event: one of EVENTS; DomainError for anything else.  Nothing else can fail.
    Without power only "power on" and what happens to the signal have an effect.
    """
    if event not in _ACTIONS:
        raise DomainError(f"event: found {shown(event)}; allowed: {'; '.join(EVENTS)}.")
    action, argument = _ACTIONS[event]
    if not state.power and action not in (_power, _signal):
        return state
    after = action(state, rules, argument)
    return state if after is state else _settled(state, after, rules)


def run(events: "list[str] | tuple[str, ...]", rules: Rules, start: State = START) -> State:
    """The state after a sequence of events, from START (parked, powered, nothing selected) unless given."""
    state = start
    for event in events:
        state = step(state, event, rules)
    return state


def run_usual(events: "list[str]", other: "dict[str, str]") -> State:
    """`run` with the first choice of every rule, except those named in `other`."""
    return run(events, usual_rules(**other))


def _settled(before: State, after: State, rules: Rules) -> State:
    """What the modes become when their source has gone, has changed or has come back."""
    lateral_now, vertical_now = lateral_source(after, rules), vertical_source(after, rules)
    lateral = _mode(after.lateral, lateral_source(before, rules), lateral_now, rules)
    vertical = _mode(after.vertical, vertical_source(before, rules), vertical_now, rules)
    if vertical == "armed" and lateral_now and not vertical_now:
        vertical = _without_source(vertical, rules)
    if lateral == after.lateral and vertical == after.vertical:
        return after
    return after.but(lateral=lateral, vertical=vertical)


def _mode(mode: str, was: str, now: str, rules: Rules) -> str:
    if mode in ("armed", "captured") and was and now != was:
        return _without_source(mode, rules)
    if mode == "lost" and now and not was and rules.recapture == "by itself":
        return "captured"
    return mode


def _without_source(mode: str, rules: Rules) -> str:
    return mode if rules.when_source_lost == "unchanged" else rules.when_source_lost


# What each event does.  An action takes the state, the rules and the argument of its row in the table,
# and returns the same state where the event has no effect.


def _load(state: State, rules: Rules, approach: str) -> State:
    return state.but(approach=approach, active=False, level="none", missing="nothing")


def _activate(state: State, rules: Rules, _: str) -> State:
    if state.approach == "none" or state.phase not in ("outside", "missed"):
        return state
    level = "none"
    if state.approach == "SBAS":
        level = level_at_activation(state.signal, rules.best_level, rules.baro_vnav)
    return state.but(active=True, phase="outside", level=level, missing="nothing")


def _on_sides(pair: "tuple[bool, bool]", side: str, value: bool) -> "tuple[bool, bool]":
    return (
        pair[FLYING] if side == SIDES[MONITORING] else value,
        pair[MONITORING] if side == SIDES[FLYING] else value,
    )


def _select(state: State, rules: Rules, side: str) -> State:
    return state.but(selector=_on_sides(state.selector, _control(side, rules), True))


def _selector_off(state: State, rules: Rules, side: str) -> State:
    return state.but(selector=_on_sides(state.selector, _control(side, rules), False))


def _control(side: str, rules: Rules) -> str:
    return "" if rules.selector == "shared" else side


def _tune(state: State, rules: Rules, side: str) -> State:
    return state.but(tuned=_on_sides(state.tuned, side, True))


def _untune(state: State, rules: Rules, side: str) -> State:
    return state.but(tuned=_on_sides(state.tuned, side, False))


def _arm(state: State, rules: Rules, _: str) -> State:
    if state.phase not in ("outside", "inside"):
        return state
    if state.phase == "inside" and rules.arming_inside_pfaf == "refused":
        return state
    blind = not lateral_source(state, rules) and rules.arming == "at any time in flight"
    lateral, vertical = state.lateral, state.vertical
    if lateral in ("inactive", "lost") and (blind or lateral_source(state, rules)):
        lateral = "armed"
    together = rules.vertical_arms == "with lateral" or lateral == "captured"
    if vertical in ("inactive", "lost") and (blind or vertical_source(state, rules)):
        vertical = "armed" if together else "inactive"
    return state.but(lateral=lateral, vertical=vertical)


def _disarm(state: State, rules: Rules, _: str) -> State:
    return state.but(lateral="inactive", vertical="inactive")


def _course(state: State, rules: Rules, _: str) -> State:
    if state.lateral != "armed" or not lateral_source(state, rules):
        return state
    arms = rules.vertical_arms == "once lateral is captured" and state.vertical == "inactive"
    vertical = "armed" if arms and vertical_source(state, rules) else state.vertical
    return state.but(lateral="captured", vertical=vertical)


def _path(state: State, rules: Rules, met_from: str) -> State:
    if state.vertical != "armed" or not vertical_source(state, rules):
        return state
    if state.lateral != "captured" and rules.vertical_capture == "after lateral":
        return state
    if met_from == "above" and rules.path_from_above == "stays armed":
        return state
    return state.but(vertical="captured")


def _signal(state: State, rules: Rules, signal: str) -> State:
    if signal == "lateral only" and state.signal == "none":
        return state
    level, missing = state.level, state.missing
    if signal == "full" and rules.level_after_loss == "returns with the signal":
        missing = "nothing"
    elif signal == "none" and level != "none":
        missing = "all"
    elif signal == "lateral only" and _path_from_sbas(level, rules) and missing == "nothing":
        missing = "vertical"
    if missing == "vertical" and rules.level_after_loss == "falls back to LNAV":
        level, missing = "LNAV", "nothing"
    return state.but(signal=signal, level=level, missing=missing)


def _path_from_sbas(level: str, rules: Rules) -> bool:
    return level == "LPV" or (level == "LNAV/VNAV" and rules.baro_vnav == "not approved")


def _pfaf(state: State, rules: Rules, _: str) -> State:
    return state.but(phase="inside") if state.phase == "outside" and state.active else state


def _go_around(state: State, rules: Rules, _: str) -> State:
    if state.phase not in ("outside", "inside"):
        return state
    if rules.go_around == "only with guidance captured" and state.lateral != "captured":
        return state
    selector = state.selector if rules.selector_after_go_around == "stays" else (False, False)
    return state.ended(phase="missed", selector=selector)


def _land(state: State, rules: Rules, _: str) -> State:
    if state.phase not in IN_FLIGHT:
        return state
    return state.ended(
        phase="ground",
        selector=state.selector if rules.selector_after_landing == "stays" else (False, False),
        approach=state.approach if rules.approach_after_landing == "kept" else "none",
    )


def _begin(state: State, rules: Rules, phase: str) -> State:
    return state.but(phase="outside") if state.phase == phase else state


def _power(state: State, rules: Rules, switched: str) -> State:
    if switched == "on" or not state.power:
        return state.but(power=switched == "on")
    return state.ended(
        power=False, approach="none",
        selector=(False, False) if rules.selector_after_power == "off" else state.selector,
        tuned=state.tuned if rules.tuning_after_power == "kept" else (False, False),
    )


_TABLE = (
    ("take off", _begin, "ground"),
    ("load SBAS approach", _load, "SBAS"),
    ("load ILS approach", _load, "ILS"),
    ("activate approach", _activate, ""),
    ("select SBAS", _select, ""),
    ("select SBAS, flying side", _select, SIDES[FLYING]),
    ("select SBAS, monitoring side", _select, SIDES[MONITORING]),
    ("selector off", _selector_off, ""),
    ("selector off, flying side", _selector_off, SIDES[FLYING]),
    ("selector off, monitoring side", _selector_off, SIDES[MONITORING]),
    ("tune localizer", _tune, ""),
    ("tune localizer, flying side", _tune, SIDES[FLYING]),
    ("tune localizer, monitoring side", _tune, SIDES[MONITORING]),
    ("untune localizer", _untune, ""),
    ("untune localizer, flying side", _untune, SIDES[FLYING]),
    ("untune localizer, monitoring side", _untune, SIDES[MONITORING]),
    ("arm approach", _arm, ""),
    ("disarm approach", _disarm, ""),
    ("course reached", _course, ""),
    ("path reached from below", _path, "below"),
    ("path reached from above", _path, "above"),
    ("PFAF passed", _pfaf, ""),
    ("vertical guidance lost", _signal, "lateral only"),
    ("lateral guidance lost", _signal, "none"),
    ("signal returns", _signal, "full"),
    ("go around", _go_around, ""),
    ("next approach", _begin, "missed"),
    ("land", _land, ""),
    ("power off", _power, "off"),
    ("power on", _power, "on"),
)
EVENTS = tuple([row[0] for row in _TABLE])
_ACTIONS = {event: (action, argument) for event, action, argument in _TABLE}
