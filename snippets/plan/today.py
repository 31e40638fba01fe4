"""The data cycle of today, by the device's own clock: its rows are worked out here, the page only picks one."""

from lpv.core import airac
from lpv_site.department.data import example
from lpv_site.text.shown import Shown
from lpv_site.text.text import verbatim

COUNT = 66  # five years from the example's cycle on


def show() -> Shown:
    """A line for the page to complete: without scripts it names the cycle of the approaches shown."""
    cycles = airac.following(example().identity.cycle, COUNT)
    first = cycles[0]
    rows = " ".join(f"{cycle.ident}/{airac.iso(cycle.effective)}/{airac.iso(cycle.expiry - 1)}" for cycle in cycles)
    return Shown(
        f'<div class="hb-today" data-cycles="{verbatim(rows)}"><strong>Cycle {first.ident}</strong>, that of the '
        f"approaches shown here: from {airac.iso(first.effective)} until {airac.iso(first.expiry - 1)}.</div>\n"
    )
