"""The mode state machine: what each event does, under the rules that decide it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.modes.annunciation import announce, announcement, changes, timeline
from lpv.modes.levels import as_the_faa_describes, level_changes
from lpv.modes.machine import EVENTS, run, run_usual, step
from lpv.modes.meanings import MEANINGS, SOURCE_MEANINGS
from lpv.modes.rules import (
    ANNOUNCED,
    CONDITIONS,
    FMS,
    ILS,
    LEVELS,
    LISTS,
    REMOVED_BY,
    RULES,
    SBAS,
    SELECTED_BY,
    SOURCES,
    USUAL_SOURCES,
    Rules,
    Source,
    sources_of,
    sources_text,
    usual_rules,
)
from lpv.modes.selection import tuned_effect
from lpv.modes.state import (
    FLYING,
    MONITORING,
    START,
    followed_source,
    lateral_source,
    level_at_activation,
    source,
    start,
    vertical_source,
)
from lpv.modes.ways import (
    CONTROLS,
    flown_on_sbas,
    is_way_out,
    left_behind,
    left_states,
    next_crew,
    seen_next,
    select_needed,
    set_up_events,
    shortest_way,
    shown_unselected,
    way_out,
)
from lpv_site.department.data import aircraft

USUAL = usual_rules()
ACTIVE = ("take off", "load SBAS approach", "activate approach", "select SBAS")
ARMED = (*ACTIVE, "arm approach")
ON_PATH = (*ARMED, "course reached", "path reached from below")
OWN = "its control"
KEPT = USUAL_SOURCES[1:]


def with_sbas(**words):
    """The usual sources, SBAS changed in some of its lists."""
    usual = USUAL_SOURCES[0]
    row = {name: getattr(usual, name) for name in ("offered", "guides_while", "selected_by", "removed_by")}
    return {"sources": (Source(SBAS, **{**row, **words}), *KEPT)}


# Three sources chosen by hand: a localizer that is tuned changes nothing.
BY_HAND = {"sources": tuple(
    Source(name, selected_by=(OWN, "another taken away") if name == FMS else (OWN,)) for name in SOURCES)}
# No control at all: what is active is the source.
BY_PROCEDURE = {"source_control": "none", "sources": (
    Source(SBAS, selected_by=("activating its approach",), removed_by=("loading another approach", "landing")),
    Source(ILS, ("localizer tuned on either side",), (), ("activating its approach",),
           ("no longer offered", "landing")),
    Source(FMS, selected_by=("another taken away",)))}
# The FMS first; the approach source comes with its course.
TRANSFER = {"sources": (
    Source(SBAS, ("SBAS approach active",), (), ("its course captured",), ("no longer offered", "go-around")),
    Source(FMS, selected_by=("another taken away", OWN)))}


def modes(events, **other):
    state = run(events, usual_rules(**other))
    return state.lateral, state.vertical


# Rules and states


def test_rules_have_attribute_for_every_row():
    chosen = USUAL.chosen()
    assert set(chosen) == {*RULES, *LISTS, "sources"} == set(Rules.__annotations__)
    assert chosen["announced"] == ANNOUNCED
    assert Rules(**chosen).chosen() == chosen


@pytest.mark.parametrize("wrong", [
    {"recapture": "sometimes"}, {"recapture": None}, {"no_such_rule": "stays"}, {"announced": ("armed", "colours")},
    {"announced": "armed"}, {"sources": ()}, {"sources": KEPT[:1]},
])
def test_rules_refuse_invalid_choice(wrong):
    with pytest.raises(DomainError, match="allowed"):
        usual_rules(**wrong)


def test_rules_never_guessed():
    with pytest.raises(DomainError, match="source_control"):
        Rules()


@pytest.mark.parametrize("wrong", [
    {"name": "VOR"}, {"offered": ("sometimes",)}, {"guides_while": ("no",)}, {"selected_by": ("magic",)},
    {"removed_by": ("its control", "rain")},
])
def test_sources_refuse_other_words(wrong):
    with pytest.raises(DomainError, match="source"):
        Source(**{"name": SBAS, **wrong})


def test_sources_text_round_trip():
    for sources in (USUAL_SOURCES, BY_HAND["sources"], BY_PROCEDURE["sources"], TRANSFER["sources"]):
        assert sources_of(sources_text(sources)) == sources
        assert len({*sources_of(sources_text(sources)), *sources}) == len(sources)
    assert sources_text(USUAL_SOURCES).startswith("0;;;0;0 9,")


@pytest.mark.parametrize("text", ["", "0;;;0", "SBAS;;;0;0", "0;;;99;0", ";;;0;0", "9;;;0;0"])
def test_invalid_source_lines_refused(text):
    with pytest.raises(DomainError):
        sources_of(text)


def test_every_word_has_meaning():
    choices = {key: set(allowed) for key, (_, allowed) in {**RULES, **LISTS}.items()}
    assert {key: set(words) for key, words in MEANINGS.items()} == choices
    meanings = {key: set(words) for key, words in SOURCE_MEANINGS.items()}
    assert meanings["offered"] | {"no " + word for word in meanings["offered"]} >= set(CONDITIONS)
    assert (meanings["name"], meanings["selected_by"], meanings["removed_by"]) == (
        set(SOURCES), set(SELECTED_BY), set(REMOVED_BY))


def test_states_are_values():
    same = START.but(power=True)
    assert same == START
    assert hash(same) == hash(START)
    assert START.but(power=False) != START
    assert START != "START"
    assert "ground" in repr(START)


@pytest.mark.parametrize("event", ["", "arm", "ARM APPROACH", "select SBAS,  flying side"])
def test_unknown_events_refused(event):
    with pytest.raises(DomainError, match="take off"):
        step(START, event, USUAL)


WORDS = st.builds(
    Source, st.sampled_from((SBAS, ILS)), st.lists(st.sampled_from(CONDITIONS), max_size=2),
    st.lists(st.sampled_from(CONDITIONS), max_size=2), st.lists(st.sampled_from(SELECTED_BY), max_size=3),
    st.lists(st.sampled_from(REMOVED_BY), max_size=3))


@given(st.lists(st.sampled_from(EVENTS), max_size=30), st.fixed_dictionaries(
    {key: st.sampled_from(choices) for key, (_, choices) in RULES.items()}
    | {key: st.lists(st.sampled_from(words), unique=True) for key, (_, words) in LISTS.items()}
), st.lists(WORDS, max_size=2, unique_by=lambda rules: rules.name))
def test_random_event_sequences_give_state(events, other, sources):
    rules = usual_rules(**other, sources=(*sources, Source(FMS, selected_by=("another taken away",))))
    state = start(rules)
    for event in events:
        before = state.key()
        after = step(state, event, rules)
        assert state.key() == before
        assert step(state, event, rules) == after
        state = after
        assert state.lateral in ("inactive", "armed", "captured", "lost")
        assert state.vertical in ("inactive", "armed", "captured", "lost")
        assert (state.level == "none") or state.active
        assert not (state.fms and state.lateral == "captured")
        assert all(name in SOURCES for name in state.selected)
        if vertical_source(state, rules):
            assert lateral_source(state, rules) in (vertical_source(state, rules), SBAS)
    assert run(events, rules) == state


# The source


def test_source_of_each_side():
    state = START.but(selected=(SBAS, ILS), tuned=(False, True))
    assert [source(state, side, USUAL) for side in (FLYING, MONITORING)] == ["SBAS", "ILS"]
    assert source(START, FLYING, USUAL) == "FMS lateral navigation"
    assert source(START.but(power=False), FLYING, USUAL) == "none"
    assert start(USUAL) == START


@pytest.mark.parametrize(("other", "flying", "monitoring", "guides", "effect"), [
    ({}, "SBAS", "SBAS", "SBAS", "no effect"),
    (with_sbas(removed_by=("tuning a localizer on this side",)), "ILS", "SBAS", "ILS", "takes over its side"),
    (with_sbas(guides_while=("no localizer tuned on either side",)), "SBAS", "SBAS", "", "inhibits SBAS on both sides"),
    (with_sbas(guides_while=("no localizer tuned on this side",)), "SBAS", "SBAS", "", "inhibits SBAS on its side"),
])
def test_localizer_tuned_with_sbas_selected(other, flying, monitoring, guides, effect):
    rules = usual_rules(**other)
    state = run((*ACTIVE, "tune localizer, flying side"), rules)
    assert (source(state, FLYING, rules), source(state, MONITORING, rules)) == (flying, monitoring)
    assert lateral_source(state, rules) == guides
    assert lateral_source(run(ACTIVE, rules), rules) == "SBAS"
    assert tuned_effect(rules) == effect


def test_selector_off_with_tuned_localizer_is_ils():
    state = run((*ACTIVE, "tune localizer", "selector off"), USUAL)
    assert state.approach == "SBAS"
    assert lateral_source(state, USUAL) == vertical_source(state, USUAL) == "ILS"
    assert shown_unselected(USUAL) == "ILS"


def test_one_shared_control_or_one_per_side():
    events = ["select SBAS, monitoring side"]
    assert run_usual(events, {}).selected == (SBAS, SBAS)
    assert run_usual(events, {"source_control": "per side"}).selected == (FMS, SBAS)
    assert run_usual([*events, "select SBAS, flying side", "selector off, monitoring side"],
                     {"source_control": "per side"}).selected == (SBAS, FMS)
    assert run(["tune localizer", "untune localizer, flying side"], USUAL).tuned == (False, True)


def test_localizer_changes_nothing_when_chosen_by_hand():
    rules = usual_rules(**BY_HAND)
    for event in ("tune localizer", "untune localizer", "selector off", "load ILS approach"):
        for name in SOURCES:
            state = run(("take off", "select " + name), rules)
            assert step(state, event, rules).selected == state.selected == (name, name)
    assert (tuned_effect(rules), shown_unselected(rules)) == ("no effect", FMS)
    ils = run(("take off", "select ILS"), rules)
    assert lateral_source(ils, rules) == ""
    assert lateral_source(step(ils, "tune localizer", rules), rules) == "ILS"


def test_source_by_procedure_alone():
    rules = usual_rules(**BY_PROCEDURE)
    assert run(("select SBAS", "selector off"), rules) == start(rules)
    active = run(ACTIVE[:3], rules)
    assert active.selected == (SBAS, SBAS)
    assert run(("load ILS approach", "activate approach"), rules, active).selected == (FMS, FMS)
    tuned = run(("load ILS approach", "tune localizer, monitoring side", "activate approach"), rules, active)
    assert tuned.selected == (ILS, ILS)
    assert [lateral_source(tuned, rules, side) for side in (FLYING, MONITORING)] == ["", "ILS"]
    assert step(tuned, "untune localizer", rules).selected == (FMS, FMS)
    assert step(active, "land", rules).selected == (FMS, FMS)


def test_source_comes_with_course():
    rules = usual_rules(**TRANSFER)
    armed = run((*ACTIVE[:3], "FMS lateral mode", "arm approach"), rules)
    assert (armed.selected[FLYING], armed.lateral, armed.vertical, armed.fms) == (FMS, "armed", "armed", True)
    assert (lateral_source(armed, rules), followed_source(armed, rules)) == ("", "SBAS")
    captured = step(armed, "course reached", rules)
    assert (captured.selected, captured.lateral, captured.fms) == ((SBAS, SBAS), "captured", False)
    assert step(captured, "path reached from below", rules).vertical == "captured"
    back = step(captured, "select FMS lateral navigation", rules)
    assert (back.selected[FLYING], back.lateral) == (FMS, "lost")
    assert step(captured, "go around", rules).selected == (FMS, FMS)


def test_withdrawn_source_removed_or_kept_without_guidance():
    stays = usual_rules(**with_sbas(offered=("SBAS approach active",)))
    goes = usual_rules(**with_sbas(offered=("SBAS approach active",), removed_by=("no longer offered",)))
    for rules, selected in ((stays, SBAS), (goes, FMS)):
        state = run((*ACTIVE, "load ILS approach"), rules)
        assert (state.selected[FLYING], lateral_source(state, rules)) == (selected, "")
    assert run(("select SBAS",), stays) == start(stays)


@pytest.mark.parametrize(("word", "event"), [
    ("arming the approach", "arm approach"), ("loading its approach", "load SBAS approach"),
    ("activating its approach", "activate approach"), ("passing the PFAF", "PFAF passed"),
    ("coming within the arming distance", "arming distance reached"),
])
def test_source_selection_events(word, event):
    rules = usual_rules(**with_sbas(selected_by=(word,)))
    state, events = start(rules), (*ACTIVE[:3], "arming distance reached", "arm approach", "PFAF passed")
    for each in events:
        after = step(state, each, rules)
        assert (state.selected[FLYING] == FMS) == (event in events[events.index(each):])
        state = after
    assert state.selected[FLYING] == SBAS


@pytest.mark.parametrize(("word", "event"), [
    ("loading another approach", "load ILS approach"), ("its guidance lost", "lateral guidance lost"),
    ("go-around", "go around"), ("landing", "land"), ("removal of power", "power off"),
    ("tuning a localizer on either side", "tune localizer, monitoring side"),
])
def test_source_removal_events(word, event):
    taken, kept = (usual_rules(**with_sbas(removed_by=words)) for words in ((word,), ()))
    assert run((*ACTIVE, event), kept).selected[FLYING] == SBAS
    assert run((*ACTIVE, event), taken).selected[FLYING] == FMS


def test_untuning_removes_source_on_its_side():
    rules = usual_rules(**with_sbas(removed_by=("untuning the localizer",)))
    assert run((*ACTIVE, "tune localizer", "untune localizer, flying side"), rules).selected == (FMS, SBAS)


# The level of service


@pytest.mark.parametrize(("signal", "best", "baro", "level"), [
    ("LPV", "LPV", "not approved", "LPV"),
    ("LPV", "LPV", "approved", "LPV"),
    ("LPV", "LNAV/VNAV", "not approved", "LNAV/VNAV"),
    ("LPV", "LNAV", "not approved", "LNAV"),
    ("LPV", "LNAV", "approved", "LNAV/VNAV"),
    ("LNAV", "LPV", "not approved", "LNAV"),
    ("LNAV", "LPV", "approved", "LNAV/VNAV"),
    ("LNAV", "LNAV/VNAV", "not approved", "LNAV"),
    ("none", "LPV", "approved", "none"),
    ("LNAV/VNAV", "LPV", "not approved", "LNAV/VNAV"),
    ("LNAV/VNAV", "LNAV", "not approved", "LNAV"),
])
def test_level_at_activation(signal, best, baro, level):
    assert level_at_activation(signal, best, baro) == level


@pytest.mark.parametrize("arguments", [("good",), ("LPV", "LP"), ("LPV", "LPV", "yes")])
def test_level_refuses_other_words(arguments):
    with pytest.raises(DomainError):
        level_at_activation(*arguments)


def test_lost_level_stays_lost_until_reactivated():
    lost = (*ON_PATH, "vertical guidance lost", "signal returns", "arm approach", "path reached from below")
    assert modes(lost) == ("captured", "lost")
    back = (*lost, "activate approach", "arm approach", "path reached from below")
    assert modes(back) == ("captured", "captured")


def test_level_lost_inside_pfaf_is_final():
    lost = (*ON_PATH, "PFAF passed", "vertical guidance lost", "signal returns", "activate approach", "arm approach",
            "path reached from below")
    assert modes(lost) == ("captured", "lost")


def test_barometric_path_needs_no_signal():
    events = ["vertical guidance lost", *ON_PATH, "vertical guidance lost"]
    state = run_usual(events, {"baro_vnav": "approved"})
    assert (state.level, state.missing, state.vertical) == ("LNAV/VNAV", "nothing", "captured")
    assert run_usual([*events, "lateral guidance lost"], {"baro_vnav": "approved"}).vertical == "lost"


def test_lateral_integrity_loss_removes_everything():
    assert modes((*ON_PATH, "lateral guidance lost")) == ("lost", "lost")
    assert modes((*ON_PATH, "lateral guidance lost", "signal returns", "arm approach")) == ("lost", "lost")


def test_no_signal_at_activation_arms_nothing():
    state = run(("lateral guidance lost", *ARMED, "vertical guidance lost"), USUAL)
    assert (state.level, state.signal, state.lateral) == ("none", "none", "inactive")


FALLS = {"signal falls to LNAV/VNAV": "LNAV/VNAV", "vertical guidance lost": "LNAV", "lateral guidance lost": "none"}


@pytest.mark.parametrize("where", ["outside", "inside"])
@pytest.mark.parametrize(("event", "supported"), FALLS.items())
def test_level_falls_and_returns_automatically(where, event, supported):
    other = {"level_falls_" + where: "falls to the level supported", "level_returns_" + where: "with the signal"}
    rules = usual_rules(**other)
    events = (*ON_PATH, "PFAF passed") if where == "inside" else ON_PATH
    fallen = run((*events, event), rules)
    assert (fallen.level, fallen.missing) == (supported, "nothing")
    assert fallen.vertical == ("captured" if supported == "LNAV/VNAV" else "lost")
    back = step(fallen, "signal returns", rules)
    assert (back.level, back.missing) == ("LPV", "nothing")
    # On the other side of the PFAF the rule is another one.
    elsewhere = run((*(ON_PATH if where == "inside" else (*ON_PATH, "PFAF passed")), event), rules)
    assert (elsewhere.level, elsewhere.missing) == ("LPV", "all" if supported == "none" else "vertical")
    assert step(elsewhere, "signal returns", rules).missing == elsewhere.missing


def test_level_falls_to_lnav_at_once():
    rules = usual_rules(level_falls_outside="falls to LNAV")
    assert run((*ON_PATH, "signal falls to LNAV/VNAV"), rules).level == "LNAV"
    assert run((*ON_PATH, "lateral guidance lost"), rules).level == "none"


def test_later_smaller_loss_never_improves_signal():
    worst = run((*ON_PATH, "lateral guidance lost"), USUAL)
    assert step(worst, "vertical guidance lost", USUAL) == worst
    assert step(worst, "signal falls to LNAV/VNAV", USUAL) == worst
    flagged = run((*ON_PATH, "vertical guidance lost"), USUAL)
    assert (flagged.missing, step(flagged, "lateral guidance lost", USUAL).missing) == ("vertical", "all")


# Arming and capturing


def test_normal_approach():
    assert modes(ARMED) == ("armed", "armed")
    assert modes((*ARMED, "path reached from below")) == ("armed", "armed")
    assert modes((*ARMED, "course reached")) == ("captured", "armed")
    assert modes(ON_PATH) == ("captured", "captured")


BLIND = {"arming_needs": ()}


def test_arming_without_source_depends_on_type():
    blind = ("take off", "load SBAS approach", "arm approach")
    assert modes(blind) == ("inactive", "inactive")
    assert modes(blind, **BLIND) == ("armed", "armed")
    assert modes((*blind, "course reached"), **BLIND) == ("armed", "armed")
    assert modes((*blind, "activate approach", "select SBAS", "course reached"), **BLIND) == ("captured", "armed")
    assert modes(("arm approach",), **BLIND) == ("inactive", "inactive")


def test_armed_source_without_path_reports_lost():
    events = ("vertical guidance lost", "take off", "load SBAS approach", "arm approach", "activate approach",
              "select SBAS")
    assert modes(events, **BLIND) == ("armed", "lost")


@pytest.mark.parametrize(("need", "event"), [
    ("an active approach", "activate approach"), ("a level of service", "activate approach"),
    ("the FMS lateral mode", "FMS lateral mode"), ("the arming distance", "arming distance reached"),
])
def test_arming_requirements(need, event):
    needs = {"arming_needs": (need,)}
    before = ("take off", "load SBAS approach", "select SBAS", "arm approach")
    assert modes(before, **needs) == ("inactive", "inactive")
    assert modes((*before, event, "arm approach"), **needs) == ("armed", "armed")


def test_early_arming_refused_or_waits():
    early = {"arming_needs": ("a guiding source", "the arming distance")}
    assert modes(ARMED, **early) == ("inactive", "inactive")
    waits = {**early, "arming_too_early": "waits"}
    assert modes((*ARMED, "course reached"), **waits) == ("armed", "armed")
    assert modes((*ARMED, "arming distance reached", "course reached"), **waits) == ("captured", "armed")


@pytest.mark.parametrize(("word", "event"), [
    ("activating the approach", "activate approach"), ("the FMS lateral mode", "FMS lateral mode"),
    ("coming within the arming distance", "arming distance reached"),
])
def test_other_arming_events(word, event):
    before = ("take off", "load SBAS approach", "select SBAS")
    events = (*before, event) if event == "activate approach" else (*before, "activate approach", event)
    assert modes(events)[0] == "inactive"
    assert modes(events, armed_by=(word,)) == ("armed", "armed")
    assert modes((*events, "disarm approach", "arm approach"), armed_by=(word,)) == ("inactive", "inactive")


def test_path_armed_by_own_control():
    own = {"vertical_arms": "by its own control"}
    assert modes((*ARMED, "course reached"), **own) == ("captured", "inactive")
    assert modes((*ARMED, "arm path", "course reached", "path reached from below"), **own) == ("captured", "captured")
    assert modes((*ARMED, "arm path")) == ("armed", "armed")
    assert modes((*ACTIVE, "arm path")) == ("inactive", "inactive")


def test_path_captured_independently():
    own = {"vertical_capture": "on its own"}
    events = (*ARMED, "path reached from below")
    assert modes(events) == ("armed", "armed")
    assert modes(events, **own) == ("armed", "captured")
    assert modes((*events, "course reached"), **own) == ("captured", "captured")


def test_fms_lateral_mode_hands_over_to_final_course():
    state = run((*ACTIVE, "FMS lateral mode", "arm approach"), USUAL)
    assert (state.fms, state.lateral) == (True, "armed")
    assert step(state, "course reached", USUAL).fms is False
    again = run(("course reached", "path reached from below", "FMS lateral mode"), USUAL, state)
    assert (again.fms, again.lateral, again.vertical) == (True, "inactive", "inactive")
    assert step(again, "heading mode", USUAL).fms is False


@pytest.mark.parametrize(("rule", "from_fms", "from_heading"), [
    ("any mode", "captured", "captured"), ("FMS lateral only", "captured", "armed"),
    ("basic only", "armed", "captured"),
])
def test_modes_allowing_course_capture(rule, from_fms, from_heading):
    assert modes((*ARMED, "FMS lateral mode", "course reached"), captures_from=rule)[0] == from_fms
    assert modes((*ARMED, "course reached"), captures_from=rule)[0] == from_heading


def test_fms_lateral_mode_may_require_source():
    with_fms = usual_rules(fms_lateral="with FMS selected")
    flown = run((*ACTIVE[:3], "FMS lateral mode"), with_fms)
    assert flown.fms
    assert not step(flown, "select SBAS", with_fms).fms
    assert not run((*ACTIVE, "FMS lateral mode"), with_fms).fms
    assert not run((*ACTIVE, "FMS lateral mode"), usual_rules(fms_lateral="none")).fms


def test_vertical_arms_after_lateral():
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


def test_arming_inside_pfaf():
    events = (*ACTIVE, "PFAF passed", "arm approach")
    assert modes(events) == ("armed", "armed")
    assert modes(events, arming_needs=("a guiding source", "before the PFAF")) == ("inactive", "inactive")


def test_disarming():
    assert modes((*ON_PATH, "disarm approach")) == ("inactive", "inactive")


# Losing the source


@pytest.mark.parametrize("event", ["selector off", "load ILS approach", "lateral guidance lost"])
def test_lost_source_loses_guidance(event):
    assert modes((*ON_PATH, event)) == ("lost", "lost")


def test_source_off_and_on_needs_rearming():
    off_and_on = (*ON_PATH, "PFAF passed", "selector off", "select SBAS", "course reached", "path reached from below")
    assert modes(off_and_on) == ("lost", "lost")
    assert modes((*off_and_on, "arm approach", "course reached")) == ("captured", "armed")


def test_changed_source_is_loss():
    assert modes((*ON_PATH, "tune localizer", "selector off")) == ("lost", "lost")


@pytest.mark.parametrize(("becomes", "lateral"), [
    ("lost", "lost"), ("basic mode", "inactive"), ("armed", "armed"), ("unchanged", "captured")])
def test_captured_guidance_after_loss(becomes, lateral):
    events = (*ON_PATH, "lateral guidance lost")
    assert modes(events, when_lateral_lost=becomes) == (lateral, "lost")
    assert modes(events, when_vertical_lost=becomes) == ("lost", lateral)


def test_guidance_back_to_armed_captures_again():
    again = {"when_lateral_lost": "armed", "level_returns_outside": "with the signal"}
    events = (*ON_PATH, "lateral guidance lost", "course reached")
    assert modes(events, **again) == ("armed", "lost")
    assert modes((*events, "signal returns", "course reached"), **again) == ("captured", "lost")


# Ends of the approach


def test_go_around_ends_approach_but_keeps_it_loaded():
    state = run((*ON_PATH, "PFAF passed", "go around"), USUAL)
    assert (state.phase, state.approach, state.active, state.lateral) == ("missed", "SBAS", False, "inactive")
    assert source(state, FLYING, USUAL) == "FMS lateral navigation"
    assert run(("activate approach", "arm approach", "course reached"), USUAL, state).lateral == "captured"
    assert step(state, "next approach", USUAL).phase == "outside"


@pytest.mark.parametrize(("roll", "fms", "words"), [
    ("FMS lateral", True, "lateral: FMS lateral"), ("heading held", False, "lateral: heading held"),
    ("wings level", False, "lateral: wings level"),
])
def test_go_around_modes(roll, fms, words):
    rules = usual_rules(go_around_roll=roll, go_around_pitch="speed")
    state = run((*ON_PATH, "PFAF passed", "go around"), rules)
    assert state.fms is fms
    assert {words, "vertical: speed", "go-around: selected"} <= set(announce(state, rules))
    assert "lateral: FMS lateral" in announce(step(state, "FMS lateral mode", rules), rules)


def test_manual_go_around_uses_basic_modes():
    """No go-around mode is shown, and the FMS lateral mode is the crew's to select."""
    rules = usual_rules(go_around="by hand alone")
    flown = run((*ON_PATH, "go around"), rules)
    assert (flown.phase, flown.lateral, flown.vertical, flown.fms) == ("missed", "inactive", "inactive", False)
    assert announcement(flown, rules)[2:] == (("lateral", "basic mode"), ("vertical", "basic mode"))
    assert dict(announcement(step(flown, "FMS lateral mode", rules), rules))["lateral"] == "FMS lateral"


