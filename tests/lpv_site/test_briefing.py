"""Briefings: the flying sections and the card, for the demo and for odd but valid approaches."""

import math
import re
from dataclasses import replace

import pytest

from lpv.air.altimetry import minimum_addition_ft, segment_addition_ft
from lpv.core.course import reciprocal_deg
from lpv.core.findings import Finding
from lpv.core.text import MINUS, number, quantity, signed
from lpv.core.units import FT_PER_NM, M_PER_FT
from lpv.crosscheck.fixes import foot
from lpv.decide.cold import charted_altitudes, pfaf_addition_ft
from lpv.decide.missed import distance_to_altitude_nm, required_climb_rate_fpm
from lpv.fas import segment
from lpv.geodesy import earth
from lpv.motion.kinematics import descent_rate_fpm
from lpv.path.deviation import final_full_scale_ft, from_two_dots_ft
from lpv.path.profile import barometric_path_angle_deg, straight_path_distance_nm
from lpv.path.scale import lpv_full_scale_ft, origin_distance_nm
from lpv.path.temperature import indicated_on_path_ft, path_met_distance_nm
from lpv_site.briefing import card as briefing_card
from lpv_site.briefing import flying as briefing_flying
from lpv_site.briefing.briefing import build_briefing_page
from lpv_site.department.data import examples
from lpv_site.figures.figure import fill
from lpv_site.text.inline import expand
from paths_by_hand import before_threshold_ft

DEMO = {approach.slug: approach for approach in examples()}
FIRST = DEMO["zzak-rnav-09"]
STEEP = DEMO["zzhc-rnav-33"]
LATERAL = DEMO["zzak-rnav-27"]
IDS = ["rate", "altimeter", "cold", "scale", "decision", "climb"]
HOSTILE = '<script>alert("x")</script> | *b* `c` {{ fact("x") }} ]($'


def rows(text):
    """The rows of all tables in a section, as texts."""
    lines = re.findall(r"<tr>(.*?)</tr>", fill(text).replace("&#40;", "(").replace("&#41;", ")"))
    return [re.findall(r"<t[dh][^>]*>(.*?)</t[dh]>", line) for line in lines]


def column(text, first, place=1):
    """The cell at a place in the row that begins with a text."""
    return next(row[place] for row in rows(text) if row[0] == first)


def degrees(*below):
    """Headings of columns for so many degrees below zero."""
    return [f"{MINUS}{temperature}°C" for temperature in below]


def charted(approach, **changes):
    return replace(approach, chart=replace(approach.chart, **changes))


def with_pfaf(approach, **changes):
    fixes = [replace(fix, **changes) if fix.role == "PFAF" else fix for fix in approach.chart.fixes]
    return charted(approach, fixes=tuple(fixes))


def pfaf_at(approach, distance_nm, altitude_ft):
    """The approach with its PFAF moved along the final course."""
    held = approach.segment
    back_deg = reciprocal_deg(approach.true_course_deg)
    place = earth.destination(held.ltp_latitude_deg, held.ltp_longitude_deg, back_deg, distance_nm)
    return with_pfaf(approach, latitude_deg=place[0], longitude_deg=place[1], altitude_ft=altitude_ft)


def raised(approach, by_ft):
    """The approach with everything on its chart higher."""
    chart = approach.chart
    return charted(
        approach,
        threshold_elevation_ft=chart.threshold_elevation_ft + by_ft,
        tdze_ft=chart.tdze_ft + by_ft,
        airport_elevation_ft=chart.airport_elevation_ft + by_ft,
        fixes=tuple(
            replace(fix, altitude_ft=None if fix.altitude_ft is None else fix.altitude_ft + by_ft)
            for fix in chart.fixes
        ),
        minima=tuple(replace(line, altitude_ft=line.altitude_ft + by_ft) for line in chart.minima),
        missed=replace(chart.missed, altitude_ft=chart.missed.altitude_ft + by_ft),
    )


