"""Whether altitudes are corrected for cold: by whose rule, and what is said where nobody has decided."""

import pytest

from approach_variants import demo, jet, with_chart, with_operator
from lpv.core.errors import DomainError
from lpv.decide.cold import SEGMENTS, cold

PLAIN = with_chart(demo(), cold_temperature_airport_c=None)
LISTED = with_chart(demo(), cold_temperature_airport_c=-12.0)
OPERATOR = with_operator(jet(), cold_from_c=-5.0).operator


def test_missing_temperature_not_compared():
    answer = cold(LISTED, None)
    assert (answer.due, answer.grade) == (None, "not compared")


@pytest.mark.parametrize(("temperature_c", "due"), [(-12.0, True), (-12.1, True), (-11.9, False)])
def test_chart_decides_at_its_temperature(temperature_c, due):
    answer = cold(LISTED, temperature_c)
    assert answer.due is due
    assert answer.grade == ("note" if due else "ok")


@pytest.mark.parametrize(("temperature_c", "grade"), [(0.0, "resolve"), (-40.0, "resolve"), (0.1, "ok")])
def test_cold_without_rule_never_ok(temperature_c, grade):
    assert cold(PLAIN, temperature_c).grade == grade


@pytest.mark.parametrize(("temperature_c", "due"), [(-5.0, True), (-4.9, False)])
def test_operator_rule_decides(temperature_c, due):
    answer = cold(PLAIN, temperature_c, OPERATOR)
    assert answer.due is due
    assert answer.grade == ("note" if due else "ok")
    assert answer.rule == ("the operator's rule" if due else "")


def test_operator_rule_corrects_all_segments():
    assert cold(PLAIN, -20.0, OPERATOR, ("initial",)).segments == SEGMENTS
    assert cold(LISTED, -20.0, OPERATOR, ("initial",)).segments == ("initial",)


def test_unread_chart_temperature_never_ok():
    unread = with_chart(demo(), cold_temperature_airport_c=None, to_be_filled=("cold_temperature_airport_c",))
    assert cold(unread, 15.0).grade == "not compared"
    assert cold(unread, -1.0).grade == "resolve"
    assert "not been read" in cold(unread, 15.0).reason


def test_marked_segments():
    answer = cold(LISTED, -20.0, None, ("intermediate", "missed"))
    assert [answer.corrects(segment) for segment in SEGMENTS] == [False, True, False, True]
    with pytest.raises(DomainError, match="segment: found finale; allowed"):
        cold(LISTED, -20.0, None, ("finale",))


def test_open_question_names_whole_procedure():
    answer = cold(PLAIN, -20.0)
    assert all(answer.questions(segment) for segment in SEGMENTS)
    assert not any(answer.corrects(segment) for segment in SEGMENTS)


@pytest.mark.parametrize("temperature_c", [-80.1, 60.1, float("nan")])
def test_impossible_temperatures(temperature_c):
    with pytest.raises(DomainError):
        cold(LISTED, temperature_c)
