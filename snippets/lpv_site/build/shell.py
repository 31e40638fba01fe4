"""The theme's template around briefings: written once for all that have the same table of contents, then filled.

A template of the theme takes longer than all else that a build does for a finished page, and thousands of pages
differ in five texts only.  It is written for a page of marks; each page puts its texts in their places.
"""

import copy
import re
from collections.abc import Callable, Iterator
from typing import Any

from jinja2 import Environment
from jinja2.runtime import Context
from markupsafe import escape

from lpv_site.build.nav import is_listed

TEMPLATE = "main.html"
TEXTS: dict[str, Callable[[Any], str]] = {
    "<hb title>": lambda page: page.meta["title"],
    "<hb description>": lambda page: page.meta["description"],
    "<hb address>": lambda page: page.canonical_url or "",
    "<h1 hb content>": lambda page: page.content,
}
OTHER = "<hb heading>"  # must not be written
# Each mark as it is, and as a template writes a text that it escapes.
FORMS: tuple[Callable[[str], str], ...] = (str, lambda text: str(escape(text)))
WRITTEN = {form(mark): (form, text) for mark, text in TEXTS.items() for form in FORMS}
MARK = re.compile("(" + "|".join(map(re.escape, WRITTEN)) + ")")
SAID = {"title", "description"}


def shared(environment: Environment, is_alike: Callable[[Any], bool]) -> None:
    """Let the theme's template of a page be written once for pages that are alike but for TEXTS."""
    template = environment.get_template(TEMPLATE)
    write = template.root_render_func
    shells: dict[Any, list[str]] = {}

    def filled(context: Context) -> Iterator[str]:
        page = context.get("page")
        if page is None or not is_alike(page) or page.meta.keys() != SAID or is_listed(context, page):
            return write(context)
        key = page.url.count("/"), bool(page.canonical_url), _headings(page.toc)
        if key not in shells:
            around = template.new_context({**context.get_all(), "page": _marks(page)})
            shells[key] = _pieces("".join(write(around)), page)
        return (piece for piece in _with_texts(shells[key], page))  # the theme closes what it has read

    template.root_render_func = filled


def _headings(toc: Any) -> tuple[Any, ...]:
    """What a template can write of a table of contents; the first heading of all is the page's own."""
    return tuple((item.title if item.level > 1 else "", item.url, item.level, _headings(item.children)) for item in toc)


def _marks(page: Any) -> Any:
    """A page like this one whose texts are marks."""
    title, description, address, content = TEXTS
    alike = copy.copy(page)
    alike.meta = {"title": title, "description": description}
    alike.title, alike.content = title, content
    alike.canonical_url = address if page.canonical_url else None
    alike.toc = copy.deepcopy(page.toc)
    for item in alike.toc:
        item.title = OTHER if item.level == 1 else item.title
    return alike


def _pieces(written: str, page: Any) -> list[str]:
    """A written page, cut at its marks; ValueError where something else of the one page was written into it."""
    if page.url in written or any(form(OTHER) in written for form in FORMS):
        raise ValueError(f"{page.url}: the theme writes something of a page that is not among TEXTS")
    return MARK.split(written)


def _with_texts(pieces: list[str], page: Any) -> Iterator[str]:
    for piece in pieces:
        form, text = WRITTEN.get(piece, (None, None))
        yield piece if form is None or text is None else form(text(page))