def test_localizer_not_tuned_on_side_with_sbas_selected():
    rules = usual_rules(localizer_tuning="not while SBAS is selected", source_control="per side")
    state = run(("take off", "select SBAS, flying side", "tune localizer"), rules)
    assert (state.tuned, state.selected) == ((False, True), ("SBAS", "ILS"))
    both = run(("take off", "select SBAS"), rules)
    assert step(both, "tune localizer", rules) == both


def test_go_around_requiring_captured_guidance():
    rules = usual_rules(go_around="only with guidance captured")
    assert step(run(ARMED, rules), "go around", rules).phase == "outside"
    assert step(run(ON_PATH, rules), "go around", rules).phase == "missed"


def test_nothing_works_without_power():
    state = run((*ON_PATH, "power off", "select SBAS", "arm approach"), USUAL)
    assert (state.power, state.selected, state.approach, state.lateral) == (False, (FMS, FMS), "none", "inactive")
    assert step(state, "power off", USUAL) == state
    assert step(state, "power on", USUAL).power
    assert run_usual(["tune localizer", "power off"], {"tuning_after_power": "cleared"}).tuned == (False, False)


def test_flight_plan_kept_through_power_removal():
    kept = usual_rules(approach_after_power="kept")
    state = run(("load SBAS approach", "power off", "power on"), kept)
    assert (state.approach, state.active, state.level) == ("SBAS", False, "none")


