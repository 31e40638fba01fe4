"""Live figures in a real Chromium: the phone's drawings are the build's, byte for byte, and answer to every hand."""

import io
import json
import re
from urllib.parse import quote, urlencode

import pytest
from matplotlib.image import imread
from playwright.sync_api import expect

from accessible import faults_in_both_themes, show
from live_cases import cases
from lpv.figures.run import figure, names, run
from lpv_site.forms.live import begin_with, live_link
from phone_pages import addresses, write_bare
from support import ROOT, html_pages, opened_twice, served, until_kept, with_hash

pytestmark = pytest.mark.browser
CASES = 100
PHONE = {"width": 360, "height": 740}
RUN = """async ([addresses, asked]) => {
  const call = await handbookPython(addresses);
  return asked.map(([name, lines]) => call("lpv.figures.run", "run", name, lines));
}"""
SMALL = """name => [...document.querySelectorAll(`#${name} :is(input, select, button, summary)`)]
  .filter((e) => e.offsetParent && (e.getBoundingClientRect().height < 44 || e.getBoundingClientRect().width < 44))
  .map((e) => e.id || e.className || e.tagName)"""
# Words as the browser sets them: none leaves the drawing, none covers another.  All in pixels of the screen.
WORDS = """(svg) => {
  const of = (e) => e.getBoundingClientRect(), sheet = of(svg), words = [...svg.querySelectorAll("text")];
  const beside = (a, b) => a.right <= b.left + 1 || b.right <= a.left + 1;
  const apart = (a, b) => beside(a, b) || a.bottom <= b.top + 3 || b.bottom <= a.top + 3;
  const out = words.filter((e) => of(e).left < sheet.left - 1 || of(e).right > sheet.right + 1
    || of(e).top < sheet.top - 1 || of(e).bottom > sheet.bottom + 1);
  const over = words.flatMap((a, i) => words.slice(i + 1).filter((b) => !apart(of(a), of(b))).map((b) => [a, b]));
  return [...out, ...over.flat()].map((e) => e.textContent);
}"""
# What of a figure runs past the screen; tables that scroll in a box of their own may.
TOO_WIDE = """(e) => [...e.querySelectorAll("*")].filter((part) => !part.closest(".hb-around, svg"))
  .filter((part) => part.getBoundingClientRect().right > innerWidth + 1).map((part) => part.outerHTML.slice(0, 80))"""
SMALL_WORDS = """(svg) => [...svg.querySelectorAll("text")].filter((e) => parseFloat(getComputedStyle(e).fontSize)
  * svg.getBoundingClientRect().width / svg.viewBox.baseVal.width < 11.99).map((e) => e.textContent)"""


@pytest.fixture(scope="module")
def bare(tmp_path_factory):
    folder = tmp_path_factory.mktemp("bare")
    write_bare(folder, "figures")
    return folder


@pytest.fixture(scope="module")
def pages(site):
    """Figure -> the address of its page."""
    by_figure = {}
    for name in html_pages(site):
        for live in re.findall(r' data-live="([a-z0-9-]+)"', (site / name).read_text("utf-8")):
            by_figure[live] = name.removesuffix("index.html")
    return by_figure


@pytest.mark.parametrize("name", names())
def test_random_settings_drawn_byte_for_byte_alike(browser, bare, name):
    asked = [(name, json.dumps(texts)) for texts in cases(figure(name), CASES)]
    here = [json.loads(run(*each)) for each in asked]
    context = browser.new_context()
    with served(bare) as address:
        page = context.new_page()
        page.goto(address + "below/")
        there = [json.loads(text) for text in page.evaluate(RUN, [addresses("figures"), asked])]
    context.close()
    differ = [(each, a, b) for each, a, b in zip(asked, here, there, strict=True) if a != b]
    assert not differ, f"{len(differ)} of {CASES}, first: {differ[0]}"
    assert len({each["svg"] for each in here}) > CASES // 2


def test_every_figure_on_page(pages):
    assert {*pages} == {*names()}


def opened(page, name):
    """A live figure whose dials can be moved."""
    place = page.locator(f"#{name}")
    box = place.locator("[data-live]")
    if box.get_attribute("open") is None:
        box.locator("summary").first.click()
    expect(box.locator("[name]").first).to_be_enabled(timeout=20_000)
    return place


def drawn(place):
    return place.locator(".hb-drawn").inner_html()


