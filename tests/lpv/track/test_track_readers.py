"""Recorded flights from files: what is read, and every way in which a file can be bad, within bounds."""

import gzip
import io
import json
import random
import tracemalloc
import zipfile
from datetime import UTC, datetime
from xml.parsers import expat

import gpxpy
import gpxpy.gpx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from demo import flights as make_flights
from lpv.core.errors import DataError
from lpv.core.units import M_PER_FT
from lpv.track import readers as track_readers
from lpv.track.files import MAX_BYTES, read, read_bytes
from lpv.track.readers import ENDINGS, no_text, read_text, too_large
from lpv.track.records import MAX_FAULTS, Faults, Recording, refuse, utc_s
from lpv.track.tables import ALTITUDES, LONGEST_LINE, guess, header_of, names_of, separator_of
from lpv.track.xml import Handler, Scanner, attributes_of, decoded, is_name, local
from support import calls

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


def test_good_file_read_unchanged():
    recording = read_bytes(GOOD.encode(), "flight.csv")
    assert (recording.geometric, recording.barometric, recording.decimals, recording.remarks) == ("msl", "", 3, ())
    second = recording.readings[1]
    assert (second.line, second.time_s, second.latitude_deg, second.geometric_ft) == (3, 1.0, 34.501, 1990.0)
    assert second.barometric_ft is None


def test_harmless_formatting_is_no_fault():
    text = "\ufeff# from somewhere\r\n\r\n" + GOOD.replace(",", " , ").replace("2000", '"2000"').replace("\n", "\r\n")
    assert read_text(text.lstrip("\ufeff"), "a.csv").readings[0].geometric_ft == 2000.0
    assert read_bytes(text.encode(), "flight.csv").readings[0].line == 4


@pytest.mark.parametrize("column", ALTITUDES)
def test_every_altitude_column_read_in_its_unit(column):
    reference, factor = ALTITUDES[column]
    recording = read_bytes(GOOD.replace("altitude_msl_ft", column).encode(), "flight.csv")
    assert reference in (recording.geometric, recording.barometric)
    got = recording.readings[0]
    assert (got.geometric_ft or got.barometric_ft) == pytest.approx(2000.0 * factor)
    assert factor == pytest.approx(1.0 if column.endswith("_ft") else 1.0 / 0.3048)


def test_one_altitude_per_kind_and_empty_cells():
    text = "time_s,latitude_deg,longitude_deg,altitude_msl_m,altitude_indicated_ft\n0,1,2,300,\n1,1,2,,990\n"
    recording = read_bytes(text.encode(), "flight.csv")
    assert (recording.geometric, recording.barometric) == ("msl", "indicated")
    assert [reading.barometric_ft for reading in recording.readings] == [None, 990.0]
    assert [reading.geometric_ft for reading in recording.readings] == [pytest.approx(300 / M_PER_FT), None]


def test_other_columns_named_not_read():
    recording = read_bytes(GOOD.replace("_ft\n", "_ft,gear\n").replace("000\n", "000,down\n").replace(
        "990\n", "990,up\n").encode(), "flight.csv")
    assert [remark.what for remark in recording.remarks] == ["Columns that are not read: 'gear'."]


def test_times_are_utc_or_have_offset():
    text = GOOD.replace("time_s", "time_utc").replace("\n0,", "\n2026-12-01T10:00:00Z,").replace(
        "\n1,", "\n2026-12-01T12:00:01.5+02:00,")
    readings = read_bytes(text.encode(), "flight.csv").readings
    assert readings[1].time_s - readings[0].time_s == 1.5
    assert utc_s("2026-12-01T10:00:00Z", "line 1", Faults("a")) == datetime(2026, 12, 1, 10, tzinfo=UTC).timestamp()
    for bad in ("2026-12-01T10:00:00", "10:00", "", "9" * 50):
        collected = Faults("a")
        utc_s(bad, "line 1", collected)
        assert collected.count == 1, bad


