"""Columns and codes of ARINC 424 records, against an independent library, and lookups among them."""

import io

import pytest
from arinc424 import Record as TheirRecord

import coded_records as coded
from lpv.arinc.columns import (
    AIRPORT,
    LEG,
    LEVELS,
    MSA,
    RUNWAY,
    WAYPOINT,
    altitude_ft,
    angle_deg,
    columns_of,
    course_deg,
    distance_nm,
    time_min,
    variation_deg,
)
from lpv.arinc.fixes import missed_table, not_read
from lpv.arinc.legs import legs_of, place, stated, words
from lpv.arinc.levels import lines_authorised, path_point_of, safe_altitudes, split
from lpv.arinc.reader import Record, Source, position_key
from lpv.arinc.records import Lookup
from lpv.core.errors import DataError

THEIRS = {  # our names of columns -> the library's, by kind of record
    "leg": {
        "approach": "SID/STAR/Approach Identifier", "route": "Route Type", "transition": "Transition Identifier",
        "sequence": "Sequence Number", "fix": "Fix Identifier", "fix_region": "ICAO Code (2)",
        "fix_section": "Section Code (2)", "continuation": "Continuation Record No",
        "description": "Waypoint Description Code", "turn": "Turn Direction", "terminator": "Path and Termination",
        "radius": "Arc Radius", "course": "Magnetic Course", "distance": "Route / Holding Distance or Time",
        "altitude_is": "Altitude Description", "altitude": "Altitude", "altitude_2": "Altitude (2)",
        "speed": "Speed Limit", "angle": "Vertical Angle", "centre": "Center Fix or TAA Procedure Turn Indicator",
        "multiple": "Multiple Code or TAA Sector Identifier", "cycle": "Cycle Date",
    },
    "levels": {
        "application": "Application Type", "fas": "FAS Block Provided",
        "fas_name": "FAS Block Provided Level of Service Name", "vnav": "LNAV/VNAV Authorized for SBAS",
        "vnav_name": "LNAV/VNAV Level of Service Name", "lnav": "LNAV Authorized for SBAS",
        "lnav_name": "LNAV Level of Service Name", "cycle": "Cycle Date",
    },
    "airport": {
        "continuation": "Continuation Record No", "latitude": "Airport Reference Pt. Latitude",
        "longitude": "Airport Reference Pt. Longitude", "variation": "Magnetic Variation",
        "elevation": "Airport Elevation", "reference": "Magnetic/True Indicator", "name": "Airport Name",
        "cycle": "Cycle Date",
    },
    "runway": {
        "continuation": "Continuation Record No", "ident": "Runway Identifier", "length": "Runway Length",
        "latitude": "Runway Latitude", "longitude": "Runway Longitude", "elevation": "Landing Threshold Elevation",
        "displaced": "Displaced Threshold Dist", "tch": "Threshold Crossing Height", "tch_of": "TCH Value Indicator",
        "cycle": "Cycle Date",
    },
    "waypoint": {
        "continuation": "Continuation Record No", "ident": "Waypoint Identifier", "latitude": "Waypoint Latitude",
        "longitude": "Waypoint Longitude", "cycle": "Cycle Date",
    },
    "msa": {
        "centre": "MSA Center", "multiple": "Multiple Code", "continuation": "Continuation Record No",
        "reference": "Magnetic/True Bearing", "cycle": "Cycle Date",
    },
}
HEAD = ("approach", "route", "transition", "sequence", "fix", "fix_region", "fix_section", "continuation")
THEIRS["levels"] |= {name: THEIRS["leg"][name] for name in HEAD}
LEVELS_RECORD = next(line for line in coded.FINAL if line[38] == "2")
RECORDS = [
    *((LEG, "leg", line) for line in (*coded.TRANSITIONS, *coded.FINAL, *coded.MISSED) if line[38] != "2"),
    (LEVELS, "levels", LEVELS_RECORD), (AIRPORT, "airport", coded.airport()), (RUNWAY, "runway", coded.runway()),
    *((WAYPOINT, "waypoint", line) for line in coded.WAYPOINTS), (MSA, "msa", coded.SAFE_ALTITUDE),
]


