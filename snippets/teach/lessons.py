"""The lessons, with their time and what they hold."""

from lpv.core.text import quantity
from lpv.teach.lesson import Lesson
from lpv_site.pages.lesson_page import lessons
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape


def row(lesson: Lesson) -> tuple[str, str, int, int]:
    """A lesson: the link to it, its time, how many objectives and drills."""
    drills = {name for objective in lesson.objectives for name in objective.drills}
    to = f"[**{escape(lesson.lesson.title)}**]({lesson.slug}.md)"
    return to, quantity(lesson.minutes, "min"), len(lesson.objectives), len(drills)


def show() -> Shown:
    """A table of the lessons."""
    return Shown(
        table(["lesson", "time", "objectives", "drills"], map(row, lessons())),
        {lesson.slug: Value.of(lesson.minutes, "min") for lesson in lessons()})
