"""The outside scores of the validation page: counted again, and printed as they were counted."""

import json
import tomllib

import pytest

import suites
from lpv_site.checks.checks import results
from lpv_site.pages import scores
from lpv_site.pages.track_proof import RESULT

COUNTED = json.loads(scores.SUITES.read_text("utf-8"))
PACKAGES = json.loads(scores.MUTATION.read_text("utf-8"))["packages"]


def test_few_bit_errors_always_break_published_block():
    assert suites.bit_errors() == COUNTED["bit errors"]
    assert COUNTED["bit errors"]["blocks"] == 7
    assert COUNTED["bit errors"]["tried"] == 7 * 320 + 320 * 319 // 2 + 20000
    assert COUNTED["bit errors"]["unnoticed"] == 0


def test_fitting_remainder_distinguished_from_wrong_one():
    block = suites.published_blocks()[0]
    assert suites.fits(block, 0)
    multiple = 0x814141AB << 1 | 1  # the polynomial itself, lowest bit of each byte first, is no error that shows
    mirrored = int(f"{(1 << 32) | 0x814141AB:033b}"[::-1], 2)
    assert suites.fits(block, mirrored << 100)
    assert not suites.fits(block, multiple << 100)


def test_every_bad_line_refused():
    counted = suites.bad_inputs()
    assert counted["accepted"] == COUNTED["bad inputs"]["accepted"] == 0
    assert counted["tried"] >= 2000


def test_seeded_mismatches_found_without_false_alarms():
    counted = suites.mismatches()
    assert counted["found"] == counted["seeded"] == COUNTED["mismatches"]["seeded"] > 200
    assert counted["quiet"] == counted["harmless"] == COUNTED["mismatches"]["harmless"] > 20


def test_check_value_suites_as_large_as_sources():
    sizes = {title: len(scores.suite(results(), *begins)) for title, *begins in scores.VALUE_SUITES}
    assert sizes["AIM cold temperature table, cells"] == 14 * 7
    assert sizes["Remainders of the FAA's path points"] == 5
    assert all(sizes.values())


def test_page_prints_suites_and_shares():
    page = scores.scores(results())
    recorded = json.loads(RESULT.read_text("utf-8"))["kinds"]["all"]
    judged = sum(recorded[word] for word in ("within", "outside", "too close to say"))
    wrong = sum(recorded[word] for word in ("false alarm", "false assurance", "missed"))
    assert f"| Judgements of simulated recordings | {judged} | {judged - wrong} |" in page
    assert f"| Seeded mismatches, found | {COUNTED['mismatches']['seeded']} |" in page
    for name, score in PACKAGES.items():
        judged = score["tried"] - score["equivalent"]
        assert score["noticed"] + len(score["survivors"]) == judged
        if judged:
            assert f"| {name} | {score['tried']} | {score['noticed']} |" in page


def test_share_counts_only_effective_changes():
    assert scores.score({"tried": 12, "equivalent": 2, "noticed": 9}) == "90%"
    assert scores.score({"tried": 1, "equivalent": 1, "noticed": 0}) == "none tried"
    for noticed, tried, between in ((9, 10, "60 to 98%"), (0, 10, "0 to 28%"), (10, 10, "72 to 100%")):
        assert scores.spread(noticed / tried, tried) == between


def test_package_counts_by_size():
    small, large = ({"mutants": mutants, "tried": 12, "equivalent": 2, "noticed": noticed}
                    for mutants, noticed in ((100, 10), (900, 5)))
    assert scores.estimate([small, large]) == pytest.approx((0.55, 10.0 / 0.82))
    assert scores.estimate([small]) == (1.0, 10.0)
    assert scores.estimate([small, large | {"tried": 2}]) == (1.0, 10.0), "a package of which nothing was judged"


def test_equivalent_mutants_give_reason():
    rows = tomllib.loads(scores.EQUIVALENT.read_text("utf-8"))["equivalent"]
    assert all(set(row) == {"mutant", "reason"} and len(row["reason"]) > 20 for row in rows)
    assert len({row["mutant"] for row in rows}) == len(rows)


@pytest.mark.parametrize("group", scores.GROUPS)
def test_every_group_tried(group):
    sums = scores.by_group(PACKAGES)[group]
    assert 0 < sums["noticed"] <= sums["tried"] <= sums["mutants"]
