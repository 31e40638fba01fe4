"""What the scripts of docs/final/ show, worked out in another way: plane and spherical geometry, hand calculation.

The example: threshold 22 ft, crossing height 52 ft, 3.00 degrees, airport 31 ft, DA 224 ft, PFAF 6.048 NM out at
2000 ft; course half-width 106.75 m at the threshold, GARP 11 000 ft behind it; 138 kt.
"""

import math
from dataclasses import replace

import pytest

from cold_by_hand import minimum_ft, segment_ft
from drawn import curves, drawings, labels, window
from final import (
    altimeter,
    altimeter_cold,
    altimeter_tolerance,
    deviation,
    deviation_course,
    deviation_drift,
    deviation_path,
    gates,
    gates_state,
    overview,
    rate,
    rate_tailwind,
    rate_wind,
)
from shown import SPACES, about, printed

FT_PER_NM, FT_PER_M, EARTH_FT = 1852 / 0.3048, 1 / 0.3048, 6371008.8 / 0.3048
THRESHOLD_FT, TCH_FT, AIRPORT_FT, DA_FT, PFAF_NM = 22.0, 52.0, 31.0, 224.0, 6.0481
TAN = math.tan(math.radians(3.0))
HALF_WIDTH_FT, GARP_FT = 106.75 * FT_PER_M, 11000.0
DA_NM = (DA_FT - THRESHOLD_FT - TCH_FT) / TAN / FT_PER_NM  # 0.477 NM, less the curvature of a few inches
CLOSE = 0.02  # plane against curved


def on_path_ft(distance_nm):
    """A straight line over a sphere: the fall of the tangent is the square of the distance over twice the radius."""
    run_ft = distance_nm * FT_PER_NM
    return THRESHOLD_FT + TCH_FT + run_ft * TAN + run_ft**2 / (2 * EARTH_FT)


def rate_fpm(speed_kt, angle_deg=3.0):
    return speed_kt * FT_PER_NM / 60 * math.tan(math.radians(angle_deg))


def reads_ft(celsius):
    """Indicated over true height at the fix is standard over actual mean temperature of the column below."""
    height_ft = on_path_ft(PFAF_NM) - AIRPORT_FT
    mean_k, standard_k = 273.15 + celsius - 0.0009906 * height_ft, 288.15 - 0.0019812 * AIRPORT_FT
    return AIRPORT_FT + height_ft * (standard_k - 0.0009906 * height_ft) / mean_k


def test_altimeter():
    """In steps of ten degrees, with the standard temperature of an airport 31 ft up between; printed to ten feet."""
    shown, charted_ft = altimeter.show(), 2000.0
    assert shown.number("standard") == pytest.approx(on_path_ft(PFAF_NM) - charted_ft, abs=0.7)
    assert shown.number("coldest") == pytest.approx(reads_ft(-30) - charted_ft, rel=0.02)
    assert shown.number("per_ten") == pytest.approx(reads_ft(5) - reads_ft(15), rel=0.02)
    angle = math.degrees(math.atan(TAN * (273.15 - 30.0) / (288.15 - 0.0019812 * AIRPORT_FT)))
    assert shown.number("cold_angle") == pytest.approx(angle, abs=0.01)
    assert [shown.text(key).translate(SPACES) for key in ("standard", "coldest", "per_ten", "cold_angle")] == [
        "+30 ft", "+410 ft", "70 ft", f"{angle:.2f}°"]

    def row(celsius):
        more = round((reads_ft(celsius) - charted_ft) / 10) * 10
        return [f"{celsius} °C" + (", standard" if celsius == 15 else ""), f"**{charted_ft + more:.0f}**",
                f"{more:+} ft" if more else "0 ft"]

    assert printed(shown) == ["On the glidepath at GULLY of ZZAK, 6.0 NM out, charted 2000; to the nearest ten feet:", [
        ["airport", "> altimeter, ft", "> to charted"],
        *map(row, (-30, -20, -10, 0, 10, 15, 20, 30, 40))]]