def text_of(place):
    """All that a figure says: drawing, finding, brief finding, table."""
    return [drawn(place), *place.locator(":is(.hb-finding, .hb-brief, .hb-data :is(th, td))").all_text_contents()]


def dial(place, key):
    return place.locator(f"[name={key}]")


@pytest.mark.parametrize("name", names())
def test_opening_figure_changes_nothing_printed_by_build(used_phone, pages, name):
    used_phone.goto(used_phone.root + pages[name])
    place = used_phone.locator(f"#{name}")
    printed = text_of(place)
    assert place.locator(".hb-data tbody tr").count() > 0
    assert text_of(opened(used_phone, name)) == printed
    assert not place.locator(".hb-drawn svg").evaluate(WORDS)
    assert not place.locator(".hb-drawn svg").evaluate(SMALL_WORDS)


@pytest.mark.parametrize("name", names())
def test_keys_move_every_dial_and_are_announced(used_phone, pages, name):
    used_phone.goto(used_phone.root + pages[name])
    place = opened(used_phone, name)
    for field in place.locator("[data-live] details").all():
        field.locator("summary").click()
    before = drawn(place)
    fields = place.locator(".hb-dial [name]:not([type=hidden])").all()
    for field in fields:
        field.focus()
        for key in ("ArrowRight", "ArrowRight", "ArrowLeft"):
            used_phone.keyboard.press(key)
        if field in (fields[0], fields[-1]):  # each is read out once it rests
            label = re.escape(field.evaluate("e => e.labels[0].textContent"))
            expect(place.locator(".hb-told")).to_have_text(re.compile(f"^{label}: "))
            assert place.locator(".hb-told").text_content().endswith(place.locator(".hb-finding").text_content())
    assert drawn(place) != before


def test_steps_reset_and_print(phone_page, pages):
    phone_page.goto(phone_page.root + pages["live-altimeter"])
    place = opened(phone_page, "live-altimeter")
    temperature, before = dial(place, "temperature_c"), text_of(place)
    first = float(temperature.input_value())
    less, more = place.locator(".hb-dial", has=phone_page.locator("[name=temperature_c]")).locator("button").all()
    for _ in range(4):
        less.click()
    more.click()
    expect(place.locator(".hb-value[data-value=temperature_c]")).to_have_text(f"\u2212{3 - first:g}\u202f\u00b0C")
    assert float(temperature.input_value()) == first - 3
    assert temperature.get_attribute("aria-valuetext") == f"\u2212{3 - first:g}\u202f\u00b0C"
    assert text_of(place) != before
    phone_page.emulate_media(media="print")
    expect(place.locator(".hb-set")).to_be_visible()
    expect(place.locator(".hb-set")).to_contain_text(f"\u2212{3 - first:g}\u202f\u00b0C")
    expect(place.locator("form")).to_be_hidden()
    expect(place.locator(".hb-finding")).to_contain_text(f"\u2212{3 - first:g}\u202f\u00b0C")
    phone_page.emulate_media(media="screen")
    place.locator("button[type=reset]").click()
    expect(temperature).to_have_value(f"{first:g}")
    assert text_of(place) == before


def test_link_carries_setting(phone_page, pages):
    phone_page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    phone_page.goto(phone_page.root + pages["live-altimeter"])
    place = opened(phone_page, "live-altimeter")
    dial(place, "temperature_c").fill("-23")
    place.locator(".hb-send").click()
    expect(place.locator(".hb-state")).to_have_text("Link copied.")
    shown, link = text_of(place), phone_page.evaluate("navigator.clipboard.readText()")
    phone_page.goto("about:blank")
    phone_page.goto(link)
    place = opened(phone_page, "live-altimeter")
    assert dial(place, "temperature_c").input_value() == "-23"
    assert text_of(place) == shown
    assert place.evaluate("e => e.getBoundingClientRect().top < innerHeight")


