"""The kinds of drills and their levels of difficulty, and how many there are of each."""

from lpv_site.pages.drill_choices import ASKED, numbers_of, spans
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table

NAMES = {"plain": "find the error", "subtle": "find the error", "mixed": "find the error",
         "numbers": "numbers", "sequences": "sequences"}


def row(page: str) -> tuple[str, str, int, str]:
    """A page that has drills: what kind, the link to it, how many, and their numbers."""
    numbers = numbers_of(page)
    return NAMES[page], f"[**{ASKED[page][0]}**]({page}.md)", len(numbers), spans(numbers)


def show() -> Shown:
    """A table of the kinds; "all" is how many drills there are together."""
    pages = [page for page in ASKED if numbers_of(page)]
    counts = {page: Value.of(len(numbers_of(page)), "") for page in pages}
    counts["all"] = Value.of(sum(len(numbers_of(page)) for page in pages), "")
    return Shown(table(["kind", "level of difficulty", "drills", "numbers"], map(row, pages), left=2), counts)
