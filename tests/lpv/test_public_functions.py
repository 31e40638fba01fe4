"""Every public function of lpv says what it does."""

import importlib
import inspect
import pkgutil
from pathlib import Path

import lpv

TESTS = Path(__file__).resolve().parents[1]
MODULES = [
    name for _, name, _ in pkgutil.walk_packages(lpv.__path__, "lpv.") if not name.endswith("__main__")
]

def public(module):
    for name, item in vars(module).items():
        if name.startswith("_") or getattr(item, "__module__", None) != module.__name__:
            continue
        if inspect.isfunction(item) or inspect.isclass(item):
            yield name, item


def test_public_names_described():
    assert len(MODULES) > 200
    for name in MODULES:
        module = importlib.import_module(name)
        assert module.__doc__, name
        for key, item in public(module):
            assert item.__doc__, f"{name}.{key} has no docstring"
