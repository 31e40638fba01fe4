"""What the set-up check says of the source, type by type: each expectation is read from the type's rules by hand."""

import pytest

from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.core.record import record
from lpv.files.json_form import as_text, to_json
from lpv.modes.machine import step
from lpv.modes.rules import SENT, USUAL_SOURCES, Source, selection_fields, selection_rules, usual_rules
from lpv.modes.selection import (
    PARKED,
    can_show,
    ils_comes,
    kept_without_power,
    leaves_none,
    to_sbas,
    tuned_effect,
)
from lpv.modes.state import fallback, start
from lpv.modes.traps import TRAPS
from lpv.setup.checks import check
from lpv.setup.expected import Expected
from lpv.setup.records import Setup, Side
from lpv.setup.sources import ANY_TYPE, before_you_leave, localizer_leads_to, sentence, state_of
from support import ROOT

FOLDERS = (ROOT / "docs" / "aircraft", ROOT / "tests" / "lpv" / "aircraft" / "types")
TYPES = {f"{folder.name}/{type_.slug}": type_ for folder in FOLDERS for type_ in aircraft.read_all(folder)}
APPROACH = approach.read(ROOT / "docs" / "approaches" / "zzak-rnav-09.toml")
SBAS, ILS, FMS = "SBAS", "ILS", "FMS lateral navigation"
OWN, BY_ITSELF = ("its control",), ("another taken away",)
FMS_BY_HAND = Source(FMS, selected_by=OWN + BY_ITSELF)
HAND = (Source(SBAS, selected_by=OWN), Source(ILS, selected_by=OWN), FMS_BY_HAND)
POWER = ("removal of power",)
ACTIVATED, LEFT_BY = ("activating its approach",), ("loading another approach", "landing")
EITHER = ("localizer tuned on either side",)
VARIANTS = {
    "one selector, all by hand": usual_rules(sources=(
        Source(SBAS, (), (), OWN, POWER), Source(ILS, (), (), OWN, POWER), FMS_BY_HAND)),
    "by procedure": usual_rules(source_control="none", sources=(
        Source(SBAS, (), (), ACTIVATED, LEFT_BY), Source(ILS, (), (), ACTIVATED, LEFT_BY),
        Source(FMS, (), (), BY_ITSELF))),
    "SBAS by itself": usual_rules(source_control="none", tuning_after_power="cleared", sources=(
        Source(SBAS, (), (), BY_ITSELF),
        Source(ILS, EITHER, (), ("its course captured",), ("no longer offered", "go-around", "landing")))),
    "selectors, all by hand": usual_rules(source_control="per side", sources=HAND),
    "no ILS": usual_rules(sources=(Source(SBAS, (), (), OWN, OWN), USUAL_SOURCES[2])),
    "taken over": usual_rules(sources=(
        Source(SBAS, (), (), OWN, ("tuning a localizer on this side",)), *USUAL_SOURCES[1:])),
    "ILS by itself": usual_rules(sources=(Source(SBAS, (), (), OWN, ("go-around",)), *USUAL_SOURCES[1:])),
    "off kept": usual_rules(sources=(Source(SBAS, (), (), OWN, OWN), *USUAL_SOURCES[1:])),
    "ILS at arming": usual_rules(sources=(
        USUAL_SOURCES[0], Source(ILS, EITHER, (), ("arming the approach",), ("landing", "go-around")), FMS_BY_HAND)),
}
RULES = {**{name: type_.rules for name, type_ in TYPES.items()}, **VARIANTS}
OFF, WHEN_SELECTED = "With the selector off, the ILS would be shown.", "it changes nothing until the ILS is selected."
TO_FMS, TO_OFF = "Select FMS lateral navigation before you leave.", "Turn the selector off before you leave."
ALL_APART, NO_SBAS_APART = ((SBAS, ILS), (SBAS, FMS), (ILS, FMS)), ((SBAS, ILS), (SBAS, FMS))
# What a tuned localizer leads to; what stays selected without power; what leaves none; sources never shown at once.
TABLE = {
    "aircraft/large-jet": (OFF, (), "", NO_SBAS_APART),
    "aircraft/light-jet": ("In this type it inhibits SBAS on both sides. " + OFF, (), "", ()),
    "aircraft/mid-jet": (
        "Until the SBAS approach is active, capturing the localizer's course selects the ILS.", (ILS,), TO_OFF,
        NO_SBAS_APART),
    "aircraft/regional-jet": ("In this type " + WHEN_SELECTED, (SBAS, ILS), TO_FMS, ()),
    "aircraft/tri-jet": (
        "In this type it takes SBAS away on both sides: FMS lateral navigation is shown.", (), "", NO_SBAS_APART),
    "types/dual-computer": (
        f"In this type {WHEN_SELECTED} If SBAS is taken away, FMS lateral navigation is shown.", (SBAS, ILS), TO_FMS,
        ()),
    "types/older-jet": (
        f"In this type {WHEN_SELECTED} If SBAS is taken away, FMS lateral navigation is shown.", (), "", ()),
    "types/shared-selector": ("In this type " + WHEN_SELECTED, (), "", ALL_APART),
    "types/utility": ("In this type it changes nothing until an ILS approach is activated.", (), "", ALL_APART),
    "one selector, all by hand": ("In this type " + WHEN_SELECTED, (), "", ALL_APART),
    "by procedure": ("In this type it changes nothing until an ILS approach is activated.", (), "", ALL_APART),
    "SBAS by itself": (
        "While SBAS does not guide, capturing the localizer's course selects the ILS.", (), "", ALL_APART),
    "selectors, all by hand": ("In this type " + WHEN_SELECTED, (SBAS, ILS), TO_FMS, ()),
    "no ILS": (
        "In this type it changes nothing. If SBAS is taken away, FMS lateral navigation is shown.", (SBAS,), TO_OFF,
        ALL_APART),
    "taken over": ("In this type it takes over its side: the ILS is shown there.", (SBAS,), "", ()),
    "ILS by itself": ("If SBAS is taken away, the ILS is shown.", (SBAS,), "", NO_SBAS_APART),
    "off kept": (OFF, (SBAS,), TO_OFF, NO_SBAS_APART),
    "ILS at arming": ("While SBAS does not guide, arming the approach selects the ILS.", (), "", ALL_APART),
}


