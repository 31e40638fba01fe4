"""What a regulation asks of every type: the properties that the exploration proves, or refuses a file for.

They come from 14 CFR 25.1329 (flight guidance systems) and its advisory circular, as far as they were read; each
property names its paragraph and the status of that reading.  How a type is designed beyond that is its own: what
can catch a crew there is found by `lpv.modes.traps`, described and never refused.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from lpv.modes.annunciation import announce, has_go_around_mode, lateral_modes, vertical_modes
from lpv.modes.autopilot import lets_go
from lpv.modes.rules import Rules
from lpv.modes.state import FLYING, MONITORING, State, lateral_source, source, vertical_source

# Events by which the crew commands a mode; capture follows from them without a further command.
COMMANDS = ("arm approach", "arm path", "activate approach", "FMS lateral mode")


@dataclass(frozen=True)
class Regulation:
    """Where a property comes from: source key, place in it, status, as in `lpv.facts`."""

    source: str
    place: str
    status: str


INDICATED = Regulation("cfr-14-25", "25.1329(i)", "published")
DISENGAGED = Regulation("cfr-14-25", "25.1329(j)", "published")
COMMANDED = Regulation("ac-25-1329", "mode selection and engagement", "from memory")


@dataclass(frozen=True)
class Property:
    """What holds for every type; a file that breaks it is refused.

    key: permanent short name; statement: what holds, in words; rules: the rules that decide it
    holds: of a step from one state to the next by an event (a state alone is the step into it)
    tested: whether such a step puts it to the test at all;  untested: what never happens where none does, in words
    lacking: the words of `announced` whose absence breaks it in such a step
    """

    key: str
    statement: str
    rules: tuple[str, ...]
    regulation: Regulation
    holds: Callable[[State, str, State, Rules], bool]
    tested: Callable[[State, str, State, Rules], bool]
    untested: str
    lacking: Callable[[State, str, State, Rules], tuple[str, ...]] = lambda *_: ()


def modes_announced(before: State, event: str, after: State, rules: Rules) -> bool:
    """Whether every mode that flies, waits or is lost is announced."""
    if not after.power or after.phase == "ground":
        return True
    return not modes_lacking(before, event, after, rules)


def modes_lacking(before: State, event: str, after: State, rules: Rules) -> tuple[str, ...]:
    """The words of `announced` for the modes that there are, as far as the type lacks them."""
    return _lacking([word for word, _ in _modes(after, rules)], rules)


def _modes(state: State, rules: Rules) -> tuple[tuple[str, str], ...]:
    return *lateral_modes(state, rules), *vertical_modes(state, rules)


def _lacking(words: Iterable[str], rules: Rules) -> tuple[str, ...]:
    return tuple(word for word in dict.fromkeys(words) if word not in rules.announced)


def change_announced(before: State, event: str, after: State, rules: Rules) -> bool:
    """Whether a change of source, level, mode, go-around or power changes what is announced."""
    return visible(before, rules) == visible(after, rules) or announce(before, rules) != announce(after, rules)


def change_lacking(before: State, event: str, after: State, rules: Rules) -> tuple[str, ...]:
    """The words of `announced` for what changes, as far as the type lacks them."""
    was, now = visible(before, rules), visible(after, rules)
    changed = [word for place, word in _VISIBLE_AS.items() if was[place] != now[place]]
    if was[-4:] != now[-4:]:
        changed += [word for word, _ in (*_modes(after, rules), *_modes(before, rules))]
    return _lacking(changed, rules)


_VISIBLE_AS = {1: "source", 2: "level", 3: "level"}  # places in what `visible` returns; after them come the modes


def visible(state: State, rules: Rules) -> tuple[object, ...]:
    """What a crew must be able to see of a state."""
    sides = [(source(state, side, rules), lateral_source(state, rules, side)) for side in (FLYING, MONITORING)]
    missed = has_go_around_mode(state, rules) and state.power
    fms = state.fms and state.power
    return state.power, tuple(sides), state.level, state.missing, state.lateral, state.vertical, missed, fms


def captured_has_source(before: State, event: str, after: State, rules: Rules) -> bool:
    """Whether what is shown as captured has a source that guides."""
    lateral = after.lateral != "captured" or lateral_source(after, rules) != ""
    return lateral and (after.vertical != "captured" or vertical_source(after, rules) != "")


def commanded(before: State, event: str, after: State, rules: Rules) -> bool:
    """Whether guidance arms only by a command of the crew, and is captured only from armed.

    A path that arms once lateral is captured was commanded with it, and so was the FMS lateral mode of a go-around.
    """
    lateral = _commanded(before.lateral, event, after.lateral)
    follows = before.vertical == "inactive" and after.vertical == "armed" and event == "course reached"
    vertical = follows or _commanded(before.vertical, event, after.vertical)
    return lateral and vertical and (before.fms or not after.fms or event in (*COMMANDS, "go around"))


def _commanded(before: str, event: str, after: str) -> bool:
    if before in ("armed", "captured") or after in ("inactive", "lost"):
        return True
    return event in COMMANDS and after == "armed"


def autopilot_off_announced(before: State, event: str, after: State, rules: Rules) -> bool:
    """Whether an autopilot that disconnects with the guidance, with the level or at a go-around says so."""
    disconnects = "disconnects" in (
        rules.autopilot_after_loss, rules.autopilot_at_level_change, rules.autopilot_at_go_around)
    return not disconnects or "autopilot off" in rules.announced


def _off_lacking(before: State, event: str, after: State, rules: Rules) -> tuple[str, ...]:
    return _lacking(("autopilot off",), rules)


def _in_flight(before: State, event: str, after: State, rules: Rules) -> bool:
    return after.power and after.phase != "ground"


def _changes(before: State, event: str, after: State, rules: Rules) -> bool:
    return visible(before, rules) != visible(after, rules)


def _captured(before: State, event: str, after: State, rules: Rules) -> bool:
    return "captured" in (after.lateral, after.vertical)


def _arms(before: State, event: str, after: State, rules: Rules) -> bool:
    return "armed" in (after.lateral, after.vertical) or after.fms


def _disconnects(before: State, event: str, after: State, rules: Rules) -> bool:
    return lets_go(before, event, after, rules) != ""


PROPERTIES = (
    Property("modes-announced", "the mode that flies and every armed or lost mode is annunciated",
             ("announced",), INDICATED, modes_announced, _in_flight, "it never flies",
             modes_lacking),
    Property("change-announced", "every change of source, level or mode is annunciated",
             ("announced",), INDICATED, change_announced, _changes, "nothing ever changes",
             change_lacking),
    Property("captured-has-source", "no guidance is shown as captured without a source that guides",
             ("when_lateral_lost", "when_vertical_lost"), INDICATED, captured_has_source, _captured,
             "nothing is ever captured"),
    Property("commanded", "guidance arms only when the crew commands it, and is captured only from armed",
             ("armed_by", "recapture"), COMMANDED, commanded, _arms, "nothing ever arms"),
    Property("autopilot-off-announced", "an autopilot that disconnects is annunciated",
             ("autopilot_after_loss", "autopilot_at_level_change", "autopilot_at_go_around", "announced"), DISENGAGED,
             autopilot_off_announced, _disconnects, "the autopilot never disconnects by itself", _off_lacking),
)
