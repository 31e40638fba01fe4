"""The importer: a published approach and invented ones, from records to approach files, cross-check and briefing."""

import io
import re
from pathlib import Path

import pytest

import coded_records as coded
from lpv.approach import record as approach
from lpv.approach.schema import TO_BE_FILLED
from lpv.arinc import importer
from lpv.arinc.approach import build
from lpv.arinc.cycle import advanced, cycle_of
from lpv.arinc.files import ADVANCED, ASIDE, CYCLE_NEW, REPLACED, SAME, WRITTEN, put, text_of, untouched
from lpv.arinc.importer import Order, run
from lpv.arinc.reader import Source
from lpv.arinc.scope import approaches
from lpv.arinc.summary import _texts, report_text
from lpv.crosscheck.check import crosscheck
from lpv.crosscheck.fixes import foot
from lpv.files.toml_writer import toml_text
from lpv.path.profile import barometric_path_height_ft
from lpv_site.briefing.briefing import build_briefing_page
from lpv_site.briefing.coded import coded as coded_text
from lpv_site.briefing.coded import lines_coded, safe, unread


def imported(lines, folder, **order):
    """What a run on these records did."""
    return run(io.BytesIO(coded.as_file(lines)), "cycle.txt", Order(Path(folder), **order))


def approach_of(lines, folder):
    """The one approach that these records make."""
    summary = imported(lines, folder)
    assert not summary.refused, summary.refused
    [done] = summary.done
    return approach.read(Path(folder) / f"{done.slug}.toml")


def written(summary):
    """(file, what was done with it) of each approach."""
    return [(done.slug, done.what) for done in summary.done]


def remarks(summary):
    return [f"{done.slug}: {remark}" for done in summary.done for remark in done.remarks]


@pytest.fixture(scope="module")
def khwd(tmp_path_factory):
    return approach_of(coded.KHWD, tmp_path_factory.mktemp("khwd"))


# FAA CIFP cycle 2003, KHWD RNAV (GPS) RWY 28L


def test_identity(khwd):
    who = khwd.identity
    assert khwd.slug == "khwd-rnav-28l"
    assert (who.airport, who.airport_name, who.runway, who.title) == (
        "KHWD", "HAYWARD EXECUTIVE", "28L", "RNAV (GPS) RWY 28L")
    assert (who.level_of_service, who.channel, who.path_id, who.cycle, who.rule, who.invented) == (
        "LPV", 40330, "W28A", "2003", "FAA", False)


def test_chart_side(khwd):
    chart = khwd.chart
    assert (chart.course_deg, chart.course_reference, chart.variation_deg) == (284.9, "magnetic", 15.0)
    assert (chart.glidepath_deg, chart.tch_ft, chart.threshold_elevation_ft) == (3.1, 35, 50)
    assert (chart.airport_elevation_ft, chart.runway_length_ft, chart.displaced_threshold_ft) == (52, 5694, 676)
    assert chart.from_coded_record
    assert set(chart.to_be_filled) == set(TO_BE_FILLED) - {"missed"}
    assert (chart.minima, chart.notes, chart.tdze_ft, chart.lights) == ((), (), None, None)
    [sector] = chart.msa
    assert (sector.name, sector.altitude_ft, sector.radius_nm) == ("RW28L 180-180", 5300, 25)


FIXES = [  # name, role, altitude, rule, altitude on the path, course and length of the leg to it
    ("JOBUS", "IF", 5700, "at or above", None, None, None),
    ("OKIVY", "step-down", 4800, "at or above", None, 285.1, 3.2),
    ("WESCH", "step-down", 3900, "at or above", None, 285.0, 3.2),
    ("SUDGE", "PFAF", 3200, "at or above", None, 285.0, 2.5),
    ("FENRA", "step-down", 2120, "at or above", 2126, 285.0, 3.3),
    ("BOGRE", "step-down", 1360, "at or above", 1369, 284.9, 2.3),
    ("HUZBY", "step-down", 1000, "at or above", 1007, 284.9, 1.1),
    ("RW28L", "MAP", None, None, 85, 284.9, 2.8),
]


def test_fixes(khwd):
    assert [(fix.name, fix.role, fix.altitude_ft, fix.altitude_rule, fix.path_altitude_ft, fix.leg_course_deg,
             fix.leg_distance_nm) for fix in khwd.chart.fixes] == FIXES
    assert [(fix.name, fix.altitude_ft, fix.course_deg, fix.distance_nm) for fix in khwd.database.fixes] == [
        (name, altitude, course, distance) for name, _, altitude, _, _, course, distance in FIXES]
    assert khwd.chart.fixes[0].latitude_deg == pytest.approx(37 + 30 / 60 + 4.71 / 3600, abs=1e-9)
    assert khwd.chart.fixes[0].longitude_deg == pytest.approx(-(121 + 46 / 60 + 45.65 / 3600), abs=1e-9)


