"""Every kind of page on paper, in a real Chromium: nothing cut, the caution on it; every card on one page."""

import re
from dataclasses import replace
from functools import partial

import pytest
from playwright.sync_api import Route, expect

from lpv.crosscheck.cycle import compare_folders
from lpv_site.department.data import example
from lpv_site.figures.qr import with_code
from lpv_site.pages import cycle_page
from support import ROOT

pytestmark = pytest.mark.browser
SITE_URL = "https://handbook.department.example/approaches-and-more/"
# One of each kind, with the most pages of A4 that it may take.
KINDS = {
    "": 1,
    "tasks/": 3,
    "plan/": 4,
    "verify/path/": 5,
    "final/rate/": 7,
    "modes/loss/": 5,
    "modes/scenario-normal/": 6,
    "modes/scenarios/": 5,
    f"approaches/{example().slug}/": 6,
    "approaches/": 2,
    "plan/zzhc-rnav-33-cold-sheet/": 5,
    "aircraft/large-jet/": 9,
    "debrief/": 12,
    "practice/plain/": 14,
    "reference/facts/": 40,
    "reference/cautions/": 2,
    "reference/validation-modes/": 4,
}
# Width inside the margins that Chromium takes by default, in px of 1/96 inch.
WIDTHS = {"A4": 718, "A5": 484}
CUT = """() => {
  const wide = (element) => {
    const box = element.getBoundingClientRect();
    if (box.width <= 1 || box.height <= 1) return false;  // before its style, which costs most where nothing is shown
    const scrolls = getComputedStyle(element).overflowX !== "visible" && element.scrollWidth > element.clientWidth + 1;
    return box.right > innerWidth + 1 || box.left < -1 || scrolls;
  };
  return [...document.querySelectorAll("article *")].filter((element) => !element.closest("svg *") && wide(element))
    .map((element) => `${element.tagName}.${element.className} ${element.textContent.trim().slice(0, 40)}`);
}"""
NOT_ON_PAPER = (
    ".md-header", ".md-footer", ".md-sidebar", ".headerlink", ".md-top", ".hb-print", "details .highlight",
)
A5 = {"prefer_css_page_size": True}
HALF_LETTER = {"width": "140mm", "height": "216mm"}


@pytest.fixture
def page(browser):
    context = browser.new_context(viewport={"width": 718, "height": 900}, service_workers="block")
    page = context.new_page()
    page.emulate_media(media="print")
    yield page
    context.close()


def pages_in(pdf):
    return len(re.findall(rb"/Type\s*/Page\b", pdf))


@pytest.mark.parametrize("name", KINDS)
def test_nothing_cut_and_caution_printed(page, address, name):
    for paper, width in WIDTHS.items():
        page.set_viewport_size({"width": width, "height": 900})
        page.goto(address + name)
        assert page.evaluate(CUT) == [], paper
    assert page.locator("aside.hb-caution").is_visible()
    assert "never primary navigation" in page.locator("aside.hb-caution").inner_text()
    for unwanted in NOT_ON_PAPER:
        assert page.locator(f"{unwanted}:visible").count() == 0, unwanted
    assert 1 <= pages_in(page.pdf(format="A4")) <= KINDS[name]


def cards(site):
    """Pages with a card that fits one page; sheets of drills may take more."""
    return sorted(
        path.relative_to(site).parent.as_posix() + "/" for path in site.rglob("index.html")
        if re.search(r'<section\b[^>]*\bclass="hb-card"', path.read_text("utf-8"))
    )


def test_every_card_prints_on_one_page_with_code(page, site, address):
    """As published, with the code of its address; A5 and half letter, black on white, nothing beside it."""
    addresses, faults = cards(site), []
    assert {"set-up/", "after-landing/", f"approaches/{example().slug}/"} <= set(addresses)
    for name in addresses:
        text = (site / name / "index.html").read_text("utf-8")
        published = with_code(text, SITE_URL, name.removesuffix("/") + ".md")
        assert published != text
        page.route(address + name, partial(Route.fulfill, body=published, content_type="text/html"))
        page.set_viewport_size({"width": 484, "height": 740})
        page.goto(f"{address}{name}#card")
        count = [pages_in(page.pdf(**paper)) for paper in (A5, HALF_LETTER)]
        words, card = page.locator("body").inner_text().split(), page.locator(".hb-card").inner_text().split()
        box = page.locator(".hb-card-code svg").bounding_box()
        colours = page.evaluate("""[...new Set([...document.querySelectorAll(".hb-card, .hb-card *")].map((element) => {
          const style = getComputedStyle(element); return style.color + style.backgroundColor; }))]""")
        right = {
            "pages": count == [1, 1], "only the card": words == card, "caution": "Caution." in card,
            "day of the build": re.search(r"Built \d{4}-\d\d-\d\d\.", " ".join(card)) is not None,
            "code of 19 mm or more": min(box["width"], box["height"]) >= 72,
            "black on white": colours == ["rgb(0, 0, 0)rgb(255, 255, 255)"],
        }
        faults += [f"{name}: {what} {count}" for what, held in right.items() if not held]
    assert not faults


