"""Permanent ids: once published, an id stays or leads on.  docs/ids.txt lists them with their first version."""

import re
import tomllib
from pathlib import Path

from lpv_site.build.moves import moves
from lpv_site.pages.debrief_page import debrief_pages
from lpv_site.pages.drill_page import drill_pages
from lpv_site.pages.lesson_page import lesson_pages
from lpv_site.pages.numbers_page import numbers_pages
from lpv_site.pages.sequence_page import sequence_pages
from lpv_site.text.short import code_of
from site_pages import DOCS, HEADING, HEADING_ID, ROOT, name, pages, without_fences

REGISTRY = DOCS / "ids.txt"
LINE = re.compile(r"[a-z0-9/-]+\.md#[a-z0-9-]+ \d+\.\d+\.\d+")


def version() -> str:
    """The project's own version."""
    return str(tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["version"])


def present() -> set[str]:
    """Ids of the pages that are files, and of the generated ones that debriefs link to."""
    texts = {name(page): page.read_text("utf-8") for page in pages()}
    made = debrief_pages() | drill_pages() | numbers_pages() | sequence_pages() | lesson_pages()
    texts |= {address: write() for address, write in made.items()}
    ids = set()
    for address, text in texts.items():
        for match in HEADING.finditer(without_fences(text)):
            if heading_id := HEADING_ID.search(match[2]):
                ids.add(f"{address}#{heading_id[1]}")
    return ids


def registered(registry: Path = REGISTRY) -> dict[str, str]:
    """Id -> the version in which it was first published."""
    return dict(line.split() for line in registry.read_text("utf-8").splitlines())


def test_registered_ids_never_disappear():
    gone = registered().keys() - present() - moves(DOCS).keys()
    assert gone == set(), "debriefs link to it: keep the id, or say in docs/moved.toml where it is now"


def test_every_id_registered():
    assert present() - registered().keys() == set(), "run tests/site/write_ids.py"


def test_registry_sorted_and_versioned():
    lines = REGISTRY.read_text("utf-8").splitlines()
    assert lines == sorted(set(lines))
    assert [line for line in lines if not LINE.fullmatch(line)] == []
    numbers = {tuple(map(int, versions.split("."))) for versions in registered().values()}
    assert max(numbers) <= tuple(map(int, version().split(".")))


def test_short_addresses_unique():
    codes = [code_of(address) for address in registered()]
    assert len(codes) == len(set(codes))
