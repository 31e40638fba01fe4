"""Filling what no coded record holds: values as cells, worklist, tables shared out and merged back, two people."""

import csv
import io
import json
from datetime import date
from difflib import unified_diff
from pathlib import Path

import pytest

import coded_records as coded
from lpv.approach import record as approach
from lpv.approach.provenance import BELONGS_TO, GROUPS, faults, unverified
from lpv.approach.schema import TO_BE_FILLED
from lpv.arinc.importer import Order, run
from lpv.core.errors import DataError, DomainError
from lpv.fill import merge as merging
from lpv.fill import worklist
from lpv.fill.edit import with_value, with_verification
from lpv.fill.merge import merge
from lpv.fill.sheet import as_csv, rows_of
from lpv.fill.values import EXAMPLES, text_of, value_of
from lpv.fill.worklist import Task, counted, read_used, tasks

SLUG = "khwd-rnav-28l"
KEYS = [key for key in TO_BE_FILLED if key != "missed"]
DAY = date(2020, 3, 1)


@pytest.fixture
def folder(tmp_path):
    run(io.BytesIO(coded.as_file(coded.KHWD)), "cycle.txt", Order(tmp_path))
    return tmp_path


def read(folder):
    return approach.read(folder / f"{SLUG}.toml")


def table(*rows, separator=","):
    """A table with these rows: key, value, filled_by, filled_on, verified_by, verified_on."""
    out = io.StringIO()
    writer = csv.writer(out, delimiter=separator)
    writer.writerow(("file", "key", "value", "filled_by", "filled_on", "verified_by", "verified_on"))
    writer.writerows((SLUG + ".toml", *row, *[""] * (6 - len(row))) for row in rows)
    return out.getvalue()


# Values as cells


@pytest.mark.parametrize(("key", "text", "value"), [
    ("tdze_ft", "52", 52), ("vnav_lowest_c", "-15", -15), ("cold_temperature_airport_c", "-12,5", -12.5),
    ("variation_year", "2015", 2015), ("tdze_ft", "None", None), ("notes", "none", None),
    ("notes", "Night NA. | Use QNH.", ["Night NA.", "Use QNH."]),
    ("lights", "MALSR 2400", {"name": "MALSR", "length_ft": 2400}),
    ("missed", "4000: Climb ahead.", {"text": "Climb ahead.", "altitude_ft": 4000}),
    ("minima", "LPV ABCD 264 hat 250 vis 0.75 SM", [
        {"line": "LPV", "kind": "DA", "categories": "ABCD", "altitude_ft": 264, "hat_ft": 250, "visibility_sm": 0.75}]),
    ("minima", "LNAV AB 480 rvr 550 m; circling CD 900", [
        {"line": "LNAV", "kind": "MDA", "categories": "AB", "altitude_ft": 480, "rvr_m": 550},
        {"line": "circling", "kind": "MDA", "categories": "CD", "altitude_ft": 900}]),
])
def test_cell_becomes_value(key, text, value):
    assert value_of(key, text) == value


@pytest.mark.parametrize(("key", "text"), [
    ("tdze_ft", "52 ft"), ("lights", "MALSR"), ("missed", "Climb ahead."), ("minima", "LPV 264"),
    ("minima", "LPV ABCD 264 vis 0.75 ft"), ("minima", "ILS ABCD 264")])
def test_invalid_cell_refused_with_example(key, text):
    with pytest.raises(DomainError, match="allowed: "):
        value_of(key, text)


def test_every_key_has_example_and_record_groups():
    assert set(EXAMPLES) == set(BELONGS_TO) == set(TO_BE_FILLED)
    assert all(set(groups) <= set(GROUPS) for groups in BELONGS_TO.values())


# The worklist


def test_missing_values_by_approach_and_field(folder):
    todo = tasks([read(folder)], {})
    assert [(task.key, task.what) for task in todo] == [(key, "fill") for key in KEYS]
    assert counted(todo)["fill"]["minima"] == 1
    assert worklist.as_text(todo, 1).startswith("1 of 1 approaches are not finished: 9 values.")


def test_worklist_text():
    who = ("zzaa-rnav-09", "ZZAA", "RNAV (GPS) RWY 09")
    todo = [Task(*who, "tdze_ft", "fill"), Task(*who, "lights", "fill"), Task(*who, "minima", "verify"),
             Task(*who, "notes", "read again", "runway", "12")]
    assert worklist.as_text(todo, 3).splitlines() == [
        "1 of 3 approaches are not finished: 4 values.",
        "fill: 1 tdze_ft, 1 lights", "read again: 1 notes", "verify: 1 minima", "",
        "ZZAA RNAV (GPS) RWY 09 (zzaa-rnav-09)",
        "  read again: notes (runway changed, was 12)", "  fill: tdze_ft, lights", "  verify: minima"]


