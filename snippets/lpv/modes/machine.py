"""How approach guidance behaves: a state machine whose rules come from the aircraft file.

`step` gives the state after one event.  It is pure; an event that a state has no use for (to arm on
the ground, to reach a path that is not armed) leaves it as it was.  Rules: `lpv.modes.rules`; states:
`lpv.modes.state`; words for people: `lpv.modes.annunciation`; proofs over all states: `lpv.modes.exploration`.
"""

from lpv.core.errors import DomainError, shown
from lpv.modes.rules import (
    ARMING,
    BY_HAND,
    CAPTURED,
    CONTROL,
    FMS,
    ILS,
    LEVELS,
    NOT_WITH_SBAS,
    SBAS,
    Rules,
    usual_rules,
)
from lpv.modes.state import (
    FLYING,
    MONITORING,
    SIDES,
    State,
    fallback,
    followed_path,
    followed_source,
    guides,
    lateral_source,
    level_at_activation,
    offered,
    path_from_sbas,
    source,
    start,
    vertical_source,
)

IN_FLIGHT = ("outside", "inside", "missed")
FOLLOWS = ("armed", "captured")
BOTH = (FLYING, MONITORING)


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
    after = state if after is state or after == state else _settled(state, after, rules)
    if _ARMS.get(event, "") in rules.armed_by and (after is not state or event == "activate approach"):
        after = _settled(after, _armed(after, rules), rules)
    return after


def run(events: "list[str] | tuple[str, ...]", rules: Rules, begin: "State | None" = None) -> State:
    """The state after a sequence of events, from `lpv.modes.state.start` (parked, powered) unless given."""
    state = start(rules) if begin is None else begin
    for event in events:
        state = step(state, event, rules)
    return state


def run_usual(events: "list[str]", other: "dict[str, str]") -> State:
    """`run` with the usual rules, except those named in `other`."""
    return run(events, usual_rules(**other))


def with_localizers(state: State, tuned: "tuple[bool, bool]", rules: Rules) -> State:
    """The state with localizers tuned on these sides, and what that does to the sources of the type.

    Where a localizer cannot be tuned in this state, it was tuned before.
    """
    for side in BOTH:
        if tuned[side]:
            state = step(state, "tune localizer, " + SIDES[side], rules)
            if not state.tuned[side]:
                before = state.but(tuned=(True, state.tuned[1]) if side == 0 else (state.tuned[0], True))
                state = _settled(state, _selection(before, rules, ("none", ""), "", BOTH), rules)
    return state


def _settled(before: State, after: State, rules: Rules) -> State:
    """What the modes become when what they follow has gone, has changed or has come back."""
    lateral_now, path_now = followed_source(after, rules), followed_path(after, rules)
    lateral = _mode(
        before.lateral, after.lateral, followed_source(before, rules), lateral_now, rules.when_lateral_lost, rules)
    vertical = _mode(
        before.vertical, after.vertical, followed_path(before, rules), path_now, rules.when_vertical_lost, rules)
    if vertical == "armed" and lateral_now and not path_now:
        vertical = _without_source(vertical, rules.when_vertical_lost)
    fms = after.fms and lateral != "captured" and (
        rules.fms_lateral != "with FMS selected" or source(after, FLYING, rules) == FMS)
    if (lateral, vertical, fms) == (after.lateral, after.vertical, after.fms):
        return after
    return after.but(lateral=lateral, vertical=vertical, fms=fms)


def _mode(before: str, mode: str, was: str, now: str, when_lost: str, rules: Rules) -> str:
    if mode in FOLLOWS and before in FOLLOWS and was and now != was:
        return _without_source(mode, when_lost)
    if mode == "lost" and now and not was and rules.recapture == "by itself":
        return "captured"
    return mode


def _without_source(mode: str, when_lost: str) -> str:
    return {"lost": "lost", "basic mode": "inactive", "armed": "armed", "unchanged": mode}[when_lost]


# The selection of the source.


def _selection(state: State, rules: Rules, selects: "tuple[str, str]", removes: str, sides: "tuple[int, ...]") -> State:
    """The state with the sources that something selects and takes away on these sides.

    selects: (name of a source or "" for any, what happened as in SELECTED_BY); removes: as in REMOVED_BY
    What is no longer offered is taken away on both sides, in types that do so.
    """
    now = state
    for side in BOTH:
        current = rules.source(now.selected[side])
        removed = current is not None and (
            (side in sides and removes in current.removed_by)
            or ("no longer offered" in current.removed_by and not offered(current, now, side)))
        if removed:
            now = _with_source(now, side, "")
        chosen = _chosen(now, rules, selects, side) if side in sides else ""
        if chosen or removed:
            now = _with_source(now, side, chosen or fallback(now, rules, side))
    return state if now.selected == state.selected else now


