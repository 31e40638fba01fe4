"""What the scripts of docs/decide/ show, worked out in another way: plane geometry, kinematics, published tables.

The example: threshold 22 ft, touchdown zone 24 ft, crossing height 52 ft, 3.00 degrees, DA 224 ft, lights 2400 ft;
138 kt, eyes 2 ft above the antenna, 14 degrees down, reaction 1.5 s, 0.15 g, climb 900 ft/min with one engine out.
"""

import math
from dataclasses import replace

import pytest

from decide import (
    calls,
    climb,
    dip,
    dip_rates,
    last_feet,
    level_off,
    lines,
    references,
    rvr,
    scales,
    sight,
    surface,
    view,
)
from drawn import curves, drawings, labels, window
from paths_by_hand import before_threshold_ft
from shown import SPACES, about, printed

FT_PER_NM, G_FPS2 = 1852 / 0.3048, 9.80665 / 0.3048
TAN = math.tan(math.radians(3.0))
HEIGHT_FT, TCH_FT, SPEED_KT = 224.0 - 22.0, 52.0, 138.0
DISTANCE_FT = before_threshold_ft(HEIGHT_FT - TCH_FT)
FPS = SPEED_KT * FT_PER_NM / 3600
SINK_FPS, PULL_FPS2 = FPS * TAN, 0.15 * G_FPS2
CLOSE = 0.02  # plane against curved


def fall_ft(seconds):
    """Below the path's own straight line: reaction at the old rate, then 0.15 g stops the descent."""
    return SINK_FPS * seconds + SINK_FPS**2 / (2 * PULL_FPS2)


def back_s(reaction_s):
    """Until the DA is reached again: 2800 ft/min are not yet there when it is."""
    up_s = math.sqrt(2 * fall_ft(reaction_s) / PULL_FPS2)
    assert PULL_FPS2 * up_s < 2800 / 60
    return reaction_s + SINK_FPS / PULL_FPS2 + up_s


def test_calls():
    """The five call-outs of large-jet.toml, three to a DA and two to an MDA, by height."""
    assert printed(calls.show()) == ["Calls of the large demo jet, by height above the minimum:", [
        ["above it", "set as DA", "set as MDA"],
        ["+500 ft", "Five hundred above", "nothing"],
        ["+150 ft", "nothing", "Approaching MDA"],
        ["+100 ft", "One hundred above", "nothing"],
        ["+50 ft", "nothing", "Go around unless visual"],
        ["at it", "Decide", "nothing"]]]


def test_climb():
    """Feet per mile times miles per minute; 2.5 % is ICAO's gradient; ZZHC's chart prints 260 ft/NM."""
    shown = climb.show()
    assert shown.number("icao") == pytest.approx(0.025 * FT_PER_NM)
    assert shown.number("altitude") == 3000.0
    assert (shown.number("one_out"), shown.text("one_out")) == (900.0, "900\u202fft/min (invented)")
    assert shown.number("made_good") == pytest.approx(900 * 60 / SPEED_KT)
    assert shown.number("speed") == SPEED_KT
    assert shown.text("printed").translate(SPACES) == (
        "ZZHC RNAV &#40;GPS&#41; RWY 33 prints 260 ft/NM, which needs 598 ft/min at 138 kt")
    assert printed(shown) == ["Feet per minute; speed over the ground:", [
        ["kt", "> 200 ft/NM", "> 300 ft/NM", "> 400 ft/NM"],
        *([str(kt), *(f"{gradient * kt / 60:.0f}" for gradient in (200, 300, 400))]
          for kt in (100, 120, 140, 160, 180))]]


def test_climb_without_charted_gradient(monkeypatch):
    monkeypatch.setattr(climb, "examples", lambda: [climb.example()])
    assert climb.show().text("printed") == "none of the demo approaches prints a higher one"


