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
    found = [cells for cells in rows(shown) if cells[0] == first]
    assert len(found) == 1, f"{len(found)} rows begin with {first!r}; there are {[cells[0] for cells in rows(shown)]}"
    return found[0]


def cell(shown: Shown, first: str, column: int) -> str:
    """A cell of that row."""
    return row(shown, first)[column]


def lines(shown: Shown) -> dict[str, list[tuple[str, str]]]:
    """Stacked entries: head -> its lines, each (what, text)."""
    found = {}
    for entry in re.findall(r'<div class="hb-row">(.*?)</dl></div>', shown.markdown, re.S):
        head = plain(re.search(r"hb-row-head\">(.*?)</p>", entry)[1])
        found[head] = [(plain(what), plain(text)) for what, text in re.findall(r"<dt>(.*?)</dt> <dd>(.*?)</dd>", entry)]
    return found


def row_of(shown: Shown, first: str) -> list[str]:
    """The cells of the row of a figure's table that begins so."""
    found = [[plain(each) for each in re.findall(r"<t[dh][^>]*>(.*?)</t[dh]>", line)]
             for line in re.findall(r"<tr>(.*?)</tr>", shown.markdown, re.S)]
    return next(cells for cells in found if cells and cells[0] == first)
