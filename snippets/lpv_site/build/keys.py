"""The key of each page: its Markdown, and the definitions and data that it reaches.

Definitions are found by the names in them (`reach`).  What a module reads beside them stands in `READ_BY`: a module
that reads other files of the project is named there.
"""

from collections.abc import Callable, Iterable
from functools import cache
from pathlib import Path

from lpv_site.build import hosting, reach, scripts, store
from lpv_site.build.definitions import SNIPPETS
from lpv_site.checks import checks
from lpv_site.department.data import DOCS, data_version, hash_of
from lpv_site.department.department import runs_code
from lpv_site.pages import cycle_page, scores
from lpv_site.text.headings import headings_version
from lpv_site.text.inline import MODULES, expressions

SITE = SNIPPETS / "lpv_site"
PIPELINE = "lpv_site.build.pages.make_page"
BRIEFINGS = "lpv_site.briefing.briefings.make"


@cache
def _theme() -> str:
    return hash_of(sorted(path for path in (SITE / "theme").rglob("*") if path.is_file()), SITE)


# Module -> a version of what it reads: data files, headings, published values, templates.
READ_BY: dict[Path, Callable[[Path], str]] = {
    SITE / "department" / "data.py": data_version,
    SITE / "text" / "headings.py": headings_version,
    SITE / "checks" / "checks.py": lambda _docs: checks.version(),
    SITE / "pages" / "scores.py": lambda _docs: hash_of(scores.READ, scores.TESTS),
    SITE / "pages" / "cycle_page.py": lambda docs: cycle_page.compared_version(docs),
    SITE / "build" / "policy.py": lambda _docs: _theme(),
    SITE / "build" / "hosting.py": lambda _docs: hosting.root_of_site(),
}


def version(names: Iterable[str], docs: Path = DOCS) -> str:
    """A hash of the definitions that these dotted names reach, and of what they read."""
    return _version(frozenset(names), docs)


@cache
def _version(names: frozenset[str], docs: Path) -> str:
    files = reach.files(names)
    read = [f"{path.name} {version_of(docs)}" for path, version_of in READ_BY.items() if path in files]
    return " ".join([reach.version(names), *read])


def page_key(address: str, markdown: str, docs: Path = DOCS) -> str:
    """The key of the page made of a Markdown text, whose expressions and fences are not worked out yet."""
    made_with = version({PIPELINE, *sources(markdown)}, docs)
    return store.key_of(made_with, "page", address, markdown, str(runs_code(address)))


def sources(markdown: str) -> Iterable[str]:
    """The functions that the fences and expressions of a page name, dotted."""
    yield from scripts.named_on(markdown)
    for name, texts in expressions(markdown):
        if name in MODULES:
            yield f"{MODULES[name]}.in_prose"
        if name == "computed":
            yield f"{texts[0].replace('/', '.')}.show"
        elif name == "formula":
            yield texts[0]
        elif name in ("calculator", "live"):
            yield reach.named().get(texts[0], texts[0])


@cache
def _briefing(docs: Path) -> str:
    return version([BRIEFINGS, f"{MODULES['fact']}.in_prose"], docs)


def briefing_key(name: str, data: bytes, site_url: str, docs: Path = DOCS) -> str:
    """The key of the briefing of an approach file: its name and bytes, and where the site is published."""
    return store.key_of(_briefing(docs), "briefing", name, data, site_url)


def data_key(docs: Path = DOCS) -> str:
    """The key of having found no fault in the data files: their bytes, and all that reads them."""
    return store.key_of(version(["lpv_site.department.data_faults.data_faults"], docs), "data", data_version(docs))


def type_key(path: Path) -> str:
    """The key of having explored the type of an aircraft file."""
    return store.key_of(reach.version(frozenset(["lpv_site.build.explorations.read"])), "type", path.read_bytes())


def maker_key(maker: str, more: Iterable[str] = (), docs: Path = DOCS) -> str:
    """The key of the Markdown of all pages of a maker, such as lpv_site.pages.aircraft_page.aircraft_pages.

    more: what it calls by names that it does not hold
    """
    return store.key_of(version([maker, *more], docs), "markdown", maker)
