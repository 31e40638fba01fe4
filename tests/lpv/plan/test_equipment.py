"""Approval, receivers, notes of the chart and RVR by EASA: what is known is compared, the rest is named."""

from dataclasses import replace

import pytest

from lpv.plan import chart, equipment
from lpv.plan import sheet as plan
from plan_cases import CASE, FILE, by_name, by_rules, case, with_equipment


def receivers(fitted, out, entry=None):
    flown = with_equipment(case(receivers_out=out, mel_entry=entry), receivers=fitted)
    return by_name(equipment.findings(flown))["receivers"]


@pytest.mark.parametrize(("fitted", "out", "entry", "grade"), [
    (2, 0, None, "ok"), (1, 0, None, "ok"), (2, 1, None, "resolve"), (2, 1, "34-01", "note"), (1, 1, "34-01", "stop"),
    (2, 3, None, "stop"), (None, 0, None, "not compared"), (2, None, None, "not compared"),
])
def test_remaining_receivers(fitted, out, entry, grade):
    assert receivers(fitted, out, entry).grade == grade


def test_equipment_list_entry_named():
    assert "34-01" in receivers(2, 1, "34-01").computed


@pytest.mark.parametrize(("rules", "lpv", "grade"), [
    ("FAA part 135", None, "not compared"), ("FAA part 91K", "approved", "ok"),
    ("FAA part 135", "not approved", "note"),
])
def test_lpv_approval(rules, lpv, grade):
    flown = by_rules(case(), rules, lpv=lpv)
    assert by_name(equipment.findings(flown))["lpv-approval LPV"].grade == grade
    assert ("line-barred LPV (SBAS)" in by_name(plan.plan(flown))) == (lpv == "not approved")


def test_owner_needs_no_written_approval():
    assert "lpv-approval LPV" not in by_name(equipment.findings(by_rules(case(), "FAA part 91")))


# Notes.

def noted(note, **flight):
    return by_name(chart.findings(case(chart={"notes": (note,)}, **flight)))["chart-note note 1"]


@pytest.mark.parametrize(("night", "grade"), [(None, "not compared"), ("yes", "resolve"), ("no", "ok")])
def test_night_note(night, grade):
    assert noted("Circling NA at night.", night=night).grade == grade


@pytest.mark.parametrize(("speed_kt", "grade"), [(None, "ok"), (150.0, "resolve")])
def test_category_note(speed_kt, grade):
    # The light demo jet is of category B; at 150 kt it is of category D.
    assert noted("Procedure not authorized for category D.", speed_kt=speed_kt).grade == grade


def test_altimeter_note():
    note = "When local altimeter setting not received, baro-VNAV NA."
    assert noted(note, remote_addition_ft=None, baro_vnav_barred=False).grade == "not compared"
    assert noted(note, remote_addition_ft=60.0).grade == "resolve"


@pytest.mark.parametrize("note", ["Lights of runway 16 on request.", "Radar required.", "LPV and nothing else."])
def test_other_notes_not_compared(note):
    finding = noted(note)
    assert (finding.grade, finding.reason) == ("not compared", "not read")


def test_note_removing_line_must_be_settled():
    assert noted("LPV NA.").grade == "resolve"


# RVR.

AIRLINE = plan.read(FILE.with_name("zzeg-rnp-24-airline.toml"))


def rvr(flown):
    return by_name(chart.findings(flown))


def without_notices(flown):
    return replace(flown, scenario=replace(flown.scenario, notices=()))


def with_rvr(flown, line, rvr_m):
    rows = tuple(replace(row, rvr_m=rvr_m) if row.line == line else row for row in flown.approach.chart.minima)
    return replace(flown, approach=replace(flown.approach, chart=replace(flown.approach.chart, minima=rows)))


def test_printed_rvr_beside_table():
    # LPV 248 ft above the touchdown zone with full lights: 550 m; LNAV/VNAV 348 ft: 900 m.
    findings = rvr(without_notices(AIRLINE))
    assert (findings["rvr LPV"].grade, findings["rvr LNAV/VNAV"].grade) == ("ok", "ok")
    assert "at least 550 m with full approach lights" in findings["rvr LPV"].computed
    assert "at least 900 m" in findings["rvr LNAV/VNAV"].computed
    low = rvr(with_rvr(without_notices(AIRLINE), "LNAV/VNAV", 899.0))
    assert low["rvr LNAV/VNAV"].grade == "resolve"


def test_lights_and_display_required_below_750_m():
    base = without_notices(AIRLINE)
    assert rvr(base)["rvr-equipment LPV"].grade == "not compared"
    assert "rvr-equipment LPV" not in rvr(with_rvr(base, "LPV", 750.0))
    assert "rvr-equipment LNAV" not in rvr(base)


def test_lights_out_by_notice_raise_rvr():
    # 248 ft without lights: 1300 m.
    finding = rvr(AIRLINE)["rvr LPV"]
    assert finding.grade == "resolve"
    assert "at least 1300 m with no approach lights" in finding.computed


def test_height_missing_from_table_not_compared():
    assert rvr(AIRLINE)["rvr LNAV"].grade == "not compared"


def test_no_table_without_rules():
    assert {f.grade for f in chart.findings(replace(AIRLINE, operator=None))} == {"not compared"}
    assert not [f for f in chart.findings(CASE) if f.key.startswith("rvr")]
