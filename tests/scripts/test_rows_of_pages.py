"""Rows that page scripts print, row by row against files, definitions, and figures worked out by hand."""

import math
import re
import tomllib
from itertools import groupby

from decide import level_off, surface
from final import deviation, deviation_path, gates
from lpv_site.pages.flight_page import page_name
from lpv_site.pages.flight_page import scenarios as scenarios_there
from modes import scenarios, teach
from plan import alternate_window, cold_figure, integrity_rule
from practice import difficulty, kinds
from reference import columns, import_filled, publish_folder, schema_files
from set_up import channels
from shown import cell, plain, row, rows
from support import ROOT


def tables(shown):
    """The rows of a table, plain: of the page or of a figure."""
    if listed := rows(shown):
        return listed
    found = [re.findall(r"<td[^>]*>(.*?)</td>", line) for line in re.findall(r"<tr>(.*?)</tr>", shown.markdown, re.S)]
    return [[plain(each) for each in cells] for cells in found if cells]


def test_drills_of_each_kind_as_their_file_numbers_them():
    data = tomllib.loads((ROOT / "docs" / "practice" / "drills.toml").read_text("utf-8"))
    by_difficulty = groupby(data["drill"], key=lambda drill: drill["difficulty"])
    numbers = [[drill["number"] for drill in group] for _, group in by_difficulty]
    numbers += [[drill["number"] for drill in data[name]] for name in ("number", "sequence")]
    assert [line[2:] for line in rows(difficulty.show())] == [
        [str(len(listed)), f"{listed[0]:02d} to {listed[-1]:02d}"] for listed in numbers]


def test_a_mistake_that_is_hard_to_see_is_called_subtle():
    """A decimal of the course is subtle, another runway is not; numbers and sequences are neither."""
    where = {cells[0]: cells[-1] for cells in rows(kinds.show())}
    data = tomllib.loads((ROOT / "docs" / "practice" / "drills.toml").read_text("utf-8"))
    for drill in data["drill"]:
        if drill["difficulty"] in ("plain", "subtle"):
            assert {where[name] for name in drill["mistakes"]} == {drill["difficulty"]}, drill["number"]
    assert {where[row["kind"]] for row in data["number"]} == {"number"}
    assert {where[row["kind"]] for row in data["sequence"]} == {"sequence"}


def test_gates_as_the_two_tables_print_them():
    """ALAR: VREF to VREF plus 20 kt, one dot, 1000 ft/min, in cloud by 1000 ft and below it by 500."""
    shown = gates.show()
    assert row(shown, "by, ft above the airport")[1:3] == ["1000", "500"]
    assert row(shown, "speed over VREF, kt")[1:3] == ["0 to 20", "0 to 20"]
    assert row(shown, "highest rate down, ft/min")[1:3] == ["1000", "1000"]
    assert gates.speed(gates.GATES[0]) == "0 to 20"
    without = type("Gate", (), {"slowest_kt": None, "fastest_kt": 20.0})
    assert gates.speed(without) == gates.at_most(None) == "none"


def test_channels_end_where_the_band_of_vors_does():
    """Annex 10: 108.00 to 117.975 MHz; localizers below 112."""
    assert cell(channels.show(), "112 to 118", 1) == "none: all of these are VOR"
    assert [cells[0] for cells in rows(channels.show())] == ["108", "109", "110", "111", "112 to 118"]


def test_columns_of_a_recording_hold_what_their_names_end_in():
    told = dict(re.findall(r"- `(\w+)`: (.*)", columns.show().markdown))
    assert "seconds" in told["time_s"]
    assert "milliseconds" in told["time_ms"]
    assert "Z`" in told["time_utc"]
    assert "clock" in told["time_clock"]
    assert "north" in told["latitude_deg"]
    assert "east" in told["longitude_deg"]
    assert all(name.endswith("_ft") for name in told if name.startswith("altitude"))
    in_metres = re.findall(r"`(altitude_\w+)`", columns.show().markdown.rpartition("\n\n")[2])
    assert in_metres == [name.removesuffix("_ft") + "_m" for name in told if name.startswith("altitude")]


def test_levels_by_the_rule_of_their_limits():
    """VPL within 35 m and HPL within 40 m: LPV; VPL within 50 m serves 250 ft and more; HPL within 556 m: LNAV."""
    told = {tuple(cells[:2]): cells[2:] for cells in rows(integrity_rule.show())}
    assert told[("15 m", "30 m")] == ["LPV", "LPV"]
    assert told[("600 m", "600 m")] == ["none", "none"]
    assert told[("15 m", "60 m")] == ["LNAV", "LNAV"]
    assert all(float(cell.split()[0]) in (15, 30, 40, 45, 60, 600) for pair in told for cell in pair)


