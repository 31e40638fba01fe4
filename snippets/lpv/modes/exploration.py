"""Every state that a type can get into: proof of what holds in all of them, and what can catch a crew in some.

Breadth first over all states and events, so that a property that does not hold, and a trap, are shown with a
shortest sequence of events.  `lpv.aircraft.record` refuses a file that breaks a property.

Both sides are taken alike, since no rule lets one side's modes depend on what the other has selected; only a
localizer in the other side's receiver can matter, and is tried.  The signal counts while an SBAS approach is loaded.
"""

from collections.abc import Callable
from dataclasses import asdict, dataclass, replace
from functools import cache
from typing import Any

from lpv.core.errors import Fault
from lpv.facts.sources import SOURCES as DOCUMENTS
from lpv.modes.annunciation import announce
from lpv.modes.machine import EVENTS, has_distance, step
from lpv.modes.properties import PROPERTIES, Property, visible
from lpv.modes.reached import Step, never_reached
from lpv.modes.rules import LEVELS, SBAS, Rules, Source
from lpv.modes.state import SIDES, State, start
from lpv.modes.traps import TRAPS, Trap

# Events whose having no effect is itself worth a look.
WITHOUT_EFFECT = ("arm approach", "go around", "path reached from above")
Modes = tuple[str, str]
Chosen = tuple[tuple[str, str | tuple[str, ...] | tuple[Source, ...]], ...]


@dataclass(frozen=True)
class Example:
    """A shortest sequence of events from the start to something, and what is shown then.

    lacking: the words of `announced` that would mend it
    """

    events: tuple[str, ...]
    shown: tuple[str, ...]
    lacking: tuple[str, ...] = ()


@dataclass(frozen=True)
class Exploration:
    """All that a type can get into.

    states:      how many states can be reached
    tried:       how many pairs of a state and an event were tried
    transitions: how many of them change the state
    depth:       how many events it takes to reach the state that is farthest from the start
    proven:      keys of the properties that hold, in the order of `lpv.modes.properties.PROPERTIES`
    broken:      (property, example) for each that does not hold
    traps:       (trap, example) for each of `lpv.modes.traps.TRAPS` that this type has
    follows:     what follows what: (event, (lateral, vertical) before, and after), each once
    never:       what is never armed, captured or flown, as `lpv.modes.reached.never_reached`
    untested:    keys of the properties that nothing in the type puts to the test
    """

    states: int
    tried: int
    transitions: int
    depth: int
    proven: tuple[str, ...]
    broken: tuple[tuple[Property, Example], ...]
    traps: tuple[tuple[Trap, Example], ...]
    follows: tuple[tuple[str, Modes, Modes], ...]
    never: tuple[tuple[str, str], ...] = ()
    untested: tuple[str, ...] = ()


def single_events(rules: Rules) -> tuple[str, ...]:
    """The events that can do something in a type, both sides alike, and a localizer on the other side if it matters."""
    skipped = {event for event in EVENTS if event.rpartition(", ")[2] in SIDES}
    fields = (words for source in rules.sources for words in source.key()[1:])
    either = any("either side" in word for words in fields for word in _words(words))
    if either:
        skipped -= {"tune localizer, monitoring side", "untune localizer, monitoring side"}
    if not has_distance(rules):
        skipped.add("arming distance reached")
    if rules.source_control == "none":
        skipped |= {event for event in EVENTS if event.startswith("select")}
    return tuple(event for event in EVENTS if event not in skipped)


def _words(words: object) -> tuple[str, ...]:
    return words if isinstance(words, tuple) else ()


def explore(rules: Rules) -> Exploration:
    """Step through everything that can happen from the start; check every property, look for every trap.

    Seconds of work for a type with many states: it is done once, by the function that `keep_with` was given.
    """
    return _explored(tuple(rules.chosen().items()))


Explorer = Callable[[Chosen], Exploration]
Keeper = Callable[[Chosen, Explorer], Exploration]
_keeper: Keeper | None = None


def keep_with(keeper: Keeper | None) -> Keeper | None:
    """Ask this first for what a type can get into; it calls the function given to it for what it does not know.

    None: explore everything anew, as at the start.  Returns the one that was asked before.
    """
    global _keeper
    before, _keeper = _keeper, keeper
    _explored.cache_clear()
    return before


def to_fields(exploration: Exploration) -> dict[str, Any]:
    """An exploration as JSON holds it: properties and traps by their keys."""
    fields = asdict(replace(exploration, broken=(), traps=()))
    fields["broken"] = [[broken.key, asdict(example)] for broken, example in exploration.broken]
    fields["traps"] = [[trap.key, asdict(example)] for trap, example in exploration.traps]
    return fields


def from_fields(fields: dict[str, Any]) -> Exploration:
    """The exploration that `to_fields` gave, also after JSON; KeyError where it is of other properties or traps."""
    properties, traps = {item.key: item for item in PROPERTIES}, {item.key: item for item in TRAPS}

    def example(entry: dict[str, Any]) -> Example:
        return Example(tuple(entry["events"]), tuple(entry["shown"]), tuple(entry["lacking"]))

    return Exploration(
        fields["states"], fields["tried"], fields["transitions"], fields["depth"], tuple(fields["proven"]),
        tuple((properties[key], example(entry)) for key, entry in fields["broken"]),
        tuple((traps[key], example(entry)) for key, entry in fields["traps"]),
        tuple((event, (was[0], was[1]), (now[0], now[1])) for event, was, now in fields["follows"]),
        tuple((name, what) for name, what in fields["never"]), tuple(fields["untested"]),
    )


