"""What a go-around, a landing and the removal of power leave set, by type; where the selector outlives the power."""

from lpv.aircraft.record import read_all
from lpv_site.department.data import DOCS
from lpv_site.pages.mode_tables import left_table, power_told
from lpv_site.text.shown import Shown
from lpv_site.text.text import escape

MAX_TYPES = 3


def show() -> Shown:
    """A table for each of the first types, and a sentence about power for all of them."""
    jets = read_all(DOCS / "aircraft")
    tables = [
        f"{escape(jet.type.name)}, an SBAS approach flown with a localizer tuned:\n\n{left_table(jet.rules)}"
        for jet in jets[:MAX_TYPES]
    ]
    return Shown("\n".join([*tables, power_told([(escape(jet.type.name), jet.rules) for jet in jets])]))
