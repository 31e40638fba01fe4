"""A department's own pages: their faults, told with the files as the department knows them."""

from collections.abc import Mapping

from lpv.core.errors import Fault
from lpv_site.build import jobs, store
from lpv_site.build.jobs import Job
from lpv_site.build.policy import kept_from_working
from lpv_site.department.files import OWN, PAGES


def faults(of_pages: Mapping[str, Job]) -> list[Fault]:
    """Those of the own ones among these pages: why one cannot be made, and what in one the policy would not let run."""
    own = {address: job for address, job in of_pages.items() if address.startswith(f"{OWN}/")}
    found = jobs.make(own.values())
    for address, job in own.items():
        unkept = kept_from_working(jobs.page_of(job.done()).whole) if store.is_kept(job.key) else []
        found += [Fault(address, "", each, "text, tables and pictures", "Take it out.") for each in unkept]
    return found


def as_written(fault: Fault) -> Fault:
    """A fault with the file as whoever wrote it knows it: own pages lie in another folder of the site."""
    if not fault.file.startswith(f"{OWN}/"):
        return fault
    file = f"{PAGES}/{fault.file.removeprefix(f'{OWN}/')}"
    return Fault(file, fault.key, fault.found, fault.allowed, fault.action, fault.line, fault.text)
