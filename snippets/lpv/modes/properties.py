"""What must hold for every type, whatever its rules: the properties that the exploration proves."""

from collections.abc import Callable
from dataclasses import dataclass

from lpv.modes.annunciation import announce
from lpv.modes.rules import Rules
from lpv.modes.state import FLYING, MONITORING, State, lateral_source, source, vertical_source

# Events by which the crew ends the approach on purpose; what they leave is announced in other words.
ENDS = ("disarm approach", "go around", "land", "power off")


@dataclass(frozen=True)
class Always:
    """A property of every state.

    key: permanent short name; statement: what holds, in words; rules: the rules that decide it
    """

    key: str
    statement: str
    rules: tuple[str, ...]
    holds: Callable[[State, Rules], bool]


@dataclass(frozen=True)
class AtEveryStep:
    """A property of every change from a state to another one; fields as in `Always`."""

    key: str
    statement: str
    rules: tuple[str, ...]
    holds: Callable[[State, str, State, Rules], bool]


@dataclass(frozen=True)
class NoTrap:
    """The property of the whole: that every state has a way out; fields as in `Always`."""

    key: str
    statement: str
    rules: tuple[str, ...]


def captured_has_source(state: State, rules: Rules) -> bool:
    """Whether what is captured has a source that guides."""
    lateral = state.lateral != "captured" or lateral_source(state, rules) != ""
    return lateral and (state.vertical != "captured" or vertical_source(state, rules) != "")


def lateral_first(state: State, rules: Rules) -> bool:
    """Whether vertical guidance is captured only with lateral guidance, unless the flight manual allows it."""
    return rules.vertical_first == "allowed" or state.vertical != "captured" or state.lateral == "captured"


def selector_off_shows_ils(state: State, rules: Rules) -> bool:
    """Whether a side with its selector off and a localizer tuned shows the ILS."""
    return not state.power or all(
        source(state, side, rules) == "ILS"
        for side in (FLYING, MONITORING) if state.tuned[side] and not state.selector[side]
    )


def modes_announced(state: State, rules: Rules) -> bool:
    """Whether every armed, captured or lost mode is announced (14 CFR 25.1329(i))."""
    lines = announce(state, rules) if state.lateral != "inactive" or state.vertical != "inactive" else ()
    return all(
        mode == "inactive" or f"{axis}: {mode}" in lines
        for axis, mode in (("lateral", state.lateral), ("vertical", state.vertical))
    )


def loss_is_told(before: State, event: str, after: State, rules: Rules) -> bool:
    """Whether an armed or captured mode whose source goes, or becomes another one, is then lost."""
    return event in ENDS or all(
        mode not in ("armed", "captured") or not find(before, rules)
        or find(after, rules) == find(before, rules) or now == "lost"
        for mode, now, find in (
            (before.lateral, after.lateral, lateral_source), (before.vertical, after.vertical, vertical_source),
        )
    )


def power_as_stated(before: State, event: str, after: State, rules: Rules) -> bool:
    """Whether removal of power does to the source selector what the file states of it, and restoring does nothing."""
    stated = (False, False) if event == "power off" and rules.selector_after_power == "off" else before.selector
    return event not in ("power off", "power on") or after.selector == stated


def armed_by_the_crew(before: State, event: str, after: State, rules: Rules) -> bool:
    """Whether lost or inactive guidance arms only when the crew arms it, and is captured only from armed.

    Vertical guidance that arms once lateral is captured was armed by the crew too.
    """
    lateral = _by_the_crew(before.lateral, event, after.lateral)
    follows = before.vertical == "inactive" and after.vertical == "armed" and event == "course reached"
    return lateral and (follows or _by_the_crew(before.vertical, event, after.vertical))


def _by_the_crew(before: str, event: str, after: str) -> bool:
    if before in ("armed", "captured") or after in ("inactive", "lost"):
        return True
    return event == "arm approach" and after == "armed"


def level_stays(before: State, event: str, after: State, rules: Rules) -> bool:
    """Whether the level of service becomes another one only when an approach is activated (AIM 1-1-18.d.2)."""
    return after.level in (before.level, "none") or event == "activate approach"


def lost_level_stays_lost(before: State, event: str, after: State, rules: Rules) -> bool:
    """Whether what a level has lost comes back only when an approach is activated (AIM 1-1-18.d.2)."""
    came_back = before.missing != "nothing" and after.missing == "nothing"
    return not came_back or event == "activate approach" or after.level == "none"


def change_is_told(before: State, event: str, after: State, rules: Rules) -> bool:
    """Whether a change of source, level, mode, go-around or power changes what is announced (25.1329(i))."""
    return _visible(before, rules) == _visible(after, rules) or announce(before, rules) != announce(after, rules)


def _visible(state: State, rules: Rules) -> tuple[object, ...]:
    sides = [(source(state, side, rules), lateral_source(state, rules, side)) for side in (FLYING, MONITORING)]
    missed = state.phase == "missed" and state.power
    return state.power, tuple(sides), state.level, state.missing, state.lateral, state.vertical, missed


ALWAYS = (
    Always("captured-has-source", "no guidance is captured without a source that guides",
           ("when_source_lost",), captured_has_source),
    Always("lateral-first", "vertical guidance is never captured before lateral, unless the flight manual allows it",
           ("vertical_capture", "vertical_first"), lateral_first),
    Always("off-shows-ils", "with the selector off and a localizer tuned, the guidance shown is the ILS's",
           ("selector_off_shows",), selector_off_shows_ils),
    Always("modes-announced", "every armed, captured and lost mode is announced",
           ("announced",), modes_announced),
)
AT_EVERY_STEP = (
    AtEveryStep("loss-is-told", "losing the source of an armed or captured mode leaves a state that says so",
                ("when_source_lost",), loss_is_told),
    AtEveryStep("power-as-stated", "removal of power leaves the source selector as the file states: off, or as it was",
                ("selector_after_power",), power_as_stated),
    AtEveryStep("armed-by-the-crew", "guidance does not come back by itself, only after re-arming",
                ("recapture",), armed_by_the_crew),
    AtEveryStep("level-stays", "the level of service never becomes another one while the approach is active",
                ("level_after_loss",), level_stays),
    AtEveryStep("lost-level-stays-lost", "a lost level of service comes back only when the approach is activated again",
                ("level_after_loss",), lost_level_stays_lost),
    AtEveryStep("change-is-told", "every change of source, level or mode is announced",
                ("announced",), change_is_told),
)
NO_TRAP = NoTrap(
    "no-trap",
    "every state has a way to a missed approach or to captured guidance, without landing, removing power or "
    "waiting for the signal",
    ("go_around", "arming_inside_pfaf"),
)
PROPERTIES: tuple[Always | AtEveryStep | NoTrap, ...] = (*ALWAYS, *AT_EVERY_STEP, NO_TRAP)
