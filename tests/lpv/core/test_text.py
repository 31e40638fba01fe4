"""Numbers as text: one rounding rule, true signs, figures kept together with their units."""

import math
import re
from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lpv.core import text
from lpv.core.dms import latitude_deg, longitude_deg
from lpv.core.errors import DomainError
from lpv.facts import FACTS, fact

STEPS = st.sampled_from([100, 10, 1, 0.5, 0.25, 0.1, 0.01, 0.001])
TO_HYPHEN = str.maketrans({text.MINUS: "-"})


def as_number(printed):
    return float(printed.translate(TO_HYPHEN))


@pytest.mark.parametrize(("value", "step", "expected"), [
    (2.5, 1, "3"), (-2.5, 1, "\u22123"), (0.25, 0.1, "0.3"), (1.005, 0.01, "1.01"), (0.285, 0.01, "0.29"),
    (-0.4, 1, "0"), (-0.0, 1, "0"), (-0.04, 0.1, "0.0"), (9.96, 0.1, "10.0"), (99.95, 0.1, "100.0"),
    (1234.5, 10, "1230"), (1235.0, 10, "1240"), (0.3, 0.25, "0.25"), (7.125, 0.25, "7.25"), (1e11, 1, "100000000000"),
    (0.1 + 0.2, 0.01, "0.30"), (-3.2, 0.1, "\u22123.2"), (37.0834722221, 1e-7, "37.0834722"),
])
def test_number(value, step, expected):
    assert text.number(value, step) == expected


@given(st.decimals(-99999, 99999, places=6), st.integers(0, 5))
def test_halves_round_away_from_zero(value, places):
    expected = value.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP)
    printed = text.number(float(value), 10.0**-places).translate(TO_HYPHEN)
    assert printed == str(expected or abs(expected))


@given(st.floats(-1e6, 1e6), STEPS)
def test_printed_number_within_half_step(value, step):
    printed = as_number(text.number(value, step))
    assert abs(printed - value) <= step * (0.5 + 1e-6)
    assert abs(printed / step - round(printed / step)) < 1e-6


@given(st.floats(-1e6, 1e6), STEPS)
def test_sign(value, step):
    printed = text.number(value, step)
    assert "-" not in printed
    assert printed.startswith(text.MINUS) == (as_number(printed) < 0.0)
    assert text.number(-value, step).lstrip(text.MINUS) == printed.lstrip(text.MINUS)
    assert text.signed(value, "", step).startswith("+") == (as_number(printed) > 0.0)


@given(st.floats(-1e6, 1e6), STEPS)
def test_rounded_equals_printed(value, step):
    assert text.number(text.rounded(value, step), step) == text.number(value, step)
    assert text.rounded(value, step) == pytest.approx(as_number(text.number(value, step)), abs=1e-9)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, 1e12])
def test_unprintable_number_refused(value):
    for function in (text.number, text.trimmed, text.rounded, text.signed):
        with pytest.raises(DomainError, match="a number to print"):
            function(value)
    if not math.isfinite(value):
        for function in (text.exact, text.first_digit):
            with pytest.raises(DomainError, match="finite"):
                function(value)


def test_trimmed():
    assert [text.trimmed(value) for value in (3.0, 0.75, -50.0, 1013.25, 100.0)] == [
        "3", "0.75", "\u221250", "1013.25", "100"]
    assert text.trimmed_quantity(50.0, "ft", 0.1) == "50\u202fft"


@pytest.mark.parametrize(("value", "expected"), [
    (9023.0, "9023"), (106.75, "106.75"), (3.986005e14, "3.986005e14"), (7.2921151467e-5, "7.2921151467e\u22125"),
    (2e-5, "0.00002"), (1.0 / 3.0, "0.333333333333"), (-0.25, "\u22120.25"), (0.0, "0"), (1e16 / 3.0, "3.3333e15"),
])
def test_exact(value, expected):
    assert text.exact(value) == expected


