"""What the site's search finds by: the index that the theme's search reads, finished after the build.

Nothing runs in the browser for it but the theme's own search: all of it are settings and words of its index.

- Small words ("no", "would", "the") are separators, so that they neither stand in the index nor count when typed;
  otherwise the search takes "no" for the beginning of "notices".
- An entry of the debrief index is also found by what happened (docs/debrief/codes.toml) and by the words of crews for
  it (docs/debrief/words.toml): a field of its own, which the search reads and does not show.  So is a page by what
  crews type for it.
- What is no task page counts less.
"""

import json
import re
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

FILE = Path("debrief") / "words.toml"
INDEX = Path("search") / "search_index.json"
FIELD = "said"
FIELD_BOOST = 1000.0  # as the theme's for titles
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
ASKING = ["we", "find", "need", "happens", "without"]  # small words of our own, from questions
NEGATED_TEXT = "ca could did do does had has have is should was were wo would"
CODE_LETTERS = {letters for letters, _ in TASKS.values()}
TAGS = re.compile(r"<[^>]+>")
WORD = re.compile(r"\w+(?:[-'\u2019]\w+)*")


@dataclass(frozen=True, kw_only=True)
class Said:
    """What crews say for one entry."""

    code: str = schema.text("code of the entry", pattern="[A-Z]{2}-[0-9]{2}", example="VE-03")
    words: str = schema.text("words of crews for it", longest=200)


@dataclass(frozen=True, kw_only=True)
class Typed:
    """What crews type for one page."""

    at: str = schema.text("page", pattern="[a-z0-9/-]+\\.md", example="final/rate.md")
    words: str = schema.text("words of crews for it", longest=600)


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
    said = {each.code: each.words for each in listed.said}
    if unknown := sorted(said.keys() - {entry.code for entry in codes(docs)}):
        raise DataError([Fault(FILE.name, code, "no code of the debrief index", "a code of codes.toml", "Correct it.")
                         for code in unknown])
    entries = {entry.at: f"{entry.what}, {said.get(entry.code, '')}" for entry in codes(docs)}
    return {each.at: each.words for each in listed.page} | entries


def finish(site: Path, docs: Path, directory_urls: bool, more: Iterable[dict[str, str]] = ()) -> None:
    """Finish the index of a built site; a site without one stays without.

    more: entries of pages that the theme's search does not know
    """
    path = site / INDEX
    if path.is_file():
        index = json.loads(path.read_text("utf-8"))
        made = finished(index | {"docs": [*index["docs"], *more]}, phrases(docs), directory_urls)
        path.write_text(json.dumps(made, separators=(",", ":")), "utf-8")


def finished(index: dict[str, Any], said: dict[str, str], directory_urls: bool = True) -> dict[str, Any]:
    """The index of the theme's search with small words, phrases and weights; said: address of an entry -> phrases."""
    config = dict(index["config"])
    config["separator"] = f"{config['separator']}|{small_words()}"
    config["pipeline"] = [step for step in config["pipeline"] if step != "stopWordFilter"]  # "IN" of "IN-04" stays
    config["fields"] = {**config["fields"], FIELD: {"boost": FIELD_BOOST}}
    at = {url(address, directory_urls): text for address, text in said.items()}
    return {"config": config, "docs": [_entry(entry, at.get(entry["location"], "")) for entry in index["docs"]]}


def _entry(entry: dict[str, Any], said: str) -> dict[str, Any]:
    more: dict[str, Any] = {}
    if words := " ".join(new_words(said, TAGS.sub(" ", entry["title"]))):
        more[FIELD] = words
    if "boost" not in entry and ASIDE.match(entry["location"]):
        more["boost"] = ASIDE_BOOST
    return entry | more


def new_words(said: str, title: str) -> Iterator[str]:
    """The words of phrases that are neither small nor in the title, each once."""
    seen = {*map(str.lower, WORD.findall(title)), *SMALL, *ASKING}
    for word in WORD.findall(said):
        if word.lower() not in seen:
            seen.add(word.lower())
            yield word


def small_words() -> str:
    """A regular expression for small words however they are written, but for letters that begin a code."""
    words = "|".join(map(_any_case, [*SMALL, *ASKING]))
    negated = "|".join(map(_any_case, NEGATED_TEXT.split()))
    return rf"\b(?:{words}|(?:{negated})[nN]['\u2019]?[tT])\b(?!['\u2019])"


def _any_case(word: str) -> str:
    """A word in small letters, with a capital, or in capitals; of the letters of a code not in capitals."""
    first, rest = word[0], word[1:]
    if word.upper() in CODE_LETTERS:
        return f"[{first}{first.upper()}]{rest}"
    return "".join(f"[{letter}{letter.upper()}]" for letter in word)
