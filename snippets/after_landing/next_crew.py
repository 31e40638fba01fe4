"""The state left behind against what the next crew sees that touches neither selector nor radios."""

from textwrap import indent

from lpv.aircraft.record import read_all
from lpv_site.department.data import DOCS
from lpv_site.pages.mode_tables import next_crew_table
from lpv_site.text.shown import Shown
from lpv_site.text.text import escape

MAX_TYPES = 3


def show() -> Shown:
    """The first type's table, and those of two more folded."""
    first, *others = [(escape(jet.type.name), next_crew_table(jet.rules))
                      for jet in read_all(DOCS / "aircraft")[:MAX_TYPES]]
    folded = [f'??? note "{name}"\n\n{indent(text, "    ")}\n' for name, text in others]
    return Shown("\n".join([f"{first[0]}:\n\n{first[1]}", *folded]))