def test_exact_facts_lose_nothing():
    for row in FACTS.values():
        if not isinstance(row.value, str):
            assert as_number(text.exact(row.value)) == row.value


def test_first_digit():
    assert [text.first_digit(value) for value in (0.0, 0.0034, -0.00026, 2.2e-12, -180.0)] == [
        "0", "+0.003", "\u22120.0003", "+2e\u221212", "\u2212200"]


def test_units_stay_with_number():
    assert text.quantity(3, "deg", 0.01) == text.degrees(3) == text.quantity(3, "°", 0.01) == "3.00°"
    assert text.quantity(-18, "deg C") == "\u221218\u202f°C"
    assert text.quantity(3, "") == "3"
    assert text.quantity(97.5, "%", 0.1) == "97.5%"
    assert text.feet(-0.3) == "0\u202fft"
    assert text.tenths_of_feet(-0.01) == "0\u202fft"
    assert [text.metres(-0.04), text.metres(-32.44)] == ["0\u202fm", "\u221232.4\u202fm"]
    assert [text.nautical_miles(6.049), text.nautical_miles(6.049, 0.01)] == ["6.0\u202fNM", "6.05\u202fNM"]
    assert text.exact_quantity(0.25, "NM") == "0.25\u202fNM"
    assert text.with_unit("60", "ft/min") == "60\u202fft/min"
    assert text.printed("-3.20") == "\u22123.20"


def test_signed():
    assert [text.signed(value, "ft") for value in (12, 0.2, -12)] == [
        "+12\u202fft", "0\u202fft", "\u221212\u202fft"]
    assert [text.with_sign(number) for number in ("3", "0.0", "\u22123")] == ["+3", "0.0", "\u22123"]


def test_interval():
    assert text.interval(60.0, 250.0, "kt") == "60 to 250\u202fkt"
    assert text.interval(-50, 60, "deg C") == "\u221250 to 60\u202f°C"
    assert text.interval(0.5, 9) == "0.5 to 9"


def test_percent_all_or_nothing_only_when_exact():
    assert [text.percent(share) for share in (0.0, 0.0001, 0.5, 0.986, 0.9999, 1.0)] == [
        "0%", "0.1%", "50.0%", "98.6%", "99.9%", "100%"]
    with pytest.raises(DomainError, match="share"):
        text.percent(1.01)


def test_length_by_rule():
    assert text.length(1968.5, "FAA") == "1969\u202fft"
    assert text.length(1968.5, "EASA") == text.length(1968.5, "ICAO") == "600\u202fm (1969\u202fft)"


def test_miles_in_eighths():
    assert [text.miles(value) for value in (0.0, 0.25, 0.625, 1.0, 1.25, 0.3)] == [
        "0", "1/4", "5/8", "1", "1 1/4", "0.30"]
    for value in (-1.0, math.nan, 1001.0):
        with pytest.raises(DomainError):
            text.miles(value)


@pytest.mark.parametrize(("value", "whole", "tenths"), [
    (0.0, "360", "360.0"), (360.0, "360", "360.0"), (0.4, "360", "000.4"), (359.6, "360", "359.6"),
    (359.96, "360", "360.0"), (0.5, "001", "000.5"), (9.4, "009", "009.4"), (253.12, "253", "253.1"),
    (284.5, "285", "284.5"), (7.25, "007", "007.3"),
])
def test_course(value, whole, tenths):
    assert (text.course_digits(value), text.course_digits(value, 0.1)) == (whole, tenths)
    assert (text.course(value), text.course(value, 0.1)) == (whole + "°", tenths + "°")


@pytest.mark.parametrize(("value", "expected"), [
    (0.0, "E0.0"), (-0.0, "E0.0"), (-0.04, "E0.0"), (-0.05, "W0.1"), (13.2, "E13.2"), (-4.0, "W4.0"),
])
def test_variation(value, expected):
    assert text.variation_digits(value) == expected
    assert text.variation(value) == expected + "°"


