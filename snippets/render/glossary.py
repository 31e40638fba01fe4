"""The glossary page, from docs/reference/glossary.toml, which a department may extend."""

import tomllib
from functools import cache
from pathlib import Path

from render.reference_pages import front_matter, slug
from render.text import escape

FILE = Path(__file__).resolve().parents[2] / "docs" / "reference" / "glossary.toml"


@cache
def glossary() -> dict[str, str]:
    """Abbreviation -> meaning."""
    return {key: str(value) for key, value in tomllib.loads(FILE.read_text("utf-8")).items()}


def build_glossary_page() -> str:
    """All abbreviations in alphabetical order, each with a permanent id."""
    page = front_matter("Glossary", "Every abbreviation that this handbook uses.")
    for key in sorted(glossary(), key=str.casefold):
        page += f'<div class="hb-fact" id="term-{slug(key)}" markdown="0"><b>{escape(key)}</b> '
        page += f"{escape(glossary()[key])}.</div>\n\n"
    return page
