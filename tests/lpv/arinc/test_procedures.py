"""Names of approaches, runways, what is in scope and why not, and what is told at the end."""

import io

import pytest

import coded_current as current
import coded_records as coded
from lpv.arinc.flown import Reckoning
from lpv.arinc.importer import SBAS, Order, run
from lpv.arinc.layouts import RUNWAY
from lpv.arinc.procedure import Procedure, procedure, slug, title
from lpv.arinc.reader import Source
from lpv.arinc.records import Lookup
from lpv.arinc.runway import displaced_ft, opposite, runway_table
from lpv.arinc.scope import NO_SEGMENT, approaches
from lpv.arinc.summary import reason, unread_kind
from lpv.core.errors import DataError, Fault


@pytest.mark.parametrize(("name", "expected", "faa", "easa"), [
    ("R28L", Procedure("R", "28L"), "RNAV (GPS) RWY 28L", "RNP RWY 28L"),
    ("R28LZ", Procedure("R", "28L", "Z"), "RNAV (GPS) Z RWY 28L", "RNP Z RWY 28L"),
    ("R08-Z", Procedure("R", "08", "Z"), "RNAV (GPS) Z RWY 08", "RNP Z RWY 08"),
    ("H08-Y", Procedure("H", "08", "Y"), "RNAV (RNP) Y RWY 08", "RNP Y RWY 08 (AR)"),
    ("RNV-A", Procedure("R", circling="A"), "RNAV (GPS)-A", "RNP A RWY 08"),
    ("R110", Procedure("R", course="110"), "COPTER RNAV (GPS) 110", "RNP RWY 08"),
    ("R36-", Procedure("R", "36"), "RNAV (GPS) RWY 36", "RNP RWY 36"),
    ("R28L1", Procedure("R", "28L", "1"), "RNAV (GPS) 1 RWY 28L", "RNP 1 RWY 28L"),
    ("P28L", Procedure("P", "28L"), "GPS RWY 28L", "RNP RWY 28L"),
])
def test_approach_names(name, expected, faa, easa):
    parsed = procedure(name)
    assert parsed == expected
    assert title(parsed, parsed.runway or "08", "FAA") == faa
    assert title(parsed, parsed.runway or "08", "EASA") == easa


@pytest.mark.parametrize(("name", "words"), [
    ("I28L", "ILS"), ("J28L", "GLS"), ("VOR-A", "VOR"), ("P35", "GPS"), ("X01", "LDA"), ("?", "kind ?")])
def test_approach_kinds(name, words):
    assert procedure(name).kind_words == words


def test_approach_file_names():
    assert slug("KHWD", procedure("R28LZ"), "28L", "FAA") == "khwd-rnav-28l-z"
    assert slug("KHWD", procedure("H28L"), "28L", "FAA") == "khwd-rnp-28l"
    assert slug("ZZEG", procedure("R24"), "24", "EASA") == "zzeg-rnp-24"
    assert slug("KBUR", procedure("RNV-A"), "08", "FAA") == "kbur-rnav-a"
    names = ("R01", "H01", "P01", "R01-Y", "R01-Z", "RNV-A", "GPS-A", "R110", "P110")
    assert len({slug("KBTV", procedure(name), "01", "FAA") for name in names}) == len(names)


@pytest.mark.parametrize(("ident", "other"), [
    ("RW01", "RW19"), ("RW19", "RW01"), ("RW36L", "RW18R"), ("RW18C", "RW36C"), ("RW10R", "RW28L"), ("RW09W", "RW27W")])
def test_opposite_direction(ident, other):
    assert opposite(ident) == other


def lookup_of(lines):
    source = Source(io.BytesIO(coded.as_file(lines)), "cycle.txt")
    [airport] = source.airports()
    return Lookup(airport, source)


def test_bearing_from_thresholds_or_coded():
    both = lookup_of(current.KBTV)
    texts = both.single("PG", "RW01", RUNWAY)
    assert runway_table(texts, Reckoning(False, -15.0), both)["bearing_true_deg"] == pytest.approx(351.4, abs=0.05)
    alone = lookup_of([line for line in current.KBTV if "GRW19" not in line])
    table = runway_table(texts, Reckoning(False, -15.0), alone)
    assert (table["bearing_true_deg"], table["source"]) == (
        351.0, "runway record of RW01, last changed in cycle 2205; bearing as coded, with the airport's variation of "
        "record")
    assert (displaced_ft(texts), displaced_ft(texts | {"displaced": "0000"})) == ({"displaced_threshold_ft": 225}, {})
    blank = runway_table(texts | {"bearing": ""}, Reckoning(False, -15.0), alone)
    assert "bearing_true_deg" not in blank
    assert runway_table(texts | {"bearing": "351T"}, Reckoning(False, 0.0), alone)["bearing_true_deg"] == 351.0
    assert runway_table(texts | {"elevation": ""}, Reckoning(False, 0.0), alone) == {}


def reasons(lines):
    source = Source(io.BytesIO(coded.as_file(lines)), "cycle.txt")
    return {approach.name: approach.reason for airport in source.airports()
            for approach in approaches(airport, source.name)}


def renamed(lines, name, section="P", **columns):
    """Legs under another name, and with other texts in some columns."""
    result = []
    for line in lines:
        if line[12] == "F":
            line = coded.at(line, 14, f"{name:6}")
            for column, text in columns.items():
                line = coded.at(line, coded.LEG[column], text)
        result.append(coded.at(line, 5, section) if line[12] in "FPC" or section == "P" else line)
    return result


NO_POINT = [line for line in coded.KHWD if line not in coded.POINTS]


