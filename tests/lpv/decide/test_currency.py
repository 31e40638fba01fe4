"""Whether data are in force on a day: cycle 2612 holds from 2026-11-26 to 2026-12-24 (28 days)."""

import pytest

from lpv.core.airac import ordinal
from lpv.decide.currency import currency


@pytest.mark.parametrize(("day", "grade", "words"), [
    ((2026, 11, 25), "stop", "not yet in force"), ((2026, 11, 26), "ok", "in force"),
    ((2026, 12, 23), "ok", "in force"),
    ((2026, 12, 24), "stop", "has ended"),
])
def test_cycle_edges(day, grade, words):
    answer = currency("2612", ordinal(*day))
    assert answer.grade == grade
    assert words in answer.reason


def test_nothing_to_compare():
    assert currency(None, ordinal(2026, 12, 1)).grade == "not compared"
    assert currency("2612", None).grade == "not compared"
    assert currency(None, ordinal(2026, 12, 1)).in_force == "2612"
