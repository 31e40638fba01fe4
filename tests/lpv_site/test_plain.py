# ruff: noqa: PT018, PT011, RUF001
"""The Python of the phone: what stands for the standard library, and modules said anew, beside what they stand for."""

import ast
import dataclasses
import difflib
import itertools
import json
import math
import random
import re
import subprocess
import sys
import tomllib
from importlib import import_module

import pytest

from lpv.approach.record import Approach
from lpv.compose import form
from lpv_site.forms import approach_form, phone, plain_modules
from lpv_site.forms.plain import plain
from support import ROOT

APPROACHES = sorted((ROOT / "docs" / "approaches").glob("*.toml"))
DRAFT = ROOT / "docs" / "approaches" / "drafts" / "zzak-rnav-09-draft.toml"


def shim(name):
    return import_module(f"phone.{name}")


def same(ours, theirs):
    """Equal with the same types and the same order of keys."""
    if isinstance(ours, dict):
        return isinstance(theirs, dict) and list(ours) == list(theirs) and all(same(ours[k], theirs[k]) for k in ours)
    if isinstance(ours, list):
        return isinstance(theirs, list) and len(ours) == len(theirs) and all(map(same, ours, theirs))
    return type(ours) is type(theirs) and (ours == theirs or ours != ours)


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


def test_patterns_match_like_library():
    pick = random.Random(1)
    signs = "ABCD09 RWY.,&;#-[]\"a=b\n\r°"
    texts = [*TEXTS, *("".join(pick.choice(signs) for _ in range(pick.randrange(12))) for _ in range(150))]
    ours, matched = shim("re"), 0
    for pattern, text in itertools.product(PATTERNS, texts):
        for how in ("match", "fullmatch", "search"):
            match, expected = getattr(ours, how)(pattern, text), getattr(re, how)(pattern, text, re.ASCII)
            assert (match is None) == (expected is None), (pattern, text, how)
            if match:
                matched += 1
                assert match.span() == expected.span() and match.groups() == expected.groups(), (pattern, text, how)
        spans = [each.span() for each in ours.finditer(pattern, text)]
        assert spans == [each.span() for each in re.finditer(pattern, text, re.ASCII)], (pattern, text)
    assert matched > 1000
    assert ours.escape("a.b(c)") == "a\\.b\\(c\\)"
    assert ours.sub("[ab]", "-", "cabd") == re.sub("[ab]", "-", "cabd")
    assert ours.fullmatch(r"(?P<n>\d)x", "3x")["n"] == "3"
    with pytest.raises(ValueError, match="does not close"):
        ours.compile("(a")


def test_every_module_pattern_read_alike():
    """Whatever the modules on the phone ask for, the phone's own reader of patterns takes."""
    ours, patterns = shim("re"), set()
    for address, text in phone.modules_anew("approach").items():
        for node in ast.walk(ast.parse(text)) if address.endswith(".py") else ():
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.args \
                    and isinstance(node.args[0], ast.Constant) and isinstance(node.func.value, ast.Name) \
                    and node.func.value.id == "re":
                patterns.add(node.args[0].value)
    schema = {entry.pattern for _, entry in approach_form.leaves(Approach, "") if entry.pattern}
    assert len(patterns) >= 8 and len(schema) >= 7
    patterns |= schema
    for pattern in patterns:
        assert ours.compile(pattern).names[None] == re.compile(pattern).groups


TOML = (
    "a=1\na=2", "[a]\n[a]", "[a.b]\n[a]\nc=1", "[[a]]\nx=1\n[[a]]\n[a.b]\ny=1", "a.b=1\na.c=2", "a.b=1\n[a]\n",
    "a={b=1,c={d=2}}\n", "a={b=1}\n[a.c]", "a=[1,\n2, # x\n]", "a='x\\y'", 'a="""\nx\n\\\n  y"""', "a='''x'''''",
    "a=0xFF", "a=1e5", "a=1_000", "a=1__0", "a=+1.5", "a=.5", "a=5.", "a=01", "a=-0", "a=-0.0", '"x y".z=1',
    'a = "\\u00e9\\U0001F600"', 'a="\\ud800"', "[a]b=1", "a=1 b=2", "=1", "a", "a=", "[]", "[[a]", "a=[1 2]",
    "[a]\nb.c=1\n[a.b]", "[a]\n[a.b]\n[[a.b]]", "a=[]\n[[a]]", "[[a]]\n[a]", "[a]\n[[a]]", "# \x01", 'a="\t"', "a={\n}",
    "a=true#x", "a=truex", "a=inf", "a=nan", "a=2026-02-30", "a=2026-02-28", "a=1\r\nb=2\r", "[ a . b ]\nx=1",
    "a.b.c=1\na.b.d=1\n[a.b.e]", "a=" + "[" * 30 + "]" * 30,
)


def loaded(load, text):
    try:
        return load(text)
    except ValueError:
        return "no TOML"


