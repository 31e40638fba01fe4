"""The set-up check as the page asks for it: the findings are those of the set-up file; nothing else counts as set."""

import pytest

from lpv.core.errors import DomainError
from lpv.core.findings import by_severity, verdict
from lpv.modes.rules import RULES, usual_rules
from lpv.setup import data as setup_data
from lpv.setup import file as setup_file
from lpv.setup.data import charted_of, charted_texts, exact_text, flown_of, flown_texts, texts_of
from lpv.setup.form import about, entered, lines_of, missing, read, run, setup_of, side_of
from lpv.setup.form_fields import (
    ARMING,
    COMMON,
    FIELDS,
    LEFT,
    OPTIONAL,
    RIGHT,
    Altimeter,
    Cycle,
    Frequency,
    Identifier,
    side_fields,
)
from lpv.setup.wanted import Charted, Flown, wanted
from lpv_site.forms.setup_form import entries
from setup_cases import APPROACHES, DOCS, TYPES, cases, staying

GOOD = setup_file.read(DOCS / "set-up" / "zzak-09-good.toml")
APPROACH = next(one for one in APPROACHES if one.slug == GOOD.common.approach)
TYPE = next(one for one in TYPES if one.slug == GOOD.common.aircraft)


def as_lines(texts):
    return "\n".join("\t".join(row) for row in (texts.items() if isinstance(texts, dict) else texts))


def figures(of):
    return as_lines(charted_texts(setup_file.charted(of)))


def type_figures(by):
    return as_lines(flown_texts(setup_file.flown(by))) if by else ""


def asked(changes=None, of=APPROACH, by=TYPE, found=GOOD):
    """The lines of an answer, split, after changes of the entries."""
    answer = run(figures(of), type_figures(by), as_lines(entries(found) | (changes or {})))
    return [line.split("\t") for line in answer.split("\n")]


def errors(changes, **others):
    return {row[1]: row[2] for row in asked(changes, **others) if row[0] == "error"}


def expected(found, of, by):
    """What `python -m lpv.setup` finds, as the parts of lines."""
    rows = setup_file.findings(found, of, by)
    parts = [[row.grade, row.what, row.about, row.chart, row.computed, row.why, row.action, row.key]
             for row in by_severity(rows)]
    return [["sentence", verdict(rows)]] + [["finding", *row] for row in parts]


def test_the_findings_are_those_of_the_set_up_file():
    met = set()
    for found, of, by in cases(400):
        rows = asked(of=of, by=by, found=found)
        assert [row for row in rows if row[0] != "about"] == expected(found, of, by)
        met |= {row[-1] for row in rows if row[0] == "finding" and row[1] != "ok"}
    assert len(met) >= 18, "cases that say little"


def test_a_finding_has_no_part_that_the_lines_leave_out():
    for found, of, by in cases(50):
        assert not [row for row in setup_file.findings(found, of, by) if row.database]


@pytest.mark.parametrize("of", APPROACHES, ids=lambda of: of.slug)
def test_the_figures_of_an_approach_come_back_as_they_were(of):
    charted = setup_file.charted(of)
    assert vars(charted_of(figures(of))) == vars(charted)
    for by in (None, *TYPES):
        there = wanted(charted_of(figures(of)), flown_of(type_figures(by)) if by else None)
        here = setup_file.wanted(of, by)
        assert [vars(line) for line in there.lines] == [vars(line) for line in here.lines]
        assert vars(there) | {"lines": 0} == vars(here) | {"lines": 0}


@pytest.mark.parametrize("by", TYPES, ids=lambda by: by.slug)
def test_a_type_comes_back_as_far_as_a_finding_depends_on_it(by):
    flown = flown_of(type_figures(by))
    assert {key: getattr(flown.rules, key) for key in RULES} == {key: getattr(by.rules, key) for key in RULES}
    assert (flown.name, flown.category) == (by.type.name, by.type.category)
    assert flown.lowest_da_above_tdze_ft == by.operator.lowest_da_above_tdze_ft
    assert flown.above_mda_ft == by.operator.above_mda_ft


