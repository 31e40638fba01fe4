"""Channel and path identifier of each demo approach, and whether they can be what they say."""

from lpv.fas.identity import is_sbas_channel, path_id_fits
from lpv_site.department.data import examples
from lpv_site.text.shown import Shown
from lpv_site.text.table import ALL_LEFT, table
from lpv_site.text.text import escape


def show() -> Shown:
    """A row for each approach."""
    rows = []
    for approach in examples():
        who, segment = approach.identity, approach.segment
        fits = path_id_fits(who.path_id, segment.sbas_provider, segment.runway_number)
        rows.append((
            f"{escape(who.airport)}<br>{escape(who.title)}", f"**{who.channel}**", f"**{escape(who.path_id)}**",
            "possible" if is_sbas_channel(who.channel) and fits else "**impossible**",
        ))
    return Shown(table(["approach", "channel", "path identifier", "check"], rows, left=ALL_LEFT))
