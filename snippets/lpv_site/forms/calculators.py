"""Calculators as forms: complete without scripts, with the answer to the example's figures computed here.

{{ calculator("descent-rate") }} on a line of its own places one on a page.  `calculator_link` leads to it from
another page with the figures of any approach.
"""

import json
from collections.abc import Callable, Sequence
from functools import cache
from urllib.parse import urlencode

from lpv.calculators.run import calculator
from lpv.core.text import UNIT_SIGNS, capitalized, fact_text
from lpv.facts import fact
from lpv.figures.figure import Figure
from lpv.forms.fields import EXACT, Block, Choice, Day, Field, Number, shown_part
from lpv.forms.form import Answer, Calculator, Output, Steps, answer
from lpv_site.department.data import aircraft, examples
from lpv_site.figures.figure import set_aside
from lpv_site.forms import phone
from lpv_site.forms.calculator_figures import Figures, aircraft_figures, approach_figures
from lpv_site.forms.form_parts import of_day
from lpv_site.text.facts import PAGE as FACTS_PAGE
from lpv_site.text.links import relative
from lpv_site.text.text import escape, fact_id, verbatim
from lpv_site.text.validity import quiet_notice

LONGEST_IN_HALF_A_ROW = 16  # letters of an option
PREFIX = "own-"
INSTEAD = "The answer below is for the figures shown; the tables on the pages still apply."
STATE = f"This form needs JavaScript and WebAssembly, and cannot compute here. {INSTEAD}"


def in_prose(page: str, name: str) -> str:
    """Markdown block with the form of a calculator, for a line of its own on a page."""
    return build_form(name, relative(FACTS_PAGE, page))


def build_form(name: str, link_to_facts: str) -> str:
    """Markdown block with the form of a calculator; KeyError if there is none of that name.

    link_to_facts: address of the facts page as seen from the page's Markdown
    """
    form = calculator(name)
    texts = begin_with(form)
    return f"\n<div>{set_aside(_form(form, texts, answer(form, texts), link_to_facts))}</div>\n"


def begin_with(form: Calculator | Figure, figures: Figures | None = None) -> dict[str, str]:
    """The texts that the fields begin with: those of the figures, else the field's own default.

    figures: as `lpv_site.forms.calculator_figures` gives them, those of the example approach and aircraft if None
    """
    known = _example_figures() if figures is None else figures
    return {field.key: _text(field, known) for field in form.inputs}


def calculator_link(name: str, page: str, figures: Figures) -> str:
    """Address of a calculator on a page, with the figures of an approach or an aircraft in its fields."""
    return filled_link(calculator(name), page, figures)


def filled_link(form: Calculator | Figure, page: str, figures: Figures) -> str:
    """Address of a form on a page, with the figures of an approach or an aircraft in its fields."""
    fields = {field.key: field.fill(figures[field.source]) for field in form.inputs if field.source in figures}
    return f"{page}?{urlencode({'own': form.name, **fields})}#{PREFIX}{form.name}"


@cache
def _example_figures() -> Figures:
    return _of_approaches()[0][1] | _of_aircraft()[0][1]


CYCLE = "approach.cycle"
Labelled = list[tuple[str, Figures]]


@cache
def _known() -> dict[str, Labelled]:
    """(label, figures) of approaches and aircraft to choose from; approaches with a glidepath first."""
    ordered = sorted(examples(), key=lambda row: row.identity.level_of_service != "LPV")
    return {
        "approaches": [(f"{row.identity.airport} {row.identity.title}", approach_figures(row)) for row in ordered],
        "aircraft": [(row.type.name, aircraft_figures(row)) for row in aircraft()],
    }


def _of_approaches() -> Labelled:
    return _known()["approaches"]


def _of_aircraft() -> Labelled:
    return _known()["aircraft"]


def _text(field: Field, figures: Figures) -> str:
    return field.fill(figures[field.source]) if field.source in figures else field.default


