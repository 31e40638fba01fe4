"""Meeting the glidepath from below and from above."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.intercept import glidepath as path_intercept
from lpv.intercept.schedule import Slowing
from lpv.path import profile as path

quick = settings(max_examples=40, deadline=None)


def test_level_from_below_agrees_with_flat_path():
    height_ft = path.flat_path_height_ft(8.0, 0.0, 50.0, 3.0)
    meets_nm = path.flat_path_distance_nm(1800.0, 0.0, 50.0, 3.0)
    assert 8.0 - path_intercept.level_to_path_nm(height_ft - 1800.0, 3.0) == pytest.approx(meets_nm)
    assert path_intercept.level_to_path_nm(0.0, 3.0) == 0.0
    assert path_intercept.level_to_path_s(318.44, 3.0, 120.0) == pytest.approx(30.0, abs=0.001)


def test_above_and_below_share_geometry():
    above_ft = path_intercept.above_path_after_ft(1.5, 3.2)
    assert path_intercept.level_to_path_nm(above_ft, 3.2) == pytest.approx(1.5)
    assert path_intercept.above_path_late_ft(45.0, 3.2, 120.0) == pytest.approx(above_ft)


@quick
@given(st.floats(0, 1500), st.floats(2.5, 4), st.floats(3, 10), st.floats(60, 200))
def test_regain_matches_second_by_second(above_ft, gpa_deg, within_nm, speed_kt):
    rate_fpm = path_intercept.regain_rate_fpm(above_ft, gpa_deg, within_nm, speed_kt)
    minutes = within_nm / speed_kt * 60
    path_loss_ft = within_nm * 1852 / 0.3048 * math.tan(math.radians(gpa_deg))
    assert rate_fpm * minutes == pytest.approx(above_ft + path_loss_ft)


@quick
@given(st.floats(100, 800), st.floats(2.5, 4), st.floats(1.5, 5), st.floats(100, 200))
def test_regain_rate_and_height_are_inverse(above_ft, gpa_deg, within_nm, speed_kt):
    rate_fpm = path_intercept.regain_rate_fpm(above_ft, gpa_deg, within_nm, speed_kt)
    holding_fpm = path_intercept.regain_rate_fpm(0.0, gpa_deg, within_nm, speed_kt)
    assert path_intercept.regained_ft(rate_fpm, gpa_deg, within_nm, speed_kt) == pytest.approx(above_ft)
    assert path_intercept.regained_ft(holding_fpm - 1.0, gpa_deg, within_nm, speed_kt) == 0.0


def test_nothing_to_regain():
    assert path_intercept.regain_angle_deg(0.0, 3.0, 5.0) == pytest.approx(3.0)


@pytest.mark.parametrize("call", [
    lambda: path_intercept.level_to_path_nm(-1.0, 3.0),
    lambda: path_intercept.level_to_path_nm(100.0, 0.0),
    lambda: path_intercept.level_to_path_s(100.0, 3.0, 0.0),
    lambda: path_intercept.above_path_after_ft(math.nan, 3.0),
    lambda: path_intercept.above_path_late_ft(-1.0, 3.0, 120.0),
    lambda: path_intercept.above_path_late_ft(1.0, 3.0, 0.0),
    lambda: path_intercept.regain_angle_deg(100.0, 3.0, 0.0),
    lambda: path_intercept.regain_angle_deg(5000.0, 3.0, 1.0),
    lambda: path_intercept.regain_rate_fpm(100.0, 3.0, 5.0, math.inf),
])
def test_out_of_domain_rejected(call):
    with pytest.raises(DomainError):
        call()


@pytest.mark.parametrize(("path_kt_per_s", "words"), [(-0.001, "gains"), (0.0, "loses"), (0.9, "loses")])
def test_configuration_effect_on_path(path_kt_per_s, words):
    assert Slowing("clean", 200.0, 0.9, path_kt_per_s, 3.0).on_path() == words
