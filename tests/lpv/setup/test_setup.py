"""The set-up check: each mistake is found, and a good set-up has none."""

import json
from pathlib import Path

import pytest

from approach_variants import row, with_chart, with_minima, with_operator
from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.core.errors import DataError, DomainError
from lpv.core.findings import worst
from lpv.core.text import pressure
from lpv.modes.rules import USUAL_SOURCES, Source, usual_rules
from lpv.modes.state import FLYING, MONITORING, source
from lpv.setup import file as setup_file
from lpv.setup.checks import (
    alike,
    altimeter,
    altimeter_error_ft,
    armed,
    check,
    course,
    cycle,
    level,
    procedure,
)
from lpv.setup.expected import Expected
from lpv.setup.file import findings, main
from lpv.setup.minimum import kind_of_minimum, minimum, missed_altitude
from lpv.setup.radio import localizer_channels
from lpv.setup.records import Setup, Side
from lpv.setup.sources import guidance_source, kept_selected, localizer, localizers_mhz, state_of
from lpv.setup.statements import agrees, differs, not_stated

DOCS = Path(__file__).resolve().parents[3] / "docs"
GOOD = (DOCS / "set-up" / "zzak-09-good.toml").read_text("utf-8")
APPROACH = approach.read(DOCS / "approaches" / "zzak-rnav-09.toml")
TYPE = aircraft.read(DOCS / "aircraft" / "large-jet.toml")
EXPECTED = Expected(APPROACH, TYPE)
USUAL = usual_rules(source_control="per side")
OWN = ("its control",)


def with_sbas(**words):
    """The usual sources with another SBAS."""
    return (Source("SBAS", **{"selected_by": OWN, "removed_by": (*OWN, "removal of power"), **words}),
            *USUAL_SOURCES[1:])


EFFECTS = {
    "no effect": USUAL_SOURCES,
    "takes over its side": with_sbas(removed_by=("tuning a localizer on this side", "removal of power")),
    "inhibits SBAS on both sides": with_sbas(guides_while=("no localizer tuned on either side",)),
}
STAYS = with_sbas(removed_by=OWN)


class Ruled(Expected):
    """What an approach asks of a type with other rules of its modes."""

    def __init__(self, rules, of=EXPECTED):
        super().__init__(of.approach, of.aircraft)
        self.changed = rules

    @property
    def rules(self):
        return self.changed


def graded(*changes, of=EXPECTED, rules=USUAL, text=GOOD):
    """Names and grades of the findings that are not ok, after changes (old, new, which) of the good file."""
    for old, new, side in changes:
        parts = text.split(old)
        assert len(parts) > side + 1, old
        text = old.join(parts[: side + 1]) + new + old.join(parts[side + 1:])
    rows = check(setup_file.read_text(text, "a.toml").setup, Ruled(rules, of))
    return {(row.name(), row.grade) for row in rows if row.grade != "ok"}


LEFT, RIGHT = 0, 1


def both(old, new):
    return (old, new, RIGHT), (old, new, LEFT)


