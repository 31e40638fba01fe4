"""The segment as a record, and the proof of what its remainder shows."""

from dataclasses import FrozenInstanceError, fields, replace
from itertools import combinations
from random import Random

import anycrc
import pytest

from lpv.core.errors import DataError
from lpv.fas import block
from lpv.fas.block import (
    ErrorDetection,
    FinalApproachSegment,
    RemainderError,
    crc,
    decode,
    decode_unchecked,
    encode,
    encoded_again_hex,
    error_detection,
    remainder_hex,
    stored_remainder_hex,
)
from lpv.fas.codec import LAYOUT

# The fictional EGNOS block published with its remainder.
EGNOS = "10181806050C00000132310538AD181B2C59E4098216B057FD405100F4015E016400C8FA4D87B43E"
SEGMENT = decode(EGNOS)
BITS = 320
reference_crc = anycrc.CRC(32, 0x814141AB, 0, True, True, 0)


def unseen(error: int) -> bool:
    """Whether an error in a real block leaves its remainder fitting, by another library."""
    block = (int.from_bytes(bytes.fromhex(EGNOS), "little") ^ error).to_bytes(40, "little")
    return reference_crc.calc(block[:36]).to_bytes(4, "little") == block[36:]


def test_fields_in_block_order():
    assert [field.name for field in fields(FinalApproachSegment)] == [row.name for row in LAYOUT]


def test_round_trip():
    assert encode(SEGMENT) == bytes.fromhex(EGNOS)
    assert encoded_again_hex(EGNOS.lower()) == EGNOS
    assert decode_unchecked(EGNOS) == SEGMENT
    assert remainder_hex(EGNOS) == stored_remainder_hex(EGNOS) == crc(EGNOS).to_bytes(4, "little").hex().upper()


def test_derived_values():
    assert SEGMENT.fpap_latitude_deg == pytest.approx(63.139172222 - 0.024188889, abs=1e-9)
    assert SEGMENT.fpap_longitude_deg == pytest.approx(23.049997222 + 0.002888889, abs=1e-9)
    assert SEGMENT.tch_ft == 50
    assert replace(SEGMENT, tch=15.25, tch_unit="m").tch_ft == pytest.approx(15.25 / 0.3048)
    assert not SEGMENT.is_lp
    assert replace(SEGMENT, val_m=0).is_lp


def test_fpap_across_date_line():
    segment = replace(SEGMENT, ltp_longitude_deg=179.9995, delta_fpap_longitude_deg=0.001)
    assert segment.fpap_longitude_deg == -179.9995


def test_segment_validated_and_immutable():
    with pytest.raises(DataError) as caught:
        replace(SEGMENT, gpa_deg=91, hal_m=40.1, runway_letter="X", sbas_provider=1.0)
    assert [fault.key for fault in caught.value.faults] == ["sbas_provider", "runway_letter", "gpa_deg", "hal_m"]
    with pytest.raises(FrozenInstanceError):
        SEGMENT.gpa_deg = 3.0


def test_nine_decimal_degrees_match_step():
    assert replace(SEGMENT, ltp_latitude_deg=63.139172222) == SEGMENT


def test_damaged_block():
    damaged = "11" + EGNOS[2:]
    with pytest.raises(RemainderError, match="4D87B43E stored"):
        decode(damaged)
    assert decode_unchecked(damaged) == replace(SEGMENT, operation_type=1)


def test_published_remainder_properties_hold():
    detection = error_detection()
    assert isinstance(detection, ErrorDetection)
    assert (detection.block_bits, detection.single, detection.burst_bits) == (BITS, BITS, 32)
    assert detection.double == BITS * (BITS - 1) // 2
    assert (detection.single_detected, detection.double_detected) == (detection.single, detection.double)
    assert detection.burst_detected == detection.burst == 289 * 2**31 + 2**31 - 1
    assert detection.odd_detected


def test_cancelling_errors_counted(monkeypatch):
    """With a remainder in which every 80th bit does the same, two of four bits cancel: 80 times 6 pairs."""
    monkeypatch.setattr(block, "_syndrome", lambda bit: 1 << bit % 80)
    counts = error_detection.__wrapped__(6)
    assert counts.double - counts.double_detected == 80 * 6
    assert counts.single_detected == counts.single
    monkeypatch.setattr(block, "_syndrome", lambda bit: bit)  # the first bit changes nothing
    assert error_detection.__wrapped__(6).single_detected == counts.single - 1


def test_single_and_double_errors_match_other_library():
    assert not any(unseen(1 << bit) for bit in range(BITS))
    assert not any(unseen(1 << first | 1 << second) for first, second in combinations(range(BITS), 2))


def test_short_bursts_match_other_library():
    detection = error_detection(6)
    bursts = {
        pattern << start for start in range(BITS) for pattern in range(1, 2**6, 2) if (pattern << start) < 1 << BITS
    }
    assert detection.burst == detection.burst_detected == len(bursts)
    assert not any(map(unseen, bursts))


def test_random_long_bursts_match_other_library():
    random = Random(1)
    for _ in range(2000):
        assert not unseen((random.getrandbits(32) | 1) << random.randrange(BITS - 31))


def test_shortest_undetected_burst_is_polynomial():
    detection = error_detection(33)
    assert detection.burst - detection.burst_detected == BITS - 32
    # Lowest bit first, the highest term of the polynomial comes first.
    polynomial = int(f"{1 << 32 | 0x814141AB:033b}"[::-1], 2)
    assert all(unseen(polynomial << start) for start in range(BITS - 32))


def test_random_odd_errors_match_other_library():
    random = Random(2)
    for _ in range(1000):
        bits = random.sample(range(BITS), random.randrange(3, 100, 2))
        assert not unseen(sum(1 << bit for bit in bits))
