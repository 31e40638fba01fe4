"""The data block on plain values: layout, coding, remainder, explanation, and what is refused."""

import math
import timeit

import anycrc
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from lpv.core.errors import DataError, DomainError
from lpv.fas.codec import (
    BLOCK_BYTES,
    FIELD_BYTES,
    LAYOUT,
    NAMES,
    RemainderError,
    as_bytes,
    crc,
    crc_reflected,
    crc_unreflected,
    decode,
    decode_unchecked,
    encode,
    field_faults,
    fields,
    fpap_deg,
    nearest,
    on_steps,
    pack,
    remainder_hex,
    stored_remainder_hex,
    wrapped_steps,
)
from lpv.fas.layout import TCH_IN_M, rows
from lpv.fas.remainder import POLYNOMIAL, sized

# The fictional EGNOS block published with its remainder.
EGNOS = "10181806050C00000132310538AD181B2C59E4098216B057FD405100F4015E016400C8FA4D87B43E"
GOOD = decode(EGNOS)
reference_crc = anycrc.CRC(32, 0x814141AB, 0, True, True, 0)


def values_of(row):
    if row.kind == "text":
        return st.text("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789", min_size=1, max_size=4)
    if row.kind == "letter":
        return st.sampled_from(row.letters)
    steps = st.integers(round(row.low * row.per_unit), round(row.high * row.per_unit))
    return steps if row.kind == "whole" else steps.map(lambda count: count / row.per_unit)


SEGMENTS = st.sampled_from(["ft", "m"]).flatmap(
    lambda unit: st.fixed_dictionaries({row.name: values_of(row) for row in rows(unit)} | {"tch_unit": st.just(unit)})
)


@given(SEGMENTS)
@settings(max_examples=150)
def test_every_field_value_survives_coding(values):
    assume(abs(values["ltp_latitude_deg"] + values["delta_fpap_latitude_deg"]) <= 90)
    block = encode(values)
    assert len(block) == BLOCK_BYTES
    assert decode(block) == values
    assert block[FIELD_BYTES:] == reference_crc.calc(block[:FIELD_BYTES]).to_bytes(4, "little")


@pytest.mark.parametrize("row", [*LAYOUT, TCH_IN_M], ids=lambda row: f"{row.name}-{row.unit}")
def test_range_ends(row):
    base = GOOD | {"delta_fpap_latitude_deg": 0.0, "ltp_latitude_deg": 0.0}
    if row is TCH_IN_M:
        base["tch_unit"] = "m"
    if row.kind in ("text", "letter"):
        ends = ("A", "Z9Z9") if row.kind == "text" else (row.letters[0], row.letters[-1])
        beyond = ("", "ABCDE", "ab", "A B", "Ä", " ") if row.kind == "text" else ("?", "a")
    else:
        step = 1 / row.per_unit
        ends = (row.low, row.high)
        beyond = (row.low - step, row.high + step, math.inf, -math.inf, math.nan, "1", None, True)
    for end in ends:
        values = base | {row.name: end}
        assert decode(encode(values)) == values
    for value in beyond:
        values = base | {row.name: value}
        with pytest.raises(DataError) as caught:
            encode(values)
        assert [fault.key for fault in caught.value.faults] == [row.name]


def test_layout_fills_36_bytes_as_published():
    bytes_of = {row.name: (row.first_byte, row.last_byte) for row in LAYOUT}
    assert sum(row.bits for row in LAYOUT) == 8 * FIELD_BYTES
    assert bytes_of["operation_type"] == bytes_of["sbas_provider"] == (0, 0)
    assert bytes_of["airport"] == (1, 4)
    assert bytes_of["ltp_longitude_deg"] == (16, 19)
    assert bytes_of["delta_fpap_longitude_deg"] == (25, 27)
    assert bytes_of["tch"] == (28, 29)
    assert bytes_of["tch_unit"] == (29, 29)
    assert bytes_of["val_m"] == (35, 35)


