"""Which tasks of published standards the lessons serve, and by which objectives."""

from lpv.facts import fact
from lpv_site.checks.check_table import source_text
from lpv_site.pages.lesson_page import address, lessons
from lpv_site.text.facts import in_prose
from lpv_site.text.shown import Shown
from lpv_site.text.text import escape

PAGE = "teach/index.md"


def show() -> Shown:
    """A table: standard, and the objectives that serve it."""
    served: dict[str, list[str]] = {}
    for lesson in lessons():
        for objective in lesson.objectives:
            for key in objective.standards:
                to = address(lesson).removeprefix("teach/")
                served.setdefault(key, []).append(f"[{escape(objective.title)}]({to}#{objective.key})")
    return Shown("".join(_line(key, objectives) for key, objectives in sorted(served.items())))


def _line(key: str, objectives: list[str]) -> str:
    row = fact(key)
    return f"- **{source_text(row.source)}**, {in_prose(PAGE, key)}: {escape(row.what)}. {', '.join(objectives)}\n"
