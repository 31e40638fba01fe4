"""What a briefing says of coded records: each leg in words, codes, sectors, and what is still to be read."""

from html import unescape
from types import SimpleNamespace as Stub

import pytest

from lpv.approach.coded_leg import CodedLeg
from lpv.approach.schema import SafeAltitude
from lpv_site.briefing import coded
from lpv_site.text.table import finished

S = "\u202f"


def leg(**fields):
    return CodedLeg(**{"part": "final", "sequence": "020", "terminator": "TF"} | fields)


@pytest.mark.parametrize(("fields", "words"), [
    ({}, ""),
    ({"turn": "left"}, "turn left"),
    ({"turn": "right", "turn_prescribed": True, "fly_over": True}, "turn right, prescribed<br>flown over"),
    ({"turn_prescribed": True}, ""),
    ({"course_deg": 92.34}, "092.3°"),
    ({"course_deg": 92.0, "course_true": True, "course_computed": True}, "092.0° true*"),
    ({"course_deg": 92.0, "terminator": "HM"}, "inbound 092.0°"),
    ({"distance_nm": 4.0, "distance_computed": True}, f"4.0{S}NM*"),
    ({"distance_nm": 0.0}, f"0.0{S}NM"),
    ({"time_min": 1.0}, f"1.0{S}min"),
    ({"radius_nm": 2.5, "centre": "ARCCC"}, f"radius 2.50{S}NM about ARCCC"),
    ({"radius_nm": 2.5}, f"radius 2.50{S}NM"),
    ({"navaid": "ZZV"}, "by ZZV"),
    ({"navaid": "ZZV", "navaid_bearing_deg": 7.0, "navaid_distance_nm": 0.0}, f"by ZZV 007° 0.0{S}NM"),
    ({"course_deg": 92.0, "distance_nm": 4.0, "time_min": 1.5}, f"092.0°<br>4.0{S}NM<br>1.5{S}min"),
])
def test_way_of_leg_in_words(fields, words):
    assert coded._flown(leg(**fields)) == words


@pytest.mark.parametrize(("fields", "words"), [
    ({}, ""),
    ({"role": "PFAF", "altitude_ft": 2600.0, "altitude_rule": "at"}, f"PFAF<br>at 2600{S}ft"),
    ({"altitude_ft": 2600.0}, f"2600{S}ft"),
    ({"altitude_ft": 0.0, "highest_ft": 3000.0, "altitude_rule": "between"}, f"0{S}ft to 3000{S}ft"),
    ({"altitude_ft": 500.0, "altitude_rule": "at", "flight_levels": True}, "at FL005"),
    ({"altitude_ft": 18000.0, "highest_ft": 20000.0, "flight_levels": True}, "FL180 to FL200"),
    ({"by_atc": True, "path_altitude_ft": 2010.0}, f"altitude by ATC<br>path 2010{S}ft"),
    ({"glide_slope_altitude_ft": 0.0}, f"glideslope 0{S}ft"),
    ({"speed_kt": 210.0}, f"limit 210{S}kt"),
    ({"speed_kt": 210.0, "speed_rule": "at most"}, f"at most 210{S}kt"),
    ({"angle_deg": -3.0, "rnp_nm": 0.3}, "angle \u22123.00°<br>RNP 0.3"),
    ({"angle_deg": 0.0, "rnp_nm": 0.0}, "angle 0.00°<br>RNP 0.0"),
])
def test_limits_of_leg_in_words(fields, words):
    assert coded._limits(leg(**fields)) == words


@pytest.mark.parametrize(("legs", "words"), [
    ([leg()], ""),
    ([leg(gnss="A"), leg(gnss="A", qualifiers="JS")],
     "Also coded: vertical guidance by SBAS authorized; GNSS required, DME/DME not authorized; straight-in minima "
     "(meaning of the codes from memory).\n"),
    ([leg(qualifiers="P")], "Also coded: GNSS required (meaning of the codes from memory).\n"),
    ([leg(qualifiers="-S")], "Also coded: straight-in minima (meaning of the codes from memory).\n"),
    ([leg(gnss="9")], "Also coded: GNSS indication 9, unknown (meaning of the codes from memory).\n"),
    ([leg(transition_altitude_ft=5000.0), leg(transition_altitude_ft=5000.0), leg(transition_altitude_ft=0.0)],
     f"Also coded: transition altitude 5000{S}ft; transition altitude 0{S}ft.\n"),
])
def test_codes_of_all_legs_said_once(legs, words):
    assert unescape(coded._common(tuple(legs))) == words


