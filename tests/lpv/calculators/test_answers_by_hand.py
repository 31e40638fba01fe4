"""What calculators answer, worked out by hand: every answer that is a number, to the digit that it is shown to."""

import json
import math
import re
from itertools import pairwise

import pytest

from calculator_cases import as_json
from lpv.calculators.run import calculator, run

FT_PER_NM = 1852 / 0.3048
EARTH_FT = 6371000.0 / 0.3048
G_FPS2 = 32.174
FPS = FT_PER_NM / 3600.0  # of 1 kt


def tan(degrees):
    return math.tan(math.radians(degrees))


def sin(degrees):
    return math.sin(math.radians(degrees))


def cos(degrees):
    return math.cos(math.radians(degrees))


def answers(name, **changed):
    """The answers as texts with plain spaces and signs, and the table's rows."""
    texts = {field.key: field.default for field in calculator(name).inputs} | changed
    answer = json.loads(run(name, as_json(texts)))
    outputs = {key: plain(text) for key, (text, _) in answer["outputs"].items()}
    return outputs, [[plain(cell) for cell in row] for row in answer["rows"]]


def plain(text):
    return text.replace("\u202f", " ").replace("\u2212", "-")


def number(text):
    return float(re.match(r"[-+]?\d+(?:\.\d+)?", text)[0])


PATH_FT = 300.0 + 55.0 + 8.0 * FT_PER_NM * tan(3.2)
TURN_FT = (150.0 * FPS) ** 2 / (G_FPS2 * tan(25.0))  # radius
WITH_WIND_KT = 140.0 * cos(math.degrees(math.asin(25.0 * sin(60.0) / 140.0))) - 25.0 * cos(60.0)
SINK_FPS = 130.0 * FPS * tan(3.0)
CASES = [
    ("path-altitude", {"distance_nm": "8", "threshold_elevation_ft": "300", "tch_ft": "55", "gpa_deg": "3.2"}, {
        "flat_ft": (PATH_FT, 0.6), "barometric_ft": (PATH_FT, 1.0),
        "straight_ft": (PATH_FT + (8.0 * FT_PER_NM) ** 2 / (2 * EARTH_FT), 1.0),
        "excess_ft": ((8.0 * FT_PER_NM) ** 2 / (2 * EARTH_FT), 1.0)}),
    ("course", {"true_course_deg": "200", "variation_deg": "12", "side": "W", "charted_course_deg": "210"}, {
        "magnetic": (212.0, 0.05), "difference_deg": (2.0, 0.05), "aside_ft": (5.0 * FT_PER_NM * sin(2.0), 5.1)}),
    ("cold", {"altitude_ft": "3000", "aerodrome_elevation_ft": "1000", "temperature_c": "-20"}, {
        "segment_ft": (300.0, 0.5), "segment_altitude_ft": (3300.0, 0.5), "minimum_ft": (280.0, 0.5),
        "minimum_altitude_ft": (3280.0, 0.5), "height_ft": (2000.0, 0.5),
        "true_height_ft": (2000.0 * (1.0 - (35.0 - 1.98) / (288.15 - 1.98 * 2.0)), 2.0)}),
    ("vector", {}, {
        "distance_nm": (14.0 - 3.0 / tan(30.0), 0.06), "angle_deg": (30.0, 0.5),
        "outside_nm": (14.0 - 3.0 / tan(30.0) - 6.0, 0.06), "time_s": (3.0 / sin(30.0) / 180.0 * 3600.0, 0.6)}),
    ("turn-on", {"true_airspeed_kt": "150", "track_deg": "180", "roll_rate_deg_per_s": "20"}, {
        "angle_deg": (90.0, 0.5), "bank_reached_deg": (25.0, 0.5),
        "cross_track_nm": (TURN_FT / FT_PER_NM, 0.06), "overshoot_nm": (5.0 * 150.0 / 3600.0, 0.011)}),
    ("from-above", {"above_path_ft": "300", "within_nm": "3", "ground_speed_kt": "120"}, {
        "holding_fpm": (120.0 * FT_PER_NM / 60.0 * tan(3.0), 5.0), "time_s": (90.0, 0.5),
        "rate_fpm": (120.0 * FT_PER_NM / 60.0 * tan(3.0) + 200.0, 5.0),
        "angle_deg": (math.degrees(math.atan(tan(3.0) + 100.0 / FT_PER_NM)), 0.05)}),
    ("added", {"vref_kt": "110", "gust_kt": "31"}, {
        "added_kt": (8.0, 0.5), "target_kt": (118.0, 0.5), "headwind_kt": (15.0 * cos(30.0), 0.5),
        "over_kt": (31.0 - 15.0, 0.5)}),
    ("hold", {}, {
        "inbound_heading_deg": (90.0 + math.degrees(math.asin(20.0 * sin(40.0) / 200.0)), 0.5),
        "drift_in_deg": (math.degrees(math.asin(20.0 * sin(40.0) / 200.0)), 0.5)}),
    ("descent-rate", {"ground_speed_kt": "150", "gpa_deg": "3.5"}, {
        "rate_fpm": (150.0 * FT_PER_NM / 60.0 * tan(3.5), 5.0), "gradient_ft_per_nm": (FT_PER_NM * tan(3.5), 0.6),
        "rule_fpm": (750.0, 5.0)}),
    ("wind", {"course_deg": "100", "true_airspeed_kt": "140", "wind_from_deg": "160", "wind_kt": "25"}, {
        "along_kt": (12.5, 0.51), "across_kt": (25.0 * sin(60.0), 0.5), "ground_speed_kt": (WITH_WIND_KT, 0.5),
        "heading_deg": (100.0 + math.degrees(math.asin(25.0 * sin(60.0) / 140.0)), 0.5),
        "drift_deg": (math.degrees(math.asin(25.0 * sin(60.0) / 140.0)), 0.5)}),
    ("dots", {"distance_nm": "4", "dots": "1.5", "offset_ft": "80"}, {
        "course_full_scale_ft": (350.0 * (1.0 + 4.0 * FT_PER_NM / 10000.0), 0.6),
        "course_ft": (0.75 * 350.0 * (1.0 + 4.0 * FT_PER_NM / 10000.0), 0.6),
        "path_full_scale_ft": ((4.0 * FT_PER_NM + 50.0 / tan(3.0)) * tan(0.75), 1.0),
        "path_ft": (0.75 * (4.0 * FT_PER_NM + 50.0 / tan(3.0)) * tan(0.75), 1.0),
        "course_dots": (2.0 * 80.0 / 350.0 / (1.0 + 4.0 * FT_PER_NM / 10000.0), 0.051),
        "path_dots": (2.0 * 80.0 / (4.0 * FT_PER_NM + 50.0 / tan(3.0)) / tan(0.75), 0.051)}),
    ("altimeter", {"temperature_c": "-20", "aerodrome_elevation_ft": "0"}, {
        "path_ft": (50.0 + 5.0 * FT_PER_NM * tan(3.0) + (5.0 * FT_PER_NM) ** 2 / (2 * EARTH_FT), 1.0),
        "indicated_ft": (1664.0 * (1.0 + 35.0 / (253.15 - 1.65)), 8.0),
        "to_charted_ft": (1664.0 * (1.0 + 35.0 / (253.15 - 1.65)) - 2000.0, 8.0)}),
    ("climb", {"ground_speed_kt": "150", "gradient_ft_per_nm": "240", "climb_rate_fpm": "500"}, {
        "needed_fpm": (600.0, 5.0), "made_good_ft_per_nm": (200.0, 0.5), "margin_ft_per_nm": (-40.0, 0.5)}),
    ("dip", {"decision_ft": "300"}, {
        "loss_ft": (SINK_FPS + SINK_FPS**2 / (0.4 * G_FPS2), 0.6),
        "lowest_ft": (300.0 - SINK_FPS - SINK_FPS**2 / (0.4 * G_FPS2), 0.6),
        "lowest_s": (1.0 + SINK_FPS / (0.2 * G_FPS2), 0.06),
        "margin_ft": (142.0 - SINK_FPS - SINK_FPS**2 / (0.4 * G_FPS2), 0.6)}),
    ("sight", {"eyes_above_antenna_ft": "10", "visibility": "730", "visibility_unit": "m"}, {
        "distance_ft": (150.0 / tan(3.0), 5.1), "hidden_ft": (210.0 / tan(15.0), 5.1),
        "lights_seen_ft": (math.sqrt((730.0 / 0.3048) ** 2 - 210.0**2) - 210.0 / tan(15.0), 6.0)}),
    ("rvr", {"rvr_ft": "4200", "visibility_sm": "1"}, {"rvr_for_ft": (5000.0, 0.5), "rvr_m": (4200.0 * 0.3048, 0.6)}),
    ("cycle", {"day": "2026-12-01", "ident": "2612"}, {"left_days": (23.0, 0.5)}),
]


