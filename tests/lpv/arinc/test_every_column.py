"""No column of a record is dropped in silence: a change of any shows in the file made, in its remarks, or as left over.

Records: FAA, Coded Instrument Flight Procedures, cycles 2003 (KHWD), 2004 (KBUR) and 2609 (KBTV).
"""

import io
import json
import random
import re

import pytest
from arinc424 import Record as TheirRecord

import coded_current as current
import coded_records as coded
from lpv.arinc import importer, layouts
from lpv.arinc.approach import build
from lpv.arinc.columns import Layout
from lpv.arinc.layouts import AIRPORT, LOCALIZER, RUNWAY, SAFE_ALTITUDE, WAYPOINT
from lpv.arinc.leg_layouts import LEG, LEVELS, OTHER
from lpv.arinc.listing import as_json, as_text, listed
from lpv.arinc.reader import Source
from lpv.arinc.scope import approaches
from lpv.core.errors import DataError
from lpv.fas.path_point_columns import CONTINUATION, PRIMARY, RECORD_LENGTH, Column
from lpv.files.toml_writer import toml_text

POINT_LAYOUTS = [Layout("path point", PRIMARY), Layout("continuation of a path point", CONTINUATION)]
LAYOUTS = [
    *(layout for layout in vars(layouts).values() if isinstance(layout, Layout)), LEG, LEVELS, OTHER, *POINT_LAYOUTS]
ALL = [*coded.KHWD, *current.KBTV, *current.KBUR]
NAVAIDS = [
    coded.navaid("OAK", "N37433455", "W122132493", cycle="2003"),
    coded.navaid("IHWD", " " * 9, " " * 10, airport="KHWD", dme="N37401234W122091234"),
    coded.navaid("HAU", "N46333333", "W111111111", section="DB", region="K1"),
]
LOCALIZER_RECORD = coded.record(coded.NAVAID, subsection="I", ident="IHWD", continuation="0", latitude="N37393214",
                                longitude="W122071825", number="00001", cycle="2003")


def layout_of(line):
    """The layout of a record, as the importer chooses it."""
    section = line[4:6]
    kind = section if section[1] != " " or section == "D " else section[0] + line[12]
    if kind == "PF":
        return LEG if line[38] in "01" else LEVELS if line[39] == "W" else OTHER
    if kind == "PP":
        return POINT_LAYOUTS[line[26] == "2"]
    return {"PA": AIRPORT, "PC": WAYPOINT, "PG": RUNWAY, "PS": SAFE_ALTITUDE, "EA": layouts.ENROUTE_WAYPOINT,
            "D ": layouts.VHF_NAVAID, "DB": layouts.ENROUTE_NDB, "PN": layouts.NDB, "PI": LOCALIZER}[kind]


# Every column is read or reported


@pytest.mark.parametrize("layout", LAYOUTS, ids=lambda layout: layout.name)
def test_layout_covers_whole_record(layout):
    columns = sorted((*layout.columns, *layout.rest), key=lambda column: column.first)
    held = [number for column in columns for number in range(column.first, column.last + 1)]
    assert held == list(range(1, RECORD_LENGTH + 1))
    assert len(set(layout.names)) == len(layout.names)


@pytest.mark.parametrize("line", [*ALL, *NAVAIDS], ids=lambda line: line[4:38].strip())
def test_read_and_reported_columns_cover_record(line):
    layout = layout_of(line)
    texts, faults = layout.texts(line, "records", "line 1")
    assert faults == []
    parts = [(column.first, f"{texts[column.name]:{column.width}}") for column in layout.columns]
    reported = dict.fromkeys(layout.rest, "")
    reported |= dict(layout.left_over(line))
    parts += [(column.first, f"{text:{column.width}}") for column, text in reported.items()]
    assert "".join(text for _, text in sorted(parts)) == line


# A change of any column is told

VTU = coded.navaid("VTU", "N34065430", "W119025840", cycle="2003")  # position rounded, from memory
NOT_NAMED = ("CEZKA", "CFBXN", "CFCDJ", "CFCGT", "ELMRR", "HIMVI", "IGAXY", "MAURK", "NIBYI", "RAYVE", "SUMXY",
             "TILLR", "UNCIA", "WABBT", "WESKI", "YEBUN", "YOLYY", "ZEMEP", "RW15", "RW33", "KBUR", "VNY", "H08-Y",
             "RNV-A")  # by the one approach with a path point at Burbank
