"""What the scripts of docs/final/ show, worked out in another way: plane and spherical geometry, hand calculation.

The example: threshold 22 ft, crossing height 52 ft, 3.00 degrees, airport 31 ft, DA 224 ft, PFAF 6.048 NM out at
2000 ft; course half-width 106.75 m at the threshold, GARP 11 000 ft behind it; 138 kt.
"""

import math

import pytest

from final import (
    altimeter,
    altimeter_cold,
    altimeter_tolerance,
    deviation,
    deviation_course,
    deviation_drift,
    deviation_path,
    gates,
    gates_state,
    overview,
    rate,
    rate_tailwind,
    rate_wind,
)
from shown import cell, row, rows

FT_PER_NM, FT_PER_M, EARTH_FT = 1852 / 0.3048, 1 / 0.3048, 6371008.8 / 0.3048
THRESHOLD_FT, TCH_FT, AIRPORT_FT, DA_FT, PFAF_NM = 22.0, 52.0, 31.0, 224.0, 6.0481
TAN = math.tan(math.radians(3.0))
HALF_WIDTH_FT, GARP_FT = 106.75 * FT_PER_M, 11000.0
DA_NM = (DA_FT - THRESHOLD_FT - TCH_FT) / TAN / FT_PER_NM  # 0.477 NM, less the curvature of a few inches
PATH_AT_PFAF_FT = THRESHOLD_FT + TCH_FT + PFAF_NM * FT_PER_NM * TAN + (PFAF_NM * FT_PER_NM) ** 2 / (2 * EARTH_FT)
CLOSE = 0.02  # plane against curved


def test_altimeter_on_a_standard_day_shows_the_path():
    shown = altimeter.show()
    assert shown.number("standard") == pytest.approx(PATH_AT_PFAF_FT - 2000.0, abs=0.7)
    assert shown.text("standard") == "+30\u202fft"


def test_altimeter_in_cold():
    """Indicated over true height is about standard over actual temperature in the column: 15 - 2 = 13 °C standard."""
    height_ft = PATH_AT_PFAF_FT - AIRPORT_FT
    mean_k = 273.15 - 30.0 - 0.0019812 * height_ft / 2
    standard_k = 288.15 - 0.0019812 * (AIRPORT_FT + height_ft / 2)
    reads_ft = AIRPORT_FT + height_ft * standard_k / mean_k
    assert altimeter.show().number("coldest") == pytest.approx(reads_ft - 2000.0, rel=0.02)
    ten_ft = height_ft * (standard_k / (standard_k - 10.0) - 1.0)
    assert altimeter.show().number("per_ten") == pytest.approx(ten_ft, rel=0.02)
    angle = math.degrees(math.atan(TAN * (273.15 - 30.0) / (288.15 - 0.0019812 * AIRPORT_FT)))
    assert altimeter.show().number("cold_angle") == pytest.approx(angle, abs=0.01)
    assert cell(altimeter.show(), "-30 °C", 1) == "2410"


# ZZHC: airport 6498 ft, DA 6775 (277 ft up), PFAF 8700 (2202 ft), hold 10000 (3502 ft).  AIM TBL 7-3-1 at -30 °C
# between its columns: 200/300 ft 40/60, 2000/3000 ft 380/570, 3000/4000 ft 570/760; segments to the nearest hundred.
def test_cold_additions_by_the_published_table():
    da_ft = 40 + 0.77 * 20
    assert cell(altimeter_cold.show(), "-30 °C", 1) == f"{6775 + math.ceil(da_ft / 10) * 10}+60"
    pfaf_ft, hold_ft = 380 + 0.202 * 190, 570 + 0.502 * 190
    assert cell(altimeter_cold.show(), "-30 °C", 2) == f"{8700 + round(pfaf_ft, -2):.0f}+400"
    assert cell(altimeter_cold.show(), "-30 °C", 3) == f"{10000 + round(hold_ft, -2):.0f}+700"
    assert altimeter_cold.show().number("limit") == -14.0


def test_how_low_an_uncorrected_da_is():
    standard_k = 288.15 - 0.0019812 * 6498
    low_ft = 277.0 * (1.0 - (273.15 - 30.0) / standard_k)
    assert altimeter_cold.show().number("low") == pytest.approx(low_ft, rel=0.01)


def test_wrong_settings():
    """Near sea level 1 hPa is 27.3 ft (g, R and 15 °C: 8.43 m), an inch 33.86 hPa."""
    shown = altimeter_tolerance.show()
    assert shown.number("ten_hpa") == pytest.approx(273.0, rel=0.01)
    assert shown.number("inch") == pytest.approx(33.86389 * 27.3, rel=0.02)
    assert shown.number("tenth") == pytest.approx(3.386389 * 27.3, rel=0.01)


def test_allowances_together():
    parts = [float(cells[1]) for cells in rows(altimeter_tolerance.show())[:-1]]
    assert altimeter_tolerance.show().number("together") == pytest.approx(math.sqrt(sum(p * p for p in parts)), abs=0.5)
    by_hand = [75.0, 60.0 * 0.25, 0.0, 0.05 * FT_PER_NM * TAN, 4.0 * FT_PER_M, 4.6]
    assert parts[0] == by_hand[0]
    assert parts[3] == pytest.approx(by_hand[3], abs=0.5)
    assert parts[5] == pytest.approx(by_hand[5], abs=0.5)