def test_legs_stand_folded_in_order():
    assert coded.legs(Stub(database=Stub(legs=()))) == ""
    text = coded.legs(Stub(database=Stub(legs=(leg(fix="FIXXX", transition="ENTRY", turn="left"), leg(gnss="A")))))
    heading, _, rest = text.partition("\n\n    ")
    assert heading == '\n??? note "The legs as coded"'
    assert rest.count("<tr>") == 3
    assert "<br>FIXXX" in rest
    assert rest.index("turn left") < rest.index("Also coded: vertical guidance by SBAS authorized")
    assert all(line.startswith("    ") for line in text.split("\n")[3:] if line)


def approach(*, filled=(), read_again=(), lines=(), **chart):
    usual = {"from_coded_record": False, "to_be_filled": (), "course_computed": False, "fixes": (), "coded_legs": (),
             "msa": ()}
    return Stub(chart=Stub(**(usual | chart)), filled=filled, read_again=read_again,
                database=Stub(legs=(), lines=lines))


def test_unread_parts_told():
    assert coded.unread(approach()) == ""
    frame = '\n!!! warning "Not a briefing yet"\n\n    {}\n'
    assert coded.unread(approach(from_coded_record=True)) == frame.format(
        "Made from coded records, not yet compared with the chart.")
    assert coded.unread(approach(to_be_filled=("notes",))) == frame.format(
        "[To be filled from the chart](#findings): 1 entries.")
    assert coded.unread(approach(to_be_filled=("notes", "minima"))) == frame.format(
        "[To be filled from the chart](#findings): 2 entries, the minima among them.")
    again = (Stub(key="notes", because="leg", cycle="2612"), Stub(key="tdze_ft", because="runway", cycle="2613"))
    assert coded.unread(approach(read_again=again)) == frame.format(
        "To be read again: notes, since the leg changed in cycle 2612; touchdown zone elevation, since the runway "
        "changed in cycle 2613.")
    rows = (Stub(keys=("notes",), verified_by=None), Stub(keys=("tdze_ft",), verified_by="Second"))
    assert coded.unread(approach(filled=rows)) == frame.format("Filled, not yet verified by a second person: notes.")


def test_marks_and_codes_not_understood_told():
    marked = "\nMarked \\*: computed from positions, with the variation of record; the records code none.\n"
    assert (coded.mark(True), coded.mark(False)) == ("*", "")
    assert coded.computed(Stub(course_computed=True)) == " (computed, not read from the chart)"
    assert coded.computed(Stub(course_computed=False)) == ""
    assert coded.coded(approach()) == ""
    assert coded.coded(approach(fixes=(Stub(leg_computed=True), Stub(leg_computed=False)))) == marked
    for field in ("course_computed", "distance_computed"):
        other = approach()
        other.database.legs = (leg(), leg(**{field: True}))
        assert coded.coded(other) == marked
    assert coded.coded(approach(coded_legs=("a < b", "c"))) == "\nCoded, and not understood:\n\n- a &#60; b\n- c\n"
    assert coded.lines_coded(approach()) == "To be filled from the chart.\n"
    assert coded.lines_coded(approach(lines=("LPV", "LNAV"))) == (
        "To be filled from the chart. The records authorize: LPV, LNAV.\n")


def test_sectors_of_safe_altitude():
    assert coded.safe(approach()) == ""
    sectors = (SafeAltitude(centre="RW09", from_deg=0.0, to_deg=360.0, altitude_ft=3000.0, radius_nm=25.0),
               SafeAltitude(centre="RW27", from_deg=90.0, to_deg=270.0, altitude_ft=4100.0, radius_nm=30.0))
    assert coded.safe(approach(msa=sectors)) == "## Minimum safe altitude { #msa }\n\n" + finished(
        ["about", "bearing to it", "ft", "within"],
        [("RW09", "all round", "3000", f"25{S}NM"), ("RW27", "090° to 270°", "4100", f"30{S}NM")])
