"""The figure of a data block byte by byte, and the text that says how a type slows down, on either side of bounds."""

import math
from types import SimpleNamespace as Stub

import pytest

from lpv.calculators.verify import EXAMPLE_BLOCK
from lpv.core.errors import DomainError
from lpv.fas.layout import LAYOUT
from lpv.fas.remainder import as_bytes
from lpv.figures import block, slowing

BYTES = as_bytes(EXAMPLE_BLOCK)
TEXT = "6|0.6|1000|220;150/0.7,220/1;A|4|170|200|6|140/1.1;B|0.2|+5|175|6|120/1.7"


class Logged:
    """A sheet or a panel that notes what it is given."""

    last: "Logged"

    def __init__(self, sheet=None, box=None, x=None, y=None):
        self.x, self.y, self.paths, self.words, self.lines, self.marks, self.labels = x, y, [], [], [], [], {}
        Logged.last = self

    def path(self, d, role, look=""):
        self.paths.append((d, role, look))

    def word(self, x, y, text, role, anchor="", bold=False):
        self.words.append((x, y, text, role, anchor, bold))

    def line(self, points, role, look=""):
        self.lines.append((points, role, look))

    def mark(self, x, y, shape, role):
        self.marks.append((x, y, shape, role))

    def label(self, text, x, y, *_):
        self.labels[text] = (x, y)

    def axes(self, across, up):
        self.labels["axes"] = (across, up)


def test_bit_flipped_from_lowest_of_field():
    for name, bit in (("gpa_deg", 0), ("gpa_deg", 4), ("ltp_latitude_deg", 31), ("hal_m", 7)):
        row = next(row for row in LAYOUT if row.name == name)
        before, after = (int.from_bytes(data, "little") for data in (BYTES, block.flipped(BYTES, name, bit, False)))
        assert before ^ after == 1 << row.bit + bit
    highest = next(row for row in LAYOUT if row.name == "hal_m").bits - 1
    assert block.flipped(BYTES, "hal_m", 31, False) == block.flipped(BYTES, "hal_m", highest, False)
    mended = block.flipped(BYTES, "gpa_deg", 4, True)
    assert len(mended) == 40
    assert mended[:36] == block.flipped(BYTES, "gpa_deg", 4, False)[:36]
    assert mended[36:] != BYTES[36:]
    assert block.flipped(mended, "gpa_deg", 4, True) == BYTES


