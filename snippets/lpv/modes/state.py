"""One moment of the approach guidance, as a state, and what drives the deviations in it.

A state says what is powered, selected, tuned, loaded, received and followed.  The source is never
stored: `source`, `lateral_source` and `vertical_source` work it out.  How one state follows from
another is in `lpv.modes.machine`.  The modes (armed, captured, lost) are those of the flying side; the source
selector is on when it asks for SBAS.
"""

from lpv.core.errors import DomainError, shown
from lpv.modes.rules import RULES, Rules

FLYING, MONITORING = 0, 1
SIDES = ("flying side", "monitoring side")
FIELDS = (
    "power", "phase", "approach", "active", "selector", "tuned", "signal", "level", "missing", "lateral", "vertical",
)


class State:
    """One moment.  Never changed: `but` makes another one.

    power:    True, or False with no electrical power
    phase:    ground, outside (in flight, before the PFAF), inside (past it), missed (after a go-around)
    approach: loaded: none, SBAS or ILS;  active: whether it is active
    selector: (flying side, monitoring side), True when it asks for SBAS
    tuned:    (flying side, monitoring side), True when a localizer frequency is tuned
    signal:   what SBAS supports now: full, lateral only, none
    level:    announced: LPV, LNAV/VNAV, LNAV or none; fixed when the approach is activated
    missing:  what of that level has been lost since: nothing, vertical, all
    lateral, vertical: inactive, armed, captured or lost
    """

    def __init__(
        self, power: bool, phase: str, approach: str, active: bool, selector: "tuple[bool, bool]",
        tuned: "tuple[bool, bool]", signal: str, level: str, missing: str, lateral: str, vertical: str,
    ) -> None:
        self.power = power
        self.phase = phase
        self.approach = approach
        self.active = active
        self.selector = selector
        self.tuned = tuned
        self.signal = signal
        self.level = level
        self.missing = missing
        self.lateral = lateral
        self.vertical = vertical

    def key(self) -> "tuple[object, ...]":
        """The fields as one tuple, in the order of FIELDS."""
        return (self.power, self.phase, self.approach, self.active, self.selector, self.tuned,
                self.signal, self.level, self.missing, self.lateral, self.vertical)

    def but(self, **changes: object) -> "State":
        """The same state with some fields changed."""
        return State(*[changes.get(name, getattr(self, name)) for name in FIELDS])  # type: ignore[arg-type]

    def ended(self, **changes: object) -> "State":
        """The same with no approach active, no level announced and nothing followed, and with the changes given."""
        ended = self.but(active=False, level="none", missing="nothing", lateral="inactive", vertical="inactive")
        return ended.but(**changes)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, State) and self.key() == other.key()

    def __hash__(self) -> int:
        return hash(self.key())

    def __repr__(self) -> str:
        return "State(" + ", ".join(str(field) for field in self.key()) + ")"


START = State(
    True, "ground", "none", False, (False, False), (False, False), "full", "none", "nothing", "inactive", "inactive",
)


def source(state: State, side: int, rules: Rules) -> str:
    """What a side's deviations come from: SBAS, ILS, FMS lateral navigation, or none without power.

    SBAS means that the selector asks for it; whether it guides is what `lateral_source` says.
    side: FLYING or MONITORING.  After a go-around the missed approach is FMS lateral navigation.
    """
    if not state.power:
        return "none"
    tuned = state.tuned[side]
    if state.selector[side]:
        if tuned and rules.localizer_with_selector_on == "takes over its side":
            return "ILS"
        return "FMS lateral navigation" if state.phase == "missed" else "SBAS"
    return "ILS" if tuned and rules.selector_off_shows == "the tuned localizer" else "FMS lateral navigation"


def lateral_source(state: State, rules: Rules, side: int = FLYING) -> str:
    """The approach source that gives this side lateral guidance, SBAS or ILS; "" if none does."""
    found = source(state, side, rules)
    if found == "SBAS":
        return "SBAS" if _sbas_guides(state, rules) else ""
    return "ILS" if found == "ILS" else ""


def vertical_source(state: State, rules: Rules, side: int = FLYING) -> str:
    """The approach source that gives this side vertical guidance, SBAS or ILS; "" if none does."""
    found = lateral_source(state, rules, side)
    if found == "SBAS" and (state.missing != "nothing" or state.level == "LNAV"):
        return ""
    return found


def _sbas_guides(state: State, rules: Rules) -> bool:
    if rules.localizer_with_selector_on == "inhibits SBAS on both sides" and (state.tuned[0] or state.tuned[1]):
        return False
    return state.approach == "SBAS" and state.active and state.level != "none" and state.missing != "all"


def level_at_activation(signal: str, best_level: str = "LPV", baro_vnav: str = "not approved") -> str:
    """The level of service announced when an SBAS approach is activated: LPV, LNAV/VNAV, LNAV or none.

    The best one that signal, equipment and procedure support (FAA AIM 1-1-18.d.2).
    signal: full, lateral only, none; best_level, baro_vnav: as in RULES; DomainError for another word
    """
    for what, word, allowed in (
        ("signal", signal, ("full", "lateral only", "none")),
        ("best_level", best_level, RULES["best_level"][1]), ("baro_vnav", baro_vnav, RULES["baro_vnav"][1]),
    ):
        if word not in allowed:
            raise DomainError(f"{what}: found {shown(word)}; allowed: {', '.join(allowed)}.")
    if signal == "none":
        return "none"
    best = best_level if signal == "full" else "LNAV"
    return "LNAV/VNAV" if best == "LNAV" and baro_vnav == "approved" else best
