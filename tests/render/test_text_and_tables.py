"""Numbers as text, and tables that fit a phone."""

import html
import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lpv.facts import fact
from render.table import html_table, stacked, table
from render.text import course, escape, fact_text, number, plain, quantity, signed


def test_numbers():
    assert number(1234.5, 1) == "1234.5"
    assert number(-3.2, 1) == "\u22123.2"
    assert number(-0.04, 1) == "0.0", "never -0"
    assert quantity(40, "m") == "40\u202fm"
    assert quantity(3, "°", 2) == "3.00°"
    assert signed(0.2, "ft") == "0\u202fft"
    assert signed(12, "ft") == "+12\u202fft"
    assert plain(9023.0) == "9023"
    assert plain(106.75) == "106.75"


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_is_not_printed(value):
    with pytest.raises(ValueError, match="cannot print"):
        number(value)


def test_north_is_360():
    assert course(0) == "360°"
    assert course(359.7) == "360°"
    assert course(7.25, 1) == "007.2°"
    assert course(-5) == "355°"


def test_fact_text():
    assert fact_text(fact("hal_lpv_m")) == "40\u202fm"
    assert fact_text(fact("sbas_channel_lowest")) == "40000"
    assert fact_text(fact("fpap_distance_lowest_ft")) == "9023\u202fft"


@given(st.text(st.characters(exclude_categories=("Cc", "Cs"))))
def test_escaped_text_is_inert(text):
    safe = escape(text)
    assert not set('<>"`|[]*_\\{}') & set(safe)
    assert "\n" not in safe
    assert html.unescape(safe) == re.sub(r" +", " ", text).strip(" ")
    assert escape("6\u202fNM") == "6\u202fNM"


def test_table_shape():
    text = table(["fix", "ft"], [("AB", 1), ("C|D", 2)])
    assert text.splitlines()[1] == "|:---|---:|"
    assert "C&#124;D" in text
    with pytest.raises(ValueError, match="5 columns"):
        table(list("abcde"), [])
    with pytest.raises(ValueError, match="row of 1"):
        table(["a", "b"], [("x",)])


def test_html_escapes_cells():
    assert "<script>" not in html_table(["a"], [("<script>",)], "<b>")
    assert stacked([("head", [("label", "value"), ("empty", "")])]).count("<div>") == 1
