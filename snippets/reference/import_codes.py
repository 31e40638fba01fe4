"""Path terminators that the importer reads, and what becomes of each leg."""

from lpv.arinc.legs import STRAIGHT, TO_A_FIX, UNDERSTOOD
from lpv_site.text.shown import Shown
from lpv_site.text.table import table


def becomes(code: str) -> str:
    """What the approach file holds of a leg with this terminator."""
    if code in STRAIGHT:
        return "fix, course, length"
    if code in TO_A_FIX:
        return "fix" if code == "IF" else "fix and text"
    return "text"


def show() -> Shown:
    """A table of the terminators."""
    rows = [(f"**{code}**", words, becomes(code)) for code, words in UNDERSTOOD.items()]
    return Shown(table(["code", "means", "in the file"], rows, left=3))
