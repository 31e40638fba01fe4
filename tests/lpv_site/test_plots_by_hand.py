"""Drawings of flights and of modes: where each line, box, mark and word stands, worked out by hand."""

import math
from types import SimpleNamespace as Stub

import pytest
from matplotlib.figure import Figure

from drawn import curves, labels, window
from lpv_site.figures import flight_figures, mode_figures, track_figures
from lpv_site.figures.mode_figures import Cell

FT_PER_NM = 1852.0 / 0.3048
NAN = math.nan


def axes():
    return Figure(figsize=(4.0, 3.0)).add_subplot()


def near(points):
    return [pytest.approx(point, nan_ok=True) for point in points]


def point(along_nm, across_nm=0.0, part=0, **other):
    known = {"true_ft": None, "above_ft": None, "indicated_ft": None, "ground_speed_kt": None, "course_dots": 0.0,
             "path_dots": None}
    return Stub(along_nm=along_nm, across_ft=across_nm * FT_PER_NM, part=part, **(known | other))


def fix(name, along_nm, across_nm=0.0, altitude_ft=None):
    return Stub(name=name, along_nm=along_nm, across_nm=across_nm, altitude_ft=altitude_ft)


def recording(*fixes, **other):
    target = Stub(fixes=fixes, pfaf_nm=5.0, course_ft=lambda nm: 700.0 + 400.0 * nm)
    flown = {"minimum": None, "minimum_ft": None, "limit_dots": 1.0, "course_uncertainty_dots": lambda _: 0.1,
             "path_uncertainty_dots": lambda at: 0.2 * at.along_nm}
    return Stub(target=target, **(flown | other))


def test_plan_of_recording_drawn_to_scale():
    sheet = axes()
    flown = recording(fix("AAAAA", 5.0, 1.0), fix("FARRR", 6.1), fix("EDGEE", 6.0, -3.0), fix("ASIDE", 4.0, 3.1))
    track_figures._plan(sheet, flown, [point(6.0, 0.1), point(3.0, -0.2), point(1.0, 0.3, 1), point(0.5, 0.0, 1)])
    track, course, left, right, *marks = curves(sheet)
    assert track == near([(6.0, 0.1), (3.0, -0.2), (1.0, NAN), (0.5, 0.0)])
    assert course == [(6.0, 0.0), (0.0, 0.0)]
    assert len(left) == len(right) == 41
    for place, (nm, across) in enumerate(left):
        assert (nm, across) == pytest.approx((0.15 * place, -(350.0 + 200.0 * 0.15 * place) / FT_PER_NM))
    assert right == near([(nm, -across) for nm, across in left])
    assert marks == [[(5.0, 1.0)], [(6.0, -3.0)]]
    assert labels(sheet) == {"AAAAA": (5.0, 1.0), "EDGEE": (6.0, -3.0)}
    assert window(sheet) == pytest.approx((6.0, 0.5, 0.66, -0.66))
    wide = axes()
    track_figures._plan(wide, recording(), [point(0.4, -1.5), point(0.2, 1.0)])
    assert window(wide) == pytest.approx((0.4, 0.2, 1.65, -1.65))
    assert curves(wide)[1] == [(1.0, 0.0), (0.0, 0.0)], "a short recording has a course of a mile"


