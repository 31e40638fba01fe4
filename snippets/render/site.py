"""What the MkDocs hook calls: generated pages in, expressions and drawings filled."""

from collections.abc import Callable
from pathlib import Path, PurePosixPath

from lpv.errors import DataError, Fault
from render import reference_pages
from render.aircraft_page import aircraft_pages
from render.briefing import build_index_page
from render.briefings import briefings
from render.checks import TASKS, results
from render.cycle_page import cycle_pages
from render.debrief_page import debrief_pages, with_codes
from render.drill_page import drill_pages
from render.figure import fill
from render.flight_page import flight_pages
from render.fold import address_links
from render.glossary import build_glossary_page
from render.inline import expand
from render.plan_sheet import sheet_pages
from render.policy import secured

FACTS_PAGE = "reference/facts.md"


def generated_pages(docs: Path) -> dict[str, Callable[[], str]]:
    """Address below docs/ -> function that writes the page's Markdown."""
    checks = results()
    pages: dict[str, Callable[[], str]] = {
        FACTS_PAGE: reference_pages.build_facts_page,
        "reference/sources.md": reference_pages.build_sources_page,
        "reference/glossary.md": build_glossary_page,
        "reference/validation.md": lambda: reference_pages.build_validation_page(checks),
    }
    for task in TASKS:
        if any(result.case.task == task for result in checks):
            pages[f"reference/validation-{task}.md"] = (
                lambda task=task: reference_pages.build_validation_task_page(task, checks)  # type: ignore[misc]
            )
    return pages | from_data_files(docs)


def from_data_files(docs: Path) -> dict[str, Callable[[], str]]:
    """The pages made from data files; one DataError with the faults of all of them."""
    pages: dict[str, Callable[[], str]] = {}
    faults: dict[str, Fault] = {}
    for made_from in MADE_FROM_FILES:
        try:
            pages |= made_from(docs)
        except DataError as error:
            faults |= {str(fault): fault for fault in error.faults}
    if faults:
        raise DataError(list(faults.values()))
    return pages


def approach_pages(docs: Path) -> dict[str, Callable[[], str]]:
    """The briefing of each approach, and their index."""
    made = briefings(docs / "approaches")
    pages: dict[str, Callable[[], str]] = {
        "approaches/index.md": lambda: build_index_page({slug: page.entry for slug, page in made.items()})
    }
    for slug, briefing in made.items():
        pages[f"approaches/{slug}.md"] = lambda briefing=briefing: briefing.markdown  # type: ignore[misc]
    return pages


MADE_FROM_FILES = (
    approach_pages, cycle_pages, aircraft_pages, sheet_pages, flight_pages, drill_pages, debrief_pages,
)


def page_markdown(markdown: str, address: str) -> str:
    """A page's Markdown with its inline expressions evaluated and its codes beside their headings."""
    up = "../" * (len(PurePosixPath(address).parts) - 1)
    # Scripts shown under "How this is computed" are nothing to search in.
    markdown = markdown.replace("{ #computed }", "{ #computed data-search-exclude }")
    return expand(with_codes(markdown, address), up + FACTS_PAGE, address)


def page_html(html: str, address: str, directory_urls: bool) -> str:
    """A finished page with its drawings, all that was set aside, and its policy."""
    opened_as_file = "" if directory_urls else "file:"
    return secured(address_links(fill(html), address, directory_urls), address, opened_as_file)
