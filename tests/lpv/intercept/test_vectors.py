"""The limits of a vector to the final course."""

import math

import pytest

from lpv.core.errors import DomainError
from lpv.intercept import vectors

GOOD = {
    "distance_nm": 9.0, "angle_deg": 30.0, "faf_distance_nm": 5.0,
    "altitude_ft": 2000.0, "glidepath_altitude_ft": 3000.0, "lowest_altitude_ft": 1900.0,
}


def met(**changes):
    return [limit.met for limit in vectors.vector_limits(**{**GOOD, **changes})]


def test_good_vector_meets_every_limit():
    assert met() == [True, True, True, True]


@pytest.mark.parametrize(("changes", "expected"), [
    ({"distance_nm": 8.0}, [True, True, True, True]),
    ({"distance_nm": 7.99}, [False, False, True, True]),
    ({"distance_nm": 7.99, "angle_deg": 20.0}, [False, True, True, True]),
    ({"angle_deg": 30.01}, [True, False, True, True]),
    ({"altitude_ft": 3000.0}, [True, True, True, True]),
    ({"altitude_ft": 3001.0}, [True, True, False, True]),
    ({"altitude_ft": 1899.0}, [True, True, True, False]),
])
def test_each_limit_at_edge(changes, expected):
    assert met(**changes) == expected


def test_limits_state_allowed_and_actual():
    outside, angle, _, _ = vectors.vector_limits(**{**GOOD, "distance_nm": 7.0})
    assert (outside.allowed, outside.actual, outside.kind) == (2.0, 1.0, "at least")
    assert (angle.allowed, angle.actual, angle.unit) == (20.0, 30.0, "deg")


def test_gate():
    assert vectors.approach_gate_nm(3.0) == 5.0
    assert vectors.approach_gate_nm(4.0) == 5.0
    assert vectors.approach_gate_nm(6.0) == 7.0


@pytest.mark.parametrize("call", [
    lambda: vectors.approach_gate_nm(0.0),
    lambda: vectors.highest_angle_deg(math.nan),
    lambda: vectors.vector_limits(**{**GOOD, "angle_deg": -1.0}),
    lambda: vectors.vector_limits(**{**GOOD, "distance_nm": math.inf}),
    lambda: vectors.vector_limits(**{**GOOD, "altitude_ft": math.nan}),
    lambda: vectors.vector_limits(**{**GOOD, "lowest_altitude_ft": 70_000.0}),
])
def test_out_of_domain_rejected(call):
    with pytest.raises(DomainError):
        call()
