"""Where words and labels stand, worked out by hand: widths, boxes, sides, leaders, and what costs a place."""

import pytest

from lpv.drawing import labels, typeset
from lpv.drawing.labels import SIDES, Crossed, Label, Placed
from lpv.drawing.panel import Panel
from lpv.drawing.sheet import EDGE, WIDTH

AREA = (0, 0, 3000, 2000)


def test_word_width_is_sum_of_letters():
    # m 100, i 30, a 64, blank 36, in hundredths of the size
    assert typeset.width("mi a", 100) == 230
    assert typeset.width("mi a", 200) == 460
    assert typeset.width("mi a", 100, bold=True) == 253
    assert typeset.width("mi a") == 276
    assert typeset.width("") == 0
    for letters, each in ((" .,:;/-", 36), ("ft()r", 42), ("cksz°", 54), ("ABEFKPRSTXYZv", 70), ("CDGHNOQUVw", 84),
                          ("+\u2212=%\u2192\u00d7~", 86), ("mMW@", 100), ("ijlI'|!", 30), ("\u202f", 22), ("aé8", 64)):
        assert {typeset.width(letter, 100) for letter in letters} == {each}, letters


def test_box_of_words_hangs_from_anchor():
    assert typeset.box(1000, 500, "mm", size=100) == (1000, 407, 1200, 524)
    assert typeset.box(1000, 500, "mm", "end", 100) == (800, 407, 1000, 524)
    assert typeset.box(1000, 500, "mm", "middle", 100) == (900, 407, 1100, 524)
    assert typeset.box(1000, 500, "mm", size=200) == (1000, 314, 1400, 548)
    assert typeset.box(1000, 500, "mm", size=100, bold=True) == (1000, 407, 1220, 524)
    assert typeset.box(0, 0, "mm") == (0, -111, 240, 28)
    assert typeset.element(1, 2, "a<b", "ink") == '<text x="1" y="2" class="ink">a&lt;b</text>'
    assert typeset.element(1, 2, "a", "ink", "end", 130, bold=True) == (
        '<text x="1" y="2" class="ink large bold" text-anchor="end">a</text>')
    assert typeset.escaped('&<>"') == "&amp;&lt;&gt;&quot;"


def test_label_measured_by_longest_row():
    label = Label("mm\nm", (0, 0), "ink", (), False, 100)
    assert (label.rows, label.width, label.height) == (["mm", "m"], 200, 117 + 144)
    assert Label("m", (0, 0), "ink", (), True).width == 132
    assert Label("m", (0, 0), "ink", (), False).height == 140


@pytest.mark.parametrize(("side", "away", "left", "top"), [
    ("e", 75, 1075, 942), ("w", 75, 725, 942), ("n", 75, 900, 808), ("s", 75, 900, 1075), ("ne", 75, 1075, 868),
    ("nw", 75, 725, 868), ("se", 75, 1075, 1015), ("sw", 75, 725, 1015), ("ne", 300, 1300, 823), ("s", 300, 900, 1300),
])
def test_label_stands_at_side(side, away, left, top):
    label = Label("mm", (1000, 1000), "ink", (), False, 100)  # 200 wide, 117 high
    assert labels._beside(label, SIDES[side], away) == (left, top, left + 200, top + 117)


def test_first_free_side_taken_then_farther_then_anywhere():
    label = Label("mm", (1000, 1000), "ink", ("e", "w"), False, 100)
    east, west = (labels._beside(label, SIDES[side], 75) for side in "ew")
    place = labels.placed(label, AREA, [], Crossed(3000, 2000))
    assert (place.box, place.anchor, place.leader) == (east, "", None)
    place = labels.placed(label, AREA, [east], Crossed(3000, 2000))
    assert (place.box, place.anchor, place.x, place.first_y) == (west, "end", west[2], west[1] + 93)
    around = (600, 600, 1400, 1400)
    place = labels.placed(Label("mm", (1000, 1000), "ink", ("n",), False, 100), AREA, [around], Crossed(3000, 2000))
    assert place.leader is not None
    assert place.leader[:2] == (1000, 1000)
    assert labels.is_free(place.box, AREA, [around])
    assert labels.placed(label, AREA, [(0, 0, 3000, 2000)], Crossed(3000, 2000)) is None
    middle = labels.placed(Label("mm", (1000, 1000), "ink", ("s",), False, 100), AREA, [], Crossed(3000, 2000))
    assert (middle.anchor, middle.x) == ("middle", 1000)


