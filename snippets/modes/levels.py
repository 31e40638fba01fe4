"""The level of service announced at activation, by what SBAS supports then, for up to three types."""

from lpv.aircraft.record import read_all
from lpv.modes.state import level_at_activation
from lpv_site.department.data import DOCS
from lpv_site.text.table import table
from lpv_site.text.text import escape

types = read_all(DOCS / "aircraft")[:3]
SIGNALS = {"course and path": "full", "course only": "lateral only", "neither": "none"}
rows = [
    (words, *[f"**{level_at_activation(signal, jet.rules.best_level, jet.rules.baro_vnav)}**" for jet in types])
    for words, signal in SIGNALS.items()
]
print(table(["SBAS supports", *[escape(jet.type.name) for jet in types]], rows, left=1 + len(types)))