@pytest.mark.parametrize(("value", "text"), [
    (0, "0"), (-0.0, "0"), (92.0, "92"), (29.87, "29.87"), (-1.5, "-1.5"), (110.35, "110.35"), (0.1, "0.1"),
    (1e-9, "0.000000001"), (999999.5, "999999.5"), (-1500.0, "-1500"),
])
def test_a_number_is_written_as_it_is(value, text):
    assert exact_text(value) == text
    assert float(text) == value


@pytest.mark.parametrize("value", [1e6, float("nan"), float("inf"), 1 / 3, 1e-10])
def test_a_number_that_cannot_be_written_stops(value):
    with pytest.raises(DomainError):
        exact_text(value)


@pytest.mark.parametrize("lines", ["", "title\tx", "minimum 1\tLPV DA\nairport\tZZAA", "channel\tx"])
def test_figures_that_are_none_are_refused_in_words(lines):
    with pytest.raises(DomainError, match="allowed"):
        charted_of(lines)
    rows = run(lines or "x", "", "").split("\n")
    assert rows[0].startswith("error\tapproach\t")
    assert not [row for row in rows if row.startswith("finding")]


def test_the_lines_of_minima_are_the_highest_of_the_categories():
    minima = [("LPV", "DA", "AB", 300.0), ("LPV", "DA", "CD", 350.0), ("LNAV", "MDA", "ABCD", 500.0),
              ("circling", "MDA", "ABCD", 700.0)]
    charted = Charted("ZZAA", "T", 1, "W09A", 90.0, "2612", "LPV", minima, 3000.0, 100.0, 90.0)
    found = [(line.name, line.altitude_ft) for line in wanted(charted).lines]
    assert found == [("LPV", 350.0), ("LNAV", 500.0)]
    flown = Flown("Type", "B", 200.0, 50.0, usual_rules())
    of_b = wanted(charted, flown)
    assert [(line.name, line.altitude_ft) for line in of_b.lines] == [("LPV", 300.0), ("LNAV", 500.0)]
    assert (of_b.lowest_da_ft, of_b.above_mda_ft) == (290.0, 50.0)
    assert [line.altitude_ft for line in wanted(charted, flown).lines] == [300.0, 500.0], "minima stay as they are"


def test_a_selector_that_survives_the_removal_of_power_is_noted():
    told = [row for row in asked(by=staying(TYPE)) if row[0] == "finding" and row[1] != "ok"]
    assert [row[1:3] for row in told] == [["note", "source selector: survives the removal of power in this type"]]
    assert told[0][-1] == "set-selector-kept"
    for by in (TYPE, None):
        assert "set-selector-kept" not in {row[-1] for row in asked(by=by)}


def test_nothing_that_was_not_entered_counts_as_set():
    rows = [line.split("\t") for line in run(figures(APPROACH), type_figures(TYPE), "").split("\n")]
    required = {field.key for field in FIELDS} - set(OPTIONAL) | {"aircraft"}
    assert {row[1] for row in rows if row[0] == "error"} == required
    assert rows[-1] == ["sentence", f"Not checked yet: {len(required)} to fill in."]
    assert all(field.default == "" for field in FIELDS)
    for key in required - {"aircraft"}:
        found = asked({key: " "})
        assert [row[1] for row in found if row[0] == "error"] == [key]
        assert not [row for row in found if row[0] == "finding"]


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
def test_what_cannot_be_used_is_said_beside_its_entry(key, text, words):
    found = errors({key: text})
    assert list(found) == [key]
    assert words in found[key]
    assert asked({key: text})[-1] == ["sentence", "Not checked yet: 1 to correct."]


@pytest.mark.parametrize(("key", "text"), [
    ("left_altimeter", "29,87"), ("left_altimeter", " 29.87 "), ("left_course_deg", "092"), ("left_tuned", "113,40"),
    ("left_path_id", "w09a"), ("cycle", " 2612 "), ("temperature_c", "\u22122"), ("left_tuned_2", ""),
])
def test_it_is_read_as_people_write_it(key, text):
    assert not errors({key: text})


