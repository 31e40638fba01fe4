"""The parts of the simulation: air, guides, the point mass and its commands, against closed forms."""

import math
from dataclasses import replace
from types import SimpleNamespace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from flight_files import files, flown
from lpv.air import altimetry, atmosphere
from lpv.core.errors import DomainError
from lpv.core.units import FT_PER_NM, M_PER_FT
from lpv.fas import segment
from lpv.motion.kinematics import track_and_ground_speed, turn_radius_ft, turn_rate_deg_per_s
from lpv.path import deviation
from lpv.path import profile as path
from lpv.path.ils_scale import glide_slope_full_scale_ft, localizer_full_scale_ft
from lpv.simulate import log as flight_log
from lpv.simulate import setting as flight_setting
from lpv.simulate.air import Air, WindRow, make_air
from lpv.simulate.guides import fms_guide, ils_guide, missed_guide, path_through, sbas_guide
from lpv.simulate.point_mass import (
    GRAVITY_FPS2,
    Limits,
    Motion,
    Orders,
    Point,
    between,
    carried_kt_per_s,
    drag_kt_per_s,
    motion_of,
    moved,
    rates,
    step,
    turn_ends_beside_ft,
    turn_of_course,
    wanted_bank,
    wanted_climb_fps,
    wanted_heading,
)
from lpv.simulate.run import Run
from lpv.simulate.watch import next_timer_s, watches

CALM = make_air(0.0, 15.0, 90.0, ())
LIMITS = Limits(math.radians(27.0), math.radians(4.0), 5.0, 5.0)
WINDS = (WindRow(0.0, 90.0, 10.0), WindRow(2000.0, 180.0, 30.0))


def level(**changes):
    """A point 10 NM out on the course, level at 2000 ft, 180 kt."""
    start = Point(10 * FT_PER_NM, 0.0, 2000.0, 0.0, 0.0, 0.0, 180.0, 1.0)
    return start._replace(**changes)


def flown_for(point, orders, seconds, air=CALM, step_s=0.05):
    for _ in range(round(seconds / step_s)):
        point = step(point, orders, air, LIMITS, step_s)
    return point


# Air.


@given(st.floats(-900, 15000), st.floats(-55, 45), st.floats(-100, 9000))
@settings(max_examples=60)
def test_indicated_altitude_matches_altimeter_and_inverts(height_ft, temperature_c, elevation_ft):
    air = make_air(elevation_ft, temperature_c, 90.0, ())
    indicated_ft = air.indicated_ft(elevation_ft + height_ft)
    exact_ft = elevation_ft + altimetry.indicated_height_ft(height_ft, temperature_c, elevation_ft)
    assert indicated_ft == pytest.approx(exact_ft, abs=2e-3)
    assert air.true_ft(exact_ft) == pytest.approx(elevation_ft + height_ft, abs=1e-6)


def test_airspeed_matches_atmosphere():
    expected_kt = atmosphere.true_airspeed_kt(180.0, 2000.0, atmosphere.isa_temperature_c(2000.0))
    standard = make_air(0.0, atmosphere.isa_temperature_c(0.0), 90.0, ())
    assert standard.true_airspeed_fps(180.0, 2000.0) * 3600 / FT_PER_NM == pytest.approx(expected_kt, rel=1e-6)
    assert standard.outside_c(2000.0) == pytest.approx(atmosphere.isa_temperature_c(2000.0), abs=0.01)


def test_wind_between_and_outside_rows():
    air = make_air(100.0, 15.0, 90.0, WINDS)
    knot = FT_PER_NM / 3600
    assert air.wind_fps(100.0) == pytest.approx((-10 * knot, 0.0))  # headwind
    assert air.wind_fps(2100.0) == pytest.approx((0.0, -30 * knot))  # from the right
    assert air.wind_fps(1100.0) == pytest.approx((-5 * knot, -15 * knot))
    assert air.wind_fps(-500.0) == air.wind_fps(100.0)
    assert air.wind_fps(9000.0) == air.wind_fps(2100.0)
    assert CALM.wind_fps(1000.0) == (0.0, 0.0)
    assert isinstance(air, Air)


def test_wind_rows_must_rise():
    with pytest.raises(DomainError, match="rising"):
        make_air(0.0, 15.0, 90.0, WINDS[::-1])
    with pytest.raises(DomainError, match="wind speed"):
        make_air(0.0, 15.0, 90.0, (WindRow(0.0, 90.0, math.nan),))


