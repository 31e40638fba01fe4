"""One build: what the MkDocs hook asks for, page by page.  A successor of MkDocs asks for the same."""

import os
from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress
from datetime import date
from html import escape, unescape
from pathlib import Path
from typing import TypeVar

import yaml

from lpv.core.errors import DataError, Fault, with_folder
from lpv_site.briefing.briefings import EDITION, Briefing, briefing_of, files
from lpv_site.build import build_record, edition, jobs, own_links, own_pages, shell, withdrawn, workers
from lpv_site.build.coded import coded
from lpv_site.build.definitions import modules
from lpv_site.build.digests import Digest, digest
from lpv_site.build.gate import Gate, gate
from lpv_site.build.moves import Withdrawal
from lpv_site.build.named import scripts, with_names
from lpv_site.build.pages import Page
from lpv_site.build.policy import secured
from lpv_site.build.seal import sealed
from lpv_site.build.shell import Shell
from lpv_site.department import files as department_files
from lpv_site.department.data_faults import previous_faults
from lpv_site.department.files import demo_approaches
from lpv_site.department.site import department_pages
from lpv_site.figures import figure
from lpv_site.figures.qr import with_code, with_edition, with_room_code
from lpv_site.forms import phone, setup_figures
from lpv_site.pages.approach_index import index_files, index_pages
from lpv_site.text.convert import written_links
from lpv_site.text.short import has_codes, leading_pages, places

TAKEN = {"index", "changes"}  # names of pages beside the briefings
# Functions (docs) -> {address: function that writes its Markdown}, each in the module that it is named with, and how
# the addresses of its pages begin.
FLIGHTS, FLIGHT_JOBS = "lpv_site.pages.flight_page.flight_pages", 8  # a flight takes half a second
MAKERS = {
    "lpv_site.pages.track_page.track_pages": "debrief/flights/",
    "lpv_site.pages.drill_page.drill_pages": "practice/",
    "lpv_site.pages.lesson_page.lesson_pages": "teach/",
    "lpv_site.pages.numbers_page.numbers_pages": "practice/",
    "lpv_site.pages.sequence_page.sequence_pages": "practice/",
    "lpv_site.pages.aircraft_page.aircraft_pages": "aircraft/",
    "lpv_site.pages.plan_sheet.sheet_pages": "plan/",
    "lpv_site.pages.cycle_page.cycle_pages": "approaches/changes",
    "lpv_site.pages.debrief_page.debrief_pages": "debrief/index",
    "lpv_site.pages.glossary.glossary_pages": "reference/glossary",
    "lpv_site.pages.reference_pages.fact_pages": "reference/",
    "lpv_site.pages.memory_page.pages": "reference/",
}
LONG_PAGES = ("verify/scoreboard.md",)  # seconds of work, so that they are begun first
CHECKED = "lpv_site.pages.reference_pages.validation_pages"  # calls whatever the published values name
BEGIN = {FLIGHTS: "modes/scenario-", CHECKED: "reference/validation"}
Makers = dict[str, Callable[[], str]]


def head_text(page: Page) -> str:
    """The front matter of a page, for MkDocs and the theme."""
    return f"---\n{yaml.safe_dump(page.head, allow_unicode=True)}---\n"


def _write(path: str, data: bytes) -> Digest:
    """Write a file of which there are thousands, into a folder that may not be there; its hash."""
    with suppress(FileExistsError):
        os.mkdir(os.path.dirname(path))
    with open(path, "wb") as file:
        file.write(data)
    return digest(data)


Made = TypeVar("Made")


