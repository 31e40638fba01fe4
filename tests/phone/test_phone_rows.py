# ruff: noqa: PT018
"""Texts, rows, records and words as the phone handles them, beside the library."""

import dataclasses
import difflib
import functools
import itertools
import random
import sys
import tomllib
import unicodedata
from collections import Counter

import pytest

import phone.collections
import phone.dataclasses
import phone.difflib
import phone.functools
import phone.geoid
import phone.itertools
import phone.sys
from lpv.core.errors import NotOnThisDevice
from phone import builtin as ours
from phone import texts
from support import ROOT

WORDS = ("", "a", "abc", "Ab1", "a b", "1a", "_a", "A-b c", "aB cD", "a_b", "abcabc", "-5", "+12", "cc", "ac", "12345")


def test_texts_match_library():
    for text in (*WORDS, *map(chr, range(128)), *("a" + chr(code) for code in range(128))):
        assert ours.casefold(text) == text.casefold() and ours.title(text) == text.title(), repr(text)
        assert ours.capitalize(text) == text.capitalize()
        assert ours.isidentifier(text) == text.isidentifier() and ours.isalnum(text) == text.isalnum(), repr(text)
        assert ours.removeprefix(text, "a") == text.removeprefix("a") and ours.removeprefix(text, "") == text
        assert ours.removesuffix(text, "bc") == text.removesuffix("bc") and ours.removesuffix(text, "") == text
        for width in (0, 1, 4, 7):
            assert ours.ljust(text, width) == text.ljust(width) and ours.rjust(text, width) == text.rjust(width)
            assert ours.ljust(text, width, "0") == text.ljust(width, "0")
            assert ours.zfill(text, width) == text.zfill(width)
            assert ours.rjust(text, width, ".") == text.rjust(width, ".")


def test_each_sign_seen_as_in_library():
    """But for those that a later table of signs may still fill."""
    edges = {edge + step for row in texts.UNSEEN for edge in row for step in (-2, -1, 0, 1, 2)}
    for sign in map(chr, sorted(code for code in edges | set(range(0x180)) if code < 0x110000)):
        assert ours.isprintable(sign) == sign.isprintable() or unicodedata.category(sign) == "Cn", ascii(sign)
    assert not any(ours.isprintable(chr(code)) for code in (0x2065, 0xFFF0, 0xFFFE, 0xFFFF, 0xE0000, 0x10FFFF))
    assert ours.isprintable("") and ours.isprintable("a b") and not ours.isprintable("a\nb")
    assert {chr(code) for code in range(0x11000) if chr(code).isspace()} == set(texts.SPACES)
    stripped = {"": "", " \u202f": "", "\xa0 a b\t\n": "a b", "a": "a", " a": "a", "a ": "a"}
    assert {text: ours.strip(text) for text in stripped} == stripped


def test_rows_match_library():
    for row, start, stop, step in itertools.product(
            ("abcde", (1, 2, 3), [], [1, 2, 3, 4]), (None, -9, -2, -1, 0, 1, 3, 9), (None, -9, -2, 0, 1, 4, 9),
            (-3, -2, -1, 1, 2, 3)):
        assert ours.stepped(row, start, stop, step) == row[start:stop:step], (row, start, stop, step)
    assert list(ours.zip([1, 2], "ab", strict=True)) == list(ours.zip([1, 2, 3], "ab")) == [(1, "a"), (2, "b")]
    with pytest.raises(ValueError, match="different lengths"):
        ours.zip([1], "ab", strict=True)
    counter = phone.itertools
    for rows, count in itertools.product(("", "a", "abcd"), range(5)):
        assert list(counter.combinations(rows, count)) == list(itertools.combinations(rows, count))
        assert list(counter.pairwise(rows)) == list(itertools.pairwise(rows))
    assert counter.accumulate([]) == [] and counter.accumulate([1, 2, 4]) == [1, 3, 7]
    assert counter.chain("a", "", "bc") == ["a", "b", "c"]
    counts = phone.collections.Counter("abacab")
    assert list(counts.items()) == list(Counter("abacab").items()) == [("a", 3), ("b", 2), ("c", 1)]


def test_dicts_keep_order():
    assert list(ours.ordered({"b": 1}, (("a", 2), ("b", 3)), z=0).items()) == [("b", 3), ("a", 2), ("z", 0)]
    assert list(ours.merged({"b": 1}, (("a", 2), ("b", 3))).items()) == [("b", 3), ("a", 2)]
    assert list(ours.fromkeys("zy", 0).items()) == [("z", 0), ("y", 0)] and ours.fromkeys("a") == {"a": None}
    plain = type("Plain", (), {})()
    plain.second, plain.first = 2, 1
    assert list(ours.vars(plain).items()) == [("second", 2), ("first", 1)]


