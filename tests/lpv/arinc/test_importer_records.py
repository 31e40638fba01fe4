"""Columns and codes of ARINC 424 records: all accounted for, against an independent library, and lookups among them."""

import io

import pytest

import coded_current as current
import coded_records as coded
from lpv.arinc.columns import (
    altitude_ft,
    angle_coded_deg,
    angle_deg,
    course_deg,
    distance_nm,
    level_ft,
    rnp_nm,
    time_min,
    variation_deg,
)
from lpv.arinc.fixes import missed_table
from lpv.arinc.flown import Reckoning, arc_nm, flown
from lpv.arinc.layouts import AIRPORT, RUNWAY, SAFE_ALTITUDE, WAYPOINT
from lpv.arinc.leg_layouts import LEG, LEVELS
from lpv.arinc.leg_rows import not_placed, not_understood
from lpv.arinc.leg_words import altitude_words, rnp_words, speed_words, words
from lpv.arinc.legs import legs_of, place, stated
from lpv.arinc.levels import levels_of, path_point_of, safe_altitudes, split
from lpv.arinc.lines import Record
from lpv.arinc.positions import Place, Reference
from lpv.arinc.reader import Source
from lpv.arinc.records import Lookup
from lpv.core.errors import DataError

LEVELS_RECORD = next(line for line in coded.FINAL if line[38] == "2")
NAVAIDS = [
    coded.navaid("OAK", "N37433455", "W122132493", cycle="2003"),
    coded.navaid("IHWD", " " * 9, " " * 10, airport="KHWD", dme="N37401234W122091234"),
    coded.navaid("HAU", "N46333333", "W111111111", section="DB", region="K1"),
]


def test_column_values():
    assert angle_deg("N37300471") == pytest.approx(37.50130833, abs=5e-9)
    assert angle_deg("W121464565") == pytest.approx(-121.77934722, abs=5e-9)
    assert (angle_deg("S90000000"), angle_deg("E180000000"), angle_deg("W000000000")) == (-90.0, 180.0, 0.0)
    assert (variation_deg("E0150"), variation_deg("W0005"), variation_deg("W0000"), variation_deg("T")) == (
        15.0, -0.5, 0.0, 0.0)
    assert str(variation_deg("W0000")) == "0.0"
    assert (variation_deg("E1205"), variation_deg("W1795")) == (120.5, -179.5)
    assert (course_deg("2849"), course_deg("3600"), course_deg("284T"), course_deg("")) == (
        (284.9, False), (360.0, False), (284.0, True), None)
    assert (distance_nm("0028"), distance_nm("T010"), distance_nm("")) == (2.8, None, None)
    assert (time_min("T010"), time_min("0028"), time_min("")) == (1.0, None, None)
    assert [altitude_ft(text) for text in ("02126", "-0012", "FL180", "", "UNKNN")] == [2126, -12, None, None, None]
    assert [level_ft(text) for text in ("FL180", "02126", "", "UNKNN")] == [18000, None, None, None]
    assert [rnp_nm(text) for text in ("010", "031", "021", "302", "")] == [1.0, 0.3, 0.2, 0.3, None]
    assert [angle_coded_deg(text) for text in ("-310", " 000", "0000", "", "+150")] == [-3.1, None, None, None, 1.5]


