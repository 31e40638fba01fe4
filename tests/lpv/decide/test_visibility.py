"""Visibility and runway visual range by table."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from approach_variants import row
from lpv.core.errors import DomainError
from lpv.decide import visibility

quick = settings(max_examples=60, deadline=None)


@quick
@given(st.floats(1600, 6000))
def test_chosen_row_never_exceeds_request(rvr_ft):
    visibility_sm = visibility.visibility_for_rvr_sm(rvr_ft)
    assert visibility.rvr_for_visibility_ft(visibility_sm) >= rvr_ft


def test_every_row_round_trip():
    for row_ft in visibility.RVR_FT:
        assert visibility.rvr_for_visibility_ft(visibility.visibility_for_rvr_sm(row_ft)) == row_ft


def test_visibility_between_rows_takes_next_higher():
    assert visibility.rvr_for_visibility_ft(0.51) == 3200.0
    assert visibility.rvr_for_visibility_ft(1.01) == 6000.0


def test_statute_miles_in_feet():
    assert visibility.visibility_ft(0.5) == pytest.approx(2640.0)
    assert visibility.visibility_ft(0.0) == 0.0


@pytest.mark.parametrize(("lights_m", "name"), [
    (2000, "full"), (720, "full"), (719.9, "intermediate"), (420, "intermediate"), (419.9, "basic"),
    (210, "basic"), (209.9, "no"), (0, "no"),
])
def test_light_class_edges(lights_m, name):
    assert visibility.light_class_easa(lights_m) == name


def test_easa_row_edges():
    assert visibility.rvr_for_decision_height_easa_m(250.0, 720) == 550.0
    assert visibility.rvr_for_decision_height_easa_m(250.1, 720) == 600.0


@quick
@given(st.floats(200, 400), st.floats(0, 2000), st.floats(200, 400), st.floats(0, 2000))
def test_easa_more_height_or_fewer_lights_never_lower(height_a, lights_a, height_b, lights_b):
    high, low = max(height_a, height_b), min(height_a, height_b)
    few, many = min(lights_a, lights_b), max(lights_a, lights_b)
    worst = visibility.rvr_for_decision_height_easa_m(high, few)
    assert worst >= visibility.rvr_for_decision_height_easa_m(low, many)


def test_formula_gives_easa_table():
    """Each row from the least height in it, 0.1 deg steeper than the row before: within the table's own rounding.

    The table rounds to 50 or 100 m, either way, and is never under 550 m.
    """
    lowest_ft = (200, 211, 241, 251, 261, 281, 301, 321, 341, 361, 381)
    angles_deg = [min(3.0 + 0.1 * number, 3.77) for number in range(len(lowest_ft))]
    for height_ft, angle_deg in zip(lowest_ft, angles_deg, strict=True):
        for lights_m in (720.0, 420.0, 210.0, 0.0):
            formula_m = visibility.rvr_by_formula_easa_m(height_ft, angle_deg, lights_m)
            table_m = visibility.rvr_for_decision_height_easa_m(height_ft, lights_m)
            assert abs(table_m - max(formula_m, 550.0)) <= 110.0, (height_ft, lights_m)


def test_formula_matches_hand_calculation():
    # 200 ft are 60.96 m; 60.96 / 0.052408 = 1163.2 m.
    assert visibility.rvr_by_formula_easa_m(200.0, 3.0, 720.0) == pytest.approx(443.2, abs=0.05)


def test_head_up_display_required_below_750_m():
    assert visibility.needs_head_up_display_easa(749.9)
    assert not visibility.needs_head_up_display_easa(750.0)


@pytest.mark.parametrize(("rvr_ft", "miles"), [(1600, 0.25), (1800, 0.25), (2399, 0.25), (2400, 0.5), (6000, 1.25),
                                               (9000, 1.25)])
def test_reported_rvr_never_rounded_up(rvr_ft, miles):
    assert visibility.visibility_for_reported_rvr_sm(rvr_ft) == miles


@quick
@given(st.floats(1600, 6000))
def test_reported_visibility_never_worth_more_than_required(rvr_ft):
    assert visibility.visibility_for_reported_rvr_sm(rvr_ft) <= visibility.visibility_for_rvr_sm(rvr_ft)


@pytest.mark.parametrize("call", [
    lambda: visibility.visibility_for_reported_rvr_sm(1599.0),
    lambda: visibility.rvr_by_formula_easa_m(250.0, 0.5, 720.0),
    lambda: visibility.needs_head_up_display_easa(-1.0),
    lambda: visibility.visibility_for_rvr_sm(1599.0),
    lambda: visibility.visibility_for_rvr_sm(6001.0),
    lambda: visibility.visibility_for_rvr_sm(math.nan),
    lambda: visibility.rvr_for_visibility_ft(0.2),
    lambda: visibility.rvr_for_visibility_ft(1.26),
    lambda: visibility.visibility_ft(-0.1),
    lambda: visibility.light_class_easa(-1.0),
    lambda: visibility.rvr_for_decision_height_easa_m(199.0, 720.0),
    lambda: visibility.rvr_for_decision_height_easa_m(401.0, 720.0),
    lambda: visibility.rvr_for_decision_height_easa_m(250.0, math.nan),
])
def test_out_of_domain_rejected(call):
    with pytest.raises(DomainError):
        call()


PRINTED = (
    ({"visibility_sm": 0.5}, 2640.0, "1/2\u202fSM", "visibility 1/2\u202fSM"),
    ({"visibility_sm": 1.75}, 9240.0, "1 3/4\u202fSM", "visibility 1 3/4\u202fSM"),
    ({"visibility_m": 800.0}, 800.0 / 0.3048, "800\u202fm", "visibility 800\u202fm"),
    ({"rvr_m": 550.0}, 550.0 / 0.3048, "RVR 550\u202fm", "RVR 550\u202fm"),
    ({"rvr_ft": 2400.0}, 2400.0, "RVR 2400\u202fft", "RVR 2400\u202fft"),
)


@pytest.mark.parametrize(("printed", "length_ft", "short", "words"), PRINTED)
def test_printed_visibility(printed, length_ft, short, words):
    line = row("LPV", "AB", 224.0, **printed)
    there = visibility.printed_visibility(line)
    assert (there.short, there.words) == (short, words)
    assert there.length_ft == visibility.printed_visibility_ft(line) == pytest.approx(length_ft)
    assert visibility.printed_visibility_text(line) == short


def test_no_printed_visibility():
    line = row("LPV", "AB", 224.0, visibility_sm=None)
    assert visibility.printed_visibility(line) is visibility.printed_visibility_ft(line) is None
    assert visibility.printed_visibility_text(line) == ""
