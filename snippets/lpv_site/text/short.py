"""Short addresses, r/<code>/, to say on the radio, to write on paper, to paste into a chat.

An entry under "When it goes wrong" has the code of the debrief index; every other heading has five signs that come
from the address it was published with, so that they never change.
"""

import hashlib
import json
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from types import MappingProxyType
from typing import Any

from lpv.core.errors import DataError, Fault
from lpv_site.build.moved import Gone, gone_pages, leading_page, now_at
from lpv_site.build.moves import moves
from lpv_site.figures.qr import permanent_address
from lpv_site.pages.debrief_codes import codes
from lpv_site.text.links import HEADING

ROOM = "r"
LIST = "assets/short.json"
SIGNS = "bcdfghjkmnpqrstvwxz23456789"  # no vowels, so no words; none that looks like another
LENGTH = 5


@dataclass(frozen=True)
class Place:
    """A heading: its address below docs/, its words, the title and description of its page."""

    at: str
    words: str
    title: str
    about: str


def code_of(address: str) -> str:
    """The five signs of an address ("verify/index.md#do")."""
    number = int.from_bytes(hashlib.sha256(address.encode()).digest()[:8])
    signs = ""
    for _ in range(LENGTH):
        number, sign = divmod(number, len(SIGNS))
        signs += SIGNS[sign]
    return signs


def has_codes(page: str) -> bool:
    """Whether a page's headings have short addresses: all but briefings, whose own addresses are short."""
    return not page.startswith("approaches/") or page == "approaches/index.md"


def with_short(markdown: str, page: str, known: dict[str, str]) -> str:
    """A page's Markdown whose headings name their codes; known: address -> code of the debrief index."""
    def named(match: re.Match[str]) -> str:
        address = f"{page}#{match[3]}"
        code = known.get(address, "").lower() or code_of(address)
        return match[0].replace(f"{{ #{match[3]}", f"{{ #{match[3]} data-r={code}", 1)

    return HEADING.sub(named, markdown) if has_codes(page) else markdown


def places(page: str, head: Mapping[str, Any], headings: Iterable[Sequence[str]]) -> list[Place]:
    """Every heading of a page; head: its title and description;  headings: id and words of each."""
    title, about = head.get("title"), str(head.get("description", ""))
    return [Place(f"{page}#{key}", words, str(title or words), about) for key, words in headings]


def short_addresses(docs: Path, headings: Iterable[Place]) -> dict[str, Place]:
    """Code -> the heading it leads to, of the headings that have codes.  DataError when two would share one."""
    by_address = {place.at: place for place in headings}
    by_code = {entry.code.lower(): by_address[entry.at] for entry in codes(docs) if entry.at in by_address}
    coded = {place.at for place in by_code.values()}
    table = moves(docs)
    for address in [*sorted(by_address.keys() - coded), *table]:
        place = by_address.get(now_at(address, table))
        if place and (holder := by_code.setdefault(code_of(address), place)) != place:
            raise DataError([Fault(address, "", f"the short address of {holder.at}", "one of its own",
                                   "Give the newer heading another id.")])
    return by_code


def leading_pages(
    docs: Path, pages: Mapping[str, list[Place]], directory_urls: bool,
    others: Mapping[str, list[Place]] = MappingProxyType({}),
) -> dict[str, str]:
    """Address on the site -> whole page, of all short addresses and of all pages that are gone; and the list of codes.

    pages:          headings of the pages that have codes, by address below docs/
    others:         those of the pages that have none: briefings
    directory_urls: False for a handbook opened as files, which has no short addresses
    """
    by_code = short_addresses(docs, (place for headings in pages.values() for place in headings))
    table = moves(docs)
    named = {address.partition("#")[0] for address in (*table, *table.values())} & set(others)
    all_places = [*by_code.values(), *(place for page in sorted(named) for place in others[page])]
    present = {place.at for place in all_places} | set(pages) | set(others)
    made = {}
    for page, gone in gone_pages(table, present).items():
        made[_file(page, directory_urls)] = _gone(page, gone, all_places, directory_urls)
    if directory_urls:
        made |= {f"{ROOM}/{code}/index.html": _short(place) for code, place in by_code.items()}
        made[f"{ROOM}/index.html"] = leading_page("../debrief/", {}, "../", "What happened?", "Short addresses.")
        made[LIST] = json.dumps({code: url(place.at) for code, place in by_code.items()}, separators=(",", ":")) + "\n"
    return made


def url(address: str, directory_urls: bool = True) -> str:
    """The address on the site of an address below docs/ ("verify/course.md#do" -> "verify/course/#do")."""
    page, sign, part = address.partition("#")
    place = permanent_address("", page)[1:] if directory_urls else re.sub(r"\.md$", ".html", page)
    return place + sign + part


def _file(page: str, directory_urls: bool) -> str:
    return f"{url(page)}index.html" if directory_urls else url(page, directory_urls)


def _short(place: Place) -> str:
    target = url(place.at).removesuffix("#top")
    title = place.title if place.words == place.title else f"{place.words} · {place.title}"
    return leading_page(f"../../{target}", {}, "../../", title, place.about)


def _gone(page: str, gone: Gone, known_places: list[Place], directory_urls: bool) -> str:
    up = "../" * (len(PurePosixPath(_file(page, directory_urls)).parts) - 1)
    links = {part: up + url(to, directory_urls) for part, to in gone.parts.items()}
    place = next((place for place in known_places if place.at.startswith(gone.to)), Place(gone.to, "", "Moved", ""))
    more = "" if directory_urls else "file:"
    return leading_page(up + url(gone.to, directory_urls), links, up, place.title, place.about, more)
