"""Drawings: stable, themed, named, small."""

import re

from lpv_site.figures.figure import drawing, figure, fill
from lpv_site.figures.svg import COLOURS


def line(axes):
    axes.plot([0, 1, 2], [0.123456789, 1, 4], color=COLOURS["first"])
    axes.set_xlabel("distance, NM")


def make(name="test-line"):
    return figure(name, line, finding="It rises & <stays>.", headers=["x", "y"], rows=[(0, 0), (1, 1)])


def test_same_figure_gives_same_text():
    assert drawing("a", line, None, 2.8) == drawing("a", line, None, 2.8)


def test_figures_share_no_id():
    ids = [set(re.findall(r' id="([^"]+)"', drawing(name, line, None, 2.8))) for name in ("a", "b")]
    assert ids[0]
    assert not ids[0] & ids[1]


def test_colours_from_theme():
    svg = drawing("a", line, None, 2.8)
    assert "var(--hb-first)" in svg
    assert not re.search(r"#0a0b0\d", svg)
    assert not re.search(r"#[0-9a-f]{6}\b", svg), "every colour comes from the theme"


def test_placeholder_filled_with_labelled_drawing():
    html = make()
    assert "<path" not in html
    page = fill(f"<main>{html}</main>")
    assert 'role="img"' in page
    assert 'aria-label="It rises &#38; &#60;stays&#62;."' in page
    assert "data-drawing" not in page
    assert page.count("<td>") == 4


def test_styles_are_attributes():
    svg = drawing("a", lambda axes: axes.plot([0, 1], [0, 1], "--", color=COLOURS["first"]), None, 2.8)
    assert "style" not in svg
    assert svg.startswith('<svg stroke-linejoin="round" stroke-linecap="butt" ')
    assert re.search(r'<path [^>]*fill="none" stroke-dasharray="[\d., ]+" [^>]*stroke="var\(--hb-first\)"', svg)
    assert not re.search(r' font="', svg), "not an attribute of its own"


def test_drawing_is_small():
    assert len(drawing("a", line, None, 2.8)) < 20_000
    assert "<?xml" not in drawing("a", line, None, 2.8)
    assert "metadata" not in drawing("a", line, None, 2.8)