def test_published_path_altitudes_lie_on_barometric_path(khwd):
    """Each within a foot; the straight satellite path passes FENRA 33 ft higher."""
    chart = khwd.chart
    for fix in chart.fixes:
        if fix.path_altitude_ft is not None:
            path = chart.threshold_elevation_ft, chart.tch_ft, chart.glidepath_deg
            path_ft = barometric_path_height_ft(max(foot(khwd, fix)[0], 0.0), *path)
            assert fix.path_altitude_ft == pytest.approx(path_ft, abs=1.0)


def test_database_side(khwd):
    held = khwd.database
    assert (khwd.held.form, khwd.held.stored, khwd.held.computed) == ("path point record", "40227B2E", "40227B2E")
    assert (held.channel, held.path_id, held.course_deg, held.lines) == (
        40330, "W28A", 284.9, ("LPV", "LNAV/VNAV", "LNAV"))
    assert (str(held.effective), str(held.expires)) == ("2020-02-27", "2020-03-26")


def test_missing_positions_named(khwd):
    assert khwd.chart.coded_legs == (
        "position of SJC is not in the file: SJC 010 (K2 D)", "position of VINCO is not in the file: VINCO 010 (K2 EA)",
        "position of OAK is not in the file: 050, 060 (K2 D)")
    assert khwd.chart.missed.altitude_ft == 2100
    assert khwd.chart.missed.instruction == (
        "As coded: climb, course 284.9, at or above 600 ft; turn right, direct to OAK, at or above 2100 ft; "
        "hold at OAK, inbound course 122.0, right turns, 4.0 NM, at or above 2100 ft.")


def test_every_leg_becomes_row(khwd):
    legs = khwd.database.legs
    assert len(legs) == len(coded.TRANSITIONS) + len(coded.FINAL) - 1 + len(coded.MISSED)
    rows = {leg.name: leg for leg in legs}
    hold, first, missed = rows["SJC 030"], rows["021"], rows["040"]
    assert (hold.part, hold.terminator, hold.fix, hold.turn, hold.course_deg, hold.distance_nm, hold.role) == (
        "transition", "HF", "JOBUS", "right", 285.1, 5.0, "IAF")
    assert (first.part, first.altitude_ft, first.altitude_rule, first.path_altitude_ft, first.angle_deg) == (
        "final", 2120, "at or above", 2126, -3.1)
    assert (first.rnp_nm, first.role, first.course_computed, first.gnss, first.qualifiers) == (
        0.3, "step-down", False, "A", "JS")
    assert (missed.part, missed.terminator, missed.course_deg, missed.altitude_ft) == (
        "missed approach", "CA", 284.9, 600)
    assert rows["020"].safe_altitude_centre == "RW28L"
    assert (rows["030"].fly_over, rows["010"].fly_over, rows["010"].transition_altitude_ft) == (True, False, 18000)


def test_crosscheck_names_unread_values(khwd):
    findings = crosscheck(khwd, "2020-03-01")
    grades = {f.name(): f.grade for f in findings if f.grade not in ("ok", "not compared")}
    assert grades == {
        "from-chart": "resolve", "coded-only": "resolve", "coded-legs": "resolve", "runway-bearing": "note",
        "path-altitude SUDGE": "note", "path-altitude FENRA": "note", "path-coded FENRA": "note"}
    assert {f.key for f in findings if f.reason == "not read"} >= {"channel", "fix-altitude", "coded-position"}
    rows = {f.name(): f for f in crosscheck(khwd)}
    assert rows["course"].computed == "284.9° magnetic, E15.0° applied"
    assert rows["path-coded RW28L"].computed == "straight 85\u202fft, barometric 85\u202fft"


def test_briefing_builds_and_names_unread_values(khwd):
    page = build_briefing_page(khwd)
    for words in ("To be filled from the chart", "The records authorize: LPV, LNAV/VNAV, LNAV", "path 2126",
                  "Minimum safe altitude", "SJC 030 HF<br>JOBUS", "inbound 285.1°", "is to be filled from the chart"):
        assert words in page, words
    assert "none higher published" not in page
    assert "prints no temperature" not in page
    assert unread(khwd).count("not yet compared with the chart") == 1
    assert coded_text(khwd).count("\n- ") == len(khwd.chart.coded_legs)
    assert "all round" in safe(khwd)
    assert lines_coded(khwd).startswith("To be filled from the chart.")


def test_course_variation_source_reported(tmp_path):
    assert [line for line in remarks(imported(coded.KHWD, tmp_path)) if "Final course" in line] == [
        "khwd-rnav-28l: Final course 284.9 magnetic as coded; 299.9 true by the segment less the airport's variation "
        "of record E15.0 is 284.9: made with that variation."]
    other = coded.changed(0, coded.AIRPORT["variation"], "E0132")
    [line] = [line for line in remarks(imported(other, tmp_path / "other")) if "Final course" in line]
    assert line.endswith("E13.2 is 286.7: find out which variation it was made with.")


