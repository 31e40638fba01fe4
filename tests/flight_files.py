"""The demo's scenarios, flown once for all tests of a worker."""

import functools
from pathlib import Path

from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.simulate import scenario
from lpv.simulate.simulation import simulate

DOCS = Path(__file__).resolve().parents[1] / "docs"
SCENARIOS = DOCS / "modes" / "scenarios"
NAMES = [path.stem for path in sorted(SCENARIOS.glob("*.toml"))]


@functools.cache
def type_of(name):
    """An aircraft of the demo."""
    return aircraft.read(DOCS / "aircraft" / f"{name}.toml")


@functools.cache
def files(name):
    """The scenario, its approach and its aircraft."""
    flown = scenario.read(SCENARIOS / f"{name}.toml")
    return flown, approach.read(DOCS / "approaches" / f"{flown.story.approach}.toml"), type_of(flown.story.aircraft)


@functools.cache
def flown(name, step_s=0.25):
    """The scenario, flown."""
    return simulate(*files(name), step_s)


def moment(flight, key, number=0):
    """A moment with this key."""
    return [moment for moment in flight.moments if moment.key == key][number]
