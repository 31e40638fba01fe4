"""Where a type can catch a crew: behaviour that no regulation forbids, found by exploration and described.

A trap never refuses a file.  Each says what happens in this type, what to do about it, and a shortest sequence of
events that shows it.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

from lpv.modes.autopilot import level_changes
from lpv.modes.machine import EVENTS
from lpv.modes.rules import BY_HAND, NOT_WITH_SBAS, SBAS, Rules
from lpv.modes.selection import kept_without_power, stays_selected
from lpv.modes.state import (
    FLYING,
    MONITORING,
    State,
    followed_source,
    lateral_source,
    source,
    vertical_source,
)

SIGNALS = ("signal falls to LNAV/VNAV", "vertical guidance lost", "lateral guidance lost")
TUNING = tuple(event for event in EVENTS if event.startswith("tune"))
SOURCE_CONTROLS = tuple(event for event in EVENTS if event.startswith("select"))
FOLLOWS = ("armed", "captured")


@dataclass(frozen=True)
class Trap:
    """Something that can catch a crew.

    key: permanent short name;  statement: what happens, in words;  remedy: what a crew does about it
    events: events at which it happens;  happens: whether a step is an example of it
    """

    key: str
    statement: str
    remedy: str
    events: tuple[str, ...]
    happens: Callable[[State, str, State, Rules], bool]


def _in_flight(state: State) -> bool:
    return state.phase in ("outside", "inside")


def _stays_selected(before: State, event: str, after: State, rules: Rules) -> bool:
    """A source is selected that would not be there by itself."""
    return stays_selected(after, rules)


# Asked of every state that is explored.
_kept = lru_cache(maxsize=4)(kept_without_power)


def _stays_without_power(before: State, event: str, after: State, rules: Rules) -> bool:
    """It stays selected without power on the ground, where a crew leaves the aircraft."""
    return before.phase == "ground" and stays_selected(after, rules) and after.selected[FLYING] in _kept(rules)


def _stays_loaded(before: State, event: str, after: State, rules: Rules) -> bool:
    return after.approach != "none"


def _taken_by_localizer(before: State, event: str, after: State, rules: Rules) -> bool:
    return any(
        source(before, side, rules) == SBAS and source(after, side, rules) == "ILS" for side in (FLYING, MONITORING))


def _shown_by_localizer(before: State, event: str, after: State, rules: Rules) -> bool:
    return any(
        source(after, side, rules) == "ILS" != source(before, side, rules) for side in (FLYING, MONITORING)
    ) and not _taken_by_localizer(before, event, after, rules)


def _inhibited_by_localizer(before: State, event: str, after: State, rules: Rules) -> bool:
    return any(
        lateral_source(before, rules, side) == SBAS and source(after, side, rules) == SBAS
        and lateral_source(after, rules, side) == "" for side in (FLYING, MONITORING))


def _another_source(before: State, event: str, after: State, rules: Rules) -> bool:
    """An ILS is armed or captured while an SBAS approach is the active one."""
    return (
        after.approach == SBAS and after.active and after.lateral in FOLLOWS and followed_source(after, rules) == "ILS")


def _moves_by_itself(before: State, event: str, after: State, rules: Rules) -> bool:
    return _in_flight(before) and _in_flight(after) and source(before, FLYING, rules) != source(after, FLYING, rules)


def _armed_without_source(before: State, event: str, after: State, rules: Rules) -> bool:
    return after.lateral == "armed" and followed_source(after, rules) == ""


def _arming_without_effect(before: State, event: str, after: State, rules: Rules) -> bool:
    return (
        before.power and _in_flight(before) and after == before and before.lateral in ("inactive", "lost")
        and followed_source(before, rules) != "")


def _vertical_first(before: State, event: str, after: State, rules: Rules) -> bool:
    return after.vertical == "captured" and after.lateral != "captured"


def _path_waits(before: State, event: str, after: State, rules: Rules) -> bool:
    return before.lateral == "inactive" and after.lateral == "armed" and after.vertical == "inactive" and (
        vertical_source(after, rules) != "")


def _path_goes_by(before: State, event: str, after: State, rules: Rules) -> bool:
    return before.vertical == "armed" == after.vertical and before.lateral == "captured" and (
        vertical_source(before, rules) != "")


def _level_falls(before: State, event: str, after: State, rules: Rules) -> bool:
    return before.level not in (after.level, "none") and after.level != "none"


def _level_returns(before: State, event: str, after: State, rules: Rules) -> bool:
    return (before.level, before.missing) != (after.level, after.missing)


def _goes_on_basic(before: State, event: str, after: State, rules: Rules) -> bool:
    return (before.lateral == "captured" and after.lateral == "inactive") or (
        before.vertical == "captured" and after.vertical == "inactive")


def _waits_again(before: State, event: str, after: State, rules: Rules) -> bool:
    return (before.lateral == "captured" and after.lateral == "armed") or (
        before.vertical == "captured" and after.vertical == "armed")


def _loses_capture(before: State, event: str, after: State, rules: Rules) -> bool:
    return before.lateral == "captured" != after.lateral


def _autopilot_stays(before: State, event: str, after: State, rules: Rules) -> bool:
    return rules.autopilot_after_loss == "stays engaged" and _loses_capture(before, event, after, rules)


def _autopilot_goes(before: State, event: str, after: State, rules: Rules) -> bool:
    return rules.autopilot_after_loss == "disconnects" and _loses_capture(before, event, after, rules)


def _autopilot_off_level(before: State, event: str, after: State, rules: Rules) -> bool:
    return rules.autopilot_at_level_change == "disconnects" and (
        level_changes(before, after) and after.lateral == "captured")


def _fms_flies_on(before: State, event: str, after: State, rules: Rules) -> bool:
    return after.fms and after.phase == "inside" and after.approach == SBAS and after.lateral == "inactive"


def _missed_not_followed(before: State, event: str, after: State, rules: Rules) -> bool:
    return before.phase != "missed" and after.phase == "missed" and not after.fms and rules.go_around != BY_HAND


def _autopilot_off_around(before: State, event: str, after: State, rules: Rules) -> bool:
    around = before.phase != "missed" and after.phase == "missed"
    return around and rules.autopilot_at_go_around == "disconnects"


def _around_by_hand(before: State, event: str, after: State, rules: Rules) -> bool:
    return before.phase != "missed" and after.phase == "missed" and rules.go_around == BY_HAND


def _not_tuned(before: State, event: str, after: State, rules: Rules) -> bool:
    return after.power and rules.localizer_tuning == NOT_WITH_SBAS and after.selected[FLYING] == SBAS and (
        not after.tuned[FLYING])


def _no_go_around(before: State, event: str, after: State, rules: Rules) -> bool:
    return before.power and _in_flight(before) and after == before


def _sides_apart(before: State, event: str, after: State, rules: Rules) -> bool:
    return rules.source_control == "per side"


def _no_control(before: State, event: str, after: State, rules: Rules) -> bool:
    return rules.source_control == "none"


LOSSES = (*SIGNALS, *SOURCE_CONTROLS, *TUNING, "load ILS approach")
TRAPS = (
    Trap("source-survives-power", "The selected source survives power-down: the next crew inherits it.",
         "Read the source at every power-up.", ("power off",), _stays_without_power),
    Trap("source-survives-landing", "An approach source stays selected after landing.",
         "Reset the source after landing.", ("land",), _stays_selected),
    Trap("approach-survives-power", "The loaded approach survives power-down.",
         "Read what is loaded. Load today's approach.", ("power off",), _stays_loaded),
    Trap("localizer-takes-source", "A tuned localizer replaces SBAS as the source, though SBAS was selected.",
         "Keep localizers out of the receivers. Read the source after tuning.", TUNING, _taken_by_localizer),
    Trap("localizer-shown", "A tuned localizer shows by itself unless SBAS is selected.",
         "Select SBAS first. Read the source, not the deviation.", TUNING, _shown_by_localizer),
    Trap("localizer-inhibits", "A tuned localizer stops SBAS guidance, though SBAS is still the source shown.",
         "Keep localizers out of both receivers.", TUNING, _inhibited_by_localizer),
    Trap("another-source", "The ILS can be armed or captured while an SBAS approach is active.",
         "Source first, arming second.", EVENTS, _another_source),
    Trap("source-by-procedure", "No control selects the source: it follows the approach that is loaded and active.",
         "Read the source when the approach becomes active.", ("take off",), _no_control),
    Trap("source-moves", "The source changes by itself in flight.",
         "Expect the change, and read source and level when it comes.",
         ("activate approach", "arming distance reached", "course reached", "PFAF passed", "load SBAS approach",
          "load ILS approach", "arm approach"), _moves_by_itself),
    Trap("sides-apart", "Each side has its own selector: the sides can show two sources.",
         "Each pilot calls the source on their own side.", ("take off",), _sides_apart),
    Trap("armed-without-source", "It can show armed with no source of guidance.",
         "Armed proves nothing: also read the source.", EVENTS, _armed_without_source),
    Trap("arming-without-effect", "Arming can have no effect even with a source that guides.",
         "A button pressed is not a mode armed: read it.", ("arm approach",), _arming_without_effect),
    Trap("path-waits", "The glidepath does not arm with the course.",
         "See it arm. Until then, do not descend.", ("arm approach", "activate approach", "FMS lateral mode"),
         _path_waits),
    Trap("vertical-first", "The glidepath can be captured before the course.",
         "Do not descend on it before the course is captured.",
         ("path reached from below", "path reached from above"), _vertical_first),
    Trap("path-goes-by", "A glidepath met from above is not captured: it passes through, still armed.",
         "Stay below it, or go around.", ("path reached from above",), _path_goes_by),
    Trap("level-falls", "The level of service drops to a lower one by itself, unlike the receiver the FAA describes.",
         "A different level means a different minimum: brief it, or go around.", SIGNALS, _level_falls),
    Trap("level-returns", "The level of service comes back with the signal, unlike the receiver the FAA describes.",
         "Use the minimum of the level annunciated now. Inside the FAF, do not change back.", ("signal returns",),
         _level_returns),
    Trap("goes-on-in-basic", "When the source is lost, captured guidance reverts to a basic mode that keeps "
         "the present flight path: a descent continues.", "Call the mode. Stop the descent.", LOSSES, _goes_on_basic),
    Trap("waits-again", "When the source is lost, captured guidance reverts to armed, and captures again by itself.",
         "Disarm what you do not want back.", LOSSES, _waits_again),
    Trap("autopilot-stays", "The autopilot stays engaged when captured guidance is lost.",
         "Fly the aircraft: heading, altitude, thrust.", LOSSES, _autopilot_stays),
    Trap("autopilot-disconnects", "The autopilot disconnects when captured guidance is lost.",
         "Hands on the controls on final.", LOSSES, _autopilot_goes),
    Trap("autopilot-off-at-level", "The autopilot disconnects when the level of service changes, though the course "
         "is kept.", "Hands on the controls on final. Read the level, then decide.", (*SIGNALS, "signal returns"),
         _autopilot_off_level),
    Trap("fms-flies-on", "The FMS lateral mode continues past the FAF with nothing captured: a track, no glidepath.",
         "At the FAF: both captured, or no descent.", ("PFAF passed", "FMS lateral mode"), _fms_flies_on),
    Trap("missed-not-followed", "The go-around holds a heading: the missed approach is not followed until a lateral "
         "mode is selected.", "Select the lateral mode for the missed approach, and read it.", ("go around",),
         _missed_not_followed),
    Trap("autopilot-off-at-go-around", "Selecting a go-around disconnects the autopilot.",
         "Hands on the controls before the button; the pitch is yours.", ("go around",), _autopilot_off_around),
    Trap("go-around-by-hand", "There is no go-around mode: nothing commands the climb or the missed approach.",
         "Pitch, thrust and heading by hand; then the lateral mode, and read it.", ("go around",), _around_by_hand),
    Trap("localizer-not-tuned", "A localizer cannot be tuned while SBAS is the selected source.",
         "For an ILS select another source first, then tune, then identify.",
         EVENTS, _not_tuned),
    Trap("no-go-around-mode", "A go-around mode can be refused.", "Go around by hand first; then the mode.",
         ("go around",), _no_go_around),
)
