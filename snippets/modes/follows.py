"""What follows what in the first type: every change of a mode that its rules can make."""

from lpv.aircraft.record import read_all
from lpv_site.department.data import DOCS
from lpv_site.pages.mode_tables import follows_table
from lpv_site.text.text import escape

jet = read_all(DOCS / "aircraft")[0]
found = jet.exploration
print(f"{escape(jet.type.name)}, out of all {found.states} states that it can get into:\n")
print(follows_table(found))
values = {"states": str(found.states), "name": escape(jet.type.name)}
