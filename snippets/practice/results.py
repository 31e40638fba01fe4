"""The table that results of drills in an address are put into, and its sheet."""

import json

from lpv.facts import value
from lpv_site.briefing.card import CAUTION
from lpv_site.figures.figure import set_aside
from lpv_site.pages.drill_choices import kinds
from lpv_site.text.shown import Shown
from lpv_site.text.text import verbatim

HEADS = ("drill", "kind", "points", "day")
LINES = ("Trainee", "Instructor", "Date", "Discussed", "Achieved, or again by")


def show() -> Shown:
    """The sheet, empty until the page's script has read the address."""
    known = verbatim(json.dumps({"kinds": kinds(), "full": int(value("drill_full_points"))}))
    heads = "".join(f'<th scope="col">{head}</th>' for head in HEADS)
    lines = "".join(f"<p>{line}</p>" for line in LINES)
    html = (
        '<section class="hb-card hb-sheet" id="card" aria-label="Results of drills">'
        '<p class="hb-card-name hb-on-paper">Results of drills</p>'
        f'<div class="hb-results" data-script="assets/score.js assets/result.js" data-drills="{known}">'
        '<p role="status">The results stand in the address of this page; without JavaScript they cannot be shown.</p>'
        f'<table class="hb-timeline" hidden><thead><tr>{heads}</tr></thead><tbody></tbody></table></div>'
        f'<div class="hb-lines hb-on-paper">{lines}</div>'
        f'<p class="hb-card-caution"><b>Caution.</b> {CAUTION}</p></section>'
    )
    return Shown(f"<div>{set_aside(html)}</div>\n")
