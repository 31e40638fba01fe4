"""What an answer is worth, when a drill comes again and what a session holds, as the script works it out.

Each value of the script is compared with one worked out here, by hand or by another way, in hundreds of random cases.
"""

import random

import pytest

from lpv_site.pages.drill_choices import points

pytestmark = pytest.mark.browser
POINTS = points()
DICE = random.Random(7)


@pytest.fixture(scope="module")
def call(browser, address):
    """Calls a function of the script on many lists of arguments at once."""
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    page.goto(address + "practice/")
    page.wait_for_selector(".hb-score ol")
    yield lambda name, cases: page.evaluate(
        "([name, cases]) => cases.map((case_) => window.handbookScore[name](...case_))", [name, cases])
    context.close()


def some(most, least=0):
    return sorted(DICE.sample(range(6), DICE.randint(least, most)))


def a_mistake(items):
    return {"items": items, "sides": DICE.choice([[0], [1], [2], [1, 2]]), "severity": DICE.randrange(3),
            "action": DICE.randrange(6)}


def own_of(mistakes):
    judged = []
    for item in some(4):
        near = next((each for each in mistakes if item in each["items"]), None)
        judged.append({"item": item, "side": DICE.choice([*(near["sides"] if near else [0]), 0, None]),
                     "severity": DICE.choice([near["severity"] if near else 0, 1, None]),
                     "action": DICE.choice([near["action"] if near else 0, 2, None])})
    return {"nothing": not judged and DICE.random() < 0.5, "said": judged}


def expected_find(mistakes, own):
    """By tables: a sheet of points for each mistake, the best of each column."""
    if own["nothing"]:
        return -100 if mistakes else 100
    if not mistakes:
        return 0
    total = 0.0
    for mistake in mistakes:
        sheet = [(40, 20 * (answer["side"] in mistake["sides"]), 20 * (answer["severity"] == mistake["severity"]),
                  20 * (answer["action"] == mistake["action"]))
                 for answer in own["said"] if answer["item"] in mistake["items"]]
        total += sum(max(column) for column in zip(*sheet, strict=True)) / len(mistakes)
    known = [item for mistake in mistakes for item in mistake["items"]]
    total -= 20 * len([answer for answer in own["said"] if answer["item"] not in known])
    return int(max(0.0, total) + 0.5)


def test_random_error_finding_cases(call):
    cases = []
    for _ in range(600):
        items = DICE.sample(range(6), 4)
        mistakes = [a_mistake(items[:2]), a_mistake(items[2:3])][:DICE.randrange(3)]
        cases.append([POINTS, mistakes, own_of(mistakes)])
    scores = call("find", cases)
    assert scores == [expected_find(mistakes, own) for _, mistakes, own in cases]
    assert {-100, 0, 100} < set(scores)
    assert len(set(scores)) > 8


@pytest.mark.parametrize(("own", "worth"), [
    ({"nothing": True, "said": []}, -100),
    ({"nothing": False, "said": [{"item": 3, "side": 0, "severity": 0, "action": 1}]}, 100),
    ({"nothing": False, "said": [{"item": 3, "side": 1, "severity": 0, "action": 1}]}, 80),
    ({"nothing": False, "said": [{"item": 3, "side": None, "severity": None, "action": None}]}, 40),
    ({"nothing": False, "said": [{"item": 3, "side": 0, "severity": 0, "action": 1}, {"item": 5}]}, 80),
    ({"nothing": False, "said": [{"item": 5, "side": 0, "severity": 0, "action": 1}]}, 0),
])
def test_error_finding_by_hand(call, own, worth):
    assert call("find", [[POINTS, [{"items": [3], "sides": [0], "severity": 0, "action": 1}], own]]) == [worth]


