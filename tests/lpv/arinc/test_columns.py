"""How columns code values, and how lines become records: each by hand, on both sides of every edge."""

import io
from types import SimpleNamespace as Stub

import pytest

from lpv.arinc import columns, flown, lines
from lpv.arinc.lines import AirportRecords, Record
from lpv.core.errors import DataError
from lpv.fas.path_point_columns import RECORD_LENGTH, Column

VALUES = {
    columns.angle_deg: {
        "N00000000": 0.0, "N37300471": 37 + 30 / 60 + 4.71 / 3600, "S01000000": -1.0, "E008153000": 8 + 15.5 / 60,
        "W122203005": -(122 + 20 / 60 + 30.05 / 3600), "N00000001": 0.01 / 3600, "N00010000": 1 / 60},
    columns.variation_deg: {
        "T    ": 0.0, "E0150": 15.0, "W0123": -12.3, "E0000": 0.0, "E1000": 100.0, "W0001": -0.1, "E0012": 1.2},
    columns.course_deg: {
        "": None, "2849": (284.9, False), "299T": (299.0, True), "0001": (0.1, False), "3600": (360.0, False)},
    columns.distance_nm: {"": None, "0028": 2.8, "T010": None, "1000": 100.0, "028": None, "00281": None},
    columns.time_min: {"": None, "T010": 1.0, "T005": 0.5, "0010": None, "T100": 10.0},
    columns.altitude_ft: {
        "": None, "02126": 2126, "-0012": -12, "FL180": None, "UNKNN": None, "00000": 0, "0212": None, "-012": None},
    columns.level_ft: {"FL180": 18000, "FL005": 500, "18000": None, "": None, "FL18": None},
    columns.rnp_nm: {"": None, "010": 1.0, "031": 0.3, "990": 99.0, "302": 0.3, "123": 0.012},
    columns.angle_coded_deg: {"": None, "    ": None, "-310": -3.1, "0000": None, "0300": 3.0, "-001": -0.01},
}
LAYOUT = columns.Layout(
    "a record",
    (Column("first", 1, 3, "a number", r"\d{3}", "digits"), Column("next", 4, 6, "a name", "[A-Z ]{3}", "letters")),
    (Column("rest", 7, 9, "a rest"), Column("end", 10, RECORD_LENGTH, "the end")))


@pytest.mark.parametrize("read", VALUES, ids=lambda read: read.__name__)
def test_each_code_read(read):
    for text, value in VALUES[read].items():
        assert read(text) == (pytest.approx(value, abs=1e-9) if isinstance(value, float) else value), text
        assert str(read(text)) != "-0.0"


def test_columns_counted_from_one_to_last():
    line = "123AB X Z".ljust(RECORD_LENGTH)
    assert LAYOUT.texts(line, "f", "line 1") == ({"first": "123", "next": "AB"}, [])
    assert LAYOUT.names == ("first", "next")
    assert [(column.name, text.strip()) for column, text in LAYOUT.left_over(line)] == [("rest", "X Z")]
    assert [column.name for column, _ in LAYOUT.left_over(line[:-1] + "9")] == ["rest", "end"]
    texts, faults = LAYOUT.texts("12a4B ".ljust(RECORD_LENGTH), "f", "line 1")
    assert texts == {"first": "12a", "next": "4B"}
    assert [(fault.file, fault.key, fault.allowed) for fault in faults] == [
        ("f", "line 1, columns 1-3 (a number)", "digits"), ("f", "line 1, columns 4-6 (a name)", "letters")]
    for length in (RECORD_LENGTH - 1, RECORD_LENGTH + 1):
        texts, (fault,) = LAYOUT.texts(" " * length, "f", "line 1")
        assert (texts, fault.found, fault.allowed) == ({}, f"{length} columns", "132 columns in a record")


