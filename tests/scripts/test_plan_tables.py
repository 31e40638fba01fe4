"""Whole tables of docs/plan/, row by row: read off the demo's files and the rules by hand, counted in another way."""

import tomllib
from datetime import UTC, date, datetime, timedelta
from itertools import groupby
from types import SimpleNamespace

import pytest

from cold_by_hand import minimum_ft, segment_ft
from drawn import curves, drawings, labels, window
from lpv.sbas.service import Epoch
from lpv_site.department.data import example, examples
from lpv_site.pages.plan_sheet import cases
from plan import (
    additions,
    alternate_lines,
    alternate_rules,
    alternate_window,
    category,
    changes,
    cold_day,
    cold_figure,
    cold_published,
    cold_rounding,
    cycle_at_eta,
    cycles,
    integrity_approaches,
    integrity_day,
    integrity_rule,
    lines,
    minima_day,
    notice_effect,
    notice_kinds,
    notice_reader,
    rvr,
    sky_geostationary,
    sky_hidden,
    temperature_limits,
    today,
)
from shown import SPACES, about, printed
from support import ROOT


def texts(shown):
    return {key: shown.text(key).translate(SPACES) for key in shown.values}


# Minima and lines


def test_additions_to_minimum():
    """LPV: DA 224, 24 ft less above touchdown, RVR 2400 (1/2 SM); AIM 5-4-20: 250 ft and 3/4 SM."""
    expected = {
        "printed": ("as printed", 224, 0.5), "operator": ("operator: not under 250 ft, 0.75 SM", 24 + 250, 0.75),
        "remote": ("remote altimeter, + 60 ft", 224 + 60, 0.5), "lights": ("lights out, + 0.25 SM", 224, 0.5 + 0.25),
        "zone": ("obstacle free zone not clear", 24 + 250, 0.75)}
    assert printed(additions.show()) == [
        "LPV of ZZAK RNAV (GPS) RWY 09; the additions are invented, yours stand on chart and in the manuals:",
        [["today", "> DA, ft", "> height, ft", "> visibility, SM"],
         *([name, f"{da}", f"{da - 24}", f"{sm}"] for name, da, sm in expected.values())]]
    assert texts(additions.show()) == {
        f"{key} {what}": text for key, (_, da, sm) in expected.items()
        for what, text in (("altitude", f"{da} ft"), ("visibility", f"{sm:.2f} SM"))}


def test_lines_of_day():
    """The light demo jet's operator: 250 ft above touchdown, 3/4 SM, 50 ft more on an MDA; circling: airport 31 ft."""
    more = "printed minimum, plus the operator's 50 ft above an MDA"
    assert printed(minima_day.show()) == [
        "ZZAK RNAV (GPS) RWY 09, Light demo jet, category B; altitudes in ft, in brackets the height above touchdown, "
        "for circling above the airport:",
        [["line", "> chart", "> set", "> needs"],
         ["**LPV** / operator's lowest height above touchdown", "DA 224 / RVR 2400 ft", "**274** / (250)", "3/4 SM"],
         ["**LNAV/VNAV** / printed minimum", "DA 374 / visibility 1 SM", "**374** / (350)", "1 SM"],
         [f"**LNAV** / {more}", "MDA 480 / visibility 1 SM", f"**530** / ({530 - 24})", "1 SM"],
         [f"**circling** / {more}", "MDA 540 / visibility 1 3/4 SM", f"**590** / ({590 - 31})", "1 3/4 SM"]]]


def test_best_line_by_level_and_approval():
    """No higher than the level announced; the barometric path where only LNAV is announced and it is approved."""
    assert printed(lines.show()) == ["The best line, where the chart prints LPV, LNAV/VNAV and LNAV:", [
        ["annunciated", "> approved for LPV", "> SBAS, no LPV", "> GPS, baro-VNAV"], ["LPV", "**LPV**", "", ""],
        ["LNAV/VNAV", "**LNAV/VNAV**", "**LNAV/VNAV**", ""],
        ["LNAV", "**LNAV**", "**LNAV**", "**LNAV/VNAV**"], ["none", "none", "none", "none"]]]