# Guides.


@pytest.mark.parametrize("name", ["normal", "cold-corrected"])
def test_path_matches_segment(name):
    where = files(name)[1]
    guide, held = sbas_guide(where, 6.0, False), where.segment
    for distance_nm in (-0.5, 0.0, 0.5, 3.0, 6.1, 11.0, 17.3, 25.0, 33.0, 39.0):
        exact_m = segment.point_on_path(held, distance_nm).ellipsoid_height_m - held.ltp_height_m
        exact_ft = where.chart.threshold_elevation_ft + exact_m / M_PER_FT
        assert guide.path.height_ft(distance_nm * FT_PER_NM) == pytest.approx(exact_ft, abs=0.01)


def test_slope_is_derivative_and_cubic_interpolates():
    cubic = path_through(lambda x: 3.0 - x + 0.5 * x**2 + 0.1 * x**3)
    assert cubic.coefficients == pytest.approx((3.0, -1.0, 0.5, 0.1), abs=1e-9)
    assert cubic.slope(2.0 * FT_PER_NM) * FT_PER_NM == pytest.approx(-1 + 2 + 1.2, abs=1e-9)
    beside_ft = cubic.height_ft(0.0, 3 * FT_PER_NM) - cubic.height_ft(0.0)
    assert beside_ft == pytest.approx(9 / (2 * 3440) * FT_PER_NM, rel=0.01)


def test_source_scales():
    where = files("normal")[1]
    garp_ft, width_ft = segment.garp_distance_ft(where.segment), where.segment.course_width_m / M_PER_FT
    procedure, vectors = sbas_guide(where, 6.0, False), sbas_guide(where, 6.0, True)
    for nm in (0.0, 3.0, 7.0, 12.0):
        assert procedure.course_scale_ft(nm) == deviation.procedure_full_scale_ft(nm, 6.0, width_ft, garp_ft)
        assert vectors.course_scale_ft(nm) == deviation.vectors_full_scale_ft(nm, width_ft, garp_ft)
    fms = fms_guide(6.0)
    assert [fms.course_scale_ft(nm) / FT_PER_NM for nm in (9, 8, 7, 6, 0)] == pytest.approx([1, 1, 0.65, 0.3, 0.3])
    assert missed_guide(0.0).course_scale_ft(-1.0) == pytest.approx(0.3 * FT_PER_NM)
    assert missed_guide(20.0).course_scale_ft(-1.0) == pytest.approx(FT_PER_NM)
    assert fms.path_dots(0.0, 0.0, 0.0) is None
    with pytest.raises(DomainError, match="path"):
        fms.above_ft(0.0, 0.0, 0.0)


def test_ils_has_own_course_path_and_scale():
    ils = ils_guide(22.0, 2.0, 11000.0, 0.0, 3.2, 55.0)
    assert ils.beside_ft(-11000.0, 0.0) == pytest.approx(0.0, abs=1e-9)
    along_ft = 5 * FT_PER_NM
    on_course_ft = -(along_ft + 11000) * math.tan(math.radians(2.0))
    assert ils.beside_ft(along_ft, on_course_ft) == pytest.approx(0.0, abs=1e-9)
    assert ils.course_scale_ft(5.0) == pytest.approx(localizer_full_scale_ft(5.0, 11000.0))
    origin_nm = 5.0 + path.gpip_distance_ft(55.0, 3.2) / FT_PER_NM
    assert ils.path_scale_ft(5.0) == pytest.approx(glide_slope_full_scale_ft(origin_nm))
    height_ft = path.straight_path_height_ft(5.0, 22.0, 55.0, 3.2)
    assert ils.path_dots(along_ft, 0.0, height_ft) == pytest.approx(0.0, abs=1e-4)
    assert ils.path_dots(0.0, 0.0, 90000.0) == 100.0


def test_lp_approach_has_no_path_to_fly():
    lp = replace(files("normal")[1], identity=replace(files("normal")[1].identity, level_of_service="LP"))
    with pytest.raises(DomainError, match="LP"):
        sbas_guide(lp, 6.0, False)


# The point mass.


