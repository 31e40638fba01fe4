"""Where live figures put their marks and lines, read off the numbers beside their axes, against plain formulas."""

import math

import pytest

from drawn_live import panels
from lpv.figures.figure import drawn
from lpv.figures.funnel import Scale
from lpv.figures.run import figure
from paths_by_hand import before_threshold_ft

FT_PER_NM = 1852 / 0.3048
TAN = math.tan(math.radians(3.0))
PER_KT = FT_PER_NM / 60.0 * TAN  # ft/min


def seen(name, **texts):
    return panels(drawn(figure(name), texts).svg)


def near(*point, by=(0.05, 1.0)):
    return tuple(pytest.approx(value, abs=off) for value, off in zip(point, by, strict=True))


def test_rate():
    (panel,) = seen("live-rate")
    by = (0.1, 1.0)
    assert panel.mark("square", "third") == near(130.0, 130.0 * PER_KT, by=by)
    assert panel.mark("circle", "answer") == near(140.0, 140.0 * PER_KT, by=by)
    assert panel.lines["first"] == [[near(80.0, 80.0 * PER_KT, by=by), near(220.0, 220.0 * PER_KT, by=by)]]
    assert panel.lines["second dash"] == [[near(80.0, 1000.0, by=by), near(220.0, 1000.0, by=by)]]
    assert panel.lines["third dot"] == [[near(130.0, 0.0, by=by), near(130.0, 130.0 * PER_KT, by=by)]]
    assert panel.lines["answer thin"] == [[near(140.0, 0.0, by=by), near(140.0, 140.0 * PER_KT, by=by)]]
    for line, degrees in zip(panel.lines["muted thin"], (2.5, 3.5, 4.0, 5.0), strict=True):
        per_kt = FT_PER_NM / 60.0 * math.tan(math.radians(degrees))
        assert line[0] == near(80.0, 80.0 * per_kt, by=by)
        assert line[1][1] == pytest.approx(line[1][0] * per_kt, abs=1.5)
        assert line[1][1] == pytest.approx(min(1300.0, 220.0 * per_kt), abs=1.5)  # cut off at the top


def test_go_around():
    dip, climb = seen("live-go-around")
    sink_fps, up_fps2 = 130.0 * PER_KT / 60.0, 0.2 * 32.174
    lowest_s, loss_ft = 1.0 + sink_fps / up_fps2, sink_fps + sink_fps**2 / (2.0 * up_fps2)
    assert dip.mark("circle", "answer") == near(lowest_s, -loss_ft)
    ((*_, end),) = dip.lines["second dash"]
    assert end == near(10.0, -142.0, by=(0.15, 1.0))  # ICAO's height loss of category B
    (flown,) = dip.lines["first"]
    for seconds, above_ft in flown:
        pulled_s = max(0.0, seconds - 1.0)
        if pulled_s <= sink_fps / up_fps2:
            expected_ft = -sink_fps * seconds + up_fps2 * pulled_s**2 / 2.0
            assert above_ft == pytest.approx(expected_ft, abs=1.0)
    assert min(above_ft for _, above_ft in flown) == pytest.approx(-loss_ft, abs=1.0)
    made_good, surface = 2000.0 * 60.0 / 130.0, FT_PER_NM / 40.0
    assert climb.lines["second"] == [[near(0.0, 0.0, by=(0.05, 5.0)), near(6.0, 6.0 * surface, by=(0.05, 5.0))]]
    assert climb.lines["ink dash"] == [[near(0.0, 0.0, by=(0.05, 5.0)), near(6.0, 1200.0, by=(0.05, 5.0))]]
    top_ft = 1.3 * 6.0 * 1.7 * 200.0  # room for what is needed, and for a good part of a steeper climb
    assert climb.lines["first"] == [[near(0.0, 0.0, by=(0.05, 5.0)), near(top_ft / made_good, top_ft, by=(0.05, 5.0))]]
    at_nm, at_ft = climb.mark("circle", "answer")
    assert at_ft == pytest.approx(at_nm * made_good, abs=6.0)
    assert at_ft == pytest.approx(0.75 * top_ft, abs=6.0)


