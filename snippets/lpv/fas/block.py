"""The final approach segment as the database holds it, and its data block of 40 bytes.

A thin layer of records over `lpv.fas.codec`, which holds the layout and the coding.
"""

from collections import Counter
from dataclasses import dataclass
from functools import cache

from lpv.core.errors import DataError
from lpv.core.units import M_PER_FT
from lpv.fas.codec import (
    BLOCK_BYTES,
    RemainderError,
    as_bytes,
    crc,
    field_faults,
    fpap_deg,
    on_steps,
    pack,
    remainder_hex,
    stored_remainder_hex,
)
from lpv.fas.codec import decode as _decode
from lpv.fas.codec import decode_unchecked as _decode_unchecked

__all__ = [
    "ErrorDetection", "FinalApproachSegment", "RemainderError", "crc", "decode", "decode_unchecked", "encode",
    "encoded_again_hex", "error_detection", "remainder_hex", "stored_remainder_hex",
]


@dataclass(frozen=True)
class FinalApproachSegment:
    """Every field of the block, in its order; ranges and steps are those of `lpv.fas.layout.LAYOUT`.

    Latitudes north and longitudes east are positive; the FPAP is given by its difference from the LTP.
    The height is above the WGS-84 ellipsoid.  A number written with too few decimals to hit its step
    (at most STEP_TOLERANCE beside it) becomes that step, so that what is encoded decodes to the same.
    Raises DataError with every fault, its key the field's name.
    """

    operation_type: int
    sbas_provider: int
    airport: str
    runway_number: int
    runway_letter: str
    performance_designator: int
    route_indicator: str
    reference_path_data_selector: int
    reference_path_id: str
    ltp_latitude_deg: float
    ltp_longitude_deg: float
    ltp_height_m: float
    delta_fpap_latitude_deg: float
    delta_fpap_longitude_deg: float
    tch: float
    tch_unit: str
    gpa_deg: float
    course_width_m: float
    length_offset_m: float
    hal_m: float
    val_m: float

    def __post_init__(self) -> None:
        if faults := field_faults(dict(vars(self))):
            raise DataError(faults)
        for name, stepped in on_steps(dict(vars(self))).items():
            object.__setattr__(self, name, stepped)

    def derived_fields(self) -> dict[str, object]:
        """What the phone does not work out again: the crossing height in feet, whatever its unit."""
        return {"tch_ft": self.tch_ft}

    @property
    def fpap_latitude_deg(self) -> float:
        """Latitude of the FPAP, north positive."""
        return self._fpap_deg()[0]

    @property
    def fpap_longitude_deg(self) -> float:
        """Longitude of the FPAP, east positive, -180 < longitude <= 180."""
        return self._fpap_deg()[1]

    @property
    def tch_ft(self) -> float:
        """Threshold crossing height in ft, whatever its unit in the block."""
        return self.tch if self.tch_unit == "ft" else self.tch / M_PER_FT

    @property
    def is_lp(self) -> bool:
        """Whether the segment gives lateral guidance only: a VAL of 0 says not to use vertical deviations.

        Source: ICAO Annex 10 Vol I, Attachment D, Table D-1, note 3.
        """
        return self.val_m == 0

    def _fpap_deg(self) -> tuple[float, float]:
        return fpap_deg(
            self.ltp_latitude_deg, self.ltp_longitude_deg,
            self.delta_fpap_latitude_deg, self.delta_fpap_longitude_deg,
        )


def encode(segment: FinalApproachSegment) -> bytes:
    """The block of 40 bytes, remainder included.  Source: ICAO Annex 10 Vol I, Att. D, Table D-1."""
    return pack(vars(segment))


def decode(block: bytes | bytearray | str) -> FinalApproachSegment:
    """The segment in a block of 40 bytes, or in its hex (either case; white space and colons do not count).

    Raises RemainderError if the remainder does not fit the fields, DataError for impossible values, other
    lengths, text that is no hex.
    """
    return _segment(_decode(block))


def decode_unchecked(block: bytes | bytearray | str) -> FinalApproachSegment:
    """The segment in a block whose remainder is not looked at, to explain a damaged one; never to fly by.

    Raises DataError for impossible values, other lengths, text that is no hex.
    """
    return _segment(_decode_unchecked(block))


def encoded_again_hex(block: bytes | bytearray | str) -> str:
    """The block in hex as encoding its decoded segment gives it: the same bytes, or the coding has a fault.

    Raises what `decode` raises.
    """
    return encode(decode(block)).hex().upper()


def _segment(values: dict[str, int | float | str]) -> FinalApproachSegment:
    return FinalApproachSegment(**values)  # type: ignore[arg-type]


@dataclass(frozen=True)
class ErrorDetection:
    """How many damaged forms of a block there are of each kind, and how many the remainder shows.

    single, double: one or two wrong bits; burst: any pattern of wrong bits no longer than burst_bits from
    the first to the last; odd: whether every odd number of wrong bits shows.
    """

    block_bits: int
    single: int
    single_detected: int
    double: int
    double_detected: int
    burst_bits: int
    burst: int
    burst_detected: int
    odd_detected: bool


@cache
def error_detection(burst_bits: int = 32) -> ErrorDetection:
    """Which errors in a block its remainder shows, by computation over every one of them.

    The remainder is linear: what a set of wrong bits does to (stored XOR computed) is the XOR of what each
    does alone, its syndrome.  An error goes unseen only if its syndromes cancel.
    """
    syndromes = [_syndrome(bit) for bit in range(8 * BLOCK_BYTES)]
    alike = Counter(syndromes).values()
    bits = len(syndromes)
    followers = [syndromes[bit + 1 : bit + burst_bits] for bit in range(bits)]
    bursts = sum(2 ** len(following) for following in followers)
    unseen = sum(map(_cancelling, syndromes, followers))
    pairs = bits * (bits - 1) // 2
    return ErrorDetection(
        block_bits=bits, single=bits, single_detected=bits - syndromes.count(0),
        double=pairs, double_detected=pairs - sum(n * (n - 1) // 2 for n in alike),
        burst_bits=burst_bits, burst=bursts, burst_detected=bursts - unseen,
        odd_detected=_odd_numbers_never_cancel(syndromes),
    )


def _syndrome(bit: int) -> int:
    block = (1 << bit).to_bytes(BLOCK_BYTES, "little")
    return crc(block) ^ int.from_bytes(as_bytes(stored_remainder_hex(block)), "little")


def _cancelling(target: int, vectors: list[int]) -> int:
    """How many subsets of the vectors have the XOR `target` (Gaussian elimination over two elements)."""
    basis: list[int] = []
    for vector in vectors:
        if remainder := _reduced(vector, basis):
            basis.append(remainder)
    return 0 if _reduced(target, basis) else 2 ** (len(vectors) - len(basis))


def _reduced(vector: int, basis: list[int]) -> int:
    for known in basis:
        vector = min(vector, vector ^ known)
    return vector


def _odd_numbers_never_cancel(syndromes: list[int]) -> bool:
    above = 1 << 32  # one more bit, which only an odd number of syndromes leaves set
    return _cancelling(above, [syndrome | above for syndrome in syndromes]) == 0
