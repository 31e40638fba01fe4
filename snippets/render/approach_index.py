"""The index of all briefings: by airport, a plain list that a script narrows while the reader types.

It is written as HTML at once and set aside: with thousands of lines, Markdown, search and the table of contents
would work on it longer than on everything else.
"""

from collections.abc import Container

from render.briefing import IndexEntry
from render.figure import set_aside
from render.text import escape

WORTH_A_FILTER = 9
HEAD = """---
title: Approaches
description: One briefing for each approach, by airport.
hide: [toc]
---

# Approaches { #top }

One approach on one page. Find the airport, then the runway. [What changed this cycle](changes.md).

"""
BEHAVIOUR = (
    '<link rel="stylesheet" href="../assets/approach-index.css">'
    '<div class="hb-filter"></div><script src="../assets/approach-index.js" defer></script>'
)
DEMO = '<h2 id="practice">Invented, for practice</h2>'


def build_index_page(entries: dict[str, IndexEntry], demo: Container[str] = ()) -> str:
    """The index as Markdown: slug -> entry; demo are the slugs of approaches that only drills and examples are for."""
    own = {slug: entry for slug, entry in entries.items() if slug not in demo}
    rest = {slug: entry for slug, entry in entries.items() if slug in demo}
    body = BEHAVIOUR if len(entries) >= WORTH_A_FILTER else BEHAVIOUR.partition("<div")[0]
    body += _airports(own) + (DEMO + _airports(rest) if rest else "")
    return f'{HEAD}<div class="hb-index" data-search-exclude>{set_aside(body)}</div>\n'


def _airports(entries: dict[str, IndexEntry]) -> str:
    by_airport: dict[str, list[str]] = {}
    for slug, entry in entries.items():
        by_airport.setdefault(entry.airport, []).append(slug)
    return "".join(_airport(airport, slugs, entries) for airport, slugs in sorted(by_airport.items()))


def _airport(airport: str, slugs: list[str], entries: dict[str, IndexEntry]) -> str:
    name = escape(entries[slugs[0]].airport_name)
    lines = "".join(_line(slug, entries[slug]) for slug in sorted(slugs, key=lambda slug: (entries[slug].title, slug)))
    return f'<section><h2 id="{airport.lower()}">{escape(airport)} {name}</h2><ul>{lines}</ul></section>'


def _line(slug: str, entry: IndexEntry) -> str:
    """One approach: what it is called, and what the crew compares first."""
    return (
        f'<li><a href="{slug}.md">{escape(entry.title)}</a> '
        f"{entry.level_of_service} {entry.channel} {escape(entry.path_id)}</li>"
    )