KBUR = [line for line in current.KBUR
        if line[13:18].rstrip() not in NOT_NAMED and (line[12], line[13:17]) != ("S", "RW08")]
FILES = {"R01": current.KBTV, "R28L": coded.KHWD, "R08-Z": [VTU, *KBUR]}
SILENT = {
    "number": "a count of the lines of one file; jumps are told",
    "cycle": "of the last change; one later than the file is refused",
}
POSITION_ALONE = ("RW19", "RW26", "VTU", "SILEX")  # of these it is told that nothing else is carried over
POSITION = ("latitude", "longitude", "ident")
TEXTS = [*"0123456789ABEFGNSTVWYZ+- ", "FL100", "E001", "T0001", "-0001", "+00001", "00001", "0001", "001", "GND"]


def output(lines):
    """All that is made and said of the approaches of some records, without the marks of their bytes."""
    source = Source(io.BytesIO(coded.as_file(lines, header="")), "cycle.txt")
    texts = []
    try:
        for airport in source.airports():
            for approach in approaches(airport, "cycle.txt"):
                texts.append(str(approach))
                if not approach.reason:
                    made = build(airport, approach.name, source, "2609", "FAA")
                    tables = {key: table for key, table in made.tables.items() if key != "records"}
                    texts += [toml_text(tables), *made.remarks, *made.gaps, str(sorted(made.left_over.items()))]
    except DataError as error:
        texts.append(str(error))
    return "\n".join([*texts, str(source.faults), str(source.counts)])


def others(column, text):
    """Texts that a column may hold in place of this one: one sign changed, one sign throughout, some whole ones."""
    pattern = "[A-Z0-9 ]+" if column.name.startswith("rest_") else column.pattern
    width = len(text)
    changed_texts = [text[:at] + sign + text[at + 1 :] for at in range(width) for sign in TEXTS if len(sign) == 1]
    whole = [sign * width if len(sign) == 1 else f"{sign:{width}}" for sign in TEXTS]
    return [new for new in dict.fromkeys([*changed_texts, *whole])
            if new != text and len(new) == width and re.fullmatch(pattern, new, re.ASCII)]


def cases():
    """Each column of each kind of record, in one record of one file, and one other text for it: by chance, the same
    ones each time.
    """
    chance = random.Random(424)
    records = [(name, at) for name, lines in FILES.items() for at in range(len(lines))]
    for layout in dict.fromkeys(layout_of(FILES[name][at]) for name, at in records):
        held = [(name, at) for name, at in records if layout_of(FILES[name][at]) is layout]
        for column in (*layout.columns, *layout.rest):
            name, at = chance.choice(held)
            texts = others(column, column.text(FILES[name][at]))
            yield name, at, column, chance.choice(texts) if texts else ""


def may_be_silent(line, column, new):
    if column.name in SILENT or new == "":
        return True
    alone = line[13:18].strip() in POSITION_ALONE and line[12] != "F"
    zero = column.name == "angle" and not column.text(line).strip() and int(new) == 0  # both mean none
    return zero or (alone and column.name not in POSITION)


def test_every_column_change_noticed():
    before = {name: output(lines) for name, lines in FILES.items()}
    silent, count = [], 0
    for name, at, column, new in cases():
        line = FILES[name][at]
        if may_be_silent(line, column, new):
            continue
        count += 1
        lines = [*FILES[name][:at], coded.at(line, column.first, new), *FILES[name][at + 1 :]]
        if output(lines) == before[name]:
            silent.append((name, line[6:38], column.place(), column.text(line), new))
    assert silent == []
    assert count > 130


