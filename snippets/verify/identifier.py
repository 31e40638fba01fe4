"""The example's path identifier taken apart."""

from lpv.fas.identity import path_id_parts
from lpv_site.department.data import example
from lpv_site.text.shown import Shown
from lpv_site.text.table import ALL_LEFT, table
from lpv_site.text.text import escape

WORDS = {True: "fits", False: "does not fit", None: "cannot be told"}


def show() -> Shown:
    """A row for each part."""
    approach = example()
    segment = approach.segment
    parts = path_id_parts(approach.identity.path_id, segment.sbas_provider, segment.runway_number)
    rows = [(part.part, escape(part.actual), f"{escape(part.expected)} ({WORDS[part.holds]})", part.status)
            for part in parts]
    head = f"`{escape(approach.identity.path_id)}` of {escape(approach.identity.airport)}, part by part:"
    return Shown(f"{head}\n\n{table(['part', 'found', 'expected', 'rule rests on'], rows, left=ALL_LEFT)}")
