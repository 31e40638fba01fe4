"""Bad input of the importer: every kind of damage gives a clear word, bounded memory, and no half file."""

import gzip
import io
import random
import re
import tracemalloc
import zipfile

import pytest

import coded_records as coded
from lpv.approach import record as approach
from lpv.arinc import reader as arinc_reader
from lpv.arinc.importer import Order, main, run
from lpv.arinc.levels import gaps
from lpv.arinc.lines import LINE_LIMIT, MAX_RECORDS, AirportRecords, Record
from lpv.arinc.reader import Source
from lpv.arinc.summary import report_text
from lpv.core.errors import DataError
from lpv.crosscheck.check import crosscheck


def imported(data, folder, **order):
    """What a run on these bytes did."""
    return run(io.BytesIO(data), "cycle.txt", Order(folder, **order))


def refused(lines, folder):
    """The reason for which the one approach of these records was not written; nothing stands in the folder."""
    summary = imported(coded.as_file(lines), folder)
    assert summary.done == []
    assert not folder.exists() or list(folder.iterdir()) == []
    assert summary.exit_code == 2
    [refusal] = summary.refused
    assert (refusal.airport, refusal.name) == ("KHWD", "R28L")
    assert all(f"KHWD R28L: refused: {fault}" in report_text(summary) for fault in refusal.faults)
    return reasons(summary)


def reasons(summary):
    """Every fault of what was refused, as text."""
    return "\n".join(str(fault) for refusal in summary.refused for fault in refusal.faults)


def zipped(data):
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        archive.writestr("cycle.txt", data)
    return file.getvalue()


def index(text):
    """The number of KHWD's first record that contains a text."""
    return next(number for number, line in enumerate(coded.KHWD) if text in line)


def without(text):
    return [line for line in coded.KHWD if text not in line]


# Truncated


def test_truncated_file_leaves_whole_or_no_file(tmp_path):
    data = coded.as_file(coded.KHWD)
    outcomes = set()
    ends = [at + 1 for at, byte in enumerate(data) if byte == 10]
    for cut in [0, *range(61, len(data), 61), *ends]:
        folder = tmp_path / str(cut)
        if cut < ends[1]:
            with pytest.raises(DataError, match=r"no record"):
                imported(data[:cut], folder)
            continue
        summary = imported(data[:cut], folder)
        files = list(folder.glob("*")) if folder.exists() else []
        assert [path.name for path in files] == (["khwd-rnav-28l.toml"] if summary.done else [])
        for path in files:
            flown = approach.read(path)
            assert len(flown.chart.fixes) == 8
            assert "R28L 040" not in "".join(flown.chart.coded_legs)
            assert flown.chart.missed is not None
        if summary.refused:
            assert reasons(summary)
        outcomes.add("written" if summary.done else "refused" if summary.refused else
                     "out of scope" if summary.out_of_scope else "nothing")
    assert outcomes == {"refused", "nothing", "out of scope", "written"}


def test_truncated_last_record_reported(tmp_path):
    summary = imported(coded.as_file(coded.KHWD)[:-40], tmp_path)
    assert "93 columns" in report_text(summary)
    assert "132 columns in a record" in report_text(summary)
    assert "93 columns" in reasons(summary)


def test_header_announces_more_records_than_present(tmp_path):
    assert "announces 380497 records" in report_text(imported(coded.as_file(coded.KHWD), tmp_path))
    exact = coded.HEADER.replace("0380497", f"{len(coded.KHWD):07d}")
    assert "announces" not in report_text(imported(coded.as_file(coded.KHWD, header=exact), tmp_path))


# Missing, twice, out of order


@pytest.mark.parametrize(("text", "words"), [
    ("HAYWARD", "no variation, elevation, name of KHWD"), ("IHWD0", "position of RW28L is not in the file"),
    ("GY M", "0 fixes coded as missed approach point"), ("E  F", "a continuation without its primary record"),
    ("WALPV", "a record whose continuation is missing"), ("001 0000W28A", "a continuation of"),
    ("E      +00152", "level None, channel None"), ("           FENRA  ", "position of FENRA is not in the file"),
])
def test_missing_record_named(text, words, tmp_path):
    assert words in refused(without(text), tmp_path)


