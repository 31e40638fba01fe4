"""Localizer and VOR channels."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.setup import radio


def test_band_holds_40_localizers_and_160_vors():
    kinds = [radio.kind_of_khz(khz) for khz in range(107000, 119001, 5)]
    assert kinds.count("localizer") == 40
    assert kinds.count("VOR") == 160


def test_localizer_channels_ascending():
    channels = radio.localizer_channels()
    assert channels == sorted(set(channels))
    assert channels[:4] == [108.1, 108.15, 108.3, 108.35]
    assert channels[-2:] == [111.9, 111.95]
    assert all(radio.is_localizer(channel) for channel in channels)


@pytest.mark.parametrize(("mhz", "kind"), [
    (110.3, "localizer"), (110.30000001, "localizer"), (110.3004, "localizer"), (110.35, "localizer"),
    (111.95, "localizer"), (108.0, "VOR"), (108.05, "VOR"), (111.85, "VOR"), (112.0, "VOR"), (112.15, "VOR"),
    (117.95, "VOR"), (107.95, "neither"), (118.0, "neither"), (118.1, "neither"), (110.305, "neither"),
    (110.308, "neither"), (110.301, "neither"), (110.333, "neither"), (110.325, "neither"), (332.0, "neither"),
    (0.11, "neither"),
])
def test_kinds(mhz, kind):
    assert radio.kind(mhz) == kind
    assert radio.is_localizer(mhz) == (kind == "localizer")


@settings(max_examples=100)
@given(st.integers(100000, 140000), st.floats(-0.0004, 0.0004))
def test_megahertz_and_kilohertz_agree_within_tolerance(khz, error):
    assert radio.kind(khz / 1000.0 + error) == radio.kind_of_khz(khz)


@pytest.mark.parametrize("khz", [110300.5, 110301, 0, -110300, math.nan, math.inf])
def test_kilohertz_without_channel(khz):
    assert radio.kind_of_khz(khz) == "neither"


@pytest.mark.parametrize("mhz", [math.nan, math.inf, 0.0, -110.3])
def test_no_frequency(mhz):
    with pytest.raises(DomainError, match="frequency"):
        radio.kind(mhz)
