"""What a recording is compared with: levels, minima, loss of a go-around, limits, from records and from their JSON."""

import dataclasses

import pytest

from approach_variants import demo, jet, row, with_chart, with_minima, with_operator
from lpv.core.errors import DomainError
from lpv.core.record import record
from lpv.decide.minimum import Day, minimum
from lpv.decide.missed import design_height_loss_ft, height_loss_ft
from lpv.facts import FACTS, Fact, fact, value
from lpv.files.json_form import as_text, to_json
from lpv.path.profile import barometric_path_height_ft
from lpv.track.target import BARO, BOUND, LEVEL_NAMES, LEVELS, Target, level_of, operator_gates

AK = demo()
LP = demo("zzak-rnav-27")


def test_level_is_best_or_chosen():
    assert (level_of(AK, ""), level_of(LP, ""), level_of(AK, "LNAV")) == ("LPV", "LP", "LNAV")
    assert set(LEVEL_NAMES) == set(LEVELS)
    with pytest.raises(DomainError, match="level: found ILS"):
        level_of(AK, "ILS")
    with pytest.raises(DomainError, match="found no line LP on the chart"):
        level_of(AK, "LP")
    with pytest.raises(DomainError, match="glidepath"):
        level_of(LP, "LPV")
    bare = with_chart(with_minima(LP, row("LNAV/VNAV", "ABCD", 600.0)), glidepath_deg=None)
    with pytest.raises(DomainError, match="glidepath angle"):
        level_of(bare, BARO)


@pytest.mark.parametrize(("level", "has_path", "kind"), [
    ("LPV", True, "DA"), ("LNAV/VNAV", True, "DA"), (BARO, True, "DA"), ("LNAV", False, "MDA")])
def test_level_has_path_or_mda(level, has_path, kind):
    target = Target(AK, jet(), level)
    assert (target.has_path, target.kind, target.level_words) == (has_path, kind, LEVELS[level][1])
    expected = minimum(AK, LEVELS[level][0], jet().type.category, jet().operator, Day())
    assert target.minimum_ft() == expected.altitude_ft


def test_level_scales():
    lpv, vnav, baro = (Target(AK, None, level) for level in ("LPV", "LNAV/VNAV", BARO))
    assert lpv.path_ft(0.0) == pytest.approx(15.0 / 0.3048)
    assert vnav.path_ft(0.0) == pytest.approx(45.0 / 0.3048)
    assert baro.path_ft(0.0) == baro.path_ft(5.0) == 2.0 * value("baro_vnav_deviation_ft")
    assert lpv.course_ft(2.0) == Target(AK, None, "LNAV").course_ft(2.0)
    assert baro.barometric_path_ft(3.0) == barometric_path_height_ft(3.0, 22.0, 52.0, 3.0)
    assert baro.barometric_path_ft(-1.0) == pytest.approx(74.0)


def test_unread_scale_reported_until_every_figure_read(monkeypatch):
    remark = " The scale of the glidepath is from memory."
    of = {"LPV": ["lpv_vertical_share", "lpv_vertical_cap_m", "lpv_vertical_floor_m"], BARO: ["baro_vnav_deviation_ft"],
          "LNAV/VNAV": ["lnav_vnav_vertical_share", "lnav_vnav_vertical_cap_m", "lnav_vnav_vertical_floor_m"]}
    assert Target(AK, jet(), "LNAV").scale_remembered() == ""
    for level, keys in of.items():
        for key in keys:
            assert Target(AK, jet(), level).scale_remembered() == remark, key
            held = fact(key)
            read = (held.value, held.unit, held.what, held.source, "par 1", "published", "")
            monkeypatch.setitem(FACTS, key, Fact(key, read))
        assert Target(AK, jet(), level).scale_remembered() == ""


def test_go_around_loss_from_type_or_open():
    around = jet().go_around
    assert Target(AK, jet()).height_loss_ft(700.0) == (
        height_loss_ft(700.0, around.reaction_s, around.acceleration_g), 0.0)
    assert Target(AK, jet()).height_loss_ft(-50.0)[0] == 0.0
    most = design_height_loss_ft("D")
    assert Target(AK).height_loss_ft(700.0) == (most / 2.0, most / 2.0)


def test_json_round_trip():
    there = Target(record(as_text(to_json(AK))), record(as_text(to_json(jet()))))
    here = Target(AK, jet())
    for name in ("level", "slug", "airport", "gpa_deg", "tch_ft", "course_deg", "pfaf_nm", "category", "latitude_deg"):
        assert getattr(there, name) == getattr(here, name)
    assert [vars(fix) for fix in there.fixes] == [vars(fix) for fix in here.fixes]
    assert [vars(gate) for gate in there.gates()] == [vars(gate) for gate in here.gates()]
    assert there.minimum_ft() == here.minimum_ft()
    assert there.height_loss_ft(650.0) == here.height_loss_ft(650.0)
    assert (there.touchdown_zone_ft(), there.missed_gradient_ft_per_nm(), there.missed_ft(None)) == (
        here.touchdown_zone_ft(), here.missed_gradient_ft_per_nm(), here.missed_ft(None))


def test_gates_include_operator_gates_highest_first():
    gates = Target(AK, jet("large-jet")).gates()
    own = operator_gates(jet("large-jet"))
    assert own
    assert {gate.name for gate in own} <= {gate.name for gate in gates}
    assert [gate.height_ft for gate in gates] == sorted((gate.height_ft for gate in gates), reverse=True)
    assert operator_gates(None) == []


def test_touchdown_zone_is_3000_ft_or_third():
    long = Target(with_chart(AK, runway_length_ft=12_000.0))
    short = Target(with_chart(AK, runway_length_ft=6600.0, displaced_threshold_ft=600.0))
    assert (long.touchdown_zone_ft(), short.touchdown_zone_ft()) == (3000.0, 2000.0)


def test_missed_approach_from_chart_with_cold_correction():
    approach = demo("zzhc-rnav-33")
    target = Target(approach)
    charted_ft = approach.chart.missed.altitude_ft
    assert target.missed_ft(None) == target.missed_ft(15.0) == charted_ft
    assert target.missed_ft(-30.0) > charted_ft
    missed = dataclasses.replace(AK.chart.missed, climb_gradient_ft_per_nm=310.0)
    assert Target(with_chart(AK, missed=missed)).missed_gradient_ft_per_nm() == 310.0
    icao = dataclasses.replace(AK, identity=dataclasses.replace(AK.identity, rule="ICAO"))
    assert Target(icao).missed_gradient_ft_per_nm() == pytest.approx(0.025 * 1852 / 0.3048)
    assert Target(with_chart(AK, missed=None)).missed_ft(None) is None


def test_operator_floor_counts():
    target = Target(AK, with_operator(jet(), lowest_da_above_tdze_ft=500.0))
    assert target.minimum_ft() == AK.chart.touchdown_zone_ft + 500.0


def test_fixes_end_before_map():
    names = [fix.name for fix in Target(AK).fixes]
    roles = [fix.role for fix in AK.chart.fixes]
    assert names == [fix.name for fix in AK.chart.fixes[: roles.index("MAP")]]
    assert set(BOUND) == {"at", "at or above", "at or below"}
