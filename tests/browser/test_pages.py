"""Every page, in both themes, at phone and desk width: accessible, local, no sideways scrolling."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from support import AXE_RULES, html_pages

pytestmark = pytest.mark.browser
COLOUR_RULES = {"runOnly": ["color-contrast", "link-in-text-block"], "resultTypes": ["violations"]}
SCHEMES = {"light": "default", "dark": "slate"}
WIDTHS = (360, 1280)
PARTS = 6  # so that the workers share them


def axe_faults(axe, page, name, options):
    """What axe finds on a page as it is now, in words."""
    return [
        f"{name}: {violation['id']} ({violation['impact']}) {[node['target'] for node in violation['nodes']][:3]}"
        for violation in axe.run(page, options=options).response["violations"]
    ]


def show(page, scheme):
    """Let the device change to a theme, and the open page follow it."""
    page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
    expect(page.locator("body")).to_have_attribute("data-md-color-scheme", SCHEMES[scheme])


@pytest.mark.parametrize("part", range(PARTS))
@pytest.mark.parametrize("width", WIDTHS)
def test_every_page_is_accessible_and_fits(browser, site, address, width, part):
    """Each page in both themes at both widths.

    All rules in the theme that the page is opened in, which is the other one at the other width; the rules on colour
    once more when the theme has changed, which changes nothing else.
    """
    context = browser.new_context(viewport={"width": width, "height": 740}, reduced_motion="reduce")
    page = context.new_page()
    foreign, errors = [], []
    page.on(
        "request",
        lambda request: foreign.append(request.url) if not request.url.startswith(address) else None,
    )
    page.on("pageerror", lambda error: errors.append(str(error)))
    axe, faults = Axe(), []
    for number, name in enumerate(html_pages(site)[part::PARTS], WIDTHS.index(width)):
        first, second = sorted(SCHEMES, reverse=bool(number % 2))
        page.emulate_media(color_scheme=first, reduced_motion="reduce")
        page.goto(address + name)
        show(page, first)
        if page.evaluate("document.documentElement.scrollWidth > innerWidth"):
            faults.append(f"{name}: scrolls sideways at {width} px")
        faults += axe_faults(axe, page, f"{name}, {first}", AXE_RULES)
        show(page, second)
        faults += axe_faults(axe, page, f"{name}, {second}", COLOUR_RULES)
    context.close()
    assert not faults, "\n".join(faults)
    assert not foreign
    assert not errors


def test_a_fault_of_either_theme_is_found(browser, address):
    """The check above would see a colour that is too pale, and a control without a name."""
    page = browser.new_page(viewport={"width": 360, "height": 740}, reduced_motion="reduce")
    page.goto(f"{address}verify/path/")
    page.evaluate("""() => {
      const box = document.createElement("div");
      box.innerHTML = "<p>Too pale</p><input id=nameless>";
      box.firstChild.style = "color: #888; background: #999";
      document.querySelector("article").prepend(box);
    }""")
    axe = Axe()
    for scheme in SCHEMES:
        show(page, scheme)
        assert ["color-contrast" in fault for fault in axe_faults(axe, page, "page", COLOUR_RULES)] == [True]
        found = axe_faults(axe, page, "page", AXE_RULES)
        assert {"color-contrast", "label"} <= {fault.split()[1] for fault in found}, found
    page.close()