@pytest.mark.parametrize(("number", "column", "text", "words"), [
    (0, 4, "N", "The airport's records name 2 areas: USA, USN."), (0, 87, "   ", "airport, columns 33-41 (latitude)"),
    (-4, 61, "-00100", "Height of the threshold above the ellipsoid: \u221210.0 m by the runway record, \u221217.2"),
    (3, 11, "K3", "The airport's records name 2 regions: K2, K3."),
    (3, 20, "K3", "coded in region K2, taken from region K3"),
    (3, 85, "NAS", "HUZBY: datum NAS differs from the segment's"),
    (3, 22, "1", "waypoint HUZBY: announces a continuation"),
    (0, 86, "T", "The final course is coded magnetic, the airport's record says true."),
    (0, 86, " ", "Courses are taken as magnetic: the airport's record does not say from which north."),
])
def test_record_cross_references_reported(number, column, text, words):
    assert words in output(coded.changed(number, column, text))


@pytest.mark.parametrize(("sequence", "column", "text", "words"), [
    ("021", 40, "Q", "waypoint description 'Q' in column 40, unknown"), ("021", 42, "Z", "'Z' in column 42, unknown"),
    ("040", 42, " ", "040: the first leg of the missed approach is not marked as such"),
    ("050", 42, "M", "050: marked as the beginning of the missed approach, and stands elsewhere"),
    ("050", 41, "E", "050: marked as the end of its route, and legs follow"),
    ("060", 41, "Y", "060: the last leg of its route is not marked as its end; a leg may be missing"),
    ("021", 20, "Q", "route type Q, unknown for an approach of type R"), ("021", 50, "Q", "turn prescribed Q, unknown"),
    ("021", 84, "S", "altitude by ATC S, unknown"), ("040", 35, "K2", "region K2 without a fix"),
    ("021", 57, "001000", "radius 001000 at a leg that is no arc"),
    ("050", 118, "-", "description - without a speed limit"),
    ("040", 71, "    ", "040: no course, which path terminator CA needs"),
    ("040", 85, "     ", "040: no altitude, which path terminator CA needs"),
    ("060", 44, " ", "060: no turn direction, which path terminator HM needs"),
    ("040", 30, "OAK  K2D ", "040: fix OAK at path terminator CA, which has none"),
    ("050", 48, "CR", "050: no radial, which path terminator CR needs"),
    ("011", 85, "     ", "altitude description + without an altitude"), ("011", 45, "000", "rnp_nm = 0.0"),
])
def test_inconsistent_leg_values_reported(sequence, column, text, words):
    number = next(at for at, line in enumerate(coded.KHWD) if line[12] == "F" and line[26:29] == sequence
                  and line[19] == "R")
    assert words in output(coded.changed(number, column, text))


def test_listing_reports_inconsistent_legs():
    source = Source(io.BytesIO(coded.as_file(coded.changed(-5, 41, "Y"))), "cycle.txt", "KHWD")
    listing = listed(source, "R28L")
    assert "\n  not understood: R28L 060: the last leg of its route is not marked as its end;" in as_text(listing)
    assert "060: the last leg" in json.loads(as_json(listing))[0]["not_understood"][0]


def test_tailored_records_give_no_position():
    [airport] = Source(io.BytesIO(coded.as_file([*coded.KHWD, NAVAIDS[0]])), "cycle.txt").airports()
    assert "OAK" not in "".join(build_of(coded.KHWD, [NAVAIDS[0]]).unread)
    assert airport.ident == "KHWD"
    tailored = coded.at(NAVAIDS[0], 1, "TABC")
    assert "position of OAK is not in the file" in "".join(build_of(coded.KHWD, [tailored]).unread)
    assert "OAK" not in "".join(build_of(coded.KHWD, [tailored], customer="ABC").unread)


def build_of(lines, more, **how):
    """The approach R28L made of some records."""
    source = Source(io.BytesIO(coded.as_file([*lines, *more])), "cycle.txt", **how)
    [airport] = source.airports()
    return build(airport, "R28L", source, "2003", "FAA")


def test_far_fix_reported():
    """One of the missed approach alone: no leg of a known length leads to it."""
    number = next(at for at, line in enumerate(current.KBTV) if line[12] == "C" and line[13:18] == "JRVIS")
    for latitude, words, arc_minutes in (("N46", "JRVIS lies ([0-9]+)\u202fNM from the threshold: compare", 131),
                                         ("S44", "JRVIS lies ([0-9]+)\u202fNM from the threshold: compare", 5347)):
        match = re.search(words, output(coded.changed(number, 33, latitude, current.KBTV)))
        assert int(match[1]) == pytest.approx(arc_minutes, rel=0.005), "a minute of latitude is a mile, nearly"


