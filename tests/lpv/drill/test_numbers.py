"""Numbers drills: each answer by hand or by a second method, over all approaches and types, from many seeds."""

import math
import re
from itertools import product
from pathlib import Path

import pytest

from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.core.errors import DataError, DomainError
from lpv.core.text import MINUS
from lpv.decide.final_path import pfaf_distance_nm
from lpv.drill.case import Pick
from lpv.drill.drills import read_numbers
from lpv.drill.numbers import KINDS, SIGHTS
from lpv.facts import value

DOCS = Path(__file__).resolve().parents[3] / "docs"
APPROACHES = {record.slug: record for record in approach.read_all(DOCS / "approaches")}
TYPES = {type_.slug: type_ for type_ in aircraft.read_all(DOCS / "aircraft")}
DRILLS = read_numbers(DOCS)
PUBLISHED = Path(__file__).with_name("numbers.txt").read_text("utf-8").splitlines()
NUMBER = re.compile(rf"{MINUS}?\d+(?:\.\d+)?")


def numbers_in(words):
    return [float(text.replace(MINUS, "-")) for text in NUMBER.findall(words)]


def asked(kind, of="zzhc-rnav-33", flown="light-jet", seed="3"):
    return KINDS[kind].ask(APPROACHES[of], TYPES[flown], Pick(seed))


def line_of(drill):
    return f"{drill.row.name} {drill.row.kind} {drill.approach.slug} {drill.aircraft.slug}: {drill.question.answer:.3f}"


@pytest.mark.parametrize("drill", DRILLS, ids=lambda drill: drill.row.name)
def test_published_number_unchanged(drill):
    same = [line for line in PUBLISHED if line.startswith(drill.row.name + " ")]
    assert same == [line_of(drill)], "a new drill: add this line to numbers.txt; an old one must not change"


def test_every_kind_practised_and_none_removed():
    assert {drill.row.kind for drill in DRILLS} == set(KINDS)
    assert [line.split()[0] for line in PUBLISHED] == [drill.row.name for drill in DRILLS]


@pytest.mark.parametrize("kind", KINDS)
def test_any_approach_and_type_from_any_seed(kind):
    made, reasons = 0, set()
    for of, flown, seed in product(APPROACHES.values(), TYPES.values(), range(6)):
        try:
            question = KINDS[kind].ask(of, flown, Pick(str(seed)))
        except DomainError as error:
            reasons.add(str(error).partition(": ")[0])
            continue
        made += 1
        assert math.isfinite(question.answer)
        assert question.words.endswith("?")
        assert question.choices or (question.low > 0.0 and question.high > 0.0 and question.answer > question.high)
    assert made >= 12
    assert reasons <= {"it makes no sense here"}


@pytest.mark.parametrize("seed", range(5))
def test_rate_by_trigonometry(seed):
    question = asked("rate", seed=str(seed))
    speed_kt, angle_deg = numbers_in(question.words)
    assert question.answer == pytest.approx(speed_kt * 6076.115 / 60 * math.tan(math.radians(angle_deg)), rel=1e-4)


@pytest.mark.parametrize("seed", range(12))
def test_rate_in_wind_by_vectors(seed):
    question = asked("rate-in-wind", seed=str(seed))
    airspeed_kt, course_deg, from_deg, wind_kt, angle_deg = numbers_in(question.words)
    off = math.radians(from_deg - course_deg)
    ground_kt = math.sqrt(airspeed_kt**2 - (wind_kt * math.sin(off)) ** 2) - wind_kt * math.cos(off)
    expected_fpm = ground_kt * 6076.115 / 60 * math.tan(math.radians(angle_deg))
    assert question.answer == pytest.approx(expected_fpm, abs=6.0), "courses are printed in whole degrees"


