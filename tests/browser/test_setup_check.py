"""The set-up check in a real Chromium: its findings are those of `lpv setup`, to the last character."""

import json
import re
import shutil
from urllib.parse import quote, urlencode

import pytest
from playwright.sync_api import expect

from accessible import faults_in_both_themes
from lpv.core.findings import by_severity, verdict
from lpv.files.json_form import as_text, to_json
from lpv.setup import file as setup_file
from lpv.setup.form import FINDING_FIELDS, validity
from lpv_site.build.policy import policy
from lpv_site.forms import phone, setup_figures
from lpv_site.forms.setup_figures import check_link
from lpv_site.forms.setup_form import ANY, BOX, entries
from setup_cases import APPROACHES, DOCS, TYPES, cases
from support import ROOT, opened_twice, served, until_kept, with_hash

pytestmark = pytest.mark.browser
CASES = 300
PLACE = "set-up/check/"
RUN = """async ([addresses, asked]) => {
  const call = await handbookPython(addresses);
  return asked.map((texts) => call("lpv.setup.form", "run", ...texts));
}"""
SMALL = """[...document.querySelectorAll(".hb-setup :is(input, select, button, summary)")]
  .filter((e) => e.checkVisibility())
  .filter((e) => e.getBoundingClientRect().height < 44 || e.getBoundingClientRect().width < 44)
  .map((e) => e.id || e.className)"""
GOOD, ERRORS = (setup_file.read(DOCS / "set-up" / f"zzak-09-{name}.toml") for name in ("good", "errors"))


def addresses():
    return {"runtime": phone.runtime("js"), "wasm": phone.runtime("wasm"), "code": phone.code("set-up")[0]}


def expected_answer(setup, of, by):
    """What `lpv setup` finds, as the phone must give it."""
    rows = setup_file.findings(setup, of, by)
    return {
        "errors": {}, "sentence": verdict(rows), "held": validity(of),
        "findings": [{name: getattr(row, name) for name in FINDING_FIELDS} for row in in_order(rows)],
    }


def in_order(rows):
    """A split between the sides first, then the most serious."""
    ordered = by_severity(rows)
    split = [row for row in ordered if row.key == "set-sides" and row.grade == "resolve"]
    return split + [row for row in ordered if row not in split]


def test_random_set_ups_match_command_line(browser, tmp_path):
    """In MicroPython under the policy of the site, without the page around it."""
    shutil.copytree(phone.RUNTIME, tmp_path / "assets" / "micropython")
    shutil.copy2(ROOT / "docs" / "assets" / "python.js", tmp_path / "assets" / "python.js")
    address, text = phone.code("set-up")
    (tmp_path / address).write_text(text, "utf-8")
    (tmp_path / "index.html").write_text(
        f'<!doctype html><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="{policy([])}">'
        '<title>x</title><script src="assets/python.js"></script>', "utf-8")
    asked, expected = [], []
    for setup, of, by in cases(CASES, "browser"):
        asked.append([as_text(to_json(of)), as_text(to_json(by)) if by else "", json.dumps(entries(setup))])
        expected.append(expected_answer(setup, of, by))
    context = browser.new_context()
    with served(tmp_path) as here:
        page = context.new_page()
        page.goto(here)
        answers = page.evaluate(RUN, [addresses(), asked])
    context.close()
    there = [{key: value for key, value in json.loads(answer).items() if key != "about"} for answer in answers]
    differ = [pair for pair in zip(expected, there, strict=True) if pair[0] != pair[1]]
    assert not differ, f"{len(differ)} of {CASES}, first: {differ[0]}"
    grades = [{row["grade"] for row in answer["findings"]} for answer in expected]
    for grade, share in (("stop", 3), ("resolve", 3), ("not compared", 20)):
        assert sum(grade in each for each in grades) > CASES / share
    assert sum(answer["sentence"].startswith("Nothing") for answer in expected) > CASES / 20


