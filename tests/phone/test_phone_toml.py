"""Data files as the phone reads them, beside the library."""

import random
import tomllib

import pytest

from phone import tomllib as ours
from support import ROOT

APPROACHES = sorted((ROOT / "docs" / "approaches").glob("*.toml"))
DRAFT = ROOT / "docs" / "approaches" / "drafts" / "zzak-rnav-09-draft.toml"
TOML = (
    "a=1\na=2", "[a]\n[a]", "[a.b]\n[a]\nc=1", "[[a]]\nx=1\n[[a]]\n[a.b]\ny=1", "a.b=1\na.c=2", "a.b=1\n[a]\n",
    "a={b=1,c={d=2}}\n", "a={b=1}\n[a.c]", "a=[1,\n2, # x\n]", "a='x\\y'", 'a="""\nx\n\\\n  y"""', "a='''x'''''",
    "a=0xFF", "a=1e5", "a=1_000", "a=1__0", "a=+1.5", "a=.5", "a=5.", "a=01", "a=-0", "a=-0.0", '"x y".z=1',
    'a = "\\u00e9\\U0001F600"', 'a="\\ud800"', "[a]b=1", "a=1 b=2", "=1", "a", "a=", "[]", "[[a]", "a=[1 2]",
    "[a]\nb.c=1\n[a.b]", "[a]\n[a.b]\n[[a.b]]", "a=[]\n[[a]]", "[[a]]\n[a]", "[a]\n[[a]]", "# \x01", 'a="\t"',
    "a={\n}", "a=true#x", "a=truex", "a=inf", "a=nan", "a=2026-02-30", "a=2026-02-28", "a=1\r\nb=2\r",
    "[ a . b ]\nx=1", "a.b.c=1\na.b.d=1\n[a.b.e]", "a=" + "[" * 30 + "]" * 30,
    # blanks, ends of lines and comments, at each place
    "", "\n", " \t\n# x\n\n a = 1 # y\t~\n # z", "a=1\t\n\tb=2", "#\x7f", "#\t", "# \x1f", "a=1 # \x0b",
    "a=[ # x\n1 # y\n, # z\n2\n]", "a=[\n\t]\n", "a=[,]", "a=[1,,2]", "a=[1,]", "a=[1", "a={ b = 1 , c = 2 }",
    "a={b=1,}", "a={b=1 c=2}", "a={,}", "a={b=1", "a={ }", "a={b=1}b=2", "a=1\n\n\n[b]\n\n", "a\n=1", "a=\n1", "[a\n]",
    "[ [a]]", "[[a] ]", "[a]]", "[[a]]x", "[a] # x\nb=1", "[[ a ]]\nb=1",
    # keys
    "a-b_1=1", "1=2", "'a.b'=1", "'a'.\"b\".c = 1", "a..b=1", ".a=1", "a.=1", "a b=1", "é=1", '""=1', "'''a'''=1",
    'a."b\\n"=1', "a . b=1\na\t.c=2", "a.b=1\na.b=2", "a.b=1\na.b.c=2", "a=1\na.b=2", "a={b=1}\na.c=2",
    "[a]\nb=1\n[c]\na.b=1", "a={b.c=1, b.d=2}", "a={b={}, b.c=1}", "a={b.c=1, b={}}", "[a]\nb=1\nb.c=2",
    # tables and lists of tables
    "[a]\n[a.b]\n[a.c]\nx=1", "[a.b]\n[a.b.c]\n[a]", "[[a.b]]\nc=1\n[[a.b]]\nc=2", "[[a]]\n[[a.b]]\n[[a.b]]\n[a.c]",
    "[a]\nb=[1]\n[a.b]", "[a]\nb=1\n[a.b.c]", "a=[{b=1}]\n[a.c]", "a=[{b=1}]\n[[a]]",
    "[[a]]\n[[a]]\n[a.b]\n[[a]]\n[a.b]", "[a]\nb.c=1\n[a.b.d]", "[a]\nb.c=1\n[[a.b]]", "a={}\n[a]",
    "a={b={}}\n[a.b.c]", "[a.b]\nc={}\n[a.b.c.d]", "[[a]]\nb=1\n[a]\nc=1", "a.b=1\n[a.c]", "[a.b]\n[[a]]",
    "[a]\n[b]\n[a.c]\n[b.c]",
    # texts
    "a='x'", "a=''", 'a=""', "a='\n'", 'a="\n"', "a='x", 'a="x', "a='''x", 'a="""x""', "a='''\n\nx\ny\n'''",
    "a='''x''''", "a='''x''''''", 'a="""x"""""', 'a="""x""""""', 'a="""x\\"""y"""', 'a=""""""', "a=''''''",
    'a="""a\\  \n\n \t b"""', 'a="""a\\ b"""', 'a="a\\\nb"', 'a="""\\\n"""', 'a="\x1f"', 'a="\x7f"', "a='\x08'",
    "a='''\x0b'''", 'a="""\t\n"""', "a='\\'", 'a="\\\\\\""', 'a="\\b\\t\\n\\f\\r"', 'a="\\x"', 'a="\\', 'a="\\"',
    'a="\\u00e9x"', 'a="\\u00e"', 'a="\\u00eg"', 'a="\\uD7FF\\uE000"', 'a="\\uDFFF"', 'a="\\U0010FFFF"',
    'a="\\U00110000"', 'a="\\U0001F60"', 'a="\\u0000"', 'a="\\U00000041B"', 'a="\\u0041B"', "a='\\u0041'",
    "a='''\\\n'''", 'a="""\\u0041"""',
    # numbers, truth and dates
    "a=0", "a=+0", "a=+7", "a=--1", "a=+-1", "a=+", "a=1.", "a=1.5.2", "a=1e", "a=1e+", "a=1E+05", "a=1e-2", "a=1e+-2",
    "a=1.5e3", "a=1.e3", "a=e3", "a=.e3", "a=00", "a=0.5", "a=00.5", "a=-01", "a=0e0", "a=1_0.5_0e1_0", "a=_1", "a=1_",
    "a=1._5", "a=1_.5", "a=1e_5", "a=0x", "a=0xG", "a=0xa_F", "a=0x_a", "a=0o17", "a=0o8", "a=0o7_0", "a=0b101",
    "a=0b2", "a=0b1_0", "a=+0x1", "a=0XFF", "a=-inf", "a=+inf", "a=+nan", "a=Inf", "a=+true", "a=false", "a=True",
    "a=2026-1-01", "a=2026-01-1", "a=26-01-01", "a=2026-13-01", "a=2024-02-29", "a=2025-02-29", "a=2026-00-10",
    "a=2026-01-01x", "a=20260101", "a=2026-0101", "a=2_26-01-01", "a=1 ", "a=1,b=2",
    "a=[1,2.0,'x',true,[],{},2026-01-01,0x1]", "a=[1]b", "a=1=2", "a=x", "a=-",
)
# What is no TOML: what is said, and where.
REFUSED = (
    ("a=1\nb ?", "expected '='", 2, 3), ("# a\x01", "a sign that cannot be seen", 1, 4),
    ("a=1 b", "expected the end of the line", 1, 5), ("[a", "expected ']'", 1, 3), ("[[a]", "expected ']]'", 1, 4),
    ("\n\na=[]\n[[a]]", "no list of tables: a", 4, 6), ("[a]\n[a]", "a table a second time: a", 2, 4),
    ("a=1\n[a.b]", "no table to add to: a", 2, 6), ("[a.b]\n[a]\nb.c=1", "a table that stands elsewhere: b", 3, 5),
    ("a=1\n a=2", "a key a second time: a", 2, 4), ("a=1\n=2", "expected a key", 2, 1), ("a = x", "no value", 1, 5),
    ("a=[1\n 2]", "a list that does not close", 2, 2), ("a={b=1,}", "a comma with nothing behind it", 1, 8),
    ("a={b=1 c=2}", "a table that does not close", 1, 8),
    ("a='x", "a text that does not close, or a sign that cannot be seen", 1, 5),
    ("a='x\ny'", "a text that does not close, or a sign that cannot be seen", 1, 5),
    ('a="\\ud800"', "no sign of that number", 1, 4), ('a="\\x"', "no escape", 1, 4),
    ('a="\\u00eg"', "no sign of that number", 1, 4), ('a="\\U0010g"', "no sign of that number", 1, 4),
    ("a=" + "[" * 62, "lists nested too deeply", 1, 64),
)


