"""Figures of the suites that the validation page prints and no check value holds: python tests/suites.py

Bit errors found in published data blocks, bad inputs refused, cases that property tests tried, seeded mismatches.
They go to tests/suites.json; tests/lpv_site/test_scores.py counts again what is counted quickly.
"""

import datetime
import functools
import json
import os
import random
import re
import subprocess
import sys
import tomllib
from collections import Counter
from collections.abc import Callable
from itertools import combinations
from pathlib import Path

import pytest

from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.core.errors import DataError
from lpv.fas.block import crc, encode
from lpv.fas.path_point_columns import segment_of_columns
from lpv_site.checks.mismatches import outcomes

ROOT = Path(__file__).resolve().parents[1]
FIGURES = ROOT / "tests" / "suites.json"
BITS, BURSTS, SEED = 320, 20000, 18
LINE = re.compile(r"^(?P<key>[a-z_0-9]+) = (?P<value>.+)$")


def published_blocks() -> list[bytes]:
    """The data blocks of the published path points and of the EGNOS examples."""
    reference = ROOT / "tests" / "reference"
    rows = tomllib.loads((reference / "fas_block.toml").read_text("utf-8"))["case"]
    blocks = [bytes.fromhex(row["arguments"]["block"]) for row in rows if row["id"].endswith("remainder")]
    points = tomllib.loads((reference / "path_point.toml").read_text("utf-8"))["case"]
    return blocks + [encode(segment_of_columns(row["arguments"]["texts"])) for row in points if row["unit"] == "hex"]


def bit_errors() -> dict[str, int]:
    """Errors put into published blocks, and how many of them leave the remainder fitting.

    Each single bit of every block; each pair of bits and random bursts of up to 32 bits in the first.
    """
    blocks = published_blocks()
    errors = [(block, 1 << bit) for block in blocks for bit in range(BITS)]
    errors += [(blocks[0], 1 << first | 1 << two) for first, two in combinations(range(BITS), 2)]
    chosen = random.Random(SEED)
    for _ in range(BURSTS):
        length = chosen.randint(3, 32)
        burst = 1 | 1 << (length - 1) | chosen.getrandbits(length)
        errors.append((blocks[0], (burst & ((1 << length) - 1)) << chosen.randint(0, BITS - length)))
    return {"blocks": len(blocks), "tried": len(errors), "unnoticed": sum(fits(*error) for error in errors)}


def fits(block: bytes, error: int) -> bool:
    """Whether a block with these bits turned over still has the remainder that belongs to it."""
    damaged = (int.from_bytes(block, "little") ^ error).to_bytes(len(block), "little")
    return crc(damaged.hex()) == int.from_bytes(damaged[36:], "little")


def bad_inputs() -> dict[str, int]:
    """Every line of the demo's files with a value of no kind, with an unknown key, and numbers beyond reason."""
    tried: Counter[str] = Counter()
    accepted = []
    for folder, read in (("approaches", approach.read_text), ("aircraft", aircraft.read_text)):
        for path in sorted((ROOT / "docs" / folder).glob("*.toml")):
            for kind, place, text in spoiled(path.read_text("utf-8")):
                tried[kind] += 1
                if not refused(read, text):
                    accepted.append(f"{path.name}: {kind}: {place}")
    for line in accepted:
        print("accepted:", line)
    return {"tried": tried.total(), "accepted": len(accepted)}


def spoiled(text: str) -> list[tuple[str, str, str]]:
    """Copies of a text with one line spoiled: in what way, where, the whole."""
    lines, spoilt = text.splitlines(), []
    for number, line in enumerate(lines):
        if not (match := LINE.match(line)):
            continue
        key, given = match["key"], match["value"]
        ways = {"a value of no kind": f"{key} = {{ }}", "an unknown key": f"{key}_zz = {given}"}
        if re.fullmatch(r"-?[0-9.]+", given):
            ways["a number beyond reason"] = f"{key} = 1e12"
        spoilt += [(kind, line, "\n".join([*lines[:number], bad, *lines[number + 1:]])) for kind, bad in ways.items()]
    return spoilt


def refused(read: Callable[[str], object], text: str) -> bool:
    """Whether reading the text ends in faults."""
    try:
        read(text)
    except DataError:
        return True
    return False


class Cases:
    """A plugin of pytest: runs the property tests alone and counts the cases that each tries."""

    def __init__(self) -> None:
        self.tests = self.cases = 0

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        items[:] = [item for item in items if hasattr(getattr(item, "obj", None), "hypothesis")
                    and not {"site", "browser"} & set(item.fixturenames)]
        self.tests = len(items)
        for item in items:
            handle = item.obj.hypothesis
            if not getattr(handle, "counted", False):
                handle.inner_test, handle.counted = self._counting(handle.inner_test), True

    def _counting(self, test: Callable[..., None]) -> Callable[..., None]:
        @functools.wraps(test)
        def counted(*arguments: object, **named: object) -> None:
            self.cases += 1
            test(*arguments, **named)

        return counted


def property_tests() -> dict[str, int]:
    """How many property tests there are, and how many cases they tried; all of them hold."""
    counting = Cases()
    given = ["-q", "-o", "addopts=", "-p", "no:cacheprovider", "-p", "no:xdist", "tests/lpv", "tests/lpv_site"]
    if code := pytest.main(given, plugins=[counting]):
        sys.exit(f"property tests fail: {code}")
    return {"tests": counting.tests, "cases": counting.cases}


def mismatches() -> dict[str, int]:
    """Seeded mismatches and those found; harmless ones and those that stayed quiet."""
    seeded = [outcome for outcome in outcomes() if outcome.case.grade]
    harmless = [outcome for outcome in outcomes() if not outcome.case.grade]
    quiet = [outcome for outcome in harmless if outcome.grade not in ("stop", "resolve")]
    seen = [outcome for outcome in seeded if outcome.findings]
    return {"seeded": len(seeded), "found": len(seen), "harmless": len(harmless), "quiet": len(quiet)}


def main() -> None:
    """Count everything and write the file."""
    os.chdir(ROOT)
    commit = subprocess.run(["git", "rev-parse", "--short", "HEAD"], capture_output=True, text=True).stdout.strip()
    figures = {
        "date": datetime.datetime.now(datetime.UTC).date().isoformat(), "commit": commit,
        "bit errors": bit_errors(), "bad inputs": bad_inputs(), "mismatches": mismatches(),
        "property tests": property_tests(),
    }
    FIGURES.write_text(json.dumps(figures, indent=1) + "\n", "utf-8")


if __name__ == "__main__":
    main()
