"""A recording told on the phone: figures handed over exactly, what is refused, and the same text as the command's."""

import gzip

import pytest
from hypothesis import given
from hypothesis import strategies as st

from flight_files import files, flown
from lpv.core.errors import DomainError
from lpv.track import command as track
from lpv.track import files as track_reader
from lpv.track import form as track_own
from lpv.track import held as track_held
from lpv.track import report as track_text
from lpv.track.data import against_of, against_texts, by_of, by_texts, figure_of, whole_text
from lpv.track.form import FIELDS, HINTS, Entered
from lpv.track.plot import MOST_POINTS, few
from lpv.track.points import Point
from track_cases import asked, demo, entered, of_approach, of_type, simulated, told_here
from track_files import csv_of

HEADER = "time_s,latitude_deg,longitude_deg,altitude_msl_ft\n"


def of_kind(answer, kind):
    rows = [line.split("\t") for line in answer.split("\n")]
    return [row[1:] for row in rows if row[0] == kind]


def text_of(answer):
    return "\n".join("\t".join(row) for row in of_kind(answer, "text"))


def to_ak(name="a.csv", data=b"", **values):
    return asked(name, data, files("normal")[1], files("normal")[2], **values)


# Figures


@given(st.floats(1e-20, 1e9) | st.floats(-1e9, -1e-20) | st.just(0.0))
def test_every_figure_is_handed_over_exactly(value):
    assert figure_of(whole_text(value)) == value


@pytest.mark.parametrize("text", ["", "1/0", "1/" + "9" * 400, "1/", "/2", "x/2", "1/2/3", "--1/2", "1e5", "nan"])
def test_what_is_no_figure(text):
    with pytest.raises(DomainError):
        figure_of(text)


@pytest.mark.parametrize("name", ["normal", "cold-uncorrected", "armed-late"])
def test_an_approach_and_a_type_come_back_as_they_were(name):
    _, approach, aircraft = files(name)
    to, back = track_held.against(approach), against_of(of_approach(approach))
    assert against_texts(back) == against_texts(to)
    assert (vars(back.final), back.minima, back.cold_c) == (vars(to.final), to.minima, to.cold_c)
    assert (back.airport, back.title, back.level, back.airport_ft, back.floor_from_ft) == (
        to.airport, to.title, to.level, to.airport_ft, to.floor_from_ft)
    by, again = track_held.by(aircraft), by_of(of_type(aircraft))
    assert by_texts(again) == by_texts(by)
    assert [vars(gate) for gate in again.gates] == [vars(gate) for gate in by.gates]
    assert (again.name, again.category, again.lowest_da_ft) == (by.name, by.category, by.lowest_da_ft)


@pytest.mark.parametrize("missing", ["slug", "airport", "threshold_ft", "final gpa_deg", "best_level"])
def test_lines_that_lack_something_are_refused(missing):
    lines = [line for line in of_approach(files("normal")[1]).split("\n") if line.split("\t")[0] != missing]
    with pytest.raises(DomainError, match=missing.split(" ")[-1] if "gpa" not in missing else "gpa_deg"):
        against_of("\n".join(lines))


# Entries


def test_entries_are_the_options_of_the_command():
    found = Entered(entered(temperature_c="\u221212,5", setting="29.92", altimeter_unit="inHg", number="2",
                            minimum_ft="450", joined="vectors", altitude="msl"))
    assert not found.errors
    given = found.given
    assert (given.temperature_c, given.number, given.minimum_ft, given.joined) == (-12.5, 2, 450.0, "vectors")
    assert given.qnh_hpa == pytest.approx(1013.2, abs=0.05)
    assert found.altitude == "msl"
    empty = Entered(entered()).given
    assert (empty.temperature_c, empty.qnh_hpa, empty.minimum_ft, empty.number) == (None, None, None, None)
    assert set(HINTS) <= {field.key for field in FIELDS}


