"""Live figures on a page: complete without scripts, drawn for the example's numbers; one tap makes them answer.

{{ live("live-altimeter") }} on a line of its own places one on a page.  `live_link` leads to it from another page with
the numbers of any approach.
"""

import math
from collections.abc import Callable
from itertools import groupby

from lpv.core.text import exact, field_number, to_ascii
from lpv.figures.figure import Drawn, Figure, drawn
from lpv.figures.replay import read
from lpv.figures.run import figure
from lpv.forms.fields import Choice, Field, Number
from lpv_site.figures.figure import set_aside
from lpv_site.forms import phone
from lpv_site.forms.calculator_figures import Figures
from lpv_site.forms.calculators import PREFIX, begin_with, filled_link, rests_on, sources, value_attributes
from lpv_site.forms.form_parts import of_day
from lpv_site.text.facts import PAGE as FACTS_PAGE
from lpv_site.text.links import relative
from lpv_site.text.table import html_table
from lpv_site.text.text import escape, verbatim

INSTEAD = "The figure stays as printed, for the numbers below it."
STATE = f"This needs JavaScript and WebAssembly, and cannot answer here. {INSTEAD}"
BRINGING = "Loading the figure: about 300 kB, once."
SCRIPT = "assets/live.js"
PLAYER = "live-flight"


def in_prose(page: str, name: str) -> str:
    """Markdown block with a live figure, for a line of its own on a page."""
    return build_live(name, relative(FACTS_PAGE, page))


def build_live(name: str, link_to_facts: str) -> str:
    """Markdown block with a live figure; KeyError if there is none of that name.

    link_to_facts: address of the facts page as seen from the page's Markdown
    """
    shown = figure(name)
    return _block(shown, begin_with(shown), link_to_facts)


