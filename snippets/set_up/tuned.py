"""What a tuned localizer does in each type, with the source selector on and off."""

from lpv.aircraft.record import read_all
from lpv_site.department.data import DOCS
from lpv_site.text.shown import Shown
from lpv_site.text.table import stacked
from lpv_site.text.text import escape

MOST_TYPES = 3


def show() -> Shown:
    """A card for each of the first types."""
    return Shown(stacked(
        (
            escape(jet.type.name),
            [
                ("source selector", jet.rules.selector),
                ("tuned, selector on", f"<b>{jet.rules.localizer_with_selector_on}</b>"),
                ("tuned, selector off", f"<b>{jet.rules.selector_off_shows}</b> is shown"),
                ("after power removal", f"frequencies {jet.rules.tuning_after_power}"),
            ],
        )
        for jet in read_all(DOCS / "aircraft")[:MOST_TYPES]
    ))
