"""Approaches of the demo with other minima, for tests of decisions: rows by category, in any order."""

from dataclasses import replace

from demo.approaches import FOLDER
from lpv.aircraft.record import Aircraft
from lpv.aircraft.record import read as read_aircraft
from lpv.approach.record import Approach, read
from lpv.approach.schema import KINDS, Minima


def demo(slug: str = "zzak-rnav-09") -> Approach:
    """An approach of the demo."""
    return read(FOLDER / f"{slug}.toml")


def jet(slug: str = "light-jet") -> Aircraft:
    """A type of the demo."""
    return read_aircraft(FOLDER.parent / "aircraft" / f"{slug}.toml")


def row(line: str, categories: str, altitude_ft: float, **more: object) -> Minima:
    """A row of minima with a visibility of 1 SM unless another is given."""
    more = more or {"visibility_sm": 1.0}
    return Minima(line=line, kind=KINDS[line], categories=categories, altitude_ft=altitude_ft, **more)  # type: ignore[arg-type]


def with_minima(approach: Approach, *rows: Minima) -> Approach:
    """The approach with other rows of minima, in this order."""
    return replace(approach, chart=replace(approach.chart, minima=rows))


def with_chart(approach: Approach, **changes: object) -> Approach:
    """The approach with other values on its chart."""
    return replace(approach, chart=replace(approach.chart, **changes))  # type: ignore[arg-type]


def with_operator(aircraft: Aircraft, **changes: object) -> Aircraft:
    """The type with other rules of its operator."""
    return replace(aircraft, operator=replace(aircraft.operator, **changes))  # type: ignore[arg-type]
