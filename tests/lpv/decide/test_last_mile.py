"""The last part of a final in figures, by hand: plane geometry, the standard atmosphere near the ground, plain motion.

The example: airport 31 ft, threshold 22 ft, touchdown zone 24 ft, crossing height 52 ft, 3.00 degrees, FAF 6.05 NM out,
lights 2400 ft; eyes 1 ft above the antenna, 16 degrees over the nose.
"""

import math

import pytest

from approach_variants import demo, jet, with_chart
from lpv.core.errors import DomainError
from lpv.decide import last_mile
from paths_by_hand import before_threshold_ft

APPROACH, TYPE = demo(), jet()
FT_PER_NM, TAN = 1852 / 0.3048, math.tan(math.radians(3.0))
FPS = 130.0 * FT_PER_NM / 3600.0  # of 130 kt


def test_hundredth_inch_is_nine_feet():
    ft_per_inch = 287.053 * 288.15 / (101325.0 * 9.80665) * 3386.389 / 0.3048  # dz = R T / (p g) dp
    assert last_mile.wrong_setting_ft(29.93) == pytest.approx(ft_per_inch / 100.0, abs=0.02)
    assert last_mile.wrong_setting_ft(28.92) == pytest.approx(-ft_per_inch, rel=0.02)
    assert last_mile.wrong_setting_ft(29.92, 30.92) == pytest.approx(-ft_per_inch, rel=0.02)


def test_allowed_reading_at_faf():
    parts = last_mile.reading_allowances_ft(APPROACH)
    faf_ft = 6.048 * FT_PER_NM
    height_ft = 22.0 + 52.0 + faf_ft * TAN + faf_ft**2 / (2 * 6371000.0 / 0.3048) - 31.0
    assert parts == {
        "altimeter": 75.0,
        "glidepath": pytest.approx(150.0 / 0.3048 / 2 / 4, rel=1e-6),  # a quarter of a dot; full scale is capped there
        "air": pytest.approx(height_ft * 5.0 / (288.15 - 5.0 - 0.0065 * 0.3048 * height_ft / 2), rel=2e-3),
        "passage": pytest.approx(0.05 * FT_PER_NM * TAN),
        "sbas": pytest.approx(4.0 / 0.3048),
        "setting": pytest.approx(4.62, abs=0.01),
    }
    assert last_mile.together_ft([3.0, 4.0, 12.0]) == pytest.approx(13.0)


def test_aircraft_lower_than_shown_in_cold():
    shown_ft, mean_k = 2000.0 - 31.0, 288.15 - 0.0065 * 0.3048 * (31.0 + 1969.0 / 2)
    deviation_c = 35.0 - 0.0065 * 0.3048 * 31.0
    assert last_mile.lower_than_shown_ft(APPROACH, 2000.0, -20.0) == pytest.approx(
        shown_ft * deviation_c / mean_k, rel=2e-3)
    assert last_mile.lower_than_shown_ft(APPROACH, 2000.0, 35.0) < 0.0


def test_descent_rates():
    per_kt = FT_PER_NM * TAN / 60.0
    assert last_mile.ground_speed_at_rate_kt(900.0, 3.0) == pytest.approx(900.0 / per_kt)
    assert last_mile.regain_rate_fpm(100.0, 1.0, 130.0, 3.0) == pytest.approx(130.0 * per_kt + 100.0 * 130.0 / 60.0)
    assert last_mile.rule_short_percent(3.0) == pytest.approx((per_kt - 5.0) / per_kt * 100.0)


def test_time_to_one_dot():
    dot_ft = 106.75 / 0.3048 * (APPROACH.geometry.garp_distance_ft + FT_PER_NM) / APPROACH.geometry.garp_distance_ft / 2
    assert last_mile.seconds_to_a_dot(APPROACH, 1.0, 2.0, 130.0) == pytest.approx(
        dot_ft / (FPS * math.sin(math.radians(2.0))), rel=1e-6)


def test_decision_point():
    point = last_mile.decision_point(APPROACH, 224.0)
    assert (point.altitude_ft, point.height_ft) == (224.0, 202.0)
    assert point.distance_ft == pytest.approx(before_threshold_ft(150.0), abs=0.1)
    assert point.distance_nm * FT_PER_NM == pytest.approx(point.distance_ft)


