"""Proof over all states: what a regulation asks is proven or refused; designs are described with their traps."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from lpv.aircraft import record as aircraft
from lpv.facts.sources import SOURCES as DOCUMENTS
from lpv.modes import exploration
from lpv.modes.annunciation import announce
from lpv.modes.exploration import explore, faults_of, from_fields, single_events, to_fields
from lpv.modes.levels import FALLS, PLACES, level_changes
from lpv.modes.machine import EVENTS, run, step
from lpv.modes.properties import (
    PROPERTIES,
    autopilot_off_announced,
    captured_has_source,
    change_announced,
    commanded,
    modes_announced,
)
from lpv.modes.rules import ANNOUNCED, FMS, ILS, RULES, SBAS, SOURCES, USUAL_SOURCES, Source, usual_rules
from lpv.modes.state import START, start
from lpv.modes.traps import TRAPS
from lpv.modes.ways import WAY, shortest_way

FOLDER = Path(__file__).resolve().parents[3] / "docs" / "aircraft"
TYPES = aircraft.read_all(FOLDER) + aircraft.read_all(Path(__file__).parents[1] / "aircraft" / "types")
KEYS = tuple(rule.key for rule in PROPERTIES)
HOLDS = {rule.key: rule for rule in PROPERTIES}

# property -> (rules that break it, a shortest sequence that shows it)
ILS_ARMED = ("take off", "tune localizer", "arm approach")
BREAKERS = {
    "modes-announced": ({"announced": ("source", "level", "basic mode", "captured", "lost", "go-around")}, ILS_ARMED),
    "change-announced": (
        {"announced": ("level", "basic mode", "armed", "captured", "lost", "go-around")}, ("select SBAS",)),
    "captured-has-source": ({"when_lateral_lost": "unchanged"}, (*ILS_ARMED, "course reached", "select SBAS")),
    "commanded": ({"recapture": "by itself"}, (*ILS_ARMED, "select SBAS", "selector off")),
    "autopilot-off-announced": (
        {"autopilot_after_loss": "disconnects", "announced": ANNOUNCED[:-1]}, ("take off",)),
}


@pytest.mark.parametrize("type_", TYPES, ids=lambda type_: type_.slug)
def test_every_property_proven_for_every_type(type_):
    exploration = type_.exploration
    assert exploration.broken == ()
    assert exploration.proven == KEYS
    assert exploration.never == ()
    assert 300 < exploration.states < 20_000
    assert exploration.states <= exploration.transitions + 1 < exploration.tried
    assert 5 < exploration.depth < 40


def test_types_differ_in_every_design_rule():
    """Built-in types alone show every way of selecting, losing, level changes and go-around."""
    built_in = aircraft.read_all(FOLDER)
    assert len(built_in) >= 4
    for key in ("arming_needs", "vertical_arms", "vertical_capture", "when_lateral_lost", "fms_lateral", "sources",
                "level_falls_outside", "level_returns_outside", "go_around_roll", "approach_after_power"):
        assert len({getattr(type_.rules, key) for type_ in built_in}) > 1, key


def test_every_property_has_breaker_and_regulation():
    assert set(BREAKERS) == set(KEYS)
    assert {rule.regulation.source for rule in PROPERTIES} <= set(DOCUMENTS)
    assert {rule.regulation.status for rule in PROPERTIES} <= {"published", "from memory"}


@pytest.mark.parametrize("key", BREAKERS)
def test_breaking_rule_shown_with_shortest_sequence(key):
    other, events = BREAKERS[key]
    rules = usual_rules(**other)
    exploration = explore(rules)
    broken, example = next(broken for broken in exploration.broken if broken[0].key == key)
    assert example.events == events
    assert example.shown == announce(run(events, rules), rules)
    assert key not in exploration.proven
    assert set(exploration.proven) | {broken.key for broken, _ in exploration.broken} == set(KEYS)
    assert any(rule in broken.rules for rule in other)


@pytest.mark.parametrize("key", BREAKERS)
def test_no_shorter_sequence_breaks_property(key):
    """An independent search: every sequence shorter by one, without the explorer's bookkeeping."""
    other, events = BREAKERS[key]
    rules, rule = usual_rules(**other), HOLDS[key]
    front = {start(rules)}
    for _ in range(len(events) - 1):
        reached = set()
        for state in front:
            for event in single_events(rules):
                after = step(state, event, rules)
                assert after == state or rule.holds(state, event, after, rules)
                reached.add(after)
        front = reached - front


