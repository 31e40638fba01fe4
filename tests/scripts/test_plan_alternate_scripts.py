"""What the page on alternates shows, read off the scenario files and the regulation by hand."""

import pytest

from lpv.plan.rules import NAMES
from plan.alternate_day import show as day
from plan.alternate_lines import show as lines
from plan.alternate_rules import show as rules
from plan.alternate_window import show as window
from shown import cell, plain


def test_worst_around_eta():
    # The first scenario: 500 ft and 1 1/2 SM, temporarily 300 ft and 3/4 SM.
    assert window().number("ceiling") == 300.0
    assert window().number("visibility") == 0.75
    assert "an alternate is needed" in window().markdown


@pytest.mark.parametrize(("key", "expected"), [
    ("ILS ceiling", 600.0), ("ILS visibility", 2.0), ("LNAV ceiling", 800.0), ("LNAV visibility", 2.0),
])
def test_required_weather(key, expected):
    assert lines().number(key) == expected


def test_lpv_never_planned_on():
    assert [cell(lines(), "LPV", column) for column in (1, 2)] == ["no", "no"]
    assert [cell(lines(), "LNAV/VNAV", column) for column in (1, 2)] == ["no", "800 ft, 2 SM"]


def test_each_planning_sheet_by_own_rules():
    text = plain(day().markdown)
    assert text.count("ETA 2026-12") == 5
    assert "EASA commercial, Example airline" in text
    airline = text[text.index("ZZEG, ETA"):].split("ETA 2026")[1]
    assert "91.169" not in airline


def test_every_set_has_block():
    text = rules().markdown
    assert all(f"<b>{name}</b>" in text for name in NAMES)
    assert text.count("no text was read") == 2
