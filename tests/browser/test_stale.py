"""Data out of date: said in words, first on page and card, by the device's clock, with and without network."""

import datetime
import re

import pytest

from lpv.core import airac
from lpv_site.department.data import example
from small_site import until

pytestmark = pytest.mark.browser
CYCLE = airac.cycle(example().identity.cycle)
FIRST, UNTIL = (datetime.date.fromisoformat(airac.iso(day)) for day in (CYCLE.effective, CYCLE.expiry))
DAY = datetime.timedelta(days=1)
BUILT = FIRST - 30 * DAY
PLACE = f"approaches/{example().slug}/"
CANNOT_TELL = "Check the dates yourself: this device cannot tell"
WRONG_CLOCK = "Check the dates yourself: the clock of this device is wrong"
BROKEN_CLOCK = """globalThis.Date = class extends Date {
  constructor(...given) { super(...(given.length ? given : [NaN])); }
};"""


@pytest.fixture
def page(browser, address):
    """A phone on which the briefing opens as if it had been built thirty days before its cycle began."""
    context = browser.new_context(viewport={"width": 360, "height": 740}, service_workers="block")
    page = context.new_page()
    rewrite(page, address, r'(name="hb-built" content=")[\d-]+', rf"\g<1>{BUILT}")
    yield page
    context.close()


def rewrite(page, address, pattern, replacement):
    """Open the briefing as a build with other words would have made it."""

    def answer(route):
        text = original(page, address)
        for found, put in page.hb_rewritten:
            text, count = re.subn(found, put, text)
            assert count, found
        route.fulfill(body=text, content_type="text/html")

    page.hb_rewritten = [*getattr(page, "hb_rewritten", []), (pattern, replacement)]
    page.route(address + PLACE, answer)


def original(page, address):
    return page.request.get(address + PLACE).text()


def at(page, day):
    page.clock.set_fixed_time(datetime.datetime.combine(day, datetime.time(12), datetime.UTC))


def first_words(page, box):
    return page.locator(f"{box} > :first-child").first.inner_text()


@pytest.mark.parametrize(
    ("day", "said"),
    [
        (UNTIL, "Out of date: these data ended."),
        (UNTIL + 4000 * DAY, "Out of date: these data ended."),
        (FIRST - DAY, "Not yet in force"),
        (BUILT - DAY, WRONG_CLOCK),
        (datetime.date(1970, 1, 1), WRONG_CLOCK),
    ],
)
def test_out_of_its_days_the_warning_stands_first_on_page_and_card(page, address, day, said):
    at(page, day)
    page.goto(address + PLACE)
    assert first_words(page, "article").startswith(said)
    assert first_words(page, ".hb-card").startswith(said)


@pytest.mark.parametrize("day", [FIRST, UNTIL - DAY])
def test_in_its_days_there_is_none(page, address, day):
    at(page, day)
    page.goto(address + PLACE)
    assert page.locator("[data-stale]").count() == 0
    assert page.locator(".hb-validity").count() == 2


@pytest.mark.parametrize("last", ["", "2027-02-29", "24-12-2026", str(FIRST)])
def test_dates_that_are_none_give_the_caution(page, address, last):
    rewrite(page, address, r'data-until="[^"]*"', f'data-until="{last}"')
    at(page, FIRST)
    page.goto(address + PLACE)
    assert first_words(page, "article").startswith(CANNOT_TELL)


def test_a_clock_that_gives_no_time_gives_the_caution(page, address):
    page.add_init_script(BROKEN_CLOCK)
    page.goto(address + PLACE)
    assert first_words(page, "article").startswith(CANNOT_TELL)


def test_the_warning_prints_with_the_page_and_on_the_card_alone(page, address):
    at(page, UNTIL)
    page.emulate_media(media="print")
    page.goto(address + PLACE)
    assert page.locator("article > .hb-validity").is_visible()
    page.goto(f"{address}{PLACE}#card")
    page.reload()
    assert page.locator(".hb-card > .hb-validity").is_visible()
    assert page.locator("body").inner_text().strip().startswith("Out of date")
    assert len(re.findall(rb"/Type\s*/Page\b", page.pdf(prefer_css_page_size=True))) == 1


def test_without_network_the_copy_warns_too(browser, address):
    context = browser.new_context(viewport={"width": 360, "height": 740})
    page = context.new_page()
    page.goto(address + PLACE)
    until(page, "navigator.serviceWorker.controller !== null")
    page.goto(address + PLACE)
    until(page, "caches.match(location.href).then((found) => found !== undefined)")
    at(page, UNTIL + 300 * DAY)
    context.set_offline(True)
    page.goto(address + PLACE)
    assert page.evaluate("document.documentElement.hasAttribute('data-copy')")
    assert first_words(page, "article").startswith("Out of date")
    assert page.locator(".hb-copy").first.is_visible()
    context.close()