ODD = {
    "very long final": pfaf_at(FIRST, 45, 15000),
    "PFAF beyond every scale": pfaf_at(FIRST, 150, 30000),
    "PFAF behind the threshold": pfaf_at(FIRST, -1, 100),
    "PFAF inside the decision": pfaf_at(FIRST, 0.3, 200),
    "angle of six degrees": charted(FIRST, glidepath_deg=6.0),
    "angle of nine degrees": charted(FIRST, glidepath_deg=9.0),
    "airport at 9000 ft": raised(FIRST, 9000),
    "lateral only at 9000 ft": raised(LATERAL, 9000),
    "airport above the altimeter's domain": raised(FIRST, 15900),
    "airport below sea level": raised(FIRST, -1400),
    "no altitude at the PFAF": with_pfaf(FIRST, altitude_ft=None, altitude_rule=None),
    "lateral only, no altitude at the PFAF": with_pfaf(LATERAL, altitude_ft=None, altitude_rule=None),
    "lateral only, PFAF under the threshold": with_pfaf(LATERAL, altitude_ft=10.0),
    "lateral only, PFAF behind the threshold": pfaf_at(LATERAL, -2, 2000),
    "no missed approach": charted(FIRST, missed=None),
    "missed approach below the DA": charted(FIRST, missed=replace(FIRST.chart.missed, altitude_ft=100.0)),
    "circling only": charted(FIRST, minima=FIRST.chart.minima[-1:]),
    "no crossing height": charted(FIRST, tch_ft=0.0),
    "DA behind the threshold": charted(FIRST, minima=(replace(FIRST.chart.minima[0], altitude_ft=40.0),)),
    "DA under the ground": charted(FIRST, minima=(replace(FIRST.chart.minima[0], altitude_ft=-500.0),)),
    "no visibility": charted(FIRST, minima=(replace(FIRST.chart.minima[0], rvr_ft=0.0),)),
}


@pytest.mark.parametrize("approach", DEMO.values(), ids=DEMO)
def test_briefing_computes_every_section_once(approach):
    page = fill(build_briefing_page(approach))
    for anchor in [*IDS, "print"]:
        assert page.count(f"{{ #{anchor} ") == 1
    assert page.count('id="card"') == 1
    assert "computed for this approach" not in page
    assert "not computable" not in page


@pytest.mark.parametrize("section", briefing_flying.SECTIONS, ids=IDS)
def test_section_begins_with_heading(section):
    assert re.match(rf"## [^\n]+ {{ #{section.__name__} data-search-exclude }}\n\n", section(FIRST))


@pytest.mark.parametrize("approach", ODD.values(), ids=ODD)
def test_unusual_approach_explained_in_words(approach):
    text = fill("".join(section(approach) for section in (*briefing_flying.SECTIONS, *briefing_card.SECTIONS)))
    assert [anchor for anchor in IDS if f"#{anchor} " in text] == IDS
    assert not re.search(r"\b(nan|inf|None)\b|[-\u2212]0\b(?!\.\d*[1-9])(?![\d-])|\d\.\d{5}", text)


@pytest.mark.parametrize(("name", "section", "words"), [
    ("PFAF beyond every scale", "altimeter", "found 150.00\u202fNM"),
    ("airport above the altimeter's domain", "altimeter", "altimeter source elevation"),
    ("lateral only, no altitude at the PFAF", "rate", "altitude at the FAF: found none"),
    ("DA behind the threshold", "decision", "cannot be computed"),
    ("missed approach below the DA", "climb", "cannot be computed"),
    ("no missed approach", "climb", "take it from the chart"),
])
def test_uncomputable_values(name, section, words):
    assert words in getattr(briefing_flying, section)(ODD[name])


@pytest.mark.parametrize("name", [
    "very long final", "angle of six degrees", "airport at 9000 ft", "lateral only at 9000 ft",
    "airport below sea level",
])
def test_unusual_values_still_computed(name):
    for section in (*briefing_flying.SECTIONS, *briefing_card.SECTIONS):
        text = fill(section(ODD[name]))
        assert "cannot be computed" not in text
        assert "not computable" not in text