@pytest.fixture
def page(phone_page):
    return phone_page


def opened(page, query=""):
    """The box of the form, opened and ready."""
    page.goto(f"{page.root}{PLACE}{query}")
    return ready(page)


def ready(page):
    """The box of the form on the page that is open."""
    box = page.locator(f"#{BOX}")
    if box.get_attribute("open") is None:
        box.locator("summary").first.click()
    expect(box.locator("fieldset:not([disabled])")).to_be_attached(timeout=15_000)
    return box


def link(setup, **changes):
    return "?" + urlencode({"own": "set-up", **entries(setup), **changes})


def sentence(box):
    return box.locator(".hb-sentence")


def shown(box):
    """The findings on the page: grade, head, reason and action of each."""
    return [plain(text) for text in box.locator(".hb-found .hb-row").all_text_contents()]


def plain(text):
    """A text with single ordinary spaces."""
    return " ".join(text.split())


def of_file(setup):
    of = next(approach for approach in APPROACHES if approach.slug == setup.common.approach)
    by = next(type_ for type_ in TYPES if type_.slug == setup.common.aircraft)
    return in_order(setup_file.findings(setup, of, by))


@pytest.mark.parametrize("setup", [GOOD, ERRORS], ids=["good", "errors"])
def test_link_with_entries_shows_file_findings(page, setup):
    box = opened(page, link(setup))
    rows = of_file(setup)
    expect(sentence(box)).to_have_text(verdict(rows))
    differ = [row for row in rows if row.grade not in ("ok", "not compared")]
    on_page = shown(box)
    assert len(on_page) == len(differ)
    for row, text in zip(differ, on_page, strict=True):
        mark = {'stop': '✕', 'resolve': '?', 'note': 'i'}[row.grade]
        assert text.startswith(f"{mark} {row.grade} {plain(row.what)}")
        for part in (row.about, row.chart, row.computed, row.why, row.action):
            assert plain(part) in text
    assert box.locator(".hb-agree li").count() == sum(row.grade == "ok" for row in rows)
    assert box.locator(".hb-open li").count() == sum(row.grade == "not compared" for row in rows)
    assert "cycle 2612" in box.locator(".hb-about").text_content()
    for href in box.locator(".hb-found a").evaluate_all("all => all.map((a) => a.href)"):
        place, _, part = href.partition("#")
        assert f'id="{part}"' in page.request.get(place).text(), href


def test_typed_entries_answered_and_stay_on_phone(page):
    box = opened(page)
    texts = entries(GOOD)
    expect(sentence(box)).to_contain_text("choose an approach")
    assert not [text for text in box.locator(".hb-error").all_text_contents() if text], "empty is no error"
    box.locator("[name=approach]").select_option(texts["approach"])
    expect(box.locator("[name=left_title] option")).to_have_count(5)
    for key, text in texts.items():
        field = box.locator(f"[name={key}]")
        if key != "approach":
            field.select_option(text) if field.evaluate("e => e.tagName") == "SELECT" else field.fill(text)
    box.locator("[name=left_altimeter]").fill("29,87")
    expect(sentence(box)).to_have_text(verdict(of_file(GOOD)))
    box.locator("[name=right_course_deg]").fill("95")
    expect(sentence(box)).to_contain_text("Settle first")
    again = opened(page)
    assert again.locator("[name=right_course_deg]").input_value() == "95"
    assert again.locator("[name=left_altimeter]").input_value() == "29,87"
    assert again.locator("[name=left_title]").input_value() == texts["left_title"]
    expect(again.locator(".hb-state")).to_contain_text("Reset empties it")
    today = page.evaluate("new Date().toISOString().slice(0, 10)")
    assert again.locator("[name=day]").input_value() == today, "the day is not kept"
    again.locator("button[type=reset]").click()
    expect(sentence(again)).to_contain_text("choose an approach")
    assert not shown(again)
    empty = opened(page)
    assert empty.locator("[name=right_course_deg]").input_value() == ""
    assert empty.locator("[name=approach]").input_value() == texts["approach"], "last used, without its entries"


