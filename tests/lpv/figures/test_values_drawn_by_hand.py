"""What live figures hand to their panels, as values: worked out with plain geometry and published tables."""

import math

import pytest

from lpv.figures import altimeter, cold, intercept, parts
from lpv.figures.figure import drawn
from lpv.figures.run import figure

FT_PER_NM = 1852 / 0.3048
EARTH_FT = 6_367_435.68 / 0.3048
TAN = math.tan(math.radians(3.0))


class Logged:
    """A panel that notes what it is given."""

    made: list["Logged"]

    def __init__(self, sheet, box, x, y):
        self.box, self.x, self.y = box, x, y
        self.lines, self.marks, self.labels, self.rules = [], [], {}, []
        Logged.made.append(self)

    def line(self, points, role, look=""):
        self.lines.append((role, look, list(points)))

    def mark(self, x, y, shape, role):
        self.marks.append((shape, role, x, y))

    def label(self, text, x, y, role="ink", sides=(), bold=False):
        self.labels[text] = (x, y)

    def rule_y(self, y, role, look=""):
        self.rules.append(("y", y, role, look))

    def rule_x(self, x, role, look=""):
        self.rules.append(("x", x, role, look))

    def down(self, y):
        return round(1000 * y)

    def axes(self, *_):
        pass

    x_axis = y_axis = axes


@pytest.fixture
def draw(monkeypatch):
    """Draws a live figure for numbers, others as they are by default; its panels from the top down."""
    def with_numbers(module, name, **texts):
        Logged.made = []
        monkeypatch.setattr(module, "Panel", Logged)
        drawn(figure(name), texts)
        return Logged.made

    return with_numbers


def path_ft(nm, threshold_ft=0.0, tch_ft=50.0):
    return threshold_ft + tch_ft + nm * FT_PER_NM * TAN + (nm * FT_PER_NM) ** 2 / (2.0 * EARTH_FT)


def near(points, by):
    return [tuple(pytest.approx(value, abs=off) for value, off in zip(point, by, strict=True)) for point in points]


def test_altimeter_on_glidepath(draw):
    upper, lower = draw(altimeter, "live-altimeter", temperature_c="-15", aerodrome_elevation_ft="1000",
                        threshold_above_ft="20", charted_ft="2700")
    places = [0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0]
    assert (upper.x, lower.x) == ((6.0, 0.0), (6.0, 0.0))
    (_, _, readings), (_, _, path) = upper.lines
    assert [line[:2] for line in upper.lines] == [("second", "dash"), ("first", "")]
    assert path == near([(nm, path_ft(nm, 1020.0)) for nm in places], (1e-6, 1.0))
    # ICAO: H (15 - t) / (273 + t - 0.5 L (H + Z)), t reduced to sea level
    at_sea_c = -15.0 + 0.0019812 * 1000.0

    def over(height_ft):
        return height_ft * (15.0 - at_sea_c) / (273.15 + at_sea_c - 0.5 * 0.0019812 * (height_ft + 1000.0))

    assert readings == near([(nm, path_ft(nm, 1020.0) + over(path_ft(nm, 20.0))) for nm in places], (1e-6, 4.0))
    reading_ft = path_ft(5.0, 1020.0) + over(path_ft(5.0, 20.0))
    assert [mark[:2] for mark in upper.marks] == [("circle", "first"), ("bar", "ink"), ("circle", "answer")]
    assert [mark[2:] for mark in upper.marks] == near(
        [(5.0, path_ft(5.0, 1020.0)), (5.0, 2700.0), (5.0, reading_ft)], (1e-6, 4.0))
    low, high = path_ft(0.0, 1020.0), path_ft(6.0, 1020.0) + over(path_ft(6.0, 20.0))
    assert upper.y == pytest.approx((low - 0.15 * (high - low), high + 0.15 * (high - low)), abs=6.0)
    assert upper.labels["charted 2700"] == (5.0, 2700.0)
    assert upper.labels["glidepath"] == pytest.approx((2.0, path_ft(2.0, 1020.0)), abs=1.0)
    assert upper.labels["altimeter on it"][0] == 2.0
    (_, _, more), (_, _, baro) = lower.lines
    assert [line[:2] for line in lower.lines] == [("second", "dash"), ("third", "dot")]
    assert more == near([(nm, over(path_ft(nm, 20.0))) for nm in places], (1e-6, 4.0))
    for nm, below_ft in baro:
        flat_ft = 70.0 + nm * FT_PER_NM * TAN
        away_ft = (nm * FT_PER_NM) ** 2 / (2.0 * EARTH_FT)
        assert below_ft == pytest.approx(-over(flat_ft) / (1.0 + over(flat_ft) / flat_ft) - away_ft, abs=5.0)
    assert lower.rules == [("y", 0.0, "first", "")]
    assert lower.marks == [("circle", "answer", 5.0, pytest.approx(over(path_ft(5.0, 20.0)), abs=4.0))]
    assert lower.labels["altimeter"][0] == lower.labels["barometric path"][0] == 3.0
    for distance, far in (("0.5", 2.0), ("5.1", 7.0), ("9.0", 10.0)):
        assert draw(altimeter, "live-altimeter", distance_nm=distance)[0].x == (far, 0.0)


