"""What the rules of the cross-check are put together from, each against figures worked out apart."""

from dataclasses import replace

import pytest

from demo import approaches as make_demo
from lpv.approach.geometry import position_along
from lpv.approach.record import read
from lpv.core import airac
from lpv.core.errors import DomainError
from lpv.core.findings import Finding
from lpv.crosscheck import (
    coded,
    descent,
    final,
    fixes,
    identity,
    minima,
    missed,
    printed,
    runway,
    segment,
    statements,
)
from lpv.facts import value
from lpv_site.checks.mismatches import moved

PLAIN = read(make_demo.FOLDER / "zzak-rnav-09.toml")
DISPLACED = read(make_demo.FOLDER / "zzak-rnav-16.toml")
LATERAL = read(make_demo.FOLDER / "zzak-rnav-27.toml")
COLD = read(make_demo.FOLDER / "zzhc-rnav-33.toml")
EUROPEAN = read(make_demo.FOLDER / "zzeg-rnp-24.toml")
DAY = airac.from_iso("2026-12-01")


def chart(approach, **values):
    return replace(approach, chart=replace(approach.chart, **values))


def with_segment(approach, held):
    block = replace(approach.database.block, segment=held)
    return replace(approach, database=replace(approach.database, block=block))


# On the earth


@pytest.mark.parametrize("move", [{"along_m": -290.0}, {"along_m": 40.0}, {"across_m": 12.0}, {"across_m": -300.0}])
def test_ltp_offset_equals_segment_shift(move):
    shifted = with_segment(PLAIN, moved(PLAIN.segment, **move))
    surveyed = PLAIN.runway.threshold_latitude_deg, PLAIN.runway.threshold_longitude_deg
    along_m, across_m = runway.ltp_offset_m(shifted, *surveyed)
    assert along_m == pytest.approx(move.get("along_m", 0.0), abs=0.4)
    assert across_m == pytest.approx(move.get("across_m", 0.0), abs=0.4)


def test_short_segment_reports_crossing_place():
    """290 m at 3 degrees are 49.9 ft of path; 52 ft of crossing height leave 2 ft."""
    shifted = with_segment(PLAIN, moved(PLAIN.segment, along_m=-290.0))
    (finding,) = runway.threshold_position(shifted, None)
    assert finding.grade == "stop"
    assert finding.computed == "the glidepath crosses the threshold at 2\u202fft"
    assert "before" in finding.database


def test_position_along_course():
    threshold = PLAIN.segment.ltp_latitude_deg, PLAIN.segment.ltp_longitude_deg
    assert position_along(PLAIN.segment, *threshold) == pytest.approx((0.0, 0.0), abs=1e-6)


def test_runway_before_displaced_threshold():
    assert runway.ahead_ft(DISPLACED) == runway.ahead_ft(replace(DISPLACED, runway=None)) == 5300.0
    assert runway.ahead_ft(chart(replace(PLAIN, runway=None), displaced_threshold_ft=None)) == 10000.0


def test_fpap_places():
    assert runway.fpap_places_ft(DISPLACED) == [9023.0]
    assert runway.fpap_places_ft(PLAIN) == [10000.0]
    assert runway.fpap_places_ft(EUROPEAN) == [9023.0, 7874.0]
    long = replace(EUROPEAN, runway=replace(EUROPEAN.runway, length_ft=10000.0))
    assert runway.fpap_places_ft(long) == [10000.0]


def fpap_grade(approach, **moves):
    [finding] = runway.fpap(with_segment(approach, moved(approach.segment, **moves)), None)
    return finding.grade


def test_fpap_away_from_both_places_graded():
    """Short of the runway's end it opens the course; beyond it another State may have its reasons."""
    assert fpap_grade(EUROPEAN) == "ok"
    assert fpap_grade(EUROPEAN, fpap_m=-60.0) == fpap_grade(EUROPEAN, fpap_m=2000.0) == "resolve"
    assert fpap_grade(EUROPEAN, fpap_m=-350.0) == "ok"
    assert fpap_grade(EUROPEAN, fpap_m=-1000.0) == fpap_grade(DISPLACED, fpap_m=400.0) == "stop"


# What the altitudes ask for


