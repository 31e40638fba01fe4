"""One answer per question on final: altimeter at the FAF, rate, dots, course, cold, through every way out.

The decision function, the calculator and the live figure with an approach's figures in their fields, the briefing, what
changed, the numbers drills and the simulation are asked for each of the demo's approaches that have a glidepath.
"""

import json
import re
from dataclasses import replace

import pytest

from demo.approaches import FOLDER
from lpv.aircraft.record import read_all as read_types
from lpv.approach.record import read_all
from lpv.calculators import run as calculators
from lpv.core.course import magnetic_deg
from lpv.core.errors import DomainError
from lpv.core.text import course, number
from lpv.crosscheck.seen import crew_changes
from lpv.decide import cold, final_path
from lpv.decide.last_mile import View, decision_point
from lpv.decide.lines import best_row
from lpv.decide.minimum import Day, missed_altitude
from lpv.decide.visual import threshold_distance_ft
from lpv.drill import numbers
from lpv.drill.case import Pick
from lpv.figures import run as figures
from lpv.figures.cold import entries
from lpv.setup.expected import Expected
from lpv.simulate import scenario
from lpv.simulate.setting import make_setting
from lpv.track.target import Target
from lpv_site.briefing.briefing import build_briefing_page
from lpv_site.figures.figure import fill
from lpv_site.forms.calculator_figures import approach_figures

TEMPERATURES_C = (-30, -15, 0, 15)  # rows of the live figures too
APPROACHES = {each.slug: each for each in read_all(FOLDER) if final_path.has_glidepath(each)}
TYPES = read_types(FOLDER.parent / "aircraft")
every_approach = pytest.mark.parametrize("approach", APPROACHES.values(), ids=APPROACHES)


def filled(form, approach, **more):
    """The fields of a form as the page fills them for an approach."""
    known = approach_figures(approach)
    return {field.key: field.fill(known[field.source]) for field in form.inputs if field.source in known} | more


def calculated(name, approach, **more):
    """Key -> text of a calculator's answers."""
    entries = filled(calculators.calculator(name), approach, **more)
    answer = json.loads(calculators.run(name, json.dumps(entries)))
    return {key: text for key, (text, _) in answer["outputs"].items()}


def drawn(name, approach, **more):
    """First cell -> the other cells of a figure's table."""
    entries = filled(figures.figure(name), approach, **more)
    return {row[0]: row[1:] for row in json.loads(figures.run(name, json.dumps(entries)))["rows"]}


def briefing(approach):
    return " ".join(re.sub(r"<[^>]*>", " ", fill(build_briefing_page(approach))).replace("\u202f", " ").split())


def in_ft(text):
    """The figure of a text such as "8750 ft"."""
    return float(re.sub(r"[^\d.\u2212-]", "", text).replace("\u2212", "-"))


def tens(value):
    return f"{number(value, 10)}\u202fft"


@every_approach
def test_altimeter_at_faf(approach):
    table = drawn("live-altimeter", approach)
    for temperature_c in TEMPERATURES_C:
        expected = tens(final_path.altimeter_at_pfaf_ft(approach, temperature_c))
        assert calculated("altimeter", approach, temperature_c=str(temperature_c))["indicated_ft"] == expected
        assert table[f"{number(temperature_c)}\u202f°C"][0] == expected
    standard = final_path.altimeter_at_pfaf_ft(approach, final_path.standard_temperature_c(approach))
    sentence = f"the altimeter reads {number(standard)} ft"
    assert sentence in briefing(approach)
    question = numbers.altimeter_at_faf(approach, TYPES[0], Pick("one answer"))
    asked_c = in_ft(question.words.partition("\u202f°C")[0])
    assert question.answer == final_path.altimeter_at_pfaf_ft(approach, asked_c)


@every_approach
def test_altimeter_at_faf_by_hand(approach):
    """A second method: the straight glidepath over a round earth, and 4 % for each 10 degrees, good to one per cent."""
    chart, distance_ft = approach.chart, final_path.pfaf_distance_nm(approach) * 6076.115
    rise_ft = distance_ft * abs(chart.glidepath_deg) * 0.0174533 * (1.0 + (chart.glidepath_deg * 0.0174533) ** 2 / 3.0)
    true_ft = chart.threshold_elevation_ft + chart.tch_ft + rise_ft + distance_ft**2 / (2.0 * 20925646.0)
    for temperature_c in TEMPERATURES_C:
        deviation_c = temperature_c - (15.0 - 0.0019812 * chart.airport_elevation_ft)
        above_ft = true_ft - chart.airport_elevation_ft
        reads_ft = true_ft - 0.004 * deviation_c * above_ft
        assert final_path.altimeter_at_pfaf_ft(approach, temperature_c) == pytest.approx(
            reads_ft, abs=0.015 * above_ft + 1.0)


@every_approach
def test_rate_of_descent(approach):
    for speed_kt in (110, 120, 130, 140):
        mine = calculated("descent-rate", approach, ground_speed_kt=str(speed_kt))["rate_fpm"]
        by_hand = 101.2686 * speed_kt * approach.chart.glidepath_deg * 0.0174533
        assert in_ft(mine) == pytest.approx(by_hand, abs=6.0)
        table = drawn("live-rate", approach, airspeed_kt="130", tailwind_kt="0")
        assert table[f"{speed_kt}\u202fkt"][0] == mine
    old = APPROACHES["zzak-rnav-09"] if approach.slug != "zzak-rnav-09" else APPROACHES["zzhc-rnav-33"]
    same = approach.chart.glidepath_deg == old.chart.glidepath_deg
    changed = [in_ft(row.words.rpartition("now")[2]) for row in crew_changes(old, approach) if row.key == "rate"]
    assert changed == ([] if same else [pytest.approx(in_ft(mine), abs=5.0)])  # of 140 kt, the last of these


