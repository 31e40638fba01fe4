"""The cross-check: what it finds in the demo, in the draft, in a published approach, and at its limits."""

import json
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from demo import approaches as make_demo
from lpv.approach.database import held_block, held_path_point
from lpv.approach.record import read_all, read_text
from lpv.approach.schema import Chart
from lpv.core.errors import DomainError
from lpv.core.findings import Finding, worst
from lpv.crosscheck import coded, coded_legs
from lpv.crosscheck import statements as crosscheck_text
from lpv.crosscheck.check import LIMITS, RULES, crosscheck, grade_difference, main
from lpv.crosscheck.final import in_chart_reference_deg, length_offset_m
from lpv.crosscheck.fixes import foot
from lpv.crosscheck.identity import runway_text
from lpv.crosscheck.limits import BY_KEY
from lpv.facts import FACTS
from lpv.fas.block import encode
from lpv.fas.layout import LAYOUT
from lpv.files import schema
from published_approaches import KHWD_FIXES, KHWD_RECORD, khwd

FOLDER = make_demo.FOLDER
GOOD = (FOLDER / "zzak-rnav-09.toml").read_text("utf-8")
LATERAL = (FOLDER / "zzak-rnav-27.toml").read_text("utf-8")
IN_FORCE = "2026-12-01"


def found(text, *, on=None):
    """Grade by name of the findings about a text, those that agree left out."""
    return {f.name(): f.grade for f in crosscheck(read_text(text), on) if f.grade != "ok"}


def changed(*pairs, text=GOOD):
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new, 1)
    return text


def new_findings(*pairs, text=GOOD, on=None):
    """What a change adds to the findings about a good approach."""
    before = found(text, on=on)
    after = found(changed(*pairs, text=text), on=on)
    return {name: grade for name, grade in after.items() if before.get(name) != grade}


def segment_changed(**fields):
    """The plain approach with another segment in its block, the remainder made anew."""
    tables = make_demo.demo()["zzak-rnav-09"]
    segment = replace(make_demo.segment_of(make_demo.PLAIN), **fields)
    tables["database"]["block"] = make_demo.grouped_hex(make_demo.encode(segment))
    return make_demo.toml_text(tables).lstrip()


# The demo


def test_the_good_approaches_have_nothing_to_stop_or_resolve():
    names = {
        approach.slug: [f.name() for f in crosscheck(approach, IN_FORCE) if f.grade == "note"]
        for approach in read_all(FOLDER)
        if worst(crosscheck(approach, IN_FORCE)) == "note"
    }
    assert names == {
        "zzak-rnav-09": ["path-altitude GULLY", "decision-visibility LPV"],
        "zzak-rnav-16": ["path-altitude WINKL"],
        "zzak-rnav-27": ["remainder"],
        "zzeg-rnp-24": ["path-altitude TURBO", "decision-visibility LPV"],
        "zzhc-rnav-33": ["variation", "path-altitude GLAZO", "decision-visibility LPV"],
    }


DRAFT = {
    "remainder": "stop", "runway": "stop", "channel": "stop", "cycle": "resolve", "tch": "resolve", "course": "stop",
    "course-shown": "stop", "leg GULLY": "resolve", "fix-altitude SWELO": "stop", "fix-altitude FOMEY": "resolve",
    "path-altitude GULLY": "note", "val-minima LPV": "stop", "hat LPV": "resolve", "decision-visibility LPV": "note",
}


def test_the_draft_shows_exactly_its_seeded_errors():
    draft, = read_all(FOLDER / "drafts")
    assert {f.name(): f.grade for f in crosscheck(draft) if f.grade != "ok"} == DRAFT


def test_the_draft_is_also_out_of_date_on_a_day():
    draft, = read_all(FOLDER / "drafts")
    on_day = {f.name(): f.grade for f in crosscheck(draft, IN_FORCE) if f.grade != "ok"}
    assert on_day == DRAFT | {"cycle-in-force": "stop"}


def test_every_finding_says_what_why_and_what_to_do():
    draft, = read_all(FOLDER / "drafts")
    for finding in crosscheck(draft, IN_FORCE):
        assert finding.what
        assert finding.why
        assert bool(finding.action) == (finding.grade != "ok")
        assert finding.chart or finding.database or finding.computed