def test_good_set_up_agrees_in_cockpit_order():
    rows = findings(setup_file.read_text(GOOD, "a.toml"), APPROACH, TYPE)
    assert worst(rows) == "ok"
    keys = list(dict.fromkeys(row.key for row in rows))
    assert keys == ["set-sides", "set-cycle", "set-procedure", "set-channel", "set-path-id", "set-source",
                    "set-localizer", "set-course", "set-altimeter", "set-level", "set-minimum-kind", "set-minimum",
                    "set-missed", "set-armed"]
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
     {("set-altimeter right", "note"), ("set-sides altimeter", "resolve")}),
    (("altimeter = 29.87", "altimeter = 29.89", RIGHT + 1),
     {("set-altimeter right", "resolve"), ("set-sides altimeter", "resolve")}),
    (("altimeter = 29.87", "altimeter = 29.97", RIGHT + 1),
     {("set-altimeter right", "stop"), ("set-sides altimeter", "resolve")}),
    (('minimum_kind = "DA"', 'minimum_kind = "MDA"', RIGHT),
     {("set-minimum-kind right", "resolve"), ("set-sides kind of minimum", "resolve")}),
    (("minimum_ft = 224", "minimum_ft = 223", LEFT),
     {("set-minimum-low left", "note"), ("set-sides minimum", "resolve")}),
    (("minimum_ft = 224", "minimum_ft = 214", LEFT),
     {("set-minimum-low left", "resolve"), ("set-sides minimum", "resolve")}),
    (("minimum_ft = 224", "minimum_ft = 194", LEFT),
     {("set-minimum-low left", "stop"), ("set-sides minimum", "resolve")}),
    (("minimum_ft = 224", "minimum_ft = 240", LEFT),
     {("set-minimum-high left", "note"), ("set-sides minimum", "resolve")}),
    (('level = "LPV"', 'level = "LNAV"', LEFT), {
        ("set-level left", "note"), ("set-minimum-kind left", "stop"), ("set-minimum-level left", "stop"),
        ("set-sides level", "resolve")}),
    (('level = "LPV"', 'level = "LNAV/VNAV"', LEFT), {
        ("set-level left", "note"), ("set-minimum-level left", "stop"), ("set-sides level", "resolve")}),
    (('level = "LPV"', 'level = "none"', LEFT), {
        ("set-level left", "stop"), ("set-minimum-level left", "stop"), ("set-sides level", "resolve"),
        ("set-minimum-kind left", "not compared")}),
    (("missed_altitude_ft = 3000", "missed_altitude_ft = 224", LEFT),
     {("set-missed-below-minimum left", "stop"), ("set-sides missed approach altitude", "resolve")}),
    (("missed_altitude_ft = 3000", "missed_altitude_ft = 2000", LEFT),
     {("set-missed left", "stop"), ("set-sides missed approach altitude", "resolve")}),
    (("missed_altitude_ft = 3000", "missed_altitude_ft = 2800", LEFT),
     {("set-missed left", "stop"), ("set-sides missed approach altitude", "resolve")}),
    (('cycle = "2612"', 'cycle = "2611"', 0), {("set-cycle", "stop")}),
    (("day = 2026-12-01", "day = 2026-12-24", 0), {("set-cycle", "stop")}),
    (("across_nm = -1.5", "across_nm = -3.5", 0), {("set-armed", "resolve")}),
    (("track_deg = 122", "track_deg = 62", 0), {("set-armed", "resolve")}),
])
def test_each_mistake_found_and_nothing_else(change, expected):
    assert graded(change) == expected


def test_chart_and_database_of_different_cycles():
    changed = (('cycle = "2612"', 'cycle = "2613"', 0), ("day = 2026-12-01", "day = 2026-12-30", 0))
    assert graded(*changed) == {("set-cycle", "stop")}


def test_expired_chart_is_stop_as_on_briefing():
    for aboard in ("2612", "2613"):
        changed = (('cycle = "2612"', f'cycle = "{aboard}"', 0), ("day = 2026-12-01", "day = 2026-12-30", 0))
        assert ("set-cycle", "stop") in graded(*changed)
    assert ("set-cycle", "stop") not in graded()


def test_not_armed_silent_unknown_position_not_compared():
    assert graded(("armed = true", "armed = false", 0), ("across_nm = -1.5", "across_nm = 50", 0)) == set()
    assert graded(("across_nm = -1.5\ntrack_deg = 122\n", "", 0)) == {("set-armed", "not compared")}


def test_level_with_same_line_set_is_note():
    changes = (*both('level = "LPV"', 'level = "LNAV/VNAV"'), *both("minimum_ft = 224", "minimum_ft = 374"))
    assert graded(*changes) == {("set-level left", "note"), ("set-level right", "note")}