def test_every_fault_reported_with_line():
    text = GOOD + "2,34.5,-148.25\n3,91,-148.25,2000\n4,34.5,x,nan\n5,34.5,-148.25,1_000\n6,34.5,-148,70000\n7,34.5"
    assert faults(text) == [
        ("line 4", "3 cells"), ("line 5, latitude_deg", "'91'"), ("line 6, altitude", "'nan'"),
        ("line 6, longitude_deg", "'x'"), ("line 7, altitude", "'1_000'"), ("line 8, altitude", "'70000'"),
        ("line 9", "2 cells"),
    ]


@pytest.mark.parametrize(("header", "expected"), [
    ("a,b", ["no time", "no latitude_deg", "no longitude_deg", "no altitude"]),
    ("time_s,time_utc,latitude_deg,longitude_deg,altitude_msl_ft", ["time_s time_utc"]),
    ("time_s,latitude_deg,longitude_deg,altitude_msl_ft,altitude_ellipsoid_m", ["two altitudes by GNSS"]),
    ("time_s,latitude_deg,longitude_deg,altitude_pressure_ft,altitude_indicated_m", ["two altitudes by an altimeter"]),
    ("time_s,latitude_deg,longitude_deg,altitude_msl_ft,x,x", ["'x' twice"]),
])
def test_unclear_header(header, expected):
    assert [what for _, what in faults(header + "\n1,2,3,4\n")] == expected


def test_too_few_too_many_and_too_long(monkeypatch):
    assert faults("") == [("line 1, header", missing) for missing in (
        "no time", "no latitude_deg", "no longitude_deg", "no altitude")]
    assert faults(GOOD.splitlines()[0]) == [("", "0 samples")]
    assert faults(GOOD[: GOOD.index("1,34.501")]) == [("", "1 samples")]
    assert faults(GOOD + "x" * (LONGEST_LINE + 1)) == [("line 4", f"{LONGEST_LINE + 2 - 1} characters")]
    assert faults(GOOD + '2,"34.5,-148,0\n')[0][0] == "line 4"
    monkeypatch.setattr(track_readers.read_text, "__defaults__", ("", None, 500))
    many = GOOD.splitlines()[0] + "\n" + "1,34.5,-148.25,2000\n" * 505
    assert faults(many) == [("line 502", "over 500 samples")]


def test_first_faults_in_full_rest_counted():
    reported = faults(GOOD + "x\n" * 1000)
    assert len(reported) == MAX_FAULTS + 1
    assert reported[-1] == ("", f"{1000 - MAX_FAULTS} more faults")


# Bytes


def test_other_encodings_named_line_by_line():
    assert faults(GOOD.encode() + "# B\xe9la\n".encode("latin-1") + b"ok\n\xff\n") == [
        ("line 4", "the byte 0xe9"), ("line 6", "the byte 0xff")]
    assert faults(GOOD.encode("utf-16")) == [("", "bytes that are not text")]


def test_unread_file_faults_state_action():
    (fault,) = too_large("flight.csv", 2.5).faults
    assert str(fault) == "flight.csv: found more than 2.5\u202fMB; allowed: at most 2.5\u202fMB. Cut the approach out."
    (fault,) = no_text("flight.csv").faults
    assert str(fault) == "flight.csv: found bytes that are not text; allowed: UTF-8. Export the flight again, as UTF-8."


def test_compressed_files_refused_unopened():
    bomb = gzip.compress(b"0" * 10_000_000)
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("flight.gpx", b"0" * 10_000_000)
    for data in (bomb, held.getvalue()):
        for name, altitude in (("flight.csv", ""), ("flight.gpx", "msl")):
            assert faults(data, name, altitude) == [("", "a compressed file")]


def test_gigabyte_of_zeros_costs_only_limit(tmp_path):
    path = tmp_path / "flight.csv"
    with path.open("wb") as stream:
        stream.truncate(1_000_000_000)
    tracemalloc.start()
    with pytest.raises(DataError, match="more than 32\u202fMB"):
        read(path)
    assert tracemalloc.get_traced_memory()[1] < 3 * MAX_BYTES
    tracemalloc.stop()


def test_noise_fails_quickly():
    noise = random.Random(8).randbytes(2_000_000).replace(b"\0", b"1")
    for name, altitude in (("flight.csv", ""), ("flight.gpx", "ellipsoid")):
        made, reported = calls(faults, noise, name, altitude)
        assert len(reported) == MAX_FAULTS + 1
        assert made < len(noise) / 10, "reading stops soon after the faults that are told"
    letters = "".join(random.Random(9).choices("0123456789,.-\n", k=1_000_000))
    assert len(faults(GOOD + letters)) == MAX_FAULTS + 1


