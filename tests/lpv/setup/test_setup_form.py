"""The set-up check as the page asks for it: the findings are those of the set-up file; nothing else counts as set."""

import hashlib
import json
from types import SimpleNamespace

import pytest

from lpv.core.errors import DomainError
from lpv.core.findings import by_severity, verdict
from lpv.core.record import record
from lpv.files.json_form import as_text, to_json
from lpv.forms.form import read_field
from lpv.forms.listed import OTHER_EDITION
from lpv.modes.rules import FOR_SELECTION, selection_rules
from lpv.setup import file as setup_file
from lpv.setup.form import (
    CHOOSE_APPROACH,
    FINDING_FIELDS,
    UNREADABLE,
    Entries,
    about,
    run,
    setup_of,
    side_of,
)
from lpv.setup.form_fields import (
    ARMING,
    COMMON,
    FIELDS,
    LEFT,
    RIGHT,
    Altimeter,
    Cycle,
    Frequency,
    Identifier,
    side_fields,
)
from lpv.setup.minimum import _lowest_minimum_ft
from lpv_site.forms.setup_form import entries
from setup_cases import APPROACHES, DOCS, TYPES, cases, staying
from support import ROOT

GOOD = setup_file.read(DOCS / "set-up" / "zzak-09-good.toml")
APPROACH = next(each for each in APPROACHES if each.slug == GOOD.common.approach)
TYPE = next(each for each in TYPES if each.slug == GOOD.common.aircraft)


def json_of(file):
    return as_text(to_json(file)) if file else ""


def asked(changes=None, of=APPROACH, by=TYPE, setup=GOOD):
    """The answer after changes of the entries."""
    return json.loads(run(json_of(of), json_of(by), json.dumps(entries(setup) | (changes or {}))))


def errors(changes, **others):
    return asked(changes, **others)["errors"]


def graded(answer, *grades):
    return [(row["key"], row["grade"]) for row in answer["findings"] if row["grade"] in grades]


def expected(setup, of, by):
    """What the command finds, as the page gets it."""
    return [{name: getattr(row, name) for name in FINDING_FIELDS} for row in setup_file.findings(setup, of, by)]


def in_order(rows):
    return sorted(rows, key=json.dumps)


def test_findings_match_set_up_file():
    met = set()
    for setup, of, by in cases(400):
        answer = asked(of=of, by=by, setup=setup)
        assert in_order(answer["findings"]) == in_order(expected(setup, of, by))
        assert answer["sentence"] == verdict(setup_file.findings(setup, of, by))
        met |= {row["key"] for row in answer["findings"] if row["grade"] != "ok"}
    assert len(met) >= 18, "cases that say little"


def test_split_first_then_most_serious():
    for setup, of, by in cases(60, "order"):
        rows = asked(of=of, by=by, setup=setup)["findings"]
        split = [row for row in rows if row["key"] == "set-sides" and row["grade"] == "resolve"]
        assert rows[: len(split)] == split
        assert [row["grade"] for row in rows[len(split):]] == [
            row.grade for row in by_severity(setup_file.findings(setup, of, by))
            if not (row.key == "set-sides" and row.grade == "resolve")]


@pytest.mark.parametrize("by", TYPES, ids=lambda by: by.slug)
def test_type_json_round_trip(by):
    restored = record(json_of(by))
    rules = selection_rules(restored.rules)
    assert [getattr(rules, key) for key in FOR_SELECTION] == [getattr(by.rules, key) for key in FOR_SELECTION]
    assert (rules.sources, restored.arm_within_nm) == (by.rules.sources, by.arm_within_nm)
    assert (restored.type.name, restored.type.category) == (by.type.name, by.type.category)
    assert restored.operator.lowest_da_above_tdze_ft == by.operator.lowest_da_above_tdze_ft


@pytest.mark.parametrize("text", ["{}", "[]", "x", '{"identity": {}}'])
def test_record_of_other_shape_refused(text):
    answer = json.loads(run(text, "", "{}"))
    assert answer["errors"] == {"approach": UNREADABLE}
    assert answer["findings"] == []


@pytest.mark.parametrize("digits", ["", "00000000", "x"])
def test_figures_of_other_edition_lower_verdict(digits):
    text = as_text(to_json(APPROACH))
    answer = json.loads(run(text, "", "{}", digits))
    assert answer["errors"] == {"approach": OTHER_EDITION}
    assert answer["sentence"].startswith("Settle first")
    assert "set-edition" in [row["key"] for row in answer["findings"] if row["grade"] == "resolve"]


def test_figures_named_by_page_compared_unmarked():
    text = as_text(to_json(APPROACH))
    known = hashlib.sha256(text.encode()).hexdigest()[:8]
    answer = json.loads(run(text, "", "{}", known))
    assert answer == json.loads(run(text, "", "{}"))
    assert "set-edition" not in [row["key"] for row in answer["findings"]]


