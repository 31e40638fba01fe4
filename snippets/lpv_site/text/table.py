"""Tables that fit a phone: at most four narrow columns, or stacked rows."""

from collections.abc import Iterable, Iterator, Sequence

from lpv_site.text.text import verbatim

MAX_COLUMNS = 4
ALL_LEFT = MAX_COLUMNS  # for a table of words


def table(headers: Sequence[str], rows: Iterable[Sequence[object]], *, left: int = 1) -> str:
    """A Markdown table; the first `left` columns left, the others right aligned.

    Cells are Markdown of our own (text from data files goes through `escape` before).
    Raises ValueError for more than four columns or a row of another length.
    """
    lines = ["| " + " | ".join(headers) + " |"]
    lines.append("|" + "|".join(":---" if i < left else "---:" for i in range(len(headers))) + "|")
    for row in fitting(headers, rows):
        lines.append("| " + " | ".join(str(cell).replace("|", "&#124;") for cell in row) + " |")
    return "\n".join(lines) + "\n"


def finding_and_table(finding: str, headers: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """A sentence, and the table that it is taken from: where a live figure of the page draws the same."""
    return f"{finding}\n\n{table(headers, rows)}"


def fitting(headers: Sequence[str], rows: Iterable[Sequence[object]]) -> Iterator[Sequence[object]]:
    """The rows; ValueError for more columns than fit a phone, or a row of another length."""
    if len(headers) > MAX_COLUMNS:
        raise ValueError(
            f"{len(headers)} columns do not fit a phone; at most {MAX_COLUMNS}, or use stacked()"
        )
    for row in rows:
        if len(row) != len(headers):
            raise ValueError(f"row of {len(row)} cells under {len(headers)} headers: {row}")
        yield row


def finished(headers: Sequence[str], rows: Iterable[Sequence[object]], *, left: int = 1) -> str:
    """The HTML that Markdown makes of `table`, for pages of which there are thousands; cells are HTML of our own."""
    def row(kind: str, cells: Sequence[object]) -> str:
        places = ("left" if place < left else "right" for place in range(len(cells)))
        return "<tr>" + "".join(
            f'<{kind} align="{place}">{cell}</{kind}>' for place, cell in zip(places, cells, strict=True)) + "</tr>"

    body = "".join(row("td", cells) for cells in fitting(headers, rows))
    return f'<table tabindex="0"><thead>{row("th", headers)}</thead><tbody>{body}</tbody></table>\n'


def html_table(headers: Sequence[str], rows: Iterable[Sequence[object]], caption: str = "") -> str:
    """The same as HTML for use inside raw blocks; every cell is escaped as it stands, as the phone writes it."""
    head = "".join(f'<th scope="col">{verbatim(h)}</th>' for h in headers)
    body = "".join("<tr>" + "".join(f"<td>{verbatim(cell)}</td>" for cell in row) + "</tr>" for row in rows)
    title = f"<caption>{verbatim(caption)}</caption>" if caption else ""
    return f"<table>{title}<thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"


def stacked(entries: Iterable[tuple[str, Sequence[tuple[str, object]]]]) -> str:
    """Wide rows as stacked blocks: a heading line, then label and value pairs.

    Values and headings are HTML of our own; text from data goes through `escape` before.
    """
    blocks = []
    for heading, pairs in entries:
        body = "".join(
            f"<div><dt>{label}</dt> <dd>{value}</dd></div>" for label, value in pairs if value != ""
        )
        blocks.append(f'<div class="hb-row"><p class="hb-row-head">{heading}</p><dl>{body}</dl></div>')
    return f'<div class="hb-stack">{"".join(blocks)}</div>\n'
