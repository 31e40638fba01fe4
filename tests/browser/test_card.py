"""The card on paper: alone, on one page of A5 or half letter, black on white, with all that belongs on it."""

import re
from dataclasses import replace

import pytest

from lpv_site.briefing.card import card
from lpv_site.department.data import examples
from lpv_site.figures.figure import fill

pytestmark = pytest.mark.browser
SLUGS = [approach.slug for approach in examples()]
A5 = {"prefer_css_page_size": True}
HALF_LETTER = {"width": "140mm", "height": "216mm"}
A5_POINTS = (420, 595)
FILL = """html => {
  const other = new DOMParser().parseFromString(html, "text/html").querySelector(".hb-card");
  document.querySelector(".hb-card").innerHTML = other.innerHTML;
  document.querySelector(".hb-card-code").append(document.createElement("i"));
}"""


@pytest.fixture(params=["light", "dark"])
def page(browser, request):
    context = browser.new_context(viewport={"width": 360, "height": 740}, color_scheme=request.param)
    yield context.new_page()
    context.close()


def pages_in(pdf):
    return len(re.findall(rb"/Type\s*/Page\b", pdf))


def size_points(pdf):
    return [round(float(number)) for number in re.search(rb"/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]", pdf).groups()]


@pytest.mark.parametrize("slug", SLUGS)
def test_card_address_prints_on_one_page(page, address, slug):
    page.goto(f"{address}approaches/{slug}/#card")
    on_a5 = page.pdf(**A5)
    assert pages_in(on_a5) == 1
    assert size_points(on_a5) == pytest.approx(A5_POINTS, abs=1)
    assert pages_in(page.pdf(**HALF_LETTER)) == 1


def test_whole_briefing_prints_without_card_address(page, address):
    page.goto(f"{address}approaches/{SLUGS[0]}/")
    assert pages_in(page.pdf(format="A4")) > 1


@pytest.mark.parametrize("approach", examples(), ids=SLUGS)
def test_only_card_printed(page, address, approach):
    page.goto(f"{address}approaches/{approach.slug}/#card")
    page.emulate_media(media="print")
    words = page.locator("body").inner_text()
    assert words.split() == page.locator(".hb-card").inner_text().split()
    who = approach.identity
    for expected in (str(who.channel), who.path_id, f"cycle {who.cycle}", "Caution.", "never primary navigation"):
        assert expected in words


def test_card_fits_paper_width(page, address):
    page.set_viewport_size({"width": 469, "height": 740})  # half letter less its margins: 124 mm
    page.goto(f"{address}approaches/{SLUGS[0]}/#card")
    page.emulate_media(media="print")
    assert page.evaluate("document.documentElement.scrollWidth") <= 469


def test_card_black_on_white(page, address):
    page.goto(f"{address}approaches/{SLUGS[0]}/#card")
    page.emulate_media(media="print")
    coloured = page.evaluate("""[...document.querySelectorAll(".hb-card, .hb-card *")].flatMap((element) => {
      const style = getComputedStyle(element);
      return [style.color + " on " + style.backgroundColor, style.borderColor];
    })""")
    assert set(coloured) == {"rgb(0, 0, 0) on rgb(255, 255, 255)", "rgb(0, 0, 0)"}


def test_fullest_card_fits_with_code(page, address):
    approach = examples()[-1]
    chart = approach.chart
    full = replace(
        approach,
        identity=replace(approach.identity, title="Title of a procedure " * 4, airport_name="M" * 40 + " " + "W" * 39),
        chart=replace(
            chart, minima=chart.minima * 3, missed=replace(chart.missed, instruction=("Climb and hold. " * 25)[:400])
        ),
    )
    page.goto(f"{address}approaches/{approach.slug}/#card")
    page.evaluate(FILL, fill(card(full)))
    page.emulate_media(media="print")
    box = page.locator(".hb-card-code").bounding_box()
    assert min(box["width"], box["height"]) > 90  # 24 mm
    assert pages_in(page.pdf(**A5)) == 1
    assert pages_in(page.pdf(**HALF_LETTER)) == 1


def test_link_prints_card(page, address):
    page.add_init_script("window.printed = []; window.print = () => window.printed.push(location.hash)")
    page.goto(f"{address}approaches/{SLUGS[0]}/")
    page.get_by_role("link", name="Print this card").click()
    assert page.evaluate("new Promise((done) => setTimeout(() => done(window.printed)))") == ["#card"]
    assert page.locator(".hb-card:target").count() == 1


def test_card_states_when_data_expired(page, address):
    page.clock.set_fixed_time("2030-01-01T12:00:00Z")
    page.goto(f"{address}approaches/{SLUGS[0]}/#card")
    assert "Out of date" in page.locator(".hb-card").inner_text()
