"""The page of sequences: approaches that run, until the reader says that something is wrong.

Generated from docs/practice/drills.toml.  Each is a table, one row for each moment; with scripts the rows come one
after the other, without them the table stands whole, to be read from the top with a hand over the rest.
"""

import json
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

from lpv.core.text import number, quantity
from lpv.decide.remedy import REMEDIES, SIGNS
from lpv.drill.drills import Running, read_sequences
from lpv.drill.sequence import Moment, Run
from lpv_site.briefing.card import CAUTION
from lpv_site.department.data import DOCS, once
from lpv_site.figures.figure import set_aside
from lpv_site.pages.drill_page import framed, sheet
from lpv_site.pages.teaching import SIGN_TEACHES, link
from lpv_site.text.table import finished
from lpv_site.text.text import escape, verbatim

ADDRESS = "practice/sequences.md"
TITLE = "Drills: approaches that run"
LEAD = (
    "An approach runs as its type would show it. Stop it when something is wrong; say what it is and what you do now. "
    "Some have no error. For practice on the ground only, never for flight."
)
INSTRUCTOR, ANSWERED = "instructor", ("drill", "from", "what is wrong", "now")
ON_PAPER_EVERY, BETWEEN = 4, ' class="hb-between"'  # of the rows in which nothing changes, paper has one in so many
HEADS = ("NM", "altimeter", "annunciated, where it changes", "course · glidepath, dots")


@once
def running(docs: Path = DOCS) -> tuple[Running, ...]:
    """Every sequence of docs/practice, flown once, in the order of their numbers."""
    return tuple(sorted(read_sequences(docs), key=lambda item: item.row.number))


def sequence_pages(docs: Path = DOCS) -> dict[str, Callable[[], str]]:
    """Address below docs/ -> function that writes the page; DataError if a sequence cannot be made."""
    running(docs)
    return {ADDRESS: partial(build_sequence_page, docs)}


def build_sequence_page(docs: Path = DOCS) -> str:
    """All sequences, their answers folded."""
    about = "Approaches that run; say when something is wrong, and what to do."
    made = running(docs)
    return sheet(TITLE, about, LEAD, "sequences", [*map(sequence_markdown, made)], docs) + instructor(made)


def instructor(made: Sequence[Running]) -> str:
    """What is right in every sequence, on one sheet: folded on the screen, printed alone by its own address."""
    rows = [(f'<a href="#{item.row.name}">{item.row.number:02d}</a>', *_answered(item.run)) for item in made]
    return (
        f'\n<p class="hb-print"><a href="#{INSTRUCTOR}">Print the instructor\'s sheet</a></p>\n\n'
        "<details class=\"note\"><summary>Instructor's sheet: all answers</summary>"
        f'<section class="hb-card hb-sheet" id="{INSTRUCTOR}" aria-label="Instructor\'s sheet">'
        f'<p class="hb-card-name hb-on-paper">{TITLE}: answers</p>{finished(ANSWERED, rows, left=4)}'
        f'<p class="hb-card-caution hb-on-paper"><b>Caution.</b> {CAUTION}</p></section></details>\n'
    )


def _answered(run: Run) -> tuple[str, str, str]:
    """From where on, what is wrong, what to do."""
    if run.at is None:
        return "", "nothing", "go on"
    return quantity(run.timeline[run.at].along_nm, "NM", 0.1), SIGNS[run.sign], REMEDIES[run.remedy]


def sequence_markdown(item: Running) -> str:
    """One sequence: what was briefed, the timeline, the place for an answer, the right one."""
    who = item.approach.identity
    body = f"**{escape(who.airport)} {escape(who.title)}, {escape(item.aircraft.type.name)}.** Briefed: " \
           f"{escape(item.run.briefed)}.\n\n<div>{set_aside(timeline(item.row.name, item.run.timeline))}</div>\n"
    return framed(item.row, body, right(item.run), answer(item.run), more=" hb-long")


def timeline(name: str, moments: Sequence[Moment]) -> str:
    """The moments as a table; a row where something is announced differently also holds all that stands there then."""
    rows: list[str] = []
    before: tuple[str, ...] = ()
    for place, moment in enumerate(moments):
        changed = [line for line in moment.words if line not in before]
        shown_words = moment.words if moment.words != before else ()
        before = moment.words
        cells = (number(moment.along_nm, 0.1), quantity(moment.shown_ft, "ft"), escape("; ".join(changed)) or "·",
                 f"{_dots(moment.course_dots)} · {_dots(moment.path_dots)}")
        kept = bool(changed or place % ON_PAPER_EVERY == 0 or moment is moments[-1])
        words = verbatim(json.dumps(shown_words, ensure_ascii=False))
        rows.append(f'<tr data-words="{words}"{"" if kept else BETWEEN}>'
                    + "".join(f"<td>{cell}</td>" for cell in cells) + "</tr>")
    heads = "".join(f'<th scope="col">{head}</th>' for head in HEADS)
    return (
        f'<div class="hb-sequence" data-of="{name}" tabindex="0" role="region" aria-label="Timeline of {name}">'
        f'<table class="hb-timeline"><thead><tr>{heads}</tr></thead><tbody>{"".join(rows)}</tbody></table></div>'
    )


def _dots(dots: float | None) -> str:
    return "none" if dots is None else "off" if abs(dots) > 2.0 else number(dots, 0.1)


def right(run: Run) -> dict[str, object]:
    """What is right to say, for the script: places in the lists of signs and remedies."""
    if run.at is None:
        return {"kind": "sequence", "at": None, "times": [event.time_s for event in run.timeline]}
    return {"kind": "sequence", "at": run.at, "times": [event.time_s for event in run.timeline],
            "sign": list(SIGNS).index(run.sign), "remedy": list(REMEDIES).index(run.remedy)}


def answer(run: Run) -> str:
    """What is wrong from where on, what to do then, and which section teaches it, folded; it never prints."""
    if run.at is None:
        text = f"**Nothing is wrong.** {link(SIGN_TEACHES[''], ADDRESS)}."
    else:
        where = quantity(run.timeline[run.at].along_nm, "NM", 0.1)
        text = (f"**At {where}: {SIGNS[run.sign]}.** Do: {REMEDIES[run.remedy]}. "
                f"{link(SIGN_TEACHES[run.sign], ADDRESS)}.")
    return f'??? note hb-answer "Answer"\n\n    {text}\n'