def test_cold_altitudes_row_by_row(draw):
    """At -20 the AIM's table adds 280 ft at 2000 and 420 at 3000 ft, to the next hundred; 50 at 300, 70 at 500."""
    (panel,) = draw(cold, "live-cold", charted="IF|ORBIT|3000;PFAF|GULLY|2000;LPV|DA|300;LNAV|MDA|500;missed||3000")
    assert [(shape, x) for shape, _, x, _ in panel.marks if shape == "post"] == [
        ("post", altitude) for altitude in (3000.0, 2000.0, 300.0, 500.0, 3000.0)]
    used = [x for shape, role, x, _ in panel.marks if (shape, role) == ("circle", "answer")]
    assert used == [3300.0, 2300.0, 350.0, 570.0, 3400.0]
    assert [y for *_, y in panel.marks] == pytest.approx([row + 0.78 for row in range(5) for _ in "ab"])
    assert [points for *_, points in panel.lines] == [
        [(charted, pytest.approx(row + 0.78)), (new, pytest.approx(row + 0.78))]
        for row, (charted, new) in enumerate(zip((3000.0, 2000.0, 300.0, 500.0, 3000.0), used, strict=True))]
    assert panel.x == pytest.approx((300.0 - 0.06 * 3100.0, 3400.0 + 0.06 * 3100.0))
    assert panel.y == (5.0, 0.0)
    assert panel.box == (40, 10, 3240, 270 * 5 + 10)
    (warm,) = draw(cold, "live-cold", temperature_c="15")
    assert [shape for shape, *_ in warm.marks] == ["post"] * 5


@pytest.mark.parametrize(("text", "good"), [
    ("2", True), ("-2", True), ("12345", True), ("123456", False), ("1.5", True), ("1.", False), (".5", False),
    ("", False), ("-", False), ("--2", False), ("1e3", False), ("1 2", False), ("1.5.2", False), ("+2", False),
])
def test_altitude_in_text_of_chart(text, good):
    assert cold._is_decimal(text) is good


def test_names_and_bounds_in_text_of_chart():
    good = (("DA", "LPV"), ("MDA", "LNAV"), ("", "missed"), ("ABC123", "IF"))
    bad = (("DH", "LPV"), ("ABC1234", "IF"), ("aB", "IF"))
    assert [cold._is_name(*pair) for pair in (*good, *bad)] == [True] * 4 + [False] * 3
    base = "PFAF|A|{};LPV|DA|250"
    assert [len(cold.entries(base.format(ft))) for ft in ("-1500", "20000")] == [2, 2]
    for wrong in (base.format("-1501"), base.format("20001"), "LPV|DA|250", "PFAF|A|2000", base.format(1) + ";PFAF|B|1",
                  base.format(1) + ";x", ";".join([base.format(1), *["IF|A|1"] * 8])):
        with pytest.raises(cold.DomainError):
            cold.entries(wrong)
    assert len(cold.entries(";".join([base.format(1), *["IF|A|1"] * 7]))) == 9


def test_intercept_seen_from_above(draw):
    """30 degrees from the right in calm air at 170 kt and 25 degrees of bank, 10 s late, met at 9 NM."""
    (panel,) = draw(intercept, "live-intercept", wind_kt="0", roll_deg_per_s="20")
    late, in_time = (points for *_, points in panel.lines)
    assert [line[:2] for line in panel.lines] == [("second", "dash"), ("first", "")]
    radius_nm = (170.0 * 1852.0 / 3600.0) ** 2 / (9.80665 * math.tan(math.radians(25.0))) / 1852.0
    lead_nm = radius_nm * math.tan(math.radians(15.0))  # of a turn without rolling; rolling adds about 0.06 NM
    [(shape, role, start_nm, left_nm)] = panel.marks
    assert (shape, role) == ("circle", "answer")
    assert start_nm == pytest.approx(9.0 + lead_nm * math.cos(math.radians(30.0)), abs=0.08)
    assert left_nm == pytest.approx(-lead_nm * math.sin(math.radians(30.0)), abs=0.05)
    assert start_nm - 9.0 == pytest.approx(-left_nm / math.tan(math.radians(30.0)), abs=1e-6), "on the track to be met"
    before, first = in_time[0], in_time[1]
    assert first == pytest.approx((start_nm, left_nm))
    assert before == pytest.approx((start_nm + 1.5 * math.cos(math.radians(30.0)), left_nm - 0.75))
    assert in_time[-1] == pytest.approx((in_time[-2][0] - 1.5, in_time[-2][1]))
    assert in_time[-1][1] == pytest.approx(0.0, abs=0.01), "it ends on the course"
    late_nm = 170.0 * 10.0 / 3600.0
    shift = late_nm * math.cos(math.radians(30.0)), late_nm * 0.5
    for (x, y), (late_x, late_y) in zip(in_time, late, strict=True):
        assert (late_x, late_y) == pytest.approx((x - shift[0], y + shift[1]))
    assert panel.rules == [("y", 0.0, "ink", ""), ("x", 5.0, "muted", "dash")]
    assert panel.labels["late"] == late[-1]
    assert panel.labels["in time"] == in_time[-1]
    assert panel.x[0] - panel.x[1] >= 4.0
    assert (panel.y[1] - panel.y[0]) / (panel.x[0] - panel.x[1]) == pytest.approx(
        (panel.box[3] - panel.box[1]) / (panel.box[2] - panel.box[0])), "to scale"
    points = in_time + late
    assert sum(panel.x) / 2.0 == pytest.approx((min(x for x, _ in points) + max(x for x, _ in points)) / 2.0)
    assert sum(panel.y) / 2.0 == pytest.approx((min(y for _, y in points) + max(y for _, y in points)) / 2.0)


