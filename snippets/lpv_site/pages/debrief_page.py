"""The debrief index by what happened, generated from docs/debrief/codes.toml, and the codes on the task pages."""

import re
from collections.abc import Callable
from pathlib import Path

from lpv_site.department.data import DOCS
from lpv_site.pages.debrief_codes import GROUPS, Entry, code_at, codes, uncoded
from lpv_site.text.links import HEADING, relative
from lpv_site.text.search import phrases
from lpv_site.text.text import escape, front_matter

PAGE = "debrief/index.md"
# Ids of groups; "verification" is older than the groups and stays.
GROUP_IDS = {**{group: f"what-{group}" for group in GROUPS}, "data": "verification"}
ABOUT = "What happened in flight, with the exact place that explains it."
HOW = "Find what happened. A **code** is permanent: say it, write it down, or press it to copy the link. "
HOW += "With a recording: [your own](own.md), [others](flights/index.md).\n\n"


def debrief_pages(docs: Path = DOCS) -> dict[str, Callable[[], str]]:
    """The generated page; DataError if a code leads nowhere, or words for the search belong to none."""
    phrases(docs)
    return {PAGE: lambda: build_debrief_page(docs)}


def build_debrief_page(docs: Path = DOCS) -> str:
    """Every entry under "When it goes wrong" by what happened, with its code."""
    page = front_matter("Debrief: what happened?", ABOUT)
    page += HOW
    present = [group for group in GROUPS if any(entry.group == group for entry in codes(docs))]
    for group in present:
        page += f"\n## {GROUPS[group]} {{ #{GROUP_IDS[group]} }}\n\n"
        page += "".join(_line(entry) for entry in codes(docs) if entry.group == group)
    return page + _without_code(docs)


def _line(entry: Entry) -> str:
    """One entry: what happened, linked to the place, and the code."""
    what = escape(entry.what[0].upper() + entry.what[1:])
    return f"- [{what}]({relative(entry.at, PAGE)}){{ #{entry.code.lower()} }} {code_span(entry.code)}\n"


def code_span(code: str) -> str:
    """A code as it stands beside a heading or a link; docs/assets/handbook.js makes a button of it."""
    return f'<span class="hb-code">{code}</span>'


def _without_code(docs: Path) -> str:
    """What has no code yet is listed all the same."""
    rows = uncoded(docs)
    if not rows:
        return ""
    lines = "".join(f"- [{text}]({relative(at, PAGE)})\n" for at, text in rows.items())
    return f"\n## Without a code yet {{ #without-code }}\n\n{lines}"


def with_codes(markdown: str, address: str, docs: Path = DOCS) -> str:
    """A page's Markdown with the codes beside the headings that have one; ids and table of contents stay."""
    def coded(heading: re.Match[str]) -> str:
        code = code_at(docs).get(f"{address}#{heading[3]}")
        if code is None:
            return heading[0]
        label = escape(heading[2])
        return f'{heading[1]} {heading[2]} {code_span(code)} {{ #{heading[3]} data-toc-label="{label}" }}'

    return HEADING.sub(coded, markdown)
