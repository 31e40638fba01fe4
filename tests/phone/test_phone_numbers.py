# ruff: noqa: PT018
"""Numbers as the phone reads and writes them, beside those of the library: to the last bit."""

import itertools
import math
import random
from decimal import Decimal

import pytest

from phone import builtin, numbers

READ = (
    "0", "-0", "+0.0", "1", "+1", "-1.5", ".5", "5.", "-.25", "1e5", "1E-5", "1e+5", "12.50e-3", " 1.5\n", "1_000.5",
    "inf", "-inf", "Infinity", "1.8e308", "-1.8e308", "1e999", "1.7976931348623157e308", "9007199254740993",
    "9007199254740995", "0.1e1", "123456789012345678901234567890", "2.2250738585072014e-308", "1e22", "1e23",
    "8.5e-17", "00012", "000.100e02",
)
REFUSED = (
    "", " ", "x", ".", "+", "-", "--1", "+-1", "-+1", "1.2.3", "1e", "e5", "1e5e5", "1e--5", "1e+-5", "1e.5", "1,5",
    "1 2", "1-2",
)


def many():
    pick = random.Random(3)
    yield from (0.0, -0.0, 0.1, 9.13, 78.9, 1e16, 1e15, 9999999999999998.0, 123456789012345680.0,
                1e-4, 1e-5, 0.00012, 5e-324)
    yield from (1.7976931348623157e308, 1e17, 1.5e17, 1e100, 1.25e-7, 1e22, 1e23, 2.0**53, 2.0**53 + 2.0,
                2.0**-1022)
    for _ in range(800):
        yield pick.randrange(-10**6, 10**6) / pick.choice((1, 10, 100, 1000))
        yield pick.uniform(-180.0, 180.0)
        yield pick.uniform(0.0, 1.0) * 10.0 ** pick.randrange(-8, 20)
    for exponent in range(-60, 60):
        yield 2.0 ** exponent
        yield math.nextafter(2.0 ** exponent, 0.0)


def test_numbers_written_and_read_to_last_bit():
    for number in many():
        assert builtin.str(number) == str(number)
        assert builtin.repr(number) == repr(number)
        assert builtin.float(repr(number)) == number or number < 1e-300, number


def test_texts_read_to_nearest_number():
    for text in READ:
        number = builtin.float(text)
        assert number == float(text) and math.copysign(1.0, number) == math.copysign(1.0, float(text)), text
    assert math.isnan(builtin.float("nan")) and builtin.float() == 0.0 and builtin.float(3) == 3.0
    assert builtin.float("  +1_0.5e1 ") == 105.0
    for text in REFUSED:
        with pytest.raises(ValueError, match=r"\w"):
            float(text)
        with pytest.raises(ValueError, match=r"\w"):
            builtin.float(text)


def test_halves_go_to_even_number():
    """Exactly between two neighbours, and a hair to either side."""
    pick = random.Random(4)
    for _ in range(150):
        low = pick.uniform(1.0, 10.0) * 10.0 ** pick.randrange(-12, 25)
        middle = (Decimal(low) + Decimal(math.nextafter(low, math.inf))) / 2
        for text in (f"{middle:f}", f"{middle:f}" + "01" * ("." in f"{middle:f}"), f"{Decimal(low):f}"):
            assert builtin.float(text) == float(text), text
    assert numbers.nearest(0, 5) == 0.0 and numbers.nearest(2**53 + 1, 0) == 2.0**53
    assert numbers.nearest(2**53 + 3, 0) == 2.0**53 + 4 and numbers.nearest(15, -1) == 1.5
    assert numbers.nearest(10**400, 0) == numbers.nearest(1, 309) == math.inf


def test_other_values_written_like_library():
    for value in (True, None, 3, (1, 2), math.inf, -math.inf, "x", [1.5, "a", [0.1]], {"a": [1.5], 2: {}}, [], {}):
        assert builtin.repr(value) == repr(value) if not isinstance(value, float) else builtin.str(value) == str(value)
    assert builtin.str(math.nan) == "nan" and builtin.str() == "" and builtin.str("a") == "a" and builtin.str(7) == "7"
    assert numbers.said("a") == "a" and numbers.said(7) == 7 and numbers.said(9.13) == "9.13"
    codes = (*range(0x180), 0x2028, 0xFEFF, 0xFFFE, 0xE000, 0xE0001, 0x10FFFF, 0x1F600, 0xFFFF, 0x100, 0xFF)
    for text in ("", "a'b", 'a"b', "a'b\"c", "\\", "\\'", *(chr(code) for code in codes)):
        assert builtin.repr(text) == repr(text), ascii(text)


def test_remainders_and_lengths_match_library():
    values = [step * 90.0 for step in range(-12, 13) if step] + [1e-13, 539.9, -720.5, 0.0, 179.99999, 180.00001]
    for value, by in itertools.product(values, (360.0, 7.0, -360.0, 90.0)):
        assert numbers.remainder(value, by) == math.remainder(value, by), (value, by)
    assert [numbers.remainder(value, 2.0) for value in (1.0, 3.0, -1.0, -3.0, 5.0)] == [1.0, -1.0, -1.0, 1.0, 1.0]
    for first, second in itertools.product((0.0, 3.0, -5.0), (0.0, 4.0, -12.0)):
        assert numbers.hypot(first, second) == math.hypot(first, second)