def test_bytes_stand_in_five_rows_of_eight():
    sheet = Logged()
    after = block.flipped(BYTES, "gpa_deg", 4, False)
    row = next(row for row in LAYOUT if row.name == "gpa_deg")
    block._bytes(sheet, BYTES, after, "gpa_deg")
    title, *cells, verdict = sheet.words
    assert title[:2] == (10, 125)
    for place, (x, y, text, role, anchor, bold) in enumerate(cells):
        assert (x, y) == (10 + 406 * (place % 8) + 203, 170 + 190 * (place // 8) + 132)
        assert (text, anchor) == (f"{after[place]:02X}", "middle")
        assert (role, bold) == (("answer", True) if after[place] != BYTES[place] else ("ink", False))
    assert len(cells) == 40
    assert sum(bold for *_, bold in cells) == 1
    shaded = [*range(row.first_byte, row.last_byte + 1), 36, 37, 38, 39]
    assert sheet.paths == [(f"M{10 + 406 * (place % 8)} {170 + 190 * (place // 8)}h396v180h-396z", "shade", "fill")
                           for place in shaded]
    assert verdict[:2] == (10, 170 + 190 * 5 + 130)
    assert (verdict[2].endswith(": does not agree"), verdict[3:]) == (True, ("stop", "", True))
    same = Logged()
    block._bytes(same, BYTES, BYTES, "gpa_deg")
    assert same.words[-1][2].endswith(": agrees")
    assert same.words[-1][3] == "ink"


def test_plan_of_segment_to_scale():
    (left, right), (low, high) = block._spans([(0.0, 0.0), (100.0, 0.0)])
    assert (left, right) == (-25.0, 125.0)
    assert (low + high, (high - low) / (right - left)) == pytest.approx((0.0, block.RATIO))
    (left, right), (low, high) = block._spans([(0.0, 10.0), (0.0, -90.0)])
    assert (low, high) == pytest.approx((-115.0, 35.0))
    assert left == -right


@pytest.mark.parametrize(("moved_m", "unit", "name"), [(100.0, 0.3048, "ft"), (5000.0, 1852.0, "NM")])
def test_plan_of_segment_before_and_after(monkeypatch, moved_m, unit, name):
    monkeypatch.setattr(block, "Panel", Logged)
    monkeypatch.setattr(block, "_place", lambda level, point: point)
    before = Stub(level="level", fpap_m=(2000.0, 300.0))
    after = Stub(ltp_m=(moved_m, -50.0), fpap_m=(2000.0 + moved_m, 250.0))
    block._plan(None, before, after)
    panel = Logged.last
    (was, *look), (now, *other) = panel.lines
    assert (look, other) == (["first", "wide"], ["answer", ""])
    assert was == [(0.0, 0.0), pytest.approx((2000.0 / unit, 300.0 / unit))]
    assert now == [pytest.approx((moved_m / unit, -50.0 / unit)),
                   pytest.approx(((2000.0 + moved_m) / unit, 250.0 / unit))]
    assert panel.marks == [(*now[0], "circle", "answer"), (0.0, 0.0, "square", "first")]
    assert panel.labels == {"axes": (f"east of the threshold, {name}", f"north of it, {name}"), "changed": now[0],
                            "as it was": was[1]}
    block._plan(None, before, Stub(ltp_m=None, fpap_m=None))
    assert [mark[2] for mark in Logged.last.marks] == ["square"]


def test_segment_placed_by_block():
    segment = block.Segment(BYTES)
    rise_m = 5.0 * 1852.0 * math.tan(math.radians(segment.gpa_deg))
    assert segment.path_ft() == pytest.approx((segment.height_m + segment.tch_m + rise_m) / 0.3048)
    steep = Stub(height_m=0.0, tch_m=0.0, gpa_deg=95.0)
    assert block.Segment.path_ft(steep) == pytest.approx(9260.0 * math.tan(math.radians(89.0)) / 0.3048)


def test_move_of_segment_in_words(monkeypatch):
    def effect(north_m=0.0, east_m=0.0, was=90.0, turned=0.0, higher_ft=0.0):
        monkeypatch.setattr(block, "components_m", lambda *_: (north_m, east_m, 0.0))
        before = Stub(level="level", course_deg=lambda: was, path_ft=lambda: 1500.0)
        after = Stub(ltp_m="place", course_deg=lambda: None if was is None else was + turned,
                     path_ft=lambda: 1500.0 + higher_ft)
        return block._effect(before, after).replace("\u202f", " ")

    for little in (effect(), effect(0.03, 0.039), effect(turned=0.0049), effect(higher_ft=0.49)):
        assert little == "the segment has not moved"
    assert effect(0.0, -0.06) == "the threshold lies 0.2 ft away, towards 270.0°"
    assert effect(1852.0, 0.0) == "the threshold lies 6076.1 ft away, towards 360.0°"
    assert effect(-1853.0, 0.0) == "the threshold lies 1.0 NM away, towards 180.0°"
    assert effect(turned=-0.02) == "the course turns 0.02° to the left"
    assert effect(turned=0.0051) == "the course turns 0.01° to the right"
    assert effect(was=None) == "there is no course"
    assert effect(higher_ft=0.5) == "the glidepath is 1 ft higher 5 NM out"
    assert effect(0.0, 0.06, turned=1.0, higher_ft=-9.0) == (
        "the threshold lies 0.2 ft away, towards 090.0°, the course turns 1.00° to the right, the glidepath is 9 ft "
        "lower 5 NM out")
    assert block._effect(Stub(level=None), Stub(ltp_m="place")) == "the threshold would lie at no place on earth"


def with_cell(record, cell, value):
    """The text with another value in a cell of a record."""
    records = [row.split("|") for row in TEXT.split(";")]
    records[record][cell] = value
    return ";".join("|".join(row) for row in records)


@pytest.mark.parametrize(("record", "cell", "low", "high"), [
    (0, 0, 0.0, 15.0), (0, 1, 0.0, 3.0), (0, 2, 0.0, 10000.0), (0, 3, 60.0, 350.0), (2, 1, None, 30.0),
    (3, 1, -10.0, 4.0), (2, 2, 60.0, 300.0), (2, 3, 60.0, 999.0), (2, 4, 0.0, 60.0),
])
def test_number_of_schedule_within_bounds(record, cell, low, high):
    for edge, beyond in ((low, -0.1), (high, 0.1)):
        if edge is not None:
            slowing.slowed(with_cell(record, cell, f"{edge:g}"), 130.0)
            with pytest.raises(DomainError):
                slowing.slowed(with_cell(record, cell, f"{edge + beyond:g}"), 130.0)


@pytest.mark.parametrize(("drag", "good"), [
    ("50/0.1", True), ("49/1", False), ("350/6", True), ("351/1", False), ("100/0", False), ("100/6.1", False),
    ("100", False), ("100/1,100/1", False), ("100/1,101/1", True), ("100/1,99/1", False), ("100/1/1", False),
    (",".join(f"{100 + row}/1" for row in range(12)), True), (",".join(f"{100 + row}/1" for row in range(13)), False),
])
def test_drag_in_text_of_schedule(drag, good):
    for record, cell in ((1, 0), (2, 5)):
        if good:
            slowing.slowed(with_cell(record, cell, drag), 130.0)
        else:
            with pytest.raises(DomainError):
                slowing.slowed(with_cell(record, cell, drag), 130.0)


def test_schedule_read_whole():
    for vref_kt in (130.0, 118.0):
        read = slowing.slowed(TEXT, vref_kt)
        assert (read.spool_up_s, read.brake_kt_per_s, read.brake_lowest_ft, read.first_kt) == (6.0, 0.6, 1000.0, 220.0)
        assert (read.labels, read.rows) == (["A", "B"], [(150.0, 0.7), (220.0, 1.0)])
        first, second = read.steps
        assert (first.begins_nm, first.target_kt, first.limit_kt, first.takes_s) == (4.0, 170.0, 200.0, 6.0)
        assert (second.begins_nm, second.target_kt, second.rows) == (0.2, vref_kt + 5.0, [(120.0, 1.7)])
    begin, more = TEXT.split(";")[:3], ["C|0|+0|99|0|99/1"]
    for text in (with_cell(3, 2, "+60"), with_cell(2, 0, "x" * 24), ";".join(begin + 7 * more)):
        slowing.slowed(text, 130.0)
    for text in (with_cell(3, 2, "+60.1"), with_cell(2, 0, "x" * 25), with_cell(2, 0, ""), ";".join(begin[:2]),
                 ";".join(begin + 8 * more), TEXT + "|1"):
        with pytest.raises(DomainError):
            slowing.slowed(text, 130.0)
    assert slowing.Slowing("s", "", TEXT, "").show(TEXT) == "A, B"
