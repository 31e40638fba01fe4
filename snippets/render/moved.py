"""Where pages and headings have gone: links of debriefs keep leading to what they were made for.

docs/moved.toml lists every page and heading that has another address than the one it was published with.  A page
that is gone becomes a short page that leads on, to the same heading where the link names one; on a page that stays,
a heading that went elsewhere leaves a line with the link at the page's end.
"""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from html import escape
from pathlib import Path

from lpv import schema, tomlfile
from lpv.approach_schema import FaultRow
from lpv.errors import DataError, Fault
from render.headings import relative
from render.policy import secured

FILE = "moved.toml"
SCRIPT = "assets/moved.js"
ADDRESS = "[a-z0-9/-]+\\.md(#[a-z0-9-]+)?"


@dataclass(frozen=True, kw_only=True)
class Move:
    """One page or heading: the address it had below docs/, and the one it has since."""

    came_from: str = schema.text("old address", pattern=ADDRESS, example="verify/old.md#one", key="from", longest=120)
    to: str = schema.text("new address", pattern=ADDRESS, example="final/other.md#one", longest=120)


@dataclass(frozen=True, kw_only=True)
class Moves:
    """The list of moves."""

    moves: tuple[Move, ...] = schema.tables(Move, "moves", most=2000, unique="came_from", key="moved")

    def faults(self) -> Iterator[FaultRow]:
        """No move may end where it began."""
        table = {move.came_from: move.to for move in self.moves}
        for number, move in enumerate(self.moves, 1):
            if _followed(table, move.to) is None:
                yield (f"moved[{number}].to", f"{move.to}, which leads back", "a way that ends", "Correct the list.")


@dataclass(frozen=True)
class Gone:
    """A page that is no more: where it leads, and the headings that went elsewhere: id -> address."""

    to: str
    parts: dict[str, str]


def moves(docs: Path) -> dict[str, str]:
    """Old address -> the next one, as listed; DataError with every fault of the list."""
    if not (docs / FILE).is_file():
        return {}
    return {move.came_from: move.to for move in tomlfile.read_file(docs / FILE, Moves).moves}


def _followed(table: dict[str, str], address: str) -> str | None:
    """Where an address leads in the end; None if nowhere."""
    seen: set[str] = set()
    while address not in seen:
        seen.add(address)
        page, _, part = address.partition("#")
        if address in table:
            address = table[address]
        elif page in table:
            address = table[page] if "#" in table[page] or not part else f"{table[page]}#{part}"
        else:
            return address
    return None


def now_at(address: str, table: dict[str, str]) -> str:
    """Where an address of old leads now, itself if it has not moved; table from `moves`."""
    return _followed(table, address) or address


def gone_pages(table: dict[str, str], present: set[str]) -> dict[str, Gone]:
    """Old page -> where it leads, of the pages that are no more.  DataError for moves that lead nowhere.

    present: addresses of all pages and headings that there are
    """
    pages = {address.partition("#")[0] for address in present}
    ends = {address: now_at(address, table) for address in table}
    faults = [
        Fault(FILE, address, f"{to}, which is not there", "a page, or a heading of one", "Name where it is now.")
        for address, to in ends.items() if to not in present | pages
    ]
    faults += [
        Fault(FILE, address, "an address that is still there", "one that is gone", "Take the line out, or the heading.")
        for address in table if address in present | pages
    ]
    if faults:
        raise DataError(faults)
    gone: dict[str, Gone] = {}
    for address, to in ends.items():
        page, _, part = address.partition("#")
        if page not in pages:
            place = gone.setdefault(page, Gone(now_at(page, table), {}))
            place.parts.update({part: to} if part else {})
    return gone


def with_lines(markdown: str, address: str, table: dict[str, str]) -> str:
    """A page's Markdown with a line for every heading that went from it elsewhere."""
    mine = {old: now_at(old, table) for old in table if old.startswith(f"{address}#")}
    lines = [
        f'<p class="hb-moved" id="{old.partition("#")[2]}">This has moved: '
        f'<a href="{relative(to, address)}">{escape(to)}</a></p>' for old, to in mine.items()
    ]
    return markdown + "".join(f"\n{line}\n" for line in lines)


def leading_page(url: str, parts: dict[str, str], up: str, title: str, about: str, more_sources: str = "") -> str:
    """A whole page that leads on, with the words that a chat shows of its address.

    url:   where it leads, as a link from this page
    parts: id in the address -> link, where it is another one
    up:    way to the site's root, such as "../../"
    """
    said = "".join(f'<meta {kind} content="{escape(text)}">' for kind, text in (
        ('name="description"', about), ('property="og:title"', title), ('property="og:description"', about),
        ('name="color-scheme"', "light dark"), ('name="robots"', "noindex"),
        ('name="viewport"', "width=device-width, initial-scale=1"),
    ))
    data = f' data-parts="{escape(json.dumps(parts))}"' if parts else ""
    page = (
        f'<!doctype html>\n<html lang="en" data-to="{escape(url)}"{data}><head><meta charset="utf-8">'
        f'<title>{escape(title)}</title>{said}<noscript><meta http-equiv="refresh" content="0; url={escape(url)}">'
        f'</noscript><script src="{up}{SCRIPT}"></script></head>'
        f'<body><p><a href="{escape(url)}">{escape(title)}</a></p></body></html>\n'
    )
    return secured(page, url, more_sources)