def test_selector_surviving_power_removal_noted():
    assert graded(asked(by=staying(TYPE)), "stop", "resolve", "note") == [("set-selector-kept", "note")]
    for by in (TYPE, None):
        assert ("set-selector-kept", "note") not in graded(asked(by=by), "note")


def test_unentered_values_never_count_as_set():
    answer = json.loads(run(json_of(APPROACH), json_of(TYPE), "{}"))
    assert answer["errors"] == {}
    assert {row["grade"] for row in answer["findings"]} == {"not compared"}
    assert all(field.default == "" for field in FIELDS)


@pytest.mark.parametrize("field", LEFT, ids=lambda field: field.key)
def test_empty_entry_not_compared(field):
    answer = asked({field.key: " "})
    optional = field.key == "left_tuned_2"  # a second frequency may be missing
    assert bool(graded(answer, "not compared")) != optional
    assert not graded(answer, "stop")


def test_single_entry_can_stop():
    answer = json.loads(run(json_of(APPROACH), "", json.dumps({"left_channel": "12345"})))
    assert ("set-channel", "stop") in graded(answer, "stop")
    assert answer["sentence"].startswith("Do not fly it")


@pytest.mark.parametrize(("key", "text", "words"), [
    ("left_channel", "123456", "0 to 99999"), ("left_channel", "1,5", "a whole number"),
    ("left_path_id", "W09", "four letters or digits"), ("right_path_id", "W0-9A", "four letters or digits"),
    ("left_tuned", "110.32", "a localizer or VOR channel"), ("left_tuned_2", "90", "108 to 118"),
    ("left_course_deg", "361", "0 to 360"), ("left_altimeter", "1013", "27 to 32"), ("reported", "2987", "27 to 32"),
    ("left_source", "GPS", "Choose one"), ("left_title", "x" * 81, "80 characters"), ("left_title", "a\x07", "title"),
    ("day", "1.12.2026", "a date"), ("cycle", "2699", "four digits"), ("temperature_c", "-51", "\u221250 to 60"),
    ("left_minimum_ft", "224.5", "a whole number"), ("left_minimum_ft", "1,500", "Write 1500"),
    ("left_missed_altitude_ft", "9" * 401, "401 characters"), ("across_nm", "-1", "0 to 200"),
    ("armed", "maybe", "one"),
])
def test_unusable_entry_explained_beside_it(key, text, words):
    messages = errors({key: text})
    assert list(messages) == [key]
    assert words in messages[key]
    assert asked({key: text})["sentence"].endswith("1 to correct among the entries.")


@pytest.mark.parametrize(("key", "text"), [
    ("left_altimeter", "29,87"), ("left_altimeter", " 29.87 "), ("left_course_deg", "092"), ("left_tuned", "113,40"),
    ("left_path_id", "w09a"), ("cycle", " 2612 "), ("temperature_c", "\u22122"), ("left_tuned_2", ""),
])
def test_natural_writing_accepted(key, text):
    assert not errors({key: text})


def test_setting_read_in_chosen_unit():
    in_hpa = {"altimeter_unit": "hPa", "reported": "1011", "left_altimeter": "1011", "right_altimeter": "1014"}
    stops = [row["what"] for row in asked(in_hpa)["findings"] if row["grade"] == "stop"]
    assert stops == ["altimeter 1014\u202fhPa"], "3 hPa are 82 ft"
    assert ("set-altimeter", "not compared") in graded(asked({"altimeter_unit": ""}), "not compared")
    assert Altimeter("key", "label").read_in("hPa", "914") == 914
    assert Frequency("key", "label").read("110,30") == 110.3
    assert Identifier("key", "label").read("w09a") == "W09A"
    assert Cycle("key", "label", "").read("2612") == "2612"
    assert read_field(COMMON[1], "2612", "") == "2612"


def test_arming_needs_position_side_and_track():
    for missing in ({"across_nm": ""}, {"across_side": ""}, {"track_deg": ""}, {key.key: "" for key in ARMING[1:]}):
        assert graded(asked(missing), "not compared") == [("set-armed", "not compared")]
    left, right = ([row["what"] for row in asked({"across_nm": "1.25", "across_side": side})["findings"]
                    if row["key"] == "set-armed"] for side in ("left", "right"))
    assert left == right == ["armed 1.3\u202fNM from the course, track 122"]


def test_altitudes_not_compared_without_temperature():
    keys = {"set-minimum", "set-missed"}
    assert {key for key, _ in graded(asked({"temperature_c": ""}), "not compared")} == keys
    assert list(errors({"temperature_c": "x"})) == ["temperature_c"]


def test_answer_lists_comparisons():
    assert asked()["about"] == "ZZAK RNAV (GPS) RWY 09, chart of cycle 2612; Large demo jet, category C."
    assert about(APPROACH, None).endswith("the highest minimum of each line counts.")
    answer = json.loads(run("", "", json.dumps(entries(GOOD))))
    assert answer["errors"] == {"approach": CHOOSE_APPROACH}
    assert answer["findings"] == []


