"""What the scripts of docs/practice/ show, counted in the file of the drills."""

import tomllib
from collections import Counter

import pytest

from lpv_site.department.data import DOCS
from practice.difficulty import show
from shown import rows

LISTED = tomllib.loads((DOCS / "practice" / "drills.toml").read_text("utf-8"))
COUNTS = Counter(row["difficulty"] for row in LISTED["drill"])
COUNTS.update({"numbers": len(LISTED["number"]), "sequences": len(LISTED["sequence"])})


@pytest.mark.parametrize("page", ["plain", "subtle", "mixed", "numbers", "sequences"])
def test_drills_of_each_page(page):
    assert show().number(page) == COUNTS[page] > 0


def test_all_drills_together():
    assert show().number("all") == COUNTS.total() >= 60


def test_table_names_every_drill_of_kind():
    assert [cells[:2] for cells in rows(show())] == [
        ["find the error", "one plain mistake"], ["find the error", "one subtle mistake"],
        ["find the error", "two mistakes, or none"], ["numbers", "a number"], ["sequences", "an approach that runs"]]
    assert [cells[2:] for cells in rows(show())] == [
        ["12", "01 to 12"], ["12", "13 to 24"], ["12", "25 to 36"], ["24", "37 to 56, 73 to 76"],
        ["20", "57 to 72, 77 to 80"]]
