"""Samples in order: what is left out, what is cut, and that nothing else happens to them."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lpv.core.units import FT_PER_NM
from lpv.track.clean import (
    GAP_S,
    LONGEST_GAP_S,
    MAX_JUMPED,
    clean,
    distance_ft,
    gap_of,
    jumps,
    longest_rising,
)
from lpv.track.records import Reading, Recording


def reading(number, time_s=None, north=0.0, feet=2000.0, begins=False):
    return Reading(number + 2, float(number if time_s is None else time_s), 34.0 + number * 0.0005 + north, -148.0,
                   feet, None, begins)


def cleaned(readings):
    """Lines of each part, and key, what and lines of each remark."""
    parts, remarks = clean(Recording("a.csv", "msl", "", tuple(readings), 6))
    by_key = {remark.key: (remark.what, remark.lines) for remark in remarks}
    return [[reading.line for reading in part] for part in parts], by_key


def test_good_recording_unchanged():
    parts, remarks = cleaned([reading(n) for n in range(20)])
    assert parts == [list(range(2, 22))]
    assert remarks == {}


def test_longest_rising_row():
    assert longest_rising([1, 2, 3]) == {0, 1, 2}
    assert longest_rising([1, 2, 2, 3]) == {0, 1, 3}
    assert longest_rising([1, 99, 2, 3]) == {0, 2, 3}
    assert longest_rising([5, 1, 2]) == {1, 2}
    assert longest_rising([3]) == {0}
    assert longest_rising([]) == set()


@given(st.lists(st.integers(0, 12), max_size=9))
def test_no_other_row_longer(values):
    kept = sorted(longest_rising(values))
    row = [values[place] for place in kept]
    assert row == sorted(set(row))
    best = [1] * len(values)
    for place, value in enumerate(values):
        best[place] += max((best[n] for n in range(place) if values[n] < value), default=0)
    assert len(kept) == max(best, default=0)


def test_frozen_or_backward_times_left_out():
    rows = [reading(n) for n in range(10)]
    rows[4] = reading(4, time_s=3)
    rows[7] = reading(7, time_s=-3600)
    parts, remarks = cleaned(rows)
    assert parts == [[2, 3, 4, 5, 7, 8, 10, 11]]
    assert remarks["duplicate"] == ("1 sample at a time that another sample has: left out.", (6,))
    assert remarks["backwards"] == ("1 sample out of the order of time: left out.", (9,))


def test_single_future_clock_reading_costs_nothing_else():
    rows = [reading(n) for n in range(10)]
    rows[2] = reading(2, time_s=1e6)
    assert cleaned(rows)[0] == [[2, 3, 5, 6, 7, 8, 9, 10, 11]]


@pytest.mark.parametrize("at", [(0,), (5, 6), (9,)])
def test_far_samples_left_out_rest_stays_one_part(at):
    rows = [reading(n, north=0.1 if n in at else 0.0) for n in range(10)]
    parts, remarks = cleaned(rows)
    assert parts == [[n + 2 for n in range(10) if n not in at]]
    assert remarks["jump"][1] == tuple(n + 2 for n in at)


def test_every_second_sample_may_be_wrong():
    rows = [reading(n, north=0.1 * (n % 3) if n % 2 else 0.0) for n in range(40)]
    assert cleaned(rows)[0] == [[n + 2 for n in range(40) if n % 2 == 0 or n % 3 == 0]]


def test_altitude_jumps_removed():
    rows = [reading(n, feet=2000.0 if n != 4 else 9000.0) for n in range(10)]
    assert cleaned(rows)[1]["jump"][1] == (6,)
    none = [reading(n, feet=None if n == 4 else 2000.0) for n in range(10)]
    parts, remarks = cleaned(none)
    assert len(parts) == 1
    assert remarks["no-altitude"][1] == (6,)


def test_many_samples_after_jump_form_own_part():
    rows = [reading(n, north=0.1 if n >= 10 else 0.0) for n in range(20)]
    parts, remarks = cleaned(rows)
    assert [len(part) for part in parts] == [10, 10]
    assert "after a jump" in remarks["jump"][0]
    assert MAX_JUMPED < 10


def test_gaps_and_file_parts_split():
    rows = [reading(n, time_s=n + (GAP_S if n >= 5 else 0.0), begins=n == 8) for n in range(12)]
    parts, remarks = cleaned(rows)
    assert [len(part) for part in parts] == [5, 3, 4]
    assert remarks["gap"] == (
        "2 samples after a gap: nothing is derived across it. The longest takes 11\u202fs.", (7, 10))
    just = [reading(n, time_s=n * GAP_S) for n in range(4)]
    assert len(cleaned(just)[0]) == 1


@given(st.lists(st.tuples(st.integers(0, 30), st.integers(-3, 3), st.integers(0, 3)), min_size=1, max_size=15))
def test_parts_selected_in_order_for_any_input(rows):
    readings = [reading(n, time_s=t, north=0.05 * far, feet=3000.0 * up) for n, (t, far, up) in enumerate(rows)]
    parts, remarks = clean(Recording("a.csv", "msl", "", tuple(readings), 6))
    left = [sample for part in parts for sample in part]
    assert left
    assert set(left) <= set(readings)
    assert [sample.time_s for sample in left] == sorted({sample.time_s for sample in left})
    assert (len(left) == len(readings)) or remarks
    for part in parts:
        assert not any(jumps(a, b) or b.time_s - a.time_s > LONGEST_GAP_S for a, b in pairwise(part))


def test_distances_across_date_line():
    east, west = (Reading(1, 0.0, 60.0, longitude) for longitude in (179.99, -179.99))
    assert distance_ft(east, west) == pytest.approx(0.02 * 60.0 * FT_PER_NM * 0.5, rel=1e-6)
    assert distance_ft(east, east) == 0.0


@pytest.mark.parametrize(("interval_s", "gap_s"), [(1.0, 10.0), (4.0, 10.0), (5.0, 12.5), (10.0, 25.0), (60.0, 30.0)])
def test_gap_longer_with_sparse_samples(interval_s, gap_s):
    rows = [reading(n, time_s=interval_s * n) for n in range(30)]
    assert gap_of(rows) == gap_s
    parts, _ = clean(Recording("a.csv", "msl", "", tuple(rows), 6))
    assert (len(parts) == 1) == (interval_s <= gap_s)
