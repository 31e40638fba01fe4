"""What the scripts of docs/intercept/ show, worked out in another way: turns flown in small steps, plane geometry.

The example: PFAF 6.048 NM out at 2000 ft, 3.00 degrees, threshold 22 ft, crossing height 52 ft, airport 31 ft; course
half-width 106.75 m at the threshold, GARP 11 000 ft behind it.  The large jet banks 27 degrees, rolling 4 a second.
"""

import math
from dataclasses import replace

import pytest

from drawn import curves, drawings, labels, window
from intercept import arming, below, captures, from_above, lead, limits, overshoot, path_met, wind
from lpv_site.department.data import aircraft
from paths_by_hand import straight_ft
from shown import SPACES, about, printed

FT_PER_NM, G_KT_PER_S = 1852 / 0.3048, 9.80665 / 0.5144444
PFAF_NM, TAN = 6.0481, math.tan(math.radians(3.0))
GRADIENT = TAN * FT_PER_NM
HALF_WIDTH_NM = 106.75 / 1852 * (9.048 * FT_PER_NM + 11000.0) / 11000.0


def vector(direction_deg, length):
    return length * math.cos(math.radians(direction_deg)), length * math.sin(math.radians(direction_deg))


def heading_on(track_deg, airspeed_kt, wind_from_deg, wind_kt):
    """Heading that holds a track, and the speed along it: found by trying headings."""
    blows = vector(wind_from_deg, -wind_kt)

    def over_ground(heading_deg):
        flies = vector(heading_deg, airspeed_kt)
        return flies[0] + blows[0], flies[1] + blows[1]

    def off(heading_deg):
        north, east = over_ground(heading_deg)
        return math.remainder(math.degrees(math.atan2(east, north)) - track_deg, 360.0)

    low, high = track_deg - 60.0, track_deg + 60.0
    for _ in range(60):
        middle = (low + high) / 2.0
        low, high = (middle, high) if off(middle) < 0.0 else (low, middle)
    return low, math.hypot(*over_ground(low))


def turned(angle_deg, airspeed_kt, wind_from_deg=0.0, wind_kt=0.0, bank_deg=27.0, roll_deg_per_s=4.0):
    """Distance from a course to the north at which a turn onto it from its right begins, flown in steps of 5 ms."""
    begins, _ = heading_on(-angle_deg, airspeed_kt, wind_from_deg, wind_kt)
    ends, _ = heading_on(0.0, airspeed_kt, wind_from_deg, wind_kt)
    change, step_s, bank, turned_deg, across = ends - begins, 0.005, 0.0, 0.0, 0.0
    rolled_in_deg, blows = None, vector(wind_from_deg, -wind_kt)[1]
    while turned_deg < change and (bank > 0.0 or turned_deg < change / 2.0):
        rolling_out = turned_deg >= change - rolled_in_deg if rolled_in_deg is not None else turned_deg >= change / 2.0
        bank += (-1.0 if rolling_out else 1.0) * roll_deg_per_s * step_s
        if bank >= bank_deg and rolled_in_deg is None:
            bank, rolled_in_deg = bank_deg, turned_deg
        bank = min(bank, bank_deg)
        turned_deg += math.degrees(G_KT_PER_S * math.tan(math.radians(max(bank, 0.0))) / airspeed_kt) * step_s
        across += (vector(begins + turned_deg, airspeed_kt)[1] + blows) * step_s / 3600.0
    return -across


# Meeting the course


def test_turn_lead():
    """A row for each angle, and for each speed the distance and the time along the track to the course."""
    shown = lead.show()
    heads, *table = printed(shown)[0]
    assert heads == ["angle", "> at 140 kt", "> at 170 kt", "> at 200 kt"]
    for (name, *cells), angle_deg in zip(table, (20, 30, 45, 60, 90), strict=True):
        assert name == f"{angle_deg}°"
        for text, speed_kt in zip(cells, (140, 170, 200), strict=True):
            miles, seconds = text.split(" / ")
            lead_nm = turned(angle_deg, speed_kt)
            assert miles == about("**{:.2f} NM**", lead_nm, off=0.01)
            along_s = lead_nm / math.sin(math.radians(angle_deg)) / speed_kt * 3600.0
            assert seconds == about("{:.0f} s", along_s, off=0.7)
    assert printed(shown)[1:] == [
        "First line: distance from the course. Second: time before the track would meet it. Large demo jet, calm: "
        "rolling 4° a second, at most 27° of bank."]


def test_extra_room_for_steep_intercept():
    shown = lead.show()
    assert shown.number("times") == pytest.approx(turned(90, 170) / turned(30, 170), rel=0.005)
    assert [shown.text(key) for key in ("shallow", "steep", "times")] == ["30°", "90°", "5"]


