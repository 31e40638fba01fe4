"""The jumps under a title: made of the headings that a page has."""

import pytest

from lpv_site.text.jumps import task_jumps, with_jumps, without_jumps

TASK = [("table", "The table"), ("do", "Do"), ("why", "Why"), ("wrong", "When it goes wrong"), ("computed", "How")]


def toc(headings):
    children = [{"id": key, "name": name, "level": 2, "children": []} for key, name in headings]
    return [{"id": "top", "name": "Page", "level": 1, "children": children}]


def test_task_page_has_four_in_order():
    assert task_jumps(TASK) == [("do", "Do"), ("table", "Table"), ("wrong", "Goes wrong"), ("computed", "Computed")]


def test_first_non_text_part_is_table():
    assert task_jumps([("do", "Do"), ("why", "Why"), ("rounding", "How to round"), ("wrong", "W")])[1] == (
        "rounding", "Table")
    assert task_jumps([("form", "The check"), ("do", "Do"), ("wrong", "W")])[1] == ("form", "Form")
    assert task_jumps([("do", "Do"), ("why", "Why"), ("wrong", "W")]) == [("do", "Do"), ("wrong", "Goes wrong")]


@pytest.mark.parametrize("headings", [[], [("do", "Do")], [("table", "T"), ("wrong", "W")]])
def test_other_pages_have_none(headings):
    assert with_jumps("<h1>Page</h1><p>x</p>", toc(headings), "plan/x.md") == "<h1>Page</h1><p>x</p>"


def test_jumps_below_title_and_removable():
    page = "<h1>Page</h1><p>x</p>"
    made = with_jumps(page, toc(TASK), "final/rate.md")
    assert made.startswith('<h1>Page</h1><nav class="hb-jumps"')
    assert made.count("<a ") == 4
    assert without_jumps(made) == page


def test_briefing_lists_all_parts():
    page = "<h1>Page</h1><p>x</p>"
    made = with_jumps(page, toc([("print", "Card"), ("identity", "Set and compare")]), "approaches/zzak.md")
    assert '<li><a href="#print">Card</a></li><li><a href="#identity">Set and compare</a></li>' in made
    assert without_jumps(made) == page
    assert with_jumps(page, toc([("print", "Card")]), "approaches/index.md") == page


def test_long_multipart_pages_list_parts():
    page, parts = "<h1>Page</h1><p>x</p>", toc([(f"part-{number}", f"Part {number}") for number in range(4)])
    for address in ("aircraft/light-jet.md", "teach/initial.md", "reference/facts.md"):
        made = with_jumps(page, parts, address)
        assert made.count("<li><a ") == 4
        assert without_jumps(made) == page
    for address in ("index.md", "now/cold.md", "practice/plain.md", "approaches/index.md"):
        assert with_jumps(page, parts, address) == page
