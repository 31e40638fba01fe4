"""The cases by which an author can tell whether a type is written down as meant: what each leaves, by the machine.

They begin as the tables of a type's page do: an SBAS approach captured on course and glidepath in the way of the type,
as far as it gets there.
"""

from dataclasses import dataclass

from lpv.modes.annunciation import announcement
from lpv.modes.autopilot import lets_go
from lpv.modes.machine import run, step, with_localizers
from lpv.modes.rules import BY_HAND, Rules
from lpv.modes.state import State, start
from lpv.modes.ways import on_path

LEFT_TUNED = "localizer left tuned, SBAS approach activated"
# What happens -> (whether inside the FAF, the events).
HAPPENS = {
    "as flown, inside the FAF": (True, ()),
    "all SBAS guidance lost inside the FAF": (True, ("lateral guidance lost",)),
    "SBAS vertical lost inside the FAF": (True, ("vertical guidance lost",)),
    "SBAS falls to LNAV/VNAV before the FAF": (False, ("signal falls to LNAV/VNAV",)),
    "SBAS falls to LNAV/VNAV inside the FAF": (True, ("signal falls to LNAV/VNAV",)),
    "and all is back": (True, ("signal falls to LNAV/VNAV", "signal returns")),
    "localizer tuned inside the FAF": (True, ("tune localizer",)),
    "go-around inside the FAF": (True, ("go around",)),
    "landed": (True, ("land",)),
    "power removed and restored": (True, ("land", "power off", "power on")),
}


@dataclass(frozen=True)
class Case:
    """One case: what happens, and what is shown afterwards.

    source, level, lateral, vertical: as `lpv.modes.annunciation.announcement` has them, "" where they are not shown
    autopilot: what becomes of one that was engaged, "" on the ground
    """

    what: str
    source: str
    level: str
    lateral: str
    vertical: str
    autopilot: str


def cases(rules: Rules) -> list[Case]:
    """Every case of HAPPENS and LEFT_TUNED, in order."""
    rows = [_case(what, on_path(rules, inside), events, rules) for what, (inside, events) in HAPPENS.items()]
    left = with_localizers(start(rules), (True, True), rules)
    first = ("take off", "load SBAS approach", "activate approach")
    return [*rows, _case(LEFT_TUNED, left, first, rules)]


def _case(what: str, begin: State, events: tuple[str, ...], rules: Rules) -> Case:
    after = run(events, rules, begin)
    shown = dict(announcement(after, rules))
    source, level, lateral, vertical = [shown.get(key, "") for key in ("source", "level", "lateral", "vertical")]
    return Case(what, source, level, lateral, vertical, _autopilot(begin, events, after, rules))


def _autopilot(state: State, events: tuple[str, ...], after: State, rules: Rules) -> str:
    if after.phase == "ground" or not events or state.phase == "ground":
        return ""
    if after.phase == "missed" and rules.go_around == BY_HAND:
        return "as the crew sets it"
    for event in events:
        following = step(state, event, rules)
        why = lets_go(state, event, following, rules)
        if why:
            return f"disconnects: {why}"
        state = following
    return "stays engaged"
