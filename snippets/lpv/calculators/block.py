"""The fields of a data block as a reader reads them: positions in degrees, minutes and seconds, to the last step."""

from lpv.core.text import latitude, longitude, quantity
from lpv.core.units import ARCSEC_PER_DEG
from lpv.fas.layout import ARCSEC_PER_STEP, LAYOUT, TCH_IN_M

FINEST_S = 0.0001  # holds a step of 0.0005 seconds exactly
POSITIONS = {"ltp_latitude_deg": latitude, "ltp_longitude_deg": longitude}
STEPS = {row.name: 1.0 / row.per_unit for row in LAYOUT}
NOTHING = "nothing"


def stored_hex(block: str, first: int, last: int) -> str:
    """The bytes from `first` to `last` (counted from 0) of a block in hex, in pairs."""
    return " ".join([block[2 * place : 2 * place + 2] for place in range(first, last + 1)])


def show_field(name: str, raw: int, value: "int | float | str", unit: str) -> str:
    """What a field means, with its unit (`lpv.fas.codec.fields` gives the arguments)."""
    if name in POSITIONS:
        return POSITIONS[name](raw * ARCSEC_PER_STEP / ARCSEC_PER_DEG, FINEST_S)
    if name.startswith("delta"):
        return quantity(raw * ARCSEC_PER_STEP, "″", FINEST_S)
    if isinstance(value, str):
        return value or NOTHING
    step = 1.0 / TCH_IN_M.per_unit if name == "tch" and unit == "m" else STEPS[name]
    return quantity(value, unit, step)
