"""The round of a data cycle, over three generated cycles with every kind of change, and on published records."""

import io
import json
import tomllib
from datetime import date
from pathlib import Path

import pytest

import coded_current as current
import coded_records as coded
import national_file
from lpv.approach import record as approach
from lpv.arinc.files import mark_of, marked, write
from lpv.arinc.importer import SBAS, Order, run
from lpv.core.errors import DataError
from lpv.fas.path_point_columns import PRIMARY, remainder_of_columns
from lpv.fill import rounds
from lpv.fill.carry import NO_MARKS, carry, changed_groups
from lpv.fill.edit import with_value, with_verification
from lpv.fill.rounds import AS_BEFORE, CARRIED, MADE, as_json, report_text

CYCLES = ("2609", "2610", "2611")
AIRPORTS = 9
NAMES = ("channel", "angle", "threshold", "altitude", "path_id", "renumbered", "withdrawn", "retitled")
CHANGES = {number: national_file.Change(**{name: True}) for number, name in enumerate(NAMES)}
VALUES = {"minima": [{"line": "LPV", "kind": "DA", "categories": "ABCD", "altitude_ft": 640}], "tdze_ft": 340,
          "notes": ["Night NA."], "lights": None, "missed.climb_gradient_ft_per_nm": 240, "variation_year": 2020}
DAY, NEXT = date(2026, 9, 4), date(2026, 9, 5)


def slug(number, runway="01"):
    return f"{national_file.ident(number).lower()}-rnav-{runway}"


def fill(path):
    """Everything filled by one person and, but for the notes, verified by another; a comment of the department."""
    text = path.read_text("utf-8")
    for key, value in VALUES.items():
        text = with_value(text, key, value, "A. Reader", DAY)
        text = text if key == "notes" else with_verification(text, key, "B. Reader", NEXT)
    path.write_text(text.replace("[chart]\n", "[chart]\n# read on the chart of September\n"), "utf-8")


@pytest.fixture(scope="module")
def cycles(tmp_path_factory):
    """Folders of three cycles: as imported and filled, after the round of the next, and of the one after."""
    folder = tmp_path_factory.mktemp("cycles")
    for cycle, changes in zip(CYCLES, ({}, CHANGES, CHANGES), strict=True):
        national_file.write(folder / f"{cycle}.txt", AIRPORTS, 4000, cycle, changes)
    with open(folder / "2609.txt", "rb") as stream:
        assert run(stream, "2609.txt", Order(folder / "a", levels=SBAS)).exit_code == 0
    for number in range(AIRPORTS):
        fill(folder / "a" / f"{slug(number)}.toml")
    second = rounds.run(folder / "2610.txt", folder / "a", folder / "b")
    third = rounds.run(folder / "2611.txt", folder / "b", folder / "c")
    return folder, second, third


def entries(result):
    return {entry.slug: entry for entry in result.comparison.entries if entry.state != "changed" or entry.reported}


def test_each_change_found_and_graded(cycles):
    _, second, _ = cycles
    by_slug = entries(second)
    grades = {name: (by_slug[slug(number)].state, by_slug[slug(number)].grade) for number, name in enumerate(NAMES[:5])}
    assert grades == dict.fromkeys(NAMES[:5], ("changed", "stop"))
    renumbered, withdrawn, retitled = by_slug[slug(5, "02")], by_slug[slug(6)], by_slug[slug(7, "01-z")]
    assert (renumbered.state, renumbered.before, renumbered.grade) == ("changed", slug(5), "stop")
    assert (withdrawn.state, withdrawn.grade) == ("gone", "stop")
    assert (retitled.state, retitled.before) == ("changed", slug(7))
    other_end = by_slug.pop(slug(5, "19"))  # its bearing was taken from both thresholds
    assert {change.place for change in other_end.reported} == {"runway.bearing_true_deg", "runway.source"}
    assert set(by_slug) == {*(slug(number) for number in range(5)), slug(5, "02"), slug(6), slug(7, "01-z")}
    assert second.exit_code == 1


@pytest.mark.parametrize(("number", "places"), [
    (0, {"identity.channel", "database.channel"}), (1, {"segment.gpa_deg"}), (2, {"segment.ltp_latitude_deg"}),
    (3, {"chart.fix.altitude_ft", "database.fix.altitude_ft"}), (4, {"identity.path_id", "segment.reference_path_id"})])
def test_change_in_right_place(number, places, cycles):
    assert places <= {change.place for change in entries(cycles[1])[slug(number)].changes}


