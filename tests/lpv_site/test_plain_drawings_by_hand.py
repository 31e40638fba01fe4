"""Plain drawings (briefings, flown scenarios): what is put where, in the figures of the drawing, worked out by hand."""

import math
import re
from types import SimpleNamespace as Stub

import pytest

from lpv_site.briefing import figures, scale
from lpv_site.figures import flight_views, plot
from lpv_site.figures.plot import Frame, Words

FT_PER_NM = 1852.0 / 0.3048
EARTH_FT = 6_367_435.68 / 0.3048
LEFT, RIGHT, TOP, BOTTOM = 43.2, 264.96, 11.52, 168.48  # of the axes on a sheet of 2.8 in, in points


@pytest.fixture
def record(monkeypatch):
    """Replaces what a module draws with by what it hands over: frame, axes, lines, marks, words."""
    def watch(module):
        made = Stub(lines=[], marks=[], words=[], frame=None, axes=None, html=None)

        def line(_, points, role, wide=1.8, dashed=False):
            made.lines.append((list(points), role, wide, dashed))

        def sheet(frame, axes, *_):
            made.frame, made.axes = frame, axes

        monkeypatch.setattr(module, "line", line)
        monkeypatch.setattr(module, "mark", lambda _, at, shape, role: made.marks.append((at, shape, role)))
        monkeypatch.setattr(module, "labelled", lambda _, words, marks, lines: made.words.extend(words) or [])
        monkeypatch.setattr(module, "sheet", sheet)
        monkeypatch.setattr(module, "figure_html", lambda *parts, **named: setattr(made, "html", (parts, named)))
        return made

    return watch


def near(points):
    return [pytest.approx(point) for point in points]


def on_path_ft(nm, elevation_ft, tch_ft, angle_deg):
    """The straight path over a round earth, to a foot: a slope, and the earth falling away below it."""
    away = nm * FT_PER_NM
    return elevation_ft + tch_ft + away * math.tan(math.radians(angle_deg)) + away**2 / (2.0 * EARTH_FT)


def test_profile_of_briefing(record):
    made = record(figures)
    figures._profile((1000.0, 50.0, 3.0), 6.0, [("STEPP", (3.0, 2000.0))], (5.0, 2600.0))
    (sbas, *first), (baro, *second) = made.lines
    assert (first, second) == (["first", 1.8, False], ["second", 1.1, True])
    assert [nm for nm, _ in sbas] == [nm for nm, _ in baro] == pytest.approx([0.2 * step for step in range(31)])
    for nm, ft in sbas:
        assert ft == pytest.approx(on_path_ft(nm, 1000.0, 50.0, 3.0), abs=1.0)
    for nm, ft in baro:
        assert ft == pytest.approx(1050.0 + nm * FT_PER_NM * math.tan(math.radians(3.0)), abs=1.0)
    high = on_path_ft(6.0, 1000.0, 50.0, 3.0)
    assert made.frame.x == (6.0, 0.0)
    assert made.frame.y == pytest.approx((1000.0 - 0.16 * (high - 1000.0), high + 0.05 * (high - 1050.0)), abs=1.0)
    assert made.marks == [((3.0, 2000.0), "bar", "ink"), ((5.0, 2600.0), "circle", "answer")]
    assert [(words.text, words.role, words.bold) for words in made.words] == [
        ("2600\u202fft", "answer", True), ("STEPP\n2000", "ink", False), ("SBAS glidepath", "first", False)]
    assert [words.at for words in made.words[:2]] == [(5.0, 2600.0), (3.0, 2000.0)]
    assert made.words[2].at == pytest.approx((2.7, on_path_ft(2.7, 1000.0, 50.0, 3.0)), abs=1.0)
    figures._profile((1000.0, 50.0, 3.0), 6.0, [("LOWER", (3.0, 500.0)), ("ABOVE", (4.0, 4000.0))], (5.0, 2600.0))
    assert made.frame.y[1] == pytest.approx(4175.0), "a twentieth of what is drawn above the highest"