@pytest.mark.parametrize(("level", "advisory"), [("LNAV", True), ("LP", True), ("LNAV/VNAV", False)])
def test_level_without_glidepath_names_displayed_one(level, advisory):
    text = GOOD.replace('level = "LPV"', f'level = "{level}"')
    findings = [row for row in check(setup_file.read_text(text, "a.toml").setup, Ruled(USUAL, EXPECTED))
             if row.key == "set-level"]
    assert len(findings) == 2
    assert {(" is advisory" in row.why, "MDA; check each step-down" in row.action) for row in findings} == {
        (advisory, advisory)}


# Sources: the check agrees with the state machine


@pytest.mark.parametrize("flying", ["left", "right"])
@pytest.mark.parametrize("effect", ["no effect", "takes over its side", "inhibits SBAS on both sides"])
def test_wrong_source_found_wherever_ils_shown(flying, effect):
    rules = usual_rules(source_control="per side", sources=EFFECTS[effect])
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
                    state, rows = state_of(checked, rules), check(checked, Ruled(rules))
                    for side in checked.sides():
                        index = FLYING if side.name == flying else MONITORING
                        stops = {row.key for row in rows if row.about == side.name and row.grade == "stop"}
                        assert ("set-wrong-source" in stops) == (source(state, index, rules) == "ILS")
                        assert ("set-localizer" in {row.key for row in rows if row.about == side.name and
                                                    row.grade == "resolve"}) == bool(localizers_mhz(side))


def test_one_localizer_inhibits_both_sides_by_type():
    rules = usual_rules(source_control="per side", sources=EFFECTS["inhibits SBAS on both sides"])
    assert graded(("tuned_mhz = [113.4]", "tuned_mhz = [110.3]", 0), rules=rules) == {
        ("set-inhibited left", "stop"), ("set-inhibited right", "stop"), ("set-localizer left", "resolve")}


def test_source_with_course_needs_no_selection():
    comes = usual_rules(sources=(
        Source("SBAS", ("SBAS approach active",), (), ("its course captured",), ("no longer offered",)),
        USUAL_SOURCES[2]))
    fms = [('source = "SBAS"', 'source = "FMS lateral navigation"', 0)] * 2
    assert graded(*fms, rules=comes) == set()
    assert graded(*fms) == {("set-source left", "stop"), ("set-source right", "stop")}


def test_armed_without_type_or_operator_distance():
    of = Expected(APPROACH)
    assert of.arm_within_nm is None
    assert graded(("across_nm = -1.5", "across_nm = -12", 0), of=of) == set()
    assert graded(("track_deg = 122", "track_deg = 62", 0), of=of) == {("set-armed", "resolve")}


def test_every_localizer_channel_recognised():
    for mhz in localizer_channels():
        assert ("set-localizer left", "resolve") in graded(("tuned_mhz = [113.4]", f"tuned_mhz = [{mhz}]", 0))


def test_localizer_channels_marked_from_memory():
    words = "localizer channels 108.10\u202fMHz to 111.95\u202fMHz, odd tenths, from memory"
    for tuned in (113.4, 110.3):
        rows = check(Setup(None, Side("left", tuned_mhz=[tuned]), Side("right")), EXPECTED)
        assert {row.name(): row.computed for row in rows}["set-localizer left"] == words


def test_selector_surviving_power_removal_noted():
    stays = usual_rules(source_control="per side", sources=STAYS)
    assert graded(rules=stays) == {("set-selector-kept", "note")}
    assert graded(("course_deg = 92", "course_deg = 95.1", LEFT), rules=stays) == {
        ("set-selector-kept", "note"), ("set-course left", "stop"), ("set-sides course", "resolve")}
    good = setup_file.read_text(GOOD, "a.toml").setup
    assert kept_selected(good, Ruled(USUAL)) == []
    assert [each.key for each in check(good, Expected(APPROACH)) if each.grade != "ok"] == [], "any type: nothing said"
    finding, = kept_selected(good, Ruled(stays))
    assert "survives power-down" in finding.what
    assert "every power-up" in finding.action


