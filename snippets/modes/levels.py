"""The level of service announced at activation, by what SBAS supports then, for up to three types."""

from lpv.modes.rules import LEVELS
from lpv.modes.state import level_at_activation
from lpv_site.department.data import aircraft
from lpv_site.text.shown import Shown
from lpv_site.text.table import ALL_LEFT, table
from lpv_site.text.text import escape


def show() -> Shown:
    types = aircraft()[:3]
    rows = [
        (_broken(level),
         *[f"**{_broken(level_at_activation(level, jet.rules.best_level, jet.rules.baro_vnav))}**" for jet in types])
        for level in LEVELS
    ]
    return Shown(table(["SBAS supports", *[escape(jet.type.name) for jet in types]], rows, left=ALL_LEFT))


def _broken(level: str) -> str:
    """A name that may break after its slash, for narrow columns."""
    return level.replace("/", "/<wbr>")
