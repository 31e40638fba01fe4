"""The data block with one bit flipped: which byte changes, what the field then reads, and where the segment goes."""

import math

from lpv.calculators.block import show_field
from lpv.calculators.verify import EXAMPLE_BLOCK
from lpv.core.text import capitalized, course, quantity
from lpv.core.units import M_PER_FT, M_PER_NM, degrees_180, degrees_360
from lpv.drawing.panel import BOTTOM, LEFT, RIGHT, Panel
from lpv.drawing.sheet import EDGE, WIDTH, Sheet
from lpv.fas.codec import fields, fpap_deg
from lpv.fas.layout import LAYOUT, NAMES
from lpv.fas.remainder import BLOCK_BYTES, FIELD_BYTES, as_bytes, crc, remainder_hex, stored_remainder_hex
from lpv.figures.figure import Figure, Shown
from lpv.figures.parts import beside
from lpv.forms.fields import Block, Choice, Number
from lpv.geodesy.local_frame import Frame, components_m, ecef_m, frame

HEIGHT = 3050
IN_A_ROW, CELL, ROW, FIRST_ROW = 8, 406, 190, 170  # of the bytes
PLAN_TOP = 1560
PLAN = (LEFT, PLAN_TOP, WIDTH - RIGHT, HEIGHT - BOTTOM)
RATIO = (PLAN[3] - PLAN[1]) / (PLAN[2] - PLAN[0])
AT_NM = 5.0  # where the path is compared
SEEN_M = 0.05  # less than this is no move
FAR_M = 2800.0  # from here on distances are in miles


class Kept(Block):
    """A block that no dial holds: it is set by choosing an approach, and goes along in a link."""

    kind = "hidden"


class Segment:
    """What a block says about the place of its segment.

    ltp_m, fpap_m:  in ecef_m coordinates, None where no such place exists
    """

    def __init__(self, block: bytes) -> None:
        coded = {name: value for name, _, _, _, value, _ in fields(block)}
        latitude, longitude = float(coded["ltp_latitude_deg"]), float(coded["ltp_longitude_deg"])
        self.height_m, self.gpa_deg = float(coded["ltp_height_m"]), float(coded["gpa_deg"])
        self.tch_m = float(coded["tch"]) * (1.0 if coded["tch_unit"] == "m" else M_PER_FT)
        self.ltp_m = self.fpap_m = None  # type: tuple[float, float, float] | None
        self.level = None  # type: Frame | None
        if abs(latitude) <= 90.0 and abs(longitude) <= 180.0:
            self.level = frame(latitude, longitude, self.height_m, 0.0)
            self.ltp_m = self.level.origin_m
            far = fpap_deg(
                latitude, longitude, float(coded["delta_fpap_latitude_deg"]), float(coded["delta_fpap_longitude_deg"]))
            if abs(far[0]) <= 90.0:
                self.fpap_m = ecef_m(far[0], far[1], self.height_m)

    def course_deg(self) -> "float | None":
        """From the LTP to the FPAP, true; None where they are at one place or nowhere."""
        if self.level is None or self.fpap_m is None:
            return None
        north, east, _ = components_m(self.level, self.fpap_m)
        return degrees_360(math.degrees(math.atan2(east, north))) if north or east else None

    def path_ft(self) -> float:
        """Height of the path at AT_NM, flat earth, ft above the ellipsoid."""
        rise_m = AT_NM * M_PER_NM * math.tan(math.radians(min(89.0, self.gpa_deg)))
        return (self.height_m + self.tch_m + rise_m) / M_PER_FT