# ZZHC: airport 6498 ft, DA 6775 (277 ft up), PFAF 8700 (2202 ft), hold 10000 (3502 ft).
def test_cold_additions_by_published_table():
    shown = altimeter_cold.show()
    added = {celsius: (minimum_ft(celsius, 277), segment_ft(celsius, 2202), segment_ft(celsius, 3502))
             for celsius in (0, -10, -20, -30, -40, -50)}
    assert printed(shown) == ["ZZHC, airport elevation 6498 ft; altitude to use and what was added, in ft:", [
        ["airport", "> DA / 6775", "> at the FAF / 8700", "> missed hold / 10000"],
        *([f"{celsius} °C", *(f"**{charted + more}** / +{more}"
                              for charted, more in zip((6775, 8700, 10000), each, strict=True))]
          for celsius, each in added.items())]]
    assert (shown.number("limit"), shown.text("limit").translate(SPACES)) == (-14.0, "-14 °C")
    assert shown.text("airport") == "High Fell"


def test_cold_additions_without_mark_or_missed_approach(monkeypatch):
    """The example then, 193 ft and 1969 ft over its airport; no column for an altitude that the chart has not."""
    plain = replace(altimeter_cold.example(), chart=replace(altimeter_cold.example().chart, missed=None))
    monkeypatch.setattr(altimeter_cold, "examples", lambda: [plain])
    monkeypatch.setattr(altimeter_cold, "example", lambda: plain)
    shown = altimeter_cold.show()
    assert printed(shown)[1][0] == ["airport", "> DA / 224", "> at the FAF / 2000"]
    assert printed(shown)[1][4] == ["-30 °C", "**264** / +40", f"**2400** / +{segment_ft(-30, 1969)}"]
    assert shown.text("limit") == "no temperature"


def test_uncorrected_da_height_loss():
    standard_k = 288.15 - 0.0019812 * 6498
    low_ft, shown = 277.0 * (1.0 - (273.15 - 30.0) / standard_k), altimeter_cold.show()
    assert shown.number("low") == pytest.approx(low_ft, rel=0.01)
    assert shown.text("low").translate(SPACES) == "32 ft lower than it says at -30 °C"


def test_wrong_settings():
    """Near sea level 1 hPa is 27.3 ft (g, R and 15 °C: 8.43 m), an inch 33.86 hPa."""
    shown = altimeter_tolerance.show()
    assert shown.number("ten_hpa") == pytest.approx(273.0, rel=0.01)
    assert shown.number("inch") == pytest.approx(33.86389 * 27.3, rel=0.02)
    assert shown.number("tenth") == pytest.approx(3.386389 * 27.3, rel=0.01)


def test_allowances_together():
    """75 ft on the ground (AIM 7-2-3), 4 m of SBAS height; 1 hPa is 27.3 ft; squares add up."""
    quarter_dot = path_full_ft(PFAF_NM) / 2 / 4
    five_degrees = reads_ft(10) - reads_ft(15)
    parts = [75.0, quarter_dot, five_degrees, 0.05 * FT_PER_NM * TAN, 4.0 * FT_PER_M, 0.005 * 33.86389 * 27.3]
    shown, all_ft = altimeter_tolerance.show(), math.sqrt(sum(part * part for part in parts))
    assert shown.number("together") == pytest.approx(all_ft, abs=0.5)
    assert printed(shown) == ["With nothing wrong, in feet either way:", [
        ["part", "> ft"],
        *([name, about("{:.0f}", part, off=0.7)] for name, part in zip((
            "altimeter, as checked on the ground", "a quarter of a dot off the glidepath",
            "air 5 °C colder than assumed", "read 0.05 NM early or late",
            "SBAS height, ninety-five times in a hundred", "setting rounded to the hundredth of an inch",
        ), parts, strict=True)),
        ["**together**, root of the squares", about("**{:.0f}**", all_ft, off=0.7)]]]