def course_full_ft(nm):
    return min(0.3 * FT_PER_NM, HALF_WIDTH_FT * (1.0 + nm * FT_PER_NM / GARP_FT))


def path_full_ft(nm):
    origin_ft = nm * FT_PER_NM + TCH_FT / TAN
    return max(15 * FT_PER_M, min(150 * FT_PER_M, origin_ft * math.tan(math.radians(0.75))))


def test_dots_at_the_da():
    shown = deviation.show()
    assert shown.number("da_course") == pytest.approx(1.5 * course_full_ft(DA_NM) / 2, rel=CLOSE)
    assert shown.number("da_path") == pytest.approx(1.5 * path_full_ft(DA_NM) / 2, rel=CLOSE)
    assert shown.number("normal") == 1.0
    assert float(cell(shown, "4 NM", 1)) == pytest.approx(course_full_ft(4.0) / 2, abs=0.6)
    assert float(cell(shown, "4 NM", 3)) == pytest.approx(path_full_ft(4.0) / 2, abs=0.6)
    assert float(cell(shown, "3 NM", 1)) == pytest.approx(course_full_ft(3.0) / 2, abs=0.6)
    assert float(cell(shown, "3 NM", 2)) == pytest.approx(course_full_ft(3.0) / 5, abs=0.6)
    assert float(cell(shown, "3 NM", 3)) == pytest.approx(path_full_ft(3.0) / 2, abs=0.6)


def test_course_scale():
    shown = deviation_course.show()
    assert shown.number("at_pfaf") == pytest.approx(course_full_ft(PFAF_NM), rel=1e-3)
    cap_nm = (0.3 * FT_PER_NM / HALF_WIDTH_FT - 1.0) * GARP_FT / FT_PER_NM
    assert shown.number("cap") == pytest.approx(cap_nm, abs=0.01)


def test_path_scale():
    shown, quarter = deviation_path.show(), math.tan(math.radians(0.75))
    assert shown.number("cap_distance") == pytest.approx(
        (150 * FT_PER_M / quarter - TCH_FT / TAN) / FT_PER_NM, rel=CLOSE)
    assert shown.number("floor_distance") == pytest.approx(
        (15 * FT_PER_M / quarter - TCH_FT / TAN) / FT_PER_NM, rel=CLOSE)
    assert shown.number("floor") == pytest.approx(15 * FT_PER_M)
    assert shown.number("ils_threshold") == pytest.approx(TCH_FT / TAN * math.tan(math.radians(0.7)), rel=CLOSE)


def test_drift():
    across_fps = 130 * FT_PER_NM / 3600 * math.sin(math.radians(5.0))
    assert deviation_drift.show().number("error") == 5.0
    assert deviation_drift.show().number("pfaf") == pytest.approx(course_full_ft(PFAF_NM) / 2 / across_fps, rel=1e-3)
    assert deviation_drift.show().number("da") == pytest.approx(course_full_ft(DA_NM) / 2 / across_fps, rel=CLOSE)


def test_gates():
    assert gates.show().number("dot") == 1.0
    assert "bank" in gates_state.show().text("silent")
    assert row(gates_state.show(), "verdict")[1] == "go around", "a path 1.2 dots off is over one dot"


def test_overview():
    shown = overview.show()
    assert shown.number("rate") == pytest.approx(130 * FT_PER_NM / 60 * TAN, rel=1e-6)
    assert shown.number("to_go") == pytest.approx((PFAF_NM - DA_NM) / 130 * 3600, abs=0.5)
    assert float(cell(shown, "3 NM", 1)) == pytest.approx(
        THRESHOLD_FT + TCH_FT + 3 * FT_PER_NM * TAN + (3 * FT_PER_NM) ** 2 / (2 * EARTH_FT), abs=1.0)
    assert cell(shown, "DA", 1) == "224"


def test_rates():
    shown = rate.show()
    assert shown.number("per_ten") == pytest.approx(10 * FT_PER_NM / 60 * TAN)
    assert shown.number("rule_short") == pytest.approx((1 - 5 / (FT_PER_NM / 60 * TAN)) * 100, abs=1e-6)
    regain_min = 2.0 / 130 * 60
    assert shown.number("regain") == pytest.approx(130 * FT_PER_NM / 60 * TAN + 200 / regain_min)
    assert cell(shown, "130 kt", 2) == "690"
    assert cell(shown, "180 kt", 3) == "1110 over"


def test_tailwind():
    shown = rate_tailwind.show()
    assert shown.number("limit") == pytest.approx(1000 * 60 / (FT_PER_NM * TAN))
    assert shown.text("limit") == "188\u202fkt"
    assert shown.number("limit_steep") == pytest.approx(1000 * 60 / (FT_PER_NM * math.tan(math.radians(4.0))))
    # 8700 ft of the standard atmosphere: temperature ratio 0.9402, density ratio its power 4.2559.
    density = (1 - 0.0019812 * 8700 / 288.15) ** 4.2559
    assert shown.number("high") == pytest.approx(140 / math.sqrt(density), rel=0.005)
    assert cell(shown, "150 kt", 1) == "38"


def test_wind():
    assert rate_wind.show().number("per_ten_wind") == pytest.approx(10 * FT_PER_NM / 60 * TAN)
    assert "headwind of 20\u202fkt asks for 637\u202fft/min" in rate_wind.show().markdown  # 120 kt x 5.307
