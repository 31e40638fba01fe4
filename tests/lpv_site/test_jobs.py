"""What a build makes is made once, by processes side by side; everything that fails is named, all of it."""

import multiprocessing
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from lpv.core.errors import DataError, Fault
from lpv_site.briefing import briefings
from lpv_site.build import jobs, store, workers
from lpv_site.build.jobs import Job
from lpv_site.department.data import DOCS
from lpv_site.figures import figure
from support import ROOT

FENCE = '---\ntitle: T\n---\n# T { #top }\n\n```python exec="on" id="x"\n%s\n```\n'


@pytest.fixture(autouse=True)
def kept(tmp_path, monkeypatch):
    monkeypatch.setattr(store, "FOLDER", tmp_path)
    monkeypatch.setenv("HANDBOOK_STORE", str(tmp_path))  # for workers
    return tmp_path / store.MADE


def doubled(number):
    """Work of a job."""
    if number < 0:
        raise DataError([Fault("a.toml", "x", str(number), "more", "Correct it.")])
    return {"twice": 2 * number}, b""


def job(number):
    return Job(f"key{number}", doubled, (number,), f"about {number}")


def test_finished_work_not_repeated(monkeypatch):
    assert jobs.make([job(1), job(2)]) == []
    monkeypatch.setattr(jobs, "do", lambda each: pytest.fail("made again"))
    assert jobs.make([job(1), job(2)]) == []
    assert job(2).done() == {"twice": 4}


def test_job_faults_reported_together():
    faults = jobs.make([job(-1), job(1), job(-2)])
    assert sorted(fault.found for fault in faults) == ["-1", "-2"]
    assert store.is_kept("key1")
    assert not store.is_kept("key-1")


@pytest.mark.parametrize(("markdown", "named"), [
    ("# T { #top }\n\n{{ fact('nope') }}\n", "nope"),
    (FENCE % "1 / 0", "ZeroDivisionError"),
    (FENCE % "from final.nope import show", "final.nope"),
])
def test_failing_page_named(markdown, named):
    (fault,) = jobs.make([jobs.page_job("final/a.md", markdown, DOCS)])
    assert fault.file == "final/a.md"
    assert named in fault.found


def test_unwritable_file_named(monkeypatch, kept):
    def full(key, record, finished):
        raise OSError(28, "No space left on device", str(kept / key))

    monkeypatch.setattr(store, "keep", full)
    (fault,) = jobs.make([job(1)])
    assert fault.file.endswith("key1")
    assert "No space left" in fault.found


def test_fence_runs_and_figures_kept():
    page = jobs.page_job("practice/a.md", FENCE % "from practice.score import show\nprint(show())", DOCS)
    assert jobs.make([page]) == []
    figure.forget()
    made = jobs.page_of(page.done())
    assert "data-drawing" in made.content
    assert "hb-score" in made.whole
    assert made.anchors[-1] == "top"


def test_briefing_restored_as_made():
    path = DOCS / "approaches" / "zzak-rnav-09.toml"
    made = jobs.briefing_job(path, "https://handbook.example/", DOCS)
    assert jobs.make([made]) == []
    briefing = briefings.briefing_of(made.done(), made.key)
    _, content = briefings.make(path, "https://handbook.example/")
    assert store.body(briefing.key) == content
    assert briefing.entry.airport == "ZZAK"
    assert briefing.searched.startswith("<p>Kittiwake Bank (ZZAK), runway 09: LPV, channel 99901")
    assert "reference/facts.md#fact-gate-sink-rate-fpm" in briefing.links
    assert {"top", "card", "print"} <= set(briefing.anchors)
    assert b'aria-label="Code for: https://handbook.example/approaches/zzak-rnav-09/#card"' in content


def test_maker_keeps_markdown_and_pages(monkeypatch):
    (made,) = jobs.maker_jobs("lpv_site.pages.glossary.glossary_pages", DOCS)
    assert jobs.make([made]) == []
    (address,) = made.done()["pages"]
    assert address == "reference/glossary.md"
    records = [store.load(entry.name) for entry in (store.FOLDER / store.MADE).iterdir()]
    made = [record for record in records if "definitions" not in record]  # the others are modules as they were read
    assert sorted("pages" in record for record in made) == [False, True]


def test_workers_match_single_process_in_order():
    numbers = list(range(20))
    assert workers.run_all(abs, numbers, worth=1) == workers.run_all(abs, numbers, worth=1000) == numbers


def killed_in_a_worker(number):
    if multiprocessing.parent_process() is not None:
        os._exit(1)
    return -number


def test_killed_worker_jobs_done_here():
    assert workers.run_all(killed_in_a_worker, [1, 2, 3], worth=1) == [-1, -2, -3]


SLOW = """
import os, subprocess, sys, time
from lpv_site.build import workers
if __name__ == "__main__":
    if len(sys.argv) == 1:
        sys.exit(subprocess.run([sys.executable, __file__, str(os.getpid())]).returncode)
    workers.end_with(int(sys.argv[1]))
    print("begun", flush=True)
    workers.run_all(time.sleep, [60, 60], worth=1)
"""


def test_killed_build_leaves_no_workers(tmp_path):
    (tmp_path / "slow.py").write_text(SLOW)
    run = subprocess.Popen([sys.executable, str(tmp_path / "slow.py")], stdout=subprocess.PIPE, cwd=ROOT,
                           start_new_session=True, env={**os.environ, "PYTHONPATH": str(ROOT / "snippets")})
    assert run.stdout.readline() == b"begun\n"
    end = time.monotonic() + 30
    while len(children := of_session(run.pid)) < 4:
        assert time.monotonic() < end, "no workers came"
        time.sleep(0.1)
    os.kill(run.pid, signal.SIGKILL)
    run.wait()
    run.stdout.close()
    while left := [pid for pid in children if Path(f"/proc/{pid}").exists() and pid != run.pid]:
        assert time.monotonic() < end, f"still there: {left}"
        time.sleep(0.1)


def of_session(leader):
    """Processes of a session that run Python."""
    pids = []
    for path in Path("/proc").glob("[0-9]*/stat"):
        try:
            fields = path.read_text().rpartition(")")[2].split()
        except OSError:
            continue
        if int(fields[3]) == leader and fields[0] != "Z":
            pids.append(int(path.parent.name))
    return pids


def test_valid_data_read_once_faulty_data_every_time(tmp_path, monkeypatch):
    fault = Fault("a.toml", "x", "1", "more", "Correct it.")
    monkeypatch.setattr(jobs.keys, "data_version", lambda docs: "1")
    monkeypatch.setattr(jobs.keys, "version", lambda sources, docs: "1")
    asked = []

    def faults_of(docs):
        asked.append(docs)
        return [fault] if len(asked) < 3 else []

    monkeypatch.setattr(jobs, "data_faults", faults_of)
    outcomes = [jobs.make([jobs.data_job(tmp_path)]) for _ in range(5)]
    assert outcomes == [[fault], [fault], [], [], []]
    assert len(asked) == 3