def test_toml_read_like_library():
    ours, pick = shim("tomllib").loads, random.Random(2)
    sources = [path.read_text("utf-8") for path in [*APPROACHES, DRAFT]]
    texts = [*TOML, *sources]
    for _ in range(500):
        text = pick.choice(sources)
        start = pick.randrange(len(text))
        part = text[start:start + pick.randrange(120)]
        cut = pick.randrange(len(part) + 1)
        texts.append(part[:cut] + pick.choice("[]\",\n'{}.1#\\_-=") + part[cut + pick.randrange(2):])
    for text in texts:
        assert same(loaded(tomllib.loads, text), loaded(ours, text)), text
    assert loaded(ours, "a=07:32:00") == loaded(ours, "a=2026-05-27T07:32:00Z") == "no TOML"
    with pytest.raises(ValueError, match=r"\(at line 2, column 3\)"):
        ours("a=1\nb ?")


def numbers():
    pick = random.Random(3)
    yield from (0.0, -0.0, 0.1, 9.13, 78.9, 1e16, 1e15, 123456789012345680.0, 1e-4, 1e-5, 5e-324)
    yield 1.7976931348623157e308
    for _ in range(800):
        yield pick.randrange(-10**6, 10**6) / pick.choice((1, 10, 100, 1000))
        yield pick.uniform(-180.0, 180.0)
        yield pick.uniform(0.0, 1.0) * 10.0 ** pick.randrange(-8, 20)


def test_numbers_exact_to_last_bit():
    ours = shim("builtin")
    for number in numbers():
        assert ours.str(number) == str(number)
        assert ours.float(repr(number)) == number or number < 1e-300, number
        assert ours.repr(number) == repr(number)
    assert ours.float("  +1_0.5e1 ") == 105.0 and math.isnan(ours.float("nan")) and ours.float("1e999") == math.inf
    for text in ("", "x", "1.2.3", "--1", "1e"):
        with pytest.raises(ValueError):
            ours.float(text)
    for value, by in itertools.product((0.0, 90.0, -180.0, 180.0, 540.0, 539.9, -720.5, 1e-13), (360.0, 7.0)):
        assert ours.remainder(value, by) == math.remainder(value, by)
    assert ours.hypot(3.0, 4.0) == math.hypot(3.0, 4.0)


def test_texts_and_rows_match_library():
    ours = shim("builtin")
    for text in ("", "abc", "Ab1", "a b", "1a", "_a", "x\x7f", "\u00ad", "\u202f", "é–−°", "\u2028", "\n", "A-b c"):
        assert ours.isprintable(text) == text.isprintable(), repr(text)
        assert ours.casefold(text) == text.casefold() and ours.title(text) == text.title()
        assert ours.capitalize(text) == text.capitalize()
        for value in (text, [text, 1], {text: [1.5]}, f"{text}'", f"{text}'\"", "\\x"):
            assert ours.repr(value) == repr(value)
        assert ours.ljust(text, 5) == text.ljust(5) and ours.rjust(text, 5) == text.rjust(5)
        assert ours.removeprefix(text, "a") == text.removeprefix("a")
        assert ours.removesuffix(text, "c") == text.removesuffix("c")
        if text.isascii():
            assert ours.isidentifier(text) == text.isidentifier() and ours.isalnum(text) == text.isalnum(), text
    assert {chr(code) for code in range(0x11000) if chr(code).isspace()} == set(shim("texts").SPACES)
    assert [ours.strip(text) for text in ("", " \u202f", "\xa0 a b\t\n")] == ["", "", "a b"]
    assert [ours.zfill(text, 4) for text in ("1", "-1", "12345")] == [text.zfill(4) for text in ("1", "-1", "12345")]
    rows, ends = ("abcde", (1, 2, 3), []), (None, -2, 0, 1, 9)
    for row, start, stop, step in itertools.product(rows, ends, ends, (-2, -1, 2)):
        assert ours.stepped(row, start, stop, step) == row[start:stop:step]
    assert list(ours.merged({"b": 1}, (("a", 2), ("b", 3))).items()) == [("b", 3), ("a", 2)]
    assert list(ours.zip([1, 2], "ab", strict=True)) == [(1, "a"), (2, "b")]
    with pytest.raises(ValueError, match="different lengths"):
        ours.zip([1], "ab", strict=True)
    assert list(ours.fromkeys("zy", 0).items()) == [("z", 0), ("y", 0)]
    other = shim("itertools")
    assert list(other.pairwise("abc")) == list(itertools.pairwise("abc"))
    assert list(other.combinations("abc", 2)) == list(itertools.combinations("abc", 2))
    assert other.accumulate([1, 2, 3]) == [1, 3, 6] and other.chain("a", "bc") == ["a", "b", "c"]
    assert dict(shim("collections").Counter("aab")) == {"a": 2, "b": 1}
    words = ("altitude_ft", "altitude_rule", "name", "latitude", "longitude")
    for word in ("altitude", "latitudes", "names", "zzz", "altitude_f"):
        assert shim("difflib").get_close_matches(word, words, 1, 0.6) == difflib.get_close_matches(word, words, 1, 0.6)


