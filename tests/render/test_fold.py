"""Parts of a page made where the page is made: same HTML, links that arrive, headings that stay."""

import pytest

from render.figure import drawings_of, fill
from render.fold import address_links, fold, to_html

PAGE = """---
title: T
---

# Title { #top }

Words.

## First { #first }

| a | b |
|---|---|
| 1 | 2 |

[fact](../reference/facts.md#x)

## Second { #second data-search-exclude }

??? note "More"

    Folded.
"""


def test_headings_stay_and_bodies_are_set_aside():
    folded = fold(PAGE)
    assert "## First { #first data-search-exclude }" in folded
    assert "## Second { #second data-search-exclude }" in folded
    assert "Words." in folded
    assert "Folded" not in folded
    assert len(drawings_of(folded)) == 2


def test_what_was_set_aside_comes_back_as_html():
    page = fill(fold(PAGE))
    assert '<table tabindex="0">' in page
    assert '<details class="note">' in page
    assert 'href="../reference/facts.md#x"' in page


def test_a_heading_without_an_id_is_refused():
    with pytest.raises(ValueError, match="Naked"):
        fold("# T { #top }\n\n## Naked\n\ntext\n")


@pytest.mark.parametrize(
    ("address", "link", "directory", "plain"),
    [
        ("approaches/a.md", "../reference/facts.md#x", "../../reference/facts/#x", "../reference/facts.html#x"),
        ("approaches/a.md", "b.md", "../b/", "b.html"),
        ("approaches/a.md", "index.md", "../", "index.html"),
        ("approaches/index.md", "a.md", "a/", "a.html"),
        ("index.md", "verify/index.md#do", "verify/#do", "verify/index.html#do"),
        ("tasks.md", "index.md", "../", "index.html"),
        ("final/rate.md", "../index.md", "../../", "../index.html"),
    ],
)
def test_links_arrive(address, link, directory, plain):
    html = f'<a href="{link}">x</a>'
    assert address_links(html, address, True) == f'<a href="{directory}">x</a>'
    assert address_links(html, address, False) == f'<a href="{plain}">x</a>'


def test_a_link_keeps_what_it_asks_for():
    html = '<a href="../set-up/check.md?approach=zz-1&amp;x=a.md#own">x</a> <a href="check.md?own=1">y</a>'
    assert address_links(html, "approaches/a.md", True) == (
        '<a href="../../set-up/check/?approach=zz-1&amp;x=a.md#own">x</a> <a href="../check/?own=1">y</a>')
    assert address_links(html, "approaches/a.md", False) == (
        '<a href="../set-up/check.html?approach=zz-1&amp;x=a.md#own">x</a> <a href="check.html?own=1">y</a>')


def test_other_links_are_left_alone():
    html = '<a href="https://example.org/a.md">x</a> <a href="#top">y</a> <a href="z/">z</a>'
    assert address_links(html, "approaches/a.md", True) == html


def test_only_the_text_is_changed_by_a_second_conversion():
    assert to_html("**a**") == to_html("**a**") == "<p><strong>a</strong></p>"
