"""The cross-check: what it finds in the demo, in the draft, in a published approach, and at its limits."""

import json
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from demo import approaches as make_demo
from lpv.approach.database import held_block, held_path_point
from lpv.approach.record import read_all, read_text
from lpv.approach.schema import Chart
from lpv.core.errors import DomainError
from lpv.core.findings import Finding
from lpv.crosscheck import coded
from lpv.crosscheck import statements as crosscheck_text
from lpv.crosscheck.check import LIMITS, RULES, crosscheck, grade_difference, main
from lpv.crosscheck.fixes import foot
from lpv.crosscheck.identity import runway_text
from lpv.crosscheck.limits import BY_KEY
from lpv.crosscheck.runway import length_offset_m
from lpv.decide.final_path import in_chart_reference_deg
from lpv.facts import FACTS
from lpv.fas.block import encode
from lpv.fas.layout import LAYOUT
from lpv.files import schema
from lpv.files.toml_writer import toml_text
from lpv_site.checks.mismatches import altered, base_text
from published_approaches import KHWD_FIXES, KHWD_RECORD, khwd

FOLDER = make_demo.FOLDER
GOOD = (FOLDER / "zzak-rnav-09.toml").read_text("utf-8")
LATERAL = (FOLDER / "zzak-rnav-27.toml").read_text("utf-8")
IN_FORCE = "2026-12-01"


def grades_of(text, *, on=None):
    """Grade by name of the findings about a text, those that agree left out."""
    return {f.name(): f.grade for f in crosscheck(read_text(text), on) if f.grade != "ok"}


def changed(*pairs, text=GOOD):
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new, 1)
    return text


def named(rows):
    """Findings by name."""
    return {f.name(): f for f in rows}


# The demo


def test_good_approaches_have_no_stop_or_resolve():
    open_findings = {
        approach.slug: {f.name(): f.grade for f in crosscheck(approach, IN_FORCE) if f.grade != "ok"}
        for approach in read_all(FOLDER)
    }
    alone = {"chart-alone": "not compared", "ground": "not compared"}
    assert open_findings == {
        "zzak-rnav-09": alone | {"path-altitude GULLY": "note", "decision-visibility LPV": "note"},
        "zzak-rnav-16": alone | {"path-altitude WINKL": "note"},
        "zzak-rnav-27": alone | {"remainder": "not compared"},
        "zzeg-rnp-24": alone | {"path-altitude TURBO": "note", "decision-visibility LPV": "note"},
        "zzhc-rnav-33": alone | {"variation": "note", "variation-year": "not compared", "path-altitude GLAZO": "note",
                                 "decision-visibility LPV": "note"},
    }


DRAFT = {
    "remainder": "stop", "runway": "stop", "channel": "stop", "cycle": "resolve", "tch": "resolve", "course": "stop",
    "course-shown": "stop", "leg GULLY": "resolve", "fix-altitude SWELO": "stop", "fix-altitude FOMEY": "resolve",
    "path-altitude GULLY": "note", "val-minima LPV": "stop", "hat LPV": "resolve", "decision-visibility LPV": "note",
    "map-runway": "stop", "threshold-position": "resolve", "map-position": "resolve", "msa": "resolve",
    "chart-alone": "not compared", "ground": "not compared",
}


def test_draft_shows_seeded_errors():
    draft, = read_all(FOLDER / "drafts")
    graded = {f.name(): f.grade for f in crosscheck(draft) if f.grade != "ok"}
    assert graded == DRAFT | {"cycle-in-force": "not compared"}


def test_draft_out_of_date_on_given_day():
    draft, = read_all(FOLDER / "drafts")
    on_day = {f.name(): f.grade for f in crosscheck(draft, IN_FORCE) if f.grade != "ok"}
    assert on_day == DRAFT | {"cycle-in-force": "stop"}


def test_every_finding_states_comparison_reason_and_action():
    draft, = read_all(FOLDER / "drafts")
    for finding in crosscheck(draft, IN_FORCE):
        assert finding.what
        assert finding.why
        assert bool(finding.action) == (finding.grade != "ok")
        assert finding.chart or finding.database or finding.computed


