"""Calculators for verifying: path against distance, course and variation, identity, data block."""

from lpv.calculators.block import show_field, stored_hex
from lpv.calculators.final import ANGLE, CROSSING, DISTANCE, THRESHOLD
from lpv.core.course import course_difference_deg, cross_track, magnetic_deg
from lpv.core.errors import DomainError
from lpv.core.text import course_digits, quantity
from lpv.core.units import FT_PER_NM
from lpv.facts import value
from lpv.fas import identity
from lpv.fas.codec import fields
from lpv.fas.layout import LAYOUT
from lpv.fas.remainder import BLOCK_BYTES, remainder_hex, stored_remainder_hex
from lpv.forms.fields import Block, Choice, Course, Number, Word
from lpv.forms.form import Calculator, Limit, Output, Rows, Steps
from lpv.path.profile import (
    barometric_path_height_ft,
    flat_path_height_ft,
    straight_path_distance_nm,
    straight_path_height_ft,
)

COURSE_DEG = value("limit_course_resolve_deg")
EXAMPLE_BLOCK = "000B011A1A09000001393017" + "70AB990EF0C877C0B713284AFF0D860308022C016B00C8AF711464CC"
HOLDS = {True: "fits", False: "does not fit", None: "cannot be told"}


def _path_altitude(
    distance_nm: float, altitude_ft: float, threshold_elevation_ft: float, tch_ft: float, gpa_deg: float,
) -> "dict[str, float | None]":
    path = threshold_elevation_ft, tch_ft, gpa_deg
    straight_ft = straight_path_height_ft(distance_nm, *path)
    barometric_ft = barometric_path_height_ft(distance_nm, *path)
    return {
        "straight_ft": straight_ft, "barometric_ft": barometric_ft, "excess_ft": straight_ft - barometric_ft,
        "flat_ft": flat_path_height_ft(distance_nm, *path), "met_nm": _distance_nm(altitude_ft, path),
    }


def _distance_nm(altitude_ft: float, path: "tuple[float, float, float]") -> "float | None":
    try:
        return straight_path_distance_nm(altitude_ft, *path)
    except DomainError:
        return None


def _course(
    true_course_deg: float, variation_deg: float, side: str, charted_course_deg: float, distance_nm: float,
) -> "dict[str, float | str]":
    east_deg = variation_deg if side == "E" else -variation_deg
    magnetic = magnetic_deg(true_course_deg, east_deg)
    off_deg = course_difference_deg(magnetic, charted_course_deg)
    return {
        "magnetic": course_digits(magnetic, 0.1) + "°",
        "difference_deg": abs(off_deg),
        "aside_ft": cross_track(distance_nm * FT_PER_NM, off_deg),
    }


def _identity(channel: float, path_id: str, sbas_provider: str, runway_number: float) -> "dict[str, str]":
    lowest, highest = value("sbas_channel_lowest"), value("sbas_channel_highest")
    inside = identity.is_sbas_channel(int(channel)) and channel == int(channel)
    fits = identity.path_id_fits(path_id, int(sbas_provider), int(runway_number))
    return {
        "channel_says": "can be an SBAS channel" if inside
        else f"no SBAS channel: those are {quantity(lowest, '')} to {quantity(highest, '')}",
        "fits": "contradicts nothing" if fits else "does not fit: see the table",
    }


def _identity_rows(
    channel: float, path_id: str, sbas_provider: str, runway_number: float,
) -> "list[tuple[str, str, str, str]]":
    parts = identity.path_id_parts(path_id, int(sbas_provider), int(runway_number))
    return [(part.part, part.actual, part.expected or "not known", HOLDS[part.holds]) for part in parts]


def _data_block(block: str) -> "dict[str, str | tuple[str, str]]":
    stored, computed = stored_remainder_hex(block), remainder_hex(block)
    agrees = stored == computed
    words = "The block is damaged or altered: do not use it, and get it again from its source."
    return {
        "verdict": ("agrees" if agrees else "does not agree", "" if agrees else words),
        "stored": stored, "computed": computed,
    }


def _data_block_rows(block: str) -> "list[tuple[str, str, str]]":
    names = {row.name: row.what for row in LAYOUT}
    return [
        (names.get(name, name), stored_hex(block, first, last), show_field(name, raw, coded, unit))
        for name, first, last, raw, coded, unit in fields(block)
    ]


def _provider_options() -> "tuple[tuple[str, str], ...]":
    return tuple([
        (str(row.number), f"{row.number}: {row.name or 'not assigned'}") for row in identity.providers()
    ])