def with_altitudes(approach, **altitudes_ft):
    fixes = tuple(replace(fix, altitude_ft=altitudes_ft.get(fix.name, fix.altitude_ft))
                  for fix in approach.chart.fixes)
    return chart(approach, fixes=fixes)


def only(rule, approach):
    [finding] = rule(approach, None)
    return finding


def test_descent_from_fix_to_fix():
    """6.0 NM from BRYNA, 3000 ft, to SWELO, 2500 ft; 5.5 NM on to GULLY, 2000 ft; at most 500 ft/NM."""
    assert descent.steps(PLAIN) == [
        ("BRYNA to SWELO", pytest.approx(500 / 6.0, abs=0.5)), ("SWELO to GULLY", pytest.approx(500 / 5.5, abs=0.5))]
    grades = [only(descent.to_the_faf, with_altitudes(PLAIN, BRYNA=altitude_ft)).grade for altitude_ft in (5480, 5520)]
    assert grades == ["ok", "resolve"]
    only_cap = chart(PLAIN, fixes=(replace(PLAIN.chart.fixes[0], altitude_rule="at or below"), *PLAIN.chart.fixes[1:]))
    assert [names for names, _ in descent.steps(only_cap)] == ["SWELO to GULLY"]


@pytest.mark.parametrize(("altitude_ft", "grade"), [(1580, "resolve"), (1595, "ok"), (2485, "ok"), (2500, "resolve")])
def test_descent_without_glidepath(altitude_ft, grade):
    """SKUAH lies 6.04 NM before a threshold crossed at 78 ft: 250 ft/NM from 1587 ft, 400 ft/NM from 2492 ft."""
    assert only(descent.without_a_path, with_altitudes(LATERAL, SKUAH=altitude_ft)).grade == grade
    assert list(descent.without_a_path(PLAIN, None)) == []


def test_step_down_above_minimum():
    grades = [only(descent.under_the_minimum, with_altitudes(PLAIN, FOMEY=altitude_ft)).grade
              for altitude_ft in (479, 480)]
    assert grades == ["resolve", "ok"]
    assert list(descent.under_the_minimum(chart(PLAIN, minima=()), None)) == []


@pytest.mark.parametrize(("altitude_ft", "grade"), [(480, "stop"), (481, "resolve"), (1030, "resolve"), (1031, "ok")])
def test_missed_approach_climbs(altitude_ft, grade):
    """Over the MDA of 480 ft, and 1000 ft over the airport at 31 ft; the lower of text and hold counts."""
    assert only(descent.missed_height, with_altitudes(PLAIN, KELPO=altitude_ft)).grade == grade
    in_words = chart(PLAIN, missed=replace(PLAIN.chart.missed, altitude_ft=altitude_ft))
    assert only(descent.missed_height, in_words).grade == grade
    assert list(descent.missed_height(with_altitudes(chart(PLAIN, missed=None), KELPO=None), None)) == []


def test_altitudes_without_second_source_named():
    """The FAF's on a glidepath has one; every other is listed."""
    assert only(descent.over_the_ground, PLAIN).chart == ", ".join(
        f"{fix}\u202fft" for fix in ("BRYNA 3000", "SWELO 2500", "FOMEY 800", "KELPO 3000"))
    assert "SKUAH 2000" in only(descent.over_the_ground, LATERAL).chart
    bare = with_altitudes(PLAIN, BRYNA=None, SWELO=None, FOMEY=None, KELPO=None)
    assert list(descent.over_the_ground(bare, None)) == []


# Names and copies


@pytest.mark.parametrize("title", ["rnav (gps) rwy 09", "RNAV  (GPS)  Rwy 09 "])
def test_title_comparison_ignores_case(title):
    plain = replace(PLAIN, identity=replace(PLAIN.identity, title=title))
    grades = [(finding.key, finding.grade) for finding in identity.title(plain, None)]
    assert grades == [("title", "ok"), ("title-letter", "ok")]


def test_copies_rounded_either_way_agree():
    """91.5 degrees are 91 to one and 92 to another; 5.45 NM are 5.4 and 5.5."""
    assert fixes._copy_grades((91.0, 5.4), (92.0, 5.5), (91.5, 5.45)) == ["ok"]
    assert fixes._copy_grades((91.0, 5.4), (92.0, 5.4), (91.8, 5.4)) == ["resolve", "ok"]
    assert fixes._copy_grades((91.0, 5.4), (91.0, 5.6), (91.0, 5.4)) == ["ok", "resolve"]
    assert fixes._copy_grades((None, 5.4), (92.0, None), (91.5, 5.45)) == ["ok"]


