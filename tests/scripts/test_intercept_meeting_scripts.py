"""What the scripts of docs/intercept/ show, worked out in another way: turns flown in small steps, plane geometry.

The example: PFAF 6.048 NM out at 2000 ft, 3.00 degrees, threshold 22 ft, crossing height 52 ft, airport 31 ft; course
half-width 106.75 m at the threshold, GARP 11 000 ft behind it.  The large jet banks 27 degrees, rolling 4 a second.
"""

import math

import pytest

from intercept import arming, below, captures, from_above, lead, limits, overshoot, path_met, wind
from paths_by_hand import straight_ft
from shown import cell, lines, row, row_of, rows

FT_PER_NM, G_KT_PER_S = 1852 / 0.3048, 9.80665 / 0.5144444
PFAF_NM, TAN = 6.0481, math.tan(math.radians(3.0))
GRADIENT = TAN * FT_PER_NM
HALF_WIDTH_NM = 106.75 / 1852 * (9.048 * FT_PER_NM + 11000.0) / 11000.0


def vector(direction_deg, length):
    return length * math.cos(math.radians(direction_deg)), length * math.sin(math.radians(direction_deg))


def heading_on(track_deg, airspeed_kt, wind_from_deg, wind_kt):
    """Heading that holds a track, and the speed along it: found by trying headings."""
    blows = vector(wind_from_deg, -wind_kt)

    def over_ground(heading_deg):
        flies = vector(heading_deg, airspeed_kt)
        return flies[0] + blows[0], flies[1] + blows[1]

    def off(heading_deg):
        north, east = over_ground(heading_deg)
        return math.remainder(math.degrees(math.atan2(east, north)) - track_deg, 360.0)

    low, high = track_deg - 60.0, track_deg + 60.0
    for _ in range(60):
        middle = (low + high) / 2.0
        low, high = (middle, high) if off(middle) < 0.0 else (low, middle)
    return low, math.hypot(*over_ground(low))


def turned(angle_deg, airspeed_kt, wind_from_deg=0.0, wind_kt=0.0, bank_deg=27.0, roll_deg_per_s=4.0):
    """Distance from a course to the north at which a turn onto it from its right begins, flown in steps of 5 ms."""
    begins, _ = heading_on(-angle_deg, airspeed_kt, wind_from_deg, wind_kt)
    ends, _ = heading_on(0.0, airspeed_kt, wind_from_deg, wind_kt)
    change, step_s, bank, turned_deg, across = ends - begins, 0.005, 0.0, 0.0, 0.0
    rolled_in_deg, blows = None, vector(wind_from_deg, -wind_kt)[1]
    while turned_deg < change and (bank > 0.0 or turned_deg < change / 2.0):
        rolling_out = turned_deg >= change - rolled_in_deg if rolled_in_deg is not None else turned_deg >= change / 2.0
        bank += (-1.0 if rolling_out else 1.0) * roll_deg_per_s * step_s
        if bank >= bank_deg and rolled_in_deg is None:
            bank, rolled_in_deg = bank_deg, turned_deg
        bank = min(bank, bank_deg)
        turned_deg += math.degrees(G_KT_PER_S * math.tan(math.radians(max(bank, 0.0))) / airspeed_kt) * step_s
        across += (vector(begins + turned_deg, airspeed_kt)[1] + blows) * step_s / 3600.0
    return -across


# Meeting the course


@pytest.mark.parametrize(("angle_deg", "speed_kt", "column"), [(30, 140, 1), (45, 170, 2), (90, 200, 3)])
def test_the_lead_of_a_turn(angle_deg, speed_kt, column):
    miles, seconds = cell(lead.show(), f"{angle_deg}°", column).replace("NM", "").split(" ", 1)
    expected = turned(angle_deg, speed_kt)
    assert float(miles) == pytest.approx(expected, abs=0.006)
    along_nm = expected / math.sin(math.radians(angle_deg))
    assert float(seconds.replace("s", "")) == pytest.approx(along_nm / speed_kt * 3600.0, abs=0.7)


def test_how_much_more_room_a_steep_intercept_takes():
    assert lead.show().number("times") == pytest.approx(turned(90, 170) / turned(30, 170), rel=0.02)


@pytest.mark.parametrize(("name", "from_deg", "wind_kt"), [
    ("calm", 0.0, 0.0), ("tail, on final", 180.0, 30.0), ("nose, on final", 0.0, 30.0),
    ("through the course", 90.0, 30.0), ("away from it", 270.0, 30.0),
])
def test_wind_from_four_sides(name, from_deg, wind_kt):
    _, ground_kt = heading_on(-30.0, 170.0, from_deg, wind_kt)
    told = [float(text.split(" ")[0]) for text in next(cells for cells in rows(wind.show()) if cells[0] == name)[1:]]
    assert told[0] == pytest.approx(ground_kt, abs=0.6)
    assert told[1] == pytest.approx(turned(30.0, 170.0, from_deg, wind_kt), abs=0.006)
    assert told[2] == pytest.approx(ground_kt * 10.0 / 3600.0 * 0.5, abs=0.006)


