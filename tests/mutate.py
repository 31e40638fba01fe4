"""Mutation score: how many small wrong changes the tests notice, package by package.

    python tests/mutate.py                  a seeded sample of every package, about an hour on two idle cores
    python tests/mutate.py --sample 40      a smaller one
    python tests/mutate.py lpv.path final   some packages or folders of page scripts only
    python tests/mutate.py --all            every mutant there is: half a day

A mutant is judged by the tests that import its module and the check values that name its functions, then by the tests
that run its package as a whole, then by those of the page scripts that import it, then by those of the other modules
that do, and only in the memory of one process: nothing is written into the sources.  Verdicts are kept in
.cache/mutation.json until the module or one of those tests changes.  The figures go to tests/mutation.json, which the
validation page prints.
"""

import argparse
import ast
import contextlib
import datetime
import gc
import hashlib
import importlib.util
import inspect
import json
import math
import os
import random
import re
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import tomllib
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from mutants import Mutant, mutants, mutated

ROOT = Path(__file__).resolve().parents[1]
SNIPPETS, TESTS = ROOT / "snippets", ROOT / "tests"
KEPT, FIGURES, EQUIVALENT = ROOT / ".cache" / "mutation.json", TESTS / "mutation.json", TESTS / "mutation.toml"
SAMPLE, SEED, MAX_FILES, MAX_CASES, MAX_WIDER = 150, 18, 4, 60, 2
MAX_PLAIN_S, TIMES, MORE_S, MAX_BYTES = 60, 4, 12, 3 << 30  # how long tests may take; times that with a change
STORES = Path(tempfile.gettempdir()) / f"mutate-{os.getpid()}"  # what tests build and keep: of each process its own
PRELOADED = ("geographiclib.geodesic", "hypothesis", "jsonschema", "markdown", "matplotlib.figure", "mkdocs.config",
             "numpy", "pygeomag", "pymdownx", "pyproj", "pytest", "segno", "yaml")
# Tests that run every module of a package without importing each: page scripts as the build calls them, the rules of
# the cross-check on altered approaches, and others that reach their modules by a table.
DOMAINS = "tests/lpv/test_domains.py::test_domain_matches_docstring[{}]"
SCHEMAS = "tests/lpv/command/test_json_schema.py::test_published_schema_matches_code"
FIGURES_DRAWN = "tests/lpv/figures/test_figures.py"
OF_A_FIGURE = ("test_declared_for_dials", "test_findings_and_tables", "test_labels_marks_and_edges",
               "test_figure_responds_to_every_dial")
SCRIPT = "tests/site/test_scripts.py::test_script_runs_and_prints_clean[{}]"
WHOLE = {
    "lpv.crosscheck": (
        "tests/lpv/crosscheck/test_printed_figures.py", "tests/lpv/crosscheck/test_unread.py",
        "tests/lpv_site/test_mismatches.py"),
    "lpv.aircraft": ("tests/lpv/modes/test_modes.py", "tests/lpv_site/test_aircraft_page.py"),
    "lpv.calculators": (
        "tests/lpv/calculators/test_answers_by_hand.py", "tests/lpv/forms/test_declared.py",
        "tests/lpv/calculators/test_calculators.py"),
    "lpv.figures": (
        "tests/lpv/figures/test_findings_by_hand.py", "tests/lpv/figures/test_drawings_by_hand.py",
        "tests/lpv/figures/test_values_drawn_by_hand.py",
        "tests/lpv/forms/test_declared.py", FIGURES_DRAWN),
    "lpv.simulate": ("tests/lpv/simulate/test_flight_stories.py", "tests/lpv/simulate/test_played_flights.py"),
    "lpv.drill": ("tests/lpv/drill/test_drill.py",),
    "lpv_site.department": ("tests/site/test_own_data.py", "tests/lpv_site/test_department.py"),
    "lpv_site.figures": ("tests/lpv_site/test_plots_by_hand.py", "tests/lpv_site/test_plain_drawings_by_hand.py"),
    "lpv_site.forms": ("tests/lpv_site/test_form_entries.py",),
    "lpv.notices": ("tests/lpv/notices/test_notices.py",),
}
BUILT = {"site", "own_site", "browser"}  # fixtures of tests that cannot judge
FORMS = ("lpv.calculators", "lpv.forms", "lpv.figures", "lpv.drawing")


# What is mutated, and by which tests it is judged


