"""The pages of lessons: all that is named leads somewhere, and the sheet has a line for each objective."""

import re
import shutil

import pytest

from lpv.core.errors import DataError
from lpv.teach.lesson import read_all
from lpv_site.department.data import DOCS
from lpv_site.figures.qr import ROOM, with_room_code
from lpv_site.pages.lesson_page import (
    address,
    build_lesson_page,
    drill_addresses,
    figure_addresses,
    lesson_pages,
    lessons,
    scenario_names,
)

LESSONS = lessons()


def test_page_for_each_lesson():
    assert list(lesson_pages()) == ["teach/initial.md", "teach/recurrent.md", "teach/line-debrief.md"]


@pytest.mark.parametrize("lesson", LESSONS, ids=lambda lesson: lesson.slug)
def test_all_objective_items_listed_below_it(lesson):
    page = build_lesson_page(lesson)
    for each in lesson.objectives:
        section = page.split(f"{{ #{each.key} }}")[1].split("\n## ")[0]
        links = re.findall(r"\]\(\.\./([^)]+)\)", section)
        for name in each.pages:
            assert any(link.startswith(name) for link in links), name
        assert {drill_addresses()[name] for name in each.drills} <= set(links)
        assert {f"modes/scenario-{name}.md" for name in each.scenarios} <= set(links)
        assert {figure_addresses()[name] for name in each.figures} <= set(links)
        assert section.count("??? question") == len(each.questions)
        assert section.count("(from memory)") == len(each.standards)


@pytest.mark.parametrize("lesson", LESSONS, ids=lambda lesson: lesson.slug)
def test_sheet_has_line_per_objective_and_cautions(lesson):
    sheet = build_lesson_page(lesson).split('id="card"')[1]
    assert sheet.count('<th scope="row">') == len(lesson.objectives)
    assert sheet.count("<td></td>") == 3 * len(lesson.objectives)
    for word in ("shown", "discussed", "achieved", "Trainee", "Instructor", "never primary navigation"):
        assert word in sheet
    for question in (each for objective in lesson.objectives for each in objective.questions):
        assert question.answer not in sheet, "answers do not print on the sheet"


def test_times_add_up():
    for lesson in LESSONS:
        assert sum(each.minutes for each in lesson.objectives) == lesson.minutes
        assert f"| together | {lesson.minutes}\u202fmin |" in build_lesson_page(lesson)


def test_live_figures_and_scenarios_located():
    assert figure_addresses()["live-sight"] == "decide/see.md#view"
    assert figure_addresses()["live-rate"] == "final/rate.md#table"
    assert scenario_names()["ils-left-on"] == "Selector left on ILS, a localizer tuned"


@pytest.mark.parametrize(("old", "new"), [
    ("final/rate.md#wind", "final/rate.md#no-such"), ("drill-38", "drill-999"), ("live-rate", "live-none"),
    ("localizer-inhibits", "no-flight"), ("standard_ir_check", "standard_none"), ('"final/rate.md"', '"final/gone.md"'),
])
def test_dangling_name_stops_build(tmp_path, old, new):
    docs = tmp_path / "docs"
    docs.mkdir()
    for path in DOCS.iterdir():
        if path.name != "teach":
            (docs / path.name).symlink_to(path)
    shutil.copytree(DOCS / "teach", docs / "teach")
    file = docs / "teach" / "recurrent.toml"
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), "utf-8")
    with pytest.raises(DataError, match=new.strip('"')):
        lessons(docs)


def test_lesson_code_resolves_only_with_site_address():
    html = f"<p>x</p>{ROOM}"
    unknown = with_room_code(html, "", "teach/initial.md")
    assert "<svg" not in unknown
    assert "<code>site_url</code>" in unknown
    made = with_room_code(html, "https://handbook.example/lpv/", "teach/initial.md")
    assert "https://handbook.example/lpv/teach/initial/</p>" in made
    assert made.count("<svg") == 1
    assert with_room_code("<p>x</p>", "https://handbook.example/", "a.md") == "<p>x</p>"


def test_lessons_ordered_by_place():
    assert [address(lesson) for lesson in read_all(DOCS / "teach")] == list(lesson_pages())
