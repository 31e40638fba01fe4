"""Approaches as they are published today: courses and lengths blank, several transitions, LP, what is out of scope.

Values: FAA, Coded Instrument Flight Procedures, cycles 2609 (KBTV) and 2004 (KBUR).
"""

import io
import json
from pathlib import Path

import pytest

import coded_current as current
import coded_records as coded
from lpv.approach import record as approach
from lpv.approach.schema import TO_BE_FILLED
from lpv.arinc import importer
from lpv.arinc.approach import build
from lpv.arinc.flown import arc_nm, straight
from lpv.arinc.importer import SBAS, Order, run
from lpv.arinc.listing import listed
from lpv.arinc.reader import Source
from lpv.arinc.summary import report_text
from lpv.crosscheck.check import crosscheck
from lpv_site.briefing.briefing import build_briefing_page
from lpv_site.briefing.coded import computed, legs, mark

NAVAIDS = [coded.navaid("VTU", "N34065430", "W119025840", cycle="2003")]  # position rounded, from memory


def imported(lines, folder, header, **order):
    """What a run on these records did."""
    data = coded.as_file(lines, header=header)
    return run(io.BytesIO(data), "cycle.txt", Order(Path(folder), **{"levels": SBAS, **order}))


@pytest.fixture(scope="module")
def kbtv(tmp_path_factory):
    folder = tmp_path_factory.mktemp("kbtv")
    summary = imported(current.KBTV, folder, current.HEADER_2609)
    assert (summary.exit_code, summary.partly) == (0, [])
    return approach.read(folder / "kbtv-rnav-01.toml")


@pytest.fixture(scope="module")
def kbur_summary(tmp_path_factory):
    folder = tmp_path_factory.mktemp("kbur")
    summary = imported([*NAVAIDS, *current.KBUR], folder, "", cycle="2004")
    return summary, approach.read(folder / "kbur-rnav-08-z.toml")


@pytest.fixture(scope="module")
def kbur(kbur_summary):
    return kbur_summary[1]


# KBTV RNAV (GPS) RWY 01: the legs carry no course and no length


def test_blank_fields_computed_and_marked(kbtv):
    chart = kbtv.chart
    assert (chart.course_deg, chart.course_computed, chart.course_reference, chart.variation_deg) == (
        6.4, True, "magnetic", -15.0)
    assert [(fix.name, fix.role, fix.also, fix.leg_course_deg, fix.leg_distance_nm, fix.leg_computed)
            for fix in chart.fixes] == [
        ("JENAX", "IAF", (), None, None, ()), ("FOBUX", "IF", ("IAF",), 96.3, 7.0, ("course", "distance")),
        ("CESAL", "PFAF", (), 6.5, 7.8, ("course", "distance")),
        ("OBRIE", "step-down", (), 6.4, 2.6, ("course", "distance")),
        ("RW01", "MAP", (), 6.4, 2.2, ("course", "distance")), ("JRVIS", "missed hold", (), None, None, ())]


def test_nothing_computed_on_database_side(kbtv):
    assert kbtv.database.course_deg is None
    assert {(fix.course_deg, fix.distance_nm) for fix in kbtv.database.fixes} == {(None, None)}
    rows = {leg.name: leg for leg in kbtv.database.legs}
    assert (rows["020"].course_deg, rows["020"].course_computed, rows["020"].distance_computed) == (6.5, True, True)
    assert (rows["040"].course_deg, rows["040"].course_computed) == (6.4, False)
    assert (rows["FOBUX 010"].course_deg, rows["FOBUX 010"].course_computed) == (6.5, False)


def test_chart_side_of_kbtv(kbtv):
    chart, who = kbtv.chart, kbtv.identity
    assert (who.title, who.level_of_service, who.channel, who.path_id, who.cycle) == (
        "RNAV (GPS) RWY 01", "LPV", 58044, "W01A", "2609")
    assert (chart.glidepath_deg, chart.tch_ft) == (4, 30)
    assert (chart.threshold_elevation_ft, chart.runway_length_ft) == (333, 4112)
    assert chart.coded_legs == ()
    assert set(chart.to_be_filled) == set(TO_BE_FILLED) - {"missed"}
    assert [(sector.centre, sector.altitude_ft) for sector in chart.msa] == [("BTV", 4900), ("BTV", 5900)]
    assert kbtv.database.lines == ("LPV", "LNAV")


