"""Which definitions of snippets/ a function reaches by the names in it, so that a key holds these and no others.

What a module does as it is loaded belongs to everything in it, and so do the files beside it that are no modules
(tables, templates).  A class is one definition, with all its methods.  A name made at run time is not seen: forms,
live figures and the functions of published values are taken by such names, and found by the tables below.
"""

import hashlib
from collections.abc import Iterable
from functools import cache
from pathlib import Path

from lpv_site.build.definitions import SNIPPETS, module, modules

Place = tuple[str, int]  # a module and the number of a definition in it; -1 for what it does as it is loaded
# What is taken by a name at run time, and by which functions.
TAKE_FORMS = ("lpv.calculators.run.calculator", "lpv.figures.run.figure", "lpv_site.forms.")
RUN_CASES = {"lpv_site.checks.checks.run", "lpv_site.checks.checks.results"}
CHECKS = "lpv_site.checks."  # where each takes the cases of one function, which is named


@cache
def _by_name(name: str) -> dict[str, list[int]]:
    """What a module defines -> the numbers of the definitions."""
    known: dict[str, list[int]] = {}
    for number, definition in enumerate(module(name).definitions):
        for defined in definition.names:
            known.setdefault(defined, []).append(number)
    return known


@cache
def places(dotted: str) -> frozenset[Place]:
    """Where a dotted name is defined: the whole module for a module or for what it does not define; none outside."""
    within = _modules_of(dotted)
    return _in_module(within[-1], dotted[len(within[-1]) + 1:].split(".")) if within else frozenset()


@cache
def _modules_of(dotted: str) -> list[str]:
    """The modules of snippets/ that a dotted name begins with, from the package down to the module."""
    parts = dotted.split(".")
    names = (".".join(parts[:length]) for length in range(1, len(parts) + 1))
    return [name for name in names if name in modules()]


def _in_module(name: str, rest: list[str]) -> frozenset[Place]:
    if rest[0] in _by_name(name):
        return frozenset((name, number) for number in (*_by_name(name)[rest[0]], -1))
    if rest[0] in module(name).imported:
        return places(".".join([module(name).imported[rest[0]], *rest[1:]]))
    return frozenset((name, number) for number in range(-1, len(module(name).definitions)))


@cache
def named() -> dict[str, str]:
    """The name of each calculator and live figure -> what declares it, which is taken by that name at run time."""
    from lpv import calculators, figures

    return {
        name: f"{room.__name__}.{task}.{declared}"
        for room, declared in ((calculators, "CALCULATORS"), (figures, "FIGURES"))
        for task, names in room.TASKS for name in names
    }


@cache
def _checked() -> frozenset[str]:
    """The functions that published values are compared with, which are taken by their names at run time."""
    from lpv_site.checks.checks import load_cases

    return frozenset(case.function for case in load_cases())


@cache
def _next(place: Place) -> frozenset[Place]:
    """What a definition uses, directly."""
    name, number = place
    if number < 0:
        return _loaded(name)
    definition = module(name).definitions[number]
    own, imported = _by_name(name), module(name).imported
    found: set[Place] = {(name, -1)}
    others: set[str] = set()
    for use in definition.uses:
        first, _, rest = use.partition(".")
        if use.startswith("@"):
            others.add(use[1:])
        elif first in own:
            found |= {(name, used) for used in own[first]}
        elif first in imported:
            others.add(f"{imported[first]}.{rest}" if rest else imported[first])
    if any(target.startswith(TAKE_FORMS) for target in imported.values()):
        others |= {named()[text] for text in definition.texts if text in named()}
    if others & RUN_CASES and not name.startswith(CHECKS):
        others |= _checked()
    return frozenset(found.union(*map(places, others)))


def _loaded(name: str) -> frozenset[Place]:
    """What a module does as it is loaded, and the modules that are loaded for it."""
    acts = {(name, number) for number, definition in enumerate(module(name).definitions) if not definition.names}
    loaded = {other for target in [name, *module(name).imported.values()] for other in _modules_of(target)}
    return frozenset(acts | {(other, -1) for other in loaded - {name}})


def imported(names: Iterable[str]) -> set[str]:
    """These modules and all modules of snippets/ that they import, anywhere in them, directly or through others."""
    found: set[str] = set()
    waiting = list(names)
    while waiting:
        name = waiting.pop()
        if name in modules() and name not in found:
            found.add(name)
            read = module(name)
            targets = [name, *read.imported.values()]
            targets += [use[1:] for item in read.definitions for use in item.uses if use.startswith("@")]
            waiting += [other for target in targets for other in _modules_of(target)]
    return found


def reached(names: Iterable[str]) -> frozenset[Place]:
    """All definitions that these dotted names reach, by modules' names and numbers."""
    return _reached(frozenset(names))


@cache
def _reached(names: frozenset[str]) -> frozenset[Place]:
    found: set[Place] = set().union(*map(places, names))
    waiting = list(found)
    while waiting:
        new = _next(waiting.pop()) - found
        found |= new
        waiting += new
    return frozenset(found)


def files(names: Iterable[str]) -> set[Path]:
    """The files of all modules that these reach a definition of; those that are only loaded left out."""
    return {modules()[name] for name, number in reached(names) if number >= 0}


@cache
def beside(folder: Path) -> str:
    """The names and a hash of the files of a package that are no modules."""
    paths = sorted(path for path in folder.iterdir() if path.is_file() and path.suffix not in {".py", ".pyc"})
    return "".join(f"{path.name} {hashlib.sha256(path.read_bytes()).hexdigest()}\n" for path in paths)


@cache
def _line(place: Place) -> str:
    name, number = place
    if number < 0:
        return ""
    definition = module(name).definitions[number]
    return f"{name} {' '.join(definition.names)} {definition.digest}\n"


@cache
def version(names: frozenset[str]) -> str:
    """A hash of all definitions that these names reach, and of the files beside their modules."""
    lines = sorted(set(map(_line, reached(names))))
    folders = sorted({path.parent for path in files(names)} - {SNIPPETS})
    return hashlib.sha256("".join([*sorted(names), *lines, *map(beside, folders)]).encode()).hexdigest()
