"""What a build makes: each page by a job that any process can do, kept under its key."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import asdict, dataclass
from importlib import import_module
from pathlib import Path
from typing import Any

from lpv.core.errors import DataError, Fault
from lpv.files.toml_reader import read_each
from lpv_site.briefing import briefings
from lpv_site.build import explorations, keys, store, workers
from lpv_site.build.coded import coded
from lpv_site.build.pages import Page, make_page
from lpv_site.department.data_faults import data_faults
from lpv_site.figures import figure
from lpv_site.forms import phone

Record = dict[str, Any]
OF_PAGES = "a page that can be made"


@dataclass(frozen=True)
class Job:
    """One entry of the store to make.

    key:   under which it is kept
    make:  a function that a new process finds by its name;  arguments: what it is called with
    about: the file or page that it is about, for its faults
    heavy: whether it is worth a process of its own
    """

    key: str
    make: Callable[..., tuple[Record, bytes]]
    arguments: tuple[Any, ...]
    about: str
    heavy: bool = True

    def done(self) -> Record:
        """The record, kept or made here."""
        stored = store.load(self.key)
        return stored if stored is not None else self.make(*self.arguments)[0]


def do(job: Job) -> list[Fault]:
    """Do a job and keep what it makes; its faults where it fails."""
    try:
        record, finished = job.make(*job.arguments)
        store.keep(job.key, record, finished)
    except DataError as error:
        return error.faults
    except OSError as error:
        return [Fault(str(error.filename or job.about), "", str(error.strerror or error), "a file that can be read or "
                      "written", "Make room, or correct its rights.")]
    except Exception as error:
        what = f"{type(error).__name__}: {error}"
        return [Fault(job.about, "", what, OF_PAGES, "Correct the page.")]
    finally:
        if not job.heavy:
            figure.forget()  # there are thousands of these, and nothing of one is in another
    return []


def make(jobs: Iterable[Job]) -> list[Fault]:
    """Do the jobs whose entries are not kept yet; every fault of all of them."""
    once = {job.key: job for job in jobs if not store.is_kept(job.key)}
    missing = sorted(once.values(), key=lambda job: not job.heavy)
    return [fault for faults in workers.run_all(do, missing) for fault in faults]


def first_causes(faults: list[Fault]) -> list[Fault]:
    """Each fault once; without those of pages that fail because a data file does, where there are any of data files."""
    once = list({str(fault): fault for fault in faults}.values())
    return [fault for fault in once if fault.allowed != OF_PAGES] or once


def page_job(address: str, markdown: str, docs: Path) -> Job:
    """The page of a Markdown file."""
    return Job(keys.page_key(address, markdown, docs), _page, (address, markdown), address)


def _page(address: str, markdown: str) -> tuple[Record, bytes]:
    return asdict(make_page(address, markdown)), b""


def page_of(record: Record) -> Page:
    """A page as it was kept."""
    return Page(**record)


def briefing_job(path: Path, site_url: str, docs: Path) -> Job:
    """The briefing of an approach file."""
    key = keys.briefing_key(path.name, path.read_bytes(), site_url.rstrip("/"), docs)
    return Job(key, briefings.make, (path, site_url), path.name, heavy=False)


def data_job(docs: Path) -> Job:
    """The reading of all data files but the approaches: kept once it has found no fault."""
    return Job(keys.data_key(docs), _data, (docs,), "the data files")


def _data(docs: Path) -> tuple[Record, bytes]:
    if faults := data_faults(docs):
        raise DataError(faults)
    return {}, b""


def type_jobs(docs: Path) -> list[Job]:
    """The exploration of the modes of every type, each worth a process of its own."""
    return [Job(keys.type_key(path), explorations.read, (path,), path.name)
            for path in sorted((docs / "aircraft").glob("*.toml"))]


def phone_jobs() -> list[Job]:
    """What the browser computes with, for each kind of form."""
    return [Job(phone.key(form), _phone, (form,), f"the forms of {form}") for form in phone.FORMS]


def _phone(form: str) -> tuple[Record, bytes]:
    return dict(phone.make(form)), b""


def maker_jobs(maker: str, docs: Path, more: Iterable[str] = (), shares: int = 1) -> list[Job]:
    """The Markdown of all pages of a maker, in so many jobs; and, since it is at hand there, their HTML."""
    key = keys.maker_key(maker, more, docs)
    return [Job(f"{key}{share}of{shares}", _pages, (maker, docs, share, shares), maker) for share in range(shares)]


def _pages(maker: str, docs: Path, share: int, shares: int) -> tuple[Record, bytes]:
    pages = list(writers(maker, docs).items())[share::shares]
    written = dict(read_each(pages, lambda page: (page[0], page[1]())))
    for address, markdown in written.items():
        job = page_job(address, coded(markdown, address, docs), docs)
        store.keep(job.key, *job.make(*job.arguments))
    return {"pages": written, "parts": figure.drawings_of(" ".join(written.values()))}, b""


def writers(maker: str, docs: Path) -> Mapping[str, Callable[[], str]]:
    """Address -> function that writes a page, for all of a maker; DataError where the data keep it from saying."""
    module, _, function = maker.rpartition(".")
    written: Mapping[str, Callable[[], str]] = getattr(import_module(module), function)(docs)
    return written
