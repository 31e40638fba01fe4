import dataclasses
from dataclasses import replace
from pathlib import Path

import pytest

from lpv.approach import record as approach
from lpv.approach.record import Approach
from lpv.crosscheck import changes
from lpv.crosscheck.changes import GRADES, MEANING, compare, grade_at
from lpv.crosscheck.check import crosscheck
from lpv.fas.layout import LAYOUT
from lpv.files.schema import entries

DOCS = Path(__file__).resolve().parents[3] / "docs"
GOOD = approach.read(DOCS / "approaches" / "zzak-rnav-09.toml")
BEFORE = approach.read(DOCS / "approaches" / "previous" / "zzak-rnav-09.toml")
DRAFT = approach.read(DOCS / "approaches" / "drafts" / "zzak-rnav-09-draft.toml")
ALL = approach.read_all(DOCS / "approaches")


def with_chart(**values):
    return replace(GOOD, chart=replace(GOOD.chart, **values))


def with_identity(**values):
    return replace(GOOD, identity=replace(GOOD.identity, **values))


def with_fix(number, **values):
    fixes = list(GOOD.chart.fixes)
    fixes[number] = replace(fixes[number], **values)
    return with_chart(fixes=tuple(fixes))


def summary(changes):
    return [(change.place, change.about, change.old, change.new, change.grade) for change in changes]


@pytest.mark.parametrize("flown", ALL, ids=lambda item: item.slug)
def test_no_change_reports_nothing(flown):
    assert compare(flown, flown) == []


def test_one_changed_field_reported_with_unit():
    assert summary(compare(GOOD, with_chart(glidepath_deg=3.1))) == [("chart.glidepath_deg", "", "3°", "3.1°", "stop")]
    assert summary(compare(GOOD, with_chart(vnav_lowest_c=None))) == [
        ("chart.vnav_lowest_c", "", "\u221215\u202f°C", "none", "resolve")]
    assert summary(compare(GOOD, with_identity(channel=99907))) == [("identity.channel", "", "99901", "99907", "stop")]
    assert summary(compare(GOOD, with_identity(invented=False))) == [("identity.invented", "", "yes", "no", "note")]


def test_changes_in_cockpit_order():
    new = replace(
        with_chart(course_deg=93.0, glidepath_deg=3.1, tch_ft=55.0, tdze_ft=25.0),
        identity=replace(GOOD.identity, channel=99907, path_id="W09B", cycle="2613"),
    )
    assert [change.place for change in compare(GOOD, new)] == [
        "identity.channel", "identity.path_id", "chart.course_deg", "chart.glidepath_deg", "chart.tch_ft",
        "chart.tdze_ft", "identity.cycle",
    ]


def test_fixes_matched_by_name():
    fixes = GOOD.chart.fixes
    renamed = with_fix(2, name="GANNE")
    assert summary(compare(GOOD, renamed)) == [
        ("chart.fix", "GULLY", "there", "gone", "stop"), ("chart.fix", "GANNE", "not there", "new", "stop")]
    assert summary(compare(GOOD, with_fix(3, altitude_ft=860.0))) == [
        ("chart.fix.altitude_ft", "FOMEY", "800\u202fft", "860\u202fft", "stop")]
    assert summary(compare(GOOD, with_fix(1, leg_course_deg=183.0)))[0][-1] == "resolve"
    swapped = compare(GOOD, with_chart(fixes=(fixes[1], fixes[0], *fixes[2:])))
    assert [(change.place, change.grade) for change in swapped] == [("chart.fix", "stop")]
    assert swapped[0].new.startswith("SWELO, BRYNA")


def test_unprintably_small_move_reported():
    (change,) = compare(GOOD, with_fix(0, latitude_deg=GOOD.chart.fixes[0].latitude_deg + 1e-9))
    assert change.old != change.new
    (change,) = compare(GOOD, with_fix(0, latitude_deg=GOOD.chart.fixes[0].latitude_deg + 0.1))
    assert (change.old, change.about) == ("N34 09 48.94", "BRYNA")


def test_minima_matched_by_line_and_categories():
    lpv = GOOD.chart.minima[0]
    higher = with_chart(minima=(replace(lpv, altitude_ft=254.0, hat_ft=230.0), *GOOD.chart.minima[1:]))
    assert summary(compare(GOOD, higher)) == [
        ("chart.minima.altitude_ft", "LPV", "224\u202fft", "254\u202fft", "stop"),
        ("chart.minima.hat_ft", "LPV", "200\u202fft", "230\u202fft", "resolve"),
    ]
    gone = compare(GOOD, with_chart(minima=GOOD.chart.minima[1:]))
    assert summary(gone) == [("chart.minima", "LPV", "there", "gone", "stop")]
    split = (replace(lpv, categories="AB"), replace(lpv, categories="CD"), *GOOD.chart.minima[1:])
    assert [change.about for change in compare(with_chart(minima=split), with_chart(minima=split[1:]))] == [
        "LPV AB", "LPV CD", "LPV"]


