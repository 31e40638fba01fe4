"""Builds with many approaches: what they cost, where it goes, and what other builders take for the same.

Used by tests/bench.py.  A time is that of the clock, with that of the processors in brackets: on a machine that does
other work as well the second is the steadier one.
"""

import gzip
import json
import os
import shutil
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from resource import RUSAGE_CHILDREN, getrusage

import bench_others
from generate_approaches import write_approaches
from support import ROOT, copy_of_project

COUNTS = (40, 400, 4000)
BUDGETS = {"cold": "40 s", "nothing changed": "8 s", "one changed": "9 s"}  # of 400
MAX_TIMES_PER_PAGE = 1.2
SEARCH_BYTES = "1 MB"
Row = tuple[str, str, str]


@dataclass
class Built:
    """What a build took: seconds of the clock and of the processors, most memory of a process of each kind."""

    clock_s: float = 0.0
    cpu_s: float = 0.0
    peaks_kb: dict[str, int] = field(default_factory=dict)

    def __str__(self) -> str:
        return f"{self.clock_s:.1f} s ({self.cpu_s:.1f} s)"


def build(project: Path, cold: bool = False, out: str = "site") -> Built:
    """Build a copy strictly, from nothing if cold."""
    if cold:
        shutil.rmtree(project / ".cache", ignore_errors=True)
    environment = {**os.environ, "PYTHONPATH": str(project / "snippets"), "SOURCE_DATE_EPOCH": "0"}
    command = [sys.executable, "-m", "lpv_site.build", "--site-dir", str(project / out)]
    return timed(command, project, environment)


def timed(command: list[str], where: Path, environment: dict[str, str] | None = None) -> Built:
    """Run a command to its end and measure it; SystemExit with its words if it fails."""
    start, before = time.perf_counter(), getrusage(RUSAGE_CHILDREN)
    with tempfile.TemporaryFile("w+") as output:
        run = subprocess.Popen(command, cwd=where, env=environment, stdout=output, stderr=output, text=True)
        built, done = Built(), threading.Event()
        watching = threading.Thread(target=watch, args=(run.pid, built.peaks_kb, done))
        watching.start()
        code = run.wait()
        built.clock_s, after = time.perf_counter() - start, getrusage(RUSAGE_CHILDREN)
        done.set()
        watching.join()
        if code:
            output.seek(0)
            raise SystemExit(output.read())
    built.cpu_s = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return built


def watch(process: int, peaks_kb: dict[str, int], done: threading.Event) -> None:
    """Note the most memory that a process and those it started have held, by kind, until done."""
    while not done.wait(0.1):
        for pid in family(process):
            try:
                kind = "worker" if b"multiprocessing" in Path(f"/proc/{pid}/cmdline").read_bytes() else "main"
                status = Path(f"/proc/{pid}/status").read_text("utf-8")
            except OSError:
                continue
            held = [int(line.split()[1]) for line in status.splitlines() if line.startswith("VmHWM")]
            peaks_kb[kind] = max([peaks_kb.get(kind, 0), *held])


def family(process: int) -> list[int]:
    """A process and all that it and its own have started; itself alone where the system does not tell."""
    pids = [process]
    for pid in pids:
        try:
            pids += map(int, Path(f"/proc/{pid}/task/{pid}/children").read_text("utf-8").split())
        except OSError:
            continue
    return pids


def project_of(folder: Path, count: int) -> tuple[Path, list[Path]]:
    """A copy of the project with so many approaches more, and none of a cycle before; and their files."""
    project = copy_of_project(folder / str(count))
    shutil.rmtree(project / "docs" / "approaches" / "previous")
    return project, write_approaches(project / "docs" / "approaches", count, seed=1)