@cache
def modules() -> dict[str, Path]:
    """Dotted name and file of every module of the project but the demo's generators."""
    paths = {}
    for path in sorted(SNIPPETS.rglob("*.py")):
        name = ".".join(path.relative_to(SNIPPETS).with_suffix("").parts)
        name = name.removesuffix(".__init__")
        if not name.startswith("demo") and "." in name:
            paths[name] = path
    return paths


def is_script(module: str) -> bool:
    """Whether a module is a page script."""
    return module.split(".")[0] not in ("lpv", "lpv_site", "phone")


def room(module: str) -> str:
    """The package that a module belongs to: lpv.path, lpv_site.text; for a page script its folder."""
    parts = module.split(".")
    return ".".join(parts[:2]) if parts[0] in ("lpv", "lpv_site") else parts[0]


def group(package: str) -> str:
    """What the target of a package is written for."""
    if package in FORMS:
        return "forms and figures"
    groups = {"lpv": "lpv", "lpv_site": "site layer", "phone": "forms and figures"}
    return groups.get(package.split(".")[0], "page scripts")


@cache
def imports(path: Path) -> frozenset[str]:
    """Modules of the project that a file imports."""
    names = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            names |= {node.module} | {f"{node.module}.{alias.name}" for alias in node.names}
    return frozenset(names & modules().keys())


@cache
def dependents(module: str) -> frozenset[str]:
    """The module, and all modules that import it or one that does."""
    cases_of, asked = {module}, {module}
    while asked:
        asked = {name for name, path in modules().items() if name not in cases_of and imports(path) & asked}
        cases_of |= asked
    return frozenset(cases_of)


@cache
def test_files() -> tuple[Path, ...]:
    """Tests that need neither a browser nor a published site; `Chosen` leaves out those that ask for the site."""
    left_out = {TESTS / "browser", TESTS / "publish"}
    return tuple(path for path in sorted(TESTS.rglob("test_*.py")) if path.parent not in left_out)


@cache
def cases() -> dict[str, list[str]]:
    """Check values by the function that they call, by its module, and by the modules that a probe's module imports."""
    case_ids: dict[str, list[str]] = defaultdict(list)
    for path in sorted((TESTS / "reference").glob("*.toml")):
        for case in tomllib.loads(path.read_text("utf-8")).get("case", []):
            module = case["function"].rpartition(".")[0]
            probed = imports(modules()[module]) if ".probes_" in module else ()
            for name in (module, case["function"], *probed):
                case_ids[name].append(f"tests/test_reference.py::test_reference[{case['id']}]")
    return case_ids


@cache
def judges(module: str) -> tuple[tuple[str, ...], ...]:
    """The tests that judge a module: the nearest file and the check values, and the other files that import it.

    Nearest is its namesake, then its folder's, then the one that imports fewest other modules.

    Without any, those of its room's own folder, since some modules are taken by their names; else those of the modules
    that import it.
    """
    def near(path: Path) -> tuple[bool, bool, int, str]:
        stem, folder = path.stem.removeprefix("test_"), module.split(".")[-2]
        return stem != module.split(".")[-1], path.parent.name != folder, len(imports(path)), path.name

    asked, seen, own = [module], {module}, (TESTS / room(module).replace(".", "/"),)
    while asked:
        files = [path for path in test_files() if imports(path) & set(asked)]
        values = [case for name in asked for case in cases()[name]]
        if not files and not values and seen == {module}:
            files = [path for path in test_files() if path.parent in own]
        if files or values or is_script(module):
            names = [path.relative_to(ROOT).as_posix() for path in sorted(files, key=near)[:MAX_FILES]]
            package = tuple(name for name in whole(module) if name not in names)
            far = (*package, *shown(module), *wider(module, (*names, *package, *shown(module))))
            stages = ((*names[:1], *values[:MAX_CASES]), tuple(names[1:]), *((name,) for name in far))
            return tuple(narrowed(module, tests) for tests in stages if tests)
        asked = [name for name, path in modules().items() if imports(path) & set(asked) and name not in seen]
        seen |= set(asked)
    return ()


def narrowed(module: str, tests: tuple[str, ...]) -> tuple[str, ...]:
    """The tests; of those that draw each live figure in many cases, those of the module's own figures."""
    own = re.findall(r'"(live-[a-z-]+)"', modules()[module].read_text("utf-8")) if room(module) == "lpv.figures" else []
    if FIGURES_DRAWN not in tests or not own:
        return tests
    drawn = [f"{FIGURES_DRAWN}::{test}[{name}]" for name in own for test in OF_A_FIGURE]
    return tuple(test for each in tests for test in (drawn if each == FIGURES_DRAWN else [each]))