@pytest.mark.parametrize(("text", "words"), [
    ("HAYWARD", "2 records of KHWD"), ("IHWD0", "2 records of RW28L"), ("           FENRA  ", "2 records of FENRA"),
    ("021FENRA", "a second record of R28L 021"), ("001 0000W28A", "a second primary record"),
])
def test_duplicate_record_refused(text, words, tmp_path):
    number = index(text)
    lines = [*coded.KHWD[: number + 1], coded.KHWD[number], *coded.KHWD[number + 1 :]]
    assert words in refused(lines, tmp_path)


def test_continuation_before_primary_record(tmp_path):
    number = index("1E  F")
    lines = [*coded.KHWD]
    lines[number], lines[number + 1] = lines[number + 1], lines[number]
    why = refused(lines, tmp_path)
    assert f"line {number + 2}: found a continuation without its primary record before it" in why
    first, second = index("001 0000W28A"), index("002E")
    lines = [*coded.KHWD]
    lines[first], lines[second] = lines[second], lines[first]
    assert f"line {first + 2}" in refused(lines, tmp_path / "point")


def test_legs_out_of_order(tmp_path):
    lines = [*coded.KHWD]
    number = index("021FENRA")
    lines[number], lines[number + 1] = lines[number + 1], lines[number]
    assert "a record out of sequence of R28L 021" in refused(lines, tmp_path)


def test_airport_split_across_file_read_whole(tmp_path):
    lines = [*coded.KHWD[:9], *coded.invented(0), *coded.KHWD[9:]]
    summary = imported(coded.as_file(lines), tmp_path)
    assert [done.slug for done in summary.done] == ["khwd-rnav-28l", "zzaa-rnav-28l"]
    again = imported(coded.as_file([*lines, *coded.KHWD[:3]]), tmp_path / "again")
    assert ([done.slug for done in again.done], again.exit_code) == (["zzaa-rnav-28l"], 1)
    assert "found 2 records of KHWD" in reasons(again)


def test_record_number_gaps():
    numbered = [Record(line, coded.at(" " * 132, 124, text)) for line, text in enumerate(
        ["00007", "00008", "     ", "00009", "99999", "00000", "00001", "00003"], 1)]
    assert gaps(numbered) == [
        "line 5: record numbers jump from 00009 to 99999; a leg may be missing",
        "line 8: record numbers jump from 00001 to 00003; a leg may be missing"]


# Columns and bytes


@pytest.mark.parametrize("length", [12, 60, 131, 133, 2000])
def test_wrong_column_count(length, tmp_path):
    lines = [*coded.KHWD]
    number = index("021FENRA")
    lines[number] = (lines[number] + "X" * 2000)[:length]
    summary = imported(coded.as_file(lines), tmp_path)
    assert f"line {number + 2}: found {min(length, LINE_LIMIT)} columns" in report_text(summary)
    assert summary.exit_code != 0
    assert (summary.done == []) == (length > 12)


@pytest.mark.parametrize("length", [133, 140, 900])
def test_trailing_blanks_accepted(length, tmp_path):
    lines = [f"{line:{length}}" for line in coded.KHWD]
    assert imported(coded.as_file(lines), tmp_path).exit_code == 0


def test_silently_lost_leg_reported(tmp_path):
    legs = [number for number, line in enumerate(coded.KHWD) if line[12] == "F"]
    lines = [*coded.KHWD]
    for number in legs:
        lines[number] = coded.at(lines[number], coded.LEG["number"], f"{10800 + number:05d}")
    whole = imported(coded.as_file(lines), tmp_path)
    assert (whole.gaps, whole.exit_code) == ([], 0)
    del lines[index("021FENRA")]
    summary = imported(coded.as_file(lines), tmp_path / "lost")
    assert summary.exit_code == 1
    assert all("position" in text for done in summary.done for text in done.unread)
    assert re.search(r"^may be missing: KHWD R28L: line \d+: record numbers jump from \d+ to \d+; a leg may",
                     report_text(summary), re.M)
    assert "1 gaps in record numbers: do not use this file of records; get it again." in report_text(summary)
    again = imported(coded.as_file(lines), tmp_path / "lost")
    assert (again.gaps, again.exit_code) == (summary.gaps, 1)
    result = approach.read(tmp_path / "lost" / "khwd-rnav-28l.toml")
    assert "a leg may be missing" in result.chart.coded_legs[-1]
    assert {f.name() for f in crosscheck(result) if f.grade == "stop"} == {"leg BOGRE"}


