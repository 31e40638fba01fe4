"""Numbers as text, and tables that fit a phone."""

import html
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lpv_site.text.convert import to_html
from lpv_site.text.table import finished, html_table, stacked, table
from lpv_site.text.text import escape, front_matter, quoted


def test_page_head_accepts_any_title():
    assert quoted('a "b"\n\\c') == "\"a 'b'  c\""
    assert front_matter("A", "B") == '---\ntitle: "A"\ndescription: "B"\n---\n\n# A { #top }\n\n'
    assert "search:\n  exclude: true\n---" in front_matter("A", "B", search=0)
    assert "search:\n  boost: 0.5\n---" in front_matter("A", "B", search=0.5)
    assert front_matter("A: <b>", "B", heading="<i>").endswith("# &#60;i&#62; { #top }\n\n")


@given(st.text(st.characters(exclude_categories=("Cc", "Cs"))))
def test_escaped_text_inert(text):
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


def test_finished_table_equals_markdown_table():
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