@pytest.mark.parametrize(("name", "more", "expected"), [
    ("I28L", {}, "ILS: not an RNAV approach"),
    ("J28L", {}, "GLS: guided by GBAS, not by SBAS"),
    ("R110", {}, f"RNAV, for helicopters: {NO_SEGMENT}; authorizes LPV, LNAV/VNAV, LNAV"),
    ("R28L", {"qualifiers": "JH"}, f"RNAV, for helicopters: {NO_SEGMENT}; authorizes LPV, LNAV/VNAV, LNAV"),
])
def test_out_of_scope(name, more, expected):
    assert reasons(renamed(NO_POINT, name, **more)) == {name: expected}


def test_heliport_approach_named():
    legs = [coded.at(line, 5, "H") for line in NO_POINT if line[12] == "F"]
    assert reasons(legs) == {"R28L": f"an approach to a heliport, not to a runway (RNAV); {NO_SEGMENT}"}
    points = [coded.at(line, 5, "H") for line in coded.POINTS]
    assert reasons([*legs, *points]) == {"R28L": "an approach to a heliport, not to a runway (RNAV)"}


def test_path_point_of_other_level_out_of_scope():
    lines = [line.replace("LPV       40330", "GLS       40330") for line in coded.KHWD]
    assert reasons(lines) == {"R28L": "its path point serves GLS, neither LPV nor LP"}


def test_similar_faults_counted_together():
    assert reason(Fault("f", "line 7, columns 67-70 (glidepath angle)", "9999", "x", "")) == (
        "glidepath angle impossible")
    assert reason(Fault("f", "", "no length of RW28L", "a complete record", "")) == "lacks a complete record"
    assert unread_kind("R28L SJC 010: path terminator ZZ, not supported") == "path terminator ZZ, not supported"
    assert unread_kind("position of OAK is not in the file: 050, 060") == "position of a fix is not in the file"
    assert unread_kind("line 7: columns 81-82 (reserved) holds X") == "columns 81-82 (reserved)"


def outcome(lines, folder):
    """What became of the approaches of KBTV's records: files, reasons of those out of scope, faults, remarks."""
    summary = run(io.BytesIO(coded.as_file(lines, header=current.HEADER_2609)), "c.txt", Order(folder, levels=SBAS))
    written = {done.slug: done for done in summary.done}
    return (sorted(written), [skipped.reason for skipped in summary.out_of_scope],
            " ".join(str(fault) for refusal in summary.refused for fault in refusal.faults),
            [remark for done in summary.done for remark in done.remarks])


def put(lines, column, text, kinds="F", where=lambda line: True):
    """The records of these kinds with a text put at a column."""
    return [coded.at(line, column, text) if line[4] == "P" and line[12] in kinds and where(line) else line
            for line in lines]


def test_kinds_without_example_imported_or_named(tmp_path):
    """Each either makes a file, or is out of scope or refused for the true reason; none is dropped."""
    base, written = current.KBTV, ["kbtv-rnav-01"]
    in_missed = [line[26:29] == "060" for line in base]
    assert sum(in_missed) == 1
    hold = lambda line: line[26:29] == "060"  # noqa: E731
    named = lambda name: put(base, 14, f"{name:6}", "FP")  # noqa: E731
    cases = {
        "GPS": (named("P01"), ["kbtv-gps-01"], "", ""),
        "RNP": (named("H01"), ["kbtv-rnp-01"], "", ""),
        "several": ([*base, *[line for line in named("R01-Y") if line not in base]],
                    ["kbtv-rnav-01", "kbtv-rnav-01-y"], "", ""),
        "ILS with a path point": (named("I01"), [], "ILS: not an RNAV approach", ""),
        "GLS": (named("J01"), [], "GLS: guided by GBAS, not by SBAS", ""),
        "to a point in space": (put(named("R110"), 20, "RW00 ", "P"), [],
                                "RNAV, for helicopters: its path point lies at a point in space, not at a runway", ""),
        "for helicopters": (put(base, 120, "H"), written, "", ""),
        "missed to ATC": (put(base, 48, "FM", where=hold), written, "", ""),
        "missed on a heading": (put(put(base, 48, "VM", where=hold), 30, " " * 9, where=hold), written, "", ""),
        "hold once": (put(base, 48, "HA", where=hold), written, "", ""),
        "no region": (put(base, 35, "  "), written, "", ""),
        "region K": (put(base, 35, "K "), written, "", ""),
        "another area": ([coded.at(line, 2, "PAC") for line in base], written, "", ""),
        "airport behind": ([*base[1:], base[0]], written, "", ""),
        "path point before": ([*base[19:21], *base[:19], *base[21:]], written, "", ""),
        "continuation before": ([*base[:19], base[20], base[19], *base[21:]], [], "", "without its primary record"),
        "arc on final": (put(base, 48, "RF", where=lambda line: line[26:29] == "021"), [], "", "no straight leg"),
        "no runway": ([line for line in base if line[12] != "G"], [], "", "position of RW01 is not in the file"),
        "no level": ([line for line in base if line[26:28] != "2E"], [], "", "level None, channel None"),
        "runway of another name": (put(base, 20, "RW01T", "P"), [], "", "found 'RW01T'"),
    }
    for name, (lines, files, out, fault) in cases.items():
        result = outcome(lines, tmp_path / name)
        assert result[0] == files, name
        assert result[1] == ([out] if out else []), name
        assert (fault in result[2]) if fault else not result[2], name
    assert "For helicopters" in " ".join(outcome(cases["for helicopters"][0], tmp_path / "again")[3])
    small = [line.lower() for line in base]
    with pytest.raises(DataError, match="lower-case lines, not read: 22"):
        outcome(small, tmp_path / "small")