def test_published_approach_agrees_with_itself():
    rows = named(crosscheck(khwd(), "2020-03-01"))
    assert {name: f.grade for name, f in rows.items() if f.grade not in ("ok", "not compared")} == {
        "path-altitude SUDGE": "note",  # the straight path passes 79 ft above the charted altitude
        "path-altitude FENRA": "note",
    }
    assert rows["variation"].reason == "no rule"  # 2020 lies before the model's years
    assert rows["remainder"].database == "40227B2E"
    assert rows["course"].computed == "284.9° magnetic, E15.0° applied"
    assert rows["path-altitude SUDGE"].computed == "straight 3279\u202fft, barometric 3200\u202fft"
    assert rows["threshold-height"].computed == "geoid \u221231.9\u202fm by EGM96; 0.5\u202fm (2\u202fft) too low"
    assert rows["length-offset"].computed == (
        "FPAP 9023\u202fft from the threshold, 1220.7\u202fm beyond the end of the runway")


def test_published_course_not_from_other_variation():
    """The waypoint records carry E13.2; with it the coded course would be 286.7."""
    rows = {f.name(): f for f in crosscheck(khwd(variation_deg=13.2)) if f.grade == "resolve"}
    assert rows["course"].computed == "286.7° magnetic, E13.2° applied"
    assert set(rows) == {"course"} | {f"leg {fix[0]}" for fix in KHWD_FIXES[1:]}


def test_damaged_published_record_is_stop():
    record = [KHWD_RECORD[0].replace("0310N", "0300N"), KHWD_RECORD[1]]
    approach = khwd()
    damaged = replace(approach, database=replace(approach.database, path_point=held_path_point(record)))
    assert {f.name() for f in crosscheck(damaged) if f.grade == "stop"} == {"remainder", "glidepath"}


def test_record_of_other_level_is_stop():
    record = [KHWD_RECORD[0], KHWD_RECORD[1].replace("LPV ", "LP  ")]
    approach = khwd()
    other = replace(approach, database=replace(approach.database, path_point=held_path_point(record)))
    level = next(f for f in crosscheck(other) if f.key == "level-of-service")
    assert (level.grade, level.database) == ("stop", "LP and LPV")


def moved(name, **position):
    """The plain approach with one fix elsewhere."""
    approach = read_text(GOOD)
    fixes = tuple(replace(fix, **position) if fix.name == name else fix for fix in approach.chart.fixes)
    return replace(approach, chart=replace(approach.chart, fixes=fixes))


@pytest.mark.parametrize(("latitude", "grade"), [(34.0307, "ok"), (34.0335, "resolve"), (34.0385, "stop")])
def test_fix_off_course(latitude, grade):
    """FOMEY stands at N34.0305 or so; 0.05 NM across is about 0.0009 degrees of latitude."""
    rows = {f.name(): f.grade for f in crosscheck(moved("FOMEY", latitude_deg=latitude))}
    assert rows["fix-on-course FOMEY"] == grade


def test_fixes_not_getting_nearer():
    approach = read_text(GOOD)
    pfaf, stepdown = approach.final_fixes[:2]
    swapped = replace(approach, chart=replace(approach.chart, fixes=tuple(
        {pfaf.name: replace(stepdown, role="PFAF"), stepdown.name: replace(pfaf, role="step-down")}.get(fix.name, fix)
        for fix in approach.chart.fixes)))
    rows = named(crosscheck(swapped))
    assert rows["fix-order"].grade == rows["fix-sequence"].grade == "stop"
    assert rows["fix-order"].computed == "2.4\u202fNM, 6.0\u202fNM, 0.0\u202fNM"
    assert rows["fix-sequence"].computed == "another order in the database"


def test_lp_has_no_glidepath_to_compare():
    keys = {f.key for f in crosscheck(read_text(LATERAL))}
    assert not keys & {"glidepath", "tch", "val", "path-altitude", "val-minima", "decision-visibility", "tch-range",
                       "glidepath-range"}


