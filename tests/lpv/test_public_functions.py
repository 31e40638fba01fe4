"""Every public function of lpv is exercised by a check or a test, and says what it does."""

import importlib
import inspect
import pkgutil
import re
from pathlib import Path

import pytest

import lpv

TESTS = Path(__file__).resolve().parents[1]
MODULES = [
    name for _, name, _ in pkgutil.walk_packages(lpv.__path__, "lpv.") if not name.endswith("__main__")
]
WORDS = {
    word
    for kind in ("*.py", "*.toml") for path in TESTS.rglob(kind)
    for word in re.findall(r"\w+", path.read_text("utf-8"))
}


def public(module):
    for name, item in vars(module).items():
        if name.startswith("_") or getattr(item, "__module__", None) != module.__name__:
            continue
        if inspect.isfunction(item) or inspect.isclass(item):
            yield name, item


@pytest.mark.parametrize("name", MODULES)
def test_public_names_are_tested_and_described(name):
    module = importlib.import_module(name)
    assert module.__doc__
    for key, item in public(module):
        assert item.__doc__, f"{name}.{key} has no docstring"
        if inspect.isfunction(item):
            assert key in WORDS, f"{name}.{key} stands in no check and no test"
