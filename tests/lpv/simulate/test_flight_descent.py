"""The descent along coded legs: the plan worked out by hand, and how it is flown, with the speed limits on the way."""

import math
from dataclasses import replace

import pytest

from flight_files import files, moment
from lpv.core.text import to_ascii
from lpv.core.units import FT_PER_NM
from lpv.simulate.descent import Bound, Plan, off_bound, planned
from lpv.simulate.simulation import simulate

NM = FT_PER_NM


def bound(name, nm, low_ft=None, high_ft=None, level_nm=0.5, slow_nm=0.0, speed_kt=None):
    return Bound(name, nm * NM, low_ft, high_ft, level_nm * NM, slow_nm * NM, speed_kt)


def bends(*bounds):
    return [(round(ft / NM, 2), round(altitude_ft)) for ft, altitude_ft in planned(list(bounds))]


PFAF = bound("PFAF", 0, 2000, level_nm=2)


@pytest.mark.parametrize(("fixes", "expected"), [
    # 250 ft/NM, back from two miles of level flight: 10 NM out 8 miles of descent.
    ([PFAF, bound("A", 10)], [(0, 2000), (2, 2000), (10, 4000)]),
    # An altitude that is passed above binds nothing.
    ([PFAF, bound("A", 6, 2500), bound("B", 10, 3000)], [(0, 2000), (2, 2000), (6, 3000), (10, 4000)]),
    # One to be at: level from where the gradient comes to it, and half a mile of level flight before it.
    ([PFAF, bound("A", 10, 3000, 3000), bound("B", 14)],
     [(0, 2000), (2, 2000), (6, 3000), (10, 3000), (10.5, 3000), (14, 3875)]),
    # One not to be above.
    ([PFAF, bound("A", 10, None, 2500)], [(0, 2000), (2, 2000), (4, 2500), (10, 2500)]),
    # Too high for the level flight wanted: it is shortened; too high for the gradient: it is steeper.
    ([PFAF, bound("A", 4, 2750)], [(0, 2000), (1, 2000), (4, 2750)]),
    ([PFAF, bound("A", 4, 4000)], [(0, 2000), (4, 4000)]),
    # Room to slow down before a speed limit, where the plan passes it in descent.
    ([PFAF, bound("A", 6, 2500, slow_nm=3, speed_kt=180), bound("B", 13)],
     [(0, 2000), (2, 2000), (6, 3000), (9, 3000), (13, 4000)]),
])
def test_plan_matches_hand_calculation(fixes, expected):
    assert bends(*fixes) == expected


def test_plan_interpolated_between_bends():
    plan = Plan(planned([PFAF, bound("A", 10, 3000, 3000), bound("B", 14)]))
    assert plan.at(5 * NM) == pytest.approx((2750, 250 / NM, 2000))
    assert plan.at(8 * NM) == pytest.approx((3000, 0, 3000))
    assert plan.at(12.5 * NM) == pytest.approx((3500, 250 / NM, 3000))
    assert plan.at(-1) == (2000, 0.0, 2000)
    assert plan.at(20 * NM)[0] == pytest.approx(3875)


def test_fix_passage_text():
    fix = bound("A", 6, 2500, 3000, speed_kt=180)
    assert off_bound(fix, 2460, 184) == ""
    both = "at 2440 ft, below the 2500 ft coded and at 186 kt, over the limit of 180 kt"
    assert to_ascii(off_bound(fix, 2440, 186)) == both
    assert to_ascii(off_bound(fix, 3060, 180)) == "at 3060 ft, above the 3000 ft coded"


def procedure_with(start=None, **of_swelo):
    """The whole procedure with other bounds at its intermediate fix, flown down to 1000 ft above the airport."""
    story, where, by = files("whole-procedure")
    legs = tuple(
        replace(leg, **of_swelo) if (leg.fix, leg.terminator) == ("SWELO", "TF") else leg for leg in story.legs)
    begin = replace(story.start, **start or {})
    short = replace(story, start=begin, legs=legs, events=(), story=replace(story.story, longest_s=280.0))
    return simulate(short, where, by)


def test_speed_limit_met_at_fix_and_kept():
    """The level distance of a constant deceleration: (v1^2 - v2^2) / 2a, with the type's drag at the mean speed."""
    limit = {"altitude_ft": 2500.0, "altitude_rule": "at or above", "speed_kt": 180.0, "speed_rule": "at or below"}
    flight = procedure_with(start={"altitude_ft": 3300.0, "speed_kt": 230.0}, **limit)
    slow = moment(flight, "speed")
    assert to_ascii(slow.what) == "Slow down to 180 kt, the limit at SWELO"
    at = min(flight.samples, key=lambda s: math.hypot(s.along_nm - 11.54, s.across_ft / NM))
    assert at.airspeed_kt == pytest.approx(180.0, abs=2.0)
    assert max(s.airspeed_kt for s in flight.samples if s.time_s > at.time_s) < 182.0
    assert not [moment for moment in flight.moments if moment.key == "restriction"]
    first = next(s for s in flight.samples if s.time_s >= slow.sample.time_s)
    down_nm = (first.ground_speed_kt**2 - at.ground_speed_kt**2) / (2 * 0.8 * 3600)
    flown_nm = (at.time_s - first.time_s) * (first.ground_speed_kt + at.ground_speed_kt) / 7200
    assert down_nm < flown_nm < 1.6 * down_nm  # in time, and not miles too early
    high = procedure_with(start={"altitude_ft": 5000.0, "speed_kt": 230.0}, **limit)  # no room for both
    assert "over the limit of 180 kt" in to_ascii(moment(high, "restriction").what)


def test_at_altitude_and_unreachable_altitude():
    exact = procedure_with(altitude_ft=2500.0, altitude_rule="at")
    at = min(exact.samples, key=lambda s: math.hypot(s.along_nm - 11.54, s.across_ft / NM))
    assert at.indicated_ft == pytest.approx(2500.0, abs=20.0)
    high = procedure_with(start={"altitude_ft": 6000.0}, altitude_ft=2500.0, altitude_rule="at or below")
    text = to_ascii(moment(high, "restriction").what)
    assert text.startswith("Over SWELO at ")
    assert text.endswith("above the 2500 ft coded")
    assert max(-s.climb_fpm for s in high.samples) < (250.0 * 250.0 / 60.0 + 600.0) * 1.1


def test_crew_flown_altitude_ends_descent():
    story, where, by = files("whole-procedure")
    first = replace(story.events[0], across_nm=None, time_s=20.0, does=None, level_ft=3500.0, rate_fpm=500.0)
    flight = simulate(replace(story, events=(first,), story=replace(story.story, longest_s=260.0)), where, by)
    assert flight.samples[-1].indicated_ft == pytest.approx(3500.0, abs=5.0)


def test_bound_missed_beyond_50_ft_or_5_kt():
    """50 ft and 5 kt off are still the fix's; a foot or a knot more is not."""
    fix = Bound("ZIPPO", 0.0, 2500.0, 3000.0, speed_kt=180.0)
    for altitude_ft, airspeed_kt, off in (
        (2450, 180, ""), (2449, 180, "below"), (3050, 185, ""), (3051, 180, "above"), (2700, 186, "over the limit"),
    ):
        verdict = off_bound(fix, altitude_ft, airspeed_kt)
        assert off in verdict, (altitude_ft, airspeed_kt)
        assert bool(verdict) == bool(off), (altitude_ft, airspeed_kt)
