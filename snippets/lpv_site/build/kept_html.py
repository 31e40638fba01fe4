"""Pages of the handbook that did not change are not turned into HTML again.

MkDocs makes the HTML of a page of its Markdown; what it made is kept under a key of all that it is made from.  A page
about which a warning was given is not kept, so that the warning comes again.
"""

import hashlib
import json
import logging
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cache, partial
from typing import Any

from mkdocs.structure.pages import Page
from mkdocs.structure.toc import get_toc

from lpv_site.build import scripts, store
from lpv_site.department.data import data_version, hash_of
from lpv_site.figures import figure

FOLDER = store.FOLDER / "html"


def keep(page: Page) -> Page:
    """Let a page take its HTML from what was kept of it, where there is."""
    page.render = partial(_render, page, page.render)  # type: ignore[method-assign]
    return page


def _render(page: Page, by_mkdocs: Callable[[Any, Any], None], config: Any, files: Any) -> None:
    key = key_of(page, files)
    found = store.load(FOLDER, key)
    if isinstance(found, dict):
        give(page, found, files)
        return
    with warnings() as heard:
        by_mkdocs(config, files)
    if not heard and logging.getLogger("mkdocs").isEnabledFor(logging.WARNING):  # --quiet does not say them
        store.keep(FOLDER, key, taken_from(page))


def taken_from(page: Page) -> dict[str, Any]:
    """What the HTML of a page consists of, as JSON can hold it."""
    links = page.links_to_anchors
    return {
        "content": page.content, "title": page._title_from_render, "toc": _tokens(page.toc),
        "anchors": sorted(page.present_anchor_ids or ()),
        "links": None if links is None else {file.src_uri: anchors for file, anchors in links.items()},
        "drawings": figure.drawings_of(page.content or ""),
    }


def give(page: Page, found: dict[str, Any], files: Any) -> None:
    """Give a page what was taken from it, as if MkDocs had just made it."""
    links = found["links"]
    page.content, page.toc, page._title_from_render = found["content"], get_toc(found["toc"]), found["title"]
    page.present_anchor_ids = set(found["anchors"])
    page.links_to_anchors = None if links is None else {
        files.get_file_from_path(address): anchors for address, anchors in links.items()}
    figure.remember(found["drawings"])


def _tokens(toc: Any) -> list[dict[str, Any]]:
    return [{"name": item.title, "id": item.id, "level": item.level, "children": _tokens(item.children)}
            for item in toc]


def key_of(page: Page, files: Any) -> str:
    """The key of a page's HTML: its Markdown, what it may include, what its scripts print, and where all pages are."""
    markdown = page.markdown or ""
    known = sources_version(), addresses_version(files)
    return store.key_of("html", page.file.src_uri, markdown, *known, *scripts.printed_on(markdown))


@cache
def sources_version() -> str:
    """A hash of the page scripts, of the data that they read, and of the configuration; every key holds the code."""
    files = {path for path in store.SNIPPETS.rglob("*") if path.is_file() and path.suffix != ".pyc"}
    shown = sorted(files - set(store.code_files()))
    return store.key_of(data_version(), hash_of(shown, store.SNIPPETS), store.CONFIG.read_bytes())


@cache
def addresses_version(files: Any) -> str:
    """A hash of the addresses of all files of a build, as pages may link to them."""
    addresses = sorted([file.src_uri, file.url, file.inclusion.name] for file in files)
    return hashlib.sha256(json.dumps(addresses).encode()).hexdigest()


@contextmanager
def warnings() -> Iterator[list[str]]:
    """What MkDocs and its plugins warn of meanwhile."""
    heard: list[str] = []
    listening = logging.Handler(logging.WARNING)
    listening.emit = lambda record: heard.append(record.getMessage())  # type: ignore[method-assign]
    logging.getLogger("mkdocs").addHandler(listening)
    try:
        yield heard
    finally:
        logging.getLogger("mkdocs").removeHandler(listening)