@pytest.mark.parametrize(("day", "grade"), [
    ("2026-11-25", "stop"), ("2026-11-26", "ok"), ("2026-12-23", "ok"), ("2026-12-24", "stop"),
])
def test_cycle_valid_until_day_before_next(day, grade):
    finding = next(f for f in crosscheck(read_text(GOOD), day) if f.key == "cycle-in-force")
    assert finding.grade == grade


def test_currency_not_compared_without_day():
    finding = named(crosscheck(read_text(GOOD)))["cycle-in-force"]
    assert (finding.grade, finding.reason, finding.why) == ("not compared", "not stated", "No day is stated.")


def test_invalid_day_refused():
    for day in ("2026-13-01", "tomorrow", 0, 10**9):
        with pytest.raises(DomainError):
            crosscheck(read_text(GOOD), day)


def test_day_may_be_ordinal():
    from_text = crosscheck(read_text(GOOD), IN_FORCE)
    by_number = crosscheck(read_text(GOOD), 739951)
    assert [vars(f) for f in by_number] == [vars(f) for f in from_text]


def test_chart_in_true_courses_needs_no_variation():
    approach = read_text(changed(('"magnetic"', '"true"'), ("course_deg = 92", "course_deg = 103.6")))
    assert in_chart_reference_deg(approach, 103.6) == 103.6
    assert next(f for f in crosscheck(approach) if f.key == "course").grade == "ok"


def test_number_out_of_every_range_is_stop():
    rows = crosscheck(moved("GULLY", latitude_deg=-34.0, longitude_deg=32.0))
    lost = [f for f in rows if f.key == "not-computed"]
    assert [f.about for f in lost] == ["order", "on_course", "on_path"]
    assert all(f.grade == "stop" and "5000" in f.computed for f in lost)


def test_keys_are_slugs_and_names_unique():
    for approach in [*read_all(FOLDER), *read_all(FOLDER / "drafts"), khwd()]:
        rows = crosscheck(approach, IN_FORCE)
        names = [f.name() for f in rows]
        assert len(names) == len(set(names))
        assert all(f.key == f.key.lower() and " " not in f.key for f in rows)


def test_fix_distance_and_side():
    approach = read_text(GOOD)
    along, across = foot(approach, approach.pfaf)
    assert along == pytest.approx(6.05, abs=0.005)
    assert across == pytest.approx(0.0, abs=0.0005)
    south_of_an_easterly_course = replace(approach.pfaf, latitude_deg=approach.pfaf.latitude_deg - 0.1)
    assert foot(approach, south_of_an_easterly_course)[1] > 5.0


def test_length_offset_negative_when_fpap_before_end():
    assert length_offset_m(9000, 10000) == pytest.approx(-304.8)


NUMBERS = [
    (name, entry) for name, entry in schema.entries(Chart).values() if entry.kind == "number"
]
ROWS = [row for row in LAYOUT if row.kind in ("whole", "scaled") and not row.name.startswith("tch")]


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_random_chart_and_segment_never_crash(data):
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


def test_every_limit_has_reason_and_every_fact_used():
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
    (0.0, "ok"), (0.6, "ok"), (-0.6, "ok"), (1.0, "note"), (1.01, "resolve"), (-3.0, "resolve"), (3.01, "stop"),
    (-180.0, "stop"),
])
def test_grades_either_side_of_limits(difference, expected):
    assert grade_difference("course", difference) == expected


CODED = changed(  # as the importer writes it
    ("course_deg = 92\n", 'course_deg = 92\nfrom_coded_record = true\ncoded_legs = ["Hold at KELPO."]\n'
     'to_be_filled = ["missed.climb_gradient_ft_per_nm"]\n'),
    ('role = "MAP"\n', 'role = "MAP"\npath_altitude_ft = 74\n'),
    ('role = "step-down"\n', 'role = "step-down"\npath_altitude_ft = 838\n'),
)


