"""Parts of a page made where the page is made: same HTML, links that arrive, headings that stay."""

import pytest

from lpv_site.figures.figure import drawings_of, fill
from lpv_site.text.fold import address_links, fold, html_of, listings_aside, to_html

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


def test_parts_converted_together_are_what_each_is_by_itself():
    parts = ["| a |\n|---|\n| 1 |", "- one\n- two", '??? note "More"\n\n    <div class="x"><p>y</p></div>',
             "```text\nz\n```", '<div class="hb-stack"><div>*as it is*</div></div>', "**bold** [link](b.md)"]
    page = "# T { #top }\n\n" + "".join(f"## {one} {{ #s{one} }}\n\n{part}\n\n" for one, part in enumerate(parts))
    bodies = [drawings_of(section)[key] for section in fold(page).split("## ")[1:] for key in drawings_of(section)]
    assert bodies == [to_html(part).strip() for part in parts]


def test_finished_html_is_left_as_it_is_inside_other_blocks_too():
    block = '<div class="hb-row"><p>**a** {{ b }} &amp; <svg data-drawing="0123456789abcdef"></svg></p></div>'
    assert to_html(f"words\n\n{block}\n\nwords") == f"<p>words</p>\n{block}\n\n<p>words</p>"
    inside = to_html(f'??? note "More"\n\n    {block}\n')
    assert f"<summary>More</summary>\n{block}" in inside
    assert "<p><div" not in inside


def test_listings_that_search_passes_over_are_set_aside_and_come_back():
    listing = '<div class="language-python highlight"><pre><code><span class="k">if</span>\n</code></pre></div>'
    page = f'<h1>T</h1>{listing}<h2 data-search-exclude id="computed">How</h2><details>{listing}</details>'
    aside = listings_aside(page)
    assert aside.count("language-python highlight") == 2
    assert aside.count('<span class="k">') == 1
    assert fill(aside) == page
    more = f'{page}<h2 id="after">After</h2>{listing}'
    assert listings_aside(more).count('<span class="k">') == 2
    assert fill(listings_aside(more)) == more
    assert listings_aside(f"<h1>T</h1>{listing}") == f"<h1>T</h1>{listing}"


def test_html_of_a_page_is_content_headings_and_ids():
    html = html_of(PAGE)
    assert html.content.startswith('<h1 id="top">Title<a class="headerlink" href="#top"')
    assert [item["id"] + item["name"] for item in html.toc[0]["children"]] == ["firstFirst", "secondSecond"]
    assert html.anchors == ["top", "first", "second"]
    folded = html_of(fold(PAGE))
    assert folded.toc == html.toc
    assert folded.searched.endswith("<p>Words.</p>\n")
