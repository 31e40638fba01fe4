"""The sheet of a recorded flight on paper: alone, on one page of A5 or half letter."""

import re

import pytest

from lpv_site.pages.track_page import recorded

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("slug", [flight.file.slug for flight in recorded()])
def test_sheet_prints_on_one_page(browser, address, slug):
    context = browser.new_context(viewport={"width": 360, "height": 740})
    page = context.new_page()
    page.goto(f"{address}debrief/flights/{slug}/#card")
    for paper in ({"prefer_css_page_size": True}, {"width": "140mm", "height": "216mm"}):
        assert len(re.findall(rb"/Type\s*/Page\b", page.pdf(**paper))) == 1
    assert page.evaluate("document.documentElement.scrollWidth") == 360
    context.close()
