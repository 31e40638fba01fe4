"""One generated page per lesson file docs/teach/*.toml: the timetable, each objective, the sheet for the record.

A lesson names pages, live figures, scenarios and drills; what it names must be there, else the build stops.  Where a
department's own scenarios or drills take the place of ours, our lessons leave out those that are gone.
"""

import re
from collections.abc import Callable, Container, Iterator
from functools import partial
from pathlib import Path

from lpv.core.errors import DataError, Fault
from lpv.core.text import plural, quantity
from lpv.drill.drills import FILE as DRILLS
from lpv.drill.drills import read as read_drills
from lpv.drill.rows import DIFFICULTIES
from lpv.facts import FACTS, fact
from lpv.simulate import scenario
from lpv.teach.lesson import Lesson, Objective, Question, read_all
from lpv_site.briefing.card import CAUTION
from lpv_site.department import files as department_files
from lpv_site.department.data import DOCS, once
from lpv_site.department.department import folder as department_folder
from lpv_site.figures.qr import ROOM
from lpv_site.pages.teaching import link
from lpv_site.text.facts import in_prose
from lpv_site.text.headings import headings
from lpv_site.text.links import relative
from lpv_site.text.table import table
from lpv_site.text.text import escape, front_matter

FOLDER = "teach"
REPLACED = ("scenarios", "drills")
LIVE = re.compile(r'^\{\{ live\("([a-z-]+)"\) \}\}|^#.*\{ #([a-z0-9-]+) \}', re.M)
SHEET = ("shown", "discussed", "achieved")
LINES = ("Trainee", "Instructor", "Date", "To do again, and by when", "Signed")
NO_RECORD = (
    "The sheet is for the debrief and the file. Your authority and operator decide what counts as training "
    "and who may sign."
)
PROJECTOR = (
    '<p class="hb-projector">With JavaScript, a button here shows the handbook in type '
    "for a projector.</p>"
)


@once
def lessons(docs: Path = DOCS) -> tuple[Lesson, ...]:
    """Every lesson of docs/teach in order; DataError with every fault, of what a lesson names as well."""
    read = tuple(read_all(docs / FOLDER))
    faults = [fault for lesson in read for fault in _named(lesson, docs)]
    if faults:
        raise DataError(faults)
    return read


def lesson_pages(docs: Path = DOCS) -> dict[str, Callable[[], str]]:
    """Address below docs/ -> function that writes the page's Markdown, for every lesson."""
    return {address(lesson): partial(build_lesson_page, lesson, docs) for lesson in lessons(docs)}


def address(lesson: Lesson) -> str:
    """Address of a lesson's page below docs/."""
    return f"{FOLDER}/{lesson.slug}.md"


def _named(lesson: Lesson, docs: Path) -> Iterator[Fault]:
    """What the lesson names and is not there."""
    known: dict[str, Container[str]] = {
        "pages": headings(), "drills": drill_addresses(docs), "figures": figure_addresses(docs),
        "scenarios": scenario_names(docs), "standards": FACTS,
    }
    replaced = () if _is_own(lesson, docs) or department_folder() is None else REPLACED
    for place, objective in enumerate(lesson.objectives, 1):
        for key, allowed in known.items():
            if key in replaced:
                continue
            for name in getattr(objective, key):
                if _with_top(name) not in allowed and name not in allowed:
                    yield Fault(f"{lesson.slug}.toml", f"objective[{place}].{key}", name,
                                f"one of the handbook's {key}", "Correct the name, or take it out.")
        for question in objective.questions:
            if _with_top(question.section) not in known["pages"]:
                yield Fault(f"{lesson.slug}.toml", f"objective[{place}].question", question.section,
                            "a page or section of the handbook", "Correct the address.")


def _is_own(lesson: Lesson, docs: Path) -> bool:
    return department_files.is_own(docs / FOLDER / f"{lesson.slug}.toml")


def _with_top(name: str) -> str:
    return name if "#" in name else f"{name}#top"


@once
def drill_addresses(docs: Path = DOCS) -> dict[str, str]:
    """Id of each drill -> its address."""
    listed = read_drills(docs / "practice" / DRILLS)
    pages = [(row.name, row.difficulty) for row in listed.drills if row.difficulty in DIFFICULTIES]
    pages += [(row.name, "numbers") for row in listed.numbers] + [(row.name, "sequences") for row in listed.sequences]
    return {name: f"practice/{page}.md#{name}" for name, page in pages}


