"""The mark of what is from memory: in text only, with its words, and explained once at the foot."""

import re

import pytest

from lpv_site.build.pages import make_page
from lpv_site.text.memory import FOOT, MARK, marked

SAID = "(from memory)"


@pytest.mark.parametrize("words", [" (from memory)", "\n(from memory)", " &#40;from memory&#41;"])
def test_words_become_mark_with_footnote(words):
    assert marked(f"<p>75 ft{words}.</p>") == f"<p>75 ft{MARK}.</p>{FOOT}"


@pytest.mark.parametrize("html", [
    "<p>nothing of the kind</p>", "<p>the scale is from memory</p>", "<pre>0.25 (from memory)</pre>",
    '<svg viewBox="0 0 1 1"><text>scale (from memory)</text></svg>', '<p title="scale (from memory)">dots</p>',
    '<p><a href="#x">scale (from memory)</a></p>', '<h2 id="x">Scale (from memory)</h2>',
])
def test_everything_else_unchanged(html):
    assert marked(html) == html


def test_several_marks_share_footnote():
    page = marked("<ul><li>a (from memory)</li><li>b (from memory)</li></ul>")
    assert page.count(MARK) == 2
    assert page.count('id="from-memory"') == 1


def test_words_never_lost():
    text = re.sub(r"<[^>]+>", "", marked("<p>75 ft (from memory), in all</p>"))
    assert SAID in text
    assert "75 ft† (from memory), in all" in text


def test_page_has_mark_footnote_anchor_and_link():
    page = make_page("final/x.md", '# X { #top }\n\nAbout {{ fact("lpv_vertical_cap_m") }}.\n')
    assert MARK in page.whole
    assert "from-memory" in page.anchors
    assert "reference/from-memory.md" in page.links
