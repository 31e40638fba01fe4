"""Path point records: published ones bit for bit, every kind of fault, writing, the command."""

import tomllib
from dataclasses import replace
from pathlib import Path

import pytest
from arinc424 import Record
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DataError
from lpv.fas.block import decode, encode, remainder_hex
from lpv.fas.path_point import PathPoint, collect, main, read, write
from lpv.fas.path_point_columns import (
    CONTINUATION,
    PRIMARY,
    Column,
    angle_text,
    columns_of_segment,
    height_m,
    height_text,
    read_columns,
    remainder_of_columns,
    segment_of_columns,
    steps_of_angle,
    write_columns,
)
from lpv.fas.path_point_reader import MAX_FAULTS, looks_like_path_point

PUBLISHED = tomllib.loads((Path(__file__).parents[2] / "reference" / "path_point.toml").read_text("utf-8"))
FIVE = [(case["arguments"]["texts"], case["expected"]) for case in PUBLISHED["case"]]
KHWD = PUBLISHED["records"]["khwd_primary"]
KHWD_MORE = PUBLISHED["records"]["khwd_continuation"]
BOTH = KHWD + "\n" + KHWD_MORE + "\n"


def record(texts, remainder, **other):
    """A primary record put together column after column; what the published table leaves out is filler."""
    t = {"region": "K0", "number": "00000", "cycle": "0101", **texts, **other}
    return (
        f"SUSAP {t['airport']:4}{t['region']}PR{t['runway'][2:]:5}{t['runway']:5}{t['operation_type']}1"
        f"{t['route_indicator']}{t['sbas_provider']}{t['reference_path_data_selector']}{t['reference_path_id']}"
        f"{t['performance_designator']}{t['ltp_latitude']}{t['ltp_longitude']}{t['ltp_height']}{t['gpa']}"
        f"{t['fpap_latitude']}{t['fpap_longitude']}{t['course_width']}{t['length_offset']}{t['tch']}"
        f"{t['tch_unit']}{t['hal']}{t['val']}{remainder}{t['number']}{t['cycle']}"
    )


def faults_of(text):
    with pytest.raises(DataError) as caught:
        read(text, "cycle.txt")
    return [(fault.file, fault.key, fault.found) for fault in caught.value.faults]


def at(line, first, text):
    """The record with other text from this column on (counted from 1)."""
    return line[: first - 1] + text + line[first - 1 + len(text) :]


@pytest.mark.parametrize(("texts", "remainder"), FIVE, ids=[texts["airport"] for texts, _ in FIVE])
def test_five_published_path_points_match_bit_for_bit(texts, remainder):
    line = record(texts, remainder)
    [point] = read(line)
    assert isinstance(point, PathPoint)
    assert point.computed_remainder == point.printed_remainder == remainder
    assert point.remainder_holds
    assert remainder_of_columns(texts) == remainder_hex(encode(point.segment)) == remainder
    assert decode(encode(point.segment)) == point.segment
    assert write(point) == line + "\n"
    assert point.segment.is_lp == (texts["airport"] == "67L")
    assert point.segment.tch_ft == int(texts["tch"]) / 10


def test_published_record_rebuilt_from_fields():
    texts, remainder = FIVE[-1]
    assert record(texts, remainder, region="K2", number="10891", cycle="1212") == KHWD


def test_khwd_with_continuation():
    [point] = read("HDR01\n" + BOTH)
    assert (point.airport, point.icao_region, point.approach, point.runway) == ("KHWD", "K2", "R28L", "RW28L")
    assert (point.level_of_service, point.sbas_channel, point.cycle) == ("LPV", 40330, "1212")
    assert (point.fpap_orthometric_height_m, point.ltp_orthometric_height_m) == (15.2, 15.2)
    assert point.fpap_ellipsoid_height_m is None
    assert point.line_number == 2
    assert point.segment.ltp_height_m == -17.2
    assert (point.segment.runway_number, point.segment.runway_letter) == (28, "L")
    assert point.segment.ltp_latitude_deg == pytest.approx(37 + 39 / 60 + 18.6640 / 3600, abs=1e-12)
    assert point.segment.fpap_longitude_deg == pytest.approx(-(122 + 8 / 60 + 30.4530 / 3600), abs=1e-12)
    assert write(point) == BOTH


