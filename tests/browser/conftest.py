"""A real Chromium on the built site.  Skipped where there is none, except when CI=true."""

import os

import pytest

from support import chromium, served


@pytest.fixture(scope="session")
def address(site):
    """Address of the built site on this machine, ending in a slash."""
    with served(site) as found:
        yield found


@pytest.fixture(scope="session")
def browser():
    """Debian's Chromium, driven by Playwright."""
    found = chromium()
    if not found:
        if os.environ.get("CI") == "true":
            pytest.fail("CI needs a Chromium: install it in .ci/run")
        pytest.skip("no Chromium on this machine: the browser tests need one (Debian: apt install chromium)")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(
            executable_path=found,
            args=[
                "--no-sandbox",
                "--disable-background-networking",
                "--disable-component-update",
                "--disable-sync",
            ],
        )
        yield opened
        opened.close()


@pytest.fixture
def phone(browser, address):
    """A phone-sized page that fails the test on any request to another host."""
    context = browser.new_context(viewport={"width": 360, "height": 740}, reduced_motion="reduce")
    page = context.new_page()
    foreign = []
    page.on(
        "request", lambda request: foreign.append(request.url) if not local(request.url, address) else None
    )
    yield page
    context.close()
    assert not foreign, "requests to another host"


def local(url, address):
    return url.startswith((address, "data:", "blob:"))