CALCULATORS = (
    Calculator(
        "path-altitude", "altitude against distance", "How high is the glidepath, and where is it at an altitude?",
        _path_altitude,
        inputs=(
            DISTANCE,
            Number("altitude_ft", "Altitude", "ft", -1500, 20000, 10, 2000, "approach.pfaf_altitude_ft"),
            THRESHOLD, CROSSING, ANGLE,
        ),
        outputs=(
            Output("straight_ft", "SBAS glidepath at this distance", "ft", short="SBAS glidepath"),
            Output("barometric_ft", "Barometric path at this distance", "ft", short="barometric"),
            Output("excess_ft", "SBAS above barometric", "ft", signed=True),
            Output("flat_ft", "Over a flat earth", "ft"),
            Output(
                "met_nm", "SBAS path at this altitude", "NM", 0.01,
                sides=("before the threshold", "behind the threshold"), absent="nowhere: it is never so low",
            ),
        ),
        sentence="{distance_nm} before the threshold the SBAS glidepath is at {straight_ft}.",
        table=Steps("distance_nm", ("straight_ft", "barometric_ft"), 5, 2, step=1.0, header="Distance"),
        remarks="Altitudes above mean sea level on a standard day; in cold and heat the altimeter reads differently.",
    ),
    Calculator(
        "course", "course and variation", "What is the magnetic course, and how far is it from the chart's?",
        _course,
        inputs=(
            Course("true_course_deg", "True course", 0.1, 90, "approach.true_course_deg"),
            Number("variation_deg", "Variation", "deg", 0, 180, 0.1, 0, "approach.variation_deg"),
            Choice("side", "Variation to the", (("E", "east"), ("W", "west")), "E", "approach.variation_side"),
            Course("charted_course_deg", "Magnetic course charted or shown", 1, 90,
                   "approach.magnetic_course_deg"),
            Number("distance_nm", "Distance flown on the charted course", "NM", 0, 50, 1, 5),
        ),
        outputs=(
            Output("magnetic", "Magnetic course"),
            Output(
                "difference_deg", "Difference from the charted course", "deg", 0.1, short="from the chart",
                limits=(Limit("over", COURSE_DEG + 1e-6,
                              f"More than {quantity(COURSE_DEG, 'deg')}: find the reason before you fly it."),),
            ),
            Output("aside_ft", "Offset on the charted course", "ft", 10, sides=("to the right", "to the left")),
        ),
        sentence="True {true_course_deg} with a variation of {variation_deg} {side} is {magnetic} magnetic.",
        facts=("limit_course_resolve_deg",),
        table=Steps("variation_deg", ("magnetic", "difference_deg"), 2, 2, step=1.0),
        remarks="The result depends on the variation: that of record, or today's.",
    ),
    Calculator(
        "identity", "channel and path identifier", "Can this be the channel, and does the identifier fit?", _identity,
        inputs=(
            Number("channel", "Channel", "", 0, 99999, 1, 99901, "approach.channel"),
            Word("path_id", "Path identifier", 6, "W09A", "approach.path_id"),
            Choice("sbas_provider", "SBAS provider of the block", _provider_options(), "0", "approach.sbas_provider"),
            Number("runway_number", "Runway number", "", 0, 36, 1, 9, "approach.runway_number"),
        ),
        outputs=(Output("channel_says", "The channel"), Output("fits", "The identifier")),
        sentence="Channel {channel}: {channel_says}. Identifier {path_id}: {fits}.",
        facts=(
            "sbas_channel_lowest", "sbas_channel_highest", "reference_path_id_characters",
            "reference_path_id_barred_letters",
        ),
        table=Rows(("Part", "Found", "Expected", "It"), _identity_rows),
        remarks="Letters and structure of the identifier are from memory. A fit does not prove that they belong "
        "to this runway: compare them with the chart.",
    ),
    Calculator(
        "data-block", "data block decoder", "What is in a data block, and does its remainder agree?", _data_block,
        inputs=(Block("block", "Data block in hex", BLOCK_BYTES, EXAMPLE_BLOCK, "approach.block"),),
        outputs=(
            Output("verdict", "The remainder"),
            Output("stored", "Stored"),
            Output("computed", "Computed from the fields"),
        ),
        sentence="The remainder {verdict}: {stored} stored, {computed} computed.",
        facts=("fas_crc_polynomial_hex",),
        table=Rows(("Field", "As stored", "Means"), _data_block_rows),
        remarks="A matching remainder proves that nothing changed since it was made, not that this is the right "
        "block.",
    ),
)
