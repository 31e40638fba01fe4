"""The planning sheet and the set-up check of one flight: what the sheet says to set is what the check calls right.

Asked for each of the demo's plans that states what a day can add, and for made-up days: a remote altimeter setting, an
obstacle free zone that is not clear, cold segments by the list, a speed of the next category.  File and form are asked.
"""

import json
from dataclasses import replace

import pytest

from approach_variants import demo, jet, row, with_chart, with_minima, with_operator
from demo.approaches import FOLDER
from lpv.core.text import quantity
from lpv.decide.minimum import missed_altitude
from lpv.files.json_form import as_text, to_json
from lpv.plan.case import Case, category, day_of
from lpv.plan.lines import usable
from lpv.plan.sheet import read as read_plan
from lpv.setup.file import findings, read_text
from lpv.setup.form import run
from lpv_site.forms.setup_form import entries
from set_up import compare

PLAN = read_plan(next(path for path in sorted((FOLDER.parent / "plan").glob("*.toml")) if "cold" in path.stem))
ROWS = (row("LNAV", "ABCD", 480.0), row("LPV", "AB", 224.0), row("LPV", "C", 324.0), row("LPV", "D", 424.0))
DAYS = (
    {}, {"remote_addition_ft": 60.0}, {"zone_not_clear": True}, {"speed_kt": 141.0},
    {"temperature_c": -25.0}, {"temperature_c": -25.0, "cold_segments": ("final",)},
    {"temperature_c": -25.0, "cold_segments": ("missed",)},
    {"temperature_c": -25.0, "cold_segments": ("intermediate",)},
    {"temperature_c": -25.0, "cold_segments": ("final", "missed"), "remote_addition_ft": 40.0, "speed_kt": 145.0},
)


def flown():
    return with_operator(jet("large-jet"), lowest_da_above_tdze_ft=200.0, above_mda_ft=0.0, cold_from_c=None)


def planned(day):
    """A flight on such a day to an approach with rows by category, corrected from -15 degrees down."""
    approach = with_chart(with_minima(demo(), *ROWS), cold_temperature_airport_c=-15.0)
    flight = replace(PLAN.scenario.flight, **({
        "temperature_c": 10.0, "remote_addition_ft": None, "zone_not_clear": False, "cold_segments": (),
        "speed_kt": None, "no_site_notices": False} | day))
    return Case(replace(PLAN.scenario, flight=flight, notices=()), approach, flown())


def set_up(case, minimum_ft, missed_ft):
    """A set-up file of both sides for the day of a plan."""
    flight = case.scenario.flight
    side = f"""title = "{case.approach.identity.title}"
channel = {case.approach.identity.channel}
path_id = "{case.approach.identity.path_id}"
source = "SBAS"
tuned_mhz = 113.4
course_deg = {case.approach.chart.course_deg}
altimeter = 29.92
level = "LPV"
minimum_kind = "DA"
minimum_ft = {minimum_ft}
missed_altitude_ft = {missed_ft}
"""
    more = "" if flight.speed_kt is None else f"speed_kt = {flight.speed_kt}\n"
    more += f"remote_addition_ft = {flight.remote_addition_ft}\n" if flight.remote_addition_ft else ""
    more += "zone_not_clear = true\n" if flight.zone_not_clear else ""
    more += f"cold_segments = {json.dumps(flight.cold_segments)}\n" if flight.cold_segments else ""
    return read_text(f"""[setup]
name = "as planned"
invented = true
approach = "zzak-rnav-09"
aircraft = "large-jet"
flying = "left"
day = 2026-12-01
cycle = "2612"
altimeter_unit = "inHg"
reported_altimeter = 29.92
temperature_c = {flight.temperature_c}
armed = false
{more}[left]
{side}[right]
{side}""")


def graded(case, file):
    """Key and grade of what file and form say of minimum and missed approach altitude, which is the same."""
    by_file = {(each.key, each.grade) for each in findings(file, case.approach, case.aircraft)
               if each.key.startswith(("set-minimum", "set-missed"))}
    answer = json.loads(run(
        as_text(to_json(case.approach)), as_text(to_json(case.aircraft)), json.dumps(entries(file))))
    by_form = {(each["key"], each["grade"]) for each in answer["findings"]
               if each["key"].startswith(("set-minimum", "set-missed"))}
    assert by_form == by_file
    return by_file


@pytest.mark.parametrize("day", DAYS, ids=lambda day: "-".join(day) or "mild")
def test_altitudes_of_sheet_pass_check(day):
    case = planned(day)
    line = next(each for each in usable(case) if each.line == "LPV")
    missed_ft = missed_altitude(case.approach, case.aircraft.operator, day_of(case)).altitude_ft
    assert {grade for _, grade in graded(case, set_up(case, line.minimum.altitude_ft, missed_ft))} == {"ok"}
    printed_ft = {"C": 324.0, "D": 424.0}[category(case)]
    if line.minimum.altitude_ft > printed_ft + 20.0:
        low = graded(case, set_up(case, printed_ft, missed_ft))
        assert "stop" in {grade for key, grade in low if key.startswith("set-minimum")}


@pytest.mark.parametrize("day", DAYS, ids=lambda day: "-".join(day) or "mild")
def test_page_of_both_sides_prints_minimum_of_sheet(day, monkeypatch):
    case = planned(day)
    line = next(each for each in usable(case) if each.line == "LPV")
    missed_ft = missed_altitude(case.approach, case.aircraft.operator, day_of(case)).altitude_ft
    file = set_up(case, line.minimum.altitude_ft, missed_ft)
    monkeypatch.setattr(compare, "good_setup", lambda: (file, case.approach, case.aircraft))
    [row] = [each for each in compare.show().markdown.splitlines() if each.startswith("| minimum ")]
    cells = [cell.strip() for cell in row.strip("| ").split("|")]
    assert cells[1:] == [quantity(line.minimum.altitude_ft, "ft")] * 3


def test_by_hand():
    """324 ft of category C: with 60 ft for a remote altimeter 384 ft; at 141 kt the 424 ft of category D."""
    lines = [next(each for each in usable(planned(day)) if each.line == "LPV") for day in DAYS[:4]]
    heights, zone_ft = [line.minimum.altitude_ft for line in lines], demo().chart.touchdown_zone_ft
    assert heights == [324.0, 384.0, max(324.0, zone_ft + 250.0), 424.0]


@pytest.mark.parametrize(("segments", "choice"), [
    ((), "final and missed"), (("final", "missed"), "final and missed"), (("final", "initial"), "final"),
    (("missed",), "missed"), (("intermediate",), "neither"),
])
def test_segments_of_file_as_choice_of_form(segments, choice):
    case = planned({"cold_segments": segments, "temperature_c": -25.0})
    assert entries(set_up(case, 300.0, 3000.0))["cold_segments"] == choice