def test_wind_from_four_sides():
    winds = (("calm", 0.0, 0.0), ("**tail**, on final", 180.0, 30.0), ("**nose**, on final", 0.0, 30.0),
             ("**through** the course", 90.0, 30.0), ("**away** from it", 270.0, 30.0))

    def row(name, from_deg, wind_kt):
        _, ground_kt = heading_on(-30.0, 170.0, from_deg, wind_kt)
        return [name, about("{:.0f} kt", ground_kt), about("**{:.2f} NM**", turned(30.0, 170.0, from_deg, wind_kt)),
                about("{:.2f} NM", ground_kt * 10.0 / 3600.0 * 0.5)]

    assert printed(wind.show()) == ["Track 30° from the course, 170 kt true airspeed, wind 30 kt:", [
        ["wind", "> ground speed", "> roll in at", "> 10 s late: past by"], *(row(*each) for each in winds)]]


def test_late_turn_with_tailwind():
    """Half the way of ten seconds lies across at 30 degrees; a dot is half of the width at 9 NM."""
    shown, (_, ground_kt) = overshoot.show(), heading_on(-30.0, 170.0, 120.0, 30.0)
    lead_nm, past_nm = turned(30.0, 170.0, 120.0, 30.0), ground_kt * 10.0 / 3600.0 * 0.5
    dots = 2.0 * past_nm / (106.75 / 1852 * (9.0 * FT_PER_NM + 11000.0) / 11000.0)
    for key, words, number in (("roll_in", "{:.2f} NM", lead_nm), ("past", "{:.2f} NM", past_nm),
                               ("dots", "{:.1f} dots", dots)):
        assert shown.number(key) == pytest.approx(number, rel=0.01)
        assert shown.text(key).translate(SPACES) == about(words, number)
    assert printed(shown) == [
        about("Rolling in {:.2f} NM from the course ends on it. 10 s later the same turn ends {:.2f} NM past it: "
              "{:.1f} dots of two, at 9 NM.", lead_nm, past_nm, dots),
        [["roll in", "> ends", "> dots"], ["in time", "on the course", "0.0"],
         ["10 s late", about("{:.2f} NM past", past_nm), about("{:.1f}", dots)]]]


def test_vector_limits():
    """JO 7110.65, 5-9-1, 5-9-2: the gate a mile outside the fix, the vector two outside it; 30 degrees, 20 nearer."""
    shown, path_ft = limits.show(), straight_ft(PFAF_NM + 3.0, 74.0)
    assert shown.number("gate") == pytest.approx(PFAF_NM + 1.0, abs=0.001)
    assert shown.number("nearest") == pytest.approx(PFAF_NM + 3.0, abs=0.001)
    assert [shown.text("gate"), shown.text("nearest")] == ["7.0\u202fNM", "9.0\u202fNM"]
    assert shown.number("path") == pytest.approx(path_ft, abs=1.0)
    assert printed(shown) == ["ZZAK RNAV (GPS) RWY 09:", [
        ["vector", "FAA limit", "here"],
        ["meets the course outside the approach gate by", "at least 2 NM", "**9.0 NM** out or more"],
        ["angle, there or farther out", "at most 30°", ""],
        ["angle, closer in", "at most 20°", "worth a question"],
        ["altitude", "not above the glidepath", about("at most {:.0f} ft there", path_ft, off=1.0)],
        ["altitude", "not below the lowest published intercept", "at least 2000 ft"]]]


# Six places of a drawing: along and across the course, the track, whether to arm there.
PLACES = {
    "vector, close": (13.8, 1.7, -30, "arm"), "vector, far": (13.5, 5.0, -30, "not yet"),
    "flying away": (6.0, -1.6, -40, "not yet"), "downwind": (8.5, -4.5, 180, "not yet"),
    "outbound": (12.0, -2.6, 150, "not yet"), "on the course": (11.0, 0.0, 0, "arm"),
}


def test_arming_places():
    """Within 3 NM, closing, and pointing along the course: nowhere else."""
    assert printed(arming.show()) == [
        "An approach is expected to arm within about 3 NM of the final course (shaded), on a track that closes with it "
        "and leads inbound; not far out, not flying away, not outbound.",
        [["where", "from the course", "then"],
         *([name, f"{abs(across):.1f} NM", word] for name, (_, across, _, word) in PLACES.items())]]
    assert [arming.then(-1.0, angle_deg) for angle_deg in (89.5, 90.5)] == ["arm", "not yet"], "inbound is under 90"