def angular_ft(nm):
    """As wide as the angle from 11 000 ft beyond the threshold, 106.75 m there."""
    return HALF_WIDTH_FT * (1.0 + nm * FT_PER_NM / GARP_FT)


def course_full_ft(nm):
    return min(0.3 * FT_PER_NM, angular_ft(nm))


def path_full_ft(nm):
    origin_ft = nm * FT_PER_NM + TCH_FT / TAN
    return max(15 * FT_PER_M, min(150 * FT_PER_M, origin_ft * math.tan(math.radians(0.75))))


def test_dots():
    """Half of full scale on two dots, a fifth on five; the path above and below alike."""
    shown = deviation.show()
    assert shown.number("da_course") == pytest.approx(1.5 * course_full_ft(DA_NM) / 2, rel=CLOSE)
    assert shown.number("da_path") == pytest.approx(1.5 * path_full_ft(DA_NM) / 2, rel=CLOSE)
    assert (shown.number("normal"), shown.text("normal").translate(SPACES)) == (1.0, "1 dot")
    places = {"FAF GULLY": PFAF_NM, "5 NM": 5, "4 NM": 4, "3 NM": 3, "2 NM": 2, "1 NM": 1, "DA 224": DA_NM,
              "threshold": 0}
    assert printed(shown) == ["One dot, in feet, on the LPV final of ZZAK:", [
        ["at", "> course, two-dot", "> course, five-dot", "> glidepath, two-dot"],
        *([name, about("**{:.0f}**", course_full_ft(nm) / 2, off=0.7), about("{:.0f}", course_full_ft(nm) / 5, off=0.6),
           about("**{:.0f}**", path_full_ft(nm) / 2, off=0.6)] for name, nm in places.items())]]


def procedure_ft(nm):
    """A mile until 2 NM before the fix; in a straight line to the angular width there."""
    share = min(1.0, max(0.0, (nm - PFAF_NM) / 2.0))
    at_fix_ft = angular_ft(PFAF_NM)
    return angular_ft(nm) if nm < PFAF_NM else at_fix_ft + share * (FT_PER_NM - at_fix_ft)


def test_course_scale():
    """On vectors the angle goes on; an ILS is 350 ft wide to either side at the threshold."""
    shown = deviation_course.show()
    assert shown.number("at_pfaf") == pytest.approx(course_full_ft(PFAF_NM), rel=1e-3)
    cap_nm = (0.3 * FT_PER_NM / HALF_WIDTH_FT - 1.0) * GARP_FT / FT_PER_NM
    assert shown.number("cap") == pytest.approx(cap_nm, abs=0.01)
    assert shown.text("cap") == about("{:.1f}\u202fNM", cap_nm)
    assert printed(shown) == [
        about("With the whole procedure flown, full scale shrinks from 1 NM to {:.0f} ft at the FAF and 350 ft at the "
              "threshold, where it stops narrowing; inside the FAF it matches an ILS.", course_full_ft(PFAF_NM)),
        [["to threshold", "> LPV, procedure", "> LPV, vectors", "> ILS"],
         *([f"{nm} NM", about("{:.0f} ft", procedure_ft(nm), off=2), about("{:.0f} ft", angular_ft(nm), off=1),
            about("{:.0f} ft", 350 * (1 + nm * FT_PER_NM / GARP_FT), off=1)] for nm in range(10, -1, -1))]]


