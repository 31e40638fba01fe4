"""The items of the set-up check that ask the type: the source of each side, tuned localizers, what stays selected."""

from lpv.core.findings import Finding, not_compared
from lpv.core.text import quantity
from lpv.modes.machine import with_localizers
from lpv.modes.rules import SBAS, Rules
from lpv.modes.selection import (
    ils_comes,
    instead_of_sbas,
    kept_without_power,
    leaves_none,
    to_sbas,
    tuned_effect,
)
from lpv.modes.state import FLYING, MONITORING, START, State, coming_source, lateral_source, source
from lpv.setup import radio
from lpv.setup.expected import Expected
from lpv.setup.records import Setup, Side
from lpv.setup.statements import agrees, differs, not_stated

# What a crew does, by the event of the state machine.
DONE = {
    "select SBAS": "select SBAS", "select ILS": "select the ILS",
    "select FMS lateral navigation": "select FMS lateral navigation", "selector off": "turn the selector off",
    "activate approach": "activate the approach", "load SBAS approach": "load the approach",
}
# What a localizer left tuned leads to in a type where it does nothing to SBAS, by what brings the ILS (`ils_comes`).
LEADS_TO = {
    "selector off": "With the selector off, the ILS would be shown.",
    "SBAS taken away": "If SBAS is taken away, the ILS is shown.",
    "captured without guidance": "While SBAS does not guide, capturing the localizer's course selects the ILS.",
    "armed without guidance": "While SBAS does not guide, arming the approach selects the ILS.",
    "captured before activation":
        "Until the SBAS approach is active, capturing the localizer's course selects the ILS.",
    "armed before activation": "Until the SBAS approach is active, arming the approach selects the ILS.",
    "selected": "In this type it changes nothing until the ILS is selected.",
    "approach loaded": "In this type it changes nothing until an ILS approach is loaded.",
    "approach activated": "In this type it changes nothing until an ILS approach is activated.",
    "": "In this type it changes nothing.",
}
AFTERWARDS = ("landing", "removal of power")  # what takes SBAS away when the approach is over
ANY_TYPE = "It may take over, inhibit SBAS or do nothing: your flight manual says which."


def localizers_mhz(side: Side) -> "list[float]":
    """The localizer channels among the frequencies that a side has tuned."""
    return [mhz for mhz in side.tuned_mhz or [] if radio.is_localizer(mhz)]


def state_of(setup: Setup, rules: Rules) -> State:
    """The set-up as a state of the modes, with the SBAS approach active; the flying side is the pilot flying's.

    Where nobody has said who flies, the left side is taken.
    """
    flying, monitoring = setup.sides() if setup.flying != "right" else (setup.right, setup.left)
    none = "FMS lateral navigation"
    selected = START.but(
        phase="outside", approach="SBAS", active=True, level="LPV",
        selected=(flying.source or none, monitoring.source or none))
    return with_localizers(selected, (localizers_mhz(flying) != [], localizers_mhz(monitoring) != []), rules)


def guidance_source(side: Side, setup: Setup, expected: Expected) -> "list[Finding]":
    """The side shows SBAS, and SBAS guides it."""
    if side.source is None:
        return [not_stated("set-source", "guidance source", side.name, "SBAS")]
    rules = expected.rules
    index = MONITORING if side.name == ("left" if setup.flying == "right" else "right") else FLYING
    state = state_of(setup, rules)
    shown = source(state, index, rules)
    what = "source " + side.source
    if rules.source(side.source) is None:
        return [differs("set-source", "stop", what, "SBAS", "This type has no such source.", "Check what you read.",
                        side.name)]
    if shown == "ILS" and lateral_source(state, rules, index):
        return [differs(
            "set-wrong-source", "stop", what, "SBAS", "The deviation shown comes from the tuned localizer.",
            _to_sbas(state, index, rules, "Select SBAS, and untune the localizer."), side.name,
            f"shown: {shown}{_channels('; ')}",
        )]
    if shown != "SBAS" and coming_source(state, rules, index) == "SBAS":
        return [agrees("set-source", what + ", SBAS with its course", "SBAS", side.name)]
    if side.source != "SBAS":
        return [differs("set-source", "stop", what, "SBAS", "This source does not guide you to this runway.",
                        _to_sbas(state, index, rules, "Select SBAS."), side.name)]
    if shown != "SBAS":
        return [differs(
            "set-inhibited", "stop", what, "SBAS", "In this type a tuned localizer takes SBAS away.",
            _to_sbas(state, index, rules, "Untune the localizer in both receivers, and select SBAS again."), side.name,
            f"shown: {shown}{_channels('; ')}",
        )]
    if not lateral_source(state, rules, index):
        return [differs(
            "set-inhibited", "stop", what, "SBAS", _inhibits(rules),
            "Untune the localizer in both receivers.", side.name,
            f"shown: SBAS without guidance{_channels('; ')}",
        )]
    if setup.left.tuned_mhz is None or setup.right.tuned_mhz is None:
        return [not_compared("set-source", what, "not stated", "SBAS", about=side.name,
                             why="A tuned localizer can take over or inhibit SBAS. Nobody has entered what is tuned.",
                             action="Read the frequencies on both sides and enter them.")]
    return [agrees("set-source", what, "SBAS", side.name)]