def _with_source(state: State, side: int, name: str) -> State:
    """The same with another source selected on a side."""
    if state.selected[side] == name:
        return state
    return state.but(selected=(name, state.selected[MONITORING]) if side == FLYING else (state.selected[FLYING], name))


def _chosen(state: State, rules: Rules, selects: "tuple[str, str]", side: int) -> str:
    """The first source of the list that this event selects; "" if it selects none."""
    name, word = selects
    for candidate in rules.sources:
        if name in ("", candidate.name) and word in candidate.selected_by and offered(candidate, state, side):
            return candidate.name
    return ""


def _control_sides(side: str, rules: Rules) -> "tuple[int, ...]":
    """The sides that a source control acts on."""
    if rules.source_control == "none":
        return ()
    if rules.source_control == "shared" or not side:
        return BOTH
    return (SIDES.index(side),)


def _select(state: State, rules: Rules, what: str) -> State:
    name, _, side = what.partition(", ")
    return _selection(state, rules, (name, CONTROL), "", _control_sides(side, rules))


def _selector_off(state: State, rules: Rules, side: str) -> State:
    return _selection(state, rules, ("none", ""), CONTROL, _control_sides(side, rules))


def _tune(state: State, rules: Rules, side: str) -> State:
    sides: tuple[int, ...] = BOTH if not side else (SIDES.index(side),)
    if rules.localizer_tuning == NOT_WITH_SBAS:
        sides = tuple([number for number in sides if state.selected[number] != SBAS])
        if not sides:
            return state
    after = state.but(tuned=(state.tuned[0] or 0 in sides, state.tuned[1] or 1 in sides))
    word = "tuning a localizer on {} side"
    after = _selection(after, rules, ("", word.format("this")), word.format("this"), sides)
    return _selection(after, rules, ("", word.format("either")), word.format("either"), BOTH)


def _untune(state: State, rules: Rules, side: str) -> State:
    sides = BOTH if not side else (SIDES.index(side),)
    after = state.but(tuned=(state.tuned[0] and 0 not in sides, state.tuned[1] and 1 not in sides))
    return _selection(after, rules, ("none", ""), "untuning the localizer", sides)


# What each event does.  An action takes the state, the rules and the argument of its row in the table,
# and returns an equal state where the event has no effect.


def _load(state: State, rules: Rules, approach: str) -> State:
    after = state.but(approach=approach, near=False, active=False, level="none", missing="nothing")
    removes = "" if state.approach == approach else "loading another approach"
    return _selection(after, rules, (approach, "loading its approach"), removes, BOTH)


def _activate(state: State, rules: Rules, _: str) -> State:
    if state.approach == "none" or state.phase not in ("outside", "missed"):
        return state
    level = "none"
    if state.approach == SBAS:
        level = level_at_activation(state.signal, rules.best_level, rules.baro_vnav)
    after = state.but(active=True, phase="outside", level=level, missing="nothing")
    return _selection(after, rules, (state.approach, "activating its approach"), "", BOTH)


def _arm(state: State, rules: Rules, _: str) -> State:
    return _armed(state, rules) if "its control" in rules.armed_by else state


def _armed(state: State, rules: Rules) -> State:
    """Armed, where the type allows it: lateral, and vertical as far as it arms together."""
    if state.phase not in ("outside", "inside") or not _may_arm(state, rules):
        return state
    blind = "a guiding source" not in rules.arming_needs and not followed_source(state, rules)
    lateral = state.lateral
    if lateral in ("inactive", "lost") and (blind or followed_source(state, rules)):
        lateral = "armed"
    after = state.but(lateral=lateral)
    if rules.vertical_arms != "by its own control" and (
        rules.vertical_arms == "with lateral" or lateral == "captured"
    ):
        after = _path_armed(after, rules, blind)
    elif after.vertical == "lost":
        after = after.but(vertical="inactive")
    if after.lateral == state.lateral:
        return after
    return _selection(after, rules, (followed_source(after, rules) or "none", ARMING), "", BOTH)


def _may_arm(state: State, rules: Rules) -> bool:
    """Whether everything holds that arming needs, besides a source; outside the distance some types wait for it."""
    needs = rules.arming_needs
    near = state.near or "the arming distance" not in needs or rules.arming_too_early == "waits"
    return (
        near and (state.active or "an active approach" not in needs)
        and (state.level != "none" or "a level of service" not in needs)
        and (state.phase == "outside" or "before the PFAF" not in needs)
        and (state.fms or state.lateral == "captured" or "the FMS lateral mode" not in needs)
    )