def _form(form: Calculator, texts: dict[str, str], result: Answer, link_to_facts: str) -> str:
    return (
        f'<details class="hb-calculator" id="{PREFIX}{form.name}" data-calculator="{form.name}" '
        f'data-instead="{INSTEAD}" '
        f"{phone.attributes('calculators')}><summary>Your own numbers: {escape(form.title)}</summary>"
        f'<p class="hb-question">{escape(form.question)}</p><p class="hb-state" role="status">{STATE}</p>'
        f'<form method="dialog" autocomplete="off" novalidate><fieldset disabled><legend>Figures</legend>'
        f"{sources(form)}{_fields(form, texts, result)}{BUTTONS}</fieldset></form>"
        f"{_answers(form, result)}{_table(form, result)}{rests_on(form, link_to_facts)}</details>"
    )


BUTTONS = (
    '<p class="hb-buttons"><button type="reset">Reset</button>'
    '<button type="button" class="hb-send">Copy link</button></p>'
)


def sources(form: Calculator | Figure) -> str:
    """The choices of an approach and of an aircraft, where some field begins with one of its figures."""
    return _source(form, "approach", "Approach", _of_approaches()) + _source(
        form, "aircraft", "Aircraft", _of_aircraft()
    )


def _source(form: Calculator | Figure, kind: str, label: str, choices: Sequence[tuple[str, Figures]]) -> str:
    fields = [field for field in form.inputs if field.source.startswith(f"{kind}.")]
    if not fields:
        return ""
    options = "".join(
        f'<option data-figures="{verbatim(_figures(fields, figures))}">{escape(name)}</option>'
        for name, figures in choices
    ) + f'<option data-figures="{verbatim("{}")}">your own figures</option>'
    identity = f"{PREFIX}{form.name}-{kind}"
    cycles = [str(figures[CYCLE]) for _, figures in choices if CYCLE in figures]
    return (
        f'<div class="hb-field hb-wide"><label for="{identity}">{label} to begin with</label>'
        f'<select id="{identity}" class="hb-source" data-kind="{kind}">{options}</select></div>{quiet_notice(cycles)}'
    )


def _figures(fields: Sequence[Field], figures: Figures) -> str:
    """What the fields hold for these figures; a figure that is not known leaves its field empty."""
    texts = {field.key: field.fill(figures[field.source]) if field.source in figures else "" for field in fields}
    return json.dumps(texts, ensure_ascii=False)


def _fields(form: Calculator, texts: dict[str, str], result: Answer) -> str:
    errors = dict(result.errors)
    fields = [_field(form.name, field, texts[field.key], errors.get(field.key, "")) for field in form.inputs]
    return f'<div class="hb-fields">{"".join(fields)}</div>'


def _field(name: str, field: Field, text: str, error: str) -> str:
    identity = f"{PREFIX}{name}-{field.key}"
    about = f'id="{identity}" name="{field.key}" aria-describedby="{identity}-hint {identity}-error"'
    wide = " hb-wide" if _is_wide(field) else ""
    return (
        f'<div class="hb-field{wide}"><label for="{identity}">{escape(field.label)}</label>'
        f'<span class="hb-entry">{ENTRIES[field.kind](field, about, text)}</span>'
        f'<span class="hb-hint" id="{identity}-hint">{escape(field.hint)}</span>'
        f'<span class="hb-error" id="{identity}-error">{escape(error)}</span></div>'
    )


def _is_wide(field: Field) -> bool:
    """Whether a field takes a row of its own: on a phone half a row cuts a long option."""
    if isinstance(field, Choice):
        return max(len(label) for _, label in field.options) > LONGEST_IN_HALF_A_ROW
    return isinstance(field, (Block, Day))


def _number_entry(field: Field, about: str, text: str) -> str:
    assert isinstance(field, Number)
    unit = escape(UNIT_SIGNS.get(field.unit, field.unit))
    sign = (
        f'<button type="button" class="hb-sign" aria-label="Change the sign: {escape(field.label)}">±</button>'
        if field.low < 0 else ""
    )
    entry = f'<input {about} inputmode="decimal" {value_attributes(text)}{of_day(field)}>'
    return f'{entry}{sign}<span class="hb-unit">{unit}</span>'