def test_most_used_first(tmp_path):
    lines = [line for number in range(3) for line in coded.invented(number)]
    run(io.BytesIO(coded.as_file(lines)), "cycle.txt", Order(tmp_path / "out"))
    used = tmp_path / "used.csv"
    used.write_text("file,flights\nzzac-rnav-28l,120\nzzab-rnav-28l.toml,80\n")
    todo = tasks(approach.read_all(tmp_path / "out"), read_used(used))
    assert list(dict.fromkeys(task.slug for task in todo)) == ["zzac-rnav-28l", "zzab-rnav-28l", "zzaa-rnav-28l"]
    used.write_text("file,flights\nzzac-rnav-28l,many\n")
    with pytest.raises(DataError, match="line 2: found zzac-rnav-28l,many"):
        read_used(used)


def test_worklist_command(folder, capsys):
    sheet = folder / "sheet.csv"
    assert worklist.main([str(folder), "--csv", str(sheet)]) == 1
    assert "fill: 1 minima" in capsys.readouterr().out
    assert len(sheet.read_text("utf-8-sig").splitlines()) == 1 + len(KEYS)
    assert worklist.main([str(folder), "--json"]) == 1
    assert json.loads(capsys.readouterr().out)[0]["key"] == "minima"
    assert worklist.main([str(folder / "none")]) == 2
    assert worklist.main([str(folder), "--used", str(folder / "none.csv")]) == 2


# Tables


def test_table_round_trip(folder):
    text = as_csv(tasks([read(folder)], {}))
    assert rows_of(text, "sheet.csv") == ([], [])
    filled = text.replace("a number,,,,,", "a number,52,A. Reader,2020-03-01,,", 1)
    [row], wrong = rows_of(filled, "sheet.csv")
    assert (row.file, row.value, row.filled_by, wrong) == (SLUG + ".toml", "52", "A. Reader", [])


def test_no_cell_is_formula():
    text = as_csv([Task("a", "ZZAA", "=1+1", "notes", "fill", "", "-2")])
    assert ",'=1+1," in text
    assert ",'-2," in text


@pytest.mark.parametrize(("text", "words"), [
    ("", "an empty file"), ("a,b\n1,2\n", "no column file"),
    (table(("tdze_ft", "52")) + "x,y\n", "line 3: found 2 cells: 'x,y'"),
])
def test_table_faults_show_line(text, words):
    assert words in str(rows_of(text, "sheet.csv")[1][0])


# Merging


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_values_filled_and_everything_else_kept(folder, separator):
    before = (folder / f"{SLUG}.toml").read_text("utf-8").replace("[chart]\n", "[chart]\n# our comment\n")
    (folder / f"{SLUG}.toml").write_text(before, "utf-8")
    rows = [("minima", "LPV ABCD 300 vis 0.75 SM", "A", "2020-03-01"), ("tdze_ft", "52", "A", "2020-03-01"),
            ("notes", "Night NA.", "A", "2020-03-01"), ("lights", "none", "A", "2020-03-01"),
            ("missed.climb_gradient_ft_per_nm", "250", "A", "2020-03-01")]
    merged = merge(folder, [("sheet.csv", "\ufeff" + table(*rows, separator=separator))])
    assert (merged.conflicts, merged.faults) == ([], [])
    assert [what for _, _, what in merged.done] == ["filled"] * 5
    text = merged.texts[SLUG]
    assert "# our comment" in text
    made = approach.read_text(text, f"{SLUG}.toml")
    assert (made.chart.tdze_ft, made.chart.notes, made.chart.lights, made.chart.minima[0].altitude_ft) == (
        52, ("Night NA.",), None, 300)
    assert made.chart.missed.climb_gradient_ft_per_nm == 250
    assert not {row[0] for row in rows} & set(made.chart.to_be_filled)
    assert unverified(made.filled) == [row[0] for row in rows]
    assert [task.what for task in tasks([made], {}) if task.key == "tdze_ft"] == ["verify"]
    assert text_of(made, "minima") == "LPV ABCD 300 vis 0.75 SM"
    gone = [line[1:] for line in unified_diff(before.splitlines(), text.splitlines(), n=0, lineterm="")
            if line.startswith("-") and not line.startswith("---")]
    assert sorted(gone) == sorted(f'  "{row[0]}",' for row in rows)