def faults_of(explored: Exploration, file: str) -> list[Fault]:
    """A Fault of the file, under its key modes, for each property that does not hold; none if all hold."""
    return [_fault(broken, example, file) for broken, example in explored.broken]


def _fault(broken: Property, example: Example, file: str) -> Fault:
    events = ", then ".join(f'"{event}"' for event in example.events) or "nothing at all"
    document, place = DOCUMENTS[broken.regulation.source][1], broken.regulation.place
    words = ", ".join(f'"{word}"' for word in example.lacking)
    lacking, add = (
        (f"; not annunciated: {words}", f"Add {words} to announced if the type annunciates it.") if words
        else ("", f"Correct {', '.join(broken.rules)} if the type does not do this."))
    return Fault(
        file, "modes", f"after {events}: {'; '.join(example.shown)}{lacking}",
        f"{broken.statement} ({document}, {place}; {broken.regulation.status})",
        f"{add} No description of it here would be safe to use otherwise.",
    )


@cache
def _explored(chosen: Chosen) -> Exploration:
    return _keeper(chosen, _explore) if _keeper else _explore(chosen)


def _explore(chosen: Chosen) -> Exploration:
    rules = Rules(**dict(chosen))
    parents, steps, tried = _all_steps(rules)
    failed = _first_failures(steps, rules)
    caught = _first_examples(steps, rules)

    def example(taken: Step, broken: Property | None = None) -> Example:
        lacking = broken.lacking(*taken, rules) if broken else ()
        return Example((*_way_to(taken[0], parents), taken[1]), announce(taken[2], rules), lacking)

    return Exploration(
        len(parents), tried, len(steps), len(_way_to(next(reversed(parents)), parents)),
        tuple(rule.key for rule in PROPERTIES if rule.key not in failed),
        tuple((rule, example(failed[rule.key], rule)) for rule in PROPERTIES if rule.key in failed),
        tuple((trap, example(caught[trap.key])) for trap in TRAPS if trap.key in caught),
        _follows(steps), never_reached(start(rules), steps, rules),
        tuple(rule.key for rule in PROPERTIES if not any(rule.tested(*taken, rules) for taken in steps)),
    )


def _all_steps(rules: Rules) -> tuple[dict[State, Step | None], list[Step], int]:
    """Each state with the step that first led to it, in the order reached; all steps, those that do nothing too."""
    events = single_events(rules)
    begin = start(rules)
    parents: dict[State, Step | None] = {begin: None}
    queue, steps, tried = [begin], [], 0
    for state in queue:  # grows while it is read
        for event in events:
            after = _signal_counts(step(state, event, rules))
            tried += 1
            taken = (state, event, after)
            if after == state:
                if event in WITHOUT_EFFECT:
                    steps.append((state, event, state))
                continue
            steps.append(taken)
            if after not in parents:
                parents[after] = taken
                queue.append(after)
    return parents, steps, tried


def _signal_counts(state: State) -> State:
    """The same with a full signal where no SBAS approach is loaded: what it supports then makes no difference."""
    return state if state.approach == SBAS or state.signal == LEVELS[0] else state.but(signal=LEVELS[0])


def _way_to(state: State, parents: dict[State, Step | None]) -> tuple[str, ...]:
    """The events that first led to a state: a shortest sequence."""
    events: list[str] = []
    taken = parents[state]
    while taken:
        events.append(taken[1])
        taken = parents[taken[0]]
    return tuple(reversed(events))


def _first_failures(steps: list[Step], rules: Rules) -> dict[str, Step]:
    """For each property that does not hold, the first step that breaks it; steps come nearest first."""
    failed: dict[str, Step] = {}
    shown: dict[State, tuple[object, object]] = {}
    for taken in steps:
        before, event, after = taken
        for state in (before, after):
            if state not in shown:
                shown[state] = visible(state, rules), announce(state, rules)
        for rule in PROPERTIES:
            if rule.key in failed:
                continue
            if rule.key == "change-announced":
                (seen_before, told_before), (seen_after, told_after) = shown[before], shown[after]
                holds = seen_before == seen_after or told_before != told_after
            else:
                holds = rule.holds(before, event, after, rules)
            if not holds:
                failed[rule.key] = taken
    return failed


def _first_examples(steps: list[Step], rules: Rules) -> dict[str, Step]:
    """For each trap that the type has, the first step that shows it."""
    caught: dict[str, Step] = {}
    waiting: dict[str, list[Trap]] = {}
    for trap in TRAPS:
        for event in trap.events:
            waiting.setdefault(event, []).append(trap)
    for taken in steps:
        for trap in waiting.get(taken[1], ()):
            if trap.key not in caught and trap.happens(*taken, rules):
                caught[trap.key] = taken
    return caught


def _follows(steps: list[Step]) -> tuple[tuple[str, Modes, Modes], ...]:
    rows = {
        (event, (before.lateral, before.vertical), (after.lateral, after.vertical))
        for before, event, after in steps
    }
    changed = [row for row in rows if row[1] != row[2]]
    return tuple(sorted(changed, key=lambda row: (EVENTS.index(row[0]), row[1:])))