def _to_sbas(state: State, side: int, rules: Rules, by_control: str) -> str:
    """What the crew does to have SBAS, as a sentence; by_control: the sentence where a control selects it."""
    events = to_sbas(state, side, rules)
    if events is None:
        return "Nothing selects SBAS from here: do not begin the approach."
    if "select SBAS" in events:
        return by_control
    untune = ["untune the localizer in both receivers"] if True in state.tuned else []
    return sentence(untune + [DONE[event] for event in events]) or "Read it again: SBAS is selected by itself."


def sentence(things: "list[str]") -> str:
    """Things to do as a sentence, "" for none."""
    words = ", then ".join(things)
    return words[:1].upper() + words[1:] + "." if words else ""


def _inhibits(rules: Rules) -> str:
    which = "" if tuned_effect(rules).endswith("its side") else ", on either side,"
    return f"In this type a tuned localizer{which} inhibits SBAS."


def localizer_leads_to(rules: Rules) -> str:
    """What a localizer left tuned does in a type, or can lead to, as a sentence or two."""
    effect, how = tuned_effect(rules), ils_comes(rules)
    instead = instead_of_sbas(rules)
    if effect == "no effect":
        sbas = rules.source(SBAS)
        removed = [word for word in sbas.removed_by if word not in AFTERWARDS] if sbas is not None else []
        gives_way = how in ("", "selected") and removed and instead != SBAS
        return LEADS_TO[how] + (f" If SBAS is taken away, {instead} is shown." if gives_way else "")
    what = f"In this type it {effect}"
    if effect == "takes over its side":
        return what + ": the ILS is shown there."
    if effect.startswith("takes SBAS away"):
        return f"{what}: {instead} is shown."
    return what + "." + (" " + LEADS_TO[how] if how in ("selector off", "SBAS taken away") else "")


def localizer(side: Side, setup: Setup, expected: Expected) -> "list[Finding]":
    """No receiver of the side is on a localizer channel."""
    if side.tuned_mhz is None:
        return [not_stated("set-localizer", "frequencies", side.name, "no localizer")]
    tuned = localizers_mhz(side)
    if not tuned:
        return [agrees("set-localizer", "no localizer tuned", "", side.name, _channels())]
    rules = expected.rules
    words = ", ".join([quantity(mhz, "MHz", 0.01) for mhz in tuned])
    return [differs(
        "set-localizer", "resolve", "localizer tuned: " + words, "",
        localizer_leads_to(rules) if expected.aircraft else ANY_TYPE,
        "Tune something that is not a localizer channel.", side.name, _channels(),
    )]


def _channels(before: str = "") -> str:
    """Which frequencies are taken for localizers', where nobody has read it in a document; else ""."""
    low, high = (quantity(khz / radio.KHZ_PER_MHZ, "MHz", 0.01) for khz in radio.LOCALIZER_KHZ)
    basis = radio.channels_remembered()
    return f"{before}localizer channels {low} to {high}, odd tenths{basis}" if basis else ""


def kept_selected(setup: Setup, expected: Expected) -> "list[Finding]":
    """Where a source selected in this type survives the removal of power: that it does; nothing about other types."""
    rules = expected.rules
    kept = kept_without_power(rules)
    if not kept:
        return []
    names = " or ".join(kept)
    control = "selected source" if rules.source_control == "none" else "source selector"
    return [Finding(
        "set-selector-kept", "note", control + ": survives power-down in this type",
        why=f"You inherit the last crew's selection: {names} may be on at power-up though nobody here "
            "selected it.",
        action=("Read the source shown, on both sides, at every power-up. " + before_you_leave(rules)).strip(),
    )]


def before_you_leave(rules: Rules) -> str:
    """What a crew does before it leaves so that the next one inherits no source, as a sentence; "" for nothing."""
    event = leaves_none(rules) if kept_without_power(rules) else ""
    return sentence([DONE[event] + " before you leave"]) if event else ""
