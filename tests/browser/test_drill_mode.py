"""Drills in a real Chromium: one's own answer first, then the right one; the score stays on the device alone."""

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from lpv_site.pages.drill_choices import CHOICES, NOTHING, right_items
from lpv_site.pages.drill_page import drills, of_grade
from support import AXE_RULES, until_kept

pytestmark = pytest.mark.browser
ALL = len(drills())
MIXED = of_grade("mixed")
TWO = next(one for one in MIXED if len(one.planted) == 2)
NONE = next(one for one in MIXED if not one.planted)
PLAIN = of_grade("plain")
SMALL = """[...document.querySelectorAll(".hb-try :is(label, button), .hb-score :is(a, button)")]
  .filter((e) => e.checkVisibility())
  .filter((e) => e.getBoundingClientRect().height < 44 || e.getBoundingClientRect().width < 44)
  .map((e) => e.textContent)"""


@pytest.fixture
def page(phone_page):
    """A phone on the drills."""
    return phone_page


def opened(page, grade):
    page.goto(f"{page.root}practice/{grade}/")
    expect(page.locator(".hb-try")).to_have_count(len(of_grade(grade)))


def form(page, one):
    return page.locator(f"[data-drill={one.row.name}] .hb-try")


def answer(page, one):
    return page.locator(f"[data-drill={one.row.name}] + details")


def result(page, one):
    return form(page, one).locator(".hb-result")


def right(one):
    """One right way to tick a drill."""
    return [CHOICES[right_items(planted)[0]] for planted in one.planted] or [NOTHING]


def do(page, one, items):
    for item in items:
        form(page, one).get_by_label(item, exact=True).check()
    form(page, one).get_by_role("button", name="Show the answer").click()


def said(page):
    return page.locator(".hb-score [role=status]")


@pytest.mark.parametrize("grade", ["plain", "subtle", "mixed"])
def test_every_drill_ticked_right_counts_as_right(page, grade):
    opened(page, grade)
    mine = of_grade(grade)
    for one in mine:
        assert not answer(page, one).is_visible()
        do(page, one, right(one))
        expect(result(page, one)).to_contain_text("Right:")
        assert answer(page, one).is_visible()
        for planted in one.planted:
            assert planted.words in answer(page, one).inner_text()
    expect(said(page)).to_contain_text(f"All drills: {len(mine)} of {ALL} done, {len(mine)} right")


@pytest.mark.parametrize("grade", ["plain", "subtle", "mixed"])
def test_every_drill_ticked_otherwise_counts_as_done_and_not_right(page, grade):
    opened(page, grade)
    for one in of_grade(grade):
        named = {CHOICES[place] for planted in one.planted for place in right_items(planted)}
        other = next(item for item in CHOICES[:-1] if item not in named)
        do(page, one, [other])
        expect(result(page, one)).to_contain_text("Not right.")
        for planted in one.planted:
            assert CHOICES[right_items(planted)[0]] in result(page, one).text_content()
    count = len(of_grade(grade))
    expect(said(page)).to_contain_text(f"{count} of {ALL} done, 0 right")


def test_all_choices_are_offered_in_every_drill_in_the_same_order(page):
    opened(page, "mixed")
    for one in MIXED:
        assert [text.strip() for text in form(page, one).locator("label").all_text_contents()] == list(CHOICES)


@pytest.mark.parametrize(("items", "words"), [
    (right(TWO)[:1], f"Missed: {right(TWO)[1]}"), (right(TWO)[1:], f"Missed: {right(TWO)[0]}"), ([NOTHING], "Missed: "),
    ([*right(TWO), next(i for i in CHOICES if i not in right(TWO))], "As it should be: "),
])
def test_half_an_answer_and_too_much_are_not_right(page, items, words):
    opened(page, "mixed")
    do(page, TWO, items)
    expect(result(page, TWO)).to_contain_text(f"Not right. {words}")


