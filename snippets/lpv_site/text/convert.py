"""Markdown as HTML, with the extensions of mkdocs.yml, wherever a page is made.

Links to pages and files of the handbook are written as `docs:verify/course.md#do`, the address below docs/; they become
relative where a page is finished (`written_links`), since only there it is known how pages are named.
"""

import posixpath
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path, PurePosixPath
from types import MappingProxyType
from typing import Any
from xml.etree import ElementTree

from markdown import Markdown
from markdown.treeprocessors import Treeprocessor
from markdown_exec import markdown_config
from mkdocs.utils.yaml import yaml_load

from lpv_site.department.department import runs_code

SNIPPETS = Path(__file__).resolve().parents[2]
CONFIG = SNIPPETS.parent / "mkdocs.yml"
# Extensions that MkDocs adds by itself, before those that the configuration names.
OWN = ("toc", "tables", "fenced_code")
WHOLE_PAGE = "toc"
SNIPPETS_EXTENSION = "pymdownx.snippets"
FENCES_EXTENSION = "pymdownx.superfences"
BLOCK = re.compile(r'^( *)(<(div|figure|section|ul|table)\b(?![^>]*\smarkdown(?:[ >]|="1")).*</\3>)$', re.M)
LEFT_ALONE = ' markdown="0"'
HIDDEN = re.compile(r'<hr data-block="(\d+)">')
HEAD = re.compile(r"\A---\n.*?\n---\n+", re.S)
SCHEME = "docs:"
PAGE_LINK = re.compile(r'href="(?!\w+:)([^"#?]*\.md)((?:\?[^"#]*)?(?:#[^"]*)?)"')
DOCS_LINK = re.compile(r'="docs:([^"#?]*)((?:\?[^"#]*)?(?:#[^"]*)?)"')
ID = re.compile(r' id="([^"]+)"')


@dataclass(frozen=True)
class Html:
    """A page's Markdown as HTML, the tokens of its table of contents, and the ids in it."""

    content: str
    toc: list[dict[str, Any]]


@cache
def config() -> dict[str, Any]:
    """The configuration of the site, mkdocs.yml."""
    return yaml_load(CONFIG.read_text("utf-8"))


@cache
def settings() -> dict[str, Any]:
    """The extensions that it names, with their settings."""
    named = config()["markdown_extensions"]
    extensions = dict(next(iter(item.items())) if isinstance(item, dict) else (item, {}) for item in named)
    if SNIPPETS_EXTENSION in extensions:
        extensions[SNIPPETS_EXTENSION] = {**extensions[SNIPPETS_EXTENSION], "base_path": [str(SNIPPETS)]}
    return extensions


@cache
def converter() -> Markdown:
    """Markdown with the extensions of mkdocs.yml, for a part of a page."""
    return _set_up([name for name in settings() if name not in (WHOLE_PAGE, SNIPPETS_EXTENSION)])


@cache
def whole_converter() -> Markdown:
    """Markdown as MkDocs sets it up, for a whole page, with fences that are run."""
    names = list(dict.fromkeys([*OWN, *settings()]))
    markdown_config.save(names, settings())
    return _set_up(names)


@cache
def converter_without_code() -> Markdown:
    """The same for a page whose fences are shown, never run, whatever is written around them."""
    return _set_up(list(dict.fromkeys([*OWN, *settings()])), {FENCES_EXTENSION: {}})


def _set_up(names: list[str], instead: Mapping[str, dict[str, Any]] = MappingProxyType({})) -> Markdown:
    """Markdown with these extensions; instead: settings in place of those of mkdocs.yml."""
    configured = {name: {**settings(), **instead}.get(name, {}) for name in names}
    made = Markdown(extensions=names, extension_configs=configured)
    made.treeprocessors.register(_Links(made), "links", priority=0)
    return made


class _Links(Treeprocessor):  # type: ignore[misc]
    """Links and pictures of the page's own Markdown: relative ones as addresses below docs/."""

    folder = ""
    active = False

    def run(self, root: ElementTree.Element) -> None:
        for element in root.iter() if self.active else ():
            if key := {"a": "href", "img": "src"}.get(element.tag):
                element.set(key, _from_docs(element.get(key, ""), self.folder))


def _from_docs(url: str, folder: str) -> str:
    path = re.split("[?#]", url, maxsplit=1)[0]
    if not path or path.startswith("/") or re.match(r"\w+:", url):
        return url
    return SCHEME + posixpath.normpath(posixpath.join(folder, path)) + url[len(path) :]


def html_of(page: str, address: str) -> Html:
    """A page with front matter, at an address below docs/, as HTML."""
    markdown = whole_converter() if runs_code(address) else converter_without_code()
    links = markdown.treeprocessors["links"]
    links.folder, links.active = posixpath.dirname(address), True
    content = placed_links(_converted(markdown, HEAD.sub("", page)), address)
    return Html(content, markdown.toc_tokens)


def to_html(markdown: str) -> str:
    """A part of a page as HTML; links to other pages still name their Markdown files."""
    return _converted(converter(), markdown).replace("<table>", '<table tabindex="0">')


def _converted(converter: Markdown, markdown: str) -> str:
    """Markdown as HTML; it would read through finished HTML for as long as through all the rest, and leave it so."""
    blocks: list[str] = []

    def hidden(match: re.Match[str]) -> str:
        blocks.append(match[2].replace(LEFT_ALONE, "", 1))
        return f'{match[1]}<hr data-block="{len(blocks) - 1}">'

    html = converter.reset().convert(BLOCK.sub(hidden, markdown))
    return HIDDEN.sub(lambda match: blocks[int(match[1])], html)


def placed_links(html: str, address: str) -> str:
    """Links to Markdown files, as seen from the page at `address`, as addresses below docs/."""
    folder = posixpath.dirname(address)
    return PAGE_LINK.sub(lambda match: f'href="{_from_docs(match[1] + match[2], folder)}"', html)


def written_links(html: str, address: str, directory_urls: bool) -> str:
    """Addresses below docs/ as links from the page at `address` to what is made of them."""
    page_folder = _folder(address) if directory_urls else posixpath.dirname(address)
    return DOCS_LINK.sub(lambda match: f'="{_link(match[1], page_folder, directory_urls)}{match[2]}"', html)


def _folder(page: str) -> str:
    """The folder on the site that the page made of a Markdown file stands in."""
    path = PurePosixPath(page)
    return (path.parent if path.stem == "index" else path.with_suffix("")).as_posix()


def _link(target: str, base: str, directory_urls: bool) -> str:
    if not target.endswith(".md"):
        return posixpath.relpath(target, base or ".")
    if directory_urls:
        return posixpath.relpath(_folder(target), base or ".") + "/"
    return posixpath.relpath(target.removesuffix(".md") + ".html", base or ".")


def address_links(html: str, address: str, directory_urls: bool) -> str:
    """Links to Markdown files as links to the pages made of them, as seen from the page at `address`."""
    return written_links(placed_links(html, address), address, directory_urls)


def links_in(html: str) -> set[str]:
    """Addresses below docs/ that HTML links to, with the id where one is named."""
    return {path + more[more.find("#") :] if "#" in more else path for path, more in DOCS_LINK.findall(html)}


