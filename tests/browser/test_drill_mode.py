"""Drills in a real Chromium: one's own answer first, then the right one; the score stays on the device alone."""

import re

import pytest
from playwright.sync_api import expect

from accessible import faults_in_both_themes
from lpv.decide.remedy import REMEDIES, SIGNS
from lpv.drill.judgement import ACTIONS, SEVERITIES, SIDES
from lpv_site.pages.drill_choices import ASKED, CHOICES, NOTHING, numbers_of, right_judgement
from lpv_site.pages.drill_page import of_difficulty
from lpv_site.pages.numbers_page import asked
from lpv_site.pages.sequence_page import running
from support import opened_twice, until_kept, with_hash

pytestmark = pytest.mark.browser
ALL = sum(len(numbers_of(page)) for page in ASKED)
MIXED = of_difficulty("mixed")
TWO = next(drill for drill in MIXED if len(drill.planted) == 2)
NONE = next(drill for drill in MIXED if not drill.planted)
PLAIN = of_difficulty("plain")
SMALL = """[...document.querySelectorAll(".hb-try :is(label, button, select), .hb-score :is(a, button)")]
  .filter((e) => e.checkVisibility())
  .filter((e) => e.getBoundingClientRect().height < 44 || e.getBoundingClientRect().width < 44)
  .map((e) => e.textContent)"""


@pytest.fixture
def page(phone_page):
    """A phone on the drills."""
    return phone_page


def opened(page, difficulty):
    page.goto(f"{page.root}practice/{difficulty}/")
    expect(page.locator(".hb-try")).to_have_count(len(of_difficulty(difficulty)))


def form(page, drill):
    return page.locator(f"[data-drill={drill.row.name}] .hb-try")


def answer(page, drill):
    return page.locator(f"[data-drill={drill.row.name}] + details")


def result(page, drill):
    return form(page, drill).locator(".hb-result")


def right(drill):
    """One right way to answer a drill: (item, side, severity, action) for each mistake."""
    judgements = [right_judgement(planted) for planted in drill.planted]
    return [(CHOICES[each["items"][0]], SIDES[each["sides"][0]], SEVERITIES[each["severity"]],
             list(ACTIONS.values())[each["action"]]) for each in judgements] or [(NOTHING,)]


def do(page, drill, items):
    """Answer a drill; items: as `right` gives them, or an item alone."""
    for each in items:
        item, *judged = (each,) if isinstance(each, str) else each
        form(page, drill).get_by_label(item, exact=True).check()
        for asks, choice in zip(("which side", "how serious", "what now"), judged, strict=bool(judged)):
            form(page, drill).get_by_label(f"{item}: {asks}", exact=True).select_option(label=choice)
    form(page, drill).get_by_role("button", name="Show the answer").click()


def score_of(page):
    return page.locator(".hb-score [role=status]")


@pytest.mark.parametrize("difficulty", ["plain", "subtle", "mixed"])
def test_right_ticks_count_as_right_in_every_drill(page, difficulty):
    opened(page, difficulty)
    mine = of_difficulty(difficulty)
    for drill in mine:
        assert not answer(page, drill).is_visible()
        do(page, drill, right(drill))
        expect(result(page, drill)).to_contain_text("Right: 100 of 100 points.")
        assert answer(page, drill).is_visible()
        for planted in drill.planted:
            assert planted.words in answer(page, drill).inner_text()
    expect(score_of(page)).to_contain_text(f"All drills: {len(mine)} of {ALL} done, {len(mine)} right")


@pytest.mark.parametrize("difficulty", ["plain", "subtle", "mixed"])
def test_wrong_ticks_count_as_done_not_right(page, difficulty):
    opened(page, difficulty)
    for drill in of_difficulty(difficulty):
        named = {CHOICES[place] for planted in drill.planted for place in right_judgement(planted)["items"]}
        other = next(item for item in CHOICES[:-1] if item not in named)
        do(page, drill, [other])
        expect(result(page, drill)).to_contain_text("Not right: 0 of 100 points.")
        for planted in drill.planted:
            assert CHOICES[right_judgement(planted)["items"][0]] in result(page, drill).text_content()
    count = len(of_difficulty(difficulty))
    expect(score_of(page)).to_contain_text(f"{count} of {ALL} done, 0 right")