def test_range_errors_marked_at_once(page):
    box = opened(page)
    box.locator("[name=left_course_deg]").fill("400")
    expect(box.locator(f"#{BOX}-left_course_deg-error")).to_contain_text("allowed: 0 to 360")
    assert box.locator("[aria-invalid]").count() == 1
    box.get_by_role("button", name="Check").click()
    expect(box.locator("[name=approach]")).to_be_focused()
    assert not shown(box)


def test_first_entry_answered_and_split_first(page):
    box = opened(page, check_link("", "zzak-rnav-09"))
    expect(box.locator(".hb-open summary")).to_contain_text("Not compared")
    expect(sentence(box)).to_contain_text("Not everything was compared")
    box.locator("[name=left_channel]").fill("12345")
    expect(sentence(box)).to_contain_text("Do not fly it")
    box.locator("[name=right_channel]").fill("99901")
    expect(box.locator(".hb-found .hb-row").first).to_contain_text("left 12345, right 99901")
    assert "Nothing stops" not in sentence(box).text_content()


def test_briefing_link_starts_anew_with_approach(page):
    opened(page, link(ERRORS))
    box = opened(page)
    last = [box.locator(f"[name={name}]").input_value() for name in ("approach", "aircraft", "left_channel")]
    assert last == [ERRORS.common.approach, "", ""], "of a link the approach is remembered, no entry"
    page.evaluate("""localStorage.setItem(
      `handbook ${new URL("../..", location).pathname} last aircraft`, "Light demo jet")""")
    assert opened(page).locator("[name=aircraft]").input_value() == "light-jet", "last used in a calculator"
    page.evaluate("localStorage.clear()")
    opened(page, link(ERRORS)).locator("[name=left_channel]").fill("99901")
    other = next(approach for approach in APPROACHES if approach.slug != ERRORS.common.approach)
    for slug, channel in ((ERRORS.common.approach, "99901"), (other.slug, "")):
        address = check_link("", slug)
        box = opened(page, address)
        assert box.locator("[name=approach]").input_value() == slug
        assert box.locator("[name=left_channel]").input_value() == channel
        assert box.locator("[name=aircraft]").input_value() == ERRORS.common.aircraft
        expect(box.locator("[name=left_title] option", has_text=re.compile("^R")).first).to_be_attached()


def test_briefing_leads_to_form_of_approach(page):
    page.goto(f"{page.root}approaches/{APPROACHES[1].slug}/")
    page.get_by_role("link", name="Check what both sides have set").click()
    box = ready(page)
    assert box.locator("[name=approach]").input_value() == APPROACHES[1].slug


def test_copied_link_gives_same_answer(page):
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    box = opened(page, link(ERRORS))
    expect(sentence(box)).to_contain_text("Do not fly it")
    before = shown(box)
    box.get_by_role("button", name="Copy link").click()
    expect(box.locator(".hb-state")).to_have_text("Link copied.")
    there = page.evaluate("navigator.clipboard.readText()")
    page.evaluate("localStorage.clear()")
    page.goto("about:blank")
    page.goto(there)
    expect(sentence(ready(page))).to_contain_text("Do not fly it")
    assert shown(box) == before