def test_visibility_from_printed_and_reported_rvr():
    """14 CFR 91.175(h)(2); between its rows up for what is asked, down for what is there."""
    rule = {1600: "1/4", 2400: "1/2", 3200: "5/8", 4000: "3/4", 4500: "7/8", 5000: "1", 6000: "1 1/4"}
    table, below = printed(rvr.show())
    assert table == [["RVR, ft", "> printed: needs, SM", "> reported: counts as, SM"], *(
        [f"{ft}", f"**{rule[min(row for row in rule if row >= ft)]}**",
         f"**{rule[max(row for row in rule if row <= ft)]}**"] for ft in (1600, 1800, 2400, 3000, 4000, 5000, 6000))]
    assert below.startswith("Between two rows of the rule, a printed RVR takes the next higher one.")


def test_categories():
    """14 CFR 97.3; VREF of the aircraft files at their maximum landing weight, and 15 and 30 kt more."""
    edges, vrefs = {"A": 0, "B": 91, "C": 121, "D": 141, "E": 166}, {
        "Large demo jet": 133, "Light demo jet": 105, "Middle demo jet": 124, "Regional demo jet": 139,
        "Three-engine demo jet": 139}

    def cell(kt):
        return f"**{max(letter for letter, low in edges.items() if low <= kt)}** / {kt} kt"

    limits, words, flown = printed(category.show())
    assert limits[1:] == [["**A**", "under 91 kt"], ["**B**", "91 kt or more, under 121 kt"],
                          ["**C**", "121 kt or more, under 141 kt"], ["**D**", "141 kt or more, under 166 kt"],
                          ["**E**", "166 kt or more"]]
    assert words == "Flown faster than the category allows, the higher one counts:"
    assert flown == [["aircraft", "> at VREF", "> 15 kt more", "> 30 kt more"], *(
        [name, cell(kt), cell(kt + 15), cell(kt + 30)] for name, kt in vrefs.items())]


# Alternates


def test_weather_for_each_line_at_alternate():
    """14 CFR 91.169(c): 600-2 precision, 800-2 others; no SBAS line with vertical guidance but by barometric path."""
    precision, other = "**600 ft**, 2 SM", "**800 ft**, 2 SM"
    assert printed(alternate_lines.show()) == [
        "Least forecast at the ETA there, unless the alternate's chart prints its own minima (14 CFR 91.169):",
        [["line there", "> without baro-VNAV", "> baro-VNAV approved"], ["ILS", precision, precision],
         ["VOR", other, other], ["LPV", "no", "no"], ["LP", "no", "no"], ["LNAV/VNAV", "no", other],
         ["LNAV", other, other], ["circling", other, other]]]


def test_sets_of_rules():
    """Which of them asks an approval for LPV in writing, and which a way without GNSS (AMC1 CAT.OP.MPA.182)."""
    sets = {name[2:-2]: dict(pairs) for (name,), *pairs in printed(alternate_rules.show())}
    written, without = "a written approval", "no written approval required"
    assert {name: pairs["LPV"] for name, pairs in sets.items()} == {
        "FAA part 91": without, "FAA part 91K": written, "FAA part 135": written, "EASA commercial": written,
        "EASA non-commercial": without}
    assert [name for name, pairs in sets.items() if "beside LPV and LNAV" in pairs] == ["EASA commercial"]
    assert {name: pairs["charts of"] for name, pairs in sets.items()} == {
        name: name.split()[0] for name in sets}
    assert sets["FAA part 135"]["an alternate is needed by"] == "14 CFR 135.223, from memory"
    assert sets["FAA part 91"]["weather at the alternate"].startswith("600-2 precision, 800-2 nonprecision")
    assert sets["EASA non-commercial"]["weather at the alternate"] == "not compared: no text was read"
    assert all("know" in pairs for pairs in sets.values())


def test_forecast_around_eta():
    """zzak-rnav-09-notice.toml: ETA 14 UTC; temporarily 300 ft and 3/4 SM from half past one for an hour."""
    assert printed(alternate_window.show()) == [
        "From one hour before to one hour after the ETA the worst is ceiling 300 ft, visibility 3/4 SM: an alternate "
        "is needed. Temporary groups count as if they came.",
        [["forecast", "UTC", "ceiling", "visibility"],
         ["prevailing", "08 12:00 to 08 15:00", "500 ft", "1.50 SM"],
         ["prevailing", "08 15:00 to 08 20:00", "1800 ft", "5.00 SM"],
         ["temporary", "08 13:30 to 08 14:30", "300 ft", "0.75 SM"]]]
    assert texts(alternate_window.show()) == {"ceiling": "300 ft", "visibility": "0.75 SM"}


