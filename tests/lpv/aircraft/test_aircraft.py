"""Aircraft files: read strictly, every fault named, modes proven."""

import dataclasses
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lpv.aircraft import record as aircraft
from lpv.aircraft.schema import LEVEL_OF_CLASS, Modes
from lpv.core.errors import DataError, DomainError
from lpv.decide.additive import Rule, added_kt, half_the_gust, headwind_and_gust
from lpv.decide.stabilised import Gate
from lpv.files import named_file
from lpv.modes.rules import LISTS, RULES

FOLDER = Path(__file__).resolve().parents[3] / "docs" / "aircraft"
LARGE = (FOLDER / "large-jet.toml").read_text("utf-8")
LIGHT = (FOLDER / "light-jet.toml").read_text("utf-8")
TYPES = {type_.slug: type_ for type_ in aircraft.read_all(FOLDER)}


def faults(text):
    with pytest.raises(DataError) as caught:
        aircraft.read_text(text, "jet.toml")
    return [(fault.key, fault.found, fault.allowed) for fault in caught.value.faults]


def changed(old, new, text=LIGHT):
    assert text.count(old) >= 1, old
    return text.replace(old, new, 1)


def test_demo_types_invented_and_different():
    assert list(TYPES) == ["large-jet", "light-jet", "mid-jet", "regional-jet", "tri-jet"]
    assert [type_.type.category for type_ in TYPES.values()] == ["C", "B", "C", "C", "C"]
    assert all(type_.type.invented for type_ in TYPES.values())
    assert len({str(type_.rules.chosen()) for type_ in TYPES.values()}) == len(TYPES)


def test_read_and_read_text_agree():
    assert aircraft.read(FOLDER / "light-jet.toml") == aircraft.read_text(LIGHT, "light-jet.toml")


def test_rules_hold_every_choice_in_file():
    light = TYPES["light-jet"]
    for key in RULES:
        table = light.equipment if key in ("best_level", "baro_vnav") else light.modes
        assert getattr(light.rules, key) == (getattr(table, key) or RULES[key][1][0])
    assert {*RULES, *LISTS} == {field.name for field in dataclasses.fields(Modes)} | {"best_level", "baro_vnav"}


def test_vref_interpolated_between_rows():
    large = TYPES["large-jet"]
    assert large.vref_kt(46000) == 113
    assert large.vref_kt(50500) == 118
    assert large.vref_kt(64000) == 133
    assert large.vref_kt(55000, "Flaps half") == 130.5


@given(st.floats(46000, 64000), st.floats(46000, 64000))
def test_vref_never_falls_with_weight(first, other):
    large = TYPES["large-jet"]
    assert large.vref_kt(min(first, other)) <= large.vref_kt(max(first, other)) + 1e-9


@pytest.mark.parametrize("weight_lb", [45999, 64001, float("nan"), float("inf")])
def test_vref_outside_rows_refused(weight_lb):
    with pytest.raises(DomainError, match="landing weight"):
        TYPES["large-jet"].vref_kt(weight_lb)


def test_vref_unknown_configuration_refused():
    with pytest.raises(DomainError, match="Flaps nought"):
        TYPES["large-jet"].vref_kt(50000, "Flaps nought")


def test_single_vref_row_is_enough():
    row = '[[landing.vref]]\nconfiguration = "Flaps down"\nweight_lb = 8000\nvref_kt = 88\n'
    single = aircraft.read_text(changed(row, ""))
    assert single.vref_kt(11500) == 105
    with pytest.raises(DomainError):
        single.vref_kt(11499)


def test_target_speeds_follow_weight_when_tied_to_vref():
    assert TYPES["light-jet"].target_speeds_kt(11500) == (150, 140, 115)
    assert TYPES["light-jet"].target_speeds_kt(8000) == (150, 140, 98)


def test_operator_gates_become_gates():
    (gate,) = TYPES["large-jet"].operator_gates()
    assert isinstance(gate, Gate)
    assert (gate.name, gate.height_ft, gate.slowest_kt, gate.source) == ("Operator, 1000 ft", 1000, -5, "")
    assert TYPES["light-jet"].operator_gates() == []


def test_labels_from_cockpit_or_neutral():
    assert TYPES["large-jet"].label("source_selector", "source selector") == "Final approach from satellites"
    assert TYPES["large-jet"].label("sbas", "SBAS") == "SBAS"
    assert TYPES["light-jet"].label("source_selector", "source selector") == "source selector"


