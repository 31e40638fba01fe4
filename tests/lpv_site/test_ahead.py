"""What is made ahead is what the build asks for, once; what fails ahead fails in the build, with its words."""

import multiprocessing
import os
import shutil

import pytest

from lpv.core.errors import DataError
from lpv_site.briefing import briefings
from lpv_site.build import ahead, build_record, scripts, site, store, workers
from lpv_site.department.data import DOCS
from lpv_site.figures import figure


@pytest.fixture
def kept(tmp_path, monkeypatch):
    """An empty store, and a build of two scripts and one maker, done by this process."""
    monkeypatch.setattr(store, "FOLDER", tmp_path)
    monkeypatch.setattr(ahead, "WORTH_WORKERS", 1000)
    wanted = [path for path in scripts.page_scripts() if path.stem in ("path", "overview")]
    monkeypatch.setattr(scripts, "page_scripts", lambda: wanted)
    monkeypatch.setattr(site, "KEPT", (few,))
    monkeypatch.setattr(briefings, "files", lambda docs: [])
    for known in (scripts.run, build_record.validation):
        known.cache_clear()
    yield wanted
    for known in (scripts.run, build_record.validation):
        known.cache_clear()


def few(docs):
    """A maker of one page with a drawing."""
    return {"a.md": lambda: f"<div>{figure.set_aside('<p>drawn</p>')}</div>"}


def test_what_is_made_once_is_not_made_again(kept, monkeypatch):
    assert len(kept) >= 2
    assert ahead.make_ahead(DOCS, "") == len(kept) + 2
    monkeypatch.setattr(scripts, "_run", lambda path: pytest.fail(f"{path} ran again"))
    monkeypatch.setattr(site, "_finished", lambda makers: pytest.fail("made again"))
    assert ahead.make_ahead(DOCS, "") == 0
    scripts.run.cache_clear()
    assert all(scripts.run(f"{path.parent.name}/{path.stem}").text for path in kept)
    page = site.kept_pages(few, DOCS)["a.md"]()
    assert figure.fill(page) == "<div><p>drawn</p></div>"


def test_a_maker_that_fails_is_left_to_the_build(kept, monkeypatch):
    def faulty(docs):
        raise DataError([])

    monkeypatch.setattr(site, "KEPT", (faulty,))
    ahead.make_ahead(DOCS, "")
    assert ahead.make_ahead(DOCS, "") == 1
    with pytest.raises(DataError):
        site.kept_pages(faulty, DOCS)


def test_missing_briefings_are_made_a_few_at_once(tmp_path, monkeypatch):
    monkeypatch.setattr(briefings, "STORE", tmp_path / "store")
    for number in range(2 * ahead.BRIEFINGS_AT_ONCE + 1):
        shutil.copy(DOCS / "approaches" / "zzak-rnav-09.toml", tmp_path / f"zz-{number:02}.toml")
    monkeypatch.setattr(briefings, "files", lambda docs: sorted(tmp_path.glob("*.toml")))
    monkeypatch.setattr(briefings, "is_kept", lambda key, folder=None: False)
    jobs = list(ahead.briefing_jobs(tmp_path, ""))
    assert [len(job.args[0]) for job in jobs] == [ahead.BRIEFINGS_AT_ONCE, ahead.BRIEFINGS_AT_ONCE, 1]
    assert sorted(path for job in jobs for path in job.args[0]) == briefings.files(tmp_path)


def test_workers_give_what_this_process_gives_in_the_same_order():
    numbers = list(range(20))
    assert workers.each(abs, numbers, worth=1) == workers.each(abs, numbers, worth=1000) == numbers


def killed_in_a_worker(number):
    if multiprocessing.parent_process() is not None:
        os._exit(1)
    return -number


def test_work_of_a_killed_worker_is_done_here():
    assert workers.each(killed_in_a_worker, [1, 2, 3], worth=1) == [-1, -2, -3]


def test_a_worker_forgets_what_was_set_aside(monkeypatch):
    monkeypatch.setattr(figure, "_drawings", {})
    key = figure.set_aside("<p>set aside in a worker</p>")
    remembered = figure.drawings_of(key)
    assert workers._one(figure.drawings_of, key) == remembered
    with pytest.raises(KeyError):
        figure.fill(key)
