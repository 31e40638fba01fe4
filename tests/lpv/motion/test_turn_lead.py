"""Turn anticipation, roll-in lead and wind in a turn."""

import cmath
import math

import pytest

from lpv.core.errors import DomainError
from lpv.core.units import M_PER_NM, MPS_PER_KT, STANDARD_GRAVITY_MPS2
from lpv.motion import turn_lead
from lpv.motion.kinematics import turn_radius_nm, turn_rate_deg_per_s

NAN = math.nan


def flown_lead_nm(speed_kt, bank_deg, roll_rate, turn_deg):
    """Lead of a turn flown in small time steps: roll in, hold, roll out so that it ends on the course."""
    speed, step = speed_kt * MPS_PER_KT, 0.005
    heading, place, bank, target = 0.0, 0j, 0.0, math.radians(turn_deg)
    rolling, rate = True, math.radians(roll_rate)
    while bank > 0.0 or rolling:
        roll_out_turn = STANDARD_GRAVITY_MPS2 / (speed * rate) * -math.log(math.cos(bank))
        rolling = rolling and heading + roll_out_turn < target
        bank = min(bank + rate * step, math.radians(bank_deg)) if rolling else max(0.0, bank - rate * step)
        heading += STANDARD_GRAVITY_MPS2 * math.tan(bank) / speed * step
        place += cmath.rect(speed * step, heading)
    # The new course runs through `place`; it crosses the old track (the real axis) here:
    return (place.real - place.imag / math.tan(target)) / M_PER_NM


CASES = [
    (speed, bank, roll, turn) for speed in (110, 140, 200) for bank in (15, 25, 30) for roll in (3, 5, 10)
    for turn in (10, 30, 45, 90)
]


@pytest.mark.parametrize("case", CASES)
def test_lead_matches_turn_flown_in_steps(case):
    """The tolerance is that of the time steps, which are 1 to 2 ft long and lose up to 3 ft."""
    assert turn_lead.roll_in_lead_nm(*case) == pytest.approx(flown_lead_nm(*case), abs=0.0005)
    assert turn_lead.roll_in_lead_nm(*case) > turn_lead.turn_anticipation_nm(turn_radius_nm(*case[:2]), case[3])


def test_rolling_adds_half_its_distance():
    geometry = turn_lead.turn_anticipation_nm(turn_radius_nm(140, 25), 90)
    half_rolling = 140 / 3600 * 25 / 5 / 2
    assert turn_lead.roll_in_lead_nm(140, 25, 5, 90) - geometry == pytest.approx(half_rolling, rel=0.1)


def test_quick_roll_shifts_turn_by_delay():
    """Of a quick roll only the distance flown is left, less the radius times what is turned meanwhile."""
    bank = math.radians(25)
    lead = turn_lead.roll_in_lead_nm(140, 25, 60, 45)
    geometry = turn_lead.turn_anticipation_nm(turn_radius_nm(140, 25), 45)
    rolling = 140 / 3600 * 25 / 60
    delay = rolling * (1 + math.log(math.cos(bank)) / (bank * math.tan(bank)))
    assert lead - geometry == pytest.approx(delay, rel=0.01)


def test_small_turn_never_reaches_bank():
    peak = turn_lead.peak_bank_deg(140, 25, 5, 5)
    assert 5 < peak < 25
    speed, rate = 140 * MPS_PER_KT, math.radians(5)
    turned = 2 * STANDARD_GRAVITY_MPS2 / (speed * rate) * -math.log(math.cos(math.radians(peak)))
    assert math.degrees(turned) == pytest.approx(5.0)
    assert turn_lead.peak_bank_deg(140, 25, 5, 45) == 25


def test_no_turn_needs_no_lead():
    assert turn_lead.peak_bank_deg(140, 25, 5, 0) == 0.0
    assert turn_lead.roll_in_lead_nm(140, 25, 5, 0) == 0.0
    assert turn_lead.roll_in_cross_track_nm(140, 25, 5, 0) == 0.0
    assert turn_lead.turn_anticipation_nm(0.7, 0) == 0.0
    assert turn_lead.roll_in_lead_nm(140, 25, 5, 1e-6) < 0.01


def test_lead_grows_with_turn():
    leads = [turn_lead.roll_in_lead_nm(140, 25, 5, turn) for turn in range(0, 171)]
    assert leads == sorted(leads)


def test_cross_track_is_lead_across_course():
    lead = turn_lead.roll_in_lead_nm(140, 25, 5, 30)
    assert turn_lead.roll_in_cross_track_nm(140, 25, 5, 30) == pytest.approx(lead / 2)


def test_right_angle_anticipation_equals_radius():
    assert turn_lead.turn_anticipation_nm(0.83, 90) == pytest.approx(0.83)


def test_wind_drift_is_wind_times_time():
    rate = turn_rate_deg_per_s(140, 25)
    assert turn_lead.wind_drift_in_turn_nm(36, rate, 90) == pytest.approx(36 * 90 / rate / 3600)
    assert turn_lead.wind_drift_in_turn_nm(0, rate, 90) == 0.0


def test_design_wind_grows_two_knots_per_thousand_feet():
    assert turn_lead.design_wind_kt(0) == 47.0
    assert turn_lead.design_wind_kt(3000) - turn_lead.design_wind_kt(2000) == pytest.approx(2.0)


OUTSIDE = [
    (turn_lead.turn_anticipation_nm, (-0.1, 30)), (turn_lead.turn_anticipation_nm, (1, 180)),
    (turn_lead.turn_anticipation_nm, (1, NAN)), (turn_lead.turn_anticipation_nm, (1, -1)),
    (turn_lead.peak_bank_deg, (0, 25, 5, 30)), (turn_lead.peak_bank_deg, (140, 0, 5, 30)),
    (turn_lead.peak_bank_deg, (140, 90, 5, 30)), (turn_lead.peak_bank_deg, (140, 25, 0, 30)),
    (turn_lead.roll_in_lead_nm, (140, 25, NAN, 30)), (turn_lead.roll_in_lead_nm, (140, 25, 5, 171)),
    (turn_lead.roll_in_cross_track_nm, (NAN, 25, 5, 30)), (turn_lead.roll_in_cross_track_nm, (140, 25, 5, -1)),
    (turn_lead.wind_drift_in_turn_nm, (-1, 3, 30)), (turn_lead.wind_drift_in_turn_nm, (30, 0, 30)),
    (turn_lead.wind_drift_in_turn_nm, (30, 3, NAN)), (turn_lead.design_wind_kt, (NAN,)),
    (turn_lead.design_wind_kt, (60000,)),
]


@pytest.mark.parametrize(("function", "arguments"), OUTSIDE)
def test_out_of_domain_rejected(function, arguments):
    with pytest.raises(DomainError):
        function(*arguments)