@pytest.mark.parametrize(("key", "text"), [
    ("temperature_c", "99"), ("temperature_c", "warm"), ("setting", "29.92"), ("number", "0"), ("number", "1.5"),
    ("minimum_ft", "x" * 10_000), ("joined", "somehow"), ("altitude", "<b>"), ("altimeter_unit", "mm"),
])
def test_entries_that_cannot_be_used(key, text):
    answer = track_own.check("x", entered(**{key: text}))
    assert key in [row[0] for row in of_kind(answer, "error")]
    assert all(len(row[1]) < 200 for row in of_kind(answer, "error"))


def test_without_an_approach_or_a_file_nothing_is_read():
    assert of_kind(track_own.check("", entered()), "error") == [["approach", "Choose an approach."]]
    assert "Choose a file" in of_kind(told_here(to_ak(name="")), "sentence")[0][0]
    assert "No file" in of_kind(track_own.step(), "sentence")[0][0]
    assert "No file" in of_kind(track_own.points("seg"), "sentence")[0][0]


# The same as the command


@pytest.mark.parametrize("case", [case for case in demo() if case[0].endswith(".csv")], ids=lambda case: case[0])
def test_demo_recordings_give_the_text_of_the_command(case):
    name, data, to, by, values = case
    recording = track_reader.read_bytes(data, name, values.get("altitude", ""))
    expected = track.analyse(recording, to, by, Entered(entered(**values)).given)
    answer = told_here(asked(name, data, to, by, **values))
    assert text_of(answer) == track_text.told(expected)
    assert len(of_kind(answer, "moment")) == len(expected.moments)
    wrong = [one for one in expected.moments if one.good is False]
    assert [row[1] for row in of_kind(answer, "talk")] == (
        [one.what for one in wrong] or ["Nothing that a recording tells was wrong."])
    assert len(of_kind(answer, "gate")) == len(expected.gates)
    assert len(of_kind(answer, "remark")) == len(expected.remarks)


def test_simulated_recordings_give_the_text_of_the_command():
    for name, data, to, by, values in simulated():
        expected = track.analyse(track_reader.read_bytes(data, name), to, by, Entered(entered(**values)).given)
        assert text_of(told_here(asked(name, data, to, by, **values))) == track_text.told(expected), name


def test_points_of_a_gpx_file_give_the_text_of_the_command():
    name, data, to, by, values = next(case for case in demo() if case[0].endswith(".gpx"))
    recording = track_reader.read_bytes(data, name, values["altitude"])
    rows = ["seg"]
    for line, row in enumerate(data.decode().split("\n"), 1):
        if "<trkpt" in row:
            cells = [row.partition(before)[2].partition(after)[0] for before, after in (
                ('lat="', '"'), ('lon="', '"'), ("<ele>", "<"), ("<time>", "<"))]
            rows.append("\t".join(["pt", str(line), *cells]))
    expected = track.analyse(recording, to, by, Entered(entered(**values)).given)
    assert text_of(told_here(asked(name, data, to, by, **values), "\n".join(rows))) == track_text.told(expected)


# Files that are not read


@pytest.mark.parametrize(("name", "data", "found"), [
    ("a.csv", gzip.compress(b"x" * 99, mtime=0), "a compressed file"),
    ("a.csv", b"\xff\xfe\x00a", "bytes that are no text"),
    ("a.csv", b"a\0b", "bytes that are no text"), ("a.txt", b"x", "the ending '.txt'"),
    ("a.gpx", b"<gpx/>", "altitude '' stated"), ("a.csv", b"\n" * 100_001, "more than 100000 lines"),
])
def test_what_is_refused_unread(name, data, found):
    answer = told_here(to_ak(name, data))
    assert of_kind(answer, "sentence") == [[track_own.REFUSED]]
    assert of_kind(answer, "fault")[0][1] == found


