"""Finished parts of a generated page: turned into HTML once, where the page is made, and set aside.

MkDocs then sees the headings (for the table of contents and the anchors) and what stands before the first of
them (for search); the rest of a briefing costs it nothing.  Even these are turned into HTML where the page is
made (`html_of`).
"""

import posixpath
import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml
from markdown import Markdown

from lpv_site.figures.figure import set_aside

CONFIG = Path(__file__).resolve().parents[3] / "mkdocs.yml"
# Extensions that MkDocs adds by itself, before those that the configuration names.
OWN = ("toc", "tables", "fenced_code")
WHOLE_PAGE = "toc"
NEEDS_A_BUILD = "pymdownx.snippets"
UNSEARCHED = "<h2 data-search-exclude "
COMPUTED = re.compile(r'<h2[^>]* id="computed"')
LISTING = re.compile(r'(<div class="language-\w+ highlight">)(.*?)(</div>)', re.S)
BLOCK = re.compile(r"^( *)(<(div|figure|section|ul|table)\b.*</\3>)$", re.M)
CUT = "\n\n<hr data-cut>\n\n"
HIDDEN = re.compile(r'<hr data-block="(\d+)">')
HEAD = re.compile(r"\A---\n.*?\n---\n+", re.S)
SECTION = re.compile(r"^## ", re.M)
HEADING = re.compile(r"\A(.+?) \{ #([a-z0-9-]+)[^}]*\}\n")
PAGE_LINK = re.compile(r'href="(?!\w+:)([^"#?]*)\.md((?:\?[^"#]*)?(?:#[^"]*)?)"')


@dataclass(frozen=True)
class Html:
    """A page's Markdown as HTML, as MkDocs would have it: content, tokens of its table of contents, ids in it."""

    content: str
    toc: list[dict[str, Any]]
    anchors: list[str]

    @property
    def searched(self) -> str:
        """The part of the content that search reads: what stands before the first folded heading."""
        return self.content.partition(UNSEARCHED)[0]


@cache
def settings() -> dict[str, Any]:
    """The extensions of mkdocs.yml with their settings."""
    named = yaml.safe_load(CONFIG.read_text("utf-8"))["markdown_extensions"]
    return dict(next(iter(item.items())) if isinstance(item, dict) else (item, {}) for item in named)


@cache
def converter() -> Markdown:
    """Markdown with the extensions of mkdocs.yml, for a part of a page."""
    names = [name for name in settings() if name not in (WHOLE_PAGE, NEEDS_A_BUILD)]
    return Markdown(extensions=names, extension_configs={name: settings()[name] for name in names})


@cache
def whole_converter() -> Markdown:
    """Markdown as MkDocs sets it up, for a whole page of ours."""
    names = [name for name in dict.fromkeys([*OWN, *settings()]) if name != NEEDS_A_BUILD]
    return Markdown(extensions=names, extension_configs={name: settings().get(name, {}) for name in names})


def html_of(page: str) -> Html:
    """What MkDocs makes of a page with front matter; without links to other pages, which only a build can resolve."""
    content = _converted(whole_converter(), HEAD.sub("", page))
    return Html(content, whole_converter().toc_tokens, re.findall(r' id="([^"]+)"', content))  # type: ignore[attr-defined]


def to_html(markdown: str) -> str:
    """A part of a page as HTML; links to other pages still name their Markdown files (see `address_links`)."""
    return _converted(converter(), markdown).replace("<table>", '<table tabindex="0">')


def _converted(converter: Markdown, markdown: str) -> str:
    """Markdown as HTML; it would read through finished HTML for as long as through all the rest, and leave it so."""
    blocks: list[str] = []

    def hidden(found: re.Match[str]) -> str:
        blocks.append(found[2])
        return f'{found[1]}<hr data-block="{len(blocks) - 1}">'

    html = converter.reset().convert(BLOCK.sub(hidden, markdown))
    return HIDDEN.sub(lambda found: blocks[int(found[1])], html)


def fold(markdown: str) -> str:
    """The page with everything under each second-level heading finished and set aside."""
    head, *sections = SECTION.split(markdown)
    headings = [_heading(section) for section in sections]
    bodies = [section[heading.end() :] for section, heading in zip(sections, headings, strict=True)]
    finished = to_html(CUT.join(bodies)).split(CUT.strip()) if bodies else []  # one conversion, not one for each
    return head + "".join(_folded(*both) for both in zip(headings, finished, strict=True))


def _heading(section: str) -> re.Match[str]:
    heading = HEADING.match(section)
    if heading is None:
        raise ValueError(f"a generated heading without an id: {section.splitlines()[0]}")
    return heading


def _folded(heading: re.Match[str], body: str) -> str:
    placed = set_aside(body.strip())
    return f"## {heading[1]} {{ #{heading[2]} data-search-exclude }}\n\n<div>{placed}</div>\n\n"


def listings_aside(html: str) -> str:
    """A page's content with its listings under "How this is computed" set aside: search passes them over anyway."""
    start = COMPUTED.search(html)
    if start is None:
        return html
    end = html.find("<h2", start.end())
    part = html[start.start() : end if end >= 0 else None]
    return html.replace(part, LISTING.sub(lambda found: found[1] + set_aside(found[2]) + found[3], part), 1)


def address_links(html: str, address: str, directory_urls: bool) -> str:
    """Links to Markdown files as links to the pages made of them, as seen from the page at `address`."""
    here = posixpath.dirname(address)
    if directory_urls and not address.endswith("index.md"):
        here = posixpath.join(here, posixpath.basename(address).removesuffix(".md"))

    def link(match: re.Match[str]) -> str:
        target = posixpath.normpath(posixpath.join(posixpath.dirname(address), match[1]))
        if directory_urls:
            folder = posixpath.dirname(target) if posixpath.basename(target) == "index" else target
            path = posixpath.relpath(folder or ".", here or ".") + "/"
        else:
            path = posixpath.relpath(target + ".html", here or ".")
        return f'href="{path}{match[2] or ""}"'

    return PAGE_LINK.sub(link, html)
