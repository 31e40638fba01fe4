"""What can be ticked in a drill: one list for all of them, complete, and right for what was planted."""

import html
import json
import re

import pytest

from lpv.drill.drills import GRADES, MISTAKES
from lpv_site.figures.figure import fill
from lpv_site.pages.drill_choices import ASKED, CHOICES, ITEMS, NOTHING, answer_place, right_items, score_box
from lpv_site.pages.drill_page import build_drill_page, drills

PLACE = re.compile(r'<div class="hb-own-answer" data-drill="(drill-\d+)" data-right="([^"]*)"></div>')
NAMED = {  # a few by hand: kind of mistake -> what it makes wrong
    "course-before": {"course set"}, "other-runway": {"procedure loaded", "channel", "path identifier"},
    "altimeter-step": {"altimeter setting"}, "ils-shown": {"source", "tuned frequency"},
    "cycle-before": {"data cycle"}, "minimum-under-floor": {"minimum"}, "fix-altitude": {"aircraft: altitude at a fix"},
    "wrong-kind": {"kind of minimum"}, "armed-far": {"arming"}, "localizer-left": {"tuned frequency"},
    "fix-missing": {"aircraft: a fix missing", "aircraft: course of a leg"},
    "level-lower": {"level announced", "kind of minimum", "minimum"},
}


def score(grades=GRADES):
    """The parts of the score box."""
    box = fill(score_box(drills(), grades))
    return [json.loads(html.unescape(text)) for text in re.findall(r'data-(?:choices|drills)="([^"]*)"', box)]


def test_the_list_is_all_that_any_mistake_of_the_drills_makes_wrong():
    reached, kinds = set(), set()
    for one in drills():
        for planted, kind in zip(one.planted, one.row.mistakes, strict=True):
            kinds.add(kind)
            reached |= {CHOICES[place] for place in right_items(planted)}
    assert reached == set(ITEMS)
    assert kinds == set(MISTAKES), "every kind is practised, so that the list covers them all"
    assert CHOICES[-1] == NOTHING


def test_what_is_right_is_what_was_planted():
    met = set()
    for one in drills():
        for planted, kind in zip(one.planted, one.row.mistakes, strict=True):
            items = {CHOICES[place] for place in right_items(planted)}
            assert items
            assert NOTHING not in items
            if kind in NAMED:
                assert items == NAMED[kind] or (kind == "level-lower" and items < NAMED[kind])
                met.add(kind)
    assert met == NAMED.keys()


def test_two_mistakes_of_a_drill_are_told_apart():
    for one in drills():
        sets = [set(right_items(planted)) for planted in one.planted]
        assert len(sets) < 2 or sets[0].isdisjoint(sets[1]), one.row.name


@pytest.mark.parametrize("grade", GRADES)
def test_the_page_gives_the_same_list_for_all_and_the_right_ticks_for_each(grade):
    page = fill(build_drill_page(grade))
    choices, known = score([grade])
    assert tuple(choices) == CHOICES
    assert [row[0] for row in known if row[3]] == [grade]
    places = PLACE.findall(page)
    mine = sorted((one for one in drills() if one.row.grade == grade), key=lambda one: one.row.number)
    assert [name for name, _ in places] == [one.row.name for one in mine]
    for one, (_, right) in zip(mine, places, strict=True):
        assert json.loads(right) == [right_items(planted) for planted in one.planted]
        assert answer_place(one) in page
    assert page.index("hb-score") < page.index('id="card"'), "the score is no part of the printed sheet"


def test_the_score_knows_every_drill():
    _, known = score()
    assert sorted(number for row in known for number in row[2]) == sorted(one.row.number for one in drills())
    assert {row[0]: row[1] for row in known} == ASKED
    assert all(row[3] for row in known)