def _path_armed(state: State, rules: Rules, blind: bool) -> State:
    if state.vertical in ("inactive", "lost") and (blind or followed_path(state, rules)):
        return state.but(vertical="armed")
    return state


def _arm_path(state: State, rules: Rules, _: str) -> State:
    if rules.vertical_arms != "by its own control" or state.phase not in ("outside", "inside"):
        return state
    return _path_armed(state, rules, False) if _may_arm(state, rules) else state


def _disarm(state: State, rules: Rules, _: str) -> State:
    return state.but(lateral="inactive", vertical="inactive")


def _fms_mode(state: State, rules: Rules, _: str) -> State:
    """The FMS lateral mode, which takes the place of a captured course."""
    if rules.fms_lateral == "none" or state.phase not in IN_FLIGHT:
        return state
    if rules.fms_lateral == "with FMS selected" and source(state, FLYING, rules) != FMS:
        return state
    return _released(state, rules).but(fms=True)


def _heading_mode(state: State, rules: Rules, _: str) -> State:
    """The basic lateral mode, which takes the place of whatever was captured; armed modes stay armed."""
    return _released(state, rules).but(fms=False) if state.phase in IN_FLIGHT else state


def _released(state: State, rules: Rules) -> State:
    if state.lateral != "captured":
        return state
    vertical = "inactive" if rules.vertical_capture == "after lateral" else state.vertical
    return state.but(lateral="inactive", vertical=vertical)


def _course(state: State, rules: Rules, _: str) -> State:
    name = followed_source(state, rules)
    if state.lateral != "armed" or not name or not _captures_here(state, rules):
        return state
    after = _selection(state, rules, (name, CAPTURED), "", BOTH)
    if lateral_source(after, rules) != name:
        return state
    arms = rules.vertical_arms == "once lateral is captured" and state.vertical == "inactive"
    vertical = "armed" if arms and vertical_source(after, rules) else state.vertical
    return after.but(lateral="captured", vertical=vertical, fms=False)


def _captures_here(state: State, rules: Rules) -> bool:
    """Whether the course may be captured from the lateral mode that flies, at this distance."""
    if "the arming distance" in rules.arming_needs and not state.near:
        return False
    return rules.captures_from == "any mode" or state.fms == (rules.captures_from == "FMS lateral only")


def _path(state: State, rules: Rules, met_from: str) -> State:
    if state.vertical != "armed" or not vertical_source(state, rules):
        return state
    if state.lateral != "captured" and rules.vertical_capture == "after lateral":
        return state
    if met_from == "above" and rules.path_from_above == "stays armed":
        return state
    return state.but(vertical="captured")


def _near(state: State, rules: Rules, _: str) -> State:
    """Within the distance at which the type arms; only where it has one."""
    if state.near or state.phase not in ("outside", "inside") or not has_distance(rules):
        return state
    return _selection(state.but(near=True), rules, (state.approach, "coming within the arming distance"), "", BOTH)


def has_distance(rules: Rules) -> bool:
    """Whether anything in a type depends on the distance at which it arms."""
    word = "coming within the arming distance"
    selects = [row for row in rules.sources if word in row.selected_by]
    return "the arming distance" in rules.arming_needs or word in rules.armed_by or selects != []


def _pfaf(state: State, rules: Rules, _: str) -> State:
    if state.phase != "outside" or not state.active:
        return state
    return _selection(state.but(phase="inside"), rules, (state.approach, "passing the PFAF"), "", BOTH)


def _signal(state: State, rules: Rules, signal: str) -> State:
    """What SBAS supports has become worse, or everything is back."""
    if signal != LEVELS[0] and LEVELS.index(signal) <= LEVELS.index(state.signal):
        return state
    after = state.but(signal=signal)
    if state.approach != SBAS or not state.active:
        return after
    inside = state.phase == "inside"
    level, missing = _returned(after, rules, inside) if signal == LEVELS[0] else _fallen(after, rules, inside)
    after = after.but(level=level, missing=missing)
    lost = guides(SBAS, state, rules) and not guides(SBAS, after, rules)
    return _selection(after, rules, ("none", ""), "its guidance lost", BOTH) if lost else after


def _returned(state: State, rules: Rules, inside: bool) -> "tuple[str, str]":
    """(level, what is flagged) once SBAS supports everything again."""
    by_itself = (rules.level_returns_inside if inside else rules.level_returns_outside) == "with the signal"
    if not by_itself:
        return state.level, state.missing
    return level_at_activation(state.signal, rules.best_level, rules.baro_vnav), "nothing"


