"""Every numeric fact has a check value that feels it, a second source, or a written reason why there is neither."""

import re
import tomllib
from fnmatch import fnmatch

import pytest

from felt import FACTS, SNIPPETS, changed, felt, numeric
from lpv.facts.sources import SOURCES
from lpv_site.checks.checks import load_cases
from support import ROOT

ROWS = tomllib.loads((ROOT / "tests" / "unfelt.toml").read_text("utf-8"))["unfelt"]
SELECT, ANSWERS = {"keys", "source", "status", "place"}, {"second", "check", "reason"}


def fits(row, key):
    fact = FACTS[key]
    listed = any(fnmatch(key, pattern) for pattern in row.get("keys", ()))
    return listed or any(row.get(name) == getattr(fact, name) for name in ("source", "status", "place") if name in row)


@pytest.fixture(scope="module")
def unfelt():
    noticed = felt()
    assert len(noticed) >= 190
    return [key for key in numeric() if key not in noticed]


def test_unfelt_facts_have_one_answer(unfelt):
    assert [key for key in unfelt if not any(fits(row, key) for row in ROWS)] == []


def test_no_row_lost_its_facts(unfelt):
    first = {key: next(number for number, row in enumerate(ROWS) if fits(row, key)) for key in unfelt}
    assert set(first.values()) == set(range(len(ROWS)))
    patterns = [pattern for row in ROWS for pattern in row.get("keys", ())]
    assert [pattern for pattern in patterns if not any(fnmatch(key, pattern) for key in unfelt)] == []


def test_each_row_gives_source_check_value_or_reason():
    ids = [case.id for case in load_cases()]
    for row in ROWS:
        assert len(SELECT & row.keys()) == 1, row
        [answer] = ANSWERS & row.keys()
        if answer == "second":
            assert row["second"] in SOURCES
            assert len(row["place_second"]) > 10
        elif answer == "check":
            assert [name for name in ids if name.startswith(row["check"])]
            assert len(row["why"]) > 30
        else:
            assert len(row["reason"]) > 40


def test_second_source_differs_from_first(unfelt):
    for row in ROWS:
        if "second" in row:
            assert row["second"] not in {FACTS[key].source for key in unfelt if fits(row, key)}, row


def test_print_only_facts_never_computed_with(unfelt):
    code = "\n".join(path.read_text("utf-8") for path in sorted((SNIPPETS / "lpv").rglob("*.py"))
                     if path.parent.name != "facts")
    only = [key for key in unfelt if next(row for row in ROWS if fits(row, key)).get("printed")]
    assert len(only) > 40
    assert [key for key in only if re.search(rf'value\("{key}"\)', code)] == []


def test_changed_fact_restored():
    before = FACTS["garp_beyond_fpap_ft"]
    with changed("garp_beyond_fpap_ft", 1.1):
        assert FACTS["garp_beyond_fpap_ft"].value == pytest.approx(1100.0)
    assert FACTS["garp_beyond_fpap_ft"] is before
