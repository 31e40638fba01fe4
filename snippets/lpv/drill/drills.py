"""Find-the-error drills: an approach set up as it should be, with mistakes planted in it.

docs/practice/drills.toml lists the drills:

    [[drill]]
    number = 7                  # permanent; given once, never again
    grade = "plain"             # one plain mistake; "subtle": one subtle mistake; "mixed": two or none
    approach = "zzak-rnav-09"   # files of docs/approaches and docs/aircraft, without their ending
    aircraft = "large-jet"
    mistakes = ["course-before"]

What is not said there (sides, weather, frequencies) is picked by the seed, the number unless the row gives one;
so a drill is the same wherever and whenever it is made.  The kinds of mistakes are MISTAKES.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from lpv.aircraft import record as aircraft
from lpv.aircraft.record import Aircraft
from lpv.approach import record as approach
from lpv.approach.record import Approach
from lpv.approach.schema import FaultRow
from lpv.core.errors import DataError, Fault, LpvError
from lpv.core.findings import Finding
from lpv.drill import database_mistakes as drill_data
from lpv.drill import minimum_mistakes as drill_minimum
from lpv.drill import side_mistakes as drill_sides
from lpv.drill.base import base_case
from lpv.drill.case import Case, Pick, beyond
from lpv.drill.planted import Planted
from lpv.files import named_file, schema
from lpv.files import toml_reader as tomlfile
from lpv.setup.records import LEVELS

MISTAKES = drill_sides.MISTAKES | drill_minimum.MISTAKES | drill_data.MISTAKES
GRADES = ("plain", "subtle", "mixed")
FILE = "drills.toml"
Record = TypeVar("Record")


@dataclass(frozen=True, kw_only=True)
class Row:
    """One drill of the list."""

    number: int = schema.whole("permanent number of the drill", "", 1, 999)
    grade: str = schema.choice("grade", GRADES)
    approach: str = schema.text("name of the approach file, without its ending", pattern=named_file.SLUG,
                                example="zzak-rnav-09")
    aircraft: str = schema.text("name of the aircraft file, without its ending", pattern=named_file.SLUG,
                                example="light-jet")
    other: str | None = schema.text(
        "name of another approach of the airport, to be mixed up with", pattern=named_file.SLUG, example="zzak-rnav-16",
        required=False)
    mistakes: tuple[str, ...] = schema.texts("kinds of mistakes planted", most=2)
    seed: int | None = schema.whole("seed of what is picked; the number if not given", "", 0, 10**9, required=False)
    temperature_c: float | None = schema.number("temperature reported", "deg C", -50, 60, required=False)
    level: str | None = schema.choice("level of service announced", LEVELS[:4], required=False)

    def faults(self) -> Iterator[FaultRow]:
        """The mistakes are known, and as many and as subtle as the grade says."""
        for key in self.mistakes:
            if key not in MISTAKES:
                yield "mistakes", key, ", ".join(MISTAKES), "Correct its name."
                return
        if self.grade == "mixed":
            if len(self.mistakes) not in (0, 2):
                yield "mistakes", f"{len(self.mistakes)} of them", "two or none", "Correct the list or the grade."
        elif [MISTAKES[key].subtle for key in self.mistakes] != [self.grade == "subtle"]:
            allowed = [key for key, mistake in MISTAKES.items() if mistake.subtle == (self.grade == "subtle")]
            yield "mistakes", ", ".join(self.mistakes) or "none", f"one of {', '.join(allowed)}", "Correct it."

    @property
    def name(self) -> str:
        """The drill's permanent id: drill-07."""
        return f"drill-{self.number:02d}"


@dataclass(frozen=True, kw_only=True)
class Listed:
    """The list of drills."""

    drills: tuple[Row, ...] = schema.tables(Row, "drills", least=1, most=400, unique="number", key="drill")


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


def make(row: Row, of: Approach, flown: Aircraft, other: Approach | None = None) -> Drill:
    """The drill of a row; LpvError if a mistake makes no sense on this approach or in this type."""
    pick = Pick(str(row.number if row.seed is None else row.seed))
    base = case = base_case(of, flown, pick, row.temperature_c, row.level, other)
    planted: list[Planted] = []
    for number, key in enumerate(row.mistakes):
        planted.append(MISTAKES[key].plant(case, Pick(f"{pick.seed} {number}")))
        case = planted[-1].case
    return Drill(row, base, tuple(planted))


def read(path: Path | str) -> tuple[Row, ...]:
    """The rows of a list of drills; DataError with every fault found in it."""
    found: tuple[Row, ...] = tomlfile.read_file(Path(path), Listed).drills
    return found


def read_all(docs: Path | str) -> list[Drill]:
    """Every drill of docs/practice, made from docs/approaches and docs/aircraft; DataError with every fault."""
    docs = Path(docs)
    rows = read(docs / "practice" / FILE)
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
    found: dict[str, Record] = {}
    faults: list[Fault] = []
    for name in sorted(set(names)):
        path = folder / f"{name}.toml"
        if not path.is_file():
            faults.append(Fault(FILE, name, "a name without a file", f"a file of docs/{folder.name}",
                                "Add the file, or take the drills that name it off the list."))
            continue
        try:
            found[name] = reader(path)
        except DataError as error:
            faults += error.faults
    if faults:
        raise DataError(faults)
    return found