def test_path_scale():
    shown, quarter = deviation_path.show(), math.tan(math.radians(0.75))
    caps_nm = [(metres * FT_PER_M / quarter - TCH_FT / TAN) / FT_PER_NM for metres in (150, 15)]
    assert [shown.number("cap_distance"), shown.number("floor_distance")] == pytest.approx(caps_nm, rel=CLOSE)
    assert [shown.text("cap_distance"), shown.text("floor_distance")] == [
        about("{:.1f}\u202fNM", nm, off=0.08) for nm in caps_nm]
    assert shown.number("floor") == pytest.approx(15 * FT_PER_M)
    assert shown.number("ils_threshold") == pytest.approx(TCH_FT / TAN * math.tan(math.radians(0.7)), rel=CLOSE)

    def ils_ft(nm, full_deg):
        return (nm * FT_PER_NM + TCH_FT / TAN) * math.tan(math.radians(full_deg))

    assert printed(shown) == [
        about("LPV full scale is like that of an ILS, but never more than 492 ft (outside {:.1f} NM) nor less than 49 "
              "ft (inside {:.1f} NM). From memory, see below.", *caps_nm, off=0.08),
        [["to threshold", "> LPV", "> ILS, 0.7°", "> ILS, 0.24 of the angle"],
         *([f"{nm} NM", about("{:.0f} ft", path_full_ft(nm), off=1.5), about("{:.0f} ft", ils_ft(nm, 0.7), off=1.5),
            about("{:.0f} ft", ils_ft(nm, 0.72), off=1.5)] for nm in (10, 8, 6, 5, 4, 3, 2, 1, 0.5, 0))]]


def test_drift():
    """One dot over the part of the speed that lies across: the sine of five degrees."""
    across_fps, shown = 130 * FT_PER_NM / 3600 * math.sin(math.radians(5.0)), deviation_drift.show()

    def seconds(nm):
        return course_full_ft(nm) / 2 / across_fps

    assert shown.number("error") == 5.0
    assert shown.number("pfaf") == pytest.approx(seconds(PFAF_NM), rel=1e-3)
    assert shown.number("da") == pytest.approx(seconds(DA_NM), rel=CLOSE)
    assert printed(shown) == ["Track 5° off the course at a ground speed of 130 kt:", [
        ["at", "> one dot after"],
        *([name, about("{:.0f} s", seconds(nm), off=0.6)]
          for name, nm in (("FAF", PFAF_NM), ("3 NM", 3), ("1 NM", 1), ("DA", DA_NM)))]]


def test_gates():
    """ALAR Briefing Note 7.1, Table 1: VREF to VREF plus 20 kt, one dot, 1000 ft/min, by 1000 ft in cloud, else 500."""
    shown = gates.show()
    assert (shown.number("dot"), shown.text("dot").translate(SPACES)) == (1.0, "1 dot")
    assert printed(shown) == [[
        ["item", "> ALAR, IMC", "> ALAR, VMC"], ["by, ft above the airport", "**1000**", "**500**"],
        ["speed over VREF, kt", "0 to 20", "0 to 20"], ["highest rate down, ft/min", "1000", "1000"],
        ["course, most dots", "1", "1"], ["glidepath, most dots", "1", "1"], ["landing configuration", "yes", "yes"],
        ["power set", "yes", "yes"], ["briefings and checklists complete", "yes", "yes"]],
        "Whose they are:",
        [["Flight Safety Foundation, ALAR Briefing Note 7.1, Table 1"], ["read as", "published, quoted"]]]


def test_less_restrictive_gates():
    """A gate that says nothing of an item: no speed, no dots, nothing to be done."""
    silent = gates.Gate("silent", 500, "threshold")
    assert [gates.speed(silent), gates.at_most(silent.lateral_dots), gates.asked("power set", silent)] == [
        "none", "none", "not named"]
    for one_sided in ({"slowest_kt": 0.0}, {"fastest_kt": 20.0}):
        assert gates.speed(gates.Gate("half", 500, "threshold", **one_sided)) == "none"