@given(st.binary(max_size=300), st.sampled_from(["flight.csv", "flight.gpx"]))
@settings(max_examples=150)
def test_any_bytes_give_recording_or_faults(data, name):
    for whole in (data, GOOD.encode() + data, GPX.encode()[:90] + data):
        try:
            recording = read_bytes(whole, name, "" if name.endswith("csv") else "msl")
        except DataError as error:
            assert error.faults  # noqa: PT017
        else:
            assert isinstance(recording, Recording)


def test_names_and_statements(tmp_path):
    assert faults(GOOD, "flight.doc") == [("", "the ending '.doc'")]
    assert faults(GOOD, "flight.csv", "msl") == [("", "altitude 'msl' stated")]
    assert faults(GPX, "flight.gpx") == [("", "altitude '' stated")]
    with pytest.raises(DataError, match="no such file or folder"):
        read(tmp_path / "none.csv")
    assert str(refuse("a", "b", "c", "d")) == "a: found b; allowed: c. d"


# GPX


def test_gpx_file_read_with_lines_parts_and_reference():
    two = GPX.replace("</trkseg></trk>", f"</trkseg><trkseg>{POINT.format(5)}</trkseg></trk>")
    recording = read_bytes(two.encode(), "flight.gpx", "ellipsoid")
    assert (recording.geometric, recording.barometric, recording.decimals) == ("ellipsoid", "", 2)
    assert [(reading.line, reading.begins) for reading in recording.readings] == [(4, False), (5, False), (6, True)]
    assert recording.readings[0].geometric_ft == pytest.approx(600 / M_PER_FT)
    by_altimeter = read_text(GPX, "flight.gpx", "indicated")
    assert (by_altimeter.geometric, by_altimeter.barometric) == ("", "indicated")
    assert by_altimeter.readings[0].barometric_ft == pytest.approx(600 / M_PER_FT)


def test_independent_library_reads_same_from_demo():
    text = (make_flights.FOLDER / "patchy.gpx").read_text("utf-8")
    ours = read_text(text, "patchy.gpx", "msl").readings
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
def test_independent_library_output_read_as_meant(rows):
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
                read_text(text, "a.gpx", "msl").readings, rows, strict=True):
            assert (mine.latitude_deg, mine.longitude_deg, mine.time_s) == (
                round(latitude, 7), round(longitude, 7), seconds)
            assert mine.geometric_ft == (None if metres is None else pytest.approx(round(metres, 2) / M_PER_FT))


def test_waypoints_and_routes_counted_not_read():
    text = GPX.replace("<trk>", '<wpt lat="1" lon="2"/><wpt lat="1" lon="2"/><rte><rtept lat="1" lon="2"/></rte><trk>')
    assert [remark.what for remark in read_text(text, "a.gpx", "msl").remarks] == [
        "2 elements wpt are not read.",
        "1 elements rtept are not read."]


def test_every_point_fault_reported_with_line():
    bad = GPX.replace("34.5", "99", 1).replace("<ele>600", "<ele>high", 1).replace("10:00:01Z", "10:00:01")
    assert faults(bad, "a.gpx", "msl") == [
        ("line 4, lat", "'99'"), ("line 4, ele", "'high'"), ("line 5, time", "'2026-12-01T10:00:01'")]
    bare = GPX.replace('lat="34.5"', "", 1)
    assert faults(bare, "a.gpx", "msl") == [("line 4, lat", "''")]


@pytest.mark.parametrize(("text", "message"), [
    (GPX[:100], ("line 4", "the element 'time' without its end")),
    (GPX.replace("</trkseg>", ""), ("line 6", "the end of 'trk'")),
    (GPX.replace("gpx>", "kml>"), ("line 2", "the element 'kml'")),
    (GPX[: GPX.index("<trk>")] + "</gpx>", ("", "0 track points")),
    ("not xml", ("line 1", "text outside of elements, 'not xml'")),
    (GPX.replace("600", "&eacute;", 1), ("line 4", "an entity that XML does not have")),
    ("<gpx>" + "<a>" * 100_000, ("line 1", "33 elements one in the other")),
])
def test_broken_xml_reported_with_line(text, message):
    assert faults(text, "a.gpx", "msl") == [message]


