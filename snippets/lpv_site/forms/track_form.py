"""A recording picked on the reader's device, as a form: judged there by the modules of `lpv`, sent nowhere.

Without scripts it stays grey, says why, and names the command.
"""

import json

from lpv.facts import value
from lpv.track.form import FIELDS, HINTS
from lpv.track.plot import SIZE
from lpv.track.readers import ENDINGS
from lpv.track.records import GEOMETRIC, IN_WORDS
from lpv.track.tables import ALTITUDE_NAMES, ALTITUDES
from lpv_site.department.data import DOCS
from lpv_site.figures.figure import set_aside
from lpv_site.figures.qr import permanent_address
from lpv_site.forms import phone, setup_figures
from lpv_site.forms.calculators import PREFIX
from lpv_site.forms.form_parts import ANY, Parts
from lpv_site.forms.live import build_empty_player
from lpv_site.pages.track_page import ABOUT, EXPLAINED, LINKS
from lpv_site.text.facts import PAGE as FACTS_PAGE
from lpv_site.text.headings import headings
from lpv_site.text.links import relative
from lpv_site.text.text import escape, verbatim

BOX = PREFIX + "flight"
LINK_TO_FACTS = relative(FACTS_PAGE, "debrief/own.md")
PARTS = Parts(BOX)
ACCEPTED = ",".join(ENDINGS)


def _reference(name: str) -> str:
    return ALTITUDES[name][0]


def _holds(name: str) -> str:
    """What a column of altitudes holds, in words with its unit."""
    words = IN_WORDS[_reference(name)].partition(",")[0]
    return f"{words}, {name.rpartition('_')[2]}"


COLUMNS = (
    ("time", "Time", (("time_utc", "date and time"), ("time_s", "seconds"), ("time_ms", "milliseconds"),
                      ("time_clock", "a clock, hh:mm:ss"))),
    ("latitude", "Latitude", (("latitude_deg", "degrees"),)),
    ("longitude", "Longitude", (("longitude_deg", "degrees"),)),
    ("gnss", "Altitude by GNSS", tuple(
        (name, _holds(name)) for name in ALTITUDE_NAMES if _reference(name) in GEOMETRIC)),
    ("altimeter", "Altitude by an altimeter", tuple(
        (name, _holds(name)) for name in ALTITUDE_NAMES if _reference(name) not in GEOMETRIC)),
)
WIDE = ("level", "altitude", "joined", "receiver")
NO_TYPE = f'<option value="{ANY}">none: the chart\'s minimum</option>'
INSTEAD = "On a computer: lpv track FILE --approach FILE."
STATE = (
    "Reading a file needs JavaScript and WebAssembly, which are missing here. On a computer: "
    "<code>lpv track FILE --approach FILE</code>."
)
QUESTION = "What does your recording show about an approach? It stays on this device: nothing is sent, nothing is kept."
RESULT = (
    '<output class="hb-sentence">Nothing is read yet.</output><p class="hb-progress"></p>'
    '<div class="hb-told" hidden><div class="hb-stack hb-faults"></div><div class="hb-all">'
    '<p class="hb-verdicts"></p><p class="hb-about"></p><ul class="hb-remarks"></ul><ul class="hb-others"></ul>'
    '<div class="hb-plots"></div><p class="hb-part">Moments</p>'
    "<p>✓ within, ✕ outside, ≈ too close to say, ○ not judged. On the left: distance "
    'to the threshold, altimeter (<span class="hb-whose"></span>), time from the first sample.</p>'
    '<table class="hb-neighbours"><caption class="hb-unseen">Moments</caption><thead><tr><th scope="col">where</th>'
    '<th scope="col">what, and where it is explained</th></tr></thead><tbody class="hb-moments"></tbody></table>'
    '<p class="hb-missing"></p>'
    '<p class="hb-buttons"><button type="button" class="hb-copy-all">Copy all as text</button></p></div></div>'
)


def build_track_form() -> str:
    """Markdown block with the form."""
    return f"<div>{set_aside(_form())}</div>\n"