@pytest.mark.parametrize("event", ["go around", "land", "activate approach", "arm approach", "PFAF passed"])
def test_flight_events_do_nothing_on_ground(event):
    assert run(("load SBAS approach", event), USUAL) == run(("load SBAS approach",), USUAL)


# Words


def test_announcement_text():
    state = run((*ARMED, "course reached", "vertical guidance lost"), USUAL)
    assert announce(state, USUAL) == (
        "source: SBAS on both sides", "level: LPV, vertical lost", "lateral: captured", "vertical: basic mode, lost")
    assert announce(START.but(power=False), USUAL) == ("power: off",)
    armed = run((*ACTIVE, "FMS lateral mode", "arm approach"), USUAL)
    assert announce(armed, USUAL)[2:] == ("lateral: FMS lateral, armed", "vertical: basic mode, armed")
    assert announce(armed, usual_rules(announced=("armed",))) == ("lateral: armed", "vertical: armed")
    assert announce(START, usual_rules(announced=("source",)))[1:] == (
        "lateral: nothing shown", "vertical: nothing shown")


def test_announcement_distinguishes_sides():
    rules = usual_rules(source_control="per side")
    state = run((*ACTIVE[:3], "select SBAS, flying side", "tune localizer, monitoring side"), rules)
    assert announce(state, rules)[0] == "source: SBAS on the flying side, ILS on the monitoring side"
    by_hand = usual_rules(**BY_HAND)
    assert announce(run(("select ILS",), by_hand), by_hand)[0] == "source: ILS without guidance on both sides"