def test_numbers_at_and_outside_limits(call):
    drill = {"answer": 500.0, "low": 25.0, "high": 100.0}
    given = {474.9: 50, 475.0: 100, 500.0: 100, 600.0: 100, 600.1: 50, 700.0: 50, 700.1: 0, 450.0: 50, 449.9: 0}
    assert call("number", [[POINTS, drill, each] for each in given]) == list(given.values())
    assert call("number", [[POINTS, drill, None]]) == [0]


def test_random_sequence_cases(call):
    times = [0, 5, 10, 13, 15, 20, 25, 30, 35, 40, 45, 50]
    cases = []
    for _ in range(400):
        drill = {"times": times, "at": DICE.choice([None, 2, 3]), "sign": 4, "remedy": 1}
        own = {"stop": DICE.choice([None, *range(len(times))]), "sign": DICE.choice([4, 5, None]),
               "remedy": DICE.choice([1, 2])}
        cases.append([POINTS, drill, own])

    def expected(drill, own):
        if drill["at"] is None or own["stop"] is None:
            return (100 if own["stop"] is None else 0) if drill["at"] is None else -100
        late = times[own["stop"]] - times[drill["at"]]
        if late < 0:
            return 0
        return (40 if late <= 10 else 20 if late <= 30 else 0) + 30 * (own["sign"] == 4) + 30 * (own["remedy"] == 1)

    scores = call("sequence", cases)
    assert scores == [expected(drill, own) for _, drill, own in cases]
    assert {-100, 0, 60, 80, 100} <= set(scores)


def test_drill_repetition_date(call):
    """Known: after 1, 3, 10, 30, 90 days, then every 90; not known: the same day, from the beginning."""
    before, due = None, []
    for _ in range(7):
        (before,) = call("next", [[POINTS, before, 100, 20000]])
        due.append(before["due"] - 20000)
    assert due == [1, 3, 10, 30, 90, 90, 90]
    assert call("next", [[POINTS, {"step": 4}, 79, 20000], [POINTS, {"step": 4}, 80, 20000]]) == [
        {"step": 0, "due": 20000}, {"step": 5, "due": 20090}]


def test_session_takes_due_then_new_until_full(browser, address):
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    page.goto(address + "practice/")
    page.wait_for_selector(".hb-score ol")
    kinds = [{"minutes": 2, "numbers": [1, 2, 3]}, {"minutes": 1, "numbers": [10, 11, 12]},
             {"minutes": 2, "numbers": [20, 21]}]

    def chosen(held, today=100):
        return page.evaluate(
            "([points, kinds, held, today]) => window.handbookScore.session(points, kinds, new Map(held), today)",
            [POINTS, kinds, [[number, {"due": due, "points": earned}] for number, due, earned in held], today])

    assert chosen([]) == [1, 10, 20, 2, 11, 21], "2 + 1 + 2 + 2 + 1 + 2 minutes"
    assert chosen([(3, 99, 50), (12, 98, 100), (2, 99, -100), (20, 101, 100)]) == [12, 2, 3, 1, 10, 21]
    everything = [(number, 500, 100) for kind in kinds for number in kind["numbers"]]
    assert chosen(everything) == []
    assert len(chosen(everything, 500)) == 6
    context.close()


def test_results_link_round_trip(call):
    cases = [[[{"number": DICE.randint(1, 999), "points": DICE.randint(-100, 100), "day": DICE.randint(1, 99999)}
               for _ in range(DICE.randint(0, 72))]] for _ in range(50)]
    texts = call("encode", cases)
    assert call("decode", [[text] for text in texts]) == [results for (results,) in cases]
    assert all(set(text) <= set("r0123456789._") for text in texts)
    wrong = ["", "r2.1_2_3", "r1.1_201_3", "r1.1_2", "r1.<b>_2_3", "r1.1_2_3.", "r1.1000_2_3", "r1.1_2_3 "]
    assert call("decode", [[text] for text in wrong]) == [None] * len(wrong)


def test_average(call):
    assert call("mean", [[[{"points": 100}, {"points": -100}, {"points": 50}]], [[]]]) == [17, None]
