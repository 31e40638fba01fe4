"""Every change of the level of service, before and inside the PFAF: as the FAA describes it, and in three types."""

from lpv.modes.levels import as_the_faa_describes, level_changes
from lpv_site.department.data import aircraft
from lpv_site.pages.mode_tables import levels_table
from lpv_site.text.shown import Shown, Value
from lpv_site.text.text import escape


def show() -> Shown:
    types = aircraft()[:3]
    by_itself = [jet for jet in types if any(change.by_itself for change in level_changes(jet.rules))]
    faa = levels_table(as_the_faa_describes())
    text = f"As the FAA describes a receiver:\n\n{faa}\n"
    for jet in types:
        of_type = levels_table(jet.rules)
        text += f"{escape(jet.type.name)}: " + ("the same in every row.\n\n" if of_type == faa else f"\n\n{of_type}\n")
    return Shown(text, {"by_itself": Value(len(by_itself), "", str(len(by_itself)))})
