"""Numbers as text, and tables that fit a phone."""

import html
import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lpv.facts import fact
from lpv_site.text.convert import to_html
from lpv_site.text.table import finished, html_table, stacked, table
from lpv_site.text.text import (
    course,
    escape,
    fact_text,
    front_matter,
    number,
    percent,
    plain,
    quantity,
    quoted,
    signed,
)


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


def test_a_share_is_all_or_nothing_only_where_it_is():
    assert [percent(share) for share in (0.0, 0.0001, 0.5, 0.986, 0.9999, 1.0)] == [
        "0%", "0.1%", "50.0%", "98.6%", "99.9%", "100%"]


def test_the_head_of_a_page_holds_any_title():
    assert quoted('a "b"\n\\c') == "\"a 'b'  c\""
    assert front_matter("A", "B") == '---\ntitle: "A"\ndescription: "B"\n---\n\n# A { #top }\n\n'
    assert "search:\n  exclude: true\n---" in front_matter("A", "B", search=0)
    assert "search:\n  boost: 0.5\n---" in front_matter("A", "B", search=0.5)
    assert front_matter("A: <b>", "B", heading="<i>").endswith("# &#60;i&#62; { #top }\n\n")


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


def test_a_finished_table_is_what_markdown_makes_of_the_same_table():
    headers, rows = ["fix", "course", "NM"], [("GULLY<br>PFAF", "090°", "1.0"), (escape("a|b_c_ *d*"), "", "2 < 3")]
    by_markdown = re.sub(r"\n\s*", "", to_html(table(headers, rows, left=2)))
    assert finished(headers, rows, left=2).strip() == by_markdown.replace("2 &lt; 3", "2 < 3")
    with pytest.raises(ValueError, match="do not fit a phone"):
        finished(["a"] * 5, [])
    with pytest.raises(ValueError, match="row of 1 cells under 2"):
        finished(["a", "b"], [("1",)])


def test_html_escapes_cells():
    assert "<script>" not in html_table(["a"], [("<script>",)], "<b>")
    assert stacked([("head", [("label", "value"), ("empty", "")])]).count("<div>") == 1
