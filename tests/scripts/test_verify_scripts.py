"""What the scripts of docs/verify/ show, worked out in another way.

The example: threshold 22 ft, crossing height 52 ft, 3.00 degrees, variation of record 12 degrees east.
"""

import html
import math
import re
import struct
from dataclasses import replace

import pygeomag
import pyproj
import pytest

from approach_variants import demo
from drawn import curves, drawings, labels, window
from lpv.core.findings import Finding
from lpv.crosscheck.limits import BY_KEY
from lpv.crosscheck.unread import BOOKS, POSSIBLE, UNREAD
from lpv_site.checks.mismatches import Case, Outcome
from paths_by_hand import barometric_ft, straight_ft
from shown import SPACES, about, cell, lines, printed, row, row_of, rows
from verify import (
    block_bytes,
    block_flip,
    cannot_see,
    course,
    damaged,
    fixes,
    fixes_plan,
    identifier,
    identity,
    limits,
    path,
    path_excess,
    published,
    scoreboard,
    variation,
)

GEOD = pyproj.Geod(ellps="WGS84")
EXAMPLE = demo()


def text(shown):
    return html.unescape(re.sub(r"<[^>]*>", " ", shown.markdown)).translate(SPACES)


# Identity


def test_possible_channels_and_identifiers():
    table = rows(identity.show())
    assert ["ZZAKRNAV (GPS) RWY 09", "99901", "W09A", "possible"] in table
    assert {cells[3] for cells in table} == {"possible"}


@pytest.mark.parametrize("wrong", [{"channel": 21909}, {"path_id": "W27A"}, {"path_id": "E09A"}])
def test_impossible_channel_or_identifier(wrong, monkeypatch):
    monkeypatch.setattr(identity, "examples", lambda: [replace(EXAMPLE, identity=replace(EXAMPLE.identity, **wrong))])
    assert rows(identity.show())[0][3] == "impossible"


def test_identifier_parts():
    assert row(identifier.show(), "runway") == ["runway", "09", "09 (fits)", "from memory"]
    assert [cells[1] for cells in rows(identifier.show())] == ["4", "W", "09", "A"]


# Course and fixes


def ends(approach):
    held = approach.segment
    return held.ltp_latitude_deg, held.ltp_longitude_deg, held.fpap_latitude_deg, held.fpap_longitude_deg


def azimuth_deg(start, end):
    """Course (deg true) and distance (NM) between two places, by another library's geodesic."""
    azimuth, _, metres = GEOD.inv(start[1], start[0], end[1], end[0])
    return azimuth % 360.0, metres / 1852.0


def test_course_by_record_and_by_model():
    row = lines(course.show())["ZZAK RNAV (GPS) RWY 09"]
    latitude, longitude, *end = ends(EXAMPLE)
    true_deg, _ = azimuth_deg((latitude, longitude), end)
    model_deg = pygeomag.GeoMag().calculate(glat=latitude, glon=longitude, alt=-0.016, time=2026.9).d
    assert row[0] == ("charted, to set", "092° magnetic")
    assert row[1] == ("true, LTP to FPAP", f"{true_deg:06.2f}°")
    assert row[2] == ("variation of record", "+12.0°")
    assert row[3] == ("magnetic with it", f"{true_deg - 12.0:05.1f}°")
    assert row[4] == ("variation by model, 2026.9", f"+{model_deg:.1f}°")
    assert row[5] == ("magnetic with it", f"{true_deg - model_deg:05.1f}°")


def test_west_variation_added():
    row = dict(lines(course.show())["ZZEG RNP RWY 24"][:4])
    assert (row["true, LTP to FPAP"], row["variation of record"], row["magnetic with it"]) == (
        "231.90°", "-9.0°", "240.9°")


