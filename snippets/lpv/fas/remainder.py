"""The remainder that closes a FAS data block, and a block's bytes as bytes or as hex text.

Source: ICAO Annex 10 Vol I, Attachment D, Table D-1.  Runs in the browser too.
"""

from lpv.core.errors import DataError, Fault, shown
from lpv.facts import fact

NAME = "FAS data block"
BLOCK_BYTES = 40
FIELD_BYTES = 36
HEX_DIGITS = "0123456789abcdefABCDEF"


class RemainderError(DataError):
    """The stored remainder is not the one that the fields give (.stored and .computed, both hex).

    .faults holds that first, then every field whose value is impossible.
    """

    def __init__(self, stored: str, computed: str, more: "list[Fault]") -> None:
        faults = [Fault(
            NAME, "remainder", f"{stored} stored, {computed} computed from the fields", "the same twice",
            "The block is damaged or altered: do not use it, and get it again from its source.",
        )]
        faults += more
        super().__init__(faults)
        self.stored = stored
        self.computed = computed


def as_bytes(data: "bytes | bytearray | str") -> bytes:
    """Bytes as they are, or from hex text of either case with white space and colons in it.

    Raises DataError for other characters, an odd number of digits, another type.
    """
    if isinstance(data, (bytes, bytearray)):
        return bytes(data)
    if not isinstance(data, str):
        raise DataError([Fault(NAME, "", shown(data), "bytes, or text in hex", "Give the block itself.")])
    digits = "".join("".join(data.split()).split(":"))
    for character in digits:
        if character not in HEX_DIGITS:
            raise DataError([Fault(NAME, "hex", shown(character), "0 to 9 and A to F", "Copy the block again.")])
    if len(digits) % 2:
        length = f"{len(digits)} hex digits"
        raise DataError([Fault(NAME, "hex", length, "two for each byte", "Copy the block again, whole.")])
    return bytes([int(digits[i : i + 2], 16) for i in range(0, len(digits), 2)])


def sized(data: "bytes | bytearray | str", *sizes: int) -> bytes:
    """The bytes of `data` if their number is one of `sizes`, else DataError."""
    block = as_bytes(data)
    if len(block) not in sizes:
        allowed = " or ".join([str(size) for size in sizes]) + " bytes"
        raise DataError([Fault(NAME, "length", f"{len(block)} bytes", allowed, "Copy the block again, whole.")])
    return block


def _mirrored(value: int, bits: int) -> int:
    return int("".join([str(value >> i & 1) for i in range(bits)]), 2)


def _table_entry(byte: int, mirrored_polynomial: int) -> int:
    for _ in range(8):
        byte = byte >> 1 ^ (mirrored_polynomial if byte & 1 else 0)
    return byte


POLYNOMIAL = int(str(fact("fas_crc_polynomial_hex").value), 16)
_MIRRORED = _mirrored(POLYNOMIAL, 32)
_TABLE = tuple([_table_entry(byte, _MIRRORED) for byte in range(256)])


def crc_reflected(data: "bytes | bytearray | str") -> int:
    """The 32-bit remainder with the lowest bit of each byte first; initial value 0, no final XOR.

    Source: ICAO Annex 10 Vol I, Attachment D, Table D-1, for the 32 bits; the polynomial is proven by published
    remainders.
    """
    register = 0
    table = _TABLE
    for byte in as_bytes(data):
        register = register >> 8 ^ table[(register ^ byte) & 0xFF]
    return register


def crc_unreflected(data: "bytes | bytearray | str") -> int:
    """The same remainder with the highest bit first, the form whose check value is catalogued.

    It is the mirror image of `crc_reflected` over mirrored bytes, so that both are one computation.
    Source: Catalogue of parametrised CRC algorithms, CRC-32/AIXM.
    """
    return _mirrored(crc_reflected(bytes([_mirrored(byte, 8) for byte in as_bytes(data)])), 32)


def crc(block: "bytes | bytearray | str") -> int:
    """Remainder of the first 36 bytes of a block of 36 or 40 bytes; DataError for any other length."""
    return crc_reflected(sized(block, FIELD_BYTES, BLOCK_BYTES)[:FIELD_BYTES])


def remainder_hex(block: "bytes | bytearray | str") -> str:
    """The computed remainder as it is printed: its four bytes in the order of the block, in hex.

    Takes 36 or 40 bytes; DataError for any other length.
    """
    return crc(block).to_bytes(4, "little").hex().upper()


def stored_remainder_hex(block: "bytes | bytearray | str") -> str:
    """The remainder that a block of 40 bytes carries, in the same form; DataError for any other length."""
    return sized(block, BLOCK_BYTES)[FIELD_BYTES:].hex().upper()