def test_course_coded_as_true(tmp_path):
    lines = [coded.at(line, 71, "299T") if line[47:49] == "TF" else line for line in coded.KHWD]
    result = approach_of(lines, tmp_path)
    assert (result.chart.course_deg, result.chart.course_reference) == (299.0, "true")
    text = " ".join(remarks(imported(lines, tmp_path)))
    assert "Final course 299.0 true as coded, 299.9 by the segment." in text
    assert "The final course is coded true, the airport's record says magnetic." in text


def test_crossing_height_of_other_procedure_ignored(tmp_path):
    lines = [coded.at(line, coded.RUNWAY["tch_of"], "V") if line[12] == "G" else line for line in coded.KHWD]
    lines = [coded.at(line, coded.RUNWAY["tch"], "49") if line[12] == "G" else line for line in lines]
    assert approach_of(lines, tmp_path).chart.tch_ft == 35
    assert "from the path point" in remarks(imported(lines, tmp_path))[1]


# Positions, transitions


def fix_records():
    """VINCO and OAK as an enroute waypoint and a navigation aid; positions invented, in open water."""
    place = {"latitude": "N33000000", "longitude": "W148000000", "continuation": "0", "of": "K2", "number": "00001",
             "cycle": "2002"}
    return [
        coded.record(coded.NAVAID, airport="", region="  ", section="D ", subsection=" ", ident="OAK", **place),
        coded.record(coded.NAVAID, airport="ENRT", region="  ", section="EA", subsection=" ", ident="VINCO", **place),
    ]


def test_transition_and_missed_fixes_listed_with_positions(tmp_path):
    sole = [line for line in coded.KHWD if line not in coded.TRANSITIONS[:3]]
    imported = approach_of([*fix_records(), *sole], tmp_path)
    assert [(fix.name, fix.role) for fix in imported.chart.fixes][:2] == [("VINCO", "IAF"), ("JOBUS", "IF")]
    assert (imported.chart.fixes[-1].name, imported.chart.fixes[-1].role) == ("OAK", "missed hold")
    assert (imported.chart.fixes[1].leg_course_deg, imported.chart.fixes[1].leg_distance_nm) == (323.2, 8.1)
    assert imported.chart.coded_legs == ()
    assert "coded-legs" not in {f.key for f in crosscheck(imported)}


def test_rows_name_meeting_legs_of_several_transitions(tmp_path):
    imported = approach_of([*fix_records(), *coded.KHWD], tmp_path)
    assert [fix.name for fix in imported.chart.fixes][:2] == ["VINCO", "JOBUS"]
    assert (imported.chart.fixes[1].leg_course_deg, imported.chart.fixes[1].also) == (None, ("IAF",))
    legs = {leg.name: leg for leg in imported.database.legs}
    assert (legs["VINCO 020"].course_deg, legs["SJC 020"].course_deg) == (323.2, 31.1)
    assert (legs["VINCO 010"].latitude_deg, legs["VINCO 010"].longitude_deg) == (33.0, -148.0)


# Codes


def with_leg(name, **texts):
    """KHWD with other texts in the final route's leg to a fix."""
    line = next(line for line in coded.FINAL if line[29:34] == name and line[38] != "2")
    new = line
    for key, text in texts.items():
        new = coded.at(new, coded.LEG[key], text)
    return [new if record == line else record for record in coded.KHWD]


@pytest.mark.parametrize(("code", "first", "second", "expected", "kept"), [
    ("+", "03900", "     ", (3900, "at or above", None), ""),
    ("-", "03900", "     ", (3900, "at or below", None), ""),
    (" ", "03900", "     ", (3900, "at", None), ""),
    ("X", "03900", "03950", (3900, "at", 3950), ""),
    ("Y", "03900", "03850", (3900, "at or below", 3850), ""),
    ("@", "03900", "     ", (3900, "at", None), ""),
    ("G", "03900", "03850", (3900, "at", None), ""),
    ("J", "03900", "03850", (3900, "at or above", None), ""),
    ("B", "05000", "03900", (3900, "at or above", None), ""),
    ("C", "     ", "03900", (3900, "at or above", None), ""),
    ("+", "FL180", "     ", (None, None, None), ""),
    ("B", "FL180", "05000", (None, None, None), "altitude coded as B FL180 05000"),
    ("Q", "03900", "     ", (None, None, None), "altitude coded as Q 03900"),
    ("+", "UNKNN", "     ", (None, None, None), "altitude coded as + UNKNN"),
    ("-", "-0012", "     ", (-12, "at or below", None), ""),
    ("+", "03900", "02000", (None, None, None), "altitude coded as + 03900 02000"),
])
def test_altitude_descriptions(code, first, second, expected, kept, tmp_path):
    imported = approach_of(with_leg("WESCH", altitude_is=code, altitude=first, altitude_2=second), tmp_path)
    fix = next(fix for fix in imported.chart.fixes if fix.name == "WESCH")
    assert (fix.altitude_ft, fix.altitude_rule, fix.path_altitude_ft) == expected
    assert [text for text in imported.chart.coded_legs if "012" in text] == ([f"R28L 012: {kept}"] if kept else [])