def test_forecast_drawing():
    """Hours from the ETA, an hour to either side shaded; 2000 ft asked, 300 ft counts."""
    (axes,) = drawings(alternate_window.show)
    asked, *periods, counts = curves(axes)
    assert [y for _, y in asked] == [2000, 2000]
    assert periods == [[(-2, 500), (1, 500)], [(1, 1800), (6, 1800)], [(-0.5, 300), (0.5, 300)]]
    assert counts == [(-1, 300), (1, 300)]
    colours = [line.get_color() for line in axes.lines[1:4]]
    assert colours == [alternate_window.COLOURS[role] for role in ("first", "first", "second")]
    texts = labels(axes)
    assert (texts["asked: 2000\u202fft"], texts["counts: 300\u202fft"], texts["temporary"]) == (
        (3, 2000), (1, 300), (-0.5, 300))
    assert [label.xy for label in axes.texts if label.get_text() == "prevailing"] == [(-2, 500), (1, 1800)]
    (band,) = axes.patches
    assert [band.get_x(), band.get_x() + band.get_width()] == [-1, 1]
    assert window(axes) == (-2, 3, 0, 2600)


def test_forecast_without_ceiling_drawn_at_top(monkeypatch):
    """So is one beyond the top; nothing is marked as counting where no ceiling does."""
    fine = next(case for case in cases() if case.scenario.slug == "zzak-rnav-27-fine")
    monkeypatch.setattr(alternate_window, "example_case", lambda: fine)
    (axes,) = drawings(alternate_window.show)
    assert curves(axes)[1:] == [[(-3, 2600), (6, 2600)], [(-1, 2600), (1, 2600)]]
    assert labels(axes)["prevailing"] == (-2, 2600)
    assert labels(axes)["counts: 4500\u202fft"] == (1, 2600)
    cloudless = alternate_window.Period(fine.scenario.flight.eta, fine.scenario.flight.eta, None, 10.0)
    alternate_window._draw_period(axes, cloudless, fine.scenario.flight.eta)
    assert curves(axes)[-1] == [(0, 2600), (0, 2600)]
    assert alternate_window._row(cloudless)[2:] == ("none", "10.00\u202fSM")
    drawn_before = len(axes.lines)
    alternate_window._draw(axes, (fine, None))
    assert len(axes.lines) - drawn_before == 2, "what is asked and the one period"


# Cycles and changes


def test_thirteen_cycles():
    """AIRAC: four weeks each from 26 November 2026 on; thirteen a year, so that the number after 13 is 01."""
    def row(number):
        first = date(2026, 11, 26) + timedelta(weeks=4 * number)
        ident = f"26{12 + number}" if number < 2 else f"27{number - 1:02}"
        return [f"**{ident}**" if number == 0 else ident, f"{first}", f"{first + timedelta(days=27)}"]

    assert printed(cycles.show()) == ["From cycle 2612, which the approaches shown here belong to:", [
        ["cycle", "> first day", "> last day"], *map(row, range(13))]]


def test_cycle_at_each_eta():
    """A minute before the change, at it, nine hours later (0901 UTC ends it) and a minute more; then each sheet."""
    def moment(text):
        return datetime.fromisoformat(text).replace(tzinfo=UTC)

    change = moment("2026-12-24 00:00")
    around = [change + timedelta(minutes=minutes) for minutes in (-1, 0, 9 * 60, 9 * 60 + 1)]
    words = ["yes, near the change", "ask", "ask", "no", "yes", "no", "yes", "yes", "yes"]
    files = sorted((ROOT / "docs" / "plan").glob("*.toml"))
    etas = [(tomllib.loads(path.read_text("utf-8"))["flight"]["eta"], f" / {path.stem}") for path in files]
    rows = [(eta, "") for eta in around] + etas
    assert printed(cycle_at_eta.show()) == [
        "Around the end of cycle 2612, then the ETAs of the planning sheets:",
        [["ETA, UTC", "> that day", "> chart", "> in force"],
         *([f"{eta:%Y-%m-%d} / {eta:%H:%M}{name}", "2612" if eta < change else "2613", "2612", f"**{word}**"]
           for (eta, name), word in zip(rows, words, strict=True))]]


