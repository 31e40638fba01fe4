"""What there is to judge about a planted mistake beside its item: the side it is on, how serious it is, what to do now.

All of it follows from the findings that the mistake must lead to.  ACTIONS are words for what the findings ask for; the
same list stands under every drill.
"""

from dataclasses import dataclass

from lpv.core.findings import SEVERITY, worst_grade
from lpv.drill.planted import Planted

SIDES = ("left", "right", "both", "neither: the aircraft, the data or the day")
SEVERITIES = ("stop", "resolve", "note")
ACTIONS = {
    "load": "load the procedure of the chart again, and verify it",
    "set": "correct it, then compare both sides",
    "line": "use the line for the level annunciated: its value, as a DA or an MDA",
    "arm": "disarm; arm again close to the course, heading toward it",
    "database": "do not fly it from this database; report it",
    "settle": "find out which of the two is right before it is flown",
}
FOLLOWS = "set-sides"  # that the sides differ follows from what is wrong
_BY_KEY = {
    "set-procedure": "load", "set-channel": "load", "set-path-id": "load", "set-level": "line", "set-armed": "arm",
    "set-cycle": "database", "cycle": "database", "cycle-in-force": "database",
}
_OF_DATABASE = ("course-shown", "glidepath", "glidepath-range", "tch", "fix-altitude", "fix-sequence", "leg")


@dataclass(frozen=True)
class Judgement:
    """What is right to say of a mistake.

    sides: places in SIDES, any of which is right;  severity: place in SEVERITIES;  action: place in ACTIONS
    """

    sides: tuple[int, ...]
    severity: int
    action: int


def judgement(planted: Planted) -> Judgement:
    """What is right to say of a planted mistake."""
    pairs = [(name, grade) for name, grade in sorted(planted.expected) if not name.startswith(FOLLOWS)]
    worst = worst_grade([grade for grade in SEVERITY if grade in {grade_of_pair for _, grade_of_pair in pairs}])
    return Judgement(_sides([name for name, _ in pairs]), SEVERITIES.index(worst), list(ACTIONS).index(_action(pairs)))


def _sides(names: list[str]) -> tuple[int, ...]:
    """Where it is wrong; of a localizer also the side that has it tuned, whatever it does to the other."""
    about = {side for name in names for side in SIDES[:2] if name.endswith(" " + side)}
    sides = {SIDES.index(next(iter(about))) if len(about) == 1 else 2 if about else 3}
    tuned = [side for side in SIDES[:2] if "set-localizer " + side in names]
    return tuple(sorted(sides | {SIDES.index(side) for side in tuned if len(tuned) == 1}))


def _action(pairs: list[tuple[str, str]]) -> str:
    keys = [name.split(" ")[0] for name, _ in pairs]
    for key in keys:
        if key in _BY_KEY:
            return _BY_KEY[key]
    if any(key in _OF_DATABASE for key in keys):
        return "database" if "stop" in {grade for _, grade in pairs} else "settle"
    return "set"