def test_terminal_arrival_altitudes_reported_not_guessed():
    arrival = coded.record({"approach": 14, "number": 124, "cycle": 129}, subsection="K", approach="R28L",
                           number="10890", cycle="1310")
    assert build_of(coded.KHWD, [arrival]).remarks[-1].startswith("Terminal arrival altitudes: 1 records, not carried")
    assert not any("arrival" in remark for remark in build_of(coded.KHWD, []).remarks)


def test_airport_without_approach_reported(tmp_path, capsys):
    (tmp_path / "cycle.txt").write_bytes(coded.as_file(coded.KHWD))
    assert importer.main([str(tmp_path / "cycle.txt"), "--airport", "ZZZZ", "--out", str(tmp_path), "--quiet"]) == 2
    assert "ZZZZ: no approach is coded in the file." in capsys.readouterr().err


def test_other_path_point_continuations_reported():
    note = coded.at(coded.POINTS[1], 27, "3N SEE THE CHART")
    [told_of] = [words for words in build_of(coded.KHWD, [note]).unread if "path point" in words]
    assert "continuation 3 of the path point, of kind N, not supported: 'SEE THE CHART" in told_of


# The edges of columns against those of an independent decoder


class Cut(str):
    """A record that remembers of each part where it was cut."""

    def __getitem__(self, at):
        part = Cut(str.__getitem__(self, at))
        part.first, part.last = (at.start + 1, at.stop) if isinstance(at, slice) else (at + 1, at + 1)
        return part


OF_SEVERAL = {"centre_region", "other", "ident", *(f"sector_{number}" for number in range(layouts.SECTORS))}


def test_column_edges_match_arinc424_library():
    """Each of its fields is whole columns of ours, or stands within one that is not read or holds several."""
    lines = {layout_of(line): line for name in FILES for line in FILES[name]}
    lines |= {layout_of(line): line for line in (*NAVAIDS, LOCALIZER_RECORD)}
    assert len(lines) == 12
    compared = 0
    for layout, line in lines.items():
        theirs, ours = TheirRecord(), (*layout.columns, *layout.rest)
        assert theirs.read(Cut(line))
        first, last = {column.first for column in ours}, {column.last for column in ours}
        within = [c for c in ours if isinstance(c, Column) and (c in layout.rest or c.name in OF_SEVERAL)]
        for field in theirs.fields:
            if not isinstance(field.value, Cut):  # section and subsection, which it puts together
                assert field.name == "Section Code"
                continue
            where = field.value.first, field.value.last
            compared += 1
            assert (where[0] in first and where[1] in last) or any(
                column.first <= where[0] and where[1] <= column.last for column in within), (layout.name, field.name)
    assert compared > 250


# The names of columns against those of an independent decoder

