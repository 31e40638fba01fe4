"""What can be said in a drill: one list for all of them, complete, and right for what was planted."""

import html
import json
import re

import pytest

from lpv.decide.remedy import REMEDIES, SIGNS
from lpv.drill.drills import read
from lpv.drill.judgement import ACTIONS, SIDES
from lpv.drill.rows import DIFFICULTIES, MISTAKES
from lpv_site.department.data import DOCS
from lpv_site.figures.figure import fill
from lpv_site.pages.drill_choices import (
    ASKED,
    CHOICES,
    ITEMS,
    NOTHING,
    kinds,
    numbers_of,
    points,
    right_items,
    right_judgement,
    score_box,
    spans,
    words,
)
from lpv_site.pages.drill_page import build_drill_page, drills, of_difficulty, right

PLACE = re.compile(r'<div class="hb-own-answer" data-drill="(drill-\d+)" data-answer="([^"]*)"></div>')
NAMED = {  # a few by hand: kind of mistake -> what it makes wrong
    "course-before": {"course set"}, "other-runway": {"procedure loaded", "channel", "path identifier"},
    "altimeter-step": {"altimeter setting"}, "ils-shown": {"source", "tuned frequency"},
    "cycle-before": {"data cycle"}, "minimum-under-floor": {"minimum"}, "fix-altitude": {"aircraft: altitude at a fix"},
    "wrong-kind": {"kind of minimum"}, "armed-far": {"arming"}, "localizer-left": {"tuned frequency"},
    "fix-missing": {"aircraft: a fix missing", "aircraft: course of a leg"},
    "level-lower": {"level announced", "kind of minimum", "minimum"},
    "channel-digits": {"procedure loaded", "channel", "path identifier"},
}
LISTED = read(DOCS / "practice" / "drills.toml")
NUMBERS = [row.number for rows in (LISTED.drills, LISTED.numbers, LISTED.sequences) for row in rows]


def known(here=()):
    """The data of the score box."""
    return json.loads(html.unescape(re.search(r'data-drills="([^"]*)"', fill(score_box(here)))[1]))


def test_at_least_sixty_choices():
    assert len(set(NUMBERS)) == len(NUMBERS) >= 60


def test_list_covers_every_possible_wrong_item():
    reached, planted_kinds = set(), set()
    for drill in drills():
        for planted, kind in zip(drill.planted, drill.row.mistakes, strict=True):
            planted_kinds.add(kind)
            reached |= {CHOICES[place] for place in right_items(planted)}
    assert reached == set(ITEMS)
    assert planted_kinds == set(MISTAKES), "every kind is practised, so that the list covers them all"
    assert CHOICES[-1] == NOTHING


def test_right_answer_is_planted_mistake():
    met = set()
    for drill in drills():
        for planted, kind in zip(drill.planted, drill.row.mistakes, strict=True):
            items = {CHOICES[place] for place in right_items(planted)}
            assert items
            assert NOTHING not in items
            if kind in NAMED:
                assert items == NAMED[kind] or (kind == "level-lower" and items < NAMED[kind])
                met.add(kind)
    assert met == NAMED.keys()


def test_two_mistakes_of_drill_distinguishable():
    for drill in drills():
        sets = [set(right_items(planted)) for planted in drill.planted]
        assert len(sets) < 2 or sets[0].isdisjoint(sets[1]), drill.row.name


@pytest.mark.parametrize("difficulty", DIFFICULTIES)
def test_page_has_right_answer_for_each_drill(difficulty):
    page = fill(build_drill_page(difficulty))
    places = PLACE.findall(page)
    mine = of_difficulty(difficulty)
    assert [name for name, _ in places] == [each.row.name for each in mine]
    for drill, (_, text) in zip(mine, places, strict=True):
        data = json.loads(html.unescape(text))
        assert data == json.loads(json.dumps(right(drill)))
        assert len(data["mistakes"]) == len(drill.planted)
    assert page.index("hb-score") < page.index('id="card"'), "the score is no part of the printed sheet"


def test_right_answers_within_lists():
    lists = words()
    for drill in drills():
        for planted in drill.planted:
            answer = right_judgement(planted)
            assert all(0 <= item < len(lists["items"]) - 1 for item in answer["items"])
            assert all(0 <= side < len(lists["sides"]) for side in answer["sides"])
            assert 0 <= answer["severity"] < len(lists["severities"])
            assert 0 <= answer["action"] < len(lists["actions"])
    assert lists["sides"] == list(SIDES)
    assert lists["actions"] == list(ACTIONS.values())
    assert lists["signs"] == list(SIGNS.values())
    assert [*lists["remedies"], REMEDIES["nothing"]] == list(REMEDIES.values()), "the script counts in this order"


def test_score_knows_every_drill_and_its_worth():
    given = known(["plain"])
    assert sorted(number for kind in given["kinds"] for number in kind["numbers"]) == sorted(NUMBERS)
    assert {kind["page"]: kind["words"] for kind in given["kinds"]} == {page: text for page, (text, _) in ASKED.items()}
    assert [kind["page"] for kind in given["kinds"] if kind["here"]] == ["plain"]
    assert given["kinds"] == json.loads(json.dumps(kinds(["plain"])))
    assert given["points"] == points()
    parts = given["points"]
    assert parts["item"] + parts["side"] + parts["severity"] + parts["action"] == parts["full"]
    assert parts["moment"] + parts["sign"] + parts["remedy"] == parts["full"]
    assert parts["allWell"] == -parts["full"] < parts["extra"] < 0, "a wrong all is well costs most"
    assert parts["again"] == sorted(set(parts["again"]))


def test_page_numbers_match_its_rows():
    assert numbers_of("sequences") == sorted(row.number for row in LISTED.sequences)
    assert numbers_of("subtle") == sorted(row.number for row in LISTED.drills if row.difficulty == "subtle")


def test_numbers_written_as_unbroken_runs():
    assert spans([1, 2, 3]) == "01 to 03"
    assert spans([37, 38, 56, 73, 74]) == "37 to 38, 56, 73 to 74"
    assert spans([]) == ""