def test_several_faults_reported_together():
    values = GOOD | {"ltp_latitude_deg": 91.0, "gpa_deg": 3.005, "airport": "efxx", "mood": 1}
    del values["hal_m"]
    faults = {fault.key: fault for fault in field_faults(values)}
    assert sorted(faults) == ["airport", "gpa_deg", "hal_m", "ltp_latitude_deg", "mood"]
    assert len(field_faults(values)) == 5
    assert "-90.0 to 90.0 deg in steps of 0.0005 arc second" in str(faults["ltp_latitude_deg"])
    assert "nearest step is 3.0" in faults["gpa_deg"].action
    with pytest.raises(DataError):
        encode(values)


def test_wrong_unit_does_not_blame_height():
    assert [fault.key for fault in field_faults(GOOD | {"tch_unit": "yd", "tch": 15.25})] == ["tch_unit"]
    assert [fault.key for fault in field_faults(GOOD | {"tch": 15.25})] == ["tch"]
    assert field_faults(GOOD | {"tch_unit": "m", "tch": 15.25}) == []


def test_fpap_beyond_pole_is_fault():
    values = GOOD | {"ltp_latitude_deg": 89.5, "delta_fpap_latitude_deg": 0.75}
    assert [fault.key for fault in field_faults(values)] == ["delta_fpap_latitude_deg"]


def test_nine_decimal_degrees_name_step():
    values = GOOD | {"ltp_latitude_deg": 63.139172222}
    assert pack(values) == as_bytes(EGNOS)
    assert on_steps(values)["ltp_latitude_deg"] == GOOD["ltp_latitude_deg"]


def test_nearest_step():
    assert nearest("course_width_m", 106.68) == 106.75
    assert nearest("length_offset_m", 1230) == 1232
    assert nearest("tch", 15.24, "m") == 15.25
    assert nearest("ltp_height_m", -17.23) == -17.2
    with pytest.raises(DomainError):
        nearest("gpa_deg", 91)
    with pytest.raises(DomainError):
        nearest("gpa_deg", math.nan)
    for name in ("airport", "runway_number", "height"):
        with pytest.raises(KeyError):
            nearest(name, 1)


def test_fpap_across_date_line():
    assert fpap_deg(10.0, 179.75, 0.25, 0.5) == (10.25, -179.75)
    assert fpap_deg(10.0, -179.75, 0.0, -0.5) == (10.0, 179.75)
    assert fpap_deg(0.0, -180.0, 0.0, 0.0) == (0.0, 180.0)
    assert wrapped_steps(180 * 7200000) == 180 * 7200000
    assert wrapped_steps(-180 * 7200000) == 180 * 7200000
    assert wrapped_steps(-1) == -1


def test_hex_in_any_format():
    spaced = " ".join(EGNOS[i : i + 2] for i in range(0, 80, 2))
    for text in (EGNOS.lower(), spaced, spaced.replace(" ", ":"), spaced.replace(" ", "\r\n\t") + "\n"):
        assert decode(text) == GOOD
    assert decode(bytes.fromhex(EGNOS)) == decode(bytearray.fromhex(EGNOS)) == GOOD


@pytest.mark.parametrize(("block", "words"), [
    ("", "0 bytes"), (EGNOS[:78], "39 bytes"), (EGNOS + "00", "41 bytes"), (EGNOS[:72], "36 bytes"),
    (EGNOS[:79], "79 hex digits"), ("0x" + EGNOS, "'x'"), (EGNOS[:-1] + "G", "'G'"), (EGNOS[:-1] + "٣", "'٣'"),
    (None, "None"), (12, "12"), ("z" * 10_000_000, "'z'"),
])
def test_refused_blocks(block, words):
    for function in (decode, decode_unchecked):
        with pytest.raises(DataError) as caught:
            function(block)
        assert words in str(caught.value)
        assert len(str(caught.value)) < 300


def test_lengths():
    assert crc(EGNOS) == crc(EGNOS[:72]) == int.from_bytes(bytes.fromhex("4D87B43E"), "little")
    assert sized(EGNOS, 40) == as_bytes(EGNOS)
    with pytest.raises(DataError, match="allowed: 36 or 40 bytes"):
        crc(EGNOS[:70])
    with pytest.raises(DataError, match="allowed: 40 bytes"):
        stored_remainder_hex(EGNOS[:72])


