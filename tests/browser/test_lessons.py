"""Lessons in a real Chromium: on a phone, on a projector, on paper."""

import re

import pytest
from playwright.sync_api import expect

from accessible import faults_in_both_themes
from lpv_site.pages.lesson_page import lessons

pytestmark = pytest.mark.browser
TEXT = """[...document.querySelectorAll(".md-content :is(p, li, td, th, summary)")]
  .filter((e) => e.checkVisibility() && e.textContent.trim() && !e.closest(".hb-card, svg"))
  .map((e) => parseFloat(getComputedStyle(e).fontSize))"""
LAST_ROW_PX = 36.0  # a thirtieth of the picture's height


def test_lesson_fits_phone_and_accessible(phone_page):
    page = phone_page
    for where in ("teach/", "teach/recurrent/"):
        page.goto(page.root + where)
        assert not page.evaluate("document.documentElement.scrollWidth > innerWidth")
        assert not faults_in_both_themes(page)


def test_projector_type_kept_on_every_page_until_escape(browser, address):
    context = browser.new_context(viewport={"width": 1920, "height": 1080}, reduced_motion="reduce")
    page = context.new_page()
    page.goto(address + "teach/recurrent/")
    small = min(page.evaluate(TEXT))
    page.get_by_role("button", name="Type for a projector").click()
    for where in ("teach/recurrent/", "final/altimeter/", "modes/loss/"):
        page.goto(address + where)
        expect(page.locator("html[data-projector]")).to_have_count(1)
        sizes = page.evaluate(TEXT)
        assert min(sizes) >= LAST_ROW_PX > small
        assert not page.evaluate("document.documentElement.scrollWidth > innerWidth")
    page.keyboard.press("Escape")
    expect(page.locator("html[data-projector]")).to_have_count(0)
    page.goto(address + "teach/recurrent/")
    assert min(page.evaluate(TEXT)) == small
    context.close()


@pytest.mark.parametrize("lesson", lessons(), ids=lambda lesson: lesson.slug)
def test_sheet_prints_alone(phone_page, lesson):
    page = phone_page
    page.goto(f"{page.root}teach/{lesson.slug}/#card")
    pages = len(re.findall(rb"/Type\s*/Page\b", page.pdf(prefer_css_page_size=True)))
    assert pages <= 2
    page.emulate_media(media="print")
    words = page.locator("body").inner_text()
    assert words.split() == page.locator("#card").inner_text().split()
    assert "Caution." in words
    for each in lesson.objectives:
        assert each.title in words
        for question in each.questions:
            assert question.answer not in words