def links() -> dict[str, dict[str, list[str]]]:
    """Where each kind of moment and of remark is explained: key -> address on the site and words.

    A moment that was outside its limits has ", wrong" after its key.
    """
    known = headings(DOCS)
    moments = {}
    for key, targets in LINKS.items():
        for end, target in zip(("", ", wrong"), targets, strict=True):
            if target in known:
                moments[key + end] = [address(target), known[target]]
    remarks = {key: [address(f"{EXPLAINED}#{anchor}"), f"{words[0].upper()}{words[1:]}"]
               for key, (anchor, words) in ABOUT.items()}
    return {"moments": moments, "remarks": remarks}


def address(target: str) -> str:
    """Where a heading stands, from the site's root."""
    page, _, part = target.partition("#")
    return f"{permanent_address('', page)[1:]}#{part}"


def _form() -> str:
    data = {**links(), "size": SIZE}
    return (
        f'<details class="hb-calculator hb-own" id="{BOX}" data-script="assets/choose.js assets/track.js" '
        f'data-list="{setup_figures.LIST_MARK}" data-figures="{setup_figures.address("{}")}" '
        f'data-words="{verbatim(json.dumps(data))}" data-most="{int(value("recording_phone_mb") * 1e6)}" '
        f'data-instead="{INSTEAD}" {phone.attributes("recording")}>'
        f'<summary>Read a recording on this device</summary><p class="hb-question">{QUESTION}</p>'
        f'<p class="hb-state" role="status">{STATE}</p>'
        '<form method="dialog" autocomplete="off" novalidate><fieldset disabled><legend>Entries</legend>'
        f"{PARTS.approach()}{PARTS.aircraft(NO_TYPE)}{_file()}{_columns()}{_fields()}"
        '<p class="hb-buttons"><button type="submit">Read it</button><button type="reset">Reset</button></p>'
        f"</fieldset></form>{RESULT}</details>{build_empty_player(LINK_TO_FACTS)}"
    )


def _file() -> str:
    """The file; without a name, so that it is no entry that a link or a note could hold."""
    identity = f"{BOX}-file"
    return (
        f'<div class="hb-field hb-wide"><label for="{identity}">Recording</label><span class="hb-entry">'
        f'<input id="{identity}" class="hb-file" type="file" accept="{ACCEPTED}" aria-describedby="{identity}-hint">'
        f'</span><span class="hb-hint" id="{identity}-hint">CSV, JSON, GPX, KML or IGC; it stays here</span></div>'
    )


def _columns() -> str:
    """Which column of a table is what, shown for a file whose columns have other names; without names, as the file."""
    rows = "".join(_column(key, label, kinds) for key, label, kinds in COLUMNS)
    return (
        '<div class="hb-columns" hidden><p class="hb-part">Columns of this file</p>'
        "<p>Say what each holds. What you assign is kept on this device for files with the same columns.</p>"
        f"{rows}</div>"
    )


def _column(key: str, label: str, kinds: tuple[tuple[str, str], ...]) -> str:
    """The choice of a column, and of what it holds where it may hold several things."""
    identity = f"{BOX}-column-{key}"
    options = "".join(f'<option value="{verbatim(ours)}">{escape(words)}</option>' for ours, words in kinds)
    hidden = " hidden" if len(kinds) == 1 else ""
    return (
        f'<div class="hb-field hb-wide"><label for="{identity}">{label}</label><span class="hb-entry">'
        f'<select id="{identity}" class="hb-column"><option value="">none</option></select>'
        f'<select class="hb-kind" aria-label="{label}: what it holds"{hidden}>{options}</select></span></div>'
    )


def _fields() -> str:
    rows = ""
    for field in FIELDS:
        hint = HINTS.get(field.key, "")
        entry = PARTS.entry(field, f"{BOX}-{field.key}-hint" if hint else None)
        rows += PARTS.row(field.key, escape(field.label), entry, field.key in WIDE, hint)
    return f'<div class="hb-fields">{rows}</div>'
