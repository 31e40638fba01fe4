"""The simulation as a whole: what every flight keeps to, closed forms, convergence, work."""

import math
from itertools import pairwise

import pytest

from flight_files import NAMES, files, flown, type_of
from lpv.core.errors import DomainError
from lpv.core.units import FT_PER_NM
from lpv.decide.missed import dip, height_loss_ft
from lpv.fas import segment
from lpv.intercept.course import overshoot_nm, turn_onto_course
from lpv.motion import energy
from lpv.motion.kinematics import descent_rate_fpm
from lpv.path.profile import EARTH_RADIUS_FT
from lpv.path.temperature import indicated_on_path_ft, path_met_distance_nm
from lpv.simulate import report as flight_report
from lpv.simulate.point_mass import GRAVITY_FPS2
from lpv.simulate.setting import make_setting
from lpv.simulate.simulation import SIMPLIFICATIONS, simulate, summary, timeline
from support import calls

FPS = FT_PER_NM / 3600.0
CALM = [name for name in NAMES if not files(name)[0].winds]
HALVED = (
    "armed-late", "go-around-at-da", "ils-left-on", "path-from-above", "source-off-and-on", "vectors-tailwind")


def test_expected_scenarios_present():
    assert len(NAMES) >= 12
    assert all(files(name)[0].story.invented for name in NAMES)
    assert len(SIMPLIFICATIONS) > 5


@pytest.mark.parametrize("name", NAMES)
def test_one_sample_per_second_and_moments_in_order(name):
    flight = flown(name)
    times = [sample.time_s for sample in flight.samples]
    assert times[:-1] == pytest.approx(range(len(times) - 1), abs=1e-6)
    assert times[-1] <= files(name)[0].story.longest_s
    happened = [entry.time_s for entry in timeline(flight) if entry.time_s is not None]
    assert happened == sorted(happened)
    assert happened[-1] == times[-1]
    assert all(entry.what and entry.words for entry in timeline(flight))


@pytest.mark.parametrize("name", NAMES)
def test_bank_roll_and_vertical_acceleration_within_limits(name):
    flying, climb = files(name)[2].flying, files(name)[2].go_around
    around = summary(flown(name)).go_around
    for before, after in pairwise(flown(name).samples):
        step_s = after.time_s - before.time_s
        assert abs(after.bank_deg) <= flying.bank_limit_deg + 1e-9
        assert abs(after.bank_deg - before.bank_deg) <= flying.roll_rate_deg_per_s * step_s + 1e-9
        pulls = around is not None and after.time_s > around.time_s
        most_g = climb.acceleration_g if pulls else 0.05
        change_fps = abs(after.climb_fpm - before.climb_fpm) / 60.0
        assert change_fps <= most_g * GRAVITY_FPS2 * step_s + 1e-9


def energy_ft(sample):
    """Energy height through the air."""
    return energy.energy_height_ft(sample.altitude_ft, sample.true_airspeed_kt)


@pytest.mark.parametrize("name", CALM)
def test_energy_lost_in_calm_equals_drag_and_thrust_work(name):
    """Over the whole flight, to 1 %: V (thrust - drag) / g summed by the trapezoid rule over its seconds.

    A configuration that moves within a second is what the rule cannot see; `test_flight_parts` has the exact balance.
    """
    work_ft = sum(
        sum(s.true_airspeed_kt * FPS * (s.thrust_kt_per_s - s.drag_kt_per_s) for s in pair) / 2.0
        / energy.GRAVITY_KT_PER_S * (pair[1].time_s - pair[0].time_s) for pair in pairwise(flown(name).samples))
    lost_ft = energy_ft(flown(name).samples[0]) - energy_ft(flown(name).samples[-1])
    turned_over_ft = sum(
        abs(s.true_airspeed_kt * FPS * (s.thrust_kt_per_s - s.drag_kt_per_s)) / energy.GRAVITY_KT_PER_S
        for s in flown(name).samples)
    assert -work_ft == pytest.approx(lost_ft, abs=0.01 * turned_over_ft)