def test_records_match_library():
    ours = shim("dataclasses")

    @ours.dataclass("first", "second", "third")
    class Ours:
        second = 2
        third = ours.field(default_factory=list)

        def __post_init__(self):
            self.sum = self.first + self.second

    @dataclasses.dataclass
    class Theirs:
        first: int
        second: int = 2
        third: list = dataclasses.field(default_factory=list)

    record = Ours(1)
    assert record == Ours(first=1, second=2) != Ours(1, 3) and record.sum == 3
    assert repr(record).partition("(")[2] == repr(Theirs(1)).partition("(")[2]
    assert [each.name for each in ours.fields(record)] == [each.name for each in dataclasses.fields(Theirs)]
    assert ours.replace(record, second=5) == Ours(1, 5) and ours.is_dataclass(record) and not ours.is_dataclass(3)
    for wrong in ((), (1, 2, 3, 4)):
        with pytest.raises(TypeError):
            Ours(*wrong)
    with pytest.raises(TypeError, match="fourth"):
        Ours(1, fourth=4)
    made = ours.make_dataclass("Made", [("a", None, ours.field()), ("b", None, 7)], namespace={"c": 1})
    assert (made(3).a, made(3).b, made.c) == (3, 7, 1)
    calls = []
    kept = shim("functools").cache(lambda value: calls.append(value) or value)
    assert [kept(1), kept(1), kept(2)] == [1, 1, 2] and calls == [1, 2]


CONSTRUCTS = {
    "a = [*b, 1, *c]": "a = list(b) + [1] + list(c)",
    "f(**b, a=1)": "f(a=1, **b)",
    "isinstance(a, int | float | str)": "isinstance(a, (int, float, str))",
    "A = dict[str, int]": "A = None",
    "def f(a: int, /, *, b: str = '') -> str:\n    'words'": "def f(a, *, b=''):\n    pass",
    "raise A('b') from c": "raise A('b')",
    "if TYPE_CHECKING:\n    import a": "",
    "import re": "import phone.re as re",
    "math.hypot(a, b)": "_b.hypot(a, b)",
    "a.isprintable()": "_b.isprintable(a)",
    "hasattr(a, 'isprintable')": "True",
    "a.strip()": "_b.strip(a)",
    "a.strip('.')": "a.strip('.')",
    "try:\n    pass\nexcept RecursionError:\n    pass": "try:\n    pass\nexcept _b.RecursionError:\n    pass",
    "f'{a:.1f}{{'": "'{:.1f}{{'.format(a)",
}


def test_constructs_rewritten_or_refused():
    for text, expected in CONSTRUCTS.items():
        assert plain(text).partition("\n")[2].strip() == expected, text
    assert 'dataclass("first", "second")'.replace('"', "'") in plain(
        "@dataclass(frozen=True)\nclass A:\n    first: int\n    second: str = ''\n    third: ClassVar[int] = 3\n")
    for text in ("match a:\n    case 1: pass", "a[::2] = b", "class A(NamedTuple):\n    a: int = 1"):
        with pytest.raises(ValueError):
            plain(text)
    with pytest.raises(ValueError, match=r"x runs on the phone, which has no socket"):
        plain_modules.imported("x", "def f():\n    import socket")


ASK = """
import json, sys
sys.path[:] = [sys.argv[1], *[place for place in sys.path if "snippets" not in place and "site-packages" not in place]]
from lpv.compose import form
found = []
for text in json.load(sys.stdin):
    opened = json.loads(form.opened(text))
    found.append([opened, json.loads(form.run(json.dumps(opened["entries"]), opened["carried"], "zzak", "2026-12-01"))])
print(json.dumps(found))
"""


def test_rewritten_modules_give_same_answers(tmp_path, monkeypatch):
    """In CPython, without ours on its path; the browser's tests do the same in MicroPython."""
    for address, text in json.loads(phone.code("approach")[1]).items():
        (tmp_path / address).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / address).write_text(text, "utf-8")
    texts = [path.read_text("utf-8") for path in [*APPROACHES, DRAFT]]
    texts.append(texts[0].replace('airport = "ZZAK"', "airport = 3").replace("course_deg = 92", 'course_deg = "x"'))
    run = subprocess.run([sys.executable, "-c", ASK, str(tmp_path)], input=json.dumps(texts), capture_output=True,
                         text=True, env={"PATH": ""}, check=True)
    monkeypatch.setattr("lpv.crosscheck.runway.geoid_height_m", import_module("phone.geoid").geoid_height_m)
    expected = []
    for text in texts:
        opened = json.loads(form.opened(text))
        expected.append([opened, json.loads(
            form.run(json.dumps(opened["entries"]), opened["carried"], "zzak", "2026-12-01"))])
    assert json.loads(run.stdout) == expected
    assert expected[-1][1]["faults"] and sum(len(answer["findings"]) for _, answer in expected) > 300
    assert [row["why"] for row in expected[0][1]["findings"] if row["key"] == "threshold-height"] == [
        "This device has no table of the geoid."]
