"""Texts of a recording's file as numbers, times, cells and quotes: against the standard library's own reading."""

import csv
import statistics
from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.track.noise import median
from lpv.track.records import MAX_SHOWN, Faults, is_digits, number, quoted, seconds_since_1970, utc_s
from lpv.track.reference import half_spread_ft
from lpv.track.tables import cells_of


@given(st.from_regex(r"[+-]?[0-9]{1,6}(\.[0-9]{0,9})?", fullmatch=True))
def test_decimal_number_equals_float_of_text(text):
    assert number(text) == float(text)


@given(st.from_regex(r"[+-]?[0-9]{1,12}(\.[0-9]{0,15})?", fullmatch=True))
def test_excess_digits_make_no_difference(text):
    assert number(text) == pytest.approx(float(text), rel=1e-14, abs=1e-15)


@pytest.mark.parametrize("text", [
    "", "-", "+", ".5", "1e5", "nan", "inf", " 1", "1 ", "1_000", "1,5", "0x10", "--1", "1.2.3", "\u0663", "\u00b2",
    "1" * 14, "1." + "1" * 16, "1.\u0663",
])
def test_anything_else_is_no_number(text):
    assert number(text) is None


def test_digits():
    assert is_digits("0129")
    assert not any(map(is_digits, ("", "1 ", "\u0663", "\u00b2", "-1")))


@given(st.datetimes(datetime(1970, 1, 1), datetime(2100, 1, 1)), st.integers(-14 * 60, 14 * 60),
       st.sampled_from(["T", " "]))
def test_time_matches_standard_library(moment, offset_min, separator):
    aware = moment.replace(tzinfo=timezone(timedelta(minutes=offset_min)))
    text = aware.isoformat(separator)
    assert seconds_since_1970(text) == aware.timestamp() == datetime.fromisoformat(text).timestamp()


@pytest.mark.parametrize("text", [
    "2026-12-01T10:00:00Z", "2026-12-01T10:00Z", "20261201T100000Z", "20261201T1000+0200", "2026-12-01T10:00:00.5Z",
    "2026-12-01T10:00:00,25-03", "2026-12-01 10:00:00.123456+01:00", "2026-12-01T10:00:00.1234567Z",
])
def test_time_formats(text):
    assert seconds_since_1970(text) == datetime.fromisoformat(text).timestamp()


@pytest.mark.parametrize("text", [
    "", "10:00", "2026-12-01", "2026-12-01T10:00:00", "2026-13-01T10:00:00Z", "2026-02-30T10:00:00Z",
    "2026-12-01T24:00:00Z", "2026-12-01T10:60:00Z", "2026-12-01T10:00:60Z", "2026-12-01T1:00:00Z",
    "2026-12-01T10:00:00.xZ", "2026-12-01T10:00:00+1", "2026-12-01T1000:00Z", "2026-12-01T10:00:00ZZ",
    "2026-12-01T10:00:00+25:00", "0000-12-01T10:00:00Z", "\u0662026-12-01T10:00:00Z",
])
def test_invalid_times(text):
    faults = Faults("a.csv")
    assert (utc_s(text, "line 2", faults), faults.count) == (0.0, 1)


def test_time_in_1970_is_no_fault():
    faults = Faults("a.csv")
    assert (utc_s("1970-01-01T00:00:00Z", "line 2", faults), faults.count) == (0.0, 0)
    assert seconds_since_1970("2026-12-01T10:00:00Z") == datetime(2026, 12, 1, 10, tzinfo=UTC).timestamp()


@given(st.text(st.characters(min_codepoint=32, max_codepoint=126), max_size=40))
def test_plain_text_quoted_as_in_python(text):
    assert quoted(text) == repr(text)


@given(st.text(max_size=200), st.integers(10, 80))
def test_any_text_is_short_printable_line(text, limit):
    shown = quoted(text, limit)
    assert len(shown) <= limit
    assert shown.isprintable()


def test_direction_and_hidden_characters_not_shown():
    assert quoted("a\u202eb\u200bc\u00add\x1b[0m") == "'a?b?c?d?[0m'"
    assert quoted("H\u00f6he") == "'H\u00f6he'"
    assert quoted("x" * 10_000) == "'" + "x" * (MAX_SHOWN - 4) + "..."


CELLS = st.lists(st.text(st.sampled_from('abc12.-_;"#, '), max_size=8), min_size=1, max_size=6)


@given(CELLS)
@settings(max_examples=300)
def test_cells_match_standard_library_writer(cells):
    row = [cell.strip() for cell in cells]
    lines = []
    csv.writer(type("Into", (), {"write": lambda _, text: lines.append(text)})(), lineterminator="").writerow(row)
    if lines[0].strip():
        assert cells_of(lines[0]) == row


@given(st.text(st.sampled_from('ab1",  '), min_size=1, max_size=14))
@settings(max_examples=500)
def test_line_split_as_in_standard_library(line):
    """Both refuse a line, or both have the same cells; spaces before a quote and after one are passed over here."""
    try:
        theirs = [cell.strip() for cell in next(csv.reader([line.strip()], strict=True, skipinitialspace=True), [])]
    except csv.Error:
        return
    if line.strip():
        assert cells_of(line) == (theirs or [""])


@pytest.mark.parametrize(("line", "what"), [
    ('a,"b', "a quote that is not closed"), ('"a"b,c', "something between a quote and a separator"),
    ("a\rb,c", "a line break inside a line"), ("x" * 2001, "2001 characters"),
])
def test_invalid_line(line, what):
    with pytest.raises(DomainError, match=what):
        cells_of(line)


@given(st.lists(st.floats(-1e4, 1e4), min_size=20, max_size=60))
def test_median_and_spread_match_standard_library(values):
    assert median(values) == statistics.median(values)
    tenths = statistics.quantiles(values, n=10)
    assert half_spread_ft(values) == pytest.approx((tenths[-1] - tenths[0]) / 2.0, rel=1e-9, abs=1e-9)