def test_changes_from_previous_cycle():
    """The two files of zzak-rnav-09 beside each other, docs/approaches/previous on the left."""
    channel, minimum, fms = "altitude printed at the fix", "the minimum", "altitude at the fix, in the database"
    head = ["field", "> was", "> is"]
    assert printed(changes.show()) == [
        "ZZAK RNAV (GPS) RWY 09, cycle 2611 against 2612:",
        "**✕ stop**: another channel, path, fix or minimum: do not fly anything from the old cycle.",
        [head, ["threshold crossing height", "50 ft", "52 ft"],
         ["threshold crossing height, in the data block", "50 ft", "52 ft"],
         [f"{minimum} / **LPV**", "264 ft", "224 ft"],
         [f"{channel} / **FOMEY**", "780 ft", "800 ft"], [f"{channel} / **KELPO**", "2500 ft", "3000 ft"],
         [f"{fms} / **FOMEY**", "780 ft", "800 ft"], [f"{fms} / **KELPO**", "2500 ft", "3000 ft"]],
        "**? resolve**: anything else you fly or brief: brief it again.",
        [head, ["the missed approach in words", "Climb to 2500 direct KELPO and hold.",
                "Climb to 3000 direct KELPO and hold."],
         ["altitude to climb to", "2500 ft", "3000 ft"], ["height printed beside it / **LPV**", "240 ft", "200 ft"],
         ["runway visual range / **LPV**", "4000 ft", "2400 ft"],
         ["notes that bear on the approach", "Lights of runway 16 out of service.", ""],
         ["notes that bear on the approach", "", "Lights of runway 16 on request."]],
        "**i note**: dates and names: for information.",
        [head, ["data cycle of the chart", "2611", "2612"],
         ["data cycle that is loaded, in the database", "2611", "2612"],
         ["first day of the cycle, in the database", "2026-10-29", "2026-11-26"],
         ["day on which the next cycle takes over, in the database", "2026-11-26", "2026-12-24"]]]