def test_records_counted_up_to_most(monkeypatch):
    monkeypatch.setattr(lines, "MAX_RECORDS", 3)
    kept = AirportRecords("ZZAA", customer="OUR")
    for number, text in ((1, "SEEU"), (2, "TOUR"), (3, "TSHE")):
        kept.add("PF", Record(number, text))
    assert ([row.number for row in kept.records["PF"]], kept.tailored, kept.count) == ([1, 2], 1, 3)
    with pytest.raises(DataError) as raised:
        kept.add("PF", Record(4, "SEEU"))
    assert (raised.value.faults[0].key, raised.value.faults[0].found) == ("line 4", "more than 3 records of ZZAA")
    assert (AirportRecords("ZZAA").is_heliport, AirportRecords("ZZHA", "H").is_heliport) == (False, True)


def test_kind_and_text_of_line():
    assert lines.kind_of(b"SEEUPFLFPGF ") == "PF"
    assert lines.kind_of(b"SEEUD        ") == "D "
    assert lines.kind_of(b"SEEUP ZZAAZZG") == "PG"
    assert lines.kind_of(b"SEEUH ZZAAZZA") == "HA"
    full = "x" * RECORD_LENGTH
    assert lines.text_of((full + "   ").encode()) == full
    assert lines.text_of((full + " y").encode()) == full + " y"
    assert lines.text_of(b"ab\xff") == "ab\ufffd"


def test_lines_with_number_offset_and_length(monkeypatch):
    assert list(lines.lines_of(io.BytesIO(b"\xef\xbb\xbfab\r\ncde\n\nf"))) == [
        (1, 3, b"ab", 4), (2, 7, b"cde", 4), (3, 11, b"", 1), (4, 12, b"f", 1)]
    monkeypatch.setattr(lines, "LINE_LIMIT", 4)
    monkeypatch.setattr(lines, "LONGEST_LINE", 9)
    assert list(lines.lines_of(io.BytesIO(b"12345678\nab\n"))) == [(1, 0, b"1234", 9), (2, 9, b"ab", 3)]
    with pytest.raises(DataError) as raised:
        list(lines.lines_of(io.BytesIO(b"ab\n123456789\nab\n")))
    assert (raised.value.faults[0].key, raised.value.faults[0].found) == (
        "line 2", "more than 9 bytes without an end")


class Pipe(io.BytesIO):
    def seekable(self):
        return False


def test_pipe_put_by_up_to_most(monkeypatch):
    monkeypatch.setattr(lines, "PIECE", 4)
    monkeypatch.setattr(lines, "MAX_PIPED", 8)
    with lines.twice(Pipe(b"12345678")) as stream:
        assert stream.read() == b"12345678"
        assert stream.seek(0) == 0
        assert stream.read() == b"12345678"
    with pytest.raises(DataError, match="more than 8 bytes"), lines.twice(Pipe(b"123456789")):
        pass
    plain = io.BytesIO(b"12")
    with lines.twice(plain) as stream:
        assert stream is plain


def test_leg_without_place_says_which_is_missing(monkeypatch):
    monkeypatch.setattr(flown, "_course", lambda *_: None)
    monkeypatch.setattr(flown, "_length", lambda *_: None)
    at = (1.0, 2.0)
    leg = Stub(fix="FIX", terminator="RF", fix_reference=Stub(ident="FIX"), centre_reference=Stub(ident="ARC"))
    for places, missing in (({"FIX": at, "ARC": at}, ""), ({"FIX": "no FIX", "ARC": at}, "no FIX"),
                            ({"FIX": at, "ARC": "no ARC"}, "no ARC"), ({"FIX": "no FIX", "ARC": "no ARC"}, "no FIX")):
        made = flown._flown(leg, "final", None, lambda reference, of=places: of[reference.ident], None)
        assert (made.missing, made.start, made.begins) == (missing, "", None)
        assert (made.place, made.centre) == tuple(of if of == at else None for of in places.values())
    leg.terminator = "CF"
    made = flown._flown(leg, "final", made, lambda reference: at, None)
    assert (made.missing, made.centre, made.start) == ("", None, ""), "the leg before has no place"
    straight = flown._flown(leg, "final", made, lambda reference: at, None)
    assert (straight.start, straight.begins) == ("FIX", at)
