"""Types written from the documentation alone: each flies to the DA and around, in its own words, and has a page."""

from dataclasses import replace
from pathlib import Path

import pytest

from flight_files import files, moment
from lpv.aircraft import record as aircraft
from lpv.modes.ways import set_up_events
from lpv.simulate.simulation import simulate
from lpv_site.pages.aircraft_page import build_aircraft_page

TYPES = {type_.slug: type_ for type_ in aircraft.read_all(Path(__file__).parent / "types")}
# Type -> what is announced at the go-around of lateral, vertical and the mode itself; a sentence of its page
SAYS = {
    "dual-computer": (("wings level", "fixed pitch", "selected"), "Selecting a go-around disconnects the autopilot."),
    "older-jet": (("basic mode", "basic mode", None), "A localizer cannot be tuned while SBAS is the selected source."),
    "shared-selector": (("FMS lateral", "speed", "selected"), "A glidepath met from above is not captured"),
    "utility": (("FMS lateral", "fixed pitch", "selected"), "No control selects the source"),
}


@pytest.mark.parametrize("slug", sorted(SAYS))
def test_type_flies_to_minimum_and_goes_around(slug):
    jet, (story, where, _) = TYPES[slug], files("go-around-at-da")
    set_up = set_up_events(jet.rules)
    flight = simulate(replace(
        story, story=replace(story.story, aircraft=slug, weight_lb=jet.landing.max_weight_lb),
        start=replace(story.start, set_up=set_up, speed_kt=160.0)), where, jet)
    assert moment(flight, "path reached from below").state.level == "LPV"
    assert all(gate.stable for gate in flight.gates)
    assert len(flight.gates) >= 2
    around, expected = moment(flight, "go around"), SAYS[slug][0]
    shown = dict(line.split(": ", 1) for line in around.words)
    assert (shown["lateral"], shown["vertical"], shown.get("go-around")) == expected
    assert flight.ending == "missed approach altitude reached"


def test_type_pages_warn_of_crew_traps():
    assert set(SAYS) == set(TYPES)
    for slug, (_, sentence) in SAYS.items():
        assert sentence in build_aircraft_page(TYPES[slug]), slug
    by_hand = build_aircraft_page(TYPES["older-jet"])
    assert "The go-around is flown by hand." in by_hand
    assert "the lateral mode of a go-around" not in by_hand
