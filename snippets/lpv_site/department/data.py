"""The data files that pages take as examples, read once; and which files pages other than briefings are made from."""

import hashlib
import json
import re
from collections.abc import Callable, Iterable
from functools import cache, wraps
from pathlib import Path
from typing import TypeVar

from lpv.aircraft import record as aircraft_files
from lpv.aircraft.record import Aircraft
from lpv.approach.record import Approach, read, read_all
from lpv.approach.schema import Minima
from lpv.core.findings import worst
from lpv.decide.lines import best_row
from lpv.setup import file as setup_file
from lpv.setup.file import SetupFile
from lpv_site.department import files as department_files

DOCS = department_files.docs()
MAX_EXAMPLES = 5
Found = TypeVar("Found")
DATA_ENDINGS = {".toml", ".csv", ".gpx"}
TO_BE_FILLED = re.compile(r"^\s*to_be_filled\s*=", re.M)
IS_LPV = re.compile(r"""^\s*level_of_service\s*=\s*["']LPV["']""", re.M)


def once(read: Callable[[Path], Found]) -> Callable[..., Found]:
    """Read a folder once for all pages, whether they name the folder or take the usual one."""
    known = cache(read)

    @wraps(read)
    def read_once(docs: Path = DOCS) -> Found:
        return known(docs)

    return read_once


@once
def examples(docs: Path = DOCS) -> tuple[Approach, ...]:
    """The first approaches of docs/approaches/ in the order of file names, as many as a page can show.

    A department's own where it has any, else the demo's.  Files still to be filled from the chart are passed over.
    """
    return tuple(map(read, example_files(docs)[0]))


def example_files(docs: Path) -> tuple[list[Path], list[Path]]:
    """The files of the approaches that pages show, and of the one that they take as their example: the first LPV one.

    The example is one of the demo where a department has no LPV approach that is filled; [] where there is none.
    """
    shown: dict[bool, list[Path]] = {True: [], False: []}
    example: list[Path] = []
    for path in department_files.own_first((docs / "approaches").glob("*.toml")):
        text, same = path.read_text("utf-8", "replace"), shown[department_files.is_own(path)]
        if not TO_BE_FILLED.search(text):
            same += [path] if len(same) < MAX_EXAMPLES else []
            example = example or ([path] if IS_LPV.search(text) else [])
        if example and len(same) == MAX_EXAMPLES:
            break
    return shown[True] or shown[False], example


def data_files(docs: Path = DOCS) -> list[Path]:
    """Every file that pages other than briefings are made from: all data files but those approaches that are no
    examples and that no other file names.
    """
    folder = docs / "approaches"
    others = [path for path in docs.rglob("*") if path.suffix in DATA_ENDINGS and path.parent != folder]
    texts = (path.read_text("utf-8", "replace") for path in others if path.suffix == ".toml")
    named = {name for text in texts for name in department_files.QUOTED.findall(text)}
    shown, example = example_files(docs)
    also = (path for path in folder.glob("*.toml") if path.stem in named)
    return sorted({*others, *shown, *example, *also})


@once
def data_version(docs: Path = DOCS) -> str:
    """A hash of those files and of which are a department's own, as own ones come first; for keys of what is made."""
    files = data_files(docs)
    own_files = json.dumps([path.relative_to(docs).as_posix() for path in files if department_files.is_own(path)])
    return hashlib.sha256(f"{hash_of(files, docs)} {own_files}".encode()).hexdigest()


def hash_of(paths: Iterable[Path], folder: Path) -> str:
    """A hash of the names below a folder and the bytes of these files."""
    digest = hashlib.sha256()
    for path in paths:
        data = path.read_bytes()
        digest.update(f"{path.relative_to(folder).as_posix()} {len(data)} ".encode() + data)
    return digest.hexdigest()


@once
def drafts(docs: Path = DOCS) -> tuple[Approach, ...]:
    """The drafts beside them: read the same way, never published as briefings."""
    return tuple(read_all(docs / "approaches" / "drafts"))


@once
def _example(docs: Path) -> Approach:
    own_examples = example_files(docs)[1]
    if not own_examples:
        raise LookupError("docs/approaches/ holds no LPV approach filled from its chart; pages need one as an example")
    return read(own_examples[0])


def example() -> Approach:
    """The approach that pages take as their example: the first LPV one; LookupError if there is none."""
    return _example()


@once
def aircraft(docs: Path = DOCS) -> tuple[Aircraft, ...]:
    """The first types of docs/aircraft/ in the order of file names, as many as a page can show; own ones first."""
    files = department_files.own_first((docs / "aircraft").glob("*.toml"))
    return tuple(map(aircraft_files.read, files[:MAX_EXAMPLES]))


def example_row() -> Minima:
    """The row of minima that binds the example's type on the example approach; LookupError if the chart has none."""
    return row_on(example())


def row_on(approach: Approach) -> Minima:
    """The same on any approach: without a row for the type's category, the one that binds for any."""
    row = best_row(approach, example_aircraft().type.category) or best_row(approach)
    if row is None:
        raise LookupError(f"{approach.slug} prints no minima of its level of service")
    return row


def example_speed_kt() -> float:
    """The final approach speed of the example's type at its maximum landing weight; ground speed in calm."""
    jet = example_aircraft()
    return jet.target_speeds_kt(jet.landing.max_weight_lb)[-1]


def example_aircraft() -> Aircraft:
    """The type that pages take as their example: the first one; LookupError if there is none."""
    if not aircraft():
        raise LookupError("docs/aircraft/ holds no aircraft file; the pages need at least one as their example")
    return aircraft()[0]


SetupCase = tuple[SetupFile, Approach, Aircraft]


@once
def setups(docs: Path = DOCS) -> tuple[SetupCase, ...]:
    """Every set-up file, in the order of their names, with the approach and the type that it is for."""
    return tuple(
        (case, read(docs / "approaches" / f"{case.common.approach}.toml"),
         aircraft_files.read(docs / "aircraft" / f"{case.common.aircraft}.toml"))
        for case in setup_file.read_all(docs / "set-up")
    )


def good_setup() -> SetupCase:
    """The first set-up in which everything agrees; the first of all where there is none."""
    return next((case for case in setups() if worst(setup_file.findings(*case)) == "ok"), setups()[0])
