"""Approach files: the demo reads, and every fault of a bad file comes back with file and key."""

import datetime
import re
import tomllib
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from approach_variants import demo, with_chart
from demo import approaches as make_demo
from lpv.approach.database import SegmentFields, held_block, held_path_point
from lpv.approach.record import Approach, read, read_all, read_text
from lpv.approach.schema import cycle_ident
from lpv.core.errors import DataError, DomainError
from lpv.fas.block import decode, encode
from lpv.fas.layout import LAYOUT
from lpv.files import schema
from lpv.files.toml_writer import toml_text

FOLDER = make_demo.FOLDER
GOOD = (FOLDER / "zzak-rnav-09.toml").read_text("utf-8")
FIELDS = (FOLDER / "zzak-rnav-27.toml").read_text("utf-8")
RECORD = (FOLDER / "zzhc-rnav-33.toml").read_text("utf-8")
BLOCK = next(line for line in GOOD.splitlines() if line.startswith("block"))


def keys(text):
    with pytest.raises(DataError) as caught:
        read_text(text, "bad.toml")
    assert all(fault.file == "bad.toml" and fault.found and fault.allowed for fault in caught.value.faults)
    return [fault.key for fault in caught.value.faults]


def changed(old, new, text=GOOD):
    assert old in text
    return text.replace(old, new, 1)


def test_committed_demo_matches_generator():
    made = make_demo.files()
    there = {path for folder in (".", "drafts", "previous") for path in (FOLDER / folder).glob("*.toml")}
    assert there == set(made)
    assert all(path.read_text("utf-8") == text for path, text in made.items())


def test_demo_invented_and_sorted():
    approaches = read_all(FOLDER)
    assert [approach.slug for approach in approaches] == [
        "zzak-rnav-09", "zzak-rnav-16", "zzak-rnav-27", "zzeg-rnp-24", "zzhc-rnav-33",
    ]
    assert all(approach.identity.invented for approach in approaches)
    assert all(approach.identity.airport.startswith("ZZ") for approach in approaches)
    assert len({approach.identity.airport for approach in approaches}) == 3
    assert len({approach.identity.channel for approach in approaches}) == 5


def test_drafts_read_only_from_draft_folder():
    assert [approach.slug for approach in read_all(FOLDER / "drafts")] == ["zzak-rnav-09-draft"]
    assert "draft" not in "".join(approach.slug for approach in read_all(FOLDER))


def test_file_becomes_approach():
    approach = read(FOLDER / "zzak-rnav-09.toml")
    assert approach.identity.title == "RNAV (GPS) RWY 09"
    assert approach.pfaf.name == "GULLY"
    assert [fix.name for fix in approach.final_fixes] == ["GULLY", "FOMEY", "RW09"]
    first = approach.chart.minima[0]
    assert (first.line, first.altitude_ft) == ("LPV", 224)
    assert approach.chart.missed.instruction.startswith("Climb")
    assert approach.database.effective == datetime.date(2026, 11, 26)
    assert approach.segment.reference_path_id == "W09A"
    assert approach.true_course_deg == pytest.approx(103.6, abs=1e-3)


@pytest.mark.parametrize(("text", "form"), [(GOOD, "data block"), (FIELDS, "fields"), (RECORD, "path point record")])
def test_segment_accepted_in_three_forms(text, form):
    held = read_text(text).held
    assert held.form == form
    assert held.stored in ("", held.computed)
    assert decode(encode(held.segment)) == held.segment


def test_named_fields_equal_block_fields():
    assert set(schema.entries(SegmentFields)) == {row.name for row in LAYOUT} | {
        "fpap_latitude_deg", "fpap_longitude_deg"}


def test_damaged_block_left_for_crosscheck():
    held = read(FOLDER / "drafts" / "zzak-rnav-09-draft.toml").held
    assert held.stored != held.computed
    assert held_block(BLOCK.split('"')[1]).stored == read_text(GOOD).held.stored


