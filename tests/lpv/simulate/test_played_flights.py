"""Simulated flights as they are played: the same places, events and words, and drawings that keep to their rules."""

import pytest

from lpv.drawing.check import faults
from lpv.figures.figure import drawn
from lpv.figures.replay import read
from lpv.figures.run import figure
from lpv.simulate.replay import MAX_SAMPLES, replay_text
from lpv_site.department.data import DOCS
from lpv_site.pages.flight_page import flown, scenarios

TOLERANCE_FT = 60.0  # between samples a few seconds apart, in a turn or a pull-up


def test_replay_matches_flight_and_drawing_rules_hold():
    """In one test: every flight takes seconds to fly, in each process that runs one of its tests."""
    for of in scenarios():
        flight = flown(DOCS, of)
        _is_the_flight(flight)
        _drawing_keeps_to_the_rules(flight)


def _is_the_flight(story):
    flight, of = story.flight, read(replay_text(story.flight))
    assert len(of.samples) <= 3 * MAX_SAMPLES, flight.scenario.slug
    for sample in flight.samples:
        here = of.at(sample.time_s)
        assert here.altitude_ft == pytest.approx(sample.indicated_ft, abs=TOLERANCE_FT)
        assert here.across_ft == pytest.approx(sample.across_ft, abs=TOLERANCE_FT)
        shown = dict(line.split(": ", 1) for line in sample.words)
        assert dict(of.announced(sample.time_s + 0.06)) == shown or sample.words != _words_after(flight, sample.time_s)
    happened = [moment.what.replace(";", ",") for moment in flight.moments if moment.sample]
    assert [words for _, words in of.events] == happened, flight.scenario.slug


def _words_after(flight, time_s):
    """What is announced a moment after a time."""
    later = [moment.words for moment in flight.moments if moment.sample and moment.sample.time_s <= time_s + 0.06]
    return later[-1] if later else None


def _drawing_keeps_to_the_rules(story):
    text, live = replay_text(story.flight), figure("live-flight")
    for time_s, words in read(text).events:
        result = drawn(live, {"flight": text, "time_s": str(int(time_s + 0.999))})
        assert not result.refused
        assert not faults(result.svg) + result.dropped, (story.flight.scenario.slug, time_s, words)