def test_timeline_lists_changes():
    moments = timeline([*ARMED, "arm approach", "go around"], USUAL)
    assert [moment.event for moment in moments] == ["", *ARMED, "arm approach", "go around"]
    assert moments[0].changes == moments[6].changes == ()
    assert moments[5].changes == (
        "lateral: from basic mode to basic mode, armed", "vertical: from basic mode to basic mode, armed")
    assert moments[7].changes == (
        "source: from SBAS on both sides to FMS lateral navigation on both sides", "level: from LPV to none",
        "lateral: from basic mode, armed to FMS lateral", "vertical: from basic mode, armed to fixed pitch",
        "go-around: from nothing shown to selected",
    )
    assert moments[7].announcement == announce(moments[7].state, USUAL)
    assert changes(moments[4].state, moments[5].state, USUAL) == moments[5].changes


# Ways


def test_way_out_is_go_around_or_longer_on_ground():
    assert way_out(run(ACTIVE, USUAL), USUAL) == ("go around",)
    assert way_out(run(ARMED, USUAL), USUAL) == ("course reached",)
    assert way_out(run(ON_PATH, USUAL), USUAL) == ()
    assert way_out(START, USUAL) == ("take off", "go around")
    assert way_out(run((*ON_PATH, "power off"), USUAL), USUAL) == ("power on", "go around")