@pytest.mark.parametrize("name", NAMES)
def test_thrust_within_limits_and_spools_up(name):
    flying = files(name)[2].flying
    most = make_setting(*files(name)).limits.thrust
    for before, after in pairwise(flown(name).samples):
        assert -1e-9 <= after.thrust_kt_per_s <= most + 1e-9
        changed = abs(after.thrust_kt_per_s - before.thrust_kt_per_s)
        assert changed <= most / flying.spool_up_s * (after.time_s - before.time_s) + 1e-9


@pytest.mark.parametrize("name", CALM)
def test_without_wind_energy_grows_only_to_regain_speed(name):
    """Height and speed together, before a go-around: thrust holds a speed, and adds what was lost below it."""
    around = summary(flown(name)).go_around
    samples = [s for s in flown(name).samples if around is None or s.time_s <= around.time_s]
    grown = [before for before, after in pairwise(samples) if energy_ft(after) > energy_ft(before) + 0.3]
    assert all(sample.airspeed_kt < sample.target_kt + 0.1 for sample in grown)


@pytest.mark.parametrize("name", NAMES)
def test_distance_is_speed_times_time(name):
    """Kinematics from the samples alone: the trapezoid rule over ground speed and track, and over the climb.

    What the rule can be wrong by in height: a quarter of the greatest vertical acceleration, times a second squared.
    """
    most_ft = files(name)[2].go_around.acceleration_g * GRAVITY_FPS2 / 4.0
    course_deg = files(name)[1].true_course_deg - files(name)[1].chart.variation_deg
    for before, after in pairwise(flown(name).samples):
        step_s, sides = after.time_s - before.time_s, (before, after)
        ahead, right = (
            sum(s.ground_speed_kt * turned(math.radians(s.track_deg - course_deg)) for s in sides) / 2.0
            for turned in (math.cos, math.sin)
        )
        assert before.along_nm - after.along_nm == pytest.approx(ahead * step_s / 3600.0, abs=2e-4)
        assert (after.across_ft - before.across_ft) / FT_PER_NM == pytest.approx(right * step_s / 3600.0, abs=4e-4)
        climbed_ft = (before.climb_fpm + after.climb_fpm) / 120.0 * step_s
        assert after.altitude_ft - before.altitude_ft == pytest.approx(climbed_ft, abs=most_ft)


@pytest.mark.parametrize("name", NAMES)
def test_captured_modes_show_deviation(name):
    for sample in flown(name).samples:
        if sample.state.lateral == "captured":
            assert sample.shown_course_dots is not None
        if sample.state.vertical == "captured":
            assert sample.shown_path_dots is not None
        if sample.source == "SBAS" and sample.shown_course_dots is not None:
            assert sample.shown_course_dots == sample.course_dots


@pytest.mark.parametrize("name", HALVED)
def test_halved_step_converges_at_second_order(name):
    """From one halving to the next the samples move a quarter as far, or less than a hundredth of the tolerance.

    Where a limit begins or ends to hold within a step the order is less regular: a factor of two is asked of the
    greatest difference of all samples, and of four, less a fifth, of their mean.
    """
    runs = [flown(name, step_s) for step_s in (0.5, 0.25, 0.125)]
    assert len({tuple(m.what for m in run.moments if m.key != "gate") for run in runs}) == 1
    count = min(len(run.samples) for run in runs) - 1
    for key, small in (("along_nm", 2e-4), ("across_ft", 0.2), ("altitude_ft", 0.1), ("airspeed_kt", 0.02)):
        coarse, fine = (
            [abs(getattr(a, key) - getattr(b, key)) for a, b in zip(coarse.samples[:count], two.samples, strict=False)]
            for coarse, two in pairwise(runs)
        )
        assert max(fine) <= max(coarse) / 2.0 or max(fine) < small, key
        assert sum(fine) <= sum(coarse) / 3.2 or sum(fine) / count < small, key


def test_same_files_give_same_flight():
    first, two = (simulate(*files("vectors-tailwind")) for _ in range(2))
    assert first.samples == two.samples
    assert first.moments == two.moments
    assert [vars(i) for g in first.gates for i in g.items] == [vars(i) for g in two.gates for i in g.items]


