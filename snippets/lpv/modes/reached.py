"""What a type never gets to: a source that is never armed or captured, an FMS lateral mode that never flies.

No rule forbids it, so it refuses no file; but what never happens proves nothing, and is seldom what an author meant.
"""

from collections.abc import Iterable

from lpv.modes.rules import FMS, ILS, SBAS, Rules
from lpv.modes.state import State, followed_source, lateral_source, level_at_activation

Step = tuple[State, str, State]
FMS_MODE = "the FMS lateral mode"
NEVER = ("armed", "captured", "captured on its glidepath", "flown before the FAF")
# Choices that keep nothing away.
_OPEN: dict[str, str | tuple[str, ...]] = {
    "captures_from": "any mode", "fms_lateral": "with any source", "vertical_arms": "with lateral",
    "vertical_capture": "on its own", "armed_by": ("its control",), "arming_needs": ("a guiding source",),
}
_KEYS = {
    "armed": ("armed_by", "arming_needs"),
    "captured": ("captures_from", "fms_lateral"),
    "captured on its glidepath": ("vertical_arms", "vertical_capture"),
    "flown before the FAF": ("fms_lateral",),
}


def never_reached(begin: State, steps: Iterable[Step], rules: Rules) -> tuple[tuple[str, str], ...]:
    """(source or FMS_MODE, one of NEVER) for the first thing that each never comes to by these steps from the start.

    An ILS counts only where no SBAS approach was loaded before: what it does beside one is no approach of its own.
    A glidepath is looked for only where the best level of the type has one, the FMS lateral mode before the FAF.
    """
    following: dict[State, list[State]] = {}
    for before, _, after in steps:
        following.setdefault(before, []).append(after)
    reached = {pair for state in _connected(begin, following, True) for pair in _reached(state, rules)}
    apart = {pair for state in _connected(begin, following, False) for pair in _reached(state, rules)}
    reached = {pair for pair in reached if pair[0] != ILS} | apart
    flat = level_at_activation("LPV", rules.best_level, rules.baro_vnav) == "LNAV"
    never = []
    for row in rules.sources:
        needed = () if row.name == FMS else NEVER[:2] if row.name == SBAS and flat else NEVER[:3]
        missing = [what for what in needed if (row.name, what) not in reached]
        never += [(row.name, what) for what in missing[:1]]
    if rules.fms_lateral != "none" and (FMS_MODE, "flown before the FAF") not in reached:
        never.append((FMS_MODE, "flown before the FAF"))
    return tuple(never)


def _connected(begin: State, following: dict[State, list[State]], with_sbas: bool) -> set[State]:
    """The states that steps lead to, all of them or those without an SBAS approach loaded on the way."""
    reached, queue = {begin}, [begin]
    while queue:
        for after in following.get(queue.pop(), ()):
            if after not in reached and (with_sbas or after.approach != SBAS):
                reached.add(after)
                queue.append(after)
    return reached


def _reached(state: State, rules: Rules) -> list[tuple[str, str]]:
    reached = [(FMS_MODE, "flown before the FAF")] if state.fms and state.phase == "outside" else []
    if state.lateral in NEVER:
        reached.append((followed_source(state, rules), state.lateral))
    if state.vertical == "captured":
        reached.append((lateral_source(state, rules), "captured on its glidepath"))
    return reached


def decided_by(name: str, what: str, rules: Rules) -> tuple[str, ...]:
    """What in the file may keep a source or FMS_MODE from it, each as it is written there: key = "word"."""
    keys = [key for key in _KEYS[what] if getattr(rules, key) != _OPEN.get(key)]
    row = rules.source(FMS if name == FMS_MODE else name)
    of_source = () if row is None else (
        ("offered", row.offered), ("guides_while", row.guides_while), ("selected_by", row.selected_by))
    written = [f"{key} = {_toml(getattr(rules, key))}" for key in keys]
    return (*written, *[f"{key} of {row.name} = {_toml(words)}" for key, words in of_source if row and words])


def never_words(name: str, what: str) -> str:
    """What never happens, as a sentence."""
    begin = name[:1].upper() + name[1:]
    where = "" if name == FMS_MODE else " in an approach of its own"
    return f"{begin} is never {what}{where}: no sequence of events leads to it."


def _toml(words: str | tuple[str, ...]) -> str:
    return f'"{words}"' if isinstance(words, str) else "[" + ", ".join(f'"{word}"' for word in words) + "]"
