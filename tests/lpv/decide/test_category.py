"""Approach categories."""

import math

import pytest

from lpv.core.errors import DomainError
from lpv.decide import category


def test_limit_belongs_to_higher_category():
    for limit, lower, upper in zip((91, 121, 141, 166), "ABCD", "BCDE", strict=True):
        assert category.category_for_vref(math.nextafter(limit, 0)) == lower
        assert category.category_for_vref(limit) == upper


def test_category_never_falls_with_speed():
    letters = [category.category_for_vref(speed) for speed in range(20, 301)]
    assert letters == sorted(letters)
    assert set(letters) == set(category.CATEGORIES)


def test_stall_speed_exactly_at_limit():
    assert category.category_for_stall_speed(70) == "B"
    assert category.category_for_stall_speed(69.9) == "A"


def test_slower_speed_keeps_certificated_category():
    assert category.category_to_use("D", 110) == "D"
    assert category.category_to_use("C", 140) == "C"
    assert category.category_to_use("C", 141) == "D"


@pytest.mark.parametrize("speed", [0, 19.9, 301, math.nan, -120])
def test_impossible_speed(speed):
    with pytest.raises(DomainError):
        category.category_for_vref(speed)
    with pytest.raises(DomainError):
        category.category_to_use("B", speed)
    with pytest.raises(DomainError):
        category.category_for_stall_speed(speed)


@pytest.mark.parametrize("letter", ["", "F", "AB", "c"])
def test_unknown_category(letter):
    with pytest.raises(DomainError):
        category.category_to_use(letter, 120)
