"""Recorded flights from files: what is read, and every way in which a file can be bad, within bounds."""

import gzip
import io
import random
import time
import tracemalloc
import zipfile
from datetime import UTC, datetime

import gpxpy
import gpxpy.gpx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from demo import flights as make_flights
from lpv.core.errors import DataError
from lpv.core.units import M_PER_FT
from lpv.track import gpx_reader as track_gpx
from lpv.track import readers as track_csv
from lpv.track.files import MOST_BYTES, read, read_bytes
from lpv.track.gpx_reader import read_gpx
from lpv.track.readers import ALTITUDES, LONGEST_LINE, no_text, read_csv, too_large, utc_s
from lpv.track.records import MOST_FAULTS, Faults, Recording, refuse

GOOD = "time_s,latitude_deg,longitude_deg,altitude_msl_ft\n0,34.5,-148.25,2000\n1,34.501,-148.25,1990\n"
POINT = '<trkpt lat="34.5" lon="-148.25"><ele>600</ele><time>2026-12-01T10:00:0{}Z</time></trkpt>'
GPX = f'<?xml version="1.0"?>\n<gpx>\n<trk><trkseg>\n{POINT.format(0)}\n{POINT.format(1)}\n</trkseg></trk>\n</gpx>\n'
BOMB = ('<?xml version="1.0"?>\n<!DOCTYPE gpx [\n<!ENTITY a "' + "a" * 100 + '">\n'
        + "".join(f'<!ENTITY {chr(98 + n)} "{f"&{chr(97 + n)};" * 10}">\n' for n in range(12)) + "]>\n<gpx>&m;</gpx>")


def faults(text, name="flight.csv", altitude=""):
    """(place, what was found) of every fault."""
    data = text if isinstance(text, bytes) else text.encode()
    with pytest.raises(DataError) as caught:
        read_bytes(data, name, altitude)
    assert all(fault.file == name and fault.allowed and fault.action for fault in caught.value.faults)
    return [(fault.key, fault.found) for fault in caught.value.faults]


# CSV


def test_a_good_file_is_read_as_it_stands():
    found = read_bytes(GOOD.encode(), "flight.csv")
    assert (found.geometric, found.barometric, found.decimals, found.remarks) == ("msl", "", 3, ())
    second = found.readings[1]
    assert (second.line, second.time_s, second.latitude_deg, second.geometric_ft) == (3, 1.0, 34.501, 1990.0)
    assert second.barometric_ft is None


def test_spaces_byte_order_mark_line_ends_comments_and_quotes_are_no_faults():
    text = "\ufeff# from somewhere\r\n\r\n" + GOOD.replace(",", " , ").replace("2000", '"2000"').replace("\n", "\r\n")
    assert read_csv(text.lstrip("\ufeff"), "a.csv").readings[0].geometric_ft == 2000.0
    assert read_bytes(text.encode(), "flight.csv").readings[0].line == 4


@pytest.mark.parametrize("column", ALTITUDES)
def test_every_altitude_column_is_read_in_its_unit(column):
    reference, factor = ALTITUDES[column]
    found = read_bytes(GOOD.replace("altitude_msl_ft", column).encode(), "flight.csv")
    assert reference in (found.geometric, found.barometric)
    got = found.readings[0]
    assert (got.geometric_ft or got.barometric_ft) == pytest.approx(2000.0 * factor)
    assert factor == pytest.approx(1.0 if column.endswith("_ft") else 1.0 / 0.3048)


def test_one_altitude_of_each_kind_and_empty_cells():
    text = "time_s,latitude_deg,longitude_deg,altitude_msl_m,altitude_indicated_ft\n0,1,2,300,\n1,1,2,,990\n"
    found = read_bytes(text.encode(), "flight.csv")
    assert (found.geometric, found.barometric) == ("msl", "indicated")
    assert [one.barometric_ft for one in found.readings] == [None, 990.0]
    assert [one.geometric_ft for one in found.readings] == [pytest.approx(300 / M_PER_FT), None]


def test_other_columns_are_named_not_read():
    found = read_bytes(GOOD.replace("_ft\n", "_ft,gear\n").replace("000\n", "000,down\n").replace(
        "990\n", "990,up\n").encode(), "flight.csv")
    assert [remark.what for remark in found.remarks] == ["Columns that are not read: 'gear'."]