@pytest.mark.parametrize("text", [
    BOMB, '<!DOCTYPE gpx SYSTEM "file:///etc/passwd">' + GPX,
    GPX.replace("?>", '?><!DOCTYPE gpx [<!ENTITY x "y">]>', 1), "<gpx><!ENTITY x 'y'></gpx>",
])
def test_document_types_and_entities_refused_unparsed(text):
    tracemalloc.start()
    reported = faults(text, "a.gpx", "msl")
    assert reported[0][1].startswith(("<!DOCTYPE", "<!ENTITY"))
    assert tracemalloc.get_traced_memory()[1] < 1_000_000
    tracemalloc.stop()


def test_declared_encoding_has_no_effect():
    """A parser that went by it could meet a document type that the text does not show."""
    hidden = '<?xml version="1.0" encoding="utf-7"?>+ADwAIQ-DOCTYPE gpx+AD4-' + GPX.partition("?>")[2]
    assert faults(hidden, "a.gpx", "msl")[0][0] == "line 1"
    declared = GPX.replace('version="1.0"', 'version="1.0" encoding="cp037"')
    assert len(read_text(declared, "a.gpx", "msl").readings) == 2
    assert faults(GPX.replace("<trk>", "<trk><name>é</name>").encode("latin-1"), "a.gpx", "msl") == [
        ("line 3", "the byte 0xe9")]


def test_long_text_and_many_points_bounded(monkeypatch):
    long = GPX.replace("<ele>600", "<ele>" + "6" * 1_000_000, 1)
    assert faults(long, "a.gpx", "msl")[0][0] == "line 4, ele"
    monkeypatch.setattr(track_readers.read_text, "__defaults__", ("", None, 500))
    many = "<gpx><trk><trkseg>" + POINT.format(0) * 501
    assert faults(many, "a.gpx", "msl")[0][1] == "more than 500 points"


def test_gpx_and_kml_scanned_as_expat_parses():
    """Whatever is cut out of or put into a good file: both refuse it, or both give the same elements."""
    rng = random.Random("scanner")
    signs = "<>/&;\"'= a!-[]?\n"
    good = GPX + "<!-- x --> "
    agreed = 0
    for _ in range(1500):
        at, cut = rng.randrange(len(good)), rng.randrange(4)
        text = good[:at] + "".join(rng.choice(signs) for _ in range(rng.randrange(3))) + good[at + cut:]
        mine, theirs = scanned(text), parsed(text)
        if theirs is None or "&" in text or "<!" in text.replace("<!--", ""):
            continue  # refused there, or what is refused here on purpose
        assert mine == theirs, text
        agreed += 1
    assert agreed > 100


class Listed(Handler):
    def __init__(self):
        self.events = []

    def start(self, name, attributes, line):
        self.events.append(("start", name, tuple(sorted(attributes.items())), line))

    def end(self, name, text, line):
        self.events.append(("end", name))


def scanned(text):
    handler, problems = Listed(), Faults("a")
    Scanner(text, ("gpx",), handler, problems).scan(100_000)
    return None if problems.count else handler.events


def parsed(text):
    events = []
    parser = expat.ParserCreate("utf-8")
    parser.StartElementHandler = lambda name, attributes: events.append(
        ("start", name, tuple(sorted(attributes.items())), parser.CurrentLineNumber))
    parser.EndElementHandler = lambda name: events.append(("end", name))
    try:
        parser.Parse(text, True)
    except expat.ExpatError:
        return None
    return events if events and events[0][1] == "gpx" else None


def test_expat_errors_refused():
    """But for what stands in the declaration, which is passed over unread."""
    rng = random.Random("refused")
    refused = 0
    for _ in range(800):
        at = rng.randrange(GPX.index("<gpx>"), len(GPX))
        text = GPX[:at] + rng.choice(["<", "</x>", "<x>", "&", "<a b>", "<a b=c>", ""]) + GPX[at + rng.randrange(6):]
        if parsed(text) is None:
            assert scanned(text) is None, text
            refused += 1
    assert refused > 300


