"""Channel, reference path identifier, runway number, and what each rests on."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.fas.identity import (
    PathIdPart,
    Provider,
    is_sbas_channel,
    path_id_fits,
    path_id_parts,
    provider_name,
    providers,
    runway_course_difference_deg,
    runway_number_of_course,
)


@pytest.mark.parametrize("number", [0, -40000, 39999, 100000, 40000.5, math.nan, math.inf])
def test_invalid_sbas_channel_numbers(number):
    assert is_sbas_channel(number) is False


def test_providers_name_their_sources():
    table = providers()
    assert [provider.number for provider in table] == list(range(16))
    assert all(isinstance(provider, Provider) for provider in table)
    assert [provider.letter for provider in table[:5]] == ["W", "E", "M", "G", ""]
    assert {provider.name_status for provider in table if provider.name} == {"published"}
    assert [provider.number for provider in table if not provider.name] == [8, 9, 10, 11, 12, 13]
    assert [provider.letter_status for provider in table[:4]] == ["derived", "derived", "from memory", "from memory"]
    assert provider_name(9) == ""
    for number in (-1, 16, math.nan):
        with pytest.raises(DomainError):
            provider_name(number)


@pytest.mark.parametrize(("path_id", "wrong"), [
    ("W28A", []), ("E28A", ["provider"]), ("W29A", ["runway"]), ("W28L", ["suffix"]), ("W28R", ["suffix"]),
    ("W28C", ["suffix"]), ("W281", ["suffix"]), ("E01l", ["provider", "runway", "suffix"]), ("", ["length"]),
    ("W28", ["length"]), ("W28AB", ["length"]),
])
def test_path_identifier_parts(path_id, wrong):
    parts = path_id_parts(path_id, 0, 28)
    assert all(isinstance(part, PathIdPart) for part in parts)
    assert [part.part for part in parts if part.holds is False] == wrong
    assert path_id_fits(path_id, 0, 28) == (not wrong)
    assert {part.part: part.status for part in parts}["length"] == "published"
    assert [part.status for part in parts[1:]] == ["derived", "from memory", "from memory"][: len(parts) - 1]


def test_provider_without_known_letter_left_open():
    part = path_id_parts("X05A", 7, 5)[1]
    assert (part.part, part.actual, part.expected, part.holds, part.status) == ("provider", "X", "", None, "")
    assert path_id_fits("X05A", 7, 5)


def test_path_identifier_domain():
    for provider, runway in ((16, 1), (-1, 1), (0, 37), (0, -1)):
        with pytest.raises(DomainError):
            path_id_parts("W01A", provider, runway)


@pytest.mark.parametrize(("course", "number"), [
    (0, 36), (360, 36), (4.9, 36), (5, 1), (355, 36), (354.9, 35), (180, 18), (284.9, 28), (285, 29), (-10, 35),
])
def test_runway_number_from_course(course, number):
    assert runway_number_of_course(course) == number


@pytest.mark.parametrize(("course", "number", "difference"), [
    (0, 36, 0), (360, 36, 0), (358, 1, -12), (5, 36, 5), (190, 1, 180), (284.9, 28, 4.9),
])
def test_course_checked_against_runway_number(course, number, difference):
    assert runway_course_difference_deg(course, number) == pytest.approx(difference, abs=1e-9)


@given(st.floats(0, 360))
def test_course_within_half_step_of_number(course):
    assert abs(runway_course_difference_deg(course, runway_number_of_course(course))) <= 5 + 1e-9


def test_runway_domain():
    for course in (math.nan, math.inf, 361, -361):
        with pytest.raises(DomainError):
            runway_number_of_course(course)
        with pytest.raises(DomainError):
            runway_course_difference_deg(course, 1)
    for number in (0, 37):
        with pytest.raises(DomainError):
            runway_course_difference_deg(10, number)
