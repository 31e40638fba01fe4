"""Who filled what into an approach file, who verified it, and which coded records it belongs to.

    [[filled]]                  # values that somebody read from the chart
    keys = ["minima", "notes"]
    filled_by = "A. Reader"
    filled_on = 2026-09-10
    verified_by = "B. Reader"   # a second person, or missing
    verified_on = 2026-09-11

    [[read_again]]              # values that were there, and are not carried into a new data cycle
    key = "minima"
    cycle = "2610"
    because = "path point"
    was = "LPV ABCD 264"

    [records]                   # marks of the coded records, group by group (`lpv.arinc.approach`)
"""
# ruff: noqa: RUF009  (the schema functions return dataclasses.field)

import datetime
from collections.abc import Iterator
from dataclasses import dataclass

from lpv.approach.schema import CYCLE_PATTERN, TO_BE_FILLED, FaultRow, cycle_ident
from lpv.files import schema

# Which groups of coded records a value from the chart belongs to: where one of them changed it is to be read again.
GROUPS = ("airport", "runway", "path_point", "levels", "final", "missed", "transitions", "safe_altitudes")
BELONGS_TO = {
    "minima": ("path_point", "levels", "final", "missed", "runway"), "notes": GROUPS, "tdze_ft": ("runway",),
    "variation_year": ("airport",), "vnav_lowest_c": ("path_point", "levels", "final"),
    "vnav_highest_c": ("path_point", "levels", "final"), "cold_temperature_airport_c": ("airport",),
    "lights": ("runway",), "missed": ("missed",), "missed.climb_gradient_ft_per_nm": ("missed",),
}
GROUP_WORDS = {
    "airport": "airport", "runway": "runway", "path_point": "path point", "levels": "levels of service",
    "final": "final route", "missed": "missed approach", "transitions": "transitions",
    "safe_altitudes": "minimum safe altitudes",
}
_MARK = "[0-9a-f]{8}"


@dataclass(frozen=True, kw_only=True)
class Filled:
    """Values that one person read from the chart, and the second person who verified them."""

    keys: tuple[str, ...] = schema.choices("what was filled", tuple(TO_BE_FILLED))
    filled_by: str = schema.text("who filled it", example="A. Reader")
    filled_on: datetime.date = schema.day("when it was filled")
    verified_by: str | None = schema.text("who verified it, another person", example="B. Reader", required=False)
    verified_on: datetime.date | None = schema.day("when it was verified", required=False)

    def faults(self) -> Iterator[FaultRow]:
        """Verified by another person, with a date that is not before the filling."""
        if (self.verified_by is None) != (self.verified_on is None):
            yield "verified_by", "a name without a date, or a date without a name", "both or neither", "Add the other."
        elif self.verified_by is not None and self.verified_on is not None:
            if self.verified_by.casefold() == self.filled_by.casefold():
                yield "verified_by", self.verified_by, "a second person", "Have somebody else verify it."
            if self.verified_on < self.filled_on:
                yield "verified_on", f"{self.verified_on}, before it was filled", "a later day", "Correct the dates."


@dataclass(frozen=True, kw_only=True)
class ReadAgain:
    """A value that was filled, and was not carried into a new data cycle."""

    key: str = schema.choice("what is to be read again", tuple(TO_BE_FILLED))
    cycle: str = schema.parsed("data cycle from which on", cycle_ident, example='"2612"', pattern=CYCLE_PATTERN)
    because: str = schema.text("which coded records changed", longest=200, example="path point")
    was: str | None = schema.text("what it was", longest=300, example="LPV ABCD 264", required=False)


@dataclass(frozen=True, kw_only=True)
class Records:
    """Marks of the coded records, group by group."""

    airport: str | None = schema.text("mark of the airport", pattern=_MARK, example="0a1b2c3d", required=False)
    runway: str | None = schema.text("mark of the runway", pattern=_MARK, example="0a1b2c3d", required=False)
    path_point: str | None = schema.text("mark of the path point", pattern=_MARK, example="0a1b2c3d", required=False)
    levels: str | None = schema.text(
        "mark of the levels of service", pattern=_MARK, example="0a1b2c3d", required=False)
    final: str | None = schema.text("mark of the final route", pattern=_MARK, example="0a1b2c3d", required=False)
    missed: str | None = schema.text("mark of the missed approach", pattern=_MARK, example="0a1b2c3d", required=False)
    transitions: str | None = schema.text("mark of the transitions", pattern=_MARK, example="0a1b2c3d", required=False)
    safe_altitudes: str | None = schema.text(
        "mark of the minimum safe altitudes", pattern=_MARK, example="0a1b2c3d", required=False)


def faults(
    filled: tuple[Filled, ...], again: tuple[ReadAgain, ...], to_be_filled: tuple[str, ...],
) -> Iterator[FaultRow]:
    """What is filled is not listed as to be filled, nor twice; what is to be read again is."""
    keys = [key for row in filled for key in row.keys]
    for key in dict.fromkeys(keys):
        if key in to_be_filled:
            yield "filled", f"{key}, which is to be filled", "keys that are filled", "Take it out of one of the lists."
        if keys.count(key) > 1:
            yield "filled", f"{key} a second time", "each key once", "Remove one."
    for row in again:
        if row.key not in to_be_filled:
            yield "read_again", f"{row.key}, which is filled", "keys that are to be filled", "Remove it."


def unverified(filled: tuple[Filled, ...]) -> list[str]:
    """The keys that one person filled and nobody else verified."""
    return [key for row in filled if row.verified_by is None for key in row.keys]
