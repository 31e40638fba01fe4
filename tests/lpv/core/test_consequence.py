"""The grade of an error by its size: every limit is tried on either side."""

import pytest

from lpv.core.consequence import SCALES, grade_of
from lpv.core.errors import DomainError
from lpv.crosscheck.limits import grade_difference
from lpv.facts import FACTS, value


@pytest.mark.parametrize(("scale", "error", "grade"), [
    ("minimum", 0.0, "ok"), ("minimum", 0.49, "ok"), ("minimum", 0.5, "note"), ("minimum", 9.0, "note"),
    ("minimum", 9.99, "note"), ("minimum", 10.0, "resolve"), ("minimum", 27.3, "resolve"),
    ("minimum", 29.99, "resolve"), ("minimum", 30.0, "stop"), ("minimum", -30.0, "stop"),
    ("altitude", 0.5, "ok"), ("altitude", 0.51, "resolve"), ("altitude", -50.0, "resolve"),
    ("altitude", 50.1, "stop"), ("altitude", -1500.0, "stop"),
    ("cold", 0.49, "ok"), ("cold", 0.5, "resolve"), ("cold", 299.9, "resolve"), ("cold", 300.0, "stop"),
])
def test_either_side_of_every_limit(scale, error, grade):
    assert grade_of(scale, error) == grade


def test_limits_rise():
    for unit, what, first in SCALES.values():
        keys = [f"{first}_{grade}_{unit}" for grade in ("note", "resolve", "stop")]
        limits = [value(key) for key in keys if key in FACTS]
        assert what
        assert len(limits) >= 2
        assert limits == sorted(set(limits))


def test_crosscheck_grades_altitude_alike():
    """One table: what chart and database may differ by is what may be set wrongly."""
    for error_ft in (0.0, 0.4, 0.6, 20.0, 50.0, 51.0, 300.0, -1500.0):
        assert grade_of("altitude", error_ft) == grade_difference("altitude", error_ft)


def test_unknown_scale_and_impossible_error():
    with pytest.raises(KeyError):
        grade_of("speed", 1.0)
    with pytest.raises(DomainError):
        grade_of("minimum", float("nan"))