@pytest.mark.parametrize(("old", "new", "key"), [
    ('category = "B"', 'category = "C"', "type.category"),
    ("max_weight_lb = 11500", "max_weight_lb = 12000", "landing.vref"),
    ("weight_lb = 8000", "weight_lb = 11500", "landing.vref"),
    ("vref_kt = 88", "vref_kt = 106", "landing.vref"),
    ("vref_kt = 88", "vref_kt = 8", "landing.vref[1].vref_kt"),
    ("bank_limit_deg = 25", "bank_limit_deg = 90", "flying.bank_limit_deg"),
    ("roll_rate_deg_per_s = 5", 'roll_rate_deg_per_s = "5"', "flying.roll_rate_deg_per_s"),
    ("before_pfaf_nm = 5\nspeed_kt = 150\n", "before_pfaf_nm = 5\n", "schedule[1]"),
    ("before_pfaf_nm = 5\nspeed_kt = 150\n", "before_pfaf_nm = 5\nspeed_kt = 150\nabove_vref_kt = 10\n", "schedule[1]"),
    ("before_pfaf_nm = 5\nspeed_kt = 150\n", "before_pfaf_nm = 5\nspeed_kt = 210\n", "schedule[1].speed_kt"),
    ("before_pfaf_nm = 5\nspeed_kt = 150\n", "before_pfaf_nm = 5\nspeed_kt = 130\n", "schedule[2]"),
    ("before_pfaf_nm = 1.5", "before_pfaf_nm = 6", "schedule[2].before_pfaf_nm"),
    ("above_vref_kt = 10\nlimit_kt = 160", "above_vref_kt = 10\nlimit_kt = 110", "schedule[3]"),
    ('label = "Gear down"', 'label = "Flaps approach"', "schedule[2].label"),
    ('label = "Flaps down"', 'label = "Flaps low"', "landing.configuration"),
    ("lateral_dots = 1.2\n", "", "capture.lateral_dots"),
    ('lateral = "within a deviation"', 'lateral = "by turn lead"', "capture.lateral_dots"),
    ("cutoff_deg = 16", "cutoff_deg = 90", "cockpit.cutoff_deg"),
    ("acceleration_g = 0.2", "acceleration_g = 0", "go_around.acceleration_g"),
    ("climb_rate_one_out_fpm = 500", "climb_rate_one_out_fpm = 2201", "go_around.climb_rate_one_out_fpm"),
    ("lowest_visibility_sm = 0.75", "lowest_visibility_sm = 0", "operator.lowest_visibility_sm"),
    ('minimum = "MDA"', 'minimum = "MDH"', "operator.call_out[3].minimum"),
    ("sbas_class = 3", "sbas_class = 2", "equipment.best_level"),
    ("sbas_class = 3\n", "", "equipment.best_level"),
    ('lp = "not approved"\n', "", "equipment.lp"),
    ('lp = "not approved"', 'lp = "yes"', "equipment.lp"),
    ('best_level = "LPV"', 'best_level = "LP"', "equipment.best_level"),
    ('recapture = "after re-arming"', 'recapture = "sometimes"', "modes.recapture"),
    ('announced = ["source"', 'announced = ["colour"', "modes.announced"),
    ('announced = ["source"', 'announced = ["armed"', "modes.announced"),
    ('armed_by = ["its control"]\n', "", "modes.armed_by"),
    ('arming_too_early = "refused"\n', "", "modes.arming_too_early"),
    (', "the arming distance"]', "]", "modes.arming_too_early"),
    ("arms_within_nm = 3\n", "", "capture.arms_within_of"),
    ('arms_within_of = "final course"\n', "", "capture.arms_within_of"),
    ("arms_within_nm = 3\narms_within_of = \"final course\"\n", "", "capture.arms_within_nm"),
    ("arms_within_nm = 3\narms_within_of = \"final course\"\n", "arms_within_deg = 30\n", "capture.arms_within_deg"),
    ('vertical_capture = "after lateral"', 'vertical_capture = "on its own"', "capture.vertical_lateral_dots"),
    ("vertical_dots = 0.5\n", "vertical_dots = 0.5\nvertical_lateral_dots = 1\n", "capture.vertical_lateral_dots"),
    ('source_control = "per side"', 'source_control = "none"', "modes.source_control"),
    ('name = "SBAS"\n', 'name = "GLS"\n', "source[1].name"),
    ('name = "SBAS"\n', 'name = "ILS"\n', "source[2].name"),
    ('guides_while = ["no localizer tuned on either side"]', 'guides_while = ["sunshine"]', "source[1].guides_while"),
    ('selected_by = ["its control"]\n', "", "source[1].selected_by"),
    ('selected_by = ["another taken away"]\n', 'selected_by = ["its control"]\n', "source"),
    ('selected_by = ["another taken away"]\n', 'selected_by = ["another taken away", "passing the PFAF"]\n',
     "source[3].selected_by"),
    ('fms_lateral = "with FMS selected"', 'fms_lateral = "sometimes"', "modes.fms_lateral"),
    ("[modes]\n", "[modes]\nlamp = 1\n", "modes.lamp"),
    ("cutoff_deg = 16\n", "", "cockpit.cutoff_deg"),
    ('configuration = "clean"\nspeed_kt = 130', 'configuration = "smooth"\nspeed_kt = 130', "drag"),
    ("speed_kt = 130\nlevel_idle_kt_per_s = 0.7", "speed_kt = 210\nlevel_idle_kt_per_s = 0.7", "drag"),
    ("level_idle_kt_per_s = 1.3\n", "level_idle_kt_per_s = 0.6\n", "drag"),
    ("speed_kt = 200\nlevel_idle_kt_per_s = 1.0\n", "speed_kt = 200\nlevel_idle_kt_per_s = 9\n",
     "drag[2].level_idle_kt_per_s"),
    ("thrust_kt_per_s = 4.2", "thrust_kt_per_s = 2.2", "go_around.climb_rate_fpm"),
    ("bank_limit_deg = 25\n", "bank_limit_deg = 25\ndeceleration_kt_per_s = 1.0\n", "flying.deceleration_kt_per_s"),
])
def test_each_fault_reported_once(old, new, key):
    assert [fault[0] for fault in faults(changed(old, new))] == [key]