def test_all_choices_offered_in_same_order(page):
    opened(page, "mixed")
    for drill in MIXED:
        assert [text.strip() for text in form(page, drill).locator("label").all_text_contents()] == list(CHOICES)


EXTRA = next(item for item in CHOICES[:-1] if item not in {each[0] for each in right(TWO)})


@pytest.mark.parametrize(("items", "earned", "words"), [
    (right(TWO)[:1], 50, f"Missed: {right(TWO)[1][0]}"), (right(TWO)[1:], 50, f"Missed: {right(TWO)[0][0]}"),
    ([NOTHING], -100, "Missed: "), ([each[0] for each in right(TWO)], 40, "Not judged right: "),
    ([*right(TWO), EXTRA], 80, f"As it should be: {EXTRA}"),
])
def test_partial_and_excess_answers_earn_less(page, items, earned, words):
    opened(page, "mixed")
    do(page, TWO, items)
    expect(result(page, TWO)).to_contain_text(f"{earned} of 100 points. {words}")
    expect(score_of(page)).to_contain_text("1 of")
    expect(score_of(page)).to_contain_text(f", {earned} of 100 points on average")


def test_false_alarm_earns_nothing_clean_drill_all(page):
    opened(page, "mixed")
    do(page, NONE, ["channel"])
    expect(result(page, NONE)).to_contain_text("0 of 100 points. Nothing is wrong here.")
    form(page, NONE).get_by_role("button", name="Do it again").click()
    do(page, NONE, [NOTHING])
    expect(result(page, NONE)).to_contain_text("Right: 100 of 100 points.")


def test_number_close_half_close_and_far(page):
    page.goto(page.root + "practice/numbers/")
    drill = next(each for each in asked() if each.row.kind == "climb")
    question = drill.question
    for off, earned in ((0.0, 100), (question.high * 0.9, 100), (question.high * 1.5, 50), (-question.low * 3.0, 0)):
        form(page, drill).locator("input").fill(f"{question.answer + off:.0f}")
        form(page, drill).get_by_role("button", name="Show the answer").click()
        expect(result(page, drill)).to_contain_text(f"{earned} of 100 points. It is {question.answer:.0f}")
        form(page, drill).get_by_role("button", name="Do it again").click()
    form(page, drill).locator("input").fill("about 400")
    form(page, drill).get_by_role("button", name="Show the answer").click()
    expect(result(page, drill)).to_contain_text("First give a number.")


def test_overstated_sight_costs_most(page):
    page.goto(page.root + "practice/numbers/")
    drill = next(each for each in asked() if -100.0 in each.question.points)
    for choice, points in zip(drill.question.choices, drill.question.points, strict=True):
        form(page, drill).get_by_label(choice, exact=True).check()
        form(page, drill).get_by_role("button", name="Show the answer").click()
        expect(result(page, drill)).to_contain_text(f"{points:.0f} of 100 points.")
        form(page, drill).get_by_role("button", name="Do it again").click()


def run_to(page, drill, place):
    for _ in range(place):
        form(page, drill).get_by_role("button", name="One step").click()


def test_sequence_stopped_and_judged(page):
    page.goto(page.root + "practice/sequences/")
    drill = next(each for each in running() if each.run.sign == "level")
    expect(form(page, drill)).to_have_count(1)
    form(page, drill).get_by_role("button", name="Show the answer").click()
    expect(result(page, drill)).to_contain_text("First run it")
    rows = page.locator(f"[data-of={drill.row.name}] tbody tr:visible")
    expect(rows).to_have_count(1)
    run_to(page, drill, drill.run.at)
    expect(rows).to_have_count(drill.run.at + 1)
    form(page, drill).get_by_role("button", name="Something is wrong").click()
    form(page, drill).get_by_label("What is wrong").select_option(label=SIGNS[drill.run.sign])
    form(page, drill).get_by_label("What now").select_option(label=REMEDIES[drill.run.remedy])
    form(page, drill).get_by_role("button", name="Show the answer").click()
    expect(result(page, drill)).to_contain_text("Right: 100 of 100 points. You stopped 0 s after the first sign.")
    page.reload()
    expect(result(page, drill)).to_contain_text("Right: 100 of 100 points.")
    form(page, drill).get_by_role("button", name="Do it again").click()
    form(page, drill).get_by_role("button", name="Something is wrong").click()
    form(page, drill).get_by_role("button", name="Show the answer").click()
    expect(result(page, drill)).to_contain_text("0 of 100 points. Nothing was wrong yet.")
    form(page, drill).get_by_role("button", name="Do it again").click()
    run_to(page, drill, len(drill.run.timeline))
    form(page, drill).get_by_role("button", name="Show the answer").click()
    expect(result(page, drill)).to_contain_text("-100 of 100 points. You let it go on.")