@pytest.mark.parametrize("value", [-0.1, 360.1, math.nan, math.inf])
def test_angle_outside_circle_refused(value):
    with pytest.raises(DomainError, match="course"):
        text.course(value)
    with pytest.raises(DomainError, match="variation"):
        text.variation(-200.0 if math.isfinite(value) else value)


@pytest.mark.parametrize(("angle", "step", "expected"), [
    (37 + 5 / 60 + 0.5 / 3600, 0.1, "N37 05 00.5"), (-33.0, 1, "S33 00 00"), (12.99999999, 0.1, "N13 00 00.0"),
    (-0.000000001, 0.1, "N00 00 00.0"), (90.0, 0.01, "N90 00 00.00"),
])
def test_latitude(angle, step, expected):
    assert text.latitude(angle, step) == expected


def test_position_off_globe_refused():
    for refused in (lambda: text.latitude(90.1), lambda: text.longitude(math.nan)):
        with pytest.raises(DomainError):
            refused()


@given(st.floats(-90, 90), st.floats(-180, 180), st.integers(0, 4))
def test_position_round_trip(latitude, longitude, decimals):
    half_deg = 0.5 / 3600 / 10**decimals + 1e-11
    assert abs(latitude_deg(text.latitude(latitude, 10.0**-decimals)) - latitude) <= half_deg
    assert abs(longitude_deg(text.longitude(longitude, 10.0**-decimals)) - longitude) <= half_deg


def test_clock_carries():
    assert [text.clock(value) for value in (0.0, 59.4, 59.5, 185.0, 3600.0)] == [
        "0:00", "0:59", "1:00", "3:05", "60:00"]
    with pytest.raises(DomainError, match="duration"):
        text.clock(-1.0)


def test_settings_as_dialled():
    assert text.pressure(29.9, "inHg") == "29.90\u202finHg"
    assert text.pressure(1013.2, "hPa") == "1013\u202fhPa"
    assert text.frequency(110.3) == "110.30"


def test_fact_text():
    assert text.fact_text(fact("hal_lpv_m")) == "40\u202fm"
    assert text.fact_text(fact("sbas_channel_lowest")) == "40000"
    assert text.fact_text(fact("airac_reference_date")) == "2020-02-27"


def test_words():
    assert [text.plural(count, "note") for count in (0, 1, 2)] == ["0 notes", "1 note", "2 notes"]
    assert [text.listed(words) for words in ([], ["LP"], ["LP", "LPV"], ["LNAV", "LP", "LPV"])] == [
        "", "LP", "LP and LPV", "LNAV, LP and LPV"]
    assert text.listed(["LP", "LPV"], "or") == "LP or LPV"
    assert text.capitalized("no LPV") == "No LPV"


def test_ascii():
    assert text.to_ascii("\u221218\u202f°C at 3.0°") == "-18 deg C at 3.0 deg"
    assert text.to_ascii("ü") == "?"
    assert text.field_number(-3.25, 0.1) == "-3.3"


@given(st.floats(-1e6, 1e6), STEPS)
def test_ascii_replacements_stay_readable(value, step):
    printed = text.to_ascii(text.quantity(value, "ft", step))
    assert re.fullmatch(r"-?\d+(\.\d+)? ft", printed)


def test_rounded_up():
    assert [text.rounded_up(value, 50) for value in (100.0, 100.1, 149.0)] == [100, 150, 150]


def test_places_of():
    assert [text.places_of(step) for step in (100, 1, 0.5, 0.25, 0.125, 0.001, 1e-9)] == [0, 0, 1, 2, 3, 3, 9]


def test_dots():
    assert [text.dots(count) for count in (0.5, 1.0, 1.5)] == ["0.5\u202fdots", "1\u202fdot", "1.5\u202fdots"]


def test_rounded_down():
    assert [text.rounded_down(value, 10.0) for value in (0.0, 9.9, 10.0, 19.99, -0.1)] == [0.0, 0.0, 10.0, 10.0, -10.0]
    assert [text.rounded_down(value) for value in (48.99, 49.0, 7.0 - 1e-12)] == [48, 49, 7]
