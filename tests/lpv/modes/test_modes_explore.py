"""Proof over all states: the demo types keep every property, and a rule that breaks one is shown."""

from pathlib import Path

import pytest

from lpv.aircraft import record as aircraft
from lpv.modes import exploration as modes_explore
from lpv.modes.annunciation import announce
from lpv.modes.exploration import explore, faults_of, single_events
from lpv.modes.machine import EVENTS, run, step
from lpv.modes.properties import (
    ALWAYS,
    PROPERTIES,
    armed_by_the_crew,
    captured_has_source,
    change_is_told,
    lateral_first,
    level_stays,
    loss_is_told,
    lost_level_stays_lost,
    modes_announced,
    power_as_stated,
    selector_off_shows_ils,
)
from lpv.modes.rules import usual_rules
from lpv.modes.state import START
from lpv.modes.ways import WAY, shortest_way

FOLDER = Path(__file__).resolve().parents[3] / "docs" / "aircraft"
TYPES = aircraft.read_all(FOLDER)
KEYS = tuple(rule.key for rule in PROPERTIES)
HOLDS = {rule.key: rule for rule in PROPERTIES}

# property -> (rules that break it, a shortest sequence that shows it)
ILS_ARMED = ("take off", "tune localizer, flying side", "arm approach")
BREAKERS = {
    "captured-has-source": (
        {"when_source_lost": "unchanged"}, (*ILS_ARMED, "course reached", "select SBAS")),
    "lateral-first": ({"vertical_capture": "on its own"}, (*ILS_ARMED, "path reached from below")),
    "off-shows-ils": ({"selector_off_shows": "FMS lateral navigation"}, ("tune localizer, flying side",)),
    "modes-announced": ({"announced": ("source", "level", "captured", "lost")}, ILS_ARMED),
    "loss-is-told": ({"when_source_lost": "inactive"}, (*ILS_ARMED, "select SBAS")),
    "armed-by-the-crew": ({"recapture": "by itself"}, (*ILS_ARMED, "select SBAS", "selector off")),
    "level-stays": (
        {"level_after_loss": "falls back to LNAV"},
        ("take off", "load SBAS approach", "activate approach", "vertical guidance lost")),
    "lost-level-stays-lost": (
        {"level_after_loss": "returns with the signal"},
        ("take off", "load SBAS approach", "activate approach", "vertical guidance lost", "signal returns")),
    "change-is-told": ({"announced": ("level", "armed", "captured", "lost")}, ("select SBAS",)),
    "no-trap": (
        {"go_around": "only with guidance captured", "arming_inside_pfaf": "refused"},
        ("take off", "load SBAS approach", "activate approach", "PFAF passed")),
}


@pytest.mark.parametrize("type_", TYPES, ids=lambda found: found.slug)
def test_every_property_is_proven_for_every_type(type_):
    found = type_.exploration
    assert found.counterexamples == ()
    assert found.proven == KEYS
    assert 500 < found.states < 20_000
    assert found.states <= found.transitions + 1 < found.tried
    assert 5 < found.depth < 40


def test_every_property_has_a_breaker():
    """But one: what removal of power does the file itself states; a machine that does otherwise is shown below."""
    assert set(BREAKERS) | {"power-as-stated"} == set(KEYS)


@pytest.mark.parametrize("stated", ["off", "stays"])
def test_either_statement_about_power_is_kept_and_proven(stated):
    rules = usual_rules(selector_after_power=stated)
    found = explore(rules)
    assert found.proven == KEYS
    left = run(["select SBAS", "power off", "power on"], rules)
    assert left.selector == ((True, True) if stated == "stays" else (False, False))


@pytest.mark.parametrize(("stated", "done"), [("off", "stays"), ("stays", "off")])
def test_a_machine_that_does_not_do_what_the_file_states_is_shown_with_a_shortest_sequence(stated, done, monkeypatch):
    other = usual_rules(selector_after_power=done)
    monkeypatch.setattr(modes_explore, "step", lambda state, event, rules: step(state, event, other))
    chosen = tuple(usual_rules(selector_after_power=stated).chosen().items())
    (example,) = modes_explore._explored.__wrapped__(chosen).counterexamples
    assert (example.key, example.events) == ("power-as-stated", ("select SBAS", "power off"))
    assert example.rules == ("selector_after_power",)


@pytest.mark.parametrize("key", BREAKERS)
def test_a_rule_that_breaks_a_property_is_shown_with_a_shortest_sequence(key):
    other, events = BREAKERS[key]
    rules = usual_rules(**other)
    found = explore(rules)
    example = next(one for one in found.counterexamples if one.key == key)
    assert example.events == events
    assert example.shown == announce(run(events, rules), rules)
    assert key not in found.proven
    assert set(found.proven) | {one.key for one in found.counterexamples} == set(KEYS)
    assert any(rule in example.rules for rule in other)


