"""What a pilot types, in a real Chromium: the page that answers is among the first five found."""

import re

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser
FIRST = 5
# Typed words -> the page that answers them, or the page and the place on it.
ANSWERS = {
    "channel": "verify/identity/",
    "localizer": "set-up/localizer/",
    "minus 20": "plan/temperature/",
    "altimeter high": "verify/path/#altimeter-high-at-fix",
    "guidance vanished": "modes/loss/#guidance-vanished",
    "dot": "final/deviation/",
    "cold": "plan/temperature/",
    "missed approach": "decide/missed/",
    "NOTAM": "plan/notices/",
    "remainder": "verify/data-block/",
    "went through the course": "intercept/lateral/#through-the-course",
    "alternate": "plan/alternate/",
    "path from above": "intercept/vertical/",
    "expired": "plan/currency/",
}
LINKS = """(items, first) => items.slice(0, first).map((item) =>
  [...item.querySelectorAll("a")].map((link) => link.href.split("?")[0] + new URL(link.href).hash))"""


@pytest.fixture(scope="module")
def search(browser, address):
    """A page whose search is open; gives the links found for words typed, one list for each page found."""
    context = browser.new_context(
        viewport={"width": 360, "height": 740}, reduced_motion="reduce", service_workers="block")
    page = context.new_page()
    page.set_default_timeout(10_000)
    page.goto(address)
    page.locator("label[for=__search]").first.click()
    box, told = page.locator(".md-search__input"), page.locator(".md-search-result__meta")

    def found(words):
        box.fill("")
        box.press("Backspace")
        expect(told).to_have_text("Type to start searching")
        box.fill(words)
        box.press("Shift")
        expect(told).to_have_text(re.compile("matching document"))
        links = page.locator(".md-search-result__item").evaluate_all(LINKS, FIRST)
        return [[link.removeprefix(address) for link in item] for item in links], told.inner_text()

    yield found
    context.close()


@pytest.mark.parametrize(("words", "answer"), ANSWERS.items(), ids=ANSWERS)
def test_the_answer_is_among_the_first(search, words, answer):
    found, told = search(words)
    flat = [link for item in found for link in item]
    assert answer in flat, f"{told}: {flat}"


@pytest.mark.parametrize(
    ("words", "first"),
    [("99902", "approaches/zzhc-rnav-33/"), ("W09A", "approaches/zzak-rnav-09/"), ("ZZHC", "approaches/zzhc-rnav-33/")],
)
def test_an_approach_is_found_by_what_identifies_it(search, words, first):
    found, _ = search(words)
    assert first in found[0]


def test_what_is_nowhere_finds_nothing(search):
    found, told = search("qqxyzzy")
    assert found == []
    assert told == "No matching documents"


def test_enter_opens_the_first(browser, address):
    page = browser.new_page(service_workers="block")
    page.goto(address)
    page.keyboard.press("/")
    page.keyboard.type("guidance vanished")
    page.locator(".md-search-result__link").first.wait_for()
    page.keyboard.press("Enter")
    page.wait_for_url("**/modes/loss/**")
    page.close()
