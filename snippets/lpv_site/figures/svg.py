"""One look for all drawings, and matplotlib's SVG made small, stable and themed."""

from __future__ import annotations

import io
import re
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from matplotlib.figure import Figure

# Drawn in these exact colours, then replaced by the page's own variables, so
# that a figure follows light, dark and print.  Names say the role, not the hue.
COLOURS = {
    "ink": "#0a0b01",
    "muted": "#0a0b02",
    "grid": "#0a0b03",
    "first": "#0a0b04",
    "second": "#0a0b05",
    "third": "#0a0b06",
    "answer": "#0a0b07",
    "shade": "#0a0b08",
    "paper": "#0a0b09",
}

STYLE: dict[str, Any] = {
    "svg.fonttype": "none",
    "font.size": 9.0,
    "font.family": "DejaVu Sans",
    "axes.edgecolor": COLOURS["muted"],
    "axes.labelcolor": COLOURS["ink"],
    "axes.titlecolor": COLOURS["ink"],
    "axes.titlesize": 9.0,
    "axes.linewidth": 0.8,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.grid": True,
    "axes.axisbelow": True,
    "grid.color": COLOURS["grid"],
    "grid.linewidth": 0.6,
    "text.color": COLOURS["ink"],
    "xtick.color": COLOURS["muted"],
    "ytick.color": COLOURS["muted"],
    "xtick.labelcolor": COLOURS["ink"],
    "ytick.labelcolor": COLOURS["ink"],
    "lines.linewidth": 1.8,
    "legend.frameon": False,
    "figure.facecolor": "none",
    "axes.facecolor": "none",
    "path.simplify": True,
}

_LONG_DECIMALS = re.compile(r"(\d+\.\d\d)\d+")
_FONT = re.compile(r"'DejaVu Sans'(?:, [^;\"]*)?")
_STYLE = re.compile(r' style="([^"]*)"')
# matplotlib's style sheet for the whole drawing: inside a page it would be one for the whole page.
_SHEET = re.compile(r"<defs>\s*<style[^>]*>\*\{([^}]*)\}</style>\s*</defs>")


def to_svg(sheet: Figure, name: str) -> str:
    """The sheet as SVG text with ids prefixed by `name` and themed colours."""
    buffer = io.StringIO()
    sheet.savefig(
        buffer,
        format="svg",
        transparent=True,
        metadata={"Date": None, "Creator": None, "Format": None, "Type": None},
    )
    text = buffer.getvalue()
    text = text[text.index("<svg") :]
    text = _LONG_DECIMALS.sub(r"\1", text)
    text = _FONT.sub("inherit", text)
    text = _prefix_ids(text, name)
    for role, colour in COLOURS.items():
        text = text.replace(colour, f"var(--hb-{role})")
    text = re.sub(r' (?:width|height)="[\d.]+pt"', "", text, count=2)
    text = _without_styles(text)
    return re.sub(r"\n\s*", "\n", text).strip()


def _without_styles(text: str) -> str:
    """Styles as attributes of their own, so that a page may forbid styles written into it."""
    if sheet := _SHEET.search(text):
        text = _SHEET.sub("", text, count=1).replace("<svg", f"<svg{_attributes(sheet[1])}", 1)
    return _STYLE.sub(lambda match: _attributes(match[1]), text)


def _attributes(style: str) -> str:
    pairs = (declaration.split(":", 1) for declaration in style.split(";") if declaration.strip())
    return "".join(
        f' {name.strip()}="{value.strip()}"' for name, value in pairs if value.strip() != "inherit"
    )


def _prefix_ids(text: str, name: str) -> str:
    text = re.sub(r' id="([^"]+)"', rf' id="{name}-\1"', text)
    text = re.sub(r'href="#([^"]+)"', rf'href="#{name}-\1"', text)
    return re.sub(r"url\(#([^)]+)\)", rf"url(#{name}-\1)", text)
