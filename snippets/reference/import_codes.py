"""Path terminators that the importer reads, and what becomes of each leg."""

from lpv.arinc import codes
from lpv_site.text.shown import Shown
from lpv_site.text.table import ALL_LEFT, table


def becomes(code: str) -> str:
    """What the approach file holds of a leg with this terminator, beside its row among the coded legs."""
    if code in codes.STRAIGHT:
        return "fix, course, length"
    return "fix" if code in codes.TO_A_FIX or code in codes.HOLDS else ""


def status(code: str) -> str:
    """How its meaning is known."""
    return "published" if code in codes.CONFIRMED["terminator"] else "from memory"


def show() -> Shown:
    """A table of the terminators."""
    rows = [(f"**{code}**", words, becomes(code), status(code)) for code, words in codes.TERMINATORS.items()]
    return Shown(table(["code", "means", "in the list of fixes", "meaning"], rows, left=ALL_LEFT))