def flipped(block: bytes, name: str, bit: int, mended: bool) -> bytes:
    """The block with a bit of a field turned over, and with its remainder made again if it is mended."""
    row = LAYOUT[NAMES.index(name)]
    place = row.bit + min(bit, row.bits - 1)
    changed = bytearray(block)
    changed[place // 8] ^= 1 << place % 8
    data = bytes(changed)
    return data[:FIELD_BYTES] + crc(data).to_bytes(4, "little") if mended else data


def _block(name: str, bit: float, remainder: str, block: str) -> Shown:
    before = as_bytes(block)
    after = flipped(before, name, int(bit), remainder == "made")
    row = LAYOUT[NAMES.index(name)]
    was, reads = _meaning(before, name), _meaning(after, name)
    refused = stored_remainder_hex(after) != remainder_hex(after)
    verdict = (
        "The remainder does not agree: the receiver refuses the block." if refused else
        "The remainder agrees: nothing in the block says that it was changed."
    )
    effect = _effect(Segment(before), Segment(after))
    finding = (
        f"{capitalized(row.what)}, bit {min(int(bit), row.bits - 1)} flipped: {was} becomes {reads}. {verdict} "
        f"{'Flown anyway' if refused else 'Flown'}, {effect}."
    )
    rows = []  # type: list[tuple[str, ...]]
    for field, what in _listed(name):
        rows.append((what, _meaning(before, field), _meaning(after, field)))
    rows.append(("remainder stored", stored_remainder_hex(before), stored_remainder_hex(after)))
    rows.append(("remainder computed", remainder_hex(before), remainder_hex(after)))
    brief = f"{was} becomes {reads}: {'refused' if refused else 'accepted'}"
    return Shown(_drawn(before, after, name), finding, ("field", "as it was", "as changed"), rows, brief)


def _listed(name: str) -> "list[tuple[str, str]]":
    """The fields of the table: those that place the segment, and the one that is changed."""
    places = ("ltp_latitude_deg", "ltp_longitude_deg", "ltp_height_m", "tch", "gpa_deg", "hal_m", "val_m")
    return [(row.name, row.what) for row in LAYOUT if row.name in places or row.name == name]


def _meaning(block: bytes, name: str) -> str:
    for field, _, _, raw, value, unit in fields(block):
        if field == name:
            return show_field(name, raw, value, unit)
    return ""


def _effect(before: Segment, after: Segment) -> str:
    """Where the segment goes, in words."""
    parts = []
    if before.level is None or after.ltp_m is None:
        return "the threshold would lie at no place on earth"
    north_m, east_m, _ = components_m(before.level, after.ltp_m)
    moved_m = math.sqrt(north_m * north_m + east_m * east_m)
    if moved_m > SEEN_M:
        far = quantity(moved_m / M_PER_NM, "NM", 0.1) if moved_m > M_PER_NM else quantity(moved_m / M_PER_FT, "ft", 0.1)
        towards = course(degrees_360(math.degrees(math.atan2(east_m, north_m))), 0.1)
        parts.append(f"the threshold lies {far} away, towards {towards}")
    was_deg, is_deg = before.course_deg(), after.course_deg()
    if was_deg is None or is_deg is None:
        parts.append("there is no course")
    elif abs(degrees_180(is_deg - was_deg)) >= 0.005:
        turned = beside(degrees_180(is_deg - was_deg), "deg", ("to the right", "to the left"), "", 0.01)
        parts.append(f"the course turns {turned}")
    lower_ft = after.path_ft() - before.path_ft()
    if abs(lower_ft) >= 0.5:
        parts.append(f"the glidepath is {beside(lower_ft, 'ft', ('higher', 'lower'), '')} {quantity(AT_NM, 'NM')} out")
    return ", ".join(parts) or "the segment has not moved"


def _drawn(before: bytes, after: bytes, name: str) -> Sheet:
    sheet = Sheet(HEIGHT)
    _bytes(sheet, before, after, name)
    _plan(sheet, Segment(before), Segment(after))
    return sheet


def _bytes(sheet: Sheet, before: bytes, after: bytes, name: str) -> None:
    """All forty bytes in hex: those of the field shaded, what changed in the colour of the answer."""
    row = LAYOUT[NAMES.index(name)]
    sheet.word(EDGE, 125, "bytes 0 to 39, the last four the remainder", "ink")
    for place in range(BLOCK_BYTES):
        x, y = EDGE + CELL * (place % IN_A_ROW), FIRST_ROW + ROW * (place // IN_A_ROW)
        if row.first_byte <= place <= row.last_byte or place >= FIELD_BYTES:
            sheet.path(f"M{x} {y}h{CELL - 10}v{ROW - 10}h-{CELL - 10}z", "shade", "fill")
        changed = before[place] != after[place]
        text = after[place : place + 1].hex().upper()
        sheet.word(x + CELL // 2, y + 132, text, "answer" if changed else "ink", "middle", changed)
    agrees = stored_remainder_hex(after) == remainder_hex(after)
    verdict = f"computed {remainder_hex(after)}: {'agrees' if agrees else 'does not agree'}"
    sheet.word(EDGE, FIRST_ROW + ROW * (BLOCK_BYTES // IN_A_ROW) + 130, verdict, "ink" if agrees else "stop", "", True)


def _plan(sheet: Sheet, before: Segment, after: Segment) -> None:
    """From the threshold to the FPAP, seen from above, north up: as it was, and as changed."""
    if before.level is None or before.fpap_m is None:
        return
    was = [(0.0, 0.0), _place(before.level, before.fpap_m)]
    now = [_place(before.level, point) for point in (after.ltp_m, after.fpap_m) if point is not None]
    farthest_m = max([max(abs(x), abs(y)) for x, y in was + now])
    unit, name = (M_PER_NM, "NM") if farthest_m > FAR_M else (M_PER_FT, "ft")
    was, now = [(x / unit, y / unit) for x, y in was], [(x / unit, y / unit) for x, y in now]
    x_span, y_span = _spans(was + now)
    panel = Panel(sheet, PLAN, x_span, y_span)
    panel.axes(f"east of the threshold, {name}", f"north of it, {name}")
    panel.line(was, "first", "wide")
    panel.line(now, "answer")
    for point in now[:1]:
        panel.mark(point[0], point[1], "circle", "answer")
        panel.label("changed", point[0], point[1], "answer", ("ne", "se", "nw", "sw"), True)
    panel.mark(0.0, 0.0, "square", "first")
    panel.label("as it was", was[1][0], was[1][1], "first", ("s", "n", "w", "e"))


def _place(level: Frame, point_m: "tuple[float, float, float]") -> "tuple[float, float]":
    """East and north of the threshold as it was, m."""
    north, east, _ = components_m(level, point_m)
    return east, north


def _spans(points: "list[tuple[float, float]]") -> "tuple[tuple[float, float], tuple[float, float]]":
    """What the axes span: all points, to scale."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    wide = 1.5 * max(max(xs) - min(xs), (max(ys) - min(ys)) / RATIO)
    x, y = (max(xs) + min(xs)) / 2.0, (max(ys) + min(ys)) / 2.0
    return (x - wide / 2.0, x + wide / 2.0), (y - RATIO * wide / 2.0, y + RATIO * wide / 2.0)


FIGURES = (
    Figure(
        "live-block", "a bit of the data block flipped", _block,
        inputs=(
            Choice("name", "Field", tuple([(row.name, row.what) for row in LAYOUT]), "gpa_deg"),
            Number("bit", "Bit of it, from its lowest", "", 0, 31, 1, 4),
            Choice("remainder", "Remainder", (("kept", "as it was"), ("made", "made again")), "kept"),
            Kept("block", "Data block", BLOCK_BYTES, EXAMPLE_BLOCK, "approach.block"),
        ),
        facts=("fas_crc_polynomial_hex",),
        remarks="A bit beyond the width of its field counts as its highest. The glidepath is drawn over a flat earth.",
    ),
)
