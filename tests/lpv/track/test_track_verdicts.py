"""Three answers: within, outside, too close to say; not judged where nothing can be compared; the gates."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lpv.decide.stabilised import GATES, Gate
from lpv.track.points import Crossing, Point
from lpv.track.verdicts import (
    MARKS,
    NOT_JUDGED,
    OUTSIDE,
    PLAIN_MARKS,
    TOO_CLOSE,
    WITHIN,
    WORST_FIRST,
    Comparison,
    Unsure,
    judge,
    within_dots,
    worst,
)

GATE = Gate("Own", 1000.0, "airport elevation", slowest_kt=0.0, fastest_kt=20.0, sink_rate_fpm=1000.0,
            lateral_dots=1.0, vertical_dots=1.0, bank_deg=15.0, required=("landing configuration",))


def judged(gate=GATE, gap_s=0.0, unsure=0.1, unsure_fpm=50.0, reason="", **values):
    fields = {"course_dots": 0.0, "path_dots": 0.0, "sink_fpm": 700.0} | values
    at = Point(0.0, 1, 0, 3.0, 0.0, true_ft=1000.0, indicated_ft=1000.0, above_ft=0.0, **fields)
    return judge(gate, 1031.0, Crossing(at, gap_s), Unsure(unsure, unsure, unsure_fpm, reason))


@pytest.mark.parametrize(("value", "low", "high", "verdict"), [
    (0.0, None, 10.0, WITHIN), (5.0, None, 10.0, WITHIN), (5.1, None, 10.0, TOO_CLOSE), (14.9, None, 10.0, TOO_CLOSE),
    (15.0, None, 10.0, OUTSIDE), (-20.0, -10.0, 10.0, OUTSIDE), (-16.0, -10.0, None, OUTSIDE),
    (9.0, -10.0, 10.0, TOO_CLOSE), (None, None, 10.0, NOT_JUDGED), (3.0, None, None, NOT_JUDGED),
])
def test_whole_uncertainty_must_be_on_one_side(value, low, high, verdict):
    assert Comparison("x", "ft", value, 5.0, low, high).verdict == verdict


def test_reason_not_to_judge_wins():
    assert Comparison("x", "ft", 99.0, 0.0, None, 1.0, "altitudes in doubt").verdict == NOT_JUDGED


def test_exact_limit_within_without_uncertainty():
    assert Comparison("x", "ft", 10.0, 0.0, None, 10.0).verdict == WITHIN
    assert Comparison("x", "ft", 10.1, 0.0, None, 10.0).verdict == OUTSIDE


@given(st.floats(-100, 100), st.floats(0, 50), st.floats(-50, 50), st.floats(0, 50))
def test_verdicts_never_wrong_within_stated_error(truth, uncertainty, limit, width):
    """Whatever the error, if it is no larger than stated: outside means beyond the limit, within means not."""
    for share in (-1.0, -0.5, 0.0, 0.99):
        verdict = Comparison("x", "ft", truth + share * uncertainty, uncertainty, limit - width, limit).verdict
        if verdict == OUTSIDE:
            assert not limit - width + 1e-6 < truth < limit - 1e-6
        if verdict == WITHIN:
            assert limit - width - 1e-6 <= truth <= limit + 1e-6


@given(st.floats(0.1, 50), st.floats(-1, 1))
def test_beyond_twice_uncertainty_always_outside(uncertainty, share):
    truth = 10.0 + 2.0 * uncertainty + 0.01
    assert Comparison("x", "ft", truth + share * uncertainty, uncertainty, None, 10.0).verdict == OUTSIDE


def test_words():
    rate = Comparison("rate of descent", "ft/min", 1046.4, 170.2, None, 1000.0)
    assert (rate.recorded(), rate.limit()) == ("1046 ± 170\u202fft/min", "at most 1000\u202fft/min")
    assert within_dots("x", -1.25, 0.2, 1.0).recorded() == "1.3 ± 0.2\u202fdots"
    assert within_dots("x", 0.5, 0.0, 1.0).recorded() == "0.5\u202fdots"
    assert within_dots("x", 0.5, 0.0, 1.0).limit() == "at most 1.0\u202fdot"
    assert Comparison("x", "ft", None, 1.0, 27.0, 77.0).recorded() == "not recorded"
    assert Comparison("x", "ft", 1.0, 1.0, 27.0, 77.0).limit() == "27\u202fft to 77\u202fft"
    assert Comparison("x", "ft", 1.0, 1.0, 27.0).limit() == "at least 27\u202fft"
    assert Comparison("x", "ft", 1.0, 1.0).limit() == "no limit"


def test_worst_counts():
    assert worst([WITHIN, TOO_CLOSE, WITHIN]) == TOO_CLOSE
    assert worst([NOT_JUDGED, WITHIN]) == NOT_JUDGED
    assert worst([TOO_CLOSE, OUTSIDE, NOT_JUDGED]) == OUTSIDE
    assert worst([]) == ""
    assert set(MARKS) == set(PLAIN_MARKS) == {*WORST_FIRST, ""}
    assert len(set(MARKS.values())) == len(MARKS)


def test_all_within_and_rest_named():
    verdicts = judged()
    assert verdicts.verdict == WITHIN
    assert [item.item for item in verdicts.items] == ["rate of descent", "course deviation", "glidepath deviation"]
    assert verdicts.not_recorded == ("airspeed", "bank", "landing configuration")


@pytest.mark.parametrize(("values", "verdict"), [
    ({"sink_fpm": 949.0}, WITHIN), ({"sink_fpm": 1001.0}, TOO_CLOSE), ({"sink_fpm": 1051.0}, OUTSIDE),
    ({"sink_fpm": -500.0}, WITHIN), ({"course_dots": -1.2}, OUTSIDE), ({"course_dots": 1.05}, TOO_CLOSE),
    ({"path_dots": 0.8}, WITHIN), ({"path_dots": -0.95}, TOO_CLOSE), ({"path_dots": 50.0}, OUTSIDE),
    ({"path_dots": 0.95, "sink_fpm": 1500.0}, OUTSIDE),
])
def test_limits_and_near_limits(values, verdict):
    assert judged(**values).verdict == verdict


def test_doubtful_altitudes_leave_course_judged():
    verdicts = judged(reason="altitudes in doubt", sink_fpm=3000.0, path_dots=5.0, course_dots=0.0)
    assert [item.verdict for item in verdicts.items] == [NOT_JUDGED, WITHIN, NOT_JUDGED]
    assert verdicts.verdict == NOT_JUDGED


def test_unknown_values_not_judged():
    bare = judged(path_dots=None, sink_fpm=None)
    assert [item.item for item in bare.items] == ["course deviation"]
    assert (judged(gap_s=12.0).items, judged(gap_s=12.0).verdict) == ((), "")
    never = judge(GATE, 1031.0, None, Unsure(0.1, 0.1, 50.0))
    assert (never.at, never.items, never.verdict) == (None, (), "")


def test_literature_gates_keep_own_limits():
    verdicts = {gate.name: judged(gate=gate, path_dots=3.0) for gate in GATES}
    assert verdicts["ALAR, visual conditions"].verdict == OUTSIDE