@pytest.mark.parametrize(("new", "words"), [("sbas_class = 2\n", "a receiver of class 2"), ("", "no SBAS receiver")])
def test_level_fault_names_receiver(new, words):
    [(_, _, allowed)] = faults(changed("sbas_class = 3\n", new))
    assert words in allowed


@pytest.mark.parametrize(("old", "new", "key"), [
    ("fastest_kt = 10", "fastest_kt = -10", "gate[1].fastest_kt"),
    ('required = ["landing configuration"', 'required = ["gear"', "gate[1].required"),
    ('arm = "Ready for approach"', 'arm = "<b>Ready</b>"', "labels.arm"),
    ("gust_share = 0.5\n", "", "operator.most_added_kt"),
    ("gust_share = 0.5\n", "gust_share = 0.5\nleast_added_kt = 15\n", "operator.least_added_kt"),
    ("gust_share = 0.5\nmost_added_kt = 10\n", "headwind_share = 0.5\n", "operator.headwind_share"),
    ('at = "minimum"', 'at = "FAF"', "operator.duty[6].at"),
    ('at = "minimum"', 'at = "tea"', "operator.duty[6].at"),
    ("autopilot_lowest_ft = 160", "autopilot_lowest_ft = -1", "flying.autopilot_lowest_ft"),
])
def test_gate_and_label_faults(old, new, key):
    assert [fault[0] for fault in faults(changed(old, new, LARGE))] == [key]


def test_type_breaking_regulation_refused_with_sequence():
    ((key, value, allowed),) = faults(changed('when_lateral_lost = "lost"', 'when_lateral_lost = "unchanged"', LARGE))
    assert key == "modes"
    assert value.startswith('after "take off", then "tune localizer", then "arm approach"')
    assert allowed.startswith("no guidance is shown as captured without a source that guides (14 CFR Part 25")


def test_selection_surviving_power_removal_accepted():
    type_ = aircraft.read_text(changed(', "removal of power"]', "]", LARGE))
    assert "source-survives-power" in {trap.key for trap, _ in type_.exploration.traps}
    assert "source-survives-power" not in {trap.key for trap, _ in TYPES["large-jet"].exploration.traps}


def test_arming_distance_from_type_and_operator():
    assert TYPES["light-jet"].arm_within_nm == TYPES["large-jet"].arm_within_nm == 3.0
    assert TYPES["mid-jet"].arm_within_nm == 10.0  # the type's own counts from the airport
    assert aircraft.read_text(changed("arm_within_nm = 3\n", "", LARGE)).arm_within_nm is None
    assert aircraft.read_text(changed("above_mda_ft = 50", "above_mda_ft = 50\narm_within_nm = 2")).arm_within_nm == 2.0