@pytest.mark.parametrize("approach", [FIRST, STEEP], ids=["3.0", "3.5"])
def test_rates(approach):
    text, angle_deg = briefing_flying.rate(approach), approach.chart.glidepath_deg
    assert column(text, "120") == number(descent_rate_fpm(120, angle_deg))
    chart = approach.chart
    begin_nm = foot(approach, approach.pfaf)[0]
    end_nm = straight_path_distance_nm(
        chart.minima[0].altitude_ft, chart.threshold_elevation_ft, chart.tch_ft, angle_deg
    )
    seconds = round((begin_nm - end_nm) / 120 * 3600)
    assert column(text, "120", 2) == f"{seconds // 60}:{seconds % 60:02d}"
    assert [column(text, speed, 3) for speed in ("90", "100", "120", "130", "140", "150", "170")] == list("ABBCCDE")
    reached_kt = float(re.search(r"is reached at (\d+)", text)[1])
    half_knot_fpm = descent_rate_fpm(100, angle_deg) / 200
    assert descent_rate_fpm(reached_kt, angle_deg) == pytest.approx(1000, abs=half_knot_fpm)


def test_descent_without_glidepath():
    text, chart = briefing_flying.rate(LATERAL), LATERAL.chart
    begin_nm = foot(LATERAL, LATERAL.pfaf)[0]
    angle_deg = barometric_path_angle_deg(
        begin_nm, LATERAL.pfaf.altitude_ft, chart.threshold_elevation_ft, LATERAL.segment.tch_ft
    )
    assert "No glidepath" in text
    assert f"{angle_deg:.2f}°" in text
    assert column(text, "140") == number(descent_rate_fpm(140, angle_deg))
    assert "too low" not in text
    higher = [replace(fix, altitude_ft=1000.0) if fix.role == "step-down" else fix for fix in chart.fixes]
    assert "too low, level off before it" in briefing_flying.rate(charted(LATERAL, fixes=tuple(higher)))


def test_charted_angle_makes_no_glidepath():
    approach = charted(LATERAL, glidepath_deg=3.1, tch_ft=45.0)
    text = briefing_flying.rate(approach)
    assert "No glidepath. The chart's angle, advisory only:" in text
    assert column(text, "100") == number(descent_rate_fpm(100, 3.1))
    assert "No glidepath" in briefing_flying.altimeter(approach)
    assert "path, ft" not in briefing_flying.scale(approach)


@pytest.mark.parametrize("approach", [FIRST, STEEP], ids=["low", "high"])
@pytest.mark.parametrize("temperature_c", [40, 0, -30])
def test_altimeter_at_pfaf(approach, temperature_c):
    chart, text = approach.chart, briefing_flying.altimeter(approach)
    path = chart.threshold_elevation_ft, chart.tch_ft, chart.glidepath_deg
    air = temperature_c, chart.airport_elevation_ft
    reads_ft = indicated_on_path_ft(foot(approach, approach.pfaf)[0], *path, *air)
    altitude_ft = approach.pfaf.altitude_ft
    row = signed(temperature_c, "")
    assert column(text, row) == number(reads_ft)
    assert column(text, row, 2) == signed(reads_ft - altitude_ft, "")
    assert column(text, row, 3) == quantity(path_met_distance_nm(altitude_ft, *path, *air), "NM", 0.1)


def test_altimeter_unchecked_without_glidepath():
    text = briefing_flying.altimeter(LATERAL)
    below = [float(row[2].replace(MINUS, "-")) for row in rows(text)[1:]]
    assert below == sorted(below, reverse=True)
    assert below[0] > 0 > below[-1]
    assert "glidepath, the altimeter reads" not in text


def test_cold_additions():
    text, chart = briefing_flying.cold(FIRST), FIRST.chart
    airport_ft = chart.airport_elevation_ft
    for row, temperature_c in (("+10", 10.0), (MINUS + "20", -20.0), (MINUS + "50", -50.0)):
        assert [column(text, row, place) for place in (1, 2, 3)] == [
            number(segment_addition_ft(2000 - airport_ft, temperature_c)),
            number(minimum_addition_ft(224 - airport_ft, temperature_c)),
            number(segment_addition_ft(3000 - airport_ft, temperature_c)),
        ]


