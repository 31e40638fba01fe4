"""How a table value is rounded: for a segment, and for a DA or MDA."""

from lpv.air.altimetry import (
    HIGHEST_COLUMN_FT,
    hundred_up_ft,
    minimum_addition_ft,
    nearest_hundred_ft,
    table_addition_ft,
)
from lpv_site.text.table import table
from lpv_site.text.text import number, quantity

TEMPERATURE_C = -30.0
rows = []
for height_ft in (300.0, 700.0, 1500.0, 2200.0, HIGHEST_COLUMN_FT):
    value_ft = table_addition_ft(height_ft, TEMPERATURE_C)
    rows.append(
        (number(height_ft), f"{number(nearest_hundred_ft(value_ft))} or {number(hundred_up_ft(value_ft))}",
         f"**{number(minimum_addition_ft(height_ft, TEMPERATURE_C))}**")
    )
print(f"At {quantity(TEMPERATURE_C, '°C')}, in ft:\n")
print(table(["above the airport", "a segment: nearest or up", "a DA or MDA: as it is"], rows))
values = {"column": quantity(HIGHEST_COLUMN_FT, "ft")}
