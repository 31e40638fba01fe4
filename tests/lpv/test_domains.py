"""Where a function refuses a number its docstring, or a private one's module, says from where to where it answers.

The numbers are read from the compiled code, as it runs: a bound that is changed in the code alone stands in no
docstring.  Zero says itself: most domains begin there.
"""

import ast
import dis
import importlib
import re
from collections.abc import Iterator
from pathlib import Path
from types import CodeType

import pytest

SNIPPETS = Path(__file__).resolve().parents[2] / "snippets"
CHECKS = {"in_range", "above"}
NUMBER = re.compile(r"(?<![\w.-])-?\d+(?:[ _]\d{3})*(?:\.\d+)?(?:e\d+)?(?!-\d|\.\w|\w)")  # no paragraph: 1-1-18.d.1
PLACES = (0, 1, -1, 2)  # whole numbers in a call that count items of a list


def checks(path: Path) -> bool:
    """Whether a module takes one of the checks."""
    taken = [node for node in ast.walk(ast.parse(path.read_text("utf-8")))
             if isinstance(node, ast.ImportFrom) and node.module == "lpv.core.errors"]
    return any(CHECKS & {alias.name for alias in node.names} for node in taken)


PATHS = {".".join(path.relative_to(SNIPPETS).with_suffix("").parts): path
         for package in ("lpv", "lpv_site") for path in sorted((SNIPPETS / package).rglob("*.py")) if checks(path)}


def helpers(code: CodeType) -> set[str]:
    """The checks, and the private functions of a module that call one."""
    return CHECKS | {inner.co_name for inner in code.co_consts if isinstance(inner, CodeType)
                     and inner.co_name.startswith("_") and CHECKS & set(inner.co_names)}


def bounds(code: CodeType, checked: set[str]) -> Iterator[float]:
    """The numbers in the calls that check a domain."""
    inside = 0
    for step in dis.get_instructions(code):
        if step.opname == "LOAD_GLOBAL" and step.argval in checked:
            inside += 1
        elif inside and step.opname == "LOAD_CONST" and isinstance(step.argval, float | int):
            yield step.argval
        elif inside and step.opname == "CALL":
            inside -= 1


def stated(text: str) -> set[float]:
    """The numbers of a text, a minus sign read as such and as a dash."""
    limits = {float(number.replace(" ", "").replace("_", "")) for number in NUMBER.findall(text)}
    return limits | {abs(number) for number in limits} | {0.0}


def unstated(code: CodeType, around: str, everywhere: str, checked: set[str] | None = None) -> Iterator[str]:
    """Bounds of a module's functions that no docstring states."""
    checked = checked or helpers(code)
    for inner in code.co_consts:
        if not isinstance(inner, CodeType):
            continue
        own = inner.co_consts[0] if inner.co_consts and isinstance(inner.co_consts[0], str) else ""
        known = stated(everywhere if inner.co_name.startswith(("_", "<")) else f"{around} {own}")
        for bound in bounds(inner, checked):
            if bound not in known and not (isinstance(bound, int) and bound in PLACES):
                yield f"{inner.co_qualname}: {bound}"
        yield from unstated(inner, f"{around} {own}", everywhere, checked)


def docstrings(path: Path) -> tuple[str, str]:
    """That of a module, and all in it."""
    tree = ast.parse(path.read_text("utf-8"))
    kinds = (ast.Module, ast.ClassDef, ast.FunctionDef)
    return ast.get_docstring(tree) or "", " ".join(
        ast.get_docstring(node) or "" for node in ast.walk(tree) if isinstance(node, kinds))


@pytest.mark.parametrize("name", PATHS)
def test_domain_matches_docstring(name):
    module = importlib.import_module(name)
    code = module.__loader__.get_code(name)
    assert list(unstated(code, *docstrings(PATHS[name]))) == []


def test_bound_changed_only_in_code_detected():
    source = 'def f(x):\n    """x: 1 to 10 000."""\n    return in_range("x", x, 1.0, {}, "ft")\n'
    right, wrong = (compile(source.format(high), "f", "exec") for high in ("10000.0", "11000.0"))
    assert list(unstated(right, "", "")) == []
    assert list(unstated(wrong, "", "")) == ["f: 11000.0"]
    assert len(PATHS) > 50
