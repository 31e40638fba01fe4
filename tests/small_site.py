"""A small site with the real worker and scripts, and a host that fails on demand: for tests of offline copies."""

import functools
import hashlib
import http.server
import shutil
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Page

from lpv_site.build import offline
from lpv_site.build.named import named_by_content
from lpv_site.build.seal import sealed
from lpv_site.build.withdrawn import LIST as WITHDRAWN
from lpv_site.figures import icons
from lpv_site.text import short
from support import ROOT

ASSETS = ("handbook.css", "offline.css", "handbook.js", "keep.js", "offline.js")
BRIEFINGS = ("approaches/zzak-09/", "approaches/zzak-27/", "approaches/zzhc-33/")
PAGES = ("", "verify/", "final/rate/", "reference/offline/", "approaches/", *BRIEFINGS)
PAGE = """<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>{title}</title>
<meta name="hb-built" content="{built}"><link rel="manifest" href="{up}manifest.webmanifest">
{styles}</head><body><main class="md-typeset"><p class="hb-copy">Copy, built {built}</p>
<h1>{title}</h1><p id="words">{words}</p>{box}</main>
{scripts}</body></html>
"""
FILE = "assets/modules.{}.json"  # a file that is named by its content, as those that forms run
PICTURE, BRIEF = "department/picture.png", "department/brief.pdf"
BOX = '<div id="keep" class="hb-keep">Not possible here.</div>'


def build(folder: Path, edition: str, day: int) -> Path:
    """A built site whose every page says the edition, dated by a day of 2026-03."""
    for name in ASSETS:
        (folder / "assets").mkdir(parents=True, exist_ok=True)
        shutil.copy2(ROOT / "docs" / "assets" / name, folder / "assets" / name)
    (folder / "assets" / "handbook.css").write_text(f"/* {edition} */", "utf-8")
    (folder / "search").mkdir(exist_ok=True)
    (folder / "search" / "search_index.json").write_text(f'{{"edition": "{edition}"}}', "utf-8")
    named = [named_by_content(f"assets/{name}", folder) for name in ASSETS]
    (folder / short.LIST).write_text('{"fi-01": "final/rate/#words", "re-01": "reference/none/#top"}', "utf-8")
    (folder / WITHDRAWN).write_text('{"withdrawn": []}\n', "utf-8")
    built = f"2026-03-{day:02}T12:00Z"
    for page in PAGES:
        write_page(folder, page, f"This is {edition}.", built, named)
    icons.write(folder / "assets")
    modules = f'{{"edition": "{edition}"}}'.encode()
    (folder / FILE.format(hashlib.sha256(modules).hexdigest()[:8])).write_bytes(modules)
    (folder / PICTURE).parent.mkdir(exist_ok=True)
    shutil.copy2(folder / "assets" / "icon-192.png", folder / PICTURE)
    (folder / BRIEF).write_bytes(b"%PDF-1.4\n% <html of no page>\n\xe2\xe3\xcf\xd3 " + edition.encode())
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SOURCE_DATE_EPOCH", str(seconds(day)))
        offline.write(folder, "Handbook", "A small one", named, number=edition.removeprefix("edition "))
    return folder


def write_page(folder: Path, page: str, words: str, built: str, named: list[str]) -> None:
    up = "../" * page.count("/")
    styles = "".join(f'<link rel="stylesheet" href="{up}{name}">' for name in named if ".css" in name)
    scripts = "".join(f'<script src="{up}{name}"></script>' for name in named if ".js" in name)
    text = PAGE.format(
        title=page or "start", built=built, up=up, styles=styles, scripts=scripts, words=words,
        box=BOX if page == offline.PAGE else "",
    )
    (folder / page).mkdir(parents=True, exist_ok=True)
    (folder / page / "index.html").write_text(sealed(text, page or "./"), "utf-8")


def seconds(day: int) -> int:
    """Noon of a day of March 2026, in seconds since 1970."""
    return 1772323200 + 43200 + (day - 1) * 86400


