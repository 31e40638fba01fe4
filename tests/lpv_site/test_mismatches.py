"""The seeded mismatches: each is found with its grade, and what is harmless stays quiet."""

import tomllib
from dataclasses import replace

import pytest

from lpv.core.errors import DataError
from lpv.core.findings import Finding
from lpv.fas import segment
from lpv_site.checks import mismatches
from lpv_site.checks.mismatches import (
    MISSED,
    Case,
    Outcome,
    altered,
    base_text,
    cases,
    counted,
    moved,
    outcomes,
)

CASES = cases()
SEEDED = [case for case in CASES if case.grade]
HARMLESS = [case for case in CASES if not case.grade]


@pytest.fixture(scope="module")
def by_case():
    """What the cross-check makes of each case, by its id."""
    return {outcome.case.id: outcome for outcome in outcomes()}


def test_suite_large_enough():
    assert len(SEEDED) >= 390
    assert len(HARMLESS) >= 65
    assert len({case.kind for case in SEEDED}) >= 11
    published = [case for case in SEEDED if case.base.startswith("k")]
    assert len(published) >= 35
    assert len({case.base for case in CASES}) == 8


def test_mismatch_found_as_row_states(by_case):
    results = {case.id: (by_case[case.id].grade, case.grade == MISSED or case.by in by_case[case.id].found_by)
            for case in SEEDED}
    assert results == {case.id: (case.grade, True) for case in SEEDED}


def test_serious_mismatch_never_missed(by_case):
    """More than 50 ft, 50 m or 1 degree, or another place, procedure or limit: stop, resolve or named as unknown."""
    serious = [case for case in SEEDED if case.is_serious]
    assert len(serious) > 300
    assert [case.id for case in serious if by_case[case.id].grade not in ("stop", "resolve", "not compared")] == []


def test_harmless_change_stays_quiet(by_case):
    noisy = {case.id: [row.name() for row in by_case[case.id].findings if row.grade in ("stop", "resolve")]
             for case in HARMLESS}
    assert noisy == {case.id: [] for case in HARMLESS}


def test_bases_have_no_stop():
    for base in sorted({case.base for case in CASES}):
        findings = mismatches.crosschecked(base)
        assert [finding.name() for finding in findings if finding.grade == "stop"] == []
        unread = {"from-chart", "coded-only", "coded-legs"}
        assert {finding.key for finding in findings if finding.grade == "resolve"} <= unread, base


def case_of(**alter):
    return Case(id="x", kind="k", what="w", base="zzak-rnav-09", alter=alter, effect=51.0, unit="ft", grade="stop")


def test_places_found_by_name_line_and_number():
    tables = altered(base_text("zzak-rnav-09"), {
        "set": {"chart.fix.GULLY.altitude_ft": 1, "chart.minima.circling D.altitude_ft": 2, "chart.msa.1.radius_nm": 3},
        "remove": ["chart.fix.FOMEY", "chart.missed"], "order": {"database.fix": ["RW09", "BRYNA"]},
    })
    assert [row["name"] for row in tables["chart"]["fix"]] == ["BRYNA", "SWELO", "GULLY", "RW09", "KELPO"]
    assert tables["chart"]["fix"][2]["altitude_ft"] == 1
    assert [row["altitude_ft"] for row in tables["chart"]["minima"]] == [224, 374, 480, 540, 2]
    assert tables["chart"]["msa"][0]["radius_nm"] == 3
    assert "missed" not in tables["chart"]
    assert [row["name"] for row in tables["database"]["fix"]] == ["RW09", "BRYNA"]
    with pytest.raises(ValueError, match="NOBODY"):
        altered(base_text("zzak-rnav-09"), {"remove": ["chart.fix.NOBODY"]})


@pytest.mark.parametrize("base", ["zzak-rnav-09", "zzak-rnav-27", "zzhc-rnav-33"])
def test_changed_segment_keeps_form_and_valid_remainder(base):
    """A block, fields by name, a path point record."""
    case = replace(case_of(segment={"hal_m": 10.0}), base=base)
    made, before = mismatches.approach(case), tomllib.loads(base_text(base))["database"]
    assert made.segment.hal_m == 10.0
    assert made.held.stored in ("", made.held.computed)
    assert {"block", "segment", "path_point"} & before.keys() == {
        {"data block": "block", "fields": "segment", "path point record": "path_point"}[made.held.form]}


def test_segment_moved_by_stated_amount():
    held = mismatches.approach(case_of()).segment
    back = moved(moved(held, along_m=100.0), along_m=-100.0)
    assert back.ltp_latitude_deg == pytest.approx(held.ltp_latitude_deg, abs=1e-6)
    shorter = moved(held, fpap_m=-304.8)
    assert segment.ltp_to_fpap_ft(shorter) == pytest.approx(segment.ltp_to_fpap_ft(held) - 1000.0, abs=0.2)
    assert segment.true_course_deg(moved(held, turned_deg=2.0)) == pytest.approx(
        segment.true_course_deg(held) + 2.0, abs=1e-3)
    assert moved(held) is held


def test_outcome_without_findings_is_missed():
    note, stop = Finding("a", "note", "w", chart="c"), Finding("b", "stop", "w", chart="c", about="X")
    assert Outcome(case_of(), ()).grade == MISSED
    assert (Outcome(case_of(), (stop, note)).grade, Outcome(case_of(), (stop, note)).found_by) == ("stop", ["b X"])
    assert counted([Outcome(case_of(), ()), Outcome(case_of(), (note,))]) == {
        "stop": 0, "resolve": 0, "not compared": 0, "note": 1, "missed": 1}


def test_effect_decides_seriousness():
    assert case_of().is_serious
    assert not replace(case_of(), effect=50.0).is_serious
    assert replace(case_of(), effect=-1.1, unit="deg").is_serious
    assert replace(case_of(), effect=None, unit="", words="another runway").is_serious


@pytest.mark.parametrize(("text", "named"), [
    ('[[mismatch]]\nid = "a"\nwhat = "w"\nbase = "b"\nalter = {}\ngrade = "stop"\n', "an effect with its unit"),
    ('[[mismatch]]\nid = "a"\nwhat = "w"\nbase = "b"\nalter = {}\neffect = 1\nunit = "ft"\n', "no grade"),
    ('[[harmless]]\nid = "a"\nwhat = "w"\nbase = "b"\nalter = {}\nsize = 2\n', "unknown size"),
    ('[[harmless]]\nid = "a"\nwhat = "w"\nbase = "b"\nalter = {}\n' * 2, "the same id twice"),
])
def test_faulty_row_named(text, named, tmp_path):
    (tmp_path / "x.toml").write_text(text)
    with pytest.raises(DataError, match=named):
        cases(tmp_path)


def test_unknown_base_named():
    with pytest.raises(DataError, match="no such approach"):
        base_text("nobody")
