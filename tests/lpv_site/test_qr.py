"""The code on a card: the matrix that segno makes of the page's permanent address, and only where there is one."""

import re

import pytest
import segno
from hypothesis import given
from hypothesis import strategies as st

from lpv_site.figures.qr import EMPTY, QUIET_MODULES, permanent_address, svg, with_code, with_edition

SITE = "https://handbook.example/crew/"
CARD = '<main><section class="hb-card" id="card" aria-label="Card">{}<p>words</p></section></main>'


def matrix_of(drawing):
    """The dark modules that a drawing covers, without its quiet zone; read as a scanner would, square by square."""
    side = int(re.search(r'viewBox="0 0 (\d+) \1"', drawing)[1])
    squares = [[0] * side for _ in range(side)]
    for x, y, width, back in re.findall(r"M(\d+) (\d+)h(\d+)v1h-(\d+)z", drawing):
        assert width == back
        for column in range(int(x), int(x) + int(width)):
            squares[int(y)][column] += 1
    assert max(map(max, squares)) == 1, "no module is covered twice"
    quiet = [*squares[:QUIET_MODULES], *squares[-QUIET_MODULES:]]
    quiet += [row[:QUIET_MODULES] + row[-QUIET_MODULES:] for row in squares]
    assert not any(map(any, quiet))
    return [row[QUIET_MODULES:-QUIET_MODULES] for row in squares[QUIET_MODULES:-QUIET_MODULES]]


@given(st.text(st.characters(codec="ascii", exclude_categories=["C"]), min_size=1, max_size=200))
def test_drawing_equals_text_matrix(text):
    expected = [list(row) for row in segno.make(text, micro=False).matrix]
    assert matrix_of(svg(text)) == expected


def test_finder_patterns_and_timing_as_standard():
    rows = matrix_of(svg(SITE + "approaches/zz/#card"))
    size = len(rows)
    assert (size - 17) % 4 == 0
    for top, left in ((0, 0), (0, size - 7), (size - 7, 0)):
        corner = [row[left : left + 7] for row in rows[top : top + 7]]
        assert corner[0] == corner[6] == [1] * 7
        assert corner[1] == corner[5] == [1, 0, 0, 0, 0, 0, 1]
        assert corner[3] == [1, 0, 1, 1, 1, 0, 1]
    assert rows[6][7:-7] == [(column + 1) % 2 for column in range(7, size - 7)]


def test_code_uses_text_colour_and_no_style():
    drawing = svg('https://a.example/"<b>&')
    assert 'fill="currentColor"' in drawing
    assert "style" not in drawing
    assert 'aria-label="Code for: https://a.example/&quot;&lt;b&gt;&amp;"' in drawing


@pytest.mark.parametrize(
    ("source", "address"),
    [
        ("index.md", SITE),
        ("tasks.md", SITE + "tasks/"),
        ("set-up/index.md", SITE + "set-up/"),
        ("approaches/zzak-rnav-09.md", SITE + "approaches/zzak-rnav-09/"),
    ],
)
def test_permanent_address(source, address):
    assert permanent_address(SITE, source) == address
    assert permanent_address(SITE.rstrip("/"), source) == address


def test_code_placed_in_reserved_card_space():
    page = with_code(CARD.format(f"<p>top</p>{EMPTY}"), SITE, "set-up/index.md")
    assert page == CARD.format(f'<p>top</p><div class="hb-card-code">{svg(SITE + "set-up/#card")}</div>')


def test_otherwise_at_card_start():
    page = with_code(CARD.format(""), SITE, "set-up/index.md")
    assert page == CARD.format(f'<div class="hb-card-code">{svg(SITE + "set-up/#card")}</div>')


@pytest.mark.parametrize("page", [CARD.format(EMPTY), CARD.format("")])
def test_no_code_without_address(page):
    assert with_code(page, "", "set-up/index.md") == page


def test_sheet_is_card_too():
    page = '<section aria-label="Sheet" class="hb-card hb-sheet" id="card"><p>x</p></section>'
    head = page.removesuffix("<p>x</p></section>")
    assert with_code(page, SITE, "practice/plain.md").startswith(head + '<div class="hb-card-code">')


def test_no_code_without_card():
    page = '<main><p class="hb-card-name">x</p></main>'
    assert with_code(page, SITE, "a.md") == page


def test_card_names_edition():
    caution = '<p class="hb-card-caution hb-on-paper"><b>Caution.</b> Not for flight.</p>'
    page = f'<section class="hb-card">{caution}</section><p>x</p>'
    assert "Not for flight. Edition 2612-0a. Built 2026-11-25.</p></section><p>x</p>" in with_edition(
        page, "Edition 2612-0a. Built 2026-11-25.")