@pytest.mark.parametrize(("text", "expected"), [
    ("a &lt;b&gt; &amp; &quot;c&quot; &apos;", "a <b> & \"c\" '"), ("&#65;&#x42;", "AB"), ("plain", "plain"),
    ("&nbsp;", None), ("&", None), ("&#x110000;", None), ("&#0;", None), ("&#x;", None),
])
def test_entities(text, expected):
    assert decoded(text) == expected


@pytest.mark.parametrize(("text", "expected"), [
    (' a="1" b = \'2\' ', {"a": "1", "b": "2"}), ("", {}), (' a="&lt;"', {"a": "<"}),
    (' a="1"b="2"', None), (" a=1", None), (' a="1" a="2"', None), (" a", None), (' a="<"', None), (' 1a="x"', None),
])
def test_attributes(text, expected):
    assert attributes_of(text) == expected
    assert (local("gx:coord"), local("trk"), is_name("gx:coord"), is_name("1x"), is_name("")) == (
        "coord", "trk", True, False, False)


# KML

WHEN = "".join(f"<when>2026-12-01T10:00:0{n}Z</when>" for n in range(3))
COORDS = "".join(f"<gx:coord>-148.2{n} 34.5{n} {600 - n}</gx:coord>" for n in range(3))
HEAD = '<?xml version="1.0"?><kml xmlns="http://www.opengis.net/kml/2.2" xmlns:gx="http://www.google.com/kml/ext/2.2">'


def kml(inside):
    return read_text(f"{HEAD}<Document>{inside}</Document></kml>", "a.kml", "msl")


def test_kml_track():
    recording = kml(f"<Placemark><gx:Track>{WHEN}{COORDS}</gx:Track></Placemark>")
    assert [(reading.latitude_deg, reading.longitude_deg) for reading in recording.readings] == [
        (34.50, -148.20), (34.51, -148.21), (34.52, -148.22)]
    assert [reading.geometric_ft for reading in recording.readings] == [
        pytest.approx(m / M_PER_FT) for m in (600, 599, 598)]
    assert recording.readings[1].time_s - recording.readings[0].time_s == 1.0
    two = kml(f"<Placemark><gx:MultiTrack><gx:Track>{WHEN}{COORDS}</gx:Track><gx:Track>{WHEN}{COORDS}</gx:Track>"
              "</gx:MultiTrack></Placemark>")
    assert [reading.begins for reading in two.readings] == [False, False, False, True, False, False]


def test_kml_points_with_times():
    places = "".join(
        f"<Placemark><TimeStamp><when>2026-12-01T10:00:0{n}Z</when></TimeStamp><Point><coordinates>-148.2,34.5,{n}"
        "</coordinates></Point></Placemark>" for n in range(3))
    recording = kml(places + "<Placemark><Point><coordinates>1,2</coordinates></Point></Placemark>")
    assert len(recording.readings) == 3
    assert [remark.what for remark in recording.remarks] == ["1 elements Point without a time are not read."]


def test_kml_line_times_spread_by_distance():
    line = ("<Placemark><TimeSpan><begin>2026-12-01T10:00:00Z</begin><end>2026-12-01T10:01:40Z</end></TimeSpan>"
            "<LineString><coordinates>-148.2,34.0,100 -148.2,34.1,200\n-148.2,34.4,300</coordinates></LineString>"
            "</Placemark>")
    recording = kml(line)
    assert recording.steady
    first = recording.readings[0].time_s
    assert [row.time_s - first for row in recording.readings] == [0.0, pytest.approx(25.0), pytest.approx(100.0)]
    assert "no-times" in [remark.key for remark in recording.remarks]
    with pytest.raises(DataError, match="0 track points"):
        kml(line.replace("TimeSpan", "TimeSpun"))


def test_heights_above_ground_ignored():
    mode = "<altitudeMode>clampToGround</altitudeMode>"
    recording = kml(f"<Placemark><gx:Track>{mode}{WHEN}{COORDS}</gx:Track></Placemark>")
    assert {reading.geometric_ft for reading in recording.readings} == {None}


