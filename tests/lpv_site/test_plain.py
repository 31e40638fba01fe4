# ruff: noqa: PT018, PT011
"""The Python of the phone: modules said anew, beside the modules that they stand for."""

import ast
import json
import re
import subprocess
import sys
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
