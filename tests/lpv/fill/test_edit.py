"""Values put into the text of a file: the whole text after each, as somebody would have written it."""

import tomllib
from datetime import date
from types import SimpleNamespace as Stub

from lpv.fill import carry, edit, worklist

DAY, LATER = date(2026, 11, 30), date(2026, 12, 1)
TEXT = """# Head.
[chart]  # as printed
course_deg = 92
to_be_filled = [
    "tdze_ft",
    "minima",
    "missed.altitude_ft",
]

[chart.missed]
instruction = "Climb."  # words

[[read_again]]
key = "tdze_ft"
cycle = "2612"

[[filled]]
keys = ["notes", "tdze_ft"]
filled_by = "Old"
filled_on = 2026-01-01
"""
ROW = '\n[[filled]]\nkeys = [\n  "{}",\n]\nfilled_by = "New"\nfilled_on = 2026-11-30\n'


def without(text, *lines):
    for line in lines:
        assert line in text
        text = text.replace(line, "", 1)
    return text


def plain(text):
    """A text in which no row needs to be split."""
    return text.replace('["notes", "tdze_ft"]', '["notes"]')


def test_value_goes_below_heading():
    made = edit.with_value(plain(TEXT), "tdze_ft", 812, "New", DAY)
    expected = without(plain(TEXT), '    "tdze_ft",\n', '[[read_again]]\nkey = "tdze_ft"\ncycle = "2612"\n\n')
    expected = expected.replace("[chart]  # as printed\n", "[chart]  # as printed\ntdze_ft = 812\n")
    assert made == expected + ROW.format("tdze_ft")


def test_value_of_inner_table_goes_below_that():
    made = edit.with_value(plain(TEXT), "missed.altitude_ft", 3000, "New", DAY)
    expected = without(plain(TEXT), '    "missed.altitude_ft",\n')
    assert made == expected.replace("[chart.missed]\n", "[chart.missed]\naltitude_ft = 3000\n") + ROW.format(
        "missed.altitude_ft")


def test_value_absent_from_chart_leaves_list():
    made = edit.with_value(plain(TEXT), "minima", None, "New", DAY)
    assert made == without(plain(TEXT), '    "minima",\n') + ROW.format("minima")


def test_list_goes_with_last_key():
    lines = 'a = 1\n[chart]\nto_be_filled = [\n  "notes",\n]\nx = 1\n'
    made = edit.with_value(lines, "notes", "N", "New", DAY)
    assert made == 'a = 1\n[chart]\nnotes = "N"\nx = 1\n' + ROW.format("notes")


def test_rows_of_minima_stand_behind_all_else():
    made = edit.with_value(plain(TEXT), "minima", [{"line": "LPV", "altitude_ft": 1100}], "New", DAY)
    expected = without(plain(TEXT), '    "minima",\n')
    assert made == expected + '\n[[chart.minima]]\nline = "LPV"\naltitude_ft = 1100\n' + ROW.format("minima")


def test_rows_about_several_keys_split():
    tables = tomllib.loads(edit.with_value(TEXT, "tdze_ft", 812, "New", DAY))
    assert tables["filled"] == [{"keys": ["notes"], "filled_by": "Old", "filled_on": date(2026, 1, 1)},
                                {"keys": ["tdze_ft"], "filled_by": "New", "filled_on": DAY}]
    assert tables["chart"]["to_be_filled"] == ["minima", "missed.altitude_ft"]
    assert "read_again" not in tables
    assert edit.with_value(TEXT, "tdze_ft", 812, "New", DAY).startswith("# Head.\n\n"), "written anew below its head"


def test_text_written_in_another_way_written_anew():
    text = '# Head.\nchart = {course_deg = 92, to_be_filled = ["tdze_ft"]}  # lost\n'
    made = edit.with_value(text, "tdze_ft", 812, "New", DAY)
    assert made.startswith("# Head.\n\n")
    assert "# lost" not in made
    assert tomllib.loads(made) == {"chart": {"course_deg": 92, "tdze_ft": 812}, "filled": [
        {"keys": ["tdze_ft"], "filled_by": "New", "filled_on": DAY}]}


def test_other_rows_to_read_again_stay():
    text = plain(TEXT) + '\n[[read_again]]\nkey = "notes"\ncycle = "2612"\n'
    made = tomllib.loads(edit.with_value(text, "tdze_ft", 812, "New", DAY))
    assert made["read_again"] == [{"key": "notes", "cycle": "2612"}]
    rows = [{"keys": ["a", "b"]}, {"keys": ["a"]}, {"key": "a"}, {"key": "b"}, {"keys": ["b"]}]
    assert edit._without(rows, "a") == [{"keys": ["b"]}, {"key": "b"}, {"keys": ["b"]}]


def test_second_person_added_to_row_of_one_key():
    made = edit.with_verification(plain(TEXT), "notes", "Second", LATER)
    assert made == plain(TEXT) + 'verified_by = "Second"\nverified_on = 2026-12-01\n\n'


def test_second_person_of_one_key_of_several():
    made = edit.with_verification(TEXT, "tdze_ft", "Second", LATER)
    assert tomllib.loads(made)["filled"] == [
        {"keys": ["notes"], "filled_by": "Old", "filled_on": date(2026, 1, 1)},
        {"keys": ["tdze_ft"], "filled_by": "Old", "filled_on": date(2026, 1, 1), "verified_by": "Second",
         "verified_on": LATER}]
    assert {key: value for key, value in tomllib.loads(made).items() if key != "filled"} == {
        key: value for key, value in tomllib.loads(TEXT).items() if key != "filled"}


def test_text_without_list_kept_as_it_is():
    assert edit._unlisted("[chart]\nx = 1\n", "notes") == "[chart]\nx = 1\n"
    assert edit._inserted("x = 1\n", "notes", "N") == "x = 1\n"


def test_previous_text_cut_to_limit():
    for length, was in ((carry.LONGEST_WAS, "x" * carry.LONGEST_WAS),
                        (carry.LONGEST_WAS + 1, "x" * (carry.LONGEST_WAS - 3) + "...")):
        carried = Stub(tables={})
        carry._again(carried, "notes", "2612", "record", "x" * length)
        assert carried.tables == {"read_again": [{"key": "notes", "cycle": "2612", "because": "record", "was": was}]}
    carry._again(carried, "tdze_ft", "2612", "record", "")
    assert carried.tables["read_again"][1] == {"key": "tdze_ft", "cycle": "2612", "because": "record"}


def test_worklist_in_words():
    fill, again, verify = worklist.FILL, worklist.READ_AGAIN, worklist.VERIFY
    rows = (("a", "notes", fill), ("a", "minima", again, "record", "old"), ("b", "notes", fill),
            ("b", "tdze_ft", verify))
    tasks = [worklist.Task(slug, "ZZAA", "RNAV", *row) for slug, *row in rows]
    assert worklist.as_text(tasks, 5).split("\n") == [
        "2 of 5 approaches are not finished: 4 values.", f"{fill}: 2 notes", f"{again}: 1 minima",
        f"{verify}: 1 tdze_ft", "", "ZZAA RNAV (a)", f"  {again}: minima (record changed, was old)", f"  {fill}: notes",
        "", "ZZAA RNAV (b)", f"  {fill}: notes", f"  {verify}: tdze_ft"]