def leg_of(lines, name, folder):
    """One row of legs of the approach that these records make."""
    return next(leg for leg in approach_of(lines, folder).database.legs if leg.name == name)


@pytest.mark.parametrize(("code", "first", "second", "expected"), [
    ("B", "05000", "03900", ("between", 3900, 5000, None, None, False)),
    ("+", "FL180", "     ", ("at or above", 18000, None, None, None, True)),
    ("B", "FL200", "FL180", ("between", 18000, 20000, None, None, True)),
    ("J", "03900", "03850", ("at or above", 3900, None, None, 3850, False)),
    ("H", "03900", "03850", ("at or above", 3900, None, None, 3850, False)),
    ("I", "03900", "03850", ("at", 3900, None, None, 3850, False)),
    ("Y", "03900", "03850", ("at or below", 3900, None, 3850, None, False)),
])
def test_row_altitudes(code, first, second, expected, tmp_path):
    leg = leg_of(with_leg("WESCH", altitude_is=code, altitude=first, altitude_2=second), "012", tmp_path)
    assert (leg.altitude_rule, leg.altitude_ft, leg.highest_ft, leg.path_altitude_ft, leg.glide_slope_altitude_ft,
            leg.flight_levels) == expected


@pytest.mark.parametrize(("sign", "rule"), [(" ", None), ("-", "at or below"), ("+", "at or above"), ("@", "at")])
def test_speed_limit_keeps_sign(sign, rule, tmp_path):
    leg = leg_of(with_leg("WESCH", speed="210", speed_is=sign), "012", tmp_path)
    assert (leg.speed_kt, leg.speed_rule) == (210, rule)


def test_unknown_speed_sign_reported(tmp_path):
    imported = approach_of(with_leg("WESCH", speed="210", speed_is="7"), tmp_path)
    assert "R28L 012: speed limit description 7, unknown" in imported.chart.coded_legs


def test_arc_becomes_fix_and_row(tmp_path):
    lines = with_leg("OKIVY", terminator="RF", radius="004500", theta="2741", centre="WESCH", centre_region="K2",
                     centre_section="PC", turn="L")
    imported = approach_of(lines, tmp_path)
    assert next(fix for fix in imported.chart.fixes if fix.name == "OKIVY").leg_course_deg is None
    leg = next(leg for leg in imported.database.legs if leg.name == "011")
    assert (leg.radius_nm, leg.centre, leg.turn, leg.inbound_course_deg, leg.course_deg) == (
        4.5, "WESCH", "left", 274.1, 285.1)
    assert leg.centre_latitude_deg == pytest.approx(37.5554139, abs=1e-7)
    assert "coded-arc 011" in {f.name() for f in crosscheck(imported) if f.grade == "stop"}


@pytest.mark.parametrize("terminator", ["AF", "FC", "FD", "PI", "VM", "CI", "CD", "FM"])
def test_every_standard_path_terminator_read(terminator, tmp_path):
    imported = approach_of(with_leg("OKIVY", terminator=terminator, navaid="OAK", theta="1800", rho="0120"), tmp_path)
    leg = next(leg for leg in imported.database.legs if leg.name == "011")
    assert (leg.terminator, leg.course_deg, leg.navaid, leg.navaid_bearing_deg, leg.navaid_distance_nm) == (
        terminator, 285.1, "OAK", 180.0, 12.0)
    assert not any("not supported" in text for text in imported.chart.coded_legs)


def test_unknown_path_terminator_kept_and_reported(tmp_path):
    lines = with_leg("OKIVY", terminator="ZZ")
    result = approach_of(lines, tmp_path)
    assert "R28L 011: path terminator ZZ, not supported" in result.chart.coded_legs
    after = next(fix for fix in result.chart.fixes if fix.name == "WESCH")
    assert after.leg_course_deg is None
    summary = imported(lines, tmp_path)
    assert "not understood, kept as text: KHWD R28L 011: path terminator ZZ, not supported" in report_text(summary)
    assert [done.name for done in summary.partly] == ["R28L"]


def test_reserved_column_content_reported(tmp_path):
    lines = [coded.at(line, 81, "XY") if line[26:34] == "012WESCH" else line for line in coded.KHWD]
    assert "R28L 012: columns 81-82 (reserved) holds XY, not supported" in approach_of(lines, tmp_path).chart.coded_legs