def test_starts_with_last_used_values_and_today(phone_page, pages):
    """The aircraft chosen last; the temperature typed today; a link holds against both."""
    phone_page.goto(phone_page.root + pages["live-energy"])
    place = opened(phone_page, "live-energy")
    aircraft = place.locator("[data-kind=aircraft]")
    first = dial(place, "vref_kt").input_value()
    aircraft.select_option(index=1)
    other, chosen = dial(place, "vref_kt").input_value(), aircraft.locator("option:checked").text_content()
    assert other != first
    phone_page.goto(phone_page.root + "calculate/?own=altimeter")
    typed = phone_page.locator("#own-altimeter [name=temperature_c]")
    expect(typed).to_be_enabled(timeout=20_000)
    typed.fill("-17")
    typed.blur()
    phone_page.goto(phone_page.root + pages["live-energy"])
    place = opened(phone_page, "live-energy")
    expect(place.locator("[data-kind=aircraft] option:checked")).to_have_text(chosen)
    assert dial(place, "vref_kt").input_value() == other
    for name in ("live-altimeter", "live-cold"):
        phone_page.goto(phone_page.root + pages[name])
        assert dial(opened(phone_page, name), "temperature_c").input_value() == "-17"
    linked = live_link("live-altimeter", pages["live-altimeter"], {"approach.glidepath_deg": 3.5})
    phone_page.goto(phone_page.root + linked)
    assert dial(opened(phone_page, "live-altimeter"), "temperature_c").input_value() != "-17"


def test_build_link_carries_setting(phone_page, pages):
    link = live_link("live-altimeter", pages["live-altimeter"], {"approach.glidepath_deg": 3.5})
    phone_page.goto(phone_page.root + link)
    assert dial(opened(phone_page, "live-altimeter"), "gpa_deg").input_value() == "3.5"


HOSTILE = ("<img src=x onerror=alert(1)>", "9" * 5000, "1e1", "\x00\t\r\n", "__import__('os')", "")


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_link_refused_in_words(used_phone, pages, text):
    altimeter = figure("live-altimeter")
    query = f"own=live-altimeter&temperature_c={quote(text)}&form=x&__proto__=x&constructor=x&{quote(text)}=1"
    used_phone.goto(f"{used_phone.root}{pages['live-altimeter']}?{query}")
    place = opened(used_phone, "live-altimeter")
    assert dial(place, "temperature_c").input_value() == begin_with(altimeter)["temperature_c"]
    expect(place.locator("#own-live-altimeter-temperature_c-error")).not_to_be_empty()
    assert place.locator("img, script").count() == 0


def test_approach_sets_dials(phone_page, pages):
    phone_page.goto(phone_page.root + pages["live-altimeter"])
    place = opened(phone_page, "live-altimeter")
    source = place.locator(".hb-source")
    before = text_of(place)
    source.select_option(index=2)
    expect(place.locator(".hb-finding")).not_to_have_text(before[1])
    assert source.evaluate("e => e.selectedIndex") == 2
    dial(place, "tch_ft").evaluate("e => { e.value = 71; e.dispatchEvent(new Event('input', { bubbles: true })); }")
    expect(source.locator("option:checked")).to_have_text("your own figures")


def test_fast_moves_end_with_last_value(phone_page, pages):
    """Many inputs between two pictures of the screen: none is lost, and the last one is what is drawn."""
    phone_page.goto(phone_page.root + pages["live-altimeter"])
    place = opened(phone_page, "live-altimeter")
    dial(place, "temperature_c").evaluate(
        "e => { for (e.value = -40; e.value < -17; e.stepUp()) e.dispatchEvent(new Event('input', { bubbles: true }));"
        " e.dispatchEvent(new Event('input', { bubbles: true })); }"
    )
    expect(place.locator(".hb-value[data-value=temperature_c]")).to_have_text("\u221217\u202f\u00b0C")
    expect(place.locator(".hb-finding")).to_contain_text("\u221217\u202f\u00b0C")


@pytest.fixture
def player(browser, address, pages):
    """A flight that can be played, its dial, and what plays it."""
    context = browser.new_context(viewport=PHONE, reduced_motion="no-preference")
    context.grant_permissions(["clipboard-read", "clipboard-write"])
    page = context.new_page()
    page.goto(address + pages["live-flight"])
    place = opened(page, "live-flight")
    yield place, dial(place, "time_s"), place.locator(".hb-play")
    context.close()


def test_flight_plays_until_stopped(player):
    place, time, play = player
    begun, before = time.input_value(), text_of(place)
    play.press("Enter")
    expect(play).to_have_text("Pause")
    expect(time).not_to_have_value(begun)
    play.press("Enter")
    expect(play).to_have_text("Play")
    stopped = time.input_value()
    assert float(stopped) > float(begun)
    expect(place.locator(".hb-told")).to_have_text(re.compile("^Time: "))  # told once it rests
    assert place.locator(".hb-told").text_content().endswith(place.locator(".hb-finding").text_content())
    assert time.input_value() == stopped
    assert text_of(place) != before