def whole(module: str) -> tuple[str, ...]:
    """The tests that run the module with its package, or the page script as the build does."""
    if is_script(module):
        return (SCRIPT.format(modules()[module].relative_to(SNIPPETS).as_posix()),)
    taken = names_taken(modules()[module])
    checks = {"lpv.core.errors.in_range", "lpv.core.errors.above"} & taken
    return (*([DOMAINS.format(module)] if checks else []), *([SCHEMAS] if "lpv.files.schema" in taken else []),
            *WHOLE.get(room(module), ()))


@cache
def names_taken(path: Path) -> frozenset[str]:
    """What a file takes from modules by name."""
    return frozenset(f"{node.module}.{alias.name}" for node in ast.walk(ast.parse(path.read_text("utf-8")))
                     if isinstance(node, ast.ImportFrom) for alias in node.names)


def shown(module: str) -> tuple[str, ...]:
    """The tests of what the page scripts show that import a module: their values are worked out elsewhere."""
    scripts = {name for name, path in modules().items() if is_script(name) and module in imports(path)}
    files = [path for path in test_files() if path.parent.name == "scripts" and imports(path) & scripts]
    return tuple(path.relative_to(ROOT).as_posix() for path in files[:MAX_FILES]) if not is_script(module) else ()


def wider(module: str, known: tuple[str, ...]) -> tuple[str, ...]:
    """The test files, nearest folder first, of the modules that import this one, without those known already."""
    above = {name for name, path in modules().items() if module in imports(path)}
    files = [path for path in test_files() if imports(path) & above]
    names = [path.relative_to(ROOT).as_posix() for path in
             sorted(files, key=lambda path: (path.parent.name != module.split(".")[-2], path.name))]
    return tuple(name for name in names if name not in known)[:MAX_WIDER]


@cache
def judges_of_fact(key: str) -> tuple[tuple[str, ...], ...]:
    """The tests that judge a fact: those that name it, and the nearest of each module that takes it."""
    parts = key.split("_")
    begins = [f'f"{"_".join(parts[:count])}_{{' for count in range(1, len(parts))]
    takers = [name for name, path in modules().items() if not name.startswith("lpv.facts")
              and any(word in path.read_text("utf-8") for word in (f'"{key}"', *begins))]
    named = [path.relative_to(ROOT).as_posix() for path in test_files() if f'"{key}"' in path.read_text("utf-8")]
    stages = [tuple(named)] if named else []
    return tuple(dict.fromkeys(stages + [judges(name)[0] for name in takers if judges(name)]))[:MAX_FILES]


def judges_of(mutant: Mutant) -> tuple[tuple[str, ...], ...]:
    """The tests that judge a mutant, in stages: the next runs where the one before notices nothing."""
    if mutant.module.startswith("lpv.facts.") and mutant.function != "<module>":
        return judges_of_fact(mutant.function) or judges(mutant.module)
    own = tuple(cases()[f"{mutant.module}.{mutant.function}"][:MAX_CASES])
    return ((own,) if own else ()) + judges(mutant.module)


# One run of the judges


class Changed:
    """Finds one module as its mutant, in this process only."""

    def __init__(self, mutant: Mutant) -> None:
        self.mutant, self.path = mutant, modules()[mutant.module]

    def find_spec(self, name: str, _path: object = None, _target: object = None) -> object:
        if name != self.mutant.module:
            return None
        inside = [str(self.path.parent)] if self.path.name == "__init__.py" else None
        return importlib.util.spec_from_file_location(
            name, self.path, loader=_Loader(name, self.path, self.mutant), submodule_search_locations=inside)


class _Loader(importlib.machinery.SourceFileLoader):
    def __init__(self, name: str, path: Path, mutant: Mutant) -> None:
        super().__init__(name, str(path))
        self.mutant = mutant

    def get_code(self, _name: str) -> object:
        return compile(mutated(Path(self.path).read_text("utf-8"), self.mutant.number), self.path, "exec")


class Chosen:
    """A plugin of pytest: leaves out what needs a browser or the built site, or starts processes of its own."""

    def pytest_collection_modifyitems(self, items: list) -> None:
        items[:] = [item for item in items
                    if not BUILT & set(getattr(item, "fixturenames", ())) and not self._starts(item)]

    @staticmethod
    def _starts(item: Any) -> bool:
        """Whether a test, or a function of its file that it calls, starts a process: no change reaches that."""
        texts = {name: inspect.getsource(part) for name, part in vars(item.module).items()
                 if inspect.isfunction(part) and part.__module__ == item.module.__name__}
        own = texts.get(item.function.__name__, "")
        starters = [name for name, text in texts.items() if "subprocess." in text]
        return any(f"{name}(" in own for name in starters)