def test_latin_1_bytes_faulty_only_where_used(tmp_path):
    why = refused(coded.changed(index("HAYWARD"), 95, "\xe9"), tmp_path)
    assert "columns 94-123 (airport name)" in why
    noise = coded.record(coded.POINT, section="ER", subsection=" ", ident="\xfc" * 5)
    assert imported(coded.as_file([noise, *coded.KHWD]), tmp_path / "good").exit_code == 0


def test_markup_in_name_refused(tmp_path):
    assert "airport_name" in refused(coded.changed(index("HAYWARD"), 94, "<B>"), tmp_path)


@pytest.mark.parametrize("text", ["\n", "\r\n"])
def test_line_endings_and_byte_order_mark(text, tmp_path):
    data = b"\xef\xbb\xbf" + coded.as_file(coded.KHWD).replace(b"\n", text.encode())
    assert imported(data, tmp_path).exit_code == 0


@pytest.mark.parametrize(("number", "column", "text", "words"), [
    ("021FENRA", 71, "28X0", "columns 71-74 (course)"), ("021FENRA", 85, "+2120", "columns 85-89 (altitude)"),
    ("001 0000W28A", 67, "9999", "columns 67-70 (glidepath angle)"), ("18018005325", 43, "XXX", "sector 1"),
    ("IHWD0", 23, "     ", "no length of RW28L"), ("HAYWARD", 52, "     ", "no variation of KHWD"),
])
def test_impossible_column_value_named(number, column, text, words, tmp_path):
    assert words in refused(coded.changed(index(number), column, text), tmp_path)


def test_damaged_path_point_stopped_by_crosscheck(tmp_path):
    imported(coded.as_file(coded.changed(index("001 0000W28A"), 67, "0300")), tmp_path)
    result = approach.read(tmp_path / "khwd-rnav-28l.toml")
    assert {f.key for f in crosscheck(result) if f.grade == "stop"} == {"remainder", "glidepath", "coded-angle"}


# Cycles


def test_two_headers_with_different_cycles_stop_run(tmp_path):
    other = coded.as_file(coded.invented(0), header=coded.HEADER.replace("2003", "2004"))
    with pytest.raises(DataError, match="a header of cycle 2004 after one of 2003"):
        imported(coded.as_file(coded.KHWD) + other, tmp_path)