def test_sequence_runs_and_pauses(page):
    page.goto(page.root + "practice/sequences/")
    drill = running()[0]
    form(page, drill).get_by_role("button", name="Run").click()
    rows = page.locator(f"[data-of={drill.row.name}] tbody tr:visible")
    expect(rows).to_have_count(3)
    form(page, drill).get_by_role("button", name="Hold").click()
    expect(form(page, drill).get_by_role("button", name="Run")).to_be_visible()


def test_session_leads_through_drills_and_shows_results(page):
    page.goto(page.root + "practice/")
    page.locator(".hb-score").get_by_role("button", name="Begin 10 minutes").click()
    page.wait_for_url("**/practice/plain/#drill-01")
    drill = PLAIN[0]
    do(page, drill, right(drill))
    onward = form(page, drill).locator(".hb-onward")
    expect(onward).to_have_text(re.compile(r"Next: drill \d+"))
    following = onward.text_content()[-2:]
    onward.click()
    page.wait_for_url(f"**/#drill-{following}")
    page.goto(page.root + "practice/")
    expect(page.locator(".hb-score").get_by_role("button", name="Begin 10 minutes")).to_be_visible()
    page.locator(".hb-score").get_by_role("link", name="Show the results").click()
    rows = page.locator(".hb-results tbody tr")
    expect(rows).to_have_count(1)
    assert rows.first.locator("td").all_text_contents()[:3] == ["01", "one plain mistake", "100"]
    expect(page.locator(".hb-results p")).to_contain_text("1 drills, 1 right, 100 of 100 points on average.")
    page.evaluate("location.hash = '#r1.<b>'")
    expect(page.locator(".hb-results p")).to_contain_text("holds no results")
    assert page.locator(".hb-results table").is_hidden()


def test_no_answer_shown_before_answering(page):
    opened(page, "plain")
    drill = PLAIN[0]
    form(page, drill).get_by_role("button", name="Show the answer").click()
    expect(result(page, drill)).to_contain_text("First tick")
    assert not answer(page, drill).is_visible()
    expect(score_of(page)).to_contain_text(f"0 of {ALL} done")
    ticks = form(page, drill)
    ticks.get_by_label("channel", exact=True).check()
    ticks.get_by_label(NOTHING, exact=True).check()
    assert not ticks.get_by_label("channel", exact=True).is_checked()
    ticks.get_by_label("source", exact=True).check()
    assert not ticks.get_by_label(NOTHING, exact=True).is_checked()


def test_score_persists_shown_everywhere_and_clearable(page):
    asked = []
    opened(page, "plain")
    do(page, PLAIN[0], right(PLAIN[0]))
    do(page, PLAIN[1], ["arming"])
    page.on("request", lambda request: asked.append(request.method))
    opened(page, "plain")
    expect(score_of(page)).to_contain_text(f"2 of {ALL} done, 1 right")
    expect(result(page, PLAIN[0])).to_contain_text("Right: 100")
    expect(result(page, PLAIN[1])).to_contain_text("Not right: 0 of 100 points.")
    assert form(page, PLAIN[1]).get_by_label("arming", exact=True).is_checked()
    assert answer(page, PLAIN[1]).is_visible()
    assert not answer(page, PLAIN[2]).is_visible()
    shown = [text[-1] for text in page.locator(".hb-score li").all_text_contents()]
    assert shown[:3] == ["✓", "✕", "·"]
    page.goto(page.root + "practice/")
    expect(score_of(page)).to_contain_text(f"2 of {ALL} done, 1 right")
    assert page.locator(".hb-score li").count() == ALL
    page.locator(".hb-score").get_by_role("link", name="Drill 02, not right").click()
    page.wait_for_url("**/practice/plain/#drill-02")
    expect(page.locator(".hb-try")).to_have_count(len(PLAIN))
    expect(page.locator("#drill-02")).to_be_in_viewport()
    form(page, PLAIN[1]).get_by_role("button", name="Do it again").click()
    expect(score_of(page)).to_contain_text(f"1 of {ALL} done, 1 right")
    clear = page.locator(".hb-score").get_by_role("button").last
    clear.click()
    expect(score_of(page)).to_contain_text("1 right")
    clear.click()
    expect(score_of(page)).to_contain_text(f"0 of {ALL} done, 0 right")
    assert not answer(page, PLAIN[0]).is_visible()
    page.reload()
    expect(score_of(page)).to_contain_text(f"0 of {ALL} done")
    assert set(asked) == {"GET"}, "nothing is sent"


