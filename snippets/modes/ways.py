"""The shortest way from each loss inside the PFAF back to captured SBAS guidance, else to a missed approach."""

from lpv.core.spoken import spoken
from lpv.modes.rules import Rules
from lpv.modes.ways import LOSSES, way_back
from lpv_site.department.data import aircraft
from lpv_site.text.shown import Shown
from lpv_site.text.table import ALL_LEFT, table
from lpv_site.text.text import escape

NAMES = {LOSSES[0]: "SBAS deselected"}


def show() -> Shown:
    types = aircraft()[:3]
    rows = [(NAMES.get(loss, loss), *[way(loss, jet.rules) for jet in types]) for loss in LOSSES]
    return Shown(table(["lost by", *[escape(jet.type.name) for jet in types]], rows, left=ALL_LEFT))


def way(loss: str, rules: Rules) -> str:
    kind, events = way_back(loss, rules)
    return ",<br>".join(map(spoken, events)) if events else kind
