"""Course deviation: shape of the scale, dots and positions."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.core.units import FT_PER_NM
from lpv.path import deviation

SEGMENT = (350.0, 10023.0)
quick = settings(max_examples=40, deadline=None)
half_widths = st.floats(100, 1000)
garps = st.floats(1000, 50_000)


def test_scale_continuous_and_never_narrows_outbound():
    steps = [-1.5 + 0.005 * n for n in range(4000)]
    widths = [deviation.procedure_full_scale_ft(d, 5.0, *SEGMENT) for d in steps]
    for before, after in pairwise(widths):
        assert 0.0 <= after - before < 15.0
    assert min(widths) == 350.0
    assert max(widths) == pytest.approx(FT_PER_NM)


def test_halfway_through_tightening_is_mean_of_ends():
    at_pfaf = deviation.final_full_scale_ft(5.0, *SEGMENT)
    middle = deviation.procedure_full_scale_ft(6.0, 5.0, *SEGMENT)
    assert middle == pytest.approx((at_pfaf + FT_PER_NM) / 2)


def test_vectors_scale_ignores_long_final_cap():
    assert deviation.vectors_full_scale_ft(15.0, *SEGMENT) > deviation.final_full_scale_ft(15.0, *SEGMENT)
    assert deviation.vectors_full_scale_ft(3.0, *SEGMENT) == deviation.final_full_scale_ft(3.0, *SEGMENT)


@quick
@given(half_widths, garps)
def test_cap_distances_where_splay_reaches_caps(half_width_ft, garp_ft):
    segment = (half_width_ft, garp_ft)
    final_nm = deviation.final_cap_distance_nm(*segment)
    vectors_nm = deviation.vectors_cap_distance_nm(*segment)
    if final_nm < 200:
        assert deviation.angular_full_scale_ft(final_nm, *segment) == pytest.approx(0.3 * FT_PER_NM)
    if vectors_nm < 200:
        assert deviation.angular_full_scale_ft(vectors_nm, *segment) == pytest.approx(FT_PER_NM)
        assert deviation.vectors_full_scale_ft(vectors_nm - 0.01, *segment) < FT_PER_NM


def test_angle_from_garp_constant():
    angles = [
        math.atan2(deviation.angular_full_scale_ft(d, *SEGMENT), d * FT_PER_NM + 10023.0)
        for d in (-1, 0, 3, 40)
    ]
    assert max(angles) - min(angles) < 1e-12
    assert math.degrees(angles[0]) == pytest.approx(2.0, abs=0.0005)


@pytest.mark.parametrize(("turn_deg", "full_scale_nm"), [
    (0, 0.3), (3, 0.3), (-3, 0.3), (3.01, 1), (-3.01, 1), (180, 1), (-180, 1),
])
def test_missed_approach_first_leg(turn_deg, full_scale_nm):
    assert deviation.missed_first_leg_full_scale_ft(turn_deg) == pytest.approx(full_scale_nm * FT_PER_NM)


def test_after_first_missed_approach_turn():
    assert deviation.missed_after_turn_full_scale_ft() == pytest.approx(FT_PER_NM)
    assert deviation.missed_after_turn_full_scale_ft() > deviation.missed_first_leg_full_scale_ft(0.0)


@quick
@given(st.floats(-1, 1), st.floats(1, 6000))
def test_dots_round_trip(share, full_scale_ft):
    for there, back in (
        (deviation.two_dots, deviation.from_two_dots_ft), (deviation.five_dots, deviation.from_five_dots_ft),
    ):
        displacement_ft = share * full_scale_ft
        assert back(there(displacement_ft, full_scale_ft), full_scale_ft) == pytest.approx(displacement_ft)


def test_dots_by_hand():
    assert deviation.two_dots(-175.0, 350.0) == -1.0
    assert deviation.five_dots(70.0, 350.0) == 1.0
    assert deviation.two_dots(700.0, 350.0) == 4.0
    assert str(deviation.two_dots(-0.0, 350.0)) == "0.0"
    assert str(deviation.from_five_dots_ft(-0.0, 350.0)) == "0.0"


@pytest.mark.parametrize("call", [
    lambda: deviation.angular_full_scale_ft(math.nan, *SEGMENT),
    lambda: deviation.angular_full_scale_ft(-1.7, *SEGMENT),
    lambda: deviation.final_full_scale_ft(200.1, *SEGMENT),
    lambda: deviation.final_full_scale_ft(1.0, 0.0, 10023.0),
    lambda: deviation.final_full_scale_ft(1.0, 350.0, -10023.0),
    lambda: deviation.procedure_full_scale_ft(250.0, 5.0, *SEGMENT),
    lambda: deviation.procedure_full_scale_ft(3.0, 0.0, *SEGMENT),
    lambda: deviation.procedure_full_scale_ft(math.inf, 5.0, *SEGMENT),
    lambda: deviation.vectors_full_scale_ft(-3.0, *SEGMENT),
    lambda: deviation.missed_first_leg_full_scale_ft(181.0),
    lambda: deviation.final_cap_distance_nm(350.0, 0.0),
    lambda: deviation.two_dots(1.0, 0.0),
    lambda: deviation.five_dots(math.nan, 350.0),
    lambda: deviation.from_two_dots_ft(2.1, 350.0),
    lambda: deviation.from_five_dots_ft(-5.1, 350.0),
])
def test_out_of_domain_rejected(call):
    with pytest.raises(DomainError):
        call()


@quick
@given(st.floats(-0.16, 200), st.floats(0.1, 50), half_widths, garps)
def test_always_finite_between_floor_and_cap(distance_nm, pfaf_nm, half_width_ft, garp_ft):
    for full_scale_ft in (
        deviation.procedure_full_scale_ft(distance_nm, pfaf_nm, half_width_ft, garp_ft),
        deviation.vectors_full_scale_ft(distance_nm, half_width_ft, garp_ft),
    ):
        assert half_width_ft <= full_scale_ft <= FT_PER_NM * (1 + 1e-12)
