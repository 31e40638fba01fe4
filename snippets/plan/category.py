"""The approach categories at their edges, the demo aircraft, and what a higher speed does."""

from lpv.aircraft.record import read_all
from lpv.decide.category import CATEGORIES, LOWEST_SPEEDS_KT, category_to_use
from lpv_site.department.data import DOCS
from lpv_site.text.table import table
from lpv_site.text.text import escape, quantity

edges = [None, *LOWEST_SPEEDS_KT, None]
rows = []
for number, letter in enumerate(CATEGORIES):
    low, high = edges[number], edges[number + 1]
    parts = ([quantity(low, "kt") + " or more"] if low else []) + ([f"under {quantity(high, 'kt')}"] if high else [])
    rows.append((f"**{letter}**", ", ".join(parts)))
print(table(["category", "VREF at maximum landing weight"], rows))
print("Flown faster than the category allows, the higher one counts:\n")
FASTER_KT = (15.0, 30.0)
rows = []
for aircraft in read_all(DOCS / "aircraft"):
    vref_kt, letter = aircraft.vref_kt(aircraft.landing.max_weight_lb), aircraft.type.category
    faster = [(speed, category_to_use(letter, speed)) for speed in (vref_kt + more for more in FASTER_KT)]
    rows.append(
        (escape(aircraft.type.name), f"**{letter}**<br>{quantity(vref_kt, 'kt')}",
         *(f"**{used}**<br>{quantity(speed, 'kt')}" for speed, used in faster))
    )
print(table(["aircraft", "at VREF", *(f"{quantity(more, 'kt')} more" for more in FASTER_KT)], rows))