def test_landing_configuration_unable_to_descend_refused():
    """What was once typed as 1.0 kt/s level and 0.4 on the path: g sin 3 degrees leaves 0.002."""
    slippery = LIGHT
    for rate in ("0.7", "1.0", "1.3", "1.5", "1.9", "1.7", "2.4"):
        slippery = slippery.replace(f"level_idle_kt_per_s = {rate}\n", "level_idle_kt_per_s = 0.9\n")
    ((key, value, allowed),) = faults(slippery)
    assert (key, value) == ("drag", '0.9\u202fkt/s for "Flaps down" at 115\u202fkt')
    assert "more than 0.998\u202fkt/s, which gravity adds on a path of 3°" in allowed


def test_missing_and_unknown_configurations_both_named():
    text = LIGHT.replace('configuration = "Gear down"', 'configuration = "Wheels"')
    assert [value for _, value, _ in faults(text)] == ['configuration "Wheels"', 'none for "Gear down"']


def test_energy_schedule_for_approach():
    steps = TYPES["large-jet"].energy_steps(64000, 6.0)
    assert [step.begins_nm for step in steps] == [14.0, 10.0, 8.0, 6.5]
    assert [step.target_kt for step in steps] == [190.0, 170.0, 160.0, 138.0]
    assert steps[-1].rows == TYPES["large-jet"].drag_rows("Flaps full") == [(120.0, 1.6), (170.0, 2.2)]


def test_lp_requires_lpv_receiver():
    low = changed('best_level = "LPV"', 'best_level = "LNAV/VNAV"', changed("sbas_class = 3", "sbas_class = 2"))
    ((key, value, allowed),) = faults(changed('lp = "not approved"', 'lp = "approved"', low))
    assert (key, value) == ("equipment.lp", "approved")
    assert "a receiver of class 2" in allowed
    assert aircraft.read_text(low).equipment.lp == "not approved"


def test_several_faults_reported_together():
    text = changed("cutoff_deg = 16", "cutoff_deg = 90", changed("reaction_s = 1.0", "reaction_s = -1"))
    assert {fault[0] for fault in faults(text)} == {"cockpit.cutoff_deg", "go_around.reaction_s"}


def test_receiver_class_levels():
    assert LEVEL_OF_CLASS == {1: "LNAV", 2: "LNAV/VNAV", 3: "LPV", 4: "LPV"}


def test_file_name_must_form_address(tmp_path):
    bad = tmp_path / "Light Jet.toml"
    bad.write_text(LIGHT.replace('category = "B"', 'category = "D"'), "utf-8")
    with pytest.raises(DataError) as caught:
        aircraft.read(bad)
    assert [fault.key for fault in caught.value.faults] == ["", "type.category"]
    good = tmp_path / "light-2.toml"
    good.write_text(LIGHT, "utf-8")
    assert named_file.read(good, aircraft.Aircraft).slug == "light-2"
    with pytest.raises(DataError):
        aircraft.read_all(tmp_path)
    with pytest.raises(DataError, match="no such file"):
        aircraft.read(tmp_path / "none.toml")


@pytest.mark.parametrize(("lateral", "captures", "refused"), [
    ("none", "FMS lateral only", True), ("with FMS selected", "FMS lateral only", False), ("none", "any mode", False),
])
def test_fms_capture_requires_fms_lateral_mode(lateral, captures, refused):
    text = LIGHT.replace('fms_lateral = "with FMS selected"', f'fms_lateral = "{lateral}"')
    text = text.replace('captures_from = "any mode"', f'captures_from = "{captures}"')
    try:
        aircraft.read_text(text, "light-jet.toml")
        keys_found = set()
    except DataError as error:
        keys_found = {fault.key for fault in error.faults}
    assert ("modes.captures_from" in keys_found) == refused


def test_autopilot_at_go_around_refused_without_go_around_mode():
    text = LARGE.replace('go_around = "at any time in flight"', 'go_around = "by hand alone"')
    assert aircraft.read_text(text).rules.go_around == "by hand alone"
    for word in ("stays engaged", "disconnects"):
        ((key, actual, allowed),) = faults(
            changed("[modes]\n", f'[modes]\nautopilot_at_go_around = "{word}"\n', text))
        assert (key, actual) == ("modes.autopilot_at_go_around", f'"{word}"')
        assert 'nothing with go_around = "by hand alone"' in allowed


def test_climb_with_engine_out_as_good_as_with_all_accepted():
    assert aircraft.read_text(changed("climb_rate_one_out_fpm = 500", "climb_rate_one_out_fpm = 2200"))