def test_plan_of_briefing(record):
    made = record(figures)
    fixes = [Stub(name="START", role="IAF"), Stub(name="FINAL", role="PFAF"), Stub(name="RW09", role="MAP")]
    places = {"START": (10.0, -3.0), "FINAL": (5.0, 0.0), "RW09": (0.0, 0.0)}
    figures._plan([("START", "FINAL"), ("FINAL", "RW09")], fixes, places)
    assert made.frame.x == pytest.approx((-4.8, 4.8))
    assert made.frame.y == pytest.approx((-10.8, 0.8))
    assert made.frame.height_in == 3.4
    assert [(tuple(points), role) for points, role, *_ in made.lines] == [
        (((-3.0, -10.0), (0.0, -5.0)), "first"), (((0.0, -5.0), (0.0, 0.0)), "first")]
    assert made.marks == [
        ((-3.0, -10.0), "circle", "ink"), ((0.0, -5.0), "diamond", "ink"), ((0.0, 0.0), "square", "answer")]
    assert [(words.text, words.at, words.sides) for words in made.words] == [
        ("START IAF", (-3.0, -10.0), ("s", "n")), ("FINAL FAF", (0.0, -5.0), ("e", "w")),
        ("threshold", (0.0, 0.0), ("e", "w"))]
    figures._plan([], [fixes[2]], {"RW09": (0.0, -1.0)})
    assert (made.frame.x, made.frame.y) == ((-4.0, 4.0), (-1.0, 1.0)), "one place alone has a mile around it"
    assert made.words[-1].sides == ("s", "n")


def test_full_scale_of_briefing(record, monkeypatch):
    made = record(scale)
    course, path = lambda _, nm: 350.0 + 100.0 * nm, lambda _, nm: 50.0 + 20.0 * nm
    monkeypatch.setattr(scale, "_scales", lambda _: [("course", "first", course), ("glidepath", "second", path)])
    scale._drawn(None, 5.0, 1.0)
    assert made.frame.x == (5.0, 0.0)
    assert made.frame.y == pytest.approx((0.0, 935.0))
    places = [5.0 - 0.125 * step for step in range(41)]
    (wide, *first), (narrow, *second) = made.lines
    assert (first, second) == (["first", 1.8, False], ["second", 1.8, True])
    assert wide == near([(nm, 350.0 + 100.0 * nm) for nm in places])
    assert narrow == near([(nm, 50.0 + 20.0 * nm) for nm in places])
    assert made.marks == [((1.0, 450.0), "circle", "first"), ((1.0, 70.0), "circle", "second")]
    assert [(words.text, words.at) for words in made.words] == [
        ("450\u202fft", (1.0, 450.0)), ("70\u202fft", (1.0, 70.0)),
        ("course", (2.5, 600.0)), ("glidepath", (2.5, 100.0))]
    assert scale._full_and_dot(350.0) == "350 (175)"
    assert scale._row(None, 3) == ["3\u202fNM", "650", "110"]


def sample(time_s, along_nm, across_nm, indicated_ft, path_ft=0.0):
    return Stub(time_s=time_s, along_nm=along_nm, across_ft=across_nm * FT_PER_NM, indicated_ft=indicated_ft,
                path_ft=path_ft, heading_deg=92.0, ground_speed_kt=141.0, climb_fpm=-700.0, airspeed_kt=120.0)


def flight():
    """Four miles south, then three east, and on for two beyond the threshold."""
    samples = [sample(0.0, 3.0, -4.0, 3000.0, 500.0), sample(60.0, 3.0, -0.4, 2000.0, -100.0),
               sample(120.0, 0.0, 0.0, 1000.0, 10.0), sample(180.0, -2.0, 0.0, 1500.0, 0.0)]
    moments = [Stub(key="arm approach", sample=samples[0]), Stub(key="path reached from below", sample=samples[1]),
               Stub(key="path reached from above", sample=samples[2]), Stub(key="minimum", sample=None),
               Stub(key="other", sample=samples[2]), Stub(key="go around", sample=samples[3])]
    gates = [Stub(sample=sample(110.0, 0.5, 0.0, 1150.0))]
    return Stub(samples=samples, moments=moments, gates=gates, procedure=Stub(joining="joining", missed="missed"))


