"""What an object store must keep with each kind of file."""

from lpv_site.build.hosting import KINDS
from lpv_site.text.shown import Shown
from lpv_site.text.table import ALL_LEFT, table


def show() -> Shown:
    """A table of addresses with their type and how long they may be kept."""
    rows = [(f"`{address}`", f"`{kind}`", f"`{keep}`") for address, kind, keep in KINDS]
    return Shown(table(["address", "Content-Type", "Cache-Control"], rows, left=ALL_LEFT))