def test_matches_arinc424_library():
    primary, continuation = Record(), Record()
    assert primary.read(KHWD)
    assert continuation.read(KHWD_MORE)
    theirs = {field.name: field.value for field in primary.fields + continuation.fields}
    [point] = read(BOTH)
    segment = point.segment
    assert segment.airport == theirs["Airport Identifier"].strip()
    assert point.approach == theirs["Approach Procedure Ident"].strip()
    assert point.runway == theirs["Runway or Helipad Ident"].strip()
    assert segment.operation_type == int(theirs["Operation Type"])
    assert segment.sbas_provider == int(theirs["SBAS Service Provider Ident"])
    assert segment.reference_path_data_selector == int(theirs["Reference Path Data Selector"])
    assert segment.reference_path_id == theirs["Reference Path Identifier"]
    assert segment.performance_designator == int(theirs["Approach Performance Designator"])
    assert angle_text(segment.ltp_latitude_deg, "NS", 2) == theirs["Landing Threshold Point Latitude"]
    assert angle_text(segment.ltp_longitude_deg, "EW", 3) == theirs["Landing Threshold Point Longitude"]
    assert angle_text(segment.fpap_latitude_deg, "NS", 2) == theirs["Flight Path Alignment Point Latitude"]
    assert angle_text(segment.fpap_longitude_deg, "EW", 3) == theirs["Flight Path Alignment Point Longitude"]
    assert segment.ltp_height_m == int(theirs["(LTP) Ellipsoid Height"]) / 10
    assert segment.gpa_deg == int(theirs["Glide Path Angle"]) / 100
    assert segment.course_width_m == int(theirs["Course Width at Threshold Note 4"]) / 100
    assert segment.length_offset_m == int(theirs["Length Offset"])
    assert (segment.tch, segment.tch_unit) == (int(theirs["Path Point TCH"]) / 10, "ft")
    assert theirs["TCH Units Indicator"] == "F"
    assert (segment.hal_m, segment.val_m) == (int(theirs["HAL"]) / 10, int(theirs["VAL"]) / 10)
    assert point.printed_remainder == theirs["SBAS FAS Data CRC Remainder"]
    assert point.cycle == theirs["Cycle Date"]
    assert point.level_of_service == theirs["Approach Type Identifier"].strip()
    assert point.sbas_channel == int(theirs["GNSS Channel Number"])
    assert point.ltp_orthometric_height_m == int(theirs["(LTP) Orthometric Height"]) / 10
    assert point.fpap_orthometric_height_m == int(theirs["(FPAP) Orthometric Height"]) / 10


def test_unread_continuation_content_kept():
    text = KHWD + "\n" + at(KHWD_MORE, 72, "284") + "\n"
    [point] = read(text)
    assert point.other.strip() == "284"
    assert write(point) == text


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r", "\n\n"])
def test_line_endings(end):
    text = end.join([KHWD, KHWD_MORE])
    assert read(text) == read(text + end) == read(BOTH)


def test_other_records_skipped():
    others = [
        "", "HDR01FAACIFP18", "SUSAP KHWDK2SRW28LK2PG", "SUSAPNKHWDK2PNDB", "SUSAP KHWDK2",
        KHWD[:12] + "G" + KHWD[13:], "SUSAER       PLINE", "é" * 132, "S" * 10_000,
    ]
    assert not any(map(looks_like_path_point, others))
    assert read("\n".join(others)) == []
    assert [point.line_number for point in read("\n".join([*others, BOTH]))] == [len(others) + 1]