def test_unstated_missed_approach_leg_named():
    held = tuple(replace(fix, course_deg=None, distance_nm=None) if fix.name == "KELPO" else fix
                 for fix in PLAIN.database.fixes)
    shown = replace(PLAIN, database=replace(PLAIN.database, fixes=held))
    rows = {finding.about: finding for finding in fixes.legs(shown, None)}
    assert (rows["KELPO"].grade, rows["KELPO"].reason) == ("not compared", "missing in the database part")
    assert "N33 59 08.31" in rows["KELPO"].computed


def test_fix_at_threshold():
    assert runway.fix_at_threshold(PLAIN).name == "RW09"
    names = tuple(replace(fix, name="MAPXX") if fix.role == "MAP" else fix for fix in PLAIN.chart.fixes)
    assert runway.fix_at_threshold(chart(PLAIN, fixes=names)) is None
    assert list(runway.map_position(chart(PLAIN, fixes=names), None)) == []


@pytest.mark.parametrize("rule", [
    runway.threshold_position, runway.bearing, runway.elevation, runway.dimensions,
])
def test_nothing_ok_without_surveyed_runway(rule):
    findings = list(rule(replace(PLAIN, runway=None), None))
    assert findings
    assert {(f.grade, f.reason) for f in findings} == {("not compared", "not stated")}


@pytest.mark.parametrize(("off_m", "grade"), [
    (0.0, "ok"), (1.8, "ok"), (-1.8, "ok"), (2.3, "resolve"), (-4.7, "resolve"), (5.3, "stop"), (-95.0, "stop"),
])
def test_threshold_height_from_geoid(off_m, grade):
    height_m = round(PLAIN.segment.ltp_height_m + off_m, 1)
    (finding,) = runway.threshold_height(with_segment(PLAIN, replace(PLAIN.segment, ltp_height_m=height_m)), None)
    assert finding.grade == grade


def test_maximum_offset_from_own_rules():
    """4 degrees: over the FAA's 3, within the 5 of ICAO."""
    turned = with_segment(PLAIN, moved(PLAIN.segment, turned_deg=4.0))
    (faa,) = runway.bearing(turned, None)
    (icao,) = runway.bearing(replace(turned, identity=replace(turned.identity, rule="ICAO")), None)
    assert (faa.grade, icao.grade) == ("stop", "resolve")
    assert faa.computed.startswith("+4.0")
    (other,) = runway.bearing(with_segment(PLAIN, moved(PLAIN.segment, turned_deg=-4.0)), None)
    assert other.computed.startswith("\u22124.0")


# The segment's own fields


@pytest.mark.parametrize(("garp_ft", "width_m"), [
    (10023.0, 106.75), (13366.0, 106.75), (14000.0, 111.75), (17185.0, 137.25), (11000.0, 106.75),
])
def test_faa_course_half_width(garp_ft, width_m):
    """350 ft are 106.68 m; beyond 13366 ft tan(1.5 deg) governs: 14000 ft x 0.026186 x 0.3048 = 111.74 m."""
    assert segment.faa_half_width_m(garp_ft) == width_m


def test_course_half_width_elsewhere():
    assert segment.designed_half_width_m(EUROPEAN) == 105.0
    faa_made = with_segment(EUROPEAN, replace(EUROPEAN.segment, course_width_m=106.75))
    assert segment.designed_half_width_m(faa_made) == 106.75
    assert segment.designed_half_width_m(PLAIN) == 106.75


def test_angle_limits_follow_rules_and_categories():
    assert segment.angle_limits_deg(PLAIN) == (2.75, 3.1, "FAA, category D, from memory")
    assert segment.angle_limits_deg(COLD) == (2.75, 3.6, "FAA, category C, from memory")
    assert segment.angle_limits_deg(EUROPEAN) == (3.0, 3.5, "ICAO, written for barometric paths")
    assert segment.angle_limits_deg(chart(PLAIN, minima=()))[1] == 6.4
    assert set(segment.CATEGORIES) == set("ABCDE")


# Course and variation


