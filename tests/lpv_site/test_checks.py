"""The runner of the published values: what it accepts, refuses and decides."""

import re
from dataclasses import replace
from decimal import Decimal

import pytest

from lpv.core.errors import DataError
from lpv.facts import FACTS
from lpv.facts.sources import SOURCES
from lpv_site.checks import checks
from lpv_site.checks.check_table import check_table
from lpv_site.checks.checks import half_last_digit, load_cases, run
from lpv_site.pages.reference_pages import build_sources_page, require_all_hold

GOOD = """
subject = "Test"
task = "verify"
[[case]]
id = "one"
what = "a circle"
function = "lpv.core.units.degrees_360"
arguments = { angle_deg = -90 }
expected = 270.0
unit = "deg"
tolerance = 0.05
source = "trade"
place = "here"
status = "common practice"
"""


def load(tmp_path, text):
    (tmp_path / "a.toml").write_text(text, "utf-8")
    return load_cases(tmp_path)


def test_good_case_holds(tmp_path):
    (case,) = load(tmp_path, GOOD)
    assert run(case).holds


def test_wrong_value_fails_and_stops_page(tmp_path):
    (case,) = load(tmp_path, GOOD.replace("270.0", "271.0"))
    result = run(case)
    assert not result.holds
    with pytest.raises(DataError, match="one"):
        require_all_hold([result])


def test_wrap_compares_across_north(tmp_path):
    (case,) = load(tmp_path, GOOD.replace("270.0", "-90.0") + "wrap = 360\n")
    assert run(case).holds


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('source = "trade"', 'source = "nobody"', "source"),
        ('status = "common practice"', 'status = "sure"', "published"),
        ("tolerance = 0.05", "tolerance = 0.5", "half the last printed digit"),
        ("tolerance = 0.05", "", "no tolerance"),
        ('place = "here"', "", "no place"),
        ('place = "here"', 'place = "here"\ncolour = 1', "colour"),
        ('task = "verify"', 'task = "dance"', "dance"),
    ],
)
def test_faults_named(tmp_path, old, new, says):
    with pytest.raises(DataError, match=says):
        load(tmp_path, GOOD.replace(old, new))


def test_all_faults_reported_together(tmp_path):
    with pytest.raises(DataError) as caught:
        load(tmp_path, GOOD.replace('"trade"', '"nobody"').replace('"common practice"', '"sure"'))
    assert len(caught.value.faults) == 2


def test_half_of_last_printed_digit():
    assert half_last_digit(Decimal("171.60")) == Decimal("0.005")
    assert half_last_digit(300) == Decimal("0.5")


def test_check_table_numbers_and_words(tmp_path):
    [case] = load(tmp_path, GOOD.replace("-90", "-90.0").replace("expected = 270.0", "expected = -90.0").replace(
        "tolerance = 0.05", "tolerance = 0.05\nwrap = 360"))
    table = check_table([run(case)])
    assert "<td>\u221290.0\u00b0</td><td>270.000</td>" in table
    word = replace(case, expected="-a-", tolerance=None, unit="", function="lpv.core.units.degrees_360")
    assert "<td>-a-</td>" in check_table([replace(run(case), case=word, difference=None)])


def test_nan_never_holds(tmp_path):
    (case,) = load(tmp_path, GOOD)
    assert not run(
        replace(case, function="lpv.core.units.degrees_180", arguments={"angle_deg": float("nan")})
    ).holds


def test_missing_or_failing_function_is_fault(tmp_path, monkeypatch):
    load(tmp_path, GOOD.replace("degrees_360", "no_such_name"))
    monkeypatch.setattr(checks, "load_cases", lambda: load_cases(tmp_path))
    checks.results.cache_clear()
    with pytest.raises(DataError, match="no_such_name"):
        checks.results()
    checks.results.cache_clear()


def test_sources_page_lists_exactly_cited_sources():
    listed = re.findall(r'id="source-([a-z0-9-]+)"', build_sources_page())
    named = {row.source for row in FACTS.values()} | {case.source for case in load_cases()}
    assert len(listed) == len(set(listed))
    assert set(listed) == named
    assert named < set(SOURCES)