# Cold, operator


# Airport 500 ft: DA 700 is 200 ft above it, 4500 ft is 4000 ft.  At -30 °C the table (AIM TBL 7-3-1) gives 40 and
# 760 ft; 800 ft to the nearest hundred for the missed approach.
COLD_CHART = {"airport_elevation_ft": 500.0, "tdze_ft": 450.0, "cold_temperature_airport_c": -10.0,
              "missed": type(APPROACH.chart.missed)(instruction="Climb.", altitude_ft=4500.0)}
COLD_APPROACH = with_minima(with_chart(APPROACH, **COLD_CHART), row("LPV", "ABCD", 700.0), row("LNAV", "ABCD", 1000.0))
NO_FLOOR = with_operator(TYPE, lowest_da_above_tdze_ft=200.0, above_mda_ft=0.0)
COLD = Expected(COLD_APPROACH, NO_FLOOR)
NO_RULE = Expected(with_chart(COLD_APPROACH, cold_temperature_airport_c=None), NO_FLOOR)


def cold(minimum_ft, missed_ft, temperature="-30", of=COLD):
    changes = [("temperature_c = 8", f"temperature_c = {temperature}", 0),
               *both("minimum_ft = 224", f"minimum_ft = {minimum_ft}"),
               *both("missed_altitude_ft = 3000", f"missed_altitude_ft = {missed_ft}")]
    return {finding for finding in graded(*changes, of=of) if finding[0].startswith(("set-minimum", "set-missed"))}


def on_both(*findings):
    return {(f"{key} {side}", grade) for key, grade in findings for side in ("left", "right")}


def test_minimum_and_missed_approach_cold_correction():
    assert cold(740, 5300) == set()
    assert cold(700, 4500) == on_both(("set-minimum-cold", "stop"), ("set-missed-cold", "stop"))
    assert cold(730, 5300) == on_both(("set-minimum-low", "resolve"))
    assert cold(700, 4500, "-9") == set()
    assert cold(700, 4500, "-10") == on_both(("set-minimum-cold", "resolve"), ("set-missed-cold", "stop"))


def test_lowercase_title_is_same_procedure():
    assert graded(('title = "RNAV (GPS) RWY 09"', 'title = "rnav  (gps) Rwy 09"', LEFT)) == set()


def test_cold_without_rule_never_ok():
    assert cold(700, 4500, "-30", NO_RULE) == on_both(
        ("set-minimum-cold-open", "stop"), ("set-missed-cold-open", "stop"))
    assert cold(740, 5300, "-30", NO_RULE) == on_both(
        ("set-minimum-cold-open", "note"), ("set-missed-cold-open", "note"))
    assert cold(700, 4500, "1", NO_RULE) == set()


def test_charted_altitude_not_compared_without_temperature():
    text = GOOD.replace("temperature_c = 8\n", "")
    rows = check(setup_file.read_text(text, "a.toml").setup, EXPECTED)
    assert {each.name() for each in rows if each.grade == "not compared"} == {
        "set-minimum left", "set-minimum right", "set-missed left", "set-missed right"}
    assert not [each for each in rows if each.grade in ("stop", "resolve")]


def test_operator_floor_raises_da_addition_raises_mda():
    light = Expected(APPROACH, aircraft.read(DOCS / "aircraft" / "light-jet.toml"))
    assert graded(of=light) == on_both(("set-minimum-floor", "stop"))  # 24 + 250 = 274 ft, 224 is set
    good = setup_file.read_text(GOOD, "a.toml").setup
    assert light.minimum("LPV", good).altitude_ft == 274
    assert light.minimum("LNAV", good).altitude_ft == 480 + 50
    assert Expected(APPROACH).minimum("LNAV", good).altitude_ft == 480


