"""One moment of the approach guidance, as a state, and what drives the deviations in it.

A state says what is powered, selected, tuned, loaded, received and followed.  How one state follows from another
is in `lpv.modes.machine`.  The modes (armed, captured, lost) are those of the flying side.
"""

from lpv.core.errors import DomainError, shown
from lpv.modes.rules import ARMING, CAPTURED, FMS, ILS, LEVELS, RULES, SBAS, TAKEN_AWAY, Rules, Source

FLYING, MONITORING = 0, 1
SIDES = ("flying side", "monitoring side")
FIELDS = (
    "power", "phase", "near", "approach", "active", "selected", "tuned", "signal", "level", "missing", "lateral",
    "vertical", "fms",
)
_PLACES = {name: place for place, name in enumerate(FIELDS)}


class State:
    """One moment.  Never changed: `but` makes another one.

    power:    True, or False with no electrical power
    phase:    ground, outside (in flight, before the PFAF), inside (past it), missed (after a go-around)
    near:     whether the aircraft is within the distance at which the type arms; False on the ground
    approach: loaded: none, SBAS or ILS;  active: whether it is active
    selected: (flying side, monitoring side), the source selected, out of `lpv.modes.rules.SOURCES`
    tuned:    (flying side, monitoring side), True when a localizer frequency is tuned
    signal:   what SBAS supports now, out of `lpv.modes.rules.LEVELS`
    level:    the level of service announced, out of the same
    missing:  what of that level is flagged as lost: nothing, vertical, all
    lateral, vertical: the approach modes: inactive, armed, captured or lost
    fms:      whether the FMS lateral mode flies; never while lateral is captured
    """

    def __init__(
        self, power: bool, phase: str, near: bool, approach: str, active: bool, selected: "tuple[str, str]",
        tuned: "tuple[bool, bool]", signal: str, level: str, missing: str, lateral: str, vertical: str, fms: bool,
    ) -> None:
        self.power = power
        self.phase = phase
        self.near = near
        self.approach = approach
        self.active = active
        self.selected = selected
        self.tuned = tuned
        self.signal = signal
        self.level = level
        self.missing = missing
        self.lateral = lateral
        self.vertical = vertical
        self.fms = fms
        self._key = (power, phase, near, approach, active, selected, tuned, signal, level, missing, lateral, vertical,
                     fms)
        self._hash = hash(self._key)

    def key(self) -> "tuple[object, ...]":
        """The fields as one tuple, in the order of FIELDS."""
        return self._key

    def but(self, **changes: object) -> "State":
        """The same state with some fields changed."""
        values: list[object] = list(self._key)
        for name, value in changes.items():
            values[_PLACES[name]] = value
        return State(*values)  # type: ignore[arg-type]

    def ended(self, **changes: object) -> "State":
        """The same with no approach active, no level announced and nothing followed, and with the changes given."""
        values = {"active": False, "level": "none", "missing": "nothing", "lateral": "inactive",
                  "vertical": "inactive", "fms": False}  # type: dict[str, object]
        values.update(changes)
        return self.but(**values)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, State) and self._key == other._key

    def __hash__(self) -> int:
        return self._hash

    def __repr__(self) -> str:
        return "State(" + ", ".join([str(field) for field in self.key()]) + ")"


# Parked and powered, in a type whose last source is FMS lateral navigation; `start` has it for any type.
START = State(
    True, "ground", False, "none", False, (FMS, FMS), (False, False), LEVELS[0], "none", "nothing", "inactive",
    "inactive", False,
)


def start(rules: Rules) -> State:
    """The state of a type that is parked and powered, nothing tuned, loaded or selected by anybody."""
    after = START.but(selected=("", ""))
    return after.but(selected=(fallback(after, rules, FLYING), fallback(after, rules, MONITORING)))


def fallback(state: State, rules: Rules, side: int) -> str:
    """The source that takes the place of one that was taken away: the first of the list that may and is offered."""
    for row in rules.sources:
        if TAKEN_AWAY in row.selected_by and offered(row, state, side):
            return row.name
    raise DomainError("sources: found none to fall back on; allowed: one that is always offered.")


def offered(candidate: Source, state: State, side: int) -> bool:
    """Whether a source can be selected on a side."""
    return holds(candidate.offered_if, state, side)


def holds(conditions: "tuple[tuple[str, str, bool], ...]", state: State, side: int) -> bool:
    """Whether all of these conditions hold on a side; as `lpv.modes.rules.condition` gives them."""
    for what, name, expected in conditions:  # noqa: SIM110  (a generator makes an exploration a tenth slower)
        if _holds(what, name, state, side) != expected:
            return False
    return True


