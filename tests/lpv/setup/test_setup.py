"""The set-up check: each mistake is found, and a good set-up has none."""

import json
from pathlib import Path

import pytest

from lpv.air.altimetry import minimum_addition_ft, segment_addition_ft
from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.core.errors import DataError, DomainError
from lpv.core.findings import worst
from lpv.modes.rules import usual_rules
from lpv.modes.state import FLYING, MONITORING, source
from lpv.setup import file as setup_file
from lpv.setup.checks import (
    alike,
    altimeter,
    armed,
    check,
    course,
    cycle,
    guidance_source,
    kept_without_power,
    level,
    localizer,
    localizers_mhz,
    procedure,
    state_of,
)
from lpv.setup.file import findings, main, wanted
from lpv.setup.minimum import (
    cold_minimum_addition_ft,
    is_cold,
    kind_of_minimum,
    minimum,
    missed_altitude,
    needed_minimum_ft,
    needed_missed_ft,
)
from lpv.setup.radio import localizer_channels
from lpv.setup.records import Line, Side, Wanted
from lpv.setup.statements import agrees, differs, pressure

DOCS = Path(__file__).resolve().parents[3] / "docs"
GOOD = (DOCS / "set-up" / "zzak-09-good.toml").read_text("utf-8")
APPROACH = approach.read(DOCS / "approaches" / "zzak-rnav-09.toml")
TYPE = aircraft.read(DOCS / "aircraft" / "large-jet.toml")
WANTED = wanted(APPROACH, TYPE)
USUAL = usual_rules(selector="per side")


def found(*changes, of=WANTED, rules=USUAL, text=GOOD):
    """Names and grades of the findings that are not ok, after changes (old, new, which) of the good file."""
    for old, new, side in changes:
        parts = text.split(old)
        assert len(parts) > side + 1, old
        text = old.join(parts[: side + 1]) + new + old.join(parts[side + 1:])
    rows = check(setup_file.read_text(text, "a.toml").setup, of, rules)
    return {(row.name(), row.grade) for row in rows if row.grade != "ok"}


LEFT, RIGHT = 0, 1


def both(old, new):
    return (old, new, RIGHT), (old, new, LEFT)


def test_good_set_up_has_only_agreement_in_cockpit_order():
    rows = findings(setup_file.read_text(GOOD, "a.toml"), APPROACH, TYPE)
    assert worst(rows) == "ok"
    keys = list(dict.fromkeys(row.key for row in rows))
    assert keys == ["set-cycle", "set-procedure", "set-channel", "set-path-id", "set-source", "set-localizer",
                    "set-course", "set-altimeter", "set-level", "set-minimum-kind", "set-minimum", "set-missed",
                    "set-armed", "set-sides"]
    assert all(not row.action for row in rows)


@pytest.mark.parametrize(("change", "expected"), [
    (('title = "RNAV (GPS) RWY 09"', 'title = "RNAV (GPS) RWY 16"', LEFT),
     {("set-procedure left", "stop"), ("set-sides procedure", "resolve")}),
    (("channel = 99901", "channel = 99902", RIGHT), {("set-channel right", "stop"), ("set-sides channel", "resolve")}),
    (('path_id = "W09A"', 'path_id = "W09B"', LEFT), {("set-path-id left", "stop")}),
    (('source = "SBAS"', 'source = "FMS lateral navigation"', LEFT),
     {("set-source left", "stop"), ("set-sides source", "resolve")}),
    (('source = "SBAS"', 'source = "ILS"', RIGHT), {("set-source right", "stop"), ("set-sides source", "resolve")}),
    (("tuned_mhz = [113.4]", "tuned_mhz = [110.3]", LEFT), {("set-localizer left", "resolve")}),
    (("course_deg = 92", "course_deg = 90.9", LEFT), {("set-course left", "resolve"), ("set-sides course", "resolve")}),
    (("course_deg = 92", "course_deg = 95.1", LEFT), {("set-course left", "stop"), ("set-sides course", "resolve")}),
    (("course_deg = 92", "course_deg = 268", LEFT),
     {("set-course-left left", "stop"), ("set-sides course", "resolve")}),
    (("altimeter = 29.87", "altimeter = 29.88", RIGHT + 1),
     {("set-altimeter right", "stop"), ("set-sides altimeter", "resolve")}),
    (('minimum_kind = "DA"', 'minimum_kind = "MDA"', RIGHT),
     {("set-minimum-kind right", "resolve"), ("set-sides kind of minimum", "resolve")}),
    (("minimum_ft = 224", "minimum_ft = 223", LEFT),
     {("set-minimum-low left", "stop"), ("set-sides minimum", "resolve")}),
    (("minimum_ft = 224", "minimum_ft = 240", LEFT),
     {("set-minimum-high left", "note"), ("set-sides minimum", "resolve")}),
    (('level = "LPV"', 'level = "LNAV"', LEFT), {
        ("set-level left", "note"), ("set-minimum-kind left", "stop"), ("set-minimum-level left", "stop"),
        ("set-sides level", "resolve")}),
    (('level = "LPV"', 'level = "LNAV/VNAV"', LEFT), {
        ("set-level left", "note"), ("set-minimum-level left", "stop"), ("set-sides level", "resolve")}),
    (('level = "LPV"', 'level = "none"', LEFT), {
        ("set-level left", "stop"), ("set-minimum-level left", "stop"), ("set-sides level", "resolve")}),
    (("missed_altitude_ft = 3000", "missed_altitude_ft = 224", LEFT),
     {("set-missed-below-minimum left", "stop"), ("set-sides missed approach altitude", "resolve")}),
    (("missed_altitude_ft = 3000", "missed_altitude_ft = 2000", LEFT),
     {("set-missed left", "resolve"), ("set-sides missed approach altitude", "resolve")}),
    (('cycle = "2612"', 'cycle = "2611"', 0), {("set-cycle", "stop")}),
    (("day = 2026-12-01", "day = 2026-12-24", 0), {("set-cycle", "stop")}),
    (("across_nm = -1.5", "across_nm = -3.5", 0), {("set-armed", "resolve")}),
    (("track_deg = 122", "track_deg = 62", 0), {("set-armed", "resolve")}),
])
def test_each_mistake_is_found_and_nothing_else(change, expected):
    assert found(change) == expected