def test_intercept_from_left_and_in_time(draw):
    (right,) = draw(intercept, "live-intercept", wind_kt="0")
    (left,) = draw(intercept, "live-intercept", wind_kt="0", side="left", late_s="0")
    assert len(left.lines) == 1
    assert left.lines[0][2] == near([(x, -y) for x, y in right.lines[1][2]], (1e-6, 1e-6))
    assert "late" not in left.labels
    (beyond,) = draw(intercept, "live-intercept", wind_kt="0", pfaf_nm="3", meets_nm="12")
    assert "FAF" not in beyond.labels
    (beside,) = draw(intercept, "live-intercept", wind_kt="0", pfaf_nm="8")
    assert beside.labels["FAF"] == (8.0, beside.y[0])


@pytest.mark.parametrize(("wind_from_deg", "course_deg", "towards"), [
    (270, 90, (-1.0, 0.0)), (90, 90, (1.0, 0.0)), (180, 90, (0.0, 1.0)), (360, 90, (0.0, -1.0)),
    (225, 90, (-0.7071, 0.7071)),
])
def test_arrow_flies_with_wind(wind_from_deg, course_deg, towards):
    """East is the way of the course, to fewer miles; north is left of it, up."""
    for side in ("left", "right"):
        Logged.made = []
        panel = Logged(None, None, (10.0, 6.0), (-1.0, 2.0))
        intercept._wind(panel, intercept.Case(side, course_deg, 170.0, 25.0, 5.0, wind_from_deg, 20.0))
        (_, _, shaft), *barbs = panel.lines
        (from_x, from_y), (to_x, to_y) = shaft
        length = 0.12 * 4.0
        assert (to_x - from_x, to_y - from_y) == pytest.approx((length * towards[0], length * towards[1]), abs=1e-3)
        ratio = intercept.RATIO
        corner = 6.48, 2.0 - 0.16 * ratio * 4.0 if side == "right" else -1.0 + 0.16 * ratio * 4.0
        assert ((from_x + to_x) / 2.0, (from_y + to_y) / 2.0) == pytest.approx(corner)
        for _, _, (tip, end) in barbs:
            assert tip == (to_x, to_y)
            back = (end[0] - tip[0]) * towards[0] + (end[1] - tip[1]) * towards[1]
            assert math.dist(tip, end) == pytest.approx(0.12)
            assert back == pytest.approx(-0.12 * math.cos(math.radians(30.0)), abs=1e-3)
        assert len(barbs) == 2
        assert barbs[0][2][1] != barbs[1][2][1]
        half = length / 2.0 if towards[0] == 0.0 else 0.0
        text_at = panel.labels[f"{wind_from_deg:03d}° 20\u202fkt"]
        assert text_at[0] == pytest.approx(corner[0])
        assert abs(text_at[1] - corner[1]) == pytest.approx(half, abs=1e-3)
    calm = Logged(None, None, (10.0, 6.0), (-1.0, 2.0))
    intercept._wind(calm, intercept.Case("left", 90, 170.0, 25.0, 5.0, 0.0, 0.0))
    assert calm.lines == []


def test_spans_steps_and_sides():
    assert parts.spread([100.0, 300.0], 50.0, 0.1) == pytest.approx((80.0, 320.0))
    assert parts.spread([100.0, 120.0], 50.0, 0.1) == pytest.approx((80.0, 140.0))
    assert parts.steps(2.0, 4.0, 4) == [2.0, 2.5, 3.0, 3.5, 4.0]
    words = ("above", "below")
    assert [parts.beside(value, "ft", words, "on it") for value in (12.4, -12.4, 0.4, -0.4, 0.0)] == [
        "12\u202fft above", "12\u202fft below", "on it", "on it", "on it"]
    assert parts.beside(0.4, "ft", words, "on it", 0.1) == "0.4\u202fft above"
    assert (parts.angle("g").group, parts.angle().group, parts.crossing_height().group) == ("g", "", parts.APPROACH)
