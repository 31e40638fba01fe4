"""What a tuned localizer does in each type, with SBAS selected and not."""

from lpv.aircraft.record import read_all
from lpv.modes.selection import tuned_effect
from lpv.modes.ways import shown_unselected
from lpv_site.department.data import DOCS
from lpv_site.text.shown import Shown
from lpv_site.text.table import stacked
from lpv_site.text.text import escape

MAX_TYPES = 3


def show() -> Shown:
    """A card for each of the first types."""
    return Shown(stacked(
        (
            escape(jet.type.name),
            [
                ("source control", jet.rules.source_control),
                ("tuned, SBAS selected", f"<b>{tuned_effect(jet.rules)}</b>"),
                ("tuned, SBAS not selected", f"<b>{shown_unselected(jet.rules)}</b> is shown"),
                ("after power removal", f"frequencies {jet.rules.tuning_after_power}"),
            ],
        )
        for jet in read_all(DOCS / "aircraft")[:MAX_TYPES]
    ))
