"""Calculators for planning: cold temperature and the data cycle."""

from lpv.air.altimetry import (
    HIGHEST_COLUMN_FT,
    logarithmic_correction_ft,
    minimum_addition_ft,
    segment_addition_ft,
    true_height_ft,
)
from lpv.core import airac
from lpv.core.errors import DomainError
from lpv.core.text import quantity
from lpv.forms.fields import Day, Number, Word
from lpv.forms.form import Calculator, NoAnswer, Output, Rows, Steps

CYCLES_LISTED = 5


def _cold(altitude_ft: float, aerodrome_elevation_ft: float, temperature_c: float) -> "dict[str, float | None]":
    height_ft = altitude_ft - aerodrome_elevation_ft
    if height_ft < 0.0:
        raise NoAnswer("The altitude is below the airport; allowed: at its elevation or above.")
    segment_ft = segment_addition_ft(height_ft, temperature_c)
    low = height_ft <= HIGHEST_COLUMN_FT
    minimum_ft = minimum_addition_ft(height_ft, temperature_c) if low else None
    return {
        "segment_altitude_ft": altitude_ft + segment_ft, "segment_ft": segment_ft,
        "minimum_altitude_ft": None if minimum_ft is None else altitude_ft + minimum_ft, "minimum_ft": minimum_ft,
        "formula_ft": logarithmic_correction_ft(height_ft, temperature_c, aerodrome_elevation_ft),
        "true_height_ft": true_height_ft(height_ft, temperature_c, aerodrome_elevation_ft),
        "height_ft": height_ft,
    }


def _cycle(day: float, ident: str) -> "dict[str, float | str]":
    try:
        current, loaded = airac.cycle_at(int(day)), airac.cycle(ident)
    except DomainError as error:
        raise NoAnswer(str(error)) from None
    if loaded.ident == current.ident:
        in_force = "in force"
    elif day < loaded.effective:
        in_force = f"not yet in force: from {airac.iso(loaded.effective)}"
    else:
        in_force = f"out of date since {airac.iso(loaded.expiry)}"
    return {
        "cycle": current.ident, "held": in_force, "first": airac.iso(current.effective),
        "last": airac.iso(current.expiry - 1), "left_days": current.expiry - day,
    }


def _calendar(day: float, ident: str) -> "list[tuple[str, str, str]]":
    first = airac.cycle_at(int(day)).effective
    days = [first + count * airac.CYCLE_DAYS for count in range(CYCLES_LISTED)]
    cycles = [airac.cycle_at(start) for start in days if start <= airac.LAST_ORDINAL]
    return [(cycle.ident, airac.iso(cycle.effective), airac.iso(cycle.expiry - 1)) for cycle in cycles]


TOO_HIGH = f"not given more than {quantity(HIGHEST_COLUMN_FT, 'ft')} above the aerodrome"

CALCULATORS = (
    Calculator(
        "cold", "cold temperature addition", "What does cold add to a published altitude?", _cold,
        inputs=(
            Number("altitude_ft", "Published altitude", "ft", -1000, 13000, 100, 2000, "approach.pfaf_altitude_ft"),
            Number("aerodrome_elevation_ft", "Aerodrome elevation", "ft", -1000, 12000, 1, 0,
                   "approach.airport_elevation_ft"),
            Number("temperature_c", "Temperature at the airport", "deg C", -50, 50, 1, -20, "day.temperature_c"),
        ),
        outputs=(
            Output("segment_altitude_ft", "Altitude to fly on a segment", "ft"),
            Output("segment_ft", "Added on a segment", "ft", short="segment"),
            Output("minimum_altitude_ft", "As a DA or MDA: set", "ft", absent=TOO_HIGH),
            Output("minimum_ft", "Added to a minimum", "ft", absent="not given", short="minimum"),
            Output("formula_ft", "By the logarithmic formula", "ft", signed=True, short="formula"),
            Output("height_ft", "Published height above the airport", "ft"),
            Output("true_height_ft", "True height with nothing added", "ft"),
        ),
        sentence="At {temperature_c} a published {altitude_ft} becomes {segment_altitude_ft} on a segment.",
        facts=("cold_table_step_ft", "cold_segment_step_ft"),
        table=Steps("temperature_c", ("segment_ft", "minimum_ft", "formula_ft"), step=10.0, header="adds at"),
        remarks="United States (FAA): the table's value, for a segment to the nearest hundred, for a minimum never "
        "rounded down. The table is made for an airport at sea level.",
    ),
    Calculator(
        "cycle", "data cycle of a date", "Which data cycle is in force on a date, and is mine current?", _cycle,
        inputs=(
            Day("day", "Date", "2026-11-26", "approach.effective"),
            Word("ident", "Cycle of the database", 4, "2612", "approach.cycle"),
        ),
        outputs=(
            Output("cycle", "Cycle in force"),
            Output("held", "Your database"),
            Output("first", "First day"),
            Output("last", "Last day"),
            Output("left_days", "Days until the next cycle"),
        ),
        sentence="On {day} cycle {cycle} is in force; your database, cycle {ident}, is {held}.",
        facts=("airac_reference_date", "airac_cycle_days"),
        table=Rows(("Cycle", "First day", "Last day"), _calendar),
        remarks="On the day of the change, the new cycle is the one in force.",
    ),
)
