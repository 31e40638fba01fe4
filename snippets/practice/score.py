"""How many drills of each kind are done and right on this device."""

from lpv_site.pages.drill_choices import ASKED, score_box
from lpv_site.text.shown import Shown


def show() -> Shown:
    """The box that the page's script fills."""
    return Shown(score_box(list(ASKED)))