@pytest.mark.parametrize(("name", "changed", "expected"), CASES, ids=[case[0] for case in CASES])
def test_answers_match_hand_calculation(name, changed, expected):
    outputs, _ = answers(name, **changed)
    for key, (value, off) in expected.items():
        assert number(outputs[key]) == pytest.approx(value, abs=off), (key, outputs[key])


def test_sides_named():
    wind, _ = answers("wind", course_deg="100", wind_from_deg="160")
    assert wind["across_kt"].endswith("from the right")
    assert wind["drift_deg"].endswith("left")
    assert wind["along_kt"].endswith("headwind")
    other, _ = answers("wind", course_deg="100", wind_from_deg="320")
    assert other["across_kt"].endswith("from the left")
    assert other["along_kt"].endswith("tailwind")
    assert answers("course", variation_deg="5", side="E")[0]["magnetic"] == "085.0°"
    assert answers("course", variation_deg="5", side="W")[0]["magnetic"] == "095.0°"


def test_table_varies_one_field_in_equal_steps():
    _, rows = answers("descent-rate", ground_speed_kt="130", gpa_deg="3")
    speeds = [number(row[0]) for row in rows]
    assert {later - earlier for earlier, later in pairwise(speeds)} == {10.0}
    assert [number(row[1]) for row in rows] == [
        pytest.approx(speed * FT_PER_NM / 60.0 * tan(3.0), abs=5.0) for speed in speeds]