def test_model_over_its_years():
    """Declination by the model's library; its error by WMM 2025, table of uncertainty: 0.26 and 5417 nT over H."""
    latitude, longitude, *_ = ends(EXAMPLE)
    for key, year in (("first", 2025.0), ("last", 2030.0)):
        field = pygeomag.GeoMag().calculate(glat=latitude, glon=longitude, alt=-0.016, time=year)
        assert variation.show().number(key) == pytest.approx(field.d, abs=0.01)
    field = pygeomag.GeoMag().calculate(glat=latitude, glon=longitude, alt=-0.016, time=2025.0)
    assert variation.show().number("uncertainty") == pytest.approx(math.hypot(0.26, 5417.0 / field.h), abs=0.003)
    true_deg, _ = azimuth_deg(ends(EXAMPLE)[:2], ends(EXAMPLE)[2:])
    assert row_of(variation.show(), "2030")[2] == f"{true_deg - 11.44:05.1f}°"


def test_legs_as_printed_and_from_positions():
    places = {fix.name: (fix.latitude_deg, fix.longitude_deg) for fix in EXAMPLE.chart.fixes}
    for start, end, role in (("SWELO", "GULLY", "PFAF"), ("FOMEY", "RW09", "MAP")):
        true_deg, distance_nm = azimuth_deg(places[start], places[end])
        printed = cell(fixes.show(), f"{start} to {end}{role}", 2)
        assert printed == f"{true_deg - 12.0:05.1f}°{distance_nm:.2f} NM"
    assert cell(fixes.show(), "GULLY to FOMEYstep-down", 3) == "800at or above"


def test_plan_matches_briefing():
    assert "GULLY" in fixes_plan.show().markdown


# Path


@pytest.mark.parametrize(("key", "distance_nm"), [("at_5", 5.0), ("at_10", 10.0)])
def test_straight_path_above_barometric(key, distance_nm):
    expected = straight_ft(distance_nm, 50.0) - barometric_ft(distance_nm, 50.0)
    assert path_excess.show().number(key) == pytest.approx(expected, abs=0.1)
    assert row_of(path_excess.show(), f"{distance_nm:.0f} NM")[2] == f"+{expected:.0f} ft"


def test_both_paths_at_fix():
    (latitude, longitude, *_), fix = ends(EXAMPLE), EXAMPLE.pfaf
    _, distance_nm = azimuth_deg((fix.latitude_deg, fix.longitude_deg), (latitude, longitude))
    cells = row(path.show(), f"ZZAK GULLY{distance_nm:.1f} NM out")
    assert cells[1] == "2000"
    assert float(cells[2]) == pytest.approx(barometric_ft(distance_nm, 74.0), abs=0.6)
    assert float(cells[3]) == pytest.approx(straight_ft(distance_nm, 74.0), abs=0.6)


def test_published_approach_below_straight_path():
    """SUDGE of KHWD, charted 3200 ft, 9.47 NM out; threshold 50 ft, crossing height 35 ft, 3.10 degrees."""
    expected = straight_ft(9.47, 85.0, 3.1) - barometric_ft(9.47, 85.0, 3.1)
    assert published.show().number("excess") == pytest.approx(expected, abs=1.0)
    assert published.show().text("excess").translate(SPACES) == "79 ft above the charted altitude"
    assert row(published.show(), "SUDGE") == ["SUDGE", "3200", "3200", "3279"]


# Data block


def test_every_byte_once_in_order():
    octets = {}
    for what, held, _ in rows(block_bytes.show()):
        first, last = re.search(r"bytes? (\d+)(?: to (\d+))?$", what).groups()
        octets |= dict(zip(range(int(first), int(last or first) + 1), bytes.fromhex(held), strict=True))
    assert sorted(octets) == list(range(40))
    assert int.from_bytes(bytes([octets[30], octets[31]]), "little") == 300  # hundredths of a degree
    assert octets[34] == 40.0 / 0.2


def test_effect_of_flipped_bit():
    row = dict(lines(block_flip.show())["glidepath angle: bit 244"])  # 2**4 hundredths of a degree
    assert (row["was"], row["would read"], row["so the block is"]) == ("3°", "3.16°", "refused")
    assert dict(lines(block_flip.show())["runway number: bit 41"])["would read"] == "11"  # 9 with bit 1


