"""Drawings: where values lie, what is cut off, what is written; and that the check finds what is wrong."""

import math
import re
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.drawing import clip
from lpv.drawing.check import faults
from lpv.drawing.labels import ALL_SIDES, Crossed, Label, is_free, placed
from lpv.drawing.panel import BOTTOM, LEFT, RIGHT, TOP, Panel
from lpv.drawing.sheet import SHAPES, WIDTH, Sheet
from lpv.drawing.ticks import STEPS, ticks
from lpv.drawing.typeset import LARGE, SIZE, box, element, escaped, width

SVG = "{http://www.w3.org/2000/svg}"
BOX = (LEFT, TOP, WIDTH - RIGHT, 2000 - BOTTOM)
SPANS = st.tuples(st.floats(-20_000, 20_000), st.floats(0.05, 40_000)).map(lambda ends: (ends[0], sum(ends)))
COORDINATES = st.tuples(st.integers(-4000, 8000), st.integers(-4000, 8000))


def panel(x=(10.0, 0.0), y=(0.0, 4000.0)):
    return Panel(Sheet(2000), BOX, x, y)


def texts(svg):
    return [each.text for each in ElementTree.fromstring(svg).iter(f"{SVG}text")]


# Letters and words.

def test_widths_at_least_wide_font():
    """Advance widths of DejaVu Sans, one of the widest in common use, in hundredths of its size."""
    advances = {"0": 64, "A": 68, "M": 86, "W": 99, "a": 61, "e": 62, "i": 28, "m": 97, "t": 39, " ": 32, "\u2212": 84,
                "\u00b0": 50, ".": 32, "/": 34, "r": 41, "s": 52, "w": 82, "N": 75, "H": 75, "\u202f": 20}
    for letter, hundredths in advances.items():
        assert width(letter * 100) >= hundredths * SIZE, letter
    assert width("10000") == 5 * 64 * SIZE // 100


def test_bold_and_large_text_wider():
    assert width("reads 2130") < width("reads 2130", bold=True)
    assert width("reads 2130") < width("reads 2130", LARGE)
    assert width("") == 0


@pytest.mark.parametrize(("anchor", "left"), [("", 1000), ("middle", 936), ("end", 872)])
def test_boxes_aligned_to_anchors(anchor, left):
    assert box(1000, 500, "ff0", anchor)[:2] == (left + (1000 - left) - {"": 0, "middle": 88, "end": 177}[anchor], 389)


@given(st.text(st.characters(exclude_categories=("Cc", "Cs", "Cn")), max_size=20))
def test_text_written_literally(text):
    plain, bold = (ElementTree.fromstring(element(1, 2, text, "ink", **look)) for look in ({}, {"bold": True}))
    assert (plain.text or "") == (bold.text or "") == text
    assert (plain.get("class"), bold.get("class")) == ("ink", "ink bold")
    assert ElementTree.fromstring(f'<a b="{escaped(text)}"/>').get("b") == text


# Axes.

@given(SPANS, st.integers(1, 12))
def test_ticks_are_equal_steps_within_span(span, most):
    low, high = span
    values = ticks(low, high, most)
    assert len(values) <= most + 1
    slack = 1e-9 * max(1.0, abs(low), abs(high))
    assert all(low - slack <= place <= high + slack for place, _ in values)
    assert len({round(after[0] - before[0], 6) for before, after in pairwise(values)}) <= 1
    assert all(float(words.replace("\u2212", "-")) == pytest.approx(place, abs=1e-9) for place, words in values)


def test_ticks_at_both_ends_and_labels():
    assert [words for _, words in ticks(0.0, 0.3, 3)] == ["0.0", "0.1", "0.2", "0.3"]
    assert [words for _, words in ticks(-1000.0, 1000.0, 2)] == ["\u22121000", "0", "1000"]
    assert [place for place, _ in ticks(0.0, 24.0, 6, ((4, 1),))] == [0, 4, 8, 12, 16, 20, 24]
    assert len(ticks(0.0, 2.0, 4)) == 5
    assert STEPS[0] == (1, 1000)


@pytest.mark.parametrize("span", [(1.0, 1.0), (2.0, 1.0), (0.0, math.nan), (0.0, 1e9)])
def test_spans_without_ticks_refused(span):
    with pytest.raises(DomainError):
        ticks(*span, 4)


