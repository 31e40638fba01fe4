"""What the site's search finds by: the index that the theme's search reads, finished after the build.

Nothing runs in the browser for it but the theme's own search (with one fault mended, `build/search_worker.py`): all of
it are settings and words of its index.

- Small words ("no", "would", "the") are separators, so that they neither stand in the index nor count when typed;
  otherwise the search takes "no" for the beginning of "notices".
- An entry of the debrief index is also found by what happened (docs/debrief/codes.toml) and by the words of crews for
  it (docs/debrief/words.toml): a field of its own, which the search reads and does not show.  So is a page by what
  crews type for it, the more by a word the more often it is said there.
- A page is found by the words of its headings as one page, so that two words of two places on it count together.
- Other forms of these words and slips of the thumb count little: they matter where nothing else is found.
- What is no task page counts less.  A page whose text nobody searches in, such as the sources, is found by its name.
"""

import json
import re
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from lpv.core.errors import DataError, Fault
from lpv.files import schema
from lpv.files import toml_reader as tomlfile
from lpv_site.department.data import DOCS
from lpv_site.pages.debrief_codes import TASKS, codes
from lpv_site.text.short import url
from lpv_site.text.word_forms import forms, slips

FILE = Path("debrief") / "words.toml"
INDEX = Path("search") / "search_index.json"
FIELD = "said"
PLACES, OTHERWISE = "places", "typed"
BOOSTS = {FIELD: 1000.0, PLACES: 300.0, OTHERWISE: 10.0}  # the theme has 1000 for titles, 1 for text
IN_TITLE = 10  # a word in a title tells as much of what the page is about as so many mentions
ASIDE_BOOST = 0.75
ASIDE = re.compile(
    r"(?:aircraft|debrief|practice|teach)/|reference/(?!not-an-ils)|plan/[^/#]+-sheet\b|modes/scenario-"
    r"|verify/(?:scoreboard|published)|approaches/changes")
# The words that the theme's search leaves out of its index, and the beginnings of "couldn't" and the like.
SMALL_TEXT = """
a able about across after all almost also am among an and any are as at be because been but by can cannot could dear did
do does either else ever every for from get got had has have he her hers him his how however i if in into is it its just
least let like likely may me might most must my neither no nor not of off often on only or other our own rather said say
says she should since so some than that the their them then there these they this tis to too twas us wants was we were
what when where which while who whom why will with would yet you your
"""
SMALL = SMALL_TEXT.split()
ASKING = ["we", "find", "need", "happens", "without", "up", "down", "out"]  # small words of our own, from questions
NEGATED_TEXT = "ca could did do does had has have is should was were wo would"
CODE_LETTERS = {letters for letters, _ in TASKS.values()}
NAMED = {"title": r"<title>(.*?)(?: - [^-<]*)?</title>", "text": r'<meta name="description" content="([^"]*)"'}
TAGS = re.compile(r"<[^>]+>")
WORD = re.compile(r"\w+(?:[-'\u2019]\w+|[/+]\w\b)*")


@dataclass(frozen=True, kw_only=True)
class Said:
    """What crews say for one entry."""

    code: str = schema.text("code of the entry", pattern="[A-Z]{2}-[0-9]{2}", example="VE-03")
    words: str = schema.text("words of crews for it", longest=200)


@dataclass(frozen=True, kw_only=True)
class Typed:
    """What crews type for one page."""

    at: str = schema.text("page", pattern="[a-z0-9/-]+\\.md", example="final/rate.md")
    words: str = schema.text("words of crews for it", longest=1200)


@dataclass(frozen=True, kw_only=True)
class Words:
    """The list of such words."""

    said: tuple[Said, ...] = schema.tables(Said, "words for entries", most=2000, unique="code")
    page: tuple[Typed, ...] = schema.tables(Typed, "words for pages", most=500, unique="at")


@cache
def phrases(docs: Path = DOCS) -> dict[str, str]:
    """Address of an entry ("verify/index.md#finding-stop") -> what happened there, in all words known for it.

    Address of a page ("final/rate.md") -> what crews type for it.  DataError with every fault of the list of words.
    """
    path = docs / FILE
    listed = tomlfile.read_file(path, Words) if path.is_file() else Words(said=(), page=())
    words_of = {entry.code: entry.words for entry in listed.said}
    if unknown := sorted(words_of.keys() - {entry.code for entry in codes(docs)}):
        raise DataError([Fault(FILE.name, code, "no code of the debrief index", "a code of codes.toml", "Correct it.")
                         for code in unknown])
    entries = {entry.at: f"{entry.what}, {words_of.get(entry.code, '')}" for entry in codes(docs)}
    return {entry.at: entry.words for entry in listed.page} | entries


def finish(site: Path, docs: Path, directory_urls: bool, more: Iterable[dict[str, str]] = ()) -> None:
    """Finish the index of a built site; a site without one stays without.

    more: entries of pages that the theme's search does not know
    """
    path = site / INDEX
    if path.is_file():
        index = json.loads(path.read_text("utf-8"))
        phrases_of = phrases(docs)
        known = {entry["location"] for entry in index["docs"]}
        left_out = [at for at in (url(address, directory_urls) for address in phrases_of) if at not in known]
        names = [by_name(site, at) for at in left_out if (site / page_file(at)).is_file()]
        made = finished(index | {"docs": [*index["docs"], *more, *names]}, phrases_of, directory_urls)
        path.write_text(json.dumps(made, separators=(",", ":")), "utf-8")


