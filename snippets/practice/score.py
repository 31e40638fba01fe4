"""How many drills of each grade are done and right on this device."""

from lpv_site.pages.drill_choices import score_box
from lpv_site.pages.drill_page import drills
from lpv_site.text.shown import Shown


def show() -> Shown:
    """The box that the page's script fills."""
    return Shown(score_box(drills()))