def test_steady_turn_has_closed_form_radius_and_rate():
    point, orders = flown_for(level(), Orders(3.0, 2000.0, 10.0, 180.0), 12.0), Orders(-2.0, 2000.0, 10.0, 180.0)
    assert math.degrees(point.bank) == pytest.approx(27.0, abs=1e-4)
    begin, speed_kt = point, motion_of(point, CALM).airspeed * 3600 / FT_PER_NM
    point = flown_for(point, Orders(point.heading + 3.0, 2000.0, 10.0, 180.0), 20.0, step_s=0.02)
    turned = point.heading - begin.heading
    assert math.degrees(turned) / 20.0 == pytest.approx(turn_rate_deg_per_s(speed_kt, 27.0), rel=1e-4)
    chord_ft = math.hypot(point.along_ft - begin.along_ft, point.across_ft - begin.across_ft)
    assert chord_ft / (2 * math.sin(turned / 2)) == pytest.approx(turn_radius_ft(speed_kt, 27.0), rel=1e-4)
    assert flown_for(point, orders, 30.0).bank <= LIMITS.bank


def test_constant_wind_drift_matches_triangle():
    air = make_air(0.0, 15.0, 90.0, (WindRow(0.0, 130.0, 35.0),))
    begin = level(heading=math.radians(20.0))
    end = flown_for(begin, Orders(begin.heading, 2000.0, 10.0, 180.0), 60.0, air, 0.25)
    airspeed_kt = motion_of(begin, air).airspeed * 3600 / FT_PER_NM
    track_deg, ground_kt = track_and_ground_speed(110.0, airspeed_kt, 130.0, 35.0)
    east_ft, right_ft = begin.along_ft - end.along_ft, end.across_ft - begin.across_ft
    assert math.hypot(east_ft, right_ft) == pytest.approx(ground_kt / 60 * FT_PER_NM, rel=1e-9)
    assert math.degrees(math.atan2(right_ft, east_ft)) == pytest.approx(track_deg - 90.0, abs=1e-7)


def test_straight_course_tracked_in_crosswind():
    air = make_air(0.0, 15.0, 90.0, (WindRow(0.0, 180.0, 30.0),))
    guide = sbas_guide(files("normal")[1], 6.0, False)
    point = flown_for(level(across_ft=600.0), Orders(0.0, 2000.0, 10.0, 180.0, course=guide), 150.0, air, 0.25)
    assert point.across_ft == pytest.approx(0.0, abs=0.5)
    motion = motion_of(point, air)
    assert motion.right == pytest.approx(0.0, abs=0.1)
    crab = math.asin(30 * FT_PER_NM / 3600 / motion.airspeed)
    assert point.heading == pytest.approx(crab, abs=1e-3)
    assert wanted_heading(point, motion, guide, LIMITS) == pytest.approx(crab, abs=1e-3)
    assert turn_ends_beside_ft(point, motion, guide, LIMITS) == pytest.approx(0.0, abs=2.0)


def test_path_tracked_and_altitude_held():
    guide = sbas_guide(files("normal")[1], 6.0, False)
    begin = level(altitude_ft=guide.path.height_ft(10 * FT_PER_NM) - 60.0)
    point = flown_for(begin, Orders(0.0, 0.0, 10.0, 160.0, course=guide, path=guide), 90.0, step_s=0.25)
    assert guide.above_ft(point.along_ft, point.across_ft, point.altitude_ft) == pytest.approx(0.0, abs=0.5)
    climbed = flown_for(level(), Orders(0.0, 3000.0, 1000 / 60, 180.0), 120.0, step_s=0.25)
    assert climbed.altitude_ft == pytest.approx(3000.0, abs=0.5)
    assert flown_for(level(), Orders(0.0, 0.0, 1.0, 180.0, climb_fps=-5.0), 60.0).climb_fps == pytest.approx(-5.0)


def test_commands_within_limits():
    assert between(-1.0, 5.0, 2.0) == 2.0
    assert wanted_bank(level(), 3.0, 300.0, LIMITS) == LIMITS.bank
    assert wanted_bank(level(), -3.0, 300.0, LIMITS) == -LIMITS.bank
    assert wanted_bank(level(heading=1.0), 1.0, 300.0, LIMITS) == 0.0
    assert wanted_bank(level(heading=-3.1), 3.1, 300.0, LIMITS) < 0.0  # the shorter way
    assert wanted_climb_fps(level(), Orders(0.0, 9000.0, 20.0, 180.0), motion_of(level(), CALM)) == 20.0
    assert wanted_climb_fps(level(), Orders(0.0, 0.0, 20.0, 180.0), motion_of(level(), CALM)) == -20.0


