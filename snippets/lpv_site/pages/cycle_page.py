"""What changed this cycle: one page with links to the briefings, and a bulletin to print.

    python -m lpv_site.pages.cycle_page OLD NEW > page.md

The site makes the page by itself from `docs/approaches/previous/`, which holds the set of the cycle before.
"""

import sys
from collections.abc import Callable
from pathlib import Path

from lpv.command.runner import run
from lpv.core import airac
from lpv.core.errors import DataError, Fault
from lpv.core.text import capitalized, plural
from lpv.crosscheck.cycle import (
    CHANGED,
    GONE,
    OLD_ONE,
    WORDS,
    Comparison,
    Entry,
    compare_folders,
    headline,
    name,
)
from lpv_site.briefing.card import CAUTION
from lpv_site.department.data import hash_of
from lpv_site.department.department import department
from lpv_site.department.files import demo_approaches
from lpv_site.text.findings import MARKS
from lpv_site.text.table import table
from lpv_site.text.text import escape, front_matter
from lpv_site.text.validity import notice

ADDRESS = "approaches/changes.md"
TITLE = "What changed this cycle"
MAX_LINES = 50.0  # of a bulletin on one page of A4 or letter, as docs/assets/card.css prints it
GAP_LINES = 0.4  # between two approaches
SIGNS_OF_A_LINE = 85  # of the widest letters that words are made of
MAX_LINES_OF_ONE = 9
HEADINGS = {
    "stop": "Do not fly the old one",
    "resolve": "Brief anew",
    "note": "Know",
}


def cycle_pages(docs: Path) -> dict[str, Callable[[], str]]:
    """Address -> page; without a set of the cycle before it says so.  DataError with the faults of its files."""
    previous = docs / "approaches" / "previous"
    if not any(previous.glob("*.toml")):
        return {ADDRESS: build_empty_page}
    try:
        page = build_cycle_page(compare_folders(previous, docs / "approaches", demo_approaches(docs)))
    except DataError as error:
        raise DataError([_placed(fault, previous) for fault in error.faults]) from error
    return {ADDRESS: lambda: page}


def _placed(fault: Fault, previous: Path) -> Fault:
    """A fault with its file as briefings name it; one of the cycle before with the folder."""
    path = Path(fault.file)
    file = f"{previous.parent.name}/{previous.name}/{path.name}" if path.parent == previous else path.name
    return Fault(file, fault.key, fault.found, fault.allowed, fault.action, fault.line, fault.text)


def compared_version(docs: Path) -> str:
    """A hash of all files that the page compares, with the name on its bulletin; "" without a set of the cycle before.

    The demo's approaches that a department's edition still holds belong to no set of its own.
    """
    old, demo = sorted((docs / "approaches" / "previous").glob("*.toml")), demo_approaches(docs)
    new = [path for path in sorted((docs / "approaches").glob("*.toml")) if path.stem not in demo]
    owner = department()
    return f"{hash_of([*old, *new], docs)} {owner.name if owner else ''}" if old else ""


def build_empty_page() -> str:
    """The page of a site that has no set of the cycle before."""
    return (
        front_matter(TITLE, "Nothing to compare with on this site.")
        + "Not known: this site has no set of the previous cycle. Compare chart and database yourself.\n"
    )


def build_cycle_page(comparison: Comparison, briefings: str = "") -> str:
    """The page as Markdown; `briefings` is what stands before the name of a briefing in a link to it."""
    page = front_matter(TITLE, headline(comparison))
    page += f"{escape(headline(comparison))} {_in_force(comparison)}\n\n{_held(comparison)}"
    page += "".join(f"\n{escape(text)}\n" for text in comparison.remarks)
    page += "".join(_group(grade, comparison.graded(grade), briefings) for grade in HEADINGS)
    page += _unchanged(comparison)
    return page + "\n" + _bulletin(comparison)


def _in_force(comparison: Comparison) -> str:
    return f"The new cycle is in force {airac.cycle(comparison.new_cycles[-1]).held}."


def _held(comparison: Comparison) -> str:
    """The notice that warns once the new cycle has ended."""
    return notice(comparison.new_cycles[-1])


def _group(grade: str, entries: list[Entry], briefings: str) -> str:
    if not entries:
        return ""
    rows = "".join(_entry(entry, briefings) for entry in entries)
    return f"\n## {MARKS[grade]} {HEADINGS[grade]} {{ #{grade} data-search-exclude }}\n{rows}"