def test_dip():
    shown = dip.show()
    assert shown.number("per_second") == pytest.approx(SINK_FPS)
    assert shown.number("rotation") == pytest.approx(SINK_FPS**2 / (2 * PULL_FPS2))
    assert shown.number("loss") == pytest.approx(fall_ft(1.5))
    assert (shown.number("acceleration"), shown.text("acceleration")) == (0.15, "0.15\u202fg (invented)")
    assert printed(shown) == [
        about("From {:.0f} ft/min the large demo jet dips {:.0f} ft below the DA when its path begins to change after "
              "1.5 s, and {:.0f} ft when that comes 2 s later. It is back at the DA after {:.0f} s and {:.0f} s.",
              60 * SINK_FPS, fall_ft(1.5), fall_ft(3.5), back_s(1.5), back_s(3.5)),
        [["path changes after", "> lowest below the DA", "> back at the DA after"],
         *([f"{late_s} s", about("{:.0f} ft", fall_ft(late_s)), about("{:.1f} s", back_s(late_s))]
           for late_s in (1.5, 3.5))]]


def test_dip_by_rate():
    """The rest of a reaction at the rate, and v2 / 2a; the margins: Doc 8168 Vol II, Table III-3-6-3."""
    assert printed(dip_rates.show()) == [
        "Feet below the DA at the lowest, by seconds from the decision to the first change of path:",
        [["ft/min", "> 1 s", "> 2 s", "> 4 s"],
         *([str(fpm), *(about("{:.0f}", fpm / 60 * s + (fpm / 60) ** 2 / (2 * PULL_FPS2)) for s in (1, 2, 4))]
           for fpm in (500, 600, 700, 800, 1000))],
        "What design allows below the DA, feet, altimeter errors included (ICAO, published):",
        [["category", "> pressure altimeter", "> radio altimeter"],
         ["A", "130", "42"], ["B", "142", "59"], ["C", "150", "71"], ["D", "161", "85"]]]


def test_last_feet():
    """Calls at 500, 100 and 0 ft above the DA; lights alone to 100 ft above the touchdown zone (91.175(c)(3)(i))."""
    def to_go_ft(altitude_ft):
        return (altitude_ft - 22.0 - TCH_FT) / TAN

    def after(altitude_ft):
        seconds = (DISTANCE_FT - to_go_ft(altitude_ft)) / FPS
        return about("+{:.0f} s" if seconds > 0 else "{:.0f} s", seconds)

    shown, ordinary = last_feet.show(), ((724, "Five hundred above"), (324, "One hundred above"))
    below = ((124, "approach lights alone end here"), (74, "threshold, on the glidepath"))
    mark = [["**224**", "**Decide**", about("**{:.1f}**", DISTANCE_FT / FT_PER_NM), "**0 s**"]]
    entries = [[[str(altitude_ft), words, about("{:.1f}", to_go_ft(altitude_ft) / FT_PER_NM), after(altitude_ft)]
                for altitude_ft, words in part] for part in (ordinary, below)]
    assert printed(shown) == [
        "RNAV (GPS) RWY 09, ZZAK, LPV; Large demo jet at 138 kt over the ground; NM to the threshold:",
        [["altimeter, ft", "call or limit", "> NM", "> from DA"], *entries[0], *mark, *entries[1]]]
    assert shown.number("lights_only") == 124.0
    assert shown.number("to_threshold") == pytest.approx(DISTANCE_FT / FT_PER_NM, rel=CLOSE)
    assert shown.text("to_threshold") == "0.47\u202fNM"
    assert shown.number("wait") == pytest.approx(DISTANCE_FT / FPS, rel=CLOSE)
    assert shown.number("crossing") == TCH_FT


def rejoin_deg(seconds):
    """From the DA so many seconds late down to where the path meets the level of the threshold."""
    return math.degrees(math.atan(HEIGHT_FT / (HEIGHT_FT / TAN - seconds * FPS)))


def test_level_off():
    """So near the scale is at its floor of 15 m: full scale below once the path has fallen that far."""
    shown, lost_s = level_off.show(), math.ceil(10 * 15 / 0.3048 / SINK_FPS) / 10
    assert shown.number("off_scale") == lost_s
    assert shown.text("off_scale") == f"{lost_s:.0f}\u202fs (scale from memory)"
    assert shown.number("level_for") == 5
    assert shown.number("angle") == pytest.approx(rejoin_deg(5), abs=0.06)
    assert shown.text("angle") == about("{:.1f}°", rejoin_deg(5))
    assert shown.number("rate") == pytest.approx(
        SPEED_KT * FT_PER_NM / 60 * math.tan(math.radians(rejoin_deg(5))), rel=0.02)
    assert printed(shown) == [
        about(f"Level at the DA at 138 kt, the glidepath is full scale (from memory) below after {lost_s} s; after 5 s "
              "the runway's aiming point takes {:.1f}°.", rejoin_deg(5)),
        [["level for", "above the glidepath", "angle to rejoin"],
         *([f"{s} s", about("{:.0f} ft", SINK_FPS * s), about("{:.1f}°", rejoin_deg(s))] for s in (0, 2, 4, 6, 8))]]