@pytest.mark.parametrize(("columns", "kind", "line"), RECORDS, ids=[f"{row[1]}-{row[2][13:33]}" for row in RECORDS])
def test_every_column_against_the_arinc424_library(columns, kind, line):
    theirs = TheirRecord()
    assert theirs.read(line)
    fields = {field.name: field.value.rstrip() for field in theirs.fields}
    ours, faults = columns_of(line, columns, "record", "line 1")
    assert faults == []
    names = THEIRS[kind]
    assert {name: ours[name] for name in names} == {name: fields[there] for name, there in names.items()}
    assert {name for name in ours if not name.startswith("sector_")} == set(names)


def test_sectors_against_the_arinc424_library():
    theirs = TheirRecord()
    assert theirs.read(coded.SAFE_ALTITUDE)
    fields = {field.name: field.value for field in theirs.fields}
    ours, _ = columns_of(coded.SAFE_ALTITUDE, MSA, "record", "line 1")
    assert ours["sector_0"] == fields["Sector Bearing"] + fields["Sector Altitude"] + fields["Sector Radius"]
    for number in range(1, 7):
        assert ours[f"sector_{number}"] == fields[f"Sector Bearing ({number + 1})"].strip() == ""


def test_values_of_columns():
    assert angle_deg("N37300471") == pytest.approx(37.50130833, abs=5e-9)
    assert angle_deg("W121464565") == pytest.approx(-121.77934722, abs=5e-9)
    assert (angle_deg("S90000000"), angle_deg("E180000000"), angle_deg("W000000000")) == (-90.0, 180.0, 0.0)
    assert (variation_deg("E0150"), variation_deg("W0005"), variation_deg("W0000"), variation_deg("T")) == (
        15.0, -0.5, 0.0, 0.0)
    assert str(variation_deg("W0000")) == "0.0"
    assert (course_deg("2849"), course_deg("3600"), course_deg("284T"), course_deg("")) == (
        (284.9, False), (360.0, False), (284.0, True), None)
    assert (distance_nm("0028"), distance_nm("T010"), distance_nm("")) == (2.8, None, None)
    assert (time_min("T010"), time_min("0028"), time_min("")) == (1.0, None, None)
    assert [altitude_ft(text) for text in ("02126", "-0012", "FL180", "", "UNKNN")] == [2126, -12, None, None, None]


@pytest.mark.parametrize(("columns", "line", "column", "text", "place"), [
    (LEG, coded.FINAL[0], 71, "3700", "columns 71-74 (course)"), (LEG, coded.FINAL[0], 85, "5 700", "altitude"),
    (LEG, coded.FINAL[0], 48, "T ", "columns 48-49 (path and termination)"),
    (LEG, coded.FINAL[0], 27, "1A0", "sequence"),
    (LEG, coded.FINAL[0], 75, "T1", "distance"), (LEG, coded.FINAL[0], 103, "+310", "vertical angle"),
    (LEVELS, LEVELS_RECORD, 41, "X", "segment provided"), (RUNWAY, coded.runway(), 23, "5694 ", "length"),
    (AIRPORT, coded.airport(), 52, "N0150", "variation"), (WAYPOINT, coded.WAYPOINTS[0], 33, "N91", "latitude"),
    (AIRPORT, coded.airport(), 94, " " * 30, "airport name"), (MSA, coded.SAFE_ALTITUDE, 43, "37", "sector 1"),
    (LEG, coded.FINAL[0], 30, "J\u00d6BUS", "fix"), (LEG, coded.FINAL[0], 129, "2099", "cycle"),
])
def test_a_fault_names_its_columns(columns, line, column, text, place):
    _, [fault] = columns_of(coded.at(line, column, text), columns, "cycle.txt", "line 7")
    assert fault.key.startswith("line 7, column")
    assert place in fault.key


def test_another_length_is_one_fault():
    _, [fault] = columns_of(coded.FINAL[0][:-1], LEG, "cycle.txt", "line 7")
    assert (fault.key, fault.found) == ("line 7", "131 columns")


def records(lines):
    return [Record(number, line) for number, line in enumerate(lines, 1)]


