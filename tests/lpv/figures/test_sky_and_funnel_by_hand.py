"""The sky's plot, its day of levels, and the funnels of the scales: what is put where, worked out by hand."""

import math
from types import SimpleNamespace as Stub

import pytest

from lpv.figures import funnel, go_around, sky
from lpv.sbas.level import Limits
from lpv.sbas.masks import Masks

HOUR = sky.STEP_S / 3600.0


class Logged:
    """A sheet or a panel that notes what it is given."""

    made: list["Logged"] = []  # noqa: RUF012

    def __init__(self, sheet=None, box=None, x=None, y=None):
        self.box, self.x, self.y = box, x, y
        self.paths, self.words, self.lines, self.marks, self.areas, self.rules = [], [], [], [], [], []
        self.labels = {}
        Logged.made.append(self)

    def path(self, d, role, look=""):
        self.paths.append((d, role, look))

    def word(self, x, y, text, role, anchor="", bold=False):
        self.words.append((x, y, text, role, anchor, bold))

    def line(self, points, role, look=""):
        self.lines.append((role, look, list(points)))

    def area(self, points, role="shade"):
        self.areas.append(list(points))

    def mark(self, *parts):
        self.marks.append(parts)

    def label(self, text, *place):
        self.labels[text] = place[:2]

    def rule_x(self, x, role, look=""):
        self.rules.append(("x", x, role, look))

    def rule_y(self, y, role, look=""):
        self.rules.append(("y", y, role, look))

    def axes(self, *labels):
        self.labels["axes"] = labels

    def x_axis(self, *_):
        pass

    y_axis = x_axis


@pytest.mark.parametrize(("azimuth", "elevation", "place"), [
    (0.0, 90.0, (880, 910)), (123.0, 90.0, (880, 910)), (0.0, 0.0, (880, 190)), (90.0, 0.0, (1600, 910)),
    (180.0, 45.0, (880, 1270)), (270.0, 30.0, (400, 910)), (45.0, 0.0, (1389, 401)),
])
def test_direction_on_plot_of_sky(azimuth, elevation, place):
    assert sky._point(azimuth, elevation) == place


def test_ground_circles_compass_and_heading():
    sheet = Logged()
    sky._ground(sheet, Masks(heading_deg=90.0, bank_deg=0.0))
    hidden, *circles = sheet.paths
    assert hidden[1:] == ("shade", "fill")
    assert hidden[0].startswith("M880 190 ")
    assert len(hidden[0].strip("Mz").split()) == 2 * 2 * 46, "every eight degrees, out and back"
    assert [d for d, *_ in circles] == [
        f"M{880 - r} 910a{r} {r} 0 1 0 {2 * r} 0a{r} {r} 0 1 0-{2 * r} 0" for r in (720, 480, 240)]
    assert sheet.words == [(880, 157, "N", "ink", "middle", True), (1675, 952, "E", "ink", "middle", True),
                           (880, 1747, "S", "ink", "middle", True), (85, 952, "W", "ink", "middle", True)]
    banked = Logged()
    sky._ground(banked, Masks(heading_deg=90.0, bank_deg=20.0))
    nose, tail = (880 + 192, 910), (880 - 192, 910)
    barbs = [sky._point(azimuth, 74.0) for azimuth in (78.0, 102.0)]
    assert banked.paths[-1] == ("M{} {}L{} {}M{} {}L{} {}L{} {}".format(*tail, *nose, *barbs[0], *nose, *barbs[1]),
                                "ink", "thin")


def test_masks_combined_in_each_direction():
    assert sky._lowest_deg(Masks(elevation_deg=5.0), 0.0) == 5.0
    banked = Masks(elevation_deg=5.0, heading_deg=0.0, bank_deg=30.0)
    assert (sky._lowest_deg(banked, 270.0), sky._lowest_deg(banked, 90.0)) == pytest.approx((30.0, 5.0))
    ridge = Masks(elevation_deg=5.0, terrain=((170.0, 0.0), (180.0, 12.0), (190.0, 12.0), (200.0, 0.0)))
    assert [sky._lowest_deg(ridge, azimuth) for azimuth in (100.0, 185.0)] == pytest.approx([5.0, 12.0])


