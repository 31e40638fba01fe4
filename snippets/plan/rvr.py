"""Runway visual range in miles, beside the lines of minima: the table of what can be seen at the DA."""

from decide import rvr
from lpv_site.text.shown import Shown


def show() -> Shown:
    """The table alone."""
    return Shown(rvr.show().markdown)
