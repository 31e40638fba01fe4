"""Which facts the check values feel: changed by a tenth, up or down, at least one check value no longer holds."""

import functools
import re
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import lpv.facts
from lpv.facts import FACTS, Fact
from lpv_site.checks.checks import Case, load_cases, resolve, run

SNIPPETS = Path(__file__).resolve().parents[1] / "snippets"
CONSTANT = re.compile(r'^(?P<name>[A-Z_0-9]+) = value\("(?P<key>\w+)"\)', re.M)
SLOW = ("baseline-pdop-global",)  # by all 24 satellites: two seconds, and no tenth of one of them shows


def numeric() -> list[str]:
    """The keys of all facts that are numbers."""
    return [key for key, fact in FACTS.items() if isinstance(fact.value, int | float)]


def felt() -> dict[str, str]:
    """Key -> a check value that notices, for every numeric fact that one notices."""
    cases = {case.id: case for case in load_cases() if case.id not in SLOW}
    for case in cases.values():
        resolve(case.function)
    reads, caches = readers(cases), _caches()
    noticed_by = {}
    for key in numeric():
        for factor in (1.1, 0.9):
            with changed(key, factor):
                noticing = (name for name in reads.get(key, ()) if not _holds(cases[name], caches))
                if key not in noticed_by and (first := next(noticing, None)):
                    noticed_by[key] = first
    return noticed_by


@contextmanager
def changed(key: str, factor: float) -> Iterator[None]:
    """The fact with its value multiplied, 1 in the place of 0; where a module took it on import, there too."""
    old = FACTS[key]
    new = old.value * factor if old.value else 1.0
    taken = [(module, name) for module, name in constants().get(key, ())]
    before = [getattr(module, name) for module, name in taken]
    FACTS[key] = Fact(key, (new, old.unit, old.what, old.source, old.place, old.status, old.remark))
    for module, name in taken:
        setattr(module, name, new)
    try:
        yield
    finally:
        FACTS[key] = old
        for (module, name), value in zip(taken, before, strict=True):
            setattr(module, name, value)


@functools.cache
def constants() -> dict[str, list[tuple[Any, str]]]:
    """Key -> the modules, and the names in them, that hold the fact's number since they were imported."""
    holders: dict[str, list[tuple[Any, str]]] = {}
    modules = [module for name, module in sys.modules.items() if name.startswith("lpv.")]
    for path in sorted((SNIPPETS / "lpv").rglob("*.py")):
        home = ".".join(path.relative_to(SNIPPETS).with_suffix("").parts)
        for each in CONSTANT.finditer(path.read_text("utf-8")):
            number = vars(sys.modules.get(home, lpv)).get(each["name"])
            holders[each["key"]] = [(module, each["name"]) for module in modules
                                  if number is not None and vars(module).get(each["name"]) is number]
    return holders


def readers(cases: dict[str, Case]) -> dict[str, list[str]]:
    """Key -> the check values that read the fact, or run a module that took it on import."""
    seen: set[str] = set()

    class Watched(dict):  # type: ignore[type-arg]
        def __getitem__(self, key: str) -> Any:
            seen.add(key)
            return super().__getitem__(key)

    case_ids: dict[str, list[str]] = {key: [] for key in constants()}
    caches = _caches()
    lpv.facts.FACTS = Watched(FACTS)
    try:
        for case in cases.values():
            seen.clear()
            _holds(case, caches)
            for key in seen:
                case_ids.setdefault(key, []).append(case.id)
    finally:
        lpv.facts.FACTS = FACTS
    for key, places in constants().items():
        homes = {module.__name__ for module, _ in places}
        asked = {case.function.rpartition(".")[0] for case in cases.values()}
        near = {name for name in asked if name in homes or any(_imports(name, home) for home in homes)}
        case_ids[key] += [case.id for case in cases.values() if case.function.rpartition(".")[0] in near]
    return case_ids


@functools.cache
def _imports(name: str, home: str) -> bool:
    """Whether a module imports another, itself or one of its names."""
    package, _, last = home.rpartition(".")
    text = SNIPPETS.joinpath(*name.split(".")).with_suffix(".py").read_text("utf-8")
    return f"from {home} import" in text or bool(re.search(rf"from {package} import .*\b{last}\b", text))


def _caches() -> list[Any]:
    return [thing for name, module in list(sys.modules.items()) if name.startswith("lpv")
            for thing in list(vars(module).values()) if isinstance(thing, functools._lru_cache_wrapper)]


def _holds(case: Case, caches: list[Any]) -> bool:
    for cache in caches:
        cache.cache_clear()
    try:
        return run(case).holds
    except Exception:
        return False
