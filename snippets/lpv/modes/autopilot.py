"""The autopilot of a type beside its modes: whether an engaged one lets go when something happens, and why."""

from lpv.modes.rules import Rules
from lpv.modes.state import State

ENGAGED, OFF = "engaged", "off"
GIVEN_UP = ("disarm approach", "FMS lateral mode", "heading mode", "land")  # events by which a crew gives guidance up


def lets_go(before: State, event: str, after: State, rules: Rules) -> str:
    """Why an engaged autopilot disconnects at an event, in words; "" if it stays engaged.

    before, after: the state around the event, as `lpv.modes.machine.step` gives it
    """
    if before.phase != "missed" == after.phase:
        return "a go-around was selected" if rules.autopilot_at_go_around == "disconnects" else ""
    lost = lost_guidance(before, after)
    if lost and event not in GIVEN_UP and rules.autopilot_after_loss == "disconnects":
        return lost + " lost"
    if level_changes(before, after) and rules.autopilot_at_level_change == "disconnects":
        return "the level of service changed"
    return ""


def lost_guidance(before: State, after: State) -> str:
    """What was captured and is no longer: course, glidepath, "course and glidepath", or ""."""
    names = (("course", before.lateral, after.lateral), ("glidepath", before.vertical, after.vertical))
    return " and ".join([name for name, was, now in names if was == "captured" != now])


def level_changes(before: State, after: State) -> bool:
    """Whether the level of service, or what of it is flagged, changes on a captured course that stays active."""
    return before.lateral == "captured" and before.active and after.active and (
        (before.level, before.missing) != (after.level, after.missing))