def test_level_off_drawing():
    """Nine whole seconds of falling path; at the DA the scale is still a foot over its floor; the mark at both."""
    (axes,) = drawings(level_off.show)
    aircraft, scale, lost = curves(axes)
    assert aircraft == [(s, pytest.approx(SINK_FPS * s, abs=0.01)) for s in range(9)]
    assert [x for x, _ in scale] == [x for x, _ in aircraft]
    assert scale[0][1] == pytest.approx(HEIGHT_FT / TAN * math.tan(math.radians(0.75)), abs=0.1)
    assert [y for _, y in scale[2:]] == [pytest.approx(15 / 0.3048)] * 7
    assert lost == [(4.1, pytest.approx(4.1 * SINK_FPS, abs=0.01))]
    assert labels(axes) == {"full scale (from memory)": scale[-1], "aircraft": aircraft[-1], "4.1\u202fs": lost[0]}
    assert window(axes)[:3] == (0.0, 8.0, 0.0)


def test_lines():
    """The DA is 24 + 200 already; the operator adds 50 ft to each MDA; runway 27 has the demo's LP line."""
    shown = lines.show()
    assert (shown.number("above_mda"), shown.number("lowest_da")) == (50.0, 200.0)
    assert (shown.text("above_mda"), shown.text("lowest_da")) == ("50\u202fft (invented)", "200\u202fft (invented)")
    assert printed(shown) == ["ZZAK, category C, with what the operator of the large demo jet adds:", [
        ["line", "kind", "> printed, ft", "> to set, ft"],
        ["LPV / runway 09", "DA", "224", "**224**"], ["LNAV/VNAV / runway 09", "DA", "374", "**374**"],
        ["LNAV / runway 09", "MDA", "480", "**530**"], ["LP / runway 27", "MDA", "420", "**470**"]]]


def test_single_lp_line_is_enough(monkeypatch):
    twice = [*lines.examples(), *lines.examples()]
    monkeypatch.setattr(lines, "examples", lambda: twice)
    assert len(printed(lines.show())[1]) == 1 + 4


def test_references():
    """14 CFR 91.175(c)(3)(i) to (x)."""
    assert printed(references.show()) == [f"{place}. {name}" for place, name in enumerate((
        "approach light system, with its own limit", "threshold", "threshold markings", "threshold lights",
        "runway end identifier lights", "visual glideslope indicator", "touchdown zone or its markings",
        "touchdown zone lights", "runway or its markings", "runway lights"), 1)]


def test_rvr():
    """14 CFR 91.175(h)(2); AMC5 CAT.OP.MPA.110 Table 5: DH 200 to 210 ft, full lights."""
    assert rvr.show().number("easa") == 550.0
    assert printed(rvr.show()) == [[
        ["RVR printed, ft", "> visibility, SM"], ["1600", "**1/4**"], ["over 1600 to 2400", "**1/2**"],
        ["over 2400 to 3200", "**5/8**"], ["over 3200 to 4000", "**3/4**"], ["over 4000 to 4500", "**7/8**"],
        ["over 4500 to 5000", "**1**"], ["over 5000 to 6000", "**1 1/4**"]]]


def test_scales():
    """106.75 m at the threshold, widening from a point 11 000 ft beyond; 0.3 NM straight on, a mile elsewhere."""
    shown, full_ft = scales.show(), 350.23 * (1 + DISTANCE_FT / 11000)
    assert shown.number("at_da") == pytest.approx(full_ft, rel=0.005)
    assert shown.number("offset") == pytest.approx(full_ft / 2, rel=0.005)
    wide = (("first leg, 0° off the final", 0.3), ("after the first turn", 1.0))
    assert printed(shown) == [[
        ["where", "> full scale, ft", "> NM", "> same offset"],
        ["at the DA, on final", about("{:.0f}", full_ft, off=1), about("{:.2f}", full_ft / FT_PER_NM), "50%"],
        *([where, f"{nm * FT_PER_NM:.0f}", f"{nm:.2f}", about("{:.0f}%", 50 * full_ft / (nm * FT_PER_NM))]
          for where, nm in wide)]]