def test_no_way_out_is_none():
    assert shortest_way(START, CONTROLS, USUAL, is_way_out) is None


def test_next_crew_with_selector_left_on():
    left = START.but(selected=(SBAS, SBAS), tuned=(True, True))
    seen = seen_next(left, "ILS", USUAL)
    assert (seen.sources, seen.guides) == (("SBAS", "SBAS"), ("", ""))
    assert (seen.verdict, seen.remedy) == ("no guidance", ("selector off",))


def test_next_crew_matrix_of_both_behaviours():
    assert [(state.selected[0], state.tuned[0]) for state in left_states(USUAL)] == [
        (SBAS, False), (SBAS, True), (ILS, True), (FMS, False)]
    verdicts = [seen.verdict for seen in next_crew(USUAL)]
    assert verdicts == ["right", "no guidance", "right", "no guidance", "another source", "right",
                        "no guidance", "no guidance"]
    inhibits = next_crew(usual_rules(**with_sbas(guides_while=("no localizer tuned on either side",))))
    assert [seen.verdict for seen in inhibits][:4] == ["right", "no guidance", "no guidance", "no guidance"]
    assert inhibits[2].remedy == ("untune localizer",)
    coming = next_crew(usual_rules(**TRANSFER))
    assert coming[0].verdict == "selected at capture"
    assert coming[0].remedy == ()


