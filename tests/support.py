"""What tests and the benchmark share."""

import functools
import gzip
import hashlib
import http.server
import shutil
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TypeVar

Result = TypeVar("Result")
ROOT = Path(__file__).resolve().parents[1]
EXAMPLE = ROOT / "tests" / "department"
KEPT = """async (addresses) => {
  for (const address of addresses) if (!await caches.match(handbookCopies.at(address))) return false;
  return true;
}"""
# Run before a page's own scripts: notes in `window.broken` what the page's policy forbids.
POLICY_LISTENER = """
  window.broken = [];
  document.addEventListener("securitypolicyviolation", (event) => {
    window.broken.push(`${event.violatedDirective} ${event.blockedURI} ${event.sample}`);
  });
"""
BROWSERS = ("chromium", "chromium-browser", "google-chrome")
COMMIT = "0" * 40  # a working tree differs from its commit; the site of the tests names neither, nor its time
TIME = "1796040000"  # 2026-11-30, in seconds since 1970


def calls(function: Callable[..., Result], *arguments: object) -> tuple[int, Result]:
    """How many Python functions a call of this one calls, and what it gives: work that every machine counts alike."""
    count = 0

    def counted(_frame: object, event: str, _of: object) -> None:
        nonlocal count
        count += event == "call"

    before = sys.getprofile()
    sys.setprofile(counted)
    try:
        given = function(*arguments)
    finally:
        sys.setprofile(before)
    return count, given


def copy_of_project(target: Path) -> Path:
    """The tracked and new files of the project in another folder, to build there from nothing."""
    listed = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT, capture_output=True, text=True, check=True,
    ).stdout.splitlines()
    for name in listed:
        if (ROOT / name).is_file():
            (target / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(ROOT / name, target / name)
    return target


def fingerprint(folder: Path) -> dict[Path, str]:
    """The hash of every file of a folder."""
    return {path: hashlib.sha256(path.read_bytes()).hexdigest() for path in folder.rglob("*") if path.is_file()}


def html_pages(site: Path) -> list[str]:
    """Addresses of the files that are pages, without those that only say where one went, or that it was withdrawn."""
    names = (path.relative_to(site).as_posix() for path in site.rglob("*.html"))
    return sorted(name for name in names if not name.startswith("r/") and not _only_leads_on(site / name))


def _only_leads_on(page: Path) -> bool:
    with open(page, encoding="utf-8") as file:
        begins = file.read(60)
    return " data-to=" in begins or " data-withdrawn" in begins


def chromium(whole: bool = False) -> str | None:
    """The browser on this machine, None where there is none.

    First the build without windows, from the same sources, unless it must be `whole`: it opens a page in half the time.
    """
    names = BROWSERS if whole else ("chromium-headless-shell", *BROWSERS)
    return next(filter(None, map(shutil.which, names)), None)


class Quiet(http.server.SimpleHTTPRequestHandler):
    """Serves files without a line of log for each request, and the site's own page for a wrong address."""

    def log_message(self, *_: object) -> None:
        pass

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:
        page = Path(self.directory) / "404.html"
        if code != 404 or not page.is_file():
            super().send_error(code, message, explain)
            return
        body = page.read_bytes()
        self.send_response(404)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)


class Compressing(Quiet):
    """Serves texts compressed with gzip, as a server on the network does, and keeps connections open."""

    protocol_version = "HTTP/1.1"
    TEXTS = ("text/", "application/javascript", "application/json", "application/manifest+json", "image/svg+xml")

    def do_GET(self) -> None:
        path = Path(self.translate_path(self.path))
        path = path / "index.html" if path.is_dir() else path
        if not path.is_file():
            self.send_error(404)
            return
        kind, body = self.guess_type(str(path)), path.read_bytes()
        self.send_response(200)
        self.send_header("Content-Type", f"{kind}; charset=utf-8" if kind.startswith("text/") else kind)
        if kind.startswith(self.TEXTS):
            body = gzip.compress(body, 6)
            self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Length", str(len(body)))
        self.send_header("Cache-Control", "no-cache")
        self.end_headers()
        self.wfile.write(body)


def with_hash(site: Path, place: str) -> str:
    """The address of a file of the site, with the part of its hash that pages name it by."""
    return f"{place}?v={hashlib.sha256((site / place).read_bytes()).hexdigest()[:8]}"


def until_kept(page, addresses: list[str]) -> None:
    """Wait until a browser's page has copies of all these addresses of the site, to go on without network."""
    end = time.monotonic() + 20
    while not page.evaluate(KEPT, addresses):
        assert time.monotonic() < end, f"not all was kept: {addresses}"
        page.wait_for_timeout(100)


@contextmanager
def served(folder: Path, handler: type[Quiet] = Quiet) -> Iterator[str]:
    """A folder served on this machine; gives its address, ending in a slash."""
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(handler, directory=folder))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/"
    finally:
        server.shutdown()
        server.server_close()


def opened_twice(browser, address, place):
    """A page in a context of its own, opened and opened again: now the worker answers and keeps what is asked for."""
    page = browser.new_context().new_page()
    page.root = address
    page.goto(address + place)
    page.evaluate("navigator.serviceWorker.ready")
    page.wait_for_function("() => navigator.serviceWorker.controller !== null")
    page.reload()
    return page
