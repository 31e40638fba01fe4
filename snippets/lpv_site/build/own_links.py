"""Where links of a department's own pages lead: told with the faults of its data, before the other pages are made.

Only pages that such a link names are made for it, and only where the list of headings does not answer.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from difflib import get_close_matches
from functools import cached_property
from pathlib import Path, PurePosixPath

from lpv.core.errors import DataError, Fault, shown
from lpv_site.build import build_record, jobs, store
from lpv_site.build.coded import coded, known_moves
from lpv_site.build.jobs import Job
from lpv_site.build.moves import followed
from lpv_site.build.pages import Page
from lpv_site.department.department import OWN
from lpv_site.department.files import ABOUT
from lpv_site.text.links import relative

RAW_LINK = re.compile(r'\shref="(?!docs:|[a-z][a-z+.-]*:|[#/?])([^"]*)"', re.I)
CODE_LINK = re.compile(r'\shref="\s*((?:javascript|vbscript|data):[^"]*)"', re.I)
LEADS_NOWHERE = "a page, a heading of one, or a file of this site"
CORRECT = "Correct the link, or give the heading this id."
MADE_LAST = {ABOUT, build_record.ADDRESS, "approaches/index.md"}  # there, with headings that are known at the end
ALIKE = 0.8


class Targets:
    """What a link can lead to.

    of_pages:  address -> job, of every page that is a file and of every briefing
    makers:    function that writes pages from data -> how the addresses of these begin
    """

    def __init__(self, docs: Path, of_pages: Mapping[str, Job], makers: Mapping[str, str]) -> None:
        self.docs, self.of_pages, self.makers = docs, of_pages, makers
        self._written: dict[str, Mapping[str, Callable[[], str]] | None] = {}

    def prepare(self, links: Iterable[str]) -> None:
        """Make the pages whose headings these name, side by side; a page that fails tells its faults later."""
        targets = {link.partition("#")[0] for link in links if "#" in link and link not in self._listed}
        jobs.make([self.of_pages[page] for page in sorted(targets) if page in self.of_pages])

    def lead(self, link: str) -> bool:
        """Whether a link leads somewhere; True as well where only the finished site can tell."""
        page, _, part = link.partition("#")
        if not page.endswith(".md"):
            return not page.startswith(f"{OWN}/") or (self.docs / page).is_file()
        if page in MADE_LAST:
            return True
        if page in self.of_pages:
            return not part or link in self._listed or self._has(self.of_pages[page], part)
        writers = [self._pages_of(maker) for maker, begins in self.makers.items() if page.startswith(begins)]
        for written in writers:
            if written is not None and page in written:
                return not part or self._has(self._job(page, written[page]), part)
        return None in writers

    def _has(self, job: Job | None, part: str) -> bool:
        """Whether a page has an id; of one that cannot be made, as far as its Markdown says so."""
        if job is None:
            return True
        jobs.make([job])
        if store.is_kept(job.key):
            return part in job.done()["anchors"]
        return job.about not in self.of_pages or part in str(job.arguments[1])

    def _job(self, page: str, write: Callable[[], str]) -> Job | None:
        try:
            return jobs.page_job(page, coded(write(), page, self.docs), self.docs)
        except DataError:
            return None

    def _pages_of(self, maker: str) -> Mapping[str, Callable[[], str]] | None:
        """The pages that a maker writes; None where faults of the data keep it from saying."""
        if maker not in self._written:
            try:
                self._written[maker] = jobs.writers(maker, self.docs)
            except DataError:
                self._written[maker] = None
        return self._written[maker]

    @cached_property
    def _listed(self) -> set[str]:
        """The headings that were published, of pages that are files."""
        listed = self.docs / "ids.txt"
        lines = listed.read_text("utf-8").splitlines() if listed.is_file() else []
        return {address for address in (line.partition(" ")[0] for line in lines)
                if address.partition("#")[0] in self.of_pages}

    def advice(self, link: str) -> str:
        """What to do about a link that leads nowhere."""
        page, _, part = link.partition("#")
        now = followed(known_moves(self.docs), link)
        if now is not None and now != link:
            return f"It is now {now}."
        if page.startswith(f"{OWN}/") and part:
            return CORRECT
        target = link if page in self.of_pages else page
        place, cut, name = target.rpartition("#" if "#" in target else "/")
        parted = (listed.rpartition(cut) for listed in sorted(self._listed if cut == "#" else self.of_pages))
        near = get_close_matches(name, [other for beside, _, other in parted if beside == place], 1, ALIKE)
        return f"Did you mean {place}{cut}{near[0]}?" if near else "Correct the link."


def faults(address: str, page: Page, targets: Targets) -> Iterator[Fault]:
    """Links of an own page that lead nowhere."""
    for link in page.links:
        if not targets.lead(link):
            yield at_link(Fault(address, "link", link, LEADS_NOWHERE, targets.advice(link)), targets.docs)
    allowed = "the .md file of a page, as a link of Markdown, or a whole address"
    for raw in dict.fromkeys(RAW_LINK.findall(page.whole)):
        yield at_link(Fault(address, "link", shown(raw), allowed, "Write it as [words](page.md)."), targets.docs, raw)
    for raw in dict.fromkeys(CODE_LINK.findall(page.whole)):
        yield at_link(Fault(address, "link", shown(raw), allowed, "Take it out."), targets.docs, raw)


def at_link(fault: Fault, docs: Path, written: str = "") -> Fault:
    """The same fault with the first line of the page that has the link, where it is written as links mostly are."""
    path = docs / PurePosixPath(fault.file)
    looked_for = written or relative(fault.found, fault.file)
    lines = path.read_text("utf-8").splitlines() if path.is_file() else []
    for number, line in enumerate(lines, 1):
        if looked_for in line:
            return Fault(fault.file, fault.key, fault.found, fault.allowed, fault.action, number, shown(line.strip()))
    return fault