@every_approach
def test_dots_in_feet(approach):
    table = drawn("live-funnel", approach)
    for distance_nm in (1.0, 2.0, 3.0):
        answer = calculated(
            "dots", approach, distance_nm=str(distance_nm), scale="2", dots="1", offset_ft="100")
        dots = final_path.course_dot_ft(approach, distance_nm), final_path.path_dot_ft(approach, distance_nm)
        assert [answer["course_ft"], answer["path_ft"]] == [f"{number(each)}\u202fft" for each in dots]
        row = table.get(f"{distance_nm}\u202fNM")
        assert row is None or list(row[:2]) == [answer["course_ft"], answer["path_ft"]]


@every_approach
def test_course_to_set(approach):
    charted = approach.chart.course_deg
    answer = calculated("course", approach, distance_nm="5")
    assert in_ft(answer["difference_deg"]) == pytest.approx(
        abs(magnetic_deg(approach.true_course_deg, approach.chart.variation_deg) - charted), abs=0.051)
    assert f"{course(charted)} {approach.chart.course_reference}" in briefing(approach)
    assert Expected(approach, TYPES[0]).course_deg == charted


@every_approach
def test_cold_additions(approach):
    chart = approach.chart
    for temperature_c in (-40, -20):
        table = drawn("live-cold", approach, temperature_c=str(temperature_c))
        for role, altitude_ft, added_ft in (
            ("pfaf", approach.pfaf.altitude_ft, cold.pfaf_addition_ft(approach, temperature_c)),
            ("missed", chart.missed.altitude_ft,
             cold.missed_addition_ft(approach, chart.missed.altitude_ft, temperature_c)),
        ):
            name = approach.pfaf.name if role == "pfaf" else "missed approach"
            answer = calculated(
                "cold", approach, altitude_ft=f"{altitude_ft:.0f}", temperature_c=str(temperature_c))
            assert in_ft(table[name][1]) == added_ft, (role, temperature_c)
            assert in_ft(answer["segment_ft"]) == added_ft, (role, temperature_c)
            assert in_ft(answer["segment_altitude_ft"]) == altitude_ft + added_ft == in_ft(table[name][2])
    for flown in TYPES[:2]:
        try:
            question = numbers.missed_to_set(approach, flown, Pick("one answer"))
        except DomainError:
            continue
        asked_c = in_ft(question.words.partition("\u202f°C")[0])
        assert question.answer == chart.missed.altitude_ft + cold.missed_addition_ft(
            approach, chart.missed.altitude_ft, asked_c)


@every_approach
def test_faf_and_course_of_simulation(approach):
    """The simulation flies from the FAF and along the course that every page tells, whatever courses count from."""
    story = next(each for each in scenario.read_all(FOLDER.parent / "modes" / "scenarios") if not each.legs)
    flown = next(each for each in TYPES if each.slug == story.story.aircraft)
    for reference in ("magnetic", "true"):
        charted = replace(approach, chart=replace(approach.chart, course_reference=reference))
        setting = make_setting(replace(story, story=replace(story.story, approach=approach.slug)), charted, flown)
        turned_deg = approach.chart.variation_deg if reference == "magnetic" else 0.0
        assert setting.course_deg == pytest.approx((approach.true_course_deg - turned_deg) % 360.0, abs=1e-9)
        assert setting.course_deg == final_path.in_chart_reference_deg(charted, approach.true_course_deg)
        assert setting.pfaf_nm == final_path.pfaf_distance_nm(approach) == Target(approach).pfaf_nm


@every_approach
def test_missed_altitude_of_recording(approach):
    for flown in TYPES[:3]:
        for temperature_c in (None, *TEMPERATURES_C):
            decided = missed_altitude(approach, flown.operator, Day(temperature_c))
            assert Target(approach, flown).missed_ft(temperature_c) == (decided and decided.altitude_ft)


@pytest.mark.parametrize("altitude_ft", [2500.5, 2499.75, -12.25])
def test_charted_altitude_keeps_decimals(altitude_ft):
    """What the live figure computes with is the chart's altitude, not a whole foot of it."""
    approach = next(iter(APPROACHES.values()))
    missed = replace(approach.chart.missed, altitude_ft=altitude_ft)
    text = approach_figures(replace(approach, chart=replace(approach.chart, missed=missed)))["approach.altitudes"]
    assert [ft for role, _, ft in entries(text) if role == "missed"] == [altitude_ft]


@every_approach
def test_threshold_ahead_at_minimum(approach):
    """The briefing, the view over the nose, the calculator and the live figure say how far the threshold is."""
    row, flown = best_row(approach), TYPES[0]
    point = decision_point(approach, row.altitude_ft)
    assert f"{number(point.distance_nm, 0.01)} NM" in briefing(approach)
    assert View(approach, flown, point.height_ft).distance_ft == pytest.approx(point.distance_ft, abs=1e-6)
    others = {field.key: field.default for field in calculators.calculator("sight").inputs
              if not field.source.startswith("approach.")}
    by_height_ft = threshold_distance_ft(point.height_ft, *final_path.glidepath(approach)[1:])
    assert calculated("sight", approach, **others)["distance_ft"] == f"{number(by_height_ft, 10)}\u202fft"
    assert by_height_ft == pytest.approx(point.distance_ft, rel=1e-5 + row.altitude_ft / 20.9e6)  # of sea level
