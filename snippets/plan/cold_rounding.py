"""How a table value is rounded: for a segment, and for a DA or MDA."""

from lpv.air.altimetry import (
    HIGHEST_COLUMN_FT,
    hundred_up_ft,
    minimum_addition_ft,
    nearest_hundred_ft,
    table_addition_ft,
)
from lpv.core.text import number, quantity
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table

TEMPERATURE_C = -30.0
HEIGHTS_FT = (300.0, 700.0, 1500.0, 2200.0, HIGHEST_COLUMN_FT)


def show() -> Shown:
    """A table by height above the airport; value: the highest column of the manual's table."""
    rows = [_row(height_ft) for height_ft in HEIGHTS_FT]
    head = f"At {quantity(TEMPERATURE_C, '°C')}, in ft:"
    columns = ["above the airport", "a segment: nearest or up", "a DA or MDA: as it is"]
    return Shown(f"{head}\n\n{table(columns, rows)}", {"column": Value.of(HIGHEST_COLUMN_FT, "ft")})


def _row(height_ft: float) -> tuple[str, str, str]:
    value_ft = table_addition_ft(height_ft, TEMPERATURE_C)
    nearest, up = number(nearest_hundred_ft(value_ft)), number(hundred_up_ft(value_ft))
    return number(height_ft), f"{nearest} or {up}", f"**{number(minimum_addition_ft(height_ft, TEMPERATURE_C))}**"