def at_idle(climb_fps=0.0, air=CALM, **orders):
    """The rate of the true airspeed, kt/s, at 180 kt with no thrust, in a drag of 1 kt/s."""
    flown = Orders(0.0, 2000.0, 15.0, 120.0, drag=((100.0, 1.0),), **orders)
    point = level(climb_fps=climb_fps, thrust=0.0)
    motion = motion_of(point, air)
    return point.thrust - drag_kt_per_s(point, flown) + carried_kt_per_s(point, motion, air), motion.airspeed


def test_deceleration_is_drag_less_gravity_along_path():
    """g sin of the angle through the air, from the value of g in kt/s, 9.80665 / 0.514444."""
    assert at_idle()[0] == pytest.approx(-1.0)
    assert at_idle(brake=0.7)[0] == pytest.approx(-1.7)
    _, speed_fps = at_idle()
    for angle_deg in (3.0, 6.0):
        sine = math.sin(math.radians(angle_deg))
        assert at_idle(-speed_fps * sine)[0] == pytest.approx(-1.0 + 9.80665 / 0.514444 * sine, abs=1e-4)


def test_growing_tailwind_in_descent_costs_airspeed():
    """20 kt in 1000 ft, met at 1200 ft/min, along the heading: 0.4 kt each second."""
    winds = (WindRow(0.0, 180.0, 30.0), WindRow(3000.0, 0.0, 30.0))
    air = make_air(0.0, 15.0, 0.0, winds)
    lost = at_idle(-20.0, CALM)[0] - at_idle(-20.0, air)[0]
    assert lost == pytest.approx(20.0 * 1200.0 / 60000.0, rel=1e-3)


@settings(deadline=None, max_examples=60)
@given(
    st.floats(-60.0, 40.0), st.floats(-3.0, 3.0), st.floats(-0.4, 0.4), st.floats(110.0, 240.0), st.floats(0.0, 5.0),
    st.floats(0.3, 4.0), st.floats(0.0, 359.0), st.floats(0.0, 60.0), st.floats(500.0, 5000.0),
)
def test_energy_changes_only_by_thrust_drag_and_wind(
    climb_fps, heading, bank, airspeed_kt, thrust, drag, from_deg, wind_kt, altitude_ft,
):
    """Over a thousandth of a second: V (thrust - drag) / g, less V times the tailwind met on the heading, over g."""
    air = make_air(0.0, 5.0, 90.0, (WindRow(0.0, 0.0, 0.0), WindRow(6000.0, from_deg, wind_kt)))
    point = level(climb_fps=climb_fps, heading=heading, bank=bank, airspeed_kt=airspeed_kt, thrust=thrust,
                  altitude_ft=altitude_ft)
    orders, step_s = Orders(0.0, 2000.0, 15.0, 150.0, drag=((100.0, drag),)), 1e-3
    after = step(point, orders, air, LIMITS, step_s)

    def energy_ft(at):
        return at.altitude_ft + motion_of(at, air).airspeed ** 2 / (2.0 * GRAVITY_FPS2)

    speed_fps = motion_of(point, air).airspeed
    tail, cross = (high - low for high, low in zip(
        air.wind_fps(after.altitude_ft), air.wind_fps(point.altitude_ft), strict=True))
    met_fps = tail * math.cos(heading) + cross * math.sin(heading)
    power_fps = speed_fps * (thrust - drag) * FT_PER_NM / 3600.0 / GRAVITY_FPS2
    expected_ft = power_fps * step_s - speed_fps * met_fps / GRAVITY_FPS2
    assert energy_ft(after) - energy_ft(point) == pytest.approx(expected_ft, abs=2e-4 + 1e-4 * abs(climb_fps) / 60.0)


def test_thrust_holds_speed_climbs_and_stays_within_limit():
    orders = Orders(0.0, 2000.0, 15.0, 180.0, drag=((100.0, 1.3),))
    assert flown_for(level(), orders, 40.0).airspeed_kt == pytest.approx(180.0, abs=0.05)
    climbing = Orders(0.0, 9000.0, 20.0, 180.0, drag=((100.0, 1.3),))
    after = flown_for(level(), climbing, 40.0)
    assert after.climb_fps == pytest.approx(20.0, abs=0.2)
    assert after.airspeed_kt == pytest.approx(180.0, abs=1.0)
    steep = flown_for(level(), Orders(0.0, 90000.0, 200.0, 180.0, drag=((100.0, 1.3),)), 90.0)
    assert steep.thrust == pytest.approx(LIMITS.thrust)
    held_fps = motion_of(steep, CALM).airspeed * (LIMITS.thrust - 1.3) / 19.0628
    assert steep.climb_fps == pytest.approx(held_fps, rel=0.05)