def _holds(what: str, name: str, state: State, side: int) -> bool:
    if what == "loaded":
        return state.approach == name
    if what == "active":
        return state.approach == name and state.active
    if what == "selected":
        return state.selected[side] == name
    if what == "tuned":
        return state.tuned[side] if name == "this side" else state.tuned[0] or state.tuned[1]
    if what == "level":
        return state.level != "none"
    return state.phase != "ground"


def source(state: State, side: int, rules: Rules) -> str:
    """What a side's deviations come from: SBAS, ILS, FMS lateral navigation, or none without power.

    SBAS means that it is selected; whether it guides is what `lateral_source` says.
    side: FLYING or MONITORING.  After a go-around an SBAS receiver guides along the missed approach as FMS lateral
    navigation (FAA AIM 1-1-18.d.5).
    """
    if not state.power:
        return "none"
    selected = state.selected[side]
    return FMS if selected == SBAS and state.phase == "missed" else selected


def lateral_source(state: State, rules: Rules, side: int = FLYING) -> str:
    """The approach source that gives this side lateral guidance, SBAS or ILS; "" if none does."""
    name = source(state, side, rules)
    return name if name in (SBAS, ILS) and guides(name, state, rules, side) else ""


def guides(name: str, state: State, rules: Rules, side: int = FLYING) -> bool:
    """Whether an approach source would guide laterally if it were selected on this side."""
    row = rules.source(name)
    if row is None or not state.power or not holds(row.guides_if, state, side):
        return False
    if name == ILS:
        return state.tuned[side]
    return state.approach == SBAS and state.active and state.level != "none" and state.missing != "all"


def followed_source(state: State, rules: Rules) -> str:
    """The approach source that an armed or captured mode follows, SBAS or ILS; "" if there is none.

    That is the one selected on the flying side, or one that will be selected by arming or by capturing its course.
    """
    selected = lateral_source(state, rules)
    return selected if selected or state.lateral == "captured" else coming_source(state, rules, FLYING)


def coming_source(state: State, rules: Rules, side: int) -> str:
    """The approach source that arming or the capture of its course will select on a side; "" if none will."""
    for row in rules.sources:
        coming = ARMING in row.selected_by or CAPTURED in row.selected_by
        if coming and row.name != FMS and offered(row, state, side) and guides(row.name, state, rules, side):
            return row.name
    return ""


def vertical_source(state: State, rules: Rules, side: int = FLYING) -> str:
    """What gives this side vertical guidance: SBAS, ILS, altimeter (LNAV/VNAV by baro-VNAV); "" if nothing does."""
    return _path_of(lateral_source(state, rules, side), state, rules)


def followed_path(state: State, rules: Rules) -> str:
    """As `vertical_source`, of the source that an armed or captured path follows."""
    if state.vertical == "captured":
        return vertical_source(state, rules)
    return _path_of(followed_source(state, rules), state, rules)


def _path_of(name: str, state: State, rules: Rules) -> str:
    if name != SBAS:
        return name
    if state.missing != "nothing" or state.level == "LNAV":
        return ""
    return SBAS if path_from_sbas(state.level, rules) else "altimeter"


def path_from_sbas(level: str, rules: Rules) -> bool:
    """Whether the path of a level comes from SBAS: LPV's does, LNAV/VNAV's unless baro-VNAV is approved."""
    return level == "LPV" or (level == "LNAV/VNAV" and rules.baro_vnav == "not approved")


def level_at_activation(signal: str, best_level: str = "LPV", baro_vnav: str = "not approved") -> str:
    """The level of service announced when an SBAS approach is activated: one of LEVELS.

    The best one that signal, equipment and procedure support (FAA AIM 1-1-18.d.2).
    signal: what SBAS supports, out of LEVELS; best_level, baro_vnav: as in RULES; DomainError for another word
    """
    for what, word, allowed in (
        ("signal", signal, LEVELS), ("best_level", best_level, RULES["best_level"][1]),
        ("baro_vnav", baro_vnav, RULES["baro_vnav"][1]),
    ):
        if word not in allowed:
            raise DomainError(f"{what}: found {shown(word)}; allowed: {', '.join(allowed)}.")
    best = LEVELS[max(LEVELS.index(signal), LEVELS.index(best_level))]
    return "LNAV/VNAV" if best == "LNAV" and baro_vnav == "approved" else best
