"""Where pages and headings have gone: links of debriefs keep leading to what they were made for.

docs/moved.toml lists every page and heading that has another address than the one it was published with.  A page
that is gone becomes a short page that leads on, to the same heading where the link names one; on a page that stays,
a heading that went elsewhere leaves a line with the link at the page's end.  A department lists the moves of its own
pages and briefings in a file of the same kind in its folder.
"""

import json
import re
from dataclasses import dataclass
from html import escape
from pathlib import Path

from lpv.core.errors import DataError, Fault
from lpv_site.build.moves import FILE, followed
from lpv_site.build.named import scripts
from lpv_site.build.policy import secured
from lpv_site.build.seal import sealed
from lpv_site.text.links import relative

SCRIPT = "assets/moved.js"
OURS = Path(__file__).resolve().parents[3] / "docs"


@dataclass(frozen=True)
class Gone:
    """A page that is no more: where it leads, and the headings that went elsewhere: id -> address."""

    to: str
    parts: dict[str, str]


def now_at(address: str, table: dict[str, str]) -> str:
    """Where an address of old leads now, itself if it has not moved; table from `moves`."""
    return followed(table, address) or address


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
    moved_here = {old: now_at(old, table) for old in table if old.startswith(f"{address}#")}
    lines = [
        f'<p class="hb-moved" id="{old.partition("#")[2]}">This has moved: '
        f'<a href="{relative(to, address)}">{escape(_called(to, address, markdown))}</a></p>'
        for old, to in moved_here.items()
    ]
    return markdown + "".join(f"\n{line}\n" for line in lines)


def _called(to: str, address: str, markdown: str) -> str:
    """A place in words: the heading, where it is on the same page."""
    page, _, part = to.partition("#")
    match = re.search(rf"^#+ (.+?) \{{ #{re.escape(part)}\b", markdown, re.M) if page == address else None
    return match[1] if match else "where it is now"


def leading_page(url: str, parts: dict[str, str], up: str, title: str, about: str, more_sources: str = "") -> str:
    """A whole page that leads on, with the words that a chat shows of its address.

    url:   where it leads, as a link from this page
    parts: id in the address -> link, where it is another one
    up:    way to the site's root, such as "../../"
    """
    metadata = "".join(f'<meta {kind} content="{escape(text)}">' for kind, text in (
        ('name="description"', about), ('property="og:title"', title), ('property="og:description"', about),
        ('name="color-scheme"', "light dark"), ('name="robots"', "noindex"),
        ('name="viewport"', "width=device-width, initial-scale=1"),
    ))
    data = f' data-parts="{escape(json.dumps(parts))}"' if parts else ""
    page = (
        f'<!doctype html>\n<html lang="en" data-to="{escape(url)}"{data}><head><meta charset="utf-8">'
        f'<title>{escape(title)}</title>{metadata}<noscript><meta http-equiv="refresh" content="0; url={escape(url)}">'
        f'</noscript><script src="{up}{scripts(OURS)[SCRIPT]}"></script></head>'
        f'<body><p><a href="{escape(url)}">{escape(title)}</a></p></body></html>\n'
    )
    return sealed(secured(page, url, more_sources))