@pytest.mark.parametrize("inside", [
    f"<Placemark><gx:Track>{WHEN}{COORDS[:-60]}</gx:Track></Placemark>",
    f"<Placemark><gx:Track>{WHEN}{COORDS.replace('-148.20', 'x')}</gx:Track></Placemark>",
    f"<Placemark><gx:Track>{WHEN.replace('10:00', '99:00')}{COORDS}</gx:Track></Placemark>",
])
def test_kml_with_faults(inside):
    with pytest.raises(DataError):
        kml(inside)


# IGC

IGC = ("AXXX001\nHFDTE011226\nB1000005430000N00830000EA0060000647\nB1000015430006N00830000EA0059900646\n"
       "B1000025430012N00830000EV0059800000\nLXXX\n")


def test_igc_file():
    recording = read_text(IGC, "a.igc")
    assert (recording.geometric, recording.barometric) == ("ellipsoid", "pressure")
    first, second, third = recording.readings
    assert (first.latitude_deg, first.longitude_deg) == (54.5, 8.5)
    assert second.latitude_deg == pytest.approx(54.5 + 0.006 / 60.0)
    assert second.time_s - first.time_s == 1.0
    assert first.geometric_ft == pytest.approx(647 / M_PER_FT)
    assert first.barometric_ft == pytest.approx(600 / M_PER_FT)
    assert third.geometric_ft is None
    assert "1 samples without an altitude by GNSS" in recording.remarks[0].what
    assert read_text(IGC.replace("HFDTE", "HFALG:GEO\nHFDTE"), "a.igc").geometric == "msl"


def test_south_and_west_midnight_and_below_zero():
    text = IGC.replace("N0083", "S0083").replace("00EA", "00WA").replace("B100001", "B000001").replace(
        "B100002", "B000002").replace("B100000", "B235959").replace("A00600", "A-0060")
    readings = read_text(text, "a.igc").readings
    assert (readings[0].latitude_deg, readings[0].longitude_deg) == (-54.5, -8.5)
    assert readings[1].time_s - readings[0].time_s == 2.0
    assert readings[0].barometric_ft == pytest.approx(-60 / M_PER_FT)


@pytest.mark.parametrize(("old", "new"), [
    ("5430000N", "5460000N"), ("5430000N", "9530000N"), ("00830000E", "00830000X"), ("EA00600", "EX00600"),
    ("B100000", "B250000"), ("A0060000647", "A006000064"), ("A0060000647", "A00x0000647"), ("AXXX", "XXXX"),
])
def test_igc_with_faults(old, new):
    with pytest.raises(DataError):
        read_text(IGC.replace(old, new, 1), "a.igc")


# Tables of others

FOREIGN = {"time_utc": "Date Time", "latitude_deg": "Lat", "longitude_deg": "Lon", "altitude_msl_ft": "Alt (ft)"}


def test_foreign_columns_with_preamble_units_and_semicolons():
    text = ('Recorder 7;;;\nFlight;1;;\nDate Time;Lat;Lon;Alt (ft)\n;deg;deg;ft\n'
            '2026/12/01 10:00:00;34,5;-148,25;2000\n2026/12/01 10:00:01;34,501;-148,25;1990,5\n')
    recording = read_text(text, "a.csv", "", FOREIGN)
    assert [reading.geometric_ft for reading in recording.readings] == [2000.0, 1990.5]
    assert (recording.readings[1].latitude_deg, recording.decimals) == (34.501, 3)
    assert recording.readings[1].time_s - recording.readings[0].time_s == 1.0
    assert recording.readings[0].line == 5


def test_clock_past_midnight_and_milliseconds():
    rows = "Lat,Lon,H,T\n34.5,-148,100,23:59:59.5\n34.5,-148,90,00:00:00.5\n"
    columns = {"time_clock": "T", "latitude_deg": "Lat", "longitude_deg": "Lon", "altitude_indicated_ft": "H"}
    read = read_text(rows, "a.csv", "", columns).readings
    assert read[1].time_s - read[0].time_s == 1.0
    millis = rows.replace("23:59:59.5", "1764583200000").replace("00:00:00.5", "1764583201250")
    read = read_text(millis, "a.csv", "", {"time_ms": "T"} | {key: columns[key] for key in list(columns)[1:]}).readings
    assert read[1].time_s - read[0].time_s == 1.25