def test_work_grows_with_samples_only():
    """Calls of Python functions for each second flown: the same count on any machine."""
    given = files("vectors-tailwind")
    simulate(*given)
    made, flight = calls(simulate, *given)
    assert made < 2500 * len(flight.samples)


@pytest.mark.parametrize("name", NAMES)
def test_positions_match_segment_on_ellipsoid(name):
    """Every tenth sample put on the earth and measured there against the segment.

    Both measure height above the path along a vertical, one where the aircraft is and one at the LTP: as far
    above or below the path as the aircraft is, times the path's slope, times the angle between the verticals.
    Beside the course the simulation counts a mean radius of the earth; those of the ellipsoid are within 0.5 % of it.
    """
    _, where, _ = files(name)
    for sample in flown(name).samples[::10]:
        if abs(sample.along_nm) > 30.0 or sample.along_nm < -1.0:
            continue
        at = flight_report.place(sample, where)
        position = segment.relative_position(
            where.segment, at.latitude_deg, at.longitude_deg, at.ellipsoid_height_m)
        assert position.along_nm == pytest.approx(sample.along_nm, abs=1e-6)
        curved_ft = sample.across_ft**2 / (2.0 * EARTH_RADIUS_FT)
        allowed_ft = 0.02 + 5e-4 * abs(sample.path_ft) + 5e-3 * curved_ft
        assert position.above_path_ft == pytest.approx(sample.path_ft, abs=allowed_ft)


def test_turn_onto_course_begins_where_closed_form_says():
    """Captured by turn lead in a tailwind: lpv.intercept.course's distance from the course, to a foot; no overshoot."""
    captured = summary(flown("vectors-tailwind")).course_captured
    _, where, flier = files("vectors-tailwind")
    course_deg = (where.true_course_deg - where.chart.variation_deg) % 360
    from_deg, wind_kt = wind_at(captured, course_deg)
    turn = turn_onto_course(
        captured.track_deg, course_deg, true_airspeed_kt(captured, from_deg, wind_kt), flier.flying.bank_limit_deg,
        flier.flying.roll_rate_deg_per_s, from_deg, wind_kt)
    assert -captured.across_ft == pytest.approx(turn.cross_track_nm * FT_PER_NM, abs=1.0)
    assert summary(flown("vectors-tailwind")).overshoot_ft < 10.0


def wind_at(sample, course_deg):
    """The wind of the scenario at the sample's height, from its two rows above 1000 ft, both from 275."""
    share = (sample.altitude_ft - 31.0 - 1000.0) / 2000.0
    return 275.0, 16.0 + share * 12.0


def true_airspeed_kt(sample, from_deg, wind_kt):
    """The other side of the wind triangle."""
    off = math.radians(from_deg + 180.0 - sample.track_deg)
    ahead, aside = sample.ground_speed_kt - wind_kt * math.cos(off), wind_kt * math.sin(off)
    return math.hypot(ahead, aside)


def test_late_arming_overshoot_matches_roll_and_turn():
    """Roll-in at 4 deg/s and a turn at 27 deg of bank until parallel, integrated here in small steps.

    The lag of the bank adds a few feet (tolerance: 0.05 s of closing with the course); lpv.intercept.course counts a
    roll-out before that too and has it within 2 %.
    """
    captured, farthest_ft = summary(flown("armed-late")).course_captured, summary(flown("armed-late")).overshoot_ft
    course_deg = (files("armed-late")[1].true_course_deg - 12.0) % 360
    speed, aside = captured.ground_speed_kt * FT_PER_NM / 3600, captured.across_ft
    passed_s, step_s = 0.0, 0.001
    off = math.radians(captured.track_deg - course_deg)
    closing = speed * math.sin(off)
    while off > 0.0:
        bank = math.radians(min(27.0, 4.0 * (passed_s + step_s / 2)))
        turned = GRAVITY_FPS2 * math.tan(bank) / speed * step_s
        aside += speed * math.sin(off - turned / 2) * step_s
        off -= turned
        passed_s += step_s
    assert farthest_ft == pytest.approx(aside, abs=0.05 * closing + 0.5)
    turn = turn_onto_course(captured.track_deg, course_deg, captured.ground_speed_kt, 27.0, 4.0, 0.0, 0.0)
    assert farthest_ft - captured.across_ft == pytest.approx(overshoot_nm(turn, 0.0) * FT_PER_NM, rel=0.02)


