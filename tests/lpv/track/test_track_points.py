"""Samples against an approach: rates by least squares, crossings, and the approaches in a recording."""

import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from changed import changed
from flight_files import files
from lpv.core.units import FT_PER_NM
from lpv.path.sbas_scale import cut_dots
from lpv.track.clean import clean
from lpv.track.levels import levels_of
from lpv.track.noise import QUIET
from lpv.track.points import Point, approaches, between, crossing, noise_of, places, smoothed
from lpv.track.records import Conditions, Reading, Recording
from lpv.track.target import Target

_, AK, _ = files("normal")
TO = Target(AK)


def point(time_s, along_nm=5.0, across_ft=0.0, true_ft=2000.0, part=0):
    return Point(time_s, 1, part, along_nm, across_ft, 0.0, true_ft, true_ft, 0.0, 0.0)


@given(st.floats(-200, 200), st.floats(-100, 100), st.floats(-3000, 3000), st.lists(
    st.floats(1.0, 2.0), min_size=10, max_size=16))
@settings(max_examples=25)
def test_steady_flight_rates_independent_of_spacing(ahead_kt, right_kt, sink_fpm, steps):
    time_s, rows = 0.0, []
    for step in steps:
        rows.append(point(time_s, 10.0 - ahead_kt * time_s / 3600.0, right_kt * FT_PER_NM * time_s / 3600.0,
                          2000.0 - sink_fpm * time_s / 60.0))
        time_s += step
    for moment in smoothed(rows, QUIET, TO)[3:-3]:
        assert moment.ground_speed_kt == pytest.approx(math.sqrt(ahead_kt**2 + right_kt**2), abs=1e-6)
        assert moment.sink_fpm == pytest.approx(sink_fpm, abs=1e-6)


def test_no_rate_from_too_little_or_across_parts():
    assert all(point.sink_fpm is None for point in smoothed([point(0.0), point(5.0)], QUIET, TO))
    assert all(point.sink_fpm is None for point in smoothed([point(0.0), point(1.0), point(2.0)], QUIET, TO))
    apart = [point(float(n), true_ft=2000.0 - 10.0 * n, part=0) for n in range(6)]
    apart += [point(float(n), true_ft=9000.0, part=1) for n in range(6, 12)]
    assert [round(point.sink_fpm) for point in smoothed(apart, QUIET, TO)] == [600] * 6 + [0] * 6
    blank = [changed(sample, true_ft=None) for sample in apart]
    assert {point.sink_fpm for point in smoothed(blank, QUIET, TO)} == {None}
    assert smoothed([], QUIET, TO) == []


def before(points, distance_nm):
    return [distance_nm - point.along_nm for point in points]


def test_crossing_interpolated_linearly():
    rows = [point(0.0, 5.0), point(2.0, 4.0, 100.0), point(4.0, 3.0)]
    passed = crossing(rows, before(rows, 4.25))
    assert (passed.at.time_s, passed.at.along_nm, passed.at.across_ft, passed.gap_s) == (1.5, 4.25, 75.0, 0.0)
    assert crossing(rows, before(rows, 2.0)) is None
    assert crossing(rows, before(rows, 5.0)) is None  # it was there from the beginning
    assert crossing([], []) is None
    apart = [rows[0], changed(rows[1], part=1, time_s=30.0)]
    assert crossing(apart, before(apart, 4.25)).gap_s == 30.0


def test_value_missing_on_one_side_missing_between():
    middle = between(point(0.0), changed(point(2.0), path_dots=None), 0.5)
    assert (middle.path_dots, middle.time_s, middle.line) == (None, 1.0, 1)


def test_dots_capped():
    assert (cut_dots(1e6, 300.0), cut_dots(-1e6, 300.0), cut_dots(150.0, 300.0)) == (100.0, -100.0, 1.0)


def test_scales_match_way_of_joining():
    vectors = Target(AK, on_vectors=True)
    assert vectors.pfaf_nm == TO.pfaf_nm == pytest.approx(6.05, abs=0.005)
    assert TO.course_ft(7.9) > vectors.course_ft(7.9)
    assert TO.course_ft(1.0) == vectors.course_ft(1.0)
    assert TO.path_ft(3.0) == vectors.path_ft(3.0)