@pytest.mark.parametrize("seed", range(6))
def test_climb_by_hand(seed):
    question = asked("climb", seed=str(seed))
    gradient, speed_kt = numbers_in(question.words)
    assert question.answer == pytest.approx(gradient * speed_kt / 60)
    assert question.low < question.high, "too low is the worse side"


@pytest.mark.parametrize("seed", range(6))
def test_outbound_time_by_circle_flow(seed):
    """Along the wind: the inbound leg, less the wind's way in a circle of 25 deg, at the speed outbound."""
    question = asked("hold-outbound", seed=str(seed))
    course_deg, speed_kt, from_deg, wind_kt, inbound_s = numbers_in(question.words)
    tail_kt = wind_kt if abs(from_deg - course_deg) > 1 else -wind_kt
    circle_s = 2 * math.pi * speed_kt * 1.687810 / (32.17405 * math.tan(math.radians(25.0)))
    outbound_s = ((speed_kt + tail_kt) * inbound_s + tail_kt * circle_s) / (speed_kt - tail_kt)
    assert question.answer == pytest.approx(outbound_s, abs=0.05)


def test_operator_additions_by_hand():
    """Half of the gust up to 10 kt; half of the headwind and the whole gust, 5 to 20 kt; no rule, no question."""
    for seed in range(8):
        question = asked("added-to-vref", flown="large-jet", seed=str(seed))
        _, _, wind_kt, gust_kt = numbers_in(question.words)
        assert question.answer == min(10.0, 0.5 * (gust_kt - wind_kt))
        question = asked("added-to-vref", flown="mid-jet", seed=str(seed))
        course_deg, from_deg, wind_kt, gust_kt = numbers_in(question.words)
        along_kt = wind_kt * math.cos(math.radians(from_deg - course_deg))
        assert question.answer == pytest.approx(
            max(5.0, min(20.0, 0.5 * along_kt + gust_kt - wind_kt)), abs=0.1), "courses are printed in whole degrees"
    with pytest.raises(DomainError, match="no rule"):
        asked("added-to-vref", flown="light-jet")


def test_altimeter_at_faf_by_temperature_ratio():
    question = asked("altimeter-at-faf", "zzak-rnav-09")
    temperature_c, charted_ft = numbers_in(question.words)
    of = APPROACHES["zzak-rnav-09"]
    elevation_ft, threshold_ft, tch_ft = of.chart.airport_elevation_ft, of.chart.threshold_elevation_ft, of.chart.tch_ft
    distance_nm = pfaf_distance_nm(of)
    straight_ft = tch_ft + distance_nm * 6076.115 * math.tan(math.radians(of.chart.glidepath_deg))
    true_ft = threshold_ft + straight_ft + 0.883 * distance_nm**2 - elevation_ft  # the earth falls away by that
    colder = 15.0 - 0.0019812 * elevation_ft - temperature_c
    middle_k = 273.15 + temperature_c - 0.0019812 * true_ft / 2.0
    assert question.answer == pytest.approx(elevation_ft + true_ft * (1.0 + colder / middle_k), abs=8.0)
    assert abs(question.answer - charted_ft) > question.high, "the charted altitude is no answer"


def test_cold_additions_by_printed_table():
    """TBL 7-3-1 at 300 ft and -20, -30 deg C: 50 and 60 ft; at 200 ft 30 and 40 ft."""
    for seed in range(12):
        question = asked("add-to-da", seed=str(seed))
        temperature_c, above_ft = numbers_in(question.words)
        if -30.0 <= temperature_c <= -20.0 and 200.0 <= above_ft <= 300.0:
            assert 30.0 <= question.answer <= 60.0
        assert question.low < 1.0 <= question.high


def test_da_to_set_is_charted_plus_additions():
    question = asked("da-to-set")
    temperature_c, charted_ft = numbers_in(question.words)
    added = asked("add-to-da")
    assert numbers_in(added.words)[0] == temperature_c
    assert question.answer == pytest.approx(charted_ft + added.answer, abs=25.0), "charted, operator's floor, cold"
    assert question.answer > charted_ft


