"""What becomes of the selected source in a type: with a localizer tuned, without power, on two sides.

Every answer comes from stepping the state machine.  None depends on a rule that does not go to the phone
(`lpv.modes.rules.SENT`), so that the phone says what the command says.
"""

from lpv.modes.machine import run, step, with_localizers
from lpv.modes.rules import ARMING, ILS, SBAS, SOURCES, Rules
from lpv.modes.state import (
    FLYING,
    MONITORING,
    START,
    State,
    coming_source,
    fallback,
    lateral_source,
    source,
    start,
)

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from typing import TypeVar

    Answer = TypeVar("Answer")

APPROACHES = (SBAS, ILS)
SELECT = tuple(["select " + name for name in SOURCES])
LOAD = tuple(["load " + name + " approach" for name in APPROACHES])
ONE_SIDE = ("tune localizer, flying side", "untune localizer, flying side", "tune localizer, monitoring side",
            "untune localizer, monitoring side")
DURING = ("activate approach", "arm approach", "PFAF passed", "go around", "land", "lateral guidance lost")
TUNE = ("tune localizer", "untune localizer")
PARKED = SELECT + ("selector off",) + TUNE + LOAD  # noqa: RUF005
# What a crew may do to have SBAS as the source, the least first; the localizer is untuned before.
TO_SBAS = (
    (), ("select SBAS",), ("activate approach",), ("load SBAS approach",), ("load SBAS approach", "activate approach"),
    ("selector off",), ("select FMS lateral navigation",),
)
# What a crew may do before it leaves, the least first.
LEAVING = ("selector off", "select FMS lateral navigation", "select ILS", "select SBAS")


def with_sbas_active(rules: Rules) -> State:
    """In flight with the SBAS approach active, before anything is selected."""
    return run(["take off", "load SBAS approach", "activate approach"], rules)


def tuned_effect(rules: Rules) -> str:
    """What a tuned localizer does while SBAS is selected.

    "no effect"; "takes over its side": the ILS is shown there; "takes SBAS away" and "inhibits SBAS", each with
    "on both sides" or "on its side": another source is shown, or SBAS without guidance.
    """
    tuned = with_localizers(with_sbas_active(rules).but(selected=(SBAS, SBAS)), (False, True), rules)
    shown = source(tuned, MONITORING, rules)
    if shown == ILS:
        return "takes over its side"
    if shown == SBAS and lateral_source(tuned, rules, MONITORING):
        return "no effect"
    what = "inhibits SBAS on " if shown == SBAS else "takes SBAS away on "
    return what + ("its side" if lateral_source(tuned, rules, FLYING) == SBAS else "both sides")


def ils_comes(rules: Rules) -> str:
    """By what the ILS would be shown where SBAS was selected and a localizer is tuned; "" if by nothing.

    "selector off", "SBAS taken away"; "armed" or "captured", with "before activation" or "without guidance";
    "selected"; "approach loaded", "approach activated".
    """
    tuned = with_localizers(with_sbas_active(rules).but(selected=(SBAS, SBAS)), (True, True), rules)
    if source(step(tuned, "selector off", rules), FLYING, rules) == ILS:
        return "selector off"
    if fallback(tuned.but(selected=("", "")), rules, FLYING) == ILS:
        return "SBAS taken away"
    blind = tuned.but(level="none")
    for state, when in ((blind, "without guidance"), (blind.but(active=False), "before activation")):
        if coming_source(state, rules, FLYING) == ILS:
            row = rules.source(ILS)
            return ("armed " if row is not None and ARMING in row.selected_by else "captured ") + when
    for events, how in (
        (("select ILS",), "selected"), (LOAD[1:], "approach loaded"),
        (("load ILS approach", "activate approach", "arming distance reached", "PFAF passed"), "approach activated"),
    ):
        if source(run(events, rules, tuned), FLYING, rules) == ILS:
            return how
    return ""


def instead_of_sbas(rules: Rules) -> str:
    """The source that takes the place of SBAS, taken away on an active SBAS approach with a localizer tuned."""
    tuned = with_localizers(with_sbas_active(rules).but(selected=(SBAS, SBAS)), (True, True), rules)
    return fallback(tuned.but(selected=("", "")), rules, FLYING)


def to_sbas(state: State, side: int, rules: Rules) -> "tuple[str, ...] | None":
    """What selects SBAS on a side, or has it come with its course, once no localizer is tuned; () if that does.

    Events; None where the type has no way in this state.
    """
    clear = step(state, "untune localizer", rules)
    for events in TO_SBAS:
        after = run(events, rules, clear)
        guide = lateral_source(after, rules, side) or coming_source(after, rules, side)
        if after.active and guide == SBAS:
            return events
    return None


def stays_selected(after: State, rules: Rules) -> bool:
    """Whether a source is selected that would not be there by itself."""
    return after.selected[FLYING] != fallback(after, rules, FLYING)


