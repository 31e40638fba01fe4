"""Gates on a recording: judged in what it tells, named in what it does not, open where it is too close."""

import pytest

from lpv.decide.stabilised import GATES, Gate
from lpv.track.points import Crossing, Point
from lpv.track.verdicts import VERDICTS, judge, within

GATE = Gate("Own", 1000.0, "airport elevation", slowest_kt=0.0, fastest_kt=20.0, sink_rate_fpm=1000.0,
            lateral_dots=1.0, vertical_dots=1.0, bank_deg=15.0, required=("landing configuration",))


def judged(gate=GATE, gap_s=0.0, unsure=0.1, **values):
    fields = {"course_dots": 0.0, "path_dots": 0.0, "sink_fpm": 700.0} | values
    at = Point(0.0, 1, 0, 3.0, 0.0, true_ft=1000.0, indicated_ft=1000.0, above_ft=0.0, **fields)
    return judge(gate, 1031.0, Crossing(at, gap_s), unsure, unsure)


def test_all_met_in_what_is_told_and_the_rest_is_named():
    found = judged()
    assert found.verdict == "met"
    assert [item.item for item in found.items] == ["rate of descent", "lateral deviation", "vertical deviation"]
    assert found.not_told == ("airspeed", "bank", "landing configuration")


@pytest.mark.parametrize(("values", "verdict"), [
    ({"sink_fpm": 1000.4}, "met"), ({"sink_fpm": 1001.0}, "not met"), ({"sink_fpm": -500.0}, "met"),
    ({"course_dots": -1.2}, "not met"), ({"course_dots": 1.05}, "too close to say"), ({"path_dots": 0.8}, "met"),
    ({"path_dots": -0.95}, "too close to say"), ({"path_dots": 50.0}, "not met"),
    ({"path_dots": 0.95, "sink_fpm": 1500.0}, "not met"),
])
def test_limits_and_what_is_too_close_to_them(values, verdict):
    assert judged(**values).verdict == verdict


def test_what_is_not_known_is_not_judged():
    bare = judged(path_dots=None, sink_fpm=None)
    assert [item.item for item in bare.items] == ["lateral deviation"]
    assert (judged(gap_s=12.0).items, judged(gap_s=12.0).verdict) == ((), "")
    never = judge(GATE, 1031.0, None, 0.1, 0.1)
    assert (never.at, never.items, never.verdict) == (None, (), "")


def test_gates_of_the_literature_keep_their_own_limits():
    found = {gate.name: judged(gate=gate, path_dots=3.0) for gate in GATES}
    assert found["ALAR, instrument conditions"].verdict == "not met"
    assert found["ALAR, visual conditions"].verdict == "not met"


def test_within_a_limit():
    assert (within(0.5, 1.0, 0.2), within(-1.5, 1.0, 0.2), within(0.9, 1.0, 0.2)) == (True, False, None)
    assert within(None, 1.0, 0.2) is None
    assert within(0.5, None, 0.2) is None
    assert set(VERDICTS) == {True, False, None}