def test_one_wrong_side_is_wrong():
    left = START.but(selected=(SBAS, ILS), tuned=(True, True))
    seen = seen_next(left, "SBAS", usual_rules(source_control="per side"))
    assert (seen.guides, seen.verdict, seen.remedy) == (("SBAS", "ILS"), "another source", ("select SBAS",))


def test_next_crew_flies_sbas_or_ils():
    with pytest.raises(DomainError, match="ILS"):
        seen_next(START, "VOR", USUAL)


def test_state_left_behind():
    assert left_behind(USUAL) == [
        ("go around", SBAS, True, True), ("land", SBAS, False, True), ("land, power off, power on", ILS, False, True)]
    careful = usual_rules(
        **with_sbas(removed_by=("landing",)), approach_after_landing="kept", tuning_after_power="cleared")
    assert left_behind(careful)[1:] == [
        ("land", ILS, True, True), ("land, power off, power on", FMS, False, False)]


@pytest.mark.parametrize(("other", "more"), [
    ({}, ("select SBAS",)), (BY_HAND, ("select SBAS",)), (BY_PROCEDURE, ()), (TRANSFER, ()),
])
def test_set_up_of_each_type_kind(other, more):
    rules = usual_rules(**other)
    assert set_up_events(rules) == (*ACTIVE[:3], *more)
    assert lateral_source(flown_on_sbas(rules), rules) == "SBAS"
    assert LEVELS[0] == run(set_up_events(rules), rules).level


