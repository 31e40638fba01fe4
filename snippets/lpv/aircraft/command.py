"""Check aircraft files: every fault of each, or what was proven and what can catch a crew.

    lpv aircraft docs/aircraft/large-jet.toml
"""

import argparse
import sys
from pathlib import Path

from lpv.aircraft.record import Aircraft, read
from lpv.core.errors import DataError


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
    """What was proven of a type, and where it can catch a crew, as lines of text."""
    explored = aircraft.exploration
    lines = [
        f"{aircraft.slug}: {aircraft.type.name}, {explored.states} states, {explored.tried} steps tried",
        *(f"  proven: {key}" for key in explored.proven),
        *(f"  trap {trap.key}: {', then '.join(example.events)}" for trap, example in explored.traps),
    ]
    return "\n".join(lines)