@pytest.mark.parametrize("other", [
    {"when_lateral_lost": "basic mode", "when_vertical_lost": "basic mode"},
    {"when_lateral_lost": "armed", "when_vertical_lost": "armed"},
    {"level_falls_outside": "falls to the level supported", "level_falls_inside": "falls to LNAV"},
    {"level_returns_outside": "with the signal", "level_returns_inside": "with the signal"},
    {"vertical_capture": "on its own", "vertical_arms": "by its own control"},
    {"arming_needs": (), "path_from_above": "stays armed"},
    {"arming_needs": ("the arming distance",), "arming_too_early": "waits"},
    {"approach_after_power": "kept", "approach_after_landing": "kept", "tuning_after_power": "cleared"},
    {"go_around": "only with guidance captured", "arming_needs": ("before the PFAF",)},
    {"autopilot_after_loss": "disconnects", "go_around_roll": "wings level", "autopilot_at_go_around": "disconnects",
     "autopilot_at_level_change": "disconnects"},
    {"go_around": "by hand alone", "announced": tuple(word for word in ANNOUNCED if word != "go-around"),
     "localizer_tuning": "not while SBAS is selected"},
    {"source_control": "none", "sources": (
        Source(SBAS, selected_by=("activating its approach",)), Source(FMS, selected_by=("another taken away",)))},
    {"sources": (Source(SBAS, ("SBAS approach active",), (), ("its course captured",), ("its guidance lost",)),
                 Source(ILS, (), (), ("its control",)),
                 Source(FMS, selected_by=("another taken away", "its control")))},
])
def test_no_design_refused(other):
    assert explore(usual_rules(**other)).proven == KEYS


@pytest.mark.parametrize("announced", [word for word in ANNOUNCED if word != "autopilot off"])
def test_unannounced_change_refused(announced):
    words = tuple(word for word in ANNOUNCED if word != announced)
    explored = explore(usual_rules(announced=words))
    keys = {broken.key for broken, _ in explored.broken}
    assert keys
    assert keys <= {"modes-announced", "change-announced"}
    assert {example.lacking for _, example in explored.broken} == {(announced,)}
    for fault in faults_of(explored, "jet.toml"):
        assert f'not annunciated: "{announced}"' in fault.found
        assert f'Add "{announced}" to announced' in fault.action


def test_automatic_arming_refused_commanded_arming_accepted():
    needs = {"arming_needs": ("a guiding source",)}
    alone = explore(usual_rules(armed_by=("coming within the arming distance",), **needs))
    assert [broken.key for broken, _ in alone.broken] == ["commanded"]
    for word in ("activating the approach", "the FMS lateral mode"):
        assert explore(usual_rules(armed_by=(word,), **needs)).broken == ()


def test_faults_name_sequence_property_rule_and_regulation():
    (fault,) = faults_of(explore(usual_rules(when_lateral_lost="unchanged")), "jet.toml")
    assert str(fault).startswith('jet.toml: modes: found after "take off", then "tune localizer", then ')
    assert "when_lateral_lost" in fault.action
    assert "no guidance is shown as captured without a source that guides" in fault.allowed
    assert "14 CFR Part 25, 25.1329(i); published" in fault.allowed
    assert faults_of(explore(usual_rules()), "jet.toml") == []


# Traps


def traps_of(**other):
    return {trap.key: example for trap, example in explore(usual_rules(**other)).traps}


SHOWN_BY_ITSELF = {"another-source", "autopilot-stays", "fms-flies-on", "localizer-shown", "source-survives-landing"}
HAND = {"sources": tuple(
    Source(name, selected_by=("its control", "another taken away") if name == FMS else ("its control",))
    for name in SOURCES)}
