"""What a reader can tick before a drill's answer opens: one list for all drills, and which of it is right for each.

The list holds every item that some kind of mistake makes wrong, so that it gives none of them away.  Which ticks are
right is settled here, by what the checks have to find; the script of the page only compares.
"""

import json
from collections.abc import Iterable, Sequence

from lpv.drill.drills import GRADES, Drill
from lpv.drill.planted import Planted
from lpv_site.figures.figure import set_aside
from lpv_site.text.text import escape

# Item, in the order of the cockpit, then of the database -> keys of the findings that say it is wrong.
ITEMS = {
    "data cycle": ("set-cycle", "cycle", "cycle-in-force"),
    "procedure loaded": ("set-procedure",),
    "channel": ("set-channel",),
    "path identifier": ("set-path-id",),
    "source": ("set-source", "set-wrong-source"),
    "tuned frequency": ("set-localizer", "set-inhibited"),
    "course set": ("set-course", "set-course-left"),
    "altimeter setting": ("set-altimeter",),
    "level announced": ("set-level",),
    "kind of minimum": ("set-minimum-kind",),
    "minimum": ("set-minimum-level", "set-minimum-low", "set-minimum-floor", "set-minimum-cold"),
    "missed approach altitude": ("set-missed", "set-missed-below-minimum", "set-missed-cold"),
    "arming": ("set-armed",),
    "aircraft: final course": ("course-shown",),
    "aircraft: glidepath": ("glidepath",),
    "aircraft: TCH": ("tch",),
    "aircraft: altitude at a fix": ("fix-altitude",),
    "aircraft: a fix missing": ("fix-sequence",),
    "aircraft: course of a leg": ("leg",),
}
FOLLOWS = "set-sides"  # that the sides differ follows from the item that is wrong
NOTHING = "nothing is wrong"
CHOICES = (*ITEMS, NOTHING)
ASKED = {"plain": "one plain mistake", "subtle": "one subtle mistake", "mixed": "two mistakes, or none"}
WITHOUT_SCRIPTS = "Without JavaScript no score is kept: answer aloud, then open the answer below each drill."


def right_items(planted: Planted) -> list[int]:
    """Places in CHOICES of the items that a mistake makes wrong; any of them names it.

    KeyError for a finding that belongs to no item.
    """
    keys = {name.split(" ")[0] for name, _ in planted.expected} - {FOLLOWS}
    item_of = {key: place for place, keys in enumerate(ITEMS.values()) for key in keys}
    return sorted({item_of[key] for key in keys})


def answer_place(drill: Drill) -> str:
    """Where the script builds the reader's own answer to a drill."""
    right = json.dumps([right_items(planted) for planted in drill.planted], separators=(",", ":"))
    return f'<div class="hb-own-answer" data-drill="{drill.row.name}" data-right="{right}"></div>'


def score_box(drills: Iterable[Drill], grades: Sequence[str] = GRADES) -> str:
    """Markdown block where the script says how many drills of these grades are done and right, and of all.

    drills: all there are
    """
    numbers: dict[str, list[int]] = {grade: [] for grade in GRADES}
    for drill in drills:
        numbers[drill.row.grade].append(drill.row.number)
    known = [[grade, ASKED[grade], sorted(numbers[grade]), grade in grades] for grade in GRADES]
    html = (
        f'<p class="hb-score" data-script="assets/drill.js" data-choices="{escape(json.dumps(CHOICES))}" '
        f'data-drills="{escape(json.dumps(known))}">{WITHOUT_SCRIPTS}</p>'
    )
    return f"<div>{set_aside(html)}</div>\n"
