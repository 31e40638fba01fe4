"""The minimum to set: printed, floors, additions, cold; expectations worked out by hand."""

import math

import pytest

from approach_variants import demo, jet, row, with_chart, with_minima, with_operator
from lpv.core.errors import DomainError
from lpv.core.record import record
from lpv.decide.minimum import Day, minimum, missed_altitude, printed_visibility_sm, visibility
from lpv.files.json_form import as_text, to_json

# Touchdown zone 24 ft, airport 31 ft: heights of 200 and 300 ft above touchdown at DA 224 and 324.
APPROACH = with_minima(
    with_chart(demo(), tdze_ft=24.0, airport_elevation_ft=31.0, cold_temperature_airport_c=-10.0),
    row("LNAV", "ABCD", 480.0), row("LPV", "AB", 224.0), row("LPV", "CD", 324.0), row("circling", "ABCD", 660.0),
)
OPERATOR = with_operator(
    jet(), lowest_da_above_tdze_ft=250.0, above_mda_ft=50.0, lowest_visibility_sm=0.75, cold_from_c=None).operator


@pytest.mark.parametrize(("line", "category", "altitude_ft", "height_ft"), [
    ("LPV", "A", 224.0, 200.0), ("LPV", "C", 324.0, 300.0), ("LPV", None, 324.0, 300.0), ("LNAV", "C", 480.0, 456.0),
    ("circling", "C", 660.0, 629.0),
])
def test_printed_minimum(line, category, altitude_ft, height_ft):
    answer = minimum(APPROACH, line, category)
    assert (answer.altitude_ft, answer.height_ft) == (altitude_ft, height_ft)
    assert answer.reason == "printed minimum"


def test_no_row_gives_none():
    assert minimum(APPROACH, "LNAV/VNAV", "C") is None
    assert minimum(with_minima(APPROACH, row("LPV", "AB", 224.0)), "LPV", "C") is None


def test_operator_minimum_da_and_mda_addition():
    assert minimum(APPROACH, "LPV", "A", OPERATOR).altitude_ft == 274.0  # 24 + 250
    assert minimum(APPROACH, "LPV", "A", OPERATOR).reason == "operator's lowest height above touchdown"
    assert minimum(APPROACH, "LPV", "C", OPERATOR).altitude_ft == 324.0  # 300 ft is more than 250
    assert minimum(APPROACH, "LNAV", "C", OPERATOR).altitude_ft == 530.0  # 480 + 50


def test_obstacle_free_zone_raises_da_only():
    day = Day(zone_not_clear=True)
    assert minimum(APPROACH, "LPV", "A", None, day).altitude_ft == 274.0  # 24 + 250, AIM 5-4-20.b.2
    assert minimum(APPROACH, "LNAV", "A", None, day).altitude_ft == 480.0


def test_remote_altimeter_setting():
    assert minimum(APPROACH, "LPV", "C", None, Day(remote_addition_ft=60.0)).altitude_ft == 384.0


# Cold temperature error table, AIM TBL 7-3-1: 300 ft at -20 °C gives 50 ft, 200 ft gives 30; between them the formula
# rounded up is never less than the interpolated cells.  DA 324 is 293 ft above the airport: 50 ft.
@pytest.mark.parametrize(("category", "cold_ft"), [("A", 30.0), ("C", 50.0)])
def test_cold_addition_by_height_above_airport(category, cold_ft):
    answer = minimum(APPROACH, "LPV", category, None, Day(-20.0))
    charted_ft = {"A": 224.0, "C": 324.0}[category]
    assert answer.cold_ft == cold_ft
    assert answer.altitude_ft == charted_ft + cold_ft
    assert answer.height_ft == charted_ft - 24.0, "cold leaves the true height as it is"
    assert answer.grade == "ok"


def test_cold_added_to_operator_minimum():
    answer = minimum(APPROACH, "LPV", "A", OPERATOR, Day(-20.0))  # 274 ft is 243 ft above the airport: 40 ft
    assert (answer.cold_ft, answer.altitude_ft) == (40.0, 314.0)


def test_segments_without_final_leave_minimum_unchanged():
    answer = minimum(APPROACH, "LPV", "C", None, Day(-20.0, ("intermediate",)))
    assert (answer.cold_ft, answer.open_ft, answer.altitude_ft) == (0.0, 0.0, 324.0)


def test_undecided_cold_resolves_with_amount():
    approach = with_chart(APPROACH, cold_temperature_airport_c=None)
    answer = minimum(approach, "LPV", "C", None, Day(-20.0))
    assert (answer.altitude_ft, answer.open_ft, answer.grade) == (324.0, 50.0, "resolve")


def test_missed_altitude_in_cold():
    # 3000 ft is 2969 ft above 31 ft; at -20 °C the table gives 420 ft for 3000 ft: 400 to the nearest hundred.
    missed = APPROACH.chart.missed
    approach = with_chart(APPROACH, missed=type(missed)(instruction="Climb.", altitude_ft=3000.0))
    answer = missed_altitude(approach, None, Day(-20.0))
    assert (answer.charted_ft, answer.altitude_ft, answer.cold_ft) == (3000.0, 3400.0, 400.0)
    undecided = missed_altitude(with_chart(approach, cold_temperature_airport_c=None), None, Day(-20.0))
    assert (undecided.altitude_ft, undecided.open_ft, undecided.grade) == (3000.0, 400.0, "resolve")
    assert missed_altitude(with_chart(APPROACH, missed=None)) is None


