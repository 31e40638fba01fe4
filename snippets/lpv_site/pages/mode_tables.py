"""Tables of what the modes of a type do, shared by its own page and by the pages of the tasks."""

from collections.abc import Sequence

from lpv.core.spoken import spoken
from lpv.modes.exploration import Exploration
from lpv.modes.levels import PLACES, Change, level_changes
from lpv.modes.machine import EVENTS, run, with_localizers
from lpv.modes.reached import never_words
from lpv.modes.rules import BY_HAND, FMS, ILS, LISTS, RULES, SBAS, SOURCES, Rules
from lpv.modes.selection import kept_without_power
from lpv.modes.state import FLYING, lateral_source, source
from lpv.modes.ways import Seen, left_behind, next_crew, select
from lpv.setup.sources import before_you_leave
from lpv_site.text.table import table

MARKS = {"right": "✓", "selected at capture": "✓", "no guidance": "?", "another source": "✕"}
SHORT_NAMES = {FMS: "FMS lateral"}
ENDS = ("disarm approach", "go around", "land", "power off")
STATES = ("inactive", "armed", "captured", "lost")


def follows_table(exploration: Exploration) -> str:
    """What follows what: events that do the same stand in one row; what loses guidance comes last.

    "may" is understood: a change is listed where it can happen in some state that can be reached.
    """
    axes = {event: (_changes(exploration, event, 0), _changes(exploration, event, 1)) for event in EVENTS}
    merged: dict[tuple[str, str], list[str]] = {}
    for event, changes in axes.items():
        if any(changes) and event not in ENDS:
            merged.setdefault(changes, []).append(event)
    in_order = sorted(merged.items(), key=lambda row: "lost**" in "".join(row[0]))
    rows = [(",<br>".join(map(spoken, events)), lateral, vertical) for (lateral, vertical), events in in_order]
    rows.append((", ".join(ENDS), "→ inactive", "→ inactive"))
    return table(["event", "lateral", "vertical"], rows, left=3)


def _changes(exploration: Exploration, event: str, axis: int) -> str:
    """The changes of one axis at an event: "armed, captured → lost"; "" if it never changes."""
    before: dict[str, set[str]] = {}
    for name, was, becomes in exploration.follows:
        if name == event and was[axis] != becomes[axis]:
            before.setdefault(becomes[axis], set()).add(was[axis])
    return "<br>".join(
        f"{', '.join(state for state in STATES if state in before[after])} → **{after}**"
        for after in STATES if after in before
    )


def seen_words(observation: Seen) -> str:
    """What the next crew sees, both sides being alike: a mark, words, and what puts it right."""
    guided = observation.sources[FLYING] == FMS or observation.guides[FLYING] != ""
    words = observation.sources[FLYING] + ("" if guided else ", no guidance")
    mark = MARKS[observation.verdict]
    if observation.verdict == "right":
        return f"{mark} {words}"
    if observation.verdict == "selected at capture":
        return f"{mark} {words}, then {observation.approach} at capture"
    return f"{mark} **{words}**" + (f"<br>→ {', then '.join(observation.remedy)}" if observation.remedy else "")


def next_crew_table(rules: Rules) -> str:
    """What was left selected and tuned against what the next crew sees, by what it flies."""
    rows: dict[str, list[str]] = {}
    for observation in next_crew(rules):
        left_as = _left_words(observation.selected[FLYING], observation.tuned[FLYING])
        rows.setdefault(left_as, []).append(seen_words(observation))
    return table(
        ["source, localizer", "next: SBAS", "next: ILS"],
        [(left_as, *cells) for left_as, cells in rows.items()], left=3,
    )


def _left_words(name: str, tuned: bool) -> str:
    return f"{SHORT_NAMES.get(name, name)}, {'tuned' if tuned else 'none'}"


def left_table(rules: Rules) -> str:
    """What a go-around, a landing and the removal of power leave set."""
    rows = [
        (events.replace(", power on", ""), _source_left(name), "loaded" if loaded else "cleared",
         "tuned" if tuned else "cleared")
        for events, name, loaded, tuned in left_behind(rules)
    ]
    return table(["after", "source", "approach", "localizer"], rows, left=4)


def _source_left(name: str) -> str:
    short = SHORT_NAMES.get(name, name)
    return f"**{short}**" if name == SBAS else short


def power_told(types: Sequence[tuple[str, Rules]]) -> str:
    """What the removal of power does to the selected source, as the files of the types state it: (name, rules)."""
    staying = [(name, rules) for name, rules in types if SBAS in kept_without_power(rules)]
    stays = [name for name, _ in staying]
    rule = "power-down deselects SBAS"
    if not stays:
        return f"As each type's own file states: {rule}."
    leave = " ".join(dict.fromkeys(before_you_leave(rules) for _, rules in staying))
    others = f" In every other type shown here, {rule}." if len(stays) < len(types) else ""
    return (
        f"**In {', '.join(stays)} the selection survives power-down:** the next crew inherits "
        f"your selection, even days later. {leave + ' ' if leave else ''}Read the source at every power-up.{others}"
    )


