"""What tests and the benchmark share."""

import functools
import http.server
import shutil
import subprocess
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]


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


def chromium() -> str | None:
    """The browser on this machine, None where there is none."""
    return next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)


class Quiet(http.server.SimpleHTTPRequestHandler):
    """Serves files without a line of log for each request."""

    def log_message(self, *_: object) -> None:
        pass


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """A folder served on this machine; gives its address, ending in a slash."""
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Quiet, directory=folder))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/"
    finally:
        server.shutdown()
        server.server_close()
