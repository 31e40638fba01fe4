"""The other ways a word is typed: its plural, the other spelling, and the slips of a thumb on glass.

Search takes a typed word for the beginning of one, so "alternate" finds "alternates" but not the other way round.
"""

import re
from collections.abc import Iterator

ALIKE = ("aeiou", "mn", "cks")  # letters that are typed for one another
SHORTEST_SLIP = 6  # letters; a slip in a shorter word is often another word
# A part of a word as it is spelled here -> as others spell it.
SPELLINGS = {"color": "colour", "center": "centre", "behavior": "behaviour", "meter": "metre",
             "judgment": "judgement", "gray": "grey", "canceled": "cancelled", "leveled": "levelled",
             "program": "programme"}
SPELLED = re.compile("|".join(SPELLINGS))
IZE = re.compile("(?<=i)z(?=[aei])")
ENDINGS = ("s", "ed", "ing")
ENDS = re.compile(r"(?:s|ing|ed|ly)$")


def forms(word: str) -> Iterator[str]:
    """Plural, -ed and -ing of a word in small letters, and its British spelling."""
    if not ENDS.search(word):
        yield from (_ended(word, end) for end in ENDINGS if len(word) > 2)
    respelled = SPELLED.sub(lambda match: SPELLINGS[match[0]], IZE.sub("s", word))
    if respelled != word:
        yield respelled


def _ended(word: str, end: str) -> str:
    """A word with an ending, by the rules of spelling but for doubled letters."""
    if word.endswith("y") and word[-2] not in "aeiou" and end != "ing":
        return f"{word[:-1]}ie{end.removeprefix('e')}"
    if end == "s":
        return word + ("es" if re.search("(?:x|ch|sh|z)$", word) else "s")
    return word.removesuffix("e") + end


def slips(word: str) -> set[str]:
    """A long word with one letter left out, two changed places, or one like it; the first letter holds."""
    if len(word) < SHORTEST_SLIP:
        return set()
    variants = set()
    for at in range(1, len(word)):
        variants.add(word[:at] + word[at + 1:])
        variants.add(word[:at] + word[at:at + 2][::-1] + word[at + 2:])
        for alike in ALIKE:
            if word[at] in alike:
                variants |= {word[:at] + letter + word[at + 1:] for letter in alike}
    return {slip for slip in variants if not word.startswith(slip) and not slip.startswith(word)}