def plain_s(tests: tuple[str, ...]) -> float | None:
    """Seconds of the processor that tests take as the sources stand; None if one fails."""
    _, status, used = os.wait4(begin(tests, None), 0)
    return used.ru_utime + used.ru_stime if os.waitstatus_to_exitcode(status) == 0 else None


def begin(tests: tuple[str, ...], mutant: Mutant | None, within_s: float = MAX_PLAIN_S) -> int:
    """The number of a process that runs tests with the mutant in its module's place, and ends with 0 if all pass."""
    if child := os.fork():
        return child
    try:
        resource.setrlimit(resource.RLIMIT_CPU, (math.ceil(within_s),) * 2)
        resource.setrlimit(resource.RLIMIT_AS, (MAX_BYTES,) * 2)
        signal.signal(signal.SIGXCPU, signal.SIG_DFL)
        with open(os.devnull, "w") as nothing:
            os.dup2(nothing.fileno(), 1)
            os.dup2(nothing.fileno(), 2)
        if mutant:
            for name in dependents(mutant.module) & sys.modules.keys():
                package, _, last = name.rpartition(".")
                vars(sys.modules[package]).pop(last, None)
                del sys.modules[name]
            sys.meta_path.insert(0, Changed(mutant))
        import pytest

        os.chdir(ROOT)
        keep_apart(STORES / str(os.getpid()))
        given = ["-x", "-q", "-o", "addopts=", "-p", "no:cacheprovider", "-p", "no:xdist",
                 "-W", "ignore::pytest.PytestAssertRewriteWarning", *tests]
        os._exit(int(pytest.main(given, plugins=[Chosen()])))
    except BaseException:
        os._exit(70)
    raise AssertionError


def keep_apart(folder: Path) -> None:
    """Keep finished parts in a folder of their own: a mutant's must reach no build, a build's hide no mutant."""
    os.environ["HANDBOOK_STORE"] = str(folder)
    if "lpv_site.build.store" in sys.modules:
        vars(sys.modules["lpv_site.build.store"])["FOLDER"] = folder


def preload(packages: list[str]) -> None:
    """Import libraries and the project once; a process that tries a mutant imports anew what the mutant reaches.

    The page scripts asked for are run once too, so that what they read is at hand.
    """
    for name in PRELOADED:
        importlib.import_module(name)
    for name, path in modules().items():
        script = is_script(name) and "def show()" in path.read_text("utf-8")
        if path.stem != "__main__" and (name.startswith("lpv") or script):
            imported = importlib.import_module(name)
            if script and room(name) in packages and hasattr(imported, "show"):
                imported.show()
    gc.collect()
    gc.freeze()


# A whole run


class Verdicts:
    """What became of mutants, kept while their module and its judges stand as they are."""

    def __init__(self) -> None:
        self.kept: dict[str, bool] = {}
        with contextlib.suppress(OSError, ValueError):
            self.kept = json.loads(KEPT.read_text("utf-8"))
        self.plain_s: dict[tuple[str, ...], float | None] = {}

    @staticmethod
    def state(mutant: Mutant) -> str:
        """A hash of the module and of the tests that judge it."""
        tests = [test for stage in judges_of(mutant) for test in stage]
        files = [modules()[mutant.module], *sorted({ROOT / test.split("::")[0] for test in tests})]
        return hashlib.sha256("".join(path.read_text("utf-8") for path in files).encode()).hexdigest()[:16]

    def key(self, mutant: Mutant) -> str:
        """Under what the verdict on a mutant is kept."""
        return f"{mutant.module} {mutant.number} {self.state(mutant)}"

    def judge(self, chosen: list[Mutant], jobs: int) -> list[bool]:
        """Which of these are noticed, tried side by side where no verdict is kept."""
        keys = {mutant: self.key(mutant) for mutant in chosen}
        waiting = [mutant for mutant in chosen if keys[mutant] not in self.kept]
        stages = [(mutant, judges_of(mutant)) for mutant in waiting]
        running: dict[int, tuple[Mutant, tuple[tuple[str, ...], ...]]] = {}
        while stages or running:
            if stages and len(running) < jobs:
                mutant, left = stages.pop()
                within_s = self.limit_s(left[0]) if left else None
                if within_s is not None:
                    running[begin(left[0], mutant, within_s)] = (mutant, left)
                elif left:
                    stages.append((mutant, left[1:]))
                else:
                    self.kept[keys[mutant]] = False
                continue
            child, status = os.wait()
            shutil.rmtree(STORES / str(child), ignore_errors=True)
            mutant, left = running.pop(child)
            if os.waitstatus_to_exitcode(status):
                self.kept[keys[mutant]] = True
            else:
                stages.append((mutant, left[1:]))
        return [self.kept[keys[mutant]] for mutant in chosen]

    def limit_s(self, tests: tuple[str, ...]) -> float | None:
        """Seconds of the processor after which a change counts as noticed; None for tests that fail without any."""
        if tests not in self.plain_s:
            self.plain_s[tests] = plain_s(tests)
            if self.plain_s[tests] is None:
                print(f"red or slow without any change, so they judge nothing: {' '.join(tests)}", flush=True)
        used_s = self.plain_s[tests]
        return None if used_s is None else TIMES * used_s + MORE_S

    def save(self) -> None:
        KEPT.parent.mkdir(exist_ok=True)
        KEPT.write_text(json.dumps(self.kept, indent=0, sort_keys=True), "utf-8")


