"""The form of an approach file: an entry for each key of the schema that is filled in by hand, in sections.

The phone runs the file's own reader and the cross-check on what is typed (`lpv.compose.form`).  What a key may hold is
said by the schema; nothing about a key is written here a second time but the titles of sections.
"""

import json
from collections.abc import Iterator
from typing import Any

from lpv.approach.record import Approach
from lpv.approach.schema import TO_BE_FILLED
from lpv.compose.entries import CARRIED, YES, path_of
from lpv.core.text import UNIT_SIGNS, capitalized, interval
from lpv.files.schema import Entry, entries
from lpv_site.figures.figure import set_aside
from lpv_site.forms import phone, setup_figures
from lpv_site.forms.form_parts import Parts
from lpv_site.text.findings import MARKS
from lpv_site.text.text import escape, verbatim

BOX = "own-approach"
SCRIPTS = "assets/choose.js assets/approach-form.js"
STATE = (
    "This form needs JavaScript and WebAssembly, which are missing here. "
    'Write it <a href="#write-by-hand">by hand</a> in a text editor.'
)
INSTEAD = "Write the file by hand."
BRINGING = "Bringing the form here: about 330 kB, once."
TITLES = {
    "identity": "The chart's margin", "chart": "What the chart prints", "chart.fix": "Fixes", "chart.minima": "Minima",
    "chart.missed": "Missed approach", "chart.lights": "Approach lights", "chart.msa": "Minimum safe altitudes",
    "runway": "The runway as surveyed", "database": "What the database holds",
    "database.segment": "The segment by its fields, instead of a data block",
    "database.fix": "Fixes as the aircraft shows them",
    "filled": "Who filled in and who verified",
}
ROWS = {"chart.fix": "fix", "chart.minima": "line of minima", "chart.msa": "sector", "database.fix": "fix",
        "filled": "entry"}
LINES = ("texts", "parsed")  # may take several lines
PARTS = Parts(BOX)


def build_approach_form() -> str:
    """Markdown block with the form."""
    return f"<div>{set_aside(_form())}</div>\n"


def paths() -> list[str]:
    """The path of every entry that the form has; rows of a list without their number."""
    return [path for path, _ in leaves(Approach, "")]


def leaves(record: Any, place: str) -> Iterator[tuple[str, Entry]]:
    """Each entry of a record with its path, those of its tables and rows included."""
    for key, (_, entry) in entries(record).items():
        path = path_of(place, key)
        if path in CARRIED:
            continue
        if entry.kind in ("table", "tables"):
            yield from leaves(entry.record, path)
        else:
            yield path, entry


def _form() -> str:
    words = {"marks": MARKS}
    return (
        f'<details class="hb-calculator hb-setup hb-write" id="{BOX}" data-script="{SCRIPTS}" '
        f'data-list="{setup_figures.LIST_MARK}" data-figures="{setup_figures.address("{}")}" '
        f'data-words="{verbatim(json.dumps(words))}" data-instead="{INSTEAD}" data-bringing="{BRINGING}" '
        f"{phone.attributes('approach')}><summary>Write an approach file</summary>"
        f'<p class="hb-state" role="status">{STATE}</p>'
        '<form method="dialog" autocomplete="off" novalidate><fieldset disabled><legend>Entries</legend>'
        f"{_begin()}{_sections(Approach, '')}{BUTTONS}</fieldset></form>{ANSWER}</details>"
    )


def _begin() -> str:
    """Where to begin: with an approach of this site, a file, a text; and the name of the file to save."""
    file = (f'<input type="file" class="hb-file" id="{BOX}-file" accept=".toml,text/plain" '
            f'aria-describedby="{BOX}-file-error">')
    pasted = (f'<textarea class="hb-paste" id="{BOX}-paste" rows="2" spellcheck="false" '
              f'aria-describedby="{BOX}-paste-error"></textarea>')
    name = (f'<input class="hb-name" id="{BOX}-name" spellcheck="false" autocapitalize="off" '
            f'aria-describedby="{BOX}-name-hint {BOX}-name-error">')
    return (
        '<details class="hb-from"><summary>Begin with a file that is there</summary>'
        + PARTS.approach() + PARTS.row("file", "Open a file", file, True)
        + PARTS.row("paste", "Or paste its text", pasted, True) + "</details>"
        + PARTS.row("name", "Name of the file, without .toml", name, True,
                    "such as zzak-rnav-09; it becomes the page's address")
    )


def _sections(record: Any, place: str) -> str:
    """The tables of a record, each in a section that folds; lists of rows in one section."""
    html = ""
    for key, (_, entry) in entries(record).items():
        path = path_of(place, key)
        if path in CARRIED:
            continue
        if entry.kind == "table":
            html += _section(path, entry, _fields(entry.record, path)) + _sections(entry.record, path)
        elif entry.kind == "tables":
            html += _section(path, entry, _list(path, entry))
    return html


