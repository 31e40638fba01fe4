"""A page as it is made and kept: its HTML and all that a build asks of it, a pure function of Markdown and sources."""

import logging
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

import yaml

from lpv_site.figures import figure
from lpv_site.text.convert import HEAD, ID, html_of, links_in, placed_links
from lpv_site.text.inline import expand
from lpv_site.text.jumps import with_jumps
from lpv_site.text.links import HEADING
from lpv_site.text.memory import marked

MARKUP = re.compile(r'<span class="hb-code">[^<]*</span>|<[^>]+>|[*`]|\{\{.*?\}\}')
RUNS_FENCES = "mkdocs.plugins.markdown_exec"  # the name under which it says what went wrong


@dataclass(frozen=True)
class Page:
    """A page of the site, without the theme around it.

    head:    title, description and the like, as the front matter names them
    content: HTML with placeholders for what neither search nor the theme needs to see
    parts:   what the placeholders stand for
    toc:     tokens of the table of contents
    anchors: every id;  links: addresses below docs/ that it leads to
    places:  id and words of every heading that has an id
    """

    head: dict[str, Any]
    content: str
    parts: dict[str, str]
    toc: list[dict[str, Any]]
    anchors: list[str]
    links: list[str]
    places: list[list[str]]

    @property
    def whole(self) -> str:
        """The content with everything in its place."""
        return figure.fill(self.content, self.parts)


def make_page(address: str, markdown: str) -> Page:
    """The page of a Markdown text with front matter, at an address below docs/.

    ValueError for an expression or a fence that cannot be printed.
    """
    with no_warnings(address):
        html = html_of(expand(markdown, address), address)
    content = with_jumps(marked(html.content), html.toc, address)
    parts = {key: placed_links(part, address) for key, part in figure.drawings_of(content).items()}
    body = figure.fill(content, parts)
    return Page(
        head_of(markdown), content, parts, html.toc, sorted(set(ID.findall(body))), sorted(links_in(body)),
        [[heading[3], " ".join(MARKUP.sub("", heading[2]).split())] for heading in HEADING.finditer(markdown)],
    )


def head_of(markdown: str) -> dict[str, Any]:
    """The front matter of a page."""
    match = HEAD.match(markdown)
    head = yaml.safe_load(match[0].strip().strip("-")) if match else {}
    return head if isinstance(head, dict) else {}


@contextmanager
def no_warnings(address: str) -> Iterator[None]:
    """ValueError where a fence that is run says that something went wrong."""
    heard: list[str] = []
    listening = logging.Handler(logging.WARNING)
    listening.emit = lambda record: heard.append(record.getMessage())  # type: ignore[method-assign]
    logger = logging.getLogger(RUNS_FENCES)
    logger.addHandler(listening)
    logger.propagate = False
    try:
        yield
    finally:
        logger.removeHandler(listening)
    if heard:
        raise ValueError(f"{address}: {heard[0]}")