def test_all_faults_of_bad_file_reported_together():
    text = changed("channel = 99901", 'channel = "99901"')
    text = changed("variation_deg = 12", "variaton_deg = 12", text)
    text = changed('airport_name = "Kittiwake Bank"', 'airport_name = "<b>Kittiwake</b>"', text)
    text = changed("runway_length_ft = 10000\n", "", text)
    text = changed('latitude = "N34', 'latitude = "N91', text)
    text = changed("altitude_ft = 2500", "altitude_m = 762", text)
    text = changed(BLOCK, BLOCK.replace("00", "", 1), text)
    faulty_keys = keys(text)
    assert faulty_keys == [
        "identity.airport_name", "identity.channel", "chart.variaton_deg", "chart.variation_deg",
        "chart.runway_length_ft", "chart.fix[1].latitude", "chart.fix[2].altitude_m", "database.block",
    ]


@pytest.mark.parametrize(("old", "new", "key"), [
    (BLOCK, BLOCK.replace("0", "G", 1), "database.block"),
    (BLOCK, "block = 7", "database.block"),
    (BLOCK, "", "database"),
    (BLOCK, BLOCK + '\npath_point = ["S"]', "database.path_point"),
    ('name = "SWELO"', 'name = "BRYNA"', "chart.fix[2].name"),
    ('airport = "ZZAK"', 'airport = "zzak"', "identity.airport"),
    ('airport = "ZZAK"', 'airport = "ZZ\\u202eAK"', "identity.airport"),
    ('runway = "09"', 'runway = "37"', "identity.runway"),
    ('runway = "09"', "runway = 9", "identity.runway"),
    ('path_id = "W09A"', 'path_id = "W9A"', "identity.path_id"),
    ('cycle = "2612"', 'cycle = "2615"', "identity.cycle"),
    ('cycle = "2612"', "cycle = 2612", "identity.cycle"),
    ('rule = "FAA"', 'rule = "US"', "identity.rule"),
    ('level_of_service = "LPV"', 'level_of_service = "LNAV"', "identity.level_of_service"),
    ("course_deg = 92", "course_deg = nan", "chart.course_deg"),
    ("tch_ft = 52", "tch_ft = inf", "chart.tch_ft"),
    ("tch_ft = 52", "tch_ft = true", "chart.tch_ft"),
    ("tch_ft = 52\n", "", "chart.tch_ft"),
    ("tdze_ft = 24\n", "", "chart.tdze_ft"),
    ('kind = "DA"', 'kind = "MDA"', "chart.minima[1].kind"),
    ("rvr_ft = 2400", "rvr_ft = 2400\nvisibility_sm = 0.5", "chart.minima[1]"),
    ('categories = "ABCD"', 'categories = "CB"', "chart.minima[1].categories"),
    ('role = "PFAF"', 'role = "IF"', "chart.fix"),
    ('role = "IAF"', 'role = "IAF"\nleg_from = "NOONE"', "chart.fix[1].leg_from"),
    ('role = "IAF"', 'role = "IAF"\nleg_course_deg = 1', "chart.fix[1]"),
    ('altitude_rule = "at or above"\n', "", "chart.fix[1].altitude_rule"),
    ("effective = 2026-11-26", 'effective = "tomorrow"', "database.effective"),
    ('longitude = "W148 14', 'longitude = "E032 14', "chart.fix[1]"),  # over the pole: 112 degrees, 6,700 NM
])
def test_fault_names_its_key(old, new, key):
    assert key in keys(changed(old, new))


def test_far_fix_refused_only_when_impossible():
    """W068 14 is 80 degrees of longitude, some 3,900 NM, east of the demo's field; W038 is 110 degrees, 5,100 NM."""
    read_text(changed('longitude = "W148 14', 'longitude = "W068 14'), "a.toml")
    assert keys(changed('longitude = "W148 14', 'longitude = "W038 14')) == ["chart.fix[1]"]


LPV_LINE = GOOD[GOOD.index("[[chart.minima]]"):GOOD.index("[[chart.minima]]", GOOD.index("[[chart.minima]]") + 1)]