def value_attributes(text: str) -> str:
    """What an input shows, and behind it the same figure with all its digits where it has more."""
    exact = f' data-exact="{verbatim(text)}"' if EXACT in text else ""
    return f'value="{verbatim(shown_part(text))}"{exact}'


def _choice_entry(field: Field, about: str, text: str) -> str:
    assert isinstance(field, Choice)
    options = "".join(
        f'<option value="{verbatim(value)}"{" selected" if value == text else ""}>{escape(label)}</option>'
        for value, label in field.options
    )
    return f"<select {about}>{options}</select>"


def _word_entry(field: Field, about: str, text: str) -> str:
    return f'<input {about} autocapitalize="characters" spellcheck="false" value="{verbatim(text)}">'


def _block_entry(field: Field, about: str, text: str) -> str:
    return f'<textarea {about} rows="4" autocapitalize="characters" spellcheck="false">{escape(text)}</textarea>'


def _day_entry(field: Field, about: str, text: str) -> str:
    assert isinstance(field, Day)
    return f'<input {about} type="date" value="{verbatim(text)}">'


ENTRIES: dict[str, Callable[[Field, str, str], str]] = {
    "number": _number_entry, "choice": _choice_entry, "text": _word_entry, "block": _block_entry, "day": _day_entry,
}


def _answers(form: Calculator, result: Answer) -> str:
    """The answers; where the example's figures have none, the reason."""
    shown = {key: (text, words) for key, text, words in result.outputs}
    outputs = "".join(_output(output, *shown.get(output.key, ("\u2013", ""))) for output in form.outputs)
    words = result.sentence or result.problem or "Correct the figures that are marked."
    return f'<output class="hb-sentence">{escape(words)}</output><dl class="hb-outputs">{outputs}</dl>'


def _output(output: Output, text: str, words: str) -> str:
    return (
        f'<div data-output="{output.key}"><dt>{escape(output.label)}</dt><dd>{escape(text)}</dd>'
        f'<dd class="hb-words">{escape(words)}</dd></div>'
    )


def _table(form: Calculator, result: Answer) -> str:
    if form.table is None:
        return ""
    varied = isinstance(form.table, Steps)
    unseen = f'<caption class="hb-unseen">{escape(form.title)}</caption>'
    caption = f"<caption>{VARIED}</caption>" if varied else unseen
    head = "".join(f'<th scope="col">{escape(capitalized(header))}</th>' for header in form.headers())
    rows = "".join(_row(row, place == result.own) for place, row in enumerate(result.rows))
    return (
        f'<div class="hb-around" tabindex="0" role="group" aria-label="Table: {escape(form.title)}">'
        f'<table class="hb-neighbours">{caption}<thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table></div>'
    )


VARIED = "The same with other values; yours is marked"


def _row(cells: Sequence[str], own: bool) -> str:
    mark = ' class="hb-own" aria-current="true"' if own else ""
    return f"<tr{mark}>" + "".join(f"<td>{escape(cell)}</td>" for cell in cells) + "</tr>"


def rests_on(form: Calculator | Figure, link_to_facts: str) -> str:
    """What the answer rests on: remarks, and the facts with value and status, linked to their sources."""
    facts = [_fact(key, link_to_facts) for key in form.facts]
    listed = f"<ul>{''.join(f'<li>{text}</li>' for text in facts)}</ul>" if facts else ""
    title = "<p>It rests on these facts:</p>" if facts else ""
    return f'<div class="hb-rests">{f"<p>{escape(form.remarks)}</p>" if form.remarks else ""}{title}{listed}</div>'


def _fact(key: str, link_to_facts: str) -> str:
    row = fact(key)
    return (
        f'{escape(row.what)}: <a href="{link_to_facts}#{fact_id(key)}">{escape(fact_text(row))}</a>, {row.status}'
    )