def test_chart_and_database_of_two_cycles():
    changed = (('cycle = "2612"', 'cycle = "2613"', 0), ("day = 2026-12-01", "day = 2026-12-30", 0))
    assert found(*changed) == {("set-cycle", "resolve")}


def test_not_armed_or_position_unknown_says_nothing():
    assert found(("armed = true", "armed = false", 0), ("across_nm = -1.5", "across_nm = 50", 0)) == set()
    assert found(("across_nm = -1.5\ntrack_deg = 122\n", "", 0)) == set()


def test_a_level_for_which_the_same_line_is_set_is_only_a_note():
    changes = (*both('level = "LPV"', 'level = "LNAV/VNAV"'), *both("minimum_ft = 224", "minimum_ft = 374"))
    assert found(*changes) == {("set-level left", "note"), ("set-level right", "note")}


# Sources: the check agrees with the state machine


@pytest.mark.parametrize("flying", ["left", "right"])
@pytest.mark.parametrize("effect", ["no effect", "takes over its side", "inhibits SBAS on both sides"])
def test_wrong_source_is_found_wherever_the_modes_show_the_ils(flying, effect):
    rules = usual_rules(selector="per side", localizer_with_selector_on=effect)
    for left in ("SBAS", "FMS lateral navigation"):
        for right in ("SBAS", "FMS lateral navigation"):
            for tuned_left in ("113.4", "110.3"):
                for tuned_right in ("115.9", "111.95"):
                    text = GOOD.replace("flying = \"left\"", f'flying = "{flying}"')
                    text = text.replace("tuned_mhz = [113.4]", f"tuned_mhz = [{tuned_left}]")
                    text = text.replace("115.9", tuned_right).replace('"SBAS"', f'"{left}"', 1)
                    tail = text.rindex("source = ")
                    text = text[:tail] + f'source = "{right}"' + text[text.index("\n", tail):]
                    checked = setup_file.read_text(text, "a.toml").setup
                    state, rows = state_of(checked), check(checked, WANTED, rules)
                    for side in checked.sides():
                        index = FLYING if side.name == flying else MONITORING
                        stops = {row.key for row in rows if row.about == side.name and row.grade == "stop"}
                        assert ("set-wrong-source" in stops) == (source(state, index, rules) == "ILS")
                        assert ("set-localizer" in {row.key for row in rows if row.about == side.name and
                                                    row.grade == "resolve"}) == bool(localizers_mhz(side))


def test_one_localizer_inhibits_both_sides_where_the_type_does_so():
    rules = usual_rules(selector="per side", localizer_with_selector_on="inhibits SBAS on both sides")
    assert found(("tuned_mhz = [113.4]", "tuned_mhz = [110.3]", 0), rules=rules) == {
        ("set-inhibited left", "stop"), ("set-inhibited right", "stop"), ("set-localizer left", "resolve")}


def test_every_localizer_channel_is_recognised():
    for mhz in localizer_channels():
        assert ("set-localizer left", "resolve") in found(("tuned_mhz = [113.4]", f"tuned_mhz = [{mhz}]", 0))