class Site:
    """The pages and files of one build.

    pages:     address below docs/ -> page, of all that MkDocs puts its theme around
    briefings: slug -> briefing;  shells: the theme around these, once it is written
    files:     address on the site -> content, of what is no page
    """

    def __init__(self, docs: Path, site_url: str, directory_urls: bool, more: Iterable[Fault] = ()) -> None:
        """Make all of it, or find it kept; DataError with every fault of every file and page, and with `more`."""
        self.docs, self.site_url, self.directory_urls = docs, site_url, directory_urls
        self.edition = edition.words(docs)
        self.faults: list[Fault] = [*more, *department_files.faults()]
        written = {path.relative_to(docs).as_posix(): path.read_text("utf-8") for path in sorted(docs.rglob("*.md"))}
        self.pages: dict[str, Page] = {}
        self.set_up_list = setup_figures.LIST
        self.withdrawn: list[Withdrawal] = []
        with workers.shared():
            self.faults += jobs.make([*jobs.type_jobs(docs), *jobs.phone_jobs()])  # what all that follows asks for
            self._of_approaches = [jobs.briefing_job(path, site_url, docs) for path in files(docs)]
            self._make(written)
            self.briefings = self._briefings()
            self.shells = shell.shells(self.briefings)
            self._make_rest()
        self.files: dict[str, str] = self._try(self._files, {})
        self._check_links()
        if self.faults:
            raise DataError(jobs.first_causes([own_pages.as_written(fault) for fault in self.faults]))

    def _make(self, written: dict[str, str]) -> None:
        """The pages that are files, and those of the makers, by processes side by side; none where data have faults."""
        of_makers = [job for maker in MAKERS for job in jobs.maker_jobs(maker, self.docs)]
        of_makers += jobs.maker_jobs(CHECKED, self.docs, sorted(modules()))
        of_makers += jobs.maker_jobs(FLIGHTS, self.docs, shares=FLIGHT_JOBS)
        of_pages = {address: job for address, text in written.items() if (job := self._job(address, text))}
        self._find_faults(of_pages)
        if self.faults:
            return
        long_ones = [of_pages[address] for address in LONG_PAGES if address in of_pages]
        self.faults += jobs.make([*long_ones, *of_makers, *of_pages.values()])
        if self.faults:
            return
        self.pages = {address: jobs.page_of(job.done()) for address, job in of_pages.items()}
        for job in of_makers:
            record = job.done()
            figure.remember(record["parts"])
            self._add(record["pages"])

    def _find_faults(self, of_pages: dict[str, jobs.Job]) -> None:
        """Make the briefings and the department's own pages, and read all other data."""
        self.faults += with_folder("approaches", jobs.make(self._of_approaches))
        self.faults += jobs.make([jobs.data_job(self.docs)])
        taken = sorted(TAKEN & {path.stem for path in files(self.docs)})
        self.faults += [Fault(f"approaches/{slug}.toml", "", "a name that a handbook page has", "another name",
                              "Rename it.") for slug in taken]
        if self.faults:
            self.faults += previous_faults(self.docs)
        briefings = {f"approaches/{Path(job.about).stem}.md": job for job in self._of_approaches}
        self.faults += own_pages.faults({**of_pages, **briefings}, self.docs, {**MAKERS, **BEGIN})

    def _job(self, address: str, markdown: str) -> jobs.Job | None:
        return self._try(lambda: jobs.page_job(address, coded(markdown, address, self.docs), self.docs), None)

    def _add(self, written: dict[str, str]) -> None:
        """Pages of Markdown that is known only now."""
        for address, markdown in written.items():
            if job := self._job(address, markdown):
                self.faults += jobs.make([job])
                self.pages[address] = jobs.page_of(job.done())

    def _briefings(self) -> dict[str, Briefing]:
        if self.faults:
            return {}
        return {Path(job.about).stem: briefing_of(job.done(), job.key) for job in self._of_approaches}

    def _make_rest(self) -> None:
        """The pages that depend on all others of their kind; none where something is wrong already."""
        if self.faults:
            return
        entries = {slug: briefing.entry for slug, briefing in self.briefings.items()}
        self._add(self._try(lambda: {key: write() for key, write in department_pages(self.docs).items()}, {}))
        self._add(index_pages(entries, demo_approaches(self.docs)))
        self._add({build_record.ADDRESS: build_record.build_record_page(self.docs)})

    def gate(self) -> Gate:
        """What its approaches have that somebody should know of before they are published, on the day of today."""
        entries = {slug: briefing.entry for slug, briefing in self.briefings.items()}
        return gate(entries, demo_approaches(self.docs), date.today().toordinal())

    def _check_links(self) -> None:
        """Every link to a page, to a heading of it, or to a file leads somewhere."""
        anchors = {address: set(page.anchors) for address, page in self.pages.items()}
        anchors |= {f"approaches/{slug}.md": set(page.anchors) for slug, page in self.briefings.items()}
        known: dict[str, bool] = {}

        def leads(link: str) -> bool:
            page, _, part = link.partition("#")
            if page not in anchors:
                return page in self.files or (not page.endswith(".md") and (self.docs / page).is_file())
            return not part or part in anchors[page]

        links = {**{address: page.links for address, page in self.pages.items()},
                 **{f"approaches/{slug}.md": page.links for slug, page in self.briefings.items()}}
        for address, found_links in links.items() if not self.faults else ():
            for link in found_links:
                if link not in known:
                    known[link] = leads(link)
                if not known[link]:
                    self.faults.append(Fault(address, "link", link, own_links.LEADS_NOWHERE, own_links.CORRECT))

    def _files(self) -> dict[str, str]:
        """What forms run and fetch, the build record, and the pages that lead on."""
        if self.faults:
            return {}
        headings = {address: places(address, page.head, page.places) for address, page in self.pages.items()}
        of_briefings = {f"approaches/{slug}.md": places(f"approaches/{slug}.md", page.head, page.places)
                        for slug, page in self.briefings.items()}
        coded_ones = {address: head for address, head in headings.items() if has_codes(address)}
        others = of_briefings | {address: head for address, head in headings.items() if not has_codes(address)}
        record = {build_record.NAME: build_record.as_json(build_record.record(self.docs))}
        entries = {slug: page.entry for slug, page in self.briefings.items()}
        listed = setup_figures.listed({
            slug: (page.entry.airport, page.entry.title, page.figures) for slug, page in self.briefings.items()})
        self.set_up_list = setup_figures.with_hash(setup_figures.LIST, listed)
        fetched = index_files(entries, demo_approaches(self.docs)) | {setup_figures.LIST: listed}
        forms = dict(map(phone.code, phone.FORMS))
        self.withdrawn = withdrawn.withdrawals(self.docs, {*self.pages, *of_briefings})
        taken_back = withdrawn.files(self.withdrawn, self.directory_urls)
        return forms | fetched | record | taken_back | leading_pages(
            self.docs, coded_ones, self.directory_urls, others)

    def _try(self, make: Callable[[], Made], otherwise: Made) -> Made:
        """What a function gives; its faults noted where it fails."""
        try:
            return make()
        except DataError as error:
            self.faults += error.faults
            return otherwise

    def finished(self, html: str, address: str) -> str:
        """A page with the theme around it, completed: its parts, links, code and date on its card, its policy."""
        page = self.pages.get(address)
        finished = figure.fill(html, page.parts) if page else html
        finished = written_links(finished, address, self.directory_urls)
        finished = finished.replace(setup_figures.LIST_MARK, self.set_up_list)
        finished = with_room_code(finished, self.site_url, address)
        finished = with_edition(with_code(finished, self.site_url, address), self.edition)
        finished = phone.with_code_names(with_names(finished, self.docs))
        return secured(finished, address, "" if self.directory_urls else "file:")

    def write_briefings(self, site: Path) -> dict[str, Digest]:
        """Write the briefings and the figures beside them; their hashes by place."""
        (site / "approaches").mkdir(exist_ok=True)
        written = {}
        for page_shell in self.shells:
            page_shell.remove()
        for place, text in self._finished_briefings():
            written[place] = _write(f"{site}/{place}", text.encode())
        return written

    def _finished_briefings(self) -> Iterator[tuple[str, str]]:
        """Place on the site and whole page of each briefing; and the files of figures beside them."""
        ending = "/index.html" if self.directory_urls else ".html"
        for page_shell in self.shells:
            for slug, text in shell.finished(page_shell, self.directory_urls):
                yield f"approaches/{slug}{ending}", sealed(text.replace(EDITION, self.edition), f"approaches/{slug}/")
        for slug, briefing in self.briefings.items():
            yield setup_figures.address(slug), briefing.figures

    def named(self) -> list[str]:
        """Addresses with the hash of their content: the list of approaches, the figures that it names, scripts."""
        of_figures = [setup_figures.named(slug, page.figures) for slug, page in self.briefings.items()]
        return [self.set_up_list, *of_figures, *scripts(self.docs).values()]

    def shell_at(self, address: str) -> Shell | None:
        """The shell whose page of marks has this address."""
        return next((page_shell for page_shell in self.shells if page_shell.address == address), None)

    def searched(self) -> Iterable[dict[str, str]]:
        """The entries of the search index for the briefings."""
        ending = "/" if self.directory_urls else ".html"
        for slug, briefing in self.briefings.items():
            title = escape(unescape(briefing.toc[0]["name"]), quote=False)
            yield {"location": f"approaches/{slug}{ending}", "title": title, "text": briefing.searched}
