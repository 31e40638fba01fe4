"""The words of the pages: phrases that no cockpit uses, one spelling for one term, and how long a sentence may be."""

import re

import pytest
from reading_ease import WORD, plain, reading, sentences, syllables

from site_pages import name, pages, prose
from support import ROOT

# What was on the pages once, or reads as translated -> what a crew would say.
PHRASES = {
    r"looked up in the order of the flight": "plan, set up, fly and debrief",
    r"as the kind that it is": "as a DA or an MDA",
    r"is \*\*at the DA\*\*": "the DA is the missed approach point",
    r"hangs? on the altimeter|hang on SBAS": "depends on",
    r"goes on binding|\bbinds?\b(?! each)": "still applies",
    r"asks for more than the criterion": "more than the limit needed",
    r"that the chart means": "on the chart",
    r"last crew's, and yours": "you inherit the last crew's selection",
    r"[Rr]emoval of power": "power-down",
    r"\bas never\b": "but",
    r"have told (?:the controller|ATC)": "tell ATC beforehand",
    r"an error of flying": "flying error",
    r"in its turn": "in turn",
    r"stands? still in space": "is fixed in space",
    r"\bis no (?:rule|correction|failure|small|reset)\b": "is not a",
    r"vouches for the ground": "guarantees obstacle clearance",
    r"the more the farther": "more the farther out you are",
}
# British, or one of two spellings -> the one used here; FAA terms are spelled as the FAA spells them.
SPELLINGS = {
    r"cent(?:re|red|res|ring)": "center", r"[Ss]tabilised": "stabilized", r"judgement": "judgment",
    r"[Aa]uthoris\w+": "authorize", r"met(?:re|res)": "meter", r"[Bb]ehaviour\w*": "behavior", r"[Cc]olour\w*": "color",
    r"[Gg]rey": "gray", r"practis\w+": "practice", r"aeroplane\w*": "airplane", r"neighbour\w*": "neighbor",
    r"levell\w+": "level", r"cancelled": "canceled", r"travell\w+": "travel", r"glide[ -]path": "glidepath",
    r"glide[ -]slope": "glideslope", r"[Mm]inimums": "minima", r"PFAF": "FAF", r"auto-pilot": "autopilot",
    r"(?:levels?|LPV|LNAV|LP)(?: is| was)? announced|announced (?:level|line)s?": "annunciated",
    r"crosscheck": "cross-check",
}
# Where the coded fix is meant.
PFAF_PAGES = {"reference/import.md"}
# Written by and for those who keep the site; longer sentences are allowed there.
OFFICE = ("reference/", "practice/", "teach/")
LONGEST, LONGEST_OFFICE = 38, 48
WORDS_PER_SENTENCE, WORDS_PER_SENTENCE_OFFICE, EASE = 15.0, 17.0, 60.0


def is_office(page) -> bool:
    return name(page).startswith(OFFICE)


def odd_spellings(page, text: str) -> dict[str, str]:
    odd = {}
    for spelling, wanted in SPELLINGS.items():
        if spelling == "PFAF" and name(page) in PFAF_PAGES:
            continue
        for match in re.finditer(rf"(?<![\w/`.-])(?:{spelling})(?![\w/`]|\.\w)", text):
            odd[match[0]] = wanted
    return odd


@pytest.mark.parametrize("page", pages(), ids=name)
def test_page_uses_crew_wording(page):
    text = " ".join(prose(page).split())
    matches = {match[0]: replacement for phrase, replacement in PHRASES.items() for match in re.finditer(phrase, text)}
    assert not matches, "say instead"


def said_twice(text: str) -> list[str]:
    """Words that stand twice in a row; a figure or a name in its place is no word."""
    return [match[1] for match in re.finditer(r"\b([A-Za-z]+)\s+\1\b", text) if match[1] not in {"figure", "name"}]


def test_no_repeated_word():
    assert said_twice("over the the FAF, and and") == ["the", "and"]
    assert {name(page): repeated for page in pages() if (repeated := said_twice(plain(page.read_text("utf-8"))))} == {}


@pytest.mark.parametrize("page", pages(), ids=name)
def test_page_spells_term_one_way(page):
    assert not odd_spellings(page, prose(page)), "spell instead"


@pytest.mark.parametrize("page", pages(), ids=name)
def test_no_sentence_too_long(page):
    most = LONGEST_OFFICE if is_office(page) else LONGEST
    parts = sentences(page.read_text("utf-8"))
    assert [sentence for sentence in parts if len(WORD.findall(sentence)) > most] == []


@pytest.mark.parametrize("page", [page for page in pages() if len(sentences(page.read_text("utf-8"))) > 3], ids=name)
def test_page_easy_to_read(page):
    ease = reading(page.read_text("utf-8"))
    assert ease.words_per_sentence <= (WORDS_PER_SENTENCE_OFFICE if is_office(page) else WORDS_PER_SENTENCE)
    assert ease.ease >= EASE


def test_rules_find_their_targets():
    page = pages()[0]
    assert odd_spellings(page, "The centre, stabilised; minimums at the PFAF.") == {
        "centre": "center", "stabilised": "stabilized", "minimums": "minima", "PFAF": "FAF"}
    assert odd_spellings(page, "The center, stabilized; minima at the FAF; `centre`.") == {}
    assert re.search("|".join(PHRASES), "The DA does not hang on SBAS.")
    assert not re.search("|".join(PHRASES), "The glidepath ignores your altimeter; the DA depends on it.")


def test_sentences_and_syllables_counted():
    text = "---\ntitle: X\n---\n# X { #top }\n\nOne two three. Four `five`!\n\n- Six\n"
    text += '- {{ fact("x") }} seven\n\n| a | b |\n'
    assert sentences(text) == ["One two three.", "Four name!", "- Six", "- figure seven"]
    assert [syllables(word) for word in ("a", "glide", "altitude", "approach", "the")] == [1, 1, 3, 2, 1]
    ease = reading("Go around. Climb.\n")
    assert (ease.sentences, ease.words, ease.syllables) == (2, 3, 4)
    assert ease.ease == pytest.approx(206.835 - 1.015 * 1.5 - 84.6 * 4 / 3)


UNWANTED = re.compile(
    r"\b(?:centred?|metres?|colours? of|behaviour|judgement|neighbours?|licence|glide slope|authoris\w+|stabilis\w+"
    r"|practis\w+|co-ordinat\w+|stands? in space|hangs? on|is that of|goes on binding)\b")


def printed(code: str) -> list[str]:
    """The strings of several words that stand in one line of code, without docstrings and names in braces."""
    lines = [line for line in code.splitlines() if '"' in line and '"""' not in line and line.count('"') % 2 == 0]
    return [re.sub(r"{.*?}", "", text) for line in lines for text in line.split('"')[1::2] if " " in text]


def test_code_output_spelled_like_pages():
    assert list(filter(UNWANTED.search, printed('why="Ten metres up", what=f"{metres(x)} to go"'))) == ["Ten metres up"]
    assert [
        f"{path.relative_to(ROOT)}: {text}" for path in sorted((ROOT / "snippets").rglob("*.py"))
        for text in printed(path.read_text("utf-8")) if UNWANTED.search(text)
    ] == []