def test_bulletin_prints_on_one_page_of_either_paper(page, address):
    page.set_viewport_size({"width": 484, "height": 740})
    page.goto(f"{address}approaches/changes/#card")
    assert [pages_in(page.pdf(format=paper)) for paper in ("A4", "Letter")] == [1, 1]
    words = page.locator(".hb-bulletin").inner_text()
    assert "The old one must not be flown" in words
    assert re.search(r"Edition \d{4}-[0-9a-f]{8}\. Built ", words)


def test_long_bulletin_stays_on_page_and_counts_rest(page, site, address):
    """Hundreds of changed approaches, with the words of the demo's and with the longest names there may be."""
    docs = ROOT / "docs" / "approaches"
    comparison = compare_folders(docs / "previous", docs)
    many = comparison.entries * 60
    widest = [replace(entry, airport_name="W" * 80, title="W" * 80) for entry in many]
    text = (site / "approaches" / "changes" / "index.html").read_text("utf-8")
    section = re.compile(r'<section class="hb-card hb-bulletin".*?</section>', re.S)
    page.set_viewport_size({"width": 484, "height": 740})
    for entries in (many, widest):
        bulletin = section.search(cycle_page.build_cycle_page(replace(comparison, entries=entries)))[0]
        shown = bulletin.count('class="hb-card-row"') - 2
        assert f"And {len(entries) - shown} more" in bulletin
        assert shown > 5
        page.route(f"{address}approaches/changes/", partial(
            Route.fulfill, body=section.sub(lambda _, new=bulletin: new, text), content_type="text/html"))
        page.goto("about:blank")
        page.goto(f"{address}approaches/changes/#card")
        assert [pages_in(page.pdf(format=paper)) for paper in ("A4", "Letter")] == [1, 1]


def test_data_card_states_cycle(page, address):
    page.goto(f"{address}approaches/{example().slug}/#card")
    assert f"cycle {example().identity.cycle}" in page.locator(".hb-card").inner_text()


def test_expired_data_warning_printed_first(page, address):
    page.clock.set_fixed_time("2030-01-01T12:00:00Z")
    for place, box in (("", "article"), ("?again#card", ".hb-card")):
        page.goto(f"{address}approaches/{example().slug}/{place}")
        first = page.locator(f"{box} > :first-child").first
        assert first.is_visible()
        assert first.inner_text().startswith("Out of date")


def test_screen_only_controls_not_printed(page, address):
    page.goto(address + "final/rate/")
    folded = page.locator("article details > summary")
    assert folded.count()
    assert page.locator("article details .highlight:visible").count() == 0
    assert page.locator(".hb-figure details:visible").count() == 0


def test_calculator_printed_only_where_reader_opened_it(page, address):
    page.goto(address + "final/rate/")
    forms, fields = page.locator("details.hb-calculator"), page.locator(".hb-field:visible")
    assert forms.count() > 2
    assert page.locator("details.hb-calculator:visible").count() == 0
    page.emulate_media(media="screen")
    page.goto(address + "final/gates/")  # so that the page is loaded anew
    page.goto(address + "final/rate/")
    page.locator("#own-descent-rate > summary").click()
    expect(page.locator("#own-descent-rate .hb-sentence")).to_contain_text("ft/min")
    page.emulate_media(media="print")
    expect(page.locator("details.hb-calculator:visible")).to_have_count(1)
    assert fields.count() == 2
    assert fields.filter(has=page.locator(".hb-source")).count() == 0


def test_briefing_prints_without_agreed_checks_and_block(page, address):
    page.goto(f"{address}approaches/{example().slug}/")
    assert page.locator("#block").count() == page.locator(".hb-agreed").count() == 1
    assert page.locator("#block:visible, #block ~ .highlight:visible, .hb-agreed:visible").count() == 0
    for kept in ("#identity", "#findings", "#fixes", "#minima", "#missed", "#altimeter", "#cold", ".hb-card"):
        assert page.locator(kept).is_visible(), kept


def test_night_theme_prints_dark_on_white(page, address):
    page.emulate_media(media="print", color_scheme="dark")
    page.goto(f"{address}final/rate/")
    assert page.evaluate("document.body.dataset.mdColorScheme") == "slate"
    for words in ("article h2", "article p", ".hb-figure svg text"):
        colour = page.locator(words).first.evaluate("e => getComputedStyle(e).color + getComputedStyle(e).fill")
        parts = [int(part) for rgb in re.findall(r"rgba?\((\d+), (\d+), (\d+)", colour) for part in rgb]
        assert parts, words
        assert max(parts) <= 60, (words, colour)
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
