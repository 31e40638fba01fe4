"""The other scripts of docs/plan/: categories, cycles, lines, limits, sheets, and the manual's cold example."""

import re
from datetime import date, timedelta
from itertools import pairwise

import pytest

from plan.category import show as category
from plan.changes import show as changes
from plan.cold_published import show as published
from plan.cold_rounding import show as rounding
from plan.cycle_at_eta import show as at_eta
from plan.cycles import show as cycles
from plan.lines import show as lines
from plan.sheets import show as sheets
from plan.temperature_limits import show as limits
from plan.today import show as today
from shown import cell, plain, row, rows


@pytest.mark.parametrize(("key", "vref_kt"), [
    ("large-jet vref", 133.0), ("light-jet vref", 105.0), ("mid-jet vref", 124.0), ("regional-jet vref", 139.0),
    ("tri-jet vref", 139.0)])
def test_vref_at_maximum_landing_weight(key, vref_kt):
    """The last row of each aircraft file."""
    assert category().number(key) == vref_kt


def test_category_edges():
    # 14 CFR 97.3.
    assert [cells[1] for cells in rows(category())[:5]] == [
        "under 91 kt", "91 kt or more, under 121 kt", "121 kt or more, under 141 kt", "141 kt or more, under 166 kt",
        "166 kt or more"]
    assert row(category(), "Light demo jet")[1:] == ["B105 kt", "B120 kt", "C135 kt"]


@pytest.mark.parametrize(("key", "feet", "within"), [
    # KMSO, -12 °C, 2994 ft above the airport: the cells of the manual's table between -10 and -20 °C, read by hand.
    ("table", 290 + 0.2 * (420 - 290), 2.0),
    ("column", 490 + 0.2 * (710 - 490), 0.5),
    ("up", 600.0, 0.0),
    # H (15 - t0) / (273 + t0 - 0.5 L0 (H + Hss)) at an airport of 3206 ft.
    ("formula", 2994 * (15 - (-12 + 0.00198 * 3206)) / (273 - 12 + 0.00198 * 3206 - 0.00099 * (2994 + 3206)), 1.0),
])
def test_published_example(key, feet, within):
    assert published().number(key) == pytest.approx(feet, abs=within)


def test_manual_states_three_hundred_feet():
    assert cell(published(), "the manual states", 1) == "300"


def test_table_value_rounding():
    assert rounding().number("column") == 5000.0
    # TBL 7-3-1 at -30 °C: 60, 140, 280, 950 ft at 300, 700, 1500, 5000 ft.
    expected = {"300": ["100 or 100", "60"], "700": ["100 or 200", "140"], "1500": ["300 or 300", "280"],
                "5000": ["1000 or 1000", "950"]}
    for height, cells in expected.items():
        assert row(rounding(), height)[1:] == cells


def test_thirteen_cycles_of_four_weeks():
    first = date(2026, 11, 26)
    assert cycles().text("cycle") == "2612"
    assert cycles().text("ends") == (first + timedelta(days=28)).isoformat()
    assert cycles().text("next") == "2613"
    days = [cells[1] for cells in rows(cycles())]
    assert days == [(first + timedelta(days=28 * number)).isoformat() for number in range(13)]


def test_cycle_around_its_end():
    words = [cells[3] for cells in rows(at_eta())[:4]]
    assert words == ["yes, near the change", "ask", "ask", "no"]


def test_best_line_by_announced_level():
    assert row(lines(), "LPV")[1:] == ["LPV", "", ""]
    assert row(lines(), "LNAV/VNAV")[1:] == ["LNAV/VNAV", "LNAV/VNAV", ""]
    assert row(lines(), "LNAV")[1:] == ["LNAV", "LNAV", "LNAV/VNAV"]
    assert row(lines(), "none")[1:] == ["none", "none", "none"]


def test_temperature_limits_bind_barometric_path_only():
    # ZZHC: -23 to 51 °C on its chart.
    assert [cells[3] for cells in rows(limits())] == ["no", "yes", "yes", "no"]
    assert {tuple(cells[1:3]) for cells in rows(limits())} == {("yes", "yes")}


def test_every_sheet_has_link_and_verdict():
    text = sheets().markdown
    assert text.count("-sheet.md)") == 5
    assert plain(text).count("Not as planned") == 1


def test_changes_graded():
    text = changes().markdown
    assert "cycle 2611 against 2612" in text
    assert text.count("| field | was | is |") >= 1


def test_rows_for_today_contiguous():
    """Every day of the five years has one row, and the line without scripts is the example's own cycle."""
    text = today().markdown
    rows = [row.split("/") for row in re.search(r'data-cycles="([^"]+)"', text)[1].split(" ")]
    days = [(date.fromisoformat(first), date.fromisoformat(last)) for _, first, last in rows]
    assert rows[0] == ["2612", "2026-11-26", "2026-12-23"]
    assert all(last - first == timedelta(days=27) for first, last in days)
    assert all(later[0] - sooner[1] == timedelta(days=1) for sooner, later in pairwise(days))
    assert "Cycle 2612" in text
