"""Every byte of the example's data block: where it stands, what it means, what it holds."""

from lpv.core.text import trimmed, with_unit
from lpv.fas.block import encode
from lpv.fas.codec import fields
from lpv.fas.layout import LAYOUT
from lpv_site.department.data import example
from lpv_site.text.shown import Shown
from lpv_site.text.table import ALL_LEFT, table
from lpv_site.text.text import escape


def show() -> Shown:
    """A row for each field."""
    block, what = encode(example().segment), {row.name: row.what for row in LAYOUT}
    rows = []
    for name, first, last, _, value, unit in fields(block):
        shown = trimmed(value, 1e-7) if isinstance(value, float) else value
        place = f"byte {first}" if first == last else f"bytes {first} to {last}"
        octets = " ".join(f"{octet:02X}" for octet in block[first : last + 1])
        means = escape(with_unit(str(shown), unit)) if shown != "" else "none"
        rows.append((f"{what.get(name, name)}<br><small>{place}</small>", f"`{octets}`", means))
    return Shown(table(["field", "as stored", "means"], rows, left=ALL_LEFT))
