"""The grade of an error by its size: every limit is tried on either side."""

import pytest

from lpv.core.consequence import SCALES, grade_of
from lpv.core.errors import DomainError
from lpv.facts import value


@pytest.mark.parametrize(("scale", "error", "grade"), [
    ("minimum", 0.0, "ok"), ("minimum", 0.49, "ok"), ("minimum", 0.5, "note"), ("minimum", 9.0, "note"),
    ("minimum", 9.99, "note"), ("minimum", 10.0, "resolve"), ("minimum", 27.3, "resolve"),
    ("minimum", 29.99, "resolve"), ("minimum", 30.0, "stop"), ("minimum", -30.0, "stop"),
    ("altitude", 49.9, "note"), ("altitude", 50.0, "resolve"),
    ("altitude", 299.9, "resolve"), ("altitude", 300.0, "stop"), ("altitude", -1500.0, "stop"),
])
def test_either_side_of_every_limit(scale, error, grade):
    assert grade_of(scale, error) == grade


@pytest.mark.parametrize("scale", SCALES)
def test_limits_rise(scale):
    unit = SCALES[scale][0]
    limits = [value(f"consequence_{scale}_{grade}_{unit}") for grade in ("note", "resolve", "stop")]
    assert limits == sorted(limits)
    assert [grade_of(scale, limit) for limit in limits] == ["note", "resolve", "stop"]


def test_unknown_scale_and_impossible_error():
    with pytest.raises(KeyError):
        grade_of("speed", 1.0)
    with pytest.raises(DomainError):
        grade_of("minimum", float("nan"))
