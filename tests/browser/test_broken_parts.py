"""A form one of whose parts came wrong once, a sign-in page or half of it: said in words, and right next time."""

import re

import pytest
from playwright.sync_api import expect

from lpv_site.forms import phone, setup_figures
from small_site import PORTAL

pytestmark = pytest.mark.browser
PARTS = {"runtime": phone.runtime("js"), "wasm": phone.runtime("wasm"), "code": phone.code("calculators")[0]}
BOX = "#own-descent-rate"


@pytest.fixture
def page(browser):
    """A phone without copies: what it is given is what the network gives."""
    context = browser.new_context(viewport={"width": 360, "height": 740}, service_workers="block")
    page = context.new_page()
    page.set_default_timeout(20_000)
    yield page
    context.close()


def wrong(site, part, how):
    """The body that comes in the place of a part."""
    if how == "sign-in page":
        return PORTAL
    whole = (site / part).read_bytes()
    return whole[: len(whole) // 2].ljust(len(whole), b"\0")


@pytest.mark.parametrize("how", ["sign-in page", "half"])
@pytest.mark.parametrize("part", PARTS)
def test_wrong_part_reported_and_right_part_used_next(page, address, site, part, how):
    kind = "text/html" if how == "sign-in page" else "application/octet-stream"
    kind = "text/javascript" if part == "runtime" and how == "half" else kind
    body = wrong(site, PARTS[part], how)
    page.route(address + PARTS[part], lambda route: route.fulfill(body=body, content_type=kind))
    page.goto(f"{address}final/rate/{BOX}")
    status = page.locator(f"{BOX} .hb-state")
    expect(status).to_contain_text("the network does not give them whole")
    assert not re.search("token|JSON|WebAssembly|fetch|import", status.inner_text())
    page.unroute(address + PARTS[part])
    for _ in range(2):  # closed, and opened again
        page.locator(f"{BOX} > summary").click()
    expect(page.locator(f"{BOX} fieldset")).to_be_enabled()
    expect(status).to_have_text("")


@pytest.mark.parametrize("body", [PORTAL, b'[["zzak-'])
def test_broken_approach_list_reported(page, address, body):
    page.route(f"{address}{setup_figures.LIST}*",
               lambda route: route.fulfill(body=body, content_type="application/json"))
    page.goto(f"{address}set-up/check/#{setup_figures.BOX}")
    status = page.locator(".hb-setup .hb-state")
    expect(status).to_contain_text("did not arrive whole")
    assert "token" not in status.inner_text()