def test_conditions_and_levels_in_words():
    def conditions(bank=0.0, ridge=0.0, lost=()):
        return sky.Case(Masks(bank_deg=bank), ridge, lost, Limits(40.0, 35.0), 0).conditions().replace("\u202f", " ")

    assert conditions() == "Wings level under an open sky"
    assert conditions(25.0) == "With 25° of bank to the right"
    assert conditions(-25.0, 12.0, ("A1", "B2")) == "With 25° of bank to the left, a ridge of 12° and A1 and B2 lost"
    limits = Limits(40.0, 35.0)

    def levels(vpl, hpl, of=limits):
        return sky._levels(Stub(vpl_m=vpl, hpl_pa_m=hpl), of).replace("\u202f", " ")

    assert levels(35.0, 40.1) == "VPL 35 m, within the VAL of 35 m; HPL 40 m, over the HAL of 40 m"
    assert levels(20.0, 9.0, Limits(40.0, 0.0)) == "VPL 20 m, no VAL is set; HPL 9 m, within the HAL of 40 m"
    assert levels(None, 9.0) == levels(9.0, None) == "they fix no position"
    assert (sky._verdict("none"), sky._verdict("LPV")) == ("No level is supported.", "The signal supports LPV.")
    assert sky._gaps([True, False, False, True, False]) == [(1, 2), (4, 4)]
    assert sky._gaps([True]) == []


def moments(**changed):
    usual = [Stub(hpl_pa_m=20.0, hpl_npa_m=20.0, vpl_m=30.0, satellites=9) for _ in range(sky.MOMENTS)]
    for place, values in changed.items():
        usual[int(place[1:])] = Stub(**{"hpl_pa_m": 20.0, "hpl_npa_m": 20.0, "vpl_m": 30.0, "satellites": 9} | values)
    return usual


def test_levels_over_day(monkeypatch):
    monkeypatch.setattr(sky, "Panel", Logged)
    rows = moments(m3={"vpl_m": 36.0}, m4={"vpl_m": 90.0}, m10={"vpl_m": None, "hpl_pa_m": None, "hpl_npa_m": None})
    case = sky.Case(Masks(), 0.0, (), Limits(40.0, 35.0), 6)
    sky._over_the_day(None, case, rows)
    panel = Logged.made[-1]
    assert (panel.x, panel.y) == ((0.0, 24.0), (0.0, 60.0))
    assert panel.areas == [[(3 * HOUR, 0.0), (5 * HOUR, 0.0), (5 * HOUR, 60.0), (3 * HOUR, 60.0)],
                           [(10 * HOUR, 0.0), (11 * HOUR, 0.0), (11 * HOUR, 60.0), (10 * HOUR, 60.0)]]
    assert panel.rules == [("x", 6 * HOUR, "ink", "thin"), ("y", 40.0, "second", "dash"), ("y", 35.0, "third", "dash")]
    assert [line[:2] for line in panel.lines] == [("second", ""), ("second", ""), ("third", ""), ("third", "")]
    before, after = (points for role, _, points in panel.lines if role == "third")
    assert before == [(HOUR, 30.0), (3 * HOUR, 36.0), (5 * HOUR, 90.0), (7 * HOUR, 30.0), (9 * HOUR, 30.0)]
    assert after[0] == (13 * HOUR, 30.0)
    assert after[-1] == ((sky.MOMENTS - 1) * HOUR, 30.0)
    assert panel.labels == {"axes": ("hour of the ideal day", "HPL and VPL, m", ((3, 1), (6, 1))), "HAL": (24.0, 40.0),
                            "VAL": (24.0, 35.0), "VPL": (6 * HOUR, 30.0), "HPL": (30 * HOUR, 20.0)}
    late = sky.Case(Masks(), 0.0, (), Limits(60.0, 0.0), sky.MOMENTS - 1)
    sky._over_the_day(None, late, moments())
    panel = Logged.made[-1]
    assert panel.y == (0.0, pytest.approx(81.0))
    assert panel.rules[1:] == [("y", 60.0, "second", "dash")]
    assert panel.labels["HPL"] == ((sky.MOMENTS - 25) * HOUR, 20.0)
    assert panel.areas == []


