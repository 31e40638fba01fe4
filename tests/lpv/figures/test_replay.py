"""A flight in a line of text, and what is told of a moment of it."""

from random import Random

import pytest

from live_cases import flight
from lpv.core.errors import DomainError
from lpv.figures.figure import drawn
from lpv.figures.flight import FLIGHT
from lpv.figures.replay import Flight, Sample, read, written
from lpv.figures.run import figure

ABOUT = {"time_s": 0.051, "along_nm": 0.00051, "across_ft": 0.51, "altitude_ft": 0.51, "above_ft": 0.51,
         "ground_kt": 0.51}


@pytest.mark.parametrize("seed", range(20))
def test_written_replay_read_back(seed):
    text = flight(Random(seed))
    replay = read(text)
    assert written(replay) == text
    assert written(read(written(replay))) == text


def test_only_rounding_lost():
    before = Flight([Sample(0.04, 8.12345, -600.4, 2000.4, None, 150.4), Sample(9.0, 1.0, 2.0, 3.0, -4.0, 5.0)],
                    [(3.0, "Gear; down|now~")], [(0.0, "lateral", "captured")])
    after = read(written(before))
    for first, other in zip(before.samples, after.samples, strict=True):
        for name, tolerance in ABOUT.items():
            value = getattr(first, name)
            assert getattr(other, name) == (None if value is None else pytest.approx(value, abs=tolerance))
    assert after.events == [(3.0, "Gear, down/now-")]
    assert after.modes == before.modes


@pytest.mark.parametrize("text", [
    "", "s", "s|0|1|2|3|4|5", "s|0|1|2|3|4|5;s|1|x|2|3|4|5", "s|1|1|2|3|4|5;s|0|1|2|3|4|5", f"{FLIGHT};e|9",
    f"{FLIGHT};e|1e9|x", f"{FLIGHT};m|nan|a|b", f"{FLIGHT};s|9|9|9|9|9",
])
def test_anything_else_refused(text):
    with pytest.raises(DomainError, match="no flight that the handbook wrote"):
        read(text)


def test_linear_between_samples():
    of = read("s|0|8|-600|2000|-500|150;s|10|6|400|1000||100;s|20|5|0|900|10|90")
    here = of.at(2.5)
    assert (here.along_nm, here.across_ft, here.altitude_ft, here.ground_kt) == (7.5, -350.0, 1750.0, 137.5)
    assert here.above_ft is None
    assert of.at(0.0).above_ft is None
    assert of.at(15.0).above_ft is None
    assert (of.at(99.0).altitude_ft, of.at(99.0).above_ft) == (900.0, 10.0)


def test_announcement_at_time():
    of = read(FLIGHT + ";m|100|lateral|;m|120|lateral|armed")
    assert dict(of.announced(44.9)) == {
        "source": "SBAS on both sides", "lateral": "basic mode, armed", "vertical": "basic mode, armed"}
    assert dict(of.announced(45.0))["lateral"] == "captured"
    assert "lateral" not in dict(of.announced(110.0))
    assert of.stretches("lateral") == [
        (0.0, 45.0, "basic mode, armed"), (45.0, 100.0, "captured"), (100.0, 120.0, ""), (120.0, 205.0, "armed")]


def test_from_event_to_event():
    of = read("s|0|8|0|2000||150;s|90|6|0|1000||100;e|0|a;e|44.3|b;e|44.9|c;e|78|d")
    assert of.jumps(0.0) == (None, 45.0)
    assert of.jumps(45.0) == (0.0, 78.0)
    assert of.jumps(60.0) == (45.0, 78.0)
    assert of.jumps(78.0) == (45.0, None)


def test_stepped_event_has_happened():
    """The dial holds whole seconds: the words of an event are told at the second that it is stepped to."""
    result = drawn(figure("live-flight"), {"flight": FLIGHT.replace("e|45|", "e|44.3|"), "time_s": "10"})
    assert result.jumps == ["0", "45"]
    assert "Last: course reached." in drawn(
        figure("live-flight"), {"flight": FLIGHT.replace("e|45|", "e|44.3|"), "time_s": "45"}).finding


def test_last_event_is_last():
    """A flight ends within a second; the dial goes to the end of that second."""
    text = "s|0|8|0|2000||150;s|90.4|6|0|1000||100;e|0|a;e|90.4|The flight ends"
    assert drawn(figure("live-flight"), {"flight": text, "time_s": "90"}).jumps == ["0", "91"]
    assert drawn(figure("live-flight"), {"flight": text, "time_s": "91"}).jumps == ["0", ""]


def test_finding_ends_in_one_full_stop():
    """The moments of a recording are sentences, the events of a scenario are not."""
    for event in ("Course reached", "Course reached."):
        text = FLIGHT.replace("e|45|Course reached", f"e|45|{event}")
        assert drawn(figure("live-flight"), {"flight": text, "time_s": "45"}).finding.endswith("Last: course reached.")


def test_state_constant_after_end():
    ends = [drawn(figure("live-flight"), {"time_s": text}) for text in ("205", "7200")]
    assert ends[0].svg == ends[1].svg
    assert "70\u202fft on the altimeter" in ends[0].finding
