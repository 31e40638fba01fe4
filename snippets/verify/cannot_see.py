"""What the cross-check cannot see: fields that no rule compares, in the words of the schema."""

from collections.abc import Mapping

from lpv.approach.record import Approach
from lpv.crosscheck.unread import BOOKS, POSSIBLE, UNREAD
from lpv.files.schema import Entry, entries
from lpv_site.text.shown import Shown
from lpv_site.text.table import ALL_LEFT, table
from lpv_site.text.text import escape

CODED = "database.leg."


def entry_of(place: str) -> Entry:
    """The schema's entry of a field such as "chart.msa.altitude_ft"."""
    *tables, last = place.split(".")
    record = Approach
    for name in tables:
        record = entries(record)[name][1].record
    return entries(record)[last][1]


def fields(listed: Mapping[str, str]) -> str:
    """A table of fields and why they are not compared."""
    rows = dict.fromkeys((escape(entry_of(place).what), escape(why)) for place, why in listed.items())
    return table(["field", "why"], list(rows), left=ALL_LEFT)


def show() -> Shown:
    """Fields that must only be possible, fields that nothing compares, and the file's own books."""
    plain = {place: why for place, why in UNREAD.items() if not place.startswith(CODED)}
    coded = ", ".join(escape(entry_of(place).what) for place in UNREAD if place.startswith(CODED))
    books = ", ".join(escape(entry_of(name).what) for name in BOOKS)
    return Shown(
        f"Only checked to be possible; a slip that is still possible goes unnoticed:\n\n{fields(POSSIBLE)}\n"
        f"Not compared at all:\n\n{fields(plain)}\n"
        f"Nor what coded legs hold beside position, altitude, course, length and angle: {coded}. "
        f"Nor the file's own books: {books}.\n")