def test_cold_altitudes():
    altitudes = {row[0]: row[1:] for row in rows(briefing_flying.cold(FIRST))}
    airport_ft = FIRST.chart.airport_elevation_ft
    to_pfaf = [segment_addition_ft(2000 - airport_ft, t) for t in (-10, -20, -30)]
    # The step-down binds whoever flies the LNAV line, so it takes that line's addition.
    to_mda = [minimum_addition_ft(480 - airport_ft, t) for t in (-10, -20, -30)]
    assert altitudes["charted"] == degrees(10, 20, 30)
    assert altitudes["BRYNA 3000"] == [number(3000 + addition) for addition in to_pfaf]
    assert altitudes["GULLY 2000"] == [number(2000 + addition) for addition in to_pfaf]
    assert altitudes["FOMEY 800"] == [number(800 + addition) for addition in to_mda]
    assert altitudes["LNAV MDA 480"] == [number(480 + addition) for addition in to_mda]
    assert len(altitudes["missed approach 3000"]) == 3
    assert "RW09" not in "".join(altitudes)


def test_cold_begins_where_chart_requires():
    assert rows(briefing_flying.cold(STEEP))[8] == ["charted", *degrees(20, 30, 40)]
    coldest = charted(FIRST, cold_temperature_airport_c=-45.0)
    assert rows(briefing_flying.cold(coldest))[8] == ["charted", *degrees(30, 40, 50)]


def test_worked_example_of_cold_rule():
    """AIM 7-3-5.g: field elevation 3206 ft, -12 °C, FAF at 6200 ft: 300 ft for the FAF and all before it."""
    approach = charted(with_pfaf(FIRST, altitude_ft=6200.0), airport_elevation_ft=3206.0)
    assert pfaf_addition_ft(approach, -12.0) == 300


def test_altitude_on_path_not_corrected():
    fixes = [replace(fix, altitude_rule="on path") if fix.role == "step-down" else fix for fix in FIRST.chart.fixes]
    names = [name for name, *_ in charted_altitudes(charted(FIRST, fixes=tuple(fixes)))]
    assert "FOMEY" not in names
    assert "GULLY" in names


def test_full_scale_and_one_dot():
    text, held, chart = briefing_flying.scale(FIRST), FIRST.segment, FIRST.chart
    course_ft = final_full_scale_ft(3.0, held.course_width_m / M_PER_FT, segment.garp_distance_ft(held))
    path_ft = lpv_full_scale_ft(origin_distance_nm(3.0, chart.tch_ft, chart.glidepath_deg), chart.glidepath_deg)
    assert column(text, "3\u202fNM", 2) == f"{course_ft:.0f} ({from_two_dots_ft(1, course_ft):.0f})"
    assert column(text, "3\u202fNM", 3) == f"{path_ft:.0f} ({from_two_dots_ft(1, path_ft):.0f})"
    long, short = (scale.partition("<figure")[0] for scale in (text, briefing_flying.scale(pfaf_at(FIRST, 4.0, 1300))))
    assert [row[0] for row in rows(long)[1:]] == ["FAF", "5\u202fNM", "3\u202fNM", "1\u202fNM", "DA"]
    assert [row[0] for row in rows(short)[1:]] == ["FAF", "3\u202fNM", "1\u202fNM", "DA"]


def test_drawn_full_scale_matches_text():
    text = fill(briefing_flying.scale(FIRST))
    drawn, table = text.partition("<figure")[2], text.partition("<figure")[0]
    ends = {name: [column(table, where, place).split()[0] for where in ("FAF", "DA")]
            for name, place in (("course", 2), ("path", 3))}
    finding = f"course from {ends['course'][0]} to {ends['course'][1]}\u202fft, glidepath from "
    assert f"{finding}{ends['path'][0]} to {ends['path'][1]}\u202fft." in drawn.replace("&#39;", "'")
    for name, colour in (("course", "first"), ("path", "second")):
        assert f'fill="var(--hb-{colour})" font-weight="700">{ends[name][1]}\u202fft</text>' in drawn
    assert [row[0] for row in rows(drawn)[1:]] == [quantity(far, "NM") for far in range(6, -1, -1)]
    assert rows(drawn)[4][1] == column(table, "3\u202fNM", 2).split()[0]


def test_full_scale_drawn_between_pfaf_and_minimum():
    assert "path" not in briefing_flying.scale(LATERAL).partition("<figure")[2].partition("</figure")[0]
    without = {name for name, approach in ODD.items() if "<figure" not in briefing_flying.scale(approach)}
    assert without == {
        "PFAF behind the threshold", "PFAF inside the decision", "lateral only, PFAF behind the threshold",
    }


