"""The FAS data block, written, read and explained on plain values.

Seen as one number with the lowest byte first, the block holds each field of `lpv.fas.layout` just
above the one before; the characters of an identifier therefore stand in reverse order, each as the
low 6 bits of its ASCII code.

Source: ICAO Annex 10 Vol I, Attachment D, Table D-1.  Runs in the browser too.
"""

from lpv.core.errors import DataError
from lpv.fas.layout import CAPITALS, LAYOUT, NAMES, STEPS_PER_DEG, Row, field_faults, nearest, on_steps, rows
from lpv.fas.remainder import (
    BLOCK_BYTES,
    FIELD_BYTES,
    RemainderError,
    as_bytes,
    crc,
    crc_reflected,
    crc_unreflected,
    remainder_hex,
    sized,
    stored_remainder_hex,
)

__all__ = [
    "BLOCK_BYTES", "FIELD_BYTES", "LAYOUT", "NAMES", "RemainderError", "as_bytes", "crc", "crc_reflected",
    "crc_unreflected", "decode", "decode_unchecked", "encode", "field_faults", "fields", "fpap_deg", "nearest",
    "on_steps", "pack", "remainder_hex", "stored_remainder_hex",
]


def encode(values: "dict[str, int | float | str]") -> bytes:
    """The block of 40 bytes, remainder included, for the fields of a segment by name.

    Raises DataError with every fault of every field.
    """
    faults = field_faults(dict(values))
    if faults:
        raise DataError(faults)
    return pack(values)


def pack(values: "dict[str, int | float | str]") -> bytes:
    """`encode` for fields already known to be without fault."""
    number = 0
    for row in rows(values["tch_unit"]):
        number |= (_raw(row, values[row.name]) & (1 << row.bits) - 1) << row.bit
    block = number.to_bytes(FIELD_BYTES, "little")
    return block + crc(block).to_bytes(4, "little")


def decode(block: "bytes | bytearray | str") -> "dict[str, int | float | str]":
    """The fields of a block of 40 bytes (or its hex) by name.

    Raises RemainderError if the remainder does not fit, DataError for impossible values, other lengths,
    text that is no hex.
    """
    stored, computed = stored_remainder_hex(block), remainder_hex(block)
    values = _values(sized(block, BLOCK_BYTES))
    faults = field_faults(dict(values))
    if stored != computed:
        raise RemainderError(stored, computed, faults)
    if faults:
        raise DataError(faults)
    return values


def decode_unchecked(block: "bytes | bytearray | str") -> "dict[str, int | float | str]":
    """The fields of a block whose remainder is not looked at, to explain a damaged one; never to fly by.

    Raises DataError for impossible values, other lengths, text that is no hex.  `fields` shows those too.
    """
    values = _values(sized(block, BLOCK_BYTES))
    faults = field_faults(dict(values))
    if faults:
        raise DataError(faults)
    return values


def fields(block: "bytes | bytearray | str") -> "list[tuple[str, int, int, int, int | float | str, str]]":
    """Every field as it stands: (name, first byte, last byte, raw number, value, unit), remainder last.

    Bytes count from 0.  Takes any 36 or 40 bytes, also damaged ones: a value beyond its range is shown
    as it is, an impossible character or letter as "?".  A block of 36 bytes has no remainder to show.
    """
    data = sized(block, FIELD_BYTES, BLOCK_BYTES)
    decoded = [
        (row.name, row.first_byte, row.last_byte, raw, _value(row, raw), row.unit) for row, raw in _read(data)
    ]
    if len(data) == BLOCK_BYTES:
        raw = int.from_bytes(data[FIELD_BYTES:], "little")
        decoded.append(("remainder", FIELD_BYTES, BLOCK_BYTES - 1, raw, stored_remainder_hex(data), ""))
    return decoded


def fpap_deg(
    ltp_latitude_deg: float, ltp_longitude_deg: float, delta_latitude_deg: float, delta_longitude_deg: float
) -> "tuple[float, float]":
    """Latitude and longitude of the FPAP in degrees, -180 < longitude <= 180, on the steps of the block."""
    latitude = round((ltp_latitude_deg + delta_latitude_deg) * STEPS_PER_DEG)
    longitude = round((ltp_longitude_deg + delta_longitude_deg) * STEPS_PER_DEG)
    return latitude / STEPS_PER_DEG, wrapped_steps(longitude) / STEPS_PER_DEG


def wrapped_steps(longitude_steps: int) -> int:
    """A longitude, or a difference of two, in steps of the block, brought into -180 < longitude <= 180 deg."""
    half_turn = 180 * STEPS_PER_DEG
    return half_turn - (half_turn - longitude_steps) % (2 * half_turn)


def _read(block: bytes) -> "list[tuple[Row, int]]":
    number = int.from_bytes(block[:FIELD_BYTES], "little")
    unit = LAYOUT[NAMES.index("tch_unit")]
    return [(row, _field(row, number)) for row in rows(unit.letters[_field(unit, number)])]


def _field(row: Row, number: int) -> int:
    raw = number >> row.bit & (1 << row.bits) - 1
    negative = row.kind == "signed" and raw >> row.bits - 1
    return raw - (1 << row.bits) if negative else raw


def _values(block: bytes) -> "dict[str, int | float | str]":
    return {row.name: _value(row, raw) for row, raw in _read(block)}


def _value(row: Row, raw: int) -> "int | float | str":
    if row.kind == "letter":
        return row.letters[raw] if raw < len(row.letters) else "?"
    if row.kind == "text":
        return "".join([_character(raw >> shift & 0xFF) for shift in (24, 16, 8, 0)]).rstrip(" ")
    return raw if row.kind == "whole" else (raw + row.origin) / row.per_unit


def _raw(row: Row, value: "int | float | str") -> int:
    if row.kind == "letter":
        return row.letters.index(str(value))
    if row.kind == "text":
        raw = 0
        for character in (str(value) + "   ")[:4]:
            raw = raw << 8 | ord(character) & 0x3F
        return raw
    return round(float(value) * row.per_unit) - row.origin


def _character(code: int) -> str:
    if 1 <= code <= len(CAPITALS):
        return CAPITALS[code - 1]
    return chr(code) if code == ord(" ") or ord("0") <= code <= ord("9") else "?"
