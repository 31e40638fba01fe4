"""The rules for the legs as coded: courses, lengths and arcs against positions; invented, in open water."""

import pytest

from demo import approaches as make_demo
from lpv.approach.record import read_text
from lpv.crosscheck.coded_legs import arcs, between, missed_course, straight_legs
from lpv.files.toml_writer import toml_text

PLACES = {
    "AAAAA": ("N33 00 00.00", "W148 00 00.00"), "BBBBB": ("N33 00 00.00", "W147 30 00.00"),
    "CCCCC": ("N33 10 00.00", "W147 30 00.00"), "DDDDD": ("N33 10 00.00", "W147 18 06.00"),
}
CENTRE = {"centre": "CCCCC", "centre_latitude": "N33 10 00.00", "centre_longitude": "W147 30 00.00"}


def leg(sequence, terminator, fix="", part="transition", transition="AAAAA", **more):
    """A row of the table of legs."""
    where = dict(zip(("latitude", "longitude"), PLACES[fix], strict=True)) if fix else {}
    row = {"part": part, "transition": transition, "sequence": sequence, "terminator": terminator, "fix": fix, **where}
    return {key: value for key, value in row.items() if value} | more


def approach_with(*legs):
    """The first demo approach with these coded legs."""
    text = (make_demo.FOLDER / "zzak-rnav-09.toml").read_text("utf-8")
    return read_text(text + toml_text({"database": {"leg": list(legs)}}).replace("[database]\n", ""))


def variation():
    return read_text((make_demo.FOLDER / "zzak-rnav-09.toml").read_text("utf-8")).chart.variation_deg


def east():
    """The course from AAAAA to BBBBB as the chart of the demo approach would print it."""
    return round((89.87 - variation()) % 360, 1)


@pytest.mark.parametrize(("course", "distance", "grade"), [
    (0.0, 25.2, "ok"), (0.0, 26.2, "stop"), (20.0, 25.2, "stop")])
def test_coded_transition_leg(course, distance, grade):
    findings = approach_with(leg("010", "IF", "AAAAA"),
                          leg("020", "TF", "BBBBB", course_deg=east() + course, distance_nm=distance))
    assert [each.leg.fix for each in between(findings)] == ["BBBBB"]
    [finding] = straight_legs(findings, None)
    assert (finding.name(), finding.grade) == ("coded-leg AAAAA 020", grade)


def test_computed_and_unanchored_legs_not_compared():
    computed = {"course_deg": 1.0, "course_computed": True, "distance_nm": 99.0, "distance_computed": True}
    findings = approach_with(leg("010", "IF", "AAAAA"), leg("020", "TF", "BBBBB", **computed),
                          leg("030", "CA", course_deg=90.0), leg("040", "TF", "CCCCC", course_deg=1.0),
                          leg("010", "TF", "DDDDD", transition="BBBBB", course_deg=1.0))
    assert list(straight_legs(findings, None)) == []


@pytest.mark.parametrize(("radius", "length", "turn", "grade"), [
    (9.98, 15.7, "left", "ok"), (9.98, None, "left", "ok"), (9.98, 15.7, "right", "stop"), (11.0, 15.7, "left", "stop"),
])
def test_arc(radius, length, turn, grade):
    """From BBBBB, south of the centre, to DDDDD, east of it: a quarter to the left."""
    more = {"radius_nm": radius, "turn": turn, **CENTRE} | ({} if length is None else {"distance_nm": length})
    [finding] = arcs(approach_with(leg("010", "IF", "BBBBB"), leg("020", "RF", "DDDDD", **more)), None)
    assert (finding.name(), finding.grade) == ("coded-arc AAAAA 020", grade)


def test_arc_to_a_fix_alone_compared():
    """An arc about a DME, and a straight leg, have other rules."""
    more = {"radius_nm": 9.98, "distance_nm": 15.7, **CENTRE}
    for terminator, turn in (("AF", "left"), ("TF", "right")):
        ends = leg("010", "IF", "BBBBB"), leg("020", terminator, "DDDDD", turn=turn, **more)
        assert list(arcs(approach_with(*ends), None)) == [], (terminator, turn)


def test_missed_approach_course():
    def graded(**more):
        legs = [leg("010", "CA", part="missed approach", transition="", **more)]
        return [finding.grade for finding in missed_course(approach_with(*legs), None)]

    straight = read_text((make_demo.FOLDER / "zzak-rnav-09.toml").read_text("utf-8")).chart.course_deg
    assert graded(course_deg=straight) == ["ok"]
    assert graded(course_deg=straight + 40.0) == ["note"]
    assert graded(course_deg=straight, turn="left") == graded() == []