class Host:
    """What the server shows and how it fails; a test changes it while the browser looks."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.address = ""
        self.down = False
        self.slow: dict[str, float] = {}
        self.half: set[str] = set()
        self.altered: set[str] = set()
        self.errors: set[str] = set()
        self.answers: dict[str, str] = {}  # end of an address -> one of ANSWERS, or a status
        self.asked: list[str] = []
        self.answered: list[str] = []  # what was asked and no longer waits


PORTAL = b"<!doctype html><html><head><title>Sign in</title></head><body><h1>Sign in</h1></body></html>"
ANSWERS = ("portal", "empty", "half page", "padded", "start", "redirect",
            "elsewhere", "204", "401", "403", "429", "503", "511")


class Handler(http.server.SimpleHTTPRequestHandler):
    protocol_version = "HTTP/1.1"

    def __init__(self, host: Host, *arguments: object) -> None:
        self.host = host
        super().__init__(*arguments, directory=str(host.folder))  # type: ignore[arg-type]

    def log_message(self, *_: object) -> None:
        pass

    def do_GET(self) -> None:
        host, path = self.host, self.path.partition("?")[0]
        if host.down:
            self.close_connection = True
            return
        host.asked.append(path)
        time.sleep(max((wait for end, wait in host.slow.items() if path.endswith(end)), default=0))
        host.answered.append(path)
        self.directory = str(host.folder)
        file = Path(self.translate_path(self.path))
        file = file / "index.html" if file.is_dir() else file
        if answer := next((answer for end, answer in host.answers.items() if path.endswith(end)), ""):
            self.send_wrong(answer, file)
        elif any(path.endswith(end) for end in host.errors):
            self.send_error(503)
        elif not file.is_file():
            self.send_error(404)
        else:
            self.send_file(file, path)

    def send_wrong(self, answer: str, file: Path) -> None:
        """What comes in the place of a file: from a way to sign in, from a network that is full, or half of it."""
        right = file.read_bytes() if file.is_file() else b""
        bodies = {"portal": PORTAL, "empty": b"", "half page": right[: len(right) // 2],
                  "padded": right[: len(right) // 2].ljust(len(right), b"\0"),
                  "start": (self.host.folder / "index.html").read_bytes()}
        ways = {"within": f"{self.path}/", "redirect": "/sign-on", "elsewhere": "http://127.0.0.1:9/sign-on"}
        body = bodies.get(answer, PORTAL)
        self.send_response(302 if answer in ways else int(answer) if answer.isdigit() else 200)
        if answer in ways:
            self.send_header("Location", ways[answer])
        kind = "text/html" if body == PORTAL else self.guess_type(str(file))
        self.send_header("Content-Type", kind)
        self.send_header("Cache-Control", "public, max-age=31536000, immutable")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def send_file(self, file: Path, path: str) -> None:
        body = file.read_bytes()
        if any(path.endswith(end) for end in self.host.altered):
            body = body.replace(b"This", b"That") + b" "
        self.send_response(200)
        self.send_header("Content-Type", self.guess_type(str(file)))
        self.send_header("Content-Length", str(len(body)))
        self.send_header("Last-Modified", "Mon, 01 Jan 2024 00:00:00 GMT")
        self.end_headers()
        if any(path.endswith(end) for end in self.host.half):
            body = body[: len(body) // 2]
            self.close_connection = True
        self.wfile.write(body)


@contextmanager
def hosted(folder: Path) -> Iterator[Host]:
    """The folder on this machine, failing as the host is told to."""
    host = Host(folder)

    class Server(http.server.ThreadingHTTPServer):
        daemon_threads = True
        block_on_close = False

        def handle_error(self, *_: object) -> None:
            """A browser that hangs up is no error."""

    server = Server(("127.0.0.1", 0), functools.partial(Handler, host))
    threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.02}, daemon=True).start()
    host.address = f"http://127.0.0.1:{server.server_port}/"
    try:
        yield host
    finally:
        server.shutdown()
        server.server_close()


def until(page: Page, promised: str) -> None:
    """Wait until an expression of the page comes true; a page's own policy forbids Playwright's way to wait for one."""
    end = time.monotonic() + 30
    while not page.evaluate(promised):
        assert time.monotonic() < end, promised
        page.wait_for_timeout(20)
