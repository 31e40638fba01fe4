"""The policy that each page carries, in a real Chromium: it holds, and nothing that the handbook does breaks it.

That no page breaks it when it opens is tested where every page is opened: `test_pages`.
"""

import re
import shutil

import pytest

from lpv_site.build.hosting import headers
from support import POLICY_LISTENER, html_pages, served

pytestmark = pytest.mark.browser
INLINE = '<script>window.ran = "script"</script><img src="x" onerror="window.ran = \'handler\'">'
STYLED = '<p id="styled" style="position: fixed">x</p>'


@pytest.fixture
def page(browser):
    """A page that notes what its policy forbids; no worker answers for it, so that each request is seen."""
    context = browser.new_context(
        viewport={"width": 360, "height": 740}, reduced_motion="reduce", service_workers="block")
    context.add_init_script(POLICY_LISTENER)
    yield context.new_page()
    context.close()


def broken(page):
    return page.evaluate("window.broken")


def search_for(page, words):
    page.locator("label[for=__search]").first.click()
    page.locator(".md-search__input").press_sequentially(words)
    return page.locator(".md-search-result__link").first


def test_search_colours_and_folds_work_under_policy(page, address):
    page.goto(address + "final/rate/")
    search_for(page, "channel").wait_for()
    page.keyboard.press("Escape")
    page.keyboard.press("Escape")
    scheme = "document.body.dataset.mdColorScheme"
    before = page.evaluate(scheme)
    for _ in range(2):
        page.locator("form[data-md-component=palette] label:not([hidden])").click()
    assert page.evaluate(scheme) != before
    page.locator("article details > summary").first.click()
    assert page.locator("article details[open]").count()
    assert broken(page) == []


@pytest.fixture
def spoilt(site, tmp_path):
    """A page of the site with script, handler and style written into it after the build."""
    shutil.copytree(site / "assets", tmp_path / "assets")
    text = (site / "index.html").read_text("utf-8")
    (tmp_path / "index.html").write_text(text.replace("</h1>", f"</h1>{INLINE}{STYLED}", 1), "utf-8")
    return tmp_path


def test_injected_script_does_not_run(page, spoilt):
    with served(spoilt) as address:
        page.goto(address)
        assert page.locator("#styled").count() == 1
        assert page.evaluate("window.ran") is None
        assert page.evaluate("getComputedStyle(document.querySelector('#styled')).position") == "static"
        assert len(broken(page)) == 3


def test_server_header_allows_same_as_pages(page, site, address):
    sent = headers()["Content-Security-Policy"]
    for name in html_pages(site):
        hashes = re.findall(r"'sha256-[^']+'", (site / name).read_text("utf-8"))
        assert hashes, name
        assert all(each in sent for each in hashes), name
    page.context.route(
        "**/*.html", lambda route: route.fulfill(response=(response := route.fetch()),
                                                 headers=response.headers | {"Content-Security-Policy": sent})
    )
    for name in ("index.html", "tasks/index.html", "final/rate/index.html", "404.html"):
        page.goto(address + name)
        assert broken(page) == [], name