@pytest.mark.parametrize(("first", "text", "place"), [
    (2, "U1A", "columns 2-4 (area)"), (7, "KH D", "columns 7-10 (airport)"), (11, "2K", "columns 11-12 (ICAO region)"),
    (14, " 28L", "columns 14-19 (approach)"), (20, "RW37L", "columns 20-24 (runway)"),
    (20, "RW00 ", "columns 20-24 (runway)"), (20, "RW28T", "columns 20-24 (runway)"),
    (25, "0 ", "columns 25-26 (operation type)"), (25, "16", "columns 25-26 (operation type)"),
    (28, "1", "column 28 (route indicator)"), (29, "16", "columns 29-30 (SBAS provider)"),
    (31, "49", "columns 31-32 (reference path data selector)"),
    (33, "W 8A", "columns 33-36 (reference path identifier)"),
    (33, "    ", "columns 33-36 (reference path identifier)"),
    (37, "8", "column 37 (approach performance designator)"), (38, "X", "columns 38-48 (LTP latitude)"),
    (38, "N90", "columns 38-48 (LTP latitude)"),
    (38, "N3760", "columns 38-48 (LTP latitude)"), (48, "3", "columns 38-48 (LTP latitude)"),
    (49, "W18206", "columns 49-60 (LTP longitude)"), (61, "00172", "columns 61-66 (LTP height above the ellipsoid)"),
    (61, "+60416", "columns 61-66 (LTP height above the ellipsoid)"), (67, "9001", "columns 67-70 (glidepath angle)"),
    (71, "N3539", "columns 71-81 (FPAP latitude)"), (82, "W12007", "columns 82-93 (FPAP longitude)"),
    (94, "10674", "columns 94-98 (course width at the threshold)"), (99, "1225", "columns 99-102 (length offset)"),
    (99, "    ", "columns 99-102 (length offset)"), (103, "032768", "columns 103-108 (TCH)"),
    (109, "X", "column 109 (TCH unit)"), (110, "401", "columns 110-112 (HAL)"), (113, "510", "columns 113-115 (VAL)"),
    (116, "4022 B2E", "columns 116-123 (CRC remainder)"), (124, "1089A", "columns 124-128 (file record number)"),
    (129, "1215", "columns 129-132 (cycle)"), (129, "2000", "columns 129-132 (cycle)"),
    (67, "٣", "columns 67-70 (glidepath angle)"),
])
def test_column_fault_names_column(first, text, place):
    faults = faults_of("HDR\n" + at(KHWD, first, text) + "\n" + at(KHWD_MORE, first, text if first < 27 else ""))
    assert ("cycle.txt", f"line 2, {place}") in [(file, key) for file, key, _ in faults]
    assert len(faults) == (2 if first < 24 or text == "0 " else 1)


@pytest.mark.parametrize(("first", "text", "place"), [
    (28, "P", "column 28 (application type)"), (27, "3", "column 27 (continuation number)"),
    (29, "00001 ", "columns 29-34 (FPAP height above the ellipsoid)"),
    (35, "00152 ", "columns 35-40 (FPAP orthometric height)"), (41, "+1520 ", "columns 41-46 (LTP orthometric height)"),
    (47, " LPV", "columns 47-56 (level of service)"), (57, "4033 ", "columns 57-61 (SBAS channel)"),
    (129, "0015", "columns 129-132 (cycle)"),
])
def test_continuation_fault(first, text, place):
    assert [key for _, key, _ in faults_of(KHWD + "\n" + at(KHWD_MORE, first, text))] == [f"line 2, {place}"]


def test_all_file_faults_reported_together():
    text = "\n".join([
        at(at(KHWD, 38, "X"), 109, "X"),
        KHWD_MORE,
        at(KHWD, 20, "RW28R")[:-1],
        at(KHWD_MORE, 20, "RW28R"),
        at(KHWD, 20, "RW10 ").lower(),
        at(KHWD_MORE, 20, "RW10 "),
        at(at(KHWD, 20, "RW10L"), 67, "9900"),
        at(KHWD_MORE, 20, "RW11 "),
    ])
    assert [key for _, key, _ in faults_of(text)] == [
        "line 1, columns 38-48 (LTP latitude)", "line 1, column 109 (TCH unit)", "line 3", "line 5",
        "line 7, columns 67-70 (glidepath angle)", "line 8",
    ]