def test_values_of_changed_records_need_rereading(cycles):
    folder, second, _ = cycles
    again = {key: (because, was) for name, key, because, was in second.read_again if name == slug(0)}
    assert again == {"minima": ("path point", "LPV ABCD 640"), "notes": ("path point", "Night NA.")}
    file = approach.read(folder / "b" / f"{slug(0)}.toml")
    assert {row.key: (row.cycle, row.because) for row in file.read_again} == {
        "minima": ("2610", "path point"), "notes": ("2610", "path point")}
    assert (file.chart.tdze_ft, file.chart.variation_year) == (340, 2020)
    assert file.chart.missed.climb_gradient_ft_per_nm == 240
    assert {key: row.verified_by for row in file.filled for key in row.keys} == dict.fromkeys(
        ("tdze_ft", "variation_year", "lights", "missed.climb_gradient_ft_per_nm"), "B. Reader")
    assert (slug(0), "minima") in second.unverified
    assert (slug(0), "notes") not in second.unverified
    assert second.done[slug(0)] == CARRIED


def test_unchanged_bytes_kept_except_cycle(cycles):
    folder, second, _ = cycles
    before, after = ((folder / name / f"{slug(8)}.toml").read_text("utf-8").splitlines() for name in "ab")
    assert second.done[slug(8)] == AS_BEFORE
    assert "# read on the chart of September" in after
    assert [line[:9] for old, line in zip(before, after, strict=True) if old != line] == [
        "# Records", "cycle = \"", "effective", "expires ="]
    assert slug(8) in second.to_confirm
    assert slug(8, "19") not in second.to_confirm


def test_renamed_approach_made_from_records_alone(cycles):
    folder, second, _ = cycles
    assert {second.done[slug(5, "02")], second.done[slug(7, "01-z")]} == {MADE}
    assert approach.read(folder / "b" / f"{slug(5, '02')}.toml").chart.minima == ()
    assert not (folder / "b" / f"{slug(6)}.toml").exists()


def test_next_round_names_values_still_to_reread(cycles):
    folder, _, third = cycles
    file = approach.read(folder / "c" / f"{slug(0)}.toml")
    assert entries(third) == {}
    assert (third.read_again, third.refused) == ([], [])
    assert file.chart.tdze_ft == 340
    assert {row.key: row.cycle for row in file.read_again} == {"minima": "2610", "notes": "2610"}
    assert file.database.cycle == "2611"
    assert set(third.done.values()) == {AS_BEFORE}


def test_report_text(cycles):
    _, second, _ = cycles
    text = report_text(second)
    assert f"to be read again: {slug(0)} minima: path point changed; was LPV ABCD 640" in text
    assert f"verification withdrawn: {slug(0)} minima" in text
    assert f"gone: {national_file.ident(6)} RNAV (GPS) RWY 01" in text
    assert "\nBulletin\nCycle 2609" in text
    data = json.loads(as_json(second))
    assert (data["cycle"], data["exit_code"], len(data["done"])) == ("2610", 1, 4 * AIRPORTS - 1)


# Published records


@pytest.fixture
def khwd(tmp_path):
    run(io.BytesIO(coded.as_file(coded.KHWD)), "2003.txt", Order(tmp_path / "a"))
    fill(tmp_path / "a" / "khwd-rnav-28l.toml")
    return tmp_path


def next_file(folder, lines=coded.KHWD):
    path = folder / "2004.txt"
    path.write_bytes(coded.as_file(lines, header=coded.HEADER.replace("2003", "2004")))
    return path


def test_published_records_with_only_new_cycle(khwd):
    result = rounds.run(next_file(khwd), khwd / "a", khwd / "b")
    assert (result.done, result.read_again, result.exit_code) == ({"khwd-rnav-28l": AS_BEFORE}, [], 0)
    assert approach.read(khwd / "b" / "khwd-rnav-28l.toml").database.cycle == "2004"


def test_changed_runway_takes_values_read_there(khwd):
    lines = [coded.at(line, 67, "00054") if line[12] == "G" else line for line in coded.KHWD]
    result = rounds.run(next_file(khwd, lines), khwd / "a", khwd / "b")
    assert [key for _, key, _, _ in result.read_again] == ["minima", "notes", "tdze_ft", "lights"]
    assert result.exit_code == 1


def with_remainder(line):
    return coded.at(line, 116, remainder_of_columns({column.name: column.text(line) for column in PRIMARY}))


def everywhere(old, new):
    return lambda line: line.replace(old, new)


def in_point(column, text):
    """A changed path point with the remainder of its new block."""
    return lambda line: with_remainder(coded.at(line, column, text)) if line[12] == "P" and line[26] == "1" else line


