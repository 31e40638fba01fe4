"""The glossary page, from docs/reference/glossary.toml and the terms of a department."""

import tomllib
from collections.abc import Callable
from functools import cache
from pathlib import Path

from lpv_site.department import department
from lpv_site.department.data import DOCS
from lpv_site.pages.reference_pages import slug
from lpv_site.text.text import escape, front_matter

FILE = DOCS / "reference" / "glossary.toml"


def glossary_pages(_docs: Path) -> dict[str, Callable[[], str]]:
    """The page of abbreviations."""
    return {"reference/glossary.md": build_glossary_page}


@cache
def glossary() -> dict[str, str]:
    """Abbreviation -> meaning: a department's and ours; ours stands where both have one."""
    ours = tomllib.loads(FILE.read_text("utf-8"))
    return department.terms() | {key: str(value) for key, value in ours.items()}


def build_glossary_page() -> str:
    """All abbreviations in alphabetical order, each with a permanent id."""
    page = front_matter("Glossary", "Every abbreviation in this handbook.")
    for key in sorted(glossary(), key=str.casefold):
        page += f'<div class="hb-fact" id="term-{slug(key)}" markdown="0"><b>{escape(key)}</b> '
        page += f"{escape(glossary()[key])}.</div>\n\n"
    return page
