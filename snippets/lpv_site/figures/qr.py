"""What every printed card gets when its page is finished: the day of the build, and a QR code of its address."""

import posixpath
import re
from html import escape

import segno

EMPTY = '<div class="hb-card-code"></div>'
ROOM = '<div class="hb-room-code"></div>'
FILLED = '<div class="hb-card-code"><svg '
CARD = re.compile(r'<section\b[^>]*\bclass="hb-card[" ][^>]*>')
FOOT = re.compile(r'(<p class="hb-card-caution[" ].*?)</p>', re.S)
NO_ADDRESS = (
    "To have this page on every phone in the room, send its address. A code of it stands here once "
    "<code>site_url</code> in <code>mkdocs.yml</code> says where the site is published."
)
QUIET_MODULES = 4  # ISO/IEC 18004 asks for four light modules around the code


def with_code(html: str, site_url: str, source: str) -> str:
    """A finished page with the code in its card: in the place that the card keeps for it, else at its beginning.

    site_url: where the site is published, as in mkdocs.yml; without it the page stays as it is
    source:   address of the page's Markdown below docs/
    """
    card = CARD.search(html)
    if not site_url or card is None or FILLED in html:
        return html
    if EMPTY in html:
        return in_place(html, site_url, source)
    return f"{html[:card.end()]}{_code(site_url, source)}{html[card.end():]}"


def with_room_code(html: str, site_url: str, source: str) -> str:
    """A finished page with the code of its own address where it keeps a place for one, for every phone in a room."""
    if ROOM not in html:
        return html
    if not site_url:
        return html.replace(ROOM, f'<div class="hb-room-code"><p>{NO_ADDRESS}</p></div>', 1)
    to = permanent_address(site_url, source)
    words = f"Point every phone here, or type {escape(to)}"
    return html.replace(ROOM, f'<div class="hb-room-code">{svg(to)}<p>{words}</p></div>', 1)


def in_place(html: str, site_url: str, source: str) -> str:
    """A part of a page with the code in the place that a card in it keeps for it, where it has one."""
    if not site_url or EMPTY not in html:
        return html
    return html.replace(EMPTY, _code(site_url, source), 1)


def _code(site_url: str, source: str) -> str:
    return f'<div class="hb-card-code">{svg(permanent_address(site_url, source) + "#card")}</div>'


def with_edition(html: str, words: str) -> str:
    """A finished page whose cards say of which edition they are, and on which day it was built."""
    return FOOT.sub(rf"\1 {words}</p>", html)


def permanent_address(site_url: str, source: str) -> str:
    """Where the page made of docs/`source` is published, the same for the site and for a copy opened as a file."""
    folder, name = posixpath.split(source)
    page = posixpath.join(folder, "" if name == "index.md" else name.removesuffix(".md") + "/")
    return f"{site_url.rstrip('/')}/{page}"


def svg(text: str) -> str:
    """The code of a text as a drawing in the colour of the words around it, with its quiet zone."""
    rows = [list(row) for row in segno.make(text, micro=False).matrix_iter(border=QUIET_MODULES)]
    runs = "".join(
        f"M{start} {y}h{length}v1h-{length}z" for y, row in enumerate(rows) for start, length in dark_runs(row)
    )
    return (
        f'<svg role="img" aria-label="Code for: {escape(text)}" viewBox="0 0 {len(rows)} {len(rows)}" '
        f'shape-rendering="crispEdges"><path fill="currentColor" d="{runs}"/></svg>'
    )


def dark_runs(row: list[int]) -> list[tuple[int, int]]:
    """Start and length of each run of dark modules."""
    dark = "".join("#" if module else " " for module in row)
    return [(match.start(), len(match[0])) for match in re.finditer("#+", dark)]
