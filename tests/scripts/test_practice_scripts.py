"""What the scripts of docs/practice/ show, counted in the file of the drills."""

import tomllib
from collections import Counter

import pytest

from lpv_site.department.data import DOCS
from practice.grades import show
from shown import rows

COUNTS = Counter(row["grade"] for row in tomllib.loads((DOCS / "practice" / "drills.toml").read_text("utf-8"))["drill"])


@pytest.mark.parametrize("grade", ["plain", "subtle", "mixed"])
def test_drills_of_each_grade(grade):
    assert show().number(grade) == COUNTS[grade] > 0


def test_numbers_of_drills_follow_on():
    assert [cells[1:] for cells in rows(show())] == [["12", "01 to 12"], ["12", "13 to 24"], ["12", "25 to 36"]]
