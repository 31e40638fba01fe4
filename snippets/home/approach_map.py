"""The approach as the map of the handbook."""

from lpv_site.figures.approach_map import approach_map
from lpv_site.text.shown import Shown


def show() -> Shown:
    """The map."""
    return Shown(approach_map())
