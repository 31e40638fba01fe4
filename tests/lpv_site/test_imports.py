"""The sources that a key holds: read from the text of modules, and all of them."""

import ast
import re
from pathlib import Path

import pytest

from lpv_site.build import imports, keys
from lpv_site.build.imports import SNIPPETS, imported, modules, reached

FILES = sorted(SNIPPETS.rglob("*.py"))
# Who takes modules by their names at run time: none of these is reached by the imports alone, so keys name them.
DYNAMIC = {
    "lpv/calculators/run.py", "lpv/figures/run.py", "lpv/command/json_schema.py", "lpv/command/main.py",
    "lpv_site/forms/phone.py", "lpv_site/forms/plain_modules.py", "lpv_site/text/inline.py",
    "lpv_site/checks/checks.py", "lpv_site/build/jobs.py", "lpv_site/build/scripts.py", "lpv_site/build/policy.py",
}


def by_syntax(path):
    """The files that a module imports, by Python's own parser."""
    names = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            names |= {str(node.module), *(f"{node.module}.{alias.name}" for alias in node.names)}
    above = {".".join(name.split(".")[:length]) for name in names for length in range(1, name.count(".") + 2)}
    return {modules()[name] for name in above if name in modules()}


def test_imports_match_python():
    wrong = [path for path in FILES if imported(path) != by_syntax(path)]
    assert not wrong


def test_modules_taken_by_name_known():
    pattern = re.compile(r"import_module|__import__|importlib\.(?!metadata)|runpy\.")
    modules = {path.relative_to(SNIPPETS).as_posix() for path in FILES if pattern.search(path.read_text("utf-8"))}
    assert modules <= DYNAMIC, "name what it may reach in lpv_site/build/keys.py, then list it here"


def test_indirect_imports_reached():
    modules = {path.relative_to(SNIPPETS).as_posix() for path in reached(SNIPPETS / "final" / "altimeter.py")}
    assert {"final/altimeter.py", "lpv/__init__.py", "lpv/air/altimetry.py", "lpv/core/units.py"} <= modules
    assert modules.isdisjoint({"final/rate.py", "lpv/sbas/integrity.py"})


def test_missing_file_reaches_nothing():
    assert reached(SNIPPETS / "nope.py") == {SNIPPETS / "nope.py"}
    assert imports.version(frozenset([SNIPPETS / "nope.py"]))


def test_files_beside_modules_belong_to_them():
    grids = [path for path in SNIPPETS.rglob("*") if path.suffix == ".grid"]
    assert grids
    assert set(grids) <= imports.beside(grids[0].parent)


@pytest.mark.parametrize("path", keys.READ_BY, ids=lambda path: path.name)
def test_file_reading_modules_exist(path):
    assert isinstance(path, Path)
    assert path.is_file()