def test_arming_places_drawing():
    """Right of the course is below it, the course 15 NM long; an arrow is as long as 1.6 NM, along the track."""
    (axes,) = drawings(arming.show)
    course, threshold = curves(axes)
    assert (course, threshold) == ([(15, 0), (0, 0)], [(0, 0)])
    (band,) = axes.patches
    assert [band.get_y(), band.get_y() + band.get_height()] == [-3, 3]
    arrows = [(label.xyann, label.xy) for label in axes.texts if not label.get_text()]
    assert arrows == [((along, across), pytest.approx((
        along - 1.6 * math.cos(math.radians(deg)), across + 1.6 * math.sin(math.radians(deg)))))
        for along, across, deg, _ in PLACES.values()]
    marks = {text: place for text, place in labels(axes).items() if text}
    assert marks == {"within 3\u202fNM": (0, 3), **{
        f"{name}: {word}": (along, across) for name, (along, across, _, word) in PLACES.items()}}
    colours = {label.get_text().rpartition(": ")[2]: label.get_color() for label in axes.texts if label.get_text()}
    assert [colours["arm"], colours["not yet"]] == [arming.COLOURS["answer"], arming.COLOURS["muted"]]
    assert window(axes) == (15, -0.5, 6.8, -5.4)
    assert [label.get_text() for label in axes.get_yticklabels()] == ["4 L", "0", "4 R"]
    assert list(axes.get_yticks()) == [-4, 0, 4]


def test_capture_place_of_each_type():
    """By the files of docs/aircraft: turns begun at the first speed, or a share of the width at 9.05 NM; of the path's
    full scale, which is at its cap there (a quarter of the angle is 494 ft)."""
    full_ft = 150.0 / 0.3048

    def deviation(dots):
        return f"**{HALF_WIDTH_NM * dots / 2:.2f} NM from it: {dots} dots**"

    def turn(speed_kt, **limits):
        return f"**{turned(30.0, speed_kt, **limits):.2f} NM from it: turn lead at {speed_kt} kt**"

    def path(dots):
        return f"**{dots / 2 * full_ft:.0f} ft below it, {dots / 2 * full_ft / GRADIENT:.2f} NM before**"

    its_own, needs = "its control", "a guiding source"
    expected = {
        "Large demo jet": (its_own, needs, turn(190), "with lateral", path(0.3), "captures"),
        "Light demo jet": (its_own, "before the FAF, the arming distance: 3 NM from the final course", deviation(1.2),
                           "once lateral is captured", path(0.5), "stays armed"),
        "Middle demo jet": (its_own, f"{needs}, an active approach, the arming distance: 25 NM from the airport",
                            turn(180, bank_deg=28.0, roll_deg_per_s=5.0), "with lateral", path(0.4), "captures"),
        "Regional demo jet": (its_own, needs, deviation(1.5), "by its own control", path(0.5),
                              "stays armed"),
        "Three-engine demo jet": (
            f"{its_own}, the FMS lateral mode",
            f"{needs}, an active approach, the arming distance: 20 NM from the FAF", deviation(1.5),
            "once lateral is captured", path(0.2), "stays armed"),
    }
    heads = ("armed by", "arming needs", "**course captured**", "glidepath arms", "**glidepath captured**",
             "glidepath met from above")
    assert printed(captures.show()) == [
        "ZZAK RNAV (GPS) RWY 09; course met at 30°, 9.0 NM out; glidepath met at the FAF, from below:",
        *([[name], *([head, words] for head, words in zip(heads, row, strict=True))]
          for name, row in expected.items())]


def test_type_arming_unconditionally_and_capturing_beyond_full_scale():
    """The needle shows no more than two dots."""
    jet = aircraft()[1]
    wide = replace(jet, capture=replace(jet.capture, lateral_dots=2.5), modes=replace(jet.modes, arming_needs=()))
    assert captures.course_captured(wide).translate(SPACES) == f"{HALF_WIDTH_NM:.2f} NM from it: 2.5 dots"
    assert captures.entry(wide)[1][1].startswith("nothing: 3")


# Meeting the path


def test_level_below_path():
    shown = below.show()
    assert shown.number("gradient") == pytest.approx(GRADIENT, abs=0.01)
    assert (shown.number("gpa"), shown.text("gpa")) == (3.0, "3.00°")
    assert printed(shown) == [[
        ["below the glidepath", "> level for", "> at 140 kt", "> at 180 kt"],
        *([f"{ft} ft", f"**{ft / GRADIENT:.1f} NM**", *(f"{ft / GRADIENT / kt * 3600:.0f} s" for kt in (140, 180))]
          for ft in (100, 300, 500, 1000))]]


def most_above_ft(speed_kt):
    """1000 ft/min less what holds the path, over the miles from 2000 down to 1000 ft."""
    return (1000.0 / speed_kt * 60.0 - GRADIENT) * 1000.0 / GRADIENT


def down_to_ten(feet):
    return math.floor(feet / 10) * 10


