"""Makes the compact grid of `lpv.geodesy.geoid` from EGM96 as published.

    python tests/make_geoid_grid.py egm96_15.gtx

reads the NGA's grid of 15 minutes in the GTX format (big-endian: south-west corner and steps as four doubles, rows
and columns as two integers, then the heights as floats, row by row from the south), checks its checksum, and writes
`snippets/lpv/geodesy/egm96.grid`.  The layout of that file stands in the module.
"""

import array
import hashlib
import struct
import sys
import zlib
from pathlib import Path

from lpv.geodesy import geoid

HEADER = ">4d2i"


def grid(source):
    """The compact grid as bytes, from the published one."""
    start = struct.calcsize(HEADER)
    south, west, d_south, d_west, rows, columns = struct.unpack(HEADER, source[:start])
    assert (south, west, d_south, d_west, rows, columns) == (-90, -180, 0.25, 0.25, geoid.ROWS, geoid.COLUMNS)
    heights = array.array("f", source[start:])
    if sys.byteorder == "little":
        heights.byteswap()
    packed = [row(heights[number * columns : (number + 1) * columns]) for number in range(rows)]
    ends = [0]
    for part in packed:
        ends.append(ends[-1] + len(part))
    return geoid.MAGIC + struct.pack(f"<{rows + 1}I", *ends) + b"".join(packed)


def row(heights_m):
    """One row: the differences of neighbours in steps, low bytes before high bytes, compressed."""
    steps = [round(height_m * geoid.STEPS_PER_M) for height_m in heights_m]
    differences = [after - before for before, after in zip([0, *steps], steps, strict=False)]
    return zlib.compress(bytes(d & 255 for d in differences) + bytes(d >> 8 & 255 for d in differences), 9)


def main(path):
    """Write the compact grid, and print its checksum for the module."""
    source = Path(path).read_bytes()
    if (digest := hashlib.sha256(source).hexdigest()) != geoid.SOURCE_SHA256:
        raise SystemExit(f"{path}: found SHA-256 {digest}; allowed: {geoid.SOURCE_SHA256}, the published grid.")
    made = grid(source)
    geoid.FILE.write_bytes(made)
    print(f"{geoid.FILE}: {len(made)} bytes, SHA-256 {hashlib.sha256(made).hexdigest()}")


if __name__ == "__main__":
    main(sys.argv[1])
