"""What live figures say and tabulate, worked out by hand: plane geometry, plain motion, the table of the AIM."""

import math
import re

import pytest

from lpv.figures.figure import drawn
from lpv.figures.run import figure
from paths_by_hand import before_threshold_ft

FT_PER_NM = 1852 / 0.3048
TAN = math.tan(math.radians(3.0))


def rows(name, **texts):
    """The rows of the figure's table with plain cells, by their first cell."""
    table = [[plain(cell) for cell in row] for row in drawn(figure(name), texts).rows]
    return {row[0]: row[1:] for row in table}


def finding(name, **texts):
    return plain(drawn(figure(name), texts).finding)


def plain(text):
    return text.replace("\u202f", " ").replace("\u2212", "-")


def numbers(text):
    return [float(match) for match in re.findall(r"(?<![\w.])[-+]?\d+(?:\.\d+)?", text)]


def tens(value):
    """To the nearest ten, as rates are shown."""
    return math.floor(value / 10.0 + 0.5) * 10


def test_descent_rates():
    table = rows("live-rate", airspeed_kt="130", tailwind_kt="10", gpa_deg="3.00")
    for speed_kt in range(110, 180, 10):
        rate = tens(speed_kt * FT_PER_NM / 60.0 * TAN)
        assert table[f"{speed_kt} kt"] == [f"{rate} ft/min", f"{1000 - rate} ft/min below"]
    text = finding("live-rate", airspeed_kt="200", tailwind_kt="-10", gpa_deg="3.50")
    per_kt = FT_PER_NM / 60.0 * math.tan(math.radians(3.5))
    assert text.startswith("200 kt true airspeed and 10 kt of headwind are 190 kt over the ground: on 3.50°")
    assert {tens(190 * per_kt), tens(190 * per_kt) - 1000, round(1000 / per_kt)} <= set(numbers(text))


def test_course_and_path_dot():
    table = rows("live-funnel")
    for distance_nm in (0.0, 0.5, 1.0, 2.0, 3.0, 5.0):
        from_ltp_ft = distance_nm * FT_PER_NM
        from_origin_ft = from_ltp_ft + 50.0 / TAN
        course_ft = 350.0 * (10000.0 + from_ltp_ft) / 10000.0 / 2.0
        path_ft = max(15.0 / 0.3048, from_origin_ft * math.tan(math.radians(0.75))) / 2.0
        ils_ft = from_origin_ft * math.tan(math.radians(0.7)) / 2.0
        shown = [number for cell in table[f"{distance_nm:.1f} NM"] for number in numbers(cell)]
        expected = [pytest.approx(value, abs=0.6) for value in (course_ft, path_ft, course_ft, ils_ft)]
        assert shown == expected, distance_nm
    far = [number for cell in table["10.0 NM"] for number in numbers(cell)]
    assert far[:2] == [pytest.approx(FT_PER_NM / 2.0, abs=0.6), pytest.approx(150.0 / 0.3048 / 2.0, abs=0.6)]
    assert numbers(finding("live-funnel"))[:5] == [3.0, 200.0, 0.4, 40.0, 0.3]  # of dots of 494 ft and of 126 ft


def test_in_sight():
    table = rows("live-sight")
    threshold_ft, hidden_ft = before_threshold_ft(150.0), 200.0 / math.tan(math.radians(15.0))
    for visible_ft in (1200, 1800, 2400, 3200, 4000, 5280):
        reach_ft = math.sqrt(visible_ft**2 - 200.0**2)
        lights_ft = min(2400.0, threshold_ft - hidden_ft) - max(0.0, threshold_ft - reach_ft)
        seen = "in sight" if reach_ft >= threshold_ft else "not in sight"
        assert table[f"{visible_ft} ft"] == [f"{tens(lights_ft)} ft", seen], visible_ft
    printed = numbers(finding("live-sight"))
    assert printed[:4] == [200.0, 2400.0, tens(2400 * 0.3048), 1650.0]
    assert printed[-3:] == [tens(hidden_ft), tens(threshold_ft), tens(math.hypot(threshold_ft, 200.0))]
    inner_ft = threshold_ft - math.sqrt(1000.0**2 - 200.0**2)
    seen_ft = tens(threshold_ft - hidden_ft - inner_ft)
    assert f"{seen_ft} ft of 2400 ft of" in finding("live-sight", visibility_ft="1000")


