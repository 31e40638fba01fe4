"""What a thumb and an eye meet on a phone, in a real Chromium: nothing moves, nothing flashes, all can be pressed."""

import io
import os.path
import re
import time

import pytest
from matplotlib.image import imread

from lpv_site.department.data import example
from small_site import until

pytestmark = pytest.mark.browser
BRIEFING = f"approaches/{example().slug}/"
TYPES = ["", "final/rate/", "modes/loss/", BRIEFING, "debrief/", "reference/offline/"]
LISTEN = """window.shifts = [];
new PerformanceObserver((list) => list.getEntries().forEach((entry) => window.shifts.push(
  [entry.value, ...entry.sources.map((source) => source.node?.outerHTML?.slice(0, 60))],
))).observe({ type: "layout-shift", buffered: true });"""
AT_END = "Math.ceil(scrollY) + innerHeight >= document.documentElement.scrollHeight"
PHONE = {"viewport": {"width": 360, "height": 740}, "service_workers": "block"}
# Height that answers a finger: from the lowest to the highest point around the middle that leads to the element.
REACH = """(elements) => elements.flatMap((element) => {
  element.scrollIntoView({ block: "center", behavior: "instant" });
  const box = element.getBoundingClientRect();
  if (!box.height || getComputedStyle(element).visibility === "hidden") return [];
  const x = box.left + box.width / 2, middle = box.top + box.height / 2;
  const leads = (y) => element.contains(document.elementFromPoint(x, y));
  let up = 0, down = 0;
  while (up < 40 && leads(middle - up - 1)) up += 1;
  while (down < 40 && leads(middle + down + 1)) down += 1;
  const reach = Math.max(box.height, up + down);
  return reach < 43.5 ? [`${element.tagName}.${element.className} "${element.textContent.trim()}" ${reach}`] : [];
})"""
CONTROLS = {
    "": ["a.hb-place", ".hb-problems a", ".hb-more a", ".hb-doors a",
         ".headerlink", ".md-footer__link", ".md-header__button:not([hidden])"],
    "tasks/": [".hb-rows a"],
    "now/lpv-gone/": [".hb-more a"],
    "final/rate/": [".hb-jumps a", "article summary", ".headerlink", "button.hb-code", ".md-footer__link"],
    BRIEFING: ["article summary", ".headerlink", ".hb-print a", ".md-header__button:not([hidden])"],
    "debrief/": ["button.hb-code", "li > a:has(+ .hb-code)"],
    "practice/": ["article td a", "article th a"],
    "teach/initial/": ["article td a"],
    "approaches/": ["article li > a:first-child"],
    "reference/validation/": ["article li > a:first-child"],
    "reference/offline/": [".hb-button:not([hidden])", ".hb-keep label"],
}


@pytest.fixture
def phone_page(browser):
    context = browser.new_context(**PHONE, reduced_motion="reduce")
    yield context.new_page()
    context.close()


def slow(page, pattern, seconds):
    """Scripts arrive after the page was painted, as on a slow network."""

    def wait(route):
        time.sleep(seconds)
        route.continue_()

    page.route(pattern, wait)


@pytest.mark.parametrize("name", TYPES)
def test_no_layout_shift_while_loading_or_reading(phone_page, address, name):
    phone_page.add_init_script(LISTEN)
    slow(phone_page, "**/bundle*.js", 0.3)
    phone_page.goto(address + name)
    if name == "reference/offline/":
        phone_page.get_by_role("button", name="Keep it on this device").wait_for()
    for _ in range(3):
        before = phone_page.evaluate("scrollY")
        phone_page.mouse.wheel(0, 600)
        until(phone_page, f"scrollY !== {before} || {AT_END}")
        phone_page.evaluate("new Promise((painted) => requestAnimationFrame(() => setTimeout(painted)))")
    assert phone_page.evaluate("window.shifts") == []


def test_stale_warning_shifts_nothing(phone_page, address):
    phone_page.add_init_script(LISTEN)
    phone_page.clock.set_fixed_time("2030-01-01T12:00:00Z")
    slow(phone_page, "**/bundle*.js", 0.3)
    phone_page.goto(address + BRIEFING)
    assert phone_page.locator("article > [data-stale]").is_visible()
    assert phone_page.evaluate("window.shifts") == []


SMALLEST = """(figures) => figures.flatMap((figure) => [...figure.querySelectorAll("svg text")].map((text) =>
  parseFloat(getComputedStyle(text).fontSize) * text.ownerSVGElement.getScreenCTM().a))"""


@pytest.mark.parametrize("name", ["", "modes/loss/", "plan/temperature/", "decide/missed/", BRIEFING])
def test_figure_text_twelve_pixels_on_phone(phone_page, address, name):
    phone_page.goto(address + name)
    sizes = phone_page.locator("figure.hb-figure").evaluate_all(SMALLEST)
    assert len(sizes) > 5
    assert min(sizes) >= 11.95


@pytest.mark.parametrize("name", CONTROLS)
def test_touch_targets_high_enough(phone_page, address, name):
    phone_page.goto(address + name)
    for control in CONTROLS[name]:
        controls = phone_page.locator(f"{control}:visible")
        assert controls.count(), control
        assert controls.evaluate_all(REACH) == []