def test_faster_flight_ends_and_restarts(player):
    place, time, play = player
    end = time.get_attribute("max")
    time.fill(str(int(end) - 1))
    place.locator(".hb-speed select").select_option("15")
    play.press("Enter")
    expect(time).to_have_value(end)
    expect(play).to_have_text("Play")
    play.press("Enter")
    expect(time).to_have_value(re.compile("^(15|30|45)$"))
    dial(place, "time_s").fill("100")  # a hand on the dial stops it
    expect(play).to_have_text("Play")


def test_event_steps_and_link(player):
    place, time, _ = player
    before, after = place.locator(".hb-jump").all()
    time.fill("0")
    expect(before).to_be_disabled()
    steps = 0
    while after.is_enabled() and after.get_attribute("data-to"):
        to = after.get_attribute("data-to")
        after.press("Enter")
        expect(time).to_have_value(to)
        expect(after).not_to_have_attribute("data-to", to)  # drawn
        expect(place.locator(".hb-finding")).to_contain_text("Last: ")
        steps += 1
    assert steps >= 8
    to = before.get_attribute("data-to")
    before.press("Enter")
    expect(before).not_to_have_attribute("data-to", to)
    place.locator(".hb-send").click()
    expect(place.locator(".hb-state")).to_have_text("Link copied.")
    shown, link = text_of(place), place.page.evaluate("navigator.clipboard.readText()")
    assert f"time_s={time.input_value()}" in link
    assert "flight=" not in link.partition("?")[2].replace("own=live-flight", "")
    place.page.goto("about:blank")
    place.page.goto(link)
    assert text_of(opened(place.page, "live-flight")) == shown


def test_reduced_motion_steps_from_event_to_event(browser, address, pages):
    context = browser.new_context(viewport=PHONE, reduced_motion="reduce")
    page = context.new_page()
    page.goto(address + pages["live-flight"])
    place = opened(page, "live-flight")
    expect(place.locator(".hb-play")).to_be_hidden()
    expect(place.locator(".hb-still")).to_be_visible()
    begun = dial(place, "time_s").input_value()
    place.locator(".hb-jump").last.click()
    expect(dial(place, "time_s")).not_to_have_value(begun)
    context.close()


@pytest.mark.parametrize("name", names())
def test_open_figure_accessible_and_fits_with_doubled_text(used_phone, pages, name):
    """200 % text: what the browser's own setting does is a font of twice the size."""
    page = used_phone
    page.goto(page.root + pages[name])
    place = opened(page, name)
    for group in place.locator("details").all():
        group.evaluate("e => { e.open = true; }")
    assert not page.evaluate("document.documentElement.scrollWidth > innerWidth")
    assert not faults_in_both_themes(page, f"#{name}")
    assert not page.evaluate(SMALL, name)
    for scheme in ("dark", "light"):
        show(page, scheme)
        ground, drawn_share = painted(place.locator(".hb-drawn svg"))
        assert (ground > 0.85) if scheme == "light" else (ground < 0.25)
        assert 0.01 < drawn_share < 0.6
    for group in place.locator("details details").all():
        group.evaluate("e => { e.open = false; }")
    page.evaluate("document.documentElement.style.fontSize = '250%'")  # the theme's is 125 %
    assert not place.evaluate(TOO_WIDE)
    assert place.locator(".hb-view").evaluate("e => e.getBoundingClientRect().height") < PHONE["height"]
    assert not place.locator(".hb-drawn svg").evaluate(WORDS)


def painted(drawing):
    """How bright the ground of a drawing is painted, 0 to 1, and which share of it stands out from that."""
    picture = imread(io.BytesIO(drawing.screenshot()))[..., :3].mean(axis=2)
    ground = float(picture[2][2])
    return ground, float((abs(picture - ground) > 0.15).mean())


