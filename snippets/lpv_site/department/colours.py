"""A department's own colours: validated, contrast computed, written as a style sheet on top of ours."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from lpv.core.text import number
from lpv.files import schema

STYLES = Path(__file__).resolve().parents[3] / "docs" / "assets" / "handbook.css"
# The web's rule for the contrast of text, from memory.
MIN_CONTRAST = 4.5
PLACES = {"light": '[data-md-color-scheme="default"]', "dark": '[data-md-color-scheme="slate"]'}
VARIABLE = re.compile(r"--hb-(paper|shade):\s*(#[0-9a-f]{6})")


def _colour(label: str) -> str | None:
    field: str | None = schema.text(label, pattern="#[0-9a-fA-F]{6}", example="#17324a", required=False)
    return field


@dataclass(frozen=True, kw_only=True)
class Colours:
    """Each is a colour as #rrggbb; one that is missing stays ours."""

    header: str | None = _colour("ground of the header, under white text")
    link: str | None = _colour("links in light pages")
    link_dark: str | None = _colour("links in dark pages")

    def faults(self) -> Iterator[tuple[str, str, str, str]]:
        """Text can be read on each."""
        for key, colour, grounds in self._pairs():
            for name, ground in grounds.items():
                ratio = contrast(colour, ground)
                if ratio < MIN_CONTRAST:
                    yield (key, f"{colour}, contrast {number(ratio, 0.01)} with {name} {ground}",
                           f"at least {MIN_CONTRAST}",
                           "Take a darker one." if key != "link_dark" else "Take a lighter one.")

    def _pairs(self) -> Iterator[tuple[str, str, dict[str, str]]]:
        if self.header:
            yield "header", self.header, {"white text": "#ffffff"}
        if self.link:
            yield "link", self.link, grounds("light")
        if self.link_dark:
            yield "link_dark", self.link_dark, grounds("dark")

    def style_sheet(self) -> str:
        """The style sheet, "" if no colour is given."""
        light = {"--md-primary-fg-color": self.header, "--md-accent-fg-color": self.link,
                 "--md-typeset-a-color": self.link}
        dark = {"--md-accent-fg-color": self.link_dark, "--md-typeset-a-color": self.link_dark}
        rules = ((f":root,\n{PLACES['light']}", light), (PLACES["dark"], dark))
        return "".join(
            f"{place} {{ {' '.join(f'{name}: {colour};' for name, colour in values.items() if colour)} }}\n"
            for place, values in rules if any(values.values())
        )


def grounds(scheme: str) -> dict[str, str]:
    """What links lie on in our style sheet, light or dark: name -> colour."""
    text = STYLES.read_text("utf-8")
    block = text[text.index(PLACES[scheme]) :]
    return dict(VARIABLE.findall(block[: block.index("}")]))


def contrast(first: str, second: str) -> float:
    """Contrast ratio of two colours, 1 to 21, by the web's rule (from memory)."""
    low, high = sorted((luminance(first), luminance(second)))
    return (high + 0.05) / (low + 0.05)


def luminance(colour: str) -> float:
    """Relative luminance of a colour #rrggbb, 0 to 1, by the same rule."""
    parts = [int(colour[start : start + 2], 16) / 255.0 for start in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