def _fallen(state: State, rules: Rules, inside: bool) -> "tuple[str, str]":
    """(level, what is flagged) after the signal has become worse."""
    if state.level == "none" or not _affected(state, rules):
        return state.level, state.missing
    how = rules.level_falls_inside if inside else rules.level_falls_outside
    if how == "stays, flagged":
        return state.level, "all" if state.signal == "none" else "vertical"
    if how == "falls to LNAV" and state.signal != "none":
        return "LNAV", "nothing"
    return level_at_activation(state.signal, rules.best_level, rules.baro_vnav), "nothing"


def _affected(state: State, rules: Rules) -> bool:
    """Whether the level announced needs more than SBAS supports now."""
    if state.signal == "none" or state.missing == "all":
        return state.missing != "all"
    path = path_from_sbas(state.level, rules)
    return path and LEVELS.index(state.signal) > LEVELS.index(state.level)


def _go_around(state: State, rules: Rules, _: str) -> State:
    if state.phase not in ("outside", "inside"):
        return state
    if rules.go_around == "only with guidance captured" and state.lateral != "captured":
        return state
    follows = rules.go_around_roll == "FMS lateral" and rules.fms_lateral != "none" and rules.go_around != BY_HAND
    return _selection(
        state.ended(phase="missed", near=False, fms=follows), rules, ("none", ""), "go-around", BOTH)


def _land(state: State, rules: Rules, _: str) -> State:
    if state.phase not in IN_FLIGHT:
        return state
    approach = state.approach if rules.approach_after_landing == "kept" else "none"
    return _selection(
        state.ended(phase="ground", near=False, approach=approach), rules, ("none", ""), "landing", BOTH)


def _begin(state: State, rules: Rules, phase: str) -> State:
    return state.but(phase="outside") if state.phase == phase else state


def _power(state: State, rules: Rules, switched: str) -> State:
    if switched == "on" or not state.power:
        return state.but(power=switched == "on")
    after = state.ended(
        near=False, approach=state.approach if rules.approach_after_power == "kept" else "none",
        tuned=state.tuned if rules.tuning_after_power == "kept" else (False, False),
    )
    return _selection(after, rules, ("none", ""), "removal of power", BOTH).but(power=False)


_TABLE = (
    ("take off", _begin, "ground"),
    ("load SBAS approach", _load, SBAS),
    ("load ILS approach", _load, ILS),
    ("activate approach", _activate, ""),
    ("select SBAS", _select, SBAS),
    ("select SBAS, flying side", _select, SBAS + ", " + SIDES[FLYING]),
    ("select SBAS, monitoring side", _select, SBAS + ", " + SIDES[MONITORING]),
    ("select ILS", _select, ILS),
    ("select ILS, flying side", _select, ILS + ", " + SIDES[FLYING]),
    ("select ILS, monitoring side", _select, ILS + ", " + SIDES[MONITORING]),
    ("select FMS lateral navigation", _select, FMS),
    ("select FMS lateral navigation, flying side", _select, FMS + ", " + SIDES[FLYING]),
    ("select FMS lateral navigation, monitoring side", _select, FMS + ", " + SIDES[MONITORING]),
    ("selector off", _selector_off, ""),
    ("selector off, flying side", _selector_off, SIDES[FLYING]),
    ("selector off, monitoring side", _selector_off, SIDES[MONITORING]),
    ("tune localizer", _tune, ""),
    ("tune localizer, flying side", _tune, SIDES[FLYING]),
    ("tune localizer, monitoring side", _tune, SIDES[MONITORING]),
    ("untune localizer", _untune, ""),
    ("untune localizer, flying side", _untune, SIDES[FLYING]),
    ("untune localizer, monitoring side", _untune, SIDES[MONITORING]),
    ("FMS lateral mode", _fms_mode, ""),
    ("heading mode", _heading_mode, ""),
    ("arming distance reached", _near, ""),
    ("arm approach", _arm, ""),
    ("arm path", _arm_path, ""),
    ("disarm approach", _disarm, ""),
    ("course reached", _course, ""),
    ("path reached from below", _path, "below"),
    ("path reached from above", _path, "above"),
    ("PFAF passed", _pfaf, ""),
    ("signal falls to LNAV/VNAV", _signal, "LNAV/VNAV"),
    ("vertical guidance lost", _signal, "LNAV"),
    ("lateral guidance lost", _signal, "none"),
    ("signal returns", _signal, "LPV"),
    ("go around", _go_around, ""),
    ("next approach", _begin, "missed"),
    ("land", _land, ""),
    ("power off", _power, "off"),
    ("power on", _power, "on"),
)
EVENTS = tuple([row[0] for row in _TABLE])
# Events by which some types arm the approach: the word that their files say it with.
_ARMS = {
    "activate approach": "activating the approach", "FMS lateral mode": "the FMS lateral mode",
    "arming distance reached": "coming within the arming distance",
}
_ACTIONS = {event: (action, argument) for event, action, argument in _TABLE}