def test_today_for_five_years():
    """66 cycles of four weeks are the first whole number beyond five years."""
    text = today.show().markdown
    assert len(text.split('data-cycles="')[1].split('"')[0].split(" ")) == -(-5 * 365.25 // 28)
    assert printed(today.show()) == ["Cycle 2612, that of the approaches shown here: from 2026-11-26 until 2026-12-23."]


# Cold


def test_cold_day_altitudes(monkeypatch):
    """ZZHC, 6498 ft, at -30 °C: up to the PFAF by its height, the step-down by the highest line."""
    def add(name, charted, segment, more, single=True):
        both = f"**{charted + more}** / +{more}"
        return [f"{name} {charted} / {segment}", both, both if single else "as charted"]

    pfaf, missed = segment_ft(-30, 8700 - 6498), segment_ft(-30, 10000 - 6498)
    assert printed(cold_day.show()) == [
        "ZZHC RNAV (GPS) RWY 33 at -30 °C, in ft; the list marks the intermediate and final segments (invented):",
        [["charted", "> all segments", "> individual segments"],
         add("RIMEA", 10200, "initial", pfaf, False), add("FROZT", 9400, "initial", pfaf, False),
         add("GLAZO", 8700, "intermediate", pfaf), add("ICYLE", 7300, "final", minimum_ft(-30, 7020 - 6498)),
         *(add(name, charted, "final", minimum_ft(-30, charted - 6498)) for name, charted in (
             ("LPV DA", 6775), ("LNAV/VNAV DA", 6901), ("LNAV MDA", 7020), ("circling MDA", 7200))),
         add("missed approach", 10000, "missed", missed, False)]]
    cold = next(case for case in cases() if case.approach.identity.airport == "ZZHC")
    every = SimpleNamespace(due=True, segments=cold_day.SEGMENTS)
    monkeypatch.setattr(cold_day, "cold_of", lambda case: every)
    monkeypatch.setattr(cold_day, "cases", lambda: [cold])
    assert "the list marks all segments (invented)" in printed(cold_day.show())[0]
    monkeypatch.setattr(cold_day, "cases", list)
    assert printed(cold_day.show()) == [
        "None of the planning sheets is for a day on which altitudes are corrected."]


def by_formula_ft(height_ft, celsius):
    """H (15 - t0) / (273 + t0 - 0.5 L0 H), of which the manual's table is made, up to the next ten."""
    exact_ft = height_ft * (15.0 - celsius) / (273.0 + celsius - 0.5 * 0.00198 * height_ft)
    return -(-exact_ft // 10) * 10


ADDED = {"DA": lambda celsius: minimum_ft(celsius, 277), "FAF": lambda celsius: by_formula_ft(2202, celsius),
         "missed approach": lambda celsius: by_formula_ft(3502, celsius)}


def test_cold_additions():
    """The DA 277 ft, the PFAF 2202 and the hold 3502 ft above the airport; a minimum as its rule has it."""
    now = {name: f"{feet(-30):.0f} ft" for name, feet in ADDED.items()}
    assert printed(cold_figure.show()) == [
        "The colder the air and the higher above the airport, the more is added: at -30 °C "
        f"{now['DA']} for the DA, {now['FAF']} for the FAF, {now['missed approach']} for the missed approach.",
        [["airport", *ADDED], *([f"{celsius} °C", *(f"{feet(celsius):.0f} ft" for feet in ADDED.values())]
                                for celsius in (0, -10, -20, -30, -40, -50))]]
    assert texts(cold_figure.show()) == now


def test_cold_additions_drawing():
    """A line every five degrees up to standard, a mark at today's -30 °C, the airport's limit of -14 °C dashed."""
    (axes,) = drawings(cold_figure.show)
    *drawn, limit = curves(axes)
    for (line, mark), feet in zip(zip(drawn[::2], drawn[1::2], strict=True), ADDED.values(), strict=True):
        assert [x for x, _ in line] == list(range(-50, 20, 5))
        assert [y for x, y in line if x % 10 == 0 and x <= 0] == [feet(x) for x in range(-50, 10, 10)]
        assert mark == [(-30, feet(-30))]
    assert [x for x, _ in limit] == [-14, -14]
    texts = labels(axes)
    assert {name: texts[name] for name in list(ADDED)[1:]} == {
        name: (-45, by_formula_ft(height_ft, -45)) for name, height_ft in (("FAF", 2202), ("missed approach", 3502))}
    assert {name: texts[f"{feet(-30):.0f}\u202fft"] for name, feet in ADDED.items()} == {
        name: (-30, feet(-30)) for name, feet in ADDED.items()}
    assert texts["← correct"] == (-14, window(axes)[3])
    assert window(axes)[:3] == (-50, 15, 0)


def test_cold_without_corrected_scenario(monkeypatch):
    """The first of them then, at its -4 °C; no limit is marked where the chart has none, nor a missed approach."""
    warm = [case for case in cases() if not cold_figure.cold_of(case).due]
    monkeypatch.setattr(cold_figure, "cases", lambda: warm)
    assert "at -4 °C" in printed(cold_figure.show())[0]
    (axes,) = drawings(cold_figure.show)
    assert len(axes.lines) == 6
    bare = SimpleNamespace(
        identity=warm[0].approach.identity, chart=SimpleNamespace(
            fixes=[SimpleNamespace(role="PFAF", altitude_ft=None)], missed=None, minima=(), airport_elevation_ft=0.0))
    assert cold_figure._additions(bare) == {}


def test_manual_example_read_five_ways():
    """KMSO: the manual states 300 ft; its table between -10 and -20 °C, 2000 and 3000 ft reads 315."""
    read_ft = 290 + 0.2 * (420 - 290)
    height_ft, elevation_ft, lapse = 2994.0, 3206.0, 0.00198
    sea_level_c = -12 + lapse * elevation_ft
    short_ft = height_ft * (15 - sea_level_c) / (273 + sea_level_c - 0.5 * lapse * (height_ft + elevation_ft))
    head, table = printed(cold_published.show())
    assert head.startswith("KMSO: 2994 ft above the airport at -12 °C; FAA, Aeronautical Information Manual")
    assert table == [
        ["addition to the FAF and outward", "> ft", "> whose"], ["the manual states", "300", "published"],
        ["table, interpolated", about("{:.0f}", read_ft, off=1.5), "computed here"],
        ["to the nearest hundred", "300", "computed here"],
        ["short formula, that elevation", about("{:.0f}", short_ft), "computed here"],
        ["logarithmic formula, iterated", about("{:.0f}", 1.0138 * short_ft, off=1.5), "computed here"]]


def test_table_value_rounding():
    """TBL 7-3-1 at -30 °C: 60, 140, 280, 950 ft, and by its formula 420 ft at 2200 ft."""
    def row(height_ft, feet):
        return [f"{height_ft}", f"{(feet + 50) // 100 * 100} or {-(-feet // 100) * 100}", f"**{feet}**"]

    assert printed(cold_rounding.show()) == ["At -30 °C, in ft:", [
        ["above the airport", "> a segment: nearest or up", "> a DA or MDA: as it is"], row(300, 60), row(700, 140),
        row(1500, 280), row(2200, 420), row(5000, 950)]]


def test_temperature_limits():
    """ZZHC prints -23 and 38 °C: a degree beyond either, the path by the altimeter may not be flown."""
    assert printed(temperature_limits.show()) == ["ZZHC RNAV (GPS) RWY 33, limits printed on its chart:", [
        ["airport", "> LPV", "> LNAV/VNAV by SBAS", "> LNAV/VNAV by altimeter"],
        ["-24 °C", "yes", "yes", "**no**"], ["-23 °C", "yes", "yes", "yes"], ["+38 °C", "yes", "yes", "yes"],
        ["+39 °C", "yes", "yes", "**no**"]]]
    (cold,) = [each for each in examples() if each.identity.airport == "ZZHC"]
    assert temperature_limits._temperatures_c(cold) == [-24.0, -23.0, 38.0, 39.0]


# Notices


def test_notice_effects():
    """The light demo jet has SBAS and no barometric path; the chart LPV, LNAV/VNAV, LNAV and circling."""
    vertical, everything = "LPV / LNAV/VNAV", "LPV / LNAV/VNAV / LNAV / circling"
    assert printed(notice_effect.show()) == ["ZZAK RNAV (GPS) RWY 09, Light demo jet, fine weather:", [
        ["notice", "> plan on", "> only if annunciated"], ["no notice", "**LPV**", ""],
        ["SBAS may not be available", "**LNAV**", vertical], ["SBAS not available", "**LNAV**", ""],
        ["GPS interference test", "**none**", everything], ["chart marked: no site notices", "**LNAV**", vertical],
        ["not understood", "**none**", everything]]]


def test_notice_kinds_with_published_forms():
    """AIM 1-1-18.c.5 and 6 print three forms; each of those stands in code, with its place below."""
    text = notice_kinds.show().markdown
    blocks = [block.split("\n\n") for block in text.split("\n\n**")]
    forms = ["!FDC FDC NAV WAAS VNAV/LPV/LP MINIMA MAY NOT BE AVBL", "!FDC FDC NAV WAAS NOT AVBL",
             "!GPS 06/001 ZAB NAV GPS (INCLUDING WAAS, GBAS, AND ADS-B) MAY NOT BE AVAILABLE WITHIN A 468NM RADIUS"]
    tables = printed(notice_kinds.show())
    assert [line for line in tables if line.startswith("!")] == forms
    names = [line.strip("*") for line in tables if line.startswith("**")]
    assert all(name[0].isupper() for name in names)
    assert names[:4] == ["SBAS may not be available", "SBAS not available", "GPS interference test",
                         "Chart without site notices"]
    assert len(blocks) >= len(forms)


def test_unreadable_words_only_where_doubtful(monkeypatch):
    def read(in_doubt, *unread):
        kind = SimpleNamespace(notice=SimpleNamespace(kind=notice_reader_kind), in_doubt=in_doubt, unread=unread)
        monkeypatch.setattr(notice_reader, "reading", lambda case, notice, where: kind)
        monkeypatch.setattr(notice_reader, "effect_words", lambda notice: "effect")
        return [row[0] for row in printed(notice_reader.show())[0][1:]]

    notice_reader_kind = notice_kinds.KINDS[0]
    assert read(True, "A") == ["kind", "effect", "words"]
    assert read(False, "A") == read(True) == ["kind", "effect"]


# Satellites


def gaps(day, hal_m, val_m):
    """Lengths of the times without LPV, five minutes for each moment without it."""
    lacking = [not (moment.vpl_m is not None and moment.vpl_m <= val_m and moment.hpl_pa_m <= hal_m) for moment in day]
    return [5 * len(list(group)) for lost, group in groupby(lacking) if lost], 1 - sum(lacking) / len(lacking)


def share(part):
    return "100%" if part == 1 else f"{100 * part:.1f}%"


def recorded(monkeypatch, module, name):
    """What a function of the module returned, each time that a script calls it."""
    returned, real = [], getattr(module, name)

    def call(*given, **more):
        returned.append(real(*given, **more))
        return returned[-1]

    monkeypatch.setattr(module, name, call)
    return returned


def test_day_at_each_approach(monkeypatch):
    """Counted moment by moment, without each satellite in turn: the one that is missed most gives the row."""
    days, whole = (recorded(monkeypatch, integrity_approaches, name) for name in ("missing_one", "span"))
    (heads, *rows), = printed(integrity_approaches.show())
    assert heads == ["approach", "> all", "> one missing", "> longest gap"]
    assert texts(integrity_approaches.show()) == {"step": "5 min"}
    for cells, approach, each, full in zip(rows, examples(), days, whole, strict=False):
        limits = approach.segment.hal_m, approach.segment.val_m or 1e9
        worst = min(each, key=lambda name: gaps(each[name], *limits)[1])
        lost, part = gaps(each[worst], *limits)
        level = approach.identity.level_of_service
        assert cells == [
            f"{approach.identity.airport} {approach.identity.runway} / {level} {limits[0]:.0f}/"
            f"{approach.segment.val_m:.0f}", share(gaps(full, *limits)[1]),
            share(part) + (f" / no {worst}" if lost else ""), f"{max(lost)} min" if lost else "none"]


def test_day_with_satellites_missing(monkeypatch):
    """Gaps and highest levels of the three days, counted moment by moment; HAL 40 m, VAL 35 m."""
    calls = recorded(monkeypatch, integrity_day, "missed_most")
    axes = drawings(integrity_day.show)
    table, *figures = printed(integrity_day.show())
    days = {f"without {' and '.join(out)}" if out else "with all 24": day for out, day in calls[0].items()}
    assert table[0] == ["satellites", "> LPV", "> gaps", "> longest"]
    assert table[1:] == [[name, share(part), f"{len(lost)}", f"{max(lost)} min" if lost else "none"]
                         for name, day in days.items() for lost, part in [gaps(day, 40, 35)]]

    def highest(day, level, first_h, last_h):
        levels = [getattr(moment, level) for moment in day
                  if first_h * 3600 <= moment.gps_s - day[0].gps_s < last_h * 3600]
        return f"{max(levels):.0f} m"

    for (words, rows), level, short, limit_m in zip(
            zip(figures[::2], figures[1::2], strict=True), ("vpl_m", "hpl_pa_m"), "VH", (35, 40), strict=True):
        tops = ", ".join(f"{highest(day, level, 0, 24)} {name}" for name, day in days.items())
        assert words == f"Highest {short}PL of the day: {tops}. The {short}AL is {limit_m} m."
        assert rows == [["hours, highest", *days], *(
            [f"{h} to {h + 4}", *(highest(day, level, h, h + 4) for day in days.values())] for h in range(0, 24, 4))]
    for each, level, limit_m, name in zip(axes, ("vpl_m", "hpl_pa_m"), (35, 40), ("VAL", "HAL"), strict=True):
        *lines_drawn, limit = curves(each)
        assert lines_drawn == [
            [(pytest.approx(place / 12), min(99.0, getattr(moment, level))) for place, moment in enumerate(day)]
            for day in days.values()]
        assert [y for _, y in limit] == [limit_m, limit_m]
        assert labels(each)[f"{name} {limit_m}\u202fm"] == (24, limit_m)
        assert [labels(each)[day] for day in days] == [(24, y) for y in (53, 59, 65)]
        assert window(each) == (0, 24, 0, 70)
        assert each.get_ylabel() == f"{name[0]}PL, m"
        assert list(each.get_xticks()) == [0, 4, 8, 12, 16, 20, 24]


def test_moment_without_position_drawn_off_top():
    axes = drawings(integrity_day.show)[0]
    lost = [Epoch(0.0, 3, None, None, None), Epoch(3600.0, 8, 12.0, 12.0, 20.0)]
    integrity_day._draw(axes, (dict.fromkeys("abc", lost), "vpl_m", "VAL", 35.0))
    assert curves(axes)[-2] == [(0, 99), (1, 20)]
    assert integrity_day._words(None) == "none"
    early = {"alone": [Epoch(hour * 3600.0, 8, 12.0, 12.0, 20.0 if hour else 34.0) for hour in range(24)]}
    html = integrity_day._figure({**early, "b": early["alone"], "c": early["alone"]}, "vpl_m", "VAL", 35.0)
    assert "Highest VPL of the day: 34\u202fm alone" in html, "the first hour counts"
    assert 'id="integrity-vpl"' in html


def test_levels_by_protection_level(monkeypatch):
    """LPV within 40 m and 35 or 50 m; LNAV/VNAV within 556 and 50 m where it is printed; LNAV within 556 m."""
    rows = [["15 m", "30 m", "LPV", "LPV"], ["15 m", "40 m", "LNAV/VNAV", "LPV"], ["15 m", "60 m", "LNAV", "LNAV"],
            ["45 m", "30 m", "LNAV/VNAV", "LNAV"], ["600 m", "600 m", "none", "none"]]
    expected = [[["> HPL", "> VPL", "> ZZAK 09 / VAL 35 m", "> ZZAK 16 / VAL 50 m"], *rows]]
    assert printed(integrity_rule.show()) == expected
    monkeypatch.setattr(integrity_rule, "examples", lambda: sorted(examples(), key=lambda each: each.segment.val_m))
    assert printed(integrity_rule.show()) == expected, "one without vertical guidance has no VAL to show"


def test_geostationary_satellite():
    """On a sphere seen from 34, 45 and 50 degrees north; the elevations themselves are compared above."""
    head, (heads, *rows) = printed(sky_geostationary.show())
    assert head == (
        "Elevation of the satellite that sends the messages, by how far east or west of the airport it is:")
    assert heads == ["airport", "> 0°", "> 30°", "> 60°"]
    assert [cells[0] for cells in rows] == ["ZZAK, N 34°", "ZZEG, N 45°", "ZZHC, N 50°"]


def test_geostationary_satellite_from_south_and_pole(monkeypatch):
    def name_at(latitude_deg):
        site = sky_geostationary.Site(latitude_deg, 30.0)
        monkeypatch.setattr(sky_geostationary, "site_of", lambda segment: site)
        return printed(sky_geostationary.show())[1][1]

    assert [name_at(latitude_deg)[0] for latitude_deg in (-12.0, 0.0)] == ["ZZAK, S 12°", "ZZAK, N 0°"]
    assert name_at(85.0)[1:] == ["below"] * 3, "no geostationary satellite is seen beyond 81 degrees"
    assert [sky_geostationary._words(degrees) for degrees in (0.0, 0.6)] == ["below", "1°"]


def test_obstruction_by_turn_and_ridge(monkeypatch):
    """Rolling right onto final from 30 degrees left of it, 25 of bank; a ridge 140 wide to the south, 20 high."""
    given = recorded(monkeypatch, sky_hidden, "Masks")
    blocks = printed(sky_hidden.show())
    turn = next(call for call in given if call.bank_deg)
    assert (turn.bank_deg, turn.heading_deg) == (25.0, pytest.approx(example().true_course_deg - 30.0))
    ridge = next(call for call in given if call.terrain)
    assert ridge.terrain == ((100.0, 0.0), (110.0, 20.0), (250.0, 20.0), (260.0, 0.0))
    assert [block[0] for block in blocks] == [
        ["Right turn onto final, 25° of bank"], ["A ridge to the south, 20° high"]]
    assert [[row[0] for row in block[1:]] for block in blocks] == [
        ["satellites in view", "VDOP", "VPL", "**level**", "LPV, if it lasted all day"]] * 2
    for block in blocks:
        seen, vdop, vpl = ([float(word) for word in row[1].replace(" m", "").split(" to ")] for row in block[1:4])
        assert seen[1] < seen[0]
        assert vpl[1] > vpl[0]
        assert vdop[1] > vdop[0]
        assert block[2][1] == about("{:.1f} to {:.1f}", *vdop), "dilution to a tenth"
    assert sky_hidden._words([], Epoch(0.0, 3, None, None, None)) == ("0", "none", "none", "none")