def test_gust_addition_capped_at_operator_maximum():
    """By hand: half of 10, half of 30 but no more than 10; no rule, no answer."""
    rule = TYPES["large-jet"].operator.rule_of_additive()
    assert [added_kt(rule, 20.0, gust) for gust in (0.0, 10.0, 20.0, 30.0)] == [0.0, 5.0, 10.0, 10.0]
    assert TYPES["light-jet"].operator.rule_of_additive() is None
    with pytest.raises(DomainError, match="gust"):
        added_kt(rule, 0.0, -1.0)
    fuller = aircraft.read_text(
        LARGE.replace("gust_share = 0.5\n", "gust_share = 1\nheadwind_share = 0.5\nleast_added_kt = 5\n"),
        "large-jet.toml")
    rule = fuller.operator.rule_of_additive()
    assert [added_kt(rule, *wind) for wind in ((0, 0), (8, 0), (12, 3), (-20, 6), (20, 0), (30, 10))] == [
        5, 5, 9, 6, 10, 10]
    assert (added_kt(half_the_gust(), 40.0, 14.0), added_kt(headwind_and_gust(), 10.0, 14.0)) == (7.0, 19.0)
    assert added_kt(headwind_and_gust(), 10.0, 20.0) == 20.0
    with pytest.raises(DomainError, match="least"):
        Rule(0.5, 0.5, 15.0, 10.0)


# Types that no built-in one resembles: only what 14 CFR 25.1329 demands may refuse them.
ODD = {
    "the path before the course, armed by the FMS mode, source by loading": {
        'selected_by = ["its control"]\nremoved_by = ["its control", "removal of power"]':
            'selected_by = ["loading its approach"]\nremoved_by = ["loading another approach", "removal of power"]',
        'source_control = "shared"': 'source_control = "none"',
        'armed_by = ["its control"]': 'armed_by = ["the FMS lateral mode"]',
        'vertical_capture = "after lateral"': 'vertical_capture = "on its own"',
        "vertical_dots = 0.3": "vertical_dots = 0.3\nvertical_lateral_dots = 2.0",
        'when_lateral_lost = "lost"': 'when_lateral_lost = "armed"',
    },
    "a source that a localizer on the other side takes, level by the signal everywhere": {
        'removed_by = ["its control", "removal of power"]':
            'removed_by = ["tuning a localizer on either side", "go-around", "landing"]',
        'level_falls_outside = "stays, flagged"': 'level_falls_outside = "falls to LNAV"',
        'level_falls_inside = "stays, flagged"': 'level_falls_inside = "falls to the level supported"',
        'level_returns_inside = "with the next activation"': 'level_returns_inside = "with the signal"',
        'vertical_arms = "with lateral"': 'vertical_arms = "by its own control"',
        'go_around = "at any time in flight"': 'go_around = "only with guidance captured"',
        'go_around_roll = "FMS lateral"': 'go_around_roll = "wings level"',
    },
    "no FMS lateral mode, arming at any time, the autopilot lets go": {
        'fms_lateral = "with any source"': 'fms_lateral = "none"',
        'go_around_roll = "FMS lateral"': 'go_around_roll = "heading held"',
        'arming_needs = ["a guiding source"]': "arming_needs = []",
        'captures_from = "any mode"': 'captures_from = "basic only"',
        'autopilot_after_loss = "stays engaged"': 'autopilot_after_loss = "disconnects"',
        '"lost", "go-around"]': '"lost", "go-around", "autopilot off"]',
        'when_vertical_lost = "lost"': 'when_vertical_lost = "basic mode"',
        'approach_after_power = "cleared"': 'approach_after_power = "kept"',
    },
}
REFUSED = {  # one change each that 25.1329 forbids
    'when_vertical_lost = "lost"': 'when_vertical_lost = "unchanged"',
    'recapture = "after re-arming"': 'recapture = "by itself"',
    '"armed", "captured"': '"captured"',
}


@pytest.mark.parametrize("name", ODD)
def test_unusual_type_refused_only_for_regulation(name):
    text = LARGE
    for old, new in ODD[name].items():
        text = changed(old, new, text)
    type_ = aircraft.read_text(text)
    assert len(type_.exploration.traps) >= 3
    assert len(type_.exploration.proven) == 5
    for old, new in REFUSED.items():
        if old in text:
            assert {key for key, _, _ in faults(changed(old, new, text))} == {"modes"}, new
