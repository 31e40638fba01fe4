"""The index of all briefings, by airport, and a filter that a script adds to it.

Few approaches stand in one list.  Of many the index names groups of airports, each with a page of its own, and the
filter fetches the list when it is used: no page grows with their number.  The lists are written as HTML at once and
set aside: Markdown, search and the table of contents would work on them longer than on everything else.
"""

import hashlib
import json
from collections.abc import Container, Mapping
from itertools import groupby

from lpv.core.text import plural
from lpv_site.briefing.briefing import IndexEntry
from lpv_site.figures.figure import set_aside
from lpv_site.text.findings import MARKS
from lpv_site.text.text import escape
from lpv_site.text.validity import notices

WORTH_A_FILTER = 9
MAX_IN_ONE_LIST = 300
INDEX = "approaches/index.md"
Entries = Mapping[str, IndexEntry]
HEAD = """---
title: Approaches
description: One briefing for each approach, by airport.
hide: [toc]
---

# Approaches { #top }

One approach on one page. Find the airport, then the runway. [What changed this cycle](changes.md).

"""
GROUP_HEAD = """---
title: Airports beginning with %s
description: Briefings of the approaches whose airport begins with %s, by airport.
hide: [toc]
search:
  exclude: true
---

# Airports beginning with %s { #top }

[All approaches](../index.md)

"""
STYLES = '<link rel="stylesheet" href="{up}assets/approach-index.css">'
SCRIPT = '<script src="{up}assets/approach-index.js" defer></script>'
DEMO = '<h2 id="practice">Invented, for practice</h2>'


def index_pages(entries: Entries, demo: Container[str] = ()) -> dict[str, str]:
    """Address below docs/ -> Markdown of the index and of the pages that it is divided into.

    entries: slug -> entry
    demo:    slugs of approaches that only drills and examples are for
    """
    own = {slug: entry for slug, entry in entries.items() if slug not in demo}
    demo_airports = _airports({slug: entry for slug, entry in entries.items() if slug in demo})
    practice = DEMO + demo_airports if demo_airports else ""
    if not is_divided(entries, demo):
        return {INDEX: _page(HEAD, _held(own or entries) + _filter(len(entries)) + _airports(own) + practice)}
    divided = groups(own)
    pages = {group_address(letters): _group_page(letters, members) for letters, members in divided.items()}
    links = "".join(_link(letters, members) for letters, members in divided.items())
    place = _filter(len(entries), f' data-list="../{list_file(entries)[0]}" data-count="{len(entries)}"')
    body = f'{_held(own or entries)}{place}<section><ul>{links}</ul></section>{practice}'
    return {INDEX: _page(HEAD, body)} | pages


def _held(entries: Entries) -> str:
    """From when to when the approaches of a list hold."""
    return notices(entry.cycle for entry in entries.values())


def _filter(count: int, more: str = "") -> str:
    return f'<div class="hb-filter"{more}></div>{SCRIPT}' if count >= WORTH_A_FILTER else ""


def _group_page(letters: str, entries: Entries) -> str:
    body = _held(entries) + _filter(len(entries)) + _airports(entries, "../")
    return _page(GROUP_HEAD.replace("%s", escape(letters)), body, "../../")


def _page(head: str, body: str, up: str = "../") -> str:
    """A page with its style; up: the way from it to the site's root."""
    html = (STYLES + body).replace("{up}", up)
    return f'{head}<div class="hb-index" data-search-exclude>{set_aside(html)}</div>\n'


def is_divided(entries: Entries, demo: Container[str] = ()) -> bool:
    """Whether there are too many for one list."""
    return sum(slug not in demo for slug in entries) > MAX_IN_ONE_LIST


def groups(entries: Entries, length: int = 1) -> dict[str, Entries]:
    """First letters of airports -> their approaches; as many letters as make a list short enough, where they can."""
    divided: dict[str, Entries] = {}
    by_airport = sorted(entries.items(), key=lambda item: (item[1].airport, item[0]))
    for letters, members in groupby(by_airport, key=lambda item: item[1].airport[:length]):
        group = dict(members)
        longest = max(len(entry.airport) for entry in group.values())
        if len(group) <= MAX_IN_ONE_LIST or length >= longest:
            divided[letters] = group
        else:
            divided |= groups(group, length + 1)
    return divided


def group_address(letters: str) -> str:
    """Where the page of a group stands below docs/: in a folder of its own, so that no approach has its name."""
    return f"approaches/of-{letters.lower()}/index.md"


def _link(letters: str, entries: Entries) -> str:
    """A group: its first and last airport, and how many approaches are in it."""
    airports = sorted({entry.airport for entry in entries.values()})
    ends = airports[0] if len(airports) == 1 else f"{airports[0]} to {airports[-1]}"
    address = group_address(letters).removeprefix("approaches/")
    return f'<li><a href="{address}">{escape(ends)}</a> {len(entries)} approaches</li>'


def list_file(entries: Entries) -> tuple[str, str]:
    """Address and content of the list that the filter fetches: airports with name and rows; its name tells its content.

    A row is the slug and what the list shows of an approach.
    """
    airports = [
        [airport, entries[slugs[0]].airport_name, [[slug, entries[slug].title, _told(entries[slug])] for slug in slugs]]
        for airport, slugs in _by_airport(entries).items()
    ]
    text = json.dumps(airports, ensure_ascii=False, separators=(",", ":")) + "\n"
    return f"assets/approaches.{hashlib.sha256(text.encode()).hexdigest()[:8]}.json", text


def index_files(entries: Entries, demo: Container[str] = ()) -> dict[str, str]:
    """Address -> content of the list that the filter fetches; {} where the list stands on the page."""
    return dict([list_file(entries)]) if is_divided(entries, demo) else {}


def _by_airport(entries: Entries) -> dict[str, list[str]]:
    """Airport -> slugs of its approaches in the order of their titles."""
    slugs: dict[str, list[str]] = {}
    for slug, entry in sorted(entries.items(), key=lambda item: (item[1].airport, item[1].title, item[0])):
        slugs.setdefault(entry.airport, []).append(slug)
    return slugs


def _airports(entries: Entries, up: str = "") -> str:
    """The airports with their approaches; up: the way from the page to the folder of the briefings."""
    return "".join(_airport(airport, slugs, entries, up) for airport, slugs in _by_airport(entries).items())


def _airport(airport: str, slugs: list[str], entries: Entries, up: str) -> str:
    name = escape(entries[slugs[0]].airport_name)
    lines = "".join(
        f'<li><a href="{up}{slug}.md">{escape(entries[slug].title)}</a> {escape(_told(entries[slug]))}</li>'
        for slug in slugs
    )
    return f'<section><h2 id="{airport.lower()}">{escape(airport)} {name}</h2><ul>{lines}</ul></section>'


def _told(entry: IndexEntry) -> str:
    """What the crew compares first; before it, that the approach must not be flown."""
    stopped = f"{MARKS['stop']} Do not fly it: {plural(entry.stops, 'stop')}. " if entry.stops else ""
    return f"{stopped}{entry.level_of_service} {entry.channel} {entry.path_id}"
