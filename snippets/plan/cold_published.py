"""The manual's worked example of a cold airport against the table and the formulas."""

from lpv.air.altimetry import hundred_up_ft, nearest_hundred_ft, table_interpolated_ft
from lpv_site.checks.checks import results
from lpv_site.pages.reference_pages import source_text
from lpv_site.text.table import table
from lpv_site.text.text import number, quantity

found = {result.case.id: result for result in results()}
stated, read = found["aim-cold-example"], found["cold-interpolated-2994"]
formula, exact = found["cold-short-3206-2994"], found["cold-log-3206-2994"]
height_ft, temperature_c = (stated.case.arguments[key] for key in ("height_ft", "temperature_c"))
rows = [
    ("the manual states", number(stated.case.expected), stated.case.status),
    ("table, interpolated", number(read.computed), "computed here"),
    ("to the nearest hundred", number(nearest_hundred_ft(read.computed)), "computed here"),
    ("short formula, that elevation", number(formula.computed), "computed here"),
    ("logarithmic formula, iterated", number(exact.computed), "computed here"),
]
print(
    f"KMSO: {quantity(height_ft, 'ft')} above the airport at {quantity(temperature_c, '°C')}; "
    f"{source_text(stated.case.source)}, {stated.case.place}:\n"
)
print(table(["addition to the FAF and outward", "ft", "whose"], rows))
column_ft = table_interpolated_ft(5000.0, float(temperature_c))
values = {
    "column": quantity(column_ft, "ft"),
    "up": quantity(hundred_up_ft(column_ft), "ft"),
    "formula": quantity(formula.computed, "ft"),
    "table": quantity(read.computed, "ft"),
}
