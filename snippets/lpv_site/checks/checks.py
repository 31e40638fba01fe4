"""Published check values: read from tests/reference, run by pytest and by the validation page.

One runner serves both, so that the page and the tests cannot disagree.
"""

import importlib
import math
import tomllib
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

from lpv.core.errors import DataError, Fault, shown
from lpv.facts import STATUSES
from lpv.facts.sources import SOURCES
from lpv_site.department.data import hash_of

FOLDER = Path(__file__).resolve().parents[3] / "tests" / "reference"
CASE_STATUSES = (*STATUSES, "independent computation")
TASKS = (
    "plan",
    "verify",
    "set-up",
    "intercept",
    "final",
    "decide",
    "modes",
    "after-landing",
    "debrief",
    "practice",
)
REQUIRED = {"id", "what", "function", "arguments", "expected", "unit", "source", "place", "status"}
OPTIONAL = {"tolerance", "reason", "wrap", "item"}


@dataclass(frozen=True)
class Case:
    """One published value: a function, its arguments and what it must give.

    tolerance is None for texts and truth values (they must be equal); wrap is the
    full circle for angles; item picks one element of what the function returns.
    """

    id: str
    subject: str
    task: str
    what: str
    function: str
    arguments: dict[str, Any]
    expected: Any
    unit: str
    tolerance: float | None
    reason: str
    wrap: float | None
    item: Any
    source: str
    place: str
    status: str


@dataclass(frozen=True)
class Result:
    """What a case gave: the computed value, its difference and whether it holds."""

    case: Case
    computed: Any
    difference: float | None
    holds: bool


def load_cases(folder: Path = FOLDER) -> list[Case]:
    """All cases of all files in name order; DataError with every fault found."""
    faults: list[Fault] = []
    cases: list[Case] = []
    for path in sorted(folder.glob("*.toml")):
        cases += _read(path, faults)
    known: set[str] = set()
    for case in cases:
        if case.id in known:
            faults.append(
                Fault(case.subject, case.id, "the same id twice", "one id, one case", "Rename one.")
            )
        known.add(case.id)
    if faults:
        raise DataError(faults)
    return cases


def _read(path: Path, faults: list[Fault]) -> list[Case]:
    data = tomllib.loads(path.read_text("utf-8"), parse_float=Decimal)
    if data.get("task") not in TASKS:
        faults.append(Fault(path.name, "task", shown(data.get("task")), ", ".join(TASKS), "Name the task."))
    cases = []
    for row in data.get("case", []):
        case_faults = _faults(path.name, row)
        faults += case_faults
        if not case_faults:
            cases.append(_case(row, data.get("subject", path.stem), data.get("task", "")))
    return cases


def _faults(name: str, row: dict[str, Any]) -> list[Fault]:
    key = f"case {row.get('id', '?')}"
    faults = []
    if missing := REQUIRED - row.keys():
        faults.append(
            Fault(name, key, f"no {', '.join(sorted(missing))}", "all of them", "Add what is missing.")
        )
    if unknown := row.keys() - REQUIRED - OPTIONAL:
        faults.append(Fault(name, key, ", ".join(sorted(unknown)), "known keys", "Correct the spelling."))
    if row.get("source") not in SOURCES:
        faults.append(
            Fault(name, key, shown(row.get("source")), "a key of the source list", "Add the source.")
        )
    if row.get("status") not in CASE_STATUSES:
        faults.append(Fault(name, key, shown(row.get("status")), ", ".join(CASE_STATUSES), "Correct it."))
    if missing or unknown:
        return faults
    if isinstance(row["expected"], int | Decimal) and not isinstance(row["expected"], bool):
        faults += _tolerance_faults(name, key, row)
    elif "tolerance" in row:
        faults.append(Fault(name, key, "a tolerance on a text", "none", "Texts must be equal; remove it."))
    return faults


def _tolerance_faults(name: str, key: str, row: dict[str, Any]) -> list[Fault]:
    if "tolerance" not in row:
        return [Fault(name, key, "no tolerance", "half the last printed digit", "Add the tolerance.")]
    half_digit = half_last_digit(row["expected"])
    if row["tolerance"] > half_digit and not row.get("reason"):
        return [
            Fault(
                name,
                key,
                f"tolerance {row['tolerance']}",
                f"{half_digit}, half the last printed digit",
                "Tighten it, or write the reason beside it.",
            )
        ]
    return []


def half_last_digit(printed: int | Decimal) -> Decimal:
    """Half a unit of the last digit of a number as printed (171.60 gives 0.005)."""
    exponent = Decimal(printed).as_tuple().exponent
    return Decimal(5).scaleb(int(exponent) - 1)


def _plain(value: Any) -> Any:
    if isinstance(value, Decimal):
        return float(value)
    if isinstance(value, list):
        return [_plain(item) for item in value]
    if isinstance(value, dict):
        return {key: _plain(item) for key, item in value.items()}
    return value


def _case(row: dict[str, Any], subject: str, task: str) -> Case:
    tolerance = row.get("tolerance")
    return Case(
        id=row["id"],
        subject=subject,
        task=task,
        what=row["what"],
        function=row["function"],
        arguments=_plain(row["arguments"]),
        expected=row["expected"],
        unit=row["unit"],
        tolerance=None if tolerance is None else float(tolerance),
        reason=row.get("reason", ""),
        wrap=_plain(row.get("wrap")),
        item=row.get("item"),
        source=row["source"],
        place=row["place"],
        status=row["status"],
    )


def resolve(function: str) -> Callable[..., Any]:
    """The function with this dotted name (`lpv.motion.kinematics.turn_radius_ft`)."""
    module, _, name = function.rpartition(".")
    target: Callable[..., Any] = getattr(importlib.import_module(module), name)
    return target


def run(case: Case) -> Result:
    """Call the case's function and compare; nan never holds."""
    computed = resolve(case.function)(**case.arguments)
    if case.item is not None:
        computed = computed[case.item] if isinstance(case.item, int) else getattr(computed, case.item)
    if case.tolerance is None:
        return Result(case, computed, None, computed == case.expected)
    difference = float(computed) - float(case.expected)
    if case.wrap:
        difference = math.remainder(difference, case.wrap)
    # The last bits of the subtraction itself do not count against the case.
    slack = 1e-12 * max(1.0, abs(float(case.expected)))
    return Result(case, computed, difference, abs(difference) <= case.tolerance + slack)


def version() -> str:
    """A hash of all files of published values."""
    return hash_of(sorted(path for path in FOLDER.rglob("*") if path.is_file()), FOLDER)


@cache
def results() -> tuple[Result, ...]:
    """Every case, run once per process; DataError for all cases whose function fails or is missing."""
    done, faults = [], []
    for case in load_cases():
        try:
            done.append(run(case))
        except Exception as error:
            raised = f"{case.function} failed: {type(error).__name__}: {error}"
            faults.append(Fault("tests/reference", case.id, raised, "a function that computes it", "Correct the case."))
    if faults:
        raise DataError(faults)
    return tuple(done)
