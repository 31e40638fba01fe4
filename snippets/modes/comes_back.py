"""What comes back after the cause of a loss is gone: by itself, and after what the crew can do."""

from lpv.core.spoken import spoken
from lpv.modes.rules import Rules
from lpv.modes.ways import ARMING_AGAIN, CAUSES, comes_back
from lpv_site.department.data import aircraft
from lpv_site.text.shown import Shown
from lpv_site.text.table import ALL_LEFT, table
from lpv_site.text.text import escape

WAYS = ((ARMING_AGAIN, False), (("activate approach", *ARMING_AGAIN), False), (ARMING_AGAIN, True))
MARKS = {"both": "✓ both", "nothing": "✕ nothing", None: "cannot happen"}


def show() -> Shown:
    text = ""
    for jet in aircraft()[:3]:
        rows = [(spoken(cause), *[cell(cause, again, inside, jet.rules) for again, inside in WAYS]) for cause in CAUSES]
        heads = ["what happened", "before the FAF: arm", "before: activate, arm", "inside: arm"]
        text += f"{escape(jet.type.name)}:\n\n{table(heads, rows, left=ALL_LEFT)}\n"
    return Shown(text)


def cell(cause: str, again: tuple[str, ...], inside: bool, rules: Rules) -> str:
    outcome = comes_back(cause, again, inside, rules)
    return MARKS.get(outcome) or spoken(str(outcome))