def test_place_over_line_costs_more_than_another_side():
    label = Label("mm", (1000, 1000), "ink", ("e", "w"), False, 100)
    crossed = Crossed(3000, 2000)
    crossed.line([(1150, 0), (1150, 1999)])
    assert labels.placed(label, AREA, [], crossed).anchor == "end"
    twice = Crossed(3000, 2000)
    twice.line([(0, 1000), (2999, 1000)])
    place = labels.placed(label, AREA, [], twice)
    assert place.box[3] < 1000 or place.box[1] > 1000, "neither side of the line, though they are wished for"


def test_squares_that_line_runs_through_counted():
    crossed = Crossed(750, 450)
    assert (len(crossed.columns), {len(column) for column in crossed.columns}) == (11, {7})
    crossed.line([(10, 10), (10, 440)])
    assert [list(column) for column in crossed.columns[:2]] == [[1, 1, 1, 1, 1, 1, 0], [0] * 7]
    crossed.line([(100, 100)])
    assert crossed.columns[1][1] == 1
    assert crossed.under((30, 30, 40, 40)) == 1
    assert crossed.under((30, 30, 60, 60)) == 3, "a gap of 20 around reaches the squares beside"
    assert crossed.under((300, 300, 400, 400)) == 0
    assert crossed.under((0, 0, 10, 449)) == 6
    across = Crossed(750, 450)
    across.line([(0, 0), (740, 440)])
    cells = [(x, y) for x, column in enumerate(across.columns) for y, cell in enumerate(column) if cell]
    assert cells == [(0, 0), (1, 1), (2, 1), (3, 2), (4, 2), (5, 3), (6, 4), (7, 4), (8, 5), (9, 5)], "every 74 across"


def test_line_that_begins_anywhere_runs_through_squares_on_way():
    crossed = Crossed(1500, 900)
    crossed.line([(300, 100), (700, 300), (700, 340), (690, 340)])
    cells = [(x, y) for x, column in enumerate(crossed.columns) for y, cell in enumerate(column) if cell]
    # every sixth of the way: 366 133, 433 166, 500 200, 566 233, 633 266
    assert cells == [(4, 1), (5, 2), (6, 2), (7, 3), (8, 3), (9, 4)]
    back = Crossed(1500, 900)
    back.line([(700, 300), (300, 100)])
    assert [column[:5] for column in back.columns[4:10]] == [column[:5] for column in crossed.columns[4:10]]