def shown_table(types: Sequence[tuple[str, Rules]]) -> str:
    """What a side shows by what is selected and tuned, for up to three types: (name, rules)."""
    rows = [
        (_left_words(name, tuned), *[_shown(name, tuned, rules) for _, rules in types])
        for name in SOURCES for tuned in (False, True)
    ]
    return table(["selected, localizer", *[name for name, _ in types]], rows, left=1 + len(types))


def _shown(name: str, tuned: bool, rules: Rules) -> str:
    """What is shown on final once a source was selected and then a localizer tuned."""
    state = run(["take off", "load SBAS approach", "activate approach"], rules)
    selected = with_localizers(select(state, name, rules), (tuned, tuned), rules)
    if name == ILS and tuned:
        selected = select(with_localizers(state, (True, True), rules), name, rules)
    if rules.source(name) is None:
        return "no such source"
    shown = source(selected, FLYING, rules)
    if not tuned and shown != name:
        return "cannot be selected here"
    if shown == FMS:
        return f"**{SHORT_NAMES[FMS]}**"
    if lateral_source(selected, rules):
        return "✓ SBAS" if shown == SBAS else f"✕ **{shown}**"
    return f"✕ **{shown}, no guidance**"


def traps_list(explored: Exploration) -> str:
    """Where the type can catch a crew: what happens, what to do, and a shortest sequence that shows it.

    What the type never gets to stands first: no sequence shows it.
    """
    never = "".join(f"- ✕ **{never_words(*never)}** Until that is settled, do not rely on this page.\n"
                    for never in explored.never)
    return never + "".join(
        f"- **{trap.statement}** {trap.remedy}<br><small>"
        f"Shown by: {', then '.join(map(spoken, example.events))}.</small>\n"
        for trap, example in explored.traps
    ) or "None of the traps this handbook knows.\n"


def sources_table(rules: Rules) -> str:
    """The list of guidance sources: when offered, what selects it, what takes it away."""
    rows = [
        (f"**{SHORT_NAMES.get(row.name, row.name)}**", _listed(row.offered) or "always", _listed(row.selected_by),
         _listed(row.removed_by) or "only another")
        for row in rules.sources
    ]
    text = table(["source", "offered", "selected by", "taken away by"], rows, left=4)
    while_ = [
        f"{row.name} guides only while: {', '.join(row.guides_while)}.\n" for row in rules.sources if row.guides_while]
    return text + ("\n" + "\n".join(while_) if while_ else "")


def _listed(words: tuple[str, ...]) -> str:
    return ",<br>".join(map(spoken, words))


def levels_table(rules: Rules) -> str:
    """Every change of the level of service, before and inside the PFAF, and what becomes of the path."""
    rows: dict[str, list[str]] = {}
    for change in level_changes(rules):
        rows.setdefault(change.what, []).append(_level_words(change))
    return table(["SBAS", *PLACES], [(what, *cells) for what, cells in rows.items()], left=3)


def _level_words(change: Change) -> str:
    """What is annunciated, whether that is what the FAA describes, and what to do."""
    before, after = change.level
    level = f"{before} → **{after}**" if change.changed else f"stays {after}"
    notice = "annunciated" if change.announced else "✕ not annunciated" if change.changed else "no new annunciation"
    rule = "<br>✕ not as the FAA describes" if change.by_itself else ""
    now = f"<br>**{change.remedy}**" if change.sign else ""
    return f"{level}<br>{notice}; course {change.course}, glidepath {change.path}{rule}{now}"


def rules_table(rules: Rules) -> str:
    """Every rule in words with what the type does."""
    rows = [(what, f"**{spoken(getattr(rules, key))}**") for key, (what, _) in RULES.items()
            if not (rules.go_around == BY_HAND and key in (
                "go_around_roll", "go_around_pitch", "autopilot_at_go_around"))]
    lists = [(what, spoken(", ".join(getattr(rules, key))) or "nothing") for key, (what, _) in LISTS.items()]
    return table(["question", "this type"], [*rows, *lists], left=2)


def differences_table(types: Sequence[tuple[str, Rules]]) -> str:
    """The rules in which up to three types differ: (name, rules)."""
    rows = [
        (what, *[_answer(getattr(rules, key)) for _, rules in types])
        for key, (what, _) in {**RULES, **LISTS}.items()
        if len({getattr(rules, key) for _, rules in types}) > 1
    ]
    return table(["question", *[name for name, _ in types]], rows, left=1 + len(types))


def _answer(value: str | tuple[str, ...]) -> str:
    return spoken(value if isinstance(value, str) else ", ".join(value)) or "nothing"
