"""The figure of a sequence of events: its lanes, its boxes, and what the pages' figures claim."""

import re

import pytest

from lpv.modes.annunciation import timeline
from lpv.modes.machine import run
from lpv.modes.rules import usual_rules
from lpv_site.figures.figure import fill
from lpv_site.figures.mode_figures import Cell, lanes_for, spans, timeline_figure

ON_PATH = ["take off", "load SBAS approach", "activate approach", "select SBAS", "arm approach", "course reached",
           "path reached from below"]


def states(events, start, **other):
    rules = usual_rules(**other)
    return [moment.state for moment in timeline(events, rules, run(start, rules))]


def test_spans_cover_every_moment_once():
    cells = [Cell("armed"), Cell("armed"), Cell("captured"), Cell("armed")]
    assert spans(cells) == [(0, 2), (2, 3), (3, 4)]
    assert spans([Cell("lost")]) == [(0, 1)]


@pytest.mark.parametrize(
    ("selector", "tuned", "first"),
    [("shared", "tune localizer", "source"), ("per side", "tune localizer, monitoring side", "flying side")],
)
def test_two_sources_get_two_lanes(selector, tuned, first):
    rules = usual_rules(source_control=selector)
    moments = timeline(["take off", tuned], rules)
    lanes = [name for name, _ in lanes_for(moments, rules)]
    assert lanes[0] == first
    assert len(lanes) == 4


def test_figure_states_every_event_and_marks_losses():
    events = ["vertical guidance lost", "go around"]
    rules = usual_rules()
    page = fill(timeline_figure("t", events, rules, finding="It is lost.", set_up=ON_PATH, answer="go around"))
    rows = re.findall(r"<tr><td>(.*?)</td>", page)
    assert rows == ["before", *events]
    assert "✕ lost" in page
    assert "LPV, no vertical" in page


def test_nothing_captured_before_selecting_and_arming():
    for state in states(["activate approach", "course reached", "path reached from below", "select SBAS",
                         "course reached", "path reached from below"], ["take off", "load SBAS approach"]):
        assert (state.lateral, state.vertical) == ("inactive", "inactive")


def test_arming_with_selector_off_follows_localizer():
    *_, last = states(["selector off", "arm approach", "course reached"], ["tune localizer", *ON_PATH])
    assert (last.lateral, last.level) == ("captured", "LPV")
    assert last.selected == ("ILS", "ILS")


def test_path_never_returns_inside_pfaf():
    reached = states(["vertical guidance lost", "signal returns", "arm approach", "activate approach"],
                   [*ON_PATH, "PFAF passed"])
    assert [state.vertical for state in reached] == ["captured", *["lost"] * 4]
    assert {state.lateral for state in reached} == {"captured"}


def test_activating_and_arming_before_pfaf_restores_path():
    reached = states(["vertical guidance lost", "signal returns", "activate approach", "arm approach",
                    "path reached from below"], ON_PATH[:-1])
    assert [state.missing for state in reached] == ["nothing", "vertical", "vertical", *["nothing"] * 3]
    assert [state.vertical for state in reached][-3:] == ["lost", "armed", "captured"]


def test_selector_on_again_is_not_enough():
    reached = states(["selector off", "select SBAS", "arm approach", "course reached"], [*ON_PATH, "PFAF passed"])
    assert [state.lateral for state in reached] == ["captured", "lost", "lost", "armed", "captured"]


def test_ils_not_armed_with_selector_on():
    reached = states(["land", "take off", "load ILS approach", "tune localizer", "activate approach", "arm approach",
                    "selector off", "arm approach"],
                   ["take off", "load SBAS approach", "activate approach", "select SBAS"])
    assert [state.lateral for state in reached] == [*["inactive"] * 8, "armed"]
