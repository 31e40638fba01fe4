"""What a reader can say before a drill's answer opens: one list of each kind for all drills, and what is right.

The list of items holds every one that some kind of mistake makes wrong, so that it gives none of them away.  What is
right is settled here, by what the checks have to find; what an answer is worth is worked out by the page's script from
the points given here.
"""

import json
from collections.abc import Mapping, Sequence
from pathlib import Path

from lpv.decide.remedy import REMEDIES, SIGNS
from lpv.drill.drills import FILE, read
from lpv.drill.judgement import ACTIONS, FOLLOWS, SEVERITIES, SIDES, judgement
from lpv.drill.planted import Planted
from lpv.drill.rows import DIFFICULTIES
from lpv.facts import value_of
from lpv_site.department.data import DOCS
from lpv_site.figures.figure import set_aside
from lpv_site.text.text import verbatim

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
    "aircraft: glidepath": ("glidepath", "glidepath-range"),
    "aircraft: TCH": ("tch",),
    "aircraft: altitude at a fix": ("fix-altitude",),
    "aircraft: a fix missing": ("fix-sequence",),
    "aircraft: course of a leg": ("leg",),
}
NOTHING = "nothing is wrong"
CHOICES = (*ITEMS, NOTHING)
SCRIPTS = "assets/score.js assets/drill.js"
# Page -> words, and the fact with the minutes counted for a drill of it.
ASKED = {
    "plain": ("one plain mistake", "drill_find_min"), "subtle": ("one subtle mistake", "drill_find_min"),
    "mixed": ("two mistakes, or none", "drill_find_min"), "numbers": ("a number", "drill_number_min"),
    "sequences": ("an approach that runs", "drill_sequence_min"),
}
POINTS = {
    "full": "drill_full_points", "item": "drill_item_share", "side": "drill_side_share",
    "severity": "drill_severity_share", "action": "drill_action_share", "extra": "drill_extra_points",
    "allWell": "drill_all_well_points", "known": "drill_known_from_points", "near": "drill_near_factor",
    "moment": "drill_moment_share", "sign": "drill_sign_share", "remedy": "drill_remedy_share",
    "inTime": "drill_in_time_s", "late": "drill_late_s", "session": "drill_session_min",
}
AGAIN = tuple(f"drill_again_{step}_days" for step in range(1, 6))
WITHOUT_SCRIPTS = "Without JavaScript, no score is kept: answer aloud, then open the answer below each drill."


def right_items(planted: Planted) -> list[int]:
    """Places in CHOICES of the items that a mistake makes wrong; any of them names it.

    KeyError for a finding that belongs to no item.
    """
    keys = {name.split(" ")[0] for name, _ in planted.expected} - {FOLLOWS}
    item_of = {key: place for place, keys in enumerate(ITEMS.values()) for key in keys}
    return sorted({item_of[key] for key in keys})


def right_judgement(planted: Planted) -> dict[str, object]:
    """All that is right to say of a mistake, as places in the lists of WORDS."""
    answer = judgement(planted)
    return {"items": right_items(planted), "sides": answer.sides, "severity": answer.severity, "action": answer.action}


def answer_place(name: str, answer: Mapping[str, object]) -> str:
    """Where the script builds the reader's own answer to a drill; answer: its kind and what is right."""
    text = verbatim(json.dumps(answer, ensure_ascii=False, separators=(",", ":")))
    return f'<div class="hb-own-answer" data-drill="{name}" data-answer="{text}"></div>'


def points() -> dict[str, object]:
    """What an answer is worth and when a drill comes again, for the script."""
    again = [_plain(value_of(key)) for key in AGAIN]
    return {name: _plain(value_of(key)) for name, key in POINTS.items()} | {"again": again}


def _plain(number: float) -> float | int:
    return int(number) if number == int(number) else number


def words() -> dict[str, list[str]]:
    """The lists of what can be said."""
    return {
        "items": list(CHOICES), "sides": list(SIDES), "severities": list(SEVERITIES), "actions": list(ACTIONS.values()),
        "signs": list(SIGNS.values()), "remedies": [text for key, text in REMEDIES.items() if key != "nothing"],
    }


def numbers_of(page: str, docs: Path = DOCS) -> list[int]:
    """The permanent numbers of the drills of a page, in order."""
    listed = read(docs / "practice" / FILE)
    rows: Mapping[str, Sequence[object]] = {
        "numbers": listed.numbers, "sequences": listed.sequences,
        **{difficulty: [row for row in listed.drills if row.difficulty == difficulty] for difficulty in DIFFICULTIES},
    }
    return sorted(row.number for row in rows[page])  # type: ignore[attr-defined]


def spans(numbers: Sequence[int]) -> str:
    """Numbers that rise, as their unbroken runs: "37 to 56, 73 to 76"."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(f"{run[0]:02d} to {run[-1]:02d}" if len(run) > 1 else f"{run[0]:02d}" for run in runs)


def kinds(pages: Sequence[str] = (), docs: Path = DOCS) -> list[dict[str, object]]:
    """Every page of drills, for the scripts; here: the pages whose drills are listed one by one."""
    return [
        {"page": page, "words": text, "numbers": numbers_of(page, docs), "minutes": _plain(value_of(key)),
         "here": page in pages}
        for page, (text, key) in ASKED.items()
    ]


def score_box(pages: Sequence[str], docs: Path = DOCS) -> str:
    """Markdown block where the script says how many drills of these pages are done and right, and of all."""
    known = {"words": words(), "points": points(), "kinds": kinds(pages, docs)}
    html = (
        f'<p class="hb-score" data-script="{SCRIPTS}" '
        f'data-drills="{verbatim(json.dumps(known, ensure_ascii=False))}">{WITHOUT_SCRIPTS}</p>'
    )
    return f"<div>{set_aside(html)}</div>\n"
