"""The DA of the LPV line: one rule for simulated flights, recorded flights and the set-up check."""

import dataclasses
from pathlib import Path

from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.decide.minimum import minimum
from lpv.setup.expected import Expected
from lpv.setup.records import Setup, Side
from lpv.simulate import scenario
from lpv.simulate.setting import make_setting
from lpv.track.target import Target

DOCS = Path(__file__).resolve().parents[3] / "docs"


def test_heights_from_threshold_without_touchdown_zone():
    chart = approach.read(DOCS / "approaches" / "zzeg-rnp-24.toml").chart
    assert dataclasses.replace(chart, threshold_elevation_ft=40.0, tdze_ft=45.0).touchdown_zone_ft == 45.0
    assert dataclasses.replace(chart, threshold_elevation_ft=40.0, tdze_ft=0.0).touchdown_zone_ft == 0.0
    assert dataclasses.replace(chart, threshold_elevation_ft=40.0, tdze_ft=None).touchdown_zone_ft == 40.0


def test_simulation_recording_and_set_up_use_same_minimum():
    approaches = {of.slug: of for of in approach.read_all(DOCS / "approaches")}
    types = {flown.slug: flown for flown in aircraft.read_all(DOCS / "aircraft")}
    compared = 0
    for flight in scenario.read_all(DOCS / "modes" / "scenarios"):
        if flight.story.minimum_ft is not None:
            continue
        of, flown = approaches[flight.story.approach], types[flight.story.aircraft]
        used_ft = make_setting(flight, of, flown).minimum_ft
        assert used_ft == Target(of, flown).minimum_ft()
        assert used_ft == minimum(of, "LPV", flown.type.category, flown.operator).altitude_ft
        assert used_ft == Expected(of, flown).minimum("LPV", Setup(None, Side("left"), Side("right"))).altitude_ft
        compared += 1
    assert compared > 3
