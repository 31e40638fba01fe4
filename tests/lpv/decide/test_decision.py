"""The DA of the LPV line: one rule for simulated flights, recorded flights and the set-up check."""

import dataclasses
from pathlib import Path

import pytest

from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.core.errors import DomainError
from lpv.decide.decision import charted_da_ft, da_to_use_ft
from lpv.setup.file import wanted
from lpv.simulate import scenario
from lpv.simulate.setting import make_setting
from lpv.track.target import Target

DOCS = Path(__file__).resolve().parents[3] / "docs"
LINES = [("AB", 300.0), ("CD", 350.0)]


@pytest.mark.parametrize(("category", "expected"), [("A", 300.0), ("B", 300.0), ("C", 350.0), (None, 300.0)])
def test_the_line_of_the_category(category, expected):
    assert charted_da_ft("zzak", LINES, category) == expected


def test_no_line_for_the_category():
    with pytest.raises(DomainError, match="zzak: found no LPV minimum for category E"):
        charted_da_ft("zzak", LINES, "E")
    assert charted_da_ft("zzak", [], "E") is None
    assert charted_da_ft("zzak", [], None) is None


@pytest.mark.parametrize(("altitude_ft", "expected"), [
    (224.0, 274.0), (273.0, 274.0), (274.0, 274.0), (275.0, 275.0), (-50.0, 274.0),
])
def test_not_under_the_operators_height(altitude_ft, expected):
    assert da_to_use_ft(altitude_ft, 24.0, 250.0) == expected


def test_heights_count_from_the_threshold_where_no_touchdown_zone_is_printed():
    chart = approach.read(DOCS / "approaches" / "zzeg-rnp-24.toml").chart
    assert dataclasses.replace(chart, threshold_elevation_ft=40.0, tdze_ft=45.0).touchdown_zone_ft == 45.0
    assert dataclasses.replace(chart, threshold_elevation_ft=40.0, tdze_ft=0.0).touchdown_zone_ft == 0.0
    assert dataclasses.replace(chart, threshold_elevation_ft=40.0, tdze_ft=None).touchdown_zone_ft == 40.0


def test_simulated_and_recorded_flights_and_the_set_up_check_use_the_same_minimum():
    approaches = {of.slug: of for of in approach.read_all(DOCS / "approaches")}
    types = {flown.slug: flown for flown in aircraft.read_all(DOCS / "aircraft")}
    compared = 0
    for told in scenario.read_all(DOCS / "modes" / "scenarios"):
        if told.story.minimum_ft is not None:
            continue
        of, flown = approaches[told.story.approach], types[told.story.aircraft]
        used_ft = make_setting(told, of, flown).minimum_ft
        asked = wanted(of, flown)
        assert used_ft == Target(of, flown).minimum_ft()
        assert used_ft == max(asked.line("LPV").altitude_ft, asked.lowest_da_ft)
        compared += 1
    assert compared > 3
