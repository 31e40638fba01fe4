"""What a key holds: the definitions that a page reaches, found in the text of modules, and what it really calls."""

import ast
import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from lpv_site.build import definitions, keys, reach
from lpv_site.build.definitions import SNIPPETS, Definition, modules
from lpv_site.department.data import DOCS

FILES = sorted(SNIPPETS.rglob("*.py"))
# Who takes modules by their names at run time: none of these is reached by the names alone, so the tables of `reach`
# and the seeds of `keys` name them.
DYNAMIC = {
    "lpv/calculators/run.py", "lpv/figures/run.py", "lpv/command/json_schema.py", "lpv/command/main.py",
    "lpv_site/forms/phone.py", "lpv_site/forms/plain_modules.py", "lpv_site/text/inline.py",
    "lpv_site/checks/checks.py", "lpv_site/build/jobs.py", "lpv_site/build/scripts.py", "lpv_site/build/policy.py",
}
MODULE = '''"""A module."""

import math
from lpv.core import units
from lpv.core.text import plural as several

LIMIT, OTHER = units.FT_PER_M, 3
notes = []
notes.append(OTHER)

if TYPE_CHECKING:
    from lpv.facts import value


@cache
def outer(a, units_of=several):
    """What it does."""
    from lpv.air import altimetry
    several = [LIMIT for LIMIT in a]

    def inner(x):
        return altimetry.height(x, notes)
    return [inner(x) for x in several] + math.floor(units.knots(a.units))


@registered("form")
def shown():
    return lambda OTHER: OTHER + LIMIT


class Kept(units.Base):
    size: several = 3

    def area(self) -> Unused:
        width: Unused = self.size
        return width
'''


def uses(name: str) -> set[str]:
    [found] = [item for item in definitions.read(MODULE).definitions if name in item.names]
    return set(found.uses)


def test_definitions_and_imports_read():
    module = definitions.read(MODULE)
    assert [item.names for item in module.definitions] == [
        ["__doc__"], ["LIMIT", "OTHER"], ["notes"], [], ["outer"], [], ["Kept"]]
    assert module.imported == {"math": "math", "units": "lpv.core.units", "several": "lpv.core.text.plural"}


def test_own_names_told_from_local_ones():
    assert uses("LIMIT") == {"units.FT_PER_M"}
    # its own `several` and LIMIT are local; the default is not; what it imports itself is named whole
    assert uses("outer") == {
        "cache", "several", "@lpv.air.altimetry", "@lpv.air.altimetry.height", "notes", "math.floor", "units.knots"}
    assert uses("Kept") == {"units.Base", "several"}


def test_decorator_that_may_note_something_acts_on_loading():
    acting = [item for item in definitions.read(MODULE).definitions if not item.names]
    assert [item.uses for item in acting] == [["OTHER", "notes.append"], ["LIMIT", "registered"]]
    assert acting[1].texts == ["form"]


@pytest.mark.parametrize(("old", "new", "changed"), [
    ("+ LIMIT", "- LIMIT", [5]), ("A module", "Another module", [0]), ("What it does", "How", [4]),
    ("@cache", "@once", [4]), ("    size", "    # a note\n    size", [6]), ("\n\nclass", "\n\n# a note\nclass", []),
])
def test_edit_changes_its_definition_alone(old, new, changed):
    before, after = (definitions.read(text).definitions for text in (MODULE, MODULE.replace(old, new)))
    assert [number for number, pair in enumerate(zip(before, after, strict=True)) if pair[0] != pair[1]] == changed


def test_every_module_read_whole():
    name_of = {path: name for name, path in modules().items()}
    for path in FILES:
        body = ast.parse(path.read_text("utf-8")).body
        names = {item.name for item in body if isinstance(item, ast.FunctionDef | ast.ClassDef)}
        read = definitions.module(name_of[path]).definitions
        acting = sum(not item.names for item in read)
        assert names <= {name for item in read for name in item.names} or acting, path
        assert all(isinstance(item, Definition) and item.digest for item in read)


def test_modules_taken_by_name_known():
    pattern = re.compile(r"import_module|__import__|importlib\.(?!metadata)|runpy\.")
    names = {path.relative_to(SNIPPETS).as_posix() for path in FILES if pattern.search(path.read_text("utf-8"))}
    assert names <= DYNAMIC, "name what it may reach in lpv_site/build/reach.py, then list it here"


def reached_from(*names: str) -> set[str]:
    return {f"{module}.{name}" for module, number in reach.reached(names) if number >= 0
            for name in definitions.module(module).definitions[number].names}


def test_indirect_uses_reached():
    names = reached_from("final.altimeter.show")
    assert {"final.altimeter.show", "lpv.facts.FACTS", "lpv.path.temperature.indicated_on_path_ft"} <= names
    assert names.isdisjoint({"final.rate.show", "lpv.path.deviation.two_dots", "lpv.sbas.integrity.levels"})