@pytest.mark.parametrize("name", names())
def test_full_screen_for_class(used_phone, pages, name):
    page = used_phone
    page.set_viewport_size({"width": 1920, "height": 1080})
    page.goto(page.root + pages[name])
    place = opened(page, name)
    place.locator(".hb-wide-screen").click()
    expect(place).to_have_class(re.compile("hb-wide"))
    box = place.bounding_box()
    assert (box["width"], box["height"]) == (1920, 1080)
    svg = place.locator(".hb-drawn svg")
    assert svg.bounding_box()["height"] > 700
    assert not svg.evaluate(WORDS)
    brief = place.locator(".hb-brief")
    assert float(brief.evaluate("e => parseFloat(getComputedStyle(e).fontSize)")) >= 40
    for part in (brief, place.locator(".hb-finding"), place.locator(".hb-wide-screen")):
        area = part.bounding_box()
        assert area["y"] >= 0
        assert area["y"] + area["height"] <= 1080
        assert area["x"] + area["width"] <= 1920
    page.evaluate("document.documentElement.dataset.projector = 'on'")
    assert place.locator(".hb-drawn").bounding_box()["width"] > 1920 / 2  # in a lesson's large type too
    page.keyboard.press("Escape")
    page.evaluate("document.fullscreenElement && document.exitFullscreen()")
    expect(place).not_to_have_class(re.compile("hb-wide"))


def test_figure_complete_and_explained_without_scripts(browser, address, pages):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address + pages["live-altimeter"])
    place = page.locator("#live-altimeter")
    expect(place.locator(".hb-drawn svg")).to_be_visible()
    expect(place.locator(".hb-finding")).to_be_visible()
    place.locator(".hb-data summary").click()
    expect(place.locator(".hb-data td").first).to_be_visible()
    place.locator("[data-live] > summary").click()
    expect(place.locator(".hb-state")).to_contain_text("JavaScript and WebAssembly")
    expect(dial(place, "temperature_c")).to_be_disabled()
    context.close()


def test_figure_stays_and_explained_when_opened_as_file(browser, site, pages):
    context = browser.new_context()
    page = context.new_page()
    page.goto((site / pages["live-altimeter"] / "index.html").as_uri())
    place = page.locator("#live-altimeter")
    before = text_of(place)
    place.locator("[data-live] > summary").click()
    expect(place.locator(".hb-state")).to_contain_text("opened as a file")
    expect(place.locator(".hb-state")).to_contain_text("stays as printed")
    assert text_of(place) == before
    assert dial(place, "temperature_c").is_disabled()
    context.close()


def test_opened_figure_works_offline(browser, address, site, pages):
    page = opened_twice(browser, address, pages["live-altimeter"])
    opened(page, "live-altimeter")
    until_kept(page, [*addresses("figures").values(), with_hash(site, "assets/live.js")])
    page.context.set_offline(True)
    page.reload()
    place = opened(page, "live-altimeter")
    before = drawn(place)
    dial(place, "temperature_c").fill("-31")
    expect(place.locator(".hb-finding")).to_contain_text("\u221231\u202f\u00b0C")
    assert drawn(place) != before
    page.context.close()


def test_works_in_folder_of_host(browser, site, pages, tmp_path):
    (tmp_path / "some").mkdir()
    (tmp_path / "some" / "where").symlink_to(site)
    context = browser.new_context()
    page = context.new_page()
    with served(tmp_path) as address:
        asked = urlencode({"own": "live-altimeter", "temperature_c": -9})
        page.goto(f"{address}some/where/{pages['live-altimeter']}?{asked}")
        assert dial(opened(page, "live-altimeter"), "temperature_c").input_value() == "-9"
    context.close()


@pytest.mark.parametrize("name", ["live-funnel", "live-altimeter"])
def test_redraw_styles_figure_only(browser, used_phone, pages, name):
    """A rule by `:has()` with something below it would have the browser style all rows of the page each time."""
    page = used_phone
    page.goto(page.root + pages[name])
    place = opened(page, name)
    own = place.locator(".hb-view *").count()
    browser.start_tracing(page=page, categories=["devtools.timeline"])
    for _ in range(3):
        place.locator(".hb-dial input[type=range]").first.press("ArrowRight")
        page.evaluate("() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")
    events = json.loads(browser.stop_tracing())["traceEvents"]
    styled = [event["args"].get("elementCount", 0) for event in events if event["name"] == "UpdateLayoutTree"]
    assert max(styled) > 20
    assert max(styled) < own + 60


def test_scripts_pass_only_texts():
    script = (ROOT / "docs" / "assets" / "live.js").read_text("utf-8")
    assert not re.search(r"Math\.|innerHTML|toFixed|parseFloat", script)