def test_assigned_columns_missing():
    with pytest.raises(DataError) as caught:
        read_text("a,b\n1,2\n", "a.csv", "", {"time_s": "Clock", "height": "b"})
    values = [fault.found for fault in caught.value.faults]
    assert "no column 'Clock'" in values
    assert "a column for 'height'" in values


SURVEILLANCE = {"time_s": "timestamp", "latitude_deg": "lat", "longitude_deg": "lon",
                "altitude_pressure_ft": "alt_baro", "altitude_ellipsoid_ft": "alt_geom"}
ROW = {"timestamp": 1764583200.5, "lat": 34.5, "lon": -148.25, "alt_baro": 2000, "alt_geom": 2050, "gs": 120.5,
       "track": 90.1}


@pytest.mark.parametrize("wrapped", [
    lambda rows: rows, lambda rows: {"aircraft": "x", "track": rows, "other": [1]},
    lambda rows: {"columns": list(ROW), "rows": [list(row.values()) for row in rows]},
])
def test_open_surveillance_tracks_as_json(wrapped):
    rows = [ROW, ROW | {"timestamp": 1764583201.5, "lat": 34.501, "alt_baro": "ground", "alt_geom": None}]
    recording = read_text(json.dumps(wrapped(rows)), "a.json", "", SURVEILLANCE)
    assert (recording.geometric, recording.barometric, recording.decimals) == ("ellipsoid", "pressure", 3)
    first, second = recording.readings
    assert (first.geometric_ft, first.barometric_ft, first.latitude_deg) == (2050.0, 2000.0, 34.5)
    assert (second.geometric_ft, second.barometric_ft) == (None, None)
    assert second.time_s - first.time_s == 1.0
    assert "'gs', 'track'" in recording.remarks[0].what


def test_open_surveillance_tracks_as_csv_and_lists_without_names():
    text = "timestamp,lat,lon,alt_baro,gs\n1764583200,34.5,-148.25,2000,120\n1764583201,34.501,-148.25,ground,110\n"
    columns = {key: name for key, name in SURVEILLANCE.items() if name != "alt_geom"}
    assert [reading.barometric_ft for reading in read_text(text, "a.csv", "", columns).readings] == [2000.0, None]
    rows = [[1764583200, 34.5, -148.25, 2000], [1764583201, 34.501, -148.25, 1990]]
    numbered = {"time_s": "0", "latitude_deg": "1", "longitude_deg": "2", "altitude_pressure_ft": "3"}
    assert len(read_text(json.dumps(rows), "a.json", "", numbered).readings) == 2


@pytest.mark.parametrize("text", ["", "{", "1", '{"a": 1}', "[1, 2]", "[[1], [2]]", "[" * 200_000, '{"a":' * 50_000])
def test_invalid_track_json(text):
    with pytest.raises(DataError):
        read_text(text, "a.json", "", SURVEILLANCE)


def test_names_and_guesses():
    names = header_of("Tool 5\nrow,x\nTimestamp,Latitude,Longitude,GPS Altitude (m),Baro Altitude,Speed\n1,2,3,4,5,6\n")
    assert names == ["Timestamp", "Latitude", "Longitude", "GPS Altitude (m)", "Baro Altitude", "Speed"]
    assert guess(names) == {"time_s": "Timestamp", "latitude_deg": "Latitude", "longitude_deg": "Longitude",
                            "altitude_pressure_ft": "Baro Altitude", "altitude_msl_ft": "GPS Altitude (m)"}
    assert guess(["x", "y"]) == {}
    assert header_of("") == []
    assert names_of([{"b": 1}, {"a": 2}]) == ["a", "b"]
    assert [separator_of(row) for row in ("a,b", "a;b,c;d", "a\tb", 'x "a;b;c",d', "a")] == [",", ";", "\t", ",", ","]


@given(st.text(max_size=120), st.sampled_from([*ENDINGS]))
@settings(max_examples=200)
def test_any_text_gives_recording_or_faults(text, ending):
    altitude = "msl" if ending in (".gpx", ".kml") else ""
    try:
        recording = read_text(text, "a" + ending, altitude, SURVEILLANCE if ending == ".json" else None)
    except DataError as error:
        assert error.faults  # noqa: PT017
    else:
        assert len(recording.readings) > 1