def test_a_published_approach_agrees_with_itself():
    rows = {f.name(): f for f in crosscheck(khwd(), "2020-03-01")}
    assert {name: f.grade for name, f in rows.items() if f.grade != "ok"} == {
        "variation": "note",  # 2020 lies before the model's years
        "path-altitude SUDGE": "note",  # the straight path passes 79 ft above the charted altitude
        "path-altitude FENRA": "note",
    }
    assert rows["remainder"].database == "40227B2E"
    assert rows["course"].computed == "284.9° magnetic, E15.0° applied"
    assert rows["path-altitude SUDGE"].computed == "straight 3279 ft, barometric 3200 ft"
    assert rows["threshold-height"].computed.startswith("geoid -32.4 m")


def test_the_published_course_was_not_made_with_the_other_variation():
    """The waypoint records carry E13.2; with it the coded course would be 286.7."""
    rows = {f.name(): f for f in crosscheck(khwd(variation_deg=13.2)) if f.grade == "resolve"}
    assert rows["course"].computed == "286.7° magnetic, E13.2° applied"
    assert set(rows) == {"course"} | {f"leg {fix[0]}" for fix in KHWD_FIXES[1:]}


def test_a_damaged_published_record_is_a_stop():
    record = [KHWD_RECORD[0].replace("0310N", "0300N"), KHWD_RECORD[1]]
    approach = khwd()
    damaged = replace(approach, database=replace(approach.database, path_point=held_path_point(record)))
    assert {f.name() for f in crosscheck(damaged) if f.grade == "stop"} == {"remainder", "glidepath"}


def test_a_record_of_another_level_is_a_stop():
    record = [KHWD_RECORD[0], KHWD_RECORD[1].replace("LPV ", "LP  ")]
    approach = khwd()
    other = replace(approach, database=replace(approach.database, path_point=held_path_point(record)))
    level = next(f for f in crosscheck(other) if f.key == "level-of-service")
    assert (level.grade, level.database) == ("stop", "LP and LPV")


# Rule by rule: one change, and what it adds


@pytest.mark.parametrize(("pairs", "expected"), [
    ([('airport = "ZZAK"', 'airport = "ZZAB"')], {"airport": "stop"}),
    ([('path_id = "W09A"', 'path_id = "W09B"')], {"path-id": "stop"}),
    ([('[database]', '[database]'), ('path_id = "W09A"\ncourse', 'path_id = "W09B"\ncourse')], {"path-id": "stop"}),
    ([('title = "RNAV (GPS) RWY 09"', 'title = "RNAV (GPS) RWY 27"')], {"title": "resolve"}),
    ([("channel = 99901\npath_id = \"W09A\"\ncourse", "path_id = \"W09A\"\ncourse")], {"channel": "note"}),
    ([("channel = 99901", "channel = 39999")], {"channel": "stop", "channel-range": "stop"}),
    ([('"LPV"\nchannel', '"LP"\nchannel')], {"level-of-service": "stop", "minima-level": "stop",
                                              "path-altitude GULLY": None}),
    ([("glidepath_deg = 3.0", "glidepath_deg = 3.01")], {"glidepath": "resolve"}),
    ([("glidepath_deg = 3.0", "glidepath_deg = 3.05")], {"glidepath": "stop"}),
    ([("tch_ft = 52", "tch_ft = 51")], {}),
    ([("tch_ft = 52", "tch_ft = 63")], {"tch": "stop"}),
    ([("course_deg = 92", "course_deg = 93")], {"course": "resolve"}),
    ([("course_deg = 92", "course_deg = 272")], {"course": "stop", "course-shown": "stop"}),
    ([("variation_deg = 12", "variation_deg = -12")],
     {"course": "stop", "variation": "resolve", "runway-course": "resolve", "leg SWELO": "stop", "leg GULLY": "stop",
      "leg FOMEY": "stop", "leg RW09": "stop"}),
    ([("threshold_elevation_ft = 22", "threshold_elevation_ft = 422")],
     {"threshold-height": "stop", "path-altitude GULLY": "resolve", "elevations": "resolve",
      "decision-visibility LPV": "stop"}),
    ([("runway_length_ft = 10000", "runway_length_ft = 9950")], {"length-offset": "note"}),
    ([("runway_length_ft = 10000", "runway_length_ft = 9000")], {"length-offset": "resolve"}),
    ([('name = "FOMEY"\ncourse', 'name = "OTHER"\ncourse')], {"fix-sequence": "stop"}),
    ([('name = "GULLY"\ncourse', 'name = "TMPXX"\ncourse'), ('name = "FOMEY"\ncourse', 'name = "GULLY"\ncourse'),
      ('name = "TMPXX"', 'name = "FOMEY"')], None),
    ([("leg_distance_nm = 2.4", "leg_distance_nm = 3.0")], {"leg RW09": "stop"}),
    ([("leg_course_deg = 182", "leg_course_deg = 2")], {"leg SWELO": "stop"}),
    ([("altitude_ft = 2000", "altitude_ft = 2300")], {"path-altitude GULLY": "stop", "fix-altitude GULLY": "stop"}),
    ([("altitude_ft = 2000", "altitude_ft = 1700"), ("altitude_ft = 2000", "altitude_ft = 1700")],
     {"path-altitude GULLY": "resolve"}),
    ([("altitude_ft = 800", "altitude_ft = 920"), ("altitude_ft = 800", "altitude_ft = 920")],
     {"path-altitude FOMEY": "resolve"}),
    ([("altitude_ft = 800", "altitude_ft = 300"), ("altitude_ft = 800", "altitude_ft = 300")], {}),
    ([("altitude_ft = 224", "altitude_ft = 214"), ("hat_ft = 200", "hat_ft = 190")], {"lowest-minima LPV": "stop"}),
    ([("hat_ft = 509", "hat_ft = 540")], {"hat circling": "stop"}),
    ([("rvr_ft = 2400", "rvr_ft = 400")], {"decision-visibility LPV": "resolve"}),
    ([('cycle = "2612"', 'cycle = "2611"')], {"cycle": "resolve"}),
    ([("effective = 2026-11-26", "effective = 2026-11-27")], {"cycle-dates": "resolve"}),
])
def test_one_change_gives_its_findings(pairs, expected):
    added = new_findings(*pairs)
    if expected is None:
        assert added["fix-sequence"] == "stop"
        return
    assert added == {name: grade for name, grade in expected.items() if grade}