def test_any_stored_content_tolerated(page):
    page.goto(page.root + "practice/")
    key = page.evaluate("`handbook ${new URL('..', location.href).pathname} drills`")
    name = PLAIN[0].row.name
    held = f"{name}\tright\tno such item,<b>x</b>\ndrill-9999\tright\tx\n{PLAIN[1].row.name}\tmaybe\tx\n<img>\n\n"
    held += f'{PLAIN[2].row.name}\t100\t1\t20000\t20000\t{{"said":[{{"item":"<b>x</b>"}}]}}\n'
    held += f"{PLAIN[3].row.name}\t100\t1\t20000\t20000\tnot JSON"
    page.evaluate("([key, held]) => localStorage.setItem(key, held)", [key, held])
    opened(page, "plain")
    for drill in PLAIN[:4]:
        assert not answer(page, drill).is_visible(), "a result without ticks that are known is none to show"
    expect(score_of(page)).to_contain_text(f"of {ALL} done")
    assert page.locator(".hb-score b, .hb-score img, .hb-try b").count() == 0


def test_drills_work_without_storage_and_say_so(browser, address):
    context = browser.new_context()
    page = context.new_page()
    page.root = address
    page.add_init_script("Storage.prototype.getItem = Storage.prototype.setItem = () => { throw new Error('no'); }")
    opened(page, "plain")
    do(page, PLAIN[0], right(PLAIN[0]))
    expect(result(page, PLAIN[0])).to_contain_text("Right: 100")
    expect(score_of(page)).to_contain_text("100 of 100 points on average. This device keeps no score.")
    context.close()


def test_keyboard_only(page):
    opened(page, "plain")
    drill = PLAIN[0]
    form(page, drill).locator("input").first.focus()
    for _ in range(CHOICES.index(right(drill)[0][0])):
        page.keyboard.press("Tab")
    page.keyboard.press("Space")
    page.keyboard.press("Enter")
    expect(result(page, drill)).to_be_focused()
    expect(result(page, drill)).to_contain_text("Partly right: 40 of 100 points.")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(form(page, drill).locator("input").first).to_be_focused()
    assert not answer(page, drill).is_visible()


def test_screen_reader_description(page):
    opened(page, "plain")
    drill = PLAIN[0]
    group = page.get_by_role("group", name=f"Drill {drill.row.number:02d}: what is wrong?")
    assert group.get_by_role("checkbox").count() == len(CHOICES)
    assert result(page, drill).get_attribute("role") == "status"
    expect(page.locator(".hb-score").get_by_role("link", name="Drill 01, not done")).to_have_count(1)
    do(page, drill, right(drill))
    expect(page.locator(".hb-score").get_by_role("link", name="Drill 01, right")).to_have_count(1)


def test_accessible_and_fits_before_and_after(page):
    opened(page, "mixed")
    for step in range(2):
        assert not page.evaluate("document.documentElement.scrollWidth > innerWidth")
        assert not faults_in_both_themes(page)
        assert not page.evaluate(SMALL)
        if not step:
            do(page, TWO, right(TWO))
            do(page, NONE, ["channel"])


def test_answers_folded_without_scripts(browser, address):
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


def test_works_offline(browser, address, site):
    page = opened_twice(browser, address, "practice/plain/")
    expect(page.locator(".hb-try")).to_have_count(len(PLAIN))
    until_kept(page, ["practice/plain/", *(with_hash(site, f"assets/{name}.js") for name in ("drill", "score"))])
    page.context.set_offline(True)
    opened(page, "plain")
    do(page, PLAIN[0], right(PLAIN[0]))
    expect(result(page, PLAIN[0])).to_contain_text("Right: 100")
    page.context.close()