def test_go_around():
    table = rows("live-go-around")
    for speed_kt in range(110, 170, 10):
        made_good = 2000.0 * 60.0 / speed_kt
        assert table[f"{speed_kt} kt"] == [
            f"{tens(200.0 * speed_kt / 60.0)} ft/min", f"{made_good:.0f} ft/NM", f"{made_good - 200.0:.0f} ft/NM more"]
    sink_fps, up_fps2, climb_fps = 130.0 * FT_PER_NM / 3600.0 * TAN, 0.2 * 32.174, 2000.0 / 60.0
    dip_ft = sink_fps + sink_fps**2 / (2.0 * up_fps2)
    pulled_s = (sink_fps + climb_fps) / up_fps2
    after_ft = sink_fps * (1.0 + pulled_s) - up_fps2 * pulled_s**2 / 2.0  # still below when the climb is steady
    back_s = 1.0 + pulled_s + after_ft / climb_fps if after_ft > 0 else 1.0 + (
        sink_fps + math.sqrt(sink_fps**2 + 2.0 * up_fps2 * sink_fps)) / up_fps2
    printed = numbers(finding("live-go-around"))
    assert printed[:3] == [690.0, round(dip_ft), round(back_s, 1)]
    assert printed[3:6] == [923.0, 723.0, 200.0]
    assert printed[6] == pytest.approx((2000.0 * 60.0 / 130.0 - 200.0 * 0.76) * 5.0, abs=15.0)


def test_cold_additions():
    """AIM TBL 7-3-1 at -20 °C: 420 at 3000 ft, 280 at 2000, 30 and 50 at 200 and 300, 60 and 70 at 400 and 500."""
    table = rows("live-cold")
    assert table["GULLY"] == ["2000 ft", "+300 ft", "2300 ft"]  # 280 to the nearest hundred
    assert table["ORBIT"] == ["3000 ft", "+300 ft", "3300 ft"]  # that of the FAF
    assert table["missed approach"] == ["3000 ft", "+400 ft", "3400 ft"]
    assert table["LPV DA"] == ["250 ft", "+40 ft", "290 ft"]  # between 30 and 50
    assert table["LNAV MDA"][0] == "480 ft"
    added = numbers(table["LNAV MDA"][1])[0]
    assert 60.0 < added <= 70.0
    assert numbers(table["LNAV MDA"][2]) == [480.0 + added]
    assert "becomes 290 ft, the largest addition is 400 ft" in finding("live-cold")


def test_flipped_bit():
    text = finding("live-block")
    off_ft = 5.0 * FT_PER_NM * (math.tan(math.radians(3.16)) - TAN)
    assert "3.00° becomes 3.16°" in text  # 2^4 hundredths
    assert f"{off_ft:.0f} ft higher 5 NM out" in text
    assert "The remainder does not agree: the receiver refuses the block. Flown anyway, the glidepath" in text
    mended = drawn(figure("live-block"), {"remainder": "made"})
    assert "The remainder agrees: nothing in the block says that it was changed. Flown, the glidepath" in mended.finding
    assert [plain(each.brief) for each in (drawn(figure("live-block"), {}), mended)] == [
        "3.00° becomes 3.16°: refused", "3.00° becomes 3.16°: accepted"]
    assert rows("live-block")["glidepath angle"] == ["3.00°", "3.16°"]


def test_altimeter_on_path():
    table = rows("live-altimeter")
    true_ft = 50.0 + 5.0 * FT_PER_NM * TAN + (5.0 * FT_PER_NM) ** 2 / (2 * 6371000.0 / 0.3048)
    for temperature_c in (-30, -15, 0, 15, 30):
        mean_k = 273.15 + temperature_c - 0.0065 * 0.3048 * true_ft / 2.0
        reads_ft = true_ft * (1.0 + (15.0 - temperature_c) / mean_k)
        cells = table[f"{temperature_c} °C"]
        assert numbers(cells[0])[0] == pytest.approx(reads_ft, abs=7.0), temperature_c
        assert numbers(cells[1])[0] == numbers(cells[0])[0] - 2000.0
