"""Every page, in both themes, at phone and desk width: accessible, local, no sideways scrolling."""

import pytest
from axe_playwright_python.sync_playwright import Axe

from support import html_pages

pytestmark = pytest.mark.browser
AXE_RULES = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    "resultTypes": ["violations"],
}

PARTS = 4  # so that the workers share them


@pytest.mark.parametrize("part", range(PARTS))
@pytest.mark.parametrize("width", [360, 1280])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_page_is_accessible_and_fits(browser, site, address, scheme, width, part):
    context = browser.new_context(
        viewport={"width": width, "height": 740},
        color_scheme=scheme,
        reduced_motion="reduce",
    )
    page = context.new_page()
    foreign, errors = [], []
    page.on(
        "request",
        lambda request: foreign.append(request.url) if not request.url.startswith(address) else None,
    )
    page.on("pageerror", lambda error: errors.append(str(error)))
    axe, faults = Axe(), []
    for name in html_pages(site)[part::PARTS]:
        page.goto(address + name)
        if page.evaluate("document.documentElement.scrollWidth > innerWidth"):
            faults.append(f"{name}: scrolls sideways at {width} px")
        for violation in axe.run(page, options=AXE_RULES).response["violations"]:
            nodes = [node["target"] for node in violation["nodes"]][:3]
            faults.append(f"{name}: {violation['id']} ({violation['impact']}) {nodes}")
    context.close()
    assert not faults, "\n".join(faults)
    assert not foreign
    assert not errors