@pytest.mark.parametrize(("columns", "line", "column", "text", "place"), [
    (LEG, coded.FINAL[0], 71, "3700", "columns 71-74 (course)"), (LEG, coded.FINAL[0], 85, "5 700", "altitude"),
    (LEG, coded.FINAL[0], 48, "T ", "columns 48-49 (path and termination)"),
    (LEG, coded.FINAL[0], 27, "1A0", "sequence"),
    (LEG, coded.FINAL[0], 75, "T1", "distance"), (LEG, coded.FINAL[0], 103, "x310", "vertical angle"),
    (LEVELS, LEVELS_RECORD, 41, "X", "segment provided"), (RUNWAY, coded.runway(), 23, "5694 ", "length"),
    (AIRPORT, coded.airport(), 52, "N0150", "variation"), (WAYPOINT, coded.WAYPOINTS[0], 33, "N91", "latitude"),
    (AIRPORT, coded.airport(), 94, " " * 30, "airport name"),
    (SAFE_ALTITUDE, coded.SAFE_ALTITUDE, 43, "37", "sector 1"),
    (LEG, coded.FINAL[0], 30, "J\u00d6BUS", "fix"), (LEG, coded.FINAL[0], 129, "2099", "cycle"),
])
def test_fault_names_its_columns(columns, line, column, text, place):
    _, [fault] = columns.texts(coded.at(line, column, text), "cycle.txt", "line 7")
    assert fault.key.startswith("line 7, column")
    assert place in fault.key


def test_wrong_length_is_one_fault():
    _, [fault] = LEG.texts(coded.FINAL[0][:-1], "cycle.txt", "line 7")
    assert (fault.key, fault.found) == ("line 7", "131 columns")


def records(lines):
    return [Record(number, line) for number, line in enumerate(lines, 1)]


def flown_of(lines):
    """Legs as flown, with no position known."""
    legs = legs_of(records(line for line in lines if line[38] != "2"), "cycle.txt")
    return flown(legs, lambda reference: f"position of {reference.ident} is not in the file", Reckoning(False, 15.0))


def test_legs_in_words():
    legs = flown_of([*coded.FINAL, *coded.MISSED])
    assert place(legs[4].leg) == "R28L 021"
    assert words(legs[4]) == "track to FENRA, course 285.0, 3.3 NM, at or above 2120 ft, 2126 ft on the path"
    assert stated(legs[7].leg).altitude_ft == 85
    assert (rnp_words(legs[4].leg), rnp_words(legs[1].leg), rnp_words(legs[8].leg)) == ("RNP 0.3", "RNP 1", "")
    assert [text for leg in legs for text in not_understood(leg)] == []
    assert not_placed(legs)[-1] == "position of OAK is not in the file: 050, 060 (K2 D)"
    assert altitude_words(stated(legs[1].leg)) == "at or above 4800 ft"
    assert missed_table(legs[8:])["altitude_ft"] == 2100
    assert missed_table([]) == missed_table(legs[8:] * 3) == {}
    hold = coded.leg("060", "OAK", "D ", "VE  ", "HM", course="122T", distance="T015", speed="200", speed_is="-")
    [leg] = flown_of([hold])
    assert words(leg) == "hold at OAK, inbound course 122.0 true, turns not coded, 1.5 min, speed at or below 200 kt"
    assert speed_words(leg.leg) == "speed at or below 200 kt"
    for terminator, expected in (("CD", "course to a DME distance, course 030.0, 12.0 NM from OAK"),
                             ("CR", "course to a radial, course 030.0, 12.0 NM, radial 235.0 of OAK"),
                             ("AF", "DME arc to, course 030.0, 12.0 NM, radial 235.0 of OAK, 14.0 NM")):
        [leg] = flown_of([coded.leg("050", "", "  ", "    ", terminator, course="0300", distance="0120", navaid="OAK",
                                    theta="2350", rho="0140")])
        assert words(leg) == expected
    [leg] = flown_of([coded.leg("050", "", "  ", "  M ", "VM", course="3000", altitude_is="B", altitude="FL200",
                                altitude_2="FL180")])
    assert words(leg) == "heading to manual termination, heading 300.0, at or above FL180 and at or below FL200"


