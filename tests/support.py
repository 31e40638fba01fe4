"""What tests and the benchmark share."""

import functools
import http.server
import shutil
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


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
