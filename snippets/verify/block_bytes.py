"""Every byte of the example's data block: where it stands, what it means, what it holds."""

from lpv.fas_block import encode
from lpv.fas_codec import fields
from lpv.fas_layout import LAYOUT
from render.data import example
from render.table import table
from render.text import escape

block = encode(example().segment)
what = {row.name: row.what for row in LAYOUT}
rows = []
for name, first, last, _, value, unit in fields(block):
    shown = f"{value:.10g}" if isinstance(value, float) else value
    place = f"{first}" if first == last else f"{first} to {last}"
    octets = " ".join(f"{octet:02X}" for octet in block[first : last + 1])
    rows.append((f"{what.get(name, name)}", place, f"`{octets}`", f"{escape(shown)} {unit}".strip()))

print(table(["field", "bytes", "as stored", "means"], rows, left=4))
