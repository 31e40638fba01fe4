"""A recording told on the phone: figures handed over exactly, what is refused, and the same text as the command's."""

import gzip
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from flight_files import files, flown
from lpv.track import command as track
from lpv.track import files as track_reader
from lpv.track import form as track_own
from lpv.track import report
from lpv.track.form import FIELDS, HINTS, Entries
from lpv.track.plot import MAX_POINTS, few
from lpv.track.points import Point
from track_cases import asked, demo, entered, judged_here, simulated
from track_files import csv_of

HEADER = "time_s,latitude_deg,longitude_deg,altitude_msl_ft\n"


def of_kind(answer, kind):
    rows = [line.split("\t") for line in answer.split("\n")]
    return [row[1:] for row in rows if row[0] == kind]


def text_of(answer):
    return "\n".join("\t".join(row) for row in of_kind(answer, "text"))


def to_ak(name="a.csv", data=b"", **values):
    return asked(name, data, files("normal")[1], files("normal")[2], **values)


# Records


@pytest.mark.parametrize("lines", ["", "record\t", "record\t[1]", "record\tno json"])
def test_lines_without_record_refused(lines):
    arguments = to_ak("a.csv", b"x")
    arguments[0] = lines or "airport\tZZAK"
    assert "Load the page again" in of_kind(judged_here(arguments), "sentence")[0][0]


# Entries


def test_entries_match_command_options():
    entries = Entries(entered(temperature_c="\u221212,5", setting="29.92", altimeter_unit="inHg", number="2",
                            minimum_ft="450", joined="vectors", altitude="msl"))
    assert not entries.errors
    given = entries.given
    assert (given.temperature_c, given.number, given.minimum_ft, given.joined) == (-12.5, 2, 450.0, "vectors")
    assert given.qnh_hpa == pytest.approx(1013.2, abs=0.05)
    assert entries.altitude == "msl"
    empty = Entries(entered()).given
    assert (empty.temperature_c, empty.qnh_hpa, empty.minimum_ft, empty.number) == (None, None, None, None)
    assert set(HINTS) <= {field.key for field in FIELDS}


@pytest.mark.parametrize(("key", "text"), [
    ("temperature_c", "99"), ("temperature_c", "warm"), ("setting", "29.92"), ("number", "0"), ("number", "1.5"),
    ("minimum_ft", "x" * 10_000), ("joined", "somehow"), ("altitude", "<b>"), ("altimeter_unit", "mm"),
])
def test_unusable_entries(key, text):
    answer = track_own.check("x", entered(**{key: text}))
    assert key in [row[0] for row in of_kind(answer, "error")]
    assert all(len(row[1]) < 200 for row in of_kind(answer, "error"))


def test_nothing_read_without_approach_or_file():
    assert of_kind(track_own.check("", entered()), "error") == [["approach", "Choose an approach."]]
    assert "Choose a file" in of_kind(judged_here(to_ak(name="")), "sentence")[0][0]
    assert "No file" in of_kind(track_own.step(), "sentence")[0][0]


# The same as the command


@pytest.mark.parametrize("case", [case for case in demo() if case[0].endswith(".csv")], ids=lambda case: case[0])
def test_demo_recordings_give_command_text(case):
    name, data, to, by, values = case
    recording = track_reader.read_bytes(data, name, values.get("altitude", ""))
    expected = track.analyse(recording, to, by, Entries(entered(**values)).given)
    answer = judged_here(asked(name, data, to, by, **values))
    assert text_of(answer) == report.text(expected)
    assert len(of_kind(answer, "moment")) == len(expected.moments)
    assert of_kind(answer, "verdicts") == [[report.verdict_line(expected)]]
    assert len(of_kind(answer, "item")) == sum(
        row.verdict != "within" for moment in expected.moments for row in moment.compared)
    assert len(of_kind(answer, "remark")) == len(expected.remarks)


def test_simulated_recordings_give_command_text():
    for name, data, to, by, values in simulated():
        expected = track.analyse(track_reader.read_bytes(data, name), to, by, Entries(entered(**values)).given)
        assert text_of(judged_here(asked(name, data, to, by, **values))) == report.text(expected), name


def test_gpx_file_gives_command_text():
    name, data, to, by, values = next(case for case in demo() if case[0].endswith(".gpx"))
    recording = track_reader.read_bytes(data, name, values["altitude"])
    expected = track.analyse(recording, to, by, Entries(entered(**values)).given)
    assert text_of(judged_here(asked(name, data, to, by, **values))) == report.text(expected)


def test_assigned_columns_give_same_text():
    _, to, by = files("normal")
    plain = csv_of(flown("normal").samples, to)
    foreign = "exported by something\n" + plain.replace(
        "time_s,latitude_deg,longitude_deg,altitude_ellipsoid_m", "Elapsed,Lat,Lon,Height").replace(",", ";")
    columns = json.dumps({"time_s": "Elapsed", "latitude_deg": "Lat", "longitude_deg": "Lon",
                          "altitude_ellipsoid_m": "Height"})
    same = [text_of(judged_here(asked("a.csv", text.encode(), to, by, given, temperature_c="15")))
            for text, given in ((plain, ""), (foreign, columns))]
    assert same[0] == same[1]
    assert "approach" in same[0].lower()


