import math
from statistics import NormalDist

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.facts import value
from lpv.sbas import integrity

AZIMUTHS = (15.0, 80.0, 155.0, 230.0, 310.0)
ELEVATIONS = (15.0, 70.0, 25.0, 55.0, 35.0)
SIGMAS = (2.0, 1.0, 1.5, 1.2, 1.8)


def test_factors_come_from_probabilities():
    """One-sided normal tails for the path and along the course, a Rayleigh tail for the disc."""
    assert value("k_vertical_pa") == pytest.approx(-NormalDist().inv_cdf(0.5e-7), abs=0.005)
    assert value("k_horizontal_pa") == pytest.approx(-NormalDist().inv_cdf(1e-9), abs=0.005)
    assert value("k_horizontal_npa") == pytest.approx(math.sqrt(-2.0 * math.log(5e-9)), abs=0.005)


def test_major_axis_is_largest_eigenvalue():
    matrix = np.array(integrity.covariance(AZIMUTHS, ELEVATIONS, SIGMAS))
    largest = math.sqrt(np.linalg.eigvalsh(matrix[:2, :2]).max())
    assert integrity.protection_levels(AZIMUTHS, ELEVATIONS, SIGMAS).d_major_m == pytest.approx(largest)


@settings(max_examples=60)
@given(st.lists(st.tuples(st.floats(0, 360), st.floats(5, 90), st.floats(0.5, 20)), min_size=5, max_size=12))
def test_covariance_matches_linear_algebra_library(rows):
    azimuths, elevations, sigmas = (list(column) for column in zip(*rows, strict=True))
    g = np.array([integrity.geometry_row(a, e) for a, e in zip(azimuths, elevations, strict=True)])
    normal = g.T @ np.diag([1.0 / s**2 for s in sigmas]) @ g
    assume(np.linalg.cond(normal) < 1e6)
    covariance = np.array(integrity.covariance(azimuths, elevations, sigmas))
    assert np.allclose(covariance, np.linalg.inv(normal), rtol=1e-6, atol=1e-9)


@settings(max_examples=40)
@given(st.floats(0.0, 360.0))
def test_rotated_sky_keeps_protection_level(turn):
    turned = [math.fmod(azimuth + turn, 360.0) for azimuth in AZIMUTHS]
    before = integrity.protection_levels(AZIMUTHS, ELEVATIONS, SIGMAS)
    after = integrity.protection_levels(turned, ELEVATIONS, SIGMAS)
    assert after.hpl_pa_m == pytest.approx(before.hpl_pa_m)
    assert after.vpl_m == pytest.approx(before.vpl_m)


def test_double_error_doubles_protection_level():
    once = integrity.protection_levels(AZIMUTHS, ELEVATIONS, SIGMAS)
    twice = integrity.protection_levels(AZIMUTHS, ELEVATIONS, [2.0 * s for s in SIGMAS])
    assert twice.vpl_m == pytest.approx(2.0 * once.vpl_m)
    assert twice.hpl_npa_m == pytest.approx(2.0 * once.hpl_npa_m)


def test_losing_satellite_never_helps():
    whole = integrity.protection_levels(AZIMUTHS, ELEVATIONS, SIGMAS)
    for lost in range(5):
        keep = [i for i in range(5) if i != lost]
        rest = integrity.protection_levels(*([column[i] for i in keep] for column in (AZIMUTHS, ELEVATIONS, SIGMAS)))
        assert rest.vpl_m > whole.vpl_m
        assert rest.hpl_pa_m > whole.hpl_pa_m


def test_dops_consistent():
    dops = integrity.dops(AZIMUTHS, ELEVATIONS)
    assert dops.gdop**2 == pytest.approx(dops.pdop**2 + dops.tdop**2)
    assert dops.pdop**2 == pytest.approx(dops.hdop**2 + dops.vdop**2)


def test_satellite_overhead_and_one_in_north():
    assert integrity.geometry_row(0.0, 90.0) == pytest.approx((0.0, 0.0, 1.0, 1.0))
    assert integrity.geometry_row(360.0, 0.0) == pytest.approx((0.0, 1.0, 0.0, 1.0))


@pytest.mark.parametrize(
    ("azimuths", "elevations", "sigmas"),
    [
        ([], [], []),
        ([0, 90, 180], [10, 20, 30], [1, 1, 1]),
        ([0, 90, 180, 270], [10, 20, 30], [1, 1, 1]),
        ([0, 0, 0, 0], [45, 45, 45, 45], [1, 1, 1, 1]),
        ([0, 90, 180, 270], [30, 30, 30, 30], [1, 1, 1, 1]),
        ([0, 90, 180, 270], [10, 20, 30, 80], [1, 1, 1, 0]),
        ([0, 90, 180, 270], [10, 20, 30, 80], [1, 1, 1, math.inf]),
        ([0, 90, 180, math.nan], [10, 20, 30, 80], [1, 1, 1, 1]),
        ([0, 90, 180, 270], [10, 20, 30, 91], [1, 1, 1, 1]),
    ],
)
def test_geometry_without_position_refused(azimuths, elevations, sigmas):
    """Also four satellites at one elevation: height and clock cannot be told apart."""
    with pytest.raises(DomainError):
        integrity.protection_levels(azimuths, elevations, sigmas)