def test_one_tick_does_not_name_two_mistakes(browser, address):
    """Of two mistakes that share an item: as no drill has them now, the page is changed on its way."""
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    page.root = address

    def changed(route):
        body = route.fetch().text()
        route.fulfill(body=re.sub(r'(data-drill="drill-01" data-right=)"[^"]*"', r'\1"[[5],[5,6]]"', body),
                      content_type="text/html")

    page.route("**/practice/plain/", changed)
    opened(page, "plain")
    do(page, PLAIN[0], [CHOICES[5]])
    expect(result(page, PLAIN[0])).to_have_text("✕ Not right. There is one more.")
    form(page, PLAIN[0]).get_by_role("button", name="Do it again").click()
    do(page, PLAIN[0], [CHOICES[5], CHOICES[6]])
    expect(result(page, PLAIN[0])).to_contain_text("Right:")
    context.close()


def test_where_nothing_is_wrong_only_that_is_right(page):
    opened(page, "mixed")
    do(page, NONE, ["channel"])
    expect(result(page, NONE)).to_have_text("✕ Not right. Nothing is wrong here.")
    form(page, NONE).get_by_role("button", name="Do it again").click()
    do(page, NONE, [NOTHING])
    expect(result(page, NONE)).to_contain_text(f"Right: {NOTHING}")


def test_no_answer_no_look(page):
    opened(page, "plain")
    one = PLAIN[0]
    form(page, one).get_by_role("button", name="Show the answer").click()
    expect(result(page, one)).to_contain_text("First tick")
    assert not answer(page, one).is_visible()
    expect(said(page)).to_contain_text(f"0 of {ALL} done")
    ticks = form(page, one)
    ticks.get_by_label("channel").check()
    ticks.get_by_label(NOTHING).check()
    assert not ticks.get_by_label("channel").is_checked()
    ticks.get_by_label("source").check()
    assert not ticks.get_by_label(NOTHING).is_checked()


def test_the_score_survives_reloading_is_shown_everywhere_and_can_be_cleared(page):
    asked = []
    opened(page, "plain")
    do(page, PLAIN[0], right(PLAIN[0]))
    do(page, PLAIN[1], ["arming"])
    page.on("request", lambda request: asked.append(request.method))
    opened(page, "plain")
    expect(said(page)).to_contain_text(f"2 of {ALL} done, 1 right")
    expect(result(page, PLAIN[0])).to_contain_text("Right:")
    expect(result(page, PLAIN[1])).to_contain_text("Not right.")
    assert form(page, PLAIN[1]).get_by_label("arming").is_checked()
    assert answer(page, PLAIN[1]).is_visible()
    assert not answer(page, PLAIN[2]).is_visible()
    shown = [text[-1] for text in page.locator(".hb-score li").all_text_contents()]
    assert shown[:3] == ["✓", "✕", "·"]
    page.goto(page.root + "practice/")
    expect(said(page)).to_contain_text(f"2 of {ALL} done, 1 right")
    assert page.locator(".hb-score li").count() == ALL
    page.locator(".hb-score").get_by_role("link", name="Drill 02, not right").click()
    page.wait_for_url("**/practice/plain/#drill-02")
    expect(page.locator(".hb-try")).to_have_count(len(PLAIN))
    expect(page.locator("#drill-02")).to_be_in_viewport()
    form(page, PLAIN[1]).get_by_role("button", name="Do it again").click()
    expect(said(page)).to_contain_text(f"1 of {ALL} done, 1 right")
    clear = page.locator(".hb-score").get_by_role("button")
    clear.click()
    expect(said(page)).to_contain_text("1 right")
    clear.click()
    expect(said(page)).to_contain_text(f"0 of {ALL} done, 0 right")
    assert not answer(page, PLAIN[0]).is_visible()
    page.reload()
    expect(said(page)).to_contain_text(f"0 of {ALL} done")
    assert set(asked) == {"GET"}, "nothing is sent"