def _entry(entry: Entry, briefings: str) -> str:
    """One approach: its name, the link to its briefing, and every change."""
    link = "" if entry.state == GONE else f" [Briefing]({briefings}{entry.slug}.md)."
    moved = f" Its file was {escape(entry.before)}." if entry.before else ""
    text = f"\n### {escape(name(entry))} {{ #{entry.slug} data-search-exclude }}\n\n"
    if entry.state != CHANGED:
        return f"{text}{entry.state.capitalize()}: {WORDS[entry.state]}.{link}\n"
    rows = [
        (f"{MARKS[change.grade]} {escape(change.what)}" + (f"<br>**{escape(change.about)}**" if change.about else ""),
         escape(change.old), escape(change.new))
        for change in entry.reported
    ]
    changes = "\n" + table(["field", "was", "is"], rows) if rows else ""
    crew = [OLD_ONE] if entry.grade == "stop" else []
    lines = "".join(f"- {capitalized(escape(words))}\n" for words in [*crew, *(line.words for line in entry.seen)])
    return f"{text}{plural(len(rows), 'change')}.{moved}{link}\n" + (f"\n{lines}" if lines else "") + changes


def _unchanged(comparison: Comparison) -> str:
    word = "approach" if comparison.unchanged == 1 else "approaches"
    return f"\n## Unchanged {{ #unchanged }}\n\n{comparison.unchanged} {word}, but for cycle and dates.\n"


def _bulletin(comparison: Comparison) -> str:
    """The bulletin: with the address ending in #card it is printed alone (docs/assets/card.css)."""
    rows, left = "", MAX_LINES
    for number, entry in enumerate(comparison.entries):
        shown = _fitting(entry, left)
        if shown is None:
            more = len(comparison.entries) - number
            rows += f'<p class="hb-card-row"><b>And {more} more</b>: on this page of the site.</p>\n'
            break
        rows += _line(entry, shown)
        left -= _height(entry, shown)
    owner = department()
    whose = f"{escape(owner.name)}. " if owner else ""
    return (
        "## Bulletin { #print data-search-exclude }\n\n"
        '<p class="hb-print"><a href="#card">Print the bulletin</a>: what to stop and what to brief.</p>\n\n'
        '<section class="hb-card hb-bulletin" id="card" aria-label="Bulletin" data-search-exclude>\n'
        f'<p class="hb-card-name">{TITLE}</p>\n<p class="hb-card-key">{escape(headline(comparison))}</p>\n'
        f"<p>{whose}{_in_force(comparison)}</p>\n{_held(comparison)}{rows}"
        '<p class="hb-card-row"><b>Read by</b> ____________________ <b>on</b> ____________</p>\n'
        f'<p class="hb-card-caution"><b>Caution.</b> {CAUTION}</p>\n</section>\n'
    )


def _fitting(entry: Entry, left: float) -> list[str] | None:
    """As many of an approach's lines as there is room for; None where there is none for its name and the first."""
    asks = entry.asks[:MAX_LINES_OF_ONE]
    for count in range(len(asks), min(1, len(asks)) - 1, -1):
        if _height(entry, asks[:count]) <= left:
            return asks[:count]
    return None


def _height(entry: Entry, shown: list[str]) -> float:
    """Lines that an approach takes on paper."""
    more = 1 if entry.notes or len(entry.asks) > len(shown) else 0
    texts = [f"{entry.state} {name(entry)} {entry.grade}", *shown]
    return GAP_LINES + more + sum(-(-len(words) // SIGNS_OF_A_LINE) for words in texts)


def _line(entry: Entry, shown: list[str]) -> str:
    """One approach in the bulletin: what the crew sees and what to brief, a line each; what is left is counted."""
    more = len(entry.asks) - len(shown)
    left = [f"{more} more on this page of the site"] if more else []
    left += [plural(entry.notes, "note")] if entry.notes else []
    lines = "<br>".join(capitalized(escape(words)) for words in [*shown, *left])
    return (
        f'<p class="hb-card-row"><b>{MARKS[entry.grade]} {entry.grade}: {escape(name(entry))}</b>, {entry.state}<br>'
        f"{lines}</p>\n"
    )


def main(argv: list[str]) -> int:
    """Print the page of two folders; 0 made, 2 files with faults or wrong arguments."""
    if len(argv) != 2:
        print("Usage: python -m lpv_site.pages.cycle_page OLD NEW", file=sys.stderr)
        return 2
    try:
        print(build_cycle_page(compare_folders(*argv)), end="")
    except DataError as error:
        print(error, file=sys.stderr)
        return 2
    return 0


if __name__ == "__main__":
    sys.exit(run(main, sys.argv[1:]))