def test_above_path():
    shown = from_above.show()
    assert shown.number("most") == pytest.approx(most_above_ft(140), rel=0.001)
    assert shown.text("most") == f"{down_to_ten(most_above_ft(140))}\u202fft"
    assert shown.number("late_ft") == pytest.approx(140.0 * 10.0 / 3600.0 * GRADIENT, abs=0.1)
    assert [shown.text("late_s"), shown.text("speed")] == ["10\u202fs", "140\u202fkt"]
    assert shown.number("false_rate") == pytest.approx(
        140.0 / 60.0 * FT_PER_NM * math.tan(math.radians(9.0)), rel=0.001)
    assert printed(shown) == [
        f"From 2000 down to 1000 ft above the airport, {1000 / GRADIENT:.1f} NM, at no more than 1000 ft/min, "
        f"you can regain {down_to_ten(most_above_ft(140))} ft from above the glidepath at 140 kt ground speed, "
        f"{down_to_ten(most_above_ft(160))} ft at 160 kt.",
        [["ground speed", "on the glidepath", "most above"],
         *([f"{kt} kt", f"{kt / 60 * GRADIENT:.0f} ft/min", f"{down_to_ten(most_above_ft(kt))} ft"]
           for kt in (120, 140, 160))]]


def test_above_path_drawing():
    """From the rate on the path, by the minutes that the way down lasts; marks at the limit, rounded down to ten."""
    def rate(kt, above_ft):
        return pytest.approx(kt / 60 * GRADIENT + above_ft / (1000 / GRADIENT / kt * 60), rel=0.001)

    (axes,) = drawings(from_above.show)
    limit, *others = curves(axes)
    assert [y for _, y in limit] == [1000, 1000]
    assert others == [points for kt in (120, 140, 160) for points in (
        [(0, rate(kt, 0)), (600, rate(kt, 600))], [(down_to_ten(most_above_ft(kt)), 1000)])]
    assert labels(axes) == {
        "more than the highest sink rate": (0, 1420),
        **{f"{kt}\u202fkt": (600, rate(kt, 600)) for kt in (120, 140, 160)},
        **{f"{down_to_ten(most_above_ft(kt))}": (down_to_ten(most_above_ft(kt)), 1000) for kt in (120, 140, 160)}}
    (band,) = axes.patches
    assert [band.get_y(), band.get_y() + band.get_height()] == [1000, 1420]
    assert window(axes) == (0, 720, 550, 1420)


def reads_ft(distance_nm, temperature_c):
    """What the altimeter shows on the path: true height over the airport by the mean temperatures of the column."""
    height_ft = straight_ft(distance_nm, 74.0) - 31.0
    mean_k, standard_k = 273.15 + temperature_c - 0.0009906 * height_ft, 288.15 - 0.0019812 * 31.0
    return 31.0 + height_ft * (standard_k - 0.0009906 * height_ft) / mean_k


def met_nm(indicated_ft, temperature_c):
    """Where the altimeter shows so much on the path, by halving."""
    low, high = 0.5, 12.0
    while high - low > 1e-6:
        middle = (low + high) / 2
        low, high = (middle, high) if reads_ft(middle, temperature_c) < indicated_ft else (low, middle)
    return low


def test_level_path_interception():
    """At 2000 ft; AIM TBL 7-3-1: 1969 ft above the airport at -30 °C is 380 ft, in a segment to the next hundred."""
    shown = path_met.show()
    assert (shown.number("addition"), shown.text("cold")) == (400.0, "\u221230\u202f°C")
    for key, altitude_ft in (("cold_met", 2000.0), ("corrected_met", 2400.0)):
        assert shown.number(key) == pytest.approx(met_nm(altitude_ft, -30.0), abs=0.02)
        assert shown.text(key) == about("{:.1f}\u202fNM", met_nm(altitude_ft, -30.0), off=0.07)

    def row(celsius):
        there_nm = met_nm(2000.0, celsius)
        side = "inside" if there_nm < PFAF_NM else "outside"
        return [f"{celsius:+d} °C" if celsius else "0 °C", about("**{:.2f} NM**", there_nm, off=0.015),
                about(f"{{:.1f}} NM {side}", abs(PFAF_NM - there_nm), off=0.06),
                about("{:.0f} ft", reads_ft(PFAF_NM, celsius), off=3)]

    assert printed(shown) == ["ZZAK RNAV (GPS) RWY 09, level at 2000 ft, GULLY 6.05 NM out:", [
        ["airport", "> glidepath met at", "> that is", "> reads at FAF"], *map(row, (-30, -15, 0, 15, 30, 40))]]


@pytest.mark.parametrize(("inside_nm", "words"), [
    (0.04, "at the FAF"), (-0.04, "at the FAF"), (0.06, "0.1 NM inside"), (-0.06, "0.1 NM outside"),
    (1.24, "1.2 NM inside")])
def test_side_of_fix(inside_nm, words):
    assert path_met.side(inside_nm).translate(SPACES) == words