def test_what_the_device_holds_may_be_anything(page):
    page.goto(page.root + "practice/")
    key = page.evaluate("`handbook ${new URL('..', location.href).pathname} drills`")
    name = PLAIN[0].row.name
    held = f"{name}\tright\tno such item,<b>x</b>\ndrill-9999\tright\tx\n{PLAIN[1].row.name}\tmaybe\tx\n<img>\n\n"
    page.evaluate("([key, held]) => localStorage.setItem(key, held)", [key, held])
    opened(page, "plain")
    assert not answer(page, PLAIN[0]).is_visible(), "a result without ticks that are known is none to show"
    expect(said(page)).to_contain_text(f"of {ALL} done")
    assert page.locator(".hb-score b, .hb-score img, .hb-try b").count() == 0


def test_without_a_store_the_drills_work_and_it_is_said(browser, address):
    context = browser.new_context()
    page = context.new_page()
    page.root = address
    page.add_init_script("Storage.prototype.getItem = Storage.prototype.setItem = () => { throw new Error('no'); }")
    opened(page, "plain")
    do(page, PLAIN[0], right(PLAIN[0]))
    expect(result(page, PLAIN[0])).to_contain_text("Right:")
    expect(said(page)).to_contain_text(f"1 of {ALL} done, 1 right. This device keeps no score.")
    context.close()


def test_with_the_keyboard_alone(page):
    opened(page, "plain")
    one = PLAIN[0]
    form(page, one).locator("input").first.focus()
    for _ in range(CHOICES.index(right(one)[0])):
        page.keyboard.press("Tab")
    page.keyboard.press("Space")
    page.keyboard.press("Enter")
    expect(result(page, one)).to_be_focused()
    expect(result(page, one)).to_contain_text("Right:")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(form(page, one).locator("input").first).to_be_focused()
    assert not answer(page, one).is_visible()


def test_it_says_what_it_is_to_a_screen_reader(page):
    opened(page, "plain")
    one = PLAIN[0]
    group = page.get_by_role("group", name=f"Drill {one.row.number:02d}: what is wrong?")
    assert group.get_by_role("checkbox").count() == len(CHOICES)
    assert result(page, one).get_attribute("role") == "status"
    expect(page.locator(".hb-score").get_by_role("link", name="Drill 01, not done")).to_have_count(1)
    do(page, one, right(one))
    expect(page.locator(".hb-score").get_by_role("link", name="Drill 01, right")).to_have_count(1)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_accessible_and_fits_before_and_after(browser, address, scheme):
    context = browser.new_context(viewport={"width": 360, "height": 740}, color_scheme=scheme, reduced_motion="reduce")
    page = context.new_page()
    page.root = address
    opened(page, "mixed")
    for step in range(2):
        assert not page.evaluate("document.documentElement.scrollWidth > innerWidth")
        violations = Axe().run(page, options=AXE_RULES).response["violations"]
        assert not [(each["id"], [node["target"] for node in each["nodes"]][:3]) for each in violations]
        assert not page.evaluate(SMALL)
        if not step:
            do(page, TWO, right(TWO))
            do(page, NONE, ["channel"])
    context.close()


def test_without_scripts_the_answers_are_folded(browser, address):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address + "practice/plain/")
    assert page.locator(".hb-try").count() == 0
    assert "JavaScript" in page.locator(".hb-score").inner_text()
    fold = answer(page, PLAIN[0])
    assert fold.is_visible()
    fold.locator("summary").click()
    assert PLAIN[0].planted[0].words in fold.inner_text()
    context.close()


def test_it_works_without_network(browser, address):
    context = browser.new_context()
    page = context.new_page()
    page.root = address
    page.goto(address + "practice/plain/")
    page.evaluate("navigator.serviceWorker.ready")
    page.reload()
    expect(page.locator(".hb-try")).to_have_count(len(PLAIN))
    until_kept(page, ["practice/plain/", "assets/drill.js"])
    context.set_offline(True)
    opened(page, "plain")
    do(page, PLAIN[0], right(PLAIN[0]))
    expect(result(page, PLAIN[0])).to_contain_text("Right:")
    context.close()