def test_profile_of_recording_drawn_to_scale():
    sheet = axes()
    points = [point(6.0, true_ft=2000.0, above_ft=-50.0), point(4.0, true_ft=None),
              point(3.0, true_ft=1500.0, above_ft=30.0), point(2.0, part=1, true_ft=900.0, above_ft=None),
              point(0.0, part=1, true_ft=300.0, above_ft=10.0), point(-0.5, part=1, true_ft=400.0, above_ft=100.0)]
    fixes = fix("AAAAA", 5.0, 0.0, 1800.0), fix("NONEE", 3.0)
    track_figures._profile(sheet, recording(*fixes, minimum_ft=420.0), points)
    path, heights, mark, minimum = curves(sheet)
    assert path == near([(6.0, 2050.0), (3.0, 1470.0), (2.0, 0.0), (0.0, 290.0)])
    assert heights == near([(6.0, 2000.0), (4.0, NAN), (3.0, 1500.0), (2.0, NAN), (0.0, 300.0), (-0.5, 400.0)])
    assert (mark, minimum) == ([(5.0, 1800.0)], [(1.5, 420.0), (0.0, 420.0)])
    assert labels(sheet) == {"AAAAA": (5.0, 1800.0), "minimum": (1.5, 420.0)}
    assert window(sheet)[:2] == (6.0, -0.5)
    bare = axes()
    track_figures._profile(bare, recording(), points)
    assert len(curves(bare)) == 2
    assert labels(bare) == {}


def test_deviations_of_recording_drawn_in_two_panels():
    sheet = axes()
    points = [point(6.0, course_dots=-4.0, path_dots=None), point(4.0, course_dots=1.5, path_dots=-0.5),
              point(2.0, part=1, course_dots=0.5, path_dots=0.25), point(0.0, part=1, course_dots=0.2, path_dots=3.0)]
    at_minimum = Stub(gap_s=0.0, at=Stub(along_nm=1.0))
    track_figures._deviations(sheet, recording(minimum=at_minimum), points)
    course, path = sheet.figure.axes[1:]
    place = sheet.get_position()
    inch = 1.0 / (0.62 + 2 * 1.25 + 0.24)  # of the height of the sheet
    assert course.get_position().bounds == pytest.approx((place.x0, place.y1 - 1.25 * inch, place.width, 1.25 * inch))
    assert path.get_position().bounds == pytest.approx((place.x0, place.y1 - 2.74 * inch, place.width, 1.25 * inch))
    line, *levels = curves(course)
    assert line == near([(6.0, -2.5), (4.0, 1.5), (2.0, NAN), (0.0, 0.2)])
    assert [ends[0][1] for ends in levels[:3]] == [0.0, -1.0, 1.0]
    assert [ends[0][0] for ends in levels[3:]] == [5.0, 1.0], "FAF and minimum"
    assert curves(path)[0] == near([(6.0, NAN), (4.0, -0.5), (2.0, NAN), (0.0, 2.5)])
    assert labels(course) == {"FAF": (5.0, 2.5), "minimum": (1.0, 2.5)}
    for panel, sides in ((course, ("left", "right")), (path, ("below", "above"))):
        assert window(panel) == pytest.approx((6.0, 0.0, -2.7, 2.7))
        assert list(panel.get_yticks()) == [-2, 0, 2]
        assert [tick.get_text() for tick in panel.get_yticklabels()] == [f"2 {sides[0]}", "0", f"2 {sides[1]}"]
    shade = {tuple(map(float, corner)) for part in path.collections[0].get_paths() for corner in part.vertices}
    assert {(4.0, -1.3), (4.0, 0.3)} <= {(nm, round(dots, 6)) for nm, dots in shade}
    assert {(0.0, 2.5)} <= shade
    shade = {tuple(map(float, corner)) for part in course.collections[0].get_paths() for corner in part.vertices}
    assert {(4.0, 1.4), (4.0, 1.6), (6.0, -2.5)} <= {(nm, round(dots, 6)) for nm, dots in shade}


def test_marks_only_where_deviations_reach():
    for gap_s, places in ((0.0, {"FAF": (5.0, 2.5)}), (3.0, {"FAF": (5.0, 2.5)})):
        sheet = axes()
        minimum = Stub(gap_s=gap_s, at=Stub(along_nm=0.5 if gap_s == 0.0 else 4.0))
        track_figures._deviations(sheet, recording(minimum=minimum), [point(5.0), point(1.0)])
        assert labels(sheet.figure.axes[1]) == places
    sheet = axes()
    minimum = Stub(gap_s=0.0, at=Stub(along_nm=1.0))
    track_figures._deviations(sheet, recording(minimum=minimum), [point(4.9), point(1.0)])
    assert labels(sheet.figure.axes[1]) == {"minimum": (1.0, 2.5)}
    assert sheet.figure.axes[1].lines[-1].get_linestyle() == "-"