def test_a_selector_that_survives_the_removal_of_power_is_noted():
    stays = usual_rules(selector="per side", selector_after_power="stays")
    assert found(rules=stays) == {("set-selector-kept", "note")}
    assert found(("course_deg = 92", "course_deg = 95.1", LEFT), rules=stays) == {
        ("set-selector-kept", "note"), ("set-course left", "stop"), ("set-sides course", "resolve")}
    good = setup_file.read_text(GOOD, "a.toml").setup
    assert kept_without_power(good, WANTED, USUAL) == []
    assert [row.key for row in check(good, WANTED) if row.grade != "ok"] == [], "without a type nothing is said of it"
    row, = kept_without_power(good, WANTED, stays)
    assert "survives the removal of power" in row.what
    assert "every power-up" in row.action


# Cold, operator


COLD = Wanted("T", 1, "W09A", 90, "2612", "LPV",
              [Line("LPV", "DA", 700), Line("LNAV", "MDA", 1000)], 4500, 500, cold_c=-10)


def cold(minimum_ft, missed_ft, temperature="-30"):
    changes = [("temperature_c = 8", f"temperature_c = {temperature}", 0),
               *both("minimum_ft = 224", f"minimum_ft = {minimum_ft}"),
               *both("missed_altitude_ft = 3000", f"missed_altitude_ft = {missed_ft}")]
    return {row for row in found(*changes, of=COLD) if row[0].startswith(("set-minimum", "set-missed"))}


def test_cold_correction_of_minimum_and_missed_approach():
    needed, climb = 700 + minimum_addition_ft(200, -30), 4500 + segment_addition_ft(4000, -30)
    assert (needed, climb) == (740, 5300)
    assert cold(740, 5300) == set()
    assert cold(700, 4500) == {
        ("set-minimum-cold left", "stop"), ("set-minimum-cold right", "stop"),
        ("set-missed-cold left", "resolve"), ("set-missed-cold right", "resolve")}
    assert cold(730, 5300) == {("set-minimum-low left", "stop"), ("set-minimum-low right", "stop")}
    assert cold(700, 4500, "-9") == set()
    assert cold(700, 4500, "-10") == cold(700, 4500)


def test_the_missed_approach_altitude_to_set():
    good = setup_file.read_text(GOOD, "a.toml").setup
    assert needed_missed_ft(good, COLD) == 4500, "not cold"
    assert needed_missed_ft(good, wanted(APPROACH)) == 3000
    cold_day = setup_file.read_text(GOOD.replace("temperature_c = 8", "temperature_c = -30"), "a.toml").setup
    assert needed_missed_ft(cold_day, COLD) == 5300


def test_cold_needs_a_temperature_and_a_chart_that_asks():
    good = setup_file.read_text(GOOD, "a.toml").setup
    assert not is_cold(good, WANTED)
    assert not is_cold(good, COLD)
    assert cold_minimum_addition_ft(COLD.lines[0], good, COLD) == 0
    assert needed_minimum_ft(COLD.lines[0], good, COLD) == 700


def test_operators_floor_raises_a_da_and_the_addition_an_mda():
    light = wanted(APPROACH, aircraft.read(DOCS / "aircraft" / "light-jet.toml"))
    assert light.lowest_da_ft == 274
    assert found(of=light) == {("set-minimum-floor left", "stop"), ("set-minimum-floor right", "stop")}
    good = setup_file.read_text(GOOD, "a.toml").setup
    assert light.above_mda_ft == 50
    assert needed_minimum_ft(Line("LNAV", "MDA", 200), good, light) == 200 + 50
    assert needed_minimum_ft(Line("LNAV", "MDA", 200), good, wanted(APPROACH)) == 200
    assert needed_minimum_ft(Line("LPV", "DA", 300), good, light) == 300
    assert needed_minimum_ft(Line("LPV", "DA", 200), good, light) == 274


def test_wanted_takes_the_lines_of_the_category_and_no_circling():
    assert [(line.name, line.kind, line.altitude_ft) for line in WANTED.lines] == [
        ("LPV", "DA", 224), ("LNAV/VNAV", "DA", 374), ("LNAV", "MDA", 480)]
    assert WANTED.line("circling") is None
    assert wanted(APPROACH).lowest_da_ft is None


def test_no_missed_approach_altitude_no_finding():
    bare = Wanted("T", 1, "W09A", 90, "2612", "LPV", [], None, 0)
    good = setup_file.read_text(GOOD, "a.toml").setup
    assert missed_altitude(good.left, good, bare, USUAL) == []
    assert kind_of_minimum(good.left, good, bare, USUAL) == []
    assert minimum(good.left, good, bare, USUAL)[0].key == "set-minimum-level"


def test_items_say_what_is_right_too():
    good = setup_file.read_text(GOOD, "a.toml").setup
    for item in (procedure, guidance_source, localizer, course, altimeter, level):
        assert {row.grade for row in item(good.left, good, WANTED, USUAL)} == {"ok"}
    for item in (cycle, armed, alike):
        assert [row.grade for row in item(good, WANTED, USUAL)] == ["ok"]
    assert agrees("key", "what", "chart").grade == "ok"
    assert differs("key", "note", "what", "chart", "why", "action", "left").name() == "key left"
    assert (pressure(29.9, "inHg"), pressure(1013, "hPa")) == ("29.90 inHg", "1013 hPa")