@pytest.mark.parametrize(("fields", "expected"), [
    ({"reference_path_id": "W27A"}, {"path-id": "stop", "path-id-structure": "resolve"}),
    ({"sbas_provider": 1}, {"path-id-structure": "resolve"}),
    ({"sbas_provider": 12}, {"path-id-structure": "note"}),
    ({"hal_m": 50.0}, {"hal": "resolve"}),
    ({"val_m": 50.0}, {"val-minima LPV": "stop"}),
    ({"val_m": 50.2}, {"val": "stop", "val-minima LPV": "stop"}),
    ({"val_m": 12.0}, {"val": "resolve"}),
    ({"val_m": 0.0}, {"level-of-service": "stop", "val-minima LPV": "stop"}),
    ({"runway_number": 27}, {"runway": "stop", "path-id-structure": "resolve", "runway-course": "stop"}),
    ({"tch": 15.85, "tch_unit": "m"}, {}),
])
def test_one_other_field_gives_its_findings(fields, expected):
    before = found(GOOD)
    added = {name: grade for name, grade in found(segment_changed(**fields)).items() if before.get(name) != grade}
    assert added == expected


def moved(name, **position):
    """The plain approach with one fix elsewhere."""
    approach = read_text(GOOD)
    fixes = tuple(replace(fix, **position) if fix.name == name else fix for fix in approach.chart.fixes)
    return replace(approach, chart=replace(approach.chart, fixes=fixes))


@pytest.mark.parametrize(("latitude", "grade"), [(34.0307, "ok"), (34.0335, "resolve"), (34.0385, "stop")])
def test_a_fix_beside_the_course(latitude, grade):
    """FOMEY stands at N34.0305 or so; 0.05 NM across is about 0.0009 degrees of latitude."""
    rows = {f.name(): f.grade for f in crosscheck(moved("FOMEY", latitude_deg=latitude))}
    assert rows["fix-on-course FOMEY"] == grade


def test_fixes_that_do_not_come_nearer():
    approach = read_text(GOOD)
    pfaf, stepdown = approach.final_fixes[:2]
    swapped = replace(approach, chart=replace(approach.chart, fixes=tuple(
        {pfaf.name: replace(stepdown, role="PFAF"), stepdown.name: replace(pfaf, role="step-down")}.get(fix.name, fix)
        for fix in approach.chart.fixes)))
    sequence = next(f for f in crosscheck(swapped) if f.key == "fix-sequence")
    assert sequence.grade == "stop"
    assert "not in the order of their distance" in sequence.computed
    assert "another order in the database" in sequence.computed


