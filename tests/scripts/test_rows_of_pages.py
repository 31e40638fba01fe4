"""Rows that page scripts print, row by row against files, definitions, and figures worked out by hand."""

import re
import tomllib
from itertools import groupby

from lpv_site.pages.flight_page import page_name
from lpv_site.pages.flight_page import scenarios as scenarios_there
from modes import scenarios, teach
from practice import difficulty, kinds
from reference import columns, import_filled, publish_folder, schema_files
from shown import rows
from support import ROOT


def test_drills_of_each_kind_numbered_as_in_file():
    data = tomllib.loads((ROOT / "docs" / "practice" / "drills.toml").read_text("utf-8"))
    by_difficulty = groupby(data["drill"], key=lambda drill: drill["difficulty"])
    numbers = [[drill["number"] for drill in group] for _, group in by_difficulty]
    numbers += [[drill["number"] for drill in data[name]] for name in ("number", "sequence")]
    table = rows(difficulty.show())
    assert [line[2] for line in table] == [str(len(listed)) for listed in numbers]
    named = [[int(end) for end in re.findall(r"\d+", line[3])] for line in table]
    assert [ends[0] for ends in named] == [listed[0] for listed in numbers]
    assert [[number for first, last in zip(ends[::2], ends[1::2], strict=True) for number in range(first, last + 1)]
            for ends in named] == numbers


def test_subtle_mistakes_labelled():
    """A decimal of the course is subtle, another runway is not; numbers and sequences are neither."""
    where = {cells[0]: cells[-1] for cells in rows(kinds.show())}
    data = tomllib.loads((ROOT / "docs" / "practice" / "drills.toml").read_text("utf-8"))
    for drill in data["drill"]:
        if drill["difficulty"] in ("plain", "subtle"):
            assert {where[name] for name in drill["mistakes"]} == {drill["difficulty"]}, drill["number"]
    assert {where[row["kind"]] for row in data["number"]} == {"number"}
    assert {where[row["kind"]] for row in data["sequence"]} == {"sequence"}


def test_recording_columns_match_name_endings():
    meanings = dict(re.findall(r"- `(\w+)`: (.*)", columns.show().markdown))
    assert "seconds" in meanings["time_s"]
    assert "milliseconds" in meanings["time_ms"]
    assert "Z`" in meanings["time_utc"]
    assert "clock" in meanings["time_clock"]
    assert "north" in meanings["latitude_deg"]
    assert "east" in meanings["longitude_deg"]
    assert all(name.endswith("_ft") for name in meanings if name.startswith("altitude"))
    in_metres = re.findall(r"`(altitude_\w+)`", columns.show().markdown.rpartition("\n\n")[2])
    assert in_metres == [name.removesuffix("_ft") + "_m" for name in meanings if name.startswith("altitude")]


def test_scenarios_grouped_by_kind_with_unstabilised_items():
    text = scenarios.show().markdown
    assert re.findall(r"^\*\*(?!\[)(.+?)\*\*$", text, re.M) == [
        f"{kind[0].upper()}{kind[1:]}" for kind, _ in groupby(of.story.kind for of in scenarios_there())]
    lines = {match[2]: match[0] for match in re.finditer(r"- \*\*\[(.*?)\]\((.*?)\.md\).*", text)}
    assert set(lines) == {page_name(of) for of in scenarios_there()}
    assert "not stabilized" not in lines["scenario-normal"]
    assert "not stabilized" in lines["scenario-path-from-above"]


def test_lessons_link_existing_scenarios():
    linked = re.findall(r"\(scenario-([\w-]+)\.md\)", teach.show().markdown)
    there = {path.stem for path in (ROOT / "docs" / "modes" / "scenarios").glob("*.toml")}
    named = [slug for lessons in teach.LESSONS.values() for slugs, _ in lessons for slug in slugs]
    assert linked == [slug for slug in named if slug in there] != []
    assert teach.taught_by({"of-another-site": "words"}, "lesson", {"scenario-normal"}) == ""
    assert teach.taught_by({"normal": "words"}, "lesson", {"scenario-normal"}) == "[words](scenario-normal.md): lesson"


def test_file_lists_name_existing_files():
    for cells in rows(schema_files.show()):
        assert cells[0].endswith(".toml") or "." in cells[0] or "/" in cells[0]
    assert len(rows(schema_files.show())) >= 5
    assert len(rows(import_filled.show())) >= 3
    assert len(rows(publish_folder.show())) >= 3
