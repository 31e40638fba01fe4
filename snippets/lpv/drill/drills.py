"""Find-the-error drills: an approach set up as it should be, with mistakes planted in it.

docs/practice/drills.toml lists the drills:

    [[drill]]
    number = 7                  # permanent; given once, never again
    difficulty = "plain"        # one plain mistake; "subtle": one subtle mistake; "mixed": two or none
    approach = "zzak-rnav-09"   # files of docs/approaches and docs/aircraft, without their ending
    aircraft = "large-jet"
    mistakes = ["course-before"]

    [[number]]                  # a number to work out: kinds in `lpv.drill.numbers`
    number = 37
    kind = "rate"

    [[sequence]]                # a flight that runs: kinds in `lpv.drill.sequence`
    number = 60
    kind = "path-not-armed"

Approach and type of these two may be left out: the seed then picks among all that the kind makes sense for.
What is not said there (sides, weather, frequencies) is picked by the seed, the number unless the row gives one;
so a drill is the same wherever and whenever it is made.  The kinds of mistakes are MISTAKES.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeVar

from lpv.aircraft import record as aircraft
from lpv.aircraft.record import Aircraft
from lpv.approach import record as approach
from lpv.approach.record import Approach
from lpv.core.errors import DataError, Fault, LpvError, with_folder
from lpv.core.findings import Finding
from lpv.drill import numbers, sequence
from lpv.drill.base import base_case
from lpv.drill.case import Case, Pick, beyond
from lpv.drill.planted import Planted
from lpv.drill.question import Question
from lpv.drill.rows import MISTAKES, Listed, NumberRow, Row, SequenceRow
from lpv.files import toml_reader as tomlfile

FILE = "drills.toml"
Record = TypeVar("Record")


@dataclass(frozen=True)
class Asked:
    """A numbers drill ready to be shown."""

    row: NumberRow
    approach: Approach
    aircraft: Aircraft
    question: Question


@dataclass(frozen=True)
class Running:
    """A sequence ready to be shown."""

    row: SequenceRow
    approach: Approach
    aircraft: Aircraft
    run: sequence.Run


@dataclass(frozen=True)
class Drill:
    """A drill ready to be shown: its base without a mistake, and the mistakes planted one after the other."""

    row: Row
    base: Case
    planted: tuple[Planted, ...]

    @property
    def case(self) -> Case:
        """What the reader is shown."""
        return self.planted[-1].case if self.planted else self.base

    @property
    def expected(self) -> set[tuple[str, str]]:
        """(name, grade) of the findings that the planted mistakes must lead to."""
        return {pair for planted in self.planted for pair in planted.expected}

    def findings(self) -> list[Finding]:
        """What the set-up check and the cross-check find in it beyond its base."""
        return beyond(self.case, self.base)


def make(row: Row, chosen: Approach, flown: Aircraft, other: Approach | None = None) -> Drill:
    """The drill of a row; LpvError if a mistake makes no sense on this approach or in this type."""
    pick = Pick(str(row.number if row.seed is None else row.seed))
    base = case = base_case(chosen, flown, pick, row.temperature_c, row.level, other)
    planted: list[Planted] = []
    for number, key in enumerate(row.mistakes):
        planted.append(MISTAKES[key].plant(case, Pick(f"{pick.seed} {number}")))
        case = planted[-1].case
    return Drill(row, base, tuple(planted))


def read(path: Path | str) -> Listed:
    """A list of drills; DataError with every fault found in it."""
    listed: Listed = tomlfile.read_file(Path(path), Listed)
    return listed


def read_numbers(docs: Path | str) -> list[Asked]:
    """Every numbers drill of docs/practice; DataError with every fault."""
    rows = read(Path(docs) / "practice" / FILE).numbers
    return [Asked(row, chosen, flown, question) for row, chosen, flown, question in _each(
        rows, Path(docs), lambda row, chosen, flown, pick: numbers.KINDS[row.kind].ask(chosen, flown, pick))]


def read_sequences(docs: Path | str) -> list[Running]:
    """Every sequence of docs/practice; DataError with every fault."""
    rows = read(Path(docs) / "practice" / FILE).sequences
    return [Running(row, chosen, flown, run) for row, chosen, flown, run in _each(
        rows, Path(docs), lambda row, chosen, flown, pick: sequence.make(row.kind, chosen, flown, pick))]


def _each(rows: Iterable[Any], docs: Path, maker: Callable[[Any, Approach, Aircraft, Pick], Record]) -> list[
        tuple[Any, Approach, Aircraft, Record]]:
    """(row, approach, type, what is made of them) for each row; DataError with every row that cannot be made."""
    rows, made, faults = list(rows), [], []
    if not rows:
        return []
    of_approaches, of_types = docs / "approaches", docs / "aircraft"
    approaches = _named(of_approaches, _wanted(of_approaches, [row.approach for row in rows]), approach.read)
    types = _named(of_types, _wanted(of_types, [row.aircraft for row in rows]), aircraft.read)
    for row in rows:
        pick, why = Pick(str(row.number if row.seed is None else row.seed)), ""
        for chosen, flown in _choices(row, approaches, types, pick):
            try:
                made.append((row, chosen, flown, maker(row, chosen, flown, pick)))
                break
            except LpvError as error:
                why = str(error)
        else:
            faults.append(Fault(FILE, row.name, "a drill that cannot be made", "one that can", why))
    if faults:
        raise DataError(faults)
    return made


def _wanted(folder: Path, names: list[str | None]) -> list[str]:
    """The names that are given, and all of the folder's files where one is left to the seed."""
    every = [path.stem for path in sorted(folder.glob("*.toml"))] if None in names else []
    return sorted({name for name in names if name} | set(every))


