"""What is right to judge of a mistake, by hand for some of each; and what a drill says of this day and this type."""

from pathlib import Path

import pytest

from lpv.drill.base import announced_levels
from lpv.drill.drills import read_all
from lpv.drill.judgement import ACTIONS, SEVERITIES, SIDES, judgement
from lpv.drill.today import brief
from lpv.setup.expected import Expected

DOCS = Path(__file__).resolve().parents[3] / "docs"
DRILLS = {drill.row.number: drill for drill in read_all(DOCS)}
BY_HAND = {  # drill, mistake -> sides, severity, action
    (1, 0): ({"left"}, "stop", "set"), (2, 0): ({"left"}, "resolve", "set"), (5, 0): ({"left"}, "stop", "load"),
    (6, 0): ({"right"}, "resolve", "set"), (9, 0): ({SIDES[3]}, "resolve", "arm"),
    (10, 0): ({SIDES[3]}, "stop", "database"), (13, 0): ({"both"}, "stop", "set"),
    (15, 0): ({"right", "both"}, "stop", "set"), (16, 0): ({"both"}, "stop", "set"),
    (17, 0): ({"right"}, "stop", "load"),
    (19, 0): ({SIDES[3]}, "stop", "database"), (20, 0): ({SIDES[3]}, "stop", "database"),
    (22, 0): ({SIDES[3]}, "stop", "database"), (28, 0): ({"both"}, "stop", "line"),
    (30, 0): ({"right"}, "stop", "load"),
    (35, 0): ({SIDES[3]}, "resolve", "settle"),
}


@pytest.mark.parametrize(("number", "place"), BY_HAND)
def test_side_severity_and_action(number, place):
    verdict = judgement(DRILLS[number].planted[place])
    sides, severity, action = BY_HAND[number, place]
    assert {SIDES[side] for side in verdict.sides} == sides
    assert SEVERITIES[verdict.severity] == severity
    assert list(ACTIONS)[verdict.action] == action


def test_every_action_and_severity_is_right_somewhere():
    judgements = [judgement(planted) for drill in DRILLS.values() for planted in drill.planted]
    assert {list(ACTIONS)[row.action] for row in judgements} == set(ACTIONS)
    assert {SEVERITIES[row.severity] for row in judgements} >= {"stop", "resolve"}


def test_identity_from_one_block_everywhere():
    """Title, channel and identifier are all those of one procedure: all the chart's, or none of them."""
    for drill in DRILLS.values():
        identity = drill.case.approach.identity
        for side in drill.case.setup.sides():
            same = (side.title == identity.title, side.channel == identity.channel, side.path_id == identity.path_id)
            assert len(set(same)) == 1, drill.row.name


def test_levels_limited_to_those_type_announces():
    for drill in DRILLS.values():
        can = announced_levels(Expected(drill.case.approach, drill.case.aircraft))
        assert {side.level for side in drill.case.setup.sides()} <= set(can), drill.row.name
    lp = {drill.case.aircraft.equipment.lp for drill in DRILLS.values() if drill.base.setup.left.level == "LP"}
    assert lp == {"approved"}


def test_cycle_change_states_hour():
    changes = [drill for drill in DRILLS.values() if "day-of-change" in drill.row.mistakes]
    assert changes
    for change in changes:
        assert int(change.case.hour[:4]) > 901, "after the hour of the United States as well"
    assert all(not drill.case.hour for drill in DRILLS.values() if drill not in changes)


def test_approach_armed_where_type_arms():
    for drill in DRILLS.values():
        capture, across_nm = drill.case.aircraft.capture, abs(drill.case.setup.across_nm)
        if drill.case.aircraft.rules.arming_too_early == "refused" and capture.arms_within_of == "final course":
            assert across_nm <= capture.arms_within_nm, drill.row.name


def test_briefing_matches_day_and_aircraft():
    """Drill 29, -26 deg C: not the 8731 ft of a standard day.  By the ratio of temperatures it is near 8990 ft."""
    rows = {(row.key, row.about): row for row in brief(DRILLS[29].case)}
    words = rows["path-altitude", "GLAZO"].computed
    reads_ft = float(words.split("\u202f")[0])
    assert reads_ft == pytest.approx(8731.0 + (8731.0 - 6498.0) * (15.0 - 12.87 + 26.0) / 247.15, abs=12.0)
    assert "standard day" not in " ".join(row.action for row in rows.values())
    assert "the nose hides" in rows["decision-visibility", "LPV"].computed
