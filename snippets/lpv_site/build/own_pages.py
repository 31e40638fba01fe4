"""A department's own pages: their faults, told with the files as the department knows them."""

from collections.abc import Mapping
from pathlib import Path

from lpv.core.errors import Fault
from lpv_site.build import jobs, own_links, store
from lpv_site.build.jobs import Job
from lpv_site.build.policy import kept_from_working
from lpv_site.department.department import OWN
from lpv_site.department.files import PAGES


def faults(of_pages: Mapping[str, Job], docs: Path, makers: Mapping[str, str]) -> list[Fault]:
    """Those of the own ones among these pages: why one cannot be made, what in one the policy would not let run, and
    where its links lead nowhere.

    of_pages, makers: see `lpv_site.build.own_links.Targets`
    """
    own_jobs = {address: job for address, job in of_pages.items() if address.startswith(f"{OWN}/")}
    problems = jobs.make(own_jobs.values())
    made = {address: jobs.page_of(job.done()) for address, job in own_jobs.items() if store.is_kept(job.key)}
    for address, page in made.items():
        problems += [Fault(address, "", obstacle, "text, tables and pictures", "Take it out.")
                     for obstacle in kept_from_working(page.whole)]
    targets = own_links.Targets(docs, of_pages, makers)
    targets.prepare(link for page in made.values() for link in page.links)
    return problems + [fault for address, page in made.items() for fault in own_links.faults(address, page, targets)]


def as_written(fault: Fault) -> Fault:
    """A fault with the file as whoever wrote it knows it: own pages lie in another folder of the site.

    A name with signs that a terminal acts on is told with their numbers.
    """
    file = f"{PAGES}/{fault.file.removeprefix(f'{OWN}/')}" if fault.file.startswith(f"{OWN}/") else fault.file
    if not file.isprintable():
        file = ascii(file)
    if file == fault.file:
        return fault
    return Fault(file, fault.key, fault.found, fault.allowed, fault.action, fault.line, fault.text)
