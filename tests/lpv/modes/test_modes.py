"""The mode state machine: what each event does, under the rules that decide it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.modes.annunciation import announce, changes, timeline
from lpv.modes.machine import EVENTS, run, run_usual, step
from lpv.modes.rules import ANNOUNCED, RULES, Rules, usual_rules
from lpv.modes.state import (
    FLYING,
    MONITORING,
    START,
    lateral_source,
    level_at_activation,
    source,
    vertical_source,
)
from lpv.modes.ways import (
    CONTROLS,
    is_way_out,
    left_behind,
    next_crew,
    seen_next,
    shortest_way,
    way_out,
)

USUAL = usual_rules()
ACTIVE = ("take off", "load SBAS approach", "activate approach", "select SBAS")
ARMED = (*ACTIVE, "arm approach")
ON_PATH = (*ARMED, "course reached", "path reached from below")


def modes(events, **other):
    state = run(events, usual_rules(**other))
    return state.lateral, state.vertical


# Rules and states


def test_rules_have_an_attribute_for_every_row():
    chosen = USUAL.chosen()
    assert set(chosen) == {*RULES, "announced"} == set(Rules.__annotations__)
    assert chosen["announced"] == ANNOUNCED
    assert Rules(**chosen).chosen() == chosen


@pytest.mark.parametrize("wrong", [
    {"recapture": "sometimes"}, {"recapture": None}, {"no_such_rule": "stays"}, {"announced": ("armed", "colours")},
])
def test_rules_refuse_what_is_not_a_choice(wrong):
    with pytest.raises(DomainError, match="allowed"):
        usual_rules(**wrong)


def test_rules_are_never_guessed():
    with pytest.raises(DomainError, match="selector"):
        Rules()


def test_states_are_values():
    same = START.but(power=True)
    assert same == START
    assert hash(same) == hash(START)
    assert START.but(power=False) != START
    assert START != "START"
    assert "ground" in repr(START)


@pytest.mark.parametrize("event", ["", "arm", "ARM APPROACH", "select SBAS,  flying side"])
def test_unknown_events_are_refused(event):
    with pytest.raises(DomainError, match="take off"):
        step(START, event, USUAL)


@given(st.lists(st.sampled_from(EVENTS), max_size=30), st.fixed_dictionaries(
    {key: st.sampled_from(choices) for key, (_, choices) in RULES.items()}
))
def test_any_sequence_of_events_under_any_rules_gives_a_state(events, other):
    rules = usual_rules(**other)
    state = START
    for event in events:
        before = state.key()
        after = step(state, event, rules)
        assert state.key() == before
        assert step(state, event, rules) == after
        state = after
        assert state.lateral in ("inactive", "armed", "captured", "lost")
        assert state.vertical in ("inactive", "armed", "captured", "lost")
        assert (state.level == "none") or state.active
        if vertical_source(state, rules):
            assert vertical_source(state, rules) == lateral_source(state, rules)
    assert run(events, rules) == state


# The source


def test_source_of_each_side():
    one = START.but(selector=(True, False), tuned=(False, True))
    assert [source(one, side, USUAL) for side in (FLYING, MONITORING)] == ["SBAS", "ILS"]
    assert source(START, FLYING, USUAL) == "FMS lateral navigation"
    assert source(START.but(power=False), FLYING, USUAL) == "none"


@pytest.mark.parametrize(("rule", "flying", "monitoring", "guides"), [
    ("no effect", "SBAS", "SBAS", "SBAS"),
    ("takes over its side", "ILS", "SBAS", "ILS"),
    ("inhibits SBAS on both sides", "SBAS", "SBAS", ""),
])
def test_localizer_tuned_with_the_selector_on(rule, flying, monitoring, guides):
    rules = usual_rules(localizer_with_selector_on=rule)
    state = run((*ACTIVE, "tune localizer, flying side"), rules)
    assert (source(state, FLYING, rules), source(state, MONITORING, rules)) == (flying, monitoring)
    assert lateral_source(state, rules) == guides
    assert lateral_source(run(ACTIVE, rules), rules) == "SBAS"


def test_selector_off_with_a_localizer_tuned_is_the_ils_whatever_is_loaded():
    state = run((*ACTIVE, "tune localizer", "selector off"), USUAL)
    assert state.approach == "SBAS"
    assert lateral_source(state, USUAL) == vertical_source(state, USUAL) == "ILS"


def test_one_control_for_both_sides_or_one_each():
    events = ["select SBAS, monitoring side"]
    assert run_usual(events, {}).selector == (True, True)
    assert run_usual(events, {"selector": "per side"}).selector == (False, True)
    assert run_usual([*events, "select SBAS, flying side", "selector off, monitoring side"],
                     {"selector": "per side"}).selector == (True, False)
    assert run(["tune localizer", "untune localizer, flying side"], USUAL).tuned == (False, True)


# The level of service


@pytest.mark.parametrize(("signal", "best", "baro", "level"), [
    ("full", "LPV", "not approved", "LPV"),
    ("full", "LPV", "approved", "LPV"),
    ("full", "LNAV/VNAV", "not approved", "LNAV/VNAV"),
    ("full", "LNAV", "not approved", "LNAV"),
    ("full", "LNAV", "approved", "LNAV/VNAV"),
    ("lateral only", "LPV", "not approved", "LNAV"),
    ("lateral only", "LPV", "approved", "LNAV/VNAV"),
    ("lateral only", "LNAV/VNAV", "not approved", "LNAV"),
    ("none", "LPV", "approved", "none"),
])
def test_level_at_activation(signal, best, baro, level):
    assert level_at_activation(signal, best, baro) == level


@pytest.mark.parametrize("arguments", [("good",), ("full", "LP"), ("full", "LPV", "yes")])
def test_level_refuses_other_words(arguments):
    with pytest.raises(DomainError):
        level_at_activation(*arguments)


def test_lost_level_stays_lost_until_activated_again():
    lost = (*ON_PATH, "vertical guidance lost", "signal returns", "arm approach", "path reached from below")
    assert modes(lost) == ("captured", "lost")
    back = (*lost, "activate approach", "arm approach", "path reached from below")
    assert modes(back) == ("captured", "captured")


def test_inside_the_pfaf_a_lost_level_is_lost_for_good():
    lost = (*ON_PATH, "PFAF passed", "vertical guidance lost", "signal returns", "activate approach", "arm approach",
            "path reached from below")
    assert modes(lost) == ("captured", "lost")


def test_barometric_path_does_not_need_the_signal():
    events = ["vertical guidance lost", *ON_PATH, "vertical guidance lost"]
    state = run_usual(events, {"baro_vnav": "approved"})
    assert (state.level, state.missing, state.vertical) == ("LNAV/VNAV", "nothing", "captured")
    assert run_usual([*events, "lateral guidance lost"], {"baro_vnav": "approved"}).vertical == "lost"


def test_lateral_integrity_takes_everything():
    assert modes((*ON_PATH, "lateral guidance lost")) == ("lost", "lost")
    assert modes((*ON_PATH, "lateral guidance lost", "signal returns", "arm approach")) == ("lost", "lost")


def test_no_signal_at_activation_gives_no_level_and_arms_nothing():
    state = run(("lateral guidance lost", *ARMED, "vertical guidance lost"), USUAL)
    assert (state.level, state.signal, state.lateral) == ("none", "none", "inactive")


# Arming and capturing


def test_normal_approach():
    assert modes(ARMED) == ("armed", "armed")
    assert modes((*ARMED, "path reached from below")) == ("armed", "armed")
    assert modes((*ARMED, "course reached")) == ("captured", "armed")
    assert modes(ON_PATH) == ("captured", "captured")


def test_without_a_source_arming_depends_on_the_type():
    blind = ("take off", "load SBAS approach", "arm approach")
    assert modes(blind) == ("inactive", "inactive")
    at_any_time = {"arming": "at any time in flight"}
    assert modes(blind, **at_any_time) == ("armed", "armed")
    assert modes((*blind, "course reached"), **at_any_time) == ("armed", "armed")
    assert modes((*blind, "activate approach", "select SBAS", "course reached"), **at_any_time) == ("captured", "armed")
    assert modes(("arm approach",), **at_any_time) == ("inactive", "inactive")


def test_armed_without_a_source_that_then_has_no_path_says_lost():
    events = ("vertical guidance lost", "take off", "load SBAS approach", "arm approach", "activate approach",
              "select SBAS")
    assert modes(events, arming="at any time in flight") == ("armed", "lost")


def test_vertical_that_arms_after_lateral():
    late = {"vertical_arms": "once lateral is captured"}
    assert modes(ARMED, **late) == ("armed", "inactive")
    assert modes((*ARMED, "path reached from below", "course reached"), **late) == ("captured", "armed")
    again = (*ON_PATH, "selector off", "select SBAS")
    assert modes(again, **late) == ("lost", "lost")
    assert modes((*again, "arm approach"), **late) == ("armed", "inactive")
    assert modes((*again, "arm approach", "course reached"), **late) == ("captured", "armed")


def test_path_from_above():
    events = (*ARMED, "course reached", "path reached from above")
    assert modes(events) == ("captured", "captured")
    assert modes(events, path_from_above="stays armed") == ("captured", "armed")


def test_arming_inside_the_pfaf():
    events = (*ACTIVE, "PFAF passed", "arm approach")
    assert modes(events) == ("armed", "armed")
    assert modes(events, arming_inside_pfaf="refused") == ("inactive", "inactive")


def test_disarming():
    assert modes((*ON_PATH, "disarm approach")) == ("inactive", "inactive")


# Losing the source


@pytest.mark.parametrize("event", ["selector off", "load ILS approach", "lateral guidance lost"])
def test_lost_source_is_lost_guidance(event):
    assert modes((*ON_PATH, event)) == ("lost", "lost")


def test_source_off_and_on_again_needs_arming():
    off_and_on = (*ON_PATH, "PFAF passed", "selector off", "select SBAS", "course reached", "path reached from below")
    assert modes(off_and_on) == ("lost", "lost")
    assert modes((*off_and_on, "arm approach", "course reached")) == ("captured", "armed")


def test_another_source_is_a_loss_too():
    assert modes((*ON_PATH, "tune localizer", "selector off")) == ("lost", "lost")


# Ends of the approach


def test_go_around_ends_the_approach_and_keeps_it_loaded():
    state = run((*ON_PATH, "PFAF passed", "go around"), USUAL)
    assert (state.phase, state.approach, state.active, state.lateral) == ("missed", "SBAS", False, "inactive")
    assert source(state, FLYING, USUAL) == "FMS lateral navigation"
    assert run(("activate approach", "arm approach", "course reached"), USUAL, state).lateral == "captured"
    assert step(state, "next approach", USUAL).phase == "outside"


@pytest.mark.parametrize(("rule", "event", "kept"), [
    ("selector_after_landing", "land", "stays"), ("selector_after_go_around", "go around", "stays"),
])
def test_selector_afterwards(rule, event, kept):
    assert run_usual([*ON_PATH, event], {rule: kept}).selector == (True, True)
    assert run_usual([*ON_PATH, event], {rule: "off"}).selector == (False, False)


def test_no_power_nothing_works():
    state = run((*ON_PATH, "power off", "select SBAS", "arm approach"), USUAL)
    assert (state.power, state.selector, state.approach, state.lateral) == (False, (False, False), "none", "inactive")
    assert step(state, "power off", USUAL) == state
    assert step(state, "power on", USUAL).power
    assert run_usual(["tune localizer", "power off"], {"tuning_after_power": "cleared"}).tuned == (False, False)


@pytest.mark.parametrize("event", ["go around", "land", "activate approach", "arm approach", "PFAF passed"])
def test_events_of_flight_do_nothing_on_the_ground(event):
    assert run(("load SBAS approach", event), USUAL) == run(("load SBAS approach",), USUAL)


# Words


def test_announcement_in_words():
    state = run((*ARMED, "course reached", "vertical guidance lost"), USUAL)
    assert announce(state, USUAL) == (
        "source: SBAS on both sides", "level: LPV, vertical lost", "lateral: captured", "vertical: lost")
    assert announce(START.but(power=False), USUAL) == ("power: off",)


def test_announcement_tells_sides_apart():
    rules = usual_rules(selector="per side")
    state = run((*ACTIVE[:3], "select SBAS, flying side", "tune localizer, monitoring side"), rules)
    assert announce(state, rules)[0] == "source: SBAS on the flying side, ILS on the monitoring side"


def test_timeline_tells_what_changed():
    moments = timeline([*ARMED, "arm approach", "go around"], USUAL)
    assert [moment.event for moment in moments] == ["", *ARMED, "arm approach", "go around"]
    assert moments[0].changes == moments[6].changes == ()
    assert moments[5].changes == ("lateral: from inactive to armed", "vertical: from inactive to armed")
    assert moments[7].changes == (
        "source: from SBAS on both sides to FMS lateral navigation on both sides", "level: from LPV to none",
        "lateral: from armed to inactive", "vertical: from armed to inactive",
        "go-around: from nothing shown to selected",
    )
    assert moments[7].announcement == announce(moments[7].state, USUAL)
    assert changes(moments[4].state, moments[5].state, USUAL) == moments[5].changes


# Ways


def test_way_out_is_a_go_around_in_flight_and_longer_on_the_ground():
    assert way_out(run(ACTIVE, USUAL), USUAL) == ("go around",)
    assert way_out(run(ARMED, USUAL), USUAL) == ("course reached",)
    assert way_out(run(ON_PATH, USUAL), USUAL) == ()
    assert way_out(START, USUAL) == ("take off", "go around")
    assert way_out(run((*ON_PATH, "power off"), USUAL), USUAL) == ("power on", "go around")


def test_no_way_is_none():
    assert shortest_way(START, CONTROLS, USUAL, is_way_out) is None


def test_next_crew_with_the_selector_left_on():
    seen = seen_next((True, True), (True, True), "ILS", USUAL)
    assert (seen.sources, seen.guides) == (("SBAS", "SBAS"), ("", ""))
    assert (seen.verdict, seen.remedy) == ("no guidance", ("selector off",))


def test_next_crew_matrix_of_both_behaviours():
    verdicts = [seen.verdict for seen in next_crew(USUAL)]
    # on: SBAS tuned, not; ILS tuned, not.  off: SBAS tuned, not; ILS tuned, not.
    assert verdicts == ["right", "right", "no guidance", "no guidance",
                        "another source", "no guidance", "right", "no guidance"]
    inhibits = next_crew(usual_rules(localizer_with_selector_on="inhibits SBAS on both sides"))
    assert [seen.verdict for seen in inhibits][:2] == ["no guidance", "right"]
    assert inhibits[0].remedy == ("untune localizer",)


def test_one_side_wrong_is_wrong():
    seen = seen_next((True, False), (True, True), "SBAS", usual_rules(selector="per side"))
    assert (seen.guides, seen.verdict, seen.remedy) == (("SBAS", "ILS"), "another source", ("select SBAS",))


def test_next_crew_flies_sbas_or_ils():
    with pytest.raises(DomainError, match="ILS"):
        seen_next((True, True), (False, False), "VOR", USUAL)


def test_what_is_left_behind():
    assert left_behind(USUAL) == [
        ("go around", True, True, True), ("land", True, False, True), ("land, power off, power on", False, False, True)]
    careful = usual_rules(selector_after_landing="off", approach_after_landing="kept", tuning_after_power="cleared")
    assert left_behind(careful)[1:] == [
        ("land", False, True, True), ("land, power off, power on", False, False, False)]
