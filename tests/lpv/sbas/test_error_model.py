import math

import pytest

from lpv.core.errors import DomainError
from lpv.facts import value
from lpv.sbas import error_model


@pytest.mark.parametrize("index", range(14))
def test_udre_is_bound_of_3_29_sigma(index):
    """99.9 % of a normal distribution: the two columns of the table belong together."""
    variance = (value(f"udre_{index:02d}_m") / 3.29) ** 2
    assert error_model.udre_variance_m2(index) == pytest.approx(variance, rel=2e-4, abs=2e-4)


@pytest.mark.parametrize("index", range(15))
def test_give_is_bound_of_3_29_sigma(index):
    variance = (value(f"give_{index:02d}_m") / 3.29) ** 2
    assert error_model.give_variance_m2(index) == pytest.approx(variance, rel=2e-4, abs=2e-4)


@pytest.mark.parametrize(("index", "words"), [(14, "not monitored"), (15, "do not use"), (16, "0"), (-1, "0")])
def test_satellite_without_udre_refused(index, words):
    with pytest.raises(DomainError, match=words):
        error_model.udre_variance_m2(index)


@pytest.mark.parametrize(("index", "words"), [(15, "not monitored"), (16, "0"), (-1, "0")])
def test_grid_point_without_give_refused(index, words):
    with pytest.raises(DomainError, match=words):
        error_model.give_variance_m2(index)


def test_troposphere_holds_from_4_to_90_deg():
    assert error_model.troposphere_mapping(90.0) == pytest.approx(1.0, abs=1e-6)
    assert error_model.troposphere_mapping(4.0) > 12.0
    for elevation in (3.999, 90.001, math.nan):
        with pytest.raises(DomainError):
            error_model.troposphere_sigma_m(elevation)


def test_every_part_falls_with_elevation():
    model = error_model.default_error_model()
    for part in (
        error_model.troposphere_sigma_m,
        error_model.multipath_sigma_m,
        lambda e: error_model.noise_sigma_m(e, error_model.DESIGNATOR_B),
        lambda e: error_model.sigma_m(e, model),
    ):
        steps = [part(float(e)) for e in range(5, 91, 5)]
        assert steps == sorted(steps, reverse=True)


@pytest.mark.parametrize("elevation", [-0.1, 90.1, math.nan])
def test_noise_and_multipath_refuse_invalid_elevation(elevation):
    with pytest.raises(DomainError):
        error_model.multipath_sigma_m(elevation)
    with pytest.raises(DomainError):
        error_model.noise_sigma_m(elevation, error_model.DESIGNATOR_A)


def test_squared_parts_add_to_variance():
    model = error_model.error_model(3, 4, error_model.DESIGNATOR_A_STRONG)
    elevation = 30.0
    parts = (
        0.2830, 0.2079 * 1.751421**2, 0.239284**2, 0.156387**2, 0.15**2,
    )
    assert error_model.variance_m2(elevation, model) == pytest.approx(sum(parts), rel=1e-5)
    assert error_model.sigma_m(elevation, model) ** 2 == pytest.approx(error_model.variance_m2(elevation, model))


def test_designator_a_receiver_noisier_than_b():
    for elevation in (5.0, 45.0, 90.0):
        a, b = error_model.DESIGNATOR_A, error_model.DESIGNATOR_B
        assert error_model.airborne_sigma_m(elevation, a) > error_model.airborne_sigma_m(elevation, b)
