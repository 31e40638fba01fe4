"""Localizer and glide slope beside the SBAS scales."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.path import deviation, ils_scale

quick = settings(max_examples=40, deadline=None)


def test_localizer_matches_lpv_course_with_antenna_at_garp():
    for distance_nm in (0.0, 1.0, 5.0):
        assert ils_scale.localizer_full_scale_ft(distance_nm, 10023.0) == pytest.approx(
            deviation.final_full_scale_ft(distance_nm, 350.0, 10023.0)
        )


def test_localizer_bounds_for_short_and_long_runways():
    assert ils_scale.localizer_full_scale_deg(1000.0) == 3.0
    assert ils_scale.localizer_full_scale_deg(50_000.0) == 1.5
    assert ils_scale.localizer_full_scale_ft(0.0, 1000.0) < 350.0
    assert ils_scale.localizer_full_scale_ft(0.0, 50_000.0) > 350.0


@quick
@given(st.floats(6700, 13_300))
def test_localizer_tailored_between_bounds(antenna_ft):
    assert ils_scale.localizer_full_scale_ft(0.0, antenna_ft) == pytest.approx(350.0)


def test_modulation_figures_give_same_width():
    assert ils_scale.localizer_full_scale_from_modulation_ft() == pytest.approx(350.0, abs=1.0)


@quick
@given(st.floats(0, 202), st.floats(1, 10))
def test_glide_slope_angle_from_its_origin(distance_nm, gpa_deg):
    feet = distance_nm * 1852 / 0.3048
    beam = math.tan(math.radians(0.7))
    assert ils_scale.glide_slope_full_scale_ft(distance_nm) == pytest.approx(feet * beam)
    assert ils_scale.glide_slope_of_angle_full_scale_ft(distance_nm, gpa_deg) == pytest.approx(
        feet * math.tan(math.radians(0.24 * gpa_deg))
    )


@pytest.mark.parametrize("call", [
    lambda: ils_scale.localizer_full_scale_deg(0.0),
    lambda: ils_scale.localizer_full_scale_ft(-1.0, 10023.0),
    lambda: ils_scale.localizer_full_scale_ft(1.0, math.nan),
    lambda: ils_scale.glide_slope_full_scale_ft(-0.1),
    lambda: ils_scale.glide_slope_of_angle_full_scale_deg(10.5),
    lambda: ils_scale.glide_slope_of_angle_full_scale_ft(math.inf, 3.0),
])
def test_out_of_domain_rejected(call):
    with pytest.raises(DomainError):
        call()
