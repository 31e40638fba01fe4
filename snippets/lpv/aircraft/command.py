"""Check aircraft files: every fault of each, or what was proven, what can catch a crew, and what a type does in the
cases that tell whether it is written down as meant.

    lpv aircraft docs/aircraft/large-jet.toml
"""

import argparse
import sys
from pathlib import Path

from lpv.aircraft.record import Aircraft, read
from lpv.core.errors import DataError
from lpv.modes.cases import cases
from lpv.modes.properties import PROPERTIES
from lpv.modes.reached import decided_by, never_words
from lpv.modes.rules import FMS, ILS, SBAS

HEADS = ("what happens", "source", "level", "lateral", "vertical", "autopilot")
LABELS = {"sbas": SBAS, "ils": ILS, "fms": FMS}  # key of [labels] -> its neutral word


def main(argv: list[str]) -> int:
    """Print what each file holds, or its faults; 0 if all are good, 2 if one has faults."""
    parser = argparse.ArgumentParser(
        prog="lpv aircraft", description="Check aircraft files.",
        epilog="Exit code: 0 all good; 2 wrong arguments or faulty files.")
    parser.add_argument("files", nargs="+", type=Path, metavar="FILE", help="aircraft file (TOML)")
    worst = 0
    for path in parser.parse_args(argv).files:
        try:
            print(described(read(path)))
        except DataError as error:
            print("\n".join(str(fault) for fault in error.faults), file=sys.stderr)
            worst = 2
    return worst


def described(aircraft: Aircraft) -> str:
    """What was proven of a type, where it can catch a crew, and what it does in each case, as lines of text."""
    explored = aircraft.exploration
    empty = {rule.key: f" (never put to the test: {rule.untested})" for rule in PROPERTIES
             if rule.key in explored.untested}
    lines = [
        f"{aircraft.slug}: {aircraft.type.name}, {explored.states} states, {explored.tried} steps tried",
        *(f"  WARNING: {never_words(*never)} Look at {'; '.join(decided_by(*never, aircraft.rules))}."
          for never in explored.never),
        *(f"  proven: {key}{empty.get(key, '')}" for key in explored.proven),
        *(f"  trap {trap.key}: {', then '.join(example.events)}" for trap, example in explored.traps),
        *_cases(aircraft),
    ]
    return "\n".join(lines)


def _cases(aircraft: Aircraft) -> list[str]:
    """A table of what the type does in each case, in its own words where it has labels."""
    rows = [HEADS, *[
        (case.what, _source(case.source, aircraft), case.level, _modes(case.lateral, "lateral", aircraft),
         _modes(case.vertical, "vertical", aircraft), case.autopilot)
        for case in cases(aircraft.rules)
    ]]
    widths = [max(len(cell) for cell in column) for column in zip(*rows, strict=True)]
    return [
        "  " + "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows]


def _source(words: str, aircraft: Aircraft) -> str:
    name = next((name for name in LABELS.values() if words.startswith(name)), "")
    key = next((key for key, neutral in LABELS.items() if neutral == name), "")
    words = words.removesuffix(" on both sides")
    return aircraft.label(key, name) + words.removeprefix(name) if key else words


def _modes(words: str, axis: str, aircraft: Aircraft) -> str:
    """Modes with the labels of the type for armed and captured."""
    return ", ".join(
        aircraft.label(f"{axis}_{mode}", mode) if mode in ("armed", "captured") else mode for mode in words.split(", "))
