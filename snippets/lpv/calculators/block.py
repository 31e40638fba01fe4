"""The fields of a data block as a reader reads them: positions in degrees, minutes and seconds, to the last step."""

from lpv.core.text import quantity
from lpv.fas.layout import ARCSEC_PER_STEP, LAYOUT, TCH_IN_M

STEPS_PER_SECOND = round(1.0 / ARCSEC_PER_STEP)
HEMISPHERES = {"ltp_latitude_deg": "NS", "ltp_longitude_deg": "EW"}
STEPS = {row.name: 1.0 / row.per_unit for row in LAYOUT}
NOTHING = "nothing"


def stored_hex(block: str, first: int, last: int) -> str:
    """The bytes from `first` to `last` (counted from 0) of a block in hex, in pairs."""
    return " ".join([block[2 * place : 2 * place + 2] for place in range(first, last + 1)])


def show_field(name: str, raw: int, value: "int | float | str", unit: str) -> str:
    """What a field means, with its unit (`lpv.fas.codec.fields` gives the arguments)."""
    if name in HEMISPHERES:
        return position(raw, HEMISPHERES[name])
    if name.startswith("delta"):
        return ("\u2212" if raw < 0 else "") + seconds(abs(raw))
    if isinstance(value, str):
        return value or NOTHING
    step = 1.0 / TCH_IN_M.per_unit if name == "tch" and unit == "m" else STEPS[name]
    return quantity(value, unit, step)


def position(steps: int, hemispheres: str) -> str:
    """A latitude or longitude in steps of the block: "N34 01 15.9605"."""
    minutes, rest = divmod(abs(steps), 60 * STEPS_PER_SECOND)
    degrees, minutes = divmod(minutes, 60)
    width = 2 if hemispheres == "NS" else 3
    return f"{hemispheres[1 if steps < 0 else 0]}{_padded(degrees, width)} {_padded(minutes, 2)} {_decimal(rest, 2)}"


def seconds(steps: int) -> str:
    """A difference in steps of the block as arc seconds: "12.3450″"."""
    return _decimal(steps, 1) + "″"


def _decimal(steps: int, width: int) -> str:
    whole, part = divmod(steps, STEPS_PER_SECOND)
    return f"{_padded(whole, width)}.{_padded(part * (10000 // STEPS_PER_SECOND), 4)}"


def _padded(number: int, width: int) -> str:
    text = str(number)
    return "0" * (width - len(text)) + text