def test_file_from_coded_records_names_unread_values():
    rows = {f.name(): f for f in crosscheck(read_text(CODED)) if f.name() not in grades_of(GOOD) and f.grade != "ok"}
    assert {name: f.grade for name, f in rows.items() if f.grade != "not compared"} == {
        "from-chart": "resolve", "coded-only": "resolve", "coded-legs": "resolve"}
    copies = {f.key: f.reason for f in rows.values() if f.grade == "not compared"}
    assert copies == dict.fromkeys([
        "airport", "runway", "title", "title-letter", "level-of-service", "path-id", "channel", "cycle", "glidepath",
        "tch", "course-shown", "fix-sequence", "fix-altitude", "altitude-rule", "runway-elevation", "runway-length",
        "displaced-threshold", "missed-altitude", "missed-text", "missed-fix"], "not read")
    assert rows["from-chart"].what == "to be filled from the chart"
    assert rows["from-chart"].computed == "climb gradient of the missed approach"
    assert rows["coded-legs"].database == "Hold at KELPO."


def test_missed_approach_filled_from_chart_compared():
    filled = '[[filled]]\nkeys = ["missed"]\nfilled_by = "A. Reader"\nfilled_on = 2026-11-20\n'
    grades = {f.name(): f.grade for f in crosscheck(read_text(CODED + filled))}
    assert {grades[key] for key in ("missed-altitude", "missed-text", "missed-fix")} == {"ok"}
    assert grades["glidepath"] == "not compared"


def test_coded_legs_remain_note_after_chart_read():
    text = CODED.replace("from_coded_record = true\n", "").replace('["missed.climb_gradient_ft_per_nm"]', "[]")
    before = grades_of(GOOD)
    assert {key: grade for key, grade in grades_of(text).items() if key not in before} == {"coded-legs": "note"}


def test_path_altitudes_compared_to_few_feet():
    rows = {f.name(): f for f in crosscheck(read_text(CODED)) if f.key == "path-coded"}
    assert {name: (f.grade, f.computed) for name, f in rows.items()} == {
        "path-coded FOMEY": ("ok", "straight 843\u202fft, barometric 838\u202fft"),
        "path-coded RW09": ("ok", "straight 74\u202fft, barometric 74\u202fft"),
    }
    wrong = CODED.replace("path_altitude_ft = 838", "path_altitude_ft = 938")
    assert grades_of(wrong)["path-coded FOMEY"] == "stop"


KEYS = {  # rule -> the keys of its findings; pages and debriefs link to them, so they stay
    "to_be_filled": {"from-chart"},
    "copied": {"coded-only"},
    "kept_as_text": {"coded-legs"},
    "verified": {"unverified"},
    "remainder": {"remainder"},
    "place": {"airport", "runway"},
    "record_names": {"record-names"},
    "title": {"title", "title-letter"},
    "path_id": {"path-id", "path-id-structure", "path-id-shown"},
    "channel": {"channel", "channel-range"},
    "level": {"level-of-service"},
    "cycle": {"cycle", "cycle-dates", "cycle-in-force", "record-cycle"},
    "operation": {"operation-type", "performance-designator", "path-data-selector"},
    "provider_area": {"provider-area"},
    "course_width": {"course-width"},
    "crossing_range": {"tch-range"},
    "angle_range": {"glidepath-range"},
    "alert_limits": {"hal", "val"},
    "threshold_position": {"threshold-position"},
    "map_position": {"map-runway", "map-position"},
    "bearing": {"runway-bearing"},
    "elevation": {"runway-elevation", "orthometric-height"},
    "threshold_height": {"threshold-height"},
    "dimensions": {"runway-length", "displaced-threshold"},
    "fpap": {"fpap"},
    "to_the_faf": {"fix-gradient"},
    "without_a_path": {"final-gradient"},
    "under_the_minimum": {"step-down-minimum"},
    "missed_height": {"missed-height"},
    "over_the_ground": {"ground"},
    "length": {"length-offset"},
    "glidepath": {"glidepath"},
    "crossing_height": {"tch"},
    "final_course": {"course"},
    "course_shown": {"course-shown"},
    "record_variation": {"variation"},
    "variation_year": {"variation-year"},
    "runway_number": {"runway-course"},
    "order": {"fix-roles", "fix-order"},
    "sequence": {"fix-sequence", "fix-missed"},
    "on_course": {"fix-on-course"},
    "legs": {"leg"},
    "altitudes": {"fix-altitude", "altitude-rule"},
    "descending": {"fix-descent"},
    "on_path": {"path-altitude"},
    "coded_path": {"path-coded"},
    "straight_legs": {"coded-leg"},
    "arcs": {"coded-arc"},
    "missed_course": {"missed-course"},
    "charted_fixes": {"coded-position", "coded-altitude", "coded-rule", "coded-path"},
    "final_angle": {"coded-angle"},
    "elevations": {"elevations", "tdze"},
    "lines": {"minima-level", "minima-lines"},
    "categories": {"categories"},
    "alert_limit": {"val-minima"},
    "lowest": {"lowest-minima"},
    "line_order": {"minima-order"},
    "heights": {"hat"},
    "decision": {"decision-visibility"},
    "visibilities": {"visibility"},
    "altitude": {"missed-altitude"},
    "words": {"missed-text", "missed-fix"},
    "climb": {"climb-gradient"},
    "chart_only": {"chart-alone"},
    "vnav_temperatures": {"vnav-lowest", "vnav-highest"},
    "cold_temperature": {"cold-temperature"},
    "lights": {"lights"},
    "safe_altitudes": {"msa"},
}
BARE = altered(base_text("zzak-rnav-09"), {"remove": ["database.fix.KELPO", "database.path_id", "chart.tdze_ft"]})