def test_wrong_remainder_has_own_error_naming_both():
    damaged = EGNOS[:-8] + "DEADBEEF"
    with pytest.raises(RemainderError) as caught:
        decode(damaged)
    assert (caught.value.stored, caught.value.computed) == ("DEADBEEF", "4D87B43E")
    assert "DEADBEEF stored, 4D87B43E computed" in str(caught.value)
    assert [fault.key for fault in caught.value.faults] == ["remainder"]
    assert decode_unchecked(damaged) == GOOD
    assert remainder_hex(damaged) == "4D87B43E"


def test_damage_with_impossible_values_lists_them():
    damaged = EGNOS[:14] + "31" + EGNOS[16:]  # selector 49
    with pytest.raises(RemainderError) as caught:
        decode(damaged)
    assert [fault.key for fault in caught.value.faults] == ["remainder", "reference_path_data_selector"]
    with pytest.raises(DataError) as caught:
        decode_unchecked(damaged)
    assert not isinstance(caught.value, RemainderError)


def test_all_zero_block_refused_despite_fitting_remainder():
    zeros = bytes(40)
    assert remainder_hex(zeros) == stored_remainder_hex(zeros) == "00000000"
    with pytest.raises(DataError) as caught:
        decode(zeros)
    assert not isinstance(caught.value, RemainderError)
    assert {fault.key for fault in caught.value.faults} == {"airport", "reference_path_id"}


@pytest.mark.parametrize("bit", range(320))
def test_every_flipped_bit_detected_and_explained(bit):
    block = bytearray.fromhex(EGNOS)
    block[bit // 8] ^= 1 << bit % 8
    with pytest.raises(RemainderError):
        decode(block)
    changed = [row for row, good in zip(fields(block), fields(EGNOS), strict=True) if row[3] != good[3]]
    assert len(changed) == 1
    _, first_byte, last_byte, *_ = changed[0]
    assert first_byte <= bit // 8 <= last_byte


def test_fields_in_order_with_raw_numbers_and_values():
    shown = fields(EGNOS)
    assert [row[0] for row in shown] == [*NAMES, "remainder"]
    assert shown[2] == ("airport", 1, 4, 0x05061818, "EFXX", "")
    assert shown[12] == ("delta_fpap_latitude_deg", 22, 24, -174160, -174160 / 7200000, "deg")
    assert shown[14] == ("tch", 28, 29, 500, 50.0, "ft")
    assert shown[-1] == ("remainder", 36, 39, 0x3EB4874D, "4D87B43E", "")
    assert fields(EGNOS[:72]) == shown[:-1]


def test_fields_show_impossible_values_unchanged():
    shown = {row[0]: row[4:] for row in fields(b"\xff" * 40)}
    assert shown["airport"] == ("????", "")
    assert shown["route_indicator"] == ("?", "")
    assert shown["tch"] == (1638.35, "m")
    assert shown["val_m"] == (51.0, "m")


@given(st.binary(max_size=80))
@settings(max_examples=100)
def test_remainder_matches_independent_library(data):
    assert crc_reflected(data) == reference_crc.calc(data)
    assert crc_unreflected(data) == anycrc.Model("CRC32-AIXM").calc(data)


def test_polynomial_matches_catalogue():
    assert anycrc.models["CRC32-AIXM"].poly == POLYNOMIAL


@given(st.one_of(st.text(max_size=100), st.binary(max_size=60), st.text("0123456789abcdefABCDEF :\n", max_size=100)))
@settings(max_examples=200)
def test_random_input_raises_only_data_error(block):
    for function in (decode, decode_unchecked, fields, crc):
        try:
            function(block)
        except DataError as error:
            assert error.faults  # noqa: PT017 (not raising is good too)


@given(st.binary(min_size=36, max_size=36))
@settings(max_examples=100)
def test_random_block_round_trips_or_refused(data):
    block = data + crc(data).to_bytes(4, "little")
    assert len(fields(block)) == len(LAYOUT) + 1
    try:
        values = decode(block)
    except DataError:
        return
    assert encode(values) == block


def test_encoding_faster_than_tenth_millisecond():
    assert min(timeit.repeat(lambda: pack(GOOD), number=100, repeat=5)) / 100 < 100e-6
