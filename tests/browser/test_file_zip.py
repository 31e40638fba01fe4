"""The zip to hand out, unzipped and opened from a file in Chromium: pages, figures, links, search."""

import subprocess
import sys
import zipfile
from html.parser import HTMLParser
from urllib.parse import unquote, urlsplit

import pytest
from playwright.sync_api import expect

from lpv_site.department.data import example
from support import ROOT

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def handbook(tmp_path_factory):
    """The folder that comes out of the zip which the command makes."""
    folder = tmp_path_factory.mktemp("zip")
    run = subprocess.run(
        [sys.executable, "-m", "lpv_site.build.zip", "--output", str(folder / "handbook.zip")],
        cwd=ROOT, capture_output=True, text=True,
    )
    assert run.returncode == 0, run.stdout + run.stderr
    with zipfile.ZipFile(folder / "handbook.zip") as packed:
        packed.extractall(folder)
    return folder / "handbook"


@pytest.fixture
def page(browser):
    """A page that fails the test on a request for anything but a file, a refused request, and an error."""
    context = browser.new_context(viewport={"width": 360, "height": 740})
    page = context.new_page()
    faults = []
    page.on("request", lambda request: faults.append(request.url) if outside(request.url) else None)
    page.on("requestfailed", lambda request: faults.append(request.url) if refused(request) else None)
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on("console", lambda message: faults.append(message.text) if message.type == "error" else None)
    yield page
    context.close()
    assert not faults


def refused(request):
    """Failed, and not because the page was left while it was still loading."""
    return request.failure != "net::ERR_ABORTED"


def outside(url):
    return not url.startswith(("file:", "data:", "blob:", "about:"))


def test_page_figure_link_and_search(page, handbook):
    page.goto((handbook / "index.html").as_uri())
    page.locator("article a[href*='approaches/']").first.click()
    page.locator(f"article a[href*='{example().slug}']").first.click()
    assert page.url.endswith(f"{example().slug}.html")
    figure = page.locator(".hb-figure svg").first
    figure.scroll_into_view_if_needed()
    assert figure.bounding_box()["height"] > 100
    page.locator("label[for=__search]").first.click()
    page.locator(".md-search__input").press_sequentially("channel")
    hit = page.locator(".md-search-result__link").first
    expect(hit).to_be_visible()
    address = hit.evaluate("(link) => link.href")
    assert address.startswith("file:")
    assert address.split("#")[0] != page.url.split("#")[0]
    hit.click()
    page.wait_for_url(lambda url: url == address)
    expect(page.locator("h1").first).to_be_visible()


def test_events_found_without_server(page, handbook):
    page.goto((handbook / "index.html").as_uri())
    page.locator("label[for=__search]").first.click()
    page.locator(".md-search__input").press_sequentially("the QNH was wrong")
    first = page.locator(".md-search-result__item").first
    expect(first.locator("a[href*='final/altimeter.html'][href$='#altimeter-setting-slip']")).to_have_count(1)


def test_copies_page_states_file_is_copy(page, handbook):
    page.goto((handbook / "reference" / "offline.html").as_uri())
    expect(page.locator("#keep")).to_contain_text("Opened from a file, it is on your device already")


class Links(HTMLParser):
    """The addresses that a page asks for or links to."""

    def __init__(self, text):
        super().__init__()
        self.found = set()
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        self.found |= {value for name, value in attributes if name in {"href", "src"} and value and tag != "base"}


def test_every_page_address_is_file_in_folder(handbook):
    missing, pages = set(), list(handbook.rglob("*.html"))
    assert len(pages) > 50
    for page in pages:
        for address in Links(page.read_text("utf-8")).found:
            parts = urlsplit(address)
            local = not parts.scheme and parts.path
            if local and not (page.parent / unquote(parts.path)).is_file():
                missing.add(f"{page.relative_to(handbook)}: {address}")
    assert not missing


def test_nothing_in_zip_needs_server(handbook):
    names = {path.relative_to(handbook).as_posix() for path in handbook.rglob("*")}
    assert names.isdisjoint({"sw.js", "manifest.webmanifest", "offline", "search/search_index.json", "sitemap.xml"})
    assert not [name for name in names if name.endswith(".map")]
