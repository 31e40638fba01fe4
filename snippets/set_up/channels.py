"""Which frequencies are localizer channels, by whole megahertz."""

from lpv.core.text import number
from lpv.facts import value
from lpv.setup.radio import localizer_channels
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import ALL_LEFT, table

STEP_MHZ = 0.01


def show() -> Shown:
    """A row for each whole megahertz."""
    channels = localizer_channels()
    by_megahertz: dict[str, list[str]] = {}
    for mhz in channels:
        megahertz, _, decimals = number(mhz, STEP_MHZ).partition(".")
        by_megahertz.setdefault(megahertz, []).append("." + decimals)
    rows = [(f"**{whole}**", " ".join(decimals)) for whole, decimals in by_megahertz.items()]
    beyond = int(max(channels)) + 1
    rows.append((f"**{beyond} to {number(value('vor_highest_mhz'))}**", "none: all of these are VOR"))
    count = Value(float(len(channels)), "", str(len(channels)))
    return Shown(table(["MHz", "localizer channels"], rows, left=ALL_LEFT), {"count": count})