def with_lpv_lines(*categories):
    """The good file with its LPV line once for each of these categories."""
    return changed(LPV_LINE, "".join(LPV_LINE.replace('"ABCD"', f'"{letters}"') for letters in categories))


def test_category_unique_within_line_of_minima():
    assert len(read_text(with_lpv_lines("AB", "CD")).chart.minima) == len(read_text(GOOD).chart.minima) + 1
    with pytest.raises(DataError) as caught:
        read_text(with_lpv_lines("AB", "BC", "CD", "E"), "bad.toml")
    assert [(fault.key, fault.found, fault.allowed) for fault in caught.value.faults] == [
        ("chart.minima[2].categories", "B under LPV again", "each category once under LPV"),
        ("chart.minima[3].categories", "C under LPV again", "each category once under LPV"),
    ]
    assert keys(with_lpv_lines("ABCD", "ABCD")) == ["chart.minima[2].categories"]


def test_map_before_pfaf():
    text = changed('role = "PFAF"', 'role = "x"').replace('role = "MAP"', 'role = "PFAF"')
    assert "chart.fix" in keys(text.replace('role = "x"', 'role = "MAP"'))


def test_named_fields_checked_against_layout():
    assert keys(changed("gpa_deg = 3.0", "gpa_deg = 3.005", FIELDS)) == ["database.segment.gpa_deg"]
    assert keys(changed("val_m = 0.0", "val_m = 60.0", FIELDS)) == ["database.segment.val_m"]
    assert keys(changed("hal_m = 40.0\n", "", FIELDS)) == ["database.segment.hal_m"]


def test_segment_without_direction():
    text = changed("delta_fpap_latitude_deg = 0.006457222", "delta_fpap_latitude_deg = 0", FIELDS)
    text = changed("delta_fpap_longitude_deg = -0.032075278", "delta_fpap_longitude_deg = 0", text)
    assert keys(text) == ["database"]


def test_path_point_record_checked():
    assert keys(changed("SZZZP ZZHC", "SZZZP ZZ", RECORD)) == ["database.path_point"]
    for lines in ([], ["x"], [1], "text", None):
        with pytest.raises((DataError, DomainError)):
            held_path_point(lines)


def test_cycle_is_four_digit_text():
    assert cycle_ident("2612") == "2612"
    for wrong in (2612, "26", "2600", None):
        with pytest.raises(DomainError):
            cycle_ident(wrong)


def test_files_with_other_faults(tmp_path):
    (tmp_path / "empty.toml").write_text("")
    (tmp_path / "latin.toml").write_bytes(b'[identity]\nairport = "\xe9"\n')
    (tmp_path / "large.toml").write_bytes(b"#" * 10_000_000)
    (tmp_path / "broken.toml").write_text("[identity\n")
    (tmp_path / "No Address.toml").write_text(GOOD, "utf-8")
    with pytest.raises(DataError) as caught:
        read_all(tmp_path)
    assert [(fault.file, fault.found.split(" (")[0]) for fault in caught.value.faults] == [
        ("No Address.toml", "a file name that cannot be a page address"),
        ("broken.toml", "what is not TOML: Expected ']' at the end of a table declaration"),
        ("empty.toml", "an empty file"),
        ("large.toml", "10000000 bytes"),
        ("latin.toml", "bytes in line 2 that are not UTF-8"),
    ]


def test_missing_file(tmp_path):
    with pytest.raises(DataError):
        read(tmp_path / "none.toml")


LINES = GOOD.splitlines()


@settings(max_examples=60, deadline=None)
@given(st.integers(0, len(LINES) - 1), st.text(max_size=40))
def test_random_line_raises_only_data_error(number, text):
    lines = [*LINES[:number], text, *LINES[number + 1 :]]
    try:
        outcome = read_text("\n".join(lines))
    except DataError as error:
        outcome = error.faults
    assert outcome


def described(record):
    """Every entry of a record and of the records inside it."""
    for name, entry in schema.entries(record).values():
        yield name, entry
        if entry.record:
            yield from described(entry.record)


