"""The approach categories at their edges, the demo aircraft, and what a higher speed does."""

from lpv.aircraft.record import Aircraft
from lpv.core.text import quantity
from lpv.decide.category import CATEGORIES, LOWEST_SPEEDS_KT, category_to_use
from lpv_site.department.data import aircraft
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape

FASTER_KT = (15.0, 30.0)


def show() -> Shown:
    """Two tables: speeds of each category; the aircraft at VREF and faster.  Values: VREF of each aircraft."""
    edges = [None, *LOWEST_SPEEDS_KT, None]
    limits = [(f"**{letter}**", _range(*edges[place:place + 2])) for place, letter in enumerate(CATEGORIES)]
    flown = table(["aircraft", "at VREF", *(f"{quantity(more, 'kt')} more" for more in FASTER_KT)],
                  [_row(type_) for type_ in aircraft()])
    values = {f"{type_.slug} vref": Value.of(_vref_kt(type_), "kt") for type_ in aircraft()}
    return Shown(
        f"{table(['category', 'VREF at maximum landing weight'], limits)}\n"
        f"Flown faster than the category allows, the higher one counts:\n\n{flown}", values)


def _range(low_kt: float | None, high_kt: float | None) -> str:
    parts = [f"{quantity(low_kt, 'kt')} or more"] if low_kt else []
    return ", ".join(parts + ([f"under {quantity(high_kt, 'kt')}"] if high_kt else []))


def _vref_kt(type_: Aircraft) -> float:
    return type_.vref_kt(type_.landing.max_weight_lb)


def _row(type_: Aircraft) -> tuple[str, ...]:
    letter, vref_kt = type_.type.category, _vref_kt(type_)
    faster = [(vref_kt + more, category_to_use(letter, vref_kt + more)) for more in FASTER_KT]
    return (escape(type_.type.name), f"**{letter}**<br>{quantity(vref_kt, 'kt')}",
            *(f"**{used}**<br>{quantity(speed_kt, 'kt')}" for speed_kt, used in faster))