@pytest.mark.parametrize(("printed", "miles"), [
    ({"visibility_sm": 0.5}, 0.5), ({"visibility_m": 804.672}, 0.5), ({"rvr_ft": 2400.0}, 0.5),
    ({"rvr_ft": 1800.0}, 0.5), ({"rvr_m": 731.52}, 0.5),
])
def test_printed_visibility(printed, miles):
    assert printed_visibility_sm(row("LPV", "A", 224.0, **printed)) == pytest.approx(miles)


def test_visibility_minima_and_additions():
    line = row("LPV", "A", 224.0, visibility_sm=0.5)
    assert visibility(line).visibility_sm == 0.5
    assert visibility(line, OPERATOR).visibility_sm == 0.75
    assert visibility(line, None, Day(visibility_addition_sm=0.5)).visibility_sm == 1.0
    assert visibility(line, None, Day(zone_not_clear=True)).visibility_sm == 0.75  # AIM 5-4-20.b.2
    with pytest.raises(DomainError, match="found no visibility"):
        visibility(type(line)(line="LPV", kind="DA", categories="A", altitude_ft=224.0))


# A DA of 200 ft above a touchdown zone of 350 ft; -20 °C asks for 30 ft there (AIM TBL 7-3-1), and 40 ft at 250 ft.
HIGHER = with_minima(
    with_chart(demo(), tdze_ft=350.0, airport_elevation_ft=350.0, cold_temperature_airport_c=-10.0),
    row("LPV", "AB", 550.0),
)


def floor(**changes):
    return with_operator(
        jet(), **{"lowest_da_above_tdze_ft": 0.0, "lowest_visibility_sm": 0.0, "cold_from_c": None, **changes}).operator


def test_printed_minimum_alone():
    approach = with_minima(HIGHER, row("LPV", "AB", 620.0, visibility_sm=0.75))
    answer = minimum(approach, "LPV", "A")
    assert (answer.altitude_ft, answer.height_ft, answer.reason) == (620.0, 270.0, "printed minimum")
    asked = visibility(answer.row)
    assert (asked.visibility_sm, asked.reason) == (0.75, "printed visibility")


@pytest.mark.parametrize(("operator", "day", "altitude_ft", "reason"), [
    (0.0, {"remote_addition_ft": 43.0}, 593.0, "printed minimum with the remote altimeter setting"),
    (200.0, {}, 550.0, "printed minimum"),
    (250.0, {}, 600.0, "operator's lowest height above touchdown"),
    (0.0, {"zone_not_clear": True}, 600.0, "precision obstacle free zone not clear"),
    (251.0, {"zone_not_clear": True}, 601.0, "operator's lowest height above touchdown"),
    (0.0, {"temperature_c": -20.0}, 580.0, "printed minimum, plus cold correction"),
    (250.0, {"temperature_c": -20.0}, 640.0, "operator's lowest height above touchdown, plus cold correction"),
])
def test_highest_candidate_is_minimum(operator, day, altitude_ft, reason):
    answer = minimum(HIGHER, "LPV", "A", floor(lowest_da_above_tdze_ft=operator), Day(**day))
    assert (answer.altitude_ft, answer.reason) == (altitude_ft, reason)


@pytest.mark.parametrize(("lowest_sm", "day", "miles", "reason"), [
    (0.0, {}, 0.5, "printed visibility"),
    (0.0, {"visibility_addition_sm": 0.25}, 0.75, "printed visibility with its addition"),
    (0.5, {}, 0.5, "printed visibility"),
    (1.0, {}, 1.0, "operator's lowest visibility"),
    (0.0, {"zone_not_clear": True}, 0.75, "precision obstacle free zone not clear"),
])
def test_highest_visibility_required(lowest_sm, day, miles, reason):
    line = row("LPV", "A", 550.0, visibility_sm=0.5)
    asked = visibility(line, floor(lowest_visibility_sm=lowest_sm), Day(**day))
    assert (asked.visibility_sm, asked.reason) == (miles, reason)


@pytest.mark.parametrize(("printed_ft", "tdze_ft", "day"), [
    (300.0, 350.0, {}), (math.nan, 350.0, {}), (600.0, 1e6, {}), (600.0, 350.0, {"temperature_c": math.nan}),
])
def test_impossible_minima_refused(printed_ft, tdze_ft, day):
    approach = with_chart(HIGHER, minima=(row("LPV", "AB", printed_ft),), tdze_ft=tdze_ft)
    with pytest.raises(DomainError):
        minimum(approach, "LPV", "A", None, Day(**day))


@pytest.mark.parametrize("printed_sm", [-0.1, 11.0, math.nan])
def test_impossible_visibilities_refused(printed_sm):
    with pytest.raises(DomainError):
        visibility(row("LPV", "A", 550.0, visibility_sm=printed_sm))


def test_minimum_at_touchdown_zone_has_zero_height():
    approach = with_chart(HIGHER, minima=(row("LPV", "AB", -20.0),), tdze_ft=-20.0)
    assert minimum(approach, "LPV", "A").height_ft == 0.0


def test_json_form_gives_same_answers():
    on_phone = record(as_text(to_json(APPROACH)))
    operator = record(as_text(to_json(OPERATOR)))
    for line in ("LPV", "LNAV", "circling"):
        for category in ("A", "C", None):
            mine = minimum(APPROACH, line, category, OPERATOR, Day(-23.0))
            its = minimum(on_phone, line, category, operator, Day(-23.0))
            assert (mine.altitude_ft, mine.height_ft, mine.reason) == (its.altitude_ft, its.height_ft, its.reason)


@pytest.mark.parametrize("wrong", [
    {"remote_addition_ft": -1.0}, {"visibility_addition_sm": 11.0}, {"visibility_addition_sm": -1.0},
    {"visibility_addition_sm": math.nan},
])
def test_impossible_days(wrong):
    with pytest.raises(DomainError):
        Day(**wrong)
