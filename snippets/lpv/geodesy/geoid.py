"""Height of the geoid above the WGS-84 ellipsoid, by EGM96.

A height above mean sea level plus this is a height above the ellipsoid, which is what a data block holds.

The grid is `egm96.grid` beside this file: heights at every quarter of a degree, rounded to a tenth of a metre
(0.05 m at most), 721 rows from the south pole to the north pole, each from 180° west eastward.  It was made by
`tests/make_geoid_grid.py` from `egm96_15.gtx`, a file of the National Geospatial-Intelligence Agency in the public
domain.  Between grid points the height is interpolated bilinearly.  `SHA256` and `SOURCE_SHA256` are the checksums of
both files; a test compares the first.

    4 bytes            the letters EGM1
    722 numbers        where each row begins and the last one ends, counted from the start of the rows
                       (unsigned, 4 bytes, lowest first)
    each row, by zlib  1440 low bytes, then 1440 high bytes, of the difference from the point to the west
                       (signed, 2 bytes, tenths of a metre; the first point counts from 0)
"""

import array
import itertools
import struct
import sys
import zlib
from functools import cache, lru_cache
from pathlib import Path

from lpv.core.errors import in_range
from lpv.core.units import degrees_360
from lpv.facts import value

FILE = Path(__file__).with_name("egm96.grid")
MAGIC = b"EGM1"
ROWS, COLUMNS = 721, 1440
POINTS_PER_DEG = round(1.0 / value("geoid_step_deg"))
STEPS_PER_M = 10
SHA256 = "8acfe8150776d85a01e90280938ef4a8ac690bb08d36428e79c458ffd202ba60"
SOURCE_SHA256 = "c02a6eb70a7a78efebe5adf3ade626eb75390e170bb8b3f36136a2c28f5326a0"


def geoid_height_m(latitude_deg: float, longitude_deg: float) -> float:
    """Height (m) of the geoid above the WGS-84 ellipsoid at a position, negative where it lies below.

    Domain: latitude -90 to 90 deg, longitude -360 to 360 deg; DomainError outside.
    Source: EGM96, 15-minute grid, NGA; interpolated bilinearly.
    """
    south = (in_range("latitude", latitude_deg, -90.0, 90.0, "deg") + 90.0) * POINTS_PER_DEG
    east = degrees_360(in_range("longitude", longitude_deg, -360.0, 360.0, "deg") + 180.0) * POINTS_PER_DEG
    row, column = min(int(south), ROWS - 2), int(east)
    north_part, east_part = south - row, east - column
    below, above = (_between(_row(number), column, east_part) for number in (row, row + 1))
    return (below + (above - below) * north_part) / STEPS_PER_M


def _between(heights: "array.array[int]", column: int, east_part: float) -> float:
    west, east = heights[column], heights[(column + 1) % COLUMNS]
    return west + (east - west) * east_part


@cache
def _grid() -> tuple[tuple[int, ...], bytes]:
    """Where the rows begin and end, and the rows."""
    data = FILE.read_bytes()
    start = len(MAGIC) + 4 * (ROWS + 1)
    return struct.unpack(f"<{ROWS + 1}I", data[len(MAGIC):start]), data[start:]


@lru_cache(maxsize=64)
def _row(number: int) -> "array.array[int]":
    """Heights of one row in tenths of a metre."""
    ends, rows = _grid()
    packed = zlib.decompress(rows[ends[number]:ends[number + 1]])
    pairs = bytearray(2 * COLUMNS)
    pairs[0::2], pairs[1::2] = packed[:COLUMNS], packed[COLUMNS:]
    differences = array.array("h", bytes(pairs))
    if sys.byteorder == "big":
        differences.byteswap()
    return array.array("h", itertools.accumulate(differences))
