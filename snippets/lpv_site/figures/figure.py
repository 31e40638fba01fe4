"""Figures: drawn by matplotlib, themed by the page, readable on a phone.

matplotlib is loaded with the first drawing: where all drawings are kept from the last build, nothing waits for it.

Every figure carries its finding in words and its data as a table.  A figure is
returned as HTML with a placeholder for the drawing; `fill` puts the drawings in
after the page is rendered, so that neither Markdown nor search works on SVG.
"""

import hashlib
import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from lpv_site.figures.svg import COLOURS, STYLE, to_svg
from lpv_site.text.table import html_table
from lpv_site.text.text import escape, verbatim

WIDTH_IN = 3.8
MARGINS_IN = (0.60, 0.12, 0.46, 0.16)  # left, right, bottom, top
POINTS_PER_IN = 72.0
_drawings: dict[str, str] = {}
_PLACEHOLDER = re.compile(r'<svg data-drawing="([0-9a-f]{16})"></svg>')


def figure(
    name: str,
    draw: Callable[..., None],
    *,
    finding: str,
    headers: Sequence[str],
    rows: Sequence[Sequence[object]],
    height_in: float = 2.8,
    data: Any = None,
) -> str:
    """HTML of a figure: drawing, finding in words, data as a folded table.

    name:    its permanent id on the page
    draw:    called with (axes, data), or with (axes) when data is None
    finding: one sentence, what the figure shows; also its text alternative
    """
    return figure_html(name, drawing(name, draw, data, height_in), finding, headers, rows)


def drawing(name: str, draw: Callable[..., None], data: Any, height_in: float) -> str:
    """The SVG text of one drawing, the same for the same input on every run."""
    import matplotlib

    matplotlib.use("svg")
    from matplotlib import rc_context
    from matplotlib.figure import Figure

    settings: Any = {**STYLE, "svg.hashsalt": name}
    with rc_context(settings):
        sheet = Figure(figsize=(WIDTH_IN, height_in))
        # Fixed margins: measuring the text for automatic ones doubles the cost of a drawing.
        axes = sheet.add_axes(_box(height_in))
        if data is None:
            draw(axes)
        else:
            draw(axes, data)
        return to_svg(sheet, name)


def _box(height_in: float) -> tuple[float, float, float, float]:
    """Left, bottom, width and height of the axes as parts of the sheet."""
    left, right, bottom, top = MARGINS_IN
    width = (WIDTH_IN - left - right) / WIDTH_IN
    return left / WIDTH_IN, bottom / height_in, width, (height_in - bottom - top) / height_in


def figure_html(
    name: str,
    svg: str,
    finding: str,
    headers: Sequence[str],
    rows: Sequence[Sequence[object]],
) -> str:
    """The figure element around a drawing (see `figure`)."""
    labelled = svg.replace("<svg ", f'<svg role="img" aria-label="{verbatim(finding)}" ', 1)
    folded = f"<details><summary>The data of this figure</summary>{html_table(headers, rows)}</details>"
    return (
        f'<figure class="hb-figure" id="{name}" data-search-exclude>{set_aside(labelled)}'
        f"<figcaption>{escape(finding)}</figcaption>{folded}</figure>\n"
    )


def set_aside(html: str) -> str:
    """A placeholder for finished HTML that neither Markdown nor search needs to see, for `fill` to replace.

    It belongs inside a block element: Markdown takes it for a word of text.
    """
    key = hashlib.sha256(html.encode()).hexdigest()[:16]
    _drawings[key] = html
    return f'<svg data-drawing="{key}"></svg>'


def drawings_of(page: str) -> dict[str, str]:
    """What a page's placeholders refer to, by key, and what those refer to in turn."""
    drawings: dict[str, str] = {}
    for key in _PLACEHOLDER.findall(page):
        drawings |= {key: _drawings[key], **drawings_of(_drawings[key])}
    return drawings


def remember(drawings: Mapping[str, str]) -> None:
    """What was set aside elsewhere, for a page that is made here of Markdown from there."""
    _drawings.update(drawings)


def forget() -> None:
    """Forget all that was set aside: where a page is made and kept."""
    _drawings.clear()


def fill(page_html: str, parts: Mapping[str, str] = _drawings) -> str:
    """The page with every placeholder replaced by what was set aside, one inside another too."""
    return _PLACEHOLDER.sub(lambda match: fill(parts[match[1]], parts), page_html)


__all__ = ["COLOURS", "drawing", "drawings_of", "figure", "figure_html", "fill", "remember", "set_aside"]