def by_name(site: Path, at: str) -> dict[str, str]:
    """The entry of a page whose text nobody searches in: it is found by its title and by what is said for it."""
    head = (site / page_file(at)).read_text("utf-8").partition("</head>")[0]
    texts = {key: match[1] for key, pattern in NAMED.items() if (match := re.search(pattern, head))}
    return {"location": at, "title": texts["title"], "text": texts["text"]}


def page_file(at: str) -> str:
    """The file of a page at an address."""
    return f"{at}index.html" if at == "" or at.endswith("/") else at


def finished(index: dict[str, Any], texts: dict[str, str], directory_urls: bool = True) -> dict[str, Any]:
    """The index of the theme's search with small words, phrases and weights; said: address of an entry -> phrases."""
    config = dict(index["config"])
    config["separator"] = f"{config['separator']}|{small_words()}"
    config["pipeline"] = [step for step in config["pipeline"] if step != "stopWordFilter"]  # "IN" of "IN-04" stays
    config["fields"] = config["fields"] | {field: {"boost": boost} for field, boost in BOOSTS.items()}
    at = {url(address, directory_urls): text for address, text in texts.items()}
    docs = [_entry(entry, at.get(entry["location"], "")) for entry in index["docs"]]
    pages = {entry["location"]: entry for entry in docs if entry["location"] in at and "#" not in entry["location"]}
    titles = {location: TAGS.sub(" ", entry["title"]) for location, entry in pages.items()}
    for location, words in typed_otherwise({location: at[location] for location in pages}, titles).items():
        pages[location][OTHERWISE] = " ".join(words)
    for location, words in words_of_places(docs).items():
        if location in pages and not ASIDE.match(location):
            pages[location][PLACES] = " ".join(words)
    return {"config": config, "docs": docs}


def words_of_places(docs: list[dict[str, Any]]) -> dict[str, list[str]]:
    """Address of a page -> the words of its headings, and of what is said for the entries below them."""
    by_page: dict[str, list[str]] = {}
    for entry in docs:
        page, place, _ = entry["location"].partition("#")
        if place:
            words = weighed_words(f"{TAGS.sub(' ', entry['title'])} {entry.get(FIELD, '')}")
            by_page.setdefault(page, []).extend(words)
    return by_page


def _entry(entry: dict[str, Any], text: str) -> dict[str, Any]:
    more: dict[str, Any] = {}
    title = TAGS.sub(" ", entry["title"])
    page = "#" not in entry["location"]
    if words := " ".join(weighed_words(text) if page else new_words(text, title)):
        more[FIELD] = words
    if "boost" not in entry and ASIDE.match(entry["location"]):
        more["boost"] = ASIDE_BOOST
    return entry | more


def new_words(text: str, title: str) -> Iterator[str]:
    """The words of phrases that are neither small nor in the title, each once."""
    known = {*map(str.lower, WORD.findall(title)), *SMALL, *ASKING}
    for word in WORD.findall(text):
        if word.lower() not in known:
            known.add(word.lower())
            yield word


def weighed_words(text: str) -> Iterator[str]:
    """The words of a page's phrases but for small ones, as often as they are said: search counts how often."""
    return (word for word in WORD.findall(text) if word.lower() not in {*SMALL, *ASKING})


def typed_otherwise(texts: dict[str, str], titles: dict[str, str]) -> dict[str, list[str]]:
    """Address of a page -> other forms of its words and slips in them, each at the pages that are most about the word.

    said: address -> phrases;  titles: address -> title
    """
    about: dict[str, Counter[str]] = {}
    for at, text in texts.items():
        for word in map(str.lower, weighed_words(text)):
            about.setdefault(word, Counter())[at] += 1
        for word in map(str.lower, weighed_words(titles[at])):
            about.setdefault(word, Counter())[at] += IN_TITLE
    variants: dict[str, set[str]] = {}
    for word, pages in about.items():
        most = max(pages.values())
        typed = {*forms(word), *(slips(word) if most > 1 else ())} - about.keys() - {*SMALL, *ASKING}
        for at, count in pages.items():
            if count == most:
                variants.setdefault(at, set()).update(typed)
    return {at: sorted(words) for at, words in variants.items()}


def small_words() -> str:
    """A regular expression for small words however they are written, but for letters that begin a code."""
    words = "|".join(map(_any_case, [*SMALL, *ASKING]))
    negated = "|".join(map(_any_case, NEGATED_TEXT.split()))
    return rf"\b(?:{words}|(?:{negated})[nN]['\u2019]?[tT])\b(?!['\u2019])"


def _any_case(word: str) -> str:
    """A word in small letters, with a capital, or in capitals; of the letters of a code not in capitals."""
    first, others = word[0], word[1:]
    if word.upper() in CODE_LETTERS:
        return f"[{first}{first.upper()}]{others}"
    return "".join(f"[{letter}{letter.upper()}]" for letter in word)
