# ruff: noqa: PT018
"""Patterns as the phone reads them, beside those of the library."""

import itertools
import random
import re

import pytest

from phone import re as ours

PATTERNS = (
    r"[A-Z0-9]{3,4}", r"(0[1-9]|[12][0-9]|3[0-6])[LCR]?", r"A?B?C?D?E?", r"[A-Z0-9+@-]{1,2}", r"\bRW09\b", r"&[#\w]+;",
    r"(?P<kind>.+?)(?: (?P<letter>[A-Z]))? RWY (?P<runway>\d\d[LCR]?)", r"[a-z0-9]+(-[a-z0-9]+)*",
    r"(?<![\d.°])(\d{1,2},\d{3}|\d{3,5})(?![\d.,]*\d|°)", r"[^\r\n]*+(?:\r\n?|\n)|[^\r\n]+",
    r"^\s*(\[\[?)\s*([A-Za-z0-9_.\- \"]+?)\s*\]\]?\s*(?:#.*)?$", r"^\s*([A-Za-z0-9_\-]+|\"[^\"]*\")\s*=",
    r"(a|ab)(c|bcd)*d?", r"[]a]+", r"[^]a]", r"(ab){2,3}?b?",
)
TEXTS = (
    "", "RNAV (GPS) Z RWY 09L", "RNAV RWY 27", "Climb to 3000 then 12,500 direct RW09 at 34.500 280° 1234567",
    "[[chart.fix]] # x", "[database]", "a_b = 3", '"q" = 1', "a-b-c", "abcd", "abcbcdbcd", "ABDE", "ZZAA", "36R", "37",
    "x\r\ny\nz\r", "&amp; &#12;", "]a]b", "ababab b",
)
# One feature each, with the texts that tell it from its neighbours.
FEATURES = (
    r"a{2}", r"a{2,}", r"a{,2}b", r"a{1,2}", r"a{0,1}?b", r"a{2,3}?", r"(?:ab){2}", r"(?:ab){2,}", r"(?:ab){,2}a",
    r"a+?", r"a*?b", r"a??b", r"(?:ab)+?a", r"(?:ab)*?b", r"a++b", r"a*+a", r"a?+a", r"(?:a|ab)++b", r"(?:a*)*b",
    r"(?:a?)+b", r"(?:a?){3}", r"(a)|b", r"(a)?b", r"(?P<x>a)(b)?", r"(?=ab)a", r"(?!ab)a", r"(?<=a)b", r"(?<!a)b",
    r"(?<=ab)a", r"\bab", r"ab\b", r"a\bb", r"^a", r"a$", r"b\n$", r"$", r"\b", r".", r"\.", r"\d+", r"\D+", r"\w+",
    r"\W+", r"\s+", r"\S+", r"[\d]", r"[^\d]", r"[\D]", r"[^\D]", r"[^\s\d]", r"[\Wa]", r"[\w-]", r"[a-]", r"[-a]",
    r"[a-c]", r"[\n-\r]", r"[a\]b]", r"\n", r"\t", r"\r", r"[\n\t]", r"\(a\)", r"a\|b", r"()", r"a|",
    r"(a|b|ab)(b|a)?", r"((a)(b))+", r"(?:(a)|b)+", r"[ -~]+", r"[^^]", r"[\^a]",
)
SIGNS = "ab09_-^.]|()AZ \t\n\r{}~\x0b\x0c\x1f\x08\x0e/:@[`"


def texts_of_few_signs():
    return ["".join(row) for count in range(5) for row in itertools.product("ab", repeat=count)]


def all_hits(module, pattern, text, *flags):
    return [(hit.span(), hit.groups()) for hit in module.finditer(pattern, text, *flags)]


