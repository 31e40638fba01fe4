"""Parts of a page made where the page is made: same HTML, links that arrive, headings that stay."""

import pytest

from lpv_site.text.convert import address_links, html_of, links_in, to_html, written_links

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
def test_links_resolve(address, link, directory, plain):
    html = f'<a href="{link}">x</a>'
    assert address_links(html, address, True) == f'<a href="{directory}">x</a>'
    assert address_links(html, address, False) == f'<a href="{plain}">x</a>'


def test_link_keeps_query():
    html = '<a href="../set-up/check.md?approach=zz-1&amp;x=a.md#own">x</a> <a href="check.md?own=1">y</a>'
    assert address_links(html, "approaches/a.md", True) == (
        '<a href="../../set-up/check/?approach=zz-1&amp;x=a.md#own">x</a> <a href="../check/?own=1">y</a>')
    assert address_links(html, "approaches/a.md", False) == (
        '<a href="../set-up/check.html?approach=zz-1&amp;x=a.md#own">x</a> <a href="check.html?own=1">y</a>')


def test_other_links_unchanged():
    html = '<a href="https://example.org/a.md">x</a> <a href="#top">y</a> <a href="z/">z</a>'
    assert address_links(html, "approaches/a.md", True) == html


def test_second_conversion_changes_only_text():
    assert to_html("**a**") == to_html("**a**") == "<p><strong>a</strong></p>"


def test_finished_html_unchanged_inside_blocks():
    block = '<div class="hb-row"><p>**a** {{ b }} &amp; <svg data-drawing="0123456789abcdef"></svg></p></div>'
    assert to_html(f"words\n\n{block}\n\nwords") == f"<p>words</p>\n{block}\n\n<p>words</p>"
    inside = to_html(f'??? note "More"\n\n    {block}\n')
    assert f"<summary>More</summary>\n{block}" in inside
    assert "<p><div" not in inside


def test_page_has_content_and_headings():
    html = html_of(PAGE, "final/a.md")
    assert html.content.startswith('<h1 id="top">Title<a class="headerlink" href="#top"')
    assert [item["id"] + item["name"] for item in html.toc[0]["children"]] == ["firstFirst", "secondSecond"]


def test_page_links_name_addresses_below_docs():
    page = "[a](../verify/b.md?x=1#do) ![c](c.png) <a href='d.md'>raw</a> <a href=\"d.md\">raw</a> [e](#top) [f](/f.md)"
    html = html_of(page, "final/a.md").content
    assert links_in(html) == {"verify/b.md#do", "final/c.png", "final/d.md"}
    assert 'href="#top"' in html
    assert 'href="/f.md"' in html
    served = written_links(html, "final/a.md", True)
    assert 'href="../../verify/b/?x=1#do"' in served
    assert 'src="../c.png"' in served
    filed = written_links(html, "final/a.md", False)
    assert 'href="../verify/b.html?x=1#do"' in filed
    assert 'src="c.png"' in filed


def test_markdown_in_html_converted_on_request():
    assert "<em>b</em>" in html_of('<div markdown="1">*b*</div>', "a.md").content
    assert "*b*" in html_of("<div>*b*</div>", "a.md").content
    assert html_of('<div markdown="0">*b*</div>', "a.md").content == "<div>*b*</div>"
