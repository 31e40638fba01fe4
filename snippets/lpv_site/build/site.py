"""What the MkDocs hook calls: generated pages in, expressions and drawings filled."""

import json
from collections.abc import Callable
from functools import cache, partial
from pathlib import Path, PurePosixPath
from typing import Any

from lpv.core.errors import DataError, Fault
from lpv_site.briefing.briefings import briefings, made, parts
from lpv_site.build import build_record, store
from lpv_site.build.moved import with_lines
from lpv_site.build.moves import moves
from lpv_site.build.offline import build_time
from lpv_site.build.policy import secured
from lpv_site.build.scripts import with_printed
from lpv_site.checks import checks
from lpv_site.checks.checks import TASKS
from lpv_site.department.data import DOCS, data_version
from lpv_site.department.department import terms
from lpv_site.department.files import demo_approaches
from lpv_site.department.site import department_pages
from lpv_site.figures import figure
from lpv_site.figures.qr import with_code, with_date
from lpv_site.forms import phone, setup_figures
from lpv_site.pages import reference_pages
from lpv_site.pages.aircraft_page import aircraft_pages
from lpv_site.pages.approach_index import index_files, index_pages
from lpv_site.pages.cycle_page import cycle_pages
from lpv_site.pages.debrief_codes import code_at
from lpv_site.pages.debrief_page import debrief_pages, with_codes
from lpv_site.pages.drill_page import drill_pages
from lpv_site.pages.flight_page import flight_pages
from lpv_site.pages.glossary import build_glossary_page
from lpv_site.pages.plan_sheet import sheet_pages
from lpv_site.pages.track_page import track_pages
from lpv_site.text.fold import address_links
from lpv_site.text.headings import headings_version
from lpv_site.text.inline import expand
from lpv_site.text.short import has_codes, leading_pages, with_short

CHANGES = "approaches/changes.md"
FACTS_PAGE = "reference/facts.md"
Maker = Callable[[Path], dict[str, Callable[[], str]]]


def generated_pages(docs: Path, site_url: str = "") -> dict[str, Callable[[], str]]:
    """Address below docs/ -> function that writes the page's Markdown; site_url: where the site is published."""
    record: dict[str, Callable[[], str]] = {build_record.ADDRESS: partial(build_record.build_record_page, docs)}
    return kept_pages(reference, docs) | from_data_files(docs, site_url) | record


def reference(_: Path) -> dict[str, Callable[[], str]]:
    """The pages made from the code's own registries and from its checks."""
    found = checks.results()
    pages: dict[str, Callable[[], str]] = {
        FACTS_PAGE: reference_pages.build_facts_page,
        "reference/sources.md": reference_pages.build_sources_page,
        "reference/glossary.md": build_glossary_page,
        "reference/validation.md": lambda: reference_pages.build_validation_page(found),
    }
    for task in TASKS:
        if any(result.case.task == task for result in found):
            page = partial(reference_pages.build_validation_task_page, task, found)
            pages[f"reference/validation-{task}.md"] = page
    return pages


def kept_pages(made_from: Maker, docs: Path) -> dict[str, Callable[[], str]]:
    """What a maker of pages gives, or gave when it last met the same data files, headings, checks, and terms."""
    found = store.kept("pages", pages_key(made_from, docs), lambda: _finished(made_from(docs)))
    figure.remember(found["drawings"])
    return {address: partial(str, markdown) for address, markdown in found["pages"].items()}


def pages_key(made_from: Maker, docs: Path) -> str:
    """The key under which the pages of a maker are kept."""
    more = checks.version() + json.dumps(terms()) if made_from is reference else ""
    return store.key_of("pages", made_from.__name__, data_version(docs), headings_version(docs), more)


def _finished(makers: dict[str, Callable[[], str]]) -> dict[str, Any]:
    pages = {address: write() for address, write in makers.items()}
    return {"pages": pages, "drawings": figure.drawings_of(" ".join(pages.values()))}


def generated_files(docs: Path, pages: dict[str, str], directory_urls: bool) -> dict[str, str]:
    """Address -> content of what is no page: what forms run and fetch, the build record, pages that lead on.

    pages: Markdown of the generated pages by address
    """
    written = {path.relative_to(docs).as_posix(): path.read_text("utf-8") for path in sorted(docs.rglob("*.md"))}
    coded = {page: markdown for page, markdown in (written | pages).items() if has_codes(page)}
    others = {page: markdown for page, markdown in pages.items() if not has_codes(page)}
    record = {build_record.NAME: build_record.as_json(build_record.record(docs))}
    listed = index_files({slug: page.entry for slug, page in made().items()}, demo_approaches(docs))
    fetched = setup_figures.files({slug: page.figures for slug, page in made().items()})
    forms = dict(map(phone.code, phone.ENTRIES)) | listed | fetched
    return forms | record | leading_pages(docs, coded, directory_urls, others)


def from_data_files(docs: Path, site_url: str = "") -> dict[str, Callable[[], str]]:
    """The pages made from data files; one DataError with the faults of all of them."""
    pages: dict[str, Callable[[], str]] = {}
    faults: dict[str, Fault] = {}
    kept: list[Maker] = [partial(kept_pages, maker) for maker in KEPT]
    approaches = partial(approach_pages, site_url=site_url)
    for made_from in (department_pages, approaches, cycle_pages, debrief_pages, *kept):
        try:
            pages |= made_from(docs)
        except DataError as error:
            faults |= {str(fault): fault for fault in error.faults}
    if faults:
        raise DataError(list(faults.values()))
    return pages


def approach_pages(docs: Path, site_url: str = "") -> dict[str, Callable[[], str]]:
    """The briefing of each approach, and their index."""
    found = briefings(docs / "approaches", site_url=site_url)
    index = index_pages({slug: page.entry for slug, page in found.items()}, demo_approaches(docs))
    pages = {f"approaches/{slug}.md": page.markdown for slug, page in found.items()}
    if taken := sorted({*index, CHANGES} & set(pages)):
        raise DataError([
            Fault(address.replace(".md", ".toml"), "", "a name that a page of ours has", "another name", "Rename it.")
            for address in taken
        ])
    return {address: partial(str, markdown) for address, markdown in (index | pages).items()}


KEPT: tuple[Maker, ...] = (aircraft_pages, sheet_pages, flight_pages, drill_pages, track_pages)


@cache
def known_moves() -> dict[str, str]:
    """Old address -> the next one, read once for all pages of a build."""
    return moves(DOCS)


def page_markdown(markdown: str, address: str) -> str:
    """A page's Markdown with its inline expressions evaluated and its codes beside their headings."""
    markdown = with_lines(markdown, address, known_moves())
    up = "../" * (len(PurePosixPath(address).parts) - 1)
    # Scripts shown under "How this is computed" are nothing to search in, nor is the heading above all entries.
    markdown = markdown.replace("{ #computed }", "{ #computed data-search-exclude }")
    markdown = markdown.replace("{ #wrong }\n\n###", "{ #wrong data-search-exclude }\n\n###")
    coded = with_short(with_codes(markdown, address), address, code_at())
    return with_printed(expand(coded, up + FACTS_PAGE, address))


def page_html(html: str, address: str, directory_urls: bool, site_url: str) -> str:
    """A finished page with its drawings, all that was set aside, code and date on its card, and its policy."""
    opened_as_file = "" if directory_urls else "file:"
    whole = address_links(figure.fill(html, parts(address, DOCS, site_url)), address, directory_urls)
    whole = with_date(with_code(whole, site_url, address), build_time()[:10])
    return secured(whole, address, opened_as_file)