def test_an_lp_approach_has_no_word_about_a_glidepath():
    keys = {f.key for f in crosscheck(read_text(LATERAL))}
    assert not keys & {"glidepath", "tch", "val", "path-altitude", "val-minima", "decision-visibility"}


@pytest.mark.parametrize(("day", "grade"), [
    ("2026-11-25", "resolve"), ("2026-11-26", "ok"), ("2026-12-23", "ok"), ("2026-12-24", "stop"),
])
def test_a_cycle_holds_from_its_first_day_to_the_day_before_the_next(day, grade):
    finding = next(f for f in crosscheck(read_text(GOOD), day) if f.key == "cycle-in-force")
    assert finding.grade == grade


def test_without_a_day_nothing_is_said_about_currency():
    assert "cycle-in-force" not in {f.key for f in crosscheck(read_text(GOOD))}


def test_a_day_that_is_none_is_refused():
    for day in ("2026-13-01", "tomorrow", 0, 10**9):
        with pytest.raises(DomainError):
            crosscheck(read_text(GOOD), day)


def test_the_day_may_be_an_ordinal():
    from_text = crosscheck(read_text(GOOD), IN_FORCE)
    by_number = crosscheck(read_text(GOOD), 739951)
    assert [vars(f) for f in by_number] == [vars(f) for f in from_text]


def test_a_chart_in_true_courses_needs_no_variation():
    approach = read_text(changed(('"magnetic"', '"true"'), ("course_deg = 92", "course_deg = 103.6")))
    assert in_chart_reference_deg(approach, 103.6) == 103.6
    assert next(f for f in crosscheck(approach) if f.key == "course").grade == "ok"


def test_a_number_out_of_every_range_is_a_stop_and_not_silence():
    rows = crosscheck(moved("GULLY", latitude_deg=-34.0, longitude_deg=32.0))
    lost = [f for f in rows if f.key == "not-computed"]
    assert [f.about for f in lost] == ["sequence", "on_course", "on_path"]
    assert all(f.grade == "stop" and "5000" in f.computed for f in lost)


def test_keys_are_slugs_and_names_are_unique():
    for approach in [*read_all(FOLDER), *read_all(FOLDER / "drafts"), khwd()]:
        rows = crosscheck(approach, IN_FORCE)
        names = [f.name() for f in rows]
        assert len(names) == len(set(names))
        assert all(f.key == f.key.lower() and " " not in f.key for f in rows)


def test_distance_and_side_of_a_fix():
    approach = read_text(GOOD)
    along, across = foot(approach, approach.pfaf)
    assert along == pytest.approx(6.05, abs=0.005)
    assert across == pytest.approx(0.0, abs=0.0005)
    south_of_an_easterly_course = replace(approach.pfaf, latitude_deg=approach.pfaf.latitude_deg - 0.1)
    assert foot(approach, south_of_an_easterly_course)[1] > 5.0


def test_the_length_offset_is_negative_when_the_fpap_lies_before_the_end():
    assert length_offset_m(9000, 10000) == pytest.approx(-304.8)


NUMBERS = [
    (name, entry) for name, entry in schema.entries(Chart).values() if entry.kind == "number"
]
ROWS = [row for row in LAYOUT if row.kind in ("whole", "scaled") and not row.name.startswith("tch")]


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_no_possible_chart_and_segment_make_it_fail(data):
    """Any number within the ranges of the schema gives findings, however absurd."""
    approach = read_text(GOOD)
    (name, entry), row = data.draw(st.sampled_from(NUMBERS)), data.draw(st.sampled_from(ROWS))
    chart = replace(approach.chart, **{name: data.draw(st.floats(entry.low, entry.high))})
    steps = data.draw(st.integers(0, round((row.high - row.low) * row.per_unit)))
    value = row.low + steps / row.per_unit if row.kind == "scaled" else int(row.low) + steps
    block = encode(replace(approach.segment, **{row.name: value}))
    database = replace(approach.database, block=held_block(block.hex()))
    rows = crosscheck(replace(approach, chart=chart, database=database), IN_FORCE)
    assert next(f for f in rows if f.key == "remainder").grade == "ok"


# Limits


def test_every_limit_has_a_reason_and_every_fact_of_a_limit_is_used():
    used = set()
    for limit in LIMITS:
        facts = [limit.fact(name) for name in ("note", "resolve", "stop")]
        assert any(facts), limit.key
        assert limit.reason
        assert (limit.note, limit.resolve, limit.stop) == tuple(facts)
        values = [fact.value for fact in facts if fact]
        assert values == sorted(values)
        used |= {fact.key for fact in facts if fact}
    assert used == {key for key in FACTS if key.startswith("limit_")}
    assert set(BY_KEY) == {limit.key for limit in LIMITS}