def test_safe_altitudes_taken_by_airport_and_reported(tmp_path):
    text = report_text(imported(current.KBTV, tmp_path, current.HEADER_2609))
    assert "Minimum safe altitudes: about BTV K6 D: the airport's only ones; the approach names no center." in text
    assert "Final course 006.4 computed: 351.4 true by the segment less the airport's variation of record W15.0" in text


def test_runway_taken_from_own_record(kbtv):
    runway = kbtv.runway
    assert (runway.length_ft, runway.displaced_threshold_ft, runway.threshold_elevation_ft) == (4112, 225, 333)
    assert (runway.threshold_latitude_deg, runway.threshold_longitude_deg) == pytest.approx(
        (kbtv.segment.ltp_latitude_deg, kbtv.segment.ltp_longitude_deg), abs=2e-6)
    assert runway.bearing_true_deg == pytest.approx(kbtv.true_course_deg, abs=0.1)
    assert "bearing from both thresholds" in runway.source


def test_crosscheck_never_compares_value_with_itself(kbtv):
    findings = {finding.name(): finding for finding in crosscheck(kbtv)}
    for name in ("course", "leg FOBUX", "leg CESAL", "leg OBRIE", "leg RW01"):
        assert findings[name].grade == "not compared", name
    missed = findings["missed-course 040"]
    assert (missed.grade, missed.database, missed.computed) == ("ok", "006.4°", "006.4° by the segment")
    assert "coded-legs" not in {finding.key for finding in crosscheck(kbtv)}


def test_page_marks_computed_values(kbtv):
    page = build_briefing_page(kbtv)
    for words in ("006° magnetic (computed, not read from the chart)", "7.8*", "Marked \\*: computed from positions",
                  "computed, the chart not read", "FOBUX<br>IF, IAF", "inbound 006.5°"):
        assert words in page, words
    assert "Coded, and not understood" not in page
    assert (mark(True), mark(False), computed(kbtv.chart) != "") == ("*", "", True)
    assert legs(kbtv).count("<tr>") == 1 + len(kbtv.database.legs)


# KBUR RNAV (GPS) Z RWY 08: LP, a missed approach point before the threshold, a fix with two roles


def test_lp_approach_with_map_before_threshold(kbur):
    who, chart = kbur.identity, kbur.chart
    assert (who.title, who.level_of_service, who.channel, who.path_id) == ("RNAV (GPS) Z RWY 08", "LP", 53638, "W08A")
    assert [(fix.name, fix.role, fix.also) for fix in chart.fixes] == [
        ("VTU", "IAF", ("missed hold",)), ("SILEX", "IF", ("IAF",)), ("BUBNE", "PFAF", ()), ("HIMEN", "MAP", ()),
        ("COTSI", "missed", ())]
    assert (chart.course_deg, chart.course_computed, chart.tch_ft, chart.glidepath_deg) == (78.9, False, 60, 3)
    assert (chart.fixes[3].path_altitude_ft, chart.fixes[3].leg_course_deg, chart.fixes[3].leg_distance_nm) == (
        1201, 78.9, 5.7)
    assert chart.fixes[0].serves("missed hold")
    assert not chart.fixes[2].serves("missed", "missed hold")
    assert [sector.altitude_ft for sector in chart.msa] == [9500]
    assert chart.coded_legs == ("position of MIKEI is not in the file: MIKEI 010 (K2 EA)",
                                "position of TOAKS is not in the file: VTU 020 (K2 EA)")
    assert [f.name() for f in crosscheck(kbur) if f.grade == "stop"] == []


def test_out_of_scope_at_kbur(kbur_summary):
    summary = kbur_summary[0]
    assert {(each.name, each.reason) for each in summary.out_of_scope} == {
        ("H08-Y", "RNP: no path point, so no SBAS final approach segment; authorizes RNP 0.3, RNP 0.2"),
        ("RNV-A", "RNAV, circling only: no path point, so no SBAS final approach segment")}
    assert [(done.name, done.level, done.what) for done in summary.done] == [("R08-Z", "LP", "written")]
    assert summary.exit_code == 0


# Coded against computed, over every leg that codes both