def test_value_removed_to_be_refilled_needs_resolving():
    waiting = ("minima", "notes", "tdze_ft", "lights", "variation_year")
    old = with_chart(variation_year=2020)
    changes = compare(old, with_chart(minima=(), notes=(), tdze_ft=None, lights=None, to_be_filled=waiting))
    assert {change.grade for change in changes} == {"resolve", "note"}
    places = [change.place for change in changes if change.new == "to be filled from the chart"]
    assert list(dict.fromkeys(places)) == [
        "chart.minima", "chart.tdze_ft", "chart.lights", "chart.notes", "chart.variation_year"]
    assert {(change.what, change.new) for change in changes if change.place == "chart.minima"} == {
        ("line of minima", "to be filled from the chart")}
    assert {change.grade for change in changes if change.place == "chart.variation_year"} == {"note"}
    assert compare(old, with_chart(minima=(), to_be_filled=("notes",)))[0].grade == "stop"
    moved = compare(old, replace(with_chart(minima=(), to_be_filled=("minima",)),
                                 identity=replace(GOOD.identity, channel=99907)))
    assert [change.place for change in moved if change.grade == "stop"] == ["identity.channel"]


def test_notes_and_tables_added_and_removed():
    assert summary(compare(GOOD, with_chart(notes=()))) == [
        ("chart.notes", "", "Lights of runway 16 on request.", "", "resolve")]
    two = ("First.", "Second.")
    (change,) = compare(with_chart(notes=two), with_chart(notes=two[::-1]))
    assert change.what.startswith("order of")
    assert summary(compare(GOOD, with_chart(missed=None))) == [("chart.missed", "", "there", "none", "resolve")]
    assert summary(compare(with_chart(lights=None), GOOD)) == [("chart.lights", "", "none", "there", "resolve")]


def test_segment_compared_by_fields_in_any_form():
    held, segment = GOOD.held, GOOD.segment

    def with_segment(**values):
        changed = replace(held, **values)
        return replace(GOOD, database=replace(GOOD.database, block=changed))

    fields = with_segment(form="fields", segment=replace(segment, delta_fpap_latitude_deg=round(
        segment.delta_fpap_latitude_deg, 9)))
    assert summary(compare(GOOD, fields)) == [("database.form", "", "data block", "fields", "note")]
    assert summary(compare(GOOD, with_segment(segment=replace(segment, val_m=50.0)))) == [
        ("segment.val_m", "", "35\u202fm", "50\u202fm", "stop")]
    assert summary(compare(GOOD, with_segment(stored="00000000"))) == [
        ("database.remainder", "", held.stored, "00000000", "note")]


def test_unrelated_approaches_compare_without_error():
    changes = compare(ALL[0], ALL[-1])
    assert {"identity.channel", "identity.airport", "segment.ltp_latitude_deg"} <= {change.place for change in changes}
    assert all(change.old != change.new and change.what for change in changes)


def test_previous_demo_cycle_valid_and_changes_reported():
    assert {finding.grade for finding in crosscheck(BEFORE)} <= {"ok", "note", "not compared"}
    changes = compare(BEFORE, GOOD)
    assert [change.about or change.place for change in changes if change.grade == "stop"] == [
        "chart.tch_ft", "segment.tch", "LPV", "FOMEY", "KELPO", "FOMEY", "KELPO"]
    assert {change.place for change in changes if change.grade == "note"} == {
        "identity.cycle", "database.cycle", "database.effective", "database.expires"}


def test_swapping_old_and_new_reports_same_places():
    for old, other in ((GOOD, DRAFT), (BEFORE, GOOD), (ALL[1], ALL[2])):
        there, back = compare(old, other), compare(other, old)
        assert sorted((c.place, c.about, c.grade) for c in there if c.old not in ("there", "not there")) == sorted(
            (c.place, c.about, c.grade) for c in back if c.old not in ("there", "not there"))
        assert len(there) == len(back)


def places(record, place):
    """Every place that the schema of a record allows."""
    for key, (_, entry) in entries(record).items():
        yield f"{place}.{key}"
        if entry.record is not None and dataclasses.is_dataclass(entry.record):
            yield from places(entry.record, f"{place}.{key}")


MAKING = {"filled", "read_again", "records"}


def test_every_place_has_grade():
    known = {f"segment.{row.name}" for row in LAYOUT} | {"database.form", "database.remainder"}
    for key, (_, entry) in entries(Approach).items():
        known |= set(places(entry.record, key))
    assert {grade_at(place) for place in known} <= set(MEANING)
    assert set(GRADES) - known - {"segment", "chart", "identity", "database", "runway", *MAKING} == set()
    with pytest.raises(KeyError):
        changes.grade_at("weather.wind")