TRAPPED = [
    ("source-survives-power", HAND),
    ("approach-survives-power", {"approach_after_power": "kept"}),
    ("localizer-takes-source", {"sources": (
        Source(SBAS, (), (), ("its control",), ("tuning a localizer on this side",)), *USUAL_SOURCES[1:])}),
    ("localizer-inhibits", {"sources": (
        Source(SBAS, (), ("no localizer tuned on either side",), ("its control",)), *USUAL_SOURCES[1:])}),
    ("source-by-procedure", {"source_control": "none"}),
    ("source-moves", {"sources": (
        Source(SBAS, ("SBAS approach active",), (), ("its course captured",)), USUAL_SOURCES[2])}),
    ("sides-apart", {"source_control": "per side"}),
    ("armed-without-source", {"arming_needs": ()}),
    ("arming-without-effect", {"arming_needs": ("a guiding source", "before the PFAF")}),
    ("path-waits", {"vertical_arms": "once lateral is captured"}),
    ("vertical-first", {"vertical_capture": "on its own"}),
    ("path-goes-by", {"path_from_above": "stays armed"}),
    ("level-falls", {"level_falls_inside": "falls to the level supported"}),
    ("level-returns", {"level_returns_outside": "with the signal"}),
    ("goes-on-in-basic", {"when_vertical_lost": "basic mode"}),
    ("waits-again", {"when_lateral_lost": "armed"}),
    ("autopilot-disconnects", {"autopilot_after_loss": "disconnects"}),
    ("missed-not-followed", {"go_around_roll": "heading held"}),
    ("autopilot-off-at-level", {"autopilot_at_level_change": "disconnects"}),
    ("autopilot-off-at-go-around", {"autopilot_at_go_around": "disconnects"}),
    ("go-around-by-hand", {"go_around": "by hand alone"}),
    ("localizer-not-tuned", {"localizer_tuning": "not while SBAS is selected"}),
    ("no-go-around-mode", {"go_around": "only with guidance captured"}),
]


def test_usual_type_traps():
    assert set(traps_of()) == SHOWN_BY_ITSELF
    assert {key for key, _ in TRAPPED} | SHOWN_BY_ITSELF == {trap.key for trap in TRAPS}


@pytest.mark.parametrize(("key", "other"), TRAPPED, ids=[key for key, _ in TRAPPED])
def test_trap_found_where_set_and_shown_by_events(key, other):
    assert key not in traps_of()
    example = traps_of(**other)[key]
    rules, trap = usual_rules(**other), next(trap for trap in TRAPS if trap.key == key)
    assert example.events[-1] in trap.events
    before = run(example.events[:-1], rules)
    after = step(before, example.events[-1], rules)
    assert trap.happens(before, example.events[-1], after, rules)
    assert example.shown == announce(after, rules)


def test_type_without_localizer_has_no_localizer_trap():
    alone = traps_of(sources=(USUAL_SOURCES[0], USUAL_SOURCES[2]))
    assert not {key for key in alone if "localizer" in key}
    assert "another-source" not in alone


# Level changes


def test_level_table_has_every_change_in_both_places():
    rows = level_changes(usual_rules())
    assert len(rows) == len({(row.what, row.where) for row in rows}) == 2 * len(FALLS) * len(PLACES)
    falls = [row for row in rows if "again" not in row.what]
    assert {row.level for row in falls} == {("LPV", "LPV, vertical lost"), ("LPV", "LPV, lost")}
    assert all(row.announced and row.path == "lost" for row in falls)
    assert all(row.level[0] == row.level[1] for row in rows if "again" in row.what)


def test_level_table_names_unannounced_and_returning_levels():
    silent = level_changes(usual_rules(announced=ANNOUNCED[2:], level_falls_outside="falls to the level supported"))
    assert not any(row.announced for row in silent)
    assert {level for row in silent for level in row.level} == {"not annunciated"}
    rows = level_changes(usual_rules(level_falls_outside="falls to the level supported",
                                     level_returns_outside="with the signal"))
    outside = [row.level for row in rows if row.where == PLACES[0]]
    assert outside == [("LPV", "LNAV/VNAV"), ("LNAV/VNAV", "LPV"), ("LPV", "LNAV"), ("LNAV", "LPV"),
                       ("LPV", "none"), ("none", "LPV")]


# Exploration


