"""Findings: graded, ordered and counted."""

import pytest

from lpv.core.findings import GRAVITIES, MEANING, Finding, by_gravity, counts, gravest


def finding(grave, key="course", about=""):
    return Finding(key, grave, "what was compared", about=about)


def test_the_gravest_counts():
    assert gravest([finding("ok"), finding("resolve"), finding("note")]) == "resolve"
    assert gravest([finding("ok"), finding("stop")]) == "stop"
    assert gravest([finding("ok")]) == "ok"
    assert gravest([]) == "ok"


def test_stop_comes_first_and_the_order_within_a_grade_stays():
    rows = [finding("ok", "a"), finding("stop", "b"), finding("note", "c"), finding("stop", "d")]
    assert [row.key for row in by_gravity(rows)] == ["b", "d", "c", "a"]


def test_counts_name_every_grade():
    assert counts([finding("ok"), finding("ok"), finding("note")]) == {
        "stop": 0, "resolve": 0, "note": 1, "ok": 2,
    }


def test_a_name_holds_what_it_is_about():
    assert finding("ok", "fix-altitude", "SANDY").name() == "fix-altitude SANDY"
    assert finding("ok").name() == "course"


def test_an_unknown_grade_is_refused():
    with pytest.raises(ValueError, match="worst"):
        finding("worst")


def test_every_grade_is_explained():
    assert set(MEANING) == set(GRAVITIES)