def test_a_setting_is_read_in_the_unit_that_is_chosen():
    in_hpa = {"altimeter_unit": "hPa", "reported": "1011", "left_altimeter": "1011", "right_altimeter": "1012"}
    found = [row for row in asked(in_hpa) if row[0] == "finding" and row[1] == "stop"]
    assert [row[2] for row in found] == ["altimeter 1012 hPa"]
    assert set(errors({"altimeter_unit": ""})) == {"altimeter_unit"}
    assert Altimeter("key", "label").read_in("hPa", "914") == 914
    assert Frequency("key", "label").read("110,30") == 110.3
    assert Identifier("key", "label").read("w09a") == "W09A"
    assert Cycle("key", "label", "").read("2612") == "2612"
    assert read(COMMON[1], "2612", "") == "2612"


def test_where_the_arming_is_checked_all_three_are_needed():
    assert set(errors({"across_nm": ""})) == {"across_nm"}
    assert set(errors({"across_side": "", "track_deg": ""})) == {"across_side", "track_deg"}
    none = {field.key: "" for field in ARMING[1:]}
    assert not errors(none)
    assert not [row for row in asked(none) if row[-1] == "set-armed"]
    left, right = ([row[2] for row in asked({"across_nm": "1.25", "across_side": side}) if row[-1] == "set-armed"]
                   for side in ("left", "right"))
    assert left == right == ["armed 1.3 NM from the course, track 122"]


def test_a_chart_that_asks_for_cold_corrections_needs_the_temperature():
    cold = next(of for of in APPROACHES if of.chart.cold_temperature_airport_c is not None)
    found = errors({"temperature_c": ""}, of=cold)
    assert list(found) == ["temperature_c"]
    assert "corrections" in found["temperature_c"]
    assert not errors({"temperature_c": ""})
    assert list(errors({"temperature_c": "x"}, of=cold)) == ["temperature_c"]


def test_the_answer_says_what_was_compared():
    assert ["about", "ZZAK RNAV (GPS) RWY 09, chart of cycle 2612; Large demo jet, category C."] in asked()
    assert about(setup_file.charted(APPROACH), None).endswith("the highest minimum of each line counts.")
    assert run("", "", as_lines(entries(GOOD))).split("\n") == [
        "error\tapproach\tChoose an approach.", "sentence\tNot checked yet: 1 to fill in."]


def test_the_parts_of_the_form():
    values = entered(as_lines(entries(GOOD)), setup_file.charted(APPROACH)).values
    assert vars(side_of("left", values)) == vars(GOOD.setup.left)
    made = setup_of(values)
    assert vars(made.right) == vars(GOOD.setup.right)
    assert {key: value for key, value in vars(made).items() if key not in ("left", "right")} == {
        key: value for key, value in vars(GOOD.setup).items() if key not in ("left", "right")}
    assert missing(entered("", None)).startswith("Not checked yet: ")
    assert lines_of([["a\tb", "c\nd"]]) == "a b\tc d"
    assert texts_of("a\tb\tc\nd") == {"a": "b\tc", "d": ""}
    assert setup_data.MINIMUM == "minimum "


def test_no_combination_of_entries_brings_it_down():
    far = {"temperature_c": "-50", "left_minimum_ft": "20000", "left_missed_altitude_ft": "30000", "across_nm": "200"}
    for of in APPROACHES:
        rows = asked(far, of=of)
        assert rows[-1][0] in ("finding", "sentence")
        assert not [row for row in rows if row[0] == "error"]


def test_keys_are_unique_and_every_entry_of_a_side_is_on_both():
    keys = [field.key for field in FIELDS]
    assert len(set(keys)) == len(keys)
    assert [field.key.removeprefix("left_") for field in LEFT] == [field.key.removeprefix("right_") for field in RIGHT]
    assert [field.key for field in side_fields("left")] == [field.key for field in LEFT]
    assert set(OPTIONAL) <= set(keys)