POINT, ROUTE = ({"minima": which, "notes": which} for which in ("path point", "final route"))
NEXT_CYCLE = {  # what is changed in the published records of Burlington -> (state, grade, what is read again and why)
    "channel": (everywhere("58044", "58045"), "changed", "stop", POINT),
    "angle": (in_point(67, "0390"), "changed", "stop", POINT),
    "threshold": (in_point(38, "N4427520165"), "changed", "stop", POINT),
    "path identifier": (in_point(33, "W01B"), "changed", "stop", POINT),
    "altitude": (everywhere("+ 02400", "+ 02500"), "changed", "stop", ROUTE),
    "renumbered": (lambda line: with_point(line.replace("RW01 ", "RW02 ").replace("R01 ", "R02 ")),
                   "changed", "stop", {}),
    "withdrawn": (lambda line: "" if line[13:17] == "R01 " else line, "gone", "stop", {}),
    "retitled": (everywhere("R01   ", "R01-Z "), "changed", "resolve", {}),
}


def with_point(line):
    return with_remainder(line) if line[12] == "P" and line[26] == "1" else line


@pytest.mark.parametrize("what", NEXT_CYCLE)
def test_published_record_and_altered_next_cycle(what, tmp_path):
    change, state, grade, again = NEXT_CYCLE[what]
    cycle = [current.HEADER_2609.replace("2609", number) for number in ("2609", "2610")]
    before, after = current.KBTV, list(filter(None, map(change, current.KBTV)))
    assert before != after
    run(io.BytesIO(coded.as_file([*before, *coded.KHWD], header=cycle[0])), "2609.txt", Order(tmp_path / "a"))
    fill(tmp_path / "a" / "kbtv-rnav-01.toml")
    (tmp_path / "2610.txt").write_bytes(coded.as_file([*after, *coded.KHWD], header=cycle[1]))
    result = rounds.run(tmp_path / "2610.txt", tmp_path / "a", tmp_path / "b")
    [entry] = entries(result).values()
    assert (entry.state, entry.grade) == (state, grade)
    assert {key: because for _, key, because, _ in result.read_again} == again
    assert result.done["khwd-rnav-28l"] == AS_BEFORE


def test_file_without_marks_reread_whole(khwd):
    path = khwd / "a" / "khwd-rnav-28l.toml"
    old = tomllib.loads(path.read_text("utf-8"))
    source = approach.read(path)
    assert changed_groups(source, old) == []
    bare = approach.read_text(path.read_text("utf-8").partition("[records]")[0] + "[database]" + path.read_text(
        "utf-8").partition("\n[database]")[2], path.name)
    assert bare.records is None
    imported = {**old, "chart": {**old["chart"], "to_be_filled": list(VALUES)}}
    assert {because for _, because, _ in carry(bare, old, imported).read_again} == {NO_MARKS}


@pytest.mark.parametrize(("spoil", "words"), [
    (lambda folder: (folder / "a" / "khwd-rnav-28l.toml").unlink(), "no approach file"),
    (lambda folder: (folder / "a" / "khwd-rnav-28l.toml").write_text("x = 1\n"), "an unknown key"),
    (lambda folder: write(folder / "b" / "other.toml", "x = 1\n"), "an empty folder"),
    (lambda folder: (folder / "2004.txt").write_bytes(coded.as_file(coded.KHWD, header="")), "no header"),
    (lambda folder: (folder / "2004.txt").write_bytes(coded.as_file(coded.invented(0))), "no SBAS approach"),
    (lambda folder: (folder / "2004.txt").write_bytes(coded.as_file(
        coded.KHWD, header=coded.HEADER.replace("2003", "2002"))), "a cycle earlier than 2002"),
])
def test_failed_round_leaves_nothing_behind(spoil, words, khwd):
    next_file(khwd)
    spoil(khwd)
    with pytest.raises(DataError, match=words):
        rounds.run(khwd / "2004.txt", khwd / "a", khwd / "b")
    assert not (khwd / "b" / "khwd-rnav-28l.toml").exists()


def test_round_command(khwd, capsys):
    arguments = [str(next_file(khwd)), "--old", str(khwd / "a"), "--out", str(khwd / "b")]
    assert rounds.main(arguments) == 0
    assert "Cycle 2004: 1 as before" in capsys.readouterr().out
    assert rounds.main([*arguments, "--json", "--report", str(khwd / "report.json")]) == 0
    assert json.loads((khwd / "report.json").read_text("utf-8"))["headline"].startswith("Cycle 2003")
    assert rounds.main([str(khwd / "none.txt"), *arguments[1:]]) == 2
    assert rounds.main([arguments[0], "--old", str(khwd / "none"), "--out", str(khwd / "b")]) == 2


def test_file_marks():
    text = "# Records: 0123456789abcdef; text: fedcba9876543210\n\n"
    assert mark_of(text) == "0123456789abcdef"
    assert mark_of(marked(text, "1" * 16)) == "1" * 16
    assert Path(current.__file__).name == "coded_current.py"