@pytest.mark.parametrize(("text", "words"), [
    (KHWD_MORE + "\n" + KHWD, "without its primary record before it"),
    (KHWD_MORE, "without its primary record before it"),
    (BOTH + KHWD, "a second primary record"),
    (BOTH + KHWD_MORE, "a second continuation"),
    (KHWD[:-1], "131 columns"), (KHWD + " ", "133 columns"), (" " + KHWD, "133 columns"),
    ("\ufeff" + KHWD, "133 columns"),
    (KHWD[:20], "20 columns"), (KHWD + "x" * 5000, "5132 columns"),
    (KHWD.lower(), "lower-case letters"), (KHWD.replace("W28A", "w28a"), "lower-case letters"),
])
def test_form_and_order_faults(text, words):
    [(_, _, action)] = faults_of(text)
    assert words in action


def test_two_approaches_to_runway_are_two_path_points():
    second = at(KHWD, 14, "R28LZ ")
    assert [point.approach for point in read("\n".join([KHWD, KHWD_MORE, second]))] == ["R28L", "R28LZ"]


def test_same_path_point_with_or_without_later_continuation():
    other = at(KHWD, 7, "KXXX")
    first, second = read("\n".join([KHWD, other, KHWD_MORE]))
    assert (first.sbas_channel, second.sbas_channel, second.level_of_service) == (40330, None, None)
    [blank] = read(KHWD + "\n" + at(KHWD_MORE, 35, " " * 30))
    assert (blank.sbas_channel, blank.level_of_service, blank.ltp_orthometric_height_m) == (None, None, None)
    assert write(blank) == KHWD + "\n" + at(KHWD_MORE, 35, " " * 30) + "\n"


def metres(count, remainder="00000000"):
    return at(at(at(KHWD, 103, f"{count:06d}"), 109, "M"), 116, remainder)


def test_tch_unit_inferred_from_remainder():
    segment = replace(read(KHWD)[0].segment, tch=10.65, tch_unit="m")
    remainder = remainder_hex(encode(segment))
    for line in (metres(213, remainder), metres(1065, remainder)):
        [point] = read(line)
        assert point.segment == segment
        assert point.remainder_holds
    assert write(read(metres(213, remainder))[0]) == metres(213, remainder) + "\n"
    assert write(read(metres(1065, remainder))[0]) == metres(213, remainder) + "\n"
    [unfitting] = read(metres(213))
    assert unfitting.segment == segment
    assert not unfitting.remainder_holds
    assert read(metres(163835))[0].segment.tch == 1638.35
    assert [key for _, key, _ in faults_of(metres(163840))] == ["line 1, columns 103-108 (TCH)"]


def test_fpap_across_date_line_and_southern_western_signs():
    line = at(at(at(KHWD, 38, "S0000000005"), 49, "E17959595000"), 71, "N0000000005")
    line = at(line, 82, "W17959595000")
    [point] = read(line)
    assert point.segment.delta_fpap_latitude_deg == 2 / 7200000
    assert point.segment.delta_fpap_longitude_deg == 2000 / 7200000
    assert write(point) == line + "\n"


def test_angles_and_heights_round_trip():
    for text, letters, digits in (("N3739186640", "NS", 2), ("W12206531315", "EW", 3), ("S0000000005", "NS", 2)):
        assert angle_text(steps_of_angle(text) / 7200000, letters, digits) == text
    assert angle_text(0.0, "NS", 2) == "N0000000000"
    assert angle_text(-180.0, "EW", 3) == "W18000000000"
    assert [height_text(height_m(text)) for text in ("+01961", "-00172", "+00000")] == ["+01961", "-00172", "+00000"]


def test_columns_tile_record_without_overlap():
    for columns in (PRIMARY, CONTINUATION):
        covered = [number for column in columns for number in range(column.first, column.last + 1)]
        assert sorted(covered) == list(range(1, 133))
        assert all(isinstance(column, Column) for column in columns)
    texts, faults = read_columns(KHWD, PRIMARY, "f", "line 1")
    assert faults == []
    assert write_columns(texts, PRIMARY) == KHWD
    assert columns_of_segment(segment_of_columns(texts)).items() <= {k: v.rstrip() for k, v in texts.items()}.items()


