"""What the scripts of docs/decide/ show, worked out in another way: plane geometry, kinematics, published tables.

The example: threshold 22 ft, touchdown zone 24 ft, crossing height 52 ft, 3.00 degrees, DA 224 ft, lights 2400 ft;
138 kt, eyes 2 ft above the antenna, 14 degrees down, reaction 1.5 s, 0.15 g, climb 900 ft/min with one engine out.
"""

import math

import pytest

from decide import (
    calls,
    climb,
    dip,
    dip_rates,
    last_feet,
    level_off,
    lines,
    references,
    rvr,
    scales,
    sight,
    surface,
    view,
)
from shown import cell, row, rows

FT_PER_NM, G_FPS2 = 1852 / 0.3048, 9.80665 / 0.3048
TAN = math.tan(math.radians(3.0))
HEIGHT_FT, TCH_FT, SPEED_KT = 224.0 - 22.0, 52.0, 138.0
DISTANCE_FT = (HEIGHT_FT - TCH_FT) / TAN
FPS = SPEED_KT * FT_PER_NM / 3600
SINK_FPS = FPS * TAN
CLOSE = 0.02  # plane against curved


def test_calls():
    assert row(calls.show(), "at it")[1:] != ["nothing", "nothing"]
    assert all(len(cells) == 3 for cells in rows(calls.show()))


def test_climb():
    shown = climb.show()
    assert shown.number("icao") == pytest.approx(0.025 * FT_PER_NM)
    assert shown.number("altitude") == 3000.0
    assert shown.number("one_out") == 900.0
    assert shown.number("made_good") == pytest.approx(900 * 60 / SPEED_KT)
    assert shown.number("speed") == SPEED_KT
    assert f"{260 * SPEED_KT / 60:.0f}" in shown.text("printed")
    assert cell(shown, "120", 1) == "400"  # 200 ft/NM at two miles a minute


def test_dip():
    """Reaction at the old sink rate, then a constant acceleration stops it: v t and v2 / 2a."""
    shown, acceleration = dip.show(), 0.15 * G_FPS2
    assert shown.number("per_second") == pytest.approx(SINK_FPS)
    assert shown.number("rotation") == pytest.approx(SINK_FPS**2 / (2 * acceleration))
    assert shown.number("loss") == pytest.approx(1.5 * SINK_FPS + SINK_FPS**2 / (2 * acceleration))
    assert shown.number("acceleration") == 0.15


def test_dip_by_rate():
    loss_ft = 2 * 700 / 60 + (700 / 60) ** 2 / (2 * 0.15 * G_FPS2)
    assert float(cell(dip_rates.show(), "700", 2)) == pytest.approx(loss_ft, abs=0.5)
    assert row(dip_rates.show(), "C")[1:] == ["150", "71"]  # Doc 8168 Vol II, Table III-3-6-3


def test_last_feet():
    shown = last_feet.show()
    assert shown.number("lights_only") == 124.0  # 100 ft above the touchdown zone, 14 CFR 91.175(c)(3)(i)
    assert shown.number("to_threshold") == pytest.approx(DISTANCE_FT / FT_PER_NM, rel=CLOSE)
    assert shown.number("wait") == pytest.approx(DISTANCE_FT / FPS, rel=CLOSE)
    assert shown.number("crossing") == TCH_FT


def test_level_off():
    shown = level_off.show()
    origin_ft, floor_ft = HEIGHT_FT / TAN, 15 / 0.3048  # so near the scale is at its floor of 15 m
    assert shown.number("off_scale") == math.ceil(10 * floor_ft / SINK_FPS) / 10
    assert shown.number("level_for") == 5
    angle = math.degrees(math.atan(HEIGHT_FT / (origin_ft - 5 * FPS)))
    assert shown.number("angle") == pytest.approx(angle, abs=0.06)
    assert shown.number("rate") == pytest.approx(SPEED_KT * FT_PER_NM / 60 * math.tan(math.radians(angle)), rel=0.02)


def test_lines():
    shown = lines.show()
    assert (shown.number("above_mda"), shown.number("lowest_da")) == (50.0, 200.0)
    found = {cells[0].split("runway")[0]: cells[1:] for cells in rows(shown)}
    assert found["LPV"] == ["DA", "224", "224"]  # 24 + 200 is the printed DA
    assert found["LNAV"] == ["MDA", "480", "530"]
    assert found["LP"][2] == str(int(found["LP"][1]) + 50)


def test_references():
    assert references.show().markdown.count("\n") == 9


def test_rvr():
    assert rvr.show().number("easa") == 550.0  # AMC5 CAT.OP.MPA.110 Table 5: DH 200 to 210 ft, full lights
    assert cell(rvr.show(), "over 1600 to 2400", 1) == "1/2"  # 14 CFR 91.175(h)(2)


def test_scales():
    shown = scales.show()
    full_ft = 350.23 * (1 + DISTANCE_FT / 11000)
    assert shown.number("at_da") == pytest.approx(full_ft, rel=0.005)
    assert shown.number("offset") == pytest.approx(full_ft / 2, rel=0.005)
    assert row(shown, "after the first turn")[1:] == ["6076", "1.00", "4%"]


def test_sight():
    shown, eye_ft = sight.show(), HEIGHT_FT + 2
    assert shown.number("lights_only") == 124.0
    assert shown.number("need_at_da") == pytest.approx(math.hypot(DISTANCE_FT, eye_ft), rel=CLOSE)
    low_ft = 124.0 - 22.0
    at_limit_ft = math.hypot((low_ft - TCH_FT) / TAN, low_ft + 2)
    assert shown.number("need_at_limit") == pytest.approx(at_limit_ft, rel=CLOSE)
    reach_ft = math.sqrt(2640**2 - eye_ft**2)
    outer_ft = min(2400.0, DISTANCE_FT - eye_ft / math.tan(math.radians(14.0)))
    assert float(cell(shown, "1/2", 1)) == pytest.approx(outer_ft - (DISTANCE_FT - reach_ft), abs=15)


def test_surface():
    assert surface.show().number("rise") == pytest.approx(FT_PER_NM / 40)  # 40:1 under 200 ft/NM
    assert surface.show().number("margin") == pytest.approx(5 * (200 - FT_PER_NM / 40))


def test_view():
    shown = view.show()
    assert shown.number("cut_off") == 14.0
    assert shown.number("eyes") == 2.0
    assert shown.number("hidden") == pytest.approx((HEIGHT_FT + 2) / math.tan(math.radians(14.0)))
