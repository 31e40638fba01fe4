"""One answer per question: the minimum, through every way out, for approaches with rows in any order.

Briefing, card, calculator, planning sheet, set-up check (file and form), drill, simulation and recording are asked for
the demo's approaches and types, and for approaches whose chart prints two LPV rows by category, LNAV first or last.
"""

import json
import re
from dataclasses import replace
from itertools import permutations, product

import pytest

from approach_variants import demo, jet, row, with_minima
from demo.approaches import FOLDER
from lpv.approach.record import read_all
from lpv.core.errors import DomainError
from lpv.core.text import number
from lpv.decide.lines import row_for
from lpv.decide.minimum import Day, minimum, printed_visibility_sm
from lpv.drill.base import base_case
from lpv.drill.case import Pick
from lpv.files.json_form import as_text, to_json
from lpv.plan.lines import usable, visibility_in_words
from lpv.plan.sheet import read as read_plan
from lpv.setup.checks import check
from lpv.setup.expected import Expected
from lpv.setup.form import run
from lpv.setup.records import Setup, Side
from lpv.simulate import scenario
from lpv.simulate.setting import make_setting
from lpv.track.target import Target
from lpv_site.briefing.briefing import build_briefing_page
from lpv_site.figures.figure import fill
from lpv_site.forms.calculator_figures import approach_figures

JETS = (jet("light-jet"), jet("large-jet"))
ROWS = (row("LNAV", "ABCD", 480.0), row("LPV", "AB", 224.0), row("LPV", "CD", 324.0), row("circling", "ABCD", 660.0))
GENERATED = [with_minima(demo(), *rows) for rows in permutations(ROWS)][::5]
DEMO = [each for each in read_all(FOLDER) if row_for(each, "LPV")]
PLAN = next(read_plan(path) for path in sorted((FOLDER.parent / "plan").glob("*.toml")))
STORY = next(each for each in scenario.read_all(FOLDER.parent / "modes" / "scenarios") if each.story.minimum_ft is None)
MILD = Day(15.0)
CASES = list(product([*GENERATED, *DEMO], JETS))


def expected_ft(approach, aircraft):
    """By hand: the row of the category, not under the operator's lowest height above the touchdown zone."""
    rows = [each for each in approach.chart.minima if each.line == "LPV" and aircraft.type.category in each.categories]
    zone_ft = approach.chart.threshold_elevation_ft if approach.chart.tdze_ft is None else approach.chart.tdze_ft
    return max(rows[0].altitude_ft, zone_ft + aircraft.operator.lowest_da_above_tdze_ft)


@pytest.mark.parametrize(("approach", "aircraft"), CASES)
def test_decision_set_up_simulation_and_recording(approach, aircraft):
    expected = expected_ft(approach, aircraft)
    category, operator = aircraft.type.category, aircraft.operator
    assert minimum(approach, "LPV", category, operator, MILD).altitude_ft == expected
    mild = Setup(None, Side("left"), Side("right"), temperature_c=15.0)
    assert Expected(approach, aircraft).minimum("LPV", mild).altitude_ft == expected
    assert Target(approach, aircraft).minimum_ft() == expected
    story = replace(STORY, story=replace(
        STORY.story, approach=approach.slug, aircraft=aircraft.slug, weight_lb=aircraft.landing.max_weight_lb))
    assert make_setting(story, approach, aircraft).minimum_ft == expected


@pytest.mark.parametrize(("approach", "aircraft"), CASES)
def test_drill_and_form(approach, aircraft):
    expected = expected_ft(approach, aircraft)
    try:
        case = base_case(approach, aircraft, Pick("one answer"), 15.0)
    except DomainError:
        pytest.skip("no missed approach altitude")
    assert case.setup.left.minimum_ft == round(expected)
    for set_ft, grade in ((expected, "ok"), (expected - 100.0, "stop")):
        entries = {"left_level": "LPV", "left_minimum_ft": f"{set_ft:.0f}", "temperature_c": "15"}
        answer = json.loads(run(as_text(to_json(approach)), as_text(to_json(aircraft)), json.dumps(entries)))
        grades = [each["grade"] for each in answer["findings"]
                  if each["key"].startswith("set-minimum") and each["key"] != "set-minimum-kind"
                  and each["about"] == "left"]
        assert grades == [grade]