def rows_of(lines, name):
    """The rows of legs of one approach, by transition and sequence number."""
    source = Source(io.BytesIO(coded.as_file(lines)), "cycle.txt")
    [airport] = source.airports()
    rows = build(airport, name, source, "2004", "FAA").tables["database"]["leg"]
    return {(row.get("transition", ""), row["sequence"]): row for row in rows}


@pytest.mark.parametrize(("lines", "name", "count"), [
    ([*NAVAIDS, *current.KBUR], "R08-Z", 3), (coded.KHWD, "R28L", 7)], ids=["KBUR", "KHWD"])
def test_coded_courses_and_lengths_match_positions(lines, name, count):
    """Within 0.1 degree and 0.1 NM, the last figure that records code."""
    blank = [coded.at(line, 71, " " * 8) if line[12] == "F" and line[47:49] == "TF" else line for line in lines]
    printed, computed_rows = rows_of(lines, name), rows_of(blank, name)
    both = [(printed[key], row) for key, row in computed_rows.items() if row.get("course_computed")]
    assert len(both) == count
    for as_coded, as_computed in both:
        assert as_computed["distance_computed"]
        assert as_computed["course_deg"] == pytest.approx(as_coded["course_deg"], abs=0.101), as_coded
        assert as_computed["distance_nm"] == pytest.approx(as_coded["distance_nm"], abs=0.101), as_coded


# Listed, whatever kind


@pytest.fixture
def kbur_file(tmp_path):
    path = tmp_path / "kbur.txt"
    path.write_bytes(coded.as_file([*NAVAIDS, *current.KBUR], header=""))
    return str(path)


def test_every_approach_listed_leg_by_leg(kbur_file, capsys):
    assert importer.main([kbur_file, "--airport", "KBUR", "--list"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert [line for line in lines if not line.startswith(" ")] == [
        "KBUR H08-Y: RNP: no path point, so no SBAS final approach segment; authorizes RNP 0.3, RNP 0.2",
        "KBUR R08-Z: LP", "KBUR RNV-A: RNAV, circling only: no path point, so no SBAS final approach segment"]
    for words in (
        "  WABBT 030 TF: track to ZEMEP, course 164.4 (computed), 3.0 NM (computed), at or above 4200 ft, "
        "speed at or below 210 kt; RNP 1",
        "  WABBT 040 RF: turn left, arc to HIMVI, course 106.2, 2.8 NM, radius 2.740 NM about CFCDJ, "
        "at or above 3400 ft; RNP 1",
        "  030 TF: track to IGAXY, course 124.1, 7.4 NM, at 2320 ft; RNP 0.3",
    ):
        assert words in lines, words


def test_arcs_match_positions(kbur_file):
    """Radius and coded length of both arcs of H08-Y against fixes and centres."""
    with open(kbur_file, "rb") as stream:
        [(_, legs_flown, why)] = listed(Source(stream, "kbur.txt", "KBUR"), "H08-Y")
    arcs = [leg for leg in legs_flown if leg.leg.terminator == "RF"]
    assert (why, len(arcs)) == ("", 2)
    before = next(leg for leg in legs_flown if leg.leg.fix == "ZEMEP")
    assert before.course.is_computed
    assert before.course.value == pytest.approx(int(arcs[0].leg.theta) / 10, abs=0.1)  # the course into the arc, coded
    for leg in arcs:
        assert straight(leg.centre, leg.place).distance_nm == pytest.approx(int(leg.leg.radius) / 1000, abs=0.01)
        assert straight(leg.centre, leg.begins).distance_nm == pytest.approx(int(leg.leg.radius) / 1000, abs=0.01)
        assert arc_nm(leg.begins, leg.place, leg.centre, right=False) == pytest.approx(leg.length.value, abs=0.06)


def test_listing_as_json_with_omissions(kbur_file, capsys):
    assert importer.main([kbur_file, "--airport", "KBUR", "--approach", "H08-Y", "--list", "--json"]) == 0
    [listing] = json.loads(capsys.readouterr().out)
    assert (listing["name"], len(listing["legs"]), listing["legs"][5]["speed_rule"]) == ("H08-Y", 15, "at or below")
    assert importer.main([kbur_file, "--airport", "KBTV", "--list"]) == 2
    for arguments in (["--list"], ["--airport", "KBUR"], ["--all-lpv", "--list"]):
        with pytest.raises(SystemExit):
            importer.main([kbur_file, *arguments])