def test_second_person_verifies(folder):
    path = folder / f"{SLUG}.toml"
    text = with_value(path.read_text("utf-8"), "tdze_ft", 52, "A. Reader", DAY)
    path.write_text(text, "utf-8")
    row = ("tdze_ft", "52", "A. Reader", "2020-03-01", "B. Reader", "2020-03-02")
    merged = merge(folder, [("sheet.csv", table(row))])
    assert ([what for _, _, what in merged.done], merged.conflicts, merged.faults) == (["verified"], [], [])
    made = approach.read_text(merged.texts[SLUG], f"{SLUG}.toml")
    assert (made.filled[0].verified_by, str(made.filled[0].verified_on), unverified(made.filled)) == (
        "B. Reader", "2020-03-02", [])
    again = with_verification(text, "tdze_ft", "B. Reader", date(2020, 3, 2))
    assert again == merged.texts[SLUG]


@pytest.mark.parametrize(("rows", "words"), [
    ([("tdze_ft", "52", "A", "2020-03-01"), ("tdze_ft", "53", "B", "2020-03-01")], "the file has '52', the table '53'"),
    ([("tdze_ft", "", "", "", "B", "2020-03-02")], "verified, but nobody filled it"),
    ([("tdze_ft", "52", "A", "2020-03-01", "B", "2020-03-02"), ("tdze_ft", "52", "A", "2020-03-01", "C", "2020-03-02")],
     "verified by B already, not by C"),
])
def test_conflicts_reported_and_nothing_overwritten(rows, words, folder):
    merged = merge(folder, [("sheet.csv", table(*rows))])
    [conflict] = merged.conflicts
    assert words in conflict
    assert conflict.startswith("sheet.csv, line ")


@pytest.mark.parametrize(("row", "words"), [
    (("tdze_ft", "52 ft", "A", "2020-03-01"), "tdze_ft: found '52 ft'"),
    (("tdze", "52", "A", "2020-03-01"), "key 'tdze'"), (("tdze_ft", "52"), "a value needs filled_by and filled_on"),
    (("tdze_ft", "52", "A", "1 March"), "allowed: YYYY-MM-DD"),
    (("tdze_ft", "52", "A", "2020-03-01", "B"), "verified_by and verified_on go together"),
    (("tdze_ft", "52000", "A", "2020-03-01"), "chart.tdze_ft"), (("minima", "none", "A", "2020-03-01"), "chart.minima"),
    (("tdze_ft", "52", "A", "2020-03-01", "a", "2020-03-02"), "a second person"),
])
def test_row_faults_name_line(row, words, folder):
    merged = merge(folder, [("sheet.csv", table(row))])
    [fault] = merged.faults
    assert words in str(fault)
    assert "line 2" in fault.key
    assert merged.texts == {}


def test_merge_command(folder, capsys):
    sheet = folder / "sheet.csv"
    sheet.write_text(table(("tdze_ft", "52", "A", "2020-03-01")), "utf-8")
    assert merging.main([str(folder), str(sheet), "--dry-run"]) == 0
    assert read(folder).chart.tdze_ft is None
    assert merging.main([str(folder), str(sheet)]) == 0
    assert read(folder).chart.tdze_ft == 52
    sheet.write_text(table(("tdze_ft", "53", "A", "2020-03-01")), "utf-8")
    assert merging.main([str(folder), str(sheet)]) == 1
    sheet.write_text("x\n", "utf-8")
    assert merging.main([str(folder), str(sheet)]) == 2
    assert merging.main([str(folder), str(folder / "none.csv")]) == 2
    assert "conflict: sheet.csv, line 2" in capsys.readouterr().out


def test_value_filled_without_missing_list(folder):
    text = (folder / f"{SLUG}.toml").read_text("utf-8")
    start, end = text.index("to_be_filled"), text.index("]", text.index("to_be_filled")) + 2
    made = with_value(text[:start] + text[end:], "tdze_ft", 52, "A", DAY)
    assert "to_be_filled" in text
    assert "to_be_filled" not in made
    assert "\ntdze_ft = 52\n" in made


def test_differently_written_text_rewritten(folder):
    path = folder / f"{SLUG}.toml"
    text = path.read_text("utf-8").replace("[chart]\n", "[ chart ]\n").replace("[[chart.fix]]", "[[ chart . fix ]]")
    made = with_value(text, "tdze_ft", 52, "A", DAY)
    assert approach.read_text(made, f"{SLUG}.toml").chart.tdze_ft == 52
    assert made.splitlines()[0] == text.splitlines()[0]


def test_filler_names_checked(folder):
    text = with_value((folder / f"{SLUG}.toml").read_text("utf-8"), "tdze_ft", 52, "A", DAY)
    made = approach.read_text(text, f"{SLUG}.toml")
    assert list(faults(made.filled, (), made.chart.to_be_filled)) == []
    assert [row[1] for row in faults((*made.filled, *made.filled), (), ("tdze_ft",))] == [
        "tdze_ft, which is to be filled", "tdze_ft a second time"]
    assert Path(folder).is_dir()
