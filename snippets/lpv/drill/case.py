"""A cockpit before an approach, as a case for a drill: chart, database, type, and what both sides have set.

Picks are made from a text (the seed) by a hash, so that the same seed picks the same on every machine, and one
pick does not depend on the others.
"""

import copy
import hashlib
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from lpv.aircraft.record import Aircraft
from lpv.approach.record import Approach
from lpv.core.errors import DomainError
from lpv.core.findings import Finding
from lpv.crosscheck.check import crosscheck
from lpv.setup import checks as setup
from lpv.setup.expected import Expected, expected_for
from lpv.setup.records import Setup, Side

Graded = tuple[str, str]
DIFFER = ("stop", "resolve", "note")
Option = TypeVar("Option")
Record = TypeVar("Record", Setup, Side)


@dataclass(frozen=True)
class Case:
    """What there is to compare.

    approach: the chart and what the database holds;  aircraft: the type
    setup:    what both sides have set
    other:    another approach of the airport, with which this one can be mixed up, None if there is none
    hour:     of the flight, where it matters: "1500 UTC"
    """

    approach: Approach
    aircraft: Aircraft
    setup: Setup
    other: Approach | None = None
    hour: str = ""

    @property
    def expected(self) -> Expected:
        """What the approach asks of the set-up of this type."""
        return expected_for(self.setup, self.approach, self.aircraft)

    def side(self, name: str) -> Side:
        """What one side has set; name: left or right."""
        return self.setup.left if name == "left" else self.setup.right


@dataclass(frozen=True)
class Pick:
    """Picks that depend on the seed and on what is picked, on nothing else."""

    seed: str

    def choose(self, what: str, options: Sequence[Option]) -> Option:
        """One of the options; DomainError if there is none."""
        if not options:
            raise DomainError(f"{what}: nothing to pick from.")
        digest = hashlib.sha256(f"seed {self.seed} {what}".encode()).digest()
        return options[int.from_bytes(digest[:8], "big") % len(options)]


def but(record: Record, **changes: object) -> Record:
    """A copy of a set-up or a side with some attributes changed."""
    made = copy.copy(record)
    for name, value in changes.items():
        setattr(made, name, value)
    return made


def with_setup(case: Case, **changes: object) -> Case:
    """The case with some of what both sides have in common changed."""
    return replace(case, setup=but(case.setup, **changes))


def with_sides(case: Case, names: Sequence[str], **changes: object) -> Case:
    """The case with what some sides have set changed; names: of left and right."""
    return with_setup(case, **{name: but(case.side(name), **changes) for name in names})


def all_findings(case: Case) -> list[Finding]:
    """Every finding of the set-up check and of the cross-check, those that agree included."""
    rows = setup.check(case.setup, case.expected)
    return rows + crosscheck(case.approach, case.setup.day)


def graded(findings: Sequence[Finding]) -> set[Graded]:
    """(name, grade) of the findings that differ; what was not compared is no answer of a drill."""
    return {(row.name(), row.grade) for row in findings if row.grade in DIFFER}


def beyond(case: Case, base: Case) -> list[Finding]:
    """The findings about a case that are not about its base case, those that agree left out."""
    known = graded(all_findings(base))
    return [row for row in all_findings(case) if row.grade in DIFFER and (row.name(), row.grade) not in known]
