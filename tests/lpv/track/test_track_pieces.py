"""Single pieces of the debrief of a recording: scales, columns, endings, guards, rows."""

import pytest

from flight_files import files, flown
from lpv.core.errors import DataError
from lpv.core.units import FT_PER_NM
from lpv.path import deviation, sbas_scale
from lpv.track import form as track_own
from lpv.track import held as track_held
from lpv.track.analysis import analyse, nothing_near
from lpv.track.readers import ending_of, kind_of, layout_of, read_csv
from lpv.track.records import Faults
from lpv.track.report import key_of, moment_row, talk_rows
from lpv.track.trackpoints import guard
from track_cases import asked
from track_files import csv_of

WIDTH_FT, GARP_FT, PFAF_NM = 350.0, 10_000.0, 6.0


@pytest.mark.parametrize("distance_nm", [0.0, 3.0, 6.0, 9.0])
def test_the_course_scale_is_that_of_the_deviation_module(distance_nm):
    on_vectors = sbas_scale.course_full_scale_ft(distance_nm, PFAF_NM, WIDTH_FT, GARP_FT, True)
    joined = sbas_scale.course_full_scale_ft(distance_nm, PFAF_NM, WIDTH_FT, GARP_FT, False)
    assert on_vectors == deviation.vectors_full_scale_ft(distance_nm, WIDTH_FT, GARP_FT)
    assert joined == deviation.procedure_full_scale_ft(distance_nm, PFAF_NM, WIDTH_FT, GARP_FT)
    assert joined >= on_vectors


def test_at_the_garp_and_behind_it_the_course_scale_is_that_at_the_garp():
    at = sbas_scale.course_full_scale_ft(-GARP_FT / FT_PER_NM, PFAF_NM, WIDTH_FT, GARP_FT, True)
    behind = sbas_scale.course_full_scale_ft(-50.0, PFAF_NM, WIDTH_FT, GARP_FT, True)
    assert behind == at == WIDTH_FT  # it stops narrowing at the threshold


@pytest.mark.parametrize(("name", "ending"), [
    ("a.csv", ".csv"), ("A.B.GPX", ".gpx"), ("none", ""), (".csv", ""), ("a.", ""), ("", ""),
])
def test_the_ending_of_a_name(name, ending):
    assert ending_of(name) == ending


def test_the_kind_of_a_file_asks_for_what_must_be_stated():
    assert kind_of("a.csv", "") == ".csv"
    for name, altitude in (("a.csv", "msl"), ("a.gpx", ""), ("a.txt", "")):
        with pytest.raises(DataError) as error:
            kind_of(name, altitude)
        assert len(error.value.faults) == 1


@pytest.mark.parametrize(("text", "line"), [("<gpx>\n<!ENTITY a 'b'>", 2), ("<!DOCTYPE x>", 1)])
def test_a_document_type_is_named_with_its_line(text, line):
    with pytest.raises(DataError) as error:
        guard(text, "a.gpx")
    assert error.value.faults[0].key == f"line {line}"


def test_plain_gpx_passes_the_guard():
    assert guard("<gpx><trk></trk></gpx>", "a.gpx") is None


def test_the_columns_of_a_header_in_any_order():
    names = ["altitude_msl_ft", "longitude_deg", "time_s", "latitude_deg", "remark"]
    found = layout_of(names, 1, Faults("a.csv"))
    assert (found.time, found.time_at, found.position_at, found.width) == ("time_s", 2, (3, 1), 5)


def test_every_fault_of_a_header_comes_at_once():
    with pytest.raises(DataError) as error:
        layout_of(["latitude_deg", "x", "x"], 3, Faults("a.csv"))
    assert [fault.found for fault in error.value.faults] == [
        "no time", "no longitude_deg", "no altitude", "'x' twice"]
    assert {fault.key for fault in error.value.faults} == {"line 3, header"}


def test_a_long_name_keeps_its_ending_and_a_hidden_sign_is_shown():
    shown = track_own.shown_name("n" * 10_000 + ".csv")
    assert len(shown) == track_own.LONGEST_NAME
    assert shown.startswith("nnn")
    assert shown.endswith("n.csv")
    assert "\u202e" not in track_own.shown_name("a\u202egpx.csv")
    assert track_own.shown_name("a.csv") == "a.csv"


@pytest.fixture(scope="module")
def told():
    """The debrief of a normal flight, with its approach."""
    _, approach, aircraft = files("normal")
    text = csv_of(flown("normal").samples, approach)
    return analyse(read_csv(text, "a.csv"), track_held.against(approach), track_held.by(aircraft))


def test_rows_of_moments(told):
    rows = [moment_row(one, told.flown.points[0].time_s) for one in told.moments]
    assert all(len(row) == 7 and row[0] == "moment" for row in rows)
    assert {row[1] for row in rows} <= {"✓", "✕", ""}
    assert all(row[6] == key_of(one) for row, one in zip(rows, told.moments, strict=True))
    distances = [float(row[2].removesuffix(" NM").replace("\u2212", "-")) for row in rows]
    assert distances[0] > distances[-1]


def test_what_to_talk_about_is_what_was_wrong(told):
    wrong = [one for one in told.moments if one.good is False]
    rows = talk_rows(told)
    assert len(rows) == max(1, len(wrong))
    assert [row[2] for row in rows] == ([one.what for one in wrong] or ["Nothing that a recording tells was wrong."])


def test_a_recording_of_elsewhere_says_how_near_it_came(told):
    near = nothing_near(told.recording, [told.flown.points[0]])
    assert near.faults[0].found.startswith(f"nothing nearer than {told.flown.points[0].along_nm:.1f} NM before")
    assert nothing_near(told.recording, []).faults[0].found.startswith("no sample within ")


def test_what_is_being_done_is_said():
    _, approach, _ = files("normal")
    answer = track_own.begin(*asked("a.csv", csv_of(flown("normal").samples, approach).encode(), approach))
    assert answer == track_own.job_line(track_own.JOBS[0])
    assert answer.startswith("working\t")
    track_own.JOBS.clear()