def test_summary_beside_sky():
    sheet = Logged()
    case = sky.Case(Masks(), 0.0, (), Limits(40.0, 35.0), 20)
    now = Stub(hpl_pa_m=20.0, hpl_npa_m=20.0, vpl_m=36.0, satellites=7)
    sky._summary(sheet, case, now, 9, "LNAV/VNAV")
    rows = [(1830, 300 + 175 * row) for row in range(5)]
    assert [word[:2] for word in sheet.words[:5]] == rows
    assert [word[2].replace("\u202f", " ") for word in sheet.words[:5]] == [
        f"at {20 * HOUR:.2f} h", "received: 7 of 9", "VPL 36, VAL 35", "HPL 20, HAL 40", "LNAV/VNAV"]
    assert [word[3] for word in sheet.words[:5]] == ["ink", "first", "third", "second", "answer"]
    assert [word[5] for word in sheet.words[:5]] == [False, False, False, False, True]
    assert sheet.marks == [((1890, 1308), "circle", "first"), ((1890, 1483), "cross", "answer")]
    assert [word[:3] for word in sheet.words[5:]] == [
        (2010, 1350, "received"), (2010, 1525, "not received"), (2010, 1700, "hidden sky")]
    assert sheet.paths == [("M1830 1605h130v105h-130z", "shade", "fill")]
    sky._summary(Logged(), case, Stub(hpl_pa_m=None, hpl_npa_m=None, vpl_m=None, satellites=3), 9, "none")
    words = [word[2] for word in Logged.made[-1].words]
    assert {"VPL none, VAL 35", "HPL none, HAL 40", "no level"} <= set(words)


def test_one_funnel_mirrored_about_middle(monkeypatch):
    monkeypatch.setattr(funnel, "Panel", Logged)
    lpv, ils = [(0.0, 350.0), (2.0, 700.0), (4.0, 1000.0)], [(0.0, 300.0), (2.0, 600.0), (4.0, 900.0)]
    funnel._one(None, "box", (lpv, ils), (3.0, -200.0), 2.0, ("across", "up"))
    panel = Logged.made[-1]
    assert (panel.x, panel.y) == ((4.0, 0.0), (-1250.0, 1250.0))
    assert panel.areas == [[*lpv, (4.0, -1000.0), (2.0, -700.0), (0.0, -350.0)]]
    assert panel.rules == [("y", 0.0, "ink", "thin")]
    assert panel.lines == [
        (role, look, [(nm, side * ft / by) for nm, ft in points])
        for side in (1.0, -1.0) for role, look, points, by in (
            ("first", "", lpv, 1.0), ("first", "dot thin", lpv, 2.0), ("second", "dash", ils, 1.0))]
    assert panel.marks == [(3.0, -200.0, "aircraft", "answer")]
    assert panel.labels == {"200\u202fft": (3.0, -200.0), "LPV full scale": (2.0, 700.0), "ILS": (2.0, -600.0),
                            "one dot": (2.0, -350.0)}
    funnel._one(None, "box", (lpv, ils), (3.0, -2000.0), 2.0, ("", ""))
    assert Logged.made[-1].y == (-2500.0, 2500.0)


