"""Headings with permanent ids on the pages of docs/: what other pages link to."""

import json
from functools import cache
from pathlib import Path

from lpv_site.department.data import DOCS
from lpv_site.text.links import HEADING

WRONG = "When it goes wrong"


@cache
def headings(docs: Path = DOCS) -> dict[str, str]:
    """Address ("verify/course.md#do") -> text of every heading of the pages that are files."""
    return {
        f"{page.relative_to(docs).as_posix()}#{match[3]}": match[2]
        for page in sorted(docs.rglob("*.md")) for match in HEADING.finditer(page.read_text("utf-8"))
    }


@cache
def wrong_entries(docs: Path = DOCS) -> dict[str, str]:
    """Address -> text of every entry below a heading "When it goes wrong"."""
    entries: dict[str, str] = {}
    for page in sorted(docs.rglob("*.md")):
        below = False
        for match in HEADING.finditer(page.read_text("utf-8")):
            if len(match[1]) <= 2:
                below = match[2] == WRONG
            elif below and len(match[1]) == 3:
                entries[f"{page.relative_to(docs).as_posix()}#{match[3]}"] = match[2]
    return entries


@cache
def headings_version(docs: Path = DOCS) -> str:
    """All headings and what stands below "When it goes wrong", for keys of what prints words of them."""
    return json.dumps([headings(docs), wrong_entries(docs)])