def test_course_off_segment():
    assert final.course_off_deg(PLAIN) == pytest.approx(0.4, abs=0.01)
    assert final.course_off_deg(chart(PLAIN, course_deg=91.0)) == pytest.approx(-0.6, abs=0.01)


def test_variation_explains_only_current_cycle_and_true_course():
    """E17 of 1995 is E14.5 today: the aircraft shows 333.7 where the chart prints 331."""
    shown = 333.5
    assert final.variation_explains(COLD, shown, DAY)
    assert not final.variation_explains(COLD, shown, None)
    assert not final.variation_explains(COLD, shown, DAY + 60)
    assert not final.variation_explains(COLD, 329.0, DAY)
    assert not final.variation_explains(chart(COLD, course_deg=329.0), shown, DAY)
    older = replace(COLD, identity=replace(COLD.identity, cycle="2611"))
    assert not final.variation_explains(older, shown, DAY)


def test_displayed_course_is_note_only_if_explained():
    def shown(approach, course_deg, day):
        held = replace(approach, database=replace(approach.database, course_deg=course_deg))
        (finding,) = final.course_shown(held, day)
        return finding.grade

    assert shown(COLD, 333.5, DAY) == "note"
    assert shown(COLD, 333.5, None) == "resolve"
    assert shown(COLD, 329.0, DAY) == "resolve"
    assert shown(COLD, 335.0, DAY) == "stop"
    assert shown(PLAIN, 92.5, DAY) == "ok"
    assert shown(PLAIN, None, DAY) == "not compared"


def test_model_silent_outside_its_years():
    assert final.model_variation_deg(PLAIN, DAY) == pytest.approx(12.0, abs=0.5)
    assert final.model_variation_deg(PLAIN, airac.from_iso("1995-06-01")) is None


# Fixes, missed approach, minima, what the chart alone prints


def test_held_fixes_by_name():
    held = fixes.held_fixes(PLAIN)
    assert list(held) == ["BRYNA", "SWELO", "GULLY", "FOMEY", "RW09", "KELPO"]
    assert held["GULLY"].altitude_ft == 2000


def test_two_fixes_at_same_place_are_stop():
    same = {"latitude_deg": PLAIN.pfaf.latitude_deg, "longitude_deg": PLAIN.pfaf.longitude_deg}
    moved_fixes = tuple(replace(fix, **same) if fix.name == "FOMEY" else fix for fix in PLAIN.chart.fixes)
    findings = {f.about: f for f in fixes.legs(chart(PLAIN, fixes=moved_fixes), None)}
    assert (findings["FOMEY"].grade, findings["FOMEY"].computed) == ("stop", "both ends at one place")


def test_last_missed_approach_fix():
    assert missed.last_fix(PLAIN).name == "KELPO"
    first = tuple(replace(fix, role="missed") if fix.role == "missed hold" else fix for fix in PLAIN.chart.fixes)
    assert missed.last_fix(chart(PLAIN, fixes=first)).name == "KELPO"
    assert missed.last_fix(chart(PLAIN, fixes=PLAIN.chart.fixes[:-1])) is None


@pytest.mark.parametrize(("text", "grade"), [
    ("Climb to 3,000 direct KELPO and hold.", "ok"), ("Climb on 092° to 3000, KELPO.", "ok"),
    ("Climb to 3050 direct KELPO.", "resolve"), ("Climb to 3060 direct KELPO.", "stop"),
    ("Climb direct KELPO and hold, 5.25\u202fNM.", "not compared"),
])
def test_altitude_in_text(text, grade):
    words = replace(PLAIN.chart.missed, instruction=text)
    grades = {f.key: f.grade for f in missed.words(chart(PLAIN, missed=words), None)}
    assert grades == {"missed-text": grade, "missed-fix": "ok"}


def test_lowest_heights_and_visibilities():
    by_line = {(m.line, m.categories): minima.lowest_height(m).value for m in PLAIN.chart.minima}
    assert by_line == {("LPV", "ABCD"): 200.0, ("LNAV/VNAV", "ABCD"): 250.0, ("LNAV", "ABCD"): 250.0,
                       ("circling", "ABC"): 450.0, ("circling", "D"): 550.0}
    assert minima.lowest_visibility_ft("FAA", "circling") == 5280.0
    assert minima.lowest_visibility_ft("EASA", "circling") == pytest.approx(4921.3, abs=0.1)
    assert minima.lowest_visibility_ft("EASA", "LPV") == value("visibility_lowest_ft")


