"""The live figure of energy and configuration: what it is told of a type; what it finds, by hand and more finely."""

import random
import re

import pytest

import live_cases
from lpv.core.errors import DomainError
from lpv.figures.energy import STEP_NM
from lpv.figures.figure import drawn
from lpv.figures.run import figure
from lpv.figures.slowing import EXAMPLE, slowed
from lpv.intercept import planned
from lpv.intercept.schedule import Descent, Schedule
from lpv.motion.energy import moment_at
from lpv_site.department.data import aircraft, example
from lpv_site.forms.calculator_figures import aircraft_figures
from lpv_site.forms.calculators import begin_with

G_KT = 9.80665 * 3600.0 / 1852.0


def of_page():
    return begin_with(figure("live-energy"))


def test_type_text_matches_file():
    for type_ in aircraft():
        known = aircraft_figures(type_)
        read = slowed(known["aircraft.slowing"], known["aircraft.vref_kt"])
        there = planned.slowed(type_, type_.landing.max_weight_lb)
        assert (read.labels, read.rows, read.first_kt) == (there.labels, there.rows, there.first_kt)
        assert (read.spool_up_s, read.brake_kt_per_s, read.brake_lowest_ft) == (
            there.spool_up_s, there.brake_kt_per_s, there.brake_lowest_ft)
        assert [vars(step) for step in read.steps] == [vars(step) for step in there.steps]


@pytest.mark.parametrize(("part", "other"), [
    ("6|0.6|1000|220", "6|0.6|1000"), ("|170|200|", "|17|200|"), ("150/0.7,220/1.0", "220/0.7,150/1.0"),
    ("Gear down|1.5", "Gear down|4.5"), ("Flaps half", ""), ("Flaps half", "F" * 25), ("1.7,", "1.7;"), (";", "|"),
])
def test_inconsistent_text_refused(part, other):
    assert part in EXAMPLE
    with pytest.raises(DomainError):
        slowed(EXAMPLE.replace(part, other, 1), 130.0)


def test_coarse_steps_match_fine_steps():
    source, compared = random.Random("energy"), 0
    for _ in range(25):
        of = slowed(live_cases.slowing(source), source.uniform(100.0, 140.0))
        descent = Descent(source.uniform(4.5, 9.0), 0.0, 0.0, 10.0, 50.0, source.uniform(2.7, 3.6))
        descent.pfaf_ft = descent.height_ft(0.0) + 320.0 * descent.pfaf_nm
        late_nm, tail_kt = source.uniform(-2.0, 2.0), source.uniform(-20.0, 15.0)
        fine, coarse = (Schedule(descent, of, tail_kt, late_nm, step) for step in (0.01, STEP_NM))
        speeds = [moment_at(each.flown(), each.gate_nm).airspeed_kt for each in (fine, coarse)]
        assert speeds[1] == pytest.approx(speeds[0], abs=0.1)
        latest = [each.latest_last_step_nm() for each in (fine, coarse)]
        if None not in latest:
            assert latest[1] == pytest.approx(latest[0], abs=0.1)
            compared += 1
    assert compared > 8


def test_page_matches_tables():
    """Clean at 230 kt idle loses 0.9 kt/s level; gravity on 3 degrees takes more.  As the tables find more finely."""
    texts = of_page()
    shown = drawn(figure("live-energy"), texts)
    of = next(type_ for type_ in aircraft() if aircraft_figures(type_)["aircraft.slowing"] == texts["slows"])
    jet = planned.planned(example(), of, of.landing.max_weight_lb)
    assert shown.finding.startswith("Ready from ")
    assert f"gate at {jet.gate_nm:.1f}" in shown.finding
    latest = re.search(r"by ([\d.]+)\u202fNM at the latest; no speed brake needed", shown.finding)
    assert latest
    assert float(latest[1]) == pytest.approx(jet.latest_last_step_nm(), abs=0.11)
    label, begins, level, path = shown.rows[0]
    assert (label, begins, level) == ("clean, 230\u202fkt", "", "loses 0.90\u202fkt/s")
    gains = G_KT * 0.052407779 - 0.9
    assert float(re.search(r"gains ([\d.]+)", path)[1]) == pytest.approx(gains, abs=0.006)
    assert [row[1] for row in shown.rows[1:]] == [f"{step.begins_nm:.1f}\u202fNM" for step in jet.steps]


def test_later_steps_want_speed_brake_then_go_around():
    answers = []
    for late in range(17):
        finding = drawn(figure("live-energy"), {**of_page(), "late_nm": f"{late / 2.0:g}"}).finding
        known = "no speed brake needed", "it is ready.", "not ready either", "inside the gate"
        answers.append([words for words in known if words in finding])
    assert all(len(words) == 1 for words in answers)
    order = [words[0] for words in answers]
    assert list(dict.fromkeys(order))[:3] == ["no speed brake needed", "it is ready.", "not ready either"]
    assert order == sorted(order, key=[*dict.fromkeys(order)].index)


def test_low_faf_has_no_gate_inside():
    finding = drawn(figure("live-energy"), {**of_page(), "pfaf_nm": "3.0", "threshold_above_ft": "-300"}).finding
    assert finding.startswith("The FAF lies below 1000")


def test_no_speed_brake_offered_without_one():
    slows = of_page()["slows"].split("|")
    slows[1] = "0"
    finding = drawn(figure("live-energy"), {**of_page(), "slows": "|".join(slows), "late_nm": "5"}).finding
    assert "this type has no speed brake" in finding