def test_too_large_and_too_many():
    arguments = to_ak("a.csv", b"time")
    arguments[4] = str(int(track_own.MOST_MB * 1e6) + 1)
    assert of_kind(told_here(arguments), "fault")[0][1] == "more than 5 MB"
    rows = HEADER + "".join(f"{n},34.5,-148.25,2000\n" for n in range(track_own.MOST_ROWS + 1))
    answer = told_here(to_ak("a.csv", rows.encode()))
    assert of_kind(answer, "fault")[0][:2] == [f"line {track_own.MOST_ROWS + 2}", f"over {track_own.MOST_ROWS} samples"]
    points = "\n".join(["pt\t1\t34.5\t-148.2\t\t2026-12-01T10:00:00Z"] * (track_own.MOST_ROWS + 9))
    answer = told_here(to_ak("a.gpx", b"<gpx/>", altitude="msl"), points)
    assert [row[1] for row in of_kind(answer, "fault")] == [f"more than {track_own.MOST_ROWS} points"]


@pytest.mark.parametrize(("points", "fault"), [
    ("xml\t6", ["line 6", "XML that cannot be parsed"]), ("xml\t", ["", "XML that cannot be parsed"]),
    ("root\tkml", ["", "the element 'kml'"]), ("deep", ["", "33 elements one in the other"]),
    ("pt\t4\t99\tx\t<b>\tnow\n", ["line 4, lat", "'99'"]), ("", ["", "0 track points"]),
    ("other\twpt\t3\nnonsense\npt\tx", ["", "0 track points"]),
])
def test_points_with_faults(points, fault):
    answer = told_here(to_ak("a.gpx", b"<gpx/>", altitude="msl"), points)
    assert of_kind(answer, "fault")[0][:2] == fault


def test_a_document_type_is_refused_before_anything_is_parsed():
    for sign in ("<!DOCTYPE", "<!ENTITY"):
        answer = told_here(to_ak("a.gpx", f"<gpx>\n{sign} x></gpx>".encode(), altitude="msl"))
        assert of_kind(answer, "fault")[0][:2] == ["line 2", f"{sign}..."]


@given(st.text(max_size=60), st.text(max_size=200))
def test_whatever_a_file_holds_a_line_of_the_answer_stays_one(name, text):
    answer = told_here(to_ak(f"{name}.csv", (HEADER + text).encode("utf-8", "replace")))
    kinds = {line.split("\t")[0] for line in answer.split("\n")}
    assert kinds <= {"sentence", "fault"}
    assert all(ord(sign) >= 32 or sign in "\t\n" for sign in answer)


def test_a_long_name_is_cut():
    answer = told_here(to_ak("n" * 10_000 + ".csv", b""))
    assert len(answer) < 2000


# Drawings


def test_drawings_are_within_their_panels_and_break_at_gaps():
    _, to, by = files("normal")
    data = csv_of([one for one in flown("normal").samples
                   if not 3.0 < one.along_nm < 4.0], to).encode()
    answer = told_here(asked("a.csv", data, to, by, temperature_c="15"))
    assert [row[0] for row in of_kind(answer, "panel")] == ["course", "path", "profile"]
    lines = [row[1] for row in of_kind(answer, "path") if row[0] == "line"]
    assert [line.count("M") for line in lines] == [2, 2, 2]
    for _, path in of_kind(answer, "path"):
        numbers = [int(word) for word in path.replace("l", "L").split() if word.lstrip("-").isdigit()]
        assert min(numbers) >= 0
        assert max(numbers) <= 3200


def test_few_points_keep_the_ends_and_every_part():
    points = [Point(float(n), n, 0 if n < 500 else 1, 10.0 - n / 100.0, 0.0, 0.0) for n in range(1000)]
    found = few(points)
    assert len(found) <= MOST_POINTS + 2
    assert found[0] is points[0]
    assert found[-1] is points[-1]
    assert points[500] in found
    assert few([]) == []
