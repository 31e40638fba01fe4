"""All briefings of a build: made in worker processes, kept by content, made again only when something changed.

A briefing is kept finished but for what is not known where it is made: the theme around it, how pages are named, the
edition.  Thousands of them are written one by one (see `lpv_site.build.shell`), so that they do not fill the memory.
"""

import re
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from lpv.approach.record import read
from lpv_site.briefing.briefing import IndexEntry, build_briefing_page, index_entry
from lpv_site.build.pages import make_page
from lpv_site.figures.qr import in_place, with_edition
from lpv_site.forms import setup_figures
from lpv_site.text.jumps import without_jumps

FIRST_HEADING = re.compile(r"<h1\b[^>]*>.*?</h1>", re.S)
SECTION = "<h2 "
ATTRIBUTES = re.compile(r"<(\w+)\b[^>]*>")
EDITION = "hb-mark-edition"  # the edition in words, on the card
Record = dict[str, Any]


@dataclass(frozen=True)
class Briefing:
    """What a build asks of a briefing beside its content.

    head:     title and description
    toc, anchors, links, places: as of any page (see `lpv_site.build.pages.Page`)
    entry:    its line in the index
    figures:  the text of the file that forms fetch
    searched: what search reads
    key:      under which its content is kept
    """

    head: dict[str, str]
    toc: list[dict[str, Any]]
    anchors: list[str]
    links: list[str]
    places: list[list[str]]
    entry: IndexEntry
    figures: str
    searched: str
    key: str


def make(path: Path, site_url: str = "") -> tuple[Record, bytes]:
    """Read one approach file and build its briefing; DataError with every fault of the file."""
    approach = read(path)
    figures = setup_figures.figures(approach) | {"file": setup_figures.file_of(path.read_text("utf-8"))}
    address = f"approaches/{path.stem}.md"
    page = make_page(address, build_briefing_page(approach))
    content = with_edition(in_place(page.whole, site_url, address), EDITION)
    record = {
        "head": page.head, "toc": page.toc, "anchors": page.anchors, "links": page.links, "places": page.places,
        "entry": asdict(index_entry(approach)), "figures": setup_figures.as_json(figures),
        "searched": as_searched(page.content),
    }
    return record, content.encode()


def as_searched(content: str) -> str:
    """What search reads of a briefing, as the theme's search has it: where it is, from when to when its data hold."""
    head = FIRST_HEADING.sub("", without_jumps(content).partition(SECTION)[0])
    return " ".join(ATTRIBUTES.sub(r"<\1>", head).split())


def briefing_of(record: Record, key: str) -> Briefing:
    """A briefing as it was kept."""
    return Briefing(**{**record, "entry": IndexEntry(**record["entry"])}, key=key)


def files(docs: Path) -> list[Path]:
    """The approach files, in the order of their names."""
    return sorted((docs / "approaches").glob("*.toml"))