def test_all_wrong_bits_found():
    """320 bits; pairs 320 over 2; bursts: an odd first bit, any pattern to the last, at every place."""
    shown = block_flip.show()
    bursts = sum((320 - length + 1) * 2 ** max(0, length - 2) for length in range(1, 33))
    assert (shown.number("single"), shown.number("double"), shown.number("burst")) == (320, 320 * 319 // 2, bursts)
    assert shown.text("double") == "51,040 of 51,040"
    assert shown.number("longest") == 32


# Limits and findings


def test_limits_listed():
    fact = BY_KEY["course"]
    printed = row(limits.show(), fact.what)
    assert printed[1:] == [f"over {limit.value:g}°" for limit in (fact.note, fact.resolve, fact.stop)]
    assert len(rows(limits.show())) == len(BY_KEY)
    assert "The reason for each limit" in limits.show().markdown


def test_damaged_draft_is_stop():
    page = text(damaged.show())
    assert page.startswith("**Do not fly it: ")
    assert page.index("remainder") < page.index("not compared", 100)


# Whole tables


def test_every_identifier_part():
    """Provider by the data block (0: WAAS, W), runway by the runway, a suffix that no parallel runway has."""
    assert printed(identifier.show()) == ["`W09A` of ZZAK, part by part:", [
        ["part", "found", "expected", "rule rests on"], ["length", "4", "4 (fits)", "published"],
        ["provider", "W", "W (fits)", "derived"], ["runway", "09", "09 (fits)", "from memory"],
        ["suffix", "A", "a letter but L, C, R (fits)", "from memory"]]]


def test_every_leg():
    """Courses and lengths by another library's geodesic, less the variation of record; altitudes of the file."""
    fixes_of, before, expected = EXAMPLE.chart.fixes, "", []
    places = {fix.name: (fix.latitude_deg, fix.longitude_deg) for fix in fixes_of}
    for fix in fixes_of:
        if fix.leg_distance_nm is not None:
            true_deg, distance_nm = azimuth_deg(places[before], places[fix.name])
            altitude = f"{fix.altitude_ft:.0f} / {fix.altitude_rule}" if fix.altitude_ft else ""
            expected.append([f"{before} to **{fix.name}** / {fix.role}",
                             f"{fix.leg_course_deg:03.0f}° / {fix.leg_distance_nm:.1f} NM",
                             f"{(true_deg - 12) % 360:05.1f}° / {distance_nm:.2f} NM", altitude])
        before = fix.name
    assert len(expected) == 4
    assert printed(fixes.show()) == ["RNAV (GPS) RWY 09, ZZAK; altitudes in feet:", [
        ["leg", "> printed", "> computed", "> altitude"], *expected]]


def test_cycle_beyond_model():
    """WMM 2025 ends with 2029; 55 cycles after 2612 the first of 2031 begins on 16 January."""
    later = replace(EXAMPLE, identity=replace(EXAMPLE.identity, cycle="3101"))
    assert [tuple(text.translate(SPACES) for text in line) for line in course.by_model(later)] == [
        ("variation by model, 2031.0", "not known: the model holds from 2025 to 2030")]


def test_model_table_and_drawing():
    """Each whole year by the model's library; half a year apart in the drawing, with its error to either side."""
    latitude, longitude, *_ = ends(EXAMPLE)
    true_deg, _ = azimuth_deg(ends(EXAMPLE)[:2], ends(EXAMPLE)[2:])

    def field(year):
        return pygeomag.GeoMag().calculate(glat=latitude, glon=longitude, alt=-0.0164, time=year)

    spread = math.hypot(0.26, 5417.0 / field(2025.0).h)
    first, last = field(2025.0).d, field(2030.0).d
    assert variation.show().number("uncertainty") == pytest.approx(spread, abs=1e-4)
    assert {key: variation.show().text(key) for key in ("first", "last", "uncertainty")} == {
        "first": f"+{first:.1f}°", "last": f"+{last:.1f}°", "uncertainty": f"{spread:.1f}°"}
    assert printed(variation.show()) == [
        f"At the example the model moves from +{first:.1f}° in 2025 to +{last:.1f}° in 2030 (uncertain by "
        f"{spread:.1f}°); the chart's variation of record stays at +12.0°.",
        [["year", "model variation", "magnetic final course"],
         *([f"{year}", f"+{field(float(year)).d:.2f}°", f"{true_deg - field(float(year)).d:05.1f}°"]
           for year in range(2025, 2031))]]
    (axes,) = drawings(variation.show)
    model, record = curves(axes)
    assert model == [(2025 + half / 2, pytest.approx(field(2025 + half / 2).d, abs=1e-3)) for half in range(11)]
    assert [y for _, y in record] == [12, 12]
    (band,) = axes.collections
    reach = band.get_paths()[0].vertices[:, 1]
    assert [min(reach), max(reach)] == pytest.approx([last - spread, first + spread], abs=1e-3)
    assert labels(axes) == {"of record": (2030, 12), "model and its uncertainty": (0, 0)}
    assert window(axes)[:2] == (2025, 2030.25)


def test_every_fix_with_both_paths(monkeypatch):
    """Threshold and crossing height of each file; where the chart prints no altitude there is none to compare."""
    tables = printed(path.show())
    assert tables[0] == "At the FAF, in feet, on a standard day:"
    assert tables[1][0] == ["FAF", "> charted", "> barometric path", "> SBAS path"]
    for cells, slug in zip(tables[1][1:], ("zzak-rnav-09", "zzak-rnav-16", "zzeg-rnp-24", "zzhc-rnav-33"), strict=True):
        approach = demo(slug)
        fix, chart, (latitude, longitude, *_) = approach.pfaf, approach.chart, ends(approach)
        _, distance_nm = azimuth_deg((fix.latitude_deg, fix.longitude_deg), (latitude, longitude))
        over_ft = chart.threshold_elevation_ft + chart.tch_ft
        assert cells == [
            about(f"{approach.identity.airport} {fix.name} / {{:.1f}} NM out", distance_nm), f"{fix.altitude_ft:.0f}",
            about("{:.0f}", barometric_ft(distance_nm, over_ft, chart.glidepath_deg), off=1.1),
            about("**{:.0f}**", straight_ft(distance_nm, over_ft, chart.glidepath_deg), off=1.1)]
    bare = tuple(replace(fix, altitude_ft=None) if fix.role == "PFAF" else fix for fix in EXAMPLE.chart.fixes)
    monkeypatch.setattr(path, "examples", lambda: [replace(EXAMPLE, chart=replace(EXAMPLE.chart, fixes=bare))])
    assert printed(path.show())[1][1][1] == "none"


def test_excess_table_and_drawing():
    """Both lines from 50 ft at sea level: by the law of sines, and at one angle to every level."""
    def excess(nm):
        return straight_ft(nm, 50.0) - barometric_ft(nm, 50.0)

    assert printed(path_excess.show()) == [
        f"On a 3° path the SBAS glidepath is {excess(5):.0f} ft above the charted (barometric) altitude at 5 NM and "
        f"{excess(10):.0f} ft at 10 NM, on a standard day.",
        [["distance", "barometric path", "SBAS path above it"],
         *([f"{nm} NM", f"{barometric_ft(nm, 50.0):.0f} ft", f"+{excess(nm):.0f} ft"] for nm in (3, 5, 7, 10))]]
    (axes,) = drawings(path_excess.show)
    curve, *marks = curves(axes)
    assert curve == [(part / 4, pytest.approx(excess(part / 4), abs=0.1)) for part in range(49)]
    assert marks == [[(nm, pytest.approx(excess(nm), abs=0.1))] for nm in (3, 5, 7, 10)]
    assert labels(axes) == {
        f"{excess(nm):.0f}\u202fft": (nm, pytest.approx(excess(nm), abs=0.1)) for nm in (3, 5, 7, 10)}
    assert window(axes)[:3] == (0, 12, 0)


def test_published_approach_at_each_fix():
    """CIFP: 1007, 1369, 2126 and 3200 ft; the barometric path meets them to the foot, the straight one ends above."""
    head, table, source = printed(published.show())
    assert head == "Altitudes in feet at the fixes of the final approach to runway 28L of KHWD:"
    assert table[0] == ["fix", "> published", "> barometric path", "> SBAS path"]
    assert [cells[:2] for cells in table[1:]] == [
        ["HUZBY", "1007"], ["BOGRE", "1369"], ["FENRA", "2126"], ["SUDGE", "3200"]]
    for _, altitude, barometric, straight in table[1:]:
        assert abs(int(barometric) - int(altitude)) <= 1
        run_ft = (int(barometric) - 85) / math.tan(math.radians(3.1))
        assert int(straight) - int(barometric) == pytest.approx(run_ft**2 / (2 * 20890537.0), abs=2)
    assert source.startswith("Published values: FAA, Coded Instrument Flight Procedures")


def test_every_block_field():
    """Decoded by struct from the bytes shown: angles in 0.0005 arc seconds, heights in tenths above -512 m."""
    rows_of = printed(block_bytes.show())[0]
    assert rows_of[0] == ["field", "as stored", "means"]
    fields = {name: (held.strip("`"), means) for name, held, means in rows_of[1:]}
    octets = bytes.fromhex("".join(held.replace(" ", "") for held, _ in (
        fields["LTP latitude / bytes 12 to 15"], fields["LTP longitude / bytes 16 to 19"])))
    angles = [count * 0.0005 / 3600 for count in struct.unpack("<ii", octets)]
    height, angle = (int.from_bytes(bytes.fromhex(fields[name][0]), "little") for name in (
        "LTP height above the ellipsoid / bytes 20 to 21", "glidepath angle / bytes 30 to 31"))
    held = [bytes.fromhex(fields[f"FPAP {way} minus LTP {way} / bytes {place}"][0])
            for way, place in (("latitude", "22 to 24"), ("longitude", "25 to 27"))]
    shifts = [int.from_bytes(octets, "little", signed=True) * 0.0005 / 3600 for octets in held]
    assert {name.partition(" / ")[0]: means for name, (_, means) in fields.items()} == {
        "operation type": "0", "SBAS provider": "0", "airport identifier": "ZZAK", "runway number": "9",
        "runway letter": "none", "approach performance designator": "0", "route indicator": "none",
        "reference path data selector": "0", "reference path identifier": "W09A",
        "LTP latitude": f"{angles[0]:.7f}".rstrip("0") + "°", "LTP longitude": f"{angles[1]:.7f}".rstrip("0") + "°",
        "LTP height above the ellipsoid": f"{height / 10 - 512:.1f} m",
        "FPAP latitude minus LTP latitude": f"{shifts[0]:.7f}°",
        "FPAP longitude minus LTP longitude": f"{shifts[1]:.7f}°",
        "threshold crossing height": "52 ft", "unit of the threshold crossing height": "ft",
        "glidepath angle": f"{angle / 100:g}°", "course half-width at the threshold": f"{0x6B * 0.25 + 80:.2f} m",
        "length offset": "0 m", "horizontal alert limit": f"{0xC8 / 5:g} m", "vertical alert limit": f"{0xAF / 5:g} m",
        "remainder": fields["remainder / bytes 36 to 39"][0].replace(" ", "")}


def test_each_flipped_bit():
    """Its weight: 2**4 hundredths of a degree, 2**6 tenths of a foot, 2**12 half-thousandths of a second, 2**8 tenths
    of a metre, and 2**1 of a runway; one remainder is stored, and each computed one is another."""
    latitude = 34.0211 + 2**12 * 0.0005 / 3600
    expected = {
        "glidepath angle: bit 244": ("3°", "3.16°"), "threshold crossing height: bit 230": ("52 ft", "58.4 ft"),
        "LTP latitude: bit 108": ("34.0211°", f"{latitude:.8f}°"),
        "LTP height above the ellipsoid: bit 168": ("-16.4 m", f"{-16.4 - 25.6:.0f} m"),
        "runway number: bit 41": ("9", "11")}
    blocks = printed(block_flip.show())
    assert {block[0][0]: (block[1][1], block[2][1]) for block in blocks} == expected
    assert {(block[1][0], block[2][0], block[3][0], block[4][0], *block[5]) for block in blocks} == {
        ("was", "would read", "remainder stored", "remainder computed", "so the block is", "refused")}
    (stored,) = {block[3][1] for block in blocks}
    assert len({stored, *(block[4][1] for block in blocks)}) == 1 + len(expected)


def test_fields_compared_by_no_rule():
    """The keys of the two lists, in the words of the schema; coded legs and the file's books in a sentence."""
    first, possible, second, plain, rest = printed(cannot_see.show())
    assert first == "Only checked to be possible; a slip that is still possible goes unnoticed:"
    assert second == "Not compared at all:"
    assert (possible[0], plain[0]) == (["field", "why"], ["field", "why"])
    assert ["visibility", "printed on the chart only"] in possible
    assert len(possible) - 1 <= len(POSSIBLE)
    assert ["name of the airport", "words or a name, without a second source"] in plain
    coded = [place for place in UNREAD if place.startswith("database.leg.")]
    assert len(plain) - 1 <= len(UNREAD) - len(coded)
    legs, _, books = rest.partition(". Nor the file's own books: ")
    assert legs.startswith("Nor what coded legs hold beside position, altitude, course, length and angle: which part")
    assert legs.endswith("GNSS indication, route qualifiers")
    assert len(books.split(", ")) == len(BOOKS)
    assert not {"sequence number", "route qualifiers"} & {cells[0] for cells in plain}


def outcome(grade, *found_by, kind="course", effect=None, unit="", words="", expected="stop"):
    case = Case(id="one", kind=kind, what="Something altered", base="zzak-rnav-09", alter={}, effect=effect, unit=unit,
                words=words, grade=expected, by="")
    findings = tuple(Finding(key=key, about="", grade=grade, what="", why="") for key in found_by)
    return Outcome(case, findings)


@pytest.mark.parametrize(("given", "words"), [
    ({"words": "another runway"}, "another runway"), ({"effect": 1.25, "unit": "deg"}, "1.3°"),
    ({"effect": 312.4, "unit": "ft"}, "312 ft"), ({"effect": 9.6, "unit": "m"}, "10 m")])
def test_mismatch_effects(given, words):
    assert scoreboard.effect(outcome("stop", "a", **given)).translate(SPACES) == words


def test_scoreboard(monkeypatch):
    """Three seeded ones of two kinds, of which a note is the least; of three harmless ones one is wrongly a stop."""
    monkeypatch.setattr(scoreboard, "outcomes", lambda: [
        outcome("stop", "runway", "course", "identifier", words="another runway"),
        outcome("note", "variation", effect=0.26, unit="deg", expected="note"),
        outcome("resolve", "length", kind="legs", effect=312.4, unit="ft", expected="resolve"),
        outcome("stop", "channel", kind="harmless", words="none", expected=""),
        outcome("ok", "fix", kind="harmless", words="none", expected=""),
        outcome("note", "fix", kind="harmless", words="none", expected="")])
    text = scoreboard.show().markdown
    assert text.startswith("**3 seeded mismatches: ")
    assert "Of 3 harmless ones 2 stayed quiet." in text
    assert all(tally in text.splitlines()[0] for tally in ("1 stop", "1 resolve", "1 note"))
    heads = ["altered", "found by", "grade"]
    assert printed(scoreboard.show())[1:] == [
        '??? note "course: 2"', [
            heads, ["Something altered / another runway; zzak-rnav-09", "runway, course", "**stop**"],
            ["Something altered / 0.3°; zzak-rnav-09", "variation", "**note**"]],
        '??? note "legs: 1"', [heads, ["Something altered / 312 ft; zzak-rnav-09", "length", "**resolve**"]]]