def test_only_threshold_surroundings_considered():
    held = AK.segment
    readings = tuple(
        Reading(n, float(n), held.ltp_latitude_deg + offset, held.ltp_longitude_deg, 1000.0)
        for n, offset in enumerate((0.0, 0.40, 0.44, 20.0)))
    recording = Recording("a.csv", "msl", "", readings, 6)
    parts, _ = clean(changed(recording, readings=readings[:1]))
    assert len(parts) == 1
    levels = levels_of(recording, TO, Conditions())
    assert [place.line for place in places([(reading,) for reading in readings], TO, levels)] == [0, 1]


def flown_over(*along_nm, across_nm=0.0):
    return [point(10.0 * n, nm, across_nm * FT_PER_NM) for n, nm in enumerate(along_nm)]


def test_approach_runs_from_entry_to_exit():
    assert approaches(flown_over(8, 6, 4, 2, 0), TO) == [(0, 5)]
    assert approaches(flown_over(2, 5, 8, 6, 4, 2, 0, -1, -2, 0, 3), TO) == [(2, 9)]
    twice = flown_over(8, 6, 4, 2, 0, -2, 0, 4, 8, 9, 6, 4, 2, 0)
    assert approaches(twice, TO) == [(0, 6), (9, 14)]


def test_abandoned_approach_counts_after_pfaf():
    early = [*flown_over(9, 7, 5, 4), point(50.0, 3.9, 3 * FT_PER_NM), point(60.0, 6.0)]
    assert approaches(early, TO) == [(0, 5)]


def test_no_approach():
    assert approaches([], TO) == []
    assert approaches(flown_over(0, 2, 4, 6, 8), TO) == []
    assert approaches(flown_over(8, 6, 4, 2, 0, across_nm=2.0), TO) == []
    assert approaches(flown_over(15, 12, 9), TO) == []


def test_sample_noise_and_smoothing():
    rng = random.Random("smoothing")
    rows = [point(float(n), 8.0 - n / 30.0, true_ft=2500.0 - 10.0 * n + rng.gauss(0.0, 15.0)) for n in range(200)]
    noise = noise_of(rows)
    assert noise.height_ft == pytest.approx(15.0, rel=0.25)
    assert (noise.interval_s, noise.window_s) == (1.0, 10.0)
    points = smoothed(rows, noise, TO)
    off_ft = [point.true_ft - (2500.0 - 10.0 * n) for n, point in enumerate(points)][5:-5]
    assert math.sqrt(sum(off * off for off in off_ft) / len(off_ft)) < 0.6 * 15.0
    assert points[50].height_noise_ft == pytest.approx(math.sqrt(89.0 / 429.0) * noise.height_ft)
    assert points[50].sink_noise_fpm == pytest.approx(60.0 * noise.height_ft / math.sqrt(110.0))
    quiet = smoothed(rows, QUIET, TO)
    assert [point.true_ft for point in quiet] == [row.true_ft for row in rows]
    assert noise_of(rows, 20.0).height_ft == 20.0  # rounding alone gives more


def test_noisy_repeated_crossings_are_one_approach():
    rng = random.Random("jitter")
    rows = [point(0.1 * n, 8.0 - 0.0035 * n + rng.gauss(0.0, 0.01)) for n in range(2200)]
    assert len(approaches(rows, TO)) == 1


def test_smoothing_subset_matches_whole():
    """Each point sees its neighbours before and after that part too, and none of another part of the recording."""
    source = random.Random("parts")
    points = [point(float(time_s), 9.0 - 0.04 * time_s, source.gauss(0.0, 40.0), 2500.0 - 11.0 * time_s + source.gauss(
        0.0, 15.0), part=time_s // 60) for time_s in range(0, 120) if time_s not in (20, 21, 22, 90)]
    noise = changed(QUIET, window_s=10.0)
    whole = [vars(each) for each in smoothed(points, noise, TO)]
    for begin, end in ((0, 5), (15, 25), (50, 70), (len(points) - 5, None), (57, 58)):
        assert [vars(each) for each in smoothed(points, noise, TO, begin, end)] == whole[begin:end]
    apart = [vars(each) for part in (0, 1) for each in smoothed([p for p in points if p.part == part], noise, TO)]
    assert apart == whole