def test_second_header_checked_before_writing(tmp_path):
    first = [line for number in range(2) for line in coded.invented(number)]
    other = coded.as_file(coded.invented(3), header=coded.HEADER.replace("2003", "2004"))
    with pytest.raises(DataError, match="a header of cycle 2004 after one of 2003"):
        imported(coded.as_file(first) + other, tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_files_written_before_fault_named(tmp_path, monkeypatch):
    few = coded.invented(0)
    monkeypatch.setattr("lpv.arinc.lines.MAX_RECORDS", len(few))
    more = [*coded.invented(1), *(line for line in coded.invented(1) if line[12] == "C")]
    with pytest.raises(DataError) as stopped:
        imported(coded.as_file([*few, *more]), tmp_path)
    assert [fault.found for fault in stopped.value.faults][1:] == [
        "1 approach files written before that: zzaa-rnav-28l"]


def test_record_newer_than_file_cycle_refused(tmp_path):
    number = index("021FENRA")
    why = refused(coded.changed(number, 129, "2005"), tmp_path)
    assert f"line {number + 2}: found a record changed in cycle 2005; allowed: at most 2003" in why


def test_file_without_header_needs_cycle(tmp_path):
    data = coded.as_file(coded.KHWD, header="")
    with pytest.raises(DataError, match="--cycle"):
        imported(data, tmp_path)
    assert not list(tmp_path.iterdir())
    assert imported(data, tmp_path, cycle="2003").exit_code == 0
    broken = coded.as_file(coded.KHWD, header=coded.HEADER.replace("2003", "20X3"))
    with pytest.raises(DataError, match="--cycle"):
        imported(broken, tmp_path)


# Noise


class Noise(io.RawIOBase):
    """Random bytes, made as they are read: a block of them again and again, or one line without an end."""

    def __init__(self, size, *, line_ends=True, lead=b""):
        block = random.Random(1).randbytes(1 << 20)
        self.block = block if line_ends else block.replace(b"\n", b" ")
        self.left = size
        self.lead = lead

    def readable(self):
        return True

    def readinto(self, buffer):
        size = min(len(buffer), self.left, len(self.block))
        piece = (self.lead + self.block)[:size]
        self.lead = b""
        buffer[:size] = piece
        self.left -= size
        return size


def peak_bytes(stream, folder):
    """The most memory that a run on a stream takes, and what it raised or did."""
    tracemalloc.start()
    try:
        try:
            outcome = run(stream, "noise", Order(folder))
        except DataError as error:
            outcome = error
        return tracemalloc.get_traced_memory()[1], outcome
    finally:
        tracemalloc.stop()


@pytest.mark.parametrize("line_ends", [True, False])
def test_memory_bounded_with_noise(line_ends, tmp_path):
    few, _ = peak_bytes(io.BufferedReader(Noise(2 << 20, line_ends=line_ends)), tmp_path)
    many, outcome = peak_bytes(io.BufferedReader(Noise(50 << 20, line_ends=line_ends)), tmp_path)
    assert isinstance(outcome, DataError)
    assert ("no record in" if line_ends else "bytes without an end") in str(outcome)
    assert many < few + 200_000
    assert many < 5_000_000
    assert not list(tmp_path.iterdir())


def test_noise_after_good_records_ignored(tmp_path):
    lead = coded.as_file(coded.KHWD)
    summary = run(io.BufferedReader(Noise(3 << 20, lead=lead)), "noise", Order(tmp_path))
    assert [(done.slug, done.what) for done in summary.done] == [("khwd-rnav-28l", "written")]
    assert summary.counts["lines that are not records"] > 5000


def test_too_many_records_refused(monkeypatch):
    airport = AirportRecords("KHWD")
    for number in range(MAX_RECORDS):
        airport.add("PC", Record(number, ""))
    with pytest.raises(DataError, match="more than 20000 records of KHWD"):
        airport.add("PC", Record(0, ""))
    monkeypatch.setattr(arinc_reader, "MAX_AIRPORTS", 3)
    lines = [line for number in range(5) for line in coded.invented(number)]
    with pytest.raises(DataError, match="more than 3 airports"):
        list(Source(io.BytesIO(coded.as_file(lines)), "cycle.txt").airports())


def test_tailored_records_kept_for_customer_only():
    airport = AirportRecords("KHWD", customer="ABC")
    for number, text in enumerate(("SUSA", "TABC", "TXYZ", "TDEF")):
        airport.add("PC", Record(number, text))
    assert ([record.text for record in airport.records["PC"]], airport.tailored) == (["SUSA", "TABC"], 2)


def test_positions_and_faults_bounded(monkeypatch):
    monkeypatch.setattr(arinc_reader, "MAX_POSITIONS", 2)
    monkeypatch.setattr(arinc_reader, "MAX_FAULTS", 2)
    place = {"section": "EA", "subsection": " ", "airport": "ENRT", "latitude": "N33000000", "longitude": "W148000000",
             "continuation": "0", "of": "K2"}
    fixes = [coded.record(coded.NAVAID, ident=ident, **place) for ident in ("AAAAA", "BBBBB", "CCCCC")]
    source = Source(io.BytesIO(coded.as_file([*fixes, *(line[:-1] for line in coded.KHWD)])), "cycle.txt")
    list(source.airports())
    assert (source.positions.count, source.counts["positions beyond the limit"]) == (2, 1)
    assert (len(source.faults), source.counts["faults"]) == (2, len(coded.KHWD))


@pytest.mark.parametrize("pack", [gzip.compress, zipped])
def test_compressed_file_must_be_unpacked(pack, tmp_path, capsys):
    (tmp_path / "cycle").write_bytes(pack(coded.as_file(coded.KHWD)))
    assert main([str(tmp_path / "cycle"), "--all-lpv", "--quiet", "--out", str(tmp_path / "out")]) == 2
    assert "a compressed file; allowed: plain text, one record a line. Unpack it first." in capsys.readouterr().err
    assert not (tmp_path / "out").exists()