def test_every_key_described():
    entries = list(described(Approach))
    assert len(entries) > 80
    for name, entry in entries:
        assert entry.what, name
        if entry.kind in ("number", "whole"):
            assert entry.low < entry.high, name


def test_demo_names_lie_in_open_water():
    """Every position lies far from land: mid-ocean boxes, chosen by hand."""
    boxes = {"ZZAK": (33, 35, -150, -146), "ZZHC": (49, 51, -146, -144), "ZZEG": (44, 46, -31, -29)}
    for approach in read_all(FOLDER):
        south, north, west, east = boxes[approach.identity.airport]
        for fix in approach.chart.fixes:
            assert south < fix.latitude_deg < north
            assert west < fix.longitude_deg < east


@pytest.mark.parametrize(("north_deg", "course_deg"), [(-0.2, 180.0), (0.2, 0.0)])
def test_right_missed_approach_turn_is_positive(north_deg, course_deg):
    """A fix due south of the MAP is to the right of an easterly final, one due north to its left."""
    approach = demo()
    at = approach.final_fixes[-1]
    fixes = [
        replace(fix, latitude_deg=at.latitude_deg + north_deg, longitude_deg=at.longitude_deg)
        if fix.serves("missed", "missed hold") else fix for fix in approach.chart.fixes]
    turned = with_chart(approach, fixes=tuple(fixes)).geometry.missed_turn_deg
    assert turned == pytest.approx(course_deg - approach.true_course_deg, abs=1e-6)
    assert with_chart(approach, fixes=approach.final_fixes).geometry.missed_turn_deg is None


def as_fields(coordinates):
    """The demo approach with its segment by fields: the FPAP by differences, or by coordinates as an AIP has them."""
    good = make_demo.FOLDER / "zzak-rnav-09.toml"
    held = read(good).segment
    fields = dict(vars(held))
    if coordinates:
        del fields["delta_fpap_latitude_deg"], fields["delta_fpap_longitude_deg"]
        fields |= {"fpap_latitude_deg": coordinates[0], "fpap_longitude_deg": coordinates[1]}
    tables = tomllib.loads(good.read_text("utf-8"))
    del tables["database"]["block"]
    tables["database"]["segment"] = fields
    return toml_text(tables), held


def together(value_deg, letters, digits):
    """A coordinate as an AIP prints the data block: 340148.9440N."""
    steps = round(abs(value_deg) * 7_200_000)
    minutes, rest = divmod(steps, 120_000)
    return f"{minutes // 60:0{digits}}{minutes % 60:02}{rest / 2000:07.4f}{letters[value_deg < 0]}"


def test_fpap_coordinates_and_differences_give_same_segment():
    _, held = as_fields(None)
    printed = (together(held.fpap_latitude_deg, "NS", 2), together(held.fpap_longitude_deg, "EW", 3))
    text, _ = as_fields(printed)
    assert encode(read_text(text).segment) == encode(held)
    text, _ = as_fields((held.fpap_latitude_deg, held.fpap_longitude_deg))
    assert encode(read_text(text).segment) == encode(held)
    assert encode(read_text(as_fields(None)[0]).segment) == encode(held)


@pytest.mark.parametrize(("change", "message"), [
    (lambda text: text.replace("fpap_latitude_deg = ", "delta_fpap_latitude_deg = 0.01\nfpap_latitude_deg = ", 1),
     "fpap_latitude_deg and fpap_longitude_deg, or both differences"),
    (lambda text: re.sub("fpap_longitude_deg = .*\n", "", text), "or both differences"),
    (lambda text: re.sub("fpap_latitude_deg = .*", 'fpap_latitude_deg = "340148.94407N"', text), "arc second"),
])
def test_partial_or_off_step_fpap_refused(change, message):
    _, held = as_fields(None)
    text, _ = as_fields((together(held.fpap_latitude_deg, "NS", 2), together(held.fpap_longitude_deg, "EW", 3)))
    with pytest.raises(DataError, match=message) as caught:
        read_text(change(text))
    assert all("fpap" in fault.key for fault in caught.value.faults)