def test_problem_answered_two_taps_from_start(phone_page, address):
    phone_page.goto(address)
    problems = phone_page.locator(".hb-problems a")
    assert problems.count() == 10
    for href in problems.evaluate_all("(all) => all.map((link) => link.href)")[:-1]:
        phone_page.goto(href)
        steps = phone_page.locator(".hb-now li")
        assert steps.count() >= 4, href
        bottom = steps.last.bounding_box()
        assert bottom["y"] + bottom["height"] <= PHONE["viewport"]["height"], href
        assert steps.first.evaluate("(step) => parseFloat(getComputedStyle(step).fontSize)") >= 19.5
        assert phone_page.locator(".hb-more a").count() >= 3, href


def test_problems_section_one_tap_from_title(phone_page, address):
    phone_page.goto(f"{address}modes/loss/")
    jump = phone_page.locator(".hb-jumps a", has_text="Goes wrong")
    assert jump.bounding_box()["y"] < 300
    jump.click()
    top = phone_page.locator("#wrong").bounding_box()["y"]
    assert 0 <= top < PHONE["viewport"]["height"] / 2


NOT_ITS_OWN = """(rows) => rows.filter((row) => {
  row.scrollIntoView({block: "center"});
  const box = row.getBoundingClientRect(), at = (y) => document.elementFromPoint(box.left + 20, y).closest("a, button");
  return box.height < 43.5 || at(box.top + 2) !== row || at(box.bottom - 2) !== row;
}).map((row) => row.textContent)"""


@pytest.mark.parametrize(("name", "rows"), [
    ("tasks/", ".hb-rows li > a"), ("debrief/", "li > a:has(+ .hb-code)"), ("debrief/", "li > button.hb-code"),
    ("approaches/", ".hb-index li > a"),
])
def test_row_answers_over_its_whole_height(phone_page, address, name, rows):
    """At both edges a row leads where its words say, not to its neighbour."""
    phone_page.goto(address + name)
    links = phone_page.locator(f"article {rows}")
    assert links.count() >= 5
    assert links.evaluate_all(NOT_ITS_OWN) == []


def test_menu_suits_thumbs(phone_page, address):
    phone_page.goto(address)
    phone_page.locator(".md-header__button[for=__drawer]").click()
    links = phone_page.locator(".md-nav--primary .md-nav__link:visible")
    assert links.count() > 8
    heights = links.evaluate_all("(all) => all.map((one) => one.getBoundingClientRect().height)")
    assert min(heights) >= 43.5


DARK, LIGHT = "rgb(14, 18, 19)", "rgb(255, 255, 255)"


@pytest.mark.parametrize(("device", "ground"), [("dark", DARK), ("light", LIGHT)])
def test_first_paint_uses_device_colours(browser, address, device, ground):
    """On the first visit, with the theme's own script still on its way, and on a page followed from there."""
    context = browser.new_context(**PHONE, color_scheme=device)
    page = context.new_page()
    page.route("**/bundle*.js", lambda _route: None)  # it never comes
    for name in ("", "tasks/", BRIEFING):
        with page.expect_request("**/bundle*.js"):
            page.goto(address + name, wait_until="commit")
        page.locator("h1").first.wait_for()
        assert page.evaluate("getComputedStyle(document.body).backgroundColor") == ground
        assert page.locator("meta[name=color-scheme]").get_attribute("content") == "light dark"
    assert colour_of_corner(page) == ground
    context.close()


def test_chosen_colours_override_device(browser, address):
    context = browser.new_context(**PHONE, color_scheme="light")
    page = context.new_page()
    page.goto(address)
    for _ in range(2):
        page.locator("form[data-md-component=palette] label:not([hidden])").click()
    assert page.evaluate("document.body.dataset.mdColorScheme") == "slate"
    page.route("**/bundle*.js", lambda _route: None)  # it never comes
    with page.expect_request("**/bundle*.js"):
        page.goto(address + "tasks/", wait_until="commit")
    page.locator("h1").first.wait_for()
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == DARK
    context.close()


def colour_of_corner(page):
    """The colour that is painted below the text of the page, at its left edge."""
    picture = imread(io.BytesIO(page.screenshot()))
    red, green, blue = (round(255 * float(part)) for part in picture[500][2][:3])
    return f"rgb({red}, {green}, {blue})"


def test_no_animation_with_reduced_motion(phone_page, address):
    """The theme's own motion ends with the setting of the device, and ours there is none."""
    phone_page.goto(address + BRIEFING)
    moving = phone_page.evaluate("""() => [...document.querySelectorAll("article *")].filter((element) => {
      const style = getComputedStyle(element);
      return style.animationName !== "none" && style.animationDuration !== "0s";
    }).map((element) => element.className)""")
    assert moving == []
    assert phone_page.evaluate("getComputedStyle(document.documentElement).scrollBehavior") == "auto"


def test_tasks_follow_flight_order(site):
    """The links at the foot lead from planning to the state left behind, one page after the other."""
    place, folders = "plan/", []
    while place and "after-landing" not in folders:
        folder = place.split("/")[0]
        if folder not in folders:
            folders.append(folder)
        text = (site / place / "index.html").read_text("utf-8")
        links = re.findall(r'<a href="([^"#]*)" class="md-footer__link md-footer__link--next"', text)
        place = os.path.normpath(place + links[0]) + "/" if links else ""
    assert folders == ["plan", "verify", "set-up", "intercept", "final", "decide", "modes", "after-landing"]
    assert text.count("md-footer__link--prev") == 1
