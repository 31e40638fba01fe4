"""Level changes in one place: every change of the level of service, what the FAA's text says, what a type does.

The level of service is what the receiver announces (LPV, LNAV/VNAV, LNAV, none).  The changes are found by running
the state machine of a type, captured on course and path, before and inside the PFAF.
"""

from lpv.decide.remedy import remedy
from lpv.modes.annunciation import announcement, changes
from lpv.modes.machine import step
from lpv.modes.rules import Rules, usual_rules
from lpv.modes.state import State
from lpv.modes.ways import on_path

# What happens, and the event of the machine.
FALLS = (
    ("SBAS supports LNAV/VNAV only", "signal falls to LNAV/VNAV"),
    ("SBAS supports LNAV only", "vertical guidance lost"),
    ("SBAS supports nothing", "lateral guidance lost"),
)
BACK = ("SBAS supports all again", "signal returns")
PLACES = ("before the FAF", "inside the FAF")


class Change:
    """One change of what SBAS supports, and what a type makes of it.

    what:      what happens; where: one of PLACES
    level:     (before, after), as announced, with what is flagged
    announced: whether the announcement of the level changes
    course, path: what becomes of the captured course and path: captured, lost, armed, inactive
    """

    def __init__(
        self, what: str, where: str, level: "tuple[str, str]", announced: bool, course: str, path: str,
    ) -> None:
        self.what = what
        self.where = where
        self.level = level
        self.announced = announced
        self.course = course
        self.path = path

    @property
    def changed(self) -> bool:
        """Whether the announcement of the level is another one afterwards."""
        return self.level[0] != self.level[1]

    @property
    def sign(self) -> str:
        """What a crew has to act on, as `lpv.decide.remedy.SIGNS`; "" where nothing is lost."""
        if self.course != "captured":
            return "course lost"
        if self.path != "captured":
            return "path lost"
        return "level" if self.level[0].partition(", ")[0] != self.level[1].partition(", ")[0] else ""

    @property
    def remedy(self) -> str:
        """What to do now, as `lpv.decide.remedy.REMEDIES`."""
        return remedy(self.sign, self.where == PLACES[1])

    @property
    def by_itself(self) -> bool:
        """Whether the level of service becomes another one, or comes back, while the approach stays active.

        The FAA describes a receiver that does neither (AIM 1-1-18.d.2).
        """
        before, after = self.level[0].partition(", "), self.level[1].partition(", ")
        return before[0] != after[0] or (before[2] != "" and after[2] == "")


def as_the_faa_describes() -> Rules:
    """The usual rules with the level as in AIM 1-1-18.d.2: it stays, and what is lost is flagged until activation."""
    return usual_rules(
        level_falls_outside="stays, flagged", level_falls_inside="stays, flagged",
        level_returns_outside="with the next activation", level_returns_inside="with the next activation")


def level_changes(rules: Rules) -> "list[Change]":
    """Every change, before and inside the PFAF: each fall from full support, and the return after each."""
    rows = []
    for where in PLACES:
        flown = on_path(rules, where == PLACES[1])
        for what, event in FALLS:
            fallen = step(flown, event, rules)
            rows.append(_change(what, where, flown, fallen, rules))
            back = step(fallen, BACK[1], rules)
            rows.append(_change(BACK[0] + ", after: " + what, where, fallen, back, rules))
    return rows


def _change(what: str, where: str, before: State, after: State, rules: Rules) -> Change:
    lines = [line for line in changes(before, after, rules) if line.startswith("level:")]
    levels = (_level(before, rules), _level(after, rules))
    return Change(what, where, levels, lines != [], after.lateral, after.vertical)


def _level(state: State, rules: Rules) -> str:
    return dict(announcement(state, rules)).get("level", "not annunciated")
