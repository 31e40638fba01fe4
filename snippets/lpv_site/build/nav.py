"""The list of pages beside a page: written once for all pages of a folder that do not stand in it themselves.

Those are the generated pages, thousands of them, and the theme would write the same list anew for each.
"""

import posixpath
from collections.abc import Iterator
from typing import Any

from jinja2 import Environment
from jinja2.runtime import Context

TEMPLATE = "partials/nav.html"


def written_once(environment: Environment) -> None:
    """Let the theme's template of the list give what it gave for an earlier page of the same folder."""
    template = environment.get_template(TEMPLATE)
    write = template.root_render_func
    known: dict[str, list[str]] = {}

    def once(context: Context) -> Iterator[str]:
        page = context.get("page")
        if page is None or is_listed(context, page):
            return write(context)
        folder = posixpath.dirname(page.url.rstrip("/"))
        if folder not in known:
            known[folder] = list(write(context))
        return (part for part in known[folder])  # the theme closes what it has read, which a list cannot

    template.root_render_func = once


def is_listed(context: Context, page: Any) -> bool:
    """Whether a page stands in the list itself."""
    return any(page is listed for listed in context["nav"].pages)
