"""Tables of what the modes of a type do, shared by its own page and by the pages of the tasks."""

from collections.abc import Sequence

from lpv.modes.exploration import Exploration
from lpv.modes.machine import EVENTS, run
from lpv.modes.rules import RULES, Rules
from lpv.modes.state import FLYING, START, lateral_source, source
from lpv.modes.ways import Seen, left_behind, next_crew
from lpv_site.text.table import table

MARKS = {"right": "✓", "no guidance": "?", "another source": "✕"}
ENDS = ("disarm approach", "go around", "land", "power off")
STATES = ("inactive", "armed", "captured", "lost")


def follows_table(found: Exploration) -> str:
    """What follows what: events that do the same stand in one row; what loses guidance comes last.

    "may" is understood: a change is listed where it can happen in some state that can be reached.
    """
    axes = {event: (_changes(found, event, 0), _changes(found, event, 1)) for event in EVENTS}
    merged: dict[tuple[str, str], list[str]] = {}
    for event, changes in axes.items():
        if any(changes) and event not in ENDS:
            merged.setdefault(changes, []).append(event)
    in_order = sorted(merged.items(), key=lambda row: "lost**" in "".join(row[0]))
    rows = [(",<br>".join(events), lateral, vertical) for (lateral, vertical), events in in_order]
    rows.append((", ".join(ENDS), "→ inactive", "→ inactive"))
    return table(["event", "lateral", "vertical"], rows, left=3)


def _changes(found: Exploration, event: str, axis: int) -> str:
    """The changes of one axis at an event: "armed, captured → lost"; "" if it never changes."""
    before: dict[str, set[str]] = {}
    for name, was, becomes in found.follows:
        if name == event and was[axis] != becomes[axis]:
            before.setdefault(becomes[axis], set()).add(was[axis])
    return "<br>".join(
        f"{', '.join(state for state in STATES if state in before[after])} → **{after}**"
        for after in STATES if after in before
    )


def seen_words(seen: Seen) -> str:
    """What the next crew sees, both sides being alike: a mark, words, and what puts it right."""
    guided = seen.sources[FLYING] != "SBAS" or seen.guides[FLYING] == "SBAS"
    words = seen.sources[FLYING] + ("" if guided else ", no guidance")
    if seen.verdict == "right":
        return f"{MARKS[seen.verdict]} {words}"
    return f"{MARKS[seen.verdict]} **{words}**<br>→ {', then '.join(seen.remedy)}"


def next_crew_table(rules: Rules) -> str:
    """The state left behind against what the next crew sees, by what it flies."""
    rows: dict[str, list[str]] = {}
    for seen in next_crew(rules):
        left_as = _words(seen.selector[FLYING], seen.tuned[FLYING])
        rows.setdefault(left_as, []).append(seen_words(seen))
    return table(
        ["selector, localizer", "next: SBAS", "next: ILS"],
        [(left_as, *cells) for left_as, cells in rows.items()], left=3,
    )


def _words(selector: bool, tuned: bool) -> str:
    return f"{'on' if selector else 'off'}, {'tuned' if tuned else 'none'}"


def left_table(rules: Rules) -> str:
    """What a go-around, a landing and the removal of power leave set."""
    rows = [
        (events.replace(", power on", ""), "**on**" if selector else "off", "loaded" if loaded else "cleared",
         "tuned" if tuned else "cleared")
        for events, selector, loaded, tuned in left_behind(rules)
    ]
    return table(["after", "selector", "approach", "localizer"], rows, left=4)


def power_told(types: Sequence[tuple[str, Rules]]) -> str:
    """What the removal of power does to the source selector, as the files of the types state it: (name, rules)."""
    stays = [name for name, rules in types if rules.selector_after_power == "stays"]
    rest = "the selector is off once power has been removed"
    if not stays:
        return f"As each type's own file states, and proven: {rest}."
    others = f" In every other type shown here {rest}." if len(stays) < len(types) else ""
    return (
        f"**In {', '.join(stays)} the selector survives the removal of power:** what one crew selects, the next one "
        f"finds, days later too. Turn it off before you leave; read it at every power-up.{others}"
    )


def shown_table(types: Sequence[tuple[str, Rules]]) -> str:
    """What a side shows by its selector and its receiver, for up to three types: (name, rules)."""
    rows = [
        (_words(selector, tuned), *[_shown(selector, tuned, rules) for _, rules in types])
        for selector in (True, False) for tuned in (False, True)
    ]
    return table(["selector, localizer", *[name for name, _ in types]], rows, left=1 + len(types))


def _shown(selector: bool, tuned: bool, rules: Rules) -> str:
    state = run(["take off", "load SBAS approach", "activate approach"], rules, START.but(
        selector=(selector, selector), tuned=(tuned, tuned)))
    name = source(state, FLYING, rules)
    if name == "SBAS":
        return "✓ SBAS" if lateral_source(state, rules) else "✕ **SBAS, no guidance**"
    return f"{'✕ ' if name == 'ILS' else ''}**{name}**"


def rules_table(rules: Rules) -> str:
    """Every rule in words with what the type does."""
    rows = [(what, f"**{getattr(rules, key)}**") for key, (what, _) in RULES.items()]
    return table(["question", "this type"], [*rows, ("what is announced", ", ".join(rules.announced))], left=2)


def differences_table(types: Sequence[tuple[str, Rules]]) -> str:
    """The rules in which up to three types differ: (name, rules)."""
    rows = [
        (what, *[getattr(rules, key) for _, rules in types])
        for key, (what, _) in RULES.items()
        if len({getattr(rules, key) for _, rules in types}) > 1
    ]
    return table(["question", *[name for name, _ in types]], rows, left=1 + len(types))
