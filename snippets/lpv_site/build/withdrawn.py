"""What was taken back: the list that devices ask for, a page that says so at each address, and rows for the page of a
wrong address.  Copies on devices learn it from the list (`worker.js`), readers with network from the page.
"""

import json
from collections.abc import Container
from html import escape
from pathlib import Path

from lpv.core.errors import DataError, Fault
from lpv_site.build import edition
from lpv_site.build.moves import FILE, Withdrawal, lists
from lpv_site.build.policy import secured
from lpv_site.build.seal import sealed

LIST = "withdrawn.json"  # what the worker asks for whenever there is a network
MAX_NAMED = 20  # on the page for a wrong address, the latest ones


def withdrawals(docs: Path, present: Container[str] = ()) -> list[Withdrawal]:
    """Every page that was withdrawn, as listed, a department's own last.

    present: addresses below docs/ of all pages; DataError for one that is on the list and there all the same
    """
    rows = [row for move_list in lists(docs) for row in move_list.withdrawn]
    faults = [Fault(FILE, f"withdrawn: {row.page}", "a page that is still there", "one that is gone",
                    "Take the line out, or the page.") for row in rows if row.page in present]
    if faults:
        raise DataError(faults)
    return rows


def files(rows: list[Withdrawal], directory_urls: bool) -> dict[str, str]:
    """Address on the site -> content: the list, and a whole page for each that was withdrawn."""
    listed = [[address(row), row.on.isoformat(), row.why or ""] for row in rows]
    made = {LIST: json.dumps({"withdrawn": listed}, ensure_ascii=False, separators=(",", ":")) + "\n"}
    for row in rows:
        place = f"{address(row)}index.html" if directory_urls else row.page.replace(".md", ".html")
        made[place] = page(row, "../" * place.count("/"), directory_urls)
    return made


def latest(rows: list[Withdrawal]) -> list[tuple[str, str, str]]:
    """The last that were withdrawn: address, day, reason."""
    ordered = sorted(rows, key=lambda row: row.on, reverse=True)[:MAX_NAMED]
    return [(address(row), row.on.isoformat(), row.why or "") for row in ordered]


def page(row: Withdrawal, up: str, directory_urls: bool = True) -> str:
    """The page at an address that was withdrawn; up: way to the site's root."""
    why = f"<p>{escape(row.why)}</p>" if row.why else ""
    words = f"Withdrawn on {row.on.isoformat()}"
    start = up or "./"
    text = (
        '<!doctype html>\n<html lang="en" data-withdrawn><head><meta charset="utf-8">'
        f'<title>{words}</title><meta name="description" content="This page was taken back. Do not use a copy of it.">'
        f'<meta name="hb-built" content="{edition.built()}"><meta name="color-scheme" content="light dark">'
        '<meta name="robots" content="noindex"><meta name="viewport" content="width=device-width, initial-scale=1">'
        f"</head><body><main><h1>{words}</h1><p><strong>Do not use this page, nor a copy or print of it.</strong></p>"
        f'{why}<p>{escape(address(row))}</p><p><a href="{start if directory_urls else f"{up}index.html"}">'
        "Start of the handbook</a></p></main></body></html>\n"
    )
    return sealed(secured(text, row.page, "" if directory_urls else "file:"), address(row))


def address(row: Withdrawal) -> str:
    """Where the page stood on the site."""
    return row.page.removesuffix("index.md").replace(".md", "/")