def test_scenarios_stand_under_their_kind_and_say_what_was_not_stabilised():
    text = scenarios.show().markdown
    assert re.findall(r"^\*\*(?!\[)(.+?)\*\*$", text, re.M) == [
        f"{kind[0].upper()}{kind[1:]}" for kind, _ in groupby(of.story.kind for of in scenarios_there())]
    lines = {match[2]: match[0] for match in re.finditer(r"- \*\*\[(.*?)\]\((.*?)\.md\).*", text)}
    assert set(lines) == {page_name(of) for of in scenarios_there()}
    assert "not stabilized" not in lines["scenario-normal"]
    assert "not stabilized" in lines["scenario-path-from-above"]


def test_lessons_link_the_scenarios_that_are_there():
    linked = re.findall(r"\(scenario-([\w-]+)\.md\)", teach.show().markdown)
    there = {path.stem for path in (ROOT / "docs" / "modes" / "scenarios").glob("*.toml")}
    named = [slug for lessons in teach.LESSONS.values() for slugs, _ in lessons for slug in slugs]
    assert linked == [slug for slug in named if slug in there] != []
    assert teach.taught_by({"of-another-site": "words"}, "lesson", {"scenario-normal"}) == ""
    assert teach.taught_by({"normal": "words"}, "lesson", {"scenario-normal"}) == "[words](scenario-normal.md): lesson"


def test_the_forecast_period_by_period():
    scenario = tomllib.loads((ROOT / "docs" / "plan" / "zzak-rnav-09-notice.toml").read_text("utf-8"))
    told = tables(alternate_window.show())
    assert [cells[0] for cells in told] == [
        "temporary" if period.get("kind") == "temporary" else "prevailing"
        for period in sorted(scenario["forecast"], key=lambda period: period.get("kind") == "temporary")]
    for cells, period in zip(told, sorted(scenario["forecast"], key=lambda each: each.get("kind") == "temporary"),
                             strict=True):
        assert cells[1] == f"{period['start']:%d %H:%M} to {period['end']:%d %H:%M}"
        assert cells[2:] == [f"{period['ceiling_ft']} ft", f"{period['visibility_sm']:.2f} SM"]
    cloudless = alternate_window.Period(*(scenario["flight"]["eta"],) * 2, None, 10.0)
    assert alternate_window._row(cloudless)[2:] == ("none", "10.00\u202fSM")


def test_cold_from_freezing_down_in_steps_of_ten():
    told = tables(cold_figure.show())
    assert len(told) == 6
    assert {cells[0]: cells[1:] for cells in told}["-50 °C"] == ["90 ft", "650 ft", "1040 ft"]
    assert {cells[0]: cells[1:] for cells in told}["0 °C"] == ["20 ft", "130 ft", "200 ft"]
    totals = [[int(cell.split()[0]) for cell in cells[-3:]] for cells in told]
    assert totals == sorted(totals)


def test_level_at_the_minimum_by_hand():
    """138 kt are 232.9 ft/s; a path of 3 degrees falls 12.2 ft in each of them."""
    falls_ft = 138 * 6076.12 / 3600 * math.tan(math.radians(3.0))
    told = {int(cells[0].split()[0]): float(cells[1].split()[0]) for cells in tables(level_off.show())}
    assert list(told) == [0, 2, 4, 6, 8]
    assert all(abs(above_ft - falls_ft * seconds) < 1.0 for seconds, above_ft in told.items())


def test_the_obstacle_surface_by_hand():
    """40 to 1 is 151.9 ft/NM, a climb of 200 ft/NM gains 48.1 of them."""
    told = tables(surface.show())
    assert [cells[0] for cells in told] == [f"{nm} NM" for nm in range(1, 7)]
    for nm, cells in enumerate(told, 1):
        surface_ft, climb_ft, margin_ft = (float(each.split()[0]) for each in cells[1:])
        assert abs(surface_ft - 6076.12 / 40 * nm) < 2.0
        assert climb_ft == 200 * nm
        assert abs(margin_ft - (climb_ft - surface_ft)) <= 1.0


def test_lists_of_files_name_files_that_are_there():
    for cells in rows(schema_files.show()):
        assert cells[0].endswith(".toml") or "." in cells[0] or "/" in cells[0]
    assert len(rows(schema_files.show())) >= 5
    assert len(rows(import_filled.show())) >= 3
    assert len(rows(publish_folder.show())) >= 3


def test_places_on_the_way_down():
    """From the FAF, 6.05 NM out, over whole miles to the minimum and the threshold; the path's has half a mile."""
    assert [cells[0] for cells in rows(deviation.show())] == [
        "FAF GULLY", "5 NM", "4 NM", "3 NM", "2 NM", "1 NM", "DA 224", "threshold"]
    assert [cells[0] for cells in rows(deviation_path.show())] == [
        f"{nm} NM" for nm in (10, 8, 6, 5, 4, 3, 2, 1, 0.5, 0)]
