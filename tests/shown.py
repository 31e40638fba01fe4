"""What tests ask of a page script's answer: its numbers by key, and its tables as rows of plain cells.

    from final.rate import show
    assert show().number("regain") == pytest.approx(1078, abs=0.5)
    assert cell(show(), "130 kt", 1) == "690"
"""

import html
import re

from lpv_site.text.shown import Shown

SPACES = str.maketrans({"\u202f": " ", "\u00a0": " ", "\u2212": "-"})
RULE = re.compile(r"\|(?::?-+:?\|)+")


def plain(cell: str) -> str:
    """A cell as a reader sees it: no markup, ordinary spaces and hyphens."""
    text = html.unescape(re.sub(r"<[^>]*>|\*\*|`", "", cell))
    return re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", text).translate(SPACES).strip()


def rows(shown: Shown) -> list[list[str]]:
    """The rows of all tables in the Markdown, headers left out."""
    lines = [line.strip() for line in shown.markdown.splitlines()]
    heads = {index - 1 for index, line in enumerate(lines) if RULE.fullmatch(line)}
    return [
        [plain(cell) for cell in line.strip("|").split("|")]
        for index, line in enumerate(lines)
        if line.startswith("|") and index not in heads and not RULE.fullmatch(line)
    ]


def row(shown: Shown, first: str) -> list[str]:
    """The one row whose first cell reads so."""
    same = [cells for cells in rows(shown) if cells[0] == first]
    assert len(same) == 1, f"{len(same)} rows begin with {first!r}; there are {[cells[0] for cells in rows(shown)]}"
    return same[0]


def cell(shown: Shown, first: str, column: int) -> str:
    """A cell of that row."""
    return row(shown, first)[column]


def lines(shown: Shown) -> dict[str, list[tuple[str, str]]]:
    """Stacked entries: head -> its lines, each (what, text)."""
    texts = {}
    for entry in re.findall(r'<div class="hb-row">(.*?)</dl></div>', shown.markdown, re.S):
        head = plain(re.search(r"hb-row-head\">(.*?)</p>", entry)[1])
        texts[head] = [(plain(what), plain(text)) for what, text in re.findall(r"<dt>(.*?)</dt> <dd>(.*?)</dd>", entry)]
    return texts


def row_of(shown: Shown, first: str) -> list[str]:
    """The cells of the row of a figure's table that begins so."""
    table = [[plain(each) for each in re.findall(r"<t[dh][^>]*>(.*?)</t[dh]>", line)]
             for line in re.findall(r"<tr>(.*?)</tr>", shown.markdown, re.S)]
    return next(cells for cells in table if cells and cells[0] == first)


def printed(shown: Shown) -> list[str | list[list[str]]]:
    """All that a script prints, in order: paragraphs as texts; tables and stacked entries as lists of rows.

    Of a table the first row is its head, where right-aligned columns begin with "> "; of an entry the first row is its
    name.  Bold stays as `**`, links and code as Markdown; a line break within a cell is " / ".
    """
    blocks: list = [None]
    for line in _lines(shown.markdown):
        if not line.startswith("|"):
            blocks.append(_bare(line) or None)
            continue
        cells = [_bare(cell) for cell in line.strip("|").split("|")]
        if RULE.fullmatch(line):
            sides = ["" if cell.startswith(":") else "> " for cell in line.strip("|").split("|")]
            blocks[-1][0] = [side + head for side, head in zip(sides, blocks[-1][0], strict=True)]
        elif isinstance(blocks[-1], list):
            blocks[-1].append(cells)
        else:
            blocks.append([cells])
    return [block for block in blocks if block is not None]


def _lines(markdown: str) -> list[str]:
    """Markdown with the tables of figures, stacked entries and lists in HTML as lines of their own."""
    def row(cells: list[str]) -> str:
        return "\n|" + "|".join(cells) + "|"

    def entry(match: re.Match) -> str:
        pairs = re.findall(r"<dt>(.*?)</dt> <dd>(.*?)</dd>", match[2], re.S)
        return "\n\n" + row([match[1]]) + "".join(row(list(pair)) for pair in pairs) + "\n\n"

    text = re.sub(r'<div class="hb-row"><p class="hb-row-head">(.*?)</p>(.*?)</dl></div>', entry, markdown, flags=re.S)
    text = re.sub(r"<tr>(.*?)</tr>", lambda line: row(re.findall(r"<t[dh][^>]*>(.*?)</t[dh]>", line[1])), text)
    text = re.sub(r"<(?:svg|summary).*?</(?:svg|summary)>|</?(?:thead|tbody)>", "", text, flags=re.S)
    text = re.sub(r"</?(?:p|div|section|figcaption|details|table)\b[^>]*>", "\n\n", text)
    return [line.strip() for line in text.splitlines()]


def _bare(text: str) -> str:
    """A text without tags; bold, and breaks of a line, in signs."""
    text = re.sub(r"</?b>", "**", re.sub(r"<br/?>", " / ", text))
    return html.unescape(re.sub(r"<[^>]*>", "", text)).translate(SPACES).strip()


class about:
    """A text with numbers worked out in another way: `about("{:.1f} NM out", 6.05)` equals what prints 6.0 or 6.1.

    off: how far a printed number may lie from the one given; by default little more than its rounding
    """

    def __init__(self, words: str, *numbers: float, off: float | None = None) -> None:
        self.words, self.numbers, self.off = words, numbers, off

    def __eq__(self, other: object) -> bool:
        parts = re.split(r"\{:\.(\d)f\}", self.words)
        places = [int(count) for count in parts[1::2]]
        pattern = re.escape(parts[0]) + "".join(
            r"(-?\d+" + (rf"\.\d{{{count}}}" if count else "") + ")" + re.escape(after)
            for count, after in zip(places, parts[2::2], strict=True))
        match = re.fullmatch(pattern, str(other))
        return bool(match) and all(
            abs(float(text) - number) <= (0.52 * 10.0**-count if self.off is None else self.off)
            for text, number, count in zip(match.groups(), self.numbers, places, strict=True))

    __hash__ = None

    def __repr__(self) -> str:
        return f"about({self.words!r}, {', '.join(f'{number:.6g}' for number in self.numbers)}, off={self.off})"
