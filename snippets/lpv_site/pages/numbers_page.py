"""The page of numbers drills: one number each, worked out in your head; generated from docs/practice/drills.toml."""

from collections.abc import Callable
from functools import partial
from pathlib import Path

from lpv.core.text import quantity
from lpv.drill.drills import Asked, read_numbers
from lpv.drill.question import Question
from lpv_site.department.data import DOCS, once
from lpv_site.pages.drill_page import framed, sheet
from lpv_site.pages.teaching import link
from lpv_site.text.text import escape

ADDRESS = "practice/numbers.md"
TITLE = "Drills: numbers"
LEAD = (
    "One number each, in your head, as in flight: near enough counts. For practice on the ground only, never for "
    "flight."
)


@once
def asked(docs: Path = DOCS) -> tuple[Asked, ...]:
    """Every numbers drill of docs/practice, made once, in the order of their numbers."""
    return tuple(sorted(read_numbers(docs), key=lambda item: item.row.number))


def numbers_pages(docs: Path = DOCS) -> dict[str, Callable[[], str]]:
    """Address below docs/ -> function that writes the page; DataError if a drill cannot be made."""
    asked(docs)
    return {ADDRESS: partial(build_numbers_page, docs)}


def build_numbers_page(docs: Path = DOCS) -> str:
    """All numbers drills, their answers folded."""
    about = "One number each, worked out in your head; near enough counts."
    return sheet(TITLE, about, LEAD, "numbers", [*map(number_markdown, asked(docs))], docs)


def number_markdown(item: Asked) -> str:
    """One numbers drill: the question, the place for an answer, the right one."""
    who = item.approach.identity
    body = f"**{escape(who.airport)} {escape(who.title)}, {escape(item.aircraft.type.name)}.** " \
           f"{escape(item.question.words)}\n"
    return framed(item.row, body, right(item.question), answer(item))


def in_words(question: Question) -> str:
    """The right answer, and how near it has to be."""
    if question.choices:
        return f"{question.choices[round(question.answer)]} ({question.because[:-1].lower()})"
    low, high = (quantity(limit, question.unit) for limit in (question.low, question.high))
    near = f"give or take {low}" if low == high else f"down to {low} less, up to {high} more"
    return f"{quantity(question.answer, question.unit)}, {near}: {question.why}"


def right(question: Question) -> dict[str, object]:
    """What is right to say, for the script."""
    if question.choices:
        return {"kind": "choice", "choices": question.choices, "points": question.points, "text": in_words(question)}
    return {"kind": "number", "answer": question.answer, "low": question.low, "high": question.high,
            "unit": question.unit, "text": in_words(question)}


def answer(item: Asked) -> str:
    """The right answer, how one gets there and which section teaches it, folded; it never prints."""
    asked_for = item.question
    text = f"**{escape(in_words(asked_for))}.** {escape(asked_for.because)} {link(asked_for.teaches, ADDRESS)}."
    return f'??? note hb-answer "Answer"\n\n    {text}\n'