def test_lines_for_category_exclude_circling():
    assert EXPECTED.lines() == ["LPV", "LNAV/VNAV", "LNAV"]
    assert not EXPECTED.has_line("circling")
    assert not EXPECTED.has_line("none")
    assert Expected(APPROACH).operator is None


def test_minimum_by_category_in_any_row_order():
    rows = (row("LNAV", "ABCD", 480.0), row("LPV", "AB", 224.0), row("LPV", "CD", 324.0))
    for order in (rows, rows[::-1]):
        of = Expected(with_minima(APPROACH, *order), NO_FLOOR)
        assert TYPE.type.category == "C"
        assert graded(*both("minimum_ft = 224", "minimum_ft = 324"), of=of) == set()
        assert graded(of=of) == on_both(("set-minimum-low", "stop"))


def test_chart_without_minima_or_missed_not_compared():
    good = setup_file.read_text(GOOD, "a.toml").setup
    bare = Expected(with_minima(with_chart(APPROACH, missed=None)))
    for item in (missed_altitude, kind_of_minimum, minimum):
        assert [each.grade for each in item(good.left, good, bare)] == ["not compared"]


def test_empty_set_up_not_compared_throughout():
    empty = Setup(None, Side("left"), Side("right"))
    rows = check(empty, EXPECTED)
    assert {each.grade for each in rows} == {"not compared"}
    assert len(rows) == 2 + 11 * 2 + 1, "both sides alike, the cycle, eleven items of each side, arming"


@pytest.mark.parametrize(("entry", "key", "grade"), [
    ({"channel": 99901}, "set-channel", "ok"), ({"channel": 1}, "set-channel", "stop"),
    ({"source": "ILS"}, "set-source", "stop"), ({"course_deg": 92.0}, "set-course", "ok"),
    ({"level": "LNAV"}, "set-level", "note"), ({"tuned_mhz": [110.3]}, "set-localizer", "resolve"),
    ({"source": "SBAS"}, "set-source", "not compared"), ({"minimum_ft": 224.0}, "set-minimum", "not compared"),
])
def test_single_entry_is_enough_for_item(entry, key, grade):
    partial = Setup(None, Side("left", **entry), Side("right"))
    assert (f"{key} left", grade) in {(each.name(), each.grade) for each in check(partial, EXPECTED)}


def test_split_between_sides_first():
    split = setup_file.read_text(GOOD.replace("course_deg = 92", "course_deg = 95.1", 1), "a.toml").setup
    assert check(split, EXPECTED)[0].name() == "set-sides course"


# 1 inHg is about 925 ft near sea level: 0.01 inHg 9.2 ft (pressure altitude of the standard atmosphere); 1 hPa 27.3 ft.
@pytest.mark.parametrize(("setting", "reported", "unit", "error_ft"), [
    (29.93, 29.92, "inHg", 9.2), (29.91, 29.92, "inHg", -9.2), (30.92, 29.92, "inHg", 914.0),
    (1014.25, 1013.25, "hPa", 27.3), (1003.25, 1013.25, "hPa", -274.0), (1013.25, 1013.25, "hPa", 0.0),
])
def test_altimeter_error_in_feet(setting, reported, unit, error_ft):
    assert altimeter_error_ft(setting, reported, unit) == pytest.approx(error_ft, rel=0.01, abs=0.05)


def test_items_also_state_correct_value():
    good = setup_file.read_text(GOOD, "a.toml").setup
    for item in (procedure, guidance_source, localizer, course, altimeter, level, kind_of_minimum, minimum,
                 missed_altitude):
        assert {each.grade for each in item(good.left, good, EXPECTED)} == {"ok"}
    for item in (cycle, armed):
        assert [each.grade for each in item(good, EXPECTED)] == ["ok"]
    assert [each.grade for each in alike(good)] == ["ok"]
    assert agrees("key", "what", "chart").grade == "ok"
    assert differs("key", "note", "what", "chart", "why", "action", "left").name() == "key left"
    assert not_stated("key", "what", "left").reason == "not stated"
    assert (pressure(29.9, "inHg"), pressure(1013, "hPa")) == ("29.90\u202finHg", "1013\u202fhPa")


