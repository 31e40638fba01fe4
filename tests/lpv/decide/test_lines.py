"""Which row of minima binds, whatever the order in which the chart prints them."""

from itertools import permutations

import pytest

from approach_variants import demo, row, with_minima
from lpv.approach.schema import KINDS
from lpv.core.record import record
from lpv.decide.lines import LINES, WITHOUT_PATH, best_row, highest_row, row_for, rows_of, straight_in_rows
from lpv.files.json_form import as_text, to_json

ROWS = (row("LNAV", "ABCD", 480.0), row("LPV", "AB", 224.0), row("LPV", "CD", 324.0), row("circling", "ABCD", 660.0))


@pytest.mark.parametrize("rows", list(permutations(ROWS)))
def test_row_order_irrelevant(rows):
    approach = with_minima(demo(), *rows)
    assert row_for(approach, "LPV", "C").altitude_ft == 324.0
    assert row_for(approach, "LPV", "A").altitude_ft == 224.0
    assert best_row(approach, "D").altitude_ft == 324.0
    assert [each.altitude_ft for each in straight_in_rows(approach, "B")] == [224.0, 480.0]
    assert highest_row(approach).altitude_ft == 480.0


def test_highest_row_binds_without_category():
    approach = with_minima(demo(), *ROWS)
    assert row_for(approach, "LPV").altitude_ft == 324.0
    assert len(rows_of(approach, "LPV")) == 2


def test_missing_line_or_category_gives_none():
    approach = with_minima(demo(), row("LPV", "AB", 224.0))
    assert row_for(approach, "LPV", "C") is None
    assert row_for(approach, "LNAV") is None
    assert best_row(approach, "C") is None
    assert highest_row(with_minima(demo())) is None


def test_circling_uses_highest_row():
    approach = with_minima(demo(), row("circling", "AB", 600.0), row("circling", "CD", 700.0))
    assert straight_in_rows(approach) == []
    assert highest_row(approach).altitude_ft == 700.0


def test_json_form_gives_same_rows():
    approach = with_minima(demo(), *ROWS)
    on_phone = record(as_text(to_json(approach)))
    for category in ("A", "B", "C", "D", None):
        assert row_for(on_phone, "LPV", category).altitude_ft == row_for(approach, "LPV", category).altitude_ft


def test_lines_without_path_are_straight_in_mda_lines():
    assert tuple(line for line in LINES if KINDS[line] == "MDA" and line != "circling") == WITHOUT_PATH
