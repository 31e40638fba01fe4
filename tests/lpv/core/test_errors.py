"""Errors say what was found and what is allowed; units are exact; facts are looked up by key."""

import math
import pickle

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lpv.core.errors import DataError, DomainError, Fault, LpvError, above, in_range, shown
from lpv.core.units import FPM_PER_KT, FT_PER_NM, FT_PER_SM, degrees_180, degrees_360
from lpv.facts import FACTS, fact, value


@pytest.mark.parametrize("number", [math.nan, math.inf, -0.1, 10.1])
def test_in_range_refuses_outside_values(number):
    with pytest.raises(DomainError, match="allowed: 0 to 10 deg"):
        in_range("bank", number, 0, 10, "deg")


def test_in_range_includes_ends():
    assert in_range("bank", 0, 0, 10) == 0
    assert in_range("bank", 10, 0, 10) == 10


@pytest.mark.parametrize("number", [math.nan, math.inf, 0.0, -1.0])
def test_above_refuses_limit_itself(number):
    with pytest.raises(DomainError, match="more than 0 kt"):
        above("speed", number, 0, "kt")


def test_above_returns_number():
    assert above("speed", 1e-9, 0) == 1e-9


def test_several_faults_form_one_error():
    faults = [Fault("a.toml", "x", "1", "2", "Do this."), Fault("b.toml", "", "nothing", "text", "Write.")]
    error = DataError(faults)
    assert isinstance(error, LpvError)
    assert str(error).splitlines() == [
        "a.toml: x: found 1; allowed: 2. Do this.", "b.toml: found nothing; allowed: text. Write.",
    ]
    assert str(pickle.loads(pickle.dumps(faults[0]))) == str(faults[0])


@given(st.text())
def test_displayed_value_is_short_printable_line(text):
    line = shown(text)
    assert len(line) <= 60
    assert line.isprintable()


@given(st.floats(-1e6, 1e6))
def test_angles_normalized(angle):
    assert 0.0 <= degrees_360(angle) < 360.0
    assert -180.0 < degrees_180(angle) <= 180.0
    assert math.isclose(math.sin(math.radians(degrees_360(angle))), math.sin(math.radians(angle)), abs_tol=1e-6)


def test_degenerate_angles():
    assert degrees_360(360.0) == 0.0
    assert degrees_360(-0.0) == 0.0
    assert degrees_360(-1e-20) == 0.0
    assert degrees_180(180.0) == 180.0
    assert degrees_180(-180.0) == 180.0


def test_exact_factors():
    assert pytest.approx(6076.11548556, abs=5e-9) == FT_PER_NM
    assert pytest.approx(5280.0, abs=1e-9) == FT_PER_SM
    assert pytest.approx(101.268591, abs=5e-7) == FPM_PER_KT


def test_facts_by_key():
    assert value("hal_lpv_m") == 40.0
    assert fact("hal_lpv_m").unit == "m"
    assert all(key == fact.key for key, fact in FACTS.items())
    with pytest.raises(KeyError):
        fact("no such fact")
