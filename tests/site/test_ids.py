"""Permanent ids: once published, an id stays or redirects.  docs/ids.txt is the list."""

from render.debrief_page import debrief_pages
from render.drill_page import drill_pages
from site_pages import DOCS, HEADING, HEADING_ID, name, pages, without_fences

REGISTRY = DOCS / "ids.txt"


def present() -> set[str]:
    """Ids of the pages that are files, and of the generated ones that debriefs link to."""
    texts = {name(page): page.read_text("utf-8") for page in pages()}
    texts |= {address: write() for address, write in (debrief_pages() | drill_pages()).items()}
    found = set()
    for address, text in texts.items():
        for match in HEADING.finditer(without_fences(text)):
            if heading_id := HEADING_ID.search(match[2]):
                found.add(f"{address}#{heading_id[1]}")
    return found


def registered() -> set[str]:
    return set(REGISTRY.read_text("utf-8").split())


def test_no_registered_id_disappears():
    assert registered() - present() == set(), "debriefs link to it: keep the id"


def test_every_id_is_registered():
    assert present() - registered() == set(), "add it to docs/ids.txt (one line each, sorted)"


def test_the_registry_is_sorted():
    lines = REGISTRY.read_text("utf-8").split()
    assert lines == sorted(set(lines))