def test_gates_of_single_state(monkeypatch):
    """138 kt are 15 over 123: within ALAR's 20, over the operator's 10; of the three things two are done."""
    shown = gates_state.show()
    assert shown.text("silent") == "bank"
    expected = [
        "An invented aircraft passing 950 ft above the airport; the operator's gate is Operator, 1000 ft:", [
            ["found", "> ALAR, IMC", "> operator"],
            ["least speed over target: **15 kt**", "met", "met"],
            ["most speed over target: **15 kt**", "met", "**not met** / at most 10 kt"],
            ["rate of descent: **900 ft/min**", "met", "met"],
            ["course deviation: **0.5 dots**", "met", "met"],
            ["glidepath deviation: **1.2 dots**", "**not met** / at most 1 dot", "**not met** / at most 1 dot"],
            ["landing configuration: **yes**", "met", "met"], ["power set: **yes**", "met", "silent"],
            ["briefings and checklists complete: **no**", "**not met**", "**not met**"],
            ["bank: **6°**", "silent", "met"], ["verdict", "**go around**", "**go around**"]]]
    assert printed(shown) == expected
    everything = gates_state.State(
        height_ft=950, speed_kt=130, target_speed_kt=123, sink_rate_fpm=900, lateral_dots=0.5, vertical_dots=0.5,
        bank_deg=6, done=gates_state.DONE)
    monkeypatch.setattr(gates_state, "STATE", everything)
    assert printed(gates_state.show())[1][-1] == ["verdict", "met", "met"]


def test_overview():
    """Straight down at three degrees from the fix to the DA, timed at 130 kt."""
    shown = overview.show()
    assert (shown.number("rate"), shown.text("rate")) == (pytest.approx(rate_fpm(130), rel=1e-6), "690\u202fft/min")
    to_go_s = (PFAF_NM - DA_NM) / 130 * 3600
    assert shown.number("to_go") == pytest.approx(to_go_s, abs=0.5)
    assert shown.text("to_go") == f"{to_go_s // 60:.0f}:{to_go_s % 60:02.0f}"

    def row(name, nm):
        minutes, seconds = divmod(round((nm - DA_NM) / 130 * 3600), 60)
        return [name, about("**{:.0f}**", on_path_ft(nm), off=1), about("{:.0f}", path_full_ft(nm) / 2, off=0.7),
                f"{minutes}:{seconds:02}"]

    assert printed(shown) == [
        "RNAV (GPS) RWY 09, ZZAK, on a standard day; time to the DA at a ground speed of 130 kt, 690 ft/min down:",
        [["to threshold", "> altimeter, ft", "> one glidepath dot, ft", "> to go, min:s"], row("FAF GULLY", PFAF_NM),
         *(row(f"{nm} NM", nm) for nm in (5, 4, 3, 2, 1)), row("DA", DA_NM)]]


def test_rates():
    """To the nearest ten; over 1000 ft/min is said to be over."""
    shown = rate.show()
    assert shown.number("per_ten") == pytest.approx(rate_fpm(10))
    assert shown.number("rule_short") == pytest.approx((1 - 5 / rate_fpm(1)) * 100, abs=1e-6)
    regain_fpm = rate_fpm(130) + 200 / (2.0 / 130 * 60)
    assert shown.number("regain") == pytest.approx(regain_fpm)
    assert shown.text("regain").translate(SPACES) == (
        f"200 ft above the glidepath, to be lost within 2 NM at 130 kt, ask for {round(regain_fpm, -1):.0f} ft/min "
        "instead of 690 ft/min")

    def cell(kt, angle_deg):
        fpm = rate_fpm(kt, angle_deg)
        return f"{round(fpm / 10) * 10}" + (" over" if fpm > 1000 else "")

    assert printed(shown) == [
        "Rate of descent in ft/min to the nearest ten, on the glidepath; in bold the angle of the example:",
        [["ground speed", "> 2.75°", "> 3.00°", "> 3.50°"],
         *([f"{kt} kt", cell(kt, 2.75), f"**{cell(kt, 3.0)}**", cell(kt, 3.5)] for kt in range(100, 190, 10))]]


@pytest.mark.parametrize(("own_deg", "heads"), [
    (2.75, ["> 2.75°", "> 3.00°", "> 3.50°"]), (3.1, ["> 2.75°", "> 3.10°", "> 3.50°"])])
