"""Lesson files, docs/teach/*.toml: one lesson each, read strictly.

    [lesson]                     # what it is, for whom, how long
    [[objective]]                # in the order of the lesson
    key = "identity"             # permanent: its heading and its line on the sheet
    can = "Name the channel ..." # what the trainee can do afterwards, so that one can see it
    pages = ["verify/identity.md"]
    drills = ["drill-05", "drill-17"]
    [[objective.question]]       # asked at the end; with its answer, and where that stands

An objective without a page, a drill or a question is no objective: the file is refused.
"""

# ruff: noqa: RUF009  (the schema functions return dataclasses.field)

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from lpv.approach.schema import FaultRow
from lpv.files import named_file, schema
from lpv.files import toml_reader as tomlfile

ADDRESS = r"[a-z-]+/[a-z-]+\.md(#[a-z0-9-]+)?"
DRILL = r"drill-\d{2,3}"


@dataclass(frozen=True, kw_only=True)
class About:
    """What the lesson is."""

    title: str = schema.text("its title", longest=60)
    place: int = schema.whole("its place in the list of lessons", "", 1, 99)
    about: str = schema.text("what it does, in one or two sentences", longest=400)
    trainee: str = schema.text("for whom it is", longest=200)
    needed: str = schema.text("what has to be at hand", longest=200)
    passed: str = schema.text("when the lesson is passed, in words that one can see", longest=300)


@dataclass(frozen=True, kw_only=True)
class Question:
    """One question of the assessment."""

    asks: str = schema.text("the question", longest=300)
    answer: str = schema.text("the answer, in the words that count", longest=400)
    section: str = schema.text(
        "page or section where the answer stands", pattern=ADDRESS, example="decide/see.md#table")


@dataclass(frozen=True, kw_only=True)
class Objective:
    """One objective."""

    key: str = schema.text("permanent short name", pattern=r"[a-z]+(-[a-z]+)*", example="identity")
    title: str = schema.text("in a few words", longest=60)
    can: str = schema.text("what the trainee can do afterwards, measurably", longest=400)
    minutes: int = schema.whole("time for it", "min", 1, 240)
    standards: tuple[str, ...] = schema.texts("keys of the tasks of published standards that it serves")
    pages: tuple[str, ...] = schema.texts("pages or sections that are shown")
    figures: tuple[str, ...] = schema.texts("live figures that are moved")
    scenarios: tuple[str, ...] = schema.texts("scenarios that are watched, by the names of their files")
    drills: tuple[str, ...] = schema.texts("drills that are done, by their ids")
    questions: tuple[Question, ...] = schema.tables(
        Question, "what is asked at the end", least=1, most=12, unique="asks", key="question")

    def faults(self) -> Iterator[FaultRow]:
        """At least one page and one drill, each as it is addressed."""
        for name, keys, pattern, example in (
            ("pages", self.pages, ADDRESS, "decide/see.md#table"), ("drills", self.drills, DRILL, "drill-05"),
        ):
            if not keys:
                yield name, "none", "at least one", f"Add one, such as {example}; or take the objective out."
            for key in keys:
                if not re.fullmatch(pattern, key):
                    yield name, key, f"such as {example}", "Correct it."


@dataclass(frozen=True, kw_only=True)
class Lesson:
    """One lesson.  slug is the file's name."""

    lesson: About = schema.table(About, "what the lesson is")
    objectives: tuple[Objective, ...] = schema.tables(
        Objective, "objectives, in the order of the lesson", least=1, most=40, unique="key", key="objective")
    slug: str = ""

    @property
    def minutes(self) -> int:
        """The time that all objectives take."""
        return sum(objective.minutes for objective in self.objectives)


def read(path: Path | str) -> Lesson:
    """The lesson in a file; DataError with every fault found in it."""
    return named_file.read(Path(path), Lesson)


def read_all(folder: Path | str) -> list[Lesson]:
    """All lessons of a folder by their place, then their title; DataError with every fault of every file."""
    lessons = tomlfile.read_folder(Path(folder), read)
    return sorted(lessons, key=lambda lesson: (lesson.lesson.place, lesson.lesson.title))
