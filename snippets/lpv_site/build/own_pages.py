"""A department's own pages: their faults, told with the files as the department knows them."""

import posixpath
import re
from collections.abc import Iterator, Mapping
from pathlib import Path

from lpv.core.errors import Fault, shown
from lpv_site.build import jobs, store
from lpv_site.build.jobs import Job
from lpv_site.build.pages import Page
from lpv_site.build.policy import kept_from_working
from lpv_site.department.files import ABOUT, KINDS, OWN, PAGES

RAW_LINK = re.compile(r'\shref="(?!docs:|[a-z][a-z+.-]*:|[#/?])([^"]*)"', re.I)
LEADS_NOWHERE = "a page, a heading of one, or a file of this site"
CORRECT = "Correct the link, or give the heading this id."


def faults(of_pages: Mapping[str, Job], docs: Path) -> list[Fault]:
    """Those of the own ones among these pages: why one cannot be made, what in one the policy would not let run, and
    where its links lead nowhere as far as that is known before all other pages are made.
    """
    own = {address: job for address, job in of_pages.items() if address.startswith(f"{OWN}/")}
    found = jobs.make(own.values())
    made = {address: jobs.page_of(job.done()) for address, job in own.items() if store.is_kept(job.key)}
    for address, page in made.items():
        found += [Fault(address, "", each, "text, tables and pictures", "Take it out.")
                  for each in kept_from_working(page.whole)]
    known = {*of_pages, ABOUT, *_first_published(docs)} if made else set()
    return found + [fault for address in made for fault in _link_faults(address, made, known, docs)]


def _link_faults(address: str, made: Mapping[str, Page], known: set[str], docs: Path) -> Iterator[Fault]:
    """Links of an own page that lead nowhere; those to pages that are made of data are looked at later.

    known: addresses of pages that are there, or will be
    """
    for link in made[address].links:
        page, _, part = link.partition("#")
        if page in made:
            leads = not part or part in made[page].anchors
        elif page.endswith(".md"):
            leads = page in known or posixpath.dirname(page) in KINDS
        else:
            leads = not page.startswith(f"{OWN}/") or (docs / page).is_file()
        if not leads:
            yield Fault(address, "link", link, LEADS_NOWHERE, CORRECT)
    allowed = "the .md file of a page, as a link of Markdown, or a whole address"
    for raw in dict.fromkeys(RAW_LINK.findall(made[address].whole)):
        yield Fault(address, "link", shown(raw), allowed, "Write it as [words](page.md).")


def _first_published(docs: Path) -> set[str]:
    """The pages that the list of headings names."""
    listed = docs / "ids.txt"
    lines = listed.read_text("utf-8").splitlines() if listed.is_file() else []
    return {line.partition("#")[0] for line in lines}


def as_written(fault: Fault) -> Fault:
    """A fault with the file as whoever wrote it knows it: own pages lie in another folder of the site."""
    if not fault.file.startswith(f"{OWN}/"):
        return fault
    file = f"{PAGES}/{fault.file.removeprefix(f'{OWN}/')}"
    return Fault(file, fault.key, fault.found, fault.allowed, fault.action, fault.line, fault.text)