HOSTILE = (
    "<img src=x onerror=alert(1)>", "\"'><script>alert(1)</script>", "9" * 5000, "../../../secret", "\x00\t\r\n",
    "__import__('os')", "١٢٠", "{}", "__proto__", "javascript:alert(1)", "zzak-rnav-09/../x",
)


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_link_changes_only_errors(page, site, text):
    asked = []
    page.on("request", lambda request: asked.append(request.url))
    box = opened(page, link(GOOD, left_channel=text, left_title=text, right_source=text) + f"&{quote(text)}=1&form=x")
    wrong = dict(zip(box.locator(".hb-error").evaluate_all("all => all.map((e) => e.id)"),
                     box.locator(".hb-error").all_text_contents(), strict=True))
    assert {key for key, words in wrong.items() if words} <= {f"{BOX}-left_channel-error"}
    unread = " ".join(box.locator(".hb-open li").all_text_contents())
    for item in ("procedure: ", "channel: ", "guidance source: "):
        assert item in unread, "what cannot be used counts as not read"
    expect(sentence(box)).to_contain_text("Not everything was compared")
    assert box.locator("img, script, iframe").count() == 0
    assert box.locator("[name=right_channel]").input_value() == "99901"
    box = opened(page, link(GOOD, approach=text))
    expect(sentence(box)).to_contain_text("choose an approach")
    assert not shown(box)
    box = opened(page, link(GOOD, aircraft=text))
    expect(box.locator(".hb-about")).to_contain_text("any type")
    figures = [url for url in asked if "set-up.json" in url]
    places = (setup_figures.LIST, setup_figures.address(GOOD.common.approach))
    known = {page.root + with_hash(site, place) for place in places}
    assert set(figures) <= known, "nothing is fetched that a link names"


HELD = (
    ('[["approach", "none"], ["left_channel", "x"], ["entered", "<b>"], ["__proto__", "1"], ["source"], [1, 2]]', 1),
    ('{"approach": 1}', 0), ("null", 0), ("left_channel\tx", 0), ("[null]", 0), ("[", 0),
)


@pytest.mark.parametrize(("held", "errors"), HELD)
def test_broken_storage(page, held, errors):
    page.goto(page.root + PLACE)
    page.evaluate("""(held) => localStorage.setItem(
      `handbook ${new URL("../..", location.href).pathname} calculator set-up`, held)""", held)
    box = opened(page)
    expect(box.locator(".hb-error").filter(has_text="allowed")).to_have_count(errors)
    assert box.locator(".hb-state b").count() == 0


def test_any_type_uses_highest_minimum(page):
    box = opened(page, link(GOOD, aircraft=ANY))
    of = next(approach for approach in APPROACHES if approach.slug == GOOD.common.approach)
    expect(sentence(box)).to_have_text(verdict(setup_file.findings(GOOD, of)))
    expect(box.locator(".hb-about")).to_contain_text("any type")


def test_numeric_keyboard_shown(page):
    box = opened(page)
    kinds = box.locator("input:visible").evaluate_all(
        "all => Object.fromEntries(all.map((e) => [e.name, e.inputMode || e.type]))")
    numbers = {"channel", "tuned", "tuned_2", "course_deg", "altimeter", "minimum_ft", "missed_altitude_ft"}
    assert {f"{side}_{name}" for side in ("left", "right") for name in numbers} <= {
        name for name, kind in kinds.items() if kind == "decimal"}
    assert kinds["cycle"] == "numeric"


def test_form_explains_and_table_answers_without_scripts(browser, address):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address + PLACE)
    page.locator(f"#{BOX} summary").first.click()
    expect(page.locator(f"#{BOX} > .hb-state")).to_contain_text("JavaScript and WebAssembly")
    assert page.locator(f"#{BOX} [name=left_channel]").is_disabled()
    table = page.locator("#by-hand ~ * table, #by-hand ~ table").first
    assert "stop" in table.inner_text()
    assert "localizer" in table.inner_text()
    context.close()


@pytest.mark.parametrize(("hinder", "words"), [
    ("delete window.WebAssembly", "has no WebAssembly"),
    ("window.fetch = () => Promise.reject(new TypeError('no network'))", "does not give them whole"),
])
def test_explains_where_runtime_fails(phone, address, hinder, words):
    phone.add_init_script(hinder)
    phone.goto(address + PLACE)
    phone.locator(f"#{BOX} summary").first.click()
    state = phone.locator(f"#{BOX} > .hb-state")
    expect(state).to_contain_text(words)
    expect(state).to_contain_text("by hand")
    assert phone.locator(f"#{BOX} [name=left_channel]").is_disabled()