def test_decision():
    text, chart = briefing_flying.decision(STEEP), STEEP.chart
    height_ft = 6775 - chart.threshold_elevation_ft
    distance_ft = float(re.search(r"NM, (\d+)", text)[1])
    expected_ft = before_threshold_ft(height_ft - 55, 3.5, chart.threshold_elevation_ft)
    assert distance_ft == pytest.approx(expected_ft, abs=0.6)  # half of the printed foot, and the higher terms
    assert f"{distance_ft / FT_PER_NM:.2f}" in text
    assert f"begin {number(distance_ft - 2400)}" in text
    assert "not below" in text
    assert "6575" in text
    assert "not below" not in briefing_flying.decision(DEMO["zzeg-rnp-24"]), "the FAA's rule on an EASA chart"
    assert "At the MDA" in briefing_flying.decision(LATERAL)
    assert "go around at once" not in briefing_flying.decision(LATERAL)


def test_climb():
    text = briefing_flying.climb(STEEP)
    assert "260\u202fft/NM (published)" in text
    assert column(text, "140") == number(required_climb_rate_fpm(140, 260))
    assert f"{distance_to_altitude_nm(10000 - 6775, 260):.1f}" in text
    assert "none higher published" in briefing_flying.climb(FIRST)
    assert column(briefing_flying.climb(FIRST), "140") == number(required_climb_rate_fpm(140, 200))


def test_icao_climb_in_metres_under_other_rules():
    """2.5 % is 152 ft/NM; the FAA's 200 ft/NM is nobody's standard there.  RVR 600 m is 1969 ft."""
    easa = DEMO["zzeg-rnp-24"]
    text, card = briefing_flying.climb(easa), fill(briefing_card.card(easa))
    assert "152\u202fft/NM (2.5%, ICAO's standard, from memory, none higher published)" in text
    assert column(text, "140") == number(140 * 0.025 * FT_PER_NM / 60)
    for shown in (text, card):
        assert "200\u202fft/NM" not in shown
        assert "the FAA's standard" not in shown
    assert "(2.5%, ICAO's standard, from memory)" in card
    decided = briefing_flying.decision(easa)
    assert "600\u202fm &#40;1969\u202fft&#41;: reaches to" in decided
    assert "900\u202fm &#40;2953\u202fft&#41;: begin" in decided
    assert "\u202fm &#40;" not in briefing_flying.decision(FIRST)
    published = charted(easa, missed=replace(easa.chart.missed, climb_gradient_ft_per_nm=243.0))
    assert "243\u202fft/NM (published)" in briefing_flying.climb(published)


def test_card():
    text = fill(briefing_card.card(STEEP))
    for words in ("99902", "W33A", "331° magnetic", "Data of cycle 2612, in force from 2026-11-26 to 2026-12-23",
                  "source SBAS · DA 6775", "missed approach 10000", "GLAZO", "8700", "SNOEY", "Caution"):
        assert words in text, words
    assert column(text, "glidepath, ft, standard day") == number(float(re.search(r"<td>(\d+)", text)[1]))
    assert column(text, "down 3.50°, ft/min", 2) == number(descent_rate_fpm(120, 3.5))
    assert column(text, "up 260\u202fft/NM, ft/min", 2) == number(required_climb_rate_fpm(120, 260))
    reads_ft = indicated_on_path_ft(foot(STEEP, STEEP.pfaf)[0], 6460, 55, 3.5, -20, 6498)
    assert f"{number(reads_ft)}\u202fft at {MINUS}20" in text
    assert text.index("Set</b>") < text.index("FAF") < text.index("Minima") < text.index("Missed approach</b>")


