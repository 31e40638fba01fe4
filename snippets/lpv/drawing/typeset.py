"""The room that words take, and words as SVG text.

The reader's browser chooses the font.  Widths are those of a wide one, so that words keep clear of each other in any.
"""

SIZE = 120
"""Height of the letters: twelve pixels on a small phone."""
LARGE = 130
LEADING = 144
ASCENT, DESCENT = 93, 24  # of a line, in hundredths of its size

# Hundredths of the size that a letter takes; all others take OTHER.
OTHER = 64
_WIDTHS = (
    (22, "\u202f"), (30, "ijlI'|!"), (36, " .,:;/-"), (42, "ft()r"), (54, "cksz°"), (70, "ABEFKPRSTXYZv"),
    (84, "CDGHNOQUVw"), (86, "+\u2212=%\u2192\u00d7~"), (100, "mMW@"),
)
WIDTHS = {}
for _width, _letters in _WIDTHS:
    for _letter in _letters:
        WIDTHS[_letter] = _width
BOLD = 110  # hundredths: how much wider bold letters are


def width(text: str, size: int = SIZE, bold: bool = False) -> int:
    """The width of a line of text, rather too much than too little."""
    total = 0
    for letter in text:
        total += WIDTHS.get(letter, OTHER)
    return total * size * (BOLD if bold else 100) // 10000


def escaped(text: str) -> str:
    """Any text as the content of an element or an attribute."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")


def element(x: int, y: int, text: str, role: str, anchor: str = "", size: int = SIZE, bold: bool = False) -> str:
    """A line of text.  anchor: "" where it begins at x, "middle" or "end";  y: its baseline."""
    place = f' text-anchor="{anchor}"' if anchor else ""
    look = role + (" large" if size == LARGE else "") + (" bold" if bold else "")
    return f'<text x="{x}" y="{y}" class="{look}"{place}>{escaped(text)}</text>'


def box(
    x: int, y: int, text: str, anchor: str = "", size: int = SIZE, bold: bool = False,
) -> "tuple[int, int, int, int]":
    """Left, top, right and bottom of a line of text that is set as `element` sets it."""
    wide = width(text, size, bold)
    left = x - (wide if anchor == "end" else wide // 2 if anchor == "middle" else 0)
    return left, y - ASCENT * size // 100, left + wide, y + DESCENT * size // 100
