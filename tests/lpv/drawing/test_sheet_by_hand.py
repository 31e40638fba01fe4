"""Marks, words, clips and ticks of drawings, worked out by hand; and the check's own edges."""

import math
import re

import pytest

from lpv.core.errors import DomainError
from lpv.drawing import check, clip, ticks, typeset
from lpv.drawing.sheet import SHAPES, Sheet

BOX = (0, 0, 100, 50)


def test_marks_keep_room_of_own_size():
    halves = {"circle": 50, "square": 50, "diamond": 60, "aircraft": 60, "bar": 90, "post": 60, "cross": 52}
    assert {shape: half for shape, (_, half) in SHAPES.items()} == halves
    for shape, half in halves.items():
        sheet = Sheet(1000)
        sheet.mark((500, 400), shape, "ink")
        high = 20 if shape == "bar" else half
        assert sheet.taken == [(500 - half, 400 - high, 500 + half, 400 + high)]
        look = "stroke" if shape == "cross" else "fill"
        assert sheet.parts == [f'<path class="ink {look}" d="M500 400{SHAPES[shape][0]}"/>']
        numbers = [abs(int(number)) for number in re.findall(r"-?\d+", SHAPES[shape][0])]
        assert max(numbers) <= 2 * half + 60


def test_words_and_paths_on_sheet():
    sheet = Sheet(1000)
    sheet.path("M0 0", "ink", "dash thin")
    sheet.path("M0 0", "ink")
    sheet.word(100, 200, "mm", "first", "end", True, 100)
    assert sheet.parts == ['<path class="ink dash thin" d="M0 0"/>', '<path class="ink" d="M0 0"/>',
                           '<text x="100" y="200" class="first bold" text-anchor="end">mm</text>']
    assert sheet.taken == [typeset.box(100, 200, "mm", "end", 100, True)]
    sheet.label("far\naway", (1000, 500), "answer", ("e",), True, (0, 0, 3000, 900), 100)
    sheet.label("no room", (1000, 500), within=(0, 0, 10, 10))
    svg = sheet.svg("a & b")
    assert svg.startswith('<svg xmlns="http://www.w3.org/2000/svg" class="hb-drawing" viewBox="0 0 3280 1000" '
                          'role="img" aria-label="a &amp; b">')
    rows = re.findall(r'<text x="(\d+)" y="(\d+)" class="answer bold">(\w+)</text>', svg)
    assert [words for *_, words in rows] == ["far", "away"]
    assert [int(x) for x, *_ in rows] == [1075, 1075]
    assert int(rows[1][1]) - int(rows[0][1]) == 144
    assert sheet.dropped == ["no room"]
    assert "hair" not in svg
    crowded = Sheet(1000)
    crowded.taken = [(900, 400, 1100, 600), (600, 100, 1400, 900)]
    crowded.label("m", (1000, 500))
    assert re.search(r'<path class="muted hair" d="M1000 500L\d+ \d+"/><text', crowded.svg("x"))


@pytest.mark.parametrize(("start", "end", "part"), [
    ((10, 10), (90, 40), ((10, 10), (90, 40))), ((-100, 25), (200, 25), ((0, 25), (100, 25))),
    ((50, -50), (50, 100), ((50, 0), (50, 50))), ((-50, -25), (50, 25), ((0, 0), (50, 25))),
    ((50, 25), (150, 75), ((50, 25), (100, 50))), ((-10, 60), (110, 60), None), ((-10, -1), (-10, 60), None),
    ((-50, 25), (50, 125), None), ((0, 60), (0, -10), ((0, 50), (0, 0))), ((100, 0), (100, 50), ((100, 0), (100, 50))),
    ((90, 60), (110, 40), ((100, 50), (100, 50))), ((91, 60), (111, 40), None), ((-20, 10), (-10, 20), None),
    ((100, -10), (100, 60), ((100, 0), (100, 50))), ((-10, 0), (110, 0), ((0, 0), (100, 0))),
    ((101, -10), (101, 60), None),
    ((0, -10), (0, 60), ((0, 0), (0, 50))), ((-10, 50), (110, 50), ((0, 50), (100, 50))), ((-10, 51), (110, 51), None),
    ((-1, -10), (-1, 60), None), ((-10, -1), (110, -1), None),
])
def test_stretch_cut_at_edges(start, end, part):
    assert clip.segment(start, end, BOX) == part
    back = clip.segment(end, start, BOX)
    assert back == (part and part[::-1])