def test_heun_method_is_second_order():
    orders = Orders(1.0, 1700.0, 15.0, 170.0)
    ends = [flown_for(level(), orders, 12.0, step_s=step_s) for step_s in (0.2, 0.1, 0.05, 0.0125)]
    for key in ("along_ft", "across_ft", "altitude_ft"):
        errors = [abs(getattr(end, key) - getattr(ends[-1], key)) for end in ends[:-1]]
        assert errors[2] < errors[0] / 10.0
    rate = rates(level(), orders, CALM, LIMITS)
    assert moved(level(), rate, 2.0).along_ft == level().along_ft + 2.0 * rate.along_ft


# Setting, watches, samples.


def test_setting_uses_chart_and_operator_minimum():
    light = flight_setting.make_setting(*files("armed-far-outside"))
    assert light.minimum_ft == 24 + 250
    large = flight_setting.make_setting(*files("normal"))
    assert large.minimum_ft == 224
    assert large.pfaf_nm == pytest.approx(6.048, abs=5e-4)
    assert flight_setting.make_setting(*files("cold-corrected")).minimum_ft == 6835
    assert {gate.name for gate in large.gates} == {
        "ALAR, instrument conditions", "ALAR, visual conditions", "Operator, 1000 ft"}


def test_initial_watch_list():
    run = Run(flight_setting.make_setting(*files("normal")))
    assert all(watch.margin(run.point) < 0.0 for watch in watches(run))
    assert next_timer_s(run) == math.inf
    sample = run.sample()
    assert sample == flown("normal").samples[0]
    assert sample.heading_deg == pytest.approx(95.3)
    assert sample.indicated_ft == pytest.approx(2500, abs=1e-3)


def test_go_around_without_fms_holds_initial_heading():
    """Whatever heading was flown to before; later one that has been set since stays, unless the FMS was left."""
    run = Run(flight_setting.make_setting(*files("normal")))
    missed = run.state.but(phase="missed", lateral="inactive", vertical="inactive", fms=False)
    for before, held in ((run.state, True), (missed, False), (missed.but(fms=True), True)):
        run.state, run.orders = missed, replace(run.orders, heading=0.5)
        run._go_around(before)
        assert run.orders.heading == (run.point.heading if held else 0.5)
        assert run.orders.course is run.orders.path is None
    run.state = missed.but(fms=True)
    run._go_around(missed)
    assert run.orders.course is run.setting.guides["missed"]


def test_heading_on_turning_course_follows_wind():
    """Track rate k s at ground speed s; the heading follows at s / (V cos w) of it, w between heading and track."""
    bend = SimpleNamespace(bend_per_ft=1.0 / 12000.0)
    for heading_deg in (0, 40, 130, 220, 310):
        for tail, cross in ((0.0, 0.0), (50.0, 0.0), (-30.0, 40.0), (20.0, -60.0)):
            heading = math.radians(heading_deg)
            ahead, right = 300.0 * math.cos(heading) + tail, 300.0 * math.sin(heading) + cross
            ground, drift = math.hypot(ahead, right), heading - math.atan2(right, ahead)
            expected = ground**2 / 12000.0 / (300.0 * math.cos(drift))
            assert turn_of_course(Motion(300.0, tail, cross, ahead, right), bend) == pytest.approx(expected)


def test_gate_needs_its_items_shown():
    setting = flight_setting.make_setting(*files("normal"))
    gate = next(gate for gate in setting.gates if gate.name == "Operator, 1000 ft")
    at = next(s for s in flown("normal").samples if s.along_nm < 3.0)
    assert flight_log.judged(setting, gate, at, True).stable
    assert not flight_log.judged(setting, gate, at, False).stable
    blind = flight_log.judged(setting, gate, replace(at, shown_path_dots=None), True)
    assert [i.item for i in blind.items if not i.met] == ["glidepath deviation"]
    fast = flight_log.judged(setting, gate, replace(at, airspeed_kt=at.airspeed_kt + 11), True)
    assert [i.item for i in fast.items if not i.met] == ["most speed over target"]
