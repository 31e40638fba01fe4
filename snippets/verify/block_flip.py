"""One wrong bit in the example's block: which field changes, to what, and what the remainder then says."""

from lpv.core.text import trimmed, with_unit
from lpv.fas.block import encode, error_detection, remainder_hex, stored_remainder_hex
from lpv.fas.codec import fields
from lpv.fas.layout import LAYOUT
from lpv.figures.block import flipped
from lpv_site.department.data import example
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import stacked
from lpv_site.text.text import escape

FLIPPED = (("gpa_deg", 4), ("tch", 6), ("ltp_latitude_deg", 12), ("ltp_height_m", 8), ("runway_number", 1))
ROWS = {row.name: row for row in LAYOUT}


def meaning(octets: bytes, name: str) -> str:
    """What a field of a block reads, with its unit."""
    value, unit = next(row[4:] for row in fields(octets) if row[0] == name)
    return with_unit(trimmed(value, 1e-8) if isinstance(value, float) else str(value), unit)


def show() -> Shown:
    """The lines of each flipped bit."""
    block, entries = encode(example().segment), []
    for name, bit in FLIPPED:
        wrong, row = flipped(block, name, bit, mended=False), ROWS[name]
        fails = stored_remainder_hex(wrong) != remainder_hex(wrong)
        entries.append((f"{row.what}: bit {row.bit + bit}", [
            ("was", escape(meaning(block, name))), ("would read", escape(meaning(wrong, name))),
            ("remainder stored", stored_remainder_hex(wrong)), ("remainder computed", remainder_hex(wrong)),
            ("so the block is", "refused" if fails else "accepted"),
        ]))
    return Shown(stacked(entries), values())


def values() -> dict[str, Value | str]:
    """How many wrong bits were tried and found, over every one of them."""
    detection = error_detection()
    return {
        "single": Value(detection.single_detected, "", f"{detection.single_detected:,} of {detection.single:,}"),
        "double": Value(detection.double_detected, "", f"{detection.double_detected:,} of {detection.double:,}"),
        "burst": Value(detection.burst_detected, "", f"{detection.burst_detected:,} of {detection.burst:,}"),
        "longest": Value(detection.burst_bits, "bit", str(detection.burst_bits)),
    }