def _choices(row: Any, approaches: dict[str, Approach], types: dict[str, Aircraft], pick: Pick) -> Iterator[
        tuple[Approach, Aircraft]]:
    """The approaches and types that a row may be made with, the seed's own order first to last.

    A file that is added takes its own place in that order and leaves the others theirs.
    """
    ofs = [row.approach] if row.approach else sorted(approaches, key=lambda slug: pick.choose(slug, range(2**32)))
    flowns = [row.aircraft] if row.aircraft else sorted(types, key=lambda slug: pick.choose(slug, range(2**32)))
    return ((approaches[slug], types[flown]) for slug in ofs for flown in flowns)


def read_all(docs: Path | str) -> list[Drill]:
    """Every drill of docs/practice, made from docs/approaches and docs/aircraft; DataError with every fault."""
    docs = Path(docs)
    rows = read(docs / "practice" / FILE).drills
    approaches = _named(docs / "approaches", [name for row in rows for name in (row.approach, row.other) if name],
                        approach.read)
    types = _named(docs / "aircraft", [row.aircraft for row in rows], aircraft.read)
    drills: list[Drill] = []
    faults: list[Fault] = []
    for row in rows:
        try:
            drills.append(make(row, approaches[row.approach], types[row.aircraft], approaches.get(row.other or "")))
        except LpvError as error:
            faults.append(Fault(FILE, row.name, "a drill that cannot be made", "one that can", str(error)))
    if faults:
        raise DataError(faults)
    return drills


def _named(folder: Path, names: Iterable[str], reader: Callable[[Path], Record]) -> dict[str, Record]:
    """Name -> record of the files named; DataError with every fault, those of files that are not there included."""
    records: dict[str, Record] = {}
    faults: list[Fault] = []
    for name in sorted(set(names)):
        path = folder / f"{name}.toml"
        if not path.is_file():
            faults.append(Fault(FILE, name, "a name without a file", f"a file in {folder.name}/",
                                "Add the file, or take the drills that name it off the list."))
            continue
        try:
            records[name] = reader(path)
        except DataError as error:
            faults += with_folder(folder.name, error.faults)
    if faults:
        raise DataError(faults)
    return records
