import math

import pytest

from lpv.core.errors import DomainError
from lpv.decide import minima
from lpv.decide.minima import Situation, usable_lines, verdicts

ALL = ["LPV", "LNAV/VNAV", "LNAV", "circling"]
EVERYTHING = list(minima.APPROVALS)


def reasons(line, way, situation):
    (verdict,) = [v for v in verdicts(situation) if (v.line, v.guidance) == (line, way)]
    assert verdict.allowed == (not verdict.reasons)
    return verdict.reasons


@pytest.mark.parametrize(
    ("announced", "lines"),
    [
        ("LPV", ["LPV", "LNAV/VNAV", "LNAV", "circling"]),
        ("LNAV/VNAV", ["LNAV/VNAV", "LNAV", "circling"]),
        ("LNAV", ["LNAV", "circling"]),
        ("none", []),
    ],
)
def test_announced_level_decides_without_barometric_path(announced, lines):
    approvals = [a for a in EVERYTHING if a != "baro-VNAV"]
    assert usable_lines(Situation(announced, approvals, ALL)) == lines


def test_barometric_path_serves_vnav_when_only_lnav_announced():
    situation = Situation("LNAV", EVERYTHING, ALL)
    assert usable_lines(situation) == ["LNAV/VNAV", "LNAV", "circling"]
    assert reasons("LNAV/VNAV", "barometric", situation) == []
    assert "needs LPV or LNAV/VNAV annunciated" in reasons("LNAV/VNAV", "SBAS", situation)[0]


def test_line_unused_without_approval():
    situation = Situation("LPV", ["LNAV"], ALL)
    assert usable_lines(situation) == ["LNAV"]
    assert "not approved for LPV" in reasons("LPV", "SBAS", situation)[0]
    assert "not approved for baro-VNAV" in reasons("LNAV/VNAV", "barometric", situation)[0]


def test_lp_is_separate_level():
    assert usable_lines(Situation("LP", EVERYTHING, ["LP", "LNAV"])) == ["LP", "LNAV"]
    assert usable_lines(Situation("LPV", EVERYTHING, ["LP", "LNAV"])) == ["LNAV"]
    assert minima.sbas_line_reasons("LP", Situation("LNAV", ["LP"], ["LP"]))


@pytest.mark.parametrize(
    ("temperature", "compensated", "allowed"),
    [
        (-15.0, False, True),
        (-15.1, False, False),
        (-15.1, True, True),
        (48.0, False, True),
        (48.1, False, False),
        (48.1, True, True),
    ],
)
def test_temperature_limits_bind_barometric_path_only(temperature, compensated, allowed):
    situation = Situation("LPV", EVERYTHING, ALL, temperature, -15.0, 48.0, compensated)
    assert (reasons("LNAV/VNAV", "barometric", situation) == []) is allowed
    assert reasons("LPV", "SBAS", situation) == []
    assert reasons("LNAV/VNAV", "SBAS", situation) == []


def test_remote_altimeter_note_bars_barometric_path_only():
    situation = Situation("LPV", EVERYTHING, ALL, baro_vnav_barred=True)
    assert "bars baro-VNAV" in reasons("LNAV/VNAV", "barometric", situation)[0]
    assert usable_lines(situation) == ALL


def test_circling_needs_lnav_line():
    situation = Situation("LPV", EVERYTHING, ["LPV", "circling"])
    assert "prohibited" in reasons("circling", "GPS or SBAS", situation)[0]


def test_all_reasons_reported_together():
    situation = Situation("none", [], ALL, -30.0, -15.0, None, False, True)
    assert len(minima.lnav_vnav_baro_reasons(situation)) == 4
    assert len(minima.lnav_vnav_sbas_reasons(situation)) == 2
    assert len(minima.lateral_line_reasons("circling", situation)) == 2
    assert usable_lines(situation) == []


@pytest.mark.parametrize(
    "arguments", [("GLS", [], []), ("LPV", ["everything"], []), ("LPV", [], ["ILS"]), ("LPV", [], [], math.nan)]
)
def test_unknown_words_refused(arguments):
    with pytest.raises(DomainError):
        Situation(*arguments)


def test_line_rules_refuse_other_lines():
    situation = Situation("LPV", [], [])
    for rule, line in ((minima.sbas_line_reasons, "LNAV"), (minima.lateral_line_reasons, "LPV")):
        with pytest.raises(DomainError):
            rule(line, situation)


def test_alert_limit_changes_at_250_ft():
    assert minima.vertical_alert_limit_m(249.999) == 35.0
    assert minima.vertical_alert_limit_m(250.0) == 50.0
    with pytest.raises(DomainError):
        minima.vertical_alert_limit_m(-1.0)