def test_times_are_utc_or_have_an_offset():
    text = GOOD.replace("time_s", "time_utc").replace("\n0,", "\n2026-12-01T10:00:00Z,").replace(
        "\n1,", "\n2026-12-01T12:00:01.5+02:00,")
    found = read_bytes(text.encode(), "flight.csv").readings
    assert found[1].time_s - found[0].time_s == 1.5
    assert utc_s("2026-12-01T10:00:00Z", "line 1", Faults("a")) == datetime(2026, 12, 1, 10, tzinfo=UTC).timestamp()
    for bad in ("2026-12-01T10:00:00", "10:00", "", "9" * 50):
        collected = Faults("a")
        utc_s(bad, "line 1", collected)
        assert collected.count == 1, bad


def test_every_fault_is_told_with_its_line():
    text = GOOD + "2,34.5,-148.25\n3,91,-148.25,2000\n4,34.5,x,nan\n5,34.5,-148.25,1_000\n6,34.5,-148,70000\n7,34.5"
    assert faults(text) == [
        ("line 4", "3 cells"), ("line 5, latitude_deg", "'91'"), ("line 6, altitude", "'nan'"),
        ("line 6, longitude_deg", "'x'"), ("line 7, altitude", "'1_000'"), ("line 8, altitude", "'70000'"),
        ("line 9", "2 cells"),
    ]


@pytest.mark.parametrize(("header", "found"), [
    ("a,b", ["no time", "no latitude_deg", "no longitude_deg", "no altitude"]),
    ("time_s,time_utc,latitude_deg,longitude_deg,altitude_msl_ft", ["time_s time_utc"]),
    ("time_s,latitude_deg,longitude_deg,altitude_msl_ft,altitude_ellipsoid_m", ["two altitudes by GNSS"]),
    ("time_s,latitude_deg,longitude_deg,altitude_pressure_ft,altitude_indicated_m", ["two altitudes by an altimeter"]),
    ("time_s,latitude_deg,longitude_deg,altitude_msl_ft,x,x", ["'x' twice"]),
    ("time_s;latitude_deg;longitude_deg;altitude_msl_ft", ["semicolons between cells"]),
    ("time_s\tlatitude_deg\tlongitude_deg\taltitude_msl_ft", ["tabs between cells"]),
])
def test_a_header_that_is_not_clear(header, found):
    assert [what for _, what in faults(header + "\n1,2,3,4\n")] == found


def test_too_little_too_much_and_too_long(monkeypatch):
    assert faults("") == [("line 1, header", found) for found in (
        "no time", "no latitude_deg", "no longitude_deg", "no altitude")]
    assert faults(GOOD.splitlines()[0]) == [("", "0 samples")]
    assert faults(GOOD[: GOOD.index("1,34.501")]) == [("", "1 samples")]
    assert faults(GOOD + "x" * (LONGEST_LINE + 1)) == [("line 4", f"{LONGEST_LINE + 2 - 1} characters")]
    assert faults(GOOD + '2,"34.5,-148,0\n')[0][0] == "line 4"
    monkeypatch.setattr(track_csv, "MOST_ROWS", 500)
    many = GOOD.splitlines()[0] + "\n" + "1,34.5,-148.25,2000\n" * 505
    assert faults(many) == [("line 502", "over 500 samples")]


def test_the_first_faults_in_full_and_the_rest_counted():
    found = faults(GOOD + "x\n" * 1000)
    assert len(found) == MOST_FAULTS + 1
    assert found[-1] == ("", f"{1000 - MOST_FAULTS} more faults")


# Bytes


def test_other_encodings_are_named_line_by_line():
    assert faults(GOOD.encode() + "# B\xe9la\n".encode("latin-1") + b"ok\n\xff\n") == [
        ("line 4", "the byte 0xe9"), ("line 6", "the byte 0xff")]
    assert faults(GOOD.encode("utf-16")) == [("", "bytes that are no text")]


def test_the_faults_of_files_that_are_not_read_say_what_to_do():
    (fault,) = too_large("flight.csv", 2.5).faults
    assert str(fault) == "flight.csv: found more than 2.5 MB; allowed: at most 2.5 MB. Cut the approach out."
    (fault,) = no_text("flight.csv").faults
    assert str(fault) == "flight.csv: found bytes that are no text; allowed: UTF-8. Export the flight again, as UTF-8."