def test_missing_courses_and_lengths_computed():
    where = {"AAAAA": Place(0.0, 10.0), "BBBBB": Place(0.0, 10.5), "CCCCC": Place(0.5, 11.0), "DDDDD": Place(0.5, 10.5)}
    lines = [coded.leg("010", "AAAAA", "PC", "E  I", "IF"), coded.leg("020", "BBBBB", "PC", "E  F", "TF"),
             coded.leg("030", "CCCCC", "PC", "E   ", "RF", turn="L", radius="030000", centre="DDDDD",
                       centre_region="K2", centre_section="PC"),
             coded.leg("040", "", "  ", "    ", "CA", course="0100"), coded.leg("050", "BBBBB", "PC", "E   ", "TF")]
    legs = flown(legs_of(records(lines), "cycle.txt"), lambda reference: where[reference.ident], Reckoning(False, 10.0))
    first, straight, arc, climb, last = legs
    assert (first.course, first.length, first.start) == (None, None, "")
    assert (straight.start, straight.course.value, straight.course.is_computed) == ("AAAAA", 80.0, True)
    assert (straight.length.value, straight.length.is_computed) == (30.1, True)  # half a degree of the equator
    assert arc.course.value == pytest.approx(350.0, abs=0.2)  # left round to north, 10 degrees of variation off
    assert arc.length.value == pytest.approx(30.0 * 3.14159 / 2, abs=0.3)
    assert (climb.course.value, climb.course.is_computed, climb.start) == (10.0, False, "CCCCC")
    assert (last.course, last.length, last.start) == (None, None, "")
    right = arc_nm(where["BBBBB"], where["CCCCC"], where["DDDDD"], right=True)
    assert right == pytest.approx(3.0 * arc_nm(where["BBBBB"], where["CCCCC"], where["DDDDD"], right=False), rel=0.01)


def test_true_courses_and_north():
    assert Reckoning(True, 15.0).course_deg(284.9) == 284.9
    assert Reckoning(False, 15.0).course_deg(14.97) == Reckoning(False, 15.0).course_deg(15.0) == 360.0


def test_levels_of_service():
    primaries, continuations = split(records(coded.FINAL), "cycle.txt")
    assert (len(primaries), len(continuations)) == (8, 1)
    levels = levels_of(continuations, "cycle.txt")
    assert (levels.lines, levels.rnp_nm, levels.not_read) == (["LPV", "LNAV/VNAV", "LNAV"], [], [])
    other = [coded.at(LEVELS_RECORD, 52, "N"), coded.at(LEVELS_RECORD, 40, "P"), coded.at(LEVELS_RECORD, 42, "RNP "),
             coded.at(LEVELS_RECORD, 74, "Q")]
    levels = levels_of(records(other), "cycle.txt")
    assert levels.lines == ["LPV", "LNAV/VNAV", "LNAV"]
    assert [text.partition(":")[0] for text in levels.not_read] == [
        "line 1", "line 2", "line 4", "line of minima 'RNP', unknown"]
    assert "LNAV/VNAV is named 'LNAV/VNAV' and not authorized" in levels.not_read[0]
    assert "continuation of kind P, not supported" in levels.not_read[1]
    assert "columns 74-88 (reserved) holds 'Q'" in levels.not_read[2]
    assert levels.refused == []
    assert levels_of(records([coded.at(LEVELS_RECORD, 52, "N" + " " * 10)]), "cycle.txt").refused == ["LNAV/VNAV"]
    with pytest.raises(DataError, match="segment provided"):
        levels_of(records([coded.at(LEVELS_RECORD, 41, "X")]), "cycle.txt")
    rnp = levels_of(records([line for line in current.KBUR_H08_Y if line[38] == "2"]), "cycle.txt")
    assert (rnp.lines, rnp.rnp_nm, rnp.not_read) == ([], [0.3, 0.2], [])


def test_path_point():
    point, lines = path_point_of(records(coded.POINTS), "cycle.txt")
    assert (point.sbas_channel, lines) == (40330, coded.POINTS)
    assert path_point_of([], "cycle.txt") is None
    with pytest.raises(DataError, match="line 22, column"):
        path_point_of([Record(21, coded.POINTS[0]), Record(22, coded.at(coded.POINTS[1], 57, "4033 "))], "cycle.txt")
    with pytest.raises(DataError, match="2 path points for one approach: W28A, W28A"):
        path_point_of(records([coded.POINTS[0], coded.at(coded.POINTS[0], 20, "RW28R")]), "cycle.txt")