def test_slowing_matches_closed_form_distance():
    """Level at idle, from below 200 kt to before the lag of 2 s rounds off the end at 190 kt: lpv.motion.energy."""
    idle = [s for s in flown("after-landing").samples if 192.0 <= s.airspeed_kt < 199.9 and s.thrust_kt_per_s < 0.02]
    first, last = idle[0], idle[-1]
    assert last.time_s - first.time_s >= 4.0
    mean = sum(s.drag_kt_per_s for s in idle) / len(idle)
    expected_nm = energy.slowing_distance_nm(first.ground_speed_kt, last.ground_speed_kt, mean)
    assert first.along_nm - last.along_nm == pytest.approx(expected_nm, rel=0.01)


def test_vertical_speed_on_path_matches_angle():
    """At 3 NM, in the wind: ground speed times the tangent, and what the earth's curve takes off (0.05 degrees)."""
    for name in ("normal", "vectors-tailwind"):
        sample = next(s for s in flown(name).samples if s.along_nm < 3.0 and s.state.vertical == "captured")
        flat_fpm = descent_rate_fpm(sample.ground_speed_kt, 3.0 + math.degrees(3.0 / 3440.0))
        assert -sample.climb_fpm == pytest.approx(flat_fpm, abs=6.0)


def test_go_around_dip_matches_closed_form():
    flight, climb = flown("go-around-at-da"), files("go-around-at-da")[2].go_around
    around, lowest = summary(flight).go_around, summary(flight).lowest
    arguments = climb.reaction_s, climb.acceleration_g
    assert around.indicated_ft == pytest.approx(224.0, abs=1e-3)
    loss_ft = height_loss_ft(-around.climb_fpm, *arguments)
    assert around.altitude_ft - lowest.altitude_ft == pytest.approx(loss_ft, abs=0.02)
    whole = dip(-around.climb_fpm, climb.climb_rate_fpm, *arguments)
    assert lowest.time_s - around.time_s == pytest.approx(whole.lowest_s, abs=0.001)
    assert min(s.altitude_ft for s in flight.samples) >= lowest.altitude_ft


def test_cold_path_met_where_closed_form_says():
    """Level at 8700 ft indicated in -30 °C: the distance at which the deviation goes through zero without capture.

    lpv.path.temperature has it over a sphere; 0.001 NM is 0.4 ft of height on this path.
    """
    captured = summary(flown("cold-uncorrected")).path_captured
    _, where, _ = files("cold-uncorrected")
    held = where.segment
    expected_nm = path_met_distance_nm(8700, 6460, held.tch_ft, held.gpa_deg, -30, 6498)
    slope_ft_per_nm = math.tan(math.radians(held.gpa_deg) + expected_nm / 3440.0) * FT_PER_NM
    assert captured.along_nm + captured.path_ft / slope_ft_per_nm == pytest.approx(expected_nm, abs=0.002)
    on_path_ft = indicated_on_path_ft(captured.along_nm, 6460, held.tch_ft, held.gpa_deg, -30, 6498)
    assert on_path_ft - captured.indicated_ft == pytest.approx(-captured.path_ft, rel=0.2)


def test_mismatched_files_refused():
    approach, where, flier = files("normal")
    with pytest.raises(DomainError, match="approach: found zzhc-rnav-33; allowed: zzak-rnav-09"):
        simulate(approach, files("cold-corrected")[1], flier)
    with pytest.raises(DomainError, match="aircraft: found light-jet; allowed: large-jet"):
        simulate(approach, where, type_of("light-jet"))
    for step_s in (0.0, 1.1, math.nan):
        with pytest.raises(DomainError, match="step"):
            simulate(approach, where, flier, step_s)