def sampled(package: str, size: int | None, seed: int) -> tuple[list[Mutant], int]:
    """A seeded sample of a package's mutants, and how many it has in all."""
    pool = [mutant for name, path in modules().items() if room(name) == package
             for mutant in mutants(name, path.read_text("utf-8"))]
    chosen = pool if size is None or size >= len(pool) else random.Random(f"{seed} {package}").sample(pool, size)
    return sorted(chosen, key=lambda mutant: (mutant.module, mutant.number)), len(pool)


def equivalents() -> dict[str, str]:
    """Mutants that change nothing that anybody could see: name and reason."""
    if not EQUIVALENT.exists():
        return {}
    return {row["mutant"]: row["reason"] for row in tomllib.loads(EQUIVALENT.read_text("utf-8"))["equivalent"]}


def run(packages: list[str], size: int | None, seed: int, jobs: int) -> Iterator[tuple[str, dict]]:
    """Each package asked for, with its figures and survivors."""
    verdicts, same = Verdicts(), equivalents()
    for package in packages:
        chosen, there = sampled(package, size, seed)
        killed = verdicts.judge(chosen, jobs)
        left = [mutant for mutant, dead in zip(chosen, killed, strict=True) if not dead]
        survivors = [mutant for mutant in left if mutant.name not in same]
        verdicts.save()
        print(f"{package}: {sum(killed)} of {len(chosen) - len(left) + len(survivors)} noticed", flush=True)
        for mutant in survivors:
            print(f"    {mutant.line}: {mutant.name}", flush=True)
        yield package, {
            "mutants": there, "tried": len(chosen), "noticed": sum(killed),
            "equivalent": len(left) - len(survivors),
            "survivors": [f"{mutant.name} (line {mutant.line})" for mutant in survivors],
        }


def publish(known: list[str], package: str, figures: dict) -> None:
    """Put a package's figures in the place of those it had; packages that are gone lose theirs."""
    before = json.loads(FIGURES.read_text("utf-8"))["packages"] if FIGURES.exists() else {}
    merged = before | {package: {"group": group(package), **figures}}
    FIGURES.write_text(json.dumps({"packages": {name: merged[name] for name in known if name in merged}}, indent=1)
                       + "\n", "utf-8")


def main() -> None:
    """Command line."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("packages", nargs="*", help="lpv.path, lpv_site.text, final; all without any")
    parser.add_argument("--sample", type=int, default=SAMPLE, help=f"mutants of each package ({SAMPLE})")
    parser.add_argument("--all", action="store_true", help="every mutant")
    parser.add_argument("--seed", type=int, default=SEED)
    parser.add_argument("--jobs", type=int, default=2, help="processes side by side (2)")
    asked = parser.parse_args()
    known = list(dict.fromkeys(map(room, modules())))
    packages = asked.packages or known
    if unknown := set(packages) - set(known):
        sys.exit(f"no package {', '.join(sorted(unknown))}; there are {', '.join(known)}")
    os.nice(10)
    sys.path[:0] = [str(SNIPPETS), str(TESTS), str(TESTS / "site")]
    preload(packages)
    commit = subprocess.run(["git", "rev-parse", "--short", "HEAD"], cwd=ROOT, capture_output=True, text=True).stdout
    on = {"date": datetime.datetime.now(datetime.UTC).date().isoformat(), "commit": commit.strip(), "seed": asked.seed}
    for package, figures in run(packages, None if asked.all else asked.sample, asked.seed, asked.jobs):
        publish(known, package, on | figures)
    shutil.rmtree(STORES, ignore_errors=True)


if __name__ == "__main__":
    main()