# The eyes are 2 ft above the antenna, so 204 ft over the threshold, and see no nearer than 14 degrees down.
EYE_FT = HEIGHT_FT + 2
HIDDEN_FT = EYE_FT / math.tan(math.radians(14.0))


def lights_seen_ft(visible_ft):
    """The row of 2400 ft ends at the threshold; of it what lies beyond the nose and within the visibility."""
    reach_ft = math.sqrt(visible_ft**2 - EYE_FT**2)
    return min(reach_ft, DISTANCE_FT) - max(HIDDEN_FT, DISTANCE_FT - 2400.0)


def seen_at(visible_ft):
    """Down the path, foot by foot from the DA, until the threshold is within the visibility."""
    for altitude_ft in range(224, 74, -1):
        away_ft = before_threshold_ft(altitude_ft - 22.0 - TCH_FT)
        if math.hypot(away_ft, altitude_ft - 20.0) <= visible_ft:
            return "at the DA" if altitude_ft == 224 else about("at {:.0f}", altitude_ft, off=1)
    raise AssertionError


def test_sight():
    shown = sight.show()
    assert shown.number("lights_only") == 124.0
    assert shown.number("need_at_da") == pytest.approx(math.hypot(DISTANCE_FT, EYE_FT), rel=CLOSE)
    at_limit_ft = math.hypot((124.0 - 22.0 - TCH_FT) / TAN, 124.0 - 20.0)
    assert shown.number("need_at_limit") == pytest.approx(at_limit_ft, rel=CLOSE)
    assert printed(shown) == [[
        ["visibility, SM", "> lights seen at the DA, ft", "> threshold seen, altimeter"],
        *([words, about("{:.0f}", lights_seen_ft(5280 * miles), off=2), seen_at(5280 * miles)] for words, miles in (
            ("1/4", 0.25), ("3/8", 0.375), ("1/2", 0.5), ("5/8", 0.625), ("3/4", 0.75), ("1", 1.0)))]]


def test_surface():
    """40 to 1 under the 200 ft/NM that every chart without a gradient asks."""
    rise = FT_PER_NM / 40
    assert surface.show().number("rise") == pytest.approx(rise)
    assert surface.show().number("margin") == pytest.approx(5 * (200 - rise))
    assert printed(surface.show()) == [
        f"At 5 NM a climb of 200 ft/NM is {5 * (200 - rise):.0f} ft above the obstacle surface; the margin grows with "
        "the distance.",
        [["from its start", "> surface", "> least climb", "> margin"],
         *([f"{nm} NM", f"{rise * nm:.0f} ft", f"{200 * nm} ft", f"{(200 - rise) * nm:.0f} ft"]
           for nm in range(1, 7))]]


def test_view():
    """RVR 2400 ft reaches 2391 ft over the ground, short of the threshold 2858 ft away."""
    shown, reach_ft = view.show(), math.sqrt(2400**2 - EYE_FT**2)
    assert (shown.number("cut_off"), shown.text("cut_off")) == (14.0, "14° (invented)")
    assert (shown.number("eyes"), shown.text("eyes")) == (2.0, "2\u202fft (invented)")
    assert shown.number("hidden") == pytest.approx(HIDDEN_FT)
    seen_ft = lights_seen_ft(2400)
    assert printed(shown) == [
        about("At the DA with the printed RVR 2400 ft, {:.0f} ft of the approach lights are in sight and the threshold "
              "is not in sight.", seen_ft, off=1),
        [["from the DA", "> value"], ["to the threshold", about("{:.0f} ft", DISTANCE_FT, off=1)],
         ["hidden by the nose", about("{:.0f} ft ahead", HIDDEN_FT)],
         ["visibility reaches", about("{:.0f} ft ahead", reach_ft)], ["threshold", "not in sight"],
         ["lights in sight", about("{:.0f} of 2400 ft", seen_ft, off=1)]]]


def test_threshold_in_sight_with_two_miles(monkeypatch):
    far = replace(view.example_row(), rvr_ft=None, visibility_sm=2.0)
    monkeypatch.setattr(view, "example_row", lambda: far)
    assert printed(view.show())[1][4] == ["threshold", "in sight"]