def test_sight():
    for visible_ft in (2400.0, 1600.0):
        (panel,) = seen("live-sight", visibility_ft=f"{visible_ft:.0f}")
        threshold_ft, hidden_ft = before_threshold_ft(150.0), 200.0 / math.tan(math.radians(15.0))
        reach_ft = math.sqrt(visible_ft**2 - 200.0**2)
        by = (2.0, 0.4)
        assert panel.mark("circle", "ink") == near(threshold_ft, 200.0, by=by)
        assert panel.lines["muted dash"] == [[near(threshold_ft, 200.0, by=by), near(0.0, 50.0, by=by)]]
        assert panel.lines["second"][0] == [
            near(threshold_ft, 200.0, by=by), near(threshold_ft - hidden_ft, 0.0, by=by)]
        assert panel.lines["first"][0] == [near(threshold_ft, 200.0, by=by), near(threshold_ft - reach_ft, 0.0, by=by)]
        assert panel.lines["ink thin"] == [[near(threshold_ft + 300.0, 0.0, by=by), near(-400.0, 0.0, by=by)]]
        assert panel.lines["ink wide"] == [[near(0.0, 0.0, by=by), near(-400.0, 0.0, by=by)]]
        assert panel.lines["muted dot wide"] == [[near(2400.0, 0.0, by=by), near(0.0, 0.0, by=by)]]
        assert panel.lines["answer wide"] == [
            [near(threshold_ft - hidden_ft, 0.0, by=by), near(threshold_ft - reach_ft, 0.0, by=by)]]
    (panel,) = seen("live-sight", lights_ft="0")
    assert "answer wide" not in panel.lines


def test_full_scale_lines_follow_bends():
    """FAF and 2 NM before it, where 0.3 NM are reached, and where the path's scale is 150 m and 15 m."""
    places_nm = Scale("procedure", 5.0, 350.0, 10000.0, 50.0, 3.0).places_nm(12.0)
    origin_nm = 50.0 / TAN / FT_PER_NM
    bends_nm = [5.0, 7.0, *(metres / 1852.0 / math.tan(math.radians(0.75)) - origin_nm for metres in (15.0, 150.0)),
                (0.3 * FT_PER_NM / 350.0 - 1.0) * 10000.0 / FT_PER_NM]
    assert places_nm == sorted(places_nm)
    for bend_nm in bends_nm:
        assert min(abs(place_nm - bend_nm) for place_nm in places_nm) < 0.002, bend_nm


def test_energy():
    speed, height = seen("live-energy")
    assert [round(kt) for _, kt in [(x, y) for _, kind, x, y in speed.marks if kind == "first"]] == [220, 171, 160]
    assert speed.mark("circle", "answer")[1] == pytest.approx(135.0, abs=0.5)
    (way,) = height.lines["ink"]
    for distance_nm, height_ft in way:
        ground_ft = min(distance_nm, 5.0) * FT_PER_NM
        path_ft = 50.0 + ground_ft * TAN + ground_ft**2 / (2 * 6371000.0 / 0.3048)
        assert height_ft == pytest.approx(path_ft, abs=15.0), distance_nm
    (energy,) = height.lines["first"]
    last_ft = energy[-1][1]
    at_speed_ft = (135.0 * FT_PER_NM / 3600.0) ** 2 / (2.0 * 32.174)
    assert 50.0 + at_speed_ft < last_ft < 50.0 + 1.03**2 * at_speed_ft  # the true airspeed is a little more
    assert [line[0][0] for line in height.lines["muted thin"]] == [
        pytest.approx(5.0, abs=0.03), pytest.approx(2.96, abs=0.1)]  # the FAF, and 1000 ft above the airport


def test_sky():
    (panel,) = seen("live-sky")
    assert panel.lines["second dash"][0][0][1] == pytest.approx(40.0, abs=0.3)
    assert panel.lines["third dash"][0][0][1] == pytest.approx(35.0, abs=0.3)
    assert panel.lines["ink thin"][0][0][0] == pytest.approx(5.0, abs=0.1)
    assert len(panel.lines["third"]) == len(panel.lines["second"]) >= 1
