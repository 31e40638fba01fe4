"""The handbook without a pointer: everything is reached in order, seen where it is, opened, and left again."""

import pytest

from lpv_site.department.data import example
from small_site import until

pytestmark = pytest.mark.browser
TYPES = [
    "", "final/rate/", "modes/loss/", f"approaches/{example().slug}/", "debrief/", "practice/", "reference/offline/",
]
MOST = 900
# What has the focus: a number of its own, and whether one sees that it has it.
FOCUSED = """() => {
  const element = document.activeElement;
  if (element === document.body) return null;
  element.dataset.step ??= String((window.steps = (window.steps ?? 0) + 1));
  const seen = element.matches(".md-option") ? element.nextElementSibling : element; // shown by its sign
  const style = getComputedStyle(seen), box = seen.getBoundingClientRect();
  const marked = (style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 1) || style.boxShadow !== "none"
    || element.matches(".md-search__input");
  const top = document.elementFromPoint(Math.min(innerWidth - 1, Math.max(0, box.left + box.width / 2)),
                                        Math.min(innerHeight - 1, Math.max(0, box.top + box.height / 2)));
  return {
    step: element.dataset.step, marked, in_sight: box.bottom > 0 && box.top < innerHeight && box.width > 0,
    covered: !(top && (seen.contains(top) || top.contains(seen))),
    what: `${element.tagName}.${element.className} ${element.textContent.trim().slice(0, 30)}`,
  };
}"""
WANTED = """() => [...document.querySelectorAll("main a[href], main summary, main button, main input, main select")]
  .filter((element) => element.checkVisibility({ visibilityProperty: true }))
  .filter((element) => !element.disabled && element.tabIndex >= 0)
  .filter((element) => element.type !== "radio" || element.checked) // the arrows lead through a group
  .filter((element) => !element.dataset.step).map((element) => element.outerHTML.slice(0, 90))"""


@pytest.fixture
def page(browser):
    context = browser.new_context(
        viewport={"width": 1280, "height": 740}, reduced_motion="reduce", service_workers="block")
    yield context.new_page()
    context.close()


def walked(page):
    """Every element that Tab comes to, until it leaves the page."""
    steps = []
    for _ in range(MOST):
        page.keyboard.press("Tab")
        focused = page.evaluate(FOCUSED)
        if focused is None or (steps and focused["step"] == steps[0]["step"]):
            return steps
        assert not steps or focused["step"] != steps[-1]["step"], f"Tab does not leave {focused['what']}"
        steps.append(focused)
    raise AssertionError("Tab never leaves the page")


@pytest.mark.parametrize("name", TYPES)
def test_tab_reaches_everything_with_visible_focus(page, address, name):
    page.goto(address + name)
    steps = walked(page)
    assert len(steps) > 10
    assert [step["what"] for step in steps if not step["marked"]] == []
    assert [step["what"] for step in steps if not step["in_sight"]] == []
    assert [step["what"] for step in steps if step["covered"]] == []
    assert page.evaluate(WANTED) == []


def test_first_stop_skips_to_content(page, address):
    page.goto(address + "final/rate/")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.matches('.md-skip')")
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.closest('article') !== null")


def test_fold_opens_and_closes(page, address):
    page.goto(address + "final/rate/")
    fold = page.locator("article details:has(> summary)").last
    fold.locator("> summary").focus()
    page.keyboard.press("Enter")
    assert fold.evaluate("(element) => element.open")
    page.keyboard.press("Enter")
    assert not fold.evaluate("(element) => element.open")


def test_only_wide_tables_are_tab_stops(page, address):
    page.set_viewport_size({"width": 360, "height": 740})
    wide = "addEventListener('DOMContentLoaded', () => { document.querySelector('td').style.minWidth = '600px'; })"
    page.add_init_script(wide)
    page.goto(address + "final/rate/", wait_until="load")
    boxes = page.locator(".md-typeset__scrollwrap")
    assert boxes.count() > 1
    assert boxes.last.get_attribute("tabindex") is None
    box = page.get_by_role("region", name="Table, wider than the screen")
    box.focus()
    for _ in range(5):
        page.keyboard.press("ArrowRight")
    until(page, "document.activeElement.scrollLeft > 0")