def test_columns_offered_under_other_names():
    known = track_own.columns("a.csv", HEADER + "1,2,3,4\n")
    assert known == "known"
    offered = track_own.columns("a.csv", "Date & time;Lat;Lng;GPS altitude\n2026;1;2;3\n").split("\n")
    assert offered[:4] == ["column\tDate & time", "column\tLat", "column\tLng", "column\tGPS altitude"]
    assert "guess\tlatitude_deg\tLat" in offered
    assert "guess\tlongitude_deg\tLng" in offered
    assert track_own.columns("a.gpx", "<gpx/>") == track_own.columns("a.json", "{") == ""
    assert track_own.columns_of("a.json", '[{"t": 1, "lat": 2}]') == ["lat", "t"]


# Files that are not read


@pytest.mark.parametrize(("name", "data", "message"), [
    ("a.csv", gzip.compress(b"x" * 99, mtime=0), "a compressed file"),
    ("a.csv", b"\xff\xfe\x00a", "bytes that are not text"),
    ("a.csv", b"a\0b", "bytes that are not text"), ("a.doc", b"x", "the ending '.doc'"),
    ("a.gpx", b"<gpx/>", "altitude '' stated"), ("a.csv", b"\n" * 100_001, "more than 100000 lines"),
])
def test_refused_unread(name, data, message):
    answer = judged_here(to_ak(name, data))
    assert of_kind(answer, "sentence") == [[track_own.REFUSED]]
    assert of_kind(answer, "fault")[0][1] == message


def test_too_large_and_too_many():
    arguments = to_ak("a.csv", b"time")
    arguments[5] = str(int(track_own.MAX_MB * 1e6) + 1)
    assert of_kind(judged_here(arguments), "fault")[0][1] == "more than 5\u202fMB"
    rows = HEADER + "".join(f"{n},34.5,-148.25,2000\n" for n in range(track_own.MAX_ROWS + 1))
    answer = judged_here(to_ak("a.csv", rows.encode()))
    assert of_kind(answer, "fault")[0][:2] == [f"line {track_own.MAX_ROWS + 2}", f"over {track_own.MAX_ROWS} samples"]
    point = '<trkpt lat="34.5" lon="-148.2"><time>2026-12-01T10:00:00Z</time></trkpt>'
    answer = judged_here(to_ak("a.gpx", f"<gpx>{point * (track_own.MAX_ROWS + 9)}</gpx>".encode(), altitude="msl"))
    assert [row[1] for row in of_kind(answer, "fault")] == [f"more than {track_own.MAX_ROWS} points"]


def test_document_type_refused_before_parsing():
    for sign in ("<!DOCTYPE", "<!ENTITY"):
        answer = judged_here(to_ak("a.gpx", f"<gpx>\n{sign} x></gpx>".encode(), altitude="msl"))
        assert of_kind(answer, "fault")[0][:2] == ["line 2", f"{sign}..."]


@given(st.text(max_size=60), st.text(max_size=200))
def test_answer_lines_stay_single_for_any_file(name, text):
    answer = judged_here(to_ak(f"{name}.csv", (HEADER + text).encode("utf-8", "replace")))
    kinds = {line.split("\t")[0] for line in answer.split("\n")}
    assert kinds <= {"sentence", "fault"}
    assert all(ord(sign) >= 32 or sign in "\t\n" for sign in answer)


def test_long_name_cut():
    answer = judged_here(to_ak("n" * 10_000 + ".csv", b""))
    assert len(answer) < 2000


# Drawings


def test_drawings_within_panels_and_break_at_gaps():
    _, to, by = files("normal")
    data = csv_of([sample for sample in flown("normal").samples
                   if not 3.0 < sample.along_nm < 4.0], to).encode()
    answer = judged_here(asked("a.csv", data, to, by, temperature_c="15"))
    assert [row[0] for row in of_kind(answer, "panel")] == ["course", "path", "profile"]
    lines = [row[1] for row in of_kind(answer, "path") if row[0] == "line"]
    assert [line.count("M") for line in lines] == [2, 2, 2]
    for _, path in of_kind(answer, "path"):
        numbers = [int(word) for word in path.replace("l", "L").split() if word.lstrip("-").isdigit()]
        assert min(numbers) >= 0
        assert max(numbers) <= 3200


def test_few_points_keep_ends_and_every_part():
    points = [Point(float(n), n, 0 if n < 500 else 1, 10.0 - n / 100.0, 0.0, 0.0) for n in range(1000)]
    kept = few(points)
    assert len(kept) <= MAX_POINTS + 2
    assert kept[0] is points[0]
    assert kept[-1] is points[-1]
    assert points[500] in kept
    assert few([]) == []