def test_legs_in_words():
    legs = legs_of(records(line for line in (*coded.FINAL, *coded.MISSED) if line[38] != "2"), "cycle.txt")
    assert place(legs[4]) == "R28L 021"
    assert words(legs[4]) == "track to FENRA, course 285.0, 3.3 NM, at or above 2120 ft, 2126 ft on the path"
    assert stated(legs[7], on_path=True) == ({"path_altitude_ft": 85}, "")
    assert stated(legs[7]) == ({"altitude_ft": 85, "altitude_rule": "at"}, "")
    assert list(not_read(legs)) == []
    table, kept = missed_table(legs[8:])
    assert (table["altitude_ft"], kept) == (2100, [])
    assert missed_table([]) == ({}, [])
    assert missed_table(legs[8:] * 3)[0] == {}
    assert len(missed_table(legs[8:] * 3)[1]) == 9
    hold = coded.leg("060", "OAK", "D ", "VE  ", "HM", course="122T", distance="T015")
    [leg] = legs_of(records([hold]), "cycle.txt")
    assert words(leg) == "hold at OAK, inbound course 122.0 true, turns not coded, 1.5 min"


def test_levels_of_service():
    primaries, continuations = split(records(coded.FINAL), "cycle.txt")
    assert (len(primaries), len(continuations)) == (8, 1)
    assert lines_authorised(continuations, "cycle.txt") == (["LPV", "LNAV/VNAV", "LNAV"], [])
    other = [coded.at(LEVELS_RECORD, 52, "N"), coded.at(LEVELS_RECORD, 40, "P"), coded.at(LEVELS_RECORD, 42, "RNP ")]
    lines, kept = lines_authorised(records(other), "cycle.txt")
    assert lines == ["LPV", "LNAV/VNAV", "LNAV"]
    assert kept == ["line 2: continuation of kind P, not read here", "line of minima RNP, not known here"]
    with pytest.raises(DataError, match="segment provided"):
        lines_authorised(records([coded.at(LEVELS_RECORD, 41, "X")]), "cycle.txt")


def test_path_point_and_safe_altitudes():
    point, lines = path_point_of(records(coded.POINTS), "cycle.txt")
    assert (point.sbas_channel, lines) == (40330, coded.POINTS)
    assert path_point_of([], "cycle.txt") is None
    with pytest.raises(DataError, match="line 22, column"):
        path_point_of([Record(21, coded.POINTS[0]), Record(22, coded.at(coded.POINTS[1], 57, "4033 "))], "cycle.txt")
    with pytest.raises(DataError, match="2 path points"):
        path_point_of(records([coded.POINTS[0], coded.at(coded.POINTS[0], 20, "RW28R")]), "cycle.txt")
    two = coded.at(coded.SAFE_ALTITUDE, 43, "09027004025" + "27009005025")
    assert [(row["from_deg"], row["to_deg"], row["altitude_ft"]) for row in
            safe_altitudes(records([two]), "RW28L", "", "cycle.txt")] == [(90, 270, 4000), (270, 90, 5000)]
    assert safe_altitudes(records([two]), "RW10R", "", "cycle.txt") == []
    with pytest.raises(DataError, match="sector 1"):
        safe_altitudes(records([coded.at(two, 43, "999")]), "RW28L", "", "cycle.txt")


def test_lookups_remember_what_they_gave():
    source = Source(io.BytesIO(coded.as_file(coded.KHWD)), "cycle.txt")
    [airport] = source.airports()
    lookup = Lookup(airport, source)
    assert lookup.one("PC", "NOFIX", WAYPOINT) == {}
    assert lookup.needed("PG", "RW28L", RUNWAY, "length")["length"] == "05694"
    assert len(lookup.used) == 1
    assert len({lookup.hash(0), lookup.hash(1)}) == 2
    assert lookup.later_than("2003") == []
    assert [fault.found for fault in lookup.later_than("1706")] == ["a record changed in cycle 1707"]
    assert lookup.later_than("9713") == []  # a record of 2017 is not near 1997 or 2097
    assert str(lookup.refused("this", "that")).startswith("cycle.txt: found this; allowed: that")
    assert position_key("D ", "K2", "OAK  ") == "D K2OAK"