@once
def figure_addresses(docs: Path = DOCS) -> dict[str, str]:
    """Name of each live figure -> the section that it stands in."""
    addresses: dict[str, str] = {}
    for path in sorted(docs.rglob("*.md")):
        section = "top"
        for figure, heading in LIVE.findall(path.read_text("utf-8")):
            section = heading or section
            if figure:
                addresses[figure] = f"{path.relative_to(docs).as_posix()}#{section}"
    return addresses


@once
def scenario_names(docs: Path = DOCS) -> dict[str, str]:
    """Name of each scenario's file -> what it shows."""
    return {row.slug: row.story.name for row in scenario.read_all(docs / "modes" / "scenarios")}


def build_lesson_page(lesson: Lesson, docs: Path = DOCS) -> str:
    """The page of one lesson as Markdown."""
    about, page = lesson.lesson, address(lesson)
    head = front_matter(about.title, about.about[:180], heading=about.title)
    rows = [(f"[{escape(row.title)}](#{row.key})", quantity(row.minutes, "min")) for row in lesson.objectives]
    rows.append(("together", quantity(lesson.minutes, "min")))
    parts = [
        f"{escape(about.about)}\n",
        f"**For** {escape(about.trainee)}. **Needed:** {escape(about.needed)}. "
        f"**Passed** when {escape(about.passed)}.\n",
        f"{ROOM}\n\n{PROJECTOR}\n",
        '<p class="hb-print"><a href="#card">Print the sheet</a></p>\n',
        "## Timetable { #timetable }\n\n" + table(["objective", "time"], rows),
        *(objective_markdown(objective, page, docs) for objective in lesson.objectives),
        sheet(lesson),
    ]
    return head + "\n".join(parts)


def objective_markdown(objective: Objective, page: str, docs: Path) -> str:
    """One objective: what the trainee can do, then what is shown, moved, watched, done and asked."""
    where, stories = figure_addresses(docs), scenario_names(docs)
    drills = drill_addresses(docs)
    lists = {
        "Show": [link(_with_top(name), page) for name in objective.pages],
        "Move": [link(where[name], page) for name in objective.figures],
        "Watch": [f"[{escape(stories[name])}]({relative(_flight(name), page)})"
                  for name in objective.scenarios if name in stories],
        "Drill": [f"[{name[6:]}]({relative(drills[name], page)})" for name in objective.drills if name in drills],
        "Serves": [f"{escape(fact(name).what)}, {in_prose(page, name)}" for name in objective.standards],
    }
    lines = "".join(f"- **{label}:** {', '.join(links)}\n" for label, links in lists.items() if links)
    questions = "".join(map(partial(_question, page=page), objective.questions))
    return (
        f"## {escape(objective.title)} {{ #{objective.key} }}\n\n"
        f"**Can:** {escape(objective.can)} ({quantity(objective.minutes, 'min')})\n\n{lines}\n{questions}"
    )


def _flight(name: str) -> str:
    return f"modes/scenario-{name}.md"


def _question(question: Question, page: str) -> str:
    answer = f"{escape(question.answer)} {link(_with_top(question.section), page)}."
    return f'??? question "{escape(question.asks)}"\n\n    {answer}\n\n'


def sheet(lesson: Lesson) -> str:
    """The sheet for instructor and trainee: a line for each objective, to be ticked by hand."""
    heads = "".join(f'<th scope="col">{head}</th>' for head in ("objective", *SHEET))
    rows = "".join(
        f'<tr><th scope="row">{number}. {escape(row.title)}: {escape(row.can)} '
        f"<em>{', '.join(row.drills)}; {plural(len(row.questions), 'question')}</em></th>" + "<td></td>" * len(SHEET)
        + "</tr>" for number, row in enumerate(lesson.objectives, 1))
    lines = "".join(f"<p>{line}</p>" for line in LINES)
    return (
        '## The sheet { #sheet }\n\n'
        f'<section class="hb-card hb-record" id="card" aria-label="Sheet of the lesson">'
        f'<p class="hb-card-name">{escape(lesson.lesson.title)}</p>'
        f"<p>Passed when {escape(lesson.lesson.passed)}.</p>"
        f'<table class="hb-card-grid hb-marks"><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table>'
        f'<div class="hb-lines">{lines}</div><p>{NO_RECORD}</p>'
        f'<p class="hb-card-caution"><b>Caution.</b> {CAUTION}</p></section>\n'
    )
