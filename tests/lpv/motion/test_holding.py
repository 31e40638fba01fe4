"""A hold in wind: the closed formula against a circuit flown in small steps, and against the rules that are taught."""

import math

import pytest

from lpv.core.errors import DomainError
from lpv.core.units import FT_PER_NM
from lpv.motion.holding import hold_in_wind, holding_bank_deg, outbound_end_ft
from lpv.motion.kinematics import turn_rate_deg_per_s


def flown_once(hold, airspeed_kt, wind_from_deg, wind_kt, turn, step_s=0.01):
    """Once round from the fix in small steps of a steady turn: (place at the end of outbound, place at the end), NM.

    North is up, so the inbound course counts from there; wings level outbound and inbound as the hold says.
    """
    heading, rate = math.radians(hold.inbound_heading_deg), turn * math.radians(hold.turn_deg_per_s)
    blow = math.radians(wind_from_deg + 180.0)
    x = y = 0.0
    places = []
    for to_deg, level_s in ((hold.outbound_heading_deg, hold.outbound_s), (hold.inbound_heading_deg, hold.inbound_s)):
        turned = (turn * (math.radians(to_deg) - heading)) % (2.0 * math.pi)
        turning = round(turned / abs(rate) / step_s)
        for number in range(turning + round(level_s / step_s)):
            if number < turning:
                heading += turned * turn / turning
            x += (airspeed_kt * math.sin(heading) + wind_kt * math.sin(blow)) * step_s / 3600.0
            y += (airspeed_kt * math.cos(heading) + wind_kt * math.cos(blow)) * step_s / 3600.0
        places.append((x, y))
    return places


def test_circuit_closes_in_any_wind():
    for course_deg, wind_deg, wind_kt, turn in (
        (0, 0, 0, 1), (0, 90, 30, 1), (0, 90, 30, -1), (70, 200, 45, 1), (250, 240, 45, -1), (359, 10, 50, 1),
    ):
        hold = hold_in_wind(course_deg, 210.0, wind_deg, wind_kt, 24.0, 60.0)
        (out_x, out_y), (x, y) = flown_once(hold, 210.0, wind_deg, wind_kt, turn)
        assert math.hypot(x, y) < 0.01, (course_deg, wind_deg)
        along_ft, across_ft = outbound_end_ft(hold, 210.0, turn)
        course = math.radians(course_deg)
        assert along_ft / FT_PER_NM == pytest.approx(out_x * math.sin(course) + out_y * math.cos(course), abs=0.01)
        assert across_ft / FT_PER_NM == pytest.approx(out_x * math.cos(course) - out_y * math.sin(course), abs=0.01)


def test_calm_circuit_is_racetrack():
    hold = hold_in_wind(90.0, 180.0, 0.0, 0.0, 25.0, 60.0)
    assert (hold.outbound_heading_deg, hold.outbound_s) == pytest.approx((270.0, 60.0))
    assert hold.circuit_s == pytest.approx(120.0 + 360.0 / turn_rate_deg_per_s(180.0, 25.0))


def test_taught_rules_are_special_cases():
    """Three times the drift at 3 deg/s; straight along, the times by hand."""
    bank_deg = math.degrees(math.atan(3.0 / turn_rate_deg_per_s(150.0, 45.0)))
    across = hold_in_wind(0.0, 150.0, 90.0, 10.0, bank_deg, 60.0)
    assert across.drift_out_deg / across.drift_in_deg == pytest.approx(-3.0, rel=0.03)
    head = hold_in_wind(0.0, 150.0, 0.0, 5.0, bank_deg, 60.0)
    # By hand, 145 x 60 - 5 x 120 = 155 T.
    assert head.outbound_s == pytest.approx((145 * 60 - 5 * 120) / 155)
    tail = hold_in_wind(0.0, 150.0, 180.0, 5.0, bank_deg, 60.0)
    assert tail.outbound_s == pytest.approx((155 * 60 + 5 * 120) / 145)


def test_rolling_lengthens_legs_not_times():
    hold = hold_in_wind(0.0, 200.0, 60.0, 30.0, 25.0, 60.0, 6.0)
    still = hold_in_wind(0.0, 200.0, 60.0, 30.0, 25.0, 66.0)
    assert hold.outbound_s == pytest.approx(still.outbound_s - 6.0)
    assert hold.outbound_heading_deg == pytest.approx(still.outbound_heading_deg)


def test_bank_is_smaller_of_two():
    assert holding_bank_deg(130.0) == pytest.approx(19.65, abs=0.01)  # atan(V w / g), 3 deg/s
    assert holding_bank_deg(200.0) == 25.0
    with pytest.raises(DomainError, match="true airspeed"):
        holding_bank_deg(10.0)


@pytest.mark.parametrize(("changes", "message"), [
    ({"wind_kt": 220.0}, "ground speed"), ({"inbound_s": 5.0}, "time inbound"), ({"roll_s": 40.0}, "time to roll"),
    ({"wind_kt": 80.0, "inbound_s": 20.0}, "time outbound"),
    ({"wind_kt": 180.0, "wind_from_deg": 180.0}, "time outbound"),
])
def test_unflyable_hold_refused(changes, message):
    given = {"inbound_course_deg": 0.0, "true_airspeed_kt": 200.0, "wind_from_deg": 0.0, "wind_kt": 10.0,
             "bank_deg": 25.0, "inbound_s": 60.0} | changes
    with pytest.raises(DomainError, match=message):
        hold_in_wind(**given)