def test_table_beside_drawing_has_dozen_samples_and_last():
    assert track_figures._few(list(range(40))) == [*range(0, 40, 3), 39]
    assert track_figures._few(list(range(12))) == [*range(12), 11]
    assert track_figures._few([7]) == [7, 7]
    assert track_figures._few([]) == []
    assert (track_figures._cell(None), track_figures._cell(12.4), track_figures._cell(0.14, 0.1)) == ("", "12", "0.1")
    assert track_figures._extent([]) == (1.0, 0.0)
    assert track_figures._extent([point(2.0), point(-1.0), point(7.0)]) == (7.0, -1.0)


def sample(along_nm, shown, of_sbas, phase="in flight"):
    return Stub(along_nm=along_nm, shown=shown, of_sbas=of_sbas, state=Stub(phase=phase, cell=shown))


def test_deviation_of_flight_dashed_where_other_than_sbas():
    flight = Stub(samples=[sample(8.0, None, 1.0), sample(6.0, 3.0, 3.04), sample(4.0, 0.5, 0.56),
                           sample(2.0, 0.0, -9.0), sample(-1.0, -2.6, -2.6)])
    sheet = axes()
    flight_figures._deviation(sheet, flight, lambda at: at.shown, lambda at: at.of_sbas, ("left", "right"))
    dashed, solid, middle = curves(sheet)
    assert dashed == near([(8.0, 1.0), (6.0, NAN), (4.0, 0.56), (2.0, -2.5), (-1.0, NAN)])
    assert solid == near([(8.0, NAN), (6.0, 2.5), (4.0, 0.5), (2.0, 0.0), (-1.0, -2.5)])
    assert middle[0][1] == 0.0
    assert window(sheet) == pytest.approx((8.0, -1.0, -2.7, 2.7))
    assert [tick.get_text() for tick in sheet.get_yticklabels()] == ["2 left", "0", "2 right"]


def test_lanes_of_flight_boxed_where_alike(monkeypatch):
    cell_of = lambda state, rules: Cell(state.cell, "lost" if state.cell == "gone" else "plain")  # noqa: E731
    monkeypatch.setattr(flight_figures, "LANES", (("first", cell_of), ("second", lambda *_: Cell("same"))))
    shown = ("none", "a", "a", "gone", "gone")
    flight = Stub(samples=[sample(9.0 - 2 * place, word, 0.0, "in flight" if place else "ground")
                           for place, word in enumerate(shown)])
    sheet = axes()
    flight_figures._lanes(sheet, flight, None)
    boxes = [(patch.get_x(), patch.get_y(), patch.get_width(), patch.get_height()) for patch in sheet.patches]
    assert boxes == near([(7.0, 0.08, -4.0, 0.84), (3.0, 0.08, -2.0, 0.84), (7.0, 1.08, -6.0, 0.84)])
    assert labels(sheet) == {"a": (5.0, 0.5), "✕ gone": (2.0, 0.5), "same": (4.0, 1.5)}
    assert window(sheet) == (9.0, 1.0, 2.0, 0.0)
    assert list(sheet.get_yticks()) == [0.5, 1.5]
    assert [tick.get_text() for tick in sheet.get_yticklabels()] == ["first", "second"]


def test_words_of_lane_shortened_to_box():
    lost = Cell("LPV, no\nvertical", "lost")
    inch = 0.066  # of a letter
    assert flight_figures._fitting(lost, 18 * inch + 0.001) == "✕ LPV, no vertical"
    assert flight_figures._fitting(lost, 18 * inch - 0.001) == "✕ LPV"
    assert flight_figures._fitting(lost, 5 * inch - 0.001) == flight_figures._fitting(lost, 2 * inch + 0.001) == "✕"
    assert flight_figures._fitting(lost, 2 * inch - 0.001) == flight_figures._fitting(Cell("armed"), 0.3) == ""
    assert flight_figures._fitting(Cell("armed"), 0.4) == "armed"