def test_compressed_files_are_refused_unopened():
    bomb = gzip.compress(b"0" * 10_000_000)
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("flight.gpx", b"0" * 10_000_000)
    for data in (bomb, held.getvalue()):
        for name, altitude in (("flight.csv", ""), ("flight.gpx", "msl")):
            assert faults(data, name, altitude) == [("", "a compressed file")]


def test_a_gigabyte_of_nothing_costs_no_more_than_the_limit(tmp_path):
    path = tmp_path / "flight.csv"
    with path.open("wb") as stream:
        stream.truncate(1_000_000_000)
    tracemalloc.start()
    begin = time.process_time()
    with pytest.raises(DataError, match="more than 32 MB"):
        read(path)
    assert tracemalloc.get_traced_memory()[1] < 3 * MOST_BYTES
    tracemalloc.stop()
    assert time.process_time() - begin < 5.0


def test_noise_ends_in_faults_soon():
    noise = random.Random(8).randbytes(2_000_000).replace(b"\0", b"1")
    for name, altitude in (("flight.csv", ""), ("flight.gpx", "ellipsoid")):
        begin = time.process_time()
        assert len(faults(noise, name, altitude)) == MOST_FAULTS + 1
        assert time.process_time() - begin < 5.0
    letters = "".join(random.Random(9).choices("0123456789,.-\n", k=1_000_000))
    assert len(faults(GOOD + letters)) == MOST_FAULTS + 1


@given(st.binary(max_size=300), st.sampled_from(["flight.csv", "flight.gpx"]))
@settings(max_examples=150)
def test_any_bytes_give_a_recording_or_faults(data, name):
    for whole in (data, GOOD.encode() + data, GPX.encode()[:90] + data):
        try:
            found = read_bytes(whole, name, "" if name.endswith("csv") else "msl")
        except DataError as error:
            assert error.faults  # noqa: PT017
        else:
            assert isinstance(found, Recording)


def test_names_and_statements(tmp_path):
    assert faults(GOOD, "flight.txt") == [("", "the ending '.txt'")]
    assert faults(GOOD, "flight.csv", "msl") == [("", "altitude 'msl' stated")]
    assert faults(GPX, "flight.gpx") == [("", "altitude '' stated")]
    with pytest.raises(DataError, match="a file that can be read"):
        read(tmp_path / "none.csv")
    assert str(refuse("a", "b", "c", "d")) == "a: found b; allowed: c. d"


# GPX


def test_a_gpx_file_is_read_with_lines_parts_and_reference():
    two = GPX.replace("</trkseg></trk>", f"</trkseg><trkseg>{POINT.format(5)}</trkseg></trk>")
    found = read_bytes(two.encode(), "flight.gpx", "ellipsoid")
    assert (found.geometric, found.barometric, found.decimals) == ("ellipsoid", "", 2)
    assert [(one.line, one.begins) for one in found.readings] == [(4, False), (5, False), (6, True)]
    assert found.readings[0].geometric_ft == pytest.approx(600 / M_PER_FT)
    by_altimeter = read_gpx(GPX, "flight.gpx", "indicated")
    assert (by_altimeter.geometric, by_altimeter.barometric) == ("", "indicated")
    assert by_altimeter.readings[0].barometric_ft == pytest.approx(600 / M_PER_FT)


def test_an_independent_library_reads_the_same_from_the_demo():
    text = (make_flights.FOLDER / "patchy.gpx").read_text("utf-8")
    ours = read_gpx(text, "patchy.gpx", "msl").readings
    theirs = [point for track in gpxpy.parse(text).tracks for part in track.segments for point in part.points]
    assert len(ours) == len(theirs) > 300
    for mine, other in zip(ours, theirs, strict=True):
        assert (mine.latitude_deg, mine.longitude_deg) == (other.latitude, other.longitude)
        assert mine.geometric_ft == pytest.approx(other.elevation / M_PER_FT, rel=1e-12)
        assert mine.time_s == other.time.timestamp()


