"""What a build asks for, made by worker processes before it asks: page scripts, generated pages, briefings.

The workers keep what they make (see `lpv_site.build.store`), and the build finds it kept.  What fails here is
passed over:
the build tries it again, and says what is wrong.
"""

from collections.abc import Callable, Iterator
from contextlib import suppress
from functools import partial
from pathlib import Path

from lpv_site.briefing import briefings
from lpv_site.build import build_record, scripts, site, store, workers

Job = Callable[[], object]
BRIEFINGS_AT_ONCE = 8
WORTH_WORKERS = 3


def make_ahead(docs: Path, site_url: str) -> int:
    """Make what is not kept yet of a build; how many jobs that were, the longest of them first."""
    jobs = [*page_jobs(docs), *script_jobs(), *briefing_jobs(docs, site_url)]
    workers.each(attempt, jobs, WORTH_WORKERS)
    return len(jobs)


def attempt(job: Job) -> None:
    """Do a job, or leave it: who needs its result meets the same error."""
    with suppress(Exception):
        job()


def page_jobs(docs: Path) -> Iterator[Job]:
    """The makers of generated pages."""
    for maker in site.KEPT:
        if not store.is_kept("pages", site.pages_key(maker, docs)):
            yield partial(site.kept_pages, maker, docs)
    both = ("pages", site.pages_key(site.reference, docs)), ("validation", build_record.validation_key())
    if not all(store.is_kept(*one) for one in both):
        yield partial(checked_pages, docs)


def checked_pages(docs: Path) -> None:
    """The reference pages and the count of checks: both run all checks, which is done once here."""
    site.kept_pages(site.reference, docs)
    build_record.validation()


def script_jobs() -> Iterator[Job]:
    """The page scripts."""
    for path in scripts.page_scripts():
        name = path.relative_to(scripts.SNIPPETS).with_suffix("").as_posix()
        if not store.is_kept("scripts", scripts.key_of(name)):
            yield partial(scripts.run, name)


def briefing_jobs(docs: Path, site_url: str) -> Iterator[Job]:
    """The briefings, a few at once."""
    paths = [path for path in briefings.files(docs) if not briefings.is_kept(briefings.key_of(path, site_url))]
    for start in range(0, len(paths), BRIEFINGS_AT_ONCE):
        yield partial(make_briefings, paths[start : start + BRIEFINGS_AT_ONCE], site_url)


def make_briefings(paths: list[Path], site_url: str) -> None:
    """Make and keep some briefings, those that are still missing."""
    for path in paths:
        if not briefings.is_kept(briefings.key_of(path, site_url)):
            briefings.make_and_keep(path, site_url)