THEIRS = {  # our names of columns -> the library's, by kind of record
    LEG: {
        "record_type": "Record Type", "area": "Customer / Area Code", "airport": "Airport Identifier",
        "region": "ICAO Code", "approach": "SID/STAR/Approach Identifier", "route": "Route Type",
        "transition": "Transition Identifier", "sequence": "Sequence Number", "fix": "Fix Identifier",
        "fix_region": "ICAO Code (2)", "fix_section": "Section Code (2)", "continuation": "Continuation Record No",
        "description": "Waypoint Description Code", "turn": "Turn Direction", "rnp": "RNP",
        "terminator": "Path and Termination", "turn_valid": "Turn Direction Valid", "navaid": "Recommended Navaid",
        "navaid_region": "ICAO Code (3)", "navaid_section": "Recommended Navaid (2)", "radius": "Arc Radius",
        "theta": "Theta", "rho": "Rho", "course": "Magnetic Course", "distance": "Route / Holding Distance or Time",
        "altitude_is": "Altitude Description", "atc": "ATC Indicator", "altitude": "Altitude",
        "altitude_2": "Altitude (2)", "transition_altitude": "Transition Altitude", "speed": "Speed Limit",
        "angle": "Vertical Angle", "centre": "Center Fix or TAA Procedure Turn Indicator",
        "multiple": "Multiple Code or TAA Sector Identifier", "centre_section": "Section Code (3)",
        "gnss": "GNSS/FMS Indication", "speed_is": "Speed Limit Description", "qualifier_1": "Apch Route Qualifier 1",
        "qualifier_2": "Apch Route Qualifier 2", "number": "File Record No", "cycle": "Cycle Date",
    },
    LEVELS: {
        "approach": "SID/STAR/Approach Identifier", "sequence": "Sequence Number", "fix": "Fix Identifier",
        "application": "Application Type", "fas": "FAS Block Provided",
        "fas_name": "FAS Block Provided Level of Service Name", "vnav": "LNAV/VNAV Authorized for SBAS",
        "vnav_name": "LNAV/VNAV Level of Service Name", "lnav": "LNAV Authorized for SBAS",
        "lnav_name": "LNAV Level of Service Name", "qualifier_1": "Apch Route Qualifier 1",
        "qualifier_2": "Apch Route Qualifier 2", "number": "File Record No", "cycle": "Cycle Date",
    },
    AIRPORT: {
        "airport": "Airport ICAO Identifier", "region": "ICAO Code", "continuation": "Continuation Record No",
        "latitude": "Airport Reference Pt. Latitude", "longitude": "Airport Reference Pt. Longitude",
        "variation": "Magnetic Variation", "elevation": "Airport Elevation", "reference": "Magnetic/True Indicator",
        "datum": "Datum Code", "name": "Airport Name", "number": "File Record No", "cycle": "Cycle Date",
        "rest_14": "ATA/IATA Designator", "rest_28": "Longest Runway", "rest_31": "IFR Capability",
        "rest_32": "Longest Runway Surface Code", "rest_71": "Transition Altitude", "rest_76": "Transition Level",
        "rest_81": "Public Military Indicator",
    },
    RUNWAY: {
        "ident": "Runway Identifier", "continuation": "Continuation Record No", "length": "Runway Length",
        "bearing": "Runway Magnetic Bearing", "latitude": "Runway Latitude", "longitude": "Runway Longitude",
        "rest_52": "Runway Gradient", "ellipsoid_height": "(LTP) Ellipsoid Height",
        "elevation": "Landing Threshold Elevation", "displaced": "Displaced Threshold Dist",
        "tch": "Threshold Crossing Height", "rest_78": "Runway Width", "tch_of": "TCH Value Indicator",
        "rest_87": "Stopway", "rest_102": "Runway Description", "number": "File Record No", "cycle": "Cycle Date",
    },
    WAYPOINT: {
        "ident": "Waypoint Identifier", "fix_region": "ICAO Code (2)", "continuation": "Continuation Record No",
        "latitude": "Waypoint Latitude", "longitude": "Waypoint Longitude", "rest_27": "Waypoint Type",
        "number": "File Record No", "cycle": "Cycle Date",
    },
    SAFE_ALTITUDE: {
        "centre": "MSA Center", "centre_region": "ICAO Code (2)", "centre_section": "Section Code (2)",
        "multiple": "Multiple Code", "continuation": "Continuation Record No", "reference": "Magnetic/True Bearing",
        "number": "File Record No", "cycle": "Cycle Date",
    },
}


@pytest.mark.parametrize("line", [line for line in ALL if layout_of(line) in THEIRS], ids=lambda line: line[6:38])
def test_every_column_matches_arinc424_library(line):
    layout, theirs = layout_of(line), TheirRecord()
    assert theirs.read(line)
    fields = {field.name: field.value.rstrip() for field in theirs.fields}
    ours = {column.name: column.text(line).rstrip() for column in (*layout.columns, *layout.rest)}
    names = THEIRS[layout]
    assert {name: ours[name] for name in names} == {name: fields[there] for name, there in names.items()}


@pytest.mark.parametrize("line", [line for line in ALL if line[12] == "S" and line[4] == "P"])
def test_sectors_match_arinc424_library(line):
    theirs = TheirRecord()
    assert theirs.read(line)
    fields = {field.name: field.value for field in theirs.fields}
    ours, _ = SAFE_ALTITUDE.texts(line, "record", "line 1")
    for number in range(layouts.SECTORS):
        more = f" ({number + 1})" if number else ""
        assert ours[f"sector_{number}"] == "".join(
            fields[f"Sector {name}{more}"] for name in ("Bearing", "Altitude", "Radius")).rstrip()