def build_player(flight: str, link_to_facts: str) -> str:
    """Markdown block that plays a flight (`lpv.figures.replay`), at first in the middle of its events."""
    player, replayed = figure(PLAYER), read(flight)
    times_s = [time_s for time_s, _ in replayed.events] or [replayed.end_s]
    begun = {"time_s": field_number(math.ceil(times_s[len(times_s) // 2])), "flight": flight}
    end_s = math.ceil(replayed.end_s)
    inputs = tuple(_until(entry, end_s) if isinstance(entry, Number) else entry for entry in player.inputs)
    of_page = Figure(player.name, player.title, player.function, inputs, player.facts, player.remarks, player.plays)
    return _block(of_page, begun, link_to_facts)


def build_empty_player(link_to_facts: str) -> str:
    """HTML that plays a flight once a form on its page has read one; hidden, and without a drawing until then."""
    player = figure(PLAYER)
    blank = drawn(player, {})
    blank.svg, blank.finding, blank.brief, blank.rows = "", "", "", []
    parts = _parts(player, {field.key: field.default for field in player.inputs}, blank, link_to_facts)
    return f'<figure class="hb-figure hb-live" id="{player.name}" hidden>{parts}</figure>'


def _until(dial: Number, high: float) -> Number:
    """A dial with another end."""
    return Number(dial.key, dial.label, dial.unit, dial.low, high, dial.step, dial.low, dial.source, dial.group)


def _block(form: Figure, texts: dict[str, str], link_to_facts: str) -> str:
    parts = set_aside(_parts(form, texts, drawn(form, texts), link_to_facts))
    return f'\n<figure class="hb-figure hb-live" id="{form.name}" data-search-exclude>{parts}</figure>\n'


def live_link(name: str, page: str, figures: Figures) -> str:
    """Address of a live figure on a page, with the numbers of an approach or an aircraft set."""
    return filled_link(figure(name), page, figures)


def _parts(form: Figure, texts: dict[str, str], result: Drawn, link_to_facts: str) -> str:
    return (
        f'<div class="hb-view"><div class="hb-drawn">{result.svg}</div>'
        f'<p class="hb-brief">{verbatim(result.brief)}</p></div>'
        f'<figcaption class="hb-finding">{verbatim(result.finding)}</figcaption>'
        f"{_set(form, result)}{_controls(form, texts, result)}{_data(form, result)}"
        f"{rests_on(form, link_to_facts)}"
    )


def _set(form: Figure, result: Drawn) -> str:
    """What the figure is drawn for: in the page as it is read and printed."""
    values = dict(result.values)
    pairs = "".join(
        f'<div><dt>{escape(field.label)}</dt><dd data-value="{field.key}">{verbatim(values[field.key])}</dd></div>'
        for field in form.inputs if not field.of_page
    )
    return f'<dl class="hb-set">{pairs}</dl>'


def _controls(form: Figure, texts: dict[str, str], result: Drawn) -> str:
    return (
        f'<details class="hb-calculator hb-controls" id="{PREFIX}{form.name}" data-live="{form.name}" '
        f'data-script="{SCRIPT}" data-instead="{INSTEAD}" data-bringing="{BRINGING}" {phone.attributes("figures")}>'
        f'<summary>{ASKED[bool(form.plays)]}<span class="hb-unseen">: {escape(form.title)}</span></summary>'
        f'<p class="hb-state" role="status">{STATE}</p><p class="hb-unseen hb-told" aria-live="polite"></p>'
        f'<form method="dialog" autocomplete="off" novalidate><fieldset disabled><legend>Numbers</legend>'
        f"{_playing(form, result)}{_dials(form, texts, dict(result.values))}{sources(form)}{BUTTONS}"
        "</fieldset></form></details>"
    )


BUTTONS = (
    '<p class="hb-buttons"><button type="reset">Reset</button>'
    '<button type="button" class="hb-send">Copy link</button>'
    '<button type="button" class="hb-wide-screen">Full screen</button></p>'
)


ASKED = {False: "Try your own numbers", True: "Play this flight"}
SPEEDS = (("1", "2"), ("2", "4"), ("5", "10"), ("15", "30"))  # steps in half a second, times as fast as flown


def _playing(form: Figure, result: Drawn) -> str:
    """What plays a figure: start and stop, how fast, and from event to event."""
    if not form.plays:
        return ""
    ways = zip(("Event before", "Next event"), result.jumps, strict=True)
    jumps = "".join(
        f'<button type="button" class="hb-jump" data-to="{text}"{"" if text else " disabled"}>{words}</button>'
        for words, text in ways
    )
    speeds = "".join(f'<option value="{steps}">{times} times as fast</option>' for steps, times in SPEEDS)
    identity = f"{PREFIX}{form.name}-speed"
    return (
        f'<div class="hb-playing" data-plays="{form.plays}"><p class="hb-buttons">'
        f'<button type="button" class="hb-play">Play</button>{jumps}</p>'
        f'<p class="hb-speed"><label for="{identity}">Speed</label><select id="{identity}">{speeds}</select></p>'
        '<p class="hb-still">This device asks for less motion: go from event to event, or move the time.</p></div>'
    )


def _dials(form: Figure, texts: dict[str, str], values: dict[str, str]) -> str:
    """A dial for each field; those of a group are folded away under its name."""
    parts = []
    for group, fields in groupby(form.inputs, key=lambda field: field.group):
        dials = "".join(_dial(form.name, field, texts[field.key], values[field.key]) for field in fields)
        parts.append(f"<details><summary>{escape(group)}</summary>{dials}</details>" if group else dials)
    return "".join(parts)


def _dial(name: str, field: Field, text: str, value: str) -> str:
    """A field with its label, and room for what is wrong about a number in a link."""
    identity = f"{PREFIX}{name}-{field.key}"
    about = f'id="{identity}" name="{field.key}" aria-describedby="{identity}-error"'
    label = "" if field.kind == "hidden" else f'<label for="{identity}">{escape(field.label)}</label>'
    shown = ""
    if field.kind == "number":
        shown = f'<span class="hb-value" data-value="{field.key}" aria-hidden="true">{verbatim(value)}</span>'
    return (
        f'<div class="hb-dial"><span class="hb-named">{label}{shown}</span>'
        f"{ENTRIES[field.kind](field, about, text, value)}"
        f'<span class="hb-error" id="{identity}-error"></span></div>'
    )


def _slider(field: Field, about: str, text: str, value: str) -> str:
    assert isinstance(field, Number)
    label, (low, high, step) = escape(field.label), (to_ascii(exact(n)) for n in (field.low, field.high, field.step))
    return (
        '<span class="hb-dialed">'
        f'<button type="button" class="hb-step" data-step="-1" aria-label="Less: {label}">\u2212</button>'
        f'<input {about} type="range" min="{low}" max="{high}" step="{step}" '
        f'{value_attributes(text)}{of_day(field)} aria-valuetext="{verbatim(value)}">'
        f'<button type="button" class="hb-step" data-step="1" aria-label="More: {label}">+</button></span>'
    )


def _choice(field: Field, about: str, text: str, value: str) -> str:
    assert isinstance(field, Choice)
    options = "".join(
        f'<option value="{verbatim(key)}"{" selected" if key == text else ""}>{escape(label)}</option>'
        for key, label in field.options
    )
    return f"<select {about}>{options}</select>"


def _kept(field: Field, about: str, text: str, value: str) -> str:
    """What no dial holds and only the choice of an approach sets."""
    page = " data-of-page" if field.of_page else ""
    return f'<input {about} type="hidden" value="{verbatim(text)}" data-first="{verbatim(text)}"{page}>'


ENTRIES: dict[str, Callable[[Field, str, str, str], str]] = {"number": _slider, "choice": _choice, "hidden": _kept}


def _data(form: Figure, result: Drawn) -> str:
    table = html_table(result.headers, result.rows).replace("<table>", '<table class="hb-neighbours">', 1)
    return (
        f'<details class="hb-data"><summary>The data of this figure</summary><div class="hb-around" tabindex="0" '
        f'role="group" aria-label="Table: {escape(form.title)}">{table}</div></details>'
    )

