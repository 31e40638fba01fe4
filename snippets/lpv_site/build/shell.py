"""The theme around briefings: written by MkDocs once for all that have the same table of contents, then filled.

A template of the theme takes longer than all else that a finished page costs, and thousands of briefings differ in a
few texts only.  So MkDocs gets one page of marks for all of them, like any other page, and each briefing puts its texts
in their places.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from html import escape
from pathlib import Path
from typing import Any, ClassVar

from lpv_site.briefing.briefings import Briefing
from lpv_site.build.store import body
from lpv_site.text.convert import written_links

TITLE, DESCRIPTION, HEADING, CONTENT = "hb-mark-title", "hb-mark-description", "hb-mark-heading", "hb-mark-content"
ADDRESS = "hb-mark-address-"
MARK = re.compile(f"({TITLE}|{DESCRIPTION}|{HEADING}|<h1>{CONTENT}</h1>|{ADDRESS}[0-9]+)")
IN_SITEMAP = re.compile(rf"\s*<url>(?:(?!</url>).)*{ADDRESS}([0-9]+)(?:(?!</url>).)*</url>", re.S)


@dataclass
class Shell:
    """One page of marks, the briefings that it is for, and what the theme made of it: pieces with marks between."""

    address: str
    toc: list[dict[str, Any]]
    content: ClassVar[str] = f"<h1>{CONTENT}</h1>"
    briefings: dict[str, Briefing] = field(default_factory=dict)
    pieces: list[str] = field(default_factory=list)
    file: Path = field(default=Path())

    def take(self, html: str, file: Path) -> None:
        """Note what the theme made of the page of marks, and where it is written."""
        self.pieces, self.file = MARK.split(html), file

    def remove(self) -> None:
        """Take the page of marks out of the site."""
        self.file.unlink()
        with suppress(OSError):
            self.file.parent.rmdir()  # its own folder, where pages are folders


def shells(briefings: Mapping[str, Briefing]) -> list[Shell]:
    """The pages of marks that these briefings need; briefings: slug -> briefing."""
    by_headings: dict[str, Shell] = {}
    for slug, briefing in briefings.items():
        headings = _marked(briefing.toc)
        shell = by_headings.setdefault(repr(headings), Shell(f"approaches/{ADDRESS}{len(by_headings)}.md", headings))
        shell.briefings[slug] = briefing
    return list(by_headings.values())


def _marked(toc: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """A table of contents with a mark for the page's own heading."""
    return [{**item, "name": HEADING, "html": HEADING} if item["level"] == 1 else item for item in toc]


def head_text() -> str:
    """The front matter of a page of marks."""
    return f"---\ntitle: {TITLE}\ndescription: {DESCRIPTION}\nsearch:\n  exclude: true\n---\n"


def finished(shell: Shell, directory_urls: bool) -> Iterator[tuple[str, str]]:
    """Slug and whole page of each briefing, once the theme has written the page of marks."""
    for slug, briefing in shell.briefings.items():
        yield slug, "".join(_filled(shell, slug, briefing, directory_urls))


def _filled(shell: Shell, slug: str, briefing: Briefing, directory_urls: bool) -> Iterator[str]:
    content = written_links(body(briefing.key).decode(), f"approaches/{slug}.md", directory_urls)
    texts = {
        TITLE: escape(briefing.head["title"]), DESCRIPTION: escape(briefing.head["description"]),
        HEADING: briefing.toc[0]["name"], Shell.content: content,
    }
    for piece in shell.pieces:
        yield slug if piece.startswith(ADDRESS) else texts.get(piece, piece)


def in_sitemap(sitemap: str, made: Iterable[Shell]) -> str:
    """A sitemap with the briefings in the place of the pages of marks."""
    known = {shell.address.removesuffix(".md").rpartition("-")[2]: shell for shell in made}

    def entries_of(match: re.Match[str]) -> str:
        return "".join(re.sub(f"{ADDRESS}[0-9]+", slug, match[0]) for slug in known[match[1]].briefings)

    return IN_SITEMAP.sub(entries_of, sitemap)