def test_far_label_takes_nearest_free_place():
    """Of all places a step of 110 apart: sideways counts once, up and down twice, each square under it forty."""
    label = Label("mm", (1000, 1000), "ink", (), False, 100)
    wall = (400, 500, 1700, 1500)
    crossed = Crossed(3000, 2000)
    crossed.line([(0, 1600), (2999, 1600)])

    def cost(left, top):
        away = abs(left + 100 - 1000) + 2 * abs((top + top + 117) // 2 - 1000)
        return away + 40 * crossed.under((left, top, left + 200, top + 117))

    corners = [(left, top) for top in range(0, 2000 - 117 + 1, 110) for left in range(0, 3000 - 200 + 1, 110)]
    boxes = [(left, top, left + 200, top + 117) for left, top in corners]
    free = [(cost(*box[:2]), box) for box in boxes if labels.is_free(box, AREA, [wall])]
    place = labels._search(label, AREA, [wall], crossed)
    assert place.box in [box for price, box in free if price == min(free)[0]]
    assert place.anchor == ""
    assert place.leader[:2] == (1000, 1000)


@pytest.mark.parametrize(("box", "free"), [
    ((0, 0, 100, 100), True), ((-1, 0, 100, 100), False), ((0, -1, 100, 100), False), ((2900, 0, 3000, 100), True),
    ((2900, 0, 3001, 100), False), ((0, 1900, 100, 2000), True), ((0, 1900, 100, 2001), False),
    ((1120, 1000, 1200, 1100), True), ((1119, 1000, 1200, 1100), False), ((800, 1000, 880, 1100), True),
    ((800, 1000, 881, 1100), False), ((900, 1120, 1100, 1200), True), ((900, 1119, 1100, 1200), False),
    ((900, 800, 1100, 880), True), ((900, 800, 1100, 881), False),
])
def test_gap_kept_on_each_side(box, free):
    assert labels.is_free(box, AREA, [(900, 900, 1100, 1100)]) is free


def test_leader_runs_to_nearest_edge():
    label = Label("mm", (1000, 1000), "ink", (), False, 100)
    box = (1200, 700, 1400, 817)
    assert Placed(label, box, "", True).leader == (1000, 1000, 1200, 817)
    assert Placed(label, (600, 950, 800, 1067), "", True).leader == (1000, 1000, 800, 1000)
    assert Placed(label, (950, 950, 1150, 1067), "", True).leader is None
    assert Placed(label, box, "", False).leader is None
    aside = Label("mm", (1000, 300), "ink", (), False, 100)
    assert Placed(aside, (1200, 700, 1400, 817), "", True).leader == (1000, 300, 1200, 700)
    assert Placed(aside, (900, 100, 1100, 217), "", True).leader == (1000, 300, 1000, 217)


class Recorded:
    """A sheet that notes what a panel draws on it."""

    def __init__(self):
        self.paths, self.words, self.labels = [], [], []
        self.crossed = Crossed(3280, 3000)

    def path(self, d, role, look=""):
        self.paths.append((d, role, look))

    def word(self, x, y, text, role, anchor="", **_):
        self.words.append((x, y, text, role, anchor))

    def label(self, *parts):
        self.labels.append(parts)


def test_panel_axes_in_sheet_units():
    sheet = Recorded()
    Panel(sheet, (480, 230, 2780, 1030), (0.0, 5.0), (0.0, 400.0)).axes("across", "up")
    places, heights = range(480, 2781, 460), range(1030, 229, -200)
    assert sheet.paths == [
        ("".join(f"M{x} 230V1030" for x in places), "grid", "thin"),
        ("M480 1030H2780" + "".join(f"M{x} 1030v35" for x in places), "muted", "thin"),
        ("".join(f"M480 {y}H2780" for y in heights), "grid", "thin"),
        ("M480 230V1030" + "".join(f"M480 {y}h-35" for y in heights), "muted", "thin"),
    ]
    assert sheet.words == [
        *((x, 1215, str(number), "ink", "middle") for number, x in enumerate(places)),
        (1630, 1370, "across", "ink", "middle"),
        *((430, y + 42, str(100 * number), "ink", "end") for number, y in enumerate(heights)),
        (EDGE, 125, "up", "ink", ""),
    ]


def test_numbers_apart_and_on_sheet():
    sheet = Recorded()
    panel = Panel(sheet, (480, 230, 2780, 1030), (0.0, 5.0), (0.0, 400.0))
    half = typeset.width("1000") // 2
    panel.numbers([0, 1000, 1000 + 2 * half + 30, 2000, 2000 + 2 * half + 31, 3280], ["1000"] * 6)
    assert [x for x, *_ in sheet.words] == [EDGE + half, 1000, 2000, 2000 + 2 * half + 31, WIDTH - EDGE - half]


def test_values_outside_panel():
    sheet = Recorded()
    panel = Panel(sheet, (480, 230, 2780, 1030), (5.0, 0.0), (0.0, 400.0))
    places = {(5.0, 0.0): (480, 1030), (0.0, 400.0): (2780, 230), (2.5, 100.0): (1630, 830)}
    assert {values: panel.at(*values) for values in places} == places
    assert [panel.holds(*place) for place in ((5.0, 400.0), (5.1, 0.0), (0.0, -1.0))] == [True, False, False]
    panel.line([(5.0, 0.0), (0.0, 400.0)], "first", "dash")
    panel.line([(6.0, 0.0), (7.0, 400.0)], "first")
    panel.area([(5.0, 0.0), (0.0, 0.0), (0.0, 400.0)])
    panel.rule_x(2.5, "muted", "thin")
    panel.rule_y(100.0, "muted")
    assert sheet.paths[0] == ("M480 1030 2780 230", "first", "dash")
    assert sheet.paths[1][1:] == ("shade", "fill")
    assert sheet.paths[2:] == [("M1630 1030 1630 230", "muted", "thin"), ("M480 830 2780 830", "muted", "")]
    assert sheet.crossed.under((1600, 600, 1660, 640)) > 0
    panel.label("a", 6.0, 500.0)
    panel.label("b", 2.5, 100.0, "answer", ("n",), True)
    within = (480 + EDGE, 230, WIDTH - EDGE, 1030 - EDGE)
    assert sheet.labels == [
        ("a", (480, 230), "ink", (), False, within), ("b", (1630, 830), "answer", ("n",), True, within)]
