"""What follows what in the first type: every change of a mode that its rules can make."""

from lpv_site.department.data import example_aircraft
from lpv_site.pages.mode_tables import follows_table
from lpv_site.text.shown import Shown, Value
from lpv_site.text.text import escape


def show() -> Shown:
    jet = example_aircraft()
    exploration, name = jet.exploration, escape(jet.type.name)
    text = f"{name}, out of all {exploration.states} states that it can get into:\n\n{follows_table(exploration)}"
    return Shown(text, {"states": Value(exploration.states, "", str(exploration.states)), "name": name})