def test_flight_from_above(record, monkeypatch):
    made = record(flight_views)
    begins = {}

    def coded(legs, begin):
        begins[legs] = begin
        return [[(6.0 * FT_PER_NM, -5.0 * FT_PER_NM), (3.0 * FT_PER_NM, 0.0)]] if legs == "joining" else []

    monkeypatch.setattr(flight_views, "along_course", coded)
    flight_views.plan_of_flight(flight())
    assert begins == {"joining": pytest.approx((3.0 * FT_PER_NM, -4.0 * FT_PER_NM)), "missed": (0.0, 0.0)}
    course, leg, track = made.lines
    assert course == ([(0.0, made.frame.y[0]), (0.0, 0.0)], "muted", 0.8, True)
    assert leg[0] == near([(-5.0, -6.0), (0.0, -3.0)])
    assert (leg[1:], track[1:]) == (("second", 1.1, True), ("first", 1.8, False))
    assert track[0] == near([(-4.0, -3.0), (-0.4, -3.0), (0.0, 0.0), (0.0, 2.0)])
    assert [(shape, role) for _, shape, role in made.marks] == [
        ("bar", "ink"), ("square", "ink"), ("circle", "ink"), ("diamond", "ink")]
    assert [words.text for words in made.words] == ["armed", "glidepath captured", "go around", "threshold"]
    assert made.words[1].at == pytest.approx((-0.4, -3.0))
    # From 5 NM left to the course, from 6 NM before to 2 beyond, with 6 % of it around.
    wide_in, high_in = (RIGHT - LEFT) / 72.0, 4.4 - (2.8 - (BOTTOM - TOP) / 72.0)
    nm_per_in = max(5.0 * 1.12 / wide_in, 8.0 * 1.12 / high_in)
    assert made.frame.x == pytest.approx((-2.5 - nm_per_in * wide_in / 2.0, -2.5 + nm_per_in * wide_in / 2.0))
    assert made.frame.y == pytest.approx((-2.0 - nm_per_in * high_in / 2.0, -2.0 + nm_per_in * high_in / 2.0))
    assert made.frame.height_in == pytest.approx(4.4)
    (_, _, finding, _, rows), _ = made.html
    assert finding == "Plan view, 8.6\u202fNM flown. Dashed: the coded legs. Gray: the final course."
    assert rows[0] == ("3.0", "\u22124.00", "92", "141")
    assert len(rows) == 5


def test_flight_to_scale_in_narrow_and_low_frames():
    low = flight_views._to_scale("plan", [(0.0, 0.0), (0.5, 0.1)])
    assert low.x == pytest.approx((0.25 - 1.12, 0.25 + 1.12)), "two miles at least"
    assert low.height_in == 1.6
    per_in = (low.x[1] - low.x[0]) / ((RIGHT - LEFT) / 72.0)
    assert (low.y[1] - low.y[0]) / per_in == pytest.approx(1.6 - (2.8 - (BOTTOM - TOP) / 72.0))
    assert sum(low.y) / 2.0 == pytest.approx(0.05)


def test_flight_from_side(record):
    made = record(flight_views)
    flight_views.profile_of_flight(flight())
    flown = [0.0, 3.6, 3.6 + math.hypot(3.0, 0.4), 5.6 + math.hypot(3.0, 0.4)]
    path, altitudes = made.lines
    assert altitudes[0] == near(list(zip(flown, (3000.0, 2000.0, 1000.0, 1500.0), strict=True)))
    assert path[0] == near([(flown[1], 2100.0), (flown[2], 990.0)]), "where it was on the final course"
    assert (path[1:], altitudes[1:]) == (("second", 1.1, True), ("first", 1.8, False))
    assert made.frame.x == pytest.approx((0.0, flown[3]))
    assert made.frame.y == pytest.approx((880.0, 3360.0))
    assert made.frame.height_in == 2.6
    assert [(shape, role) for _, shape, role in made.marks] == [
        ("square", "answer"), ("square", "ink"), ("circle", "ink"), ("diamond", "ink")]
    assert made.marks[0][0] == pytest.approx((flown[2], 1150.0)), "at the sample nearest in time"
    assert made.marks[2][0] == pytest.approx((3.6, 2000.0))
    (_, _, finding, _, rows), _ = made.html
    assert finding == ("Profile: from 3000\u202fft on the altimeter to 1500\u202fft. Dashed: the SBAS glidepath. "
                       "1 gate passed, one square each.")
    assert rows[1] == ("3.6", "2000", "\u2212700", "120")


