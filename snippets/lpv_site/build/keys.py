"""The key of each page: its Markdown, and the sources and data that it reaches.

Sources are found by their imports.  What a module reads beside them stands in `READ_BY`: a module that reads other
files of the project, or calls functions by names from data, is named there.
"""

from collections.abc import Callable, Iterable
from functools import cache
from pathlib import Path

from lpv_site.build import hosting, imports, scripts, store
from lpv_site.build.imports import SNIPPETS
from lpv_site.checks import checks
from lpv_site.department.data import DOCS, data_version, hash_of
from lpv_site.department.department import runs_code
from lpv_site.forms import phone
from lpv_site.pages import cycle_page, scores
from lpv_site.text.headings import headings_version
from lpv_site.text.inline import MODULES, expressions

SITE = SNIPPETS / "lpv_site"
PIPELINE = SITE / "build" / "pages.py"
FACTS = SITE / "text" / "facts.py"


@cache
def _theme() -> str:
    return hash_of(sorted(path for path in (SITE / "theme").rglob("*") if path.is_file()), SITE)


@cache
def _phone() -> str:
    return " ".join(phone.code(form)[0] for form in phone.FORMS)


# Module -> a version of what it reads: data files, headings, published values, templates.
READ_BY: dict[Path, Callable[[Path], str]] = {
    SITE / "department" / "data.py": data_version,
    SITE / "text" / "headings.py": headings_version,
    SITE / "checks" / "checks.py": lambda _docs: checks.version(),
    SITE / "pages" / "scores.py": lambda _docs: hash_of(scores.READ, scores.TESTS),
    SITE / "pages" / "cycle_page.py": lambda docs: cycle_page.compared_version(docs),
    SITE / "build" / "policy.py": lambda _docs: _theme(),
    SITE / "build" / "hosting.py": lambda _docs: hosting.root_of_site(),
    SITE / "forms" / "phone.py": lambda _docs: _phone(),
    SNIPPETS / "lpv" / "calculators" / "run.py": lambda _docs: _phone(),  # these two take modules by their names
    SNIPPETS / "lpv" / "figures" / "run.py": lambda _docs: _phone(),
}


def version(sources: Iterable[Path], docs: Path = DOCS) -> str:
    """A hash of the sources that these reach, and of what they read."""
    return _version(frozenset(sources), docs)


@cache
def _version(sources: frozenset[Path], docs: Path) -> str:
    read = [f"{path.name} {version_of(docs)}" for path, version_of in READ_BY.items()
            if any(path in imports.reached(source) for source in sources)]
    return " ".join([imports.version(sources), *read])


def page_key(address: str, markdown: str, docs: Path = DOCS) -> str:
    """The key of the page made of a Markdown text, whose expressions and fences are not worked out yet."""
    made_with = version({PIPELINE, *sources(markdown)}, docs)
    return store.key_of(made_with, "page", address, markdown, str(runs_code(address)))


def sources(markdown: str) -> Iterable[Path]:
    """The files that the fences and expressions of a page name."""
    yield from scripts.named_on(markdown)
    for name, texts in expressions(markdown):
        if name in MODULES:
            yield _file(MODULES[name])
        if name == "computed":
            yield SNIPPETS / f"{texts[0]}.py"
        elif name == "formula":
            yield _file(texts[0])


def _file(name: str) -> Path:
    """The file of a module, or of the module that a function's name begins with; a missing one as its own name."""
    parts = name.split(".")
    candidates = (imports.modules().get(".".join(parts[:length])) for length in range(len(parts), 0, -1))
    return next((path for path in candidates if path), SNIPPETS / "__missing__.py")


@cache
def _briefing(docs: Path) -> str:
    return version([SITE / "briefing" / "briefings.py", FACTS], docs)


def briefing_key(name: str, data: bytes, site_url: str, docs: Path = DOCS) -> str:
    """The key of the briefing of an approach file: its name and bytes, and where the site is published."""
    return store.key_of(_briefing(docs), "briefing", name, data, site_url)


def data_key(docs: Path = DOCS) -> str:
    """The key of having found no fault in the data files: their bytes, and all that reads them."""
    return store.key_of(version([SITE / "department" / "data_faults.py"], docs), "data", data_version(docs))


def type_key(path: Path) -> str:
    """The key of having explored the type of an aircraft file."""
    return store.key_of(imports.version(frozenset([SITE / "build" / "explorations.py"])), "type", path.read_bytes())


def maker_key(maker: str, more: Iterable[Path] = (), docs: Path = DOCS) -> str:
    """The key of the Markdown of all pages of a maker, such as lpv_site.pages.aircraft_page.aircraft_pages.

    more: sources that it calls without an import
    """
    return store.key_of(version([_file(maker), *more], docs), "markdown", maker)
