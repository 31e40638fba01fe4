"""Outside scores on the validation page: suites with their numbers, and how many wrong changes the tests notice.

What check values hold is counted from them.  The rest is counted by `python tests/suites.py` and `python
tests/mutate.py` and committed, since it takes minutes; each says when and at which commit.
"""

import json
import tomllib
from collections import defaultdict
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from lpv.core.sample import share_interval
from lpv.core.text import number
from lpv_site.checks.checks import Result
from lpv_site.pages.track_proof import recordings_judged
from lpv_site.text.table import table
from lpv_site.text.text import escape

TESTS = Path(__file__).resolve().parents[3] / "tests"
SUITES, MUTATION, EQUIVALENT = TESTS / "suites.json", TESTS / "mutation.json", TESTS / "mutation.toml"
READ = (SUITES, MUTATION, EQUIVALENT)
# Suites of check values: title, and what the ids, the sources and the words of their cases begin with.
VALUE_SUITES: tuple[tuple[str, tuple[str, ...], tuple[str, ...], str], ...] = (
    ("Remainders of the FAA's path points", ("path-point-",), ("faa-cifp",), "Remainder"),
    ("The two EGNOS blocks", ("egnos-block",), ("egnos-block",), ""),
    ("FAA geodetic test cases", ("faa-",), ("order-8260-54a",), ""),
    ("World Magnetic Model, test values", ("wmm-",), ("wmm2025-",), ""),
    ("Courses, distances, altitudes of published approaches", ("khwd-", "leam-"), ("faa-cifp", "aip-espana"), ""),
    ("AIM cold temperature table, cells", ("aim-cold-",), ("aim-2026",), "Table cell"),
    ("Geoid against path points and EGM96", ("geoid-",), ("",), ""),
    ("Integrity and satellites, by open research code", ("",),
     ("maast", "rtklib", "side-sbas", "gnss-lib-py", "orekit"), ""),
)
GROUPS = {"lpv": 95, "forms and figures": 90, "site layer": 90, "page scripts": 95}


def scores(results: Iterable[Result]) -> str:
    """The sections of the validation page."""
    return _suites(tuple(results)) + _mutation()


def suite(results: Iterable[Result], ids: tuple[str, ...], sources: tuple[str, ...], words: str) -> list[Result]:
    """The check values of a suite."""
    return [result for result in results if result.case.id.startswith(ids)
            and result.case.source.startswith(sources) and result.case.what.startswith(words)]


def _suites(results: tuple[Result, ...]) -> str:
    rows: list[tuple[str, object, object]] = []
    for title, ids, sources, words in VALUE_SUITES:
        cases = suite(results, ids, sources, words)
        rows.append((title, len(cases), sum(result.holds for result in cases)))
    counted = json.loads(SUITES.read_text("utf-8"))
    bits, bad, seeded = counted["bit errors"], counted["bad inputs"], counted["mismatches"]
    proved = counted["property tests"]
    rows += [
        (f"Bit errors in {bits['blocks']} published blocks", bits["tried"], bits["tried"] - bits["unnoticed"]),
        ("Bad lines in files, refused", bad["tried"], bad["tried"] - bad["accepted"]),
        ("Seeded mismatches, found", seeded["seeded"], seeded["found"]),
        ("Harmless ones, quiet", seeded["harmless"], seeded["quiet"]),
        (f"Cases tried by {proved['tests']} property tests", proved["cases"], proved["cases"]),
        ("Judgements of simulated recordings", *recordings_judged()),
    ]
    return (
        "\n## Suites { #suites }\n\n" + table(["suite", "cases", "hold"], rows)
        + "\nFrom the bit errors to the property tests they were counted on "
        f"{counted['date']} at commit {escape(counted['commit'])}. Bit errors: each single bit of every block; in the "
        "first, each pair of bits and random bursts of up to 32 bits.\n"
    )


def by_group(packages: dict[str, Any]) -> dict[str, dict[str, int]]:
    """Sums of the packages' figures for each group."""
    sums: dict[str, dict[str, int]] = {name: defaultdict(int) for name in GROUPS}
    for package in packages.values():
        for key in ("mutants", "tried", "noticed", "equivalent"):
            sums[package["group"]][key] += package[key]
    return sums


def score(counts: dict[str, int]) -> str:
    """The share of mutants noticed, of those that change anything."""
    judged = counts["tried"] - counts["equivalent"]
    return f"{number(100.0 * counts['noticed'] / judged, 1.0)}%" if judged else "none tried"


def estimate(packages: Iterable[dict[str, Any]]) -> tuple[float, float]:
    """The share of a group's mutants that are noticed, and how large a plain sample would tell as much.

    Each package counts by the mutants that it has, since the samples of large and of small ones are alike.
    """
    rows = [(row["mutants"], row["noticed"], row["tried"] - row["equivalent"]) for row in packages]
    rows = [(mutants, noticed / judged, judged) for mutants, noticed, judged in rows if judged]
    total = sum(mutants for mutants, _, _ in rows)
    share = sum(mutants * part for mutants, part, _ in rows) / total
    return share, total**2 / sum(mutants**2 / judged for mutants, _, judged in rows)


def spread(share: float, size: float) -> str:
    """Between which shares that of all mutants lies, nineteen times in twenty, by the sample (Wilson's interval)."""
    low, high = (number(100.0 * end) for end in share_interval(share * size, size))
    return f"{low} to {high}%"


def _in_words(group: str, packages: dict[str, Any]) -> str:
    share, size = estimate(row for row in packages.values() if row["group"] == group)
    return f"{number(100.0 * share, 1.0)}% ({spread(share, size)}), {GROUPS[group]}%"


def _mutation() -> str:
    packages = {name: row for name, row in json.loads(MUTATION.read_text("utf-8"))["packages"].items()
                if row["mutants"]}
    groups = [(f"**{name}**", row["tried"], row["noticed"], _in_words(name, packages))
              for name, row in by_group(packages).items()]
    rows = [(name, row["tried"], row["noticed"], score(row)) for name, row in packages.items()]
    dates = sorted({f"{row['date']} at commit {row['commit']}" for row in packages.values()})
    tried, possible = (sum(row[key] for row in packages.values()) for key in ("tried", "mutants"))
    same = tomllib.loads(EQUIVALENT.read_text("utf-8")).get("equivalent", [])
    page = (
        "\n## Wrong changes that the tests notice { #mutation }\n\n"
        "One operator, sign, constant, comparison, condition, argument or return is changed, and the tests of the "
        "module run, then those of its package and of what imports it. How a drawing looks is not changed. A change "
        f"that no test notices survives. Tried is a seeded sample, {tried} of {possible}, "
        f"on {escape('; '.join(dates))}. Beside each share stands where that of all of them lies nineteen times in "
        "twenty, by a sample of this size; in the share of a group each package counts by the changes that it "
        "offers.\n\n"
        + table(["group", "tried", "noticed", "share, target"], groups)
        + '\n??? note "By package"\n\n' + _indented(table(["package", "tried", "noticed", "share"], rows))
    )
    survivors = [line for row in packages.values() for line in row["survivors"]]
    listed = "".join(f"- `{line}`\n" for line in survivors)
    page += f'\n??? note "Survivors: {len(survivors)}"\n\n' + _indented(listed)
    if same:
        lines = "".join(f"- `{row['mutant']}`: {escape(row['reason'])}\n" for row in same)
        page += f'\n??? note "Judged to change nothing: {len(same)}"\n\n' + _indented(lines)
    return page


def _indented(text: str) -> str:
    return "".join(f"    {line}\n" for line in text.splitlines())