def test_values_between_corners():
    plot = panel()
    assert plot.at(10.0, 0.0) == (BOX[0], BOX[3])
    assert plot.at(0.0, 4000.0) == (BOX[2], BOX[1])
    assert plot.at(5.0, 2000.0) == ((BOX[0] + BOX[2]) // 2, (BOX[1] + BOX[3]) // 2)
    assert plot.holds(10.0, 4000.0)
    assert not plot.holds(10.1, 0.0)
    assert not plot.holds(5.0, -10.0)


def test_axes_have_numbers_labels_and_grid():
    plot = panel()
    plot.axes("to the threshold, NM", "altitude, ft")
    svg = plot.sheet.svg("x")
    assert {"0", "2", "10", "1000", "4000", "to the threshold, NM", "altitude, ft"} <= {*texts(svg)}
    assert not faults(svg)
    assert svg.count('class="grid thin"') == 2


def test_unlabelled_axis_has_no_numbers():
    plot = panel()
    plot.x_axis("")
    assert not texts(plot.sheet.svg("x"))


def test_rules_cross_whole_panel():
    plot = panel()
    plot.rule_y(1000.0, "second", "dash")
    plot.rule_x(2.0, "answer")
    plot.rule_y(9000.0, "first")
    y, x = plot.down(1000.0), plot.across(2.0)
    assert plot.sheet.parts == [
        f'<path class="second dash" d="M{BOX[0]} {y} {BOX[2]} {y}"/>',
        f'<path class="answer" d="M{x} {BOX[3]} {x} {BOX[1]}"/>',
    ]


# What is cut off.

@given(st.lists(COORDINATES, min_size=2, max_size=12))
def test_lines_clipped_to_box(points):
    for part in clip.lines(points, BOX):
        assert len(part) >= 2
        assert all(clip.inside(point, BOX) for point in part)


@given(st.lists(st.tuples(st.integers(BOX[0], BOX[2]), st.integers(BOX[1], BOX[3])), min_size=2, max_size=12))
def test_inside_lines_unchanged(points):
    assert clip.lines(points, BOX) == [points]


@given(st.lists(COORDINATES, min_size=3, max_size=8))
def test_areas_clipped_to_box(points):
    assert all(clip.inside(point, BOX) for point in clip.area(points, BOX))


def test_line_leaving_and_returning_has_two_parts():
    middle, far = (BOX[1] + BOX[3]) // 2, BOX[2] + 500
    parts = clip.lines([(BOX[0], middle), (far, middle), (far, middle + 100), (BOX[0], middle + 100)], BOX)
    assert parts == [[(BOX[0], middle), (BOX[2], middle)], [(BOX[2], middle + 100), (BOX[0], middle + 100)]]
    assert clip.segment((far, 0), (far, 100), BOX) is None


def test_area_around_box_becomes_box():
    corners = clip.area([(-9000, -9000), (9000, -9000), (9000, 9000), (-9000, 9000)], BOX)
    assert {*corners} == {(BOX[0], BOX[1]), (BOX[2], BOX[1]), (BOX[2], BOX[3]), (BOX[0], BOX[3])}


@pytest.mark.parametrize(("value", "whole"), [(0.4999, 0), (0.5, 1), (-0.4, 0), (-0.5, 0), (-0.6, -1), (0.49999999, 1)])
def test_noisy_halves_are_halves(value, whole):
    assert clip.nearest(value) == whole


# Labels.

def test_label_takes_best_side():
    for side in ALL_SIDES:
        label = Label("DA", (1600, 1000), "ink", (side,), False)
        left, top, right, bottom = placed(label, (0, 0, WIDTH, 2000), [], Crossed(WIDTH, 2000)).box
        assert (left > 1600) == ("e" in side), side
        assert (right < 1600) == ("w" in side), side
        assert (bottom < 1000) == ("n" in side), side
        assert (top > 1000) == ("s" in side), side


def test_label_avoids_marks_then_lines():
    area, label = (0, 0, WIDTH, 2000), Label("charted 2000", (1600, 1000), "ink", ("e", "w"), False)
    first = placed(label, area, [], Crossed(WIDTH, 2000))
    assert first.x > 1600
    assert placed(label, area, [first.box], Crossed(WIDTH, 2000)).x < 1600
    crossed = Crossed(WIDTH, 2000)
    crossed.line([(1700, 1000), (1900, 1000)])
    assert placed(label, area, [], crossed).x < 1600


def test_line_crosses_expected_grid_cells():
    """By hand, squares of 75: (10, 10) to (310, 85) takes one per column; the second row from x = 270."""
    crossed = Crossed(WIDTH, 2000)
    crossed.line([(10, 10), (310, 85)])
    there = [(column, row) for column, rows in enumerate(crossed.columns) for row, taken in enumerate(rows) if taken]
    assert there == [(0, 0), (1, 0), (2, 0), (3, 0), (4, 1)]
    assert crossed.under((0, 0, 100, 60)) == 2
    assert crossed.under((300, 120, 310, 130)) == 1  # the row just above the box
    assert crossed.under((400, 0, 2000, 2000)) == 0
    assert crossed.under((-50, -50, 5000, 5000)) == 5


def test_crowded_label_moves_away_with_leader():
    label = Label("charted", (1600, 1000), "ink", (), False)
    place = placed(label, (0, 0, WIDTH, 2000), [(800, 300, 2400, 1700)], Crossed(WIDTH, 2000))
    assert is_free(place.box, (0, 0, WIDTH, 2000), [(800, 300, 2400, 1700)])
    assert place.leader[:2] == (1600, 1000)
    assert placed(label, (0, 0, WIDTH, 2000), [(0, 0, WIDTH, 2000)], Crossed(WIDTH, 2000)) is None


@given(st.lists(st.tuples(st.integers(0, WIDTH), st.integers(0, 2000), st.text("abc 0", min_size=1, max_size=12)),
                min_size=1, max_size=14))
def test_labels_never_overlap(wanted):
    sheet = Sheet(2000)
    for x, y, text in wanted:
        sheet.mark((max(60, min(WIDTH - 60, x)), max(60, min(1940, y))), "circle", "first")
        sheet.label(text, (x, y))
    overlap = [fault for fault in faults(sheet.svg("x")) if "circle" not in fault or "leaves" in fault]
    assert not overlap


def test_unplaced_label_reported():
    sheet = Sheet(160)
    for text in ("one", "two", "three") * 20:
        sheet.label(text, (1600, 80))
    svg = sheet.svg("x")
    assert not faults(svg)
    assert len(texts(svg)) + len(sheet.dropped) == 60
    assert sheet.dropped


def test_label_rows_stacked():
    sheet = Sheet(2000)
    sheet.label("GULLY\n2000", (1600, 1000), "answer", ("se",), True)
    matches = re.findall(r'<text x="(\d+)" y="(\d+)" class="answer bold">', sheet.svg("x"))
    assert matches[0][0] == matches[1][0]
    assert int(matches[1][1]) - int(matches[0][1]) == 144


def test_label_of_outside_place_at_edge():
    plot = panel()
    plot.label("far", 99.0, -50.0)
    svg = plot.sheet.svg("x")
    assert not faults(svg)
    x, y = map(int, re.search(r'<text x="(\d+)" y="(\d+)"', svg).groups())
    assert x < BOX[0] + 200
    assert y > BOX[3] - 300


# The sheet.

def test_marks_have_own_shapes_and_stay_inside():
    plot = panel()
    for place, shape in enumerate(SHAPES):
        assert plot.mark(1.0 + place, 2000.0, shape, "answer")
    assert not plot.mark(11.0, 2000.0, "circle", "answer")
    svg = plot.sheet.svg("x")
    assert svg.count("<path") == len(SHAPES)
    assert not faults(svg)


def test_lines_and_areas_clipped():
    plot = panel()
    plot.line([(20.0, -1000.0), (-5.0, 9000.0)], "first")
    plot.area([(20.0, -1000.0), (20.0, 9000.0), (-5.0, 9000.0)])
    svg = plot.sheet.svg("x")
    assert svg.count("<path") == 2
    assert not faults(svg)
    plot.line([(20.0, 0.0), (30.0, 0.0)], "first")
    assert plot.sheet.svg("x") == svg


def test_drawing_uses_classes_and_is_deterministic():
    plot = panel()
    plot.axes("NM", "ft")
    plot.label('a < "b" & c', 5.0, 2000.0)
    svg = plot.sheet.svg('It\'s < "5"')
    assert svg == plot.sheet.svg('It\'s < "5"')
    assert not re.search(r"style=|#[0-9a-f]{3}|\bon\w+=|\bid=", svg)
    assert ElementTree.fromstring(svg).get("aria-label") == 'It\'s < "5"'


# The check.

def svg_of(*parts, height=1000):
    sheet = Sheet(height)
    for part in parts:
        sheet.add(part)
    return sheet.svg("x")


@pytest.mark.parametrize(
    ("parts", "words"),
    [
        ([element(100, 500, "over", "ink"), element(150, 520, "under", "ink")], "overlap"),
        ([element(WIDTH - 100, 500, "too far", "ink")], "leaves the sheet"),
        ([element(100, 50, "too high", "ink")], "leaves the sheet"),
        ([f'<path d="M200 480{SHAPES["circle"][0]}"/>', element(120, 500, "x", "ink")], "covers a circle"),
        (['<path class="ink" d="M10 10 4000 10"/>'], "a line leaves"),
    ],
)
def test_check_detects_faults(parts, words):
    assert any(words in fault for fault in faults(svg_of(*parts)))


def test_check_detects_small_letters():
    svg = svg_of(element(100, 500, "x", "ink")).replace(f"0 0 {WIDTH}", "0 0 3400")
    assert any("smaller" in fault for fault in faults(svg))


def test_check_passes_good_drawing():
    assert not faults(svg_of(element(100, 500, "one", "ink"), element(100, 700, "two", "ink")))