@pytest.mark.parametrize(("difference", "expected"), [
    (0.0, "ok"), (1.0, "ok"), (-1.0, "ok"), (1.01, "resolve"), (-3.0, "resolve"), (3.01, "stop"), (-180.0, "stop"),
])
def test_grades_are_above_their_limits_on_either_side(difference, expected):
    assert grade_difference("course", difference) == expected


CODED = changed(  # as the importer writes it
    ("course_deg = 92\n", 'course_deg = 92\nfrom_coded_record = true\ncoded_legs = ["Hold at KELPO."]\n'
     'to_be_filled = ["missed.climb_gradient_ft_per_nm"]\n'),
    ('role = "MAP"\n', 'role = "MAP"\npath_altitude_ft = 74\n'),
    ('role = "step-down"\n', 'role = "step-down"\npath_altitude_ft = 838\n'),
)


def test_a_file_made_from_coded_records_says_what_nobody_has_read_yet():
    rows = {f.name(): f for f in crosscheck(read_text(CODED)) if f.name() not in found(GOOD) and f.grade != "ok"}
    assert {name: f.grade for name, f in rows.items()} == {
        "from-chart": "resolve", "coded-only": "resolve", "coded-legs": "resolve"}
    assert rows["from-chart"].what == "to be filled from the chart"
    assert rows["from-chart"].computed == "climb gradient of the missed approach"
    assert rows["coded-legs"].database == "Hold at KELPO."


def test_coded_legs_stay_as_a_note_once_the_chart_is_read():
    text = CODED.replace("from_coded_record = true\n", "").replace('["missed.climb_gradient_ft_per_nm"]', "[]")
    assert new_findings(("", ""), text=text) == {}
    assert {name: grade for name, grade in found(text).items() if name not in found(GOOD)} == {"coded-legs": "note"}


def test_altitudes_coded_on_the_path_are_compared_to_a_few_feet():
    rows = {f.name(): f for f in crosscheck(read_text(CODED)) if f.key == "path-coded"}
    assert {name: (f.grade, f.computed) for name, f in rows.items()} == {
        "path-coded FOMEY": ("ok", "straight 843 ft, barometric 838 ft"),
        "path-coded RW09": ("ok", "straight 74 ft, barometric 74 ft"),
    }
    wrong = CODED.replace("path_altitude_ft = 838", "path_altitude_ft = 938")
    assert found(wrong)["path-coded FOMEY"] == "stop"


KEYS = {  # rule -> the keys of its findings; pages and debriefs link to them, so they stay
    "to_be_filled": {"from-chart"},
    "copied": {"coded-only"},
    "kept_as_text": {"coded-legs"},
    "remainder": {"remainder"},
    "place": {"airport", "runway", "title"},
    "path_id": {"path-id", "path-id-structure"},
    "channel": {"channel", "channel-range"},
    "level": {"level-of-service", "hal", "val"},
    "cycle": {"cycle", "cycle-dates", "cycle-in-force"},
    "glidepath": {"glidepath"},
    "crossing_height": {"tch"},
    "final_course": {"course", "course-shown"},
    "record_variation": {"variation"},
    "runway_number": {"runway-course"},
    "threshold_height": {"threshold-height"},
    "length": {"length-offset"},
    "sequence": {"fix-sequence"},
    "on_course": {"fix-on-course"},
    "legs": {"leg"},
    "altitudes": {"fix-altitude"},
    "on_path": {"path-altitude"},
    "coded_path": {"path-coded"},
    "elevations": {"elevations"},
    "lines": {"minima-level"},
    "alert_limit": {"val-minima"},
    "lowest": {"lowest-minima"},
    "heights": {"hat"},
    "decision": {"decision-visibility"},
}


def test_each_rule_describes_itself_and_keeps_its_keys():
    approach, day = read_text(CODED), 739951
    of_coded_legs = {rule.__name__: set() for rule in (*coded_legs.RULES, coded.verified)}  # the file holds none
    assert {rule.__name__: {f.key for f in rule(approach, day)} for rule in RULES} == KEYS | of_coded_legs
    assert all(rule.__doc__ for rule in RULES)