def test_form_parts():
    values = Entries(entries(GOOD)).values
    assert vars(side_of("left", values)) == vars(GOOD.setup.left)
    made = setup_of(values)
    assert vars(made.right) == vars(GOOD.setup.right)
    assert {key: value for key, value in vars(made).items() if key not in ("left", "right")} == {
        key: value for key, value in vars(GOOD.setup).items() if key not in ("left", "right")}


def test_random_entries_never_crash():
    far = {"temperature_c": "-50", "left_minimum_ft": "20000", "left_missed_altitude_ft": "30000", "across_nm": "200"}
    for of in APPROACHES:
        answer = asked(far, of=of)
        assert answer["sentence"]
        assert not answer["errors"]


def test_keys_unique_and_side_entries_on_both_sides():
    keys = [field.key for field in FIELDS]
    assert len(set(keys)) == len(keys)
    assert [field.key.removeprefix("left_") for field in LEFT] == [field.key.removeprefix("right_") for field in RIGHT]
    assert [field.key for field in side_fields("left")] == [field.key for field in LEFT]


def test_data_dates_answered_only_with_approach():
    words = "Data of cycle 2612, in force from 2026-11-26 to 2026-12-23."
    assert asked()["held"] == ["2026-11-26", "2026-12-24", words]
    assert json.loads(run("", "", "{}"))["held"] == []


def before_an_approach(**texts):
    """The answer to these entries alone, with no approach chosen."""
    return json.loads(run("", "", json.dumps(texts)))


def test_split_reported_before_approach_chosen():
    answer = before_an_approach(left_channel="99901", right_channel="99910", left_source="SBAS", right_source="SBAS")
    assert answer["sentence"].startswith("The sides differ.")
    assert next((row["grade"], row["about"]) for row in answer["findings"]) == ("resolve", "channel")
    assert answer["findings"][0]["what"] == "left 99901, right 99910"
    assert {row["grade"] for row in answer["findings"]} == {"resolve", "not compared"}


def test_matching_sides_never_right_without_approach():
    answer = before_an_approach(left_channel="99901", right_channel="99901")
    assert "no chart yet" in answer["sentence"]
    assert {row["grade"] for row in answer["findings"]} == {"not compared"}


@pytest.mark.parametrize("texts", [{}, {"left_channel": "99901"}])
def test_one_side_alone_not_compared(texts):
    answer = before_an_approach(**texts)
    assert answer["findings"] == []
    assert answer["sentence"] == "Not checked yet: choose an approach."
    assert answer["errors"] == {"approach": CHOOSE_APPROACH}


def test_setting_without_unit_read_in_either():
    field = Altimeter("altimeter", "Altimeter setting")
    for unit, inside, outside in (
        ("", ("27", "29.92", "32", "914", "1084"), ("26.99", "1084.5", "1085")),
        ("inHg", ("27", "32"), ("26.99", "32.01", "1013")), ("hPa", ("914", "1084"), ("29.92", "913", "1085")),
    ):
        for text in inside:
            assert field.read_in(unit, text) == float(text), (unit, text)
        for text in outside:
            with pytest.raises(DomainError, match="allowed"):
                field.read_in(unit, text)


def test_entries_accept_same_as_file():
    """The ranges of the published schema of a set-up file, entry by entry; a side's begin with its name."""
    schema = json.loads((ROOT / "docs" / "reference" / "schemas" / "setup.schema.json").read_text("utf-8"))["$defs"]
    held = {**schema["Common"]["properties"], **schema["SideTable"]["properties"]}
    ranges = {key: (row["minimum"], row["maximum"]) for key, row in held.items() if "minimum" in row}
    compared = 0
    for field in FIELDS:
        key = field.key.removeprefix("left_").removeprefix("right_")
        if hasattr(field, "low") and key in ranges and key != "across_nm":  # which has its side in another entry
            assert (field.low, field.high) == ranges[key], field.key
            compared += 1
    assert compared >= 11


def test_missed_approach_altitude_above_lowest_setting():
    expected = SimpleNamespace(lines=lambda: ["LPV"], minimum=lambda line, setup: None)
    assert _lowest_minimum_ft(SimpleNamespace(minimum_ft=None), None, expected) == -1500.0
    assert _lowest_minimum_ft(SimpleNamespace(minimum_ft=-1600.0), None, expected) == -1600.0
    row = SimpleNamespace(row=SimpleNamespace(altitude_ft=350.0))
    there = SimpleNamespace(lines=lambda: ["LPV", "LNAV"], minimum=lambda line, setup: row if line == "LPV" else None)
    assert _lowest_minimum_ft(SimpleNamespace(minimum_ft=None), None, there) == 350.0
    assert _lowest_minimum_ft(SimpleNamespace(minimum_ft=200.0), None, there) == 350.0
    assert _lowest_minimum_ft(SimpleNamespace(minimum_ft=480.0), None, there) == 480.0