ABOUT, NOTHING = Reference("RW28L", "K2", "PG"), Reference("", "", "")


def test_safe_altitudes():
    two = coded.at(coded.SAFE_ALTITUDE, 43, "09027004025" + "27009005025")
    rows, remark = safe_altitudes(records([two]), ABOUT, "", "cycle.txt")
    assert [(row["from_deg"], row["to_deg"], row["altitude_ft"]) for row in rows] == [(90, 270, 4000), (270, 90, 5000)]
    assert remark == ""
    assert safe_altitudes(records([two]), ABOUT._replace(ident="RW10R"), "", "cycle.txt") == (
        [], "no records about RW10R, which the approach names")
    rows, remark = safe_altitudes(records([two]), NOTHING, "", "cycle.txt")
    assert (len(rows), remark) == (2, "about RW28L K2 PG: the airport's only ones; the approach names no center")
    rows, remark = safe_altitudes(records([two, two]), NOTHING, "", "cycle.txt")
    assert (rows, remark) == ([], "not taken: the approach names no center, and the airport has 2 of them")
    rows, remark = safe_altitudes(records([coded.at(two, 120, "T")]), ABOUT, "", "cycle.txt")
    assert (len(rows), remark) == (2, "bearings are true")
    several = [coded.at(two, 23, "A"), coded.at(coded.at(two, 23, "B"), 43, "18018005325           ")]
    assert len(safe_altitudes(records(several), ABOUT, "B", "cycle.txt")[0]) == 1
    assert safe_altitudes([], NOTHING, "", "cycle.txt") == ([], "")
    odd = coded.at(coded.at(two, 24, "X"), 120, " ")
    assert safe_altitudes(records([odd, coded.at(two, 39, "2")]), ABOUT._replace(region="K3"), "C", "cycle.txt")[1] == (
        "1 continuation records, not read; whether bearings are magnetic or true is not stated; "
        "columns 24-38 (reserved) holds 'X', not supported; coded about RW28L K3 PG, taken from the record about "
        "RW28L K2 PG; multiple code C coded, blank taken")
    with pytest.raises(DataError, match="sector 1"):
        safe_altitudes(records([coded.at(two, 43, "999")]), ABOUT, "", "cycle.txt")


def test_lookups_are_cached():
    source = Source(io.BytesIO(coded.as_file([*coded.KHWD, *NAVAIDS])), "cycle.txt")
    [airport] = source.airports()
    lookup = Lookup(airport, source)
    assert lookup.single("PC", "NOFIX", WAYPOINT) == {}
    assert lookup.needed("PG", "RW28L", RUNWAY, "length")["length"] == "05694"
    assert len(lookup.used) == 1
    assert len({lookup.hash(0), lookup.hash(1)}) == 2
    assert lookup.later_than("2003") == []
    assert [fault.found for fault in lookup.later_than("1706")] == ["a record changed in cycle 1707"]
    assert lookup.later_than("9713") == []  # a record of 2017 is not near 1997 or 2097
    assert str(lookup.refused("this", "that")).startswith("cycle.txt: found this; allowed: that")
    assert lookup.place(Reference("RW28L", "K2", "PG"))[:2] == pytest.approx((37.6551833, -122.1147583), abs=1e-7)
    assert lookup.place(Reference("OAK", "K2", "D"))[:2] == pytest.approx((37.7262639, -122.2235917), abs=1e-7)
    assert lookup.placed == {"D K2OAK": "37.7262639 -122.2235917"}
    assert lookup.place(Reference("OAK", "K1", "D")) == "position of OAK is not in the file"