def test_records_refuse_unknown_words():
    with pytest.raises(DomainError, match="VOR"):
        Side("left", source="VOR")
    with pytest.raises(DomainError, match="DH"):
        Side("left", minimum_kind="DH")


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
def test_file_faults(old, new, key):
    with pytest.raises(DataError) as caught:
        setup_file.read_text(GOOD.replace(old, new, 1), "a.toml")
    assert [fault.key for fault in caught.value.faults] == [key]


def test_demo_set_ups_name_existing_approach_and_type():
    files = setup_file.read_all(DOCS / "set-up")
    assert [file.slug for file in files] == ["zzak-09-errors", "zzak-09-good"]
    for file in files:
        assert file.common.invented
        assert (DOCS / "approaches" / f"{file.common.approach}.toml").exists()
        assert (DOCS / "aircraft" / f"{file.common.aircraft}.toml").exists()


def test_demo_set_up_has_commented_mistakes():
    rows = findings(setup_file.read(DOCS / "set-up" / "zzak-09-errors.toml"), APPROACH, TYPE)
    assert {row.name() for row in rows if row.grade == "stop"} == {
        "set-wrong-source right", "set-course-left left", "set-altimeter right", "set-minimum-kind right",
        "set-minimum-level right", "set-missed-below-minimum left"}
    assert {"set-armed", "set-localizer right", "set-minimum-kind left"} < {
        row.name() for row in rows if row.grade == "resolve"}


def arguments(name):
    return [str(DOCS / "set-up" / name), "--approach", str(DOCS / "approaches" / "zzak-rnav-09.toml"),
            "--aircraft", str(DOCS / "aircraft" / "large-jet.toml")]


def test_command_line_notes_persistent_selector(capsys, tmp_path):
    kept = tmp_path / "kept-jet.toml"
    text = (DOCS / "aircraft" / "large-jet.toml").read_text("utf-8")
    assert text.count(', "removal of power"') == 1
    kept.write_text(text.replace(', "removal of power"', ""), "utf-8")
    assert main([*arguments("zzak-09-good.toml")[:-1], str(kept)]) == 0
    out = capsys.readouterr().out
    assert out.startswith("0 stop, 0 resolve, 1 note, 25 ok, 0 not compared\n")
    assert "set-selector-kept: source selector: survives power-down" in out


def test_command_line(capsys, tmp_path):
    assert main(arguments("zzak-09-good.toml")) == 0
    assert capsys.readouterr().out.startswith("0 stop, 0 resolve, 0 note, 25 ok, 0 not compared\n")
    assert main(arguments("zzak-09-errors.toml")) == 1
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "6 stop, 9 resolve, 1 note, 14 ok, 0 not compared"
    assert "set-wrong-source right: source ILS (chart SBAS; computed shown: ILS; localizer channels " in lines[1]
    assert main([*arguments("zzak-09-good.toml"), "--json"]) == 0
    rows = json.loads(capsys.readouterr().out)
    assert {row["grade"] for row in rows} == {"ok"}
    bad = tmp_path / "bad.toml"
    bad.write_text("[setup]\n", "utf-8")
    assert main([str(bad), *arguments("x")[1:]]) == 2
    assert "bad.toml: left" in capsys.readouterr().err


def test_faults_of_all_files_told_at_once(tmp_path, capsys):
    for name in ("a.toml", "b.toml", "c.toml"):
        (tmp_path / name).write_text("x = 1\n", "utf-8")
    paths = [str(tmp_path / name) for name in ("a.toml", "b.toml", "c.toml")]
    assert main([paths[0], "--approach", paths[1], "--aircraft", paths[2]]) == 2
    told = capsys.readouterr().err
    assert [name for name in ("a.toml: x:", "b.toml: x:", "c.toml: x:") if name not in told] == []
