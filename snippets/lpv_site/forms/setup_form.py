"""The set-up check as a form: entries of both sides side by side, answered by the modules of `lpv` on the phone.

Without scripts it stays grey and says why; nothing is filled in that nobody has read in the cockpit.
"""

import json
from collections.abc import Sequence
from urllib.parse import urlencode

from lpv.forms.fields import Field
from lpv.setup.file import SetupFile, SideTable
from lpv.setup.form_fields import ARMING, COMMON, LEFT, PLANNED, RIGHT
from lpv_site.figures.figure import set_aside
from lpv_site.figures.qr import permanent_address
from lpv_site.forms import phone, setup_figures
from lpv_site.forms.form_parts import ANY, Parts
from lpv_site.pages.teaching import TEACHES, words_of
from lpv_site.text.findings import MARKS
from lpv_site.text.text import escape, verbatim

NAME = "set-up"
BOX = setup_figures.BOX
PAGE = "set-up/check.md"
STATE = (
    "This check needs JavaScript and WebAssembly, which are missing here. "
    'Check <a href="#by-hand">by hand</a> with the table below.'
)
INSTEAD = "Use the table below by hand."
QUESTION = "What is set on both sides, as read in the cockpit?"
WIDE = ("title", "source")
PARTS = Parts(BOX)
TO_CHOOSE = '<option value="">choose</option>'
ANY_TYPE = f'<option value="{ANY}">any type: the highest minimum counts</option>'


def build_setup_form() -> str:
    """Markdown block with the form."""
    return f"<div>{set_aside(_form())}</div>\n"


def entries(file: SetupFile) -> dict[str, str]:
    """The texts of the form's entries for a set-up file that `fits`."""
    common = file.common
    across_nm = common.across_nm
    texts = {
        "approach": common.approach, "aircraft": common.aircraft, "day": common.day.isoformat(), "cycle": common.cycle,
        "flying": common.flying, "altimeter_unit": common.altimeter_unit,
        "reported": _text(common.reported_altimeter), "temperature_c": _optional(common.temperature_c),
        "previous_course_deg": _optional(common.previous_course_deg), "armed": "yes" if common.armed else "no",
        "across_nm": "" if across_nm is None else _text(abs(across_nm)),
        "across_side": "" if across_nm is None else "left" if across_nm < 0.0 else "right",
        "track_deg": _optional(common.track_deg), "speed_kt": _optional(common.speed_kt),
        "remote_addition_ft": _optional(common.remote_addition_ft),
        "zone_not_clear": "yes" if common.zone_not_clear else "no", "cold_segments": _corrected(common.cold_segments),
    }
    return texts | _side("left", file.left) | _side("right", file.right)


def _text(value: float) -> str:
    """A number as somebody would type it, with all its digits."""
    return str(int(value)) if float(value).is_integer() else repr(value)


def _optional(value: float | None) -> str:
    return "" if value is None else _text(value)


def _corrected(segments: tuple[str, ...]) -> str:
    """Which of final and missed approach are corrected for cold, as the form's choice has it."""
    corrected = [segment for segment in ("final", "missed") if not segments or segment in segments]
    return " and ".join(corrected) or "neither"


def fits(file: SetupFile) -> bool:
    """Whether the form has room for the frequencies of a set-up file: one or two on each side."""
    return all(1 <= len(side.tuned_mhz) <= 2 for side in (file.left, file.right))


def _side(name: str, table: SideTable) -> dict[str, str]:
    first, second = [*map(_text, table.tuned_mhz), "", ""][:2]
    texts = {key: value if isinstance(value, str) else _text(value)
             for key, value in vars(table).items() if key != "tuned_mhz"}
    return {f"{name}_{key}": text for key, text in (texts | {"tuned": first, "tuned_2": second}).items()}


def example_link(file: SetupFile, page: str = "") -> str:
    """Address of the form with the entries of a set-up file."""
    return f"{page}?{urlencode({'own': NAME, **entries(file)})}#{BOX}"


def _form() -> str:
    data = {"marks": MARKS, "teaches": _teaches()}
    figures = setup_figures.address("{}")
    return (
        f'<details class="hb-calculator hb-setup" id="{BOX}" data-script="assets/choose.js assets/setup.js" '
        f'data-list="{setup_figures.LIST_MARK}" data-figures="{figures}" data-words="{verbatim(json.dumps(data))}" '
        f'data-instead="{INSTEAD}" '
        f"{phone.attributes('set-up')}><summary>Enter what both sides have set</summary>"
        f'<p class="hb-question">{QUESTION}</p><p class="hb-state" role="status">{STATE}</p>'
        '<form method="dialog" autocomplete="off" novalidate><fieldset disabled><legend>Entries</legend>'
        f"{PARTS.approach()}{PARTS.aircraft(TO_CHOOSE, ANY_TYPE)}{_group(COMMON + PLANNED)}{_pairs()}"
        f"{_arming()}{BUTTONS}</fieldset></form>{ANSWER}</details>"
    )


BUTTONS = (
    '<p class="hb-buttons"><button type="submit">Check</button><button type="reset">Reset</button>'
    '<button type="button" class="hb-send">Copy link</button></p>'
)
ANSWER = (
    '<output class="hb-sentence">Not checked yet.</output><p class="hb-about"></p><div class="hb-stack hb-found"></div>'
    '<details class="hb-open" hidden><summary></summary><ul></ul></details>'
    '<details class="hb-agree" hidden><summary></summary><ul></ul></details>'
)


def _teaches() -> dict[str, list[str]]:
    """Key of a finding -> address on the site and words of the section that teaches it."""
    pages = {key: target.partition("#") for key, target in TEACHES.items() if key.startswith("set-") and " " not in key}
    return {key: [f"{permanent_address('', page)[1:]}#{part}", words_of(f"{page}#{part}")]
            for key, (page, _, part) in pages.items()}


def _group(fields: Sequence[Field]) -> str:
    rows = "".join(
        PARTS.row(field.key, escape(field.label), PARTS.entry(field), field.kind == "day", field.hint)
        for field in fields)
    return f'<div class="hb-fields">{rows}</div>'


def _arming() -> str:
    return (
        f'<div class="hb-pair" role="group" aria-labelledby="{BOX}-arming"><p class="hb-pair-name" id="{BOX}-arming">'
        f"Arming</p>{_group(ARMING)}</div>"
    )


def _pairs() -> str:
    return "".join(_pair(left, right) for left, right in zip(LEFT, RIGHT, strict=True))


def _pair(left: Field, right: Field) -> str:
    """One item of the cockpit, its entry on the left side and on the right."""
    key = left.key.partition("_")[2]
    wide = " hb-pair-wide" if key in WIDE else ""
    hint = f'<span class="hb-hint" id="{BOX}-{key}-hint">{escape(left.hint)}</span>' if left.hint else ""
    sides = "".join(
        PARTS.row(field.key, f'<span class="hb-unseen">{escape(left.label)}, </span>{side}',
             PARTS.entry(field, f"{BOX}-{key}-hint" if hint else None))
        for side, field in (("left", left), ("right", right))
    )
    return (
        f'<div class="hb-pair{wide}" role="group" aria-labelledby="{BOX}-{key}"><p class="hb-pair-name" '
        f'id="{BOX}-{key}">{escape(left.label)}</p><div class="hb-two">{sides}</div>{hint}</div>'
    )
