"""Path deviation of LPV and LNAV/VNAV with SBAS."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.path import scale as path_scale

quick = settings(max_examples=40, deadline=None)
angles = st.floats(1, 10)
FLOOR_FT, CAP_FT, BARO_FLOOR_FT = 15 / 0.3048, 150 / 0.3048, 45 / 0.3048


def test_at_origin_and_far_out():
    assert path_scale.lpv_full_scale_ft(0.0, 3.0) == pytest.approx(FLOOR_FT)
    assert path_scale.lnav_vnav_full_scale_ft(0.0, 3.0) == pytest.approx(BARO_FLOOR_FT)
    assert path_scale.lpv_full_scale_ft(30.0, 3.0) == pytest.approx(CAP_FT)
    assert path_scale.lnav_vnav_full_scale_ft(30.0, 3.0) == pytest.approx(CAP_FT)


@quick
@given(angles)
def test_limits_act_where_closed_form_says(gpa_deg):
    for scale, floor_nm, cap_nm, floor_ft in (
        (
            path_scale.lpv_full_scale_ft, path_scale.lpv_floor_distance_nm,
            path_scale.lpv_cap_distance_nm, FLOOR_FT,
        ),
        (
            path_scale.lnav_vnav_full_scale_ft, path_scale.lnav_vnav_floor_distance_nm,
            path_scale.lnav_vnav_cap_distance_nm, BARO_FLOOR_FT,
        ),
    ):
        low_nm, high_nm = floor_nm(gpa_deg), cap_nm(gpa_deg)
        assert scale(low_nm * 0.999, gpa_deg) == pytest.approx(floor_ft)
        assert floor_ft < scale(low_nm * 1.01, gpa_deg) < CAP_FT
        assert floor_ft < scale(high_nm * 0.99, gpa_deg) < CAP_FT
        assert scale(high_nm * 1.001, gpa_deg) == pytest.approx(CAP_FT)


@quick
@given(st.floats(1, 5), angles)
def test_quarter_of_angle_between_limits(distance_nm, gpa_deg):
    full_scale_ft = path_scale.lpv_full_scale_ft(distance_nm, gpa_deg)
    if FLOOR_FT < full_scale_ft < CAP_FT:
        seen_deg = math.degrees(math.atan2(full_scale_ft, distance_nm * 1852 / 0.3048))
        assert seen_deg == pytest.approx(gpa_deg / 4)


def test_origin_past_threshold():
    at_threshold_nm = path_scale.origin_distance_nm(0.0, 50.0, 3.0)
    assert at_threshold_nm * 1852 / 0.3048 == pytest.approx(954.06, abs=0.005)
    assert path_scale.origin_distance_nm(2.0, 0.0, 3.0) == 2.0
    farthest_nm = path_scale.origin_distance_nm(200.0, 200.0, 1.0)
    assert path_scale.lpv_full_scale_ft(farthest_nm, 1.0) == pytest.approx(CAP_FT)


@pytest.mark.parametrize("call", [
    lambda: path_scale.origin_distance_nm(-0.1, 50.0, 3.0),
    lambda: path_scale.origin_distance_nm(1.0, 201.0, 3.0),
    lambda: path_scale.origin_distance_nm(1.0, 50.0, 0.0),
    lambda: path_scale.lpv_full_scale_ft(-0.01, 3.0),
    lambda: path_scale.lpv_full_scale_ft(math.nan, 3.0),
    lambda: path_scale.lpv_full_scale_ft(1.0, 10.1),
    lambda: path_scale.lnav_vnav_full_scale_ft(math.inf, 3.0),
    lambda: path_scale.lpv_cap_distance_nm(0.9),
    lambda: path_scale.lpv_full_scale_ft(203.0, 3.0),
])
def test_out_of_domain_rejected(call):
    with pytest.raises(DomainError):
        call()
