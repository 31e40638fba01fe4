"""Every change of the level of service, before and inside the PFAF, for up to three types."""

from lpv.modes.levels import level_changes
from lpv_site.department.data import aircraft
from lpv_site.pages.mode_tables import levels_table
from lpv_site.text.shown import Shown, Value
from lpv_site.text.text import escape


def show() -> Shown:
    types = aircraft()[:3]
    text = "".join(f"{escape(jet.type.name)}:\n\n{levels_table(jet.rules)}\n" for jet in types)
    by_itself = [jet for jet in types if any(change.by_itself for change in level_changes(jet.rules))]
    return Shown(text, {"by_itself": Value(len(by_itself), "", str(len(by_itself)))})