@pytest.mark.parametrize("change", [
    {"airport": "KSQL"}, {"runway": "RW28R"}, {"sbas_channel": 123456}, {"level_of_service": "lpv"},
    {"continuation_cycle": ""}, {"cycle": "9999"}, {"printed_remainder": "4022"}, {"area": "U\nA"},
    {"area": "U\n"}, {"approach": ""},
    {"ltp_orthometric_height_m": 15.25}, {"ltp_orthometric_height_m": 1e6}, {"record_number": "1"},
])
def test_unreadable_output_not_written(change):
    with pytest.raises(DataError) as caught:
        write(replace(read(BOTH)[0], **change))
    assert caught.value.faults


def test_faults_counted_to_limit_rest_reported_unread():
    points, faults = collect([KHWD, *[KHWD] * (MAX_FAULTS + 5)])
    assert len(points) == 1
    assert len(faults) == MAX_FAULTS + 1
    assert "The rest was not read" in str(faults[-1])


def test_lines_read_one_by_one():
    taken = 0

    def endless():
        nonlocal taken
        while True:
            taken += 1
            yield KHWD

    collect(endless())
    assert taken == MAX_FAULTS + 1


@given(st.text(max_size=300))
@settings(max_examples=100)
def test_random_text_raises_only_data_error(text):
    for whole in (text, KHWD[:13] + text, KHWD + text, BOTH + text):
        try:
            read(whole)
        except DataError as error:
            assert error.faults  # noqa: PT017 (not raising is good too)


@given(st.sampled_from([0, 1]), st.integers(13, 131), st.text("0123456789 ABFMNSEW+-x~\x00é٣", min_size=1, max_size=6))
@settings(max_examples=300)
def test_altered_record_never_misread(which, column, text):
    lines = [KHWD, KHWD_MORE]
    lines[which] = (lines[which][:column] + text + lines[which][column + len(text) :])[:132]
    try:
        points = read("\n".join(lines))
    except DataError as error:
        assert error.faults  # noqa: PT017 (not raising is good too)
        return
    # A column of the segment altered without a fault shows in the remainder.
    if points[0].segment != read(KHWD)[0].segment:
        assert not points[0].remainder_holds


def test_command_prints_table(tmp_path, capsys):
    file = tmp_path / "cycle.txt"
    file.write_text("HDR01\n" + BOTH + record(*FIVE[2]) + "\n", newline="\r\n")
    assert main([str(file)]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    heading, khwd, mesquite = out.splitlines()
    assert heading.split()[:3] == ["airport", "runway", "approach"]
    assert khwd.split() == [
        "KHWD", "RW28L", "R28L", "W28A", "LPV", "40330", "3.10", "35.0", "ft", "106.75", "1224", "40.0", "50.0",
        "1212", "2", "ok", "40227B2E",
    ]
    assert "LP (VAL 0)" in mesquite
    assert mesquite.endswith("ok B665C2A7")


def test_command_fails_on_wrong_remainder_and_faults(tmp_path, capsys):
    file = tmp_path / "cycle.txt"
    file.write_text(at(KHWD, 67, "0300") + "\n" + at(KHWD_MORE, 57, "4O330") + "\n")
    assert main([str(file)]) == 1
    out, err = capsys.readouterr()
    assert "fails: 40227B2E printed, " in out
    assert "cycle.txt: line 2, columns 57-61 (SBAS channel): found '4O330'" in err
    assert "line 1: the remainder of KHWD RW28L R28L fails" in err


def test_command_fails_on_empty_or_unreadable_files(tmp_path, capsys):
    (tmp_path / "empty.txt").write_bytes(b"")
    (tmp_path / "binary.txt").write_bytes(bytes(range(256)) * 50)
    (tmp_path / "wide.txt").write_text(BOTH, encoding="utf-16")
    (tmp_path / "good.txt").write_text(BOTH, encoding="utf-8-sig")
    for name in ("empty", "binary", "wide"):
        assert main([str(tmp_path / f"{name}.txt"), str(tmp_path / "good.txt")]) == 1
        out, err = capsys.readouterr()
        assert f"{name}.txt: no path point record found" in err
        assert "ok 40227B2E" in out
    assert main([str(tmp_path / "missing.txt"), str(tmp_path)]) == 2
    told = capsys.readouterr().err
    assert (told.count("found no such file or folder"), told.count("found a folder")) == (1, 1)