class Ruled(Expected):
    """The approach for a type with these rules."""

    def __init__(self, rules):
        super().__init__(APPROACH, TYPES["aircraft/large-jet"])
        self.changed = rules

    @property
    def rules(self):
        return self.changed


def findings(rules, left=SBAS, right=SBAS, tuned=()):
    """Name -> finding that is not ok or not compared, for two sides with these sources and frequencies."""
    sides = [Side(name, source=source, tuned_mhz=list(tuned)) for name, source in (("left", left), ("right", right))]
    return {row.name(): row for row in check(Setup("left", *sides), Ruled(rules))
            if row.grade in ("stop", "resolve", "note")}


@pytest.mark.parametrize("name", TABLE)
def test_check_says_what_type_does(name):
    rules, (leads_to, kept, leave, apart) = RULES[name], TABLE[name]
    assert findings(rules, tuned=[110.3])["set-localizer left"].why == leads_to
    note = findings(rules).get("set-selector-kept")
    assert (note is not None) == bool(kept)
    if note is not None:
        assert f"{' or '.join(kept)} may be on" in note.why
        assert note.action == f"Read the source shown, on both sides, at every power-up. {leave}".strip()
    assert (kept_without_power(rules), before_you_leave(rules)) == (kept, leave)
    for left, right in ((SBAS, ILS), (SBAS, FMS), (ILS, FMS)):
        for pair in ((left, right), (right, left)):
            split = findings(rules, *pair)["set-sides source"]
            assert split.grade == "resolve"
            assert ("cannot be shown at once" in split.why) == ((left, right) in apart), pair


