"""Drills on screen and on paper: answers open after one's own, and never print."""

import re

import pytest
from playwright.sync_api import expect

from lpv_site.pages.drill_page import of_difficulty

pytestmark = pytest.mark.browser
LEVELS = ["plain", "subtle", "mixed"]


@pytest.fixture
def page(browser):
    context = browser.new_context(viewport={"width": 360, "height": 740})
    yield context.new_page()
    context.close()


def printed_words(page):
    page.emulate_media(media="print")
    return page.locator("body").inner_text()


@pytest.mark.parametrize("difficulty", LEVELS)
@pytest.mark.parametrize("part", ["", "#card"])
def test_no_answer_printed_even_when_open(page, address, difficulty, part):
    page.goto(f"{address}practice/{difficulty}/{part}")
    answers = page.locator("details.hb-answer")
    assert answers.count() == len(of_difficulty(difficulty))
    expect(page.locator(".hb-try")).to_have_count(answers.count())
    page.evaluate("document.querySelectorAll('details').forEach((f) => { f.open = true; f.hidden = false; })")
    first = answers.first
    assert "wrong" in first.inner_text()
    words = printed_words(page)
    assert "thing is wrong" not in words
    assert "things are wrong" not in words
    assert "Nothing is wrong" not in words
    assert not first.is_visible()
    assert not page.locator(".hb-try:visible, .hb-score:visible").count()
    for drill in of_difficulty(difficulty):
        assert f"Drill {drill.row.number:02d}" in words
        for planted in drill.planted:
            assert planted.words not in words


@pytest.mark.parametrize("difficulty", LEVELS)
def test_sheet_prints_alone_one_page_per_drill(page, address, difficulty):
    page.goto(f"{address}practice/{difficulty}/#card")
    expect(page.locator(".hb-try")).to_have_count(len(of_difficulty(difficulty)))
    pdf = page.pdf(prefer_css_page_size=True)
    count = len(re.findall(rb"/Type\s*/Page\b", pdf))
    assert len(of_difficulty(difficulty)) <= count <= len(of_difficulty(difficulty)) + 1
    words = printed_words(page)
    assert words.split() == page.locator("#card").inner_text().split()
    assert "Caution." in words
    assert words.count("never for flight") >= len(of_difficulty(difficulty))


def test_answer_opens_and_leads_to_section(page, address):
    page.goto(f"{address}practice/plain/#drill-01")
    fold = page.locator("#drill-01").locator("xpath=ancestor::div[@class='hb-drill']/following-sibling::details[1]")
    link = fold.get_by_role("link").first
    own = page.locator("[data-drill=drill-01]")
    assert not link.is_visible()
    assert not fold.is_visible()
    own.get_by_label("channel", exact=True).check()
    own.get_by_role("button", name="Show the answer").click()
    target = link.get_attribute("href").partition("#")[2]
    assert target
    link.click()
    page.locator(f"[id='{target}']").wait_for(state="attached")
    assert page.url.endswith("#" + target)
    assert page.locator(f"[id='{target}']").count() == 1


def test_drills_excluded_from_search(site):
    index = (site / "search" / "search_index.json").read_text("utf-8")
    assert '"practice/"' in index
    assert "practice/plain/" not in index