@given(st.lists(st.tuples(
    st.floats(-90, 90), st.floats(-180, 180), st.none() | st.floats(-500, 15000), st.integers(0, 10**9),
), min_size=2, max_size=5))
@settings(max_examples=40)
def test_what_an_independent_library_writes_is_read_as_meant(rows):
    made = gpxpy.gpx.GPX()
    made.tracks.append(gpxpy.gpx.GPXTrack())
    made.tracks[0].segments.append(gpxpy.gpx.GPXTrackSegment())
    for latitude, longitude, metres, seconds in rows:
        made.tracks[0].segments[0].points.append(gpxpy.gpx.GPXTrackPoint(
            round(latitude, 7), round(longitude, 7), None if metres is None else round(metres, 2),
            datetime.fromtimestamp(seconds, UTC)))
    for version in ("1.0", "1.1"):
        text = made.to_xml(version)
        if "e-0" in text:  # the library writes small numbers in a form that GPX does not know
            continue
        for mine, (latitude, longitude, metres, seconds) in zip(
                read_gpx(text, "a.gpx", "msl").readings, rows, strict=True):
            assert (mine.latitude_deg, mine.longitude_deg, mine.time_s) == (
                round(latitude, 7), round(longitude, 7), seconds)
            assert mine.geometric_ft == (None if metres is None else pytest.approx(round(metres, 2) / M_PER_FT))


def test_ways_and_routes_are_counted_not_read():
    text = GPX.replace("<trk>", '<wpt lat="1" lon="2"/><wpt lat="1" lon="2"/><rte><rtept lat="1" lon="2"/></rte><trk>')
    assert [remark.what for remark in read_gpx(text, "a.gpx", "msl").remarks] == [
        "2 elements wpt are not read: only points of tracks are.",
        "1 elements rtept are not read: only points of tracks are."]


def test_every_fault_of_a_point_is_told_with_its_line():
    bad = GPX.replace("34.5", "99", 1).replace("<ele>600", "<ele>high", 1).replace("10:00:01Z", "10:00:01")
    assert faults(bad, "a.gpx", "msl") == [
        ("line 4, lat", "'99'"), ("line 4, ele", "'high'"), ("line 5, time", "'2026-12-01T10:00:01'")]
    bare = GPX.replace('lat="34.5"', "", 1)
    assert faults(bare, "a.gpx", "msl") == [("line 4, lat", "''")]


@pytest.mark.parametrize(("text", "found"), [
    (GPX[:100], ("line 4", "no element found")),
    (GPX.replace("</trkseg>", ""), ("line 6", "mismatched tag")),
    (GPX.replace("gpx>", "kml>"), ("line 2", "the element 'kml'")),
    (GPX[: GPX.index("<trk>")] + "</gpx>", ("", "0 track points")),
    ("not xml", ("line 1", "syntax error")),
    (GPX.replace("600", "&eacute;", 1), ("line 4", "undefined entity")),
    ("<gpx>" + "<a>" * 100_000, ("line 1", "33 elements one in the other")),
])
def test_broken_xml_is_told_with_its_line(text, found):
    assert faults(text, "a.gpx", "msl") == [found]


@pytest.mark.parametrize("text", [
    BOMB, '<!DOCTYPE gpx SYSTEM "file:///etc/passwd">' + GPX,
    GPX.replace("?>", '?><!DOCTYPE gpx [<!ENTITY x "y">]>', 1), "<gpx><!ENTITY x 'y'></gpx>",
])
def test_document_types_and_entities_are_refused_unparsed(text):
    tracemalloc.start()
    found = faults(text, "a.gpx", "msl")
    assert found[0][1].startswith(("<!DOCTYPE", "<!ENTITY"))
    assert tracemalloc.get_traced_memory()[1] < 1_000_000
    tracemalloc.stop()


def test_a_declared_encoding_has_no_effect():
    """A parser that went by it could meet a document type that the text does not show."""
    hidden = '<?xml version="1.0" encoding="utf-7"?>+ADwAIQ-DOCTYPE gpx+AD4-' + GPX.partition("?>")[2]
    assert faults(hidden, "a.gpx", "msl")[0][0] == "line 1"
    declared = GPX.replace('version="1.0"', 'version="1.0" encoding="cp037"')
    assert len(read_gpx(declared, "a.gpx", "msl").readings) == 2
    assert faults(GPX.replace("<trk>", "<trk><name>é</name>").encode("latin-1"), "a.gpx", "msl") == [
        ("line 3", "the byte 0xe9")]


def test_long_text_and_many_points_are_bounded(monkeypatch):
    long = GPX.replace("<ele>600", "<ele>" + "6" * 1_000_000, 1)
    assert faults(long, "a.gpx", "msl")[0][0] == "line 4, ele"
    monkeypatch.setattr(track_gpx, "MOST_POINTS", 500)
    many = "<gpx><trk><trkseg>" + POINT.format(0) * 501
    assert faults(many, "a.gpx", "msl")[0][1] == "more than 500 points"