def test_trapped_state_has_no_exit_by_direct_search():
    rules = usual_rules(go_around="only with guidance captured", arming_needs=("a guiding source", "before the PFAF"))
    inside = run(("take off", "load SBAS approach", "activate approach", "PFAF passed"), rules)
    assert shortest_way(inside, WAY, rules, lambda state: state.phase == "missed") is None
    assert "no-go-around-mode" in traps_of(go_around="only with guidance captured")


def test_single_events_are_effective_ones():
    usual = set(single_events(usual_rules()))
    assert usual < set(EVENTS)
    assert not any(event.endswith("side") for event in usual)
    assert "arming distance reached" not in usual
    either = (Source(SBAS, (), ("no localizer tuned on either side",), ("its control",)), *USUAL_SOURCES[1:])
    assert set(single_events(usual_rules(sources=either))) - usual == {
        "tune localizer, monitoring side", "untune localizer, monitoring side"}
    assert not any(event.startswith("select") for event in single_events(usual_rules(source_control="none")))


def test_followers_complete_and_true():
    follows = explore(usual_rules()).follows
    assert ("arm approach", ("inactive", "inactive"), ("armed", "armed")) in follows
    assert ("course reached", ("armed", "armed"), ("captured", "armed")) in follows
    assert ("vertical guidance lost", ("captured", "captured"), ("captured", "lost")) in follows
    assert len(set(follows)) == len(follows)
    assert all(before != after for _, before, after in follows)
    lost_again = [row for row in follows if row[1][0] == "lost" and row[2][0] != "lost"]
    assert {row[0] for row in lost_again} == {"arm approach", "disarm approach", "go around", "land", "power off"}


def test_exploration_repeatable():
    assert explore(usual_rules()) == explore(usual_rules())


# The properties themselves, on states made by hand

CAPTURED = START.but(phase="outside", lateral="captured")
USUAL = usual_rules()


@pytest.mark.parametrize("state", [CAPTURED, CAPTURED.but(lateral="inactive", vertical="captured")])
def test_capture_without_source_detected(state):
    assert not captured_has_source(START, "", state, USUAL)
    assert captured_has_source(state, "", START, USUAL)


def test_missing_announcement_detected():
    silent = usual_rules(announced=())
    assert not modes_announced(START, "", CAPTURED, silent)
    assert modes_announced(START, "", CAPTURED, USUAL)
    assert modes_announced(START, "", START, silent)  # on the ground nothing flies
    assert not change_announced(START, "tune localizer", START.but(selected=(ILS, ILS)), silent)
    assert change_announced(START, "load SBAS approach", START.but(approach="SBAS"), silent)
    flying = CAPTURED.but(lateral="inactive")
    assert not change_announced(flying, "", flying.but(fms=True), silent)
    off = usual_rules(autopilot_after_loss="disconnects", announced=("armed",))
    assert not autopilot_off_announced(START, "", START, off)


def test_guidance_without_command_detected():
    assert not commanded(START, "signal returns", START.but(lateral="armed"), USUAL)
    assert not commanded(START, "arm approach", START.but(lateral="captured"), USUAL)
    assert not commanded(START, "PFAF passed", START.but(vertical="armed"), USUAL)
    assert not commanded(START, "PFAF passed", START.but(fms=True), USUAL)
    assert commanded(START, "go around", START.but(fms=True), USUAL)
    assert commanded(START, "course reached", START.but(vertical="armed"), USUAL)
    assert set(RULES) >= {rule for prop in PROPERTIES for rule in prop.rules} - {"announced", "armed_by"}


def test_exploration_survives_json():
    """What a build keeps between its processes: a type that has traps, and rules that are refused."""
    for rules in (usual_rules(), usual_rules(when_lateral_lost="unchanged")):
        exploration = explore(rules)
        assert from_fields(json.loads(json.dumps(to_fields(exploration)))) == exploration
    assert exploration.broken


def test_keeper_asked_before_exploring():
    asked = []

    def keeper(chosen, explorer):
        asked.append(dict(chosen)["when_lateral_lost"])
        return replace(explorer(chosen), states=-1)

    before = exploration.keep_with(keeper)
    try:
        assert explore(usual_rules()).states == -1
        assert asked == [usual_rules().when_lateral_lost]
        assert exploration.keep_with(None) is keeper
        assert explore(usual_rules()).states > 1
    finally:
        exploration.keep_with(before)