def compared(pattern, text):
    for how in ("match", "fullmatch", "search"):
        match, expected = getattr(ours, how)(pattern, text), getattr(re, how)(pattern, text, re.ASCII)
        assert (match is None) == (expected is None), (pattern, text, how)
        if match:
            assert match.span() == expected.span() and match.groups() == expected.groups(), (pattern, text, how)
    assert all_hits(ours, pattern, text) == all_hits(re, pattern, text, re.ASCII), (pattern, text)
    assert ours.findall(pattern, text) == re.findall(pattern, text, re.ASCII), (pattern, text)
    return ours.search(pattern, text) is not None


def test_patterns_of_modules_match_like_library():
    pick = random.Random(1)
    signs = "ABCD09 RWY.,&;#-[]\"a=b\n\r°"
    texts = [*TEXTS, *("".join(pick.choice(signs) for _ in range(pick.randrange(12))) for _ in range(150))]
    assert sum(compared(pattern, text) for pattern in PATTERNS for text in texts) > 500


def test_each_feature_matches_like_library():
    pick = random.Random(2)
    texts = [*texts_of_few_signs(), *SIGNS, "ab\n", "b\n", "a\n\n", "(a)", "a|b", "aXb", "12a", "a-c", "a1 b2\t",
             *("".join(pick.choice(SIGNS) for _ in range(6)) for _ in range(60))]
    never = [pattern for pattern in FEATURES if sum(compared(pattern, text) for text in texts) == 0]
    assert never == [r"a*+a", r"a\bb"]


def test_match_tells_groups_by_number_and_name():
    for module in (ours, re):
        hit = module.search(r"(?P<first>a)(?P<second>x)?(b)", "..ab.")
        assert (hit.span(), hit.start(), hit.end()) == ((2, 4), 2, 4)
        assert (hit.span("first"), hit.start("first"), hit.end("first")) == ((2, 3), 2, 3)
        assert (hit.span("second"), hit.start("second"), hit.end(2)) == ((-1, -1), -1, -1)
        assert (hit[0], hit[1], hit["first"], hit["second"], hit[3]) == ("ab", "a", "a", None, "b")
        assert (hit.group(), hit.group(3)) == ("ab", "b")
        assert (hit.group("first", 3), hit.group(1, 2)) == (("a", "b"), ("a", None))
        assert hit.groups() == ("a", None, "b")
        assert module.search(r"^", "a").group(0) == ""
        assert module.match("b", "ab") is None and module.search("c", "ab") is None


def test_substitutes_escapes_and_keeps_patterns():
    for module in (ours, re):
        assert module.sub("[ab]+", "-", "cabdab") == "c-d-"
        assert module.sub(r"\d", lambda hit: str(int(hit[0]) + 1), "a1b3c") == "a2b4c"
        assert module.compile("a|b").sub("", "cabd") == "cd"
        assert module.compile("a+").findall("aabé") == ["aa"]
        ready = module.compile("(a)(b)", module.ASCII)
        assert module.compile(ready) is ready and module.compile("(a)(b)", module.ASCII) is ready
        assert [hit.span() for hit in ready.finditer("abab")] == [(0, 2), (2, 4)]
        assert ready.match("ab") and ready.fullmatch("abc") is None and ready.search("cab").span() == (1, 3)
        for call in (module.match, module.fullmatch, module.search, module.findall):
            assert call("é", "é", module.ASCII)
    for text in ("\\.^$*+?{}[]|()-", "a.b", "plain", "a-b_c"):
        assert ours.fullmatch(ours.escape(text), text) and re.fullmatch(ours.escape(text), text)
    assert ours.escape("a.b(c)") == "a\\.b\\(c\\)"


@pytest.mark.parametrize(("pattern", "words"), [
    ("(a", "a group that does not close: (a"), ("a)", "a pattern that does not close: a)"),
    ("[a", "a pattern that ends too early: [a"), ("a\\", None), ("(?=a", "a group that does not close: (?=a"),
])
def test_pattern_without_end_refused(pattern, words):
    with pytest.raises((ValueError, IndexError)) as raised:
        ours.compile(pattern)
    assert words is None or str(raised.value) == words
    with pytest.raises(re.error):
        re.compile(pattern)