def test_words_alike_match_library():
    pick = random.Random(5)
    for _ in range(300):
        first, *others = ("".join(pick.choice("abc_") for _ in range(pick.randrange(7))) for _ in range(6))
        assert phone.difflib.ratio(first, others[0]) == difflib.SequenceMatcher(None, first, others[0]).ratio()
        for n, cutoff in ((1, 0.6), (3, 0.4), (2, 0.0)):
            assert phone.difflib.get_close_matches(first, others, n, cutoff) == difflib.get_close_matches(
                first, others, n, cutoff)
    among = ("altitude_ft", "altitude_rule", "altitudes", "altitude", "altitud", "alts", "name")
    for word in ("altitude", "name", "names", "zzz", "alti", "atltie"):
        assert phone.difflib.get_close_matches(word, among) == difflib.get_close_matches(word, among)


def records(module, wrap):
    """The same records of ours and of the library."""
    @wrap("first", "second", "third")
    class Record:
        first: int
        second: int = 2
        third: list = module.field(default_factory=list, metadata={"unit": "ft"})

        def __post_init__(self):
            self.sum = self.first + self.second

    @wrap("fourth")
    class Longer(Record):
        fourth: int = module.field(default=4)

    return Record, Longer


def test_records_match_library():
    for module, wrap in ((phone.dataclasses, phone.dataclasses.dataclass),
                         (dataclasses, lambda *_: dataclasses.dataclass(unsafe_hash=True))):
        record, longer = records(module, wrap)
        made = record(1)
        assert (made.first, made.second, made.third, made.sum) == (1, 2, [], 3) and made.third is not record(1).third
        assert made == record(first=1, second=2) != record(1, 3) and made != longer(1) and record(1) != 1
        assert hash(record(1, 2, ())) == hash(record(1, 2, ())) != hash(record(1, 3, ()))
        assert repr(longer(1)).endswith("Longer(first=1, second=2, third=[], fourth=4)")
        assert [each.name for each in module.fields(longer)] == ["first", "second", "third", "fourth"]
        assert [dict(each.metadata) for each in module.fields(made)] == [{}, {}, {"unit": "ft"}]
        assert [each.default for each in module.fields(longer)][1::2] == [2, 4]
        assert module.fields(record)[0].default is module.fields(record)[0].default_factory is module.MISSING
        assert module.replace(made, second=5) == record(1, 5) and module.replace(longer(1), fourth=9).fourth == 9
        assert module.is_dataclass(made) and module.is_dataclass(record) and not module.is_dataclass(3)
        for arguments, named in (((), {}), ((1, 2, [], 4), {}), ((1,), {"fourth": 4})):
            with pytest.raises(TypeError):
                record(*arguments, **named)
        rows = [("a", int, module.field()), ("b", int, 7)]
        built = module.make_dataclass("Built", rows, frozen=True, namespace={"c": 1})
        assert (built(3).a, built(3).b, built.c, built.__name__) == (3, 7, 1, "Built")
    record, longer = records(phone.dataclasses, phone.dataclasses.dataclass)
    assert list(ours.vars(longer(1)).items()) == [("first", 1), ("second", 2), ("third", []), ("fourth", 4)]
    with pytest.raises(TypeError, match="no value for first"):
        record()
    with pytest.raises(TypeError, match="values for no field: fifth"):
        record(1, fifth=4)


def test_values_worked_out_once():
    for module in (phone.functools, functools):
        calls = []
        kept = module.cache(lambda *values, calls=calls: calls.append(values) or len(calls))
        assert [kept(1), kept(1), kept(2), kept(1, 2), kept(2)] == [1, 1, 2, 3, 2] and len(calls) == 3
        limited = module.lru_cache(maxsize=None)(lambda value: [value])
        assert limited(1) is limited(1) and limited(2) == [2]

        class Lazy:
            @module.cached_property
            def rows(self):
                return []

        lazy = Lazy()
        assert lazy.rows is lazy.rows == [] and lazy.rows is not Lazy().rows


def test_device_without_geoid_says_so():
    with pytest.raises(NotOnThisDevice, match="no table of the geoid"):
        phone.geoid.geoid_height_m(47.0, 8.0)


def test_interpreter_described_as_oldest_allowed():
    info = sys.float_info
    assert phone.sys.float_info == (info.epsilon, info.min, info.max, info.mant_dig)
    assert phone.sys.float_info.epsilon == info.epsilon and phone.sys.float_info.mant_dig == info.mant_dig
    needed = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["requires-python"]
    assert needed == ">=" + ".".join(map(str, phone.sys.version_info))
    assert phone.sys.implementation.name == "micropython"
