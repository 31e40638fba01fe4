"""Under the title of a page: jumps to what a crew looks for on it, made of its headings.

A task page has up to four: what to do, the table, what goes wrong, how it is computed.  A briefing, and every other
page of several parts, has a list of them, folded.  What is read on one screen has none.
"""

import re
from typing import Any

NAMES = {"do": "Do", "wrong": "Goes wrong", "computed": "Computed"}
FORM, TABLE = "Form", "Table"
ASIDE = {*NAMES, "why", "memory", "paper"}  # what no table or figure stands below
LEAST = 2
END_OF_TITLE = "</h1>"
SEVERAL = 4  # parts, from which a list of them saves scrolling
BRIEFING = re.compile(r"approaches/(?!index\.md|changes\.md).+\.md")
UNLISTED = re.compile(r"index\.md|now/.+|approaches/index\.md|practice/(?:plain|subtle|mixed|numbers|sequences)\.md")
JUMPS = re.compile(r'<(nav|details) class="hb-(?:jumps|contents)".*?</\1>', re.S)


def with_jumps(html: str, toc: list[dict[str, Any]], address: str) -> str:
    """A page's HTML with its jumps after the title; as it is where the page has too few headings for them."""
    headings = [(entry["id"], entry["name"]) for top in toc[:1] for entry in top["children"]]
    made = _contents(headings) if _is_listed(headings, address) else _jumps(task_jumps(headings))
    return html.replace(END_OF_TITLE, END_OF_TITLE + made, 1)


def _is_listed(headings: list[tuple[str, str]], address: str) -> bool:
    if UNLISTED.fullmatch(address) or task_jumps(headings):
        return False
    return bool(BRIEFING.fullmatch(address)) or len(headings) >= SEVERAL


def without_jumps(html: str) -> str:
    """HTML without what `with_jumps` adds."""
    return JUMPS.sub("", html)


def task_jumps(headings: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """Id and short name of each jump of a task page, in the order of the names; [] for a page that is none.

    headings: id and words of each part of the page
    """
    keys = {key for key, _ in headings}
    if "do" not in keys or len(keys & NAMES.keys()) < LEAST:
        return []
    tables = [(key, FORM if key == "form" else TABLE) for key, _ in headings if key not in ASIDE][:1]
    named = [(key, name) for key, name in NAMES.items() if key in keys]
    return [named[0], *tables, *named[1:]]


def _jumps(targets: list[tuple[str, str]]) -> str:
    if not targets:
        return ""
    links = "".join(f'<a href="#{key}">{name}</a>' for key, name in targets)
    return f'<nav class="hb-jumps" aria-label="Jumps" data-search-exclude>{links}</nav>'


def _contents(headings: list[tuple[str, str]]) -> str:
    links = "".join(f'<li><a href="#{key}">{name}</a></li>' for key, name in headings)
    return (
        '<details class="hb-contents" data-search-exclude><summary>On this page</summary>'
        f"<ul>{links}</ul></details>"
    )
