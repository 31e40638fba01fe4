"""Single pieces of the debrief of a recording: scales, columns, endings, guards, rows."""

import pytest

from changed import changed
from flight_files import files, flown
from lpv.core.errors import DataError
from lpv.core.text import feet, number
from lpv.core.units import FT_PER_NM
from lpv.figures import replay
from lpv.path import deviation, sbas_scale
from lpv.track import form as track_own
from lpv.track.analysis import analyse, minimum_not_passed, nothing_near
from lpv.track.moments import highest_sink, passed_fix
from lpv.track.readers import ending_of, kind_of, read_text
from lpv.track.records import Conditions, Faults
from lpv.track.report import comparison_text, key_of, moment_row, name_of, page_lines, text
from lpv.track.tables import layout_of
from lpv.track.target import Target
from lpv.track.verdicts import Comparison
from lpv.track.xml_tracks import guard
from track_cases import asked
from track_files import csv_of

WIDTH_FT, GARP_FT, PFAF_NM = 350.0, 10_000.0, 6.0


@pytest.mark.parametrize("distance_nm", [0.0, 3.0, 6.0, 9.0])
def test_course_scale_matches_deviation_module(distance_nm):
    on_vectors = sbas_scale.course_full_scale_ft(distance_nm, PFAF_NM, WIDTH_FT, GARP_FT, True)
    joined = sbas_scale.course_full_scale_ft(distance_nm, PFAF_NM, WIDTH_FT, GARP_FT, False)
    assert on_vectors == deviation.vectors_full_scale_ft(distance_nm, WIDTH_FT, GARP_FT)
    assert joined == deviation.procedure_full_scale_ft(distance_nm, PFAF_NM, WIDTH_FT, GARP_FT)
    assert joined >= on_vectors


def test_course_scale_constant_at_and_behind_garp():
    at = sbas_scale.course_full_scale_ft(-GARP_FT / FT_PER_NM, PFAF_NM, WIDTH_FT, GARP_FT, True)
    behind = sbas_scale.course_full_scale_ft(-50.0, PFAF_NM, WIDTH_FT, GARP_FT, True)
    assert behind == at == WIDTH_FT  # it stops narrowing at the threshold


@pytest.mark.parametrize(("name", "ending"), [
    ("a.csv", ".csv"), ("A.B.GPX", ".gpx"), ("none", ""), (".csv", ""), ("a.", ""), ("", ""),
])
def test_name_ending(name, ending):
    assert ending_of(name) == ending


def test_file_kind_asks_for_required_statements():
    assert kind_of("a.csv", "") == ".csv"
    for name, altitude in (("a.csv", "msl"), ("a.gpx", ""), ("a.doc", ""), ("a.igc", "msl"), ("a.kml", "")):
        with pytest.raises(DataError) as error:
            kind_of(name, altitude)
        assert len(error.value.faults) == 1


@pytest.mark.parametrize(("text", "line"), [("<gpx>\n<!ENTITY a 'b'>", 2), ("<!DOCTYPE x>", 1)])
def test_document_type_named_with_line(text, line):
    with pytest.raises(DataError) as error:
        guard(text, "a.gpx")
    assert error.value.faults[0].key == f"line {line}"


def test_plain_gpx_passes_guard():
    assert guard("<gpx><trk></trk></gpx>", "a.gpx") is None


def test_header_columns_in_any_order():
    names = ["altitude_msl_ft", "longitude_deg", "time_s", "latitude_deg", "remark"]
    layout = layout_of(names, 1, Faults("a.csv"))
    assert (layout.time, layout.time_at, layout.position_at, layout.width) == ("time_s", 2, (3, 1), 5)


def test_all_header_faults_reported_together():
    with pytest.raises(DataError) as error:
        layout_of(["latitude_deg", "x", "x"], 3, Faults("a.csv"))
    assert [fault.found for fault in error.value.faults] == [
        "no time", "no longitude_deg", "no altitude", "'x' twice"]
    assert {fault.key for fault in error.value.faults} == {"line 3, header"}


def test_long_name_keeps_ending_and_hidden_sign_shown():
    shown = track_own.shown_name("n" * 10_000 + ".csv")
    assert len(shown) == track_own.LONGEST_NAME
    assert shown.startswith("nnn")
    assert shown.endswith("n.csv")
    assert "\u202e" not in track_own.shown_name("a\u202egpx.csv")
    assert track_own.shown_name("a.csv") == "a.csv"


@pytest.fixture(scope="module")
def debrief():
    """The debrief of a normal flight, with its approach."""
    _, approach, aircraft = files("normal")
    text = csv_of(flown("normal").samples, approach)
    return analyse(read_text(text, "a.csv"), Target(approach, aircraft))


