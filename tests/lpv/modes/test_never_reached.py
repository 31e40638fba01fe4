"""What a type never gets to, and what it does in the cases by which an author confirms it."""

from itertools import pairwise

import pytest

from lpv.modes.cases import LEFT_TUNED, cases
from lpv.modes.exploration import explore, single_events
from lpv.modes.machine import step
from lpv.modes.reached import FMS_MODE, decided_by, never_reached, never_words
from lpv.modes.rules import FMS, ILS, SBAS, USUAL_SOURCES, Source, usual_rules
from lpv.modes.state import START, lateral_source, start
from lpv.modes.ways import on_path, shortest_way

BY_CONTROL = {"sources": tuple(
    Source(name, selected_by=("its control", "another taken away") if name == FMS else ("its control",))
    for name in (SBAS, ILS, FMS))}
BY_PROCEDURE = {"source_control": "none", "sources": (
    *[Source(name, selected_by=("activating its approach",), removed_by=("loading another approach", "landing"))
      for name in (SBAS, ILS)],
    Source(FMS, selected_by=("another taken away",)))}
NEVER = [
    ({}, ()),
    ({"best_level": "LNAV"}, ()),  # no glidepath is missed where the level has none
    ({"captures_from": "FMS lateral only", "fms_lateral": "with FMS selected", **BY_CONTROL},
     ((SBAS, "captured"), (ILS, "captured"))),
    ({"arming_needs": ("a guiding source", "a level of service"), **BY_PROCEDURE}, ((ILS, "armed"),)),
    ({"arming_needs": ("a guiding source", "a level of service")}, ((ILS, "armed"),)),  # only beside an SBAS approach
    ({"fms_lateral": "with FMS selected", "sources": (
        USUAL_SOURCES[0], Source(ILS, selected_by=("another taken away",)))}, ((FMS_MODE, "flown before the FAF"),)),
]


@pytest.mark.parametrize(("other", "never"), NEVER, ids=lambda part: str(len(part)))
def test_source_that_never_guides_reported(other, never):
    rules = usual_rules(**other)
    explored = explore(rules)
    assert explored.never == never
    assert explored.broken == ()
    assert ("captured-has-source" in explored.untested) == (len(never) == 2)
    for name in (SBAS, ILS):  # an independent search for its capture
        events = [event for event in single_events(rules) if name == SBAS or event != "load SBAS approach"]
        way = shortest_way(
            start(rules), tuple(events), rules,
            lambda state, name=name: state.lateral == "captured" and lateral_source(state, rules) == name)
        assert (way is None) == (name in dict(never))


def test_keys_that_decide_named():
    rules = usual_rules(**NEVER[2][0])
    assert decided_by(SBAS, "captured", rules) == (
        'captures_from = "FMS lateral only"', 'fms_lateral = "with FMS selected"',
        'selected_by of SBAS = ["its control"]')
    rules = usual_rules(**NEVER[3][0])
    assert 'arming_needs = ["a guiding source", "a level of service"]' in decided_by(ILS, "armed", rules)
    assert decided_by(FMS_MODE, "flown before the FAF", usual_rules(fms_lateral="with FMS selected"))[0] == (
        'fms_lateral = "with FMS selected"')
    assert never_words(FMS_MODE, "flown before the FAF") == (
        "The FMS lateral mode is never flown before the FAF: "
        "no sequence of events leads to it.")


def test_glidepath_missed_only_after_course():
    rules = usual_rules(sources=(USUAL_SOURCES[0], USUAL_SOURCES[2]))
    armed = START.but(phase="outside", approach=SBAS, active=True, selected=(SBAS, SBAS), level="LPV", lateral="armed")
    captured = armed.but(lateral="captured")
    flying = START.but(phase="outside", fms=True)
    way = [START, flying, armed, captured, captured.but(vertical="captured")]
    steps = [(before, "", after) for before, after in pairwise(way)]
    missing = [never_reached(START, steps[:count], rules) for count in range(1, 5)]
    assert missing == [((SBAS, "armed"),), ((SBAS, "captured"),), ((SBAS, "captured on its glidepath"),), ()]
    assert never_reached(START, steps[1:], rules)[0] == (SBAS, "armed")  # nothing leads there from the start


def test_untested_property_named():
    assert explore(usual_rules()).untested == ("autopilot-off-announced",)
    assert explore(usual_rules(autopilot_at_go_around="disconnects")).untested == ()


def shown(**other):
    return {case.what: (case.source, case.level, case.lateral, case.vertical, case.autopilot)
            for case in cases(usual_rules(**other))}


def test_cases_of_usual_type_by_hand():
    sbas, both = "SBAS on both sides", ("captured", "captured")
    lost, stays = "basic mode, lost", "stays engaged"
    assert shown() == {
        "as flown, inside the FAF": (sbas, "LPV", *both, ""),
        "all SBAS guidance lost inside the FAF":
            ("SBAS without guidance on both sides", "LPV, lost", lost, lost, stays),
        "SBAS vertical lost inside the FAF": (sbas, "LPV, vertical lost", "captured", lost, stays),
        "SBAS falls to LNAV/VNAV before the FAF": (sbas, "LPV, vertical lost", "captured", lost, stays),
        "SBAS falls to LNAV/VNAV inside the FAF": (sbas, "LPV, vertical lost", "captured", lost, stays),
        "and all is back": (sbas, "LPV, vertical lost", "captured", lost, stays),
        "localizer tuned inside the FAF": (sbas, "LPV", *both, stays),
        "go-around inside the FAF": (FMS + " on both sides", "none", "FMS lateral", "fixed pitch", stays),
        "landed": ("SBAS without guidance on both sides", "none", "basic mode", "basic mode", ""),
        "power removed and restored": (FMS + " on both sides", "none", "basic mode", "basic mode", ""),
        LEFT_TUNED: ("ILS on both sides", "LPV", "basic mode", "basic mode", ""),
    }


def test_cases_follow_rules():
    assert shown(autopilot_after_loss="disconnects")["all SBAS guidance lost inside the FAF"][4] == (
        "disconnects: course and glidepath lost")
    assert shown(go_around="by hand alone")["go-around inside the FAF"][2:] == (
        "basic mode", "basic mode", "as the crew sets it")
    assert shown(**BY_CONTROL)["power removed and restored"][0] == "SBAS without guidance on both sides"


def test_barometric_path_holds_level_at_lnav_vnav():
    """What the page on the aircraft file says of LPV, LNAV/VNAV, LNAV and baro-VNAV."""
    for how, event, level in (
        ("falls to the level supported", "signal falls to LNAV/VNAV", ("LNAV/VNAV", "nothing")),
        ("falls to the level supported", "vertical guidance lost", ("LNAV/VNAV", "nothing")),
        ("falls to LNAV", "vertical guidance lost", ("LNAV", "nothing")),
        ("stays, flagged", "vertical guidance lost", ("LPV", "vertical")),
    ):
        rules = usual_rules(baro_vnav="approved", level_falls_inside=how)
        after = step(on_path(rules, True), event, rules)
        assert (after.level, after.missing) == level
        assert (after.lateral, after.vertical) == ("captured", "lost")