def _section(path: str, entry: Entry, content: str) -> str:
    title = TITLES.get(path) or capitalized(entry.what)
    return (f'<details class="hb-section" data-section="{path}"><summary>{escape(title)} '
            f'<span class="hb-count"></span></summary>{content}</details>')


def _fields(record: Any, place: str) -> str:
    leaves = [(key, entry) for key, (_, entry) in entries(record).items()
              if entry.kind not in ("table", "tables") and path_of(place, key) not in CARRIED]
    return f'<div class="hb-fields">{"".join(_field(key, entry, path_of(place, key)) for key, entry in leaves)}</div>'


def _list(path: str, entry: Entry) -> str:
    """The rows of a list, none to begin with, and the row that is added."""
    row_name = ROWS[path]
    row_fields = "".join(_field(key, item, "") for key, (_, item) in entries(entry.record).items())
    row = (f'<div class="hb-pair" role="group"><p class="hb-pair-name">{capitalized(row_name)} '
           f'<span class="hb-number"></span></p><div class="hb-fields">{row_fields}</div>'
           f'<p class="hb-buttons"><button type="button" class="hb-up">Move up</button>'
           f'<button type="button" class="hb-remove">Remove</button></p></div>')
    return (f'<div class="hb-rows" data-list="{path}" data-one="{row_name}"></div>'
            f'<template data-row="{path}">{row}</template><p class="hb-buttons">'
            f'<button type="button" class="hb-add" data-add="{path}">'
            f'Add {"an" if row_name[0] in "aeiou" else "a"} {row_name}</button></p>')


def _field(key: str, entry: Entry, path: str) -> str:
    """One entry with its label, hint and room for a fault; in a row without a path, which the page gives it."""
    place = f'data-key="{key}"' + (f' data-path="{path}"' if path else "")
    label, unit = escape(capitalized(entry.what)), escape(UNIT_SIGNS.get(entry.unit, entry.unit))
    hint = f'<span class="hb-hint"><code>{key}</code>{escape(_hint(entry))}</span><span class="hb-error"></span>'
    if entry.kind == "choices":
        ticks = "".join(f'<label><input type="checkbox" value="{verbatim(word)}">{escape(TO_BE_FILLED.get(word, word))}'
                        '</label>' for word in entry.allowed)
        return (f'<div class="hb-field hb-wide" role="group" {place}><b>{label}</b>'
                f'<div class="hb-ticks">{ticks}</div>{hint}</div>')
    wide = " hb-wide" if entry.kind in LINES or entry.longest > 80 else ""
    return (f'<div class="hb-field{wide}" {place}><label>{label}</label><span class="hb-entry">{_entry(entry)}'
            f'<span class="hb-unit">{unit}</span></span>{hint}</div>')


def _entry(entry: Entry) -> str:
    if entry.kind in ("choice", "flag"):
        words = (YES,) if entry.kind == "flag" else entry.allowed
        options = "".join(f'<option value="{verbatim(word)}">{escape(word)}</option>' for word in words)
        return f'<select><option value="">{"no" if entry.kind == "flag" else "choose"}</option>{options}</select>'
    if (entry.kind in LINES and entry.example != '"2612"') or entry.longest > 80:
        return '<textarea rows="2" spellcheck="false"></textarea>'
    keys = ' inputmode="decimal"' if entry.kind in ("number", "whole") and entry.low >= 0 else ""
    return f'<input{keys} spellcheck="false" autocapitalize="off">'


def _hint(entry: Entry) -> str:
    """What may stand there, where the label does not say it, and whether it has to."""
    words = {
        "number": interval(entry.low, entry.high, entry.unit), "whole": interval(entry.low, entry.high, entry.unit),
        "day": "such as 2026-11-26", "latitude": "degrees, or such as N37 05 00.5",
        "longitude": "degrees, or such as W002 05 35.6", "texts": "one to a line", "choices": "any of these",
    }.get(entry.kind, f"such as {entry.example}" if entry.example else "")
    parts = [words] if words else []
    return "".join(f", {part}" for part in [*parts, *(["needed"] if entry.required else [])])


BUTTONS = (
    '<p class="hb-buttons"><button type="button" class="hb-save">Save the file</button>'
    '<button type="button" class="hb-copy">Copy its text</button><button type="reset">Empty the form</button></p>'
)
ANSWER = (
    '<output class="hb-sentence">Not checked yet.</output><p class="hb-about"></p>'
    '<div class="hb-stack hb-found"></div>'
    '<details class="hb-open hb-missing" hidden><summary></summary><ul></ul></details>'
    '<details class="hb-open hb-not-compared" hidden><summary></summary><ul></ul></details>'
    '<details class="hb-agree" hidden><summary></summary><ul></ul></details>'
    '<details class="hb-whole-file"><summary>The file as it will be saved</summary><pre><code></code></pre></details>'
)