@pytest.mark.parametrize("approach", GENERATED)
@pytest.mark.parametrize("aircraft", JETS)
def test_planning_sheet(approach, aircraft):
    flight = replace(PLAN.scenario.flight, temperature_c=15.0, remote_addition_ft=None, zone_not_clear=False)
    case = replace(PLAN, scenario=replace(PLAN.scenario, flight=flight), approach=approach, aircraft=aircraft)
    planned = {each.line: each.minimum for each in usable(case)}
    if "LPV" in planned:
        assert planned["LPV"].altitude_ft == expected_ft(approach, aircraft)
    assert planned["LNAV"].altitude_ft == 480.0 + aircraft.operator.above_mda_ft


@pytest.mark.parametrize("approach", [*GENERATED, *DEMO])
def test_briefing_card_and_calculator(approach):
    text = re.sub(r"<[^>]*>", " ", fill(build_briefing_page(approach)))
    rows = [each for each in approach.chart.minima if each.line == "LPV"]
    for each in rows:
        assert number(each.altitude_ft) in text
    if len(rows) > 1:
        for each in rows:
            assert f"{number(each.altitude_ft)}\u202fft ({each.categories})" in text, "on the strip and on the card"
        assert text.count("LPV DA 224") == text.count("LPV DA 324"), "a card of the decision for each row"
    assert approach_figures(approach)["approach.da_ft"] == max(each.altitude_ft for each in rows)


@pytest.mark.parametrize("printed", [{"visibility_sm": 1.75}, {"visibility_m": 1500.0}, {"rvr_ft": 2400.0}])
def test_printed_visibility(printed):
    """One way to write it on briefing, card, planning sheet and cross-check; one length behind all of them."""
    approach = with_minima(demo(), row("LPV", "ABCD", 224.0, **printed))
    line = approach.chart.minima[0]
    expected, length_ft = {
        1.75: ("1 3/4\u202fSM", 9240.0), 1500.0: ("1500\u202fm", 4921.26), 2400.0: ("RVR 2400\u202fft", 2400.0),
    }[next(iter(printed.values()))]
    page = re.sub(r"<[^>]*>", " ", fill(build_briefing_page(approach)))
    assert f"224\u202fft, {expected}" in page, "on the card"
    assert page.count(expected) >= 3, "on the card, in the table and in what only the chart states"
    assert visibility_in_words(line).endswith(expected)
    assert approach_figures(approach)["approach.visibility_ft"] == pytest.approx(length_ft, abs=0.01)
    assert printed_visibility_sm(line, "ICAO") == pytest.approx(length_ft / 5280.0, abs=1e-5)


@pytest.mark.parametrize("more_ft", [0.5, 1.5, 0.25])
def test_half_foot_in_drill(more_ft):
    """What a drill sets and what the set-up check says to set are rounded alike: halves up."""
    approach = with_minima(demo(), row("LPV", "ABCD", 300.0 + more_ft))
    case = base_case(approach, JETS[0], Pick("half"), 15.0)
    assert case.setup.left.minimum_ft == {0.5: 301.0, 1.5: 302.0, 0.25: 300.0}[more_ft]
    below = Setup(None, Side("left", level="LPV", minimum_ft=100.0), Side("right"), temperature_c=15.0)
    rows = [each for each in check(below, Expected(approach, JETS[0])) if each.about == "left"]
    action = next(each.action for each in rows if each.key in ("set-minimum-low", "set-minimum-floor"))
    assert action == f"Set {number(case.setup.left.minimum_ft)}\u202fft."
