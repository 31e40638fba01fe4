"""Rules of the cross-check for files made from coded records: what nobody has read from the chart yet.

A coded record is the database's side.  A file made from it fills the chart's side with the same numbers, so
that their agreement shows nothing until somebody has compared them with the chart.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lpv.approach.provenance import unverified
from lpv.approach.record import Approach
from lpv.approach.schema import TO_BE_FILLED
from lpv.core.findings import Finding, not_compared
from lpv.crosscheck.statements import finding

if TYPE_CHECKING:
    from lpv.core.findings import Grade

FROM_THE_CHART = "to be filled from the chart"
NOT_VERIFIED = "filled, not yet verified by a second person"
# What a file from coded records does compare, the chart unread: one record with another, or with a computation.
# Every other agreement of its chart side is that of a copy with its original, and shows nothing.
BETWEEN_RECORDS = (
    "record-names", "channel-range", "threshold-position", "runway-bearing", "orthometric-height", "threshold-height",
    "fpap", "length-offset", "course", "variation", "map-runway", "map-position", "fix-roles", "fix-order",
    "fix-descent", "fix-gradient", "final-gradient", "missed-height", "leg", "path-coded", "path-altitude", "msa",
)
# What coded records never hold, so that somebody has read it from the chart: it is compared as usual.
READ_FROM_THE_CHART = (
    "minima-level", "minima-lines", "categories", "val-minima", "lowest-minima", "minima-order", "step-down-minimum",
    "hat", "visibility", "decision-visibility", "tdze", "elevations", "variation-year", "climb-gradient",
    "cold-temperature", "vnav-lowest", "vnav-highest", "lights",
)
# What records hold in part: copied until somebody has filled it from the chart.
FILLED = {"missed-altitude": "missed", "missed-text": "missed", "missed-fix": "missed"}


def to_be_filled(approach: Approach, on: int | None) -> Iterator[Finding]:
    """What coded records cannot hold, still to be filled from the chart."""
    missing = approach.chart.to_be_filled
    if missing:
        yield finding(
            "from-chart", "resolve", FROM_THE_CHART, computed=", ".join(TO_BE_FILLED[key] for key in missing),
            why="Coded records do not contain it.",
            action="Fill it in from the chart in force; if the chart prints none, remove it from the list.",
        )


def copied(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Whether the chart's side was only copied from coded records."""
    if approach.chart.from_coded_record:
        yield finding(
            "coded-only", "resolve", "chart not read yet", chart="copied from coded records",
            why="Chart and database agree here because both come from the same records.",
            action="Compare every number with the chart in force, then remove from_coded_record from the file.",
        )


def kept_as_text(approach: Approach, on: int | None) -> Iterator[Finding]:
    """What the records code and nobody here understood."""
    if approach.chart.coded_legs:
        grade: Grade = "resolve" if approach.chart.from_coded_record else "note"
        yield finding(
            "coded-legs", grade, "coded, and not understood", database="; ".join(approach.chart.coded_legs),
            why="It may affect how you fly the approach.",
            action="Compare each with the chart.",
        )


def verified(approach: Approach, on: int | None) -> Iterator[Finding]:
    """Values that one person filled and no second person verified."""
    if waiting := unverified(approach.filled):
        yield finding(
            "unverified", "resolve", NOT_VERIFIED, chart=", ".join(TO_BE_FILLED[key] for key in waiting),
            why="One person alone may misread a value.",
            action="Have a second person compare it with the chart in force, and write verified_by and verified_on.",
        )


def without_copies(approach: Approach, findings: list[Finding]) -> list[Finding]:
    """The findings; agreement of copies, while nobody has read the chart, as not compared."""
    if not approach.chart.from_coded_record:
        return findings
    filled = {key for row in approach.filled for key in row.keys}
    return [_copy(row) if _agrees_with_itself(row, filled) else row for row in findings]


def _agrees_with_itself(row: Finding, filled: set[str]) -> bool:
    read = row.key in (*BETWEEN_RECORDS, *READ_FROM_THE_CHART) or FILLED.get(row.key) in filled
    return row.grade == "ok" and row.chart != "" and not read


def _copy(row: Finding) -> Finding:
    return not_compared(
        row.key, row.what, "not read", row.chart, row.database, row.computed,
        why="Both sides come from one record; nobody has read the chart.",
        action="Compare it with the chart in force.", about=row.about)


RULES = (to_be_filled, copied, kept_as_text, verified)