def test_keys_permanent_and_rules_described():
    bases = [read_text(base_text(base)) for base in ("kbtv-rnav-01", "kbur-rnav-08-z", "khwd-rnav-28l")]
    bare = read_text(toml_text(BARE | {"identity": BARE["identity"] | {"rule": "ICAO"}}))
    without_zone = replace(bare, identity=replace(bare.identity, rule="FAA"))
    seen = [*read_all(FOLDER), read_text(CODED), *bases, without_zone]
    found_keys = {rule.__name__: {f.key for approach in seen for f in rule(approach, 739951)} for rule in RULES}
    none_here = {key: set() for key in ("straight_legs", "arcs", "verified")}  # no such leg, and nothing filled
    assert found_keys == KEYS | none_here
    assert all(rule.__doc__ for rule in RULES)
    assert len({rule.__name__ for rule in RULES}) == len(RULES)


def test_value_filled_by_one_person_needs_verification():
    row = '\n[[filled]]\nkeys = ["notes"]\nfilled_by = "A"\nfilled_on = 2026-11-26\n'
    [finding] = coded.verified(read_text(GOOD + row), None)
    assert (finding.name(), finding.grade, finding.what, finding.chart) == (
        "unverified", "resolve", "filled, not yet verified by a second person", "notes")
    assert list(coded.verified(read_text(GOOD + row + 'verified_by = "B"\nverified_on = 2026-11-26\n'), None)) == []


def test_segment_runway_written_as_on_charts():
    assert runway_text(khwd().segment) == "28L"
    assert runway_text(read_text(GOOD).segment) == "09"


# Texts


def test_given_values():
    assert crosscheck_text.or_none(None) == "none"


def test_action_only_when_something_to_do():
    same = crosscheck_text.compared("k", "what", "A", "A", why="why", action="do")
    other = crosscheck_text.compared("k", "what", "A", "B", why="why", action="do", grade="resolve")
    assert (same.grade, same.action, other.grade, other.action) == ("ok", "", "resolve", "do")
    assert isinstance(crosscheck_text.finding("k", "ok", "w", why="y", action="z"), Finding)


# The command


def test_command_prints_and_grades(capsys):
    good, draft = str(FOLDER / "zzak-rnav-09.toml"), str(FOLDER / "drafts" / "zzak-rnav-09-draft.toml")
    assert main([good, "--on", IN_FORCE]) == 0
    out = capsys.readouterr().out
    assert out.startswith("zzak-rnav-09: Not everything was compared: 0 stop, 0 resolve, 2 note, ")
    assert "  ok  " not in out
    assert f"1 approach on {IN_FORCE}:\n      1 not everything was compared (not compared)\n" in out
    assert "Not printed: ok. Ask for them with --only." in out
    assert main([good, draft, "--on", IN_FORCE]) == 1
    out = capsys.readouterr().out
    assert "stop          cycle-in-force" in out
    assert "1 do not fly it (stop): zzak-rnav-09-draft" in out