def test_records_refuse_unknown_words():
    with pytest.raises(DomainError, match="VOR"):
        Side("left", "T", 1, "W09A", "VOR", [], 90, 29.92, "LPV", "DA", 200, 3000)
    with pytest.raises(DomainError, match="DH"):
        Line("LPV", "DH", 200)


# Files


@pytest.mark.parametrize(("old", "new", "key"), [
    ("tuned_mhz = [113.4]", "tuned_mhz = [113.41]", "left.tuned_mhz"),
    ("tuned_mhz = [113.4]", 'tuned_mhz = "113.4"', "left.tuned_mhz"),
    ("tuned_mhz = [113.4]", "tuned_mhz = [true]", "left.tuned_mhz"),
    ("reported_altimeter = 29.87", "reported_altimeter = 1013", "setup.reported_altimeter"),
    ("track_deg = 122\n", "", "setup"),
    ('cycle = "2612"', 'cycle = "2699"', "setup.cycle"),
    ('flying = "left"', 'flying = "both"', "setup.flying"),
    ("temperature_c = 8", "temperature_c = -60", "setup.temperature_c"),
    ('level = "LPV"', 'level = "LPV200"', "left.level"),
    ("minimum_ft = 224\n", "", "left.minimum_ft"),
    ("minimum_ft = 224\n", "minimum_ft = 224\nbaro = 1\n", "left.baro"),
])
def test_faults_of_the_file(old, new, key):
    with pytest.raises(DataError) as caught:
        setup_file.read_text(GOOD.replace(old, new, 1), "a.toml")
    assert [fault.key for fault in caught.value.faults] == [key]


def test_all_demo_set_ups_name_an_approach_and_a_type_that_exist():
    files = setup_file.read_all(DOCS / "set-up")
    assert [file.slug for file in files] == ["zzak-09-errors", "zzak-09-good"]
    for file in files:
        assert file.common.invented
        assert (DOCS / "approaches" / f"{file.common.approach}.toml").exists()
        assert (DOCS / "aircraft" / f"{file.common.aircraft}.toml").exists()


def test_demo_set_up_with_mistakes_has_those_that_its_comments_say():
    rows = findings(setup_file.read(DOCS / "set-up" / "zzak-09-errors.toml"), APPROACH, TYPE)
    assert {row.name() for row in rows if row.grade == "stop"} == {
        "set-wrong-source right", "set-course-left left", "set-altimeter right", "set-minimum-kind right",
        "set-minimum-level right", "set-missed-below-minimum left"}
    assert {"set-armed", "set-localizer right", "set-minimum-kind left"} < {
        row.name() for row in rows if row.grade == "resolve"}


def arguments(name):
    return [str(DOCS / "set-up" / name), "--approach", str(DOCS / "approaches" / "zzak-rnav-09.toml"),
            "--aircraft", str(DOCS / "aircraft" / "large-jet.toml")]


def test_command_line_notes_a_selector_that_survives_the_removal_of_power(capsys, tmp_path):
    kept = tmp_path / "kept-jet.toml"
    text = (DOCS / "aircraft" / "large-jet.toml").read_text("utf-8")
    assert text.count('selector_after_power = "off"') == 1
    kept.write_text(text.replace('selector_after_power = "off"', 'selector_after_power = "stays"'), "utf-8")
    assert main([*arguments("zzak-09-good.toml")[:-1], str(kept)]) == 0
    out = capsys.readouterr().out
    assert out.startswith("0 stop, 0 resolve, 1 note, 25 ok, 0 not compared\n")
    assert "set-selector-kept: source selector: survives the removal of power" in out


def test_command_line(capsys, tmp_path):
    assert main(arguments("zzak-09-good.toml")) == 0
    assert capsys.readouterr().out.startswith("0 stop, 0 resolve, 0 note, 25 ok, 0 not compared\n")
    assert main(arguments("zzak-09-errors.toml")) == 1
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "6 stop, 9 resolve, 1 note, 14 ok, 0 not compared"
    assert "set-wrong-source right: source ILS (chart SBAS; computed shown: ILS)" in lines[1]
    assert main([*arguments("zzak-09-good.toml"), "--json"]) == 0
    rows = json.loads(capsys.readouterr().out)
    assert {row["grade"] for row in rows} == {"ok"}
    bad = tmp_path / "bad.toml"
    bad.write_text("[setup]\n", "utf-8")
    assert main([str(bad), *arguments("x")[1:]]) == 2
    assert "bad.toml: left" in capsys.readouterr().err