def test_explains_when_opened_as_file(browser, site):
    context = browser.new_context()
    page = context.new_page()
    page.goto((site / "set-up" / "check" / "index.html").as_uri())
    page.locator(f"#{BOX} summary").first.click()
    expect(page.locator(f"#{BOX} > .hb-state")).to_contain_text("opened as a file")
    context.close()


def test_works_below_host_root(browser, site, tmp_path):
    (tmp_path / "below").symlink_to(site)
    context = browser.new_context()
    with served(tmp_path) as here:
        page = context.new_page()
        page.root = here + "below/"
        box = opened(page, link(ERRORS))
        expect(sentence(box)).to_have_text(verdict(of_file(ERRORS)))
        hrefs = box.locator(".hb-found a").evaluate_all("all => all.map((a) => a.href)")
        assert hrefs
        assert all(href.startswith(page.root) for href in hrefs)
    context.close()


def test_works_offline_after_first_use(browser, address, site):
    page = opened_twice(browser, address, PLACE)
    opened(page, link(ERRORS))
    fetched = (setup_figures.LIST, setup_figures.address(ERRORS.common.approach))
    needed = [*addresses().values(), *(with_hash(site, place) for place in (*fetched, "assets/setup.js"))]
    until_kept(page, needed)
    page.context.set_offline(True)
    box = opened(page, link(ERRORS))
    expect(sentence(box)).to_have_text(verdict(of_file(ERRORS)))
    other = next(approach.slug for approach in APPROACHES if approach.slug != ERRORS.common.approach)
    box.locator("[name=approach]").select_option(other)
    expect(box.locator(f"#{BOX}-approach-error")).to_contain_text("not on this device")
    assert all("The two sides are set differently" in row for row in shown(box)), "what needs no approach stays"
    page.context.close()


def test_open_form_accessible_and_fits(page):
    box = opened(page, link(ERRORS, left_channel="x"))
    for _ in range(2):
        assert not page.evaluate("document.documentElement.scrollWidth > innerWidth")
        assert not faults_in_both_themes(page, ".hb-setup")
        assert not page.evaluate(SMALL)
        box.locator("[name=left_channel]").fill("99901")
        expect(sentence(box)).to_contain_text("Do not fly it")


def test_thousands_of_approaches_filtered(browser, address):
    context = browser.new_context(service_workers="block")  # a worker's requests cannot be answered here
    page = context.new_page()
    page.root = address
    figures = as_text(to_json(APPROACHES[0]))
    digits = setup_figures.digits(figures)
    rows = [[f"zz-{number}", f"ZZ{number % 99:02d}", f"RNAV (GPS) RWY {number % 36 + 1:02d}", digits]
            for number in range(4000)]
    page.route(f"**/{setup_figures.LIST}?v=*", lambda route: route.fulfill(json=rows))
    page.route("**/approaches/zz-*/set-up.json?v=*", lambda route: route.fulfill(body=figures))
    box = opened(page)
    assert box.locator("[name=approach] option").count() <= 201
    box.get_by_label("Find the approach").fill("zz17 36")
    choices = box.locator("[name=approach] option").all_text_contents()
    assert set(choices[1:]) == {"ZZ17 RNAV (GPS) RWY 36"}
    box.locator("[name=approach]").select_option(index=1)
    expect(box.locator("[name=left_title] option")).not_to_have_count(1)
    box.get_by_label("Find the approach").fill("zz18")
    assert box.locator("[name=approach] option:checked").text_content() == "ZZ17 RNAV (GPS) RWY 36"
    box = opened(page, "?approach=zz-3999")
    assert box.locator("[name=approach]").input_value() == "zz-3999"
    context.close()