def test_level_change_states_loss_and_action():
    """AIM 1-1-18.d.2: the level stays, what is lost is flagged, and nothing comes back before an activation."""
    changes = {(change.what, change.where): change for change in level_changes(as_the_faa_describes())}
    assert len(changes) == 12
    assert not any(change.by_itself for change in changes.values())
    for where, remedy in (("before the FAF", "hold"), ("inside the FAF", "go around")):
        path = changes["SBAS supports LNAV/VNAV only", where]
        assert (path.sign, path.remedy, path.announced, path.changed) == ("path lost", remedy, True, True)
        assert changes["SBAS supports nothing", where].sign == "course lost"
        back = changes["SBAS supports all again, after: SBAS supports LNAV only", where]
        assert (back.sign, back.announced, back.changed) == ("path lost", False, False)


def test_automatic_level_fall_with_path_is_to_brief():
    rules = usual_rules(level_falls_outside="falls to the level supported", baro_vnav="approved")
    change = next(each for each in level_changes(rules) if each.what == "SBAS supports LNAV/VNAV only")
    assert change.by_itself
    assert change.level == ("LPV", "LNAV/VNAV")
    assert change.sign == ("level" if change.path == "captured" else "path lost")


def test_sbas_selection_requirement_seen_in_flight():
    """Where no control is needed, arming and the course alone bring SBAS."""
    for rules in (USUAL, *(type_.rules for type_ in aircraft())):
        flown = run(("take off", "load SBAS approach", "activate approach", "arming distance reached", "arm approach",
                     "course reached"), rules)
        assert select_needed(rules) is (lateral_source(flown, rules) != SBAS)
    assert {select_needed(type_.rules) for type_ in aircraft()} == {True, False}