def test_unsupported_final_path_terminator_refused(tmp_path):
    summary = imported(with_leg("BOGRE", terminator="AF"), tmp_path)
    [refused] = summary.refused
    assert (refused.airport, refused.name) == ("KHWD", "R28L")
    assert refused.faults[0].allowed == "a final segment of straight legs to fixes"
    assert (list(tmp_path.iterdir()), summary.exit_code) == ([], 2)


def test_path_point_of_other_level_stops_crosscheck(tmp_path):
    lines = [line.replace("LPV       ALNAV/VNAV", "LP        ALNAV/VNAV") for line in coded.KHWD]
    assert {f.key for f in crosscheck(approach_of(lines, tmp_path)) if f.grade == "stop"} == {"level-of-service"}


def test_procedure_letter_in_title_and_name(tmp_path):
    lines = [line.replace("R28L  ", "R28LY ") for line in coded.KHWD]
    result = approach_of(lines, tmp_path)
    assert (result.slug, result.identity.title) == ("khwd-rnav-28l-y", "RNAV (GPS) Y RWY 28L")
    summary = imported(coded.KHWD, tmp_path, rule="EASA")
    assert written(summary) == [("khwd-rnp-28l", WRITTEN)]


# Which approaches, and what is told


def test_lp_imported_on_request(tmp_path):
    lines = [line.replace("LPV       40330", "LP        40330") for line in coded.KHWD]
    summary = imported(lines, tmp_path)
    assert [(each.name, each.level) for each in summary.not_asked] == [("R28L", "LP")]
    assert summary.exit_code == 2
    assert "KHWD R28L: not asked for: LP" in report_text(summary)
    assert written(imported(lines, tmp_path, levels=importer.SBAS)) == [("khwd-rnav-28l", WRITTEN)]
    named = imported(lines, tmp_path / "named", airport="KHWD", approach="R28L")
    assert written(named) == [("khwd-rnav-28l", WRITTEN)]


def test_out_of_scope_named_with_reason(tmp_path):
    without = [line for line in coded.KHWD if line not in coded.POINTS]
    summary = imported(without, tmp_path)
    reason = ("RNAV: no path point, so no SBAS final approach segment; authorizes LPV, LNAV/VNAV, LNAV")
    assert [(each.name, each.reason) for each in summary.out_of_scope] == [("R28L", reason)]
    assert (summary.exit_code, f"KHWD R28L: out of scope: {reason}" in report_text(summary)) == (1, True)
    assert "1 out of scope: RNAV: no path point, so no SBAS final approach segment" in report_text(summary)
    assert [each.name for each in imported(coded.KHWD, tmp_path, airport="KHWD", approach="R10R").not_asked] == ["R28L"]


def test_every_record_counted(tmp_path):
    others = [*coded.KHWD, coded.record(coded.POINT, section="HC", ident="PAD"), "x", ""]
    summary = imported(others, tmp_path)
    assert dict(summary.counts) == {
        "lines": 1 + len(coded.KHWD) + 3, "header lines": 1, "records": len(coded.KHWD) + 1,
        "lines that are not records": 1, "empty lines": 1}
    assert sum(summary.kinds.values()) == summary.counts["records"]
    assert summary.kinds["PF"] == 17
    assert "The header announces 380497 records: this is a part of a file." in report_text(summary)
    assert "7 records with more in waypoint, columns 99-123 (name), not carried over" in report_text(summary)


def test_many_airports_in_one_file(tmp_path):
    lines = [line for number in range(6) for line in coded.invented(number)]
    assert len(imported(lines, tmp_path).done) == 6
    assert {approach.read(path).identity.airport for path in tmp_path.glob("*.toml")} == {
        "ZZAA", "ZZAB", "ZZAC", "ZZAD", "ZZAE", "ZZAF"}
    assert written(imported(lines, tmp_path / "one", airport="ZZAC")) == [("zzac-rnav-28l", WRITTEN)]


# Files


def test_second_run_leaves_unchanged_files(tmp_path):
    imported(coded.KHWD, tmp_path)
    path = tmp_path / "khwd-rnav-28l.toml"
    before = path.read_bytes()
    path.write_bytes(before + b"# filled in\n")
    summary = imported(coded.KHWD, tmp_path)
    assert written(summary) == [("khwd-rnav-28l", SAME)]
    assert path.read_bytes() == before + b"# filled in\n"
    assert summary.exit_code == 0