def test_lights():
    assert last_mile.lights_only_ft(APPROACH) == 124.0
    assert last_mile.lights_length_ft(APPROACH) == 2400.0
    assert last_mile.lights_length_ft(with_chart(APPROACH, lights=None)) == 0.0


def test_visual_segment_ahead():
    view = last_mile.View(APPROACH, TYPE, 202.0)
    assert (view.above_antenna_ft, view.eye_ft, view.cutoff_deg, view.lights_ft) == (1.0, 203.0, 16.0, 2400.0)
    assert view.distance_ft == pytest.approx(before_threshold_ft(150.0), abs=0.1)
    assert view.hidden_ft == pytest.approx(203.0 / math.tan(math.radians(16.0)))
    assert view.reach_ft(2400.0) == pytest.approx(math.sqrt(2400.0**2 - 203.0**2))
    assert view.needed_ft() == pytest.approx(math.sqrt(view.distance_ft**2 + 203.0**2))
    sight = view.sight(2400.0)
    assert sight.inner_ft == pytest.approx(view.distance_ft - view.reach_ft(2400.0))
    assert sight.outer_ft == pytest.approx(view.distance_ft - view.hidden_ft)
    assert not sight.threshold
    assert view.sight(view.needed_ft() + 0.01).threshold


def test_highest_altitude_with_threshold_in_sight():
    """In whole feet: at 177 ft above the threshold 2400 ft of visibility reach it, at 178 ft they do not."""
    def line_of_sight_ft(height_ft):
        return math.hypot((height_ft - 52.0) / TAN, height_ft + 1.0)

    assert line_of_sight_ft(177.0) < 2400.0 < line_of_sight_ft(178.0)
    assert last_mile.threshold_seen_at_ft(APPROACH, TYPE, 224.0, 2400.0) == 22.0 + 177.0
    assert last_mile.threshold_seen_at_ft(APPROACH, TYPE, 195.0, 2400.0) == 195.0
    assert line_of_sight_ft(67.0) < 300.0 < line_of_sight_ft(68.0)
    assert last_mile.threshold_seen_at_ft(APPROACH, TYPE, 224.0, 300.0) == 22.0 + 67.0
    with pytest.raises(DomainError, match="230"):  # there the nose hides it
        last_mile.threshold_seen_at_ft(APPROACH, TYPE, 224.0, 230.0)


def test_levelling_off_at_minimum():
    for altitude_ft, time_s in ((224.0, 5.0), (624.0, 8.0)):
        level = last_mile.level_off(APPROACH, altitude_ft, 130.0, time_s)
        flown_ft, height_ft = FPS * time_s, altitude_ft - 22.0
        left_ft = (height_ft - ((height_ft - 52.0) / TAN) ** 2 / (2 * 6371000.0 / 0.3048)) / TAN - flown_ft
        assert level.above_path_ft == pytest.approx(flown_ft * TAN)
        quarter_ft = left_ft * math.tan(math.radians(0.75))
        assert level.full_scale_ft == pytest.approx(max(15.0 / 0.3048, quarter_ft), rel=1e-3)
        assert level.angle_deg == pytest.approx(math.degrees(math.atan(height_ft / left_ft)), rel=1e-3)
    seconds = 15.0 / 0.3048 / TAN / FPS  # until the path is its narrowest full scale below
    assert last_mile.off_scale_s(APPROACH, 224.0, 130.0) == pytest.approx(math.ceil(seconds * 10.0) / 10.0)
    with pytest.raises(DomainError, match="within a minute"):
        last_mile.off_scale_s(APPROACH, 1800.0, 20.0)


def test_tailwind_at_rate():
    """1000 ft/min on 3 degrees is reached at 188.4 kt over the ground."""
    assert last_mile.tailwind_at_rate_kt(1000.0, 3.0, 140.0) == pytest.approx(188.42 - 140.0, abs=0.01)
    assert last_mile.tailwind_at_rate_kt(1000.0, 3.0, 200.0) < 0.0


def test_seconds_to_minimum():
    """From 5 NM at 120 kt: two miles a minute, less what is left from the minimum on."""
    left_nm = before_threshold_ft(150.0) / FT_PER_NM
    assert last_mile.seconds_to_minimum(APPROACH, 5.0, 224.0, 120.0) == pytest.approx((5.0 - left_nm) * 30.0, abs=0.01)