def many() -> Iterator[Row]:
    """Builds with generated approaches at three sizes, and the same by other builders."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        yield "load of the machine before", f"{os.getloadavg()[0]:.1f}", ""
        empty = build(project_of(folder, 0)[0], cold=True)
        yield "no approach but the demo's, cold", str(empty), ""
        per_page: dict[int, Built] = {}
        for count in COUNTS:
            project, written = project_of(folder, count)
            cold = build(project, cold=True)
            yield f"{count} approaches, cold", str(cold), BUDGETS["cold"] if count == 400 else ""
            per_page[count] = cost(cold, empty, count)
            yield from sizes(project, count, cold, per_page[count])
            yield from changed(project, written, count)
            if count == 400:
                yield from where(project)
                yield from bench_others.rows(written, per_page[count], timed, in_ms)
            shutil.rmtree(project)
        yield from compared(per_page)


def cost(built: Built, empty: Built, count: int) -> Built:
    """What one page more costs."""
    return Built((built.clock_s - empty.clock_s) / count, (built.cpu_s - empty.cpu_s) / count)


def in_ms(built: Built) -> str:
    return f"{1000 * built.clock_s:.0f} ms ({1000 * built.cpu_s:.0f} ms)"


def sizes(project: Path, count: int, cold: Built, page: Built) -> Iterator[Row]:
    """Cost of a page, memory, size of the output, of the search index and of the list of approaches."""
    yield f"{count} approaches, per page", in_ms(page), ""
    memory = " / ".join(f"{cold.peaks_kb.get(kind, 0) / 1000:.0f} MB" for kind in ("main", "worker"))
    yield f"{count} approaches, most memory, main process / worker", memory, ""
    files = [path for path in (project / "site").rglob("*") if path.is_file()]
    size = sum(path.stat().st_size for path in files)
    yield f"{count} approaches, output", f"{size / 1e6:.0f} MB in {len(files)} files", ""
    index = gzip.compress((project / "site" / "search" / "search_index.json").read_bytes())
    yield f"{count} approaches, search index, gzip", f"{len(index) / 1e3:.0f} kB", SEARCH_BYTES if count == 4000 else ""
    listed = gzip.compress((project / "site" / "approaches" / "index.html").read_bytes())
    yield f"{count} approaches, their list, own HTML, gzip", f"{len(listed) / 1e3:.1f} kB", "40 kB"


def changed(project: Path, written: list[Path], count: int) -> Iterator[Row]:
    """Builds after nothing, after one approach, and after the one that pages take as their example has changed."""
    for what, path in (("nothing", None), ("one", written[-1]), ("the example", written[0])):
        if path is not None:
            path.write_text(path.read_text("utf-8") + "\n", "utf-8")
        name = f"{what} changed"
        yield f"{count} approaches, {name}", str(build(project)), BUDGETS.get(name, "") if count == 400 else ""


def where(project: Path) -> Iterator[Row]:
    """Where the processors' time of a build goes: of a briefing in a worker, of all pages in the main process."""
    for script, what in (("briefing", "of a briefing, in a worker"), ("build", "of a build, nothing changed")):
        command = [sys.executable, str(ROOT / "tests" / "bench_steps.py"), script]
        environment = {**os.environ, "PYTHONPATH": str(project / "snippets"), "SOURCE_DATE_EPOCH": "0"}
        run = subprocess.run(command, cwd=project, env=environment, capture_output=True, text=True)
        if run.returncode:
            raise SystemExit(run.stdout + run.stderr)
        steps = json.loads(run.stdout.splitlines()[-1])
        yield what, "; ".join(f"{step} {text}" for step, text in steps.items()), ""


def compared(per_page: dict[int, Built]) -> Iterator[Row]:
    """Cost of a page at the largest size against the middle one."""
    few, most = COUNTS[1:]
    clock, cpu = (getattr(per_page[most], kind) / getattr(per_page[few], kind) for kind in ("clock_s", "cpu_s"))
    yield f"cost per page, {most} against {few}", f"{clock:.2f} times ({cpu:.2f})", f"{MAX_TIMES_PER_PAGE} times"