def test_changed_records_never_replace_edited_files(tmp_path):
    path = tmp_path / "khwd-rnav-28l.toml"
    higher = with_leg("SUDGE", altitude="03300")
    imported(coded.KHWD, tmp_path)
    assert untouched(path.read_text())
    assert written(imported(higher, tmp_path)) == [("khwd-rnav-28l", REPLACED)]
    assert approach.read(path).pfaf.altitude_ft == 3300
    edited = path.read_text().replace('"notes",\n', "").replace("coded_legs", 'notes = ["Read."]\ncoded_legs')
    path.write_text(edited)
    assert not untouched(edited)
    summary = imported(coded.KHWD, tmp_path)
    assert (written(summary), summary.exit_code) == ([("khwd-rnav-28l", ASIDE)], 1)
    assert path.read_text() == edited
    assert approach.read(tmp_path / "changed" / path.name).pfaf.altitude_ft == 3200
    assert [approach.slug for approach in approach.read_all(tmp_path)] == ["khwd-rnav-28l"]


def test_handwritten_file_not_replaced(tmp_path):
    path = tmp_path / "khwd-rnav-28l.toml"
    path.write_text("# ours\n")
    assert written(imported(coded.KHWD, tmp_path)) == [("khwd-rnav-28l", ASIDE)]
    assert path.read_text() == "# ours\n"
    assert not untouched("# ours\n")