def same(read, expected):
    """Equal with the same types and the same order of keys."""
    if isinstance(read, dict):
        return isinstance(expected, dict) and list(read) == list(expected) and all(
            same(read[key], expected[key]) for key in read)
    if isinstance(read, list):
        return isinstance(expected, list) and len(read) == len(expected) and all(map(same, read, expected))
    return type(read) is type(expected) and (read == expected or read != read)


def loaded(load, text):
    try:
        return load(text)
    except ValueError:
        return "no TOML"


def test_every_construct_read_like_library():
    for text in (*TOML, *(f"{text}\n[z]\nz=1" for text in TOML), *(f"y.x=1\n{text}\n" for text in TOML)):
        assert same(loaded(tomllib.loads, text), loaded(ours.loads, text)), text


def test_altered_files_read_like_library():
    pick = random.Random(2)
    sources = [path.read_text("utf-8") for path in [*APPROACHES, DRAFT]]
    texts = list(sources)
    for _ in range(500):
        text = pick.choice(sources)
        start = pick.randrange(len(text))
        part = text[start:start + pick.randrange(120)]
        cut = pick.randrange(len(part) + 1)
        texts.append(part[:cut] + pick.choice("[]\",\n'{}.1#\\_-=") + part[cut + pick.randrange(2):])
    for text in texts:
        assert same(loaded(tomllib.loads, text), loaded(ours.loads, text)), text


def test_time_of_day_refused():
    assert loaded(ours.loads, "a=07:32:00") == loaded(ours.loads, "a=2026-05-27T07:32:00Z") == "no TOML"


def test_fault_names_line_and_column():
    for text, words, line, column in REFUSED:
        with pytest.raises(tomllib.TOMLDecodeError):
            tomllib.loads(text)
        with pytest.raises(ours.TOMLDecodeError) as raised:
            ours.loads(text)
        assert str(raised.value) == f"{words} (at line {line}, column {column})", text


def test_lists_nest_to_fixed_depth():
    assert loaded(ours.loads, "a=" + "[" * 61 + "]" * 61) == tomllib.loads("a=" + "[" * 61 + "]" * 61)
    assert loaded(ours.loads, "a=" + "[" * 61 + "1" + "]" * 61) == "no TOML"
    assert same(loaded(ours.loads, "a=" + "[" * 60 + "1" + "]" * 60), tomllib.loads("a=" + "[" * 60 + "1" + "]" * 60))