def test_angle_share_at_temperature():
    """At -15 degrees Celsius the order's formula leaves 0.917 of a 3 degree path from 2000 ft above the sea."""
    assert printed.path_share(PLAIN, -15.0) == pytest.approx(0.917, abs=0.001)
    assert printed.path_share(PLAIN, 15.0) > 1.0
    assert printed.path_share(chart(PLAIN, glidepath_deg=None), 15.0) is None


def test_named_light_length():
    assert printed.lights_range_ft("MALSR", 3.0) == (2250.0, 2550.0)
    assert printed.lights_range_ft("ALSF-2", 2.7) == (2850.0, 3150.0)
    low_ft, high_ft = printed.lights_range_ft("full approach lights", 3.0)
    assert (low_ft, high_ft) == (pytest.approx(2362.2, abs=0.1), 4000.0)
    assert printed.lights_range_ft("intermediate lights", 3.0)[1] == pytest.approx(2362.2, abs=0.1)
    assert printed.lights_range_ft("lamps of our own", 3.0) is None


@pytest.mark.parametrize(("name", "computed"), [
    ("MALSR lights", "2250\u202fft to 2550\u202fft, from memory"), ("ALSF-2", "2250\u202fft to 2550\u202fft"),
    ("full", "2362\u202fft to 4000\u202fft"), ("mals", "1250\u202fft to 1550\u202fft, from memory"),
])
def test_lights_length_marked_from_memory(name, computed):
    lights = replace(PLAIN.chart.lights, name=name, length_ft=2400.0)
    assert only(printed.lights, chart(PLAIN, lights=lights)).computed == computed


@pytest.mark.parametrize(("rows", "faults"), [
    ([(180, 180)], 0), ([(90, 180), (180, 90)], 0), ([(90, 170), (180, 90)], 1), ([(90, 200), (180, 90)], 1),
    ([(0, 120), (120, 240), (240, 360)], 0), ([(0, 120), (120, 240)], 1),
])
def test_sectors_form_full_circle(rows, faults):
    sector = PLAIN.chart.msa[0]
    sectors = tuple(replace(sector, from_deg=begin, to_deg=end) for begin, end in rows)
    (finding,) = printed.safe_altitudes(chart(PLAIN, msa=sectors), None)
    assert finding.grade == ("resolve" if faults else "ok")


@pytest.mark.parametrize(("altitude_ft", "radius_nm", "good"), [
    (1100.0, 25.0, True), (1000.0, 25.0, False), (1150.0, 25.0, False), (1101.0, 25.0, False),
    (1100.0, 24.9, False), (1100.0, 30.0, True), (1100.0, 30.1, False),
])
def test_sector_altitudes_and_radii_plausible(altitude_ft, radius_nm, good):
    """The airport lies at 31 ft: 1000 ft above it is 1031 ft."""
    sector = replace(PLAIN.chart.msa[0], altitude_ft=altitude_ft, radius_nm=radius_nm)
    (finding,) = printed.safe_altitudes(chart(PLAIN, msa=(sector,)), None)
    assert finding.grade == ("ok" if good else "resolve")


# Findings put together


def test_agreeing_copies_not_compared():
    rows = [Finding("channel", "ok", "w", "1", "1"), Finding("channel", "stop", "w", "1", "2"),
            Finding("hal", "ok", "w", database="40\u202fm")]
    kept = coded.without_copies(chart(PLAIN, from_coded_record=True), rows)
    assert [f.grade for f in kept] == ["not compared", "stop", "ok"]
    assert coded.without_copies(PLAIN, rows) is rows


def test_missing_value_names_its_side():
    assert statements.one_sided("k", "w", chart="1").reason == "missing in the database part"
    assert statements.one_sided("k", "w", database="1").reason == "missing in the chart part"
    assert statements.unsurveyed("k", "w", action="a").reason == "not stated"
    assert statements.within(3.0 + 1e-12, 1.0, 3.0)
    assert not statements.within(3.1, 1.0, 3.0)


def test_impossible_temperature_has_no_share():
    with pytest.raises(DomainError):
        printed.path_share(PLAIN, 80.0)