def test_killed_run_leaves_no_partial_file(tmp_path, monkeypatch):
    def killed(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr(Path, "replace", killed)
    with pytest.raises(KeyboardInterrupt):
        imported(coded.KHWD, tmp_path)
    assert list(tmp_path.glob("*.toml")) == []
    monkeypatch.undo()
    assert written(imported(coded.KHWD, tmp_path)) == [("khwd-rnav-28l", WRITTEN)]
    assert [path.name for path in tmp_path.iterdir()] == ["khwd-rnav-28l.toml"]


def test_empty_file_rewritten(tmp_path):
    (tmp_path / "khwd-rnav-28l.toml").write_bytes(b"\0" * 99)
    assert written(imported(coded.KHWD, tmp_path)) == [("khwd-rnav-28l", WRITTEN)]


def test_importer_pieces(tmp_path):
    source = Source(io.BytesIO(coded.as_file(coded.KHWD)), "cycle.txt")
    [airport] = source.airports()
    assert [(each.name, each.level, each.reason) for each in approaches(airport, source.name)] == [("R28L", "LPV", "")]
    draft = build(airport, "R28L", source, "2003", "FAA")
    text = text_of(draft, source.name)
    assert re.search(r"^# Records: [0-9a-f]{16}; text: [0-9a-f]{16}$", text, re.M)
    assert put(tmp_path, draft, source.name) == WRITTEN
    assert (tmp_path / f"{draft.slug}.toml").read_text("utf-8") == text
    assert toml_text({"a": 'say "x"', "b": [1, 2], "c": {"d": True}}) == (
        'a = "say \\"x\\""\nb = [\n  1,\n  2,\n]\n\n[c]\nd = true\n')


# The next cycle

NEXT = coded.HEADER.replace("2003", "2004")
LATER = ("2004", "2020-03-26", "2020-04-23")


def renumbered(lines, by):
    """The records with other running numbers in their file, as every cycle has them."""
    return [coded.at(line, coded.LEG["number"], f"{int(line[123:128]) + by:05d}") for line in lines]


def next_cycle(lines, folder, header=NEXT, **order):
    return run(io.BytesIO(coded.as_file(renumbered(lines, 37), header=header)), "next.txt", Order(folder, **order))


@pytest.fixture
def edited(tmp_path):
    """A file of cycle 2003 with minima from the chart and a comment."""
    imported(coded.KHWD, tmp_path)
    path = tmp_path / "khwd-rnav-28l.toml"
    text = path.read_text("utf-8").replace('  "minima",\n', "").replace("[database]\n", (
        '# Read with the chart, both of us.\n[[chart.minima]]\nline = "LPV"\nkind = "DA"\ncategories = "ABCD"\n'
        'altitude_ft = 300\n\n[database] # the aircraft\n'))
    text = text.replace('cycle = "2003"\neff', 'cycle = "2003"  # ours\neff')
    path.write_text(text, "utf-8")
    assert not untouched(text)
    return path


def test_edited_file_with_only_new_cycle_reported(edited):
    before = edited.read_bytes()
    summary = next_cycle(coded.KHWD, edited.parent)
    assert (written(summary), summary.exit_code) == ([("khwd-rnav-28l", CYCLE_NEW)], 0)
    assert "khwd-rnav-28l: records unchanged; cycle, effective and expires are new\n" in report_text(summary)
    assert "1 files with nothing new but the cycle: --advance writes it into them." in report_text(summary)
    assert [path.name for path in edited.parent.iterdir()] == [edited.name]
    assert edited.read_bytes() == before


def test_new_cycle_alone_written_into_edited_file(edited):
    lines = edited.read_text("utf-8").splitlines()
    assert written(next_cycle(coded.KHWD, edited.parent, advance=True)) == [("khwd-rnav-28l", ADVANCED)]
    after = edited.read_text("utf-8").splitlines()
    changed = [(old, new) for old, new in zip(lines, after, strict=True) if old != new]
    assert changed[1:] == [
        ('cycle = "2003"  # ours', 'cycle = "2004"  # ours'),
        ("effective = 2020-02-27", "effective = 2020-03-26"), ("expires = 2020-03-26", "expires = 2020-04-23")]
    assert [line[:11] for line in changed[0]] == ["# Records: "] * 2
    assert changed[0][0][27:] == changed[0][1][27:]
    merged = approach.read(edited)
    assert (merged.database.cycle, str(merged.database.effective), str(merged.database.expires)) == LATER
    assert (merged.identity.cycle, merged.chart.minima[0].altitude_ft) == ("2003", 300)
    assert [path.name for path in edited.parent.iterdir()] == [edited.name]
    assert any("cycle" in finding.name() for finding in crosscheck(merged) if finding.grade in ("stop", "resolve"))


def test_later_runs_continue_from_updated_cycle(edited):
    next_cycle(coded.KHWD, edited.parent, advance=True)
    there = edited.read_bytes()
    assert written(next_cycle(coded.KHWD, edited.parent, advance=True)) == [("khwd-rnav-28l", SAME)]
    assert edited.read_bytes() == there
    after = coded.HEADER.replace("2003", "2005")
    assert written(next_cycle(coded.KHWD, edited.parent, header=after, advance=True)) == [("khwd-rnav-28l", ADVANCED)]
    assert approach.read(edited).database.cycle == "2005"


def test_run_killed_while_writing_cycle_changes_nothing(edited, monkeypatch):
    def killed(*_):
        raise KeyboardInterrupt

    before = edited.read_bytes()
    monkeypatch.setattr("lpv.files.outside.os.fsync", killed)
    with pytest.raises(KeyboardInterrupt):
        next_cycle(coded.KHWD, edited.parent, advance=True)
    assert edited.read_bytes() == before
    monkeypatch.undo()
    assert written(next_cycle(coded.KHWD, edited.parent, advance=True)) == [("khwd-rnav-28l", ADVANCED)]
    assert [path.name for path in edited.parent.iterdir()] == [edited.name]


def test_changed_records_always_put_aside(edited):
    before = edited.read_bytes()
    summary = next_cycle(with_leg("SUDGE", altitude="03300"), edited.parent, advance=True)
    assert (written(summary), summary.exit_code) == ([("khwd-rnav-28l", ASIDE)], 1)
    assert edited.read_bytes() == before
    assert approach.read(edited.parent / "changed" / edited.name).database.cycle == "2004"


def test_moved_fix_elsewhere_counts_as_change(tmp_path):
    path = tmp_path / "khwd-rnav-28l.toml"
    imported([*fix_records(), *coded.KHWD], tmp_path)
    path.write_text(path.read_text("utf-8") + "# read\n", "utf-8")
    moved = [line.replace("N33000000", "N33000100") for line in fix_records()]
    assert written(next_cycle([*fix_records(), *coded.KHWD], tmp_path)) == [("khwd-rnav-28l", CYCLE_NEW)]
    assert written(next_cycle([*moved, *coded.KHWD], tmp_path)) == [("khwd-rnav-28l", ASIDE)]


@pytest.mark.parametrize(("old", "new"), [
    ('cycle = "2003"  # ours', "cycle = '2003'"), ('cycle = "2003"  # ours', 'cycle = "2002"'),
    ('cycle = "2003"  # ours', 'cycle = "next"'), ('cycle = "2003"  # ours', "cycle = 2003"),
    ('cycle = "2003"  # ours', ""), ('cycle = "2003"  # ours', '"cycle" = "2003"'),
    ("effective = 2020-02-27", "effective = 2020-02-28"), ("expires = 2020-03-26", "expires = 2020-03-26T00:00:00"),
    ("[database] # the aircraft", "[ database ]"), ("[database] # the aircraft", "[database"),
    ("# Records: ", "# Record: "), ("Compare every", "Compare\n\nevery"),
])
def test_cycle_edited_by_hand_put_aside(old, new, edited):
    text = edited.read_text("utf-8")
    assert text.count(old) == 1
    edited.write_text(text.replace(old, new), "utf-8")
    before = edited.read_bytes()
    assert written(next_cycle(coded.KHWD, edited.parent, advance=True)) == [("khwd-rnav-28l", ASIDE)]
    assert edited.read_bytes() == before


def test_earlier_cycle_never_written_into_edited_file(edited):
    earlier = coded.HEADER.replace("2003", "2002")
    lines = [coded.at(line, coded.LEG["cycle"], "2001") for line in coded.KHWD]
    imported(lines, edited.parent / "other")
    there = edited.parent / "other" / edited.name
    there.write_text(there.read_text("utf-8") + "# read\n", "utf-8")
    assert written(next_cycle(lines, there.parent, header=earlier, advance=True)) == [("khwd-rnav-28l", ASIDE)]


def test_no_cycle_written_when_leg_may_be_missing(edited):
    legs = [number for number, line in enumerate(coded.KHWD) if line[12] == "F"]
    lines = [coded.at(line, coded.LEG["number"], f"{10800 + 2 * number:05d}") if number in legs else line
             for number, line in enumerate(coded.KHWD)]
    summary = next_cycle(lines, edited.parent, advance=True)
    assert (written(summary), summary.exit_code) == ([("khwd-rnav-28l", ASIDE)], 1)
    assert summary.gaps


def test_mark_depends_on_cycle_and_records_only(tmp_path):
    marks = set()
    for lines in (coded.KHWD, renumbered(coded.KHWD, 41), [*fix_records(), *coded.KHWD]):
        source = Source(io.BytesIO(coded.as_file(lines)), "cycle.txt")
        draft = next(build(airport, "R28L", source, "2003", "FAA") for airport in source.airports())
        marks |= {draft.mark("2003"), draft.mark("2004")}
    assert len(marks) == 4


def test_cycle_line_not_confused_with_other_tables():
    lines = ["[database]", 'cycle = "2003"', "effective = 2020-02-27", "expires = 2020-03-26", "[[database.fix]]",
             'cycle = "2003"', ""]
    text = "\n".join(lines)
    assert cycle_of(text) == "2003"
    assert advanced(text, "2003", "2004") == "\n".join(
        [lines[0], 'cycle = "2004"', "effective = 2020-03-26", "expires = 2020-04-23", *lines[4:]])
    assert advanced(text, "2003", "2003") is None
    in_a_text = "\n".join(['[other]\nnote = """', *lines[:4], '"""', text])
    assert cycle_of(in_a_text) == "2003"
    assert advanced(in_a_text, "2003", "2004") is advanced(text, "2002", "2004") is None
    assert cycle_of("database = 1") is cycle_of("[database") is cycle_of("") is None


def test_line_endings_preserved(edited):
    before = edited.read_bytes().replace(b"\n", b"\r\n")
    edited.write_bytes(before)
    assert written(next_cycle(coded.KHWD, edited.parent, advance=True)) == [("khwd-rnav-28l", ADVANCED)]
    after = edited.read_bytes()
    assert (after.count(b"\r\n"), after.count(b"\n")) == (before.count(b"\n"), before.count(b"\n"))
    assert approach.read(edited).database.cycle == "2004"


def test_non_text_bytes_put_aside(edited):
    edited.write_bytes(edited.read_bytes() + b"# \xff\n")
    assert written(next_cycle(coded.KHWD, edited.parent, advance=True)) == [("khwd-rnav-28l", ASIDE)]


# The command


def test_import_command(tmp_path, capsys):
    file, out = tmp_path / "cycle.txt", tmp_path / "out"
    file.write_bytes(coded.as_file(coded.KHWD))
    asked = [str(file), "--airport", "KHWD", "--approach", "R28L", "--out", str(out)]
    assert importer.main(asked) == 0
    printed = capsys.readouterr()
    assert "khwd-rnav-28l: written" in printed.out
    assert "1 of 1 approaches are there; 1 of them in part" in printed.out
    assert "written or already there" in printed.err
    assert importer.main([str(file), "--all-lpv", "--out", str(out), "--quiet"]) == 0
    printed = capsys.readouterr()
    assert ("khwd-rnav-28l: unchanged" in printed.out, printed.err) == (True, "")
    assert importer.main([*asked[:4], "R10L", *asked[5:]]) == 2
    assert "KHWD R10L is not in the file. There: R28L." in capsys.readouterr().err
    assert importer.main([str(file), "--airport", "khwd", "--approach", "r28l", "--out", str(out)]) == 0
    assert importer.main([str(file), "--airport", "ZZZZ", "--approach", "R28L", "--out", str(out)]) == 2
    assert "ZZZZ R28L is not in the file. There: none with LPV or LP at this airport." in capsys.readouterr().err
    assert importer.main([str(tmp_path / "none"), "--all-lpv", "--out", str(out)]) == 2
    assert "no such file" in capsys.readouterr().err
    assert importer.main([str(file), "--all-lpv", "--out", str(out), "--cycle", "2019"]) == 2
    assert "cycle number 2019" in capsys.readouterr().err
    with pytest.raises(SystemExit) as stopped:
        importer.main([str(file), "--approach", "R28L", "--out", str(out)])
    assert stopped.value.code == 2


def test_few_texts_named_individually():
    """Twenty by name; of more there is only their number."""
    few = {f"T{number}": 1 for number in range(20)}
    assert _texts(few) == ": " + ", ".join(few)
    assert _texts({**few, "T20": 1}) == ""