def test_late_with_the_wind_behind():
    shown, (_, ground_kt) = overshoot.show(), heading_on(-30.0, 170.0, 120.0, 30.0)
    assert shown.number("roll_in") == pytest.approx(turned(30.0, 170.0, 120.0, 30.0), abs=0.005)
    assert shown.number("past") == pytest.approx(ground_kt * 10.0 / 3600.0 * 0.5, abs=0.001)
    width_nm = 106.75 / 1852 * (9.0 * FT_PER_NM + 11000.0) / 11000.0
    assert shown.number("dots") == pytest.approx(2.0 * shown.number("past") / width_nm, rel=0.01)
    assert row(shown, "10 s late")[1:] == ["0.27 NM past", "1.6"]


def test_limits_of_a_vector():
    """The gate a mile outside the fix, the vector two outside the gate (JO 7110.65, 5-9-1)."""
    assert limits.show().number("gate") == pytest.approx(PFAF_NM + 1.0, abs=0.001)
    assert limits.show().number("nearest") == pytest.approx(PFAF_NM + 3.0, abs=0.001)
    assert limits.show().number("path") == pytest.approx(straight_ft(PFAF_NM + 3.0, 74.0), abs=1.0)
    assert rows(limits.show())[4][2] == "at least 2000 ft"


def test_where_to_arm():
    """Within 3 NM, closing, and pointing along the course: 1.7 NM at 30 degrees, and on it; nowhere else."""
    told = {name: row_of(arming.show(), name)[1:] for name, *_ in arming.PLACES}
    assert {name: word for name, (_, word) in told.items()} == {
        "vector, close": "arm", "vector, far": "not yet", "flying away": "not yet", "downwind": "not yet",
        "outbound": "not yet", "on the course": "arm"}
    assert told["downwind"][0] == "4.5 NM"


def test_where_each_type_captures():
    told = {name: dict(entry) for name, entry in lines(captures.show()).items()}
    assert told["Large demo jet"]["course captured"] == f"{turned(30.0, 190.0):.2f} NM from it: turn lead at 190 kt"
    assert told["Light demo jet"]["course captured"] == f"{HALF_WIDTH_NM * 0.6:.2f} NM from it: 1.2 dots"
    full_ft = 150.0 / 0.3048  # the cap: a quarter of the angle is 494 ft there
    assert told["Large demo jet"]["path captured"] == (
        f"{0.15 * full_ft:.0f} ft below it, {0.15 * full_ft / GRADIENT:.2f} NM before")
    assert "9.0 NM out" in captures.show().markdown.replace("\u202f", " ")


# Meeting the path


def test_level_below_the_path():
    assert below.show().number("gradient") == pytest.approx(GRADIENT, abs=0.01)
    assert below.show().number("gpa") == 3.0
    for below_ft in (100, 1000):
        miles = below_ft / GRADIENT
        assert rows(below.show())[(100, 300, 500, 1000).index(below_ft)] == [
            f"{below_ft} ft", f"{miles:.1f} NM", f"{miles / 140 * 3600:.0f} s", f"{miles / 180 * 3600:.0f} s"]


def test_above_the_path():
    """1000 ft/min less what holds the path, over the miles from 2000 down to 1000 ft."""
    shown, within_nm = from_above.show(), 1000.0 / GRADIENT
    most = (1000.0 / 140.0 * 60.0 - GRADIENT) * within_nm
    assert shown.number("most") == pytest.approx(most, rel=0.001)
    assert shown.text("most") == f"{math.floor(most / 10) * 10}\u202fft"
    assert shown.number("late_ft") == pytest.approx(140.0 * 10.0 / 3600.0 * GRADIENT, abs=0.1)
    assert shown.number("false_rate") == pytest.approx(
        140.0 / 60.0 * FT_PER_NM * math.tan(math.radians(9.0)), rel=0.001)
    assert row_of(shown, "160 kt")[1:] == [f"{160.0 / 60.0 * GRADIENT:.0f} ft/min", "170 ft"]


def reads_ft(distance_nm, temperature_c):
    """What the altimeter shows on the path: true height over the airport by the mean temperatures of the column."""
    height_ft = straight_ft(distance_nm, 74.0) - 31.0
    mean_k, standard_k = 273.15 + temperature_c - 0.0009906 * height_ft, 288.15 - 0.0019812 * 31.0
    return 31.0 + height_ft * (standard_k - 0.0009906 * height_ft) / mean_k


@pytest.mark.parametrize(("row", "temperature_c"), [(0, -30.0), (2, 0.0), (5, 40.0)])
def test_where_the_path_is_met_level(row, temperature_c):
    told = rows(path_met.show())[row]
    met_nm = float(told[1].split(" ")[0])
    assert reads_ft(met_nm, temperature_c) == pytest.approx(2000.0, abs=10.0)
    side = "inside" if temperature_c < 15.0 else "outside"
    assert told[2] == f"{abs(PFAF_NM - met_nm):.1f} NM {side}"
    assert float(told[3].split(" ")[0]) == pytest.approx(reads_ft(PFAF_NM, temperature_c), abs=10.0)


def test_a_corrected_altitude_meets_the_path_farther_out():
    """AIM TBL 7-3-1: 1969 ft above the airport at -30 °C is 380 ft, given to the next hundred in a segment."""
    shown = path_met.show()
    assert (shown.number("addition"), shown.text("cold")) == (400.0, "\u221230\u202f°C")
    assert reads_ft(shown.number("cold_met"), -30.0) == pytest.approx(2000.0, abs=10.0)
    assert reads_ft(shown.number("corrected_met"), -30.0) == pytest.approx(2400.0, abs=12.0)
