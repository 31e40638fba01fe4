"""Measure what the budgets are about, print it, and keep the last figures in tests/benchmark.md.

    make bench                      everything
    python tests/bench.py demo      only the parts named: demo, many, pages, lighthouse, modules, import, suite
"""

import gzip
import os
import platform
import re
import subprocess
import sys
import tempfile
import time
import timeit
from collections.abc import Callable, Iterator
from pathlib import Path

import bench_import
import bench_many
from support import ROOT, copy_of_project

RESULT = ROOT / "tests" / "benchmark.md"
Row = tuple[str, str, str]


def build_seconds(project: Path, out: str = "site") -> float:
    """Seconds that a strict build of a copy takes."""
    environment = {**os.environ, "PYTHONPATH": str(project / "snippets"), "SOURCE_DATE_EPOCH": "0"}
    start = time.perf_counter()
    command = [sys.executable, "-m", "lpv_site.build", "--site-dir", str(project / out)]
    run = subprocess.run(command, cwd=project, env=environment, capture_output=True, text=True)
    if run.returncode:
        raise SystemExit(run.stdout + run.stderr)
    return time.perf_counter() - start


def hashes(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def demo() -> Iterator[Row]:
    """Cold and warm build of the demo site; whether two builds are the same."""
    with tempfile.TemporaryDirectory() as folder:
        project = copy_of_project(Path(folder))
        yield "demo site, cold", f"{build_seconds(project, 'first'):.1f} s", "30 s"
        yield "demo site, nothing changed", f"{build_seconds(project, 'second'):.1f} s", ""
        first, second = hashes(project / "first"), hashes(project / "second")
        changed = [name for name in first.keys() | second.keys() if first.get(name) != second.get(name)]
        yield "two builds of the same files", f"{len(changed)} files differ", "0"
        size = sum(map(len, first.values()))
        yield "demo site, size", f"{size / 1e6:.1f} MB in {len(first)} files", ""


def pages() -> Iterator[Row]:
    """Bytes of the first view of a page, everything, gzip; and of its own HTML."""
    with tempfile.TemporaryDirectory() as folder:
        project = copy_of_project(Path(folder))
        build_seconds(project)
        site = project / "site"
        for name in ("index.html", "verify/path/index.html", f"{a_briefing(site)}index.html"):
            own, everything = first_view_bytes(site, name)
            yield f"{name}, own HTML, gzip", f"{own / 1000:.1f} kB", "40 kB"
            yield f"{name}, first view, everything, gzip", f"{everything / 1000:.1f} kB", "150 kB"


def a_briefing(site: Path) -> str:
    """Address of the first approach's page below the site."""
    return sorted((site / "approaches").glob("zz*/index.html"))[0].parent.relative_to(site).as_posix() + "/"


def first_view_bytes(site: Path, name: str) -> tuple[int, int]:
    """Gzip bytes of a page and of all that Chromium asks for to show it."""
    from playwright.sync_api import sync_playwright

    from support import chromium, served

    sizes: dict[str, int] = {}
    with served(site) as address, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium(whole=True), args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": 360, "height": 740})
        page.on("response", lambda response: sizes.update({response.url: len(gzip.compress(response.body()))}))
        page.goto(address + name, wait_until="networkidle")
        browser.close()
    own = next(size for url, size in sizes.items() if url.endswith(name))
    return own, sum(sizes.values())


def lighthouse() -> Iterator[Row]:
    """Scores out of 100 as on a phone: performance, accessibility, best practices, search engines."""
    import lighthouse_scores

    lacking = lighthouse_scores.missing() or lighthouse_scores.install()
    if lacking:
        yield "Lighthouse", f"not run: {lacking}", ""
        return
    with tempfile.TemporaryDirectory() as folder:
        project = copy_of_project(Path(folder))
        build_seconds(project)
        for score in lighthouse_scores.scores(project / "site", ["", "verify/path/", a_briefing(project / "site")]):
            short = "; ".join(audit for audits in score["short"].values() for audit in audits)
            scores = " / ".join(map(str, score["scores"].values()))
            name = "/" + score["address"].split("/", 3)[3]
            yield name, scores + (f" ({short})" if short else ""), "95 / 100 / 100 / 100"


def modules() -> Iterator[Row]:
    """Single calls."""
    from lpv.approach.record import read
    from lpv.crosscheck.check import crosscheck
    from lpv.fas.block import encode
    from lpv.sbas.constellation import baseline, baseline_epoch_gps_s
    from lpv.sbas.error_model import default_error_model
    from lpv.sbas.integrity_fast import span
    from lpv.sbas.masks import Masks
    from lpv.sbas.service import site_of, times

    path = sorted((ROOT / "docs" / "approaches").glob("*.toml"))[0]
    approach = read(path)
    yield "encode a block, remainder included", per_call(lambda: encode(approach.segment)), ""
    yield "read an approach file", per_call(lambda: read(path)), ""
    yield "cross-check of an approach", per_call(lambda: crosscheck(approach)), ""
    day = baseline(), site_of(approach.segment), times(baseline_epoch_gps_s()), Masks(), default_error_model()
    yield "a day of protection levels, 5-minute steps", per_call(lambda: span(*day)), "2 s"


def per_call(call: Callable[[], object]) -> str:
    timer = timeit.Timer(call)
    count, _ = timer.autorange()
    return f"{min(timer.repeat(3, count)) / count * 1e6:,.0f} µs"


def suite() -> Iterator[Row]:
    """The whole test suite without a browser."""
    start = time.perf_counter()
    command = [sys.executable, "-m", "pytest", "-m", "not browser"]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True)
    seconds = time.perf_counter() - start
    yield "test suite without browser", f"{seconds:.0f} s ({run.stdout.strip().splitlines()[-1]})", "120 s"


PARTS = {
    "demo": demo, "many": bench_many.many, "pages": pages, "lighthouse": lighthouse, "modules": modules,
    "import": bench_import.rows, "suite": suite,
}


def main(names: list[str]) -> None:
    """Measure the parts named, or all, and put their figures in the place of the last ones."""
    kept = sections(RESULT.read_text("utf-8")) if RESULT.exists() else {}
    for name in names or list(PARTS):
        lines = []
        for row in PARTS[name]():
            print(" | ".join(row), flush=True)
            lines.append("| " + " | ".join(row) + " |")
        kept[name] = "\n".join(["| what | measured | budget |", "|:---|---:|---:|", *lines])
    machine = f"{os.cpu_count()} cores, Python {platform.python_version()}, {platform.system()} {platform.machine()}"
    parts = [f"## {name}\n\n{kept[name]}\n" for name in PARTS if name in kept]
    RESULT.write_text(f"# Last benchmark\n\n{machine}; `make bench` renews it.\n\n" + "\n".join(parts), "utf-8")


def sections(text: str) -> dict[str, str]:
    """The parts of the last benchmark by name."""
    pieces = re.split(r"^## (.+)\n", text, flags=re.M)
    return {name: body.strip() for name, body in zip(pieces[1::2], pieces[2::2], strict=True)}


if __name__ == "__main__":
    main(sys.argv[1:])
