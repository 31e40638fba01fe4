"""Lesson files: what they must hold, and that ours cover the handbook."""

from pathlib import Path

import pytest

from lpv.core.errors import DataError
from lpv.drill.drills import read as read_drills
from lpv.facts import FACTS, fact
from lpv.files import toml_reader as tomlfile
from lpv.teach.lesson import Lesson, read_all

DOCS = Path(__file__).resolve().parents[3] / "docs"
LESSONS = read_all(DOCS / "teach")
OBJECTIVES = [(lesson.slug, objective) for lesson in LESSONS for objective in lesson.objectives]
TASKS = ("plan", "verify", "set-up", "intercept", "final", "decide", "modes", "after-landing")
LISTED = read_drills(DOCS / "practice" / "drills.toml")
DRILLS = {row.name for rows in (LISTED.drills, LISTED.numbers, LISTED.sequences) for row in rows}
GOOD = (DOCS / "teach" / "recurrent.toml").read_text("utf-8")


def test_three_lessons_in_order():
    assert [lesson.slug for lesson in LESSONS] == ["initial", "recurrent", "line-debrief"]
    assert LESSONS[1].minutes == 60, "an hour is an hour"


@pytest.mark.parametrize(("slug", "objective"), OBJECTIVES, ids=lambda each: getattr(each, "key", each))
def test_every_objective_has_page_drill_and_assessment(slug, objective):
    assert objective.pages
    assert objective.drills
    assert set(objective.drills) <= DRILLS
    assert objective.questions
    assert all(each.answer.endswith(".") and each.asks.endswith("?") for each in objective.questions)
    assert objective.standards
    assert set(objective.standards) <= set(FACTS)


def test_every_task_page_belongs_to_objective():
    pages = {path.relative_to(DOCS).as_posix() for task in TASKS for path in (DOCS / task).glob("*.md")}
    assert len(pages) > 30
    served = {name.partition("#")[0] for _, objective in OBJECTIVES for name in objective.pages}
    assert pages - served == set()


def test_objectives_name_observable_behaviour():
    """They begin with what somebody does; nobody can see another understand or know."""
    for slug, objective in OBJECTIVES:
        first = objective.can.split()[0].rstrip(",")
        assert first not in ("Understand", "Know", "Appreciate", "Learn"), slug
        assert "understand" not in objective.can.lower()


def test_unread_standard_never_shown_as_read():
    named = {key for key in FACTS if key.startswith("standard_")}
    assert {key for _, objective in OBJECTIVES for key in objective.standards} == named
    assert {fact(key).status for key in named} == {"from memory"}


@pytest.mark.parametrize(("old", "new", "says"), [
    ('pages = ["final/rate.md", "final/altimeter.md", "final/deviation.md#table"]', "pages = []", "at least one"),
    ('drills = ["drill-38", "drill-40", "drill-42", "drill-48", "drill-51", "drill-53"]', "", "at least one"),
    ('drills = ["drill-38",', 'drills = ["38",', "such as drill-05"),
    ('key = "numbers"', 'key = "judgement"', "a second time"),
    ('pages = ["final/rate.md",', 'pages = ["../final/rate.md",', "such as decide/see.md"),
    ("minutes = 10", "minutes = 0", "minutes"), ('title = "Recurrent hour"', 'headline = "Recurrent hour"', "headline"),
])
def test_faulty_lesson_names_fault(old, new, says):
    assert old in GOOD
    with pytest.raises(DataError, match=says):
        tomlfile.read_text(GOOD.replace(old, new, 1), "lesson.toml", Lesson)


def test_objective_without_question_refused():
    before, _, _ = GOOD.partition("[[objective.question]]")
    with pytest.raises(DataError, match="question"):
        tomlfile.read_text(before, "lesson.toml", Lesson)
