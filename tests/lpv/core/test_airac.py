"""Data cycles: the calendar against Python's own, the numbering, its edges."""

import datetime
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core import airac
from lpv.core.errors import DomainError, LpvError
from lpv.facts.sources import SOURCES

DAYS = st.integers(airac.FIRST_ORDINAL, airac.LAST_ORDINAL)


@settings(max_examples=300)
@given(st.dates())
def test_calendar_matches_python(date):
    day = date.toordinal()
    assert airac.ordinal(date.year, date.month, date.day) == day
    assert airac.calendar_date(day) == (date.year, date.month, date.day)
    assert airac.iso(day) == date.isoformat()
    assert airac.from_iso(date.isoformat()) == day


@pytest.mark.parametrize("date", ["0001-01-01", "9999-12-31", "2000-02-29", "1900-02-28", "1900-03-01", "2024-12-31"])
def test_calendar_corner_cases(date):
    assert airac.from_iso(date) == datetime.date.fromisoformat(date).toordinal()
    assert airac.iso(airac.from_iso(date)) == date


@pytest.mark.parametrize("text", [
    "", "2023-02-29", "1900-02-29", "2023-13-01", "2023-00-10", "2023-04-31", "2023-4-3", "20230403", "2023-04-00",
    "0000-01-01", " 2023-04-03", "2023-04-03T00", "\uff12\uff10\uff12\uff13-04-03", "-023-04-03",
    "2023/04/03", None, 20230403,
])
def test_invalid_date_texts(text):
    with pytest.raises(DomainError):
        airac.from_iso(text)


@settings(max_examples=100)
@given(st.text(max_size=12))
def test_random_text_raises_only_domain_error(text):
    for reader in (airac.from_iso, airac.cycle):
        try:
            reader(text)
        except LpvError:
            continue


@settings(max_examples=200)
@given(DAYS)
def test_every_day_has_one_cycle(day):
    cycle = airac.cycle_at(day)
    assert cycle.effective <= day < cycle.expiry == cycle.effective + 28
    assert airac.in_force(cycle.ident, day)
    assert not airac.in_force(cycle.ident, cycle.expiry)
    assert not airac.in_force(cycle.ident, cycle.effective - 1)
    assert airac.effective_ordinal(cycle.ident) == cycle.effective
    assert airac.expiry_ordinal(cycle.ident) == cycle.expiry
    assert airac.is_effective_date(day) == (day == cycle.effective)


def test_cycles_contiguous_over_hundred_years():
    day, seen = airac.FIRST_ORDINAL, []
    while day <= airac.LAST_ORDINAL:
        cycle = airac.cycle_at(day)
        assert cycle.effective == day
        assert datetime.date.fromordinal(day).weekday() == 3  # AIRAC dates are Thursdays
        seen.append(cycle.ident)
        day = cycle.expiry
    assert len(seen) == len(set(seen)) == sum(airac.cycles_in_year(year) for year in range(1998, 2098))


def test_years_with_fourteen_cycles():
    assert [year for year in range(1998, 2098) if airac.cycles_in_year(year) == 14] == [1998, 2020, 2043, 2065, 2088]
    assert airac.cycle("2014").expiry == airac.cycle("2101").effective
    with pytest.raises(DomainError, match="1 to 13"):
        airac.cycle("2114")


def test_cycle_describes_itself():
    assert repr(airac.cycle("2003")) == "Cycle(2003, from 2020-02-27 to 2020-03-25)"


def test_cycle_in_force_from_first_to_last_day():
    assert airac.cycle("2612").held == "from 2026-11-26 to 2026-12-23"
    first, last = (airac.from_iso(day) for day in ("2026-11-26", "2026-12-23"))
    assert [airac.cycle_ident(day) for day in (first - 1, first, last, last + 1)] == ["2611", "2612", "2612", "2613"]


def test_two_digit_years_span_1998_to_2097():
    assert airac.iso(airac.effective_ordinal("9801")) == "1998-01-01"
    assert airac.iso(airac.effective_ordinal("9701")).startswith("2097-01")
    for day in (airac.FIRST_ORDINAL - 1, airac.LAST_ORDINAL + 1):
        with pytest.raises(DomainError, match="1998-01-01 to 2098-01-15"):
            airac.cycle_at(day)
    for year in (1997, 2098):
        with pytest.raises(DomainError, match="year"):
            airac.cycles_in_year(year)


@pytest.mark.parametrize("ident", [
    "", "2000", "2015", "203", "20033", "20a3", "\uff12\uff10\uff10\uff13", "+203", None, 2003,
])
def test_invalid_cycle_texts(ident):
    with pytest.raises(DomainError, match="cycle"):
        airac.cycle(ident)


@pytest.mark.parametrize("day", [0, -1, 3652060])
def test_days_outside_calendar(day):
    with pytest.raises(DomainError):
        airac.calendar_date(day)


def test_source_list_dates_each_data_volume():
    volumes = [(key, row) for key, row in SOURCES.items() if key.startswith("faa-cifp-")]
    assert volumes
    for key, row in volumes:
        ident = re.fullmatch(r"faa-cifp-(\d{4})", key)[1]
        assert airac.iso(airac.effective_ordinal(ident)) == row[3]


def test_following_cycles():
    cycles = airac.following("2612", 3)
    assert [cycle.ident for cycle in cycles] == ["2612", "2613", "2701"]
    assert [cycle.effective - cycles[0].effective for cycle in cycles] == [0, 28, 56]
    for count in (0, 201):
        with pytest.raises(DomainError):
            airac.following("2612", count)
