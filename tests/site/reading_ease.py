"""How easy the pages read: sentences, words in them, and Flesch's ease; `python tests/site/reading_ease.py [FOLDER]`.

Ease is 206.835 - 1.015 words per sentence - 84.6 syllables per word (Flesch 1948, from memory): 60 is plain English,
higher is easier.  Syllables are counted by groups of vowels, so a figure is good for a comparison of two versions.
With a folder of older pages the table has their figures beside today's.
"""

import re
import sys
from dataclasses import dataclass
from pathlib import Path

from site_pages import DOCS, EXPRESSION, without_fences

SILENT_E = re.compile(r"(?<=[^aeiouy])e$")
VOWELS = re.compile(r"[aeiouy]+")
WORD = re.compile(r"[A-Za-z]+(?:['\u2019-][A-Za-z]+)*")
END = re.compile(r"(?<=[.!?:])\s+(?=[A-Z*\"(])|\n\s*\n|\n(?=\s*(?:[-*]|\d+\.) )")
DROPPED = re.compile(r"^(?:#|\||---|\?\?\?|!!!|<|\{\{).*$", re.M)


@dataclass(frozen=True)
class Reading:
    """What was counted on a page."""

    sentences: int
    words: int
    syllables: int
    longest: str

    @property
    def words_per_sentence(self) -> float:
        return self.words / self.sentences

    @property
    def ease(self) -> float:
        return 206.835 - 1.015 * self.words_per_sentence - 84.6 * self.syllables / self.words


def plain(markdown: str) -> str:
    """The running text of a page: an expression counts as one word, headings and tables do not count."""
    text = re.sub(r"\A---\n.*?\n---\n", "", markdown, flags=re.S)
    text = DROPPED.sub("", without_fences(text))
    text = re.sub(r"`[^`\n]+`", "name", text)
    text = re.sub(r"\]\([^)]*\)|\{ ?[#.:][^}]*\}|[\[*]", "", text)
    return EXPRESSION.sub("figure", text)


def sentences(markdown: str) -> list[str]:
    """The sentences of a page that have words."""
    return [" ".join(part.split()) for part in END.split(plain(markdown)) if WORD.search(part)]


def syllables(word: str) -> int:
    """Syllables of a word, by groups of vowels; a silent e at the end does not count."""
    return max(1, len(VOWELS.findall(SILENT_E.sub("", word.lower()))))


def reading(markdown: str) -> Reading:
    """What is counted on a page with at least one sentence."""
    parts = sentences(markdown)
    words = [word for sentence in parts for word in WORD.findall(sentence)]
    longest = max(parts, key=lambda sentence: len(WORD.findall(sentence)))
    return Reading(len(parts), len(words), sum(map(syllables, words)), longest)


def figures(folder: Path) -> dict[str, tuple[str, str, str]]:
    """Page, and "all" -> words per sentence, words of the longest sentence, ease."""
    texts = {str(page.relative_to(folder)): page.read_text("utf-8") for page in sorted(folder.rglob("*.md"))}
    texts["all"] = "\n\n".join(map(plain, texts.values()))
    measured = {name: reading(text) for name, text in texts.items() if sentences(text)}
    return {name: (f"{ease.words_per_sentence:.1f}", str(len(WORD.findall(ease.longest))), f"{ease.ease:.0f}")
            for name, ease in measured.items()}


def main(*older: Path) -> None:
    """Print a table with a row for each page, and one for all; older pages, if any, stand before today's."""
    columns = [figures(folder) for folder in (*older, DOCS)]
    print("| page |" + " words per sentence | longest | ease |" * len(columns))
    print("|:---|" + "---:|" * 3 * len(columns))
    for name in columns[-1]:
        print(f"| {name} | " + " | ".join(cell for column in columns for cell in column.get(name, ("", "", ""))) + " |")


if __name__ == "__main__":
    main(*map(Path, sys.argv[1:2]))
