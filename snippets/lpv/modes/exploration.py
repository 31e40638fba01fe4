"""Every state that a type can get into, and proof of what holds in all of them.

Breadth first over all states and events, so that a property that does not hold is shown with a shortest
sequence of events.  `lpv.aircraft.record` refuses a file that breaks one.
"""

from dataclasses import dataclass
from functools import cache

from lpv.core.errors import Fault
from lpv.modes.annunciation import announce
from lpv.modes.machine import EVENTS, step
from lpv.modes.properties import ALWAYS, AT_EVERY_STEP, NO_TRAP, PROPERTIES, Always, AtEveryStep, NoTrap
from lpv.modes.rules import Rules
from lpv.modes.state import START, State
from lpv.modes.ways import WAY, is_way_out

Property = Always | AtEveryStep | NoTrap
Step = tuple[State, str, State]
Modes = tuple[str, str]


@dataclass(frozen=True)
class Counterexample:
    """A property that does not hold: a shortest sequence of events from the start, and what is shown then."""

    key: str
    statement: str
    rules: tuple[str, ...]
    events: tuple[str, ...]
    shown: tuple[str, ...]


@dataclass(frozen=True)
class Exploration:
    """All that a type can get into.

    states:          how many states can be reached
    tried:           how many pairs of a state and an event were tried
    transitions:     how many of them change the state
    depth:           how many events it takes to reach the state that is farthest from the start
    proven:          keys of the properties that hold, in the order of `mode_properties.PROPERTIES`
    counterexamples: one for each property that does not hold
    follows:         what follows what: (event, (lateral, vertical) before, and after), each once
    """

    states: int
    tried: int
    transitions: int
    depth: int
    proven: tuple[str, ...]
    counterexamples: tuple[Counterexample, ...]
    follows: tuple[tuple[str, Modes, Modes], ...]


def single_events(rules: Rules) -> tuple[str, ...]:
    """The events of a type that are not made of two others: one control, one side, one happening each."""
    double = ["tune localizer", "untune localizer"]
    if rules.selector == "shared":
        double += [event for event in EVENTS if event.startswith("select") and event.endswith(" side")]
    else:
        double += ["select SBAS", "selector off"]
    return tuple(event for event in EVENTS if event not in double)


def explore(rules: Rules) -> Exploration:
    """Step through everything that can happen from the start, and check every property of PROPERTIES."""
    return _explored(tuple(rules.chosen().items()))


def faults_of(found: Exploration, file: str) -> list[Fault]:
    """A Fault of the file, under its key modes, for each property that does not hold; none if all hold."""
    return [_fault(example, file) for example in found.counterexamples]


def _fault(example: Counterexample, file: str) -> Fault:
    events = ", then ".join(f'"{event}"' for event in example.events) or "nothing at all"
    return Fault(
        file, "modes", f"after {events}: {'; '.join(example.shown)}", example.statement,
        f"Correct the rules ({', '.join(example.rules)}) if the type does not do this; "
        "if it does, this handbook cannot describe it as safe.",
    )


@cache
def _explored(chosen: tuple[tuple[str, str | tuple[str, ...]], ...]) -> Exploration:
    rules = Rules(**dict(chosen))
    parents, steps, tried = _all_steps(rules)
    failed = _first_failures(parents, steps, rules)
    return Exploration(
        len(parents), tried, len(steps), len(_way_to(next(reversed(parents)), parents)),
        tuple(rule.key for rule in PROPERTIES if rule.key not in failed),
        tuple(_example(rule, failed[rule.key], rules) for rule in PROPERTIES if rule.key in failed),
        _follows(steps),
    )


def _all_steps(rules: Rules) -> tuple[dict[State, Step | None], list[Step], int]:
    """Each state with the step that first led to it, in the order found; all steps that change something."""
    events = single_events(rules)
    parents: dict[State, Step | None] = {START: None}
    queue, steps = [START], []
    for state in queue:  # grows while it is read
        for event in events:
            after = step(state, event, rules)
            if after == state:
                continue
            taken = (state, event, after)
            steps.append(taken)
            if after not in parents:
                parents[after] = taken
                queue.append(after)
    return parents, steps, len(queue) * len(events)


def _way_to(state: State, parents: dict[State, Step | None]) -> tuple[str, ...]:
    """The events that first led to a state: a shortest sequence."""
    events: list[str] = []
    taken = parents[state]
    while taken:
        events.append(taken[1])
        taken = parents[taken[0]]
    return tuple(reversed(events))


Failure = tuple[tuple[str, ...], State]


def _first_failures(
    parents: dict[State, Step | None], steps: list[Step], rules: Rules
) -> dict[str, Failure]:
    """For each property that does not hold: the events of its first failure, and the state it ends in.

    States and steps come in the order found, nearest first.
    """
    failed: dict[str, Failure] = {}
    for always in ALWAYS:
        bad = next((state for state in parents if not always.holds(state, rules)), None)
        if bad is not None:
            failed[always.key] = _way_to(bad, parents), bad
    for rule in AT_EVERY_STEP:
        taken = next((taken for taken in steps if not rule.holds(*taken, rules)), None)
        if taken is not None:
            failed[rule.key] = (*_way_to(taken[0], parents), taken[1]), taken[2]
    with_way_out = _with_way_out(parents, steps)
    trapped = next((state for state in parents if state not in with_way_out), None)
    if trapped is not None:
        failed[NO_TRAP.key] = _way_to(trapped, parents), trapped
    return failed


def _with_way_out(parents: dict[State, Step | None], steps: list[Step]) -> set[State]:
    """The states from which a way out can be reached: backwards from the ways out."""
    before: dict[State, list[State]] = {}
    for state, event, after in steps:
        if event in WAY:
            before.setdefault(after, []).append(state)
    queue = [state for state in parents if is_way_out(state)]
    found = set(queue)
    for state in queue:  # grows while it is read
        earlier = [one for one in before.get(state, []) if one not in found]
        found.update(earlier)
        queue += dict.fromkeys(earlier)
    return found


def _example(rule: Property, failure: Failure, rules: Rules) -> Counterexample:
    events, state = failure
    return Counterexample(rule.key, rule.statement, rule.rules, events, announce(state, rules))


def _follows(steps: list[Step]) -> tuple[tuple[str, Modes, Modes], ...]:
    found = {
        (event, (before.lateral, before.vertical), (after.lateral, after.vertical))
        for before, event, after in steps
    }
    changed = [row for row in found if row[1] != row[2]]
    return tuple(sorted(changed, key=lambda row: (EVENTS.index(row[0]), row[1:])))
