"""Where fixes are: exact references, blank and other regions, other airports' waypoints, what is ambiguous or far."""

import io

import pytest

import coded_records as coded
from lpv.arinc.approach import build
from lpv.arinc.positions import NEAR_NM, Place, Positions, Reference
from lpv.arinc.reader import Source

HERE = (33.0, -148.0)
THERE, NEARBY, FAR = "N33300000W148000000", "N34000000W149000000", "N50000000W100000000"


def positions(*entries):
    held = Positions(100)
    for section, airport, region, ident, where in entries:
        assert held.add(section, airport, region, ident, where)
    return held


def find(held, section, region, ident):
    return held.find(Reference(ident, region, section), HERE)


def test_exact_reference():
    held = positions(("D ", "", "K2", "ZZV", THERE), ("D ", "", "K6", "ZZV", FAR), ("DB", "", "K2", "ZZV", NEARBY))
    assert find(held, "D", "K2", "ZZV") == Place(33.5, -148.0)
    assert find(held, "D ", "K6", "ZZV") == Place(50.0, -100.0)
    assert find(held, "DB", "K2", "ZZV") == Place(34.0, -149.0)
    assert find(held, "EA", "K2", "ZZV") == "position of ZZV is not in the file"


@pytest.mark.parametrize(("coded_region", "held_region"), [
    ("", "K2"), ("K", "K2"), ("K ", "K2"), ("K2", "  "), ("K2", "K ")])
def test_blank_region_matches_single_candidate(coded_region, held_region):
    held = positions(("EA", "", held_region, "ZZFIX", THERE))
    position = find(held, "EA", coded_region, "ZZFIX")
    assert position[:2] == (33.5, -148.0)
    assert position.remark.startswith(f"ZZFIX: coded in region {coded_region.strip() or 'blank'}, taken from region ")


def test_other_region_is_other_fix():
    held = positions(("D ", "", "CY", "ZZV", THERE))
    assert find(held, "D", "K2", "ZZV") == "position of ZZV is not in the file"
    assert find(held, "D", "", "ZZV")[:2] == (33.5, -148.0)


def test_ambiguous_unless_single_near_candidate():
    both = positions(("EA", "", "K2", "ZZFIX", THERE), ("EA", "", "K3", "ZZFIX", NEARBY))
    assert find(both, "EA", "", "ZZFIX") == "position of ZZFIX is ambiguous: the file has 2"
    held = positions(("EA", "", "K2", "ZZFIX", THERE), ("EA", "", "K3", "ZZFIX", FAR))
    assert find(held, "EA", "", "ZZFIX")[:2] == (33.5, -148.0)
    none = positions(("EA", "", "K3", "ZZFIX", FAR))
    assert find(none, "EA", "", "ZZFIX") == f"position of ZZFIX is not in the file within {NEAR_NM:.0f}\u202fNM"
    twice = positions(("D ", "", "K2", "ZZV", THERE), ("D ", "", "K2", "ZZV", NEARBY))
    assert find(twice, "D", "K2", "ZZV") == "position of ZZV is ambiguous: the file has 2"


def test_waypoint_of_other_airport_or_section():
    held = positions(("PC", "ZZAB", "K2", "ZZFIX", THERE))
    position = find(held, "PC", "K2", "ZZFIX")
    assert (position[:2], position.remark) == (
        (33.5, -148.0), "ZZFIX: not among the airport's own, taken from region K2 of ZZAB")
    assert find(held, "EA", "K2", "ZZFIX").remark == (
        "ZZFIX: coded as enroute waypoint, taken from region K2 of ZZAB")
    assert find(positions(("EA", "", "K2", "ZZFIX", THERE)), "PC", "K2", "ZZFIX").remark == (
        "ZZFIX: coded as terminal waypoint, taken from region K2")
    assert isinstance(find(held, "EA", "K3", "ZZFIX"), str)


def test_unreadable_and_excess_positions():
    assert find(positions(("D ", "", "K2", "ZZV", " " * 19)), "D", "K2", "ZZV") == "position of ZZV is unreadable"
    held = Positions(1)
    assert held.add("D ", "", "K2", "ZZV", THERE)
    assert held.add("D ", "", "K2", "ZZV", THERE)
    assert (held.add("D ", "", "K2", "ZZW", THERE), held.count) == (False, 1)


@pytest.mark.parametrize(("kind", "record"), [
    ("D ", coded.navaid("OAK", "N33300000", "W148000000")),
    ("D ", coded.navaid("OAK", " " * 9, " " * 10, dme="N33300000W148000000", airport="KHWD")),
    ("DB", coded.navaid("OAK", "N33300000", "W148000000", section="DB")),
    ("EA", coded.navaid("OAK", "N33300000", "W148000000", section="EA", airport="ENRT")),
    ("PN", coded.record(coded.NAVAID, subsection="N", ident="OAK", of="K2", continuation="0", latitude="N33300000",
                        longitude="W148000000", number="00001", cycle="2002")),
    ("PI", coded.record(coded.NAVAID, subsection="I", ident="OAK", continuation="0", latitude="N33300000",
                        longitude="W148000000", number="00001", cycle="2002")),
])
@pytest.mark.parametrize("after", [True, False], ids=["after", "before"])
def test_fix_found_in_any_section_and_order(kind, record, after, tmp_path):
    lines = [coded.at(line, 37, kind) if line[29:32] == "OAK" else line for line in coded.KHWD]
    source = Source(io.BytesIO(coded.as_file([*lines, record] if after else [record, *lines])), "cycle.txt")
    [airport] = source.airports()
    chart = build(airport, "R28L", source, "2003", "FAA").tables["chart"]
    oak = next(fix for fix in chart["fix"] if fix["name"] == "OAK")
    assert (oak["role"], oak["latitude"], oak["longitude"]) == ("missed hold", "N33 30 00.00", "W148 00 00.00")


def test_tailored_records_counted_and_read_for_customer_only():
    own = ["T" + "ZZX" + line[4:] for line in coded.KHWD if line[26:34] == "012WESCH"]
    own = [coded.at(line, 85, "04400") for line in own]
    legs = [line for line in coded.KHWD if line[12] == "F"]
    tailored = ["TZZX" + line[4:] if line[26:34] != "012WESCH" else own[0] for line in legs]
    for customer, expected in (("", 3900), ("ZZX", 4400), ("ZZY", 3900)):
        source = Source(io.BytesIO(coded.as_file([*coded.KHWD, *tailored])), "cycle.txt", customer=customer)
        [airport] = source.airports()
        chart = build(airport, "R28L", source, "2003", "FAA").tables["chart"]
        assert next(fix for fix in chart["fix"] if fix["name"] == "WESCH")["altitude_ft"] == expected
        assert airport.tailored == (0 if customer == "ZZX" else len(legs))