def test_a_value_that_one_person_filled_is_to_be_verified():
    row = '\n[[filled]]\nkeys = ["notes"]\nfilled_by = "A"\nfilled_on = 2026-11-26\n'
    [finding] = coded.verified(read_text(GOOD + row), None)
    assert (finding.name(), finding.grade, finding.what, finding.chart) == (
        "unverified", "resolve", "filled, not yet verified by a second person", "notes")
    assert list(coded.verified(read_text(GOOD + row + 'verified_by = "B"\nverified_on = 2026-11-26\n'), None)) == []


def test_the_runway_of_a_segment_as_charts_write_it():
    assert runway_text(khwd().segment) == "28L"
    assert runway_text(read_text(GOOD).segment) == "09"


# Texts


def test_numbers_in_findings_never_read_minus_zero():
    assert crosscheck_text.ft(-0.3) == "0 ft"
    assert crosscheck_text.tenths_ft(-0.01) == "0 ft"
    assert crosscheck_text.metres(-0.04) == "0 m"
    assert crosscheck_text.metres(-32.44) == "-32.4 m"
    assert crosscheck_text.nm(6.049) == "6.05 NM"
    assert crosscheck_text.degrees(3.1) == "3.10°"
    assert crosscheck_text.course(0.04) == "360.0°"
    assert crosscheck_text.variation(-9.0) == "W9.0°"
    assert crosscheck_text.given(None) == "none"


def test_an_action_stands_only_where_there_is_something_to_do():
    same = crosscheck_text.compared("k", "what", "A", "A", why="why", action="do")
    other = crosscheck_text.compared("k", "what", "A", "B", why="why", action="do", grade="resolve")
    assert (same.grade, same.action, other.grade, other.action) == ("ok", "", "resolve", "do")
    assert isinstance(crosscheck_text.finding("k", "ok", "w", why="y", action="z"), Finding)


# The command


def test_the_command_prints_and_grades(capsys):
    good, draft = str(FOLDER / "zzak-rnav-09.toml"), str(FOLDER / "drafts" / "zzak-rnav-09-draft.toml")
    assert main([good]) == 0
    assert "zzak-rnav-09: 0 stop, 0 resolve, 2 note" in capsys.readouterr().out
    assert main([good, draft, "--on", IN_FORCE]) == 1
    assert "stop          cycle-in-force" in capsys.readouterr().out


def test_the_command_speaks_json(capsys):
    assert main([str(FOLDER / "zzak-rnav-09.toml"), "--json"]) == 0
    rows = json.loads(capsys.readouterr().out)["zzak-rnav-09"]
    assert {"key", "grade", "what", "chart", "database", "computed", "why", "action", "about", "reason"} == set(rows[0])


def test_the_command_names_every_fault(tmp_path, capsys):
    (tmp_path / "a.toml").write_text("")
    assert main([str(tmp_path / "a.toml"), str(tmp_path / "b.toml")]) == 2
    errors = capsys.readouterr().err
    assert "a.toml" in errors
    assert "b.toml" in errors
    assert main([str(FOLDER / "zzak-rnav-09.toml"), "--on", "soon"]) == 2


def test_lengths_are_told_in_the_units_of_the_charts_rules():
    assert crosscheck_text.length(1968.5, "FAA") == "1968 ft"
    assert crosscheck_text.length(1968.5, "EASA") == crosscheck_text.length(1968.5, "ICAO") == "600 m (1968 ft)"
    text = (FOLDER / "zzeg-rnp-24.toml").read_text("utf-8")
    sight = next(f for f in crosscheck(read_text(text)) if f.key == "decision-visibility")
    assert "visibility 600 m (1969 ft)" in sight.chart
    assert " m (" not in next(f for f in crosscheck(read_text(GOOD)) if f.key == "decision-visibility").computed


def test_dates_are_told_in_one_wording_from_the_first_to_the_last_day():
    def dates(*pairs):
        by_key = {one.key: one for one in crosscheck(read_text(changed(*pairs)), IN_FORCE)}
        return by_key["cycle-dates"].database, by_key["cycle-dates"].computed, by_key["cycle-in-force"].computed

    held = "from 2026-11-26 to 2026-12-23"
    assert dates() == (held, held, f"in force {held}")
    assert dates(("expires = 2026-12-24", "expires = 2026-12-25"))[0] == "from 2026-11-26 to 2026-12-24"
    assert dates(("effective = 2026-11-26\n", ""))[0] == "to 2026-12-23"
    assert dates(("expires = 2026-12-24\n", ""))[0] == "from 2026-11-26"