def test_panels_of_flight_stand_one_under_other():
    sheet = axes()
    place, inch = sheet.get_position(), 1.0 / (0.62 + 0.15 + 2 * (1.0 + 0.20) + 3 * 0.27)
    panels = flight_figures._panels(sheet)
    heights, tops = (1.0, 1.0, 0.81), (0.15, 1.35, 2.55)
    for panel, height, top in zip(panels, heights, tops, strict=True):
        assert panel.get_position().bounds == pytest.approx(
            (place.x0, place.y1 - (top + height) * inch, place.width, height * inch))
    flight_figures._mark(panels[0], panels[1], 3.0, "FAF")
    flight_figures._mark(panels[0], panels[1], 1.0, "go around")
    assert labels(panels[0]) == {"FAF": (3.0, 2.5), "go around": (1.0, 2.5)}
    assert [line.get_linestyle() for line in panels[1].lines] == [":", "-"]
    assert [ends[0][0] for ends in curves(panels[1])] == [3.0, 1.0]


def test_lanes_of_events_drawn_in_inches():
    sheet = axes()
    states = ("armed", "armed", "captured", "lost")
    cells = {"armed": Cell("armed", "armed"), "captured": Cell("FMS, captured", "captured"),
             "lost": Cell("lost", "lost")}
    lanes = [("lateral", lambda state, _: cells[state]), ("flying side", lambda *_: Cell("basic"))]
    names = ["before", "select SBAS", "course reached", "go around"]
    mode_figures.draw_lanes(sheet, [Stub(state=state) for state in states], names, lanes, None, "go around")
    assert window(sheet) == pytest.approx((0.0, 3.08, 0.34 + 4 * 0.37 - 0.3, 0.0))
    words = labels(sheet)
    for row, name in enumerate(("before", "select SBAS", "course reached", "go around")):
        line = sheet.lines[row]
        assert words[name] == pytest.approx((-0.55, 0.34 + 0.37 * row + 0.185))
        assert list(line.get_xdata()) == pytest.approx([-0.55, 0.55 + 4 * 0.665])
        assert list(line.get_ydata()) == pytest.approx([0.34 + 0.37 * row] * 2)
    assert words["lateral"] == pytest.approx((0.8825, 0.29))
    assert words["flying\nside"] == pytest.approx((1.5475, 0.29))
    boxes = [(patch.get_x(), patch.get_y(), patch.get_width(), patch.get_height()) for patch in sheet.patches]
    assert boxes == near([
        (0.565, 0.365, 0.635, 0.69), (0.565, 1.105, 0.635, 0.32), (0.565, 1.475, 0.635, 0.32),
        (1.23, 0.365, 0.635, 1.43)])
    assert words["armed"] == pytest.approx((0.8825, 0.525))
    assert words["FMS,"] == pytest.approx((0.8825, 1.265 - 0.0725))
    assert words["captured"] == pytest.approx((0.8825, 1.265 + 0.0725))
    assert words["✕ lost"] == pytest.approx((0.8825, 1.635))
    weights = {text.get_text(): text.get_weight() for text in sheet.texts}
    assert weights["go around"] == "bold"
    assert {weights[name] for name in names[:3]} == {"normal"}
    colours = {text.get_text(): text.get_color() for text in sheet.texts}
    role_of = {colour: role for role, colour in mode_figures.COLOURS.items()}
    role = {name: role_of[colour] for name, colour in colours.items()}
    assert [role[name] for name in names] == ["muted", "ink", "ink", "answer"]
    assert (role["armed"], role["captured"], role["✕ lost"], role["basic"]) == ("ink", "first", "second", "muted")
