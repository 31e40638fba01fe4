"""Every page, in both themes, at phone and desk width: accessible, local, no sideways scrolling, its policy kept."""

import re
from functools import cache

import pytest

from accessible import ALL_RULES, COLOUR_RULES, CONTENT_RULES, OTHER_RULES, SCHEMES, axe_faults, show
from support import POLICY_LISTENER, html_pages

pytestmark = pytest.mark.browser
WIDTHS = (360, 1280)
PARTS = 6  # so that the workers share them


@cache
def differing(site):
    """Pages that between them hold every element with every class and role there is, short pages first.

    Each next one is the page with the most that is new for its length.
    """
    texts = {name: (site / name).read_text("utf-8") for name in html_pages(site)}
    held = {name: elements(text) for name, text in texts.items()}
    seen, chosen = set(), set()
    while held and (best := max(sorted(held), key=lambda name: len(held[name] - seen) / texts[name].count("<"))):
        if held[best] <= seen:
            break
        chosen.add(best)
        seen |= held.pop(best)
    return chosen


def elements(page):
    """Each tag with each of its classes, and with its role."""
    marked = set()
    for tag, rest in re.findall(r"<([a-z][a-z0-9]*)([^>]*)>", page):
        marks = re.search(r'class="([^"]*)"', rest), re.search(r'role="([^"]*)"', rest)
        marked |= {(tag, mark) for each in marks if each for mark in each[1].split()} or {(tag, "")}
    return marked


def scrolls(page, name, width):
    """What is wrong if a page is wider than the window."""
    page.set_viewport_size({"width": width, "height": 740})
    return [f"{name}: scrolls sideways at {width} px"] if page.evaluate(
        "document.documentElement.scrollWidth > innerWidth") else []


def named(name, faults):
    return [f"{name}: {fault}" for fault in faults]


@pytest.mark.parametrize("part", range(PARTS))
def test_every_page_accessible_and_fits(browser, site, address, part):
    """Each page at both widths; on a phone also with every rule that depends on what it says.

    Pages that differ in an element, a class or a role: with every rule there is, those on layout at both widths, those
    on colour in both themes.
    """
    context = browser.new_context(
        viewport={"width": WIDTHS[0], "height": 740}, reduced_motion="reduce", service_workers="block")
    context.add_init_script(POLICY_LISTENER)
    page = context.new_page()
    foreign, errors = [], []
    page.on(
        "request",
        lambda request: foreign.append(request.url) if not request.url.startswith(address) else None,
    )
    page.on("pageerror", lambda error: errors.append(str(error)))
    faults = []
    for number, name in enumerate(html_pages(site)[part::PARTS]):
        first, second = sorted(SCHEMES, reverse=bool(number % 2))
        page.set_viewport_size({"width": WIDTHS[0], "height": 740})
        page.emulate_media(color_scheme=first, reduced_motion="reduce")
        page.goto(address + name)
        show(page, first)
        faults += [f"{name}: {each}" for each in page.evaluate("window.broken")]
        if page.locator('meta[http-equiv="Content-Security-Policy"]').count() != 1:
            faults.append(f"{name}: no policy")
        faults += scrolls(page, name, WIDTHS[0])
        if name not in differing(site):
            faults += named(name, axe_faults(page, CONTENT_RULES)) + scrolls(page, name, WIDTHS[1])
            continue
        faults += named(name, axe_faults(page, OTHER_RULES))
        faults += named(f"{name}, {first}", axe_faults(page, COLOUR_RULES))
        show(page, second)
        faults += named(f"{name}, {second}", axe_faults(page, COLOUR_RULES))
        faults += scrolls(page, name, WIDTHS[1]) + named(f"{name}, wide", axe_faults(page, OTHER_RULES))
    context.close()
    assert not faults, "\n".join(faults)
    assert not foreign
    assert not errors


def test_selected_pages_cover_all_content(site):
    every = set().union(*(elements((site / name).read_text("utf-8")) for name in html_pages(site)))
    assert every == set().union(*(elements((site / name).read_text("utf-8")) for name in differing(site)))
    assert len(differing(site)) < len(html_pages(site))


def test_fault_in_either_theme_detected(browser, address):
    """The check above would see a colour that is too pale, and a control without a name."""
    page = browser.new_page(viewport={"width": 360, "height": 740}, reduced_motion="reduce")
    page.goto(f"{address}verify/path/")
    page.evaluate("""() => {
      const box = document.createElement("div");
      box.innerHTML = "<p>Too pale</p><input id=nameless>";
      box.firstChild.style = "color: #888; background: #999";
      document.querySelector("article").prepend(box);
    }""")
    for scheme in SCHEMES:
        show(page, scheme)
        assert ["color-contrast" in fault for fault in axe_faults(page, COLOUR_RULES)] == [True]
        every = rules_of(axe_faults(page, ALL_RULES))
        assert {"color-contrast", "label"} <= every
        assert rules_of(axe_faults(page, OTHER_RULES)) == every - {"color-contrast"}
        assert "label" in rules_of(axe_faults(page, CONTENT_RULES))
    page.close()


def rules_of(faults):
    return {fault.split()[0] for fault in faults}