def test_table_has_every_type():
    assert set(TABLE) == set(RULES)
    assert len(TYPES) >= 8


FLIGHT = ("take off", "activate approach", "arming distance reached", "FMS lateral mode", "arm approach",
          "course reached", "go around", "land")


def reached(rules):
    """Every state that these controls and a flight lead to, both sides set together."""
    queue = [start(rules)]
    met = set(queue)
    for state in queue:
        for event in PARKED + FLIGHT:
            after = step(state, event, rules)
            if after not in met:
                met.add(after)
                queue.append(after)
    return queue


@pytest.mark.parametrize("name", TABLE)
def test_trap_and_note_agree(name):
    rules, trap = RULES[name], next(trap for trap in TRAPS if trap.key == "source-survives-power")
    downs = [(state, step(state, "power off", rules)) for state in reached(rules) if state.power]
    kept = {after.selected[0] for state, after in downs if state.phase == "ground"
            and after.selected[0] != fallback(after, rules, 0)}
    shown = {after.selected[0] for state, after in downs if trap.happens(state, "power off", after, rules)}
    assert kept == shown == set(TABLE[name][1])


def test_phone_agrees_for_every_type():
    for name, type_ in TYPES.items():
        sent = selection_rules(record(as_text(to_json(type_))).rules)
        for question in (tuned_effect, ils_comes, kept_without_power, leaves_none, localizer_leads_to):
            assert question(sent) == question(type_.rules), name
    assert set(selection_fields(VARIANTS["no ILS"])) == set(SENT)


@pytest.mark.parametrize(("name", "shown", "tuned", "key", "action"), [
    ("aircraft/large-jet", FMS, (), "set-source", "Select SBAS."),
    ("by procedure", FMS, (), "set-source", "Activate the approach."),
    ("by procedure", ILS, (110.3,), "set-wrong-source",
     "Untune the localizer in both receivers, then activate the approach."),
    ("types/utility", FMS, (), "set-source", "Activate the approach."),
    ("SBAS by itself", FMS, (), "set-source", "Check what you read."),
    ("SBAS by itself", ILS, (110.3,), "set-wrong-source", "Untune the localizer in both receivers."),
    ("no ILS", ILS, (), "set-source", "Check what you read."),
    ("aircraft/tri-jet", SBAS, (110.3,), "set-inhibited",
     "Untune the localizer in both receivers, and select SBAS again."),
])
def test_action_selects_sbas(name, shown, tuned, key, action):
    row = findings(RULES[name], shown, shown, tuned)[f"{key} left"]
    assert (row.grade, row.action) == ("stop", action)
    assert ("no such source" in row.why) == (action == "Check what you read.")


def test_unknown_type_says_what_may_happen():
    side = Side("left", source=SBAS, tuned_mhz=[110.3])
    rows = check(Setup("left", side, Side("right")), Expected(APPROACH))
    assert [row.why for row in rows if row.name() == "set-localizer left"] == [ANY_TYPE]


def test_ways_to_sbas_and_sides_by_rules():
    split = Setup("left", Side("left", source=FMS), Side("right", source=FMS))
    for name, way in (("by procedure", ("activate approach",)), ("no ILS", ("select SBAS",)), ("aircraft/mid-jet", ())):
        assert to_sbas(state_of(split, RULES[name]), 0, RULES[name]) == way
    never = usual_rules(sources=(Source(FMS, (), (), BY_ITSELF),))
    assert to_sbas(state_of(split, never), 0, never) is None
    assert can_show(ILS, FMS, RULES["aircraft/large-jet"]), "a localizer on one side, the selector off"
    assert not can_show(SBAS, ILS, RULES["aircraft/large-jet"])
    assert sentence(["arm", "go"]) == "Arm, then go."
    assert sentence([]) == ""