def test_line_in_parts_and_area_cut():
    assert clip.lines([(10, 10), (50, 25), (90, 10)], BOX) == [[(10, 10), (50, 25), (90, 10)]]
    assert clip.lines([(10, 10), (50, 25), (50, 75), (70, 75), (70, 25)], BOX) == [
        [(10, 10), (50, 25), (50, 50)], [(70, 50), (70, 25)]]
    assert clip.lines([(10, 10)], BOX) == clip.lines([], BOX) == clip.lines([(200, 0), (300, 0)], BOX) == []
    assert clip.area([(-50, -50), (50, -50), (50, 25), (-50, 25)], BOX) == [(0, 0), (50, 0), (50, 25), (0, 25)]
    assert clip.area([(20, 10), (80, 10), (80, 40)], BOX) == [(20, 10), (80, 10), (80, 40)]
    assert clip.area([(200, 0), (300, 0), (300, 10)], BOX) == []
    assert [clip.inside(point, BOX) for point in ((0, 0), (100, 50), (-1, 0), (0, -1), (101, 0), (0, 51))] == [
        True, True, False, False, False, False]
    for hundredths in range(-320, 320):
        if hundredths % 100 != 50:
            assert clip.nearest(hundredths / 100.0) == math.floor(hundredths / 100.0 + 0.5), hundredths
    assert [clip.nearest(value) for value in (0.4, 0.5, 0.49999999, -0.5, -0.6, 1.5, -1.4)] == [0, 1, 1, 0, -1, 2, -1]


@pytest.mark.parametrize(("low", "high", "most", "words"), [
    (0.0, 5.0, 5, "0 1 2 3 4 5"), (0.0, 5.0, 4, "0 2 4"), (0.0, 10.0, 5, "0 2 4 6 8 10"), (0.0, 10.0, 2, "0 5 10"),
    (0.1, 0.5, 4, "0.1 0.2 0.3 0.4 0.5"), (-3.0, 3.0, 3, "\u22122 0 2"),
    (0.0, 0.004, 4, "0.000 0.001 0.002 0.003 0.004"),
    (990.0, 1011.0, 3, "990 1000 1010"), (0.0, 1.0, 2, "0.0 0.5 1.0"), (0.0, 300000.0, 3, "0 100000 200000 300000"),
    (0.9999, 2.0001, 2, "1 2"),
])
def test_ticks_at_round_places(low, high, most, words):
    marks = ticks.ticks(low, high, most)
    assert " ".join(text for _, text in marks) == words
    numbers = [float(text.replace("\u2212", "-")) for text in words.split()]
    assert [place for place, _ in marks] == pytest.approx(numbers)


def test_axis_without_ticks_refused():
    for low, high, most in ((1.0, 1.0, 5), (2.0, 1.0, 5), (0.0, 300001.0, 3)):
        with pytest.raises(DomainError):
            ticks.ticks(low, high, most)


def test_check_at_edges():
    frame = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {} 1000">{}</svg>'

    def faults(*parts, wide=3280):
        return check.faults(frame.format(wide, "".join(parts)))

    assert faults('<path d="M0 0 3280 1000"/>', '<path d="M10 10L20 20"/>') == []
    assert faults('<path d="M0 0 3281 1000"/>') == ["a line leaves the sheet at 3281 1000"]
    assert faults('<path d="M0 0L10 -1"/>') == ["a line leaves the sheet at 10 -1"]
    assert faults(wide=3281) == ["letters are smaller than 12.0 pixels where the drawing is 328.0 wide"]
    word = '<text x="{}" y="500" class="ink">m</text>'  # 120 wide, from 389 to 528
    assert faults(word.format(100), word.format(220)) == []
    assert faults(word.format(100), word.format(219)) == ["'m' and 'm' overlap"]
    assert faults(word.format(3160)) == []
    assert faults(word.format(3161)) == ["'m' leaves the sheet: (3161, 389, 3281, 528)"]
    for shape, wide, high in (("circle", 40, 40), ("bar", 80, 14), ("diamond", 50, 50)):
        for x, covers in ((100 - wide, True), (99 - wide, True), (101 + wide + 120, False)):
            mark = f'<path d="M{x + wide} 450{SHAPES[shape][0]}"/>'
            told = faults(word.format(100), mark)
            assert told == ([f"'m' covers a {shape}"] if covers else []), (shape, x)
        for y, covers in ((389 - high + 1, True), (389 - high, False), (528 + high - 1, True), (528 + high, False)):
            told = faults(word.format(100), f'<path d="M160 {y}{SHAPES[shape][0]}"/>')
            assert told == ([f"'m' covers a {shape}"] if covers else []), (shape, y)
    large = '<text x="100" y="500" class="ink large bold" text-anchor="end">m</text>'
    assert check._word(check.ElementTree.fromstring(large)) == ("m", typeset.box(100, 500, "m", "end", 130, True))
