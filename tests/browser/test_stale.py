"""Data out of date: said in words, first on page and card, by the device's clock, with and without network."""

import datetime
import re

import pytest
from playwright.sync_api import expect

from lpv.core import airac
from lpv_site.department.data import example
from lpv_site.forms.setup_figures import check_link
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
        for pattern, put in page.hb_rewritten:
            text, count = re.subn(pattern, put, text)
            assert count, pattern
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
    ("day", "warning"),
    [
        (UNTIL, "Out of date: these data ended."),
        (UNTIL + 4000 * DAY, "Out of date: these data ended."),
        (FIRST - DAY, "Not yet in force"),
        (BUILT - DAY, WRONG_CLOCK),
        (datetime.date(1970, 1, 1), WRONG_CLOCK),
    ],
)
def test_warning_first_on_expired_page_and_card(page, address, day, warning):
    at(page, day)
    page.goto(address + PLACE)
    assert first_words(page, "article").startswith(warning)
    assert first_words(page, ".hb-card").startswith(warning)


@pytest.mark.parametrize("day", [FIRST, UNTIL - DAY])
def test_no_warning_while_valid(page, address, day):
    at(page, day)
    page.goto(address + PLACE)
    assert page.locator("[data-stale]").count() == 0
    assert page.locator(".hb-validity").count() == 2


HOUR_MS = 3_600_000


def open_before_the_end(page, address, place):
    """Open a page an hour before its cycle ends, with a clock that the test moves on."""
    page.clock.install(time=datetime.datetime.combine(UNTIL, datetime.time(), datetime.UTC) - DAY / 24)
    page.goto(address + place)
    assert page.locator(".hb-validity").count() > 0
    assert page.locator("[data-stale]").count() == 0


def test_open_page_warns_when_cycle_ends(page, address):
    open_before_the_end(page, address, PLACE)
    page.clock.fast_forward(2 * HOUR_MS)
    for box in ("article", ".hb-card"):
        stale = page.locator(f"{box} > .hb-validity[data-stale]").first
        expect(stale).to_contain_text("Out of date: these data ended.")
    assert page.locator(".hb-long-open").count() == 0
    page.clock.fast_forward(24 * HOUR_MS)
    note = page.locator(".hb-long-open")
    expect(note).to_contain_text(f"Opened on {UNTIL - DAY}, and open since. A correction since then does not show")
    page.clock.fast_forward(2 * HOUR_MS)
    assert (note.count(), page.locator(".hb-warning").count()) == (1, 2), "said once"


@pytest.mark.parametrize("event", ["pageshow", "visibilitychange"])
@pytest.mark.parametrize("online", [True, False])
def test_warns_on_return_to_screen(page, address, event, online):
    at(page, UNTIL - DAY)
    page.goto(address + PLACE)
    assert page.locator("[data-stale]").count() == 0
    at(page, UNTIL)
    page.context.set_offline(not online)
    page.evaluate(f"({{pageshow: window, visibilitychange: document}})['{event}'].dispatchEvent(new Event('{event}'))")
    expect(page.locator("article > [data-stale]").first).to_contain_text("Out of date")


def test_warning_removed_after_clock_correction(page, address):
    at(page, UNTIL)
    page.goto(address + PLACE)
    assert page.locator("[data-stale]").count() == 2
    at(page, FIRST)
    page.evaluate("dispatchEvent(new Event('pageshow'))")
    assert page.locator("[data-stale], .hb-warning").count() == 0


@pytest.mark.parametrize("place", ["approaches/", "approaches/changes/"])
def test_approach_lists_warn_too(page, address, place):
    open_before_the_end(page, address, place)
    page.clock.fast_forward(2 * HOUR_MS)
    expect(page.locator("article > .hb-validity").first).to_contain_text("Out of date: these data ended.")


@pytest.mark.parametrize("place", ["calculate/", "final/rate/"])
def test_forms_warn_only_with_approach_figures(page, address, place):
    open_before_the_end(page, address, place)
    quiet = page.locator(".hb-validity")
    page.locator("details").evaluate_all("all => all.forEach((each) => { each.open = true; })")
    assert not any(one.is_visible() for one in quiet.all())
    page.clock.fast_forward(2 * HOUR_MS)
    for notice in quiet.all():
        expect(notice).to_contain_text("Out of date: these data ended.")
        expect(notice).to_be_visible()


def test_set_up_check_warns_of_chosen_approach(page, address):
    at(page, UNTIL)
    page.goto(address + check_link("set-up/check/", example().slug))
    notice = page.locator(".hb-setup .hb-validity")
    expect(notice).to_contain_text("Out of date: these data ended.")
    expect(page.locator(".hb-setup .hb-sentence")).to_contain_text("Do not fly it")
    assert page.locator(".hb-setup .hb-stop", has_text="Do not use them").count() == 1


@pytest.mark.parametrize("last", ["", "2027-02-29", "24-12-2026", str(FIRST)])
def test_invalid_dates_give_caution(page, address, last):
    rewrite(page, address, r'data-until="[^"]*"', f'data-until="{last}"')
    at(page, FIRST)
    page.goto(address + PLACE)
    assert first_words(page, "article").startswith(CANNOT_TELL)


def test_unreadable_clock_gives_caution(page, address):
    page.add_init_script(BROKEN_CLOCK)
    page.goto(address + PLACE)
    assert first_words(page, "article").startswith(CANNOT_TELL)


def test_warning_prints_with_page_and_card(page, address):
    at(page, UNTIL)
    page.emulate_media(media="print")
    page.goto(address + PLACE)
    assert page.locator("article > .hb-validity").is_visible()
    page.goto(f"{address}{PLACE}#card")
    page.reload()
    assert page.locator(".hb-card > .hb-validity").is_visible()
    assert page.locator("body").inner_text().strip().startswith("Out of date")
    assert len(re.findall(rb"/Type\s*/Page\b", page.pdf(prefer_css_page_size=True))) == 1


def test_offline_copy_warns_too(browser, address):
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
