"""What every page's headings get before it is made: codes, short addresses, lines for what has moved from it."""

from functools import cache
from pathlib import Path

from lpv_site.build.moved import with_lines
from lpv_site.build.moves import moves
from lpv_site.department.data import DOCS
from lpv_site.pages.debrief_codes import code_at
from lpv_site.pages.debrief_page import with_codes
from lpv_site.text.short import with_short


@cache
def known_moves(docs: Path = DOCS) -> dict[str, str]:
    """Old address -> the next one, read once for all pages of a build."""
    return moves(docs)


def coded(markdown: str, address: str, docs: Path = DOCS) -> str:
    """A page's Markdown with codes at its headings, and without what is nothing to search in."""
    markdown = with_lines(markdown, address, known_moves(docs))
    # How it is computed is nothing to search in, nor is the heading above all entries.
    markdown = markdown.replace("{ #computed }", "{ #computed data-search-exclude }")
    markdown = markdown.replace("{ #wrong }\n\n###", "{ #wrong data-search-exclude }\n\n###")
    return with_short(with_codes(markdown, address, docs), address, code_at(docs))