def test_rates_beside_other_angle(own_deg, heads, monkeypatch):
    """Two others stand beside the example's, of which none is its own."""
    monkeypatch.setattr(rate, "descent_angle_deg", lambda _: own_deg)
    table = printed(rate.show())[1]
    assert table[0][1:] == heads
    assert [cell.startswith("**") for cell in table[1][1:]] == [head == f"> {own_deg:.2f}°" for head in heads]


def test_tailwind(monkeypatch):
    """Whole knots between the airspeed and the ground speed at which the path asks for 1000 ft/min."""
    shown = rate_tailwind.show()
    limits = {angle_deg: 1000 / rate_fpm(1, angle_deg) for angle_deg in (3.0, 3.5, 4.0)}
    assert (shown.number("limit"), shown.text("limit")) == (pytest.approx(limits[3.0]), "188\u202fkt")
    assert (shown.number("limit_steep"), shown.text("limit_steep")) == (pytest.approx(limits[4.0]), "141\u202fkt")
    # 8700 ft of the standard atmosphere: temperature ratio 0.9402, density ratio its power 4.2559.
    true_kt = 140 / math.sqrt((1 - 0.0019812 * 8700 / 288.15) ** 4.2559)
    assert shown.number("high") == pytest.approx(true_kt, rel=0.005)
    assert shown.text("high").translate(SPACES) == (
        "140 kt indicated at the FAF of High Fell, 8700 ft up, is 159 kt true on a standard day")
    assert printed(shown) == ["Tailwind along the final, in kt, at which the criterion is reached:", [
        ["true airspeed", "> 3.0°", "> 3.5°", "> 4.0°"],
        *([f"{kt} kt", *(f"{math.floor(limit - kt)}" if limit >= kt + 1 else "none" for limit in limits.values())]
          for kt in range(110, 180, 10))]]
    monkeypatch.setattr(rate_tailwind, "AIRSPEEDS_KT", (188,))
    assert printed(rate_tailwind.show())[1][1] == ["188 kt", "none", "none", "none"], "0.4 kt are not a whole one"


def test_wind():
    assert rate_wind.show().number("per_ten_wind") == pytest.approx(rate_fpm(10))
    assert printed(rate_wind.show()) == [
        f"At 140 kt true airspeed on 3.00°, a headwind of 20 kt asks for {rate_fpm(120):.0f} ft/min, a tailwind of 20 "
        f"kt for {rate_fpm(160):.0f} ft/min.",
        [["true airspeed", "20 kt tail", "calm", "20 kt head"],
         *([f"{kt} kt", *(f"{rate_fpm(kt + more):.0f} ft/min" for more in (20, 0, -20))]
           for kt in range(100, 190, 10))]]


def test_wind_drawing():
    """A line and a mark at 140 kt for each wind, and the criterion; room beside and above for what is written."""
    (axes,) = drawings(rate_wind.show)
    assert curves(axes)[:6] == [points for more in (20, 0, -20) for points in (
        [(kt, pytest.approx(rate_fpm(kt + more))) for kt in range(100, 190, 10)],
        [(140, pytest.approx(rate_fpm(140 + more)))])]
    assert [y for _, y in curves(axes)[6]] == [1000.0, 1000.0]
    assert labels(axes) == {
        **{name: (180, pytest.approx(rate_fpm(180 + more)))
           for name, more in (("20\u202fkt tail", 20), ("calm", 0), ("20\u202fkt head", -20))},
        **{f"{rate_fpm(140 + more):.0f}": (140, pytest.approx(rate_fpm(140 + more))) for more in (20, 0, -20)},
        "criterion": (100, 1000)}
    assert window(axes) == (100, 180 + 32, 400, pytest.approx(rate_fpm(200) + 40))
    assert list(axes.get_xticks()) == [100, 120, 140, 160, 180]