def test_dots_by_angles():
    """The course: full scale at the threshold is the width of the data block, and grows as the distance to the GARP."""
    question = asked("course-dots", "zzak-rnav-09")
    dots, distance_nm = numbers_in(question.words)
    segment = APPROACHES["zzak-rnav-09"].geometry
    full_ft = segment.half_width_ft * (1.0 + distance_nm * 6076.115 / segment.garp_distance_ft)
    assert question.answer == pytest.approx(dots / 2.0 * full_ft, rel=0.01)
    half, again = (asked("path-dots", seed=str(seed)) for seed in (3, 3))
    assert half == again


def test_wrong_setting_by_rule_of_thumb():
    for seed in range(8):
        for of, per in (("zzak-rnav-09", 1000.0), ("zzeg-rnp-24", 30.0)):
            question = asked("altimeter-error", of, seed=str(seed))
            reported, wrong = numbers_in(question.words)
            assert wrong > reported
            assert question.answer == pytest.approx((wrong - reported) * per, rel=0.13)
            assert question.low == pytest.approx(question.answer * value("drill_setting_percent") / 100.0)


def test_sight_by_geometry_and_cost_of_wrong_answer():
    met = set()
    for of, flown, seed in product(("zzak-rnav-09", "zzhc-rnav-33", "zzeg-rnp-24"), TYPES, range(8)):
        question = asked("in-sight", of, flown, str(seed))
        chart = APPROACHES[of].chart
        da_ft, threshold_ft, lights_ft, visible_ft, hidden_ft = numbers_in(question.words)
        reach_ft = math.sqrt(visible_ft**2 - (da_ft - chart.threshold_elevation_ft) ** 2)
        nearest_light = max(threshold_ft - lights_ft, hidden_ft)
        if abs(reach_ft - threshold_ft) < 20.0 or abs(reach_ft - nearest_light) < 20.0:
            continue  # too close for printed numbers
        lit = nearest_light < min(reach_ft, threshold_ft)
        expected = 2 if hidden_ft <= threshold_ft <= reach_ft else 1 if lit else 0
        assert SIGHTS[int(question.answer)] == SIGHTS[expected], question.words
        assert question.points[expected] == 100.0
        assert all(points == -100.0 for points in question.points[expected + 1:])
        assert all(points == 0.0 for points in question.points[:expected])
        met.add(expected)
    assert met == {0, 1, 2}


def folder(tmp_path, text):
    for name in ("approaches", "aircraft"):
        (tmp_path / name).symlink_to(DOCS / name)
    (tmp_path / "practice").mkdir()
    (tmp_path / "practice" / "drills.toml").write_text(text, "utf-8")
    return tmp_path


def test_unnamed_drills_pick_sensible_choices(tmp_path):
    rows = "".join(f'[[number]]\nnumber = {seed}\nkind = "add-to-da"\n' for seed in range(1, 9))
    made = read_numbers(folder(tmp_path, rows))
    assert {drill.approach.slug for drill in made} == {"zzhc-rnav-33"}, "the only one that corrects for cold"
    assert len({drill.aircraft.slug for drill in made}) > 1


def test_nonsense_named(tmp_path):
    docs = folder(tmp_path, '[[number]]\nnumber = 1\nkind = "rate"\napproach = "zzak-rnav-27"\n')
    with pytest.raises(DataError, match=r"drill-01.*no glidepath"):
        read_numbers(docs)


def test_number_unique_in_file(tmp_path):
    row = '[[{}]]\nnumber = 4\nkind = "{}"\n'
    with pytest.raises(DataError, match="4 a second time"):
        read_numbers(folder(tmp_path, row.format("number", "rate") + row.format("sequence", "interference")))


def test_list_without_drill_refused(tmp_path):
    with pytest.raises(DataError, match="no drill"):
        read_numbers(folder(tmp_path, "drill = []\n"))