def test_class_reached_whole_and_function_alone():
    names = reached_from("lpv.path.deviation.five_dots")
    assert "lpv.path.deviation._share" in names
    assert "lpv.path.deviation.vectors_full_scale_ft" not in names


def test_package_reaches_what_loads_with_it():
    assert "lpv.facts.override" in reached_from("lpv.facts.value"), "own facts are put in place as the room is loaded"


def test_forms_and_cases_reached_by_their_names():
    assert "lpv.calculators.verify.CALCULATORS" in reached_from("lpv_site.briefing.briefing.identity")
    assert reach.named()["altimeter"] == "lpv.calculators.final.CALCULATORS"
    assert reach.named()["live-altimeter"] == "lpv.figures.altimeter.FIGURES"
    # a text that happens to be the name of a calculator, in a module that takes none
    assert "lpv.calculators.final.CALCULATORS" not in reached_from("lpv_site.briefing.flying.altimeter")
    assert "lpv.motion.kinematics.turn_radius_ft" in reached_from("verify.published.show")
    assert "lpv.motion.kinematics.turn_radius_ft" not in reached_from("lpv_site.checks.formula.in_prose")


def test_unknown_name_reaches_nothing():
    assert reach.reached(["nope.show", "numpy.array"]) == frozenset()
    assert reach.version(frozenset(["nope.show"])) != reach.version(frozenset(["nope.other"]))


def test_whole_module_where_attribute_is_not_known():
    places = reach.places("lpv.path.deviation.nope")
    assert places == reach.places("lpv.path.deviation")
    assert len(places) == len(definitions.module("lpv.path.deviation").definitions) + 1


def test_files_beside_modules_belong_to_them():
    grids = [path for path in SNIPPETS.rglob("*") if path.suffix == ".grid"]
    assert grids
    assert all(path.name in reach.beside(path.parent) for path in grids)


@pytest.mark.parametrize("path", keys.READ_BY, ids=lambda path: path.name)
def test_file_reading_modules_exist(path):
    assert isinstance(path, Path)
    assert path.is_file()


# What a page really calls, seen by Python's own trace

CALLED = """
import json, sys
from pathlib import Path
from lpv_site.build import explorations, pages
from lpv_site.briefing import briefings
from lpv_site.department.data import DOCS
kind, name = sys.argv[1:]
seen, loading = set(), [0]
def trace(frame, event, _argument):
    code = frame.f_code
    if code.co_name == "<module>":
        loading[0] += {"call": 1, "return": -1}.get(event, 0)
    elif event == "call" and not loading[0]:
        seen.add((code.co_filename, code.co_firstlineno))
sys.setprofile(trace)
if kind == "page":
    pages.make_page(name, (DOCS / name).read_text("utf-8"))
else:
    briefings.make(DOCS / "approaches" / name, "")
sys.setprofile(None)
print(json.dumps(sorted(seen)))
"""
# Kept under keys of their own; what the department adds to every key.
KEPT_APART = ("lpv.modes.exploration", "lpv_site.build.", "lpv_site.department.department")


def called(kind: str, name: str) -> set[tuple[str, int]]:
    """Module and number of each definition of which something is called as a page is made in a process of its own."""
    command = [sys.executable, "-c", CALLED, kind, name]
    run = subprocess.run(command, env={**os.environ, "PYTHONPATH": str(SNIPPETS)}, capture_output=True, text=True)
    assert not run.returncode, run.stderr[-2000:]
    by_file = {str(path): name for name, path in modules().items()}
    return {place for file, line in json.loads(run.stdout) if file in by_file
            for place in _defined_at(by_file[file], line)}


def _defined_at(name: str, line: int) -> list[tuple[str, int]]:
    spans = definitions.spans(modules()[name].read_text("utf-8"))
    return [(name, number) for number, (first, last) in enumerate(spans) if first <= line <= last]


@pytest.mark.parametrize(("kind", "name"), [
    ("page", "final/altimeter.md"), ("page", "verify/published.md"), ("briefing", "zz"),
])
def test_all_that_is_called_is_reached(kind, name):
    if kind == "page":
        seeds = {keys.PIPELINE, *keys.sources((DOCS / name).read_text("utf-8"))}
    else:
        name = sorted(path.name for path in (DOCS / "approaches").glob(f"{name}*.toml"))[0]
        seeds = {keys.BRIEFINGS, "lpv_site.text.facts.in_prose"}
    places = {place for place in called(kind, name) if not place[0].startswith(KEPT_APART)}
    assert len(places) > 50
    assert places <= reach.reached(seeds)