@pytest.mark.parametrize("key", [key for key in BREAKERS if key != "no-trap"])
def test_no_shorter_sequence_breaks_it(key):
    """An independent search: every sequence shorter by one, without the explorer's bookkeeping."""
    other, events = BREAKERS[key]
    rules, rule = usual_rules(**other), HOLDS[key]
    front = {START}
    for _ in range(len(events) - 1):
        found = set()
        for state in front:
            for event in single_events(rules):
                after = step(state, event, rules)
                assert rule.holds(after, rules) if key in ALWAYS_KEYS else rule.holds(state, event, after, rules)
                found.add(after)
        front = found - front


ALWAYS_KEYS = tuple(rule.key for rule in ALWAYS)


def test_the_flight_manual_may_allow_vertical_first():
    rules = usual_rules(vertical_capture="on its own", vertical_first="allowed")
    assert explore(rules).proven == KEYS


def test_a_go_around_only_from_captured_is_no_trap_where_the_approach_can_be_armed():
    assert "no-trap" in explore(usual_rules(go_around="only with guidance captured")).proven


def test_trapped_state_has_no_way_by_direct_search_either():
    other, events = BREAKERS["no-trap"]
    rules = usual_rules(**other)
    trapped = run(events, rules)
    assert shortest_way(trapped, WAY, rules, lambda state: state.phase == "missed") is None
    assert shortest_way(trapped, WAY, rules, lambda state: state.lateral == "captured") is None


def test_faults_name_the_sequence_the_property_and_the_rule():
    (fault,) = faults_of(explore(usual_rules(selector_off_shows="FMS lateral navigation")), "jet.toml")
    assert str(fault).startswith('jet.toml: modes: found after "tune localizer, flying side": source: ')
    assert "selector_off_shows" in fault.action
    assert "the guidance shown is the ILS's" in fault.allowed
    assert faults_of(explore(usual_rules()), "jet.toml") == []


def test_single_events_reach_what_double_events_do():
    for selector in ("shared", "per side"):
        rules = usual_rules(selector=selector)
        single = single_events(rules)
        assert set(single) < set(EVENTS)
        both = run([event for event in single if event.startswith(("select SBAS", "tune"))], rules)
        assert both == run(["select SBAS", "tune localizer"], rules)


def test_what_follows_what_is_complete_and_true():
    found = explore(usual_rules()).follows
    assert ("arm approach", ("inactive", "inactive"), ("armed", "armed")) in found
    assert ("course reached", ("armed", "armed"), ("captured", "armed")) in found
    assert ("vertical guidance lost", ("captured", "captured"), ("captured", "lost")) in found
    assert len(set(found)) == len(found)
    assert all(before != after for _, before, after in found)
    lost_again = [row for row in found if row[1][0] == "lost" and row[2][0] != "lost"]
    assert {row[0] for row in lost_again} == {"arm approach", "disarm approach", "go around", "land", "power off"}


def test_exploring_twice_gives_the_same():
    assert explore(usual_rules()) == explore(usual_rules())


# The properties themselves, on states made by hand

CAPTURED = START.but(phase="outside", lateral="captured")
USUAL = usual_rules()


@pytest.mark.parametrize(("holds", "state"), [
    (captured_has_source, CAPTURED),
    (captured_has_source, CAPTURED.but(lateral="inactive", vertical="captured")),
    (lateral_first, START.but(vertical="captured")),
])
def test_state_properties_see_a_bad_state(holds, state):
    assert not holds(state, USUAL)
    assert holds(START, USUAL)


def test_announcement_properties_see_what_is_not_announced():
    silent = usual_rules(announced=())
    assert not modes_announced(CAPTURED, silent)
    assert modes_announced(CAPTURED, USUAL)
    assert not change_is_told(START, "tune localizer", START.but(tuned=(True, True)), silent)
    assert change_is_told(START, "load SBAS approach", START.but(approach="SBAS"), silent)
    assert not selector_off_shows_ils(START.but(tuned=(False, True)),
                                      usual_rules(selector_off_shows="FMS lateral navigation"))


def test_step_properties_see_a_bad_step():
    tuned = CAPTURED.but(tuned=(True, True))
    assert not loss_is_told(tuned, "untune localizer", CAPTURED, USUAL)
    assert loss_is_told(tuned, "untune localizer", CAPTURED.but(lateral="lost"), USUAL)
    on, without = START.but(selector=(True, True)), START.but(power=False)
    stays = usual_rules(selector_after_power="stays")
    assert power_as_stated(on, "power off", without, USUAL)
    assert not power_as_stated(on, "power off", without.but(selector=(False, True)), USUAL)
    assert power_as_stated(on, "power off", without.but(selector=(True, True)), stays)
    assert not power_as_stated(on, "power off", without, stays)
    assert not power_as_stated(without, "power on", on, USUAL)
    assert power_as_stated(on, "selector off", START, USUAL)
    assert not armed_by_the_crew(START, "signal returns", START.but(lateral="armed"), USUAL)
    assert not armed_by_the_crew(START, "arm approach", START.but(lateral="captured"), USUAL)
    assert not level_stays(START.but(level="LPV"), "PFAF passed", START.but(level="LNAV"), USUAL)
    assert not lost_level_stays_lost(
        START.but(level="LPV", missing="vertical"), "PFAF passed", START.but(level="LPV"), USUAL)