def test_card_rates_and_dots_worked_out_for_each_column():
    table = {row[0]: row[1:] for row in rows(briefing_card.card(FIRST))}
    speeds = [100, 120, 140, 160]
    assert table["ground speed, kt"] == [str(speed) for speed in speeds]
    assert table["down 3.00°, ft/min"] == [
        number(speed * FT_PER_NM / 60.0 * math.tan(math.radians(3.0))) for speed in speeds]
    assert table["up 200\u202fft/NM, ft/min"] == [number(speed * 200.0 / 60.0) for speed in speeds]
    assert table["to threshold, NM"] == ["6", "5", "4", "3", "2", "1"]
    assert table["one dot of two"] == ["3\u202fNM", "1\u202fNM", "DA"]
    segment_of = FIRST.database.block.segment
    half_ft, garp_ft = segment_of.course_width_m / M_PER_FT, segment.garp_distance_ft(segment_of)
    assert table["course, ft"][:2] == [
        number(half_ft * (garp_ft + nm * FT_PER_NM) / garp_ft / 2.0) for nm in (3.0, 1.0)]
    lateral = {row[0]: row[1:] for row in rows(briefing_card.card(LATERAL))}
    assert lateral["one dot of two"] == ["3\u202fNM", "MDA", "1\u202fNM"]


def test_card_states_cold_additions_where_chart_requires():
    text = fill(briefing_card.card(STEEP))
    grid = text[text.index('aria-label="Cold"') :].partition("</table>")[0]
    heads = re.findall(r'<th scope="col">([^<]*)</th>', grid)
    assert heads == [quantity(each, "°C") for each in (-20, -30, -40)]
    for name, addition_ft in (
        ("to FAF", segment_addition_ft(8700 - 6498, -20)), ("LPV DA", minimum_addition_ft(6775 - 6498, -20)),
        ("missed", segment_addition_ft(10000 - 6498, -20)),
    ):
        assert f'<th scope="row">{name}</th><td>{number(addition_ft)}</td>' in grid
    assert "<b>Cold</b>" not in fill(briefing_card.card(FIRST))


def test_card_leaves_room_for_day():
    text = fill(briefing_card.card(FIRST))
    assert re.findall(r"<span>([^<]+) <span class=.hb-blank.></span></span>", text) == list(briefing_card.DAY)


def test_card_shows_no_altitude_below_minimum():
    for approach in DEMO.values():
        level = approach.identity.level_of_service
        minimum_ft = next(row.altitude_ft for row in approach.chart.minima if row.line == level)
        name = "glidepath, ft, standard day" if approach is not LATERAL else "advisory descent, ft"
        shown = next(row[1:] for row in rows(briefing_card.card(approach)) if row[0] == name)
        assert min(map(float, shown)) >= minimum_ft
        assert 1 <= len(shown) <= 8


def test_card_states_database_mismatch():
    assert "Not everything was compared" in fill(briefing_card.card(FIRST))
    wrong = replace(FIRST, identity=replace(FIRST.identity, channel=99999))
    assert "Do not fly it" in fill(briefing_card.card(wrong))


def test_card_names_three_stops_and_counts_others(monkeypatch):
    stops = tuple(Finding(f"key-{number}", "stop", f"item {number}", chart="1", database="2") for number in range(5))
    for count, words in ((5, " And 2 stops more."), (4, " And 1 stop more."), (3, "")):
        monkeypatch.setattr(briefing_card.numbers, "crosschecked", lambda _, first=count: stops[:first])
        text = briefing_card._stops(FIRST)
        assert text.endswith(f"Item 2: chart 1, database 2.{words}</p>\n"), count
    monkeypatch.setattr(briefing_card.numbers, "crosschecked", lambda _: ())
    assert briefing_card._stops(FIRST) == ""


def test_hostile_names_stay_text():
    fixes = tuple(replace(fix, name=f"{HOSTILE}{place}") for place, fix in enumerate(STEEP.chart.fixes))
    approach = charted(
        STEEP, fixes=fixes, lights=replace(STEEP.chart.lights, name=HOSTILE),
        missed=replace(STEEP.chart.missed, instruction=HOSTILE),
        minima=tuple(replace(line, categories=HOSTILE) for line in STEEP.chart.minima),
    )
    names = dict.fromkeys(("airport", "airport_name", "runway", "title", "path_id"), HOSTILE)
    approach = replace(approach, identity=replace(approach.identity, **names))
    sections = (*briefing_flying.SECTIONS, *briefing_card.SECTIONS)
    text = fill(expand("\n".join(section(approach) for section in sections), "reference/test.md"))
    assert "alert" in text
    assert "<script" not in text
    assert "{{" not in text
    assert "*b*" not in text
    assert "`" not in text
