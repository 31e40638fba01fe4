from dataclasses import replace
from pathlib import Path

import pytest

from lpv.air.altimetry import minimum_addition_ft, segment_addition_ft
from lpv.approach import record as approach
from lpv.core.errors import DomainError
from lpv.decide import cold as decided
from lpv.decide.lines import highest_row

DOCS = Path(__file__).resolve().parents[3] / "docs"
COLD = approach.read(DOCS / "approaches" / "zzhc-rnav-33.toml")
ELEVATION_FT = COLD.chart.airport_elevation_ft


def by_name(rows):
    return {row.name: row for row in rows}


def changed(**chart):
    return replace(COLD, chart=replace(COLD.chart, **chart))


def fix(role):
    return next(fix for fix in COLD.chart.fixes if fix.role == role)


def test_all_segments_use_pfaf_height_up_to_pfaf():
    rows = by_name(decided.all_segments(COLD, -30))
    at_pfaf_ft = segment_addition_ft(fix("PFAF").altitude_ft - ELEVATION_FT, -30)
    assert {rows[fix(role).name].addition_ft for role in ("IAF", "IF", "PFAF")} == {at_pfaf_ft}
    assert [row.segment for row in rows.values()][:4] == ["initial", "initial", "intermediate", "final"]


def test_individual_segments_use_own_heights():
    rows = by_name(decided.individual_segments(COLD, -30))
    at_if_ft = segment_addition_ft(fix("IF").altitude_ft - ELEVATION_FT, -30)
    assert rows[fix("IAF").name].addition_ft == rows[fix("IF").name].addition_ft == at_if_ft
    assert rows[fix("PFAF").name].addition_ft == segment_addition_ft(fix("PFAF").altitude_ft - ELEVATION_FT, -30)
    assert at_if_ft > rows[fix("PFAF").name].addition_ft


def test_minima_step_downs_and_missed_alike_by_both_methods():
    every, single = by_name(decided.all_segments(COLD, -30)), by_name(decided.individual_segments(COLD, -30))
    for name, row in every.items():
        if row.segment in ("final", "missed"):
            assert vars(single[name]) == vars(row)
    lines = {f"{line.line} {line.kind}": line for line in COLD.chart.minima}
    for name, line in lines.items():
        assert every[name].addition_ft == minimum_addition_ft(line.altitude_ft - ELEVATION_FT, -30)
    step_down = every[fix("step-down").name]
    assert step_down.addition_ft == every["LNAV MDA"].addition_ft  # the highest straight-in line
    missed_ft = COLD.chart.missed.altitude_ft
    assert every["missed approach"].addition_ft == segment_addition_ft(missed_ft - ELEVATION_FT, -30)
    assert every["missed approach"].corrected_ft == missed_ft + every["missed approach"].addition_ft


def test_unmarked_segments_stay_as_charted():
    rows = decided.individual_segments(COLD, -30, ("final",))
    assert {row.addition_ft is None for row in rows if row.segment == "final"} == {False}
    assert {row.addition_ft for row in rows if row.segment != "final"} == {None}
    assert all(row.corrected_ft == row.charted_ft for row in rows if row.addition_ft is None)


def test_missed_approach_fixes_not_corrected():
    names = [row.name for row in decided.all_segments(COLD, -30)]
    assert fix("missed hold").name not in names


def test_altitude_on_path_not_corrected():
    fixes = tuple(replace(f, altitude_rule="on path") if f.role == "step-down" else f for f in COLD.chart.fixes)
    names = [row.name for row in decided.all_segments(changed(fixes=fixes), -30)]
    assert fix("step-down").name not in names
    assert fix("PFAF").name in names


def test_warm_air_adds_nothing():
    assert {row.addition_ft for row in decided.all_segments(COLD, 15)} == {0.0}


def test_nothing_subtracted_in_heat():
    assert all(row.addition_ft == 0.0 for row in decided.individual_segments(COLD, 45))


def without(which, **values):
    return changed(fixes=tuple(replace(f, **values) if f.role == which else f for f in COLD.chart.fixes))


@pytest.mark.parametrize(
    "work",
    [
        lambda: decided.individual_segments(COLD, -30, ("approach",)),
        lambda: decided.individual_segments(without("IF", role="IAF"), -30),
        lambda: decided.individual_segments(without("IF", altitude_ft=None, altitude_rule=None), -30),
        lambda: decided.all_segments(without("PFAF", altitude_ft=None, altitude_rule=None), -30),
        lambda: decided.all_segments(COLD, -51),
        lambda: decided.all_segments(COLD, float("nan")),
        lambda: decided.altitude_addition_ft(COLD, COLD.chart.minima[0].altitude_ft, -51),
    ],
)
def test_uncomputable_addition_says_why(work):
    with pytest.raises(DomainError):
        work()


def test_if_needed_only_when_initial_segment_marked():
    rows = decided.individual_segments(without("IF", role="IAF"), -30, ("intermediate", "final"))
    assert by_name(rows)[fix("PFAF").name].addition_ft > 0


def test_minimum_below_airport_counts_as_zero_height():
    assert decided.altitude_addition_ft(COLD, ELEVATION_FT - 20, -30) == 0.0


def test_each_addition_uses_height_named_by_rule():
    line, missed_ft = COLD.chart.minima[0], COLD.chart.missed.altitude_ft
    at_if_ft = segment_addition_ft(fix("IF").altitude_ft - ELEVATION_FT, -30)
    assert decided.fix_addition_ft(COLD, fix("IF"), -30) == at_if_ft
    assert decided.pfaf_addition_ft(COLD, -30) == decided.fix_addition_ft(COLD, fix("PFAF"), -30)
    at_minimum_ft = minimum_addition_ft(line.altitude_ft - ELEVATION_FT, -30)
    assert decided.altitude_addition_ft(COLD, line.altitude_ft, -30) == at_minimum_ft
    at_missed_ft = segment_addition_ft(missed_ft - ELEVATION_FT, -30)
    assert decided.missed_addition_ft(COLD, missed_ft, -30) == at_missed_ft
    highest = highest_row(COLD)
    assert highest.line == "LNAV"
    assert decided.step_down_addition_ft(COLD, -30) == decided.altitude_addition_ft(COLD, highest.altitude_ft, -30)


def test_missing_chart_value_is_error_only_when_needed():
    bare = changed(minima=())
    assert highest_row(bare) is None
    with pytest.raises(DomainError, match="lines of minima"):
        decided.step_down_addition_ft(bare, -30)
    without = replace(fix("PFAF"), altitude_ft=None)
    with pytest.raises(DomainError, match="GLAZO"):
        decided.fix_addition_ft(COLD, without, -30)