def kept_without_power(rules: Rules) -> "tuple[str, ...]":
    """The sources that, selected when power is removed on the ground, are there again at power-up, not by themselves.

    In the order of SOURCES; the next crew inherits them.
    """
    return _left_behind(rules)[0]


def leaves_none(rules: Rules) -> str:
    """What a crew does before it leaves so that no source is kept: one of LEAVING; "" where no one thing does it."""
    return _left_behind(rules)[1]


_left = {}  # type: dict[tuple[object, ...], tuple[tuple[str, ...], str]]
_shown = {}  # type: dict[tuple[object, ...], bool]
MOST_KNOWN = 100
"""Types, and pairs of sources, whose answers are remembered: the set-up check asks again at every entry."""


def _left_behind(rules: Rules) -> "tuple[tuple[str, ...], str]":
    """What `kept_without_power` and `leaves_none` say, worked out once for a type."""
    def work_out() -> "tuple[tuple[str, ...], str]":
        states = [state for state in _parked(rules) if stays_selected(_powered_down(state, rules), rules)]
        kept = [_powered_down(state, rules).selected[FLYING] for state in states]
        return tuple([name for name in SOURCES if name in kept]), _leaving(states, rules)

    return _remembered(_left, tuple(rules.chosen().values()), work_out)


def _remembered(known: "dict[tuple[object, ...], Answer]", key: "tuple[object, ...]",
                work_out: "Callable[[], Answer]") -> "Answer":
    """What was worked out for a key, now or before."""
    if key not in known:
        if len(known) >= MOST_KNOWN:
            known.clear()
        known[key] = work_out()
    return known[key]


def _leaving(states: "list[State]", rules: Rules) -> str:
    """The first of LEAVING after which power takes the source away from all of these states."""
    for event in LEAVING:
        left = [_powered_down(step(state, event, rules), rules) for state in states]
        if not [state for state in left if stays_selected(state, rules)]:
            return event
    return ""


def _powered_down(state: State, rules: Rules) -> State:
    return step(state, "power off", rules)


def _parked(rules: Rules) -> "list[State]":
    """How an aircraft can stand parked: after a landing, and after what a crew sets on the ground."""
    return reached_by(PARKED, rules, [start(rules)] + _landed(rules))  # noqa: RUF005


def reached_by(events: "tuple[str, ...]", rules: Rules, begin: "list[State]") -> "list[State]":
    """These states, and every one that these events lead to from them, the nearest first."""
    return list(_search(begin, lambda state: [step(state, event, rules) for event in events]))


def _search(begin: "list[State]", after: "Callable[[State], list[State]]") -> "Iterator[State]":
    """These states, and every one that comes after one of them, the nearest first."""
    queue, met = list(begin), set(begin)
    for state in queue:
        yield state
        for following in after(state):
            if following not in met:
                met.add(following)
                queue.append(following)


def _landed(rules: Rules) -> "list[State]":
    """After landings from either approach, with each source that can be selected or captured on it."""
    landed = []
    for name in APPROACHES:
        for events in ((), TUNE[:1]):
            begin = run(("take off", "load " + name + " approach") + events, rules)  # noqa: RUF005
            begin = run(("activate approach", "arming distance reached"), rules, begin)
            begin = run(("FMS lateral mode", "arm approach"), rules, begin)
            for select in ("",) + SELECT:  # noqa: RUF005
                state = step(begin, select, rules) if select else begin
                landed += [run(("PFAF passed", "land"), rules, each) for each in [state] + _met(state, rules)]  # noqa: RUF005
    return landed


def _met(state: State, rules: Rules) -> "list[State]":
    """The course met while armed, from either lateral mode."""
    return [
        step(state.but(lateral="armed", near=True, fms=fms), "course reached", rules) for fms in (False, True)]


def can_show(left: str, right: str, rules: Rules) -> bool:
    """Whether the two sides of a type can have these sources selected at the same time."""
    if left == right or rules.source_control == "per side":
        return True
    key = tuple([left, right] + list(rules.chosen().values()))  # noqa: RUF005
    return _remembered(_shown, key, lambda: _is_reachable(left, right, rules))


def _is_reachable(left: str, right: str, rules: Rules) -> bool:
    """Whether anything that may happen leads to these two selected."""
    for state in _search([_only_selected(start(rules))], lambda state: _one_more(state, rules)):
        if sorted(state.selected) == sorted((left, right)):
            return True
    return False


def _one_more(state: State, rules: Rules) -> "list[State]":
    """After each thing that may happen next: what is selected, tuned and loaded then."""
    events = PARKED + ONE_SIDE + DURING
    following = [step(state, event, rules) for event in events] + _met(state, rules)
    return [_only_selected(after) for after in following]


def _only_selected(state: State) -> State:
    """In flight before the PFAF, with the same selected, tuned and loaded, and nothing followed."""
    level = "LPV" if state.active and state.approach == SBAS else "none"
    return START.but(phase="outside", near=True, approach=state.approach, active=state.active, level=level,
                     selected=state.selected, tuned=state.tuned)
