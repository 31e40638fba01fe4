"""The manual's worked example of a cold airport against the table and the formulas."""

from lpv.air.altimetry import HIGHEST_COLUMN_FT, hundred_up_ft, nearest_hundred_ft, table_interpolated_ft
from lpv.core.text import number, quantity
from lpv_site.checks.check_table import source_text
from lpv_site.checks.checks import load_cases, run
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table

IDS = ("aim-cold-example", "cold-interpolated-2994", "cold-short-3206-2994", "cold-log-3206-2994")


def show() -> Shown:
    """A table of five readings of the same addition; values: table, formula, and the last column."""
    cases = {case.id: case for case in load_cases() if case.id in IDS}
    stated = cases[IDS[0]]
    read_ft, formula_ft, exact_ft = (float(run(cases[name]).computed) for name in IDS[1:])
    height_ft, temperature_c = stated.arguments["height_ft"], float(stated.arguments["temperature_c"])
    column_ft = table_interpolated_ft(HIGHEST_COLUMN_FT, temperature_c)
    rows = [
        ("the manual states", number(stated.expected), stated.status),
        ("table, interpolated", number(read_ft), "computed here"),
        ("to the nearest hundred", number(nearest_hundred_ft(read_ft)), "computed here"),
        ("short formula, that elevation", number(formula_ft), "computed here"),
        ("logarithmic formula, iterated", number(exact_ft), "computed here"),
    ]
    head = (f"KMSO: {quantity(height_ft, 'ft')} above the airport at {quantity(temperature_c, '°C')}; "
            f"{source_text(stated.source)}, {stated.place}:")
    values = {"table": read_ft, "formula": formula_ft, "column": column_ft, "up": hundred_up_ft(column_ft)}
    return Shown(f"{head}\n\n{table(['addition to the FAF and outward', 'ft', 'whose'], rows)}",
                 {key: Value.of(feet, "ft") for key, feet in values.items()})