def strokes(svg, role, wide):
    """The stretches drawn in one colour and width."""
    paths = re.findall(rf'<path d="([^"]*)" fill="none" stroke="var\(--hb-{role}\)" stroke-width="{wide}"/>', svg)
    number = r"(-?[\d.]+)"
    return [tuple(map(float, ends)) for path in paths for ends in re.findall(
        rf"M{number} {number}L{number} {number}", path)]


def test_axes_to_tenth_of_point():
    svg = plot.sheet(Frame("x", (0.0, 8.0), (0.0, 300.0)), ("below", "beside"), [], [])
    columns, rows = [LEFT + 27.72 * step for step in range(9)], [BOTTOM - 26.16 * step for step in range(7)]
    assert strokes(svg, "grid", 0.6) == [
        *(pytest.approx((x, TOP, x, BOTTOM), abs=0.051) for x in columns),
        *(pytest.approx((LEFT, y, RIGHT, y), abs=0.051) for y in rows)]
    assert strokes(svg, "muted", 0.8) == [
        *(pytest.approx((x, BOTTOM, x, BOTTOM + 3.5), abs=0.051) for x in columns),
        *(pytest.approx((LEFT - 3.5, y, LEFT, y), abs=0.051) for y in rows),
        pytest.approx((LEFT, TOP, LEFT, BOTTOM), abs=0.051), pytest.approx((LEFT, BOTTOM, RIGHT, BOTTOM), abs=0.051)]
    words = re.findall(r'<text x="([\d.]+)" y="([\d.]+)" text-anchor="(\w+)" font-size="9" [^>]*>([^<]*)<', svg)
    places = {(word, anchor): (float(x), float(y)) for x, y, anchor, word in words}
    for step, x in enumerate(columns):
        assert places[f"{step}", "middle"] == pytest.approx((x, BOTTOM + 7.0 + 0.76 * 9.0), abs=0.051)
    for step, y in enumerate(rows):
        assert places[f"{50 * step}", "end"] == pytest.approx((LEFT - 7.0, y + 0.36 * 9.0), abs=0.051)
    assert places["below", "middle"] == pytest.approx(((LEFT + RIGHT) / 2.0, BOTTOM + 18.5 + 0.76 * 9.0), abs=0.051)
    assert places["beside", "middle"] == pytest.approx((LEFT - 35.0, (TOP + BOTTOM) / 2.0), abs=0.051)
    assert 'transform="rotate(-90 8.2 90)"' in svg
    assert svg.startswith('<svg viewBox="0 0 273.6 201.6"')
    assert '<clipPath id="x-box"><rect x="43.2" y="11.5" width="221.8" height="157"/></clipPath>' in svg


def test_lines_marks_and_words_written_where_they_belong():
    frame = Frame("x", (0.0, 4.0), (0.0, 300.0))
    assert plot.line(frame, [(0.0, 0.0), (2.0, 150.0)], "first") == (
        '<path d="M43.2 168.5L154.1 90" fill="none" stroke="var(--hb-first)" stroke-width="1.8"/>')
    assert plot.line(frame, [(4.0, 300.0), (0.0, 0.0)], "second", 1.1, dashed=True) == (
        '<path d="M265 11.5L43.2 168.5" fill="none" stroke="var(--hb-second)" stroke-width="1.1" '
        'stroke-dasharray="4 1.8"/>')
    assert 'transform="translate(154.1 90)"' in plot.mark(frame, (2.0, 150.0), "bar", "ink")
    text, = plot.labelled(frame, [Words((2.0, 150.0), "a", "ink", ("e",), 9.0, bold=True)])
    x, y = map(float, re.search(r'x="([\d.]+)" y="([\d.]+)"', text).groups())
    assert 154.1 < x < 166.0
    assert 90.0 < y < 99.0
    assert 'text-anchor="start" font-size="9" fill="var(--hb-ink)" font-weight="700"' in text
    assert plot._short(-0.04) == "0"
    assert [plot.most(length, 2.0) for length in (17.9, 18.0, 35.9, 1e6)] == [0, 1, 1, plot.MOST]