def test_moment_rows(debrief):
    rows = [moment_row(moment, debrief.flown.points[0].time_s) for moment in debrief.moments]
    assert all(len(row) == 7 and row[0] == "moment" for row in rows)
    assert {row[1] for row in rows} <= {"✓", "✕", "≈", "○", ""}
    assert all(row[6] == key_of(moment) for row, moment in zip(rows, debrief.moments, strict=True))
    distances = [float(row[2].removesuffix("\u202fNM").replace("\u2212", "-")) for row in rows]
    assert distances[0] > distances[-1]


def test_recording_elsewhere_states_nearest_distance(debrief):
    near = nothing_near(debrief.recording, [debrief.flown.points[0]])
    assert near.faults[0].found.startswith(f"nothing nearer than {debrief.flown.points[0].along_nm:.1f}\u202fNM before")
    assert nothing_near(debrief.recording, []).faults[0].found.startswith("no sample within ")


def test_progress_reported():
    _, approach, _ = files("normal")
    answer = track_own.begin(*asked("a.csv", csv_of(flown("normal").samples, approach).encode(), approach))
    assert answer == track_own.job_line(track_own.JOBS[0])
    assert answer.startswith("working\t")
    track_own.JOBS.clear()


def test_names_in_verdict_line(debrief):
    names = {moment.key: name_of(moment) for moment in debrief.moments}
    assert names["gate"] == "Gate ALAR (visual conditions)"
    assert names["sink"] == "rate of descent"
    assert names["PFAF"] == "FAF"


def test_minimum_reached_needs_no_remark(debrief):
    assert minimum_not_passed(debrief.flown) == []


def test_fix_passed_between_samples_not_at_ends(debrief):
    pfaf = debrief.flown.target.pfaf
    at = passed_fix(debrief.flown, pfaf)
    assert abs(at.along_nm - pfaf.along_nm) < 0.03
    first = debrief.flown.points[0]
    at_the_end = changed(pfaf, along_nm=first.along_nm + 0.5, across_nm=first.across_ft / FT_PER_NM)
    assert passed_fix(debrief.flown, at_the_end) is None
    assert passed_fix(debrief.flown, changed(pfaf, along_nm=40.0)) is None


def test_line_target(debrief):
    _, approach, aircraft = files("normal")
    lines = asked("a.csv", b"", approach, aircraft)[:2]
    target = track_own.target_of(*lines, Conditions(level="LNAV", joined="vectors"))
    assert (target.level, target.on_vectors, target.slug) == ("LNAV", True, "zzak-rnav-09")


def test_comparison_on_one_line():
    row = Comparison("rate of descent", "ft/min", 1046.0, 170.0, None, 1000.0)
    assert comparison_text(row) == "rate of descent 1046 ± 170\u202fft/min, at most 1000\u202fft/min: too close to say"
    row.reason = "altitudes in doubt"
    assert comparison_text(row).endswith("not judged (altitudes in doubt)")


def test_highest_rate_of_samples(debrief):
    rows = [point for point in debrief.flown.coming_in if point.sink_fpm is not None]
    moment = highest_sink(debrief.flown, rows, "sink", "anywhere")[0]
    assert moment.compared[0].value == max(row.sink_fpm for row in rows)
    assert highest_sink(debrief.flown, [], "sink", "anywhere") == []


def test_terminal_lines_in_columns(debrief):
    """A mark; time, distance and altitude, each at the right of its column; then what happened."""
    lines = [line for line in text(debrief).split("\n") if line[1:2] == " " and line[5:6] == ":"]
    assert len(lines) == len(debrief.moments)
    for line, moment in zip(lines, debrief.moments, strict=True):
        assert line[16:24].strip() == ("" if moment.at.indicated_ft is None else feet(moment.at.indicated_ft))
        assert line[9:15].strip() == number(moment.at.along_nm, 0.1)
        assert line[26:].startswith(moment.what)


def test_page_lines_have_each_kind(debrief):
    kinds = [line.split("\t")[0] for line in page_lines(debrief).split("\n")]
    assert kinds[:2] == ["sentence", "verdicts"]
    assert set(kinds) >= {"about", "unsure", "altimeter", "moment", "item", "missing", "panel", "path", "text"}
    assert kinds.count("moment") == len(debrief.moments)
    assert kinds.count("flight") == 1


def test_replayed_flight_is_recorded_one(debrief):
    (row,) = [line.split("\t") for line in page_lines(debrief).split("\n") if line.startswith("flight\t")]
    of, points = replay.read(row[1]), debrief.flown.points
    assert of.end_s <= int(row[2]) < of.end_s + 1.0
    events = [moment.what.replace(";", ",") for moment in debrief.moments]
    assert [words for _, words in of.events] == events
    for point in points[::25]:
        here = of.at(point.time_s - points[0].time_s)
        assert here.altitude_ft == pytest.approx(point.indicated_ft, abs=60.0)
        assert here.along_nm == pytest.approx(point.along_nm, abs=0.05)
    assert of.rows() == []