def test_day_defaults_to_today(capsys, monkeypatch):
    class Later(date):
        @classmethod
        def today(cls):
            return cls(2040, 1, 1)

    monkeypatch.setattr("lpv.crosscheck.check.date", Later)
    assert main([str(FOLDER / "zzak-rnav-09.toml")]) == 1
    out = capsys.readouterr().out
    assert "stop          cycle-in-force" in out
    assert "on 2040-01-01:" in out


@pytest.mark.parametrize(("asked", "there", "not_there"), [
    (["--only", "note"], "note", "ok  "), (["--only", "ok"], "ok", "note"), (["--only", "all"], "ok", "nothing of it"),
])
def test_command_prints_requested_parts(capsys, asked, there, not_there):
    main([str(FOLDER / "zzak-rnav-09.toml"), "--on", IN_FORCE, *asked])
    grades = [line[2:14].strip() for line in capsys.readouterr().out.splitlines() if line.startswith("  ")]
    assert there in grades
    assert not_there.strip() not in grades


def test_many_files_print_only_open_points(tmp_path, capsys):
    text = (FOLDER / "zzak-rnav-09.toml").read_text("utf-8")
    for number in range(30):
        (tmp_path / f"zz-{number:02}.toml").write_text(text, "utf-8")
    assert main([*map(str, sorted(tmp_path.glob("*.toml"))), "--on", IN_FORCE]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert len([line for line in lines if line.strip()]) == 30 + 3
    assert lines[-1] == "Not printed: note, ok and not compared. Ask for them with --only."


def test_command_prints_json(capsys):
    assert main([str(FOLDER / "zzak-rnav-09.toml"), "--on", IN_FORCE, "--json"]) == 0
    whole = capsys.readouterr().out
    assert main([str(FOLDER / "zzak-rnav-09.toml"), "--on", IN_FORCE, "--format", "json"]) == 0
    assert capsys.readouterr().out == whole
    report = json.loads(whole)["zzak-rnav-09"]
    assert {"key", "grade", "what", "chart", "database", "computed", "why", "action", "about", "reason"} == set(
        report["findings"][0])
    assert report["verdict"].startswith("Not everything was compared: ")
    assert list(report["counts"]) == ["stop", "resolve", "note", "ok", "not compared"]
    assert sum(report["counts"].values()) == len(report["findings"])
    assert report["not_compared"] == [
        "altitudes against the ground (no rule)", "printed on the chart only (missing in the database part)"]


def test_command_names_every_fault(tmp_path, capsys):
    (tmp_path / "a.toml").write_text("")
    assert main([str(tmp_path / "a.toml"), str(tmp_path / "b.toml")]) == 2
    errors = capsys.readouterr().err
    assert "a.toml" in errors
    assert "b.toml" in errors
    assert main([str(FOLDER / "zzak-rnav-09.toml"), "--on", "soon"]) == 2


def test_lengths_in_units_of_chart_rules():
    text = (FOLDER / "zzeg-rnp-24.toml").read_text("utf-8")
    sight = next(f for f in crosscheck(read_text(text)) if f.key == "decision-visibility")
    assert "visibility 600\u202fm (1969\u202fft)" in sight.chart
    assert " m (" not in next(f for f in crosscheck(read_text(GOOD)) if f.key == "decision-visibility").computed


def test_dates_worded_alike_first_to_last_day():
    def dates(*pairs):
        by_key = {finding.key: finding for finding in crosscheck(read_text(changed(*pairs)), IN_FORCE)}
        return by_key["cycle-dates"].database, by_key["cycle-dates"].computed, by_key["cycle-in-force"].computed

    held = "from 2026-11-26 to 2026-12-23"
    assert dates() == (held, held, "Cycle 2612 is in force on 2026-12-01.")
    assert dates(("expires = 2026-12-24", "expires = 2026-12-25"))[0] == "from 2026-11-26 to 2026-12-24"
    assert dates(("effective = 2026-11-26\n", ""))[0] == "to 2026-12-23"
    assert dates(("expires = 2026-12-24\n", ""))[0] == "from 2026-11-26"
