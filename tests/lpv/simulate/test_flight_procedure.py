"""Coded legs as they are flown: turns by, over and about fixes, holds, the altitudes, and whole procedures."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest

from flight_files import files, flown, moment
from lpv.approach.coded_leg import CodedLeg
from lpv.core.errors import DomainError
from lpv.core.units import FT_PER_NM
from lpv.motion.holding import hold_in_wind
from lpv.motion.kinematics import turn_radius_ft
from lpv.simulate.air import FPS_PER_KT, WindRow, make_air
from lpv.simulate.legs import Direct, Hold, Leg, arc, arc_turn, bearing, distance_ft, left_ft, line, onward
from lpv.simulate.point_mass import BANK_LAG_S, Limits, Orders, Point, motion_of, step
from lpv.simulate.procedure import along_course, procedure
from lpv.simulate.route import Route
from lpv.simulate.simulation import simulate, summary

CALM = make_air(0.0, 15.0, 90.0, ())
LIMITS = Limits(math.radians(25.0), math.radians(4.0), 5.0, 5.0)
NM = FT_PER_NM
WIDE = lambda _: NM  # noqa: E731


def air(from_deg, speed_kt):
    return make_air(0.0, 15.0, 90.0, (WindRow(0.0, from_deg, speed_kt),))


def legs_through(*places):
    """Straight legs from the first place through the others."""
    return tuple(
        Leg(f"to {end[0] / NM:.0f}/{end[1] / NM:.0f}", line(begin, bearing(begin, end), WIDE), end,
            distance_ft(begin, end))
        for begin, end in pairwise(places))


def fly(legs, begin, heading, seconds, wind=CALM, step_s=0.25, height_ft=3000.0):
    """Level along the legs at 180 kt: points every step, and the names of the legs begun with their time.

    A step in which a leg ends is cut into sixteen, so that the next begins within 5 ft of where it is due.
    """
    point = Point(*begin, height_ft, heading, 0.0, 0.0, 180.0, 1.0)
    route, points, begun, time_s = Route(legs, wind, LIMITS), [point], [(0.0, legs[0].name)], 0.0
    while route.active and not route.held and time_s < seconds:
        orders = Orders(heading, height_ft, 20.0, 180.0, course=route.active.guide, turn=route.active.turn)
        for part_s in (step_s, step_s / 16.0):
            after = step(point, orders, wind, LIMITS, part_s)
            if route.margin(after) < 0.0:
                break
        point, time_s = after, time_s + part_s
        points.append(point)
        if route.margin(point) >= 0.0:
            route.go_on(point)
            begun.append((time_s, route.active.name if route.active else "end"))
    return points, begun


def corner(turn_deg, length_nm=8.0):
    """Two legs of equal length that meet at the origin and turn there."""
    return (length_nm * NM, 0.0), (0.0, 0.0), onward((0.0, 0.0), math.radians(turn_deg), length_nm * NM)


def test_fly_by_turn_stays_between_legs_inside_arc():
    """An arc of radius r that touches both legs leaves the corner by r (1 / cos(A/2) - 1); rolling adds to it."""
    speed_fps = CALM.true_airspeed_fps(180.0, 3000.0)
    radius_ft = turn_radius_ft(speed_fps / FPS_PER_KT, 25.0)
    rolling_ft = speed_fps * 25.0 / 4.0
    for turn_deg in (-120, -90, -45, -10, 10, 30, 60, 90, 120):
        places = corner(turn_deg)
        legs = legs_through(*places)
        points, begun = fly(legs, places[0], 0.0, 400)
        assert [name for _, name in begun][1:] == [legs[1].name, "end"]
        side = math.copysign(1.0, turn_deg)
        for leg in legs:  # never outside of a leg, beside it
            beside = [side * leg.guide.beside_ft(*p[:2]) for p in points if 0.0 <= left_ft(leg, p[:2], 0.0) <= 8 * NM]
            assert min(beside) > -BANK_LAG_S * speed_fps, turn_deg  # 160 ft: the bank answers that much later
        half = math.radians(abs(turn_deg)) / 2.0
        cut_ft = radius_ft * (1.0 / math.cos(half) - 1.0)
        nearest_ft = min(math.hypot(point.along_ft, point.across_ft) for point in points)
        assert cut_ft * 0.9 - 5.0 < nearest_ft < cut_ft + rolling_ft * math.tan(half / 2.0) + 10.0, turn_deg
        assert abs(legs[1].guide.beside_ft(points[-1].along_ft, points[-1].across_ft)) < 1.0


def test_fly_by_turn_counts_wind():
    for from_deg in (0, 90, 180, 270):
        wind = air(from_deg, 40.0)
        legs = legs_through(*corner(90))
        points, _ = fly(legs, corner(90)[0], 0.0, 500, wind)
        outside_ft = -min(legs[1].guide.beside_ft(p.along_ft, p.across_ft) for p in points if p.across_ft > 0.5 * NM)
        assert outside_ft < BANK_LAG_S * (322.0 + 67.6), from_deg  # the bank answers that much later than planned


def test_left_mirrors_right():
    right, _ = fly(legs_through(*corner(75)), corner(75)[0], 0.0, 400)
    left, _ = fly(legs_through(*corner(-75)), corner(-75)[0], 0.0, 400)
    assert len(right) == len(left) > 1000
    assert max(distance_ft((a.along_ft, a.across_ft), (b.along_ft, -b.across_ft))
               for a, b in zip(right, left, strict=True)) < 1e-6


def test_nothing_jumps_and_step_irrelevant():
    legs, begin = legs_through(*corner(90)), corner(90)[0]
    coarse, (_, (at_s, _), *_) = fly(legs, begin, 0.0, 250)
    fine, (_, (fine_s, _), *_) = fly(legs, begin, 0.0, 250, step_s=0.0625)
    assert max(distance_ft(first[:2], other[:2]) for first, other in pairwise(coarse)) <= 0.25 * 325.0
    assert abs(at_s - fine_s) <= 0.25 / 16.0
    for point in coarse[::40]:  # every coarse point lies on the fine track
        assert min(distance_ft(point[:2], other[:2]) for other in fine) < 0.0625 * 325.0 / 2.0 + 6.0


def about(turn, radius_nm=3.0, quarter=math.pi / 2.0):
    """A straight leg, a quarter of an arc that begins at its end, and a straight leg onwards."""
    begin, start, centre = (5 * NM, 0.0), (0.0, 0.0), (0.0, turn * radius_nm * NM)
    end = onward(centre, turn * (quarter - math.pi / 2.0), radius_nm * NM)
    round_it = arc(start, end, centre, turn, WIDE)
    length_ft = round_it.radius_ft * arc_turn(round_it, start, end)
    return begin, (
        *legs_through(begin, start),
        Leg("arc", round_it, end, length_ft),
        *legs_through(end, onward(end, turn * quarter, 5 * NM)),
    )


@pytest.mark.parametrize("turn", [-1, 1])
def test_arc_held_over_ground_in_any_wind(turn):
    """Within 60 ft of its radius at 40 kt of wind, while the bank runs from that of the headwind to the tailwind's."""
    for from_deg, speed_kt in ((0, 0), (0, 40), (90, 40), (180, 40), (270, 40)):
        wind = air(from_deg, speed_kt)
        begin, legs = about(turn)
        points, begun = fly(legs, begin, 0.0, 400, wind)
        assert [name for _, name in begun][1] == "arc"
        on_arc = [p for p in points if p.along_ft < 0 and turn * p.across_ft < 3 * NM]
        assert max(abs(legs[1].guide.beside_ft(p.along_ft, p.across_ft)) for p in on_arc) < 60.0, from_deg
        middle = on_arc[len(on_arc) // 2]
        motion = motion_of(middle, wind)
        over_ground = math.hypot(motion.ahead, motion.right)
        # tan(bank) = s^2 / (g r cos w), w: wind correction (closed form).
        drift = math.remainder(math.atan2(motion.right, motion.ahead) - middle.heading, 2 * math.pi)
        expected = math.atan(over_ground**2 / (32.174 * 3 * NM * math.cos(drift)))
        assert math.degrees(abs(middle.bank)) == pytest.approx(math.degrees(expected), abs=1.0), from_deg


def test_arc_needs_single_radius():
    with pytest.raises(DomainError, match="radius of the arc"):
        arc((0.0, 0.0), (3 * NM, 4 * NM), (0.0, 3 * NM), 1, WIDE)
    with pytest.raises(DomainError, match="radius of the arc"):
        arc((0.0, 0.0), (0.0, 0.0), (0.0, 0.0), 1, WIDE)


def test_remaining_leg():
    _, (straight, round_it, _) = about(1)
    assert left_ft(straight, (2 * NM, 100.0), 0.0) == pytest.approx(2 * NM)
    assert left_ft(straight, (-NM, 0.0), 0.0) == pytest.approx(-NM)
    assert left_ft(round_it, (0.0, 0.0), 0.0) == pytest.approx(1.5 * math.pi * NM)
    assert left_ft(round_it, (-3 * NM, 3.5 * NM), 0.0) == pytest.approx(-3 * NM * math.atan(0.5 / 3))
    direct = Leg("DF", Direct("FMS lateral navigation", 0.0, (0.0, 0.0), None, WIDE, None), (0.0, 0.0))
    assert left_ft(direct, (3 * NM, 4 * NM), 1.0) == pytest.approx(5 * NM)
    assert left_ft(direct, (-0.1 * NM, 0.0), 0.0) == pytest.approx(-0.1 * NM)


def test_direct_to_fix_turns_as_coded():
    for turn in (-1, 1):
        fix = (6 * NM, turn * 3 * NM)  # behind, on that side
        leg = Leg("DF", Direct("FMS lateral navigation", 0.0, fix, None, WIDE, None), fix, turn=turn)
        other = replace(leg, turn=-turn)
        short, begun = fly((leg,), (0.0, 0.0), 0.0, 400, air(30, 25))
        long, _ = fly((other,), (0.0, 0.0), 0.0, 400, air(30, 25))
        assert begun[-1][1] == "end"
        assert distance_ft(short[-1][:2], fix) < 200.0
        assert max(turn * point.bank for point in short) > math.radians(24)
        assert min(turn * point.bank for point in long[:200]) < -math.radians(24)
        assert len(long) > len(short)


def timed_hold(turn, once=False, inbound_s=60.0):
    return Hold("ZZFIX", (0.0, 0.0), 0.0, turn, once, WIDE, inbound_s=inbound_s)


def into(hold, track, *after):
    """A leg to the fix of a hold on a track, the hold, and what follows."""
    begin = onward((0.0, 0.0), track + math.pi, 4 * NM)
    return begin, (
        *legs_through(begin, (0.0, 0.0)), Leg("hold", line((0.0, 0.0), 0.0, WIDE), (0.0, 0.0), hold=hold), *after)


@pytest.mark.parametrize("turn", [-1, 1])
def test_hold_entered_by_sector_and_flown_on_its_side(turn):
    sectors = {0: "outbound", 105: "outbound", -65: "outbound", 130: "teardrop entry", -90: "parallel entry"}
    for off_deg, words in sectors.items():
        track = turn * math.radians(off_deg)
        begin, legs = into(timed_hold(turn), track)
        points, begun = fly(legs, begin, track, 700, air(90, 20))
        assert [name for _, name in begun[1:]] == [
            f"hold at ZZFIX, {words}", "hold at ZZFIX, inbound", "hold at ZZFIX, outbound"], off_deg
        assert distance_ft(points[-1][:2], (0.0, 0.0)) < 700.0, off_deg
        assert abs(math.degrees(math.remainder(points[-1].heading, 2 * math.pi))) < 10, off_deg
        if not off_deg:
            assert min(turn * point.across_ft for point in points) > -60.0  # nothing on the other side, in 20 kt across


def test_circuit_in_wind_ends_on_course_with_inbound_time():
    """Against the closed formula: 40 kt from all round, a minute inbound, wings level within 50 ft of the course."""
    for turn in (-1, 1):
        for from_deg in range(0, 360, 45):
            begin, legs = into(timed_hold(turn), 0.0)
            wind = air(from_deg, 40.0)
            points, begun = fly(legs, begin, 0.0, 600, wind)
            (out_s, _), (in_s, _), (end_s, _) = begun[1:]
            level = next(n for n in range(len(points) - 1, 0, -1) if abs(math.degrees(points[n].bank)) > 2.0)
            assert abs(points[level].across_ft) < 60.0, (turn, from_deg)
            assert (len(points) - level) * 0.25 == pytest.approx(60.0, abs=4.0), (turn, from_deg)
            airspeed_kt = wind.true_airspeed_fps(180.0, 3000.0) / FPS_PER_KT
            plan = hold_in_wind(0.0, airspeed_kt, (from_deg - 90) % 360, 40.0, 25.0, 60.0, 25.0 / 4.0)
            assert end_s - out_s == pytest.approx(plan.circuit_s, abs=4.0), (turn, from_deg)
            middle = points[round((out_s + in_s) / 2.0 / 0.25 + (in_s - out_s) / 4.0 / 0.25)]
            if plan.outbound_s > 60.0:
                assert math.degrees(middle.heading) % 360.0 == pytest.approx(plan.outbound_heading_deg, abs=1.5)


def test_hold_in_lieu_flown_once_then_continues():
    hold = replace(timed_hold(1, once=True, inbound_s=None), inbound_ft=4 * NM)
    begin, legs = into(hold, 0.0, *legs_through((0.0, 0.0), (-5 * NM, 0.0)))
    points, begun = fly(legs, begin, 0.0, 800)
    assert [name for _, name in begun[1:]] == ["hold at ZZFIX, outbound", "hold at ZZFIX, inbound", "to -5/0", "end"]
    level = next(n for n in range(len(points) - 1, 0, -1) if abs(math.degrees(points[n].bank)) > 2.0)
    assert points[level].along_ft == pytest.approx(4 * NM, abs=0.1 * NM)  # where the turn inbound ends


# Coded rows.


def row(terminator, fix=None, **more):
    return CodedLeg(**{"part": "transition", "sequence": "010", "terminator": terminator, "fix": fix} | more)


def made(*rows, transition=None):
    where = files("normal")[1]
    course_deg = where.true_course_deg - where.chart.variation_deg
    return procedure(rows, where, course_deg, transition)


def test_coded_rows_become_legs_to_pfaf_and_after_map():
    legs = made(
        row("IF", "BRYNA", transition="BRYNA"), row("TF", "SWELO", transition="BRYNA"),
        row("IF", "KELPO", transition="KELPO"),
        row("IF", "SWELO", part="final"), row("TF", "GULLY", part="final", role="PFAF"),
        row("TF", "RW09", part="final"),
        row("CA", part="missed approach", course_deg=92, altitude_ft=800),
        row("DF", "KELPO", part="missed approach", turn="right"),
        row("HM", "KELPO", part="missed approach", course_deg=92, turn="right", time_min=1), transition="BRYNA")
    assert [leg.name for leg in legs.joining] == ["IF to BRYNA", "TF to SWELO", "TF to GULLY"]
    assert [leg.low_ft for leg in legs.joining] == [3000, 2500, 2000]  # the chart's
    assert [leg.high_ft for leg in legs.joining] == [None, None, None]  # at or above
    assert [round(leg.length_ft / NM, 2) for leg in legs.joining] == [0, 6.0, 5.5]  # as printed
    assert math.degrees(legs.joining[1].guide.turn_rad) == pytest.approx(90.0, abs=0.5)
    climb, direct, hold = legs.missed
    assert (climb.until_ft, direct.turn, hold.hold.turn) == (800, 1, 1)
    assert (hold.hold.inbound_s, hold.hold.inbound_ft) == (60.0, None)
    assert [len(places) for places in along_course(legs.joining, (11.5 * NM, -7 * NM))] == [2, 2]


def test_true_and_magnetic_course():
    variation = files("normal")[1].chart.variation_deg
    magnetic, true = (
        made(row("IF", "SWELO"), row("CF", "GULLY", course_deg=course, course_true=is_true)).joining[1]
        for course, is_true in ((100, False), (100 + variation, True)))
    assert magnetic.guide.turn_rad == pytest.approx(true.guide.turn_rad, abs=1e-9)


@pytest.mark.parametrize(("rows", "message"), [
    ([row("VM", course_deg=90)], "path and termination of leg 010"),
    ([row("TF", "NOFIX")], "found NOFIX; allowed: a fix of the chart"),
    ([row("IF", "SWELO"), row("RF", "GULLY", centre="SWELO")], "turn of leg 010"),
    ([row("IF", "SWELO"), row("CF", "GULLY")], "course of leg 010"),
    ([row("CA", course_deg=90)], "altitude of leg 010"),
    ([row("HF", "SWELO", course_deg=90)], "length of the hold of leg 010"),
])
def test_missing_row_values_reported(rows, message):
    with pytest.raises(DomainError, match=message):
        made(*rows)


def test_approach_legs_flown_without_scenario_legs():
    story, where, by = files("whole-procedure")
    rows = story.legs
    coded = replace(where, database=replace(where.database, legs=rows))
    short = replace(story, legs=(), story=replace(story.story, longest_s=60))
    there, here = simulate(short, coded, by), flown("whole-procedure")
    assert moment(there, "leg").what == "Next leg: TF to SWELO"
    assert there.samples[60] == here.samples[60]


# Whole procedures.


def legs_begun(name):
    return [moment.what.removeprefix("Next leg: ").partition(", heading")[0]
            for moment in flown(name).moments if moment.key == "leg"]


def test_whole_procedure_from_initial_fix_to_hold():
    flight = flown("whole-procedure")
    assert legs_begun("whole-procedure") == ["TF to SWELO", "hold at KELPO, outbound", "hold at KELPO, inbound"]
    armed, captured = moment(flight, "arm approach"), moment(flight, "course reached")
    assert armed.state.fms
    assert armed.state.lateral == "armed"
    assert not captured.state.fms
    assert captured.state.lateral == "captured"
    # Handed over where the turn onto the course ends on it, from a leg that meets it at a right angle.
    assert 0.9 * NM < abs(captured.sample.across_ft) < 1.4 * NM
    assert summary(flight).overshoot_ft < BANK_LAG_S * captured.sample.ground_speed_kt * FPS_PER_KT
    assert not summary(flight).unstable
    around, waypoint = moment(flight, "go around"), moment(flight, "missed approach point")
    between = [sample for sample in flight.samples if around.time_s < sample.time_s < waypoint.time_s]
    assert max(abs(point.across_ft) for point in between) < 20.0  # no turn before the waypoint
    assert flight.ending == "in the hold"
    assert flight.samples[-1].indicated_ft == pytest.approx(3000, abs=5)
    in_hold = [sample for sample in flight.samples if sample.time_s > moment(flight, "leg", 1).time_s]
    assert max(point.across_ft for point in in_hold) > 0.7 * NM  # on the right, as coded
    assert min(point.across_ft for point in in_hold) > -0.1 * 0.3 * NM  # a tenth of full scale


def test_leg_altitudes_kept_and_path_met_from_level():
    for name, fixes in (("whole-procedure", {"SWELO": 11.5}), ("arc-to-final", {}), ("hold-in-lieu", {})):
        flight, (_, where, _) = flown(name), files(name)
        assert not [moment for moment in flight.moments if moment.key == "restriction"], name
        for fix, along_nm in fixes.items():
            charted_ft = next(coded_fix.altitude_ft for coded_fix in where.chart.fixes if coded_fix.name == fix)
            assert min(s.indicated_ft for s in flight.samples if s.along_nm > along_nm) > charted_ft - 20
        captured, pfaf_ft = moment(flight, "path reached from below").sample, where.pfaf.altitude_ft
        before = [s for s in flight.samples if captured.time_s - 15 < s.time_s < captured.time_s]
        assert all(abs(s.indicated_ft - pfaf_ft) < 20 and abs(s.climb_fpm) < 100 for s in before), name
    held = flown("hold-in-lieu")
    once_round = [s for s in held.samples if s.along_nm > 11.4 or s.time_s < 80]
    assert min(s.indicated_ft for s in once_round) > 9400 - 5


def test_hold_in_lieu_entered_by_teardrop_and_handed_over():
    assert legs_begun("hold-in-lieu") == ["hold at FROZT, teardrop entry", "hold at FROZT, inbound"]
    flight = flown("hold-in-lieu")
    captured = moment(flight, "course reached")
    assert captured.sample.source == "SBAS"
    assert any("FMS lateral navigation" in change for change in captured.changes)
    assert summary(flight).ending == "landed"


def test_arc_flown_in_40_kt_wind_with_changing_bank():
    flight = flown("arc-to-final")
    begun, captured = moment(flight, "leg", 1), moment(flight, "course reached")
    assert begun.what == "Next leg: RF to SOLMA"
    centre_ft = 12.59 * NM, -3.0 * NM
    on_arc = [s for s in flight.samples if begun.time_s + 5 < s.time_s < captured.time_s]
    off_ft = [distance_ft((s.along_nm * NM, s.across_ft), centre_ft) - 3.0 * NM for s in on_arc]
    assert max(map(abs, off_ft)) < 80.0
    banks = [s.bank_deg for s in on_arc if s.time_s > begun.time_s + 10]
    assert max(banks) < -8.0
    assert max(banks) - min(banks) > 3.0


def test_unfollowed_missed_approach_turns_only_once_selected():
    flight = flown("missed-turn")
    late = moment(flight, "FMS lateral mode")
    assert legs_begun("missed-turn")[0] == "DF to WHELK"
    assert moment(flight, "leg").time_s == late.time_s
    assert moment(flight, "missed approach point").time_s < late.time_s - 50
    straight = [s for s in flight.samples if moment(flight, "go around").time_s + 5 < s.time_s < late.time_s]
    assert max(s.heading_deg for s in straight) - min(s.heading_deg for s in straight) < 1.0
    # A thousand feet were passed long before: that much farther out it turns.
    turn_due = next(s for s in straight if s.indicated_ft >= 1000.0)
    assert turn_due.along_nm - late.sample.along_nm > 1.0
    assert flight.ending == "in the hold"