def test_funnel_as_far_as_aircraft_and_quarter(monkeypatch):
    monkeypatch.setattr(funnel, "Panel", Logged)
    scales = funnel.Scale("procedure", 5.0, 350.0, 10000.0, 50.0, 3.0)
    for distance_nm, far_nm in ((0.0, 1.0), (3.0, 4.0), (4.0, 5.0), (4.1, 6.0)):
        funnel._drawn(scales, distance_nm, 0.0, 0.0, 2.0)
        upper, lower = Logged.made[-2:]
        assert (upper.x, lower.x) == ((far_nm, 0.0), (far_nm, 0.0))
        assert (upper.box, lower.box) == (funnel.UPPER, funnel.LOWER)
    course = dict(upper.lines[0][2])
    assert course[0.0] == pytest.approx(350.0)
    path = dict(lower.lines[0][2])
    assert path[0.0] == pytest.approx(15.0 / 0.3048)
    assert (upper.lines[2][2][0], upper.marks[0][:2]) == ((0.0, pytest.approx(350.0, rel=0.05)), (4.1, 0.0))


@pytest.mark.parametrize(("dots", "full", "words"), [
    (1.0, 2.0, "1.0 dot"), (-1.04, 2.0, "1.0 dot"), (2.0, 2.0, "2.0 dots"), (2.1, 2.0, "2.1 dots (off the scale)"),
    (-5.1, 5.0, "5.1 dots (off the scale)"), (0.0, 2.0, "0.0 dots"),
])
def test_dots_in_words(dots, full, words):
    assert funnel._dots(dots, full).replace("\u202f", " ") == words


def test_go_around_labels_at_lines(monkeypatch):
    monkeypatch.setattr(go_around, "Panel", Logged)
    case = go_around.GoAround(130.0, 3.0, 1.0, 0.2, 2000.0, 300.0, "B")
    go_around._dip(None, case, Stub(loss_ft=200.0, lowest_s=3.0, back_s=10.0))
    dip = Logged.made[-1]
    assert dip.x == pytest.approx((0.0, 11.5))
    assert dip.y == pytest.approx((-250.0, 112.5))
    assert dip.labels["200\u202fft below"] == (3.0, -200.0)
    assert dip.labels["design, category B"] == (pytest.approx(11.5), pytest.approx(-142.0, abs=1.0))
    assert dip.labels["DA"] == (0.0, 0.0)
    assert len(dip.lines[0][2]) == 41
    go_around._dip(None, case, Stub(loss_ft=50.0, lowest_s=3.0, back_s=8.0))
    assert Logged.made[-1].x == (0.0, 10.0)
    assert Logged.made[-1].y[0] == pytest.approx(-1.25 * 142.0, abs=1.0)
    go_around._climb(None, case)
    climb = Logged.made[-1]
    made_good = 2000.0 / (130.0 / 60.0)
    assert climb.y == pytest.approx((0.0, 1.3 * 6.0 * 510.0))
    assert climb.labels["needed 300"] == pytest.approx((5.82, 5.82 * 300.0))
    surface_ft = 6.0 * 300.0 * (1852.0 / 0.3048 / 40.0) / 200.0  # one in forty where 200 ft/NM are asked, in proportion
    assert climb.areas[0][0] == (0.0, 0.0)
    assert climb.areas[0][2] == (6.0, 0.0)
    assert climb.labels["obstacle surface"] == (6.0, pytest.approx(0.75 * climb.areas[0][1][1]))
    assert climb.areas[0][1] == (6.0, pytest.approx(surface_ft))
    assert climb.marks == [(pytest.approx(0.75 * climb.y[1] / made_good), pytest.approx(0.75 * climb.y[1]), "circle",
                            "answer")]
    gentle = go_around.GoAround(130.0, 3.0, 1.0, 0.2, 800.0, 0.0, "B")
    go_around._climb(None, gentle)
    assert Logged.made[-1].marks[0][0] == pytest.approx(3.3)
    assert math.isclose(gentle.needed_ft_per_nm(), 200.0)
